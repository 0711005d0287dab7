"""Thousands of random parts: what the rules say of each pair of features against an independent way.

The holes are set out here anew from their face, place, diameter and depth by a table of faces of this file,
and their distances are found by going to and fro between nearest points, or in closed form, without
supports. Where the independent distance is within `DOUBT_MM` of a limit the pair is left out; else the
verdicts must be the same: no miss, no false alarm.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace
from decimal import Decimal
from itertools import combinations

import pytest

from calculators.geometry.shapes import NOWHERE, Prism, Turned
from calculators.planning.checks.in_one_part import RULES
from calculators.planning.checks.limits import limits_of
from calculators.planning.checks.site import PartSite
from calculators.planning.model import Component, Context, Hole, Pocket, Size
from calculators.planning.placing import solid_of
from calculators.planning.worked import WorkedHole
from calculators.quantities.length import Length
from tests.geometry import independent_shapes as independent
from tests.geometry.independent_shapes import dot, minus, norm

DOUBT_MM = 0.03
WOOD_WALL, BLIND_WALL = 3.0, 1.5
SIZE = (120.0, 80.0, 40.0)
X, Y, Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)


def turned_about(way):
    return tuple(-one for one in way)


# Each face of a block of SIZE: its (0, 0), u, v and inward, as the developers' guide's table has them.
FACES = {
    "top": ((0.0, 0.0, SIZE[2]), X, Y, turned_about(Z)),
    "bottom": ((0.0, SIZE[1], 0.0), X, turned_about(Y), Z),
    "front": ((0.0, 0.0, 0.0), X, Z, Y),
    "back": ((SIZE[0], SIZE[1], 0.0), turned_about(X), Z, turned_about(Y)),
    "right": ((SIZE[0], 0.0, 0.0), Y, Z, turned_about(X)),
    "left": ((0.0, SIZE[1], 0.0), turned_about(Y), Z, X),
}


def span(axis):
    return abs(dot(axis, SIZE))


def mm(value):
    return Length.of_mm(Decimal(str(value)))


def random_hole(chance, number):
    face = chance.choice(list(FACES))
    _, u_axis, v_axis, inward = FACES[face]
    d = round(chance.uniform(2, 9), 1)
    u = round(chance.uniform(0.02, 0.98) * span(u_axis), 2)
    v = round(chance.uniform(0.02, 0.98) * span(v_axis), 2)
    depth = None if chance.random() < 0.35 else round(chance.uniform(0.2, 1.02) * span(inward), 2)
    more = {}
    if chance.random() < 0.2:
        more = {
            "kind": "slot",
            "slot_length": mm(d + round(chance.uniform(1, 15), 1)),
            "slot_along": chance.choice("uv"),
        }
    elif chance.random() < 0.35:
        more = {"countersink_diameter": mm(round(1.9 * d, 2)), "countersink_angle_deg": Decimal(90)}
    return Hole(
        f"h{number}", face, mm(u), mm(v), diameter=mm(d), depth=None if depth is None else mm(depth), **more
    )


def set_out(hole):
    """The bore of a hole of the block, by this file's own table."""
    origin, u_axis, v_axis, inward = FACES[hole.face]
    start = tuple(origin[i] + hole.u.mm * u_axis[i] + hole.v.mm * v_axis[i] for i in range(3))
    radius = hole.diameter.mm / 2
    slide = NOWHERE
    if hole.slot_length is not None:
        run = hole.slot_length.mm - hole.diameter.mm
        slide = tuple(run * one for one in (v_axis if hole.slot_along == "v" else u_axis))
    if hole.depth is None:
        return Turned(start, inward, ((0.0, radius), (span(inward), radius)), slide)
    rings = ((0.0, radius), (hole.depth.mm, radius))
    if hole.slot_length is None:
        rings = (*rings, (hole.depth.mm + radius / math.tan(math.radians(59)), 0.0))
    return Turned(start, inward, rings, slide)


def site_of(component, joined=()):
    holes = tuple(
        WorkedHole(
            component.mark, (), one.face, one.u.mm, 0.0 if one.face == "side" else one.v.mm,
            float(one.angle_deg) if one.angle_deg is not None else None, direct=one,
        )
        for one in component.holes
    )  # fmt: skip
    context = Context()
    return PartSite(
        component, solid_of(component), (*holes, *joined), (component.mark,), 1, context, limits_of(context)
    )


def said(component, rule_name):
    """What a rule finds, as sentences by severity."""
    rule = next(one for one in RULES if one.name == rule_name)
    findings = rule.findings(site_of(component))
    assert not [one for one in findings if one.rule == "rule-failed"], findings
    return findings


def verdict(distance, limit):
    if min(abs(distance), abs(distance - limit)) < DOUBT_MM:
        return None
    return "error" if distance <= 0 else "warning" if distance < limit else ""


def independent_distance(first, second):
    """The distance from above, and whether a slab between the shapes proves it from below."""
    best = min(
        (
            independent.between(first, second, start=begin, rounds=300)
            for begin in (first.start, second_start(second))
        ),
        default=math.inf,
    )
    return best


def second_start(shape):
    return shape.start if isinstance(shape, Turned) else shape.corner


def block(holes, pockets=()):
    return Component(
        "P1", "Block", material="European oak", size=Size("block", *map(mm, SIZE)),
        holes=tuple(holes), pockets=tuple(pockets),
    )  # fmt: skip


@pytest.mark.parametrize("seed", range(16))
def test_holes_of_random_blocks_meet_as_they_do_independently(seed):
    """500 parts of eight holes: 14,000 pairs."""
    chance = random.Random(f"meet {seed}")
    told = 0
    for _ in range(20):
        holes = [random_hole(chance, number) for number in range(8)]
        shapes = {hole.id: set_out(hole) for hole in holes}
        found = {}
        for finding in said(block(holes), "holes-meet"):
            words = finding.says.replace(",", " ").split()
            names = tuple(sorted({word for word in words if word in shapes}))
            assert len(names) == 2
            found[names] = finding
        for a, b in combinations(sorted(shapes), 2):
            if on_one_line(shapes[a], shapes[b]):
                continue
            distance = independent_distance(shapes[a], shapes[b])
            expected = verdict(distance, WOOD_WALL)
            if expected is None:
                continue
            finding = found.get((a, b))
            assert (finding.severity if finding else "") == expected, (a, b, distance, holes)
            if finding and expected == "warning":
                assert finding.value == pytest.approx(distance, abs=0.02)
            told += finding is not None
    # So many at the least, or the parts are too thinly drilled to show anything.
    assert told > 8


def on_one_line(a, b):
    return (
        abs(dot(a.way, b.way)) > 0.5
        and norm(
            minus(minus(a.start, b.start), tuple(dot(minus(a.start, b.start), a.way) * one for one in a.way))
        )
        < 0.1
    )


@pytest.mark.parametrize("seed", range(13))
def test_holes_of_random_blocks_break_out_as_sampled_points_do(seed):
    """1,000 parts: the walls to the sides and behind the point, from points on the holes' own circles."""
    chance = random.Random(f"sides {seed}")
    for _ in range(50):
        holes = [random_hole(chance, number) for number in range(3)]
        out = {one.place: one for one in said(block(holes), "hole-breaks-out")}
        behind = {one.place: one for one in said(block(holes), "hole-comes-through")}
        for hole in holes:
            bore = set_out(hole)
            _, u_axis, v_axis, inward = FACES[hole.face]
            radius, run = hole.diameter.mm / 2, norm(bore.slide) / 2
            along_u = run if hole.slot_along == "u" else 0.0
            along_v = run if hole.slot_along == "v" else 0.0
            wall = min(
                hole.u.mm - radius - along_u, span(u_axis) - hole.u.mm - radius - along_u,
                hole.v.mm - radius - along_v, span(v_axis) - hole.v.mm - radius - along_v,
            )  # fmt: skip
            expected = verdict(wall, WOOD_WALL)
            if expected is not None:
                finding = out.get(hole.id)
                assert (finding.severity if finding else "") == expected, hole
                if finding:
                    assert finding.value == pytest.approx(wall, abs=1e-3)
            if hole.depth is None:
                assert hole.id not in behind
                continue
            left = span(inward) - bore.rings[-1][0]
            expected = verdict(left, BLIND_WALL)
            if expected is not None:
                finding = behind.get(hole.id)
                assert (finding.severity if finding else "") == expected, hole
                if finding:
                    assert finding.value == pytest.approx(left, abs=1e-3)


def random_pocket(chance, number):
    face = chance.choice(["top", "bottom", "front"])
    _, u_axis, v_axis, inward = FACES[face]
    length = round(chance.uniform(0.15, 0.4) * span(u_axis), 1)
    width = round(chance.uniform(0.2, 0.5) * span(v_axis), 1)
    u = round(chance.uniform(2, span(u_axis) - length - 2), 1)
    v = round(chance.uniform(2, span(v_axis) - width - 2), 1)
    depth = round(chance.uniform(0.15, 0.7) * span(inward), 1)
    return Pocket(
        f"R{number}", face, mm(u), mm(v), mm(length), mm(width), mm(depth),
        mm(round(chance.uniform(0, 0.45) * min(length, width), 1)),
    )  # fmt: skip


def pocket_shape(pocket):
    origin, u_axis, v_axis, inward = FACES[pocket.face]
    corner = tuple(origin[i] + pocket.u.mm * u_axis[i] + pocket.v.mm * v_axis[i] for i in range(3))
    return Prism(
        corner, u_axis, v_axis, inward, pocket.length.mm, pocket.width.mm, pocket.depth.mm,
        pocket.corner_radius.mm,
    )  # fmt: skip


def axis_meets(bore, shape):
    """Whether the axis of a hole, or what lies straight beyond its end, meets the pocket: it may be meant."""
    line = Turned(bore.start, bore.way, ((0.0, 0.0), (400.0, 0.0)))
    return independent.between(line, shape, rounds=60) < 0.05


@pytest.mark.parametrize("seed", range(10))
def test_pockets_beside_holes_of_random_blocks(seed):
    """800 parts: pockets with corner radii that do not lie on a hole's axis."""
    chance = random.Random(f"pockets {seed}")
    told = 0
    for _ in range(50):
        holes = [random_hole(chance, number) for number in range(4)]
        pockets = [random_pocket(chance, number) for number in range(2)]
        found = {}
        for finding in said(block(holes, pockets), "pocket-opens-hole"):
            for pocket in pockets:
                if pocket.id in finding.says.replace(",", " ").split():
                    found[finding.place, pocket.id] = finding
        for hole in holes:
            for pocket in pockets:
                bore, shape = set_out(hole), pocket_shape(pocket)
                if axis_meets(bore, shape):
                    continue
                if any(axis_meets(bore, pocket_shape(other)) for other in pockets):
                    continue
                distance = independent_distance(bore, shape)
                expected = verdict(distance, WOOD_WALL)
                if expected is None:
                    continue
                finding = found.get((hole.id, pocket.id))
                assert (finding.severity if finding else "") == expected, (hole, pocket, distance)
                told += finding is not None
    assert told > 3


@pytest.mark.parametrize("seed", range(13))
def test_countersinks_of_random_blocks(seed):
    """1,000 parts: rims over edges in closed form; over one another on one face where the rims cross."""
    chance = random.Random(f"sunk {seed}")
    for _ in range(50):
        holes = []
        while len(holes) < 4:
            one = random_hole(chance, len(holes))
            if one.countersink_diameter is not None:
                holes.append(replace(one, face=chance.choice(["top", one.face]), depth=None))
        holes = [replace(h, v=mm(min(h.v.mm, span(FACES[h.face][2]) - 0.5))) for h in holes]
        found = {}
        for finding in said(block(holes), "countersink-overlaps"):
            found.setdefault(finding.place, []).append(finding)
        for hole in holes:
            _, u_axis, v_axis, _ = FACES[hole.face]
            nearest = min(hole.u.mm, span(u_axis) - hole.u.mm, hole.v.mm, span(v_axis) - hole.v.mm)
            rim, bare = hole.countersink_diameter.mm / 2 - nearest, hole.diameter.mm / 2 - nearest
            if abs(rim) < DOUBT_MM or abs(bare) < DOUBT_MM:
                continue
            # Where the bore itself is out of the same side the other rule tells it.
            edges = [
                one for one in found.get(hole.id, ()) if "of P1 by" in one.says and "overlaps the" in one.says
            ]
            if rim > 0 and bare < 0:
                assert edges, hole
            if rim < 0:
                assert not edges, hole
        for a, b in combinations(holes, 2):
            if a.face != b.face:
                continue
            apart = math.hypot(a.u.mm - b.u.mm, a.v.mm - b.v.mm)
            rims = apart - (a.countersink_diameter.mm + b.countersink_diameter.mm) / 2
            bores = apart - (a.diameter.mm + b.diameter.mm) / 2
            if abs(rims) < DOUBT_MM or abs(bores) < DOUBT_MM or apart < 0.1:
                continue
            both = [
                one
                for one in (*found.get(a.id, ()), *found.get(b.id, ()))
                if a.id in one.says.replace(",", " ").split() and b.id in one.says.replace(",", " ").split()
            ]
            assert bool(both) == (rims < 0 < bores), (a, b)


@pytest.mark.parametrize("seed", range(7))
def test_holes_of_random_rods(seed):
    """500 rods: walls from points strewn over each hole's circles, to the ends, the side and the far side."""
    chance = random.Random(f"rods {seed}")
    length, diameter = 100.0, 30.0
    for _ in range(50):
        holes = []
        for number in range(3):
            d = round(chance.uniform(2, 10), 1)
            deep = round(chance.uniform(5, 28), 2)
            if chance.random() < 0.5:
                holes.append(
                    Hole(f"h{number}", chance.choice(["left", "right"]), mm(round(chance.uniform(-11, 11), 2)),
                         mm(round(chance.uniform(-9, 9), 2)), diameter=mm(d), depth=mm(deep))
                )  # fmt: skip
            else:
                holes.append(
                    Hole(f"h{number}", "side", mm(round(chance.uniform(1, 99), 2)),
                         angle_deg=Decimal(chance.randrange(0, 360)), diameter=mm(d), depth=mm(deep))
                )  # fmt: skip
        rod = Component(
            "P1", "Rod", material="nylon", size=Size("round", mm(length), diameter=mm(diameter)),
            holes=tuple(holes),
        )  # fmt: skip
        out = {one.place: one for one in said(rod, "hole-breaks-out")}
        behind = {one.place: one for one in said(rod, "hole-comes-through")}
        for hole in holes:
            if hole.face != "side" and math.hypot(hole.u.mm, hole.v.mm) > diameter / 2 - 0.05:
                continue
            wall, left = walls_of_rod(hole, length, diameter)
            expected = verdict(wall, 1.0)
            if expected is not None:
                finding = out.get(hole.id)
                assert (finding.severity if finding else "") == expected, (hole, wall)
            expected = verdict(left, BLIND_WALL)
            if expected is not None:
                finding = behind.get(hole.id)
                assert (finding.severity if finding else "") == expected, (hole, left)


def walls_of_rod(hole, length, diameter):
    """What is left beside and behind a blind hole of a rod, by strewing points over its circles."""
    radius, deep = hole.diameter.mm / 2, hole.depth.mm
    tip = deep + radius / math.tan(math.radians(59))
    if hole.face != "side":
        beside = diameter / 2 - max(
            math.hypot(hole.u.mm + radius * math.cos(t), hole.v.mm + radius * math.sin(t))
            for t in (math.tau * k / 7200 for k in range(7200))
        )
        return beside, length - tip
    x = hole.u.mm
    # Across its axis the hole is a strip of half width `radius` about a diameter of the rod.
    beside = min(x - radius, length - x - radius, diameter / 2 - radius)
    farthest = max(
        math.hypot(
            max(at - diameter / 2, 0.0), radius * share * (1.0 if at <= deep else (tip - at) / (tip - deep))
        )
        if at > diameter / 2
        else 0.0
        for at in (tip * k / 3000 for k in range(3001))
        for share in (0.0, 1.0)
    )
    return beside, diameter / 2 - farthest


@pytest.mark.parametrize("seed", range(5))
def test_points_strewn_in_holes_never_contradict_the_rule(seed):
    """Against gross errors: a point in two holes means an error; an error of some depth means such a point."""
    chance = random.Random(f"strewn {seed}")
    both_found = 0
    for _ in range(12):
        holes = [random_hole(chance, number) for number in range(6)]
        shapes = {hole.id: set_out(hole) for hole in holes}
        found = {}
        for finding in said(block(holes), "holes-meet"):
            words = finding.says.replace(",", " ").split()
            found[tuple(sorted({word for word in words if word in shapes}))] = finding
        for a, b in combinations(sorted(shapes), 2):
            if on_one_line(shapes[a], shapes[b]):
                continue
            error = (a, b) in found and found[a, b].severity == "error"
            common = any(
                independent.distance_to(shapes[b], point) < 1e-9 for point in strewn(shapes[a], chance, 250)
            )
            assert error or not common, (a, b)
            if error and found[a, b].value < -1.5:
                dense = strewn(shapes[a], chance, 6000)
                assert common or any(independent.distance_to(shapes[b], point) < 1e-9 for point in dense)
                both_found += 1
    assert both_found > 0


def strewn(bore, chance, count):
    """Points spread evenly through a hole, its drill point included."""
    points = []
    radius, end = bore.rings[0][1], bore.rings[-1][0]
    across = independent.random_way(chance)
    across = independent.plus(across, bore.way, -dot(across, bore.way))
    across = tuple(one / norm(across) for one in across)
    w, a = bore.way, across
    other = (w[1] * a[2] - w[2] * a[1], w[2] * a[0] - w[0] * a[2], w[0] * a[1] - w[1] * a[0])
    while len(points) < count:
        turn, out = chance.uniform(0, math.tau), radius * math.sqrt(chance.random())
        at = independent.plus(bore.start, bore.way, chance.uniform(0, end))
        at = independent.plus(at, bore.slide, chance.uniform(-0.5, 0.5))
        at = independent.plus(at, across, out * math.cos(turn))
        at = independent.plus(at, other, out * math.sin(turn))
        if independent.distance_to(bore, at) < 1e-9:
            points.append(at)
    return points
