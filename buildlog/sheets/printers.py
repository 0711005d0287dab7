"""The printers of a workshop: what their check rules measured last, for this build and for all others."""

from __future__ import annotations

from django.db import transaction

from buildlog.builds.actions import Saved, change_build
from buildlog.builds.models import Build
from buildlog.sheets.models import PrinterReading
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain
from calculators.planning.printers import PrinterReadings, readings_of, with_readings
from calculators.quantities.errors import InputError

_LOOKED_AT = 200
_KEPT = 20
"""How many readings of one printer are kept."""


def known_printers(workshop: Workshop, build: plain.Build) -> list[PrinterReadings]:
    """The printers that are known, each with its last readings: the build's own first. One query."""
    found: dict[str, PrinterReadings] = {}
    standing = PrinterReading.objects.filter(workshop=workshop, change__undone_by__isnull=True)
    for row in standing.order_by("-id")[:_LOOKED_AT]:
        if row.printer not in found:
            found[row.printer] = PrinterReadings(
                row.printer,
                row.along_mm.normalize(),
                row.across_mm.normalize(),
                row.along_drawn_mm.normalize(),
                row.across_drawn_mm.normalize(),
                row.on,
            )
    own = readings_of(build.context)
    if own is None:
        return list(found.values())
    later = found.pop(own.printer, None)
    if later is not None and later.on and (own.on is None or later.on > own.on):
        own = later
    return [own, *found.values()]


def printer_named(name: str, workshop: Workshop | None, build: plain.Build) -> PrinterReadings:
    """The last readings of the printer with this name.

    Raises InputError with the names that are known where there is none; without a workshop (a build that is
    read from a file) the build's own are known alone.
    """
    own = readings_of(build.context)
    known = known_printers(workshop, build) if workshop else [own] if own else []
    found = next((one for one in known if one.printer.casefold() == name.casefold()), None)
    if found is None:
        names = tuple(one.printer for one in known if one.printer)
        told = f"the printers are {', '.join(names)}" if names else "no printer has been read yet"
        raise InputError.of(
            f"Nothing is known of a printer called “{name[:60]}”; {told}. Print a template without it,"
            " measure its check rules and type the readings in on the template's page.",
            field="printer",
            choices=names,
        )
    return found


def rules_drawn(readings: PrinterReadings | None) -> dict[str, str]:
    """What is asked of a template so that it is drawn for these readings; for none, at its true length."""
    if readings is None:
        return {"along": "100", "across": "100"}
    return {
        "printer": readings.printer,
        "along": f"{readings.along_next_mm:f}",
        "across": f"{readings.across_next_mm:f}",
    }


@transaction.atomic
def keep_readings(row: Build, workshop: Workshop, person: Person, readings: PrinterReadings) -> Saved:
    """Keep what the check rules measured: in the build, where it can be undone, and for the others."""
    one = readings
    says = f"Check rules of {one.printer}: {one.along_mm:f} along, {one.across_mm:f} across"
    saved = change_build(row, person, lambda build: with_readings(build, one), says)
    if saved.change is not None and one.on is not None:
        PrinterReading.objects.create(
            workshop=workshop, printer=one.printer, along_mm=one.along_mm, across_mm=one.across_mm,
            along_drawn_mm=one.along_drawn_mm, across_drawn_mm=one.across_drawn_mm, on=one.on, person=person,
            change=saved.change,
        )  # fmt: skip
        of_it = PrinterReading.objects.filter(workshop=workshop, printer=one.printer).order_by("-id")
        PrinterReading.objects.filter(pk__in=list(of_it.values_list("pk", flat=True)[_KEPT:])).delete()
    return saved
