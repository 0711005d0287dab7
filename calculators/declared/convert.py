"""Convert: a quantity in another unit, and a length as the nearest fraction of an inch."""

from __future__ import annotations

from dataclasses import replace
from difflib import get_close_matches
from fractions import Fraction

from calculators.calculation import Calculator, Given, Input, Result, Step, Value
from calculators.calculation.result import number_text
from calculators.calculation.spreads import SPREAD_SIGN, parted, read_spread
from calculators.quantities.display import DENOMINATORS, nearest_fraction
from calculators.quantities.errors import InputError
from calculators.quantities.length import TICKS_PER_MM
from calculators.quantities.marks import plain, quoted
from calculators.quantities.reading import MM_PER_UNIT, read_length
from calculators.quantities.units import UNITS, Unit, factor, find_unit, read_quantity, units_of

_EXACT_INCH = "inch of 25.4 mm exactly, SI conversion table"


def _convert(given: Given) -> Result:
    unit = _unit(given.text("to"))
    written = given.text("value")
    text, spread = parted(written)
    if SPREAD_SIGN.search(written) and not spread:
        says = f"{quoted(written)} has nothing after the ±; write how far it may be off, as in 5 ± 0.1."
        raise InputError.of(says, field="value")
    if not spread:
        return _converted(given, written, unit)
    result = _converted(given, text, unit)
    by = _spread(spread, result, unit)
    per = float(MM_PER_UNIT[unit.name]) if unit.measures == "length" else 1.0
    reach = {"value": by / per, "error": by}
    results = {
        name: replace(one, spread=reach[name], shown="") if name in reach else one
        for name, one in result.results.items()
    }
    working = tuple(replace(step, spread=reach[step.symbol]) for step in result.working)
    return replace(result, results=results, working=working)


def _spread(spread: str, result: Result, unit: Unit) -> float:
    """The spread that was written, in the unit converted to; of a length in mm."""
    value = result.results["value"].value
    assert isinstance(value, float)
    if unit.measures == "length":
        length = Input(name="value", help="its spread", kind="length", unit="mm")
        return read_spread(length, spread, value * float(MM_PER_UNIT[unit.name]))
    share = find_unit("%")
    if share is not None and unit.measures == share.measures:
        # Of a share 3 % is three hundredths of the whole, as elsewhere, not of the share itself.
        return factor("%", unit.name) * read_spread(_quantity("%"), spread, value * factor(unit.name, "%"))
    return read_spread(_quantity(unit.name), spread, value)


def _quantity(unit: str) -> Input:
    return Input(name="value", help="its spread", kind="quantity", unit=unit)


def _converted(given: Given, text: str, unit: Unit) -> Result:
    if unit.measures == "length":
        return _convert_length(given, text, unit)
    own = _written_unit(text, unit)
    # Read in its own unit first, so that the working can show the factor.
    value = read_quantity(text, own.name, field="value")
    converted = read_quantity(text, unit.name, field="value")
    if unit.measures == "temperature" and own != unit:
        return _convert_temperature(value, converted, unit.name)
    by = factor(own.name, unit.name)
    step = Step("value", f"{own.name} x {number_text(by, 9)}", f"{number_text(value)} x {number_text(by, 9)}",
                converted, unit.name, "definitions of the units, NIST SP 811")  # fmt: skip
    return Result(
        {"value": Value(converted, unit.name)}, (step,), (), ("NIST SP 811 (definitions of the units)",)
    )


def _convert_temperature(value: float, converted: float, to: str) -> Result:
    shown = number_text(value)
    formula, numbers = ("(t - 32) / 1.8", f"({shown} - 32) / 1.8")
    if to == "degF":
        formula, numbers = "1.8 t + 32", f"1.8 x {shown} + 32"
    source = "NIST SP 811 (definitions of the units)"
    return Result(
        {"value": Value(converted, to)}, (Step("value", formula, numbers, converted, to),), (), (source,)
    )


def _convert_length(given: Given, text: str, unit: Unit) -> Result:
    length = read_length(text, field="value", minimum_mm=-1e6)
    near = nearest_fraction(length, int(given.text("denominator")))
    mm, per_unit = Fraction(length.ticks, TICKS_PER_MM), MM_PER_UNIT[unit.name]
    working = (
        Step("value", "millimetres / millimetres in the unit",
             f"{number_text(float(mm), 12)} / {number_text(float(per_unit), 9)}",
             float(mm / per_unit), unit.name, _EXACT_INCH),
        Step("error", "fraction - length",
             f"{number_text(float(near.inches * Fraction(254, 10)), 9)} - {number_text(float(mm), 9)}",
             float(near.error_mm), "mm"),
    )  # fmt: skip
    results = {
        "value": Value(float(mm / per_unit), unit.name),
        "fraction": Value(near.text),
        "error": Value(float(near.error_mm), "mm", near.error_text),
    }
    return Result(results, working, (), (_EXACT_INCH,))


def _unit(text: str) -> Unit:
    unit = find_unit(text)
    if unit is None:
        words = {word.lower(): each.name for each in UNITS for word in (each.name, *each.aliases)}
        near = tuple(dict.fromkeys(words[word] for word in get_close_matches(text[:40].lower(), words, n=3)))
        some = ", ".join(near or ("mm", "in", "N", "N m", "kg", "MPa", "deg"))
        raise InputError.of(
            f"{quoted(text)} is not a unit; write one such as {some}.", field="to", choices=near
        )
    return unit


def _written_unit(text: str, target: Unit) -> Unit:
    """The unit that the value is written in; a bare number has none and cannot be converted."""
    line = plain(text[:65])
    tail = line.lstrip("+-0123456789.,/ ")
    unit = find_unit(tail) if tail else None
    if not tail:
        names = units_of(target.measures)
        says = f"{quoted(text)} has no unit; write it with one of {', '.join(names)}."
        raise InputError.of(says, field="value", choices=names)
    return unit if unit is not None and unit.measures == target.measures else target


CONVERT = Calculator(
    name="convert",
    summary="A quantity in another unit; a length also as the nearest fraction of an inch.",
    purpose="Read and convert a size",
    inputs=(
        Input(
            name="value",
            help="what to convert, with its unit and perhaps a ±; a bare number is a length in mm",
            kind="text",
            unit="mm",
            example="31.75 mm, 1 1/4 in, 20 SWG, 4.7 ± 0.05 mm or 53 in lbf",
        ),
        Input(name="to", help="the unit to convert to", kind="text", example="in, mm or N m"),
        Input(
            name="denominator",
            help="the finest fraction of an inch",
            kind="choice",
            choices=tuple(map(str, DENOMINATORS)),
            default="64",
        ),
    ),
    outputs=("value", "fraction", "error"),
    varying=("value",),
    work=_convert,
    sources=(_EXACT_INCH, "NIST SP 811 (definitions of the units)"),
    example={"value": "31.75 mm", "to": "in"},
)
