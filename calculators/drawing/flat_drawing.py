"""What was read in a drawing from CAD, in plain shapes: circles, paths, points, and what was not understood.

Lengths are in the drawing's own unit until `scaled` puts them into millimetres.
"""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Any

from calculators.geometry.outlines import Vertex

UNITS_MM: dict[str, float] = {"mm": 1.0, "cm": 10.0, "m": 1000.0, "in": 25.4, "ft": 304.8}
"""Units that a drawing may be in [mm]; the international inch and foot (ISO 80000-3, from memory)."""


@dataclass(frozen=True, slots=True)
class FlatCircle:
    """A full circle."""

    layer: str
    x: float
    y: float
    radius: float


@dataclass(frozen=True, slots=True)
class FlatPath:
    """Lines and arcs one after another; `curve` names the curve that was laid out in short lines."""

    layer: str
    vertices: tuple[Vertex, ...]
    closed: bool = False
    curve: str = ""


@dataclass(frozen=True, slots=True)
class FlatPoint:
    """A point."""

    layer: str
    x: float
    y: float


@dataclass(frozen=True, slots=True)
class LeftOut:
    """Something that is not taken: what, on which layer, where, and why."""

    what: str
    layer: str
    why: str
    x: float | None = None
    y: float | None = None


@dataclass(frozen=True, slots=True)
class FlatDrawing:
    """All that was read. `unit` is '' where the drawing does not say it; `hidden` are layers turned off."""

    unit: str = ""
    circles: tuple[FlatCircle, ...] = ()
    paths: tuple[FlatPath, ...] = ()
    points: tuple[FlatPoint, ...] = ()
    left: tuple[LeftOut, ...] = ()
    hidden: tuple[str, ...] = field(default=())

    @property
    def layers(self) -> tuple[str, ...]:
        """The layers with shapes on them, by name."""
        names = {one.layer for one in self.circles} | {one.layer for one in self.paths}
        return tuple(sorted(names | {one.layer for one in self.points}))

    def scaled(self, by: float) -> FlatDrawing:
        """Give the drawing with every length times `by`."""
        return replace(
            self,
            circles=tuple(FlatCircle(c.layer, c.x * by, c.y * by, c.radius * by) for c in self.circles),
            paths=tuple(
                replace(one, vertices=tuple(Vertex(v.x * by, v.y * by, v.bulge) for v in one.vertices))
                for one in self.paths
            ),
            points=tuple(FlatPoint(p.layer, p.x * by, p.y * by) for p in self.points),
            left=tuple(
                replace(one, x=one.x * by, y=one.y * by) if one.x is not None and one.y is not None else one
                for one in self.left
            ),
        )


def to_plain(drawing: FlatDrawing) -> list[Any]:
    """Write a drawing as lists of texts and numbers, short enough to be carried by a form.

    Args:
        drawing: the drawing.

    Returns:
        Lists that JSON can hold; `from_plain` gives the drawing again.

    Source: this project.

    Example:
        >>> one = FlatDrawing("mm", (FlatCircle("0", 5.0, 5.0, 2.5),))
        >>> from_plain(to_plain(one)) == one
        True
    """
    names = sorted({*drawing.layers, *(one.layer for one in drawing.left)})
    at = {name: place for place, name in enumerate(names)}
    return [
        drawing.unit,
        names,
        [[at[c.layer], c.x, c.y, c.radius] for c in drawing.circles],
        [
            [at[one.layer], one.closed, one.curve, [c for v in one.vertices for c in (v.x, v.y, v.bulge)]]
            for one in drawing.paths
        ],
        [[at[p.layer], p.x, p.y] for p in drawing.points],
        [[one.what, at[one.layer], one.why, one.x, one.y] for one in drawing.left],
        list(drawing.hidden),
    ]


def from_plain(plain: list[Any]) -> FlatDrawing:
    """Read a drawing from what `to_plain` wrote.

    Args:
        plain: the lists; they are trusted to be what was written.

    Returns:
        The drawing.

    Source: this project.

    Example:
        >>> from_plain(["in", [], [], [], [], [], []]).unit
        'in'
    """
    unit, names, circles, paths, points, left, hidden = plain
    return FlatDrawing(
        unit,
        tuple(FlatCircle(names[at], x, y, radius) for at, x, y, radius in circles),
        tuple(
            FlatPath(
                names[at],
                tuple(Vertex(*flat[i : i + 3]) for i in range(0, len(flat), 3)),
                closed,
                curve,
            )
            for at, closed, curve, flat in paths
        ),
        tuple(FlatPoint(names[at], x, y) for at, x, y in points),
        tuple(LeftOut(what, names[at], why, x, y) for what, at, why, x, y in left),
        tuple(hidden),
    )
