"""Faces of parts by chance, from a seed: outlines of every kind, holes of every kind, slots and pockets."""

from __future__ import annotations

import math
import random

from calculators.drawing.face_shape import FaceShape, HoleShape, PocketShape
from calculators.geometry.outlines import Outline, Vertex, circle, rectangle

THREADS = ("M5", "M6 x 0.75", "1/4-28 UNF", "10-32 UNF", "5/16 BSF", "2 BA")


def random_outline(chance: random.Random, length: float, width: float) -> Outline:
    """A rectangle, sharp or rounded, a disc, a plate with a step, or one with a bulged end."""
    kind = chance.randrange(5)
    if kind == 0:
        return rectangle(0, 0, length, width)
    if kind == 1:
        return rectangle(0, 0, length, width, round(chance.uniform(1, width / 2), 3))
    if kind == 2:
        return circle(width / 2, width / 2, width)
    if kind == 3:
        x, y = round(length * chance.uniform(0.3, 0.7), 3), round(width * chance.uniform(0.3, 0.7), 3)
        return (
            Vertex(0, 0), Vertex(length, 0), Vertex(length, y), Vertex(x, y, -0.2), Vertex(x * 0.9, width),
            Vertex(0, width),
        )  # fmt: skip
    bulge = math.tan(math.radians(chance.uniform(20, 170)) / 4)
    return (Vertex(0, 0), Vertex(length, 0, bulge), Vertex(length, width), Vertex(0, width))


def random_face(seed: int) -> FaceShape:
    """A face with holes in a wide grid, so that no two have one centre."""
    chance = random.Random(seed)
    length, width = round(chance.uniform(80, 900), 4), round(chance.uniform(40, 70), 4)
    outline = random_outline(chance, length, width)
    across = width if len(outline) == 2 else length * 0.25
    columns = int(across * 0.6 / 9)
    holes = tuple(
        random_hole(chance, number, across * 0.2 + (column + 0.5) * 9, width * row)
        for number, (column, row) in enumerate(
            ((column, row) for column in range(columns) for row in (0.35, 0.6)), start=1
        )
        if chance.random() < 0.8
    )
    pockets = tuple(
        PocketShape(f"k{at}", round(across * 0.3 + at * 8, 5), round(width * 0.45, 5), 6.5, 5.0, chance.choice((0.0, 1.25)),
                    chance.choice((None, 3.2)))
        for at in range(chance.randrange(3))
    )  # fmt: skip
    return FaceShape("P1", "Plate", "top", outline, 18.0, holes, pockets, material="birch ply", revision="B")


def random_hole(chance: random.Random, number: int, u: float, v: float) -> HoleShape:
    """A hole of any kind."""
    kind = chance.choice(("clearance", "pilot", "tapping", "plain", "reamed", "insert", "slot", "spot"))
    u, v = round(u + chance.uniform(-1, 1), 5), round(v + chance.uniform(-1, 1), 5)
    diameter, depth = round(chance.uniform(1, 4), 3), chance.choice((None, round(chance.uniform(3, 15), 4)))
    if kind == "slot":
        along = chance.choice("uv")
        return HoleShape(number, u, v, diameter, kind, depth, slot_length_mm=diameter + 2.5, slot_along=along)
    if kind in ("tapping", "insert"):
        full = None if depth is None else round(depth * 0.7, 4)
        return HoleShape(
            number, u, v, diameter, kind, depth, thread=chance.choice(THREADS), thread_depth_mm=full
        )
    sunk = round(diameter * chance.uniform(1.3, 1.8), 4) if chance.random() < 0.3 else 0.0
    if sunk and chance.random() < 0.5:
        return HoleShape(
            number, u, v, diameter, kind, depth, counterbore_diameter_mm=sunk, counterbore_depth_mm=2.5
        )
    angle = chance.choice((82.0, 90.0, 100.0))
    return HoleShape(number, u, v, diameter, kind, depth, sunk, angle)
