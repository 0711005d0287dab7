"""A beam with its supports and loads, its bent line, and the diagrams of shear force and moment."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Sequence
from dataclasses import dataclass
from math import floor, log10

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.beam_marks import (
    arrow_down,
    load_words,
    moment_mark,
    rows_of_words,
    spread_load,
    support_mark,
)
from calculators.drawing.profiles import section_picture
from calculators.drawing.svg import STEEL, Point, document, lettering, path
from calculators.mechanics.beams.line import Bent, Load, Support
from calculators.mechanics.sections import Section

_DEEPEST_MM, _THINNEST_MM = 14.0, 1.0
_PANEL_MM, _SWING_MM = 27.0, 9.0
_BROAD_MM, _NARROW_MM = 170.0, 90.0
_ARROW_MM = 9.0
_ROUND = (1.0, 2.0, 5.0)
_At = Callable[[float], float]


@dataclass(frozen=True, slots=True)
class Sketch:
    """What a picture of a beam needs beside how it bends; `wood` says how the section is hatched."""

    supports: tuple[Support, ...]
    loads: tuple[Load, ...]
    section: Section | None
    span_mm: float
    wood: bool = False


def beam_pictures(bent: Bent, sketch: Sketch) -> tuple[Picture, ...]:
    """Draw a beam, and its section.

    Args:
        bent: how it bends.
        sketch: its supports, loads and section.

    Returns:
        The picture of the beam with its diagrams; and of the section, where one is known.

    Source: this project; signs of supports common practice.
    """
    found = [
        Picture(
            "The beam, its bent line, shear force and moment",
            _beam(bent, sketch, _BROAD_MM),
            _beam(bent, sketch, _NARROW_MM),
            "The beam's length is to scale; its bent line is drawn so much larger as stands over it.",
        )
    ]
    if sketch.section is not None:
        found.append(section_picture(sketch.section, wood=sketch.wood))
    return tuple(found)


def exaggeration(bent: Bent, width_mm: float) -> float:
    """How many times the bent line is drawn larger than the beam, a round number.

    Args:
        bent: how it bends.
        width_mm: [mm] the sheet's width.

    Returns:
        The factor [1]; under 1 where even the true line would leave its place.

    Source: this project.
    """
    drawn = abs(bent.deflection.value) * _scale(bent, width_mm)
    if drawn <= 0:
        return 1.0
    wanted = _SWING_MM / drawn
    power = 10.0 ** floor(log10(wanted))
    return max(step * power for step in _ROUND if step * power <= wanted * (1 + 1e-9))


def _margin(width_mm: float) -> float:
    return 14.0 if width_mm > 120 else 9.0


def _scale(bent: Bent, width_mm: float) -> float:
    return (width_mm - 2 * _margin(width_mm)) / bent.length_mm


def _beam(bent: Bent, sketch: Sketch, width: float) -> str:
    letter = 3.4 if width > 120 else 3.6
    scale, left = _scale(bent, width), _margin(width)

    def at(mm: float) -> float:
        return left + mm * scale

    words = [(at((load.at_mm + (load.to_mm or load.at_mm)) / 2), load_words(load)) for load in sketch.loads]
    rows = rows_of_words(words, width, letter)
    height = 1.25 * letter
    top = 2.0 + height * (1 + max((row for _, row, _ in rows), default=0)) + _ARROW_MM + 1.5
    true = (sketch.section.depth_mm if sketch.section else bent.length_mm / 30) * scale
    depth = min(max(true, _THINNEST_MM), _DEEPEST_MM)
    body: list[str] = []
    for load, (x, row, text) in zip(sketch.loads, rows, strict=True):
        base = top - _ARROW_MM - 1.0 - height * row
        body += _load(load, at, top)
        body.append(lettering(x, base, text, letter, anchor="middle", halo=True))
    ends = [(at(0), top), (at(bent.length_mm), top), (at(bent.length_mm), top + depth), (at(0), top + depth)]
    body.append(path([ends], "outline", fill=STEEL))
    for support in sketch.supports:
        body += support_mark(at(support.at_mm), top, depth, support.held, support.at_mm > 0)
    reactions, below = _reactions(bent, at, top + depth + 6.5, width, letter)
    body += reactions
    body += _dimension(at(0), at(sketch.span_mm), below + 2.5, f"{number_text(sketch.span_mm, 5)} mm", letter)
    start = below + 2.5 + letter
    if not _to_scale(true):
        body.append(
            lettering(at(0), start + 1.2 * letter, "depth of the beam not to scale", letter, ink="soft")
        )
        start += 1.6 * letter
    times = exaggeration(bent, width)
    body += _panel(
        [(at(x), -y * scale * times) for x, y, _, _ in bent.sampled],
        start, f"bent line, {_short_times(times)}: {_most(bent.deflection.value, 'mm')}", letter,
    )  # fmt: skip
    for place, (column, title) in enumerate(
        ((3, f"shear force: {_most(bent.shear.value, 'N')}"),
         (2, f"moment: {_most(bent.moment.value / 1000, 'N m')}")), 1,
    ):  # fmt: skip
        most = max(abs(each[column]) for each in bent.sampled) or 1.0
        line = [(at(each[0]), each[column] / most * _SWING_MM) for each in bent.sampled]
        body += _panel(line, start + place * _PANEL_MM, title, letter)
    return document(
        body, width, start + 3 * _PANEL_MM + 1, title="Beam", description=_said(bent, sketch), kind="beam"
    )


def _to_scale(true_mm: float) -> bool:
    return _THINNEST_MM <= true_mm <= _DEEPEST_MM


def _short_times(times: float) -> str:
    return "true size" if times == 1 else f"{number_text(times, 3)} times"


def _most(value: float, unit: str) -> str:
    return f"greatest {number_text(abs(value), 4)} {unit}"


def _load(load: Load, at: _At, top: float) -> list[str]:
    found: list[str] = []
    if load.moment_n_mm:
        found += moment_mark(at(load.at_mm), top, load.moment_n_mm > 0)
    if load.force_n:
        if load.to_mm is not None:
            found += spread_load(at(load.at_mm), at(load.to_mm), top, load.force_n > 0)
        else:
            found += arrow_down(at(load.at_mm), top, _ARROW_MM, load.force_n > 0)
    return found


def _reactions(bent: Bent, at: _At, y: float, width: float, letter: float) -> tuple[list[str], float]:
    words = []
    for each in bent.reactions:
        force = f"{number_text(abs(each.force_n), 4)} N {'up' if each.force_n >= 0 else 'down'}"
        moment = f", {number_text(abs(each.moment_n_mm) / 1000, 4)} N m" if each.moment_n_mm else ""
        words.append((at(each.at_mm), force + moment))
    rows = rows_of_words(words, width, letter)
    found = [
        lettering(x, y + letter + 1.25 * letter * row, text, letter, anchor="middle", ink="dimension")
        for x, row, text in rows
    ]
    return found, y + letter * (1.8 + 1.25 * max(row for _, row, _ in rows))


def _dimension(left: float, right: float, y: float, text: str, letter: float) -> list[str]:
    ticks = [[(x - 0.9, y + 0.9), (x + 0.9, y - 0.9)] for x in (left, right)]
    words = lettering((left + right) / 2, y - 0.8, text, letter, anchor="middle", ink="dimension", halo=True)
    return [path([[(left, y), (right, y)], *ticks], "dimension", closed=False), words]


def _panel(line: Sequence[Point], top: float, title: str, letter: float) -> list[str]:
    """One diagram below another: a level line, the curve about it, its field shaded."""
    level = top + 1.6 * letter + _SWING_MM
    points = [(x, level - y) for x, y in line]
    ring = [(points[0][0], level), *points, (points[-1][0], level)]
    return [
        lettering(2.0 if points[0][0] < 10 else points[0][0], top + letter, title, letter),
        path([ring], "none", fill=STEEL, opacity=0.7),
        path([[(points[0][0], level), (points[-1][0], level)]], "thin", closed=False),
        path([points], "outline", closed=False),
    ]


def _said(bent: Bent, sketch: Sketch) -> str:
    return " ".join(_sentences(bent, sketch))


def _sentences(bent: Bent, sketch: Sketch) -> Iterable[str]:
    yield f"A beam of {number_text(bent.length_mm)} mm with {len(sketch.supports)} supports."
    for load in sketch.loads:
        place = f"at {number_text(load.at_mm)} mm"
        if load.to_mm is not None:
            place = f"from {number_text(load.at_mm)} to {number_text(load.to_mm)} mm"
        yield f"{load_words(load)} {place}."
    for each in bent.reactions:
        way = "up" if each.force_n >= 0 else "down"
        force = number_text(abs(each.force_n), 4)
        yield f"The support at {number_text(each.at_mm)} mm pushes {force} N {way}."
    way = "down" if bent.deflection.value >= 0 else "up"
    yield (
        f"It bends most at {number_text(bent.deflection.at_mm, 4)} mm, "
        f"{number_text(abs(bent.deflection.value), 4)} mm {way}."
    )
    yield (
        f"The greatest moment is {number_text(bent.moment.value / 1000, 4)} N m at "
        f"{number_text(bent.moment.at_mm, 4)} mm, the greatest shear force "
        f"{number_text(abs(bent.shear.value), 4)} N."
    )
