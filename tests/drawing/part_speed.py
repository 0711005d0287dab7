"""Plates with many holes at one density, for measuring how the time of a part drawing grows."""

from __future__ import annotations

import math

from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.drawing.part_shape import PartShape
from calculators.geometry.model import Solid
from calculators.geometry.outlines import rectangle

_EACH_MM2 = 400.0


def plate_of(holes: int) -> PartShape:
    """A plate of 3 to 2 with a hole to each 400 mm², scattered without chance by steps of the golden ratio."""
    width = math.sqrt(holes * _EACH_MM2 / 1.5)
    length = 1.5 * width
    golden = (math.sqrt(5) - 1) / 2
    drilled = tuple(
        HoleShape(
            i + 1,
            round(length * (i + 0.5) / holes, 2),
            round(width * (i * golden % 1.0), 2),
            4.0,
            depth_mm=6.0,
        )
        for i in range(holes)
    )
    face = FaceShape("P1", "plate", "top", rectangle(0, 0, length, width), 10.0, drilled)
    return PartShape(
        "P1", "plate", Solid("block", length, width, 10.0), (face,), "brass", manners={"front": "metal"}
    )


def row_of(holes: int) -> PartShape:
    """A bar with a row of blind holes 12 mm apart, all of which its section goes through."""
    length = 12.0 * (holes + 1)
    drilled = tuple(HoleShape(i + 1, 12.0 * (i + 1), 15.0, 4.0, depth_mm=6.0) for i in range(holes))
    face = FaceShape("P1", "bar", "top", rectangle(0, 0, length, 30), 10.0, drilled)
    return PartShape(
        "P1", "bar", Solid("block", length, 30.0, 10.0), (face,), "oak", manners={"front": "wood"}
    )
