"""A drawing from CAD taken into a part: its outline and sizes, its holes, slots and pockets."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass, field, replace
from decimal import Decimal
from typing import Any

from calculators.drawing.dxf_layers import LayerSays, layer_says
from calculators.drawing.face_shape import FaceShape
from calculators.drawing.flat_drawing import UNITS_MM, FlatCircle, FlatDrawing, FlatPoint, LeftOut
from calculators.geometry.outline_joining import Places
from calculators.geometry.outlines import Outline, Vertex, bounds, turned_over
from calculators.planning.from_cad.already_there import SAME_MM, new_holes, new_pockets
from calculators.planning.from_cad.choosing import Choices, LayerChoice
from calculators.planning.from_cad.corners import corners_of
from calculators.planning.from_cad.sorting import (
    MOST_OUTLINE_CORNERS,
    ClosedShape,
    Inside,
    Sorted,
    sorted_out,
)
from calculators.planning.from_cad.words import made_words, outer_words, size_words
from calculators.planning.lines.holes import next_ids
from calculators.planning.model import Component, Corner, Hole, Pocket
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length


@dataclass(frozen=True, slots=True)
class Taken:
    """What a drawing makes of a part: the part, what was made in words, what was left out, what else is said.

    `outer` are the outermost outlines to choose from, as words; `origin` is where the datum lies in the
    drawing [mm].
    """

    part: Component
    made: tuple[str, ...]
    left: tuple[LeftOut, ...]
    said: tuple[str, ...]
    outer: tuple[str, ...]
    origin: tuple[float, float] = (0.0, 0.0)


def take_drawing(
    part: Component, drawing: FlatDrawing, choices: Choices, present: FaceShape | None = None
) -> Taken:
    """Take what is chosen of a drawing into a part.

    Args:
        part: the part.
        drawing: the drawing, in its own unit.
        choices: what is chosen.
        present: the face as it is, with the holes that follow from joints too; what is there already is not
            made again.

    Returns:
        The part with its new outline, holes and pockets, and every word about it.

    Raises:
        InputError: where the choices cannot be followed; `field` is the choice.

    Source: this project.

    Example:
        >>> drawing = FlatDrawing("mm", (FlatCircle("0", 10.0, 10.0, 2.5),))
        >>> chosen = Choices("mm", datum="origin", layers=(LayerChoice("0"),))
        >>> take_drawing(Component("P1", "Plate"), drawing, chosen).made
        ('1 plain Ø5 hole, through',)
    """
    if choices.unit not in UNITS_MM:
        names = ", ".join(UNITS_MM)
        says = f"The drawing does not say its unit; choose one: {names}."
        raise InputError.of(says, field="unit", choices=tuple(UNITS_MM))
    found = sorted_out(
        drawing.scaled(UNITS_MM[choices.unit]), [one.name for one in choices.layers if one.take]
    )
    main = _main(found, choices)
    taking = _Taking(part, choices, found, main, _origin(found, main, choices))
    taking.lay_outline()
    taking.make_closed()
    taking.make_holes()
    taking.put_in(present)
    outer = tuple(outer_words(one) for one in found.outer)
    told = tuple(taking.made), tuple(taking.left), tuple(taking.said)
    return Taken(taking.part, *told, outer, taking.origin)


def _main(found: Sorted, choices: Choices) -> ClosedShape | None:
    if not found.outer:
        return None
    if not 0 <= choices.which < len(found.outer):
        says = f"There are {len(found.outer)} outermost outlines; choose one of them."
        raise InputError.of(says, field="which")
    return found.outer[choices.which]


def _origin(found: Sorted, main: ClosedShape | None, choices: Choices) -> tuple[float, float]:
    """Where the datum of the face lies in the drawing."""
    if choices.datum == "origin" or main is None:
        return 0.0, 0.0
    if main.kind.kind == "circle" and choices.face in ("left", "right") and choices.outline == "datum":
        return main.kind.x, main.kind.y
    return main.box[0], main.box[1]


@dataclass
class _Taking:
    """The part as it is made, step by step."""

    part: Component
    choices: Choices
    found: Sorted
    main: ClosedShape | None
    origin: tuple[float, float]
    holes: list[Hole] = field(default_factory=list)
    pockets: list[Pocket] = field(default_factory=list)
    made: list[str] = field(default_factory=list)
    left: list[LeftOut] = field(default_factory=list)
    said: list[str] = field(default_factory=list)

    def __post_init__(self) -> None:
        self.left = list(self.found.left)
        self.said = list(self.found.said)
        self.inside = Inside(self.main.outline) if self.main and self._may_be_outline() else None
        self.layers = {one.name: one for one in self.choices.layers}
        self.places = Places(SAME_MM)
        self.slots: dict[int, int] = {}

    def _may_be_outline(self) -> bool:
        assert self.main is not None
        if len(self.main.outline) > MOST_OUTLINE_CORNERS:
            says = (
                f"The outline has {len(self.main.outline):,} corners; a part has at most "
                f"{MOST_OUTLINE_CORNERS:,}. Draw its curves as arcs."
            )
            raise InputError.of(says, field="which")
        return True

    def uv(self, x: float, y: float) -> tuple[Length, Length]:
        """A place of the drawing from the datum."""
        return Length.of_mm(x - self.origin[0]), Length.of_mm(y - self.origin[1])

    # The outline

    def lay_outline(self) -> None:
        """Make the outermost outline the part's, or say what it is."""
        if self.main is None:
            self.said.append(
                "There is no closed outline on the layers chosen: the part keeps its own, and u and v are "
                "counted from the drawing's origin."
            )
            return
        for other in self.found.outer:
            if other is not self.main:
                why = "is an outline beside the one that is the part"
                self.left.append(LeftOut("outline", other.layer, why, *other.middle))
        flat = self.choices.face in ("top", "bottom")
        if self.choices.outline == "part" and flat and self.part.size.shape != "round":
            self._outline_of_part(self.main.outline)
        elif self.choices.outline == "part":
            self.said.append(
                "Only the top and the bottom of a block take an outline: here it says where the datum is, "
                "and the part keeps its sizes."
            )
        else:
            self.said.append("The outline only says where the datum is; the part keeps its sizes.")

    def _outline_of_part(self, outline: Outline) -> None:
        at_x, at_y = self.origin
        placed = tuple(Vertex(one.x - at_x, one.y - at_y, one.bulge) for one in outline)
        left, bottom, right, top = bounds(placed)
        if abs(left) > SAME_MM or abs(bottom) > SAME_MM:
            raise InputError.of(
                f"The outline begins at {size_words(left)}, {size_words(bottom)} from the drawing's origin, "
                "but the datum of a part is the corner of its block: count from the outline, or let the "
                "outline only say the datum.",
                field="datum",
            )
        length, width = Length.of_mm(right), Length.of_mm(top)
        size = replace(self.part.size, shape="block", length=length, width=width)
        if self.choices.thickness is not None:
            size = replace(size, thickness=self.choices.thickness)
        corners: tuple[Corner, ...] = ()
        assert self.main is not None
        if not (self.main.kind.kind == "rectangle" and self.main.kind.corner == 0):
            seen = turned_over(placed, width.mm) if self.choices.face == "bottom" else placed
            corners = corners_of(seen)
        self.part = replace(self.part, size=size, outline=corners)
        what = f"an outline of {len(corners)} corners" if corners else "a rectangle"
        self.made.append(
            f"{what[:1].upper()}{what[1:]}, {size_words(right)} long and {size_words(top)} mm wide"
        )

    # Holes

    def make_holes(self) -> None:
        """Make holes of circles, and of points where a diameter for them is given."""
        for group in self.found.circles:
            self._hole_of(group)
        for point in self.found.points:
            self._hole_of_point(point)

    def _is_in(self, what: str, layer: str, x: float, y: float) -> bool:
        if self.inside is None or self.inside.has(x, y):
            return True
        self.left.append(LeftOut(what, layer, "lies outside the outline of the part", x, y))
        return False

    def _hole_of(self, group: Sequence[FlatCircle]) -> None:
        circles = [one for one in group if not self._is_main(one)]
        if not circles or not self._is_in("CIRCLE", circles[0].layer, circles[0].x, circles[0].y):
            return
        says = {one: layer_says(one.layer) for one in circles}
        cut = [one for one in circles if (told := says[one]) is not None and told.what == "pocket"]
        for one in cut:
            self._round_pocket(one)
        rest = [one for one in circles if one not in cut]
        bases = [one for one in rest if (told := says[one]) and told.what == "hole"]
        bases = bases or [one for one in rest if (told := says[one]) is None or told.what == "bore"][:1]
        more = [one for one in rest if one not in bases]
        for base in bases:  # of a stepped hole each step is one
            u, v = self.uv(base.x, base.y)
            facts = self._hole_facts(says[base], self.layers[base.layer])
            wide = Length.of_mm(2 * base.radius)
            self.holes.append(Hole("", self.choices.face, u, v, diameter=wide, **facts))
        at = len(self.holes) - len(bases) if bases else self.slots.get(self._place(group[0]))
        for one in more:
            if at is None:
                self._leave(one, "is a countersink or counterbore with no hole in its middle")
            else:
                self.holes[at] = replace(self.holes[at], **self._about(one, says[one], self.holes[at]))

    def _place(self, one: FlatCircle) -> int:
        return self.places.number_of(one.x, one.y)

    def _round_pocket(self, one: FlatCircle) -> None:
        u, v = self.uv(one.x - one.radius, one.y - one.radius)
        wide, depth = Length.of_mm(2 * one.radius), self.layers[one.layer].depth
        radius = Length.of_mm(one.radius)
        self.pockets.append(Pocket("", self.choices.face, u, v, wide, wide, depth, radius))

    def _is_main(self, one: FlatCircle) -> bool:
        kind = self.main.kind if self.main else None
        return (
            kind is not None
            and kind.kind == "circle"
            and math.dist((one.x, one.y), (kind.x, kind.y)) <= SAME_MM
            and abs(2 * one.radius - kind.diameter) <= SAME_MM
        )

    def _hole_facts(self, says: LayerSays | None, layer: LayerChoice) -> dict[str, Any]:
        if says is None or says.what != "hole":
            return {"kind": self.choices.kind, "depth": layer.depth}
        full = says.thread_depth_mm
        return {
            "kind": says.kind,
            "depth": layer.depth,
            "thread": says.thread,
            "thread_depth": None if full is None else Length.of_mm(full),
        }

    def _about(self, one: FlatCircle, says: LayerSays | None, hole: Hole) -> dict[str, Any]:
        """What a larger circle about the same centre says of a hole."""
        wide = Length.of_mm(2 * one.radius)
        what = says.what if says is not None else self.choices.pairs
        if what == "countersink" and hole.countersink_diameter is None:
            angle = says.angle_deg if says is not None else self.choices.countersink_angle_deg
            return {"countersink_diameter": wide, "countersink_angle_deg": Decimal(repr(angle)).normalize()}
        if what == "counterbore" and hole.counterbore_diameter is None:
            layer = self.layers[one.layer]
            depth = layer.depth if says is not None else self.choices.counterbore_depth
            if depth is None:
                raise InputError.of(
                    "Give the depth of the counterbores, or let the larger circles be something else.",
                    field="counterbore_depth",
                )
            return {"counterbore_diameter": wide, "counterbore_depth": depth}
        self._leave(one, "goes round a smaller circle about the same centre, of which the hole is made")
        return {}

    def _leave(self, one: FlatCircle, why: str) -> None:
        what = f"CIRCLE of {size_words(2 * one.radius)} mm"
        self.left.append(LeftOut(what, one.layer, why, one.x, one.y))

    def _hole_of_point(self, point: FlatPoint) -> None:
        if layer_says(point.layer) is not None:
            return  # the middle of a hole that has its circle
        if self.choices.points_diameter is None:
            why = "is a point; give the diameter of points to make holes of them"
            self.left.append(LeftOut("POINT", point.layer, why, point.x, point.y))
        elif self._is_in("POINT", point.layer, point.x, point.y):
            u, v = self.uv(point.x, point.y)
            facts = self._hole_facts(None, self.layers[point.layer])
            wide = self.choices.points_diameter
            self.holes.append(Hole("", self.choices.face, u, v, diameter=wide, **facts))

    # Slots and pockets

    def make_closed(self) -> None:
        """Make slots and pockets of the closed shapes inside the outline."""
        for one in self.found.closed:
            if one is self.main or one in self.found.outer:
                continue
            if self._is_in("outline", one.layer, *one.middle):
                why = self._closed(one)
                if why:
                    self.left.append(LeftOut("outline", one.layer, why, *one.middle))

    def _closed(self, one: ClosedShape) -> str:
        """Make one; why it cannot be, where it cannot."""
        layer, says, kind = self.layers[one.layer], layer_says(one.layer), one.kind
        if layer.closed == "nothing":
            return "is left out, as chosen for its layer"
        if kind.kind == "free":
            return "is neither a circle, a slot nor a rectangle square to the face, which a pocket must be"
        if kind.kind == "slot" and not kind.along:
            return "is a slot that lies aslant; slots and pockets run along u or v"
        as_pocket = layer.closed == "pockets" if says is None else says.what == "pocket"
        if kind.kind == "slot" and not as_pocket:
            u, v = self.uv(kind.x, kind.y)
            facts = self._hole_facts(says, layer)
            if says is None:
                facts["kind"] = "slot"
            facts |= {"slot_length": Length.of_mm(kind.length), "slot_along": kind.along}
            across = Length.of_mm(kind.diameter)
            self.slots[self.places.number_of(kind.x, kind.y)] = len(self.holes)
            self.holes.append(Hole("", self.choices.face, u, v, diameter=across, **facts))
            return ""
        left, bottom, right, top = one.box
        u, v = self.uv(left, bottom)
        corner = kind.diameter / 2 if kind.kind == "slot" else kind.corner
        size = Length.of_mm(right - left), Length.of_mm(top - bottom)
        radius = Length.of_mm(corner) if corner else None
        self.pockets.append(Pocket("", self.choices.face, u, v, *size, layer.depth, radius))
        return ""

    # Into the part

    def put_in(self, present: FaceShape | None) -> None:
        """Put the new holes and pockets into the part, without those that are there already."""
        face, part = self.choices.face, self.part
        if self.choices.replace:
            kept = tuple(one for one in part.holes if one.face != face)
            pockets = tuple(one for one in part.pockets if one.face != face)
            gone = len(part.holes) - len(kept) + len(part.pockets) - len(pockets)
            if gone:
                what = "holes and pockets" if gone > 1 else "hole or pocket"
                self.made.append(f"{gone} {what} placed by hand on this face taken out")
            part = replace(part, holes=kept, pockets=pockets)
        there = [one for one in (present.holes if present else ()) if not (self.choices.replace and one.key)]
        holes, again = new_holes(self.holes, there)
        new, more = new_pockets(self.pockets, part.pockets)
        self.said += [*again, *more]
        ids = next_ids(part, len(holes), "h"), next_ids(part, len(new), "k")
        named = tuple(replace(one, id=key) for one, key in zip(holes, ids[0], strict=True))
        cut = tuple(replace(one, id=key) for one, key in zip(new, ids[1], strict=True))
        self.part = replace(part, holes=(*part.holes, *named), pockets=(*part.pockets, *cut))
        self.made.extend(made_words(holes, new))
        if not self.made:
            self.said.append("Nothing is made of what was chosen.")
