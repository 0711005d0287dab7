"""The symbol of the angle of projection: a cut-off cone and its end, laid out as the views are."""

from __future__ import annotations

from calculators.drawing.svg import LINES, number, path


def projection_symbol(projection: str, x: float, y: float) -> str:
    """Draw the symbol, 17 mm wide and 8 mm high.

    Args:
        projection: `first` or `third`.
        x: [mm] its left side on the sheet.
        y: [mm] its top.

    Returns:
        The elements, in a group of class `projection`.

    Source: ISO 5456-2 (from memory): the end seen from the left stands to the right in first angle, to the
    left in third.
    """
    middle = y + 4.0
    cone, end = (x, x + 13.0) if projection == "first" else (x + 9.0, x + 4.0)
    sides = path(
        [[(cone, middle - 2), (cone + 8, middle - 4), (cone + 8, middle + 4), (cone, middle + 2)]], "edge"
    )
    axes = path(
        [[(x - 0.5, middle), (x + 17.5, middle)], [(end, y - 0.5), (end, y + 8.5)]], "centre", closed=False
    )
    rings = "".join(
        f'<circle cx="{number(end)}" cy="{number(middle)}" r="{radius}" fill="none" {LINES["edge"]}/>'
        for radius in (2, 4)
    )
    return f'<g class="projection {projection}">{axes}{sides}{rings}</g>'
