"""The part drawing: its views to the largest standard scale that fits, laid out by their projection."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, field

from calculators.drawing.lettering import text_width, wrap
from calculators.drawing.part_dimensions import LETTER_MM, PITCH, Dimensions, dimensions_of
from calculators.drawing.part_numbers import write_numbers
from calculators.drawing.part_red import draw_red
from calculators.drawing.part_room import Room
from calculators.drawing.part_rows import HoleRow, corners_told, description_of, hole_rows, table_of
from calculators.drawing.part_shape import PartShape
from calculators.drawing.part_strokes import draw_view
from calculators.drawing.part_symbol import projection_symbol
from calculators.drawing.part_views import Projection, View, views_of
from calculators.drawing.part_words import Write
from calculators.drawing.part_written import write_dimensions
from calculators.drawing.plan_marks import PlanMark
from calculators.drawing.scales import SCALES, scale_name
from calculators.drawing.section_words import plain_mm
from calculators.drawing.svg import document, lettering

_GAP_MM, _MARGIN_MM, _TITLE_MM, _FOOT_MM = 6.0, 2.0, 8.0, 11.0
_CUT_MM = 9.0
"""Beside a view with a cutting line: room for its arrows and letters."""

_NARROW_MM = 130.0


@dataclass(frozen=True, slots=True)
class PartDrawing:
    """A part drawn: the SVG, its title, what it shows in words, its scale in words, its size [mm].

    `too_dense` says what is in the table alone, in sentences; nothing where the drawing says all.
    `rows` are the lines of the hole table.
    """

    svg: str
    title: str
    description: str
    scale: str
    width_mm: float
    height_mm: float
    too_dense: str
    rows: tuple[HoleRow, ...]


@dataclass(slots=True)
class Cell:
    """A view where it stands: its upper left corner on the sheet [mm], its scale, the room about it."""

    view: View
    dimensions: Dimensions
    scale: float
    left: float
    right: float
    above: float
    below: float
    aside: float = 0.0
    cut_y: float = 0.0
    x: float = 0.0
    y: float = 0.0

    @property
    def wide(self) -> float:
        """The view's width on the sheet [mm]."""
        return self.view.size[0] * self.scale

    @property
    def high(self) -> float:
        """The view's height on the sheet [mm]."""
        return self.view.size[1] * self.scale

    def at(self, u: float, v: float) -> tuple[float, float]:
        """Where u, v of the view lies on the sheet [mm]."""
        (least, _), (_, most) = self.view.frame.u_range, self.view.frame.v_range
        return self.x + (u - least) * self.scale, self.y + (most - v) * self.scale


@dataclass(slots=True)
class Layout:
    """Views laid out at a scale: the cells, the size of it all [mm]."""

    cells: list[Cell]
    width: float
    height: float
    scale: float
    cutting: Cell | None = field(default=None)


def draw_part(
    part: PartShape,
    projection: Projection = "first",
    *,
    paper: tuple[float, float] = (273.0, 150.0),
    with_table: bool = True,
    write: Write = plain_mm,
    marks: Mapping[str, Sequence[PlanMark]] | None = None,
    says: str = "",
    room: Room | None = None,
) -> PartDrawing:
    """Draw a part.

    Args:
        part: the part.
        projection: which angle of projection the views are laid out in.
        paper: width and height that the views may take [mm]; each 60 or more. On less than 130 mm of width
            they stand one below the other.
        with_table: whether the table of holes stands below, within the picture.
        write: how a length is written.
        marks: what is wrong, by face, in red.
        says: what is wrong in words, read out after the description.
        room: what is taken on the sheet is noted here, with the work that it took.

    Returns:
        The drawing.

    Source: ISO 128, 129-1, 5455, 5456-2, 6410-1, 15786 (from memory).
    """
    room = room or Room()
    is_narrow = paper[0] < _NARROW_MM
    views = views_of(part, projection, in_a_row=is_narrow)
    layout = _fitted(part, views, paper, write, is_narrow=is_narrow)
    body: list[str] = []
    for cell in layout.cells:
        body += draw_view(part, cell, room, cutting=cell is layout.cutting)
    texts: list[str] = []
    for cell in layout.cells:
        texts += write_dimensions(part, cell, room, title=title_of(cell.view), cutting=cell is layout.cutting)
    sheet = (0.5, 0.5, layout.width - 0.5, layout.height - 0.5)
    red: list[str] = []
    for cell in layout.cells:
        red += draw_red(cell, (marks or {}).get(cell.view.face, ()), room, sheet)
    left_out: list[int] = []
    for cell in layout.cells:
        numbers, missing = write_numbers(part, cell, room, sheet)
        texts += numbers
        left_out += missing
    dense = _dense_words(layout, left_out)
    rows = hole_rows(part, write)
    height = layout.height
    foot, height = _foot(part, layout, projection, dense, write, height, is_narrow=is_narrow)
    if with_table and rows:
        table, wide, height = table_of(rows, layout.width, height + 3.0)
        layout.width = max(layout.width, wide)
        foot += table
    title = f"Part drawing of {part.mark} {part.name}, scale {scale_name(layout.scale)}"
    description = " ".join(filter(None, (description_of(part, views, projection, write), dense, says)))
    svg = document(
        [*body, *texts, *red, *foot], layout.width, height, title=title, description=description,
        kind="drawing part-drawing",
    )  # fmt: skip
    return PartDrawing(svg, title, description, scale_name(layout.scale), layout.width, height, dense, rows)


def _dense_words(layout: Layout, left_out: Sequence[int]) -> str:
    says = []
    if any(cell.dimensions.too_dense for cell in layout.cells):
        says.append("Too dense at this scale: the places of holes stand in the table, by their numbers.")
    if left_out:
        some = ", ".join(map(str, left_out[:6])) + (" and others" if len(left_out) > 6 else "")
        says.append(f"There is no room for the numbers of holes {some}: find them by u and v.")
    return " ".join(says)


def _fitted(
    part: PartShape, views: Sequence[View], paper: tuple[float, float], write: Write, *, is_narrow: bool
) -> Layout:
    """The views at the largest scale at which they fit; twice as large without words on holes is better."""
    plain = _largest(part, views, paper, write, is_narrow=is_narrow, with_words=False)
    if is_narrow:
        return plain
    said = _largest(part, views, paper, write, is_narrow=False, with_words=True)
    return plain if plain.scale >= 1.9 * said.scale and plain.scale <= 1 else said


def _largest(
    part: PartShape,
    views: Sequence[View],
    paper: tuple[float, float],
    write: Write,
    *,
    is_narrow: bool,
    with_words: bool,
) -> Layout:
    least = None
    widest, highest = max(view.size[0] for view in views), max(view.size[1] for view in views)
    for scale in SCALES:
        if widest * scale > paper[0] or highest * scale > paper[1]:
            continue
        layout = _laid_out(part, views, scale, write, is_narrow=is_narrow, with_words=with_words)
        if layout.width <= paper[0] and layout.height + _FOOT_MM <= paper[1]:
            return layout
        if least is None or layout.width < least.width:
            least = layout
        if widest * scale < 12 and highest * scale < 12:
            break  # smaller still, it is the words that take the room
    return least or _laid_out(part, views, SCALES[-1], write, is_narrow=is_narrow, with_words=with_words)


def _laid_out(
    part: PartShape,
    views: Sequence[View],
    scale: float,
    write: Write,
    *,
    is_narrow: bool,
    with_words: bool,
) -> Layout:
    written = dimensions_of(part, views, scale, write, with_words=with_words, is_narrow=is_narrow)
    has_cut = any(view.cut for view in views)
    cells: list[Cell] = []
    cutting: Cell | None = None
    for view, said in zip(views, written, strict=True):
        cell = _cell(part, view, said, scale)
        if has_cut and cutting is None and not view.cut and view.face in ("top", "bottom", "left", "right"):
            cutting = cell
            cell.cut_y = next(one.cut.y_mm for one in views if one.cut)
            if view.face in ("top", "bottom"):
                cell.aside = _CUT_MM
                cell.left += _CUT_MM
                cell.right += _CUT_MM
            else:
                cell.above += _CUT_MM
                cell.below += _CUT_MM
        cells.append(cell)
    columns = sorted({cell.view.column for cell in cells})
    rows = sorted({cell.view.row for cell in cells})
    x, y = _MARGIN_MM, _MARGIN_MM
    for column in columns:
        here = [cell for cell in cells if cell.view.column == column]
        x += max(cell.left for cell in here)
        for cell in here:
            cell.x = x
        x += max(cell.wide + cell.right for cell in here) + _GAP_MM
    for row in rows:
        here = [cell for cell in cells if cell.view.row == row]
        y += max(cell.above for cell in here)
        for cell in here:
            cell.y = y
        y += max(cell.high + cell.below for cell in here) + _GAP_MM
    foot = max(70.0, min(x - _GAP_MM + _MARGIN_MM, 400.0))
    return Layout(cells, max(x - _GAP_MM + _MARGIN_MM, foot), y - _GAP_MM + _MARGIN_MM, scale, cutting)


def _cell(part: PartShape, view: View, said: Dimensions, scale: float) -> Cell:
    wide, high = view.size[0] * scale, view.size[1] * scale
    over = [one.stands + LETTER_MM for one in said.up]
    over += [one.stands + PITCH * LETTER_MM * len(one.lines) / 2 + 1 for one in said.called]
    above = max(_TITLE_MM, max(over, default=0.0) - high)
    past = max((one.stands + LETTER_MM for one in said.along), default=0.0) - wide
    words = title_width(part, view)
    right = max(said.right_mm, past, words - wide, 4.0)
    if said.called and max(over) > high:  # words that stand beside the view's title keep off it
        right = max(right, words - wide + 2.0 + said.right_mm)
    return Cell(view, said, scale, max(said.left_mm, 5.0), right, above, max(said.below_mm, 5.0))


def title_of(view: View) -> str:
    """Name a view as it is written over it.

    Args:
        view: the view.

    Returns:
        Its name.

    Source: ISO 128 (from memory): a section is named by the letters at its cutting line.
    """
    if view.cut:
        return "Section A-A"
    ends = {"left": "Left end", "right": "Right end"}
    return ends.get(view.face, view.face.capitalize())


def title_width(part: PartShape, view: View) -> float:
    """Give how wide a view's name is, with its grain arrow.

    Args:
        part: the part.
        view: the view.

    Returns:
        The width [mm].

    Source: this project.
    """
    grain = 10.0 + text_width("grain", LETTER_MM) if part.grain and _grain_runs(view) else 0.0
    return text_width(title_of(view), 3.0) + grain + 3.0


def _grain_runs(view: View) -> bool:
    return abs(view.frame.u_axis[0]) > 0.5


def _foot(
    part: PartShape,
    layout: Layout,
    projection: Projection,
    dense: str,
    write: Write,
    top: float,
    *,
    is_narrow: bool,
) -> tuple[list[str], float]:
    """Below the views: the scale, the unit of lengths, the symbol of the projection, what is not drawn."""
    words = [f"Scale {scale_name(layout.scale)}" + (", sizes in mm" if write is plain_mm else "")]
    hand = [hole.number for face in part.faces for hole in face.holes if hole.mirrored]
    if hand:
        words.append(f"Not drawn: {len(hand)} holes of other-hand copies; the table has them.")
    corners = corners_told(part.solid, write)
    if corners and not any(cell.dimensions.called for cell in layout.cells):
        words.append(f"C{corners[1:]}.")
    if part.folds:
        words.append("Drawn flat, with its fold lines.")
    if is_narrow and len(layout.cells) > 1:
        words.append("The views stand one below the other.")
    if dense:
        words.append(dense)
    symbol_wide = 0.0 if is_narrow else 20.0
    body = [] if is_narrow else [projection_symbol(projection, _MARGIN_MM, top + 1.0)]
    lines = wrap(" ".join(f"{one}." if not one.endswith(".") else one for one in words), LETTER_MM,
                 layout.width - symbol_wide - 2 * _MARGIN_MM)  # fmt: skip
    y = top + 1.0 + LETTER_MM
    for line in lines:
        body.append(lettering(_MARGIN_MM + symbol_wide, y, line, LETTER_MM, ink="soft"))
        y += PITCH * LETTER_MM + 0.5
    return body, max(y, top + _FOOT_MM - 1.0)
