"""What stands about a stack: numbers in rings, running dimensions along its axis, the key, the scale."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calculators.drawing.lettering import spread, text_width, wrap
from calculators.drawing.section_words import plain_mm
from calculators.drawing.stack_lines import StackLine
from calculators.drawing.stack_pieces import Piece
from calculators.drawing.stack_shapes import View
from calculators.drawing.svg import BLUE, INK, LINES, PAPER, lettering, number, path

_RING = 0.82
"""The radius of a number's ring, in sizes of the lettering."""


@dataclass(frozen=True, slots=True)
class Sheet:
    """The sheet that a stack lies on, its margins, and the gap between what is set apart [mm]."""

    width: float
    margin: float
    gap: float

    @staticmethod
    def of(members: int, letter: float, *, narrow: bool) -> Sheet:
        """Return a sheet that is wide enough for the numbers of all members beside one another."""
        least, margin, gap = (92.0, 4.5, 3.0) if narrow else (172.0, 7.0, 5.0)
        return Sheet(max(least, members * (2 * _RING + 0.5) * letter + 8.0), margin, gap)


@dataclass(frozen=True, slots=True)
class Marks:
    """Elements about the drawing and the box that they fill [mm on the sheet]."""

    parts: list[str]
    left: float
    top: float
    right: float
    bottom: float


def balloons(pieces: Sequence[Piece], view: View, top: float, letter: float) -> Marks:
    """Set the numbers over the pieces, each in a ring that says how the member is held.

    Args:
        pieces: the pieces where they are drawn.
        view: how they lie.
        top: the upper edge of the drawing [mm on the sheet].
        letter: the size of the type [mm].

    Returns:
        The elements and their box.

    Source: this project (item references, ISO 6433, from memory).
    """
    radius = _RING * letter
    y = top - 3.0 - radius - 0.9 * letter
    wanted = [_middle(piece, view) for piece in pieces]
    middles = spread(wanted, [2 * radius] * len(pieces), 0.35 * letter)
    parts = []
    for piece, at, x in zip(pieces, wanted, middles, strict=True):
        end = -_reach_at(piece) * view.scale
        line = [(at, end + 0.3), (at, top - 1.0), (x, y + radius)]
        parts.append(path([line], "leader", closed=False))
        parts.append(_ring(x, y, radius, piece.line, letter))
    return Marks(parts, min(middles) - radius, y - radius, max(middles) + radius, y + radius)


def _middle(piece: Piece, view: View) -> float:
    """Where a piece's number points: its middle; the fastener's is at its head or its tail."""
    near, far = piece.near, piece.far
    if piece.line.kind == "screw":
        far = min(far, 0.0) if near < -1e-6 and not piece.shift else near + 0.1 * (far - near)
    if piece.is_bush or piece.rider is not None:
        # What lies around a bush and the bush itself are pointed at beside one another.
        part = 0.3 if piece.is_bush else 0.7
        return view.at(0.0, near + part * (far - near), piece.shift)[0]
    return view.at(0.0, (near + far) / 2, piece.shift)[0]


def _reach_at(piece: Piece) -> float:
    """How far from the axis a leader ends: within the piece, below its edge."""
    return 0.75 * piece.half if piece.line.kind != "around" else 0.9 * piece.half


def _ring(x: float, y: float, radius: float, line: StackLine, letter: float) -> str:
    dashes = {"loose": ' stroke-dasharray="1.3 0.9"'}.get(line.state, "")
    place = f'cx="{number(x)}" cy="{number(y)}"'
    state = line.state.replace(" ", "-")
    circle = (
        f'<circle class="balloon {state}" {place} r="{number(radius)}" fill="{PAPER}" stroke="{INK}" '
        f'stroke-width="0.25"{dashes}/>'
    )
    if line.state == "free to turn":
        circle += f'<circle {place} r="{number(radius - 0.55)}" stroke="{INK}" stroke-width="0.25"/>'
    return circle + lettering(x, y + 0.35 * letter, str(line.number), letter, anchor="middle")


def running(pieces: Sequence[Piece], view: View, bottom: float, letter: float) -> Marks:
    """Draw running dimensions under the stack: where each member begins and ends, from the head's plane.

    Args:
        pieces: the pieces where they lie.
        view: how they lie.
        bottom: the lower edge of the drawing [mm on the sheet].
        letter: the size of the type [mm].

    Returns:
        The elements and their box.

    Source: ISO 129-1 (running dimensions: an origin in a circle, one arrow each; from memory).
    """
    places = _places(pieces)
    y, foot = bottom + 5.0, bottom + 5.0 + 2.2
    xs = [view.at(0.0, drawn)[0] for _, drawn, _ in places]
    middles = spread(xs, [letter] * len(places), 0.3 * letter)
    origin = view.at(0.0, 0.0)[0]
    ends = [min([origin, *xs]), max([origin, *xs])]
    parts = [path([[(x, y) for x in ends]], "dimension", closed=False)]
    parts.append(
        f'<circle class="origin" cx="{number(origin)}" cy="{number(y)}" r="0.9" {LINES["dimension"]}/>'
    )
    longest = 0.0
    for (value, _, is_broken), x, at in zip(places, xs, middles, strict=True):
        words = plain_mm(value)
        longest = max(longest, text_width(words, letter))
        line = [[(x, bottom + 1.0), (x, foot), (at, foot + 2.4)]]
        drawn = path(line, "dimension", closed=False)
        if not is_broken and abs(x - origin) > 1e-9:
            drawn += _arrow(x, y, 1.0 if x > origin else -1.0)
        text = lettering(
            at + 0.35 * letter, foot + 3.0, words, letter, ink="dimension", anchor="end", turn=True
        )
        parts.append(f'<g class="running">{drawn}{text}</g>')
    low = foot + 3.0 + longest
    return Marks(parts, min([*xs, *middles]) - letter, bottom, max([*xs, *middles]) + letter, low)


def _places(pieces: Sequence[Piece]) -> list[tuple[float, float, bool]]:
    """Each running length with where it is drawn, and whether the part goes on beyond: broken off."""
    found: dict[float, tuple[float, bool]] = {0.0: (0.0, False)}
    for piece in pieces:
        line = piece.line
        if line.kind == "insert":
            continue
        ends = (line.leave_mm,) if line.kind == "screw" else (line.enter_mm, line.leave_mm)
        for value in ends:
            is_broken = piece.shape is not None and piece.shape.broken and value > piece.far + 1e-6
            found.setdefault(round(value, 4), (piece.far if is_broken else value, is_broken))
    return [(value, *found[value]) for value in sorted(found)]


def _arrow(x: float, y: float, way: float) -> str:
    tip = f"M{number(x)} {number(y)}l{number(-2.2 * way)} -0.5v1Z"
    return f'<path class="arrow" d="{tip}" fill="{BLUE}"/>'


def key(lines: Sequence[StackLine], sheet: Sheet, letter: float, top: float) -> tuple[list[str], float]:
    """List the members under the drawing: number, what and how many, from where to where, how it is held.

    Args:
        lines: the members.
        sheet: the sheet.
        letter: the size of the type [mm].
        top: where it begins [mm on the sheet].

    Returns:
        The elements, and where it ends.

    Source: this project.
    """
    indent = 1.0 + 2.4 * letter
    parts, y = [], top + 1.6 * letter
    for line in lines:
        many = f"{line.count} × " if line.count != 1 else ""
        words = [
            (f"{many}{line.what}", "label"),
            (f"{plain_mm(line.enter_mm)} to {plain_mm(line.leave_mm)}; {line.state}: {line.why}", "soft"),
        ]
        parts.append(lettering(1 + 1.2 * letter, y, str(line.number), letter, anchor="middle"))
        for text, ink in words:
            for one in wrap(text, letter, sheet.width - indent - 1):
                parts.append(lettering(indent, y, one, letter, ink=ink))
                y += 1.25 * letter
        y += 0.4 * letter
    return parts, y - letter


def ring_note(words: str, sheet: Sheet, letter: float, top: float) -> tuple[list[str], float]:
    """Write the scale and what the rings mean at the foot.

    Args:
        words: the scale in words.
        sheet: the sheet.
        letter: the size of the type [mm].
        top: where it begins [mm on the sheet].

    Returns:
        The elements, and where it ends.

    Source: ISO 5455 (from memory).
    """
    small = max(0.85 * letter, 2.0)
    says = f"{words}. Ring round a number: plain, tight; broken, loose; double, free to turn."
    lines = wrap(says, small, sheet.width - 2)
    parts = [
        lettering(1.0, top + (1.3 + 1.2 * i) * small, line, small, ink="soft") for i, line in enumerate(lines)
    ]
    return parts, top + (1.3 + 1.2 * len(lines)) * small - 0.8 * small
