"""Printers and what their check rules measured: reading the readings, and the correction that follows.

A template's check rule of 100 mm is drawn 100 mm long, or a little else once the printer is corrected for.
What it measures on paper tells how much longer or shorter the next one is to be drawn, each way by itself.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from datetime import date
from decimal import Decimal

from calculators.drawing.template_paper import LEAST_FACTOR, MOST_FACTOR, Stretch
from calculators.planning.model import Build, Context
from calculators.quantities import read_length
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

LEAST_READING_MM, MOST_READING_MM = Decimal(92), Decimal(108)
"""Nothing that prints at 100 % is further off; fitting A4 to Letter takes 6 % (from memory)."""

_HUNDRED = Decimal(100)
_DIGITS = Decimal("0.001")
_INCH = re.compile(r"(in|inch|inches|\"|″)\s*$")
LONGEST_NAME = 60


@dataclass(frozen=True, slots=True)
class PrinterReadings:
    """What the two check rules of a printer measured, how long they were drawn, and when [mm]."""

    printer: str
    along_mm: Decimal
    across_mm: Decimal
    along_drawn_mm: Decimal = _HUNDRED
    across_drawn_mm: Decimal = _HUNDRED
    on: date | None = None

    @property
    def along_next_mm(self) -> Decimal:
        """How long the next rule along the paper is drawn."""
        return next_rule(self.along_drawn_mm, self.along_mm)

    @property
    def across_next_mm(self) -> Decimal:
        """How long the next rule across the paper is drawn."""
        return next_rule(self.across_drawn_mm, self.across_mm)

    @property
    def stretch(self) -> Stretch:
        """The correction for the next print."""
        return stretch_for(self.printer, self.along_next_mm, self.across_next_mm)


def read_rule(text: str, field: str) -> Decimal:
    """Read what a check rule measures, as a person writes it.

    A bare number is millimetres on the rule of 100 mm; in inches it is the rule of 4 in that was measured,
    whichever unit the build has.

    Args:
        text: such as 99.2, 99,2 mm or 3 15/16 in.
        field: the name of the input, for the sentence.

    Returns:
        What the rule of 100 mm measures [mm].

    Raises:
        InputError: for what is no length, and for what no printer does at 100 %.

    Source: this project; 4 in are 101.6 mm (NIST SP 811).

    Example:
        >>> read_rule("99,2 mm", "along"), read_rule("3 15/16 in", "along")
        (Decimal('99.2'), Decimal('98.438'))
    """
    said = " ".join(text.split())[:60]
    if not said:
        raise InputError.of("Write what the 100 mm rule measures, such as 99.2.", field=field)
    is_inch = bool(_INCH.search(said))
    try:
        length = read_length(said, unit="mm")
    except InputError as error:
        raise InputError.of(error.faults[0].says, field=field) from None
    read = Decimal(length.ticks).scaleb(-7)
    read = (read / Decimal("1.016") if is_inch else read).quantize(_DIGITS).normalize()
    if not LEAST_READING_MM <= read <= MOST_READING_MM:
        rule = "4 in" if is_inch else "100 mm"
        least, most = ("3.68 in", "4.32 in") if is_inch else ("92 mm", "108 mm")
        raise InputError.of(
            f"{quoted(said)} is no reading of the {rule} rule: it lies between {least} and {most}. Is it the"
            " right rule, and was it printed at 100 %, not to fit the page?",
            field=field,
        )
    return read


def next_rule(drawn_mm: Decimal, measured_mm: Decimal) -> Decimal:
    """Say how long the next rule is to be drawn so that it measures 100 mm.

    Args:
        drawn_mm: [mm] how long the last one was drawn, above 0.
        measured_mm: [mm] what it measured, above 0.

    Returns:
        100 x drawn / measured [mm], to a micrometre.

    Source: proportion.

    Example:
        >>> next_rule(Decimal(100), Decimal("99.2")), next_rule(Decimal("100.806"), Decimal(100))
        (Decimal('100.806'), Decimal('100.806'))
    """
    return (_HUNDRED * drawn_mm / measured_mm).quantize(_DIGITS).normalize()


def stretch_for(printer: str, along_mm: Decimal, across_mm: Decimal) -> Stretch:
    """Give the correction that draws rules of 100 mm so long.

    Args:
        printer: whose it is.
        along_mm: [mm] how long a rule of 100 mm is drawn along the paper.
        across_mm: [mm] the same across.

    Returns:
        The correction.

    Raises:
        InputError: for one that no printer needs.

    Source: this project.

    Example:
        >>> stretch_for("office", Decimal("100.8"), Decimal(100))
        Stretch(along=1.008, across=1.0, printer='office')
    """
    found = Stretch(float(along_mm / 100), float(across_mm / 100), printer)
    for way, name in ((found.along, "along"), (found.across, "across")):
        if not LEAST_FACTOR <= way <= MOST_FACTOR:
            raise InputError.of(
                f"A rule of 100 mm drawn {way * 100:.6g} mm {name} the paper corrects no printer: it lies "
                f"between {LEAST_FACTOR * 100:g} and {MOST_FACTOR * 100:g} mm.",
                field=name,
            )
    return found


def readings_of(context: Context) -> PrinterReadings | None:
    """Give the last readings that a build keeps.

    Args:
        context: the build's context.

    Returns:
        The readings; None where one of the two is missing or is none that can be corrected for.

    Source: this project.

    Example:
        >>> readings_of(Context()) is None
        True
    """
    along, across = context.printer_along_mm, context.printer_across_mm
    if along is None or across is None:
        return None
    found = PrinterReadings(
        context.printer,
        along,
        across,
        context.printer_along_drawn_mm or _HUNDRED,
        context.printer_across_drawn_mm or _HUNDRED,
        context.printer_on,
    )
    if not all(LEAST_READING_MM <= one <= MOST_READING_MM for one in (along, across)):
        return None
    try:
        _ = found.stretch
    except InputError:
        return None
    return found


def with_readings(build: Build, readings: PrinterReadings | None) -> Build:
    """Keep readings in a build, in the place of those of before.

    Args:
        build: the build.
        readings: the readings; None to forget those that it keeps.

    Returns:
        The build with them.

    Source: this project.

    Example:
        >>> read = PrinterReadings("office", Decimal("99.2"), Decimal(100))
        >>> readings_of(with_readings(Build("B1", "Box"), read).context).stretch.along
        1.00806
    """
    one = readings
    context = replace(
        build.context,
        printer=one.printer if one else "",
        printer_along_mm=one.along_mm if one else None,
        printer_across_mm=one.across_mm if one else None,
        printer_along_drawn_mm=one.along_drawn_mm if one else None,
        printer_across_drawn_mm=one.across_drawn_mm if one else None,
        printer_on=one.on if one else None,
    )
    return replace(build, context=context)


def correction_words(stretch: Stretch) -> str:
    """Say a correction as it stands on the sheet.

    Args:
        stretch: the correction.

    Returns:
        The sentence; nothing where everything is drawn at its true length.

    Source: this project.

    Example:
        >>> correction_words(Stretch(1.008, 1.0, "the office laser"))
        'Corrected for the office laser: 0.8 % longer along the paper.'
    """
    ways = []
    for way, name in ((stretch.along, "along"), (stretch.across, "across")):
        percent = round((way - 1) * 100, 2)
        if percent:
            ways.append(f"{abs(percent):g} % {'longer' if percent > 0 else 'shorter'} {name}")
    if not ways:
        return ""
    who = stretch.printer or "the printer of the last readings"
    return f"Corrected for {who}: {' and '.join(ways)} the paper."
