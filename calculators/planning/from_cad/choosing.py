"""What a person chooses of a drawing: its unit, the face, the datum, and each layer with what it becomes."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Literal

from calculators.drawing.dxf_layers import LayerSays, layer_says
from calculators.drawing.flat_drawing import FlatDrawing
from calculators.planning.model import Face
from calculators.quantities.length import Length

Closed = Literal["shapes", "pockets", "nothing"]
Pairs = Literal["nothing", "countersink", "counterbore"]
CircleKind = Literal["plain", "clearance", "pilot", "reamed", "spot"]


@dataclass(frozen=True, slots=True)
class LayerChoice:
    """What becomes of a layer: taken or not, how deep (None: right through), and its closed shapes.

    `shapes` makes slots of what has round ends and pockets of rectangles, `pockets` makes pockets of both.
    """

    name: str
    take: bool = True
    depth: Length | None = None
    closed: Closed = "shapes"


@dataclass(frozen=True, slots=True)
class Choices:
    """All that is chosen.

    `which` is the outermost outline that is the part, counted from the largest. With `outline` "part" it
    becomes the part's outline, length and width; else it only says where the datum is. `pairs` is what the
    larger of two circles about one centre is; `points_diameter` makes holes of points.
    """

    unit: str
    face: Face = "top"
    which: int = 0
    outline: Literal["part", "datum"] = "part"
    datum: Literal["outline", "origin"] = "outline"
    kind: CircleKind = "plain"
    pairs: Pairs = "nothing"
    countersink_angle_deg: float = 90.0
    counterbore_depth: Length | None = None
    points_diameter: Length | None = None
    thickness: Length | None = None
    replace: bool = False
    layers: tuple[LayerChoice, ...] = ()


@dataclass(frozen=True, slots=True)
class LayerRow:
    """A layer as it is offered: what is on it, what its name says, and what is proposed."""

    name: str
    holds: str
    says: LayerSays | None
    hidden: bool
    take: bool
    depth_mm: float | None


def layer_rows(drawing: FlatDrawing) -> tuple[LayerRow, ...]:
    """List the layers of a drawing that have shapes on them.

    Args:
        drawing: the drawing.

    Returns:
        Each layer; those that are off in the drawing, and those of this project that cut nothing or hold for
        some copies alone, are proposed to be left.

    Source: this project.

    Example:
        >>> from calculators.drawing.flat_drawing import FlatCircle
        >>> [(row.name, row.holds) for row in layer_rows(FlatDrawing("mm", (FlatCircle("0", 1, 1, 1),)))]
        [('0', '1 circle')]
    """
    held: dict[str, Counter[str]] = {name: Counter() for name in drawing.layers}
    for circle in drawing.circles:
        held[circle.layer]["circle"] += 1
    for path in drawing.paths:
        held[path.layer]["closed outline" if path.closed else "loose line"] += 1
    for point in drawing.points:
        held[point.layer]["point"] += 1
    off = set(drawing.hidden)
    found = []
    for name, counts in held.items():
        says = layer_says(name)
        words = ", ".join(f"{count:,} {what}{'' if count == 1 else 's'}" for what, count in counts.items())
        take = name not in off and (says is None or (says.what not in ("words", "bore") and says.for_all))
        depth = says.depth_mm if says is not None else None
        found.append(LayerRow(name, words, says, name in off, take, depth))
    return tuple(found)
