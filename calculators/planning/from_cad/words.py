"""What a drawing made of a part, in words."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Sequence

from calculators.planning.from_cad.sorting import ClosedShape
from calculators.planning.model import Hole, Pocket


def size_words(value: float) -> str:
    """Write a length as a sentence has it, to a thousandth.

    Args:
        value: [mm].

    Returns:
        The figures.

    Source: this project.

    Example:
        >>> size_words(12.50004)
        '12.5'
    """
    return f"{round(value, 3) + 0.0:.10g}"


def outer_words(one: ClosedShape) -> str:
    """Say which outline one is, for a list to choose from.

    Args:
        one: the outline.

    Returns:
        Its sizes, where it lies in the drawing and its layer.

    Source: this project.
    """
    left, bottom, right, top = one.box
    sizes = f"{size_words(right - left)} x {size_words(top - bottom)} mm"
    return f"{sizes}, from {size_words(left)}, {size_words(bottom)}, on layer {one.layer}"


def made_words(holes: Sequence[Hole], pockets: Sequence[Pocket]) -> list[str]:
    """Say how many of which hole and pocket are made, the most first.

    Args:
        holes: the new holes.
        pockets: the new pockets.

    Returns:
        A line for each kind and size, of those that are many in one.

    Source: this project.

    Example:
        >>> from calculators.quantities.length import Length
        >>> at = Length.of_mm(10)
        >>> made_words([Hole("h1", "top", at, at, diameter=Length.of_mm(5.5))], [])
        ['1 plain Ø5.5 hole, through']
    """
    counts = Counter(_hole_words(one) for one in holes)
    told = [_counted(count, words) for words, count in counts.most_common(12)]
    if len(counts) > 12:
        told.append(
            f"{sum(counts.values()) - sum(n for _, n in counts.most_common(12))} more holes of other sizes"
        )
    deep = Counter(_pocket_words(one) for one in pockets)
    told += [_counted(count, words) for words, count in deep.most_common(6)]
    if len(deep) > 6:
        told.append(f"{deep.total() - sum(count for _, count in deep.most_common(6))} more pockets")
    return told


def _counted(count: int, words: str) -> str:
    """How many of them, the thing itself in the plural where they are many."""
    if count == 1:
        return f"1 {words}"
    many = re.sub(r"(hole|slot|pocket)(?![a-z])", r"\1s", words, count=1)
    return f"{count} {many}"


def _hole_words(one: Hole) -> str:
    wide = f"Ø{size_words(one.diameter.mm)}" if one.diameter else ""
    slot = f" slot {size_words(one.slot_length.mm)} long" if one.slot_length else ""
    kind = "" if one.kind == "slot" else f"{one.kind} "
    thread = f", {one.thread}" if one.thread else ""
    deep = f", {size_words(one.depth.mm)} mm deep" if one.depth else ", through"
    sunk = f", countersunk Ø{size_words(one.countersink_diameter.mm)}" if one.countersink_diameter else ""
    bored = f", counterbored Ø{size_words(one.counterbore_diameter.mm)}" if one.counterbore_diameter else ""
    return f"{kind}{wide}{slot or ' hole'}{thread}{deep}{sunk}{bored}"


def _pocket_words(one: Pocket) -> str:
    deep = f"{size_words(one.depth.mm)} mm deep" if one.depth else "through"
    return f"pocket {size_words(one.length.mm)} x {size_words(one.width.mm)}, {deep}"
