"""Readings of a printer's check rules, and the corrections that follow."""

from __future__ import annotations

from datetime import date
from decimal import Decimal

import pytest

from calculators.drawing.template_paper import Stretch
from calculators.planning.model import Build, Context
from calculators.planning.printers import (
    PrinterReadings,
    correction_words,
    next_rule,
    read_rule,
    readings_of,
    stretch_for,
    with_readings,
)
from calculators.quantities.errors import InputError


@pytest.mark.parametrize(
    ("typed", "measures"),
    [
        # 4 in = 101.6 mm (NIST SP 811): 3 15/16 in on the 4 in rule is 3.9375/4 of 100 mm.
        ("99.2", "99.2"), ("99,2 mm", "99.2"), (" 100 ", "100"), ("10.02 cm", "100.2"), ("3 15/16 in", "98.438"),
        ('3.97"', "99.25"), ("4 in", "100"), ("101.2mm", "101.2"),
    ],
)  # fmt: skip
def test_readings_as_people_write_them(typed: str, measures: str) -> None:
    assert read_rule(typed, "along") == Decimal(measures)


@pytest.mark.parametrize("typed", ["50 mm", "0", "1000", "2 in", "-100", "91.9", "108.1"])
def test_absurd_readings_are_refused_with_what_would_be_accepted(typed: str) -> None:
    with pytest.raises(InputError) as error:
        read_rule(typed, "along")
    assert error.value.faults[0].field == "along"


def test_the_sentence_asks_about_the_print() -> None:
    with pytest.raises(InputError) as error:
        read_rule("50 mm", "along")
    assert str(error.value) == (
        "'50 mm' is no reading of the 100 mm rule: it lies between 92 mm and 108 mm. Is it the right rule, and "
        "was it printed at 100 %, not to fit the page?"
    )


@pytest.mark.parametrize("typed", ["", "  ", "about 99", "1e400", "nan", "99.2 kg", "9" * 200])
def test_what_is_no_length_is_refused(typed: str) -> None:
    with pytest.raises(InputError):
        read_rule(typed, "across")


def test_a_corrected_print_measures_a_hundred() -> None:
    """Played through: a printer that shrinks by its own factor, corrected once, then read again."""
    for shrinks in ("0.992", "1.013", "0.9475", "1"):
        factor = Decimal(shrinks)
        drawn = next_rule(Decimal(100), 100 * factor)
        measures = drawn * factor
        assert measures == pytest.approx(Decimal(100), abs=Decimal("0.001"))
        assert next_rule(drawn, Decimal(100)) == drawn  # read as true, it stays as it is


def test_each_way_is_corrected_by_itself() -> None:
    read = PrinterReadings("office", Decimal("99.2"), Decimal("100.5"))
    assert read.stretch.along == pytest.approx(100 / 99.2, abs=1e-5)
    assert read.stretch.across == pytest.approx(100 / 100.5, abs=1e-5)


def test_readings_are_kept_in_the_build_and_taken_out_again() -> None:
    read = PrinterReadings(
        "office", Decimal("99.2"), Decimal("99.9"), Decimal("100.4"), Decimal(100), date(2025, 6, 6)
    )
    build = with_readings(Build("B1", "Box"), read)
    assert readings_of(build.context) == read
    assert build.context.printer_along_drawn_mm == Decimal("100.4")
    assert with_readings(build, None) == Build("B1", "Box")


def test_readings_that_no_correction_follows_from_are_none() -> None:
    assert readings_of(Context(printer_along_mm=Decimal(100))) is None
    assert readings_of(Context(printer_along_mm=Decimal(50), printer_across_mm=Decimal(100))) is None
    assert readings_of(Context(printer_along_mm=Decimal(0), printer_across_mm=Decimal(0))) is None
    wild = Context(
        printer_along_mm=Decimal(100), printer_across_mm=Decimal(100), printer_along_drawn_mm=Decimal(900)
    )
    assert readings_of(wild) is None


def test_a_correction_beyond_a_printers_is_refused() -> None:
    with pytest.raises(InputError) as error:
        stretch_for("office", Decimal(130), Decimal(100))
    assert str(error.value) == (
        "A rule of 100 mm drawn 130 mm along the paper corrects no printer: it lies between 90 and 112 mm."
    )


@pytest.mark.parametrize(
    ("stretch", "words"),
    [
        (Stretch(1.008, 1.0, "the office laser"), "Corrected for the office laser: 0.8 % longer along the paper."),
        (Stretch(1.008, 0.997), "Corrected for the printer of the last readings: 0.8 % longer along and 0.3 % shorter across the paper."),
        (Stretch(), ""),
    ],
)  # fmt: skip
def test_the_correction_in_words(stretch: Stretch, words: str) -> None:
    assert correction_words(stretch) == words
