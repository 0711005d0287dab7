"""Sides E, G and J: what to cut, what to buy, what to print; and the fastener schedule."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.listing import listing
from buildlog.builds.page import row_of, show
from buildlog.builds.printed import PaperRow, out_of_date, paper_rows
from buildlog.builds.queries import plain_of, remembered, worked_of
from calculators.planning.schedules import buying_list, cut_list, fastener_schedule
from calculators.planning.schedules.buying import BuyLine
from calculators.planning.schedules.cutting import CutLine
from calculators.planning.schedules.fasteners import FastenerLine
from calculators.quantities import Length

SHEETS = (
    ("fasteners", "Fastener schedule", "every screw and bolt, its drills and where it goes", "fasteners"),
    ("drilling", "Drilling sheet", "each face with its holes, from the datum", "holes"),
    ("part", "Part drawings", "every part that is made, in its views, with running dimensions", ""),
    ("template", "True-size templates", "each face with holes at 1:1, with check rules", ""),
    ("cut", "Cut sheet", "finished sizes, and the sizes to cut out at", "cut"),
    ("shopping", "Shopping list", "fasteners with spares, bought parts, material", "shopping"),
    ("assembly", "Assembly sheet", "the steps, with what each one closes off", "assembly"),
    ("sections", "Joint sections", "every joint cut through its axis, with its holes by layer", ""),
    ("check", "Check sheet", "every finding with what mends it, and what was let stand and why", "check"),
)
"""The sheets that can be printed: kind, title, what is on it, and the kind of its CSV, if any."""


def _mm(length: Length | None) -> float | None:
    return length.mm if length is not None else None


@require_safe
def cut(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show what is cut from stock."""
    row = row_of(request, number)

    def words(line: CutLine) -> tuple[object, ...]:
        return (line.mark, line.name, line.material, line.stock, line.grain, line.note)

    rows = listing(
        request.GET,
        cut_list(plain_of(row)),
        words=words,
        orders={
            "mark": lambda line: line.mark,
            "name": lambda line: line.name.casefold(),
            "count": lambda line: line.quantity,
            "material": lambda line: (line.material, line.stock),
            "length": lambda line: _mm(line.length),
            "width": lambda line: _mm(line.width or line.diameter),
            "thickness": lambda line: _mm(line.thickness),
        },
    )
    return show(request, row, "cut", "builds/cut.html", {"list": rows})


@require_safe
def buying(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show what is to be bought."""
    row = row_of(request, number)
    worked = worked_of(row)

    def words(line: BuyLine) -> tuple[object, ...]:
        return (line.what, line.kind, line.supplier, line.note, *line.used)

    rows = listing(
        request.GET,
        remembered(worked, "buying list", lambda: buying_list(worked.build, worked)),
        words=words,
        orders={
            "what": lambda line: line.what.casefold(),
            "kind": lambda line: line.kind,
            "needed": lambda line: line.count,
            "from": lambda line: line.supplier.casefold() or None,
        },
    )
    return show(request, row, "buying", "builds/buying.html", {"list": rows})


@require_safe
def fasteners(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the fastener schedule: a line for each designation."""
    row = row_of(request, number)
    worked = worked_of(row)
    schedule = remembered(worked, "fasteners", lambda: fastener_schedule(worked.build, worked))

    def words(line: FastenerLine) -> tuple[object, ...]:
        return (line.designation, line.kind, line.note, *line.suppliers, *(use.joint for use in line.used))

    rows = listing(
        request.GET,
        schedule.lines,
        words=words,
        orders={
            "fastener": lambda line: line.designation.casefold(),
            "kind": lambda line: line.kind,
            "count": lambda line: line.count,
        },
    )
    return show(request, row, "joints", "builds/fasteners.html", {"list": rows, "schedule": schedule})


@require_safe
def paper(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the sheets that can be printed, and what became of those that were."""
    row = row_of(request, number)
    rows = paper_rows(row, worked_of(row))
    printed = listing(
        request.GET,
        rows,
        words=PaperRow.words,
        orders={
            "sheet": lambda one: (one.title, one.component),
            "code": lambda one: one.code,
            "printed": lambda one: one.at,
            "by": lambda one: one.by.casefold(),
            "state": lambda one: (one.is_gone, one.is_current),
        },
    )
    drilled = [one for one in plain_of(row).components if one.size.shape]
    context = {
        "sheets": SHEETS, "parts": drilled, "list": printed, "old": len(out_of_date(rows)),
    }  # fmt: skip
    return show(request, row, "paper", "builds/paper.html", context)
