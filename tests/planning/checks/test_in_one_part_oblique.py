"""Holes that are not square to their face: a joint's axis through a turned part, or past a rod's middle."""

from __future__ import annotations

import math
import random
from dataclasses import replace

import pytest

from calculators.geometry.cuts import Bored, cut_of
from calculators.geometry.model import Solid
from calculators.geometry.shapes import Turned
from calculators.joints.model import LayerHole
from calculators.planning.checks.in_one_part import RULES
from calculators.planning.model import Build, Component, Hole, Joint, Place, Pose, Size, StackMember
from calculators.planning.resolving import resolve_build
from calculators.planning.worked import WorkedHole
from tests.geometry import independent_shapes as independent
from tests.planning.checks.test_in_one_part_random import SIZE, block, mm, site_of, verdict


def found(component, rule_name, joined):
    rule = next(one for one in RULES if one.name == rule_name)
    findings = rule.findings(site_of(component, joined))
    assert not [one for one in findings if one.rule == "rule-failed"], findings
    return findings


def leaning(u, v, lean_u, lean_v, d=6.0, mark="F1", place="1"):
    """A clearance hole of a joint from the top of the block, right through, leaning along u and v."""
    way = (math.tan(math.radians(lean_u)), math.tan(math.radians(lean_v)), -1.0)
    long = math.sqrt(sum(one * one for one in way))
    way = tuple(one / long for one in way)
    return WorkedHole(
        "P1", ("P1",), "top", u, v, joint=mark, place=place,
        hole=LayerHole("P1", 0, "clearance", d, ""), way=way,
    )  # fmt: skip


def bore_of(hole):
    """The same, endless at both ends, as a shape of this file's own."""
    start = (hole.u_mm, hole.v_mm, SIZE[2])
    radius = hole.hole.diameter_mm / 2
    return Turned(start, hole.way, ((-0.5, radius), (SIZE[2] / -hole.way[2] + 0.5, radius)))


@pytest.mark.parametrize("seed", range(12))
def test_leaning_holes_and_square_ones(seed):
    """600 parts: a leaning hole of a joint and one placed by hand from the front."""
    chance = random.Random(f"leaning {seed}")
    told = 0
    for _ in range(50):
        lean = leaning(
            chance.uniform(50, 70), chance.uniform(35, 45), chance.uniform(-25, 25), chance.uniform(-20, 20)
        )
        u, v, d = (
            round(chance.uniform(48, 72), 2),
            round(chance.uniform(8, 32), 2),
            round(chance.uniform(2, 8), 1),
        )
        depth = round(chance.uniform(35, 70), 2)
        hand = Hole("h1", "front", mm(u), mm(v), diameter=mm(d), depth=mm(depth), kind="pilot")
        point = d / 2 / math.tan(math.radians(59))
        other = Turned((u, 0.0, v), (0.0, 1.0, 0.0), ((0.0, d / 2), (depth, d / 2), (depth + point, 0.0)))
        distance = independent.between(bore_of(lean), other, rounds=2000)
        expected = verdict(distance, 3.0)
        if expected is None:
            continue
        findings = found(block([hand]), "holes-meet", (lean,))
        assert [one.severity for one in findings] == ([expected] if expected else []), (lean, hand, distance)
        told += len(findings)
    assert told > 3


@pytest.mark.parametrize(
    ("lean", "expected"),
    # From u 12, leaning to the left: at the foot, 40 deep, its axis is at 12 - 40 tan(lean), and its wall
    # 3 / cos(lean) nearer.
    [(12.0, []), (15.0, ["error"])],
)
def test_a_leaning_hole_breaks_out_of_a_side_below_its_face(lean, expected):
    foot = 12 - 40 * math.tan(math.radians(lean)) - 3 / math.cos(math.radians(lean))
    assert (foot < 0) == bool(expected)
    findings = found(block([]), "hole-breaks-out", (leaning(12, 40, -lean, 0),))
    assert [one.severity for one in findings] == expected
    if expected:
        assert "breaks out of the left" in findings[0].says


def test_a_leaning_hole_is_through_with_its_whole_circle():
    """Its ends reach past both faces by radius times the tangent of the lean, and no farther."""
    solid = Solid("block", *SIZE)
    lean = math.radians(20)
    cut = cut_of(solid, Bored("top", 60, 40, 6, way=(math.sin(lean), 0.0, -math.cos(lean))))
    over = 3 * math.tan(lean)
    assert cut.bore.rings[0][0] == pytest.approx(-over)
    assert cut.bore.rings[1][0] == pytest.approx(40 / math.cos(lean) + over)
    assert not cut.square


def test_a_joint_s_hole_past_the_middle_of_a_rod_knows_its_way():
    """A bolt through a rod 5 mm beside its axis: not square to the surface, and told with its true wall.

    The rod of 30 mm lies on the board; the hole of 6.6 mm comes down 5 mm beside its axis, so its wall is
    15 - 5 - 3.3 = 6.7 mm from the outside; of a rod of 17 mm, 8.5 - 5 - 3.3 = 0.2 mm would be left.
    """

    def build(diameter):
        board = Component(
            "P1", "Board", material="nylon", size=Size("block", mm(200), mm(100), mm(20)), poses=(Pose(),)
        )
        rod = Component(
            "P2", "Rod", material="nylon", size=Size("round", mm(120), diameter=mm(diameter)),
            poses=(Pose(on="P1", face="top", u=mm(40), v=mm(50 - diameter / 2), own_face="bottom"),),
        )  # fmt: skip
        joint = Joint(
            "F1", "Bolt", "M6 x 60 hex bolt", home="P1", face="bottom", places=(Place("1", mm(100), mm(45)),),
            stack=(StackMember(part="P1"), StackMember(part="P2"), StackMember(item="M6 nut")),
        )  # fmt: skip
        return resolve_build(Build("B1", "Thing", components=(board, rod), joints=(joint,)))

    worked = build(30)
    (hole,) = [one for one in worked.holes if one.part == "P2"]
    assert hole.face == "side"
    assert hole.way == pytest.approx((0.0, 0.0, 1.0))
    part = worked.build.components[1]
    assert found(part, "hole-breaks-out", (hole,)) == ()
    slim = build(17)
    (hole,) = [one for one in slim.holes if one.part == "P2"]
    findings = found(slim.build.components[1], "hole-breaks-out", (hole,))
    left = 17 / 2 - 5 - hole.hole.diameter_mm / 2
    assert [(one.severity, one.value) for one in findings] == [("warning", pytest.approx(left, abs=1e-3))]


def test_holes_of_different_copies_are_never_in_one_piece():
    one, other = leaning(60, 40, 0, 0), leaning(62, 40, 0, 0, mark="F2")
    both = (replace(one, copies=("P1.1",), way=None), replace(other, copies=("P1.2",), way=None))
    assert found(block([]), "holes-meet", both) == ()
    same = (replace(one, copies=("P1.1",), way=None), replace(other, copies=("P1.1", "P1.2"), way=None))
    assert [each.severity for each in found(block([]), "holes-meet", same)] == ["error"]


def test_a_hole_of_a_joint_that_does_not_clamp_may_reach_a_bolt_s_hole_it_is_aimed_at():
    bolt = WorkedHole(
        "P1", (), "top", 60.0, 40.0, joint="F1", place="1", hole=LayerHole("P1", 0, "clearance", 10.0, "")
    )
    grub = WorkedHole(
        "P1", (), "front", 60.0, 20.0, joint="F2", place="1", clamps=False,
        hole=LayerHole("P1", 0, "tapping", 4.2, "", depth_mm=38.0, thread="M5"),
    )  # fmt: skip
    assert found(block([]), "holes-meet", (bolt, grub)) == ()
    assert len(found(block([]), "holes-meet", (bolt, replace(grub, clamps=True)))) == 1
    assert len(found(block([]), "holes-meet", (bolt, replace(grub, u_mm=63.0)))) == 1


def test_a_cross_dowel_for_a_bolt():
    dowel = Hole("x", "top", mm(60), mm(40), diameter=mm(10), depth=mm(28))
    bolt = WorkedHole(
        "P1", (), "front", 60.0, 20.0, joint="F1", place="1",
        hole=LayerHole("P1", 0, "clearance", 6.6, "", depth_mm=60.0),
    )  # fmt: skip
    assert found(block([dowel]), "holes-meet", (bolt,)) == ()
    assert len(found(block([dowel]), "holes-meet", (replace(bolt, u_mm=62.0),))) == 1
