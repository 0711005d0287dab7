"""The faces of a part: where each has its u and v, and the way between a face's point and the part's frame.

| face   | at     | u runs | v runs | (0, 0) at          |
|--------|--------|--------|--------|--------------------|
| top    | Z = T  | +X     | +Y     | X 0, Y 0           |
| bottom | Z = 0  | +X     | -Y     | X 0, Y W           |
| front  | Y = 0  | +X     | +Z     | X 0, Z 0           |
| back   | Y = W  | -X     | +Z     | X L, Z 0           |
| right  | X = L  | +Y     | +Z     | Y 0, Z 0           |
| left   | X = 0  | -Y     | +Z     | Y W, Z 0           |

Depth runs inward. On a round part the ends `left` and `right` have (0, 0) on the axis; `side` has u = X
and v = the angle in degrees from +Y towards +Z. Its `top`, `bottom`, `front` and `back` are the planes
that touch it at Z or Y = ± D/2, with the directions of the table and v = 0 over the axis.
"""

from __future__ import annotations

import math
from dataclasses import dataclass
from typing import get_args

from calculators.geometry.model import Face, Solid
from calculators.geometry.vectors import Vector, along, cos_sin, dot, scale, subtract
from calculators.quantities.errors import InputError

FACES: tuple[Face, ...] = get_args(Face)
TANGENT_ANGLE: dict[Face, float] = {"front": 180.0, "back": 0.0, "top": 90.0, "bottom": 270.0}
"""The angle on the side at which each plane touches a round part."""

_X, _Y, _Z = (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0)
_NX, _NY = (-1.0, 0.0, 0.0), (0.0, -1.0, 0.0)
_AXES: dict[Face, tuple[Vector, Vector]] = {
    "top": (_X, _Y),
    "bottom": (_X, _NY),
    "front": (_X, _Z),
    "back": (_NX, _Z),
    "right": (_Y, _Z),
    "left": (_NY, _Z),
}
_INWARD: dict[Face, Vector] = {
    "top": (0.0, 0.0, -1.0),
    "bottom": _Z,
    "front": _Y,
    "back": _NY,
    "right": _NX,
    "left": _X,
}


@dataclass(frozen=True, slots=True)
class FaceFrame:
    """A plane of a part in the part's frame: its (0, 0) [mm], the directions of u and v and of depth.

    `u_range` and `v_range` are the outline's least and greatest u and v [mm] (of a round end: of the square
    about it).
    """

    origin: Vector
    u_axis: Vector
    v_axis: Vector
    inward: Vector
    u_range: tuple[float, float]
    v_range: tuple[float, float]

    def point(self, u: float, v: float, depth: float = 0.0) -> Vector:
        """Return the point [mm] at u, v and depth [mm] in the part's frame."""
        return along(self.origin, (self.u_axis, u), (self.v_axis, v), (self.inward, depth))

    def read(self, xyz: Vector) -> tuple[float, float, float]:
        """Return u, v and depth [mm] of a point [mm] of the part's frame."""
        away = subtract(xyz, self.origin)
        return dot(away, self.u_axis), dot(away, self.v_axis), dot(away, self.inward)


def face_frame(solid: Solid, face: Face, angle: float = 0.0) -> FaceFrame:
    """Return the plane of a face; of a round part's `side` the plane that touches it at `angle`.

    On that plane u is X and v runs at right angles to the axis with u × v outward, so that at 90 degrees
    it is the plane `top`.

    Args:
        solid: the part.
        face: one of the part's faces.
        angle: where the side is touched [deg], from +Y towards +Z.

    Returns:
        The face's frame [mm].

    Raises:
        InputError: when the part has no such face.

    Source: this project (the frames that the developers' guide states).

    Example:
        >>> face_frame(Solid("block", 100, 50, 20), "back").point(10, 5)
        (90.0, 50.0, 5.0)
    """
    if face not in FACES:
        raise InputError.of(
            f"'{face}' is not a face; faces are {', '.join(FACES)}.", field="face", choices=FACES
        )
    if solid.shape == "round":
        return _round_frame(solid, face, angle)
    if face == "side":
        raise InputError.of(
            "A block has no 'side'; name top, bottom, front, back, left or right.",
            field="face",
            choices=tuple(_AXES),
        )
    length, width, thickness = float(solid.length), float(solid.width), float(solid.thickness)
    origin, across, up = {
        "top": ((0.0, 0.0, thickness), length, width),
        "bottom": ((0.0, width, 0.0), length, width),
        "front": ((0.0, 0.0, 0.0), length, thickness),
        "back": ((length, width, 0.0), length, thickness),
        "right": ((length, 0.0, 0.0), width, thickness),
        "left": ((0.0, width, 0.0), width, thickness),
    }[face]
    return FaceFrame(origin, *_AXES[face], _INWARD[face], (0.0, across), (0.0, up))


def _round_frame(solid: Solid, face: Face, angle: float) -> FaceFrame:
    length, radius = float(solid.length), solid.diameter / 2.0
    width = (-radius, radius)
    if face == "left" or face == "right":
        origin = (length if face == "right" else 0.0, 0.0, 0.0)
        return FaceFrame(origin, *_AXES[face], _INWARD[face], width, width)
    if face == "side":
        c, s = cos_sin(angle)
        return FaceFrame((0.0, radius * c, radius * s), _X, (0.0, s, -c), (0.0, -c, -s), (0.0, length), width)
    touch = scale(_INWARD[face], -radius)
    origin = (length if face == "back" else 0.0, touch[1], touch[2])
    return FaceFrame(origin, *_AXES[face], _INWARD[face], (0.0, length), width)


def face_point(solid: Solid, face: Face, u: float, v: float, depth: float = 0.0) -> Vector:
    """Return where a face's point lies in the part's own frame.

    Args:
        solid: the part.
        face: one of its faces.
        u: along the face's u [mm].
        v: along the face's v [mm]; on a round part's `side` the angle [deg] from +Y towards +Z.
        depth: inward from the face [mm]; on `side` towards the axis.

    Returns:
        X, Y, Z [mm].

    Raises:
        InputError: when the part has no such face.

    Source: this project (the frames that the developers' guide states).

    Example:
        >>> face_point(Solid("block", 100, 50, 20), "bottom", 10, 5, 2)
        (10.0, 45.0, 2.0)
        >>> face_point(Solid("round", 80, diameter=20), "side", 30, 90, 4)
        (30.0, 0.0, 6.0)
    """
    if solid.shape == "round" and face == "side":
        return face_frame(solid, face, v).point(u, 0.0, depth)
    return face_frame(solid, face).point(u, v, depth)


def to_face(solid: Solid, face: Face, xyz: Vector) -> tuple[float, float, float]:
    """Read a point of the part's own frame as a face's u, v and depth: `face_point` undone.

    Args:
        solid: the part.
        face: one of its faces.
        xyz: X, Y, Z [mm].

    Returns:
        u [mm], v [mm; on `side` degrees from 0 to less than 360] and depth inward [mm].

    Raises:
        InputError: when the part has no such face.

    Source: this project (the frames that the developers' guide states).

    Example:
        >>> to_face(Solid("block", 100, 50, 20), "bottom", (10, 45, 2))
        (10.0, 5.0, 2.0)
    """
    if solid.shape == "round" and face == "side":
        angle = math.degrees(math.atan2(xyz[2], xyz[1])) % 360.0
        return xyz[0], 0.0 if angle == 360.0 else angle, solid.diameter / 2.0 - math.hypot(xyz[1], xyz[2])
    return face_frame(solid, face).read(xyz)
