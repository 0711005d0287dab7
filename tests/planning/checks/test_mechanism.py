"""Rules for mechanisms, each just inside and just outside its limits, and what mends it.

Limits: a margin of 1 degree at a pivot, pretension of 1.2 times the travel, 10 % of the travel left before a
spring is solid, a coil of 4 to 12 wires (EN 13906, from memory), 0.02 mm in a bush, 0.1 to 0.3 mm of end shake,
span/300 and 150, 70 and 80 % of a string's strength: common practice, where no other is named.
"""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.joints.model import Finding
from calculators.planning.edits import can_mend, finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import (
    AssemblyStep,
    Build,
    Calculation,
    Component,
    Context,
    Hole,
    Joint,
    Motion,
    ResultLimit,
    Size,
    StackMember,
)
from calculators.planning.worked import WorkedBuild
from tests.planning.checks.small_builds import block, build, mm, pose, turned

SPRING = {"kind": "compression", "material": "music-wire", "wire": "2 mm", "outside_diameter": "20 mm",
          "total_coils": "9", "ends": "closed-and-ground", "free_length": "40 mm"}  # fmt: skip
"""Solid at 9 x 2 = 18 mm: 22 mm of travel."""

PULLED = {"kind": "extension", "material": "music-wire", "wire": "0.6 mm", "outside_diameter": "6 mm",
          "active_coils": "30", "free_length": "40 mm"}  # fmt: skip

EDGE = {"edge_angle": "60 deg", "v_angle": "90 deg"}
"""The edge swings (90 - 60) / 2 = 15 degrees to either side."""


def kept(
    calculator: str, inputs: dict[str, str], *limits: ResultLimit, title: str = "Kept", **more: object
) -> Build:
    one = Calculation("K01", title, calculator, tuple(inputs.items()), limits=limits)
    return replace(build(), calculations=(one,), **more)  # type: ignore[arg-type]


def told(rule: str, one: Build) -> list[Finding]:
    worked = inspect_build(one)
    assert [each for each in worked.findings if each.rule in ("calculation-not-worked", "rule-failed")] == []
    return [each for each in worked.findings if each.rule == rule]


def severities(rule: str, one: Build) -> list[str]:
    return [each.severity for each in told(rule, one)]


def mended(rule: str, one: Build, index: int = 0) -> list[Finding]:
    """What the rule says once its first finding has been mended by the mend that it offers."""
    worked: WorkedBuild = inspect_build(one)
    finding = next(each for each in worked.findings if each.rule == rule)
    assert can_mend(worked, finding, index)
    return told(rule, mend(worked, finding_key(finding), index))


# --- pivots


@pytest.mark.parametrize(
    ("stop", "expected"),
    [("14 deg", []), ("14.01 deg", ["warning"]), ("15 deg", ["warning"]), ("15.01 deg", ["error"])],
)
def test_stops_of_a_knife_edge(stop: str, expected: list[str]) -> None:
    one = kept("knife-edge", EDGE | {"stop_low": "-10 deg", "stop_high": stop})
    assert severities("pivot-travel", one) == expected


def test_a_stop_too_far_says_by_how_much_and_is_set_nearer() -> None:
    one = kept("knife-edge", EDGE | {"stop_low": "-10 deg", "stop_high": "16 deg"}, title="Beam")
    (found,) = told("pivot-travel", one)
    assert (found.value, found.limit, found.unit, found.at) == (
        -1.0,
        1.0,
        "deg",
        "calculations[K01].inputs[stop_high]",
    )
    assert found.says == (
        "K01 Beam: the stop acts at 16 deg, the free swing is 15 deg, 1 deg before it: the edge rides up or the "
        "flexure is overbent. Set the stops at 14 deg or less, or give it more swing."
    )
    assert mended("pivot-travel", one) == []


def test_stops_given_by_their_gaps_are_set_nearer_by_the_gap() -> None:
    """Lever 6 wide, tips at 220: 4 degrees are 220 tan 4 + 3 / cos 4 - 3 = 15.3915 mm; rounded down 15.3."""
    gaps = {"stop_radius": "220 mm", "gap_low": "23.5 mm", "gap_high": "23.5 mm", "lever_width": "6 mm"}
    one = kept("knife-edge", {"edge_angle": "60 deg", "v_angle": "70 deg"} | gaps)
    (found,) = told("pivot-travel", one)
    assert found.mends[0].says == "Set the stops nearer: gap low 15.3 mm, gap high 15.3 mm."
    assert mended("pivot-travel", one) == []


def test_the_same_lever_as_a_pivot() -> None:
    lever = {"kind": "knife-edge", "inertia": "0.01 kg m2", "lever_mass": "0.1 kg", "centre_y": "-5 mm"}
    one = kept("pivot", EDGE | lever | {"stop_low": "-10 deg", "stop_high": "14.5 deg"})
    assert [(each.severity, each.value) for each in told("pivot-travel", one)] == [("warning", 0.5)]


@pytest.mark.parametrize(
    ("stop", "expected"), [("7 deg", []), ("7.5 deg", ["warning"]), ("9 deg", ["error"])]
)
def test_stops_of_a_flexure_against_what_it_bears(stop: str, expected: list[str]) -> None:
    lever = {
        "kind": "flexure",
        "inertia": "0.01 kg m2",
        "flexure_rate": "0.2 N m/deg",
        "flexure_limit": "8 deg",
    }
    one = kept("pivot", lever | {"stop_low": "-5 deg", "stop_high": stop})
    assert severities("pivot-travel", one) == expected


def test_a_limit_of_the_persons_own_holds_instead() -> None:
    one = kept("knife-edge", EDGE | {"stop_low": "-10 deg", "stop_high": "16 deg"},
               ResultLimit("swing_left", "at least", "1 deg"))  # fmt: skip
    found = inspect_build(one).findings
    assert "pivot-travel" not in {each.rule for each in found}
    assert "calculation-beyond-limit" in {each.rule for each in found}


# --- springs


@pytest.mark.parametrize(
    ("working", "expected"),
    [("49.6 mm", []), ("49.5 mm", ["warning"]), ("48.1 mm", ["warning"]), ("48 mm", ["error"])],
)
def test_an_extension_spring_that_gives_up_8_mm(working: str, expected: list[str]) -> None:
    """Set by its working length less 40; 1.2 x 8 = 9.6."""
    one = kept("spring", PULLED | {"working_length": working, "travel": "8 mm"})
    assert severities("spring-slack", one) == expected
    if expected:
        assert mended("spring-slack", one) == []


def test_a_pressed_spring_must_not_come_loose_either() -> None:
    one = kept("spring", SPRING | {"working_length": "36 mm", "travel": "5 mm"})
    (found,) = told("spring-slack", one)
    assert (found.severity, found.value, found.limit) == ("error", 4.0, 6.0)
    assert mended("spring-slack", one) == []


def test_the_springs_of_a_lever_are_told_one_by_one() -> None:
    """Lever arms of 100 and springs square to them: at 6 degrees about 10.45 mm are given up."""
    springs = "100 mm, 0 mm, 100 mm, 51 mm, 0.2 N/mm, 40 mm; 100 mm, 0 mm, 100 mm, -53 mm, 0.2 N/mm, 40 mm"
    lever = {
        "springs": springs,
        "inertia": "0.01 kg m2",
        "plane": "level",
        "stop_low": "-6 deg",
        "stop_high": "6 deg",
    }
    found = told("spring-slack", kept("pivot", lever))
    assert [each.place for each in found] == ["spring 1"]
    assert found[0].severity in ("warning", "error")


@pytest.mark.parametrize(
    ("working", "expected"), [("20.3 mm", []), ("20.1 mm", ["warning"]), ("18.1 mm", ["warning"])]
)
def test_travel_left_before_it_is_solid(working: str, expected: list[str]) -> None:
    """10 % of 22 mm are 2.2: from 18 + 2.2 = 20.2 mm on."""
    one = kept("spring", SPRING | {"working_length": working})
    assert [each.severity for each in told("spring-solid", one) if each.place == "travel left"] == expected


def test_it_closes_within_its_movement() -> None:
    one = kept("spring", SPRING | {"working_length": "21 mm", "travel": "3 mm"})
    (found,) = [each for each in told("spring-solid", one) if each.place == "travel left"]
    assert (found.severity, found.value) == ("error", 0.0)


@pytest.mark.parametrize(
    ("allowed", "house", "expected"),
    [
        ("60", None, []),
        ("60", "25.8", []),
        ("60", "25.6", ["warning"]),
        ("25.8", None, []),
        ("25.6", None, ["error"]),
    ],
)
def test_stress_against_the_wire_and_against_the_house(
    allowed: str, house: str | None, expected: list[str]
) -> None:
    """k = G d^4 / (8 D^3 n) = 80000 x 16 / (8 x 5832 x 7) = 3.9193 N/mm; at 20.3 mm 19.7 x k = 77.21 N.

    Wahl at C = 9: 35/32 + 0.615/9 = 1.16208; 1.16208 x 8 x 77.21 x 18 / (pi x 8) = 514.0 MPa, 25.70 % of 2000.
    """
    wire = {"shear_modulus": "80 GPa", "tensile_strength": "2000 MPa", "allowed_share": f"{allowed} %"}
    one = kept("spring", SPRING | wire | {"working_length": "20.3 mm"})
    limits = (("spring-stress", Decimal(house)),) if house else ()
    found = told("spring-solid", replace(one, context=Context(limits=limits)))
    assert [each.severity for each in found if each.place == "stress"] == expected
    assert all(each.value == pytest.approx(25.70, abs=0.01) for each in found if each.place == "stress")


@pytest.mark.parametrize(
    ("outside", "expected"),
    [("7.9 mm", ["error"]), ("8 mm", ["warning"]), ("9.9 mm", ["warning"]), ("10 mm", []), ("26 mm", []),
     ("26.2 mm", ["warning"]), ("34 mm", ["warning"]), ("34.2 mm", ["error"])],
)  # fmt: skip
def test_the_index_of_a_spring(outside: str, expected: list[str]) -> None:
    """Wire 2 mm: the mean coil is the outside less 2, the index half of that: 3, 4, 12 and 16 at 8, 10, 26, 34."""
    one = kept("spring", SPRING | {"outside_diameter": outside, "working_length": "39.5 mm"})
    assert severities("spring-index", one) == expected


# --- shafts


@pytest.mark.parametrize(
    ("shaft", "expected"),
    [("9.97", []), ("9.98", []), ("9.99", ["warning"]), ("10", ["warning"]), ("10.01", ["error"])],
)
def test_a_spindle_in_a_bearing_as_they_lie(shaft: str, expected: list[str]) -> None:
    spindle = turned(
        "P02", 120, float(shaft), pose("P01", face="left", own_face="right", point="centre", let_in=80.0),
        end_shake=mm(0.2),
    )  # fmt: skip
    one = build(turned("P01", 40, 25, pose(), bore=10), spindle)
    assert severities("running-fit", one) == expected
    if expected:
        assert mended("running-fit", one) == []


def test_a_made_bearing_leaves_the_shaft_to_be_turned_down() -> None:
    spindle = turned(
        "P02",
        120,
        10,
        pose("P01", face="left", own_face="right", point="centre", let_in=80.0),
        end_shake=mm(0.2),
    )
    one = build(turned("P01", 40, 25, pose(), bore=10, state="made"), spindle)
    (found,) = told("running-fit", one)
    assert found.mends[0].says == "Turn P02 to 9.97 mm."
    assert mended("running-fit", one) == []


def test_a_spindle_through_a_reamed_hole_of_a_plate() -> None:
    hole = Hole("h1", "top", mm(50), mm(30), kind="reamed", diameter=mm(8))
    plate = block("P01", 100, 60, 12, pose(), material="brass", holes=(hole,))
    spindle = turned(
        "P02", 60, 8, pose("P01", 50, 30, own_face="left", point="centre", let_in=30.0), end_float=mm(2)
    )
    (found,) = told("running-fit", build(plate, spindle))
    assert (found.severity, found.part, found.at) == ("warning", "P01", "components[P01].holes[h1].diameter")
    assert mended("running-fit", build(plate, spindle)) == []


def test_a_peg_that_does_not_run_is_no_bearing() -> None:
    peg = turned("P02", 60, 10, pose("P01", face="left", own_face="right", point="centre", let_in=30.0))
    assert told("running-fit", build(turned("P01", 40, 25, pose(), bore=10), peg)) == []


def test_a_collar_that_is_clamped_to_its_shaft_does_not_run_on_it() -> None:
    shaft = turned("P02", 60, 10, pose("P01", face="left", own_face="right", point="centre", let_in=40.0),
                   end_shake=mm(0.2))  # fmt: skip
    collar = turned("P01", 10, 25, pose(), bore=10)
    grub = Joint(
        "F01", "Collar", "M4 x 6 grub", "P01", "side", stack=(StackMember(part="P01"),), clamps=False
    )
    assert told("running-fit", build(collar, shaft, grub)) == []


def test_of_what_sits_on_a_shaft_only_its_bushes_are_bearings() -> None:
    lies = {"face": "left", "own_face": "right", "point": "centre"}
    shaft = turned("P02", 120, 10, pose("P01", **lies, let_in=80.0), end_float=mm(4))
    bush = replace(turned("P01", 40, 25, pose(), bore=10), name="Bush")
    cap = replace(turned("P03", 6, 60, pose("P01", **lies, let_in=-10.0), bore=10), name="End plate")
    assert [each.part for each in told("running-fit", build(bush, shaft, cap))] == ["P01"]
    plain = replace(bush, name="Plate")
    drum = replace(cap, name="Drum cap")
    assert [each.part for each in told("running-fit", build(plain, shaft, drum))] == ["P01"]


def test_a_wheel_that_moves_on_a_fixed_axle_runs() -> None:
    axle = turned("P02", 120, 10, pose("P01", face="left", own_face="right", point="centre", let_in=80.0))
    wheel = turned("P01", 40, 90, pose(), bore=10, motion=Motion("turns", "X", Decimal(-180), Decimal(180)))
    assert [each.part for each in told("running-fit", build(wheel, axle))] == ["P01"]
    carrying = replace(wheel, motion=Motion("turns", "X", Decimal(-180), Decimal(180), carries=("P02",)))
    assert told("running-fit", build(carrying, axle)) == []


def test_a_fit_that_is_kept_speaks_for_the_size() -> None:
    spindle = turned("P02", 120, 10, pose("P01", face="left", own_face="right", point="centre", let_in=80.0),
                     end_shake=mm(0.2))  # fmt: skip
    fit = Calculation("K01", "Spindle runs in its bearing", "fit", (("diameter", "10 mm"), ("shaft", "f7")))
    one = replace(build(turned("P01", 40, 25, pose(), bore=10), spindle), calculations=(fit,))
    assert told("running-fit", one) == []


@pytest.mark.parametrize(("shaft", "expected"), [("f7", []), ("h6", []), ("k6", ["error"])])
def test_a_kept_fit_that_is_to_run(shaft: str, expected: list[str]) -> None:
    """H7/f7 of 8 leaves 13 to 43 um, H7/h6 0 to 24 um; k6 may be 10 um over (ISO 286-1, from memory)."""
    one = kept("fit", {"diameter": "8 mm", "shaft": shaft}, title="Shaft that runs in the plate")
    assert severities("running-fit", one) == expected


def test_a_kept_press_fit_is_meant() -> None:
    assert told("running-fit", kept("fit", {"diameter": "8 mm", "shaft": "p6"}, title="Peg pressed in")) == []


@pytest.mark.parametrize(("bore", "expected"), [("8.02", []), ("8.019", ["warning"]), ("8", ["error"])])
def test_a_bush_without_interference(bore: str, expected: list[str]) -> None:
    inputs = {
        "bore": "12 mm",
        "bush_outside": "12 mm",
        "bush_bore": f"{bore} mm",
        "length": "12 mm",
        "shaft": "8 mm",
    }
    assert severities("running-fit", kept("bush-fit", inputs)) == expected


@pytest.mark.parametrize(
    ("play", "expected"),
    [("0", "error"), ("0.09", "warning"), ("0.1", ""), ("0.3", ""), ("0.31", "note"), ("0.5", "note"), ("0.51", "warning")],
)  # fmt: skip
def test_end_shake(play: str, expected: str) -> None:
    shaft = Component("P01", "Shaft", size=Size("round", mm(90), diameter=mm(8)), end_shake=mm(float(play)))
    assert severities("end-shake", build(shaft)) == ([expected] if expected else [])
    if expected:
        assert mended("end-shake", build(shaft)) == []


# --- stored energy


def with_spring(*steps: AssemblyStep) -> Build:
    spring = Component("P01", "Return spring", material="music wire", stock="bought")
    return replace(build(spring), steps=steps)


@pytest.mark.parametrize(
    ("caution", "expected"),
    [
        ("", ["error"]),
        ("Wear gloves.", ["error"]),
        ("Spring under tension: wear eye protection.", ["warning"]),
        ("Let the spring down before the plate comes off.", []),
        ("Unhook the springs first.", []),
        ("Support the bob while the wire is slack.", []),
    ],
)
def test_a_caution_says_how_it_is_made_safe(caution: str, expected: list[str]) -> None:
    one = with_spring(AssemblyStep(1, "Frame"), AssemblyStep(2, "Spring", fits=("P01",), caution=caution))
    assert severities("stored-energy", one) == expected
    if expected:
        (found,) = told("stored-energy", one)
        assert (found.place, found.at) == ("step 2", "steps[2].caution")
        assert mended("stored-energy", one) == []


def test_without_steps_it_is_not_looked_at() -> None:
    assert severities("stored-energy", with_spring()) == ["unchecked"]


@pytest.mark.parametrize("name", ["Spring anchor post", "Springboard", "Needle"])
def test_what_stores_no_energy(name: str) -> None:
    part = Component("P01", name, material="music wire" if name == "Needle" else "brass")
    assert told("stored-energy", replace(build(part), steps=(AssemblyStep(1, "All"),))) == []


def test_a_kept_calculation_of_strings_is_stored_energy_too() -> None:
    one = kept("string-tension", {"length": "600 mm", "diameter": "0.4 mm", "tension": "60 N"},
               steps=(AssemblyStep(1, "Strings"),))  # fmt: skip
    assert severities("stored-energy", one) == ["error"]


# --- bending and strings

SHELF = {"width": "250 mm", "thickness": "18 mm", "modulus": "10 GPa", "load": "200 N", "creep": "2"}


@pytest.mark.parametrize(
    ("span", "expected"), [("881", []), ("882", ["warning"]), ("1247", ["warning"]), ("1248", ["error"])]
)
def test_sag_of_a_shelf(span: str, expected: list[str]) -> None:
    """I = 250 x 18^3 / 12 = 121500 mm4; 2 x 5 x 200 x L^3 / (384 x 10000 x 121500) = L / 300.

    L^2 = 384 x 10000 x 121500 / (2000 x 300): L = 881.8 mm; for span/150 L = 1247.1 mm.
    """
    one = kept("shelf-sag", SHELF | {"span": f"{span} mm"})
    assert severities("sag", one) == expected
    if expected:
        assert mended("sag", one) == []


@pytest.mark.parametrize(("tension", "expected"), [("79 N", []), ("80 N", ["warning"]), ("159 N", ["error"])])
def test_the_bow_of_a_frame_under_strings(tension: str, expected: list[str]) -> None:
    """I = 20 x 35^3 / 12 = 71458.3 mm4; 10 strings at 20 from the neutral axis: 2 x 10 x 20 x T x 600^2 / (8 x 10000
    x I) is 2 mm (600/300) at T = 79.40 N, and 4 mm (600/150) at 158.80 N."""
    frame = {"strings": f"10, {tension}", "length": "600 mm", "offset": "20 mm", "creep": "2"}
    one = kept("string-frame", frame | {"section": "rectangle 20 x 35 mm", "modulus": "10 GPa"})
    assert severities("sag", one) == expected


def test_a_limit_asked_of_the_calculation_is_taken() -> None:
    """881 mm keeps to span/300 and not to span/400."""
    one = kept("shelf-sag", SHELF | {"span": "881 mm", "limit": "400"})
    (found,) = told("sag", one)
    assert (found.severity, found.limit) == ("warning", pytest.approx(881 / 400))


def test_a_persons_limit_on_the_deflection_holds_instead() -> None:
    one = kept("shelf-sag", SHELF | {"span": "1300 mm"}, ResultLimit("deflection", "at most", "20 mm"))
    assert told("sag", one) == []


@pytest.mark.parametrize(
    ("tension", "expected"),
    [("130.2", []), ("130.4", ["warning"]), ("148.8", ["warning"]), ("149", ["error"])],
)
def test_a_string_near_breaking(tension: str, expected: list[str]) -> None:
    """0.3 mm: 2211 / 0.3^0.145 = 2632.73 MPa (Shigley table 10-4, from memory) x 0.070686 mm2 = 186.10 N;
    70 % are 130.27 N, 80 % 148.88 N."""
    one = kept("string-tension", {"length": "600 mm", "diameter": "0.3 mm", "tension": f"{tension} N"})
    assert severities("wire-stress", one) == expected


def test_a_string_tuned_too_high_is_made_shorter() -> None:
    one = kept("string-tension", {"length": "900 mm", "diameter": "0.4 mm", "note": "E4"})
    (found,) = told("wire-stress", one)
    assert found.mends[0].value.startswith("calculations[K01].inputs[length] = ")
    assert mended("wire-stress", one) == []
