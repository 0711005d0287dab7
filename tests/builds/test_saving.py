"""Saving a build: only what differs is written, in one transaction, logged, undone and done again."""

from __future__ import annotations

from dataclasses import replace

import pytest
from hypothesis import HealthCheck, given
from hypothesis import settings as hypothesis_settings
from hypothesis import strategies as st

from buildlog.builds.actions import Overtaken, begin_build, change_build, fingerprint, redo, undo
from buildlog.builds.models import Altered, Build, Change, Record
from buildlog.builds.queries import _PLAIN, plain_of
from buildlog.workshops.models import Membership, Person, Role, Workshop
from calculators.planning import model as plain
from calculators.planning.files import write_build
from calculators.quantities import Length
from calculators.quantities.errors import InputError

pytestmark = pytest.mark.database


def build(*marks: str) -> plain.Build:
    return plain.Build("B1", "Stool", components=tuple(plain.Component(m, f"part {m}") for m in marks))


@pytest.fixture
def shop(db: None) -> Workshop:
    return Workshop.objects.create(name="Shed", slug="shed")


@pytest.fixture
def ann(shop: Workshop) -> Person:
    person = Person.objects.create(username="ann", name="Ann")
    Membership.objects.create(person=person, workshop=shop, role=Role.OWNER)
    return person


@pytest.fixture
def bob(shop: Workshop) -> Person:
    person = Person.objects.create(username="bob", name="Bob")
    Membership.objects.create(person=person, workshop=shop, role=Role.MAKER)
    return person


def fresh(row: Build) -> plain.Build:
    """The build as the database has it, nothing remembered."""
    _PLAIN._things.clear()
    return plain_of(Build.rows.get(pk=row.pk))


def renamed(build: plain.Build, mark: str, name: str) -> plain.Build:
    return replace(
        build, components=tuple(replace(c, name=name) if c.mark == mark else c for c in build.components)
    )


def test_what_was_saved_comes_back_and_the_change_is_logged(shop: Workshop, ann: Person) -> None:
    row = begin_build(shop, ann, build("P1", "P2", "P3"), "Begun")
    saved = change_build(row, ann, lambda b: renamed(b, "P2", "leg"), "Changed P2", reason="it is one")
    assert saved.change is not None
    assert fresh(row) == saved.after == renamed(build("P1", "P2", "P3"), "P2", "leg")
    altered = list(Altered.objects.all())
    assert [(a.kind, a.key, '"part P2"' in a.old, '"leg"' in a.new) for a in altered] == [
        ("component", "P2", True, True)
    ]
    change = Change.objects.get(pk=saved.change.pk)
    assert (change.person, change.says, change.reason) == (ann, "Changed P2", "it is one")


def test_a_change_of_nothing_is_not_logged(shop: Workshop, ann: Person) -> None:
    row = begin_build(shop, ann, build("P1"), "Begun")
    stamp = row.stamp
    assert change_build(row, ann, lambda b: replace(b), "Nothing").change is None
    assert Build.rows.get().stamp == stamp
    assert Change.objects.count() == 1


def test_what_is_not_sound_is_refused_whole(shop: Workshop, ann: Person) -> None:
    row = begin_build(shop, ann, build("P1", "P2"), "Begun")

    def wrong(b: plain.Build) -> plain.Build:
        first, second = b.components
        return replace(b, components=(replace(first, name="seat"), replace(second, parent="P9")))

    with pytest.raises(InputError) as caught:
        change_build(row, ann, wrong, "Wrong")
    assert "P9" in str(caught.value)
    assert fresh(row) == build("P1", "P2")
    assert Change.objects.count() == 1
    with pytest.raises(InputError):
        change_build(row, ann, lambda b: renamed(b, "P1", "x" * 201), "Too long")
    assert fresh(row) == build("P1", "P2")


def test_undo_and_redo_go_back_and_forth(shop: Workshop, ann: Person) -> None:
    row = begin_build(shop, ann, build("P1", "P2"), "Begun")
    states = [fresh(row)]
    for mark, name in (("P1", "seat"), ("P2", "leg"), ("P1", "top")):
        change_build(row, ann, lambda b, m=mark, n=name: renamed(b, m, n), f"{mark} is {name}")
        states.append(fresh(row))
    for expected in reversed(states[:-1]):
        undo(row, ann)
        assert fresh(row) == expected
    with pytest.raises(InputError, match="nothing of yours to undo"):
        undo(row, ann)
    for expected in states[1:]:
        redo(row, ann)
        assert fresh(row) == expected
    with pytest.raises(InputError, match="nothing of yours to redo"):
        redo(row, ann)
    undo(row, ann)
    change_build(row, ann, lambda b: renamed(b, "P2", "stretcher"), "Another way")
    with pytest.raises(InputError, match="redo"):
        redo(row, ann)
    assert [c.name for c in fresh(row).components] == ["seat", "stretcher"]


def test_undo_is_refused_when_somebody_has_changed_the_same_since_and_not_otherwise(
    shop: Workshop, ann: Person, bob: Person
) -> None:
    row = begin_build(shop, ann, build("P1", "P2"), "Begun")
    change_build(row, ann, lambda b: renamed(b, "P1", "seat"), "P1 is a seat")
    change_build(row, bob, lambda b: renamed(b, "P2", "leg"), "P2 is a leg")
    undo(row, ann)
    assert [c.name for c in fresh(row).components] == ["part P1", "leg"]
    redo(row, ann)
    change_build(row, bob, lambda b: renamed(b, "P1", "top"), "P1 is a top")
    with pytest.raises(InputError, match="P1 was changed by Bob since"):
        undo(row, ann)
    undo(row, bob)
    undo(row, ann)
    assert [c.name for c in fresh(row).components] == ["part P1", "leg"]


def test_what_a_delete_took_along_comes_back_where_it_stood(shop: Workshop, ann: Person) -> None:
    row = begin_build(shop, ann, build(*(f"P{i}" for i in range(1, 8))), "Begun")
    before = fresh(row)
    change_build(
        row,
        ann,
        lambda b: replace(b, components=tuple(c for c in b.components if c.mark not in ("P2", "P3", "P6"))),
        "Removed three",
    )
    change_build(row, ann, lambda b: renamed(b, "P5", "kept"), "P5")
    undo(row, ann)
    undo(row, ann)
    assert fresh(row) == before


def test_undo_is_refused_where_something_new_hangs_on_it(shop: Workshop, ann: Person, bob: Person) -> None:
    row = begin_build(shop, ann, build("P1"), "Begun")
    change_build(
        row, ann, lambda b: replace(b, components=(*b.components, plain.Component("G1", "Group"))), "G1"
    )
    change_build(
        row,
        bob,
        lambda b: replace(b, components=(replace(b.components[0], parent="G1"), b.components[1])),
        "P1",
    )
    with pytest.raises(InputError):
        undo(row, ann)
    assert [c.mark for c in fresh(row).components] == ["P1", "G1"]


def test_the_second_of_two_who_edit_one_thing_is_told_of_the_first(
    shop: Workshop, ann: Person, bob: Person
) -> None:
    row = begin_build(shop, ann, build("P1", "P2"), "Begun")
    seen = {("component", "P1"): fingerprint("component", fresh(row).components[0])}
    change_build(row, bob, lambda b: renamed(b, "P1", "seat"), "Bob's")
    change_build(row, bob, lambda b: renamed(b, "P2", "leg"), "Bob's other")
    with pytest.raises(Overtaken) as caught:
        change_build(row, ann, lambda b: renamed(b, "P1", "top"), "Ann's", seen=seen)
    assert (caught.value.by, caught.value.theirs.name) == ("Bob", "seat")
    assert fresh(row).components[0].name == "seat"
    seen = {("component", "P1"): fingerprint("component", fresh(row).components[0])}
    change_build(row, ann, lambda b: renamed(b, "P1", "top"), "Ann's", seen=seen)
    assert fresh(row).components[0].name == "top"


def test_a_number_is_taken_once_in_a_workshop(shop: Workshop, ann: Person) -> None:
    begin_build(shop, ann, build(), "Begun")
    other = begin_build(shop, ann, replace(build(), number="B2"), "Begun")
    with pytest.raises(InputError, match="B1"):
        begin_build(shop, ann, build(), "Again")
    with pytest.raises(InputError, match="B1"):
        change_build(other, ann, lambda b: replace(b, number="B1"), "Renumbered")
    assert sorted(Build.rows.values_list("number", flat=True)) == ["B1", "B2"]
    elsewhere = Workshop.objects.create(name="Barn", slug="barn")
    begin_build(elsewhere, ann, build(), "Begun")


def test_moving_one_record_writes_one_row(shop: Workshop, ann: Person) -> None:
    row = begin_build(shop, ann, build(*(f"P{i}" for i in range(100))), "Begun")

    def to_front(b: plain.Build) -> plain.Build:
        return replace(b, components=(b.components[70], *b.components[:70], *b.components[71:]))

    saved = change_build(row, ann, to_front, "Moved P70")
    assert saved.change is not None
    assert saved.change.altered.count() == 1
    assert fresh(row) == saved.after
    undo(row, ann)
    assert fresh(row) == saved.before


@hypothesis_settings(max_examples=40, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(orders=st.lists(st.permutations(range(7)), min_size=1, max_size=6), data=st.data())
def test_any_order_is_kept_and_taken_back(
    shop: Workshop, ann: Person, orders: list[list[int]], data: st.DataObject
) -> None:
    Build.rows.all().delete()
    row = begin_build(shop, ann, build(*(f"P{i}" for i in range(7))), "Begun")
    states = [fresh(row)]
    for order in orders:
        kept = data.draw(st.integers(1, 7))

        def reorder(b: plain.Build, order: list[int] = order, kept: int = kept) -> plain.Build:
            have = {c.mark: c for c in b.components}
            return replace(
                b,
                components=tuple(have.get(f"P{i}") or plain.Component(f"P{i}", "new") for i in order[:kept]),
            )

        if change_build(row, ann, reorder, "Order").change is not None:
            states.append(fresh(row))
        assert [c.mark for c in fresh(row).components] == [f"P{i}" for i in order[:kept]]
    for expected in reversed(states[:-1]):
        undo(row, ann)
        assert fresh(row) == expected
    for expected in states[1:]:
        redo(row, ann)
        assert write_build(fresh(row)) == write_build(expected)


def test_a_change_of_unit_changes_the_header_alone(shop: Workshop, ann: Person) -> None:
    size = plain.Size("block", length=Length(400_000_000, "40", "mm"))
    row = begin_build(
        shop, ann, replace(build(), components=(plain.Component("P1", "x", size=size),)), "Begun"
    )
    document = Record.objects.get().document
    saved = change_build(row, ann, lambda b: replace(b, unit="in"), "Inches")
    assert saved.change is not None
    assert [a.kind for a in saved.change.altered.all()] == ["build"]
    assert Record.objects.get().document == document
    assert fresh(row).components[0].size.length == Length(400_000_000, "40", "mm")
