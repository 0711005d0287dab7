"""`manage.py demo`: the port that it takes, and what it says when it cannot start."""

from __future__ import annotations

import socket
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import LazySettings
from django.core.management import CommandError, call_command

from buildlog.builds.management.commands import demo
from buildlog.builds.models import Build
from buildlog.workshops.models import Person


@pytest.fixture
def taken() -> Iterator[int]:
    """A port that somebody else holds."""
    with socket.socket() as other:
        other.bind((demo.HOST, 0))
        other.listen()
        yield other.getsockname()[1]


def test_a_taken_port_is_passed_over(taken: int) -> None:
    with socket.socket() as probe:
        probe.bind((demo.HOST, 0))
        free = probe.getsockname()[1]
    assert demo.free_port([taken, free]) == free


@pytest.mark.parametrize("port", [None, -1, 70000])
def test_a_port_that_cannot_be_had_is_said(taken: int, port: int | None, settings: LazySettings) -> None:
    settings.DEMO = True
    number = taken if port is None else port
    with pytest.raises(CommandError) as told:
        call_command("demo", port=number)
    assert str(told.value) == f"Port {number} is not free: name another with --port, from 1024 to 65535."


def test_it_refuses_to_sign_people_in_with_other_settings(settings: LazySettings) -> None:
    assert settings.DEMO is False
    with pytest.raises(
        CommandError, match="does not run with production settings: unset DJANGO_SETTINGS_MODULE"
    ):
        call_command("demo")


def test_a_data_folder_that_cannot_be_made_is_said(tmp_path: Path, settings: LazySettings) -> None:
    (tmp_path / "file").touch()
    settings.DEMO = True
    settings.DATA = tmp_path / "file" / "data"
    with pytest.raises(
        CommandError, match=r"^The database cannot be opened \(.*\): set ODDLEG_DATA to a folder"
    ):
        call_command("demo")


@pytest.mark.database
def test_it_makes_the_person_and_serves_on_the_port(
    monkeypatch: pytest.MonkeyPatch, tmp_path: Path, settings: LazySettings
) -> None:
    settings.DEMO = True
    settings.DATA = tmp_path / "data"
    served: list[int] = []
    monkeypatch.setattr(demo, "serve", served.append)
    monkeypatch.setattr(demo, "say_when_answering", lambda *_: None)
    port = demo.free_port(demo.PORTS)
    call_command("demo", port=port)
    assert served == [port]
    assert {person.name for person in Person.objects.all()} == {"Ines Hallam", "Rob Teasdale", "A visitor"}
    assert set(Build.rows.values_list("number", flat=True)) == {"TW-31", "TW-32", "TW-33"}
