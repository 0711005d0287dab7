"""The springs that are offered, to one scale in the space that they have."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.calculation import Picture
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM
from calculators.drawing.coils_drawn import Coil, pressed_coil, pulled_coil, round_scale
from calculators.drawing.svg import document, lettering, path
from calculators.mechanics.springs.choosing import Choice, Wish

_TALLEST_MM = 70.0
_LETTER = 3.6
_SHOWN = {BROAD_MM: 5, NARROW_MM: 3}


def draw_offered(wish: Wish, found: Sequence[Choice]) -> tuple[Picture, ...]:
    """Draw the first springs of a list at their free length, each in the outline of its space.

    Args:
        wish: what was asked for.
        found: the springs, best first.

    Returns:
        One picture; none where nothing was found.

    Source: this project.
    """
    if not found:
        return ()
    title = "The first springs of the list, in the space they have"
    says = "; ".join(
        f"{each.name} wire, {number_text(each.outside_mm, 4)} mm outside, "
        f"{number_text(each.free_mm, 4)} mm free"
        for each in found[:5]
    )
    caption = f"Broken lines: the space of {number_text(wish.largest_outside_mm, 4)} by "
    caption += f"{number_text(wish.longest_free_mm, 4)} mm. {says}."

    def draw(width: float) -> str:
        return _row(wish, found[: _SHOWN[width]], width, title, caption)

    return (Picture(title, draw(BROAD_MM), draw(NARROW_MM), caption),)


def _row(wish: Wish, found: Sequence[Choice], width: float, title: str, caption: str) -> str:
    column = (width - 4) / len(found)
    # A space without end is drawn only as far as the springs need it.
    high = min(wish.longest_free_mm, 1.5 * max(each.free_mm for each in found))
    wide = min(wish.largest_outside_mm, 1.5 * max(each.outside_mm for each in found))
    over = max(each.wire_mm for each in found) if wish.kind == "extension" else 0.0
    scale = round_scale(min((column - 4) / wide, _TALLEST_MM / (high + 2 * over)))
    base = (high + over) * scale + 2
    body = []
    for place, each in enumerate(found):
        middle = 2 + column * (place + 0.5)
        left, right = middle - wide * scale / 2, middle + wide * scale / 2
        foot, top = base + over * scale, base - (high + over) * scale
        body.append(path([[(left, foot), (right, foot), (right, top), (left, top)]], "hidden"))
        body += _drawn(wish, each)(each.free_mm, (middle, base), scale)
        lines = (
            each.name,
            f"{number_text(each.active_coils, 4)} coils",
            f"{number_text(each.stress_percent, 2)} %",
        )
        body += [
            lettering(
                middle,
                base + over * scale + 1.5 * _LETTER + 1.3 * _LETTER * line,
                words,
                _LETTER,
                anchor="middle",
                ink="label" if line == 0 else "dimension",
            )
            for line, words in enumerate(lines)
        ]
    height = base + over * scale + 1.5 * _LETTER + 1.3 * _LETTER * 2 + 2
    words = f"Drawn at {number_text(scale, 2)} times their size. {caption} Under each its coils and "
    words += "its share of the stress allowed."
    return document(body, width, height, title=title, description=words)


def _drawn(wish: Wish, each: Choice) -> Coil:
    if wish.kind == "compression":
        return pressed_coil(wish.ends, each.wire_mm, each.mean_mm, each.active_coils)
    body = each.solid_mm / each.wire_mm - 1
    return pulled_coil(wish.ends, each.wire_mm, each.mean_mm, body, each.free_mm)
