"""A part as its drawing takes it: its solid, its faces with their holes, its folds, its hatching."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass, field
from typing import Literal

from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.drawing.hatching import Manner
from calculators.geometry.model import Solid

Grain = Literal["", "X"]


@dataclass(frozen=True, slots=True)
class Fold:
    """A fold of a sheet part, drawn flat: where its line lies [mm], which way, how far it turns."""

    at_mm: float
    runs: Literal["across", "along"]
    angle_deg: float
    radius_mm: float | None = None


@dataclass(frozen=True, slots=True)
class PartShape:
    """A part to be drawn.

    `faces` are those with something on them, their holes numbered through the part. `manners` says how a
    section is hatched by the view in which it is cut (`front`, `top`, `right`). `limits` are words that
    follow a size where its tolerance is known, by `length`, `width`, `thickness`, `diameter`, `bore`.
    """

    mark: str
    name: str
    solid: Solid
    faces: tuple[FaceShape, ...] = ()
    material: str = ""
    folds: tuple[Fold, ...] = ()
    grain: Grain = ""
    manners: Mapping[str, Manner] = field(default_factory=dict)
    limits: Mapping[str, str] = field(default_factory=dict)

    def holes(self, *faces: str) -> Iterator[tuple[FaceShape, HoleShape]]:
        """Give the holes of some faces, or of all; those of other-hand copies are not drawn."""
        for face in self.faces:
            if not faces or face.face in faces:
                yield from ((face, hole) for hole in face.holes if not hole.mirrored)

    @property
    def is_round(self) -> bool:
        """Whether it is bar, tube or turned."""
        return self.solid.shape == "round"
