"""Where the diameter of a real part of each thread lies, and where the reading stands among them."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM, divisions
from calculators.drawing.lettering import text_width
from calculators.drawing.svg import BLUE, RULE, document, lettering, number, path
from calculators.hardware.thread_identification import Candidate, Measured, zone_of

_MOST = 8
"""More threads are not drawn."""


def zones_picture(measured: Measured, found: Sequence[Candidate]) -> tuple[Picture, ...]:
    """Draw the zone of each candidate's diameter as a bar, with the reading and its uncertainty across them.

    Args:
        measured: the reading.
        found: the candidates, best first; at least one.

    Returns:
        One picture, broad and narrow.

    Source: zones as in `zone_of`.

    Example:
        >>> from calculators.hardware.thread_identification import candidates
        >>> reading = Measured(6.33, 0.02, 25.4 / 28, 0.01)
        >>> zones_picture(reading, candidates(reading))[0].title
        'The reading among the threads'
    """
    shown = list(found[:_MOST])
    broad, narrow = (_drawn(measured, shown, width) for width in (BROAD_MM, NARROW_MM))
    says = (
        "Thick: within the limits of new parts. Thin: worn or plated. The band is the reading with its "
        "uncertainty; beside each bar stand its pitch in mm and its score."
    )
    return (Picture("The reading among the threads", broad, narrow, says),)


def _drawn(measured: Measured, shown: Sequence[Candidate], width: float) -> str:
    letter = 3.4 if width == BROAD_MM else 3.7
    zones = [zone_of(each.thread, measured.internal) for each in shown]
    low, high = (
        measured.diameter_mm - measured.diameter_off_mm,
        measured.diameter_mm + measured.diameter_off_mm,
    )
    ticks = divisions(
        min(low, *(each.outer_least for each in zones)),
        max(high, *(each.outer_most for each in zones)),
        5 if width == BROAD_MM else 3,
    )
    names = [each.thread.designation for each in shown]
    notes = [_note(each, width) for each in shown]
    left = 3.0 + max(text_width(each, letter) for each in names)
    right = width - 3.0 - max(text_width(each, letter) for each in notes)
    top, row = 2.2 * letter, 2.0 * letter
    bottom = top + row * len(shown)

    def at(size: float) -> float:
        return left + (size - ticks[0]) / (ticks[-1] - ticks[0]) * (right - left)

    body = [
        f'<rect x="{number(at(low))}" y="{number(top)}" width="{number(max(at(high) - at(low), 0.3))}" '
        f'height="{number(bottom - top)}" fill="{BLUE}" fill-opacity="0.16"/>'
    ]
    for tick in ticks:
        body.append(_ruled(at(tick), top, bottom))
        words = number_text(tick, 5)
        body.append(lettering(at(tick), bottom + 1.2 * letter, words, letter, anchor="middle"))
    read = f"read {number_text(measured.diameter_mm, 5)} ± {number_text(measured.diameter_off_mm, 2)} mm"
    half = text_width(read, letter) / 2
    middle = min(max(at(measured.diameter_mm), half + 1), width - half - 1)
    body.append(lettering(middle, top - 0.7 * letter, read, letter, anchor="middle", ink="dimension"))
    body.append(path([[(at(measured.diameter_mm), top), (at(measured.diameter_mm), bottom)]], "dimension",
                     closed=False))  # fmt: skip
    for place, (zone, name, note) in enumerate(zip(zones, names, notes, strict=True)):
        y = top + (place + 0.5) * row
        body.append(path([[(at(zone.outer_least), y), (at(zone.outer_most), y)]], "thin", closed=False))
        new = [(at(zone.least), y - 0.9), (at(zone.most), y - 0.9), (at(zone.most), y + 0.9),
               (at(zone.least), y + 0.9)]  # fmt: skip
        body.append(path([new], "edge", fill="#dde5e8"))
        base = y + 0.35 * letter
        body.append(lettering(left - 1.5, base, name, letter, anchor="end"))
        body.append(lettering(right + 1.5, base, note, letter, ink="soft"))
    return document(
        body,
        width,
        bottom + 1.8 * letter,
        title="The reading among the threads",
        description=_says(measured, shown),
        kind="chart",
    )


def _note(each: Candidate, width: float) -> str:
    likely = f"{100 * each.score:.0f} %" if each.score >= 0.01 else "under 1 %"
    score = likely if each.within else "no"
    pitch = number_text(each.thread.pitch_mm, 4)
    return f"p {pitch}, {score}" if width == BROAD_MM else f"{pitch}, {score}"


def _ruled(x: float, top: float, bottom: float) -> str:
    return (
        f'<path d="M{number(x)} {number(top)}L{number(x)} {number(bottom)}" stroke="{RULE}" '
        'stroke-width="0.18"/>'
    )


def _says(measured: Measured, shown: Sequence[Candidate]) -> str:
    parts = [
        f"The reading is {number_text(measured.diameter_mm, 5)} mm, give or take "
        f"{number_text(measured.diameter_off_mm, 2)} mm, and the pitch "
        f"{number_text(measured.pitch_mm, 4)} mm."
    ]
    for each in shown:
        zone = zone_of(each.thread, measured.internal)
        possible = f"score {each.score:.2f}" if each.within else "not possible"
        parts.append(
            f"{each.thread.designation}: {zone.outer_least:.2f} to {zone.outer_most:.2f} mm, pitch "
            f"{number_text(each.thread.pitch_mm, 4)} mm, {possible}."
        )
    return " ".join(parts)
