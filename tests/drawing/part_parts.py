"""Random parts with holes, the same in each run, for tests of the part drawing."""

from __future__ import annotations

import math
import random

from calculators.drawing.face_shape import FaceShape, HoleShape, PocketShape
from calculators.drawing.part_shape import Fold, PartShape
from calculators.geometry.frames import face_frame
from calculators.geometry.model import Face, Pocket, Solid
from calculators.geometry.outlines import Outline, Vertex, circle, rectangle

FACES: tuple[Face, ...] = ("top", "bottom", "front", "back", "left", "right")
_UNITS = (1.0, 25.4 / 64)


def random_part(seed: int) -> PartShape:
    """A part of any shape and size, from watch part to beam, with up to 120 holes, close or far apart."""
    chance = random.Random(seed)
    part = _round(chance) if chance.random() < 0.3 else _block(chance)
    return part


def _size(chance: random.Random, low: float, high: float) -> float:
    unit = chance.choice(_UNITS)
    return max(round(math.exp(chance.uniform(math.log(low), math.log(high))) / unit), 1) * unit


def _block(chance: random.Random) -> PartShape:
    length, width, thickness = _size(chance, 8, 2500), _size(chance, 6, 900), _size(chance, 1.5, 90)
    outline = _outline(chance, length, width) if chance.random() < 0.3 else ()
    pockets = []
    shown: dict[str, list[PocketShape]] = {}
    for i in range(chance.choice((0, 0, 0, 1, 2, 3))):
        face = chance.choice(FACES if not outline else ("top", "bottom"))
        frame = face_frame(Solid("block", length, width, thickness), face)
        (_, to_u), (_, to_v) = frame.u_range, frame.v_range
        long, wide = to_u * chance.uniform(0.1, 0.5), to_v * chance.uniform(0.1, 0.5)
        u, v = chance.choice((0.0, chance.uniform(0, to_u - long))), chance.uniform(0, to_v - wide)
        corner = chance.choice((0.0, min(long, wide) / 4))
        deep = chance.choice((None, thickness / 3 if face in ("top", "bottom") else min(length, width) / 5))
        pockets.append(Pocket(face, u, v, deep, long, wide, corner))
        shown.setdefault(face, []).append(PocketShape(f"p{i}", u, v, long, wide, corner, deep))
    solid = Solid("block", length, width, thickness, pockets=tuple(pockets), outline=outline)
    many = chance.choice((0, 1, 3, 6, 12, 30, 120))
    faces, number = [], 1
    for face in FACES:
        count = many if face == "top" else chance.choice((0, 0, 0, many // 4))
        frame = face_frame(solid, face)
        holes = tuple(
            _hole(chance, number + i, frame.u_range, frame.v_range, thickness) for i in range(count)
        )
        number += count
        if holes or face in shown:
            own = (
                outline if outline and face == "top" else rectangle(0, 0, frame.u_range[1], frame.v_range[1])
            )
            faces.append(FaceShape("P1", "part", face, own, thickness, holes, tuple(shown.get(face, ()))))
    folds = (Fold(length / 3, "across", 90, 2.0),) if chance.random() < 0.1 else ()
    wood = chance.random() < 0.5
    manners = {"front": "wood" if wood else "metal"}
    return PartShape(
        "P1",
        "part",
        solid,
        tuple(faces),
        "oak" if wood else "brass",
        folds,
        "X" if wood else "",
        manners,  # type: ignore[arg-type]
    )


def _outline(chance: random.Random, length: float, width: float) -> Outline:
    return chance.choice(
        (
            rectangle(0, 0, length, width, min(length, width) / 4),
            (Vertex(0, 0), Vertex(length, 0), Vertex(length, width / 2), Vertex(length / 2, width), Vertex(0, width)),
            (Vertex(0, 0), Vertex(length, 0), Vertex(length, width), Vertex(length * 0.6, width, -0.6),
             Vertex(length * 0.3, width), Vertex(0, width)),
        )
    )  # fmt: skip


def _hole(
    chance: random.Random, number: int, u: tuple[float, float], v: tuple[float, float], thickness: float
) -> HoleShape:
    span = min(u[1] - u[0], v[1] - v[0])
    d = max(min(chance.choice((1.5, 3.2, 5.5, 8.0)), span / 4), 0.05)
    unit = chance.choice((1.0, 0.01, 25.4 / 16))

    def place(low: float, high: float) -> float:
        return min(max(round(chance.uniform(low, high) / unit) * unit, low), high)

    kind = chance.choice(("plain", "csk", "tapped", "blind", "slot"))
    deep = thickness * 0.6 if kind in ("blind", "tapped") else None
    return HoleShape(
        number, place(*u), place(*v), d,
        depth_mm=deep,
        countersink_diameter_mm=2 * d if kind == "csk" else 0.0,
        thread="M5" if kind == "tapped" else "",
        thread_major_mm=1.2 * d if kind == "tapped" else 0.0,
        thread_depth_mm=deep and deep * 0.8 if kind == "tapped" else None,
        slot_length_mm=2.5 * d if kind == "slot" else 0.0,
        slot_along=chance.choice(("u", "v")) if kind == "slot" else "",
    )  # fmt: skip


def _round(chance: random.Random) -> PartShape:
    length, diameter = _size(chance, 4, 1500), _size(chance, 2, 300)
    bore = diameter * chance.choice((0.0, 0.0, 0.5, 0.9))
    flats = [Pocket("side", length / 4, -diameter, diameter / 8, length / 3, 2 * diameter, angle=90.0)]
    solid = Solid(
        "round", length, diameter=diameter, bore=bore, pockets=tuple(flats * chance.choice((0, 0, 1)))
    )
    many = chance.choice((0, 1, 2, 5, 20))
    half = math.pi * diameter / 2
    around = [0.0, half / 2, half, -half / 2, half / 3]
    side = []
    for i in range(many):
        one = _hole(chance, i + 1, (0.0, length), (0.0, 0.0), diameter / 4)
        side.append(
            HoleShape(
                i + 1, one.u_mm, chance.choice(around), min(max(one.diameter_mm, diameter / 12), diameter / 4)
            )
        )
    faces = []
    if side:
        outline = rectangle(0, -half, length, 2 * half)
        faces.append(FaceShape("P1", "part", "side", outline, diameter, tuple(side), is_wrapped=True))
    if chance.random() < 0.4:
        end = (HoleShape(many + 1, 0, 0, diameter / 3, depth_mm=length / 3),)
        faces.append(FaceShape("P1", "part", "left", circle(0, 0, diameter), length, end if not bore else ()))
    return PartShape("P1", "part", solid, tuple(faces), "brass", manners={"front": "metal"})
