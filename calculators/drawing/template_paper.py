"""The paper of true-size templates: sizes, margins, and what is kept free for rules, words and the drawing.

The field is where the part is drawn. Below it is a band with title, sign-off and map; along the left side and
the bottom run the check rules, from one corner, so that they are on every page in both directions.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.drawing.svg import Box
from calculators.quantities.errors import InputError

MARGIN_MM = 10.0
"""Room that is left at every edge; printers of offices and homes leave 3 to 6 mm (common practice)."""

PAPERS_MM: dict[str, tuple[float, float]] = {"a4": (210.0, 297.0), "letter": (215.9, 279.4)}
"""Short and long side: A4 of ISO 216; Letter is 8 1/2 by 11 in (ASME Y14.1, size A); from memory."""

RULE_STRIP_MM, BAND_MM = 11.0, 40.0
_RULE_IN = 7.2
"""How far the corner of the two check rules lies inside the margins."""

LONGEST_RULE_MM = 250.0
INCH_RULE_MM = 101.6
"""4 in, at 25.4 mm."""

LEAST_FACTOR, MOST_FACTOR = 0.9, 1.12


@dataclass(frozen=True, slots=True)
class Stretch:
    """How many times longer than true things are drawn, along and across the paper, for one printer.

    Along is the page's long side. `printer` is whose it is; the words stand on the sheet.
    """

    along: float = 1.0
    across: float = 1.0
    printer: str = ""

    @property
    def is_none(self) -> bool:
        """Whether everything is drawn at its true length."""
        return self.along == 1.0 and self.across == 1.0


@dataclass(frozen=True, slots=True)
class PageLayout:
    """One way to lay a page: its size, whether it lies on its side, the stretch of x and of y.

    `field` and `corner` (where the check rules begin) are on the page, y downward [mm].
    """

    width: float
    height: float
    landscape: bool
    x_stretch: float
    y_stretch: float
    field: Box
    corner: tuple[float, float]
    x_rule_mm: float
    y_rule_mm: float

    @property
    def field_width(self) -> float:
        """How much of the part the field holds from left to right [mm of the part]."""
        return (self.field[2] - self.field[0]) / self.x_stretch

    @property
    def field_height(self) -> float:
        """How much of the part the field holds from top to bottom [mm of the part]."""
        return (self.field[3] - self.field[1]) / self.y_stretch


def page_layout(paper: str, stretch: Stretch, *, landscape: bool) -> PageLayout:
    """Lay a page out.

    Args:
        paper: `a4` or `letter`.
        stretch: the correction for the printer, each way between 0.9 and 1.12.
        landscape: whether the long side lies level.

    Returns:
        The layout.

    Raises:
        InputError: for another paper, or a stretch that no printer needs.

    Source: this project; the sizes as in `PAPERS_MM`.

    Example:
        >>> page_layout("a4", Stretch(), landscape=False).y_rule_mm
        250.0
    """
    if paper not in PAPERS_MM:
        raise InputError.of(
            f"There is no paper “{paper[:40]}”; the papers are {' and '.join(PAPERS_MM)}.",
            field="paper",
            choices=tuple(PAPERS_MM),
        )
    for way in (stretch.along, stretch.across):
        if not LEAST_FACTOR <= way <= MOST_FACTOR:
            raise InputError.of(
                f"A correction of {way:.4g} times is no printer's; it lies between {LEAST_FACTOR} and "
                f"{MOST_FACTOR}.",
                field="printer",
            )
    short, long = PAPERS_MM[paper]
    width, height = (long, short) if landscape else (short, long)
    x, y = (stretch.along, stretch.across) if landscape else (stretch.across, stretch.along)
    right, bottom = width - MARGIN_MM, height - MARGIN_MM
    corner = (MARGIN_MM + _RULE_IN, bottom - _RULE_IN)
    return PageLayout(
        width,
        height,
        landscape,
        x,
        y,
        (MARGIN_MM + RULE_STRIP_MM, MARGIN_MM, right, bottom - RULE_STRIP_MM - BAND_MM),
        corner,
        _longest((right - corner[0]) / x),
        _longest((corner[1] - MARGIN_MM) / y),
    )


def _longest(room_mm: float) -> float:
    """The longest rule of whole centimetres that fits."""
    return min(LONGEST_RULE_MM, room_mm // 10 * 10)
