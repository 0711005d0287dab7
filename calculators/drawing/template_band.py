"""The band at the foot of a template's page: what it is, the caution, the sign-off box, the map of pages."""

from __future__ import annotations

from collections.abc import Iterator, Sequence

from calculators.drawing.lettering import wrap
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

CODE_MM = 17.0
_CAUTION_LINES = 3
_SMALL, _TYPE, _TITLE = 2.1, 2.5, 4.0
_SIGN_MM, _MAP_MM, _GAP_MM = 50.0, 34.0, 2.0


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
        [183, 251, 200, 268]
    """
    right = layout.width - MARGIN_MM
    top = layout.height - MARGIN_MM - RULE_STRIP_MM - BAND_MM + 3.0 + 2.6 * _CAUTION_LINES
    return right - CODE_MM, top, right, top + CODE_MM


def draw_band(tiling: Tiling, place: int, heading: str, title: str, says: Sequence[str]) -> Iterator[str]:
    """Draw the band.

    Args:
        tiling: the face over pages.
        place: which of the pages, from 0.
        heading: the build and the part.
        title: what the sheet is.
        says: sentences, the most important first; those that find no room are left out.

    Yields:
        SVG elements.

    Source: this project; a box to sign for the printer's check: common practice.
    """
    layout = tiling.layout
    left, right = MARGIN_MM + RULE_STRIP_MM, layout.width - MARGIN_MM
    over = layout.height - MARGIN_MM - RULE_STRIP_MM - BAND_MM
    yield line((left, over), (right, over), "band", "thin")
    for row, text in enumerate(wrap(CAUTION, _SMALL, 1.12 * (right - left), most=_CAUTION_LINES)):
        yield text_at((left, over + 3.0 + row * 2.6), text, _SMALL, name="caution")
    code = code_box(layout)
    top, bottom = code[1], layout.height - MARGIN_MM - RULE_STRIP_MM
    on_map = (code[0] - _GAP_MM - _MAP_MM, top, code[0] - _GAP_MM, bottom - 1)
    sign = (on_map[0] - _GAP_MM - _SIGN_MM, top, on_map[0] - _GAP_MM, bottom - 1)
    yield from _words((left, top, sign[0] - _GAP_MM, bottom + 0.5), heading, title, says)
    yield from _sign_off(sign)
    yield template_map(tiling, tiling.tiles[place].name, on_map)


def _words(box: Box, heading: str, title: str, says: Sequence[str]) -> Iterator[str]:
    room = box[2] - box[0]
    y = box[1] + _TITLE * 0.8
    yield text_at((box[0], y), wrap(heading, _TITLE, room, most=1)[0], _TITLE, name="sheet-title", bold=True)
    for text, bold in ((title, True), *((text, False) for text in says)):
        # The estimate of widths is on the wide side.
        for part in wrap(text, _TYPE, 1.1 * room):
            y += _TYPE * 1.22
            if y > box[3]:
                return
            yield text_at((box[0], y), part, _TYPE, name="sheet-words", bold=bold)


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
        "Printer", "Date", "100 along measures", "100 across measures", "Checked by", "Within 0.3: yes / no",
    )  # fmt: skip
    for place, text in enumerate(cells):
        x = (x0 if place % 2 == 0 else middle) + 0.8
        yield text_at((x, y0 + high * (place // 2) + 2.4), text, 1.9, name="sign-off", ink=SOFT)
