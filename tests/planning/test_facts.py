"""What sheets say, and what they would say otherwise after a change: each change made by hand, told in words."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from buildlog.builds.lookup import demonstration_build, demonstration_numbers
from buildlog.sheets.making import KINDS
from calculators.planning.documents import build_from, read_document, records_of, write_document
from calculators.planning.facts import (
    FACTS,
    Fact,
    FactChange,
    SheetFacts,
    changes_between,
    code_shown,
    digest_of,
    paper_code,
    read_code,
    sheet_facts,
)
from calculators.planning.facts.code import SIGNS
from calculators.planning.inspection import inspect_build
from calculators.planning.model import AssemblyStep, Build, Component, Hole, Pocket, Size
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from tests.planning.test_resolving import batten_screws, build, mm, pillar_screw

DRILLED = replace(
    build(pillar_screw(), batten_screws()),
    steps=(
        AssemblyStep(1, "Pillar", fits=("P10", "F03"), caution="Hold the pillar."),
        AssemblyStep(2, "Battens", fits=("P02", "F01"), closes=("F03",)),
    ),
)


def with_part(mark: str, change: Callable[[Component], Component], of: Build = DRILLED) -> Build:
    return replace(of, components=tuple(change(one) if one.mark == mark else one for one in of.components))


def otherwise(
    kind: str, after: Build, component: str = "", **options: str
) -> list[tuple[str, str, str, str]]:
    """What a sheet of the drilled build would say otherwise after a change."""
    old = sheet_facts(kind, inspect_build(DRILLED), component, options)
    new = sheet_facts(kind, inspect_build(after), component, options)
    changes = changes_between(old, new)
    assert bool(changes) == (digest_of(old) != digest_of(new))
    return [(one.part, one.what, one.old, one.new) for one in changes]


def test_every_kind_of_sheet_has_its_facts() -> None:
    assert set(KINDS) <= set(FACTS)


@pytest.mark.parametrize("kind", FACTS)
def test_every_kind_says_something_of_a_build_and_the_same_of_an_equal_one(kind: str) -> None:
    of = "P01" if kind == "moves" else ""  # they are of one part at a time
    facts = sheet_facts(kind, inspect_build(DRILLED), of)
    assert facts
    assert all(fact.value and fact.what for fact in facts)
    again = build_from(
        read_document("build", write_document("build", DRILLED)),
        [(k, read_document(k, write_document(k, record))) for k, _, record in records_of(DRILLED)],
    )
    assert sheet_facts(kind, inspect_build(again), of) == facts
    assert changes_between(facts, facts) == ()


@pytest.mark.parametrize("number", demonstration_numbers())
@pytest.mark.parametrize("kind", FACTS)
def test_nothing_on_a_sheet_of_the_demonstration_is_taken_for_something_else(kind: str, number: str) -> None:
    """What has one name would hide a change of the other."""
    names = [fact.name for fact in sheet_facts(kind, inspect_build(demonstration_build(number)))]
    assert len(set(names)) == len(names)


def test_a_thickness_that_is_another_is_told_on_every_sheet_that_shows_it() -> None:
    thinner = with_part("P11", lambda one: replace(one, size=replace(one.size, thickness=mm(5))))
    said = ("P11", "thickness", "6 mm", "5 mm")
    for kind in ("drilling", "cut", "part", "template"):
        assert said in otherwise(kind, thinner), kind
    assert said in otherwise("moves", thinner, "P11", face="top")
    assert ("F03", "from the head", "5/16 washer repair washer", "") not in otherwise("sections", thinner)
    told = {(part, what): (old, new) for part, what, old, new in otherwise("fasteners", thinner)}
    old, new = told["F03", "from the head"]
    assert "P11 6 mm" in old
    assert "P11 5 mm" in new


def test_a_joint_that_is_moved_moves_its_holes_by_the_names_that_stand_on_the_paper() -> None:
    joint = pillar_screw()
    moved = replace(joint, places=(replace(joint.places[0], u=mm(561)),))
    after = replace(DRILLED, joints=(moved, DRILLED.joints[1]))
    assert (
        "P01",
        "hole 7 at 560 mm, 130 mm on bottom: place",
        "560 mm, 130 mm",
        "561 mm, 130 mm",
    ) in otherwise("drilling", after, "P01")
    old = sheet_facts("drilling", inspect_build(DRILLED), "P01")
    new = sheet_facts("drilling", inspect_build(after), "P01")
    assert {one.via for one in changes_between(old, new)} == {"F03"}


def test_a_hole_more_and_a_hole_less_are_one_line_each() -> None:
    peg = Hole("h1", "top", mm(20), mm(30), diameter=mm(8), depth=mm(12), note="for a peg")
    more = with_part("P01", lambda one: replace(one, holes=(peg,)))
    (line,) = otherwise("drilling", more, "P01")
    assert line[:3] == ("P01", "hole 1 at 20 mm, 30 mm on top", "")
    assert "made plain 8 mm; depth 12 mm" in line[3]
    facts = [sheet_facts("drilling", inspect_build(each), "P01") for each in (more, DRILLED)]
    (gone,) = changes_between(*facts)
    assert (gone.what, gone.new) == ("hole 1 at 20 mm, 30 mm on top", "")
    assert "made plain 8 mm; depth 12 mm" in gone.old


def test_holes_that_only_have_another_number_are_no_change_of_theirs() -> None:
    peg = Hole("h1", "bottom", mm(1), mm(1), diameter=mm(8), depth=mm(12))
    told = otherwise("drilling", with_part("P01", lambda one: replace(one, holes=(peg,))), "P01")
    assert [each[:3] for each in told] == [("P01", "hole 1 at 1 mm, 1 mm on bottom", "")]


def test_a_part_that_is_gone_and_one_that_is_new_are_one_line_each() -> None:
    shelf = Component(
        "P40", "Shelf", material="oak", stock="board", size=Size("block", mm(300), mm(90), mm(12))
    )
    told = otherwise("cut", replace(DRILLED, components=(*DRILLED.components, shelf)))
    assert [each[:3] for each in told] == [("P40", "all of it", "")]
    assert "material oak, board; length 300 mm; width 90 mm; thickness 12 mm" in told[0][3]
    lone = Build("B1", "Stand", components=(shelf,))
    both = Build("B1", "Stand", components=(shelf, replace(shelf, mark="P41")))
    (gone,) = changes_between(
        sheet_facts("cut", inspect_build(both)), sheet_facts("cut", inspect_build(lone))
    )
    assert (gone.part, gone.what, gone.new) == ("P41", "all of it", "")


def test_names_notes_states_and_how_a_length_is_written_put_no_sheet_out_of_date() -> None:
    def renamed(one: Component) -> Component:
        written = replace(one.size, thickness=Length(one.size.thickness.ticks, "1.1024 in", "in"))  # type: ignore[union-attr]
        return replace(one, name="Base", note="the good side up", state="made", size=written)

    for kind in ("drilling", "template", "part", "cut"):
        assert otherwise(kind, with_part("P01", renamed)) == [], kind


def test_a_template_is_out_of_date_for_a_depth_and_not_for_the_drills_that_make_it() -> None:
    peg = Hole("h1", "top", mm(20), mm(30), diameter=mm(8), depth=mm(12))
    pegged = with_part("P01", lambda one: replace(one, holes=(peg,)))
    deeper = with_part("P01", lambda one: replace(one, holes=(replace(peg, depth=mm(14)),)))
    noted = with_part("P01", lambda one: replace(one, holes=(replace(peg, note="for a dowel"),)))
    was, deep, told = (inspect_build(each) for each in (pegged, deeper, noted))
    depth = FactChange("P01", "hole 1 at 20 mm, 30 mm on top: depth", "12 mm", "14 mm")
    assert changes_between(sheet_facts("template", was), sheet_facts("template", deep)) == (depth,)
    first, steps = changes_between(sheet_facts("drilling", was), sheet_facts("drilling", deep))
    assert (first, steps.what) == (depth, "hole 1 at 20 mm, 30 mm on top: steps")
    assert changes_between(sheet_facts("template", was), sheet_facts("template", told)) == ()
    (note,) = changes_between(sheet_facts("drilling", was), sheet_facts("drilling", told))
    assert (note.what, note.new) == ("hole 1 at 20 mm, 30 mm on top: note", "for a dowel")


def test_a_template_of_one_face_looks_at_that_face() -> None:
    pocket = Pocket("s", "front", mm(10), mm(5), mm(30), mm(8), mm(4))
    cut = with_part("P01", lambda one: replace(one, pockets=(*one.pockets, pocket)))
    assert otherwise("template", cut, "P01", face="top") == []
    (told,) = otherwise("template", cut, "P01", face="front")
    assert told[:3] == ("P01", "pocket s on front", "")
    assert told[3].startswith("face front; length 30 mm; width 8 mm; depth 4 mm")


def test_steps_that_are_moved_are_told_as_moved() -> None:
    first, second = DRILLED.steps
    moved = replace(DRILLED, steps=(replace(second, number=1), replace(first, number=2)))
    told = otherwise("assembly", moved)
    assert ("", "step 1, Pillar: comes as number", "1", "2") in told
    assert ("", "step 2, Battens: comes as number", "2", "1") in told


def test_other_sheets_do_not_look_at_the_steps() -> None:
    later = replace(DRILLED, steps=(replace(DRILLED.steps[0], caution="Two people."), DRILLED.steps[1]))
    assert [each[1:] for each in otherwise("assembly", later)] == [
        ("step 1, Pillar: caution", "Hold the pillar.", "Two people.")
    ]
    for kind in set(FACTS) - {"assembly", "check"}:
        assert otherwise(kind, later) == [], kind


def test_another_revision_of_a_part_and_of_the_build_is_told() -> None:
    revised = replace(
        with_part("P02", lambda one: replace(one, revision="B")), revision="C", issued=date(2025, 1, 2)
    )
    told = otherwise("drilling", revised, "P02")
    assert sorted(told) == [("", "revision of the build", "", "C"), ("P02", "revision", "", "B")]


def test_a_torque_and_a_count_are_told_of_their_joint() -> None:
    tight = replace(DRILLED.joints[0], torque_nm=Decimal("4.5"))
    after = replace(DRILLED, joints=(tight, DRILLED.joints[1]))
    assert ("F03", "torque", "", "4.5 N m") in otherwise("fasteners", after)
    assert ("F03", "torque", "", "4.5 N m") in otherwise("sections", after, "P10")
    assert otherwise("sections", after, "P02") == []


def test_a_finding_that_is_mended_is_gone_from_the_check_sheet_alone() -> None:
    longer = replace(DRILLED, joints=(pillar_screw(note="x"), DRILLED.joints[1]))
    assert otherwise("check", longer) == []
    shorter = replace(
        DRILLED,
        joints=(replace(pillar_screw(), fastener="5/16 BSF x 1 3/4 hex set screw steel"), DRILLED.joints[1]),
    )
    told = otherwise("check", shorter)
    assert ("F03", "screw bottoms", "") in [(part, what, new) for part, what, _, new in told]


def test_one_build_makes_each_schedule_once_for_all_its_sheets(monkeypatch: pytest.MonkeyPatch) -> None:
    from calculators.planning.facts import sheets

    made: list[str] = []
    honest = sheets.hole_schedule
    monkeypatch.setattr(sheets, "hole_schedule", lambda *given: (made.append("holes"), honest(*given))[1])
    facts = SheetFacts(inspect_build(DRILLED))
    for kind in ("drilling", "part", "template"):
        for component in ("", "P01", "P02", "P10"):
            facts.of(kind, component)
    assert made == ["holes"]
    assert facts.of("part", "P01") is facts.of("part", "P01")


def test_a_kind_that_there_is_not_is_said() -> None:
    with pytest.raises(InputError, match=r"^There is no sheet “poster”\.$"):
        sheet_facts("poster", WorkedBuild(Build("B1", "Stand")))


# The code on the paper.


def test_the_code_hangs_on_the_build_the_sheet_and_what_it_says_and_on_nothing_else() -> None:
    given = {
        "number": "B1",
        "kind": "cut",
        "digest": "ab" * 8,
        "component": "P01",
        "options": {"face": "top"},
    }
    code = paper_code(**given)  # type: ignore[arg-type]
    assert paper_code(**given) == code  # type: ignore[arg-type]
    others = ({"number": "B2"}, {"kind": "part"}, {"digest": "ac" * 8}, {"component": ""}, {"options": {}})
    assert len({code, *(paper_code(**given | other) for other in others)}) == 6  # type: ignore[arg-type]


def test_codes_use_all_their_signs_and_none_that_is_mistaken() -> None:
    codes = [paper_code("B1", "cut", f"{n:016x}") for n in range(2000)]
    assert set("".join(codes)) == set(SIGNS)
    assert not set(SIGNS) & set("01BILOSZ")
    assert len(set(codes)) == 2000
    assert {len(code) for code in codes} == {8}


@pytest.mark.parametrize(
    "typed", ["7KQ2-M4XD", "7kq2m4xd", " 7KQ2 M4XD ", "7KO2–M4XD", "7K0Z-M4XD", "7 K Q 2 M 4 X D"]
)
def test_a_code_is_read_as_people_copy_it(typed: str) -> None:
    assert read_code(typed) == "7KQ2M4XD"
    assert code_shown(read_code(typed)) == "7KQ2-M4XD"


@pytest.mark.parametrize(
    "typed", ["", "7KQ2", "7KQ2-M4XDD", "7KQ2-M4XI", "drilling", "7KQ2-M4X\x00", "ßßßß", "٧KQ2M4XD"]
)
def test_what_is_no_code_is_said(typed: str) -> None:
    with pytest.raises(InputError) as error:
        read_code(typed)
    assert str(error.value) == (
        "The code on a sheet has eight figures and letters in two groups, such as 7KQ2-M4XD;"
        " it stands in the title block."
    )
    assert error.value.faults[0].field == "code"


def test_facts_of_one_thing_keep_together_however_they_are_mixed() -> None:
    old = [Fact("P1", "a", "1"), Fact("P2", "a", "1"), Fact("P1", "b", "1", "hole 1", "k")]
    new = [Fact("P2", "a", "1"), Fact("P1", "b", "2", "hole 7", "k"), Fact("P1", "a", "1")]
    assert changes_between(old, new) == (FactChange("P1", "hole 1: b", "1", "2"),)


@pytest.mark.parametrize("kind", ["part", "template", "drilling", "moves"])
def test_a_part_as_it_was_made_is_told_on_every_sheet_that_draws_it(kind: str) -> None:
    after = with_part("P10", lambda one: replace(one, made_size=Size(one.size.shape, length=mm(164))))
    assert otherwise(kind, after, "P10") == [("P10", "length as made", "", "164 mm")]


@pytest.mark.parametrize("kind", ["part", "template", "drilling", "moves"])
def test_a_pocket_more_is_told_on_every_sheet_that_draws_it(kind: str) -> None:
    pocket = Pocket("k9", "top", mm(30), mm(10), mm(20), mm(10), depth=mm(3))
    after = with_part("P01", lambda one: replace(one, pockets=(*one.pockets, pocket)))
    (change,) = otherwise(kind, after, "P01")
    assert change[0] == "P01"
    assert "pocket k9" in change[1]


def test_the_order_on_a_stud_is_told_on_the_assembly_sheet_when_a_part_of_it_is_thicker() -> None:
    """F03 goes through a washer, P01 and P11 into P10; P11 is let 6 mm into P01: 28 - 6 = 22, 20 - 6 = 14."""
    after = with_part("P01", lambda one: replace(one, size=replace(one.size, thickness=mm(20))))
    (told,) = otherwise("assembly", after)
    assert told == (
        "F03",
        "from the head",
        "5/16 repair washer, P01 22 mm, P11 6 mm, P10 165 mm",
        "5/16 repair washer, P01 14 mm, P11 6 mm, P10 165 mm",
    )
