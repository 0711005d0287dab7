"""A cross-section drawn to scale with its neutral axis."""

from __future__ import annotations

from collections.abc import Callable
from math import cos, pi, sin

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.hatching import hatch
from calculators.drawing.lettering import wrap
from calculators.drawing.scales import SCALES, scale_name
from calculators.drawing.svg import PAPER, STEEL, Point, document, lettering, path
from calculators.mechanics.sections import Piece, Section

_BROAD_MM, _NARROW_MM = 170.0, 90.0
_WIDE_MM, _HIGH_MM, _LEFT_MM = 60.0, 52.0, 8.0
_CORNERS = 96
_At = Callable[[float, float], Point]


def section_picture(section: Section, *, wood: bool = False) -> Picture:
    """Draw a section to scale, its neutral axis across it.

    Args:
        section: the section.
        wood: whether it is hatched as end grain.

    Returns:
        The picture.

    Source: this project; lines of ISO 128, scales of ISO 5455 (from memory).
    """
    return Picture(
        "The section",
        _drawn(section, wood, _BROAD_MM),
        _drawn(section, wood, _NARROW_MM),
        f"Drawn {scale_name(_scale(section))}; bending under a load from above is about the neutral axis.",
    )


def _scale(section: Section) -> float:
    wanted = min(_WIDE_MM / section.width_mm, _HIGH_MM / section.depth_mm)
    return next((each for each in SCALES if each <= wanted), wanted)


def _drawn(section: Section, wood: bool, width: float) -> str:
    letter = 3.4 if width > 120 else 3.6
    scale = _scale(section)
    top = 2.0 + letter
    wide, high = section.width_mm * scale, section.depth_mm * scale
    middle = _LEFT_MM + section.left_mm * scale
    level = top + section.top_mm * scale

    def at(x: float, y: float) -> Point:
        return (
            middle + (x - section.centroid_across_mm) * scale,
            level - (y - section.centroid_up_mm) * scale,
        )

    solid = [_ring(each, at) for each in section.pieces if not each.hole]
    holes = [_ring(each, at) for each in section.pieces if each.hole]
    body = [
        path(solid, "outline", fill=PAPER if wood else STEEL),
        path(holes, "outline", fill=PAPER),
        hatch([*solid, *holes], "end grain" if wood else "metal"),
        path([[(_LEFT_MM - 4, level), (_LEFT_MM + wide + 4, level)]], "centre", closed=False),
        path([[(middle, top - 3), (middle, top + high + 3)]], "centre", closed=False),
    ]
    words = _words(section)
    if width > 120:
        x = _LEFT_MM + max(wide, 20.0) + 12
        lines = [line for each in words for line in wrap(each, letter, width - x - 2)]
        start = top + letter
        tall = max(top + high + 5, start + 1.35 * letter * len(lines))
    else:
        x = 2.0
        lines = [line for each in words for line in wrap(each, letter, width - 4)]
        start = top + high + 5 + letter
        tall = start + 1.35 * letter * len(lines)
    body += [lettering(x, start + 1.35 * letter * place, line, letter) for place, line in enumerate(lines)]
    said = f"{section.name}. {'. '.join(words)}."
    return document(body, width, tall, title="Section", description=said, kind="section-figure")


def _ring(piece: Piece, at: _At) -> list[Point]:
    x, y, half_x, half_y = piece.across_mm, piece.up_mm, piece.width_mm / 2, piece.height_mm / 2
    if piece.shape == "round":
        turns = [2 * pi * place / _CORNERS for place in range(_CORNERS)]
        return [at(x + half_x * cos(turn), y + half_y * sin(turn)) for turn in turns]
    return [at(x + i * half_x, y + j * half_y) for i, j in ((-1, -1), (1, -1), (1, 1), (-1, 1))]


def _words(section: Section) -> list[str]:
    return [
        f"{number_text(section.width_mm, 5)} mm wide, {number_text(section.depth_mm, 5)} mm deep",
        f"neutral axis {number_text(section.bottom_mm, 4)} mm over the lowest fibre",
        f"second moment {number_text(section.second_moment_mm4, 5)} mm⁴",
        f"section modulus {number_text(section.modulus_mm3, 5)} mm³",
    ]
