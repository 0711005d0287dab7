"""The sheet `template`: the faces of a part, or of every part that is made, at true size over their pages."""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal, InvalidOperation
from typing import Any

from buildlog.sheets.papers import Paper
from calculators.drawing.template_band import CAUTION, caution_box, code_box, words_box
from calculators.drawing.template_pages import SheetWords, TemplateFace, TemplatePage, template_pages
from calculators.drawing.template_paper import Stretch, page_layout
from calculators.drawing.template_tiles import MOST_PAGES, Tiling, tiling_of
from calculators.planning.drawn.template_faces import template_faces
from calculators.planning.printers import correction_words, readings_of, stretch_for
from calculators.planning.schedules.cutting import parts_to_cut
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

OPTIONS = ("face", "mirror", "printer", "along", "across")
"""What can be asked: a face (every one that has holes), `mirror` (anything: yes), the printer's name, and how
long its check rule of 100 mm is to be drawn each way [mm] (as the build's last readings say; 100 and 100 for
no correction)."""


@dataclass(frozen=True, slots=True)
class LaidOut:
    """One face over its pages."""

    face: TemplateFace
    tiling: Tiling

    @property
    def mark(self) -> str:
        """The mark of the part."""
        return self.face.shape.mark


def template_content(
    worked: WorkedBuild, component: str, paper: Paper, asked: Mapping[str, str]
) -> dict[str, Any]:
    """What stands on the sheet: its pages, and what is left out where it would be too many.

    Raises InputError for a face or a correction that there is not, and for a face of too many pages.
    """
    stretch = stretch_asked(worked, asked)
    mirrored = bool(asked.get("mirror"))
    laid, left_out = lay_out(worked, component, asked.get("face", ""), paper, stretch, mirrored=mirrored)
    return {
        "pages": list(_pages(worked, laid, paper, stretch, mirrored=mirrored)),
        "left_out": left_out,
        "papers": sheet_papers(paper),
        "caution": CAUTION,
        "none": not laid,
    }


def sheet_papers(paper: Paper) -> list[dict[str, Any]]:
    """The two ways in which a page lies."""
    return [_paper(paper, landscape=landscape) for landscape in (False, True)]


def _paper(paper: Paper, *, landscape: bool) -> dict[str, Any]:
    """The size of a page, and the boxes for what is set on it: left, top, width, height [mm]."""
    layout = page_layout(paper, Stretch(), landscape=landscape)
    boxes = {"caution": caution_box(layout), "says": words_box(layout), "stamp": code_box(layout)}
    return {
        "name": "lying" if landscape else "upright",
        "width": layout.width,
        "height": layout.height,
        "boxes": [(name, x0, y0, x1 - x0, y1 - y0) for name, (x0, y0, x1, y1) in boxes.items()],
    }


def stretch_asked(worked: WorkedBuild, asked: Mapping[str, str]) -> Stretch:
    """The correction that is asked for: as written, or that of the build's last readings.

    Raises InputError for a number that is none, and for a printer of which the build knows nothing.
    """
    name = asked.get("printer", "")
    if asked.get("along") or asked.get("across"):
        return stretch_for(name, _number(asked, "along"), _number(asked, "across"))
    readings = readings_of(worked.build.context)
    if name and (readings is None or readings.printer != name):
        known = readings.printer if readings else ""
        told = f"; it keeps those of “{known}”" if known else ""
        raise InputError.of(
            f"{worked.build.number} keeps no readings of a printer called “{name[:60]}”{told}.",
            field="printer",
            choices=(known,) if known else (),
        )
    return readings.stretch if readings else Stretch()


def _number(asked: Mapping[str, str], name: str) -> Decimal:
    try:
        found = Decimal(asked.get(name) or "100")
    except InvalidOperation:
        found = Decimal("NaN")
    if not found.is_finite():
        raise InputError.of(
            f"“{asked[name][:20]}” is no length in mm that a rule of 100 mm is drawn {name} the paper.",
            field=name,
        )
    return found


def lay_out(
    worked: WorkedBuild, component: str, face: str, paper: Paper, stretch: Stretch, *, mirrored: bool
) -> tuple[list[LaidOut], list[str]]:
    """Lay faces over pages: of one component, or of every part that is made, up to a limit.

    The second list says in sentences what is left out of the sheet of the whole build.
    """
    if component:
        faces = template_faces(worked, component, face)
        return [LaidOut(one, tiling_of(one.shape, paper, stretch, mirrored=mirrored)) for one in faces], []
    if face:
        raise InputError.of("Say of which component the face is: --component MARK.", field="component")
    laid: list[LaidOut] = []
    left_out: list[str] = []
    pages = 0
    for part in parts_to_cut(worked.build):
        for one in template_faces(worked, part.mark):
            try:
                tiling = tiling_of(one.shape, paper, stretch, mirrored=mirrored)
            except InputError as error:
                left_out.append(error.faults[0].says)
                continue
            if pages + len(tiling.tiles) > MOST_PAGES:
                left_out.append(f"{part}, {one.shape.face}: {len(tiling.tiles)} pages. Print it by itself.")
                continue
            pages += len(tiling.tiles)
            laid.append(LaidOut(one, tiling))
    return laid, left_out


def _pages(
    worked: WorkedBuild, laid: Sequence[LaidOut], paper: Paper, stretch: Stretch, *, mirrored: bool
) -> Iterator[TemplatePage]:
    build = worked.build
    errors = sum(one.severity == "error" for one in worked.findings)
    issued = build.issued or build.context.as_of
    words = SheetWords(
        build.number,
        build.title,
        issued.isoformat() if issued else "",
        correction_words(stretch),
        f"The check finds {errors} error{'s' if errors > 1 else ''}: mend before anything is marked out."
        if errors
        else "",
        of=sum(len(one.tiling.tiles) for one in laid),
    )
    first = 1
    for one in laid:
        yield from template_pages(
            one.face, paper, mirrored=mirrored, stretch=stretch, words=replace(words, first=first)
        )
        first += len(one.tiling.tiles)


def pages_told(laid: Iterable[LaidOut]) -> str:
    """How many pages there are, in words."""
    count = sum(len(one.tiling.tiles) for one in laid)
    return f"{count} page{'s' if count != 1 else ''}"
