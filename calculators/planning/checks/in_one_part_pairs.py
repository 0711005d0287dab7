"""How two cuts of one part belong together: by copy, by fastener, by where a hole begins and runs."""

from __future__ import annotations

from calculators.geometry.chords import pocket_stretch
from calculators.planning.checks.in_one_part_cuts import HoleCut, PartCuts, PocketCut


def together(first: HoleCut, second: HoleCut) -> bool:
    """Say whether two holes are ever in one copy of the part.

    Args:
        first: a hole.
        second: another.

    Returns:
        False where no copy has both.

    Source: this project.
    """
    ours, theirs = first.hole.copies, second.hole.copies
    return not ours or not theirs or ours == theirs or not set(ours).isdisjoint(theirs)


def one_place(first: HoleCut, second: HoleCut) -> bool:
    """Say whether two holes are of one fastener: the same place of the same joint.

    Args:
        first: a hole.
        second: another.

    Returns:
        True where they are.

    Source: this project.
    """
    one, other = first.hole, second.hole
    return bool(one.joint) and one.joint == other.joint and bool(one.place) and one.place == other.place


def axis_in_pocket(cuts: PartCuts, hole: HoleCut, pocket: PocketCut) -> tuple[float, float] | None:
    """Return where the axis of a hole runs inside a pocket, between where the hole begins and ends.

    Args:
        cuts: the part's cuts.
        hole: one of its holes.
        pocket: one of its pockets.

    Returns:
        The two distances from the hole's mark [mm], or None where its axis does not meet the pocket.

    Source: this project.
    """
    stretch = pocket_stretch(cuts.solid, pocket.geometry, hole.cut.mark, hole.cut.way)
    if stretch is None or stretch[1] < hole.cut.enter - 1e-3 or stretch[0] > hole.cut.leave + 1e-3:
        return None
    return stretch


def starts_in(hole: HoleCut, pocket: PocketCut) -> bool:
    """Say whether a hole begins in a pocket.

    Args:
        hole: a hole.
        pocket: a pocket of the same part.

    Returns:
        True where its axis comes into material from the pocket.

    Source: this project.
    """
    surface = hole.cut.first.surface_in
    return surface.of == "pocket" and surface.pocket == pocket.index
