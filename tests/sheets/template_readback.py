"""Templates read back from their PDF: what is drawn where on each page, and how the pages lie together.

Nothing here knows how the pages were laid out: which page it is stands on it, and how it lies beside the next
one is told by the match marks that both have. Lengths are millimetres, y downward from the page's top.
"""

from __future__ import annotations

import io
import math
import re
from dataclasses import dataclass, field
from typing import Any

import pdfplumber

MM = 25.4 / 72
INK, BLUE = (0.082353, 0.129412, 0.168627), (0.121569, 0.337255, 0.45098)
Point = tuple[float, float]


@dataclass
class PageRead:
    """One page as a person would read it with a rule."""

    name: str
    width: float
    height: float
    text: str
    glyphs: str = ""
    """Every sign in the order in which it was drawn, turned words too, without spaces."""
    crosses: list[Point] = field(default_factory=list)
    outline: list[Point] = field(default_factory=list)
    rounds: list[tuple[Point, float, float]] = field(default_factory=list)
    marks: dict[str, Point] = field(default_factory=dict)
    rules: dict[str, tuple[Point, float]] = field(default_factory=dict)
    inch_ticks: dict[str, float] = field(default_factory=dict)
    band: float = 0.0

    def shows(self, point: Point, room: float) -> bool:
        """Whether a place with so much about it lies where the page is drawn on."""
        return (
            point[0] - room >= 21.0 - 1e-6
            and point[0] + room <= self.width - 10.0 + 1e-6
            and point[1] - room >= 10.0 - 1e-6
            and point[1] + room <= self.band + 1e-6
        )


def read_pages(pdf: bytes) -> list[PageRead]:
    """Read every page."""
    with pdfplumber.open(io.BytesIO(pdf)) as paper:
        return [_page(page) for page in paper.pages]


def _page(page: Any) -> PageRead:
    text = page.extract_text()
    name = re.search(r"page ([0-9]+[A-Z]+)", text)
    read = PageRead(name[1] if name else "1A", float(page.width) * MM, float(page.height) * MM, text)
    read.glyphs = "".join(char["text"] for char in page.chars).replace(" ", "")
    crosses: dict[Point, list[float]] = {}
    blue: dict[Point, int] = {}
    for each in page.objects.get("line", []):
        (x0, y0), (x1, y1) = ((x * MM, y * MM) for x, y in each["pts"])
        long, middle = math.dist((x0, y0), (x1, y1)), ((x0 + x1) / 2, (y0 + y1) / 2)
        key = (round(middle[0], 4), round(middle[1], 4))
        if _is(each, INK) and abs(long - 8.0) < 1e-3:
            crosses.setdefault(key, []).append(long)
        elif _is(each, BLUE) and abs(long - 6.0) < 1e-3:
            blue[key] = blue.get(key, 0) + 1
        elif _is(each, INK) and abs(each["linewidth"] - 0.5 / MM) < 1e-3:
            read.outline += [(x0, y0), (x1, y1)]
        elif _is(each, INK) and long > 75 and abs(each["linewidth"] - 0.25 / MM) < 1e-3:
            _long_line(read, (x0, y0), (x1, y1))
    read.crosses = [at for at, lines in crosses.items() if len(lines) == 2]
    for each in (*page.objects.get("curve", []), *page.objects.get("rect", [])):
        if _is(each, INK) and abs(each["linewidth"] - 0.5 / MM) < 1e-3:
            read.outline += [(x * MM, y * MM) for x, y in _corners(each)]
        elif _is(each, INK) and abs(each["linewidth"] - 0.35 / MM) < 1e-3:
            read.rounds.append(_round(each))
    for char in page.chars:
        at = (char["x0"] * MM, char["bottom"] * MM)
        near = [one for one, lines in blue.items() if lines == 2 and math.dist(one, at) < 3.0]
        if char["text"] in "abcd" and near and abs(char["size"] * MM - 2.3) < 0.05:
            _mark(read, char["text"], near[0])
    _inches(read, page)
    return read


def _is(each: dict[str, Any], ink: tuple[float, ...]) -> bool:
    colour = each["stroking_color"]
    return each["stroke"] and isinstance(colour, tuple) and len(colour) == 3 and math.dist(colour, ink) < 1e-3


def _corners(each: dict[str, Any]) -> list[Point]:
    """The points at which the pieces of a path meet."""
    return [step[-1] for step in each["path"] if step[0] != "h"]


def _round(each: dict[str, Any]) -> tuple[Point, float, float]:
    """The box of a closed path: its middle and sizes."""
    xs, ys = zip(*_corners(each), strict=True)
    middle = ((min(xs) + max(xs)) / 2 * MM, (min(ys) + max(ys)) / 2 * MM)
    return middle, (max(xs) - min(xs)) * MM, (max(ys) - min(ys)) * MM


def _long_line(read: PageRead, start: Point, end: Point) -> None:
    """A check rule, from the corner at the lower left; or the upper edge of the band."""
    level = abs(start[1] - end[1]) < 1e-6
    if level and min(start[0], end[0]) > 20.0:
        read.band = start[1]
        return
    corner = (min(start[0], end[0]), max(start[1], end[1]))
    read.rules["level" if level else "upright"] = (corner, math.dist(start, end))


def _mark(read: PageRead, letter: str, at: Point) -> None:
    """A match mark by its side: a and b are on the left or right, c and d above or below."""
    if letter in "ab":
        side = "left" if at[0] < read.width / 2 else "right"
    else:
        side = "above" if at[1] < (10 + read.band) / 2 else "below"
    read.marks[f"{side} {letter}"] = at


def _inches(read: PageRead, page: Any) -> None:
    """Where the 4 in ticks stand: the lines of 2.4 mm across a rule that are not at its corner."""
    for each in page.objects.get("line", []):
        (x0, y0), (x1, y1) = ((x * MM, y * MM) for x, y in each["pts"])
        if abs(math.dist((x0, y0), (x1, y1)) - 2.4) > 1e-3:
            continue
        corner = read.rules["level"][0]
        far = x0 - corner[0] if abs(x0 - x1) < 1e-6 else corner[1] - y0
        if far > 1.0:
            read.inch_ticks["level" if abs(x0 - x1) < 1e-6 else "upright"] = far


OPPOSITE = {"right": "left", "left": "right", "above": "below", "below": "above"}
_STEP = {"right": (1, 0), "left": (-1, 0), "above": (0, -1), "below": (0, 1)}


def laid_together(pages: list[PageRead]) -> dict[str, Point]:
    """Where each page lies beside the first, by the marks that neighbours share; both marks must agree."""
    by_name = {one.name: one for one in pages}
    assert len(by_name) == len(pages), "two pages have one name"
    placed = {pages[0].name: (0.0, 0.0)}
    queue = [pages[0].name]
    for name in queue:
        here = by_name[name]
        for side in OPPOSITE:
            letters = "ab" if side in ("left", "right") else "cd"
            if f"{side} {letters[0]}" not in here.marks:
                continue
            beside = by_name[_beside(name, side)]
            offs = []
            for letter in letters:
                mine, theirs = here.marks[f"{side} {letter}"], beside.marks[f"{OPPOSITE[side]} {letter}"]
                x, y = placed[name]
                offs.append((x + mine[0] - theirs[0], y + mine[1] - theirs[1]))
            assert math.dist(*offs) < 0.005, (name, side, offs)
            if beside.name in placed:
                assert math.dist(placed[beside.name], offs[0]) < 0.005
            else:
                placed[beside.name] = offs[0]
                queue.append(beside.name)
    assert set(placed) == set(by_name), "pages that hang on no other"
    return placed


def _beside(name: str, side: str) -> str:
    column, row = int(name[:-1]), name[-1]
    across, down = _STEP[side]
    return f"{column + across}{chr(ord(row) + down)}"
