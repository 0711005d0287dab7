"""A joint's stack along the sheet: in line as seen from outside, apart along its axis, or cut together."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from calculators.drawing.scales import SCALES, scale_name
from calculators.drawing.section_plan import Plan
from calculators.drawing.section_words import plain_mm, written
from calculators.drawing.stack_lines import StackLine, sentence_of, stack_lines
from calculators.drawing.stack_marks import Sheet, balloons, key, ring_note, running
from calculators.drawing.stack_pieces import Arrangement, Piece, drawn_apart, pieces_of
from calculators.drawing.stack_shapes import View, axis_line, joining_lines, piece_drawn, shank_within
from calculators.drawing.svg import FONT, escape, number
from calculators.joints.freedom import Write, mm_words
from calculators.joints.model import JointResult
from calculators.joints.riders import Rider

ARRANGEMENTS: tuple[Arrangement, ...] = ("in line", "apart", "together")
_TALLEST_MM = 62.0


def stack_drawing(
    result: JointResult,
    arrangement: Arrangement = "in line",
    *,
    riders: Sequence[Rider] = (),
    narrow: bool = False,
    letter_mm: float = 4.0,
    names: Mapping[str, str] | None = None,
    count: int = 1,
    with_key: bool = True,
    write: Write = mm_words,
) -> str:
    """Draw the stack of a joint with its axis level and its head at the left.

    `in line` shows the members from outside where they lie, the fastener within them hidden; `together` cuts
    them open; `apart` sets them one after the other along the axis with thin chain lines between what goes
    together. All are in true proportion at a scale of ISO 5455; the parts are broken off short beside the
    axis, and a part that goes on far beyond the point is broken off there. Where the members lie as
    assembled, running dimensions from the plane in which the head bears say where each begins and ends.
    A number stands in a plain ring where the member is tight, in a broken one where it is loose, in a double
    one where it is free to turn.

    Args:
        result: the joint as worked out.
        arrangement: `in line`, `apart` or `together`.
        riders: the parts that lie around its stack.
        narrow: draw for a narrow screen.
        letter_mm: the size of the type on the sheet [mm], from 2 to 8.
        names: names of parts by their marks.
        count: how many such fasteners there are [1].
        with_key: whether the members are listed under the drawing.
        write: how a play is written.

    Returns:
        The SVG element with its title and text equivalent: equal joints give equal text.

    Raises:
        InputError: as `work_joint`.

    Source: ISO 128-2 (lines), ISO 128-3 (sections), ISO 129-1 (running dimensions), ISO 6410-1 (threads),
        ISO 5455 (scales), all from memory; exploded views common practice.
    """
    letter = min(max(letter_mm, 2.0), 8.0)
    lines = stack_lines(result, riders, names=names, count=count, write=write)
    plan, pieces = pieces_of(result, lines, riders)
    sheet = Sheet.of(len(pieces), letter, narrow=narrow)
    view = _view(pieces, sheet, arrangement)
    if arrangement == "apart":
        pieces = drawn_apart(pieces, view.scale, sheet.gap)
    body = _drawn(plan, pieces, view, arrangement)
    top, bottom = -view.reach(pieces), view.reach(pieces)
    rings = balloons(pieces, view, top, letter)
    dimensions = running(pieces, view, bottom, letter) if arrangement != "apart" else None
    marks = [rings, *([dimensions] if dimensions else [])]
    foot = max([bottom + 2.0, *(mark.bottom for mark in marks)])
    words, foot = key(lines, sheet, letter, foot) if with_key else ([], foot)
    note, foot = ring_note(_scale_words(view, arrangement), sheet, letter, foot)
    left = min([0.0, *(mark.left - 1.0 for mark in marks)])
    right = max([sheet.width, *(mark.right + 1.0 for mark in marks)])
    body += [part for mark in marks for part in mark.parts] + words + note
    box = (left, min(top, rings.top) - 1.0, right, foot + 1.0)
    title = (
        f"{result.joint.mark or 'Joint'}: the stack of {written(result.fastener)}, {_ARRANGED[arrangement]}"
    )
    return _svg(body, box, title, _description(lines, arrangement))


_ARRANGED = {"in line": "in line", "apart": "apart along its axis", "together": "together, cut open"}


def _view(pieces: Sequence[Piece], sheet: Sheet, arrangement: Arrangement) -> View:
    """The largest scale at which all of it fits."""
    apart = arrangement == "apart"
    near, far = min(piece.near for piece in pieces), max(piece.far for piece in pieces)
    long = sum(piece.far - piece.near for piece in pieces) if apart else far - near
    room = sheet.width - 2 * sheet.margin - (sheet.gap * (len(pieces) - 1) if apart else 0.0)
    high = 2 * max(piece.half for piece in pieces)
    scale = next((s for s in SCALES if long * s <= room and high * s <= _TALLEST_MM), SCALES[-1])
    spare = max(0.0, room - long * scale) / 2
    start = pieces[0].near if apart else near
    return View(scale, sheet.margin + spare - start * scale)


def _drawn(plan: Plan, pieces: Sequence[Piece], view: View, arrangement: Arrangement) -> list[str]:
    """All pieces: what lies within first, then what covers it."""
    body: list[str] = []
    if arrangement == "apart":
        body += joining_lines(pieces, plan, view)
        for turn, piece in enumerate(pieces):
            body += piece_drawn(piece, plan, view, cut=piece.hardware is None, turn=turn, alone=True)
        return [*body, axis_line(pieces, view)]
    cut = arrangement == "together"
    under = {"part": 0, "around": 1, "insert": 2, "washer": 3, "screw": 4 if cut else -1, "nut": 5}
    for turn, piece in enumerate(sorted(pieces, key=lambda piece: under[piece.line.kind])):
        body += piece_drawn(piece, plan, view, cut=cut, turn=turn, alone=False)
    if not cut:
        body += shank_within(pieces, plan, view)
    return [*body, axis_line(pieces, view)]


def _scale_words(view: View, arrangement: Arrangement) -> str:
    sizes = "" if arrangement == "apart" else ", sizes in mm"
    return f"Scale {scale_name(view.scale)}{sizes}, parts broken off"


def _description(lines: Sequence[StackLine], arrangement: Arrangement) -> str:
    """The text equivalent."""
    ends = [line for line in lines if line.kind != "screw"]
    whole = (
        f"The stack is {plain_mm(max(line.leave_mm for line in ends))} mm long from the head's bearing plane."
    )
    words = [f"The members in their order, {_ARRANGED[arrangement]}.", *map(sentence_of, lines), whole]
    return " ".join(words)


def _svg(body: Sequence[str], box: tuple[float, float, float, float], title: str, says: str) -> str:
    left, top, right, bottom = box
    wide, high = right - left, bottom - top
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="stack" role="img" width="{number(wide)}mm" '
        f'height="{number(high)}mm" viewBox="{number(left)} {number(top)} {number(wide)} {number(high)}" '
        f'font-family="{FONT}" fill="none">\n<title>{escape(title)}</title>\n<desc>{escape(says)}</desc>\n'
        + "\n".join(part for part in body if part)
        + "\n</svg>\n"
    )
