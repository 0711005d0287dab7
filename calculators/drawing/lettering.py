"""How wide words are, where they break, and how labels keep clear of each other."""

from __future__ import annotations

from collections.abc import Sequence

_NARROW = frozenset("iljtf.,:;'|!()[] \u00a0I/")
_WIDE = frozenset("mwMW@%—½¼¾")


def text_width(text: str, size_mm: float) -> float:
    """Estimate how wide a line of lettering is, rather too wide than too narrow.

    Args:
        text: the words.
        size_mm: the size of the type [mm].

    Returns:
        The width [mm].

    Source: this project (widths of common humanist sans types, from memory).
    """
    ems = sum(0.34 if c in _NARROW else 0.95 if c in _WIDE else 0.68 if c.isupper() else 0.6 for c in text)
    return ems * size_mm


def wrap(text: str, size_mm: float, width_mm: float, *, most: int = 99) -> list[str]:
    """Break words into lines that fit a width, at plain spaces; a word that is too long is cut.

    Args:
        text: the words.
        size_mm: the size of the type [mm].
        width_mm: the width to fit [mm].
        most: the most lines; what is left over ends in an ellipsis.

    Returns:
        The lines, at least one.

    Source: this project.

    Example:
        >>> wrap("P10 pillar, brass", 4, 25)
        ['P10 pillar,', 'brass']
    """
    lines: list[str] = []
    line = ""
    for word in text.split(" "):
        for piece in _pieces(word, size_mm, width_mm):
            longer = f"{line} {piece}".strip(" ")
            if line and text_width(longer, size_mm) > width_mm:
                lines.append(line)
                line = piece
            else:
                line = longer
    lines.append(line)
    if len(lines) > most:
        lines = [*lines[: most - 1], _shortened(lines[most - 1] + " …", size_mm, width_mm)]
    return lines


def _pieces(word: str, size_mm: float, width_mm: float) -> list[str]:
    pieces = []
    while text_width(word, size_mm) > width_mm and len(word) > 1:
        cut = 1
        while cut < len(word) - 1 and text_width(word[: cut + 1], size_mm) <= width_mm:
            cut += 1
        pieces.append(word[:cut])
        word = word[cut:]
    return [*pieces, word]


def _shortened(line: str, size_mm: float, width_mm: float) -> str:
    while text_width(line, size_mm) > width_mm and len(line) > 2:
        line = line[:-2].rstrip() + "…"
    return line


def spread(wanted: Sequence[float], heights: Sequence[float], gap: float) -> list[float]:
    """Move labels along a line until none overlaps, each as little as it can.

    The middles keep their order; where labels would overlap they share a block about the mean of what
    they wanted (pooled adjacent violators, which gives the least sum of squares).

    Args:
        wanted: the middle that each label would like, in any order.
        heights: the height of each label.
        gap: the least space between two.

    Returns:
        The middle that each gets, in the order given.

    Source: this project (isotonic regression, common practice).

    Example:
        >>> spread([10, 10], [4, 4], 1)
        [7.5, 12.5]
    """
    order = sorted(range(len(wanted)), key=lambda index: (wanted[index], index))
    offsets: list[float] = []
    at = 0.0
    for place, index in enumerate(order):
        if place:
            at += heights[order[place - 1]] / 2 + gap + heights[index] / 2
        offsets.append(at)
    blocks: list[tuple[float, int]] = []
    for place, index in enumerate(order):
        total, count = wanted[index] - offsets[place], 1
        while blocks and blocks[-1][0] / blocks[-1][1] > total / count:
            before = blocks.pop()
            total, count = total + before[0], count + before[1]
        blocks.append((total, count))
    shifts = [total / count for total, count in blocks for _ in range(count)]
    middles = [0.0] * len(wanted)
    for place, index in enumerate(order):
        middles[index] = shifts[place] + offsets[place]
    return middles
