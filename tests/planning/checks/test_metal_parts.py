"""Rules for parts of metal: holes near edges and bends, how tight a bend is, how long the flat piece is."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from math import pi
from typing import Any

import pytest

from calculators.joints.model import Finding
from calculators.planning.edits import finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Bend, Build, Component, Hole, LayerHole, StackMember
from tests.planning.checks.small_builds import GROUND, block, build, found, joint, mm, pose, turned

CLAMPED = {"lock": "threadlocker"}


def left_after_mend(rule: str, whole: Build, index: int = 0) -> list[Finding]:
    """What is left of a rule after the first finding's mend is carried out, which makes no new error."""
    worked = inspect_build(whole)
    one = next(each for each in worked.findings if each.rule == rule)
    after = inspect_build(mend(worked, finding_key(one), index))
    errors = {(each.rule, each.where) for each in worked.findings if each.severity == "error"}
    assert {(each.rule, each.where) for each in after.findings if each.severity == "error"} <= errors
    return [each for each in after.findings if each.rule == rule]


def strap(*places: tuple[float, float], width: float = 40, **more: Any) -> tuple[Any, ...]:
    """A strap of steel screwed to a plate of steel, M6: 1.5 D is 9, 1.0 D is 6, 2 D is 12 mm."""
    holes = more.pop("holes", ())
    plate = block("P01", 160, 120, 12, *GROUND, material="mild steel")
    over = block("P02", 80, width, 5, pose("P01", 40, 40), material=more.pop("material", "mild steel"))
    stack = (StackMember(part="P02", holes=holes), "P01")
    fixing = joint(
        "F01", "M6 x 14 hex set screw steel", "P02", "top", list(places), *stack, **CLAMPED, **more
    )
    return plate, over, fixing


@pytest.mark.parametrize(
    ("u", "severity"), [(9.0, None), (8.9, "warning"), (6.0, "warning"), (5.9, "error"), (71.1, "warning")]
)
def test_a_hole_keeps_its_distance_from_the_end(u: float, severity: str | None) -> None:
    seen = found("edge-of-metal", *strap((u, 20)))
    assert [(one.severity, one.part, one.place) for one in seen] == (
        [(severity, "P02", "1")] if severity else []
    )
    if severity:
        assert seen[0].value == pytest.approx(min(u, 80 - u) / 6, abs=1e-5)


@pytest.mark.parametrize(("u", "severity"), [(12.0, None), (11.9, "warning"), (5.9, "error")])
def test_loaded_sideways_it_wants_two_diameters(u: float, severity: str | None) -> None:
    seen = found("edge-of-metal", *strap((u, 20), loaded_sideways=True))
    assert [one.severity for one in seen] == ([severity] if severity else [])


def test_a_screw_that_pulls_nothing_together_has_the_least_distance() -> None:
    assert found("edge-of-metal", *strap((6.0, 20), clamps=False)) == []
    assert [one.severity for one in found("edge-of-metal", *strap((5.9, 20), clamps=False))] == ["error"]


def test_a_slot_is_judged_by_the_end_that_is_nearer() -> None:
    """6.6 x 12.6 along the strap: its ends' centres are 3 mm either way; 12 - 3 = 9."""
    slot = LayerHole(kind="slot", diameter=mm(6.6), slot_length=mm(12.6), slot_along="u")
    assert found("edge-of-metal", *strap((12.0, 20), holes=(slot,))) == []
    (one,) = found("edge-of-metal", *strap((11.9, 20), holes=(slot,)))
    assert one.value == pytest.approx(8.9 / 6, abs=1e-5)


def test_it_says_which_is_worst_and_how_many_more() -> None:
    (one,) = found("edge-of-metal", *strap((8, 20), (72.5, 20)))
    assert one.says == (
        "F01 at place 2: the middle of the hole is 7.5 mm from the edge of P02, 1.25 D; 1.5 D is wanted, 9.0 mm: "
        "little metal is left to hold. 1 more hole of F01 in P02 is too near."
    )
    assert one.at == "joints[F01].places[2]"
    assert [(spot.part, spot.face, spot.u_mm, spot.v_mm) for spot in one.spots] == [
        ("P02", "top", 72.5, 20.0),
        ("P02", "top", 8.0, 20.0),
    ]


def test_all_that_are_too_near_are_moved_by_one_mend() -> None:
    """9.0 mm is wanted: 8 goes in by 1, 72.5 of 80 by 1.5."""
    (one,) = found("edge-of-metal", *strap((8, 20), (72.5, 20)))
    assert [each.says for each in one.mends] == [
        "Move 2 places of F01: place 2 by 1.5 mm, to u 71 mm; place 1 by 1 mm, to u 9 mm."
    ]
    assert left_after_mend("edge-of-metal", build(*strap((8, 20), (72.5, 20)))) == []


def test_a_place_is_moved_in_along_both_ways() -> None:
    assert left_after_mend("edge-of-metal", build(*strap((5.0, 7.0)))) == []


def test_a_strap_that_is_too_narrow_has_no_place_to_move_to() -> None:
    (one,) = found("edge-of-metal", *strap((40, 8), width=16))
    assert [(each.says, each.field) for each in one.mends] == [("A thinner screw, or a wider part.", "")]


def test_wood_is_no_metal_and_rods_are_drilled_on_their_axis() -> None:
    assert found("edge-of-metal", *strap((5.0, 20), material="beech")) == []
    plate = block("P01", 80, 60, 5, *GROUND, material="brass")

    def post(diameter: float) -> list[Finding]:
        rod = turned("P02", 30, diameter, pose("P01", 40, 30, own_face="left", point="centre"))
        fixing = joint("F01", "M4 x 16 pan steel", "P01", "bottom", [(40, 30)], "P01", "P02", **CLAMPED)
        return found("edge-of-metal", plate, rod, fixing)

    assert post(5.6) == []  # 2.8 = 0.7 D
    assert [(one.severity, one.part) for one in post(5.5)] == [("error", "P02")]


@pytest.mark.parametrize(
    ("kind", "v", "severity"),
    [
        ("clearance", 9.0, None),
        ("clearance", 8.9, "warning"),
        ("clearance", 5.9, "error"),
        ("plain", 6.0, None),  # it may be a bore: only the wall counts
        ("plain", 5.9, "error"),
        ("spot", 2.0, None),
    ],
)
def test_holes_by_hand_are_judged_by_their_own_diameter(kind: Any, v: float, severity: str | None) -> None:
    plate = block("P01", 80, 60, 5, *GROUND, material="brass",
                  holes=(Hole("h1", "top", mm(40), mm(v), kind=kind, diameter=mm(6)),))  # fmt: skip
    seen = found("edge-of-metal", plate)
    assert [(one.severity, one.at) for one in seen] == (
        [(severity, "components[P01].holes[h1]")] if severity else []
    )
    if severity:
        assert left_after_mend("edge-of-metal", build(plate)) == []


def test_a_tapped_hole_by_hand_goes_by_its_thread() -> None:
    hole = Hole("h1", "top", mm(9), mm(30), kind="tapping", diameter=mm(5), thread="M6")
    plate = block("P01", 80, 60, 12, *GROUND, material="brass", holes=(hole,))
    assert found("edge-of-metal", plate) == []
    nearer = replace(plate, holes=(replace(hole, u=mm(8.9)),))
    assert [one.value for one in found("edge-of-metal", nearer)] == [pytest.approx(8.9 / 6, abs=1e-5)]


def folded(material: str = "mild steel", t: float = 2.0, *holes: Hole, **more: Any) -> Component:
    legs = more.pop("legs", ())
    length = more.pop("length", 120.0)
    fold = Bend("b1", mm(60), radius=mm(more.pop("radius", 2.0)), **more)
    return block("P01", length, 40, t, *GROUND, material=material, bends=(fold,), holes=holes,
                 legs=tuple(map(mm, legs)))  # fmt: skip


HALF = pi / 2 * (2 + 0.325 * 2) / 2
"""Half of the allowance of 2 mm bent square at 2 mm inside: k = 0.65 / 2 (DIN 6935, from memory); 2.081 mm."""


@pytest.mark.parametrize(
    ("straight", "severity"), [(5.001, None), (4.999, "warning"), (3.001, "warning"), (2.999, "error")]
)
@pytest.mark.parametrize("way", [-1, 1])
def test_a_hole_keeps_clear_of_a_bend(straight: float, way: int, severity: str | None) -> None:
    """2.5 t is 5 and 1.5 t is 3 mm from the hole's edge to where the bend begins; the radius besides, to the leg."""
    hole = Hole("h1", "top", mm(60 + way * (2.5 + HALF + straight)), mm(20), diameter=mm(5))
    seen = found("hole-to-bend", folded("mild steel", 2.0, hole))
    assert [one.severity for one in seen] == ([severity] if severity else [])
    if severity:
        assert seen[0].value == pytest.approx(straight + 2, abs=1e-4)
        assert left_after_mend("hole-to-bend", build(folded("mild steel", 2.0, hole))) == []


def test_a_bend_along_the_part_is_measured_across_it() -> None:
    """On the bottom v runs from the back: v 10 is Y 30, 10 mm from the line: 10 - 2.5 - 2.081 = 5.42 are left."""
    line = (Bend("b1", mm(20), "along", radius=mm(2)),)

    def at(v: float) -> list[Finding]:
        hole = Hole("h1", "bottom", mm(60), mm(v), diameter=mm(5))
        return found("hole-to-bend", replace(folded("mild steel", 2.0, hole), bends=line))

    assert at(10) == []
    assert [one.value for one in at(11)] == [pytest.approx(9 - 2.5 - HALF + 2, abs=1e-5)]


def test_a_hole_of_a_joint_is_told_with_its_place() -> None:
    plate = block("P02", 160, 80, 8, *GROUND, material="mild steel")
    sheet = replace(folded(), poses=(pose("P02", 20, 20),))
    fixing = joint("F01", "M5 x 12 pan steel", "P01", "top", [(52, 20)], "P01", "P02", **CLAMPED)
    (one,) = found("hole-to-bend", plate, sheet, fixing)
    assert (one.joint, one.part, one.place, one.at) == ("F01", "P01", "1", "joints[F01].places[1]")
    assert one.value == pytest.approx(8 - 5.5 / 2 - HALF + 2)  # 5.5 is the medium hole of M5, ISO 273


@pytest.mark.parametrize(
    ("material", "more", "good", "least"),
    [
        ("mild steel", {}, 2.0, 1.0),  # t
        ("mild steel", {"rolling": "along"}, 3.0, 1.5),  # 1.5 t
        ("brass", {}, 2.0, 1.0),
        ("brass", {"rolling": "along"}, 4.0, 2.0),
        ("brass", {"annealed": True}, 1.0, 0.5),
        ("aluminium 6082", {}, 6.0, 3.0),
        (
            "copper",
            {},
            2.0,
            1.0,
        ),  # soft as it is sold, but the thickness is asked for where it was not annealed
        ("spring steel", {}, 6.0, 3.0),
    ],
)
def test_a_bend_is_no_tighter_than_its_metal_takes(
    material: str, more: dict[str, Any], good: float, least: float
) -> None:
    """Radii in thicknesses as workshop handbooks have them (from memory); half of them is an error."""

    def severities(radius: float) -> list[str]:
        return [one.severity for one in found("bend-radius", folded(material, 2.0, radius=radius, **more))]

    assert severities(good) == []
    assert severities(good - 0.01) == ["warning"]
    assert severities(least) == ["warning"]
    assert severities(least - 0.01) == ["error"]


def test_bends_are_mended_by_a_radius_by_heat_and_by_turning_the_blank() -> None:
    sheet = folded("brass", 2.0, radius=2.0, rolling="along")
    (one,) = found("bend-radius", sheet)
    assert [each.says for each in one.mends] == [
        "Bend it to 4 mm.",
        "Anneal it along the bend first.",
        "Cut the blank so that it is bent across the rolling.",
    ]
    for index in range(3):
        assert left_after_mend("bend-radius", build(sheet), index) == []


def test_a_bend_without_a_radius_is_told_once_for_its_part() -> None:
    sheet = folded()
    bends = tuple(replace(sheet.bends[0], id=name, radius=None) for name in ("b1", "b2"))
    (one,) = found("bend-radius", replace(sheet, bends=bends))
    assert (one.severity, one.part, one.at) == ("unchecked", "P01", "components[P01].bends[b1].radius")


FLAT = 40 + 30 - (2 * 4 - 2 * HALF)
"""Legs of 40 and 30 outside, 2 mm sheet, 2 mm inside: 70 - (2 x 4 - 4.163) = 66.163 mm."""


@pytest.mark.parametrize(
    ("off", "severity"),
    [
        (0.299, None),
        (-0.299, None),
        (0.301, "warning"),
        (-0.999, "warning"),
        (1.001, "error"),
        (-1.001, "error"),
    ],
)
def test_the_flat_piece_makes_its_legs(off: float, severity: str | None) -> None:
    sheet = folded(length=FLAT + off, legs=(40, 30))
    seen = found("flat-length", sheet)
    assert [one.severity for one in seen] == ([severity] if severity else [])
    if severity:
        assert seen[0].value == pytest.approx(abs(off), abs=1e-4)
        assert left_after_mend("flat-length", build(sheet)) == []


def test_legs_that_do_not_go_with_the_bends_are_told() -> None:
    (one,) = found("flat-length", folded(legs=(40, 30, 20)))
    assert (one.severity, one.says) == (
        "unchecked",
        "P01 has 3 legs and 1 bend across its length; there is one leg more than bends, so its flat length is not "
        "looked at.",
    )
    (short,) = found("flat-length", folded(legs=(40, 3)))
    assert short.severity == "error"
    assert short.says == (
        "The folds of P01 cannot be laid out flat: Leg 2 of 3 mm is shorter than the 4 mm that its bends take of "
        "it; write a longer leg or a smaller radius."
    )


def test_a_sharp_bend_says_that_its_length_cannot_be_told() -> None:
    (one,) = found("flat-length", folded(legs=(40, 30), radius=0.1))
    assert "no k factor follows from the radius" in one.says


def test_odd_parts_are_let_be() -> None:
    rod = turned("P01", 60, 10, *GROUND, bends=(Bend("b1", mm(30), radius=mm(1)),), legs=(mm(30), mm(30)))
    for rule in ("hole-to-bend", "bend-radius", "flat-length"):
        assert found(rule, rod) == []
        assert found(rule, replace(rod, size=replace(rod.size, length=None))) == []
    assert found("bend-radius", folded("acrylic", radius=0.1)) == []
    flat = Bend("b1", mm(60), angle_deg=Decimal(0), radius=mm(2))
    assert found("hole-to-bend", replace(folded(), bends=(flat,))) == []
