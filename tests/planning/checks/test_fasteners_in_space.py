"""The solids of fasteners lie where the joint's own distances say, and are made anew only where they must."""

from __future__ import annotations

from dataclasses import replace

import pytest

from calculators.geometry.shapes import Turned
from calculators.planning.checks.fasteners_in_space import PlacedFastener, all_fasteners, fasteners_of
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Component, Joint, StackMember
from tests.planning.checks.small_builds import (
    GROUND,
    block,
    build,
    inspected,
    joint,
    mm,
    pose,
)

BASE = block("P1", 200, 100, 30, *GROUND)
TOP = block("P2", 100, 60, 12, pose("P1", 20, 10))


def only(*records: Component | Joint) -> PlacedFastener:
    worked = inspected(*records)
    assert worked.site is not None
    (fastener,) = all_fasteners(worked.site)
    return fastener


def spans(fastener: PlacedFastener, kind: str) -> list[tuple[tuple[float, float], tuple[float, float]]]:
    """Height (Z) and radius of the first and last ring of each piece; the axes here run down Z."""
    ends = []
    for piece in fastener.pieces:
        if piece.kind == kind:
            shape = piece.shape
            assert isinstance(shape, Turned)
            rings = [(shape.start[2] + at * shape.way[2], radius) for at, radius in shape.rings]
            ends.append((rings[0], rings[-1]))
    return ends


def test_a_countersunk_wood_screw_is_a_cone_and_a_pointed_shank_below_the_surface() -> None:
    """Top of P2 at Z 42; a 4 x 40 screw ends at Z 2."""
    fastener = only(BASE, TOP, joint("F1", "4 x 40 csk wood screw", "P2", "top", [(50, 30)], "P2", "P1"))
    assert fastener.copies == ("P2", "P1")
    assert fastener.start == pytest.approx((70, 40, 42))
    ((rim, _neck),) = spans(fastener, "head")
    assert rim[0] == pytest.approx(42)
    ((top, tip),) = spans(fastener, "shank")
    assert (top[0], tip[0], tip[1]) == pytest.approx((42, 2, 0))
    assert fastener.names == "F1 at 1"


def test_a_bolt_has_its_head_above_and_its_washers_and_nut_below() -> None:
    """Both parts 42 mm; washers 1.0 (ISO 7089, M5) on both sides, nut 4.7 (ISO 4032), cap head 5 high."""
    bolt = joint(
        "F1", "M5 x 60 socket cap", "P2", "top", [(50, 30)], "M5 washer", "P2", "P1", "M5 washer", "M5 nut"
    )
    fastener = only(BASE, TOP, bolt)
    ((under, _), (behind, far)) = spans(fastener, "washer")
    assert (under[0], behind[0], far[0]) == pytest.approx((43, 0, -1))
    ((head, bears),) = spans(fastener, "head")
    assert (head[0], bears[0]) == pytest.approx((48, 43))
    ((near, nut),) = spans(fastener, "nut")
    assert (near[0], nut[0]) == pytest.approx((-1, -5.7))
    assert nut[1] == pytest.approx(8 / 3**0.5, abs=1e-3)  # 8 across flats: 9.24 across corners
    ((top, tip),) = spans(fastener, "shank")
    assert (top[0], tip[0]) == pytest.approx((43, -17))
    assert fastener.box[0][2] == pytest.approx(-17)


def test_a_home_that_is_not_the_first_of_the_stack_still_has_the_head_on_the_first() -> None:
    """The place is marked on the underside of P1; the stack begins there and goes up."""
    fastener = only(BASE, TOP, joint("F1", "4 x 40 csk wood screw", "P1", "bottom", [(70, 60)], "P1", "P2"))
    assert fastener.start == pytest.approx((70, 40, 0))
    ((top, tip),) = spans(fastener, "shank")
    assert (top[0], tip[0]) == pytest.approx((0, 40))


def test_a_head_in_a_counterbore_lies_that_much_deeper() -> None:
    """Cap head 5 high in a counterbore of 5.5: it bears at 42 - 5.5."""
    from calculators.planning.model import LayerHole

    bored = StackMember(part="P2", holes=(LayerHole(counterbore_depth=mm(5.5), counterbore_diameter=mm(10)),))
    fastener = only(
        BASE,
        TOP,
        joint("F1", "M5 x 30 socket cap", "P2", "top", [(50, 30)], bored, StackMember(part="P1", takes="thread")),
    )  # fmt: skip
    ((head, bears),) = spans(fastener, "head")
    assert (head[0], bears[0]) == pytest.approx((41.5, 36.5))
    ((_, tip),) = spans(fastener, "shank")
    assert tip[0] == pytest.approx(6.5)


def test_each_posed_copy_of_the_home_has_its_own() -> None:
    two = replace(TOP, quantity=2, poses=(pose("P1", 0, 0), pose("P1", 100, 40, copy=2)))
    worked = inspected(
        BASE, two, joint("F1", "4 x 40 csk wood screw", "P2", "top", [(50, 30), (20, 10)], "P2", "P1")
    )
    assert worked.site is not None
    fasteners = all_fasteners(worked.site)
    assert [(one.home, one.place) for one in fasteners] == [
        ("P2.1", "1"), ("P2.1", "2"), ("P2.2", "1"), ("P2.2", "2"),
    ]  # fmt: skip
    assert fasteners[2].start == pytest.approx((150, 70, 42))


def test_a_change_of_one_joint_makes_only_its_own_fasteners_anew() -> None:
    screws = [
        joint(f"F{n}", "4 x 40 csk wood screw", "P2", "top", [(20 * n, 30)], "P2", "P1") for n in (1, 2)
    ]
    first = inspect_build(build(BASE, TOP, *screws))
    assert first.site is not None
    before = {mark: fasteners_of(one) for mark, one in first.site.joints.items()}
    changed = replace(screws[1], fastener="4 x 30 csk wood screw")
    second = inspect_build(build(BASE, TOP, screws[0], changed), first)
    assert second.site is not None
    assert fasteners_of(second.site.joints["F1"]) is before["F1"]
    after = fasteners_of(second.site.joints["F2"])
    assert after[0].box[0][2] == pytest.approx(12)
    assert before["F2"][0].box[0][2] == pytest.approx(2)


def test_a_joint_that_is_not_placed_has_none() -> None:
    worked = inspected(
        BASE,
        Joint("F1", "Loose", "M5 x 60 socket cap", stack=(StackMember(part="P1"), StackMember(item="M5 nut"))),
    )  # fmt: skip
    assert worked.site is not None
    assert all_fasteners(worked.site) == ()
