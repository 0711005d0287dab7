"""The tolerance zones of a hole and a shaft about the nominal size, in micrometres."""

from __future__ import annotations

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.chart import divisions
from calculators.drawing.svg import BRASS, RULE, STEEL, document, lettering, number, path
from calculators.mechanics.fits import Limits


def fit_picture(size_mm: float, hole: Limits, shaft: Limits) -> Picture:
    """Draw the zones of a hole and a shaft on either side of the line of nought.

    Args:
        size_mm: [mm] the nominal size.
        hole: the hole's limits.
        shaft: the shaft's limits.

    Returns:
        The picture, for a broad and for a narrow page.

    Source: ISO 286-1:2010, figures of fits (from memory).
    """
    told = [
        f"{name} {one.name} from {_um(one.least_mm, size_mm)} to {_um(one.most_mm, size_mm)} micrometres"
        for name, one in (("hole", hole), ("shaft", shaft))
    ]
    says = f"About {number_text(size_mm)} mm: {' and '.join(told)}."
    title = f"Zones of {number_text(size_mm)} {hole.name}/{shaft.name}"
    drawn = [_drawn(size_mm, hole, shaft, width, title, says) for width in (170.0, 90.0)]
    return Picture(title, drawn[0], drawn[1], says)


def _um(value: float, size: float) -> str:
    text = f"{(value - size) * 1000:+.0f}"
    return "0" if text in ("+0", "-0") else text


def _drawn(size: float, hole: Limits, shaft: Limits, width: float, title: str, says: str) -> str:
    letter, top, high = (3.4 if width > 100 else 3.7), 8.0, 60.0
    ends = [(each - size) * 1000 for one in (hole, shaft) for each in (one.least_mm, one.most_mm)]
    marks = divisions(min(0.0, *ends), max(0.0, *ends))
    left = 18.0

    def y(um: float) -> float:
        return top + (marks[-1] - um) / (marks[-1] - marks[0]) * high

    body = []
    for mark in marks:
        body.append(
            f'<path d="M{left} {number(y(mark))}L{number(width - 4)} {number(y(mark))}" stroke="{RULE}" '
            'stroke-width="0.18"/>'
        )
        body.append(lettering(left - 1.5, y(mark) + 0.35 * letter, number_text(mark), letter, anchor="end"))
    body.append(path([[(left, y(0)), (width - 4, y(0))]], "outline", closed=False))
    room = (width - left - 4) / 2
    for place, (one, fill) in enumerate(((hole, STEEL), (shaft, BRASS))):
        x = left + room * (place + 0.2)
        low, up = y((one.least_mm - size) * 1000), y((one.most_mm - size) * 1000)
        corners = [(x, up), (x + 0.35 * room, up), (x + 0.35 * room, low), (x, low)]
        body.append(path([corners], "outline", fill=fill, opacity=1 if place == 0 else 0.4))
        words = f"{'hole' if place == 0 else 'shaft'} {one.name}"
        middle = (up + low) / 2 + 0.35 * letter
        body.append(lettering(x + 0.35 * room + 1.5, middle, words, letter, halo=True))
    body.append(lettering(3, 4.5, "micrometres from the nominal size", letter, ink="soft"))
    return document(body, width, top + high + 6, title=title, description=says, kind="fit")
