"""Faces of random parts for templates: blocks, round ends, sides laid flat, free outlines with arcs."""

from __future__ import annotations

import math
from random import Random
from typing import Any

from calculators.drawing.face_shape import FaceShape, HoleShape, PocketShape
from calculators.geometry.outlines import Outline, Vertex, bounds, circle, rectangle, to_outline


def random_face(chance: Random, kind: str, wide: float, high: float, holes: int) -> FaceShape:
    """A face of about that size with so many holes inside it that lie apart, or fewer where room lacks."""
    outline, wrapped = _outline(chance, kind, wide, high), kind == "side"
    made: list[HoleShape] = []
    tries = 0
    while len(made) < holes and tries < 200 * holes:
        tries += 1
        hole = _hole(chance, len(made) + 1, outline)
        reach = max(hole.outer_mm, hole.slot_length_mm) / 2 + 1.0
        apart = (
            math.dist((hole.u_mm, hole.v_mm), (one.u_mm, one.v_mm)) > reach + one.outer_mm for one in made
        )
        if to_outline(outline, hole.u_mm, hole.v_mm) >= reach and all(apart):
            made.append(hole)
    pockets: tuple[PocketShape, ...] = ()
    if kind == "block" and min(wide, high) > 40:
        pockets = (PocketShape("R", wide * 0.2, high * 0.3, wide * 0.2, high * 0.2, 3.0, 5.0),)
    bore = min(wide, high) * 0.2 if kind == "end" else 0.0
    face = {"end": "left", "side": "side"}.get(kind, "top")
    return FaceShape("P1", "Part", face, outline, 18.0, tuple(made), pockets, bore, wrapped)


def _outline(chance: Random, kind: str, wide: float, high: float) -> Outline:
    if kind == "end":
        return circle(0.0, 0.0, min(wide, high))
    if kind == "side":
        return rectangle(0.0, -high / 2, wide, high)
    if kind == "block":
        return rectangle(0.0, 0.0, wide, high)
    # A star about the middle: every corner is seen from it, so that the outline does not cross itself.
    count = chance.randint(5, 9)
    corners = []
    for i in range(count):
        angle = 2 * math.pi * (i + chance.uniform(-0.25, 0.25)) / count
        far = chance.uniform(0.7, 1.0)
        bulge = chance.choice((0.0, 0.0, 0.2, -0.15, 0.4))
        x, y = 1 + far * math.cos(angle), 1 + far * math.sin(angle)
        corners.append(Vertex(wide / 2 * x, high / 2 * y, bulge))
    return tuple(corners)


def _hole(chance: Random, number: int, outline: Outline) -> HoleShape:
    x0, y0, x1, y1 = bounds(outline)
    diameter = chance.choice((2.1, 3.3, 4.5, 5.5, 8.0, 12.0))
    more: dict[str, Any] = chance.choice(
        (
            {},
            {"depth_mm": 12.0, "kind": "pilot"},
            {"countersink_diameter_mm": diameter * 1.9},
            {"counterbore_diameter_mm": diameter * 2.0, "counterbore_depth_mm": 4.0},
            {"thread": "M5", "thread_major_mm": diameter * 1.2},
            {"slot_length_mm": diameter * 2.5, "slot_along": chance.choice("uv"), "kind": "slot"},
        )
    )
    u, v = round(chance.uniform(x0, x1), 3), round(chance.uniform(y0, y1), 3)
    return HoleShape(number, u, v, diameter, **more)
