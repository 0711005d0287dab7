"""A face drawn to scale from its exact outlines alone, with what was left out of a drawing beside it."""

from __future__ import annotations

from collections.abc import Iterable, Sequence

from calculators.drawing.face_shape import FaceShape
from calculators.drawing.plan_marks import free_box
from calculators.drawing.scales import SCALES, scale_name
from calculators.drawing.svg import BLUE, FONT, INK, LINES, Box, escape, number
from calculators.geometry.outlines import Outline, arc_of, bounds, pieces

_MARGIN_MM, _LETTER_MM = 8.0, 2.8
MOST_NUMBERED = 150
"""Beyond this many holes their numbers are left to the table."""

MOST_CROSSES = 200
"""The most places of what was left out that are marked."""


def face_picture(
    face: FaceShape,
    left_out: Sequence[tuple[float, float]] = (),
    *,
    paper_width_mm: float = 170.0,
    paper_height_mm: float = 110.0,
) -> str:
    """Draw a face with its outline, holes, slots and pockets.

    Args:
        face: the face.
        left_out: places in the face's u and v that are marked with a red cross [mm].
        paper_width_mm: [mm] room on the paper, 60 or more.
        paper_height_mm: [mm] room on the paper, 50 or more.

    Returns:
        The drawing as SVG with its title and description; u runs to the right and v upward.

    Source: ISO 5455 (scales), ISO 128 (lines); from memory.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> face_picture(FaceShape("P1", "Plate", "top", rectangle(0, 0, 90, 40), 6.0)).count("<path")
        3
    """
    low_u, low_v, high_u, high_v = bounds(face.outline)
    wide, tall = max(high_u - low_u, 1e-3), max(high_v - low_v, 1e-3)
    room = paper_width_mm - 2 * _MARGIN_MM, paper_height_mm - 2 * _MARGIN_MM
    scale = next((each for each in SCALES if wide * each <= room[0] and tall * each <= room[1]), None)
    scale = scale or min(room[0] / wide, room[1] / tall)
    pen = _Pen(low_u, high_v, scale)
    width, height = wide * scale + 2 * _MARGIN_MM, tall * scale + 2 * _MARGIN_MM
    shown = [place for place in left_out if low_u <= place[0] <= high_u and low_v <= place[1] <= high_v]
    body = [pen.outline(face.outline, "outline"), *pen.features(face), *pen.datum()]
    body += [pen.cross(*place) for place in shown[:MOST_CROSSES]]
    named = scale_name(scale) if scale in SCALES else "to fit"
    title = f"{face.mark} {face.name}, {face.face} face seen from outside, scale {named}"
    says = f"{len(face.holes)} holes, {len(face.pockets)} pockets; {_n(wide)} by {_n(tall)} mm"
    says += f"; {len(shown)} places of what was left out, with red crosses" if shown else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing face-picture" role="img" '
        f'font-family="{FONT}" fill="{INK}" width="{_n(width)}mm" height="{_n(height)}mm" '
        f'viewBox="0 0 {_n(width)} {_n(height)}">'
        f"<title>{escape(title)}</title><desc>{escape(says)}</desc>{''.join(body)}</svg>"
    )


def _n(value: float) -> str:
    return number(value, 3)


class _Pen:
    """Turns u, v of the face into x, y of the paper."""

    def __init__(self, left: float, top: float, scale: float) -> None:
        self.left, self.top, self.scale = left, top, scale

    def at(self, u: float, v: float) -> tuple[float, float]:
        return _MARGIN_MM + (u - self.left) * self.scale, _MARGIN_MM + (self.top - v) * self.scale

    def outline(self, outline: Outline, line: str) -> str:
        """An outline with true arcs; on paper, where y runs down, a left turn is a right one."""
        x, y = self.at(outline[0].x, outline[0].y)
        steps = [f"M{_n(x)} {_n(y)}"]
        for one, to in pieces(outline):
            x, y = self.at(to.x, to.y)
            arc = arc_of(one, to)
            if arc is None:
                steps.append(f"L{_n(x)} {_n(y)}")
            else:
                r, long, sweep = (
                    _n(arc.radius * self.scale),
                    int(abs(arc.turn_deg) > 180),
                    int(arc.turn_deg < 0),
                )
                steps.append(f"A{r} {r} 0 {long} {sweep} {_n(x)} {_n(y)}")
        return f'<path class="{line}" d="{"".join(steps)}Z" fill="none" {LINES[line]}/>'

    def features(self, face: FaceShape) -> Iterable[str]:
        if face.bore_mm:
            yield self.circle(0.0, 0.0, face.bore_mm, "edge")
        for pocket in face.pockets:
            yield self.outline(pocket.outline, "edge")
        for hole in face.holes:
            if len(hole.outline) > 2:
                yield self.outline(hole.outline, "edge")
            else:
                yield self.circle(hole.u_mm, hole.v_mm, hole.diameter_mm, "edge")
            for wide in {hole.countersink_diameter_mm, hole.counterbore_diameter_mm} - {0.0}:
                yield self.circle(hole.u_mm, hole.v_mm, wide, "thin")
        if len(face.holes) <= MOST_NUMBERED:
            yield from self.numbers(face)

    def circle(self, u: float, v: float, diameter: float, line: str) -> str:
        x, y = self.at(u, v)
        r = max(diameter * self.scale / 2, 0.15)
        return f'<circle class="{line}" cx="{_n(x)}" cy="{_n(y)}" r="{_n(r)}" fill="none" {LINES[line]}/>'

    def numbers(self, face: FaceShape) -> Iterable[str]:
        reach = [max(max(one.outer_mm, one.slot_length_mm) * self.scale / 2, 0.5) for one in face.holes]
        places = [self.at(one.u_mm, one.v_mm) for one in face.holes]
        drawn: list[Box] = [(x - r, y - r, x + r, y + r) for (x, y), r in zip(places, reach, strict=True)]
        written: list[Box] = []
        for hole, place, r in zip(face.holes, places, reach, strict=True):
            text = str(hole.number)
            size = (len(text) * _LETTER_MM * 0.62 + 0.3, _LETTER_MM)
            box = free_box(place, r + 0.4, size, drawn, written)
            written.append(box)
            x, y = (box[0] + box[2]) / 2, (box[1] + box[3]) / 2 + _LETTER_MM * 0.35
            yield (
                f'<text class="hole-number" x="{_n(x)}" y="{_n(y)}" font-size="{_LETTER_MM}" '
                f'text-anchor="middle">{text}</text>'
            )

    def datum(self) -> Iterable[str]:
        x, y = self.at(0.0, 0.0)
        for dx, dy, word in ((6.0, 0.0, "u"), (0.0, -6.0, "v")):
            data = f"M{_n(x)} {_n(y)}l{_n(dx)} {_n(dy)}"
            yield f'<path class="datum" d="{data}" stroke="{BLUE}" stroke-width="0.5"/>'
            tx, ty = (x + 7.2, y + 3.2) if dx else (x - 2.0, y - 6.2)
            yield f'<text x="{_n(tx)}" y="{_n(ty)}" font-size="{_LETTER_MM}" fill="{BLUE}">{word}</text>'
        yield f'<circle class="datum" cx="{_n(x)}" cy="{_n(y)}" r="0.8" fill="{BLUE}"/>'

    def cross(self, u: float, v: float) -> str:
        x, y = self.at(u, v)
        data = f"M{_n(x - 1.2)} {_n(y - 1.2)}l2.4 2.4M{_n(x + 1.2)} {_n(y - 1.2)}l-2.4 2.4"
        return f'<path class="left-out" d="{data}" fill="none" {LINES["finding"]}/>'
