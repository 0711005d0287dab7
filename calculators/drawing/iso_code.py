"""Drilling moves as plain ISO 6983 code, which any controller reads: G0 and G1 alone, no canned cycles."""

from __future__ import annotations

import unicodedata
from collections.abc import Iterator

from calculators.drawing.drilling_moves import Cut, Moves, Tool

CAUTIONS = (
    "Read this code, and run it in the air first, with the spindle stopped and the tool well above the work.",
    "Clamp the part down on a board that may be drilled into, with every clamp lower than the safe height.",
    "Keep a hand at the emergency stop and stay with the machine; nobody reaches in while anything turns.",
    "Wear eye and ear protection, keep sleeves and hair away, and take the dust off at the tool.",
    "Stop the spindle and lock the machine before a tool is changed; set Z 0 at the face with each tool.",
    "The machine's own manual, the rules of your workshop and local codes come first.",
)
"""What is printed on the caution page and stands at the head of the code (common practice)."""

_WIDEST = 68
_BACK_MM = 0.5
"""How far above where it was the drill comes down fast in its own hole, before it feeds again."""


def iso_code(moves: Moves) -> str:
    """Write moves as a program.

    Lengths are absolute millimetres with three decimals, feeds millimetres a minute. The spindle stops and
    the program waits (`M0`) at each tool; between holes the tool goes at the safe height.

    Args:
        moves: the moves.

    Returns:
        The program: ASCII, a command a line, lines of at most 72 signs that end in LF.

    Source: ISO 6983-1 (words G0, G1, G17, G21, G40, G49, G54, G80, G90, G94, M0, M3, M5, M6, M30, F, S, T),
    from memory; pecks: common practice.

    Example:
        >>> from calculators.drawing.drilling_moves import drilling_moves
        >>> from calculators.drawing.face_shape import FaceShape
        >>> from calculators.geometry.outlines import rectangle
        >>> empty = drilling_moves(FaceShape("P1", "Plate", "top", rectangle(0, 0, 40, 30), 6))
        >>> iso_code(empty).splitlines()[-3:]
        ['G0 X0.000 Y0.000', 'M30', '%']
    """
    return "\n".join(_lines(moves)) + "\n"


def _lines(moves: Moves) -> Iterator[str]:
    shape, set_up = moves.shape, moves.set_up
    yield "%"
    revision = f", revision {shape.revision}" if shape.revision else ""
    yield from _said(f"{shape.mark} {shape.name}{revision}")
    yield from _said(f"Face {shape.face}, seen from outside; material {shape.material or 'not stated'}")
    for caution in CAUTIONS:
        yield from _said(f"CAUTION: {caution}")
    yield from _said("Zero: X 0 Y 0 at the datum of this face, Z 0 at the face itself, X along u, Y along v.")
    yield from _said(f"The part is {shape.depth_mm:g} mm thick here. Safe height {set_up.safe_mm:g} mm.")
    if set_up.copy:
        yield from _said(f"For {set_up.copy} alone.")
    for tool, cuts in moves.cuts:
        yield from _said(f"Tool {tool.number}: {tool.words}, {len(cuts)} times")
    for says in (*moves.notes, *moves.left_out, *moves.by_hand):
        yield from _said(says)
    yield "G21 G17 G90 G94 G40 G49 G80"
    yield "G54"
    yield "M5"
    yield f"G0 Z{_n(set_up.safe_mm)}"
    for tool, cuts in moves.cuts:
        yield from _tool(moves, tool, cuts)
    yield f"G0 X{_n(0.0)} Y{_n(0.0)}"
    yield "M30"
    yield "%"


def _tool(moves: Moves, tool: Tool, cuts: tuple[Cut, ...]) -> Iterator[str]:
    yield from _said(f"TOOL {tool.number}: {tool.words.upper()}")
    yield f"T{tool.number} M6"
    yield "M0"
    yield f"S{tool.rpm:.0f} M3"
    for cut in cuts:
        yield from _said(f"Hole {cut.hole}")
        yield f"G0 X{_n(cut.x)} Y{_n(cut.y)}"
        yield f"G0 Z{_n(moves.set_up.clear_mm)}"
        yield from _slot(tool, cut) if cut.to_x is not None else _pecks(moves, tool, cut)
        yield f"G0 Z{_n(moves.set_up.safe_mm)}"
    yield "M5"


def _pecks(moves: Moves, tool: Tool, cut: Cut) -> Iterator[str]:
    """Down a peck at a time, out of the hole after each to clear the chips."""
    for before, depth in _depths(cut):
        if before > 0:
            yield f"G0 Z{_n(moves.set_up.clear_mm)}"
            if before > _BACK_MM:
                yield f"G0 Z{_n(_BACK_MM - before)}"
        yield f"G1 Z{_n(-depth)} F{tool.feed_mm_per_min:.0f}"


def _slot(tool: Tool, cut: Cut) -> Iterator[str]:
    """Down a step at each end, along the slot and back; the last pass leaves nothing standing."""
    ends = ((cut.x, cut.y), (cut.to_x or 0.0, cut.to_y or 0.0))
    at = 0
    for _, depth in _depths(cut):
        yield f"G1 Z{_n(-depth)} F{tool.feed_mm_per_min / 2:.0f}"
        at = 1 - at
        yield f"G1 X{_n(ends[at][0])} Y{_n(ends[at][1])} F{tool.feed_mm_per_min:.0f}"
    back = ends[1 - at]
    yield f"G1 X{_n(back[0])} Y{_n(back[1])} F{tool.feed_mm_per_min:.0f}"


def _depths(cut: Cut) -> Iterator[tuple[float, float]]:
    """From what depth to what depth each peck goes, all of them equal, none deeper than is allowed."""
    count = cut.pecks
    for turn in range(count):
        yield cut.depth_mm * turn / count, cut.depth_mm * (turn + 1) / count


def _n(value: float) -> str:
    text = f"{value:.3f}"
    return "0.000" if text == "-0.000" else text


def _said(words: str) -> Iterator[str]:
    """Write a comment, on as many lines as it needs: plain ASCII, without brackets of its own."""
    plain = unicodedata.normalize("NFKD", words.replace("ø", "diameter ").replace("×", "x"))
    bare = plain.encode("ascii", "ignore").decode().translate({40: "[", 41: "]", 37: " ", 59: ","})
    line = ""
    for word in bare.split():
        for piece in (word[at : at + _WIDEST] for at in range(0, len(word), _WIDEST)):
            if line and len(line) + 1 + len(piece) > _WIDEST:
                yield f"({line})"
                line = piece
            else:
                line = f"{line} {piece}".strip()
    if line:
        yield f"({line})"
