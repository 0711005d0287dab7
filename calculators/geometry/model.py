"""Solids, features and poses as plain numbers in millimetres and degrees, in the frames of DEVELOPERS.md.

A block has its origin at the left, front, bottom corner: X along its length, Y along its width, Z up
through its thickness. A round part has its origin on its axis at the left end, X along the axis.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calculators.geometry.outlines import Outline

Face = Literal["top", "bottom", "front", "back", "left", "right", "side"]
Shape = Literal["block", "round"]


@dataclass(frozen=True, slots=True)
class Pocket:
    """A rebate, slot, recess, counterbore or bore taken off a face: a prism going inward from it.

    A rectangle from (u, v) to (u + length, v + width) with corners of `corner_radius`, or a circle when
    `diameter` is given (then u, v is its centre). `depth` None goes right through. On a round part's
    `side`, u is X and v is across the axis in the tangent plane at `angle` degrees.
    """

    face: Face
    u: float
    v: float
    depth: float | None
    length: float = 0.0
    width: float = 0.0
    corner_radius: float = 0.0
    diameter: float = 0.0
    angle: float = 0.0


@dataclass(frozen=True, slots=True)
class Solid:
    """A finished part: a block of length, width and thickness, or a round of length and diameter.

    `outline` is that of a block that is no rectangle as seen from its top, in X and Y.
    """

    shape: Shape
    length: float
    width: float = 0.0
    thickness: float = 0.0
    diameter: float = 0.0
    bore: float = 0.0
    pockets: tuple[Pocket, ...] = ()
    outline: Outline = ()


@dataclass(frozen=True, slots=True)
class Pose:
    """Where one copy of a part lies: its own face laid on a face of another part.

    `on` names the other copy (`P01`, `P02.1`), or is empty for the build's own ground frame, whose face
    is `top` with u = X, v = Y. At `turned` 0 the own face's u runs along the other face's u; `turned` is
    degrees anticlockwise as seen from outside the other face. `point` says which point of the own face is
    put at (u, v): `corner` is the corner with the least u and v on the other face at `turned` 0, `centre`
    the middle of the own face. `let_in` moves the part inward (a negative value stands it off). `hand`
    `other` mirrors the part (Y to W - Y) before it is laid. `angle` places it on a round part's side.
    """

    on: str = ""
    face: Face = "top"
    u: float = 0.0
    v: float = 0.0
    angle: float = 0.0
    turned: float = 0.0
    let_in: float = 0.0
    own_face: Face = "bottom"
    point: Literal["corner", "centre"] = "corner"
    hand: Literal["same", "other"] = "same"


@dataclass(frozen=True, slots=True)
class Body:
    """One copy of a part in the build: its name (`P02.1`), its solid and its pose."""

    name: str
    solid: Solid
    pose: Pose


@dataclass(frozen=True, slots=True)
class Layer:
    """One stretch of a part's material along an axis.

    `enter` and `leave` are distances along the axis from its start; `thickness` is between them.
    `face_in` and `face_out` are the faces of the part by which the axis comes in and goes out (at the
    floor or wall of a pocket the face that the pocket is cut from, at a bore `side`), with the point in
    that face's own u, v (v is an angle in degrees on `side`). `oblique` says that the axis is not square,
    within 0.1 degree, to the surface by which it comes in.
    """

    name: str
    enter: float
    leave: float
    face_in: Face
    u_in: float
    v_in: float
    face_out: Face
    u_out: float
    v_out: float
    oblique: bool = False

    @property
    def thickness(self) -> float:
        """Material along the axis [mm]."""
        return self.leave - self.enter
