"""Holes by hand that should be in line with a mate's hole or a joint's axis: inside and outside the fit."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.planning.inspection import inspect_build
from calculators.planning.model import Component, Hole, Pose
from tests.planning.checks.mended import left_after, of_rule
from tests.planning.checks.small_builds import GROUND, block, build, found, hole, inspected, joint, mm, pose

RULE = "holes-of-mates"


def plate(mark: str, *holes: Hole, at: Pose | None = None, **more: object) -> Component:
    more.setdefault("material", "brass")
    return block(mark, 100, 40, 5, at or pose("P1"), holes=holes, **more)


def lower(*holes: Hole, **more: object) -> Component:
    return plate("P1", *holes, at=Pose(), **more)


@pytest.mark.parametrize(
    ("u", "severity"),
    [(20.0, None), (20.13, None), (20.15, "warning"), (20.24, "warning"), (20.26, "error"), (22.0, "error"),
     (23.15, "error"), (23.25, None)],
)  # fmt: skip
def test_two_holes_are_off_by_no_more_than_half_their_difference(u: float, severity: str | None) -> None:
    """6.4 and 6.0: 0.2 mm, 0.14 mm is 70 % of it, and a twentieth for the drill; beyond 3.2 mm they are two."""
    findings = found(RULE, lower(hole("a", "top", 20, 20, 6.4)), plate("P2", hole("b", "top", u, 20, 6.0)))
    assert [one.severity for one in findings] == ([severity] if severity else [])
    if severity:
        assert (findings[0].value, findings[0].limit) == pytest.approx((u - 20, 0.2))
        assert (findings[0].part, findings[0].place, findings[0].at) == (
            "P2",
            "b",
            "components[P2].holes[b].u",
        )


def test_a_tapped_hole_counts_as_wide_as_its_thread() -> None:
    """M6 tapped 5.0 under a clearance hole of 6.6: (6.6 - 6) / 2 = 0.3, not 0.8."""
    tapped = hole("a", "top", 20, 20, 5.0, kind="tapping", thread="M6")
    (one,) = found(RULE, lower(tapped), plate("P2", hole("b", "top", 20.4, 20, 6.6, kind="clearance")))
    assert (one.severity, one.limit) == ("error", pytest.approx(0.3))


def test_holes_of_very_unlike_sizes_or_that_do_not_go_on_are_not_meant_as_one() -> None:
    wide = lower(hole("a", "top", 20, 20, 14))
    assert found(RULE, wide, plate("P2", hole("b", "top", 26.5, 20, 6))) == []
    blind = lower(hole("a", "bottom", 20, 20, 6, depth=3))
    assert found(RULE, blind, plate("P2", hole("b", "top", 21, 20, 6))) == []
    assert (
        len(
            found(RULE, lower(hole("a", "top", 20, 20, 6, depth=3)), plate("P2", hole("b", "top", 21, 20, 6)))
        )
        == 1
    )


def test_holes_of_parts_that_do_not_touch_are_no_mates() -> None:
    apart = plate("P2", hole("b", "top", 21, 20, 6), at=pose("P1", let_in=-1))
    assert found(RULE, lower(hole("a", "top", 20, 20, 6)), apart) == []


def test_a_slot_gives_along_its_length_and_not_across() -> None:
    slot = Hole("a", "top", mm(20), mm(20), kind="slot", diameter=mm(6), slot_length=mm(12), slot_along="u")
    for u, v, told in ((22.5, 20.0, False), (17.5, 20.0, False), (20.0, 21.0, True), (23.5, 20.0, True)):
        assert bool(found(RULE, lower(slot), plate("P2", hole("b", "top", u, v, 6)))) == told


def test_the_planned_part_is_to_be_moved_first() -> None:
    holes = hole("a", "top", 20, 20, 6), hole("b", "top", 21, 20, 6)
    (one,) = found(RULE, lower(holes[0]), plate("P2", holes[1], state="made"))
    assert (one.part, one.place) == ("P1", "a")
    assert [mend.says for mend in one.mends] == ["Move hole a of P1 to u 21 mm, v 20 mm."]
    (one,) = found(RULE, lower(holes[0], state="made"), plate("P2", holes[1]))
    assert [mend.says for mend in one.mends] == ["Move hole b of P2 to u 20 mm, v 20 mm."]


def test_all_holes_of_a_pair_are_told_and_mended_at_once() -> None:
    ours = [hole(f"a{n}", "top", 20 * n, 20, 6) for n in (1, 2, 3)]
    theirs = [hole(f"b{n}", "top", 20 * n + 0.5 * n, 20, 6) for n in (1, 2, 3)]
    worked = inspected(lower(*ours), plate("P2", *theirs))
    (one,) = of_rule(worked, RULE)
    assert one.place == "b3"
    assert one.says.endswith("So are 2 more.")
    assert left_after(worked, RULE) == [[], []]


def test_it_goes_by_where_the_parts_lie() -> None:
    """The upper plate turned half about lies with its hole at u 80 over the lower one's at u 20."""
    about = Pose(on="P1", u=mm(100), v=mm(40), turned_deg=Decimal(180))
    for u, told in ((80.0, False), (79.0, True)):
        upper = plate("P2", hole("b", "top", u, 20, 6), at=about)
        worked = inspected(lower(hole("a", "top", 20, 20, 6)), upper)
        assert bool(of_rule(worked, RULE)) == told
        if told:
            assert left_after(worked, RULE) == [[], []]


def hinge(u: float, size: float = 4.5, v: float = 12.5) -> tuple[object, ...]:
    stile = block("P1", 300, 60, 22, *GROUND)
    leaf = block(
        "P2", 64, 25, 2, pose("P1", 100, 10), material="brass", state="in hand",
        holes=(hole("a", "top", 10, 12.5, size), hole("b", "top", 54, 12.5, size)),
    )  # fmt: skip
    screws = joint(
        "F1", "4 x 20 pan brass wood screw", "P2", "top", [(10, 12.5), (u, v)], "P2", "P1", steel_first=True
    )
    return stile, leaf, screws


@pytest.mark.parametrize(
    ("u", "severity"),
    [(54.0, None), (54.17, None), (54.2, "warning"), (54.29, "warning"), (54.31, "error"), (52.0, "error")],
)
def test_a_joint_goes_through_the_hole_that_a_hinge_has(u: float, severity: str | None) -> None:
    """(4.5 - 4.0) / 2 = 0.25, 70 % of it 0.175."""
    findings = found(RULE, *hinge(u))  # type: ignore[arg-type]
    assert [one.severity for one in findings] == ([severity] if severity else [])
    if severity:
        assert (findings[0].joint, findings[0].part, findings[0].place) == ("F1", "P2", "2")
        assert (findings[0].value, findings[0].limit) == pytest.approx((abs(u - 54), 0.25))


def test_the_hole_or_the_place_can_be_moved() -> None:
    worked = inspected(*hinge(52.0))  # type: ignore[arg-type]
    (one,) = of_rule(worked, RULE)
    assert [mend.says for mend in one.mends] == [
        "Move hole b of P2 to u 52 mm, v 12.5 mm.", "Move place 2 of F1 by 2 mm, to u 54 mm.",
    ]  # fmt: skip
    assert left_after(worked, RULE) == [[], []]


def test_a_screw_too_thick_for_the_hole_is_told_though_in_line() -> None:
    for size, told in ((4.0, False), (3.9, True)):
        findings = found(RULE, *hinge(54.0, size))  # type: ignore[arg-type]
        assert [(one.severity, one.value, one.limit) for one in findings] == (
            [("error", size, 4.0)] if told else []
        )
        if told:
            assert findings[0].says == (
                "Hole a of P2 is 3.9 mm wide, and F1 at 1, which goes through it, 4 mm: it does not pass."
            )


def test_a_screw_a_good_way_from_the_hole_is_another_hole() -> None:
    assert found(RULE, *hinge(50.0)) == []  # type: ignore[arg-type]


def test_a_hole_tapped_by_hand_has_the_float_of_the_clearance_hole() -> None:
    """M5 passes 5.5: 0.25 mm; the tapped hole itself gives nothing."""
    base = block(
        "P1", 100, 60, 20, *GROUND, material="mild steel",
        holes=(Hole("t", "top", mm(50), mm(30), kind="tapping", diameter=mm(4.2), thread="M5", depth=mm(18)),),
    )  # fmt: skip
    top = block("P2", 100, 60, 10, pose("P1"), material="mild steel")
    for u, severity in ((50.0, None), (50.15, None), (50.2, "warning"), (50.5, "error")):
        screw = joint("F1", "M5 x 20 socket cap 8.8", "P2", "top", [(u, 30)], "P2", "P1")
        findings = found(RULE, base, top, screw)
        assert [one.severity for one in findings] == ([severity] if severity else [])


def test_after_a_change_the_same_is_found_as_when_all_is_looked_at_anew() -> None:
    def stack(offs: list[float]) -> list[Component]:
        parts = [lower(hole("a", "top", 20, 20, 6), hole("c", "top", 60, 20, 6))]
        for n, off in enumerate(offs, 2):
            at = pose(f"P{n - 1}")
            parts.append(
                plate(f"P{n}", hole("a", "top", 20 + off, 20, 6), hole("c", "top", 60 + off, 20, 6), at=at)
            )
        return parts

    worked = inspect_build(build(*stack([0, 0.5, 0, 1])))
    for offs in ([0, 0.5, 0.5, 1], [0, 0, 0, 0], [1, 1, 2, 2]):
        worked = inspect_build(build(*stack(offs)), worked)
        assert worked.findings == inspect_build(build(*stack(offs))).findings
    assert len(of_rule(worked, RULE)) == 2
    moved = [replace(one, state="made") if one.mark == "P3" else one for one in stack([1, 1, 2, 2])]
    assert inspect_build(build(*moved), worked).findings == inspect_build(build(*moved)).findings
