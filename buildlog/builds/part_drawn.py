"""The part drawing of a component for pages and for sheets, with what is wrong in it in red."""

from __future__ import annotations

import math
from collections.abc import Callable, Sequence
from dataclasses import dataclass, replace

from buildlog.builds.red_places import lies_in, red_on
from buildlog.workshops.units import shown_units
from calculators.drawing.part_sheet import PartDrawing
from calculators.drawing.plan_marks import PlanMark
from calculators.drawing.section_words import plain_mm
from calculators.planning.drawn.part_drawings import part_drawing
from calculators.planning.model import Component
from calculators.planning.placing import solid_of
from calculators.planning.schedules.holes import FACE_ORDER
from calculators.planning.worked import WorkedBuild
from calculators.quantities.display import fractional_inches
from calculators.quantities.length import Length

BROAD, NARROW = (240.0, 280.0), (72.0, 280.0)
"""Room for the views on a page [mm]: broad, and on a phone, where a millimetre is as large as it can be."""

_EXACT_MM = 0.02
"""An inch fraction stands for a length that it is no further off than this; else thousandths."""


@dataclass(frozen=True, slots=True)
class Drawn:
    """A part drawn for a broad and for a narrow page, and the sentences that belong to its red."""

    broad: PartDrawing
    narrow: PartDrawing
    says: tuple[str, ...]


def drawn_for_page(worked: WorkedBuild, mark: str) -> Drawn:
    """Draw a component in the person's units; InputError where a size is missing."""
    write = writer()
    marks, says = _in_red(worked, mark)
    told = " ".join(says)
    broad = part_drawing(worked, mark, paper=BROAD, with_table=False, write=write, marks=marks, says=told)
    narrow = part_drawing(worked, mark, paper=NARROW, with_table=False, write=write, marks=marks, says=told)
    return Drawn(broad, narrow, says)


def drawn_for_paper(
    worked: WorkedBuild, mark: str, rooms: Sequence[tuple[float, float]]
) -> tuple[PartDrawing, int]:
    """Draw a component for the paper on its side or upright, whichever shows it larger; and says which."""
    marks, says = _in_red(worked, mark)
    told = " ".join(says)
    found = [
        part_drawing(worked, mark, paper=room, with_table=False, marks=marks, says=told) for room in rooms
    ]
    best = max(range(len(found)), key=lambda place: (_scale(found[place].scale), -place))
    return found[best], best


def _scale(words: str) -> float:
    drawn, true = words.split(":")
    return float(drawn) / float(true)


def writer() -> Callable[[float], str]:
    """How lengths are written in a drawing for the person who looks at it."""
    match shown_units():
        case "mm":
            return plain_mm
        case "in":
            return _inches
    return plain_mm


def _inches(value: float) -> str:
    length = Length.of_mm(value)
    text = fractional_inches(length, say_from_mm=_EXACT_MM)
    return f"{value / 25.4:.3f}″" if "(" in text else text.replace(" in", "″")


def _in_red(worked: WorkedBuild, mark: str) -> tuple[dict[str, list[PlanMark]], tuple[str, ...]]:
    """The places of findings in a part, by the view that shows them, and what is said of them."""
    part = next((one for one in worked.build.components if one.mark == mark), None)
    found = [one for one in worked.findings if one.severity in ("error", "warning") and lies_in(one, mark)]
    marks: dict[str, list[PlanMark]] = {}
    says: dict[str, None] = {}
    for face in FACE_ORDER:
        red = red_on(found, mark, face)
        says |= dict.fromkeys(red.says)
        for one in red.marks:
            view, placed = _on_view(part, one) if part and face == "side" else (face, one)
            marks.setdefault(view, []).append(placed)
    return marks, tuple(says)


def _on_view(part: Component, one: PlanMark) -> tuple[str, PlanMark]:
    """A place on a round side, where v is an angle, as the view sees it that looks at it most squarely."""
    solid = solid_of(part)
    radius = solid.diameter / 2 if solid else 0.0
    face = ("back", "top", "front", "bottom")[round(one.v_mm / 90.0) % 4]
    if face in ("back", "bottom"):  # drawn only where a hole opens there; the other side shows the place too
        face = "front" if face == "back" else "top"

    def across(angle_deg: float) -> float:
        turned = math.radians(angle_deg)
        return radius * (math.cos(turned) if face == "top" else math.sin(turned))

    to = None if one.to is None else (one.to[0], across(one.to[1]))
    return face, replace(one, v_mm=across(one.v_mm), to=to)
