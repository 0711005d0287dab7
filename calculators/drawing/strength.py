"""Pictures of strength: loads side by side as bars, and the section of a screw in the wood that holds it."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM
from calculators.drawing.hatching import Manner, hatch
from calculators.drawing.lettering import text_width, wrap
from calculators.drawing.section_marks import break_line
from calculators.drawing.svg import (
    BLUE,
    PAPER,
    SOFT,
    STEEL,
    Point,
    document,
    lettering,
    number,
    path,
)
from calculators.mechanics.held_screw import HeldLoads, HeldScrew
from calculators.mechanics.screw_surroundings import pilot_mm


@dataclass(frozen=True, slots=True)
class Bar:
    """One load of a comparison, in the unit of all; `wrong` draws it in red."""

    name: str
    value: float
    wrong: bool = False


def load_bars(
    bars: Sequence[Bar],
    *,
    title: str,
    unit: str = "N",
    caption: str = "",
) -> Picture:
    """Draw loads side by side, all to one scale.

    Args:
        bars: one to ten loads, none below nought, at least one above.
        title: what they are, in a few words.
        unit: the unit of all.
        caption: a sentence on what is to be seen.

    Returns:
        The picture, broad and narrow.

    Source: this project.
    """
    words = "; ".join(f"{bar.name} {_figure(bar.value)} {unit}" for bar in bars)
    description = f"{caption} {words}.".strip()
    broad, narrow = (_bars(bars, unit, title, description, width) for width in (BROAD_MM, NARROW_MM))
    return Picture(title, broad, narrow, caption)


def _figure(value: float) -> str:
    return number_text(value, 3)


def _bars(bars: Sequence[Bar], unit: str, title: str, description: str, width: float) -> str:
    letter = 3.4 if width >= 120 else 3.6
    beside = width >= 120
    left = 2.0 + (max(text_width(bar.name, letter) for bar in bars) + 3 if beside else 0.0)
    most = max(bar.value for bar in bars)
    after = max(text_width(f"{_figure(bar.value)} {unit}", letter) for bar in bars) + 3
    room = width - left - after - 2
    row = 2.1 * letter if beside else 3.3 * letter
    body = []
    for place, bar in enumerate(bars):
        top = 2 + place * row + (0 if beside else 1.3 * letter)
        long = max(room * bar.value / most, 0.3)
        ink, line = ("finding", "finding") if bar.wrong else ("label", "edge")
        ring = [
            (left, top),
            (left + long, top),
            (left + long, top + 1.3 * letter),
            (left, top + 1.3 * letter),
        ]
        body.append(path([ring], line, fill=STEEL))
        base = top + 1.0 * letter
        if beside:
            body.append(lettering(left - 2, base, bar.name, letter, anchor="end", ink=ink))
        else:
            body.append(lettering(left + 0.9, top - 0.4 * letter, bar.name, letter, ink=ink))
        words = f"{_figure(bar.value)} {unit}"
        body.append(lettering(left + long + 1.5, base, words, letter, ink=ink))
    height = 4 + len(bars) * row
    body.append(path([[(left, 1), (left, height - 1)]], "thin", closed=False))
    return document(body, width, height, title=title, description=description, kind="bars")


def held_screw_pictures(screw: HeldScrew, loads: HeldLoads) -> tuple[Picture, ...]:
    """Draw a screw in the wood that holds it, and its loads side by side.

    Args:
        screw: the screw.
        loads: its loads.

    Returns:
        The section with the lengths that matter, and the bars.

    Source: this project; hatching of wood by common practice.
    """
    words = [f"Shank {screw.shank_mm:.2f} mm, root {screw.root_mm:.2f} mm, {screw.penetration_mm:g} mm deep"]
    words[0] += f" ({screw.depth_d:.1f} D) in {screw.grain} grain."
    if screw.side_mm is not None:
        words.append(f"The piece under the head is {screw.side_mm:g} mm thick.")
    description = " ".join(words)
    title = f"{screw.kind.capitalize()} in the wood that holds it"
    broad, narrow = (_section(screw, title, description, width) for width in (BROAD_MM, NARROW_MM))
    bars = [
        Bar("the hold in the wood", loads.withdrawal_n),
        Bar("the screw breaks", loads.tension_n),
    ]
    if loads.pull_through_n is not None:
        bars.append(Bar("head drawn through, allowable", loads.pull_through_n))
    bars.append(Bar("working load", loads.working_n))
    if loads.lateral_n is not None:
        bars.append(Bar("sideways", loads.lateral_n))
    caption = f"The working load is bounded by {loads.governs}."
    return (
        Picture(title, broad, narrow, description),
        load_bars(bars, title="The loads side by side", caption=caption),
    )


@dataclass(frozen=True, slots=True)
class _View:
    """How the section lies on the sheet: x of the axis, y of the face of the holding piece, scale."""

    axis: float
    face: float
    scale: float
    half: float

    def at(self, across: float, deep: float) -> Point:
        return (self.axis + across * self.scale, self.face + deep * self.scale)


def _section(screw: HeldScrew, title: str, description: str, width: float) -> str:
    letter = 3.4 if width >= 120 else 3.6
    side = screw.side_mm or 0.0
    # What stands above the face: the side piece, or a little of the shank.
    above = side if side else 2 * screw.shank_mm
    below = screw.penetration_mm + max(2.5 * screw.shank_mm, 0.15 * screw.penetration_mm)
    proud = _proud(screw)
    scale = min((90.0 if width >= 120 else 78.0) / (above + below + proud), 14.0 / screw.shank_mm)
    half = 30.0 if width >= 120 else 17.0
    view = _View(24 + half if width >= 120 else 20 + half, 6 + (above + proud) * scale, scale, half)
    body: list[str] = []
    if side:
        body.append(_piece(view, -side, 0.0, "wood", bottom=False))
    body.append(_piece(view, 0.0, below, "wood upright" if screw.in_end_grain else "wood", bottom=True))
    body.append(path([_outline(screw, view, above)], "outline", fill=STEEL))
    body.append(path([[(view.axis, 2), view.at(0, below)]], "centre", closed=False))
    body += _dimension(view, 0.0, screw.penetration_mm, number_text(screw.penetration_mm, 4), letter)
    if side:
        body += _dimension(view, -side, 0.0, number_text(side, 4), letter)
    words, lowest = _words(screw, view, above, letter, width)
    height = max(view.face + below * scale + 4, lowest + 0.5 * letter)
    return document([*body, *words], width, height, title=title, description=description, kind="section")


def _piece(view: _View, top: float, bottom_at: float, manner: Manner, *, bottom: bool) -> str:
    left, upper = view.axis - view.half, view.face + top * view.scale
    right, lower = view.axis + view.half, view.face + bottom_at * view.scale
    ring = [(left, upper), (right, upper), (right, lower), (left, lower)]
    drawn = path([ring], "none", fill=PAPER) + hatch([ring], manner)
    drawn += path([[(left, upper), (right, upper)]], "outline", closed=False)
    if bottom:
        drawn += break_line((left, lower), (right, lower))
    drawn += break_line((left, upper), (left, lower)) + break_line((right, upper), (right, lower))
    return drawn


def _proud(screw: HeldScrew) -> float:
    """How far the head stands above the piece [mm]: a coach screw's hexagon or a nail's flat head does."""
    if screw.side_mm is None or screw.head_mm is None or screw.kind == "wood screw":
        return 0.0
    return (0.65 if screw.kind == "coach screw" else 0.3) * screw.shank_mm


def _outline(screw: HeldScrew, view: _View, above: float) -> list[Point]:
    """The right half of the screw from its head to its point, and its mirror image."""
    h, r, deep = screw.shank_mm / 2, screw.root_mm / 2, screw.penetration_mm
    right: list[Point] = []
    proud = _proud(screw)
    if screw.head_mm is not None and proud:
        wide = screw.head_mm / 2
        right += [(wide, -above - proud), (wide, -above), (h, -above)]
    elif screw.head_mm is not None and screw.side_mm is not None:
        cone = min(screw.head_mm / 2 - h, 0.8 * above)
        right += [(screw.head_mm / 2, -above), (h, -above + max(cone, 0.0))]
    else:
        right.append((h, -above))
    right.append((h, 0.0))
    point = min(1.5 * screw.shank_mm, 0.5 * deep)
    if screw.kind == "nail":
        right.append((h, deep - point))
    else:
        turns = max(2, min(40, round((deep - point) / (0.45 * screw.shank_mm))))
        step = (deep - point) / turns
        for turn in range(turns):
            right += [(r, turn * step + 0.1 * step), (h, (turn + 0.6) * step)]
        right.append((r, deep - point))
    right.append((0.0, deep))
    return [view.at(x, y) for x, y in right] + [view.at(-x, y) for x, y in right[-2::-1]]


def _dimension(view: _View, start: float, end: float, words: str, letter: float) -> list[str]:
    x = view.axis - view.half - 6
    top, bottom = view.face + start * view.scale, view.face + end * view.scale
    edge = view.axis - view.half
    body = [path([[(edge - 1, y), (x - 1.2, y)]], "dimension", closed=False) for y in (top, bottom)]
    body.append(path([[(x, top), (x, bottom)]], "dimension", closed=False))
    for y, way in ((top, 1.0), (bottom, -1.0)):
        body.append(
            f'<path class="arrow" d="M{number(x)} {number(y)}l-0.5 {number(2.2 * way)}h1Z" fill="{BLUE}"/>'
        )
    turned = bottom - top > text_width(words, letter) + 2
    middle = (top + bottom) / 2
    if turned:
        body.append(lettering(x - 1.4, middle, words, letter, ink="dimension", anchor="middle", turn=True))
    else:
        body.append(lettering(x - 1.4, middle + 0.35 * letter, words, letter, ink="dimension", anchor="end"))
    return body


def _words(
    screw: HeldScrew, view: _View, above: float, letter: float, width: float
) -> tuple[list[str], float]:
    """What is said of the screw, with leaders from the places that it is about; and its lowest base line."""
    best = pilot_mm(screw.kind, screw.gravity, screw.hardwood, screw.shank_mm, screw.root_mm)
    h, r = screw.shank_mm / 2, screw.root_mm / 2
    texts = [
        ((h, -above * 0.45), f"shank {screw.shank_mm:.2f} mm"),
        ((r, screw.penetration_mm * 0.3), f"root {screw.root_mm:.2f} mm"),
        ((h, screw.penetration_mm * 0.55), f"{screw.depth_d:.1f} D deep"),
        ((r, screw.penetration_mm * 0.8), f"pilot {best:.1f} mm"),
    ]
    if screw.kind == "nail":
        del texts[1]  # a nail has no thread, so no root
    x = view.axis + view.half + 4
    body, last = [], -math.inf
    for (across, deep), text in texts:
        anchor = view.at(across, deep)
        lines = wrap(text, letter, width - x - 2)
        base = max(anchor[1] + 0.35 * letter, last + 1.3 * letter)
        bend = (view.axis + view.half + 1.5, anchor[1])
        body.append(path([[anchor, bend, (x - 0.8, base - 0.35 * letter)]], "leader", closed=False))
        body.append(f'<circle cx="{number(anchor[0])}" cy="{number(anchor[1])}" r="0.55" fill="{SOFT}"/>')
        for place, line in enumerate(lines):
            body.append(lettering(x, base + 1.2 * letter * place, line, letter))
        last = base + 1.2 * letter * (len(lines) - 1)
    return body, last
