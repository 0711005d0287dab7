"""Quantities other than lengths: forces, torques, masses, angles, pressures, as people write them.

The units are a closed list; pint works out the factors between them and sees nothing that a person typed.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import cache
from typing import Any

from calculators.quantities.errors import InputError
from calculators.quantities.marks import LONGEST, plain, quoted
from calculators.quantities.numbers import NumberFault, decimal_text, read_number
from calculators.quantities.reading import MM_PER_UNIT, read_length


@dataclass(frozen=True, slots=True)
class Unit:
    """A unit: its canonical writing, what it measures, pint's expression and other ways to write it."""

    name: str
    measures: str
    expression: str
    aliases: tuple[str, ...] = ()


def _units(measures: str, *rows: str) -> tuple[Unit, ...]:
    """Make units from rows of `name = pint expression = alias, alias`."""
    made = []
    for row in rows:
        name, expression, *rest = (part.strip() for part in row.split("="))
        aliases = tuple(alias.strip() for alias in rest[0].split(",")) if rest else ()
        made.append(Unit(name, measures, expression, aliases))
    return tuple(made)


UNITS: tuple[Unit, ...] = (
    *_units(
        "length",
        "mm = millimeter",
        "cm = centimeter",
        "m = meter",
        "um = micrometer",
        "in = inch",
        "ft = foot",
        "yd = yard",
        "thou = 0.001 * inch",
    ),
    *_units(
        "area",
        "mm2 = millimeter**2 = mm^2, sq mm",
        "cm2 = centimeter**2 = cm^2, sq cm",
        "m2 = meter**2 = m^2, sq m",
        "in2 = inch**2 = in^2, sq in",
        "ft2 = foot**2 = ft^2, sq ft",
    ),
    *_units(
        "volume",
        "mm3 = millimeter**3 = mm^3",
        "cm3 = centimeter**3 = cm^3, cc",
        "l = liter = litre, litres, liter, liters",
        "m3 = meter**3 = m^3",
        "in3 = inch**3 = in^3, cu in",
        "ft3 = foot**3 = ft^3, cu ft",
        "board ft = 144 * inch**3 = board feet, board foot, bd ft",
    ),
    *_units(
        "second moment of area",
        "mm4 = millimeter**4 = mm^4",
        "cm4 = centimeter**4 = cm^4",
        "in4 = inch**4 = in^4",
    ),
    *_units(
        "force",
        "N = newton = newtons, newton",
        "kN = kilonewton",
        "lbf = pound_force = pounds force, pound force",
        "ozf = ounce_force = ounces force, ounce force",
        "kgf = kilogram_force = kilograms force, kp",
    ),
    *_units(
        "torque",
        "N m = newton*meter = Nm, N.m, N-m, newton metres, newton metre",
        "N mm = newton*millimeter = Nmm, N.mm, N-mm",
        "N cm = newton*centimeter = Ncm, N.cm, N-cm",
        "lbf in = pound_force*inch = in lbf, in-lbf, lbf.in, lbf-in, in lb, in-lb, lb in, lb-in, inch pounds",
        "lbf ft = pound_force*foot = ft lbf, ft-lbf, lbf.ft, lbf-ft, ft lb, ft-lb, lb ft, lb-ft, foot pounds",
        "ozf in = ounce_force*inch = in ozf, oz in, oz-in, in oz",
        "kgf cm = kilogram_force*centimeter = kgf.cm, kgf-cm, kg cm",
        "kgf m = kilogram_force*meter = kgf.m, kgf-m",
    ),
    *_units(
        "mass",
        "kg = kilogram = kilograms, kilogram, kilo, kilos",
        "g = gram = grams, gram",
        "t = metric_ton = tonne, tonnes",
        "lb = pound = lbs, pound, pounds",
        "oz = ounce = ounces, ounce",
    ),
    *_units(
        "angle",
        "deg = degree = degrees, degree, °",
        "rad = radian = radians, radian",
        "arcmin = arcminute",
        "turn = turn = turns, rev",
    ),
    *_units(
        "pressure or stress",
        "MPa = megapascal = N/mm2, N/mm^2",
        "GPa = gigapascal = kN/mm2",
        "kPa = kilopascal",
        "Pa = pascal = N/m2",
        "bar = bar",
        "psi = pound_force/inch**2 = lbf/in2, lb/in2",
        "ksi = 1000*pound_force/inch**2",
    ),
    *_units(
        "spring rate",
        "N/mm = newton/millimeter",
        "N/m = newton/meter",
        "lbf/in = pound_force/inch",
        "kgf/mm = kilogram_force/millimeter",
    ),
    *_units(
        "rotational stiffness",
        "N m/deg = newton*meter/degree = Nm/deg",
        "N m/rad = newton*meter/radian = Nm/rad",
        "N mm/deg = newton*millimeter/degree = Nmm/deg",
        "lbf in/deg = pound_force*inch/degree",
    ),
    *_units(
        "mass per length",
        "kg/m = kilogram/meter",
        "g/m = gram/meter",
        "lb/in = pound/inch",
        "lb/ft = pound/foot",
    ),
    *_units(
        "density",
        "kg/m3 = kilogram/meter**3 = kg/m^3",
        "g/cm3 = gram/centimeter**3 = g/cm^3, g/cc",
        "lb/ft3 = pound/foot**3 = lb/ft^3",
        "lb/in3 = pound/inch**3 = lb/in^3",
    ),
    *_units("threads per length", "1/in = 1/inch = tpi, per inch, threads per inch", "1/mm = 1/millimeter"),
    *_units(
        "time",
        "s = second = sec, seconds, second",
        "min = minute = minutes, minute",
        "h = hour = hours, hour",
    ),
    *_units("frequency", "Hz = hertz = hertz", "kHz = kilohertz", "rpm = 1/minute = 1/min, rev/min"),
    *_units("share", "% = percent = percent, per cent", "1 = dimensionless"),
    *_units("flow", "m3/s = meter**3/second", "l/min = liter/minute", "ft3/s = foot**3/second"),
    *_units("momentum", "kg m/s = kilogram*meter/second", "lb ft/s = pound*foot/second"),
)
"""Every unit that is read or shown, by what it measures."""


def _spelling(text: str) -> str:
    """Bring a unit to one spelling: raised figures flat, no spaces about signs, points for stars."""
    text = plain(text).replace("²", "2").replace("³", "3").replace("⁴", "4").replace("º", "°")
    text = re.sub(r"\blbs\b", "lb", text)
    return re.sub(r" ?([-./^*]) ?", r"\1", text).strip().rstrip(".").replace("*", ".")


@cache
def _spellings() -> dict[str, Unit]:
    """Every spelling of every unit; lower case too where no other unit is spelt so."""
    exact = {_spelling(word): unit for unit in UNITS for word in (unit.name, *unit.aliases)}
    loose: dict[str, Unit] = {}
    for word, unit in exact.items():
        loose.setdefault(word.lower(), unit)
    for word in MM_PER_UNIT:
        loose.setdefault(word, exact[_length_name(word)])
    return {**loose, **exact}


def _length_name(word: str) -> str:
    """The canonical name of a length unit that `reading` knows by another word."""
    size = MM_PER_UNIT[word]
    return next(
        unit.name for unit in UNITS if unit.measures == "length" and MM_PER_UNIT.get(unit.name) == size
    )


def find_unit(text: str) -> Unit | None:
    """Find a unit by any of its spellings.

    Args:
        text: the unit as written.

    Returns:
        The unit, or None when there is no such.

    Source: this project.

    Example:
        >>> find_unit("N.m").name, find_unit("in-lb").name, find_unit("furlong")
        ('N m', 'lbf in', None)
    """
    if len(text) > LONGEST:
        return None
    spelt = _spelling(text)
    return _spellings().get(spelt) or _spellings().get(spelt.lower())


def named_unit(name: str) -> Unit:
    """The unit with this canonical name.

    Args:
        name: the canonical writing, from the code.

    Returns:
        The unit.

    Raises:
        ValueError: when there is no such unit (a programmer's mistake).

    Source: this project.

    Example:
        >>> named_unit("N m").measures
        'torque'
    """
    for unit in UNITS:
        if unit.name == name:
            return unit
    raise ValueError(f"there is no unit {name!r}")


def units_of(measures: str) -> tuple[str, ...]:
    """The units of one kind of quantity, by their canonical writing.

    Args:
        measures: the kind, as `Unit.measures` says it.

    Returns:
        The names, in the order in which they are offered.

    Source: this project.

    Example:
        >>> units_of("spring rate")
        ('N/mm', 'N/m', 'lbf/in', 'kgf/mm')
    """
    return tuple(unit.name for unit in UNITS if unit.measures == measures)


@cache
def _registry() -> Any:
    """The one pint registry; it takes tenths of a second to build, so it waits until it is needed."""
    import pint

    return pint.UnitRegistry(cache_folder=None)


@cache
def factor(source: str, target: str) -> float:
    """The factor from one unit to another of the same kind.

    Args:
        source: the canonical name of the unit to convert from.
        target: the canonical name of the unit to convert to.

    Returns:
        How many of `target` are in one of `source` [1].

    Raises:
        ValueError: when the units do not exist or measure different things (a programmer's mistake).

    Source: the definitions of pint's registry, which follow NIST SP 811 and CODATA (from memory).

    Example:
        >>> factor("in", "mm")
        25.4
        >>> round(factor("lbf ft", "N m"), 6)
        1.355818
    """
    first, second = named_unit(source), named_unit(target)
    if first.measures != second.measures:
        raise ValueError(f"{source} measures {first.measures}, {target} {second.measures}")
    if first == second:
        return 1.0
    if first.measures == "length":
        return float(MM_PER_UNIT[source] / MM_PER_UNIT[target])
    registry = _registry()
    one = registry.Quantity(registry.parse_expression(first.expression))
    ratio = one / registry.Quantity(registry.parse_expression(second.expression))
    return float(ratio.to_base_units().magnitude)


_QUANTITY = re.compile(
    r"(?P<number>[-+]? ?(?:[\d.,]+[eE][-+]?\d{1,2}(?![\d.,])|[\d.,/][\d.,/ ]*(?:-\d+/\d+)?))"
    r" ?(?P<unit>[^\d\s][^\n]*|1/[a-z]+)?"
)
_SEXAGESIMAL = re.compile(
    r"(?P<sign>[-+]?) ?(?P<deg>\d+) ?(?:°|deg) ?(?P<min>\d{1,2}) ?'(?: ?(?P<sec>\d{1,2}) ?\")?"
)


def read_quantity(
    text: str,
    unit: str,
    *,
    field: str = "value",
    minimum: float | None = None,
    maximum: float | None = None,
) -> float:
    """Read a quantity as a person writes it: `6 N.m`, `53 in lbf`, `20 N`, `2 deg`, `12° 30'`, `75 %`.

    Args:
        text: the writing, at most 64 characters.
        unit: the canonical name of the unit of the answer, and of a bare number.
        field: the name of the input, for the faults.
        minimum: [unit] the least value allowed.
        maximum: [unit] the greatest value allowed.

    Returns:
        The value [unit], finite.

    Raises:
        InputError: when it cannot be read, has a unit of another kind, or is outside the limits.

    Source: this project.

    Example:
        >>> read_quantity("6 Nm", "N m"), round(read_quantity("53 in lbf", "N m"), 3)
        (6.0, 5.988)
        >>> read_quantity("12° 30'", "deg")
        12.5
    """
    wanted = named_unit(unit)
    if len(text) > LONGEST:
        says = f"{quoted(text)} is not {_a(wanted)} in at most {LONGEST} characters; {_write(wanted)}."
        raise InputError.of(says, field=field)
    read = _length if wanted.measures == "length" else _quantity
    value = read(text, wanted, field)
    _check_limits(value, text, wanted, field, minimum, maximum)
    return value


def _length(text: str, wanted: Unit, field: str) -> float:
    """Read a length in any unit; a bare number is given the wanted one first."""
    bare = re.fullmatch(r"[-+]?[\d.,/ -]+", plain(text))
    line = f"{text} {wanted.name}" if bare and wanted.name not in ("mm", "in") else text
    length = read_length(
        line[:LONGEST], unit="in" if wanted.name == "in" else "mm", field=field, minimum_mm=-1e6
    )
    return float(Fraction(length.ticks, 10_000_000) / MM_PER_UNIT[wanted.name])


def _quantity(text: str, wanted: Unit, field: str) -> float:
    line = plain(text)
    if not line:
        raise InputError.of(f"{_a(wanted).capitalize()} is missing; {_write(wanted)}.", field=field)
    if wanted.measures == "angle" and (found := _SEXAGESIMAL.fullmatch(line.replace("º", "°"))):
        minutes, seconds = int(found["min"]), int(found["sec"] or 0)
        if minutes > 59 or seconds > 59:
            raise InputError.of(
                f"{quoted(text)} has 60 minutes or seconds or more; {_write(wanted)}.", field=field
            )
        degrees = int(found["deg"]) + Fraction(minutes, 60) + Fraction(seconds, 3600)
        return _scaled(-degrees if found["sign"] == "-" else degrees, "deg", wanted, text, field)
    found = _QUANTITY.fullmatch(line)
    if not found or not line.replace("°", "").replace("º", "").translate(_FLAT).isascii():
        raise InputError.of(f"{quoted(text)} is not {_a(wanted)}; {_write(wanted)}.", field=field)
    name = found["unit"]
    given = find_unit(name) if name else wanted
    if given is None:
        says = f"{quoted(text)} has an unknown unit, {quoted(name)}; {_write(wanted)}."
        raise InputError.of(says, field=field, choices=units_of(wanted.measures))
    if given.measures != wanted.measures:
        says = f"{quoted(text)} is {_a(given)}, not {_a(wanted)}; {_write(wanted)}."
        raise InputError.of(says, field=field, choices=units_of(wanted.measures))
    return _scaled(_exact(found["number"], given, text, wanted, field), given.name, wanted, text, field)


_FLAT = str.maketrans("²³⁴", "234")


def _exact(number: str, given: Unit, text: str, wanted: Unit, field: str) -> Fraction:
    """Read the number; here (unlike in a length) an exponent of two figures is allowed: `200e9 Pa`."""
    head, mark, exponent = number.lower().partition("e")
    try:
        return read_number(head).value * (Fraction(10) ** int(exponent) if mark else 1)
    except NumberFault as fault:
        choices = tuple(f"{choice} {given.name}" for choice in fault.choices)
        remedy = f"write {' or '.join(choices)}" if choices else _write(wanted)
        raise InputError.of(f"{quoted(text)} {fault.says}; {remedy}.", field=field, choices=choices) from None


def _scaled(value: Fraction, given: str, wanted: Unit, text: str, field: str) -> float:
    if abs(value) > 10**60:
        raise InputError.of(
            f"{quoted(text)} is larger than anything that is worked with; {_write(wanted)}.", field=field
        )
    # Dividing by the inverse keeps whole factors exact: 2500 mm2 is 25 cm2, not 25.000000000000004.
    up, down = factor(given, wanted.name), factor(wanted.name, given)
    return float(value) * up if up >= 1 else float(value) / down


def _check_limits(
    value: float, text: str, wanted: Unit, field: str, minimum: float | None, maximum: float | None
) -> None:
    for limit, beyond, side, bound in (
        (minimum, minimum is not None and value < minimum, "below the least", "least"),
        (maximum, maximum is not None and value > maximum, "above the most", "most"),
    ):
        if limit is not None and beyond:
            allowed = f"{decimal_text(Fraction(limit))} {wanted.name}".removesuffix(" 1")
            says = f"{quoted(text)} is {side} allowed here; write at {bound} {allowed}."
            raise InputError.of(says, field=field, value=value, limit=limit, unit=wanted.name)


def _a(unit: Unit) -> str:
    """What the unit measures, with its article: `an angle`."""
    return f"{'an' if unit.measures[0] in 'aeiou' else 'a'} {unit.measures}"


def _write(wanted: Unit) -> str:
    """The end of a refusal: how this kind of quantity is written."""
    names = units_of(wanted.measures)
    if wanted.measures == "share":
        return "write a number such as 75 or 75 %" if wanted.name == "%" else "write a number such as 0.5"
    return f"write a number with one of {', '.join(names)}"
