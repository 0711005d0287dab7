"""Two people at the same moment, in threads with real transactions: nothing is lost, nothing breaks."""

from __future__ import annotations

import shutil
from collections.abc import Callable, Iterator
from datetime import date
from hashlib import sha256
from pathlib import Path
from threading import Barrier, Thread
from typing import Any

import pytest
from django.core.management import call_command
from django.db import OperationalError, connection
from django.test import Client

from buildlog.builds.actions import (
    Overtaken,
    begin_build,
    change_build,
    delete_build,
    fingerprint,
    redo,
    undo,
)
from buildlog.builds.models import Build, Change, Record
from buildlog.builds.queries import plain_of
from buildlog.journal.actions import write_entry
from buildlog.pictures.actions import keep_picture
from buildlog.pictures.models import Picture
from buildlog.pictures.reading import ReadPicture
from buildlog.workshops import actions as people
from buildlog.workshops.models import Invitation, Membership, Person, Role, Workshop
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.quantities.errors import InputError

pytestmark = [pytest.mark.database, pytest.mark.django_db(transaction=True)]

PASSWORD = "ash-and-elm-41"


@pytest.fixture(autouse=True)
def _a_database_for_threads(
    transactional_db: None, tmp_path: Path, tmp_path_factory: pytest.TempPathFactory
) -> Iterator[None]:
    """SQLite in memory locks otherwise than SQLite in a file: the tests of this file have a file."""
    if connection.vendor != "sqlite":
        yield
        return
    memory, name = connection.connection, connection.settings_dict["NAME"]
    connection.connection = None
    empty, file = tmp_path_factory.getbasetemp() / "migrated.sqlite3", tmp_path / "at-once.sqlite3"
    if not empty.exists():
        connection.settings_dict["NAME"] = str(empty)
        call_command("migrate", verbosity=0)
        connection.close()
    shutil.copyfile(empty, file)
    connection.settings_dict["NAME"] = str(file)
    try:
        yield
    finally:
        connection.close()
        connection.connection, connection.settings_dict["NAME"] = memory, name


@pytest.fixture
def ann() -> Person:
    return Person.objects.create_user("ann", password=PASSWORD, name="Ann Orr")


@pytest.fixture
def bo() -> Person:
    return Person.objects.create_user("bo", password=PASSWORD, name="Bo")


@pytest.fixture
def shed(ann: Person, bo: Person) -> Workshop:
    workshop = people.begin_workshop("Shed", ann)
    Membership.objects.create(workshop=workshop, person=bo, role=Role.OWNER)
    return workshop


@pytest.fixture
def box(shed: Workshop) -> Build:
    parts = tuple(plain.Component(f"P0{n}", f"part {n}") for n in (1, 2))
    return begin_build(shed, None, plain.Build("B-1", "Box", components=parts), "Begun")


def at_once(*calls: Callable[[], Any]) -> list[Any]:
    """Run the calls in threads that start together: what each returned, or the error that it raised."""
    came: list[Any] = [None] * len(calls)
    start = Barrier(len(calls))

    def run(index: int, call: Callable[[], Any]) -> None:
        try:
            start.wait(10)
            came[index] = call()
        except Exception as error:
            came[index] = error
        finally:
            connection.close()

    threads = [Thread(target=run, args=each) for each in enumerate(calls)]
    for thread in threads:
        thread.start()
    for thread in threads:
        thread.join(60)
    assert not any(thread.is_alive() for thread in threads)
    return came


def kinds(came: list[Any]) -> list[str]:
    return sorted(type(each).__name__ if isinstance(each, Exception) else "done" for each in came)


def renaming(mark: str, name: str) -> Callable[[plain.Build], plain.Build]:
    def edit(build: plain.Build) -> plain.Build:
        now = find(build, "component", mark)
        return put(build, "component", plain.Component(now.mark, name), key=mark)

    return edit


def test_changes_of_two_records_are_both_kept(box: Build, ann: Person, bo: Person) -> None:
    for turn in range(5):
        came = at_once(
            lambda turn=turn: change_build(box, ann, renaming("P01", f"ann {turn}"), "x"),
            lambda turn=turn: change_build(box, bo, renaming("P02", f"bo {turn}"), "y"),
        )
        assert kinds(came) == ["done", "done"], came
        now = plain_of(Build.rows.get(pk=box.pk))
        assert [one.name for one in now.components] == [f"ann {turn}", f"bo {turn}"]


def test_of_two_changes_of_one_record_the_second_is_told(box: Build, ann: Person, bo: Person) -> None:
    seen = fingerprint("component", plain_of(box).components[0])
    came = at_once(
        *(
            lambda who=who: change_build(
                box, who, renaming("P01", who.username), "x", seen={("component", "P01"): seen}
            )
            for who in (ann, bo)
        )
    )
    assert kinds(came) == ["Overtaken", "done"], came
    assert isinstance(next(each for each in came if isinstance(each, Exception)), Overtaken)


def test_one_number_is_given_once(shed: Workshop, ann: Person, bo: Person) -> None:
    came = at_once(
        *(lambda who=who: begin_build(shed, who, plain.Build("B-7", "Lid"), "x") for who in (ann, bo))
    )
    assert kinds(came) == ["InputError", "done"], came
    assert Build.rows.filter(number="B-7").count() == 1


def test_a_build_that_is_deleted_under_a_change_refuses_it_in_a_sentence(
    shed: Workshop, ann: Person, bo: Person
) -> None:
    for turn in range(8):
        parts = tuple(plain.Component(f"P{n}", "x") for n in range(40))
        row = begin_build(shed, None, plain.Build("B-9", "Box", components=parts), "Begun")
        rows = [Build.rows.get(pk=row.pk), Build.rows.get(pk=row.pk)]
        came = at_once(
            lambda row=row, turn=turn: [
                change_build(row, ann, renaming("P1", f"{turn} {n}"), "x") for n in range(20)
            ],
            lambda rows=rows: delete_build(rows[0], "B-9"),
            lambda rows=rows: delete_build(rows[1], "B-9"),
        )
        for each in came:
            assert not isinstance(each, Exception) or (
                isinstance(each, InputError) and "deleted" in str(each)
            ), came
        assert not Build.rows.filter(number="B-9").exists()
        assert not Record.objects.filter(build_id=row.pk).exists()


def test_undoing_while_another_changes_the_same_record_leaves_one_of_the_two(
    box: Build, ann: Person, bo: Person
) -> None:
    for turn in range(5):
        change_build(box, ann, renaming("P01", f"ann {turn}"), "x")
        came = at_once(
            lambda: undo(box, ann),
            lambda turn=turn: change_build(box, bo, renaming("P01", f"bo {turn}"), "y"),
        )
        assert kinds(came) in (["done", "done"], ["InputError", "done"]), came
        assert plain_of(Build.rows.get(pk=box.pk)).components[0].name == f"bo {turn}"


def test_undoing_twice_at_once_takes_two_changes_back_or_says_that_there_is_none(
    box: Build, ann: Person
) -> None:
    change_build(box, ann, renaming("P01", "new"), "x")
    assert kinds(at_once(lambda: undo(box, ann), lambda: undo(box, ann))) == ["InputError", "done"]
    assert kinds(at_once(lambda: redo(box, ann), lambda: redo(box, ann))) == ["InputError", "done"]
    assert Change.objects.filter(build=box).count() == 4


def test_an_entry_that_is_sent_twice_at_once_stands_once(box: Build, ann: Person) -> None:
    entry = plain.Entry("0123456789ab", date(2025, 6, 30), "Planed the lid.")
    came = at_once(*(lambda: write_entry(box, ann, entry) for _ in range(3)))
    assert kinds(came) == ["Overtaken", "Overtaken", "done"], came
    assert len(plain_of(Build.rows.get(pk=box.pk)).entries) == 1


def test_one_photograph_that_is_sent_twice_at_once_is_kept_once(shed: Workshop) -> None:
    read = ReadPicture(b"full", b"small", 1, 1, sha256(b"full").hexdigest())
    came = at_once(*(lambda: keep_picture(shed, read) for _ in range(4)))
    assert kinds(came) == ["done"] * 4, came
    assert Picture.objects.count() == 1


def test_workshops_of_one_name_get_two_addresses(ann: Person, bo: Person) -> None:
    came = at_once(*(lambda who=who: people.begin_workshop("Loft", who) for who in (ann, bo, ann)))
    assert kinds(came) == ["done"] * 3, came
    assert sorted(each.slug for each in came) == ["loft", "loft-2", "loft-3"]


def test_two_owners_who_leave_at_once_leave_one(shed: Workshop) -> None:
    for _ in range(5):
        shed.memberships.update(role=Role.OWNER)
        came = at_once(
            lambda: people.change_role(shed, "ann", Role.MAKER),
            lambda: people.change_role(shed, "bo", Role.MAKER),
        )
        assert kinds(came) == ["InputError", "done"], came
        assert shed.memberships.filter(role=Role.OWNER).count() == 1
    shed.memberships.update(role=Role.OWNER)
    came = at_once(*(lambda name=name: people.remove_member(shed, name) for name in ("ann", "bo")))
    assert kinds(came) == ["InputError", "done"], came
    assert shed.memberships.count() == 1


def test_an_installation_has_one_first_owner() -> None:
    code = people.set_up_code()
    came = at_once(
        *(lambda n=n: people.make_first_owner(f"p{n}", "x", PASSWORD, "Loft", code) for n in range(3))
    )
    assert kinds(came) == ["InputError", "InputError", "done"], came
    assert Person.objects.count() == 1
    assert Workshop.objects.count() == 1


@pytest.mark.parametrize("names", [("cy", "di"), ("cy", "cy")])
def test_an_invitation_that_two_take_at_once_lets_one_in(
    names: tuple[str, str], shed: Workshop, ann: Person
) -> None:
    _, secret = people.invite(shed, ann, "Cy", Role.MAKER)

    def take(username: str) -> int:
        sent = {"name": "C", "username": username, "password": PASSWORD}
        return Client().post(f"/invitations/{secret}/", sent).status_code

    came = at_once(*(lambda name=name: take(name) for name in names))
    assert not any(isinstance(each, Exception) for each in came), came
    assert shed.memberships.count() == 3
    assert Person.objects.count() == 3, "the other must not be left behind without a workshop"
    assert Invitation.objects.get().taken_by is not None


def test_a_database_that_stays_busy_is_said_in_a_sentence(
    box: Build, ann: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    client = Client(raise_request_exception=False)
    client.force_login(ann)

    def busy(*_: Any, **__: Any) -> None:
        raise OperationalError("database is locked")

    monkeypatch.setattr("buildlog.builds.entering.change_build", busy)
    answer = client.post("/workshops/shed/builds/B-1/parts/", {"lines": "lid 20 x 30 x 4 oak"})
    assert answer.status_code == 503
    assert "Nothing was saved" in answer.content.decode()


def test_a_build_that_goes_while_a_page_saves_is_not_there(
    box: Build, ann: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    """Between saving and saying so, somebody else deletes it."""
    client = Client()
    client.force_login(ann)
    whole = write_entry

    def deleted_then(*given: Any, **more: Any) -> Any:
        Build.rows.get(pk=box.pk).delete()
        return whole(*given, **more)

    monkeypatch.setattr("buildlog.journal.views.write_entry", deleted_then)
    answer = client.post("/workshops/shed/builds/B-1/journal/", {"text": "Sanded.", "date": "2025-06-30"})
    assert answer.status_code == 422
    assert "B-1 was deleted while you had it open; nothing was saved." in answer.content.decode()
    assert "Sanded." in answer.content.decode()
