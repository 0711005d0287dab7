"""The temporary file of an archive is closed however its answer ends."""

from __future__ import annotations

import tempfile
from typing import IO, Any

import pytest
from django.test import Client

from buildlog.builds.views import keeping
from buildlog.workshops.models import Person

pytestmark = pytest.mark.database

ZIP = "/workshops/thornbank-workshop/builds/TW-31/keeping/build.zip"


@pytest.fixture
def made(monkeypatch: pytest.MonkeyPatch) -> list[IO[bytes]]:
    """The temporary files that the view makes."""
    files: list[IO[bytes]] = []

    def make() -> IO[bytes]:
        files.append(tempfile.TemporaryFile())  # noqa: SIM115 (the view's own)
        return files[-1]

    monkeypatch.setattr(keeping, "TemporaryFile", make)
    return files


@pytest.mark.parametrize("in_memory", [0, keeping.IN_MEMORY])
@pytest.mark.parametrize("method", ["get", "head"])
@pytest.mark.parametrize("is_read", [True, False])
def test_it_is_closed_after_the_answer_whether_it_was_read_or_not(
    in_memory: int,
    method: str,
    is_read: bool,
    made: list[IO[bytes]],
    client: Client,
    demonstration: Person,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(keeping, "IN_MEMORY", in_memory)
    answer = getattr(client, method)(ZIP)
    if is_read:
        data = answer.getvalue()
        assert (data[:2] == b"PK") is (method == "get")
    answer.close()  # as a server does at the end of every answer
    assert [file.closed for file in made] == [True]


def test_it_is_closed_where_the_archive_cannot_be_written(
    made: list[IO[bytes]], client: Client, demonstration: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    def broken(*_: Any) -> None:
        raise OSError("no room")

    monkeypatch.setattr(keeping, "write_zip", broken)
    with pytest.raises(OSError, match="no room"):
        client.get(ZIP)
    assert [file.closed for file in made] == [True]
