"""What stands on the sheet of part drawings: each part that is made here, on its side or upright."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from buildlog.builds.part_drawn import drawn_for_paper
from buildlog.sheets.papers import Paper
from calculators.drawing.part_sheet import PartDrawing
from calculators.planning.model import Component
from calculators.planning.tree import total_quantity
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

_SHEETS: dict[Paper, tuple[float, float]] = {"a4": (297.0, 210.0), "letter": (279.4, 215.9)}
_SIDES_MM, _LYING_MM, _UPRIGHT_MM, _ERRORS_MM = 24.0, 88.0, 88.0, 14.0
"""What margins, heading and title block take of the paper's width and height, and what the errors take."""


@dataclass(frozen=True, slots=True)
class PartPage:
    """One part with its drawing, how many there are, and whether its paper stands upright.

    `is_turned` says that it stands otherwise than the first.
    """

    part: Component
    drawing: PartDrawing
    count: int
    upright: bool
    is_turned: bool


def part_content(worked: WorkedBuild, component: str, paper: Paper) -> dict[str, Any]:
    """Draw one component, or each that is made here and can be drawn."""
    errors = any(one.severity == "error" for one in worked.findings)
    long, short = _SHEETS[paper]
    over = _ERRORS_MM if errors else 0.0
    rooms = (
        (long - _SIDES_MM, short - _LYING_MM - over),
        (short - _SIDES_MM, long - _UPRIGHT_MM - over),
    )
    totals = total_quantity(worked.build)
    pages: list[PartPage] = []
    missing: list[str] = []
    for part in worked.build.components:
        if component != part.mark if component else not _is_made(part):
            continue
        try:
            drawing, place = drawn_for_paper(worked, part.mark, rooms)
        except InputError:
            missing.append(part.mark)
            continue
        turned = bool(pages) and pages[0].upright != (place == 1)
        pages.append(PartPage(part, drawing, totals[part.mark], place == 1, turned))
    context = worked.build.context
    upright = bool(pages) and pages[0].upright  # heading and title block stand as the first drawing does
    return {
        "orientation": "portrait" if upright else "landscape",
        "other_way": "landscape" if upright else "portrait",
        "pages": pages,
        "missing": missing,
        "projection": context.projection,
        "tolerance": context.position_mm,
    }


def _is_made(part: Component) -> bool:
    """Whether a component is a part of its own that is not bought as it is."""
    return bool(part.size.shape) and part.stock != "bought"
