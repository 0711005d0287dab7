"""The units that are read and shown, by what they measure, with every spelling of each."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache

from calculators.quantities.marks import LONGEST, plain
from calculators.quantities.reading import MM_PER_UNIT


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
        "ml = milliliter = millilitre, millilitres, milliliter, milliliters",
        # A gallon, a pint and a fluid ounce alone could be of either country: each is read with its own.
        "US gal = 231 * inch**3 = US gallon, US gallons",
        "imp gal = 4.54609 * liter = imperial gallon, imperial gallons, UK gal",
        "US pint = 231/8 * inch**3 = US pt, US pints",
        "imp pint = 4.54609/8 * liter = imperial pint, imperial pints, UK pint",
        "US fl oz = 231/128 * inch**3 = US fluid ounce, US fluid ounces",
        "imp fl oz = 4.54609/160 * liter = imperial fluid ounce, imperial fluid ounces, UK fl oz",
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
    *_units("power", "W = watt = watts", "kW = kilowatt", "hp = 550 * foot*pound_force/second = horsepower"),
    *_units("flow", "m3/s = meter**3/second", "l/min = liter/minute", "ft3/s = foot**3/second"),
    *_units(
        "temperature",
        # Degrees are read with their zero (`units.py`); the expressions are those of differences.
        "degC = kelvin = °C, C, deg C, degrees C, Celsius",
        "degF = 5/9 * kelvin = °F, F, deg F, degrees F, Fahrenheit",
    ),
    *_units(
        "speed",
        "m/min = meter/minute = metres per minute",
        "mm/min = millimeter/minute",
        "m/s = meter/second",
        "ft/min = foot/minute = fpm, sfm, feet per minute",
        "in/min = inch/minute = ipm",
    ),
    *_units(
        "coverage",
        "m2/l = meter**2/liter = m^2/l, m2/litre, m2 per litre",
        "ft2/gal = foot**2/gallon = sq ft/gal, ft^2/gal",
    ),
    *_units("mass per area", "g/m2 = gram/meter**2 = g/m^2, gsm", "kg/m2 = kilogram/meter**2 = kg/m^2"),
    *_units(
        "moment of inertia",
        "kg m2 = kilogram*meter**2 = kg m^2, kg.m2",
        "kg mm2 = kilogram*millimeter**2 = kg mm^2, kg.mm2",
        "lb in2 = pound*inch**2 = lb in^2",
    ),
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
