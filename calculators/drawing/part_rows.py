"""The table of a part's holes, in lines and as it is drawn below the views, and the drawing in words."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import dataclass

from calculators.drawing.lettering import text_width, wrap
from calculators.drawing.part_body import placed_corners
from calculators.drawing.part_shape import PartShape
from calculators.drawing.part_views import View
from calculators.drawing.part_words import Write, hole_depth, hole_mouth, hole_size
from calculators.drawing.svg import RULE, lettering, number
from calculators.geometry.model import Solid
from calculators.geometry.outlines import arc_of, pieces

_LETTER_MM, _LINE_MM = 2.5, 4.0
_HEADS = ("No.", "Face", "u", "v", "Size", "Depth", "What")
_RIGHT = (True, False, True, True, False, False, False)
_WIDEST_MM = 52.0


@dataclass(frozen=True, slots=True)
class HoleRow:
    """A line of the table: number, face, u and v (on a round side the angle), size, depth, what."""

    number: int
    face: str
    u: str
    v: str
    size: str
    depth: str
    what: str

    @property
    def cells(self) -> tuple[str, ...]:
        """The line's words in their order."""
        return (str(self.number), self.face, self.u, self.v, self.size, self.depth, self.what)


def hole_rows(part: PartShape, write: Write) -> tuple[HoleRow, ...]:
    """Give the table of a part's holes.

    Args:
        part: the part.
        write: how a length is written.

    Returns:
        The lines, in the order of their numbers; those of other-hand copies too.

    Source: this project.
    """
    rows = []
    for face in part.faces:
        for hole in face.holes:
            turned = math.degrees(hole.v_mm / (part.solid.diameter / 2)) % 360.0 if face.is_wrapped else 0.0
            what = [hole_mouth(hole, write), "" if hole.kind in ("plain", "slot") else hole.kind]
            what += [f"{hole.joint} {hole.place}".strip(), "other hand" if hole.mirrored else ""]
            what += [f"only in {', '.join(hole.copies)}" if hole.copies else ""]
            what += [f"begins {write(hole.below_mm)} below the face" if hole.below_mm > 0 else ""]
            what += ["" if hole.head_side else "the screw comes out here"]
            rows.append(
                HoleRow(
                    hole.number,
                    face.face,
                    write(hole.u_mm),
                    f"{turned:.2f}".rstrip("0").rstrip(".") + "°" if face.is_wrapped else write(hole.v_mm),
                    hole_size(hole, write),
                    hole_depth(hole, write),
                    "; ".join(word for word in what if word),
                )
            )
    return tuple(sorted(rows, key=lambda row: row.number))


def table_of(rows: Sequence[HoleRow], width_mm: float, top: float) -> tuple[list[str], float, float]:
    """Draw the table below the views, in as many columns as there is width for.

    Args:
        rows: the lines.
        width_mm: the width of the sheet [mm].
        top: where it begins [mm].

    Returns:
        The elements, how far it reaches to the right, and where it ends [mm].

    Source: this project.
    """
    lines = [[wrap(word, _LETTER_MM, _WIDEST_MM) for word in row.cells] for row in rows]
    widths = [
        max(text_width(text, _LETTER_MM) for text in (head, *(text for one in lines for text in one[i])))
        + 2.4
        for i, head in enumerate(_HEADS)
    ]
    whole = sum(widths)
    blocks = max(1, min(int((width_mm - 2) // (whole + 4)), math.ceil(len(rows) / 8)))
    per_block = math.ceil(len(rows) / blocks)
    body: list[str] = []
    lowest = top
    for block in range(blocks):
        left = 2.0 + block * (whole + 4)
        y = top + _LINE_MM
        body += _line(_HEADS, widths, left, y, ink="soft")
        body.append(_rule(left, y + 1.1, whole))
        for row in lines[block * per_block : (block + 1) * per_block]:
            for k in range(max(len(cell) for cell in row)):
                y += _LINE_MM
                body += _line([cell[k] if k < len(cell) else "" for cell in row], widths, left, y)
        lowest = max(lowest, y + 2.0)
    return body, 2.0 + blocks * (whole + 4), lowest


def _line(
    words: Sequence[str], widths: Sequence[float], left: float, y: float, ink: str = "label"
) -> list[str]:
    body, x = [], left
    for word, wide, to_right in zip(words, widths, _RIGHT, strict=True):
        at, anchor = (x + wide - 2.4, "end") if to_right else (x, "start")
        if word:
            body.append(lettering(at, y, word, _LETTER_MM, ink=ink, anchor=anchor))
        x += wide
    return body


def _rule(x: float, y: float, wide: float) -> str:
    return f'<path d="M{number(x)} {number(y)}h{number(wide)}" stroke="{RULE}" stroke-width="0.25"/>'


def corners_told(one: Solid, write: Write) -> str:
    """Say which radius the corners of a block have.

    Args:
        one: the solid.
        write: how a length is written.

    Returns:
        The words; nothing where its corners are sharp or its outline is another one.

    Source: this project.

    Example:
        >>> from calculators.drawing.section_words import plain_mm
        >>> from calculators.geometry.outlines import rectangle
        >>> corners_told(Solid("block", 40, 20, 5, outline=rectangle(0, 0, 40, 20, 3)), plain_mm)
        'corners R3'
    """
    ends = {(x, y) for x in (0.0, one.length) for y in (0.0, one.width)}
    radii = {round(arc.radius, 4) for arc in (arc_of(*piece) for piece in pieces(one.outline)) if arc}
    if set(placed_corners(one)) == ends and len(radii) == 1:
        return f"corners R{write(radii.pop())}"
    return ""


def description_of(part: PartShape, views: Sequence[View], projection: str, write: Write) -> str:
    """Say in words what a part drawing shows.

    Args:
        part: the part.
        views: its views.
        projection: the angle of projection.
        write: how a length is written.

    Returns:
        Sentences: the sizes, the views, what is on them.

    Source: this project.
    """
    one = part.solid
    if part.is_round:
        bore = f", bore ø{write(one.bore)}" if one.bore else ""
        sizes = f"ø{write(one.diameter)} by {write(one.length)} long{bore}"
    else:
        sizes = f"{write(one.length)} by {write(one.width)} by {write(one.thickness)}"
        corners = corners_told(one, write) or ("with an outline of its own" if one.outline else "")
        sizes += f", {corners}" if corners else ""
    says = [f"{part.material + ', ' if part.material else ''}{sizes}."]
    told = [f"{view.face} as a section" if view.cut else view.face for view in views]
    says.append(f"Views in {projection} angle projection: {', '.join(told)}.")
    for face in part.faces:
        holes, pockets = len(face.holes), len(face.pockets)
        on = [
            f"{count} {word}{'s' * (count > 1)}"
            for count, word in ((holes, "hole"), (pockets, "recess"))
            if count
        ]
        says.append(f"{face.face.capitalize()}: {' and '.join(on).replace('recesss', 'recesses')}.")
    return " ".join(says)
