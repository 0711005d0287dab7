"""The check rules of a template's page: two, along and across the paper, from one corner; and match marks."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from calculators.drawing.face_shape import FaceShape
from calculators.drawing.svg import BLUE, INK, LINES, SOFT, Box, Point, number
from calculators.drawing.template_paper import INCH_RULE_MM, PageLayout
from calculators.drawing.template_strokes import Pen, arrow, at_point, line, text_at
from calculators.drawing.template_tiles import OVERLAP_MM, Tile, Tiling

_TYPE = 2.5
_SPOTS = (0.12, 0.2, 0.28, 0.36, 0.44)
_MARK_MM = 3.0


def check_rules(layout: PageLayout) -> list[str]:
    """Draw both check rules, with what they must measure and which way the paper goes.

    Args:
        layout: the page.

    Returns:
        SVG elements; the rules are as long on the page as the printer's correction makes them.

    Source: this project; check lines both ways on every page of a template: common practice.
    """
    return [*_rule(layout, level=True), *_rule(layout, level=False)]


def _rule(layout: PageLayout, *, level: bool) -> Iterator[str]:
    """One rule: millimetres ticked outward, inches inward, long ticks where it is measured."""
    x, y = layout.corner
    stretch = layout.x_stretch if level else layout.y_stretch
    long = layout.x_rule_mm if level else layout.y_rule_mm
    way = "along" if level == layout.landscape else "across"

    def at(mm: float, off: float) -> Point:
        """A point so far along the rule, and so far off it: outward is positive [mm on the page]."""
        return (x + mm * stretch, y + off) if level else (x - off, y - mm * stretch)

    name = f"check-rule {way}"
    yield line(at(0, 0), at(long, 0), name, "thin")
    for mm in range(0, int(long) + 1, 10):
        yield line(at(mm, 0), at(mm, 3.0 if mm in (0, 50, 100, long) else 1.5), f"tick {way}", "thin")
    for quarter in range(17):
        inch_mm = quarter * INCH_RULE_MM / 16
        yield line(at(inch_mm, 0), at(inch_mm, -2.4 if quarter in (0, 16) else -1.0), f"inch {way}", "thin")
    turn = 0 if level else -90
    inward = -1.2 if level else -3.1  # a base line: upright words stand to the left of theirs
    must = "must measure 100.0 mm: print at 100 %" + (", not to fit the page" if long > 200 else "")
    words = (
        (at(99.0, 5.2), "100 mm", "end"),
        (at(INCH_RULE_MM + 1.0, inward), "4 in", "start"),
        (at(long - 1.0, 5.2), f"{number(long)} mm", "end"),
        (at(103.5, 5.2), must, "start"),
    )
    for place, text, anchor in words:
        yield text_at(place, text, _TYPE, name="rule-words", anchor=anchor, turn=turn)
    yield text_at(at(1.0, 5.2), f"{way.upper()} THE PAPER", _TYPE, name="rule-words", bold=True, turn=turn)
    start = at(40.0, 4.3)
    end = at(58.0, 4.3)
    yield arrow(start, end, name="way", ink=INK, width=0.35)


# ---- where pages meet


def match_marks(tiling: Tiling, tile: Tile, pen: Pen) -> tuple[list[str], list[Box]]:
    """Draw the marks that two neighbouring pages both have, and the lines at which they are cut and laid.

    Args:
        tiling: the face over pages.
        tile: the page.
        pen: its pen.

    Returns:
        SVG elements, and the boxes that they take on the page.

    Source: this project; crosses that neighbouring sheets share: common practice.
    """
    body: list[str] = []
    taken: list[Box] = []
    for there, other, is_own in (
        (("right",), tile.right, False),
        (("left",), tile.left, True),
        (("below",), tile.below, False),
        (("above",), tile.above, True),
    ):
        if other:
            _joint(tiling, tile, pen, there[0], other, body, taken, is_own=is_own)
    return body, taken


def _joint(
    tiling: Tiling, tile: Tile, pen: Pen, side: str, other: str, body: list[str], taken: list[Box],
    *, is_own: bool,
) -> None:  # fmt: skip
    """One side of a page: the line, what to do at it, and two marks.

    The page on the right or below is cut on the line and laid over the other, up to the same line there.
    """
    x0, y0, x1, y1 = tile.cell
    upright = side in ("left", "right")
    level = {"left": x0, "right": x1, "below": y0, "above": y1}[side]
    ends = ((level, y0), (level, y1)) if upright else ((x0, level), (x1, level))
    a, b = (pen.at(*end) for end in ends)
    dashes = f'stroke="{SOFT}" stroke-width="0.25" stroke-dasharray="{"4 2" if is_own else "0.8 1.6"}"'
    kind = "cut" if is_own else "lay"
    body.append(f'<path class="{kind}" d="M{at_point(a)}L{at_point(b)}" fill="none" {dashes}/>')
    says = f"cut here, lay over {other}" if is_own else f"lay {other} on here"
    off = {"left": (-1.4, 0.0), "right": (3.2, 0.0), "below": (0.0, 3.2), "above": (0.0, -1.4)}[side]
    middle = ((a[0] + b[0]) / 2 + off[0], (a[1] + b[1]) / 2 + off[1])
    body.append(
        text_at(middle, says, 2.2, name="meet", ink=SOFT, anchor="middle", turn=-90 if upright else 0)
    )
    for letter, spot in zip("ab" if upright else "cd", mark_places(tiling.view, tile, side), strict=True):
        x, y = pen.at(*spot)
        body += _mark((x, y), letter)
        taken.append((x - _MARK_MM, y - _MARK_MM - 1.0, x + _MARK_MM, y + _MARK_MM))


def mark_places(view: FaceShape, tile: Tile, side: str) -> tuple[Point, Point]:
    """Give the places of the two match marks on one side of a page: clear of holes, far from each other.

    Args:
        view: the face as the template shows it.
        tile: the page.
        side: `left`, `right`, `above` or `below`.

    Returns:
        Two points of the view; the neighbour works out the same two.

    Source: this project.
    """
    x0, y0, x1, y1 = tile.cell
    upright = side in ("left", "right")
    level = {"left": x0, "right": x1, "below": y0, "above": y1}[side]
    low, high = (y0, y1) if upright else (x0, x1)
    half = OVERLAP_MM / 2
    # Both pages take the same span, whichever of their other sides are cut.
    low, high = (
        (tile.box[1] + half, tile.box[3] - half) if upright else (tile.box[0] + half, tile.box[2] - half)
    )

    def point(part: float) -> Point:
        along = low + (high - low) * part
        return (level, along) if upright else (along, level)

    def room(part: float) -> float:
        x, y = point(part)
        away = (
            max(abs(one.u_mm - x), abs(one.v_mm - y)) - max(one.outer_mm, one.slot_length_mm) / 2
            for one in view.holes
        )
        return min(min(away, default=9.0), 9.0)

    first = max(_SPOTS, key=room)
    second = max((1 - part for part in _SPOTS), key=room)
    return point(first), point(second)


def _mark(at: Point, says: str) -> Iterator[str]:
    x, y = at
    yield line((x - _MARK_MM, y), (x + _MARK_MM, y), "match", "dimension")
    yield line((x, y - _MARK_MM), (x, y + _MARK_MM), "match", "dimension")
    r = _MARK_MM / 2
    corners = ((x - r, y), (x, y - r), (x + r, y), (x, y + r))
    data = "M" + "L".join(at_point(one) for one in corners) + "Z"
    yield f'<path class="match" d="{data}" fill="none" {LINES["dimension"]}/>'
    yield text_at((x + 1.2, y - 1.3), says, 2.3, name="match-name", ink=BLUE)


def edges(tiles: Sequence[Tile]) -> int:
    """Count the sides at which pages are glued together.

    Args:
        tiles: the pages that are printed.

    Returns:
        How many.

    Source: this project.

    Example:
        >>> edges([Tile("1A", 0, 0, (0, 0, 1, 1), (0, 0, 1, 1), right="2A")])
        1
    """
    return sum(bool(one.right) + bool(one.below) for one in tiles)
