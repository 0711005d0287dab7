"""One face of a part as exact geometry in its own u and v: what every writer draws from.

The plan on a page, the part drawing, the true-size template, the file for CAD and the drilling moves are all
made from this; none of them works a place out by itself.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.geometry.outlines import Outline, circle, rectangle


@dataclass(frozen=True, slots=True)
class HoleShape:
    """A hole where it opens on a face [mm].

    `depth_mm` None is right through. `kind` is that of the hole schedule. `key` is the id of a hole placed by
    hand; one that follows from a joint has `joint` and `place` instead. `head_side` is False where the screw
    comes out: a countersink is on the far side then. `below_mm` is how far under the face it begins;
    `slanted` says that it is not square to the face.
    """

    number: int
    u_mm: float
    v_mm: float
    diameter_mm: float
    kind: str = "plain"
    depth_mm: float | None = None
    countersink_diameter_mm: float = 0.0
    countersink_angle_deg: float = 90.0
    counterbore_diameter_mm: float = 0.0
    counterbore_depth_mm: float = 0.0
    slot_length_mm: float = 0.0
    slot_along: str = ""
    thread: str = ""
    thread_depth_mm: float | None = None
    thread_major_mm: float = 0.0
    drill: str = ""
    joint: str = ""
    place: str = ""
    key: str = ""
    copies: tuple[str, ...] = ()
    head_side: bool = True
    below_mm: float = 0.0
    mirrored: bool = False
    slanted: bool = False

    @property
    def through(self) -> bool:
        """Whether it goes right through the part."""
        return self.depth_mm is None

    @property
    def outer_mm(self) -> float:
        """The greatest diameter at the face, with its countersink or counterbore and its thread [mm]."""
        return max(
            self.diameter_mm, self.countersink_diameter_mm, self.counterbore_diameter_mm, self.thread_major_mm
        )

    @property
    def outline(self) -> Outline:
        """The outline of the hole as drilled or milled: a circle, or a slot with round ends [mm]."""
        u, v, d = self.u_mm, self.v_mm, self.diameter_mm
        if self.slot_length_mm > d and self.slot_along == "u":
            return rectangle(u - self.slot_length_mm / 2, v - d / 2, self.slot_length_mm, d, d / 2)
        if self.slot_length_mm > d and self.slot_along == "v":
            return rectangle(u - d / 2, v - self.slot_length_mm / 2, d, self.slot_length_mm, d / 2)
        return circle(u, v, d)


@dataclass(frozen=True, slots=True)
class PocketShape:
    """A rebate, slot or recess as it opens on a face [mm]: box, corners, depth (None: through)."""

    key: str
    u_mm: float
    v_mm: float
    length_mm: float
    width_mm: float
    corner_mm: float = 0.0
    depth_mm: float | None = None

    @property
    def outline(self) -> Outline:
        """Its outline on the face [mm]."""
        return rectangle(self.u_mm, self.v_mm, self.length_mm, self.width_mm, self.corner_mm)


@dataclass(frozen=True, slots=True)
class FaceShape:
    """A face of a part as seen from outside, u to the right and v upward [mm].

    `depth_mm` is how thick the part is behind the face. `bore_mm` is the bore in the middle of a round end.
    Of a round part's side `is_wrapped` says that v is the way round from +Y towards +Z, laid flat.
    """

    mark: str
    name: str
    face: str
    outline: Outline
    depth_mm: float
    holes: tuple[HoleShape, ...] = ()
    pockets: tuple[PocketShape, ...] = ()
    bore_mm: float = 0.0
    is_wrapped: bool = False
    material: str = ""
    revision: str = ""
