"""How near a moving shape comes to a fixed one: against closed forms, sampled surfaces and dense steps.

The second opinions: a pin that turns past a post has its least distance by plane trigonometry; a corner that
turns past a wall by its radius; what slides, by subtraction. Of random pairs, points sampled on the surface of
the moving shape are carried along by their own rotation (quaternions, not the code's formula), and their
distance to the fixed shape is taken point by point in the fixed shape's own coordinates.
"""

from __future__ import annotations

import math
import random

import pytest

from calculators.geometry.nearness import apart
from calculators.geometry.shapes import Prism, Shape, Turned, box_of
from calculators.geometry.sweeping import (
    WITHIN_MM,
    Sweep,
    first_near,
    moved_to,
    nearest_in_sweep,
    reach_of,
    swept_box,
)
from calculators.geometry.vectors import Vector, along, cross, dot, subtract

Z = (0.0, 0.0, 1.0)
O = (0.0, 0.0, 0.0)  # noqa: E741
ABOUT_Z = Sweep("turns", O, Z, 0.0, 90.0)


def arm(length: float, radius: float = 1.0) -> Turned:
    """A straight pin from the pivot along X."""
    return Turned(O, (1.0, 0.0, 0.0), ((0.0, radius), (length, radius)))


def post(away: float, at_deg: float, radius: float) -> Turned:
    x, y = away * math.cos(math.radians(at_deg)), away * math.sin(math.radians(at_deg))
    return Turned((x, y, -50.0), Z, ((0.0, radius), (100.0, radius)))


@pytest.mark.parametrize(("most", "at"), [(20.0, 60.0), (30.0, 50.0), (44.0, 45.0), (10.0, 170.0)])
def test_a_pin_that_turns_towards_a_post(most: float, at: float) -> None:
    """Axis of the pin to axis of the post: R sin(angle between), or to the pin's end beyond a right angle."""
    found = nearest_in_sweep(arm(120.0), post(80.0, at, 5.0), Sweep("turns", O, Z, 0.0, most))
    between = math.radians(at - most)
    # Beyond a right angle the blunt end at the pivot is nearest; there is only the pin's own radius about it.
    if at - most <= 90.0:
        truth = 80.0 * math.sin(between) - 5.0 - 1.0
        assert found.distance == pytest.approx(truth, abs=WITHIN_MM)
        assert truth <= 0.0 or found.at == pytest.approx(most, abs=0.01)
    else:
        assert 80.0 - 6.0 - 1.0 <= found.distance <= 80.0


@pytest.mark.parametrize("wall", [100.5, 101.0, 104.0, 110.0])
def test_a_corner_that_turns_past_a_wall(wall: float) -> None:
    """A plate whose far corner is sqrt(60^2 + 80^2) = 100 from the axis passes a wall at `wall` from it."""
    plate = Prism((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), Z, 80.0, 60.0, 5.0)
    side = Prism((wall, -200.0, -10.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), Z, 10.0, 400.0, 40.0)
    found = nearest_in_sweep(plate, side, Sweep("turns", O, Z, -60.0, 30.0))
    assert found.distance == pytest.approx(wall - 100.0, abs=WITHIN_MM)
    assert found.at == pytest.approx(-math.degrees(math.atan2(60.0, 80.0)), abs=1.0)


def test_a_corner_that_turns_into_a_wall_first_touches_where_its_radius_reaches_it() -> None:
    """The corner at 100 reaches a wall 90 away when 100 cos(36.870 deg - turned back) = 90: 25.842 deg left."""
    plate = Prism((0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), Z, 80.0, 60.0, 5.0)
    side = Prism((90.0, -200.0, -10.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), Z, 10.0, 400.0, 40.0)
    sweep = Sweep("turns", O, Z, -60.0, 0.0)
    touch = math.degrees(math.atan2(60.0, 80.0) - math.acos(0.9))
    found = first_near(plate, side, sweep, -60.0)
    assert found is not None
    assert -touch <= found <= -touch + 0.01
    assert nearest_in_sweep(plate, side, sweep).distance == pytest.approx(-10.0, abs=0.1)


@pytest.mark.parametrize(("clear", "place"), [(0.0, 30.0), (0.5, 29.5), (2.0, 28.0)])
def test_what_slides_first_comes_near_by_subtraction(clear: float, place: float) -> None:
    wall = Turned((150.0, 0.0, 0.0), (1.0, 0.0, 0.0), ((0.0, 9.0), (5.0, 9.0)))
    sweep = Sweep("slides", O, (1.0, 0.0, 0.0), 0.0, 100.0)
    found = first_near(arm(120.0), wall, sweep, 100.0, clear)
    assert found == pytest.approx(place, abs=0.011)
    assert found is not None
    assert found <= place


def test_a_disc_that_turns_about_its_own_axis_beside_a_wall_is_as_near_as_at_rest() -> None:
    """The bound does not tire itself out where the distance is the same all along."""
    disc = Turned(O, Z, ((0.0, 40.0), (6.0, 40.0)))
    wall = Prism((43.0, -50.0, -50.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), Z, 5.0, 100.0, 100.0)
    found = nearest_in_sweep(disc, wall, Sweep("turns", O, Z, -180.0, 180.0))
    assert found.distance == pytest.approx(3.0, abs=1e-6)
    assert found.certain


def test_a_sweep_without_travel_is_the_distance_at_rest() -> None:
    sweep = Sweep("turns", O, Z, 0.0, 0.0)
    assert nearest_in_sweep(arm(50.0), post(60.0, 0.0, 4.0), sweep).distance == pytest.approx(6.0)


def test_what_is_far_enough_is_told_as_a_lower_bound() -> None:
    found = nearest_in_sweep(arm(50.0), post(200.0, 45.0, 4.0), ABOUT_Z, enough=2.0)
    assert found.at_least
    assert found.distance >= 2.0


def test_what_stays_apart_has_no_first_touch() -> None:
    assert first_near(arm(50.0), post(60.0, 45.0, 4.0), ABOUT_Z, 90.0) is None


# --- random pairs against sampled surfaces

Quaternion = tuple[float, float, float, float]


def _unit(chance: random.Random) -> Vector:
    while True:
        v = chance.gauss(0, 1), chance.gauss(0, 1), chance.gauss(0, 1)
        if (size := math.sqrt(dot(v, v))) > 0.1:
            return (v[0] / size, v[1] / size, v[2] / size)


def _shape(chance: random.Random) -> Shape:
    start = chance.uniform(-60, 60), chance.uniform(-60, 60), chance.uniform(-60, 60)
    u = _unit(chance)
    if chance.random() < 0.5:
        rings = ((0.0, chance.uniform(0, 8)), (chance.uniform(1, 40), chance.uniform(0.5, 8)))
        return Turned(start, u, rings)
    other = cross(u, _unit(chance))
    size = math.sqrt(dot(other, other))
    v = (other[0] / size, other[1] / size, other[2] / size)
    return Prism(
        start, u, v, cross(u, v), chance.uniform(1, 50), chance.uniform(1, 30), chance.uniform(0.5, 20)
    )


def _sampled(shape: Shape, chance: random.Random, count: int) -> list[Vector]:
    """Points in a shape, its corners and rims among them."""
    points = []
    for _ in range(count):
        if isinstance(shape, Prism):
            a, b, c = (chance.choice((0.0, 1.0, chance.random())) for _ in range(3))
            points.append(along(shape.corner, (shape.u_axis, a * shape.length), (shape.v_axis, b * shape.width),
                                (shape.inward, c * shape.depth)))  # fmt: skip
        else:
            (_, first), (far, last) = shape.rings
            share, turn = chance.choice((0.0, 1.0, chance.random())), chance.uniform(0, math.tau)
            side = cross(shape.way, Z if abs(shape.way[2]) < 0.9 else (1.0, 0.0, 0.0))
            size = math.sqrt(dot(side, side))
            first_way = (side[0] / size, side[1] / size, side[2] / size)
            radius = first + share * (last - first)
            points.append(along(shape.start, (shape.way, share * far), (first_way, radius * math.cos(turn)),
                                (cross(shape.way, first_way), radius * math.sin(turn))))  # fmt: skip
    return points


def _times(a: Quaternion, b: Quaternion) -> Quaternion:
    return (
        a[0] * b[0] - a[1] * b[1] - a[2] * b[2] - a[3] * b[3],
        a[0] * b[1] + a[1] * b[0] + a[2] * b[3] - a[3] * b[2],
        a[0] * b[2] - a[1] * b[3] + a[2] * b[0] + a[3] * b[1],
        a[0] * b[3] + a[1] * b[2] - a[2] * b[1] + a[3] * b[0],
    )


def _carried(point: Vector, sweep: Sweep, at: float) -> Vector:
    if sweep.kind == "slides":
        return along(point, (sweep.way, at))
    half = math.radians(at) / 2.0
    s = math.sin(half)
    turn = (math.cos(half), s * sweep.way[0], s * sweep.way[1], s * sweep.way[2])
    back = (turn[0], -turn[1], -turn[2], -turn[3])
    _, x, y, z = _times(_times(turn, (0.0, *subtract(point, sweep.point))), back)
    return (x + sweep.point[0], y + sweep.point[1], z + sweep.point[2])


def _to_shape(shape: Shape, point: Vector) -> float:
    """The distance of a point from a shape in the shape's own coordinates; 0 within it."""
    if isinstance(shape, Prism):
        away = subtract(point, shape.corner)
        sizes = (shape.length, shape.width, shape.depth)
        out = [
            max(-dot(away, axis), dot(away, axis) - size, 0.0)
            for axis, size in zip((shape.u_axis, shape.v_axis, shape.inward), sizes, strict=True)
        ]
        return math.hypot(*out)
    away = subtract(point, shape.start)
    rise = dot(away, shape.way)
    flat = math.sqrt(max(0.0, dot(away, away) - rise * rise))
    (_, first), (far, last) = shape.rings
    # In the half-plane through the axis the shape is a trapezium; the nearest of its edges, or inside it.
    if 0.0 <= rise <= far and flat <= first + (last - first) * rise / far:
        return 0.0
    edges = (((0.0, 0.0), (0.0, first)), ((0.0, first), (far, last)), ((far, last), (far, 0.0)))
    return min(_to_edge((rise, flat), *edge) for edge in edges)


def _to_edge(p: tuple[float, float], a: tuple[float, float], b: tuple[float, float]) -> float:
    dx, dy = b[0] - a[0], b[1] - a[1]
    long = dx * dx + dy * dy
    share = 0.0 if long == 0.0 else min(1.0, max(0.0, ((p[0] - a[0]) * dx + (p[1] - a[1]) * dy) / long))
    return math.hypot(p[0] - a[0] - share * dx, p[1] - a[1] - share * dy)


def _random_case(seed: int) -> tuple[Shape, Shape, Sweep, random.Random]:
    chance = random.Random(seed)
    kind = "turns" if seed % 2 else "slides"
    point = chance.uniform(-30, 30), chance.uniform(-30, 30), chance.uniform(-30, 30)
    sweep = Sweep(kind, point, _unit(chance), -chance.uniform(0, 90), chance.uniform(0, 180))
    return _shape(chance), _shape(chance), sweep, chance


@pytest.mark.parametrize("block", range(10))
def test_no_sampled_point_of_a_random_pair_comes_nearer(block: int) -> None:
    for seed in range(block * 30, block * 30 + 30):
        moving, fixed, sweep, chance = _random_case(seed)
        found = nearest_in_sweep(moving, fixed, sweep)
        assert found.certain
        places = [sweep.least + (sweep.most - sweep.least) * step / 60.0 for step in range(61)]
        points = _sampled(moving, chance, 40)
        sampled = min(_to_shape(fixed, _carried(point, sweep, at)) for point in points for at in places)
        assert max(found.distance, 0.0) <= sampled + WITHIN_MM


@pytest.mark.parametrize("block", range(10))
def test_of_a_random_pair_the_least_of_dense_steps_is_met(block: int) -> None:
    for seed in range(1000 + block * 15, 1015 + block * 15):
        moving, fixed, sweep, _ = _random_case(seed)
        found = nearest_in_sweep(moving, fixed, sweep)
        steps = 240
        dense = min(
            apart(moved_to(moving, sweep, sweep.least + (sweep.most - sweep.least) * step / steps), fixed).distance
            for step in range(steps + 1)
        )  # fmt: skip
        # Between two steps nothing moves by more than half a step's way.
        half = (sweep.most - sweep.least) / steps / 2.0
        slack = half if sweep.kind == "slides" else math.radians(half) * reach_of(moving, sweep)
        if found.distance > 0.0:
            assert dense - slack - 1e-6 <= found.distance <= dense + WITHIN_MM + 1e-6
        else:
            assert dense <= slack


@pytest.mark.parametrize("seed", range(2000, 2030))
def test_up_to_the_first_touch_nothing_touches_and_just_beyond_something_does(seed: int) -> None:
    moving, fixed, sweep, _ = _random_case(seed)
    for end in (sweep.least, sweep.most):
        found = first_near(moving, fixed, sweep, end, 1.0)
        if found is None or apart(moving, fixed).distance < 1.0:
            continue
        for share in range(40):
            assert apart(moved_to(moving, sweep, found * share / 40.0), fixed).distance >= 1.0 - 1e-6
        beyond = found + math.copysign(0.011 if sweep.kind == "slides" else 0.0051, end)
        fine = 0.011 if sweep.kind == "slides" else math.radians(0.0051) * reach_of(moving, sweep)
        assert apart(moved_to(moving, sweep, beyond), fixed).distance <= 1.0 + fine


@pytest.mark.parametrize("seed", range(3000, 3060))
def test_the_swept_box_holds_the_shape_all_through_its_travel(seed: int) -> None:
    moving, _, sweep, chance = _random_case(seed)
    low, high = swept_box(moving, sweep)
    for _ in range(30):
        own_low, own_high = box_of(moved_to(moving, sweep, chance.uniform(sweep.least, sweep.most)))
        assert all(low[i] <= own_low[i] + 1e-9 and own_high[i] <= high[i] + 1e-9 for i in range(3))
