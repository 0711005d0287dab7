"""One face of a part drawn to scale as seen from outside, its holes numbered as in the table beside it."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from typing import Literal

from calculators.drawing.lettering import text_width
from calculators.drawing.outline_path import boxes_along, path_data
from calculators.drawing.plan_marks import PlanMark, draw_marks, free_box, reach_of, widest_words
from calculators.drawing.scales import SCALES, scale_name
from calculators.drawing.svg import BLUE, FONT, INK, LINES, Box, escape, number
from calculators.geometry.outlines import Outline

_MARGIN_MM = 7.0
_LETTER_MM = 3.0
_BEYOND = 0.5
"""How far beyond the face marks are followed, of its span."""


@dataclass(frozen=True, slots=True)
class PlanHole:
    """A hole as the plan shows it, in the face's own u, v [mm].

    `outer_mm` is the diameter of its countersink or counterbore, `tapped` draws the thread as ISO 6410 does.
    """

    number: int
    u_mm: float
    v_mm: float
    diameter_mm: float
    outer_mm: float = 0.0
    tapped: bool = False
    slot_length_mm: float = 0.0
    slot_along: Literal["", "u", "v"] = ""


@dataclass(frozen=True, slots=True)
class PlanPocket:
    """A recess as the plan shows it: its corner and sizes on the face, and the radius of its corners [mm]."""

    u_mm: float
    v_mm: float
    length_mm: float
    width_mm: float
    corner_mm: float = 0.0


@dataclass(frozen=True, slots=True)
class PlanHandle:
    """What a hole is called where the plan is worked on: which it is, and how it is told from the others.

    `words` are read out for it. A hole placed by hand has `key`, its id; one of a joint has `joint` and
    `place`, and `follows` where that place lies in another part (`F03 on P10`). `seen` is what a person saw
    of it, to be sent with a change. `is_free` says whether it can be moved here.
    """

    words: str
    key: str = ""
    joint: str = ""
    place: str = ""
    follows: str = ""
    seen: str = ""
    is_free: bool = False

    def attributes(self, hole: PlanHole) -> str:
        """Write it as the attributes of the hole's element; u and v are those of the plan [mm]."""
        named = {
            "data-hole": str(hole.number), "data-u": _exact(hole.u_mm), "data-v": _exact(hole.v_mm),
            "data-key": self.key, "data-joint": self.joint, "data-place": self.place,
            "data-follows": self.follows, "data-seen": self.seen, "data-words": self.words,
        }  # fmt: skip
        free = ' data-free=""' if self.is_free else ""
        return "".join(f' {name}="{escape(text)}"' for name, text in named.items() if text) + free


@dataclass(frozen=True, slots=True)
class Plan:
    """A drawing as SVG text, its scale in words (`1:5`) and its size on paper [mm]."""

    svg: str
    scale: str
    width_mm: float
    height_mm: float


def face_plan(
    u_range: tuple[float, float],
    v_range: tuple[float, float],
    holes: Sequence[PlanHole],
    pockets: Sequence[PlanPocket] = (),
    *,
    title: str,
    is_round: bool = False,
    outline: Outline = (),
    paper_width_mm: float = 170.0,
    paper_height_mm: float = 90.0,
    marks: Sequence[PlanMark] = (),
    says: str = "",
    handles: Mapping[int, PlanHandle] | None = None,
    around_deg: float = 0.0,
) -> Plan:
    """Draw a face to the largest standard scale at which it fits on the paper.

    Args:
        u_range: least and greatest u of the face [mm].
        v_range: least and greatest v of the face [mm].
        holes: the holes with their numbers.
        pockets: the recesses cut into this face.
        title: words for the drawing's title, read out by a screen reader.
        is_round: draw the outline as a circle (the end of a round part).
        outline: the outline of a face that is no rectangle, in its u and v [mm].
        paper_width_mm: [mm] room on the paper, lettering included; 40 or more.
        paper_height_mm: [mm] room on the paper, lettering included; 30 or more.
        marks: what is wrong, in red.
        says: what is wrong in words, read out after the title.
        handles: by their numbers, the holes that are told apart where the plan is worked on; then each hole
            is a group with its place and its names, and the drawing says where its datum is.
        around_deg: [deg] how far the whole range of v goes around a round part, on a side laid flat.

    Returns:
        The plan; u runs to the right and v upward, as the face is seen from outside.

    Source: ISO 5455 (scales), ISO 128 (lines), ISO 6410 (threads); from memory.
    """
    margin = _MARGIN_MM
    (u_least, u_most), (v_least, v_most) = _with_marks(u_range, v_range, marks)
    span_u, span_v = max(u_most - u_least, 1e-3), max(v_most - v_least, 1e-3)
    scale = next(
        (
            each
            for each in SCALES
            if span_u * each <= paper_width_mm - 2 * margin and span_v * each <= paper_height_mm - 2 * margin
        ),
        SCALES[-1],
    )
    pen = _Pen(u_least, v_most, scale, margin)
    width, height = span_u * scale + 2 * margin, span_v * scale + 2 * margin
    width = max(width, min(widest_words(marks) + margin, paper_width_mm))  # a narrow part, long words
    body = [*_outline(pen, u_range, v_range, outline, is_round=is_round)]
    body += [_pocket(pen, pocket) for pocket in pockets]
    lines: list[Box] = [*(boxes_along(outline, pen.at, scale) if outline else _edges(pen, u_range, v_range))]
    written: list[Box] = [_round_datum(pen)]
    held = handles or {}
    for hole in holes:
        body += _grouped(_hole(pen, hole), hole, held)
        x, y = pen.at(hole.u_mm, hole.v_mm)
        reach = max(_drawn(hole) * scale / 2.0, 0.6)
        lines.append((x - reach, y - reach, x + reach, y + reach))
    for hole in holes:
        body += _numbered(_number(pen, hole, lines, written), hole, held)
    body += _datum(pen, max(4.0, min(7.0, span_v * scale)))
    body += draw_marks(marks, pen.at, scale, (width, height), lines, written)
    words = f"{title}, scale {scale_name(scale)}, {len(holes)} holes"
    told = f"<desc>{escape(says)}</desc>" if says else ""
    frame = "" if handles is None else _frame(pen, u_range, v_range, around_deg)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="drawing face-plan" role="img" '
        f'font-family="{FONT}" fill="{INK}" width="{_n(width)}mm" '
        f'height="{_n(height)}mm" viewBox="0 0 {_n(width)} {_n(height)}"{frame}>'
        f"<title>{escape(words)}</title>" + told + "".join(body) + "</svg>"
    )
    return Plan(svg, scale_name(scale), width, height)


@dataclass(frozen=True, slots=True)
class _Pen:
    """Turns u, v of the face into x, y of the paper."""

    u_left: float
    v_top: float
    scale: float
    margin: float

    def at(self, u: float, v: float) -> tuple[float, float]:
        return self.margin + (u - self.u_left) * self.scale, self.margin + (self.v_top - v) * self.scale


def _frame(pen: _Pen, u_range: tuple[float, float], v_range: tuple[float, float], around_deg: float) -> str:
    """Say where u = 0, v = 0 lies on the drawing, how large a millimetre is, and how far the face goes."""
    x, y = pen.at(0.0, 0.0)
    named = {
        "data-datum": f"{_exact(x)} {_exact(y)}",
        "data-scale": _exact(pen.scale),
        "data-u-range": " ".join(map(_exact, u_range)),
        "data-v-range": " ".join(map(_exact, v_range)),
    }
    if around_deg:
        named["data-degrees"] = number(around_deg / max(v_range[1] - v_range[0], 1e-9), 9)
    return "".join(f' {name}="{text}"' for name, text in named.items())


def _grouped(drawn: Iterable[str], hole: PlanHole, held: Mapping[int, PlanHandle]) -> Iterable[str]:
    """Put the lines of a hole that is told apart into one element."""
    handle = held.get(hole.number)
    if handle is None:
        return drawn
    reach = _exact(_drawn(hole) / 2.0)
    return ('<g class="at-hole"', handle.attributes(hole), f' data-reach="{reach}">', *drawn, "</g>")


def _numbered(drawn: Iterable[str], hole: PlanHole, held: Mapping[int, PlanHandle]) -> Iterable[str]:
    """Put the number of a hole that is told apart into one element, which moves with the hole."""
    drawn = tuple(drawn)
    return (f'<g data-number="{hole.number}">', *drawn, "</g>") if hole.number in held else drawn


def _with_marks(
    u_range: tuple[float, float], v_range: tuple[float, float], marks: Sequence[PlanMark]
) -> tuple[tuple[float, float], tuple[float, float]]:
    """The face, and a little beyond it where something wrong lies there."""
    reach = reach_of(marks)
    if reach is None:
        return u_range, v_range

    def wider(face: tuple[float, float], marked: tuple[float, float]) -> tuple[float, float]:
        most = (face[1] - face[0]) * _BEYOND
        return max(face[0] - most, min(face[0], marked[0])), min(face[1] + most, max(face[1], marked[1]))

    return wider(u_range, reach[0]), wider(v_range, reach[1])


def _n(value: float) -> str:
    """Write a coordinate to a thousandth, which at 1:10 is a hundredth on the part."""
    return number(value, 3)


def _exact(value: float) -> str:
    """Write a size of the part, or a place of the datum, from which others are worked out."""
    return number(value, 6)


def _drawn(hole: PlanHole) -> float:
    return max(hole.diameter_mm, hole.outer_mm, hole.slot_length_mm)


def _edges(pen: _Pen, u_range: tuple[float, float], v_range: tuple[float, float]) -> Iterable[Box]:
    """Give the lines of the outline as thin boxes, so that no number is written across them."""
    left, top = pen.at(u_range[0], v_range[1])
    right, bottom = pen.at(u_range[1], v_range[0])
    half = 0.25
    yield (left - half, top - half, right + half, top + half)
    yield (left - half, bottom - half, right + half, bottom + half)
    yield (left - half, top - half, left + half, bottom + half)
    yield (right - half, top - half, right + half, bottom + half)


def _round_datum(pen: _Pen) -> Box:
    x, y = pen.at(0.0, 0.0)
    return (x - 3.0, y - 10.0, x + 9.0, y + 4.0)


def _outline(
    pen: _Pen, u_range: tuple[float, float], v_range: tuple[float, float], outline: Outline, *, is_round: bool
) -> Iterable[str]:
    x, y = pen.at(u_range[0], v_range[1])
    w, h = (u_range[1] - u_range[0]) * pen.scale, (v_range[1] - v_range[0]) * pen.scale
    stroke = f'fill="none" {LINES["outline"]}'
    if outline:
        yield f'<path class="outline" d="{path_data(outline, pen.at, pen.scale)}" {stroke}/>'
    elif is_round:
        yield f'<circle class="outline" cx="{_n(x + w / 2)}" cy="{_n(y + h / 2)}" r="{_n(w / 2)}" {stroke}/>'
    else:
        yield f'<rect class="outline" x="{_n(x)}" y="{_n(y)}" width="{_n(w)}" height="{_n(h)}" {stroke}/>'


def _pocket(pen: _Pen, pocket: PlanPocket) -> str:
    x, y = pen.at(pocket.u_mm, pocket.v_mm + pocket.width_mm)
    return (
        f'<rect class="pocket" x="{_n(x)}" y="{_n(y)}" width="{_n(pocket.length_mm * pen.scale)}" '
        f'height="{_n(pocket.width_mm * pen.scale)}" rx="{_n(pocket.corner_mm * pen.scale)}" fill="none" '
        f"{LINES['thin']}/>"
    )


def _hole(pen: _Pen, hole: PlanHole) -> Iterable[str]:
    x, y = pen.at(hole.u_mm, hole.v_mm)
    r = hole.diameter_mm * pen.scale / 2.0
    line = f'fill="none" {LINES["thin"]}'
    if hole.slot_length_mm > hole.diameter_mm and hole.slot_along:
        half = hole.slot_length_mm * pen.scale / 2.0
        half_w, half_h = (half, r) if hole.slot_along == "u" else (r, half)
        yield (
            f'<rect class="slot" x="{_n(x - half_w)}" y="{_n(y - half_h)}" width="{_n(2 * half_w)}" '
            f'height="{_n(2 * half_h)}" rx="{_n(r)}" {line}/>'
        )
    else:
        yield f'<circle class="hole" cx="{_n(x)}" cy="{_n(y)}" r="{_n(max(r, 0.2))}" {line}/>'
    if hole.outer_mm:
        outer = hole.outer_mm * pen.scale / 2.0
        yield f'<circle class="outer" cx="{_n(x)}" cy="{_n(y)}" r="{_n(outer)}" {line}/>'
    if hole.tapped:  # three quarters of a thin circle outside the hole, as ISO 6410 shows a thread
        big = r * 1.2 + 0.3
        yield (
            f'<path class="thread" d="M{_n(x + big)} {_n(y)} A{_n(big)} {_n(big)} 0 1 1 {_n(x)} '
            f'{_n(y - big)}" fill="none" stroke="{INK}" stroke-width="0.15"/>'
        )
    arm = max(_drawn(hole) * pen.scale / 2.0 + 1.2, 2.0)
    for dx, dy in ((arm, 0.0), (0.0, arm)):
        yield (f'<path d="M{_n(x - dx)} {_n(y - dy)} L{_n(x + dx)} {_n(y + dy)}" {LINES["centre"]}/>')


def _number(pen: _Pen, hole: PlanHole, drawn: list[Box], written: list[Box]) -> Iterable[str]:
    """Write the hole's number beside it where it overprints nothing, farther out on a leader if need be."""
    x, y = pen.at(hole.u_mm, hole.v_mm)
    text = str(hole.number)
    w, h = text_width(text, _LETTER_MM) + 0.3, _LETTER_MM
    reach = max(_drawn(hole) * pen.scale / 2.0, 0.6) + 0.5
    left, top, right, bottom = box = free_box((x, y), reach, (w, h), drawn, written)
    written.append(box)
    cx, cy = (left + right) / 2, (top + bottom) / 2
    if max(abs(cx - x) - w / 2, abs(cy - y) - h / 2) > reach + 1.0:
        end_x, end_y = min(max(x, left), right), min(max(y, top), bottom)
        yield f'<path class="leader" d="M{_n(x)} {_n(y)} L{_n(end_x)} {_n(end_y)}" {LINES["leader"]}/>'
    yield (
        f'<text class="hole-number" x="{_n(cx)}" y="{_n(cy + _LETTER_MM * 0.35)}" '
        f'font-size="{_n(_LETTER_MM)}" text-anchor="middle">{text}</text>'
    )


def _datum(pen: _Pen, up: float) -> Iterable[str]:
    """Mark u = 0, v = 0, with the directions in which both are counted; a thin face has v's shorter."""
    x, y = pen.at(0.0, 0.0)
    for dx, dy, word in ((7.0, 0.0, "u"), (0.0, -up, "v")):
        yield (
            f'<path class="datum" d="M{_n(x)} {_n(y)} L{_n(x + dx)} {_n(y + dy)}" stroke="{BLUE}" '
            f'stroke-width="0.5"/>'
        )
        tx, ty = (x + 8.0, y + 3.4) if dx else (x - 1.6, y - up - 0.6)
        yield (
            f'<text x="{_n(tx)}" y="{_n(ty)}" font-size="3" text-anchor="middle" fill="{BLUE}">{word}</text>'
        )
    yield f'<circle class="datum" cx="{_n(x)}" cy="{_n(y)}" r="0.9" fill="{BLUE}"/>'
