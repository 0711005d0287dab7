"""A result in both systems of measurement: metric beside inches, forces, torques and stresses too."""

from __future__ import annotations

from collections.abc import Iterator, Mapping, Sequence
from dataclasses import dataclass
from fractions import Fraction

from calculators.calculation.result import Plain, Result, Step, Value, number_text, spread_text
from calculators.calculation.tabulating import TITLES, Table, member_unit, table_of
from calculators.quantities.display import decimal_inches, millimetres, nearest_fraction
from calculators.quantities.length import Length
from calculators.quantities.nomenclature import NOMENCLATURE
from calculators.quantities.units import factor

MOST_LINES = 400
"""No more lines of one result are set out; the rest is counted."""

_PAIRS = (
    ("N", "lbf"),
    ("kN", "lbf"),
    ("N m", "lbf in"),
    ("N mm", "lbf in"),
    ("MPa", "psi"),
    ("GPa", "ksi"),
    ("kg", "lb"),
    ("g", "oz"),
    ("N/mm", "lbf/in"),
    ("N/m", "lbf/in"),
    ("N m/deg", "lbf in/deg"),
    ("mm2", "in2"),
    ("mm3", "in3"),
    ("m3", "ft3"),
    ("mm4", "in4"),
    ("kg/m", "lb/ft"),
    ("kg/m3", "lb/ft3"),
    ("m", "ft"),
    ("m2", "ft2"),
    ("m/min", "ft/min"),
    ("mm/min", "in/min"),
    ("m2/l", "ft2/gal"),
    ("kg m2", "lb in2"),
    ("kg mm2", "lb in2"),
)
_OTHER = {**{inch: metric for metric, inch in reversed(_PAIRS)}, **dict(_PAIRS)}
_METRIC = frozenset(metric for metric, _ in _PAIRS) | {"mm"}
_LEAST_FRACTION_MM = 25.4 / 64
_LARGEST_MM = 1e6
_SHORT_LIST = 60
_SMALL_MM, _PLACES_MM, _PLACES_SMALL_MM = 0.01, 3, 4
"""A length in a table stands to the micrometre; one of less than so much has a place more."""

_FINER, _LITTLE = {"kg": ("g", 1000), "N m": ("N mm", 1000)}, 0.1
"""Less than so much of a unit is written in a finer one, without the noughts."""

FIGURES = 5
"""So many significant figures of a result stand on a page; the working has six, the JSON all."""

WORKING_FIGURES = 6
"""A line of the working has so many, so that the next line can be followed."""

CONVERTED_FIGURES = 4
"""A result converted into the other system has no more than this."""


@dataclass(frozen=True, slots=True)
class Line:
    """One line of a result: what it is, in metric, in inches; `wide` where both are the same text."""

    label: str
    metric: str
    inches: str = ""

    @property
    def wide(self) -> bool:
        """Whether there is one text for both systems."""
        return not self.inches


@dataclass(frozen=True, slots=True)
class Shown:
    """A result as it stands on a page: its words, its lines, or the findings or the table that it holds."""

    name: str
    label: str
    description: str
    lines: tuple[Line, ...]
    findings: tuple[Mapping[str, Plain], ...] = ()
    more: int = 0
    table: Table | None = None


@dataclass(frozen=True, slots=True)
class ShownStep:
    """A step of the working as it stands on a page; the value is in both systems."""

    symbol: str
    formula: str
    numbers: str
    value: str
    source: str


def in_both(value: float, unit: str, spread: float | None = None, figures: int = FIGURES) -> tuple[str, str]:
    """Write a quantity in metric units and in inches, pounds and so on.

    Args:
        value: a finite number.
        unit: its unit.
        spread: how far it may be off, in the same unit; the texts claim no more than that.
        figures: [1] significant figures in its own unit where it is no length, 1 to 15.

    Returns:
        The metric text and the other; the second is empty where both systems use the same unit.

    Source: this project; inch of 25.4 mm exactly, the other factors by the definitions of the units.

    Example:
        >>> in_both(4.2, "mm")
        ('4.2 mm', '0.1654 in, near 11/64 in (+0.166 mm)')
        >>> in_both(6.35, "mm"), in_both(1.25, "in"), in_both(60, "deg")
        (('6.35 mm', '1/4 in'), ('31.75 mm', '1 1/4 in'), ('60 deg', ''))
        >>> in_both(6, "N m"), in_both(0.0030357, "kg")
        (('6 N m', '53.1 lbf in'), ('3.0357 g', '0.1071 oz'))
        >>> in_both(4.7, "mm", 0.05), in_both(20, "N", 2)
        (('4.70 ± 0.05 mm', '0.185 ± 0.002 in'), ('20 ± 2 N', '4.50 ± 0.45 lbf'))
    """
    if unit in _FINER and 0 < abs(value) < _LITTLE:
        finer, times = _FINER[unit]
        return in_both(value * times, finer, spread * times if spread else None, figures)
    if spread:
        return _spread_in_both(value, unit, spread)
    if unit in ("mm", "in") and abs(value) < _LARGEST_MM:
        return _length(Length.of_mm(Fraction(value) * (1 if unit == "mm" else Fraction(254, 10))))
    own = f"{number_text(value, figures)} {'' if unit == '1' else unit}".rstrip()
    if unit == "degC":
        return own, f"{number_text(value * 1.8 + 32, CONVERTED_FIGURES)} degF"
    if unit not in _OTHER:
        return own, ""
    other = f"{number_text(value * factor(unit, _OTHER[unit]), CONVERTED_FIGURES)} {_OTHER[unit]}"
    return (own, other) if unit in _METRIC else (other, own)


def _spread_in_both(value: float, unit: str, spread: float) -> tuple[str, str]:
    own = f"{spread_text(value, spread)} {'' if unit == '1' else unit}".rstrip()
    other = {**_OTHER, "mm": "in", "in": "mm"}.get(unit)
    if other is None:
        return own, ""
    by = factor(unit, other)
    converted = f"{spread_text(value * by, spread * by)} {other}"
    return (own, converted) if unit in _METRIC else (converted, own)


def _length(length: Length) -> tuple[str, str]:
    metric, decimal = millimetres(length, 4), decimal_inches(length)
    # What was worked out in inches comes back to within the last tick of 1e-7 mm.
    near = nearest_fraction(length)
    if abs(near.error_mm) < Fraction(1, 1_000_000):
        return metric, near.text
    if abs(length.mm) < _LEAST_FRACTION_MM:
        return metric, decimal
    return metric, f"{decimal}, near {near.text} ({near.error_text})"


def shown_steps(result: Result) -> tuple[ShownStep, ...]:
    """Set out the working, each value in both systems.

    Args:
        result: the result of a calculator.

    Returns:
        One for each step, in their order.

    Source: this project.

    Example:
        >>> from calculators.calculation.result import Step
        >>> shown_steps(Result({}, (Step("d", "2 r", "2 x 3", 6, "mm"),)))[0].value
        '6 mm (0.2362 in)'
    """
    return tuple(
        ShownStep(step.symbol, step.formula, step.numbers, _with_inches(step), step.source)
        for step in result.working
    )


def _with_inches(step: Step) -> str:
    metric, inches = short_in_both(step.value, step.unit, step.spread, WORKING_FIGURES)
    first, second = (inches, metric) if step.unit == "in" and inches else (metric, inches)
    return f"{first} ({second})" if second else first


def short_in_both(
    value: float, unit: str, spread: float | None = None, figures: int = FIGURES
) -> tuple[str, str]:
    """Write a quantity in both systems without the nearest fraction, for a table or a line of working.

    Args:
        value: a finite number.
        unit: its unit.
        spread: how far it may be off, in the same unit.
        figures: [1] significant figures in its own unit where it is no length, 1 to 15.

    Returns:
        The metric text and the other; the second is empty where both systems use the same unit.

    Source: this project.

    Example:
        >>> short_in_both(4.2, "mm"), short_in_both(3, "1")
        (('4.2 mm', '0.1654 in'), ('3', ''))
    """
    if unit in ("mm", "in") and abs(value) < _LARGEST_MM and not spread:
        length = Length.of_mm(Fraction(value) * (1 if unit == "mm" else Fraction(254, 10)))
        mm = length.mm
        if figures < WORKING_FIGURES:
            mm = round(mm, _PLACES_MM if abs(mm) >= _SMALL_MM else _PLACES_SMALL_MM)
        return f"{number_text(mm, max(6, len(str(int(abs(mm)))) + _PLACES_MM))} mm", decimal_inches(length)
    return in_both(value, unit, spread, figures)


def shown_results(result: Result) -> tuple[Shown, ...]:
    """Set out all results in both systems.

    What is given again in inches (`diameter_inches` beside `diameter`) is not set out twice.

    Args:
        result: the result of a calculator.

    Returns:
        One for each result, in their order.

    Source: this project.

    Example:
        >>> from calculators.calculation.result import named
        >>> shown_results(Result(named(pitch=0.8)))[0].lines
        (Line(label='', metric='0.8 mm', inches='0.0315 in, near 1/32 in (-0.006 mm)'),)
    """
    twice = {f"{name}_inches" for name in result.results}
    return tuple(_shown(name, value) for name, value in result.results.items() if name not in twice)


def _shown(name: str, value: Value) -> Shown:
    meaning = NOMENCLATURE.get(name)
    label = meaning.label if meaning else name.replace("_", " ")
    description = meaning.description if meaning and meaning.description != label else ""
    found = value.value
    if isinstance(found, Sequence) and not isinstance(found, str) and found and all(map(_is_finding, found)):
        findings = tuple(each for each in found[:MOST_LINES] if isinstance(each, Mapping))
        return Shown(name, label, description, (), findings, len(found) - len(findings))
    if value.spread and isinstance(found, int | float):
        return Shown(name, label, description, (Line("", *in_both(found, value.unit, value.spread)),))
    lines = tuple(_lines("", found, value.unit, value.shown))
    more = max(0, len(lines) - MOST_LINES)
    table = table_of(found, value.unit, short_in_both)
    return Shown(name, label, description, lines[:MOST_LINES], (), more, table)


def _is_finding(each: Plain) -> bool:
    return isinstance(each, Mapping) and {"severity", "says", "rule"} <= each.keys()


def _lines(label: str, value: Plain, unit: str, shown: str = "") -> Iterator[Line]:
    """The lines of a value; the members of an object, and each of a list of objects, have their own."""
    if isinstance(value, Mapping):
        for key, item in value.items():
            if item not in (None, "", [], ()):
                yield from _lines(f"{label} {_words(key)}".strip(), item, member_unit(key, unit))
    elif isinstance(value, Sequence) and not isinstance(value, str):
        yield from _listed(label, value, unit, shown)
    elif isinstance(value, bool) or not isinstance(value, int | float):
        yield Line(label, shown or _text(value))
    else:
        metric, inches = in_both(value, unit)
        yield Line(label, shown or metric, inches)


def _listed(label: str, values: Sequence[Plain], unit: str, shown: str) -> Iterator[Line]:
    numbers = [each for each in values if isinstance(each, int | float) and not isinstance(each, bool)]
    if values and len(numbers) == len(values):
        both = [in_both(each, unit) for each in numbers]
        joint = " to " if " to " in shown else ", "
        yield Line(
            label, shown or joint.join(one for one, _ in both), joint.join(two for _, two in both if two)
        )
        return
    words = [each for each in values if isinstance(each, str)]
    if not values or (len(words) == len(values) and len(", ".join(words)) <= _SHORT_LIST):
        yield Line(label, shown or ", ".join(words) or "none")
        return
    for place, each in enumerate(values):
        if isinstance(each, Mapping):
            key = next((name for name in TITLES if isinstance(each.get(name), str) and each[name]), None)
            title = str(each[key])[:60] if key else str(place + 1)
            rest = {name: item for name, item in each.items() if name != key}
            yield from _lines(f"{label} {title},".strip(), rest, unit)
        else:
            yield from _lines(label, each, unit)


def _words(key: str) -> str:
    return key.replace("_", " ")


def _text(value: Plain) -> str:
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    return str(value)
