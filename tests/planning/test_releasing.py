"""What is released, what has changed since, which revision comes next: each case worked by hand."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.planning.documents import check_whole, read_document, write_document
from calculators.planning.edits import rename_mark
from calculators.planning.inspection import inspect_build
from calculators.planning.model import (
    Bend,
    Build,
    Component,
    Hole,
    Joint,
    Place,
    Pocket,
    Pose,
    Release,
    Size,
    StackMember,
)
from calculators.planning.releasing import (
    LETTERS,
    Difference,
    changes_since,
    drilled_in,
    drilled_of,
    needs_reason,
    next_revision,
    released_marks,
    with_releases,
)
from calculators.quantities import Length, read_length


def mm(value: float) -> Length:
    return Length.of_mm(value)


RAIL = Component(
    "P01",
    "Rail",
    material="oak",
    stock="board",
    size=Size("block", mm(300), mm(40), mm(20)),
    state="released",
    revision="A",
    poses=(Pose(),),
)
PLATE = Component(
    "P02",
    "Plate",
    material="brass",
    stock="sheet",
    size=Size("block", mm(60), mm(40), mm(3)),
    poses=(Pose(on="P01", u=mm(100)),),
)
SCREWS = Joint(
    "F01",
    "Plate to rail",
    "No. 6 x 3/4 csk slotted brass",
    home="P02",
    face="top",
    places=(Place("1", mm(10), mm(20)), Place("2", mm(50), mm(20))),
    stack=(StackMember(part="P02"), StackMember(part="P01")),
)
BUILD = Build("B1", "Latch", components=(RAIL, PLATE), joints=(SCREWS,))
DAY = date(2024, 3, 31)


def drilled(build: Build) -> dict[str, tuple[str, ...]]:
    return drilled_of(inspect_build(build), {one.mark for one in build.components})


def with_part(build: Build, mark: str, **fields: object) -> Build:
    return replace(
        build,
        components=tuple(replace(one, **fields) if one.mark == mark else one for one in build.components),  # type: ignore[arg-type]
    )


def kept(before: Build, after: Build, reason: str = "because") -> Build:
    found = with_releases(before, after, drilled(before), drilled(after), reason, "Ines Hale", DAY)
    check_whole(found)
    return found


def part(build: Build, mark: str) -> Component:
    return next(one for one in build.components if one.mark == mark)


@pytest.mark.parametrize(
    ("letter", "following"),
    [
        ("", "A"),
        ("A", "B"),
        ("H", "J"),  # no I
        ("N", "P"),  # no O
        ("P", "R"),  # no Q
        ("R", "T"),  # no S
        ("W", "Y"),  # no X
        ("Y", "AA"),  # no Z
        ("AY", "BA"),
        ("YY", "AAA"),
        ("b", "C"),
        ("3", "3A"),
        ("x", "XA"),
    ],
)
def test_revisions_rise_without_the_letters_that_are_taken_for_others(letter: str, following: str) -> None:
    assert next_revision(letter) == following


def test_no_revision_comes_twice() -> None:
    found, letter = [], ""
    for _ in range(1_000):
        letter = next_revision(letter)
        found.append(letter)
    assert len(set(found)) == 1_000
    assert set("".join(found)) == set(LETTERS)
    assert not set(LETTERS) & set("IOQSXZ")


def test_a_part_is_drilled_where_the_joint_is() -> None:
    """The plate lies at 100 on the rail, so its places at 10 and 50 are at 110 and 150 there."""
    lines = drilled_in(inspect_build(BUILD), "P01")
    assert len(lines) == 2
    assert [line.partition(":")[0] for line in lines] == ["top 110, 20", "top 150, 20"]


def test_another_mark_of_the_joint_or_of_its_mate_drills_no_other_hole() -> None:
    renamed = rename_mark(rename_mark(BUILD, "F01", "F90"), "P02", "Q7")
    assert drilled_in(inspect_build(renamed), "P01") == drilled_in(inspect_build(BUILD), "P01")


def test_copies_that_are_drilled_alike_are_not_told_apart() -> None:
    plates = replace(PLATE, quantity=2, poses=(PLATE.poses[0], Pose(2, "P01", u=mm(200))))
    two = replace(BUILD, components=(RAIL, plates))
    alike, apart = drilled_in(inspect_build(BUILD), "P02"), drilled_in(inspect_build(two), "P02")
    assert alike == apart
    only = replace(two, joints=(replace(SCREWS, home="P02.2"),))
    assert all(not line.startswith("copy") for line in drilled_in(inspect_build(only), "P02"))


MADE_OTHERWISE = [
    ({"material": "ash"}, ("material", "oak", "ash")),
    ({"size": replace(RAIL.size, thickness=mm(17.2))}, ("size.thickness", "20 mm", "17.2 mm")),
    ({"holes": (Hole("h1", "top", mm(9), mm(9), diameter=mm(5)),)}, None),
    ({"pockets": (Pocket("k1", "top", mm(9), mm(9), mm(5), mm(5)),)}, None),
    ({"bends": (Bend("b1", mm(9)),)}, None),
    ({"legs": (mm(9), mm(8))}, ("legs", "", "9 mm, 8 mm")),
    ({"corner_radius": mm(2)}, ("corner_radius", "", "2 mm")),
]


@pytest.mark.parametrize(("fields", "told"), MADE_OTHERWISE, ids=lambda one: str(one)[:30])
def test_what_is_made_otherwise_is_told(fields: dict[str, object], told: tuple[str, str, str] | None) -> None:
    release = Release("P01-A", "P01", "A", RAIL)
    found = changes_since(release, replace(RAIL, **fields), ())  # type: ignore[arg-type]
    assert len(found) == 1
    if told:
        assert found[0] == Difference(*told)


def test_what_is_not_made_is_no_change() -> None:
    hole = Hole("h1", "top", mm(9), mm(9), diameter=mm(5))
    rail = replace(RAIL, holes=(hole,))
    release = Release("P01-A", "P01", "A", rail)
    other = replace(
        rail,
        name="Lower rail",
        note="mind the knot",
        state="made",
        revision="F",
        poses=(Pose(u=mm(5)),),
        quantity=3,
        made_size=Size("block", mm(299.6), mm(40), mm(20)),
        rough=Size("block", mm(320)),
        evidence="measured",
        end_float=mm(1),
        size=Size("block", read_length("300.0 mm"), mm(40), mm(20)),
        holes=(replace(hole, note="countersink last"),),
    )
    assert changes_since(release, other, ()) == ()


def test_a_hole_that_moves_is_told_by_its_field_and_a_drilled_one_by_its_line() -> None:
    hole = Hole("h1", "top", mm(9), mm(9), diameter=mm(5))
    rail = replace(RAIL, holes=(hole,))
    release = Release("P01-A", "P01", "A", rail, drilled=("top 1, 2: clearance 5", "top 3, 2: clearance 5"))
    moved = replace(rail, holes=(replace(hole, u=mm(12)),))
    assert changes_since(release, moved, ("top 1, 2: clearance 5", "top 4, 2: clearance 5")) == (
        Difference("holes[h1].u", "9 mm", "12 mm"),
        Difference("drilled", "top 3, 2: clearance 5", "top 4, 2: clearance 5"),
    )


def test_what_differs_is_named_in_words() -> None:
    for field, words in (
        ("size.thickness", "thickness"),
        ("holes[h1].countersink_diameter", "hole h1, countersink diameter"),
        ("pockets[k1]", "pocket k1"),
        ("corner_radius", "corner radius"),
        ("drilled", "the holes of joints"),
    ):
        assert Difference(field, "", "").words == words


def test_a_part_that_is_released_gets_its_first_revision_and_is_kept_as_it_is() -> None:
    after = kept(BUILD, with_part(BUILD, "P02", state="released"), reason="")
    assert part(after, "P02").revision == "A"
    (one,) = after.releases
    assert (one.id, one.mark, one.revision, one.on, one.by, one.reason) == (
        "P02-A", "P02", "A", DAY, "Ines Hale", "",
    )  # fmt: skip
    assert one.part == part(after, "P02")
    assert one.drilled == drilled(BUILD)["P02"]
    assert read_document("release", write_document("release", one)) == one


def test_the_first_release_keeps_a_revision_that_was_written() -> None:
    before = with_part(BUILD, "P02", revision="C")
    assert part(kept(before, with_part(before, "P02", state="made")), "P02").revision == "C"


def test_a_part_that_is_made_is_made_to_its_revision() -> None:
    assert part(kept(BUILD, with_part(BUILD, "P01", state="made")), "P01").made_to == "A"
    at_once = part(kept(BUILD, with_part(BUILD, "P02", state="fitted")), "P02")
    assert (at_once.revision, at_once.made_to) == ("A", "A")


def test_a_released_part_that_is_made_otherwise_needs_a_reason_and_gets_the_next_revision() -> None:
    after = with_part(BUILD, "P01", size=replace(RAIL.size, thickness=mm(17.2)))
    assert needs_reason(BUILD, after, drilled(BUILD), drilled(after)) == ("P01",)
    found = kept(BUILD, after, "the board is thinner")
    assert (part(found, "P01").revision, part(found, "P01").state) == ("B", "released")
    assert [(one.id, one.reason, one.on) for one in found.releases] == [
        ("P01-A", "", None),  # nothing was kept of it: it stood so before this change
        ("P01-B", "the board is thinner", DAY),
    ]
    assert found.releases[0].part == RAIL


def test_a_joint_that_moves_touches_each_released_part_that_it_drills() -> None:
    both = with_part(BUILD, "P02", state="released", revision="A")
    moved = replace(both, joints=(replace(SCREWS, places=(Place("1", mm(12), mm(20)), SCREWS.places[1])),))
    assert needs_reason(both, moved, drilled(both), drilled(moved)) == ("P01", "P02")
    found = kept(both, moved)
    assert [one.id for one in found.releases] == ["P01-A", "P01-B", "P02-A", "P02-B"]


def test_a_part_that_is_made_stays_made_to_what_it_was_made_to() -> None:
    made = with_part(BUILD, "P01", state="made")
    found = kept(made, with_part(made, "P01", material="ash"))
    one = part(found, "P01")
    assert (one.state, one.revision, one.made_to) == ("made", "B", "A")
    again = kept(found, with_part(found, "P01", material="elm"))
    assert (part(again, "P01").revision, part(again, "P01").made_to) == ("C", "A")


def test_what_is_taken_back_and_released_unchanged_keeps_its_revision() -> None:
    first = kept(BUILD, with_part(BUILD, "P02", state="released"))
    back = kept(first, with_part(first, "P02", state="planned"))
    assert kept(back, with_part(back, "P02", state="released")) == first
    changed = with_part(back, "P02", material="steel")
    assert needs_reason(back, changed, drilled(back), drilled(changed)) == ()
    again = kept(changed, with_part(changed, "P02", state="released"))
    assert part(again, "P02").revision == "B"


def test_what_is_made_anew_is_made_to_todays_revision() -> None:
    made = kept(BUILD, with_part(BUILD, "P01", state="made"))
    changed = kept(made, with_part(made, "P01", material="ash"))
    back = kept(changed, with_part(changed, "P01", state="released"))
    assert part(kept(back, with_part(back, "P01", state="made")), "P01").made_to == "B"


def test_what_is_bought_in_or_planned_is_never_asked_about() -> None:
    bought = with_part(BUILD, "P01", stock="bought", state="fitted")
    assert released_marks(bought) == set()
    after = with_part(bought, "P01", material="ash")
    assert needs_reason(bought, after, drilled(bought), drilled(after)) == ()
    assert kept(bought, after) is after


def test_nothing_is_kept_where_nothing_is_made_otherwise() -> None:
    after = with_part(BUILD, "P01", note="mind the knot", name="Lower rail")
    assert kept(BUILD, after) is after


def test_a_new_mark_is_no_change_and_a_change_with_it_is_one() -> None:
    renamed = rename_mark(BUILD, "P01", "R1")
    assert needs_reason(BUILD, renamed, drilled(BUILD), drilled(renamed)) == ()
    both = with_part(renamed, "R1", material="ash")
    assert needs_reason(BUILD, both, drilled(BUILD), drilled(both)) == ("R1",)
    found = kept(BUILD, both)
    assert [one.id for one in found.releases] == ["R1-A", "R1-B"]
    assert found.releases[0].part.mark == "R1"


@settings(deadline=None, max_examples=40)
@given(
    st.lists(
        st.tuples(
            st.sampled_from(["planned", "released", "made", "fitted"]),
            st.sampled_from(["oak", "ash", "elm"]),
            st.decimals(15, 25, places=1).map(lambda value: Decimal(value)),
        ),
        min_size=1,
        max_size=6,
    )
)
def test_the_last_release_of_a_released_part_is_always_what_it_is(
    steps: list[tuple[str, str, Decimal]],
) -> None:
    build = BUILD
    for state, material, thick in steps:
        size = replace(RAIL.size, thickness=mm(float(thick)))
        build = kept(build, with_part(build, "P01", state=state, material=material, size=size))
        rail = part(build, "P01")
        last = [one for one in build.releases if one.mark == "P01"]
        if state != "planned" and last:
            assert last[-1].revision == rail.revision
            assert changes_since(last[-1], rail, drilled(build)["P01"]) == ()
        assert len({one.revision for one in last}) == len(last)
