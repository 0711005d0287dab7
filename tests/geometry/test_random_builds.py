"""Thousands of random builds: poses and layers against an independent way of working them out."""

from __future__ import annotations

import importlib.util
import math
import random
from pathlib import Path

import pytest

from calculators.geometry import (
    Body,
    Pocket,
    Pose,
    Solid,
    axis_from,
    face_frame,
    face_point,
    hole_in_layer,
    layers_along,
    placements,
)

spec = importlib.util.spec_from_file_location("independent", Path(__file__).with_name("independent.py"))
independent = importlib.util.module_from_spec(spec)
spec.loader.exec_module(independent)

BLOCK_FACES = ("top", "bottom", "front", "back", "left", "right")
SEEDS = range(40)
BUILDS_PER_SEED = 50


def random_pocket(rng, solid):
    face = rng.choice(BLOCK_FACES if solid.shape == "block" else (*BLOCK_FACES, "side"))
    depth = rng.choice((None, rng.uniform(1, 40)))
    angle = rng.choice((0, 90, rng.uniform(0, 360)))
    if rng.random() < 0.4:
        return Pocket(
            face, rng.uniform(-5, 80), rng.uniform(-20, 40), depth, diameter=rng.uniform(2, 30), angle=angle
        )
    length, width = rng.uniform(3, 60), rng.uniform(3, 40)
    radius = rng.choice((0, rng.uniform(0, min(length, width) / 2), min(length, width) / 2))
    return Pocket(face, rng.uniform(-10, 60), rng.uniform(-20, 40), depth, length, width, radius, angle=angle)


def random_solid(rng):
    if rng.random() < 0.6:
        solid = Solid("block", rng.uniform(20, 120), rng.uniform(10, 80), rng.uniform(2, 50))
    else:
        diameter = rng.uniform(6, 60)
        solid = Solid(
            "round",
            rng.uniform(10, 120),
            diameter=diameter,
            bore=rng.choice((0, diameter * rng.uniform(0.1, 0.9))),
        )
    pockets = tuple(random_pocket(rng, solid) for _ in range(rng.randrange(4)))
    return Solid(solid.shape, solid.length, solid.width, solid.thickness, solid.diameter, solid.bore, pockets)


def random_build(rng):
    bodies = []
    for index in range(rng.randrange(1, 5)):
        on = rng.choice(bodies) if bodies and rng.random() < 0.8 else None
        faces = (
            ("top",) if on is None else BLOCK_FACES if on.solid.shape == "block" else (*BLOCK_FACES, "side")
        )
        pose = Pose(
            on.name if on else "",
            rng.choice(faces),
            rng.uniform(-20, 60),
            rng.uniform(-20, 40),
            rng.choice((0, 45, rng.uniform(-400, 400))),
            rng.choice((0, 90, 180, -90, rng.uniform(-400, 400))),
            rng.choice((0, rng.uniform(-10, 10))),
            rng.choice(BLOCK_FACES),
            rng.choice(("corner", "centre")),
            rng.choice(("same", "other")),
        )
        bodies.append(Body(f"P{index:02}", random_solid(rng), pose))
    rng.shuffle(bodies)
    return bodies


def random_axis(rng, bodies, placed):
    """Half go anyhow through a random part, half square into a random face near its middle."""
    body = rng.choice(bodies)
    solid = body.solid
    if rng.random() < 0.5:
        height = solid.thickness if solid.shape == "block" else 0
        width = solid.width if solid.shape == "block" else solid.diameter / 2
        aim = placed[body.name].point(
            (solid.length * rng.random(), width * rng.random(), height * rng.random())
        )
        way = tuple(rng.gauss(0, 1) for _ in range(3))
        size = math.hypot(*way)
        way = tuple(x / size for x in way)
        return tuple(a - rng.uniform(0, 100) * w for a, w in zip(aim, way, strict=True)), way
    face = rng.choice(BLOCK_FACES if solid.shape == "block" else (*BLOCK_FACES, "side"))
    frame = face_frame(solid, face)
    u, v = (low + (high - low) * rng.uniform(-0.1, 1.1) for low, high in (frame.u_range, frame.v_range))
    if face == "side":
        v = rng.choice((0, 90, rng.uniform(-360, 720)))
    return axis_from(body.name, face, u, v, bodies, placed, from_outside=rng.random() < 0.5)


def sample_distances(rng, layers):
    """Where to ask: at random, and close to each side of each end of a layer."""
    distances = [rng.uniform(0, 300) for _ in range(12)]
    for layer in layers:
        distances.append((layer.enter + layer.leave) / 2)
        for edge in (layer.enter, layer.leave):
            distances += [edge - 1e-5, edge + 1e-5, edge - 0.01, edge + 0.01]
    return [d for d in distances if d > 0]


@pytest.mark.parametrize("seed", SEEDS)
def test_poses_and_layers_agree_with_the_second_way(seed):
    rng = random.Random(seed)
    compared = met = 0
    for _ in range(BUILDS_PER_SEED):
        bodies = random_build(rng)
        by_name = {body.name: body for body in bodies}
        placed = placements(bodies)
        assert list(placed) == [body.name for body in bodies]
        matrices = {body.name: independent.place(body, by_name) for body in bodies}
        for body in bodies:
            for point in ((0, 0, 0), (70, 0, 0), (0, 30, 0), (0, 0, 11)):
                first, second = placed[body.name].point(point), independent.apply(matrices[body.name], point)
                assert first == pytest.approx(second, abs=1e-8), (seed, body)
            assert placed[body.name].mirrored == (independent.determinant(matrices[body.name]) < 0)
        for _ in range(3):
            start, way = random_axis(rng, bodies, placed)
            layers = layers_along(start, way, bodies, placed)
            met += len(layers)
            compared += compare(rng, start, way, bodies, layers, matrices)
    # So that the comparison is never an empty one.
    assert met > 80
    assert compared > 4000


def compare(rng, start, way, bodies, layers, matrices):
    compared = 0
    edges = [edge for layer in layers for edge in (layer.enter, layer.leave)]
    for body in bodies:
        back = independent.inverse(matrices[body.name])
        faces = independent.pocket_faces(body.solid)
        own_layers = [layer for layer in layers if layer.name == body.name]
        for distance in sample_distances(rng, own_layers):
            if any(abs(distance - edge) < 3e-6 for edge in edges):
                continue
            point = tuple(a + distance * w for a, w in zip(start, way, strict=True))
            expected = independent.is_material(body.solid, independent.apply(back, point), faces)
            found = any(layer.enter < distance < layer.leave for layer in own_layers)
            assert found == expected, (body, distance, own_layers)
            compared += 1
    return compared


@pytest.mark.parametrize("seed", SEEDS)
def test_each_layer_begins_and_ends_at_the_point_that_its_faces_give(seed):
    """u and v of the faces, with the depth below them put back, must lie on the axis again."""
    rng = random.Random(1000 + seed)
    read = 0
    for _ in range(BUILDS_PER_SEED):
        bodies = random_build(rng)
        by_name = {body.name: body for body in bodies}
        placed = placements(bodies)
        start, way = random_axis(rng, bodies, placed)
        for layer in layers_along(start, way, bodies, placed):
            body, own = by_name[layer.name], placed[layer.name]
            if layer.enter > 0:
                check_on_axis(body.solid, own, layer.face_in, layer.u_in, layer.v_in, start, way, layer.enter)
            check_on_axis(body.solid, own, layer.face_out, layer.u_out, layer.v_out, start, way, layer.leave)
            marks = hole_in_layer(start, way, layer, body, own)
            assert marks.mirrored == own.mirrored
            for mark in (marks.entry, marks.exit):
                point = own.point(face_point(body.solid, mark.face, mark.u, mark.v))
                assert distance_to_line(point, start, way) < 1e-6
            read += 1
    assert read > 20  # so that the comparison is never an empty one


def check_on_axis(solid, own, face, u, v, start, way, distance):
    point = tuple(a + distance * w for a, w in zip(start, way, strict=True))
    depth = independent_depth(solid, face, own.own_point(point))
    assert own.point(face_point(solid, face, u, v, depth)) == pytest.approx(point, abs=1e-6)


def independent_depth(solid, face, xyz):
    x, y, z = xyz
    if face == "side":
        return solid.diameter / 2 - math.hypot(y, z)
    half = solid.diameter / 2
    width, thickness, low = (
        (solid.width, solid.thickness, 0) if solid.shape == "block" else (half, half, -half)
    )
    return {
        "left": x,
        "right": solid.length - x,
        "front": y - low,
        "back": width - y,
        "bottom": z - low,
        "top": thickness - z,
    }[face]


def distance_to_line(point, start, way):
    away = tuple(a - b for a, b in zip(point, start, strict=True))
    run = sum(a * w for a, w in zip(away, way, strict=True))
    return math.dist(away, tuple(run * w for w in way))


def test_a_mirrored_assembly_is_the_mirror_image_of_its_fellow():
    """Same words, other hand all the way down: every point is mirrored in the plane at half the base's width."""
    rng = random.Random(5)
    base = Solid("block", 200, 90, 12)
    for _ in range(200):
        part = random_solid(rng)
        pose = Pose(
            "A",
            rng.choice(("top", "bottom")),
            rng.uniform(0, 90),
            rng.uniform(0, 50),
            own_face=rng.choice(("top", "bottom")),
        )
        other = Pose("B", pose.face, pose.u, pose.v, own_face=pose.own_face, hand="other")
        placed = placements(
            [
                Body("A", base, Pose()),
                Body("A1", part, pose),
                Body("B", base, Pose(hand="other")),
                Body("B1", part, other),
            ]
        )
        point = tuple(rng.uniform(0, 30) for _ in range(3))
        x, y, z = placed["A1"].point(point)
        assert placed["B1"].point(point) == pytest.approx((x, 90 - y, z), abs=1e-9)
