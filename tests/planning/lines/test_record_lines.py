"""Bends, readings of sizes and moisture readings on one line each, read and written back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

import pytest
from hypothesis import HealthCheck, given, note, settings
from hypothesis import strategies as st

from calculators.planning.buildfile import declaration as declared
from calculators.planning.lines import (
    read_bend_line,
    read_moisture_line,
    read_reading_line,
    write_bend_line,
    write_moisture_line,
    write_reading_line,
)
from calculators.planning.model import Bend, Moisture, Reading
from calculators.quantities import Length, read_length
from calculators.quantities.errors import InputError
from tests.planning.strategies import record_of

MANY = settings(max_examples=120, deadline=None, suppress_health_check=list(HealthCheck))
UNITS = st.sampled_from(["mm", "in"])
NOTES = st.sampled_from(["", "mind the grain", "twice; with care", "a # in it"])


def mm(text: str) -> Length:
    return read_length(text, unit="mm")


@pytest.mark.parametrize(
    ("line", "means"),
    [
        ("at 25 across, 90 deg, radius 2", Bend("b1", mm("25"), "across", Decimal(90), mm("2"))),
        ("at 1/2 in along", Bend("b1", mm("1/2 in"), "along")),
        (
            "b7: at 12, 45°, r 1.5, rolled along, annealed # score it first",
            Bend("b7", mm("12"), "across", Decimal(45), mm("1.5"), "along", True, "score it first"),
        ),
    ],
)
def test_a_line_makes_a_bend(line: str, means: Bend) -> None:
    assert read_bend_line(line, "mm") == means


@pytest.mark.parametrize(
    ("line", "means"),
    [
        (
            "P10 length 165.2 ± 0.8 front photograph",
            Reading("r1", "P10 length", mm("165.2"), mm("0.8"), "front photograph", "photograph"),
        ),
        (
            "P03 hole h1 depth 5/16 in +/- 0.1, old plate, by caliper, 2024-03-31 # worn",
            Reading(
                "r1", "P03 hole h1 depth", mm("5/16 in"), mm("0.1"), "old plate", "caliper", date(2024, 3, 31), "worn"
            ),
        ),
        ("r9: P2 width 20", Reading("r9", "P2 width", mm("20"))),
    ],
)  # fmt: skip
def test_a_line_makes_a_reading(line: str, means: Reading) -> None:
    assert read_reading_line(line, "mm") == means


def test_a_line_makes_a_moisture_reading() -> None:
    assert read_moisture_line("2025-03-01 9,5 % P01 and P02", "mm", None) == Moisture(
        "m1", date(2025, 3, 1), Decimal("9.5"), ("P01", "P02")
    )
    assert read_moisture_line("11 %", "mm", date(2025, 6, 6), ("m1", "m2")) == Moisture(
        "m3", date(2025, 6, 6), Decimal(11)
    )


@pytest.mark.parametrize(
    ("read", "says"),
    [
        (lambda: read_bend_line("90 deg", "mm"), "does not say where the bend lies"),
        (lambda: read_bend_line("at 25 sideways", "mm"), "'sideways' is not understood of a bend"),
        (lambda: read_bend_line("at 25, 300 deg", "mm"), "Angle deg: "),
        (lambda: read_reading_line("P10 length", "mm"), "gives no size"),
        (lambda: read_reading_line("length 12", "mm"), "does not begin with a size of the build"),
        (lambda: read_reading_line("P1 length 12 2024-02-31", "mm"), "There is no day 2024-02-31"),
        (lambda: read_moisture_line("9 %", "mm", None), "does not say when it was measured"),
        (lambda: read_moisture_line("2025-03-01 P01", "mm", None), "gives no percentage"),
        (lambda: read_moisture_line("2025-03-01 900 %", "mm", None), "Percent: "),
    ],
)
def test_what_cannot_be_read_is_told(read: object, says: str) -> None:
    with pytest.raises(InputError) as caught:
        read()  # type: ignore[operator]
    assert says in str(caught.value)


@MANY
@given(record_of(declared.BEND_RECORD), UNITS, NOTES)
def test_a_bend_reads_back(bend: Bend, unit: str, said: str) -> None:
    bend = replace(
        bend, note=said, at=Length(abs(bend.at.ticks)), radius=bend.radius and Length(bend.radius.ticks)
    )
    line = write_bend_line(bend, unit)  # type: ignore[arg-type]
    note(line)
    found = read_bend_line(line, unit)  # type: ignore[arg-type]
    assert found.at.ticks == bend.at.ticks
    assert (found.radius and found.radius.ticks) == (bend.radius and bend.radius.ticks)
    assert replace(found, at=bend.at, radius=bend.radius) == bend


EXEMPLARS = st.sampled_from(
    [
        "",
        "front photograph",
        "old plate, 2nd",
        "photo and drawing",
        "by caliper",
        "2024-03-31",
        "± 3",
        "“a”",
        "12",
    ]
)


@MANY
@given(record_of(declared.READING_RECORD), UNITS, NOTES, EXEMPLARS)
def test_a_reading_reads_back(reading: Reading, unit: str, said: str, exemplar: str) -> None:
    reading = replace(reading, of="P10 hole h1 depth", note=said, exemplar=exemplar)
    line = write_reading_line(reading, unit)  # type: ignore[arg-type]
    note(line)
    found = read_reading_line(line, unit)  # type: ignore[arg-type]
    assert found.value.ticks == reading.value.ticks
    assert (found.uncertainty and found.uncertainty.ticks) == (
        reading.uncertainty and reading.uncertainty.ticks
    )
    assert replace(found, value=reading.value, uncertainty=reading.uncertainty) == reading


@MANY
@given(record_of(declared.MOISTURE_RECORD), NOTES)
def test_a_moisture_reading_reads_back(one: Moisture, said: str) -> None:
    one = replace(one, note=said, parts=("P01", "P02.3")[: len(one.parts)])
    assert read_moisture_line(write_moisture_line(one), "mm", None) == one
