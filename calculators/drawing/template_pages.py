"""A true-size template: a face of a part at 1:1 over as many pages as it takes, each a drawing by itself.

The file is exact. What a printer makes of it is told by the check rules, which are on every page; a
correction for one printer makes all that is drawn, the rules too, so much longer or shorter each way.
"""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from calculators.drawing.face_shape import FaceShape
from calculators.drawing.svg import FONT, escape, number
from calculators.drawing.template_band import draw_band
from calculators.drawing.template_face import draw_tile
from calculators.drawing.template_marks import FoldLine, is_round_end
from calculators.drawing.template_paper import Stretch
from calculators.drawing.template_rules import check_rules, match_marks
from calculators.drawing.template_strokes import pen_of
from calculators.drawing.template_tiles import Tile, Tiling, tiling_of
from calculators.geometry.outlines import bounds

_TITLE_SIGNS = 28
"""So much of a build's title stands on a page, beside what else the line says."""


@dataclass(frozen=True, slots=True)
class TemplateFace:
    """What a template is drawn from: the face, how its grain runs there (`u`, `v`, `end`), its folds."""

    shape: FaceShape
    grain: str = ""
    folds: tuple[FoldLine, ...] = ()


@dataclass(frozen=True, slots=True)
class SheetWords:
    """What every page says besides the part.

    `first` is the number of the first page among the sheets that are printed together, `of` how many those
    are (0: the pages of this face). `warning` stands on every page; `corrected` says for which printer.
    """

    build: str = ""
    title: str = ""
    issued: str = ""
    corrected: str = ""
    warning: str = ""
    first: int = 1
    of: int = 0


@dataclass(frozen=True, slots=True)
class TemplatePage:
    """One page: its drawing as SVG of the page's size, and the words that go into its band.

    `unlabelled` is how many of its holes have no words beside them for want of room.
    """

    svg: str
    heading: str
    title: str
    says: tuple[str, ...]
    name: str
    width_mm: float
    height_mm: float
    landscape: bool
    tile: Tile
    unlabelled: int


def template_pages(
    face: TemplateFace,
    paper: str,
    *,
    mirrored: bool = False,
    stretch: Stretch | None = None,
    words: SheetWords | None = None,
) -> tuple[TemplatePage, ...]:
    """Draw a face at true size over as many pages as it takes.

    Args:
        face: the face.
        paper: `a4` or `letter`.
        mirrored: whether it is turned about, for a template that lies with its print on the work.
        stretch: the correction for the printer; none draws everything at its true length.
        words: what the title says besides.

    Returns:
        The pages in order of rows and columns.

    Raises:
        InputError: for a paper that there is not, and where it takes more pages than are printed.

    Source: this project; needs: 100 mm rules both ways, match marks, a map (common practice).

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> plate = FaceShape("P11", "Plate", "top", rectangle(0, 0, 90, 90), 2)
        >>> [page.name for page in template_pages(TemplateFace(plate), "a4")]
        ['1A']
    """
    stretch, words = stretch or Stretch(), words or SheetWords()
    tiling = tiling_of(face.shape, paper, stretch, mirrored=mirrored)
    return tuple(_page(face, tiling, place, words, mirrored=mirrored) for place in range(len(tiling.tiles)))


def _page(
    face: TemplateFace, tiling: Tiling, place: int, words: SheetWords, *, mirrored: bool
) -> TemplatePage:
    layout, tile, shape = tiling.layout, tiling.tiles[place], face.shape
    marks, taken = match_marks(tiling, tile, pen_of(tiling, tile))
    drawn, missing = draw_tile(
        tiling, tile, grain=face.grain, folds=face.folds, mirrored=mirrored, taken=taken
    )
    x0, y0, x1, y1 = layout.field
    clip = f'<rect x="{number(x0)}" y="{number(y0)}" width="{number(x1 - x0)}" height="{number(y1 - y0)}"/>'
    heading = f"{words.build} {shape.mark} {shape.name}".strip()
    first, *says = _sentences(shape, tiling, place, words, missing, mirrored=mirrored)
    body = [
        f'<defs><clipPath id="field">{clip}</clipPath></defs><g clip-path="url(#field)">',
        *drawn,
        *marks,
        "</g>",
        *check_rules(layout),
        *draw_band(tiling, place),
    ]
    size = f'width="{number(layout.width)}mm" height="{number(layout.height)}mm"'
    described = _description(shape, tile, mirrored=mirrored)
    svg = (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="template" role="img" {size} '
        f'viewBox="0 0 {number(layout.width)} {number(layout.height)}" font-family="{FONT}" fill="none">'
        f"<title>{escape(f'{heading}. {first}')}</title><desc>{escape(described)}</desc>"
        + "".join(part for part in body if part)
        + "</svg>"
    )
    return TemplatePage(
        svg,
        heading,
        first,
        tuple(says),
        tile.name,
        layout.width,
        layout.height,
        layout.landscape,
        tile,
        missing,
    )


def _description(shape: FaceShape, tile: Tile, *, mirrored: bool) -> str:
    """The page in words: the holes on it with their places."""
    x0, y0, x1, y1 = tile.box
    way = -1 if mirrored else 1
    here = [one for one in shape.holes if x0 <= way * one.u_mm <= x1 and y0 <= one.v_mm <= y1]
    told = "; ".join(
        f"hole {one.number} of {number(one.diameter_mm)} at {number(one.u_mm)}, {number(one.v_mm)}"
        for one in here[:200]
    )
    return f"At true size, millimetres from the datum. {told or 'No hole is on this page'}."


def _sentences(
    shape: FaceShape, tiling: Tiling, place: int, words: SheetWords, missing: int, *, mirrored: bool
) -> Iterator[str]:
    """What the band says, the most important first."""
    count = len(tiling.tiles)
    page = f", page {tiling.tiles[place].name}" if count > 1 else ""
    revision = f", revision {shape.revision}" if shape.revision else ""
    face = (
        "side laid flat" if shape.is_wrapped else f"{shape.face} {'end' if is_round_end(shape) else 'face'}"
    )
    yield f"{'MIRRORED. ' if mirrored else ''}True-size template 1:1, {face}{page}{revision}"
    issued = f", issued {words.issued}" if words.issued else ""
    title = words.title if len(words.title) <= _TITLE_SIGNS else f"{words.title[:_TITLE_SIGNS]}…"
    sheet = f"{title}: sheet" if title else "Sheet"
    yield f"{sheet} {words.first + place} of {words.of or count}{issued}, mm"
    if words.warning:
        yield words.warning
    if mirrored:
        yield "Print side down on this face; for holes right through, print side up on the far side."
    else:
        yield f"This side out: the {shape.face} as seen from outside."
    if words.corrected:
        yield words.corrected
    if count > 1:
        yield "Cut the broken lines and lay over: the crosses of both pages must meet."
    if shape.is_wrapped:
        _, low, _, high = bounds(shape.outline)
        around = high - low
        yield (
            f"Wraps round Ø{number(around / math.pi)}, circumference {number(around)} from seam to seam; "
            "v = 0 at +Y, v to +Z. The paper's thickness leaves the seam 0.3 open."
        )
    if missing:
        many = "holes" if missing > 1 else "hole"
        yield f"{missing} {many} without words for want of room: see the drilling sheet."
    yield "The edge is the middle of the thick line. From 100 to 100 over the corner: 141.4."


def holes_without_words(pages: Sequence[TemplatePage]) -> int:
    """Count the holes that have no words on any page.

    Args:
        pages: the pages.

    Returns:
        How many.

    Source: this project.

    Example:
        >>> holes_without_words(())
        0
    """
    return sum(page.unlabelled for page in pages)
