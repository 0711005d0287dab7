"""What must hold of a part's folds: each line lies on the sheet."""

from __future__ import annotations

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.model import Component


def check_bends(one: Component, at: str, collector: Collector) -> None:
    """Check that each bend of a part lies within it; faults go to the collector.

    Args:
        one: the part.
        at: its place in the build file.
        collector: where faults go.

    Source: this project.
    """
    for i, bend in enumerate(one.bends):
        place = f"{at}.bends[{i}] ({bend.id})"
        if one.size.shape == "round":
            collector.fault(place, f"{one.mark} is a round; only a block, a sheet as it lies flat, is bent.")
            continue
        limit = one.size.length if bend.runs == "across" else one.size.width
        if bend.at.ticks > 0 and (limit is None or bend.at.ticks < limit.ticks):
            continue
        side, other = ("length", "left end") if bend.runs == "across" else ("width", "front edge")
        far = limit.mm if limit is not None else None
        within = f" and less than the {side}, {far:g} mm" if far is not None else ""
        says = f"The bend lies {bend.at.mm:g} mm from the {other}; it must be more than 0{within}."
        collector.fault(f"{place}.at", says, value=bend.at.mm, limit=far, unit="mm")
