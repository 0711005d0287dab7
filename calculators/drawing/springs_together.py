"""The load of several springs together over their travel."""

from __future__ import annotations

from collections.abc import Sequence
from math import inf

from calculators.calculation import Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM, Axis, Bound, Curve, Spot, chart
from calculators.drawing.svg import Point
from calculators.mechanics.springs.together import (
    Member,
    end_to_end_travel_mm,
    side_by_side_load_n,
    solid_travel_mm,
)


def draw_springs(members: Sequence[Member], result: Result, *, end_on: bool) -> tuple[Picture, ...]:
    """Draw load over travel of springs together, with each spring alone where they stand side by side.

    Args:
        members: the springs, at least one.
        result: what the calculator answered.
        end_on: whether they stand end to end.

    Returns:
        The picture; none where nothing moves.

    Source: this project.
    """
    load, travel = (float(str(result.results[name].value)) for name in ("load", "working_travel"))
    solid = None if end_on else solid_travel_mm(members)[0]
    furthest = solid if solid is not None and solid < inf else 1.5 * travel
    if furthest <= 0:
        return ()
    curves = [Curve(_end_on(members, 1.3 * load) if end_on else _abreast(members, furthest), "together")]
    if not end_on and len(members) > 1:
        curves += [Curve(_abreast([each], furthest), each.name, "thin") for each in members]
    where = f"{number_text(travel, 4)}\u00a0mm, {number_text(load, 4)}\u00a0N"
    spots = [Spot(travel, load, f"at work {where}")]
    bounds = []
    if solid is not None and solid < inf:
        bounds.append(Bound(f"solid at {number_text(solid, 4)}\u00a0mm", x=solid, wrong=True))
    says = "; ".join([spots[0].says, *(each.says for each in bounds)])
    title = "Load over travel"

    def draw(width: float) -> str:
        return chart(
            Axis("travel", "mm", least=0.0),
            Axis("load", "N", least=0.0),
            curves,
            title=title,
            description=f"{says}.",
            spots=spots,
            bounds=bounds,
            width_mm=width,
        )

    return (Picture(title, draw(BROAD_MM), draw(NARROW_MM), f"All springs together: {says}."),)


def _abreast(members: Sequence[Member], furthest: float) -> tuple[Point, ...]:
    """Corners of the line of springs side by side: before and after each begins to bear."""
    marks = sorted({0.0, furthest, *(each.gap_mm for each in members if each.gap_mm < furthest)})
    line: list[Point] = []
    for x in marks:
        low = side_by_side_load_n(members, x)
        new = sum(each.initial_n for each in members if each.gap_mm == x)
        line += [(x, low), (x, low + new)] if new else [(x, low)]
    return tuple(line)


def _end_on(members: Sequence[Member], most: float) -> tuple[Point, ...]:
    """Corners of the line of springs end to end: where each begins and ceases to move."""
    stops = [each.initial_n + each.rate_n_per_mm * each.own_most_mm for each in members]
    marks = {0.0, most, *(each.initial_n for each in members), *stops}
    return tuple((end_to_end_travel_mm(members, f), f) for f in sorted(m for m in marks if m <= most))
