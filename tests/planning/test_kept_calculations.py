"""Kept calculations: tied to sizes of the build, worked, held against limits, told by the check.

The figures are of wood movement: width x coefficient x change of moisture content (USDA Wood Handbook, eq.
13-2, from memory; Table 13-5, read: white oak, tangential, 0.00365), worked by hand:
260 mm x 0.00365 x 4 = 3.796 mm; 300 mm x 0.00365 x 4 = 4.38 mm.
"""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest

from calculators.calculation.result import Result, Value
from calculators.joints.model import Finding
from calculators.planning import calculations as planning_calculations
from calculators.planning.calculations import MOST_WORKED, hold
from calculators.planning.documents import read_document, write_document
from calculators.planning.edits import (
    can_mend,
    compare_builds,
    duplicate,
    effects,
    finding_key,
    mend,
    move_record,
    put,
    remove,
    rename_mark,
    taken_along,
)
from calculators.planning.files import read_build, write_build
from calculators.planning.inspection import inspect_build
from calculators.planning.lines import add_lines
from calculators.planning.lines.marks import next_mark
from calculators.planning.model import (
    AssemblyStep,
    Build,
    Calculation,
    Component,
    Entry,
    Hole,
    Joint,
    Pocket,
    ResultLimit,
    Size,
    StackMember,
)
from calculators.planning.tied_inputs import input_at, with_sizes
from calculators.planning.ties import part_sizes, read_tie, size_text
from calculators.quantities import Length, read_length
from calculators.quantities.errors import InputError


def mm(text: str) -> Length:
    return read_length(text)


BASE = Component(
    "P1", "Base", material="white oak",
    size=Size("block", length=mm("640"), width=mm("260"), thickness=mm("28")),
    holes=(Hole("h1", "top", mm("30"), mm("30"), diameter=mm("9"), depth=mm("18")),),
    pockets=(Pocket("k1", "top", mm("100"), mm("100"), mm("90"), mm("80"), depth=mm("6")),),
)  # fmt: skip
GIVEN = (
    ("width", "260 mm"),
    ("species", "white oak"),
    ("cut", "flat"),
    ("from_moisture", "8 %"),
    ("to_moisture", "12 %"),
)
KEPT = Calculation("K1", "Base across the grain", "wood-movement", GIVEN, (("width", "P1 width"),))
BENCH = Build("B1", "Stand", components=(BASE,), calculations=(KEPT,))


def limited(bound: str, value: str, build: Build = BENCH) -> Build:
    """The build with one limit of the movement."""
    limit = ResultLimit("movement", bound, value)  # type: ignore[arg-type]
    return replace(build, calculations=(replace(KEPT, limits=(limit,)),))


def widened(text: str, build: Build = BENCH) -> Build:
    """The build with a base of another width."""
    base = replace(BASE, size=replace(BASE.size, width=mm(text)))
    return put(build, "component", base, key="P1")


def told(build: Build) -> list[Finding]:
    return [one for one in inspect_build(build).findings if one.rule.startswith("calculation-")]


def test_a_build_without_calculations_has_none_worked() -> None:
    worked = inspect_build(replace(BENCH, calculations=()))
    assert worked.calculations == ()
    assert told(replace(BENCH, calculations=())) == []


def test_what_is_kept_is_worked_and_silent_while_nothing_changes() -> None:
    worked = inspect_build(BENCH)
    (one,) = worked.calculations
    assert one.now is not None
    assert one.now.results["movement"].value == pytest.approx(3.796, abs=1e-9)
    assert one.then is one.now
    assert one.changed == ()
    assert told(BENCH) == []


@pytest.mark.parametrize(
    ("bound", "value", "held"),
    [
        ("at most", "3.796 mm", True), ("at most", "3.797 mm", True), ("at most", "3.795 mm", False),
        ("at least", "3.796 mm", True), ("at least", "3.795 mm", True), ("at least", "3.797 mm", False),
        ("at most", "0.15 in", True), ("at most", "0.149 in", False),
        ("at most", "3.796", True), ("at most", "3.795", False),
    ],
)  # fmt: skip
def test_a_limit_is_held_to_its_last_thousandth_in_either_unit(bound: str, value: str, held: bool) -> None:
    found = told(limited(bound, value))
    assert [one.rule for one in found] == ([] if held else ["calculation-beyond-limit"])


def test_a_passed_limit_is_an_error_with_its_numbers() -> None:
    (found,) = told(limited("at most", "3.5 mm"))
    assert (found.severity, found.part, found.place, found.joint) == ("error", "K1", "movement", "")
    assert found.value == pytest.approx(3.796)
    assert (found.limit, found.unit) == (3.5, "mm")
    assert found.says == (
        "K1 Base across the grain: movement is 3.796 mm, above the limit of 3.5 mm by 0.296 mm."
    )
    assert found.source.startswith("limit set in this build (at most 3.5 mm); wood-movement: ")
    assert finding_key(found) == "calculation-beyond-limit::K1:movement"


def test_a_result_whose_spread_reaches_beyond_its_limit_is_a_warning() -> None:
    # 260 +/- 20 mm: the movement is 3.796 +/- 0.292 mm, since it goes with the width.
    inputs = (("width", "260 ± 20 mm"), *GIVEN[1:])
    limit = ResultLimit("movement", "at most", "4 mm")
    build = replace(BENCH, calculations=(replace(KEPT, inputs=inputs, limits=(limit,)),))
    (found,) = told(build)
    assert (found.rule, found.severity) == ("calculation-beyond-limit", "warning")
    assert "with its spread may lie above the limit of 4 mm" in found.says
    assert found.at == "calculations[K1].limits"
    roomy = replace(build.calculations[0], limits=(replace(limit, value="4.1 mm"),))
    assert told(replace(build, calculations=(roomy,))) == []


def test_a_size_that_changes_asks_to_be_looked_at_with_old_and_new() -> None:
    (found,) = told(widened("300"))
    assert (found.rule, found.severity, found.part) == ("calculation-to-look-at", "warning", "K1")
    assert found.at == "calculations[K1].inputs[width]"
    assert (found.value, found.unit) == (300.0, "mm")
    assert found.says.startswith(
        "K1 Base across the grain: P1 width was 260 mm and is 300 mm (width). "
        "Its movement was 3.796 mm and is 4.38 mm; "
    )
    worked = inspect_build(widened("300"))
    assert worked.calculations[0].inputs == (("width", "300 mm"), *GIVEN[1:])
    assert worked.build.calculations == (KEPT,)


@pytest.mark.parametrize("text", ["260", "260 mm", "26 cm", "260.0", "0.26 m"])
def test_the_same_size_written_otherwise_has_not_changed(text: str) -> None:
    assert told(widened(text)) == []


def test_limits_are_held_against_the_size_of_today() -> None:
    build = widened("300", limited("at most", "4 mm"))
    assert [one.rule for one in told(build)] == ["calculation-beyond-limit", "calculation-to-look-at"]


def test_the_new_size_is_taken_with_one_mend_and_the_finding_goes() -> None:
    worked = inspect_build(widened("10 in"))
    (finding,) = told(widened("10 in"))
    assert finding.mends[0].says == "Looked at: take the new size: width 10 in."
    assert can_mend(worked, finding)
    after = mend(worked, finding_key(finding))
    assert after.calculations[0] == replace(KEPT, inputs=(("width", "10 in"), *GIVEN[1:]))
    assert told(after) == []
    assert replace(after, calculations=(KEPT,)) == worked.build


def test_what_was_made_counts_before_what_was_planned() -> None:
    made = replace(BASE, made_size=Size("block", width=mm("258.5")))
    (found,) = told(put(BENCH, "component", made, key="P1"))
    assert "P1 width was 260 mm and is 258.5 mm" in found.says


def test_a_size_that_is_not_given_any_more_is_told_and_let_go_by_its_mend() -> None:
    base = replace(BASE, size=replace(BASE.size, width=None))
    worked = inspect_build(put(BENCH, "component", base, key="P1"))
    (finding,) = (one for one in worked.findings if one.rule == "calculation-to-look-at")
    assert "P1 width is not given any more; it was 260 mm (width)" in finding.says
    assert mend(worked, finding_key(finding)).calculations[0] == replace(KEPT, ties=())


def test_a_spread_stays_beside_the_size_that_is_taken() -> None:
    inputs = (("width", "260 mm ± 0.5 mm"), *GIVEN[1:])
    build = widened("300", replace(BENCH, calculations=(replace(KEPT, inputs=inputs),)))
    after = mend(inspect_build(build), "calculation-to-look-at::K1")
    assert dict(after.calculations[0].inputs)["width"] == "300 mm ± 0.5 mm"
    assert told(after) == []


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"calculator": "wood-movements"}, "There is no calculator 'wood-movements'; did you mean wood-movement"),
        ({"inputs": (("width", "wide"),), "ties": ()}, "'wide'"),
        ({"inputs": (("width", "0 mm"), *GIVEN[1:]), "ties": ()}, "'0 mm' is too little; write more than 0 mm."),
        ({"inputs": (*GIVEN, ("depth", "1 mm"))}, "There is no input 'depth'"),
        ({"ties": (("species", "P1 width"),)}, "The input 'species' takes no length"),
        ({"ties": (("width[0].x", "P1 width"),)}, "has no input 'width[0].x' that can be tied"),
    ],
)  # fmt: skip
def test_what_cannot_be_worked_is_unchecked_with_the_sentence(changed: dict[str, object], says: str) -> None:
    build = replace(BENCH, calculations=(replace(KEPT, **changed),))  # type: ignore[arg-type]
    (found,) = told(build)
    assert (found.rule, found.severity, found.part) == ("calculation-not-worked", "unchecked", "K1")
    assert found.says.startswith("K1 Base across the grain cannot be worked: ")
    assert says in found.says


def test_a_size_of_today_that_a_calculator_refuses_is_told_as_such() -> None:
    found = told(widened("10100"))
    assert [one.rule for one in found] == ["calculation-to-look-at", "calculation-not-worked"]
    assert "cannot be worked with the sizes of today" in found[1].says


@pytest.mark.parametrize(
    ("limit", "says"),
    [
        (ResultLimit("slot_length", "at most", "9 mm"), "It gives no slot length, so its limit is not looked at."),
        (ResultLimit("nothing", "at most", "9 mm"), "It gives no nothing, so its limit is not looked at."),
        (ResultLimit("movement", "at most", "9 N"), "The limit of its movement cannot be read."),
        (ResultLimit("movement", "at most", "much"), "The limit of its movement cannot be read."),
    ],
)  # fmt: skip
def test_a_limit_that_cannot_be_held_is_unchecked(limit: ResultLimit, says: str) -> None:
    (found,) = told(replace(BENCH, calculations=(replace(KEPT, limits=(limit,)),)))
    words = limit.result.replace("_", " ")
    assert (found.rule, found.severity, found.place) == ("calculation-not-worked", "unchecked", words)
    assert says in found.says


@pytest.mark.parametrize("value", [None, True, "stable", [1.0], {"a": 1.0}])
def test_a_result_that_is_no_number_is_not_held(value: object) -> None:
    held = hold(ResultLimit("mass", "at most", "2 kg"), Result({"mass": Value(value, "kg")}))  # type: ignore[arg-type]
    assert held.says == "Its mass is no number here, so its limit is not looked at."


def test_a_limit_in_a_unit_that_is_none_of_those_read_is_read_as_it_stands() -> None:
    result = Result({"protrusion": Value(2.5, "threads")})
    assert not hold(ResultLimit("protrusion", "at most", "2 threads"), result).held
    assert hold(ResultLimit("protrusion", "at most", "3"), result).held


def test_more_calculations_than_are_worked_are_said_not_to_be() -> None:
    kept = tuple(replace(KEPT, mark=f"K{number}") for number in range(MOST_WORKED + 2))
    found = told(replace(BENCH, calculations=kept))
    assert [one.part for one in found] == [f"K{MOST_WORKED}", f"K{MOST_WORKED + 1}"]
    assert {one.rule for one in found} == {"calculation-not-worked"}


def test_what_has_not_changed_is_not_worked_again(monkeypatch: pytest.MonkeyPatch) -> None:
    calls: list[str] = []
    work = planning_calculations.answer

    def counted(calculator: object, given: object) -> object:
        calls.append("worked")
        return work(calculator, given)  # type: ignore[arg-type]

    monkeypatch.setattr(planning_calculations, "answer", counted)
    planning_calculations._answered.cache_clear()
    build = replace(BENCH, joints=(Joint("F1", "Foot", "No. 8 x 1 csk brass", home="P1"),))
    inspect_build(build)
    assert len(calls) == 1
    inspect_build(replace(build, joints=(replace(build.joints[0], title="Another"),)))
    assert len(calls) == 1
    inspect_build(widened("300", build))
    assert len(calls) == 2


def test_rows_have_members_that_can_be_tied() -> None:
    text = (
        "boom, round, brass, length=100 mm, diameter=6 mm\nweight, round, brass, length=20 mm, diameter=25 mm"
    )
    kept = Calculation(
        "K1", "Boom", "mass-and-balance", (("bodies", text),), (("bodies[0].length", "P1 length"),)
    )
    build = replace(BENCH, calculations=(kept,))
    (found,) = (one for one in told(build) if one.rule == "calculation-to-look-at")
    assert "P1 length was 100 mm and is 640 mm (bodies[0].length)" in found.says
    after = mend(inspect_build(build), finding_key(found))
    assert dict(after.calculations[0].inputs)["bodies"] == (
        "name=boom, shape=round, material=brass, length=640 mm, diameter=6 mm\n"
        "name=weight, shape=round, material=brass, length=20 mm, diameter=25 mm"
    )
    assert told(after) == []
    beyond = replace(kept, ties=(("bodies[2].length", "P1 length"),))
    (found,) = told(replace(BENCH, calculations=(beyond,)))
    assert "has 2 rows, so 'bodies[2].length' is not among them" in found.says


def test_rows_that_no_line_can_hold_are_written_as_json() -> None:
    calculator = planning_calculations.find_calculator("mass-and-balance")
    held = {"bodies": '[{"name": "boom, long", "shape": "round", "length": "1 mm"}]'}
    found = with_sizes(calculator, held, {"bodies[0].length": "2 mm"})
    assert found == {"bodies": '[{"name": "boom, long", "shape": "round", "length": "2 mm"}]'}
    with pytest.raises(InputError, match="has no input"):
        input_at(calculator, "bodies[0].nothing")


def test_sizes_of_joints_can_be_tied() -> None:
    parts = (
        BASE,
        Component("P2", "Batten", material="oak", size=Size("block", mm("220"), mm("45"), mm("22"))),
    )
    stack = (
        StackMember(part="P2", thickness=mm("22")),
        StackMember(part="P1", thickness=mm("28"), takes="pilot"),
    )
    joint = Joint("F1", "Batten", "No. 8 x 1 3/4 csk brass", stack=stack)
    kept = Calculation(
        "K1", "Pull", "wood-screw-strength",
        (("gauge", "8"), ("penetration", "20 mm"), ("species", "white oak")),
        (("penetration", "F1 penetration"),),
    )  # fmt: skip
    build = Build("B1", "Stand", components=parts, joints=(joint,), calculations=(kept,))
    # 1 3/4 in less the batten of 22 mm, the head flush with it: 44.45 - 22 = 22.45 mm.
    (found,) = told(build)
    assert "F1 penetration was 20 mm and is 22.45 mm" in found.says
    assert read_build(write_build(build)) == build
    assert remove(build, "joint", "F1").calculations[0].ties == ()
    assert taken_along(build, "joint", "F1") == (
        "K1 Pull is no longer tied to it: penetration keeps the size that it has.",
    )
    assert rename_mark(build, "F1", "F9").calculations[0].ties == (("penetration", "F9 penetration"),)


@pytest.mark.parametrize(
    ("ties", "place", "says"),
    [
        ((("width", "P9 width"),), "calculations[0] (K1).ties['width']", "K1 is tied to P9 width: there is no component or joint 'P9'."),
        ((("width", "P1 hole h7 depth"),), "calculations[0] (K1).ties['width']", "K1 is tied to P1 hole h7 depth: P1 has no hole 'h7'."),
        ((("width", "P1 engagement"),), "calculations[0] (K1).ties['width']", "K1 is tied to P1 engagement: a part has no engagement"),
        ((("width", "P1 weight"),), "calculations[0] (K1).ties['width']", "'P1 weight' does not read as a size of the build"),
        ((("width", "P1 hole h1 weight"),), "calculations[0] (K1).ties['width']", "A hole has no size called 'weight'"),
        ((("depth", "P1 width"),), "calculations[0] (K1).ties['depth']", "K1 ties 'depth', which is not among its inputs."),
        ((("a[b].c", "P1 width"),), "calculations[0] (K1).ties['a[b].c']", "'a[b].c' names no input"),
    ],
)  # fmt: skip
def test_a_file_with_a_tie_to_what_is_not_there_is_refused(
    ties: tuple[tuple[str, str], ...], place: str, says: str
) -> None:
    build = replace(BENCH, calculations=(replace(KEPT, ties=ties),))
    with pytest.raises(InputError) as error:
        read_build(write_build(build))
    assert [fault.field for fault in error.value.faults] == [place]
    assert says in str(error.value)


def test_a_mark_is_once_in_a_build_whatever_it_is_of() -> None:
    with pytest.raises(InputError, match="The mark 'P1' is used already by components"):
        read_build(write_build(replace(BENCH, calculations=(replace(KEPT, mark="P1"),))))
    with pytest.raises(InputError, match="The mark 'K1' is used already by a calculation, 'Base across"):
        put(BENCH, "component", Component("K1", "Lid"))
    assert next_mark(BENCH, "calculation") == "K2"
    assert next_mark(Build("B1", "Box"), "calculation") == "K01"
    added = add_lines("part", "K2 Lid 100 x 50 x 6 oak", BENCH)
    assert next_mark(added.build, "calculation") == "K3"


def test_a_build_with_calculations_comes_back_from_file_and_documents_as_it_was() -> None:
    limit = ResultLimit("movement", "at least", "0.1 in")
    full = replace(KEPT, limits=(limit,), note="one\ntwo", inputs=(*GIVEN, ("screw", "")))
    build = replace(BENCH, calculations=(full, replace(KEPT, mark="K2")))
    assert read_build(write_build(build)) == build
    assert write_build(read_build(write_build(build))) == write_build(build)
    assert read_document("calculation", write_document("calculation", full)) == full


def test_a_rename_is_carried_into_ties_entries_and_steps() -> None:
    entry = Entry("e1", date(2025, 6, 1), "Looked.", marks=("K1",), hours=Decimal(1))
    build = replace(BENCH, entries=(entry,), steps=(AssemblyStep(1, "Glue", fits=("P1",)),))
    after = rename_mark(rename_mark(build, "P1", "Q7"), "K1", "S1")
    assert after.calculations[0] == replace(KEPT, mark="S1", ties=(("width", "Q7 width"),))
    assert after.entries[0].marks == ("S1",)
    assert read_build(write_build(after)) == after
    gone = remove(after, "calculation", "S1")
    assert (gone.calculations, gone.entries[0].marks) == ((), ())
    assert taken_along(after, "calculation", "S1") == ("One entry of the journal no longer names it.",)


def test_a_hole_that_a_calculation_hangs_on_is_not_taken_out_without_a_word() -> None:
    build = replace(BENCH, calculations=(replace(KEPT, ties=(("width", "P1 hole h1 depth"),)),))
    with pytest.raises(InputError, match="K1 is tied to P1 hole h1 depth: P1 has no hole 'h1'"):
        put(build, "component", replace(BASE, holes=()), key="P1")


def test_a_copy_stands_behind_the_first_and_can_be_moved() -> None:
    after, mark = duplicate(BENCH, "calculation", "K1")
    assert mark == "K2"
    assert [one.mark for one in move_record(after, "calculation", "K2", "K1").calculations] == ["K2", "K1"]


def test_two_states_are_compared_input_by_input() -> None:
    limit = ResultLimit("movement", "at most", "4 mm")
    after = replace(KEPT, inputs=(("width", "300 mm"), *GIVEN[2:]), ties=(), limits=(limit,), title="Base")
    changes = compare_builds(BENCH, replace(BENCH, calculations=(after,)))
    assert [(one.kind, one.key, one.field, one.old, one.new) for one in changes] == [
        ("calculation", "K1", "title", "Base across the grain", "Base"),
        ("calculation", "K1", "inputs[width]", "260 mm", "300 mm"),
        ("calculation", "K1", "inputs[species]", "white oak", ""),
        ("calculation", "K1", "ties[width]", "P1 width", ""),
        ("calculation", "K1", "limits[movement at most]", "", "result movement, bound at most, value 4 mm"),
    ]


def test_what_a_change_does_to_calculations_is_among_its_effects() -> None:
    found = effects(inspect_build(BENCH), inspect_build(widened("300")))
    assert [one.rule for one in found.new] == ["calculation-to-look-at"]


def test_ties_are_read_as_people_write_them() -> None:
    for text in ("P03 thickness", "P03.thickness", " P03  Thickness ", "P03. thickness"):
        assert read_tie(text).written == "P03 thickness"
    assert read_tie("P03.hole.h1.thread_depth").written == "P03 hole h1 thread depth"
    assert [name for name, _ in part_sizes(BASE)] == [
        "P1 length", "P1 width", "P1 thickness", "P1 hole h1 diameter", "P1 hole h1 depth",
        "P1 pocket k1 length", "P1 pocket k1 width", "P1 pocket k1 depth",
    ]  # fmt: skip


@pytest.mark.parametrize(
    "text", ["31,75 mm", "1 3/4 in", "10 thou", "20 SWG", "¾ in", "5' 3\"", "0.8", "1-1/4"]
)
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_a_size_is_written_so_that_it_reads_the_same_in_any_calculator(text: str, unit: str) -> None:
    length = read_length(text, unit=unit)  # type: ignore[arg-type]
    assert read_length(size_text(length)).ticks == length.ticks
