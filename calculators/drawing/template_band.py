"""The band at the foot of a template's page: the sign-off box, the map, room for caution, title and code.

Words are set by whoever prints the page, who knows the widths of the type.
"""

from __future__ import annotations

from collections.abc import Iterator

from calculators.drawing.svg import LINES, SOFT, Box, number
from calculators.drawing.template_map import template_map
from calculators.drawing.template_paper import BAND_MM, MARGIN_MM, RULE_STRIP_MM, PageLayout
from calculators.drawing.template_strokes import line, text_at
from calculators.drawing.template_tiles import Tiling

CAUTION = (
    "Caution. Lay a rule on both check rules before you trust this paper. Clamp every part; never hold thin "
    "sheet or brass by hand, which grab as the drill breaks through. Dub the lips of drills for brass. Wear "
    "eye protection, tie back hair and sleeves, take the key out of the chuck, and put a board under what "
    "you drill. The rules of your workshop and local codes come first."
)
"""As on the drilling sheet, with the check rules before it."""

CODE_MM = 21.0
"""How wide the square code of a sheet is with its quiet zone, at most; its letters stand below it."""

_CAUTION_LINES = 3
_WORDS_MM = 28.3
"""A heading of 11 points and eight lines of 7: what does not fit is left out line by line."""

_SIGN_MM, _MAP_MM, _GAP_MM = 42.0, 25.0, 2.0


def code_box(layout: PageLayout) -> Box:
    """Give the square that is kept free for the code by which the sheet is known again.

    Args:
        layout: the page.

    Returns:
        Left, top, right, bottom [mm on the page].

    Source: this project.

    Example:
        >>> from calculators.drawing.template_paper import Stretch, page_layout
        >>> [round(each) for each in code_box(page_layout("a4", Stretch(), landscape=False))]
        [179, 247, 200, 268]
    """
    right = layout.width - MARGIN_MM
    top = layout.height - MARGIN_MM - RULE_STRIP_MM - BAND_MM + 3.0 + 2.6 * _CAUTION_LINES
    return right - CODE_MM, top, right, top + CODE_MM


def words_box(layout: PageLayout) -> Box:
    """Give the box in which the title of the sheet and its sentences stand.

    Args:
        layout: the page.

    Returns:
        Left, top, right, bottom [mm on the page].

    Source: this project.

    Example:
        >>> from calculators.drawing.template_paper import Stretch, page_layout
        >>> [round(each) for each in words_box(page_layout("a4", Stretch(), landscape=True))]
        [21, 160, 193, 188]
    """
    code = code_box(layout)
    right = code[0] - 3 * _GAP_MM - _MAP_MM - _SIGN_MM
    return MARGIN_MM + RULE_STRIP_MM, code[1], right, code[1] + _WORDS_MM


def caution_box(layout: PageLayout) -> Box:
    """Give the box in which the caution stands.

    Args:
        layout: the page.

    Returns:
        Left, top, right, bottom [mm on the page].

    Source: this project.

    Example:
        >>> from calculators.drawing.template_paper import Stretch, page_layout
        >>> [round(each) for each in caution_box(page_layout("a4", Stretch(), landscape=True))]
        [21, 149, 287, 160]
    """
    top = layout.height - MARGIN_MM - RULE_STRIP_MM - BAND_MM
    return MARGIN_MM + RULE_STRIP_MM, top, layout.width - MARGIN_MM, code_box(layout)[1]


def draw_band(tiling: Tiling, place: int) -> Iterator[str]:
    """Draw the lines of the band: its upper edge, the box to sign, the map.

    Args:
        tiling: the face over pages.
        place: which of the pages, from 0.

    Yields:
        SVG elements.

    Source: this project; a box to sign for the printer's check: common practice.
    """
    layout = tiling.layout
    left, over, right, top = caution_box(layout)
    yield line((left, over), (right, over), "band", "thin")
    bottom = layout.height - MARGIN_MM - RULE_STRIP_MM - 1
    edge = code_box(layout)[0] - _GAP_MM
    sign = edge - _MAP_MM - _GAP_MM
    yield from _sign_off((sign - _SIGN_MM, top, sign, bottom))
    yield template_map(tiling, tiling.tiles[place].name, (edge - _MAP_MM, top, edge, bottom))


def _sign_off(box: Box) -> Iterator[str]:
    """Where the person who measured writes it down."""
    x0, y0, x1, y1 = box
    middle, high = (x0 + x1) / 2, (y1 - y0) / 3
    size = f'width="{number(x1 - x0)}" height="{number(y1 - y0)}"'
    yield f'<rect class="sign-off" x="{number(x0)}" y="{number(y0)}" {size} {LINES["thin"]}/>'
    for row in (1, 2):
        yield line((x0, y0 + row * high), (x1, y0 + row * high), "sign-off", "thin")
    yield line((middle, y0), (middle, y1), "sign-off", "thin")
    cells = (
        "Printer", "Date", "100 along reads", "100 across reads", "Checked by", "Within 0.3: yes / no",
    )  # fmt: skip
    for place, text in enumerate(cells):
        x = (x0 if place % 2 == 0 else middle) + 0.8
        yield text_at((x, y0 + high * (place // 2) + 2.4), text, 1.9, name="sign-off", ink=SOFT)
