"""A part drawing read back from its SVG: boxes of its words, its outline, its holes. Nothing of the drawing code."""

from __future__ import annotations

import re
from dataclasses import dataclass
from itertools import pairwise
from xml.etree import ElementTree

from calculators.drawing.lettering import text_width

Box = tuple[float, float, float, float]
_SVG = "{http://www.w3.org/2000/svg}"


@dataclass(frozen=True)
class Word:
    """Words of a drawing with the box that they fill and the class of their element."""

    says: str
    box: Box
    kind: str


def tree_of(svg: str) -> ElementTree.Element:
    """The SVG's elements."""
    return ElementTree.fromstring(svg)


def words_of(svg: str) -> list[Word]:
    """Every text of a drawing; the letters' height is that of digits and capitals, 0.72 of the type."""
    found = []
    for one in tree_of(svg).iter(f"{_SVG}text"):
        size, says = float(one.attrib["font-size"]), one.text or ""
        x, y = float(one.attrib["x"]), float(one.attrib["y"])
        wide = text_width(says, size)
        left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[one.attrib.get("text-anchor", "start")]
        box = (left, y - 0.72 * size, left + wide, y)
        if turn := one.attrib.get("transform"):
            match = re.fullmatch(r"rotate\(-90 ([\d.-]+) ([\d.-]+)\)", turn)
            assert match
            cx, cy = map(float, match.groups())
            # A quarter turn to the left about (cx, cy): (x, y) goes to (cx + y - cy, cy - x + cx).
            box = (cx + box[1] - cy, cy - box[2] + cx, cx + box[3] - cy, cy - box[0] + cx)
        found.append(Word(says, box, one.attrib.get("class", "")))
    return found


def lines_of(svg: str, kind: str) -> list[tuple[float, float, float, float]]:
    """The straight pieces of every path of a class, as x, y to x, y."""
    found = []
    for one in tree_of(svg).iter(f"{_SVG}path"):
        if kind not in one.attrib.get("class", "").split():
            continue
        for part in re.findall(r"M([^M]+)", one.attrib["d"]):
            points = [_point(pair) for pair in part.rstrip("Z").split("L")]
            if part.endswith("Z"):
                points.append(points[0])
            found += [(*a, *b) for a, b in pairwise(points)]
    return found


def _point(pair: str) -> tuple[float, float]:
    x, y = pair.split()
    return float(x), float(y)


def meets(one: Box, other: Box, off: float = 0.05) -> bool:
    """Whether two boxes share more than a hair."""
    return (
        one[0] + off < other[2]
        and other[0] + off < one[2]
        and one[1] + off < other[3]
        and other[1] + off < one[3]
    )


def crosses(box: Box, line: tuple[float, float, float, float], off: float = 0.05) -> bool:
    """Whether a straight line goes through a box: clipped to it (Liang and Barsky), something is left."""
    x, y, to_x, to_y = line
    if max(x, to_x) < box[0] or min(x, to_x) > box[2] or max(y, to_y) < box[1] or min(y, to_y) > box[3]:
        return False
    low, high = 0.0, 1.0
    for step, least, most in (
        (to_x - x, box[0] + off - x, box[2] - off - x),
        (to_y - y, box[1] + off - y, box[3] - off - y),
    ):
        if abs(step) < 1e-9:
            if least > 0 or most < 0:
                return False
            continue
        one, other = sorted((least / step, most / step))
        low, high = max(low, one), min(high, other)
    return low < high
