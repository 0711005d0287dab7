"""Lengths inside a line: finding them, in which unit they are, and what stands beside them says of them.

A bare number takes the build's unit; a unit behind the last of several sizes is the unit of all of them
(`300 x 120 x 12 mm`). A bare fraction is inches in any build, as in every line of hardware here.
"""

from __future__ import annotations

import re
from dataclasses import dataclass

from calculators.planning.lines.line import PLAIN, refusal
from calculators.planning.model import Unit
from calculators.quantities.errors import InputError
from calculators.quantities.length import TICKS_PER_MM, Length
from calculators.quantities.marks import quoted
from calculators.quantities.reading import FARTHEST_MM, read_length

_VULGAR = "¼½¾⅓⅔⅕⅖⅗⅘⅙⅚⅛⅜⅝⅞⅐⅑⅒"
END = rf"(?=$|[^\w]|_|x ?[0-9.{_VULGAR}]|x |(?:dia|od|id|thk|lg)(?![^\W_]))"
FRACTION = rf"(?:(?:[0-9]+(?: |-)?)?[{_VULGAR}]|(?:[0-9]+(?: |-))?[0-9]+ ?/ ?[0-9]+)"
DECIMAL = r"(?:[0-9]+(?:[.,][0-9]+)*|\.[0-9]+)"
POINTED = r"(?:[0-9]+(?:\.[0-9]+)?|\.[0-9]+)"
"""A number without a comma, where a comma parts one number from the next."""

_NOT_A_UNIT = r"(?! (?:hand|stock|order|the|a|an|its|two|three|four|one|place|line|[a-z]{1,3}-?[0-9])\b)"
UNIT = (
    r"(?:mm|cm|m|millimet(?:re|er)s?|centimet(?:re|er)s?|met(?:re|er)s?|thou|inch(?:es)?|in\."
    rf"|in{_NOT_A_UNIT}|\"|ft\.?|feet|foot|')"
)
GAUGE = (
    r"(?:no\.? ?)?[0-9]{1,3}(?:/0)? ?"
    r"(?:s\.?w\.?g|i\.?s\.?w\.?g|b\.?w\.?g|b ?& ?s|a\.?w\.?g|m\.?s\.?g|(?:gauge|gage|ga)(?! plate))\.?"
)
FEET = rf"[0-9]+ ?(?:'|ft\.?|feet|foot)[ -]?(?:{FRACTION}|{POINTED}) ?(?:\"|inch(?:es)?|in\.?)?"
_START = r"(?<![0-9.,/])(?<![^\W_xXØ])(?<![xX][^\W_xXØ])"


def measure_pattern(number: str = DECIMAL) -> str:
    """Give the pattern of one length as it stands in a line.

    Args:
        number: the pattern of a decimal number in it.

    Returns:
        The pattern, with no groups of its own.

    Source: this project.
    """
    return rf"{_START}(?:{GAUGE}|{FEET}|(?:{FRACTION}|{number})(?: ?-?{UNIT})?){END}"


MEASURE = measure_pattern()
COORDINATE = rf"[-+]? ?(?:{FEET}|(?:{FRACTION}|{POINTED})(?: ?-?{UNIT})?)(?=$|[^\w.]|_|deg)"
"""A number of a pair `20,30`, where a comma parts the two."""

_WHOLE = re.compile(rf"[-+]?(?:{MEASURE})", re.IGNORECASE)
_PARTS = re.compile(
    rf"(?P<gauge>{GAUGE})|(?P<feet>{FEET})|(?P<number>{FRACTION}|{DECIMAL}|{POINTED}) ?-?(?P<unit>{UNIT})?",
    re.IGNORECASE,
)


@dataclass(frozen=True, slots=True)
class Measure:
    """A length as it stands in a line: its text, its unit ('' when bare), whether it is a fraction."""

    text: str
    unit: str = ""
    fraction: bool = False
    gauge: bool = False

    @classmethod
    def of(cls, text: str) -> Measure:
        """Look at the text of one length."""
        found = _PARTS.fullmatch(text.strip())
        if found is None:
            return cls(text.strip())
        if found["gauge"] or found["feet"]:
            return cls(text.strip(), "own", bool(found["feet"]), bool(found["gauge"]))
        number = found["number"]
        fraction = "/" in number or any(sign in _VULGAR for sign in number)
        return cls(text.strip(), (found["unit"] or "").lower().rstrip("."), fraction)

    @property
    def bare(self) -> bool:
        """Whether it says no unit."""
        return not self.unit


def length_of(text: str, unit: Unit, *, signed: bool = False) -> Length:
    """Read one length of a line; a bare fraction is inches.

    Args:
        text: the length as it stands in the line.
        unit: [mm or in] what a bare number means.
        signed: whether it may be negative.

    Returns:
        The length.

    Raises:
        InputError: when it cannot be read.

    Source: common practice.

    Example:
        >>> length_of("3/4", "mm").exact_mm, length_of("12", "mm").exact_mm
        (Decimal('19.05'), Decimal('12'))
    """
    text = text.strip()
    measure = Measure.of(text.lstrip("+- "))
    own: Unit = "in" if measure.bare and measure.fraction else unit
    return read_length(text, unit=own, field="line", minimum_mm=-FARTHEST_MM if signed else None)


_HUNDRED_INCHES = 100
_CALLED = {"mm": "millimetres", "in": "inches"}
_INCHES = ("in", "inch", "inches", '"')


def chain_lengths(measures: list[Measure], unit: Unit) -> list[Length]:
    """Read sizes that belong together (`300 x 120 x 12`); the unit behind the last is for all that are bare.

    Args:
        measures: the sizes in their order.
        unit: [mm or in] the build's unit.

    Returns:
        The lengths in the same order.

    Raises:
        InputError: when one cannot be read, or it is not clear which unit a bare one is in.

    Source: common practice.

    Example:
        >>> [one.mm for one in chain_lengths([Measure.of("1 1/4"), Measure.of('3"')], "mm")]
        [31.75, 76.2]
    """
    last = measures[-1]
    bare = [one for one in measures if one.bare]
    tail = last.unit if not last.bare and last.unit != "own" else ""
    if tail and bare and _is_own(measures, bare, tail):
        return [length_of(one.text, unit) for one in measures]
    if tail and bare:
        _ask_tail(measures, tail, unit)
        return [_in_unit(one, tail) if one.bare else length_of(one.text, unit) for one in measures]
    if unit == "mm" and len({one.fraction for one in bare}) > 1:
        both = [[f"{one.text} in" if one.bare else one.text for one in measures]]
        both.append(
            [f"{one.text} {'in' if one.fraction else 'mm'}" if one.bare else one.text for one in measures]
        )
        choices = [" x ".join(one) for one in both]
        raise refusal(
            f"{quoted(' x '.join(one.text for one in measures))} has a fraction, which is inches, beside a "
            f"bare "
            f"number, which is mm in this build; write {' or '.join(choices)}.",
            *choices,
        )
    return [length_of(one.text, unit) for one in measures]


_METRES = ("m", "metre", "meter", "metres", "meters")
_FEET = ("ft", "feet", "foot", "'")
_MOST_METRES = 6.0
"""Stock is no longer: in `25 x 3 m` the 25 are no metres (common practice)."""


def _is_own(measures: list[Measure], bare: list[Measure], tail: str) -> bool:
    """Whether the unit of length behind the last size is its own: `25 x 3 m`, `8/4 x 6 in x 8 ft`."""
    if tail not in (*_METRES, *_FEET):
        return False
    others = {one.unit for one in measures[:-1] if not one.bare}
    if others - {tail} or any(one.fraction for one in bare):
        return True
    values = [_value(one) for one in bare]
    if len(measures) > 2 and min(values) >= 1.0:
        return True  # three sizes of which the least is a metre or a foot: `2 x 4 x 8 ft`
    return tail in _METRES and max(values) > _MOST_METRES


def _ask_tail(measures: list[Measure], tail: str, unit: Unit) -> None:
    """Ask where the unit behind the last size can hardly be, or need not be, that of the others."""
    kind: Unit = "in" if tail in _INCHES else "mm"
    if kind == unit or tail not in (*_INCHES, "mm"):
        return
    others = [_value(one) for one in measures if one.bare]
    largest = max(others)
    doubtful = largest > _HUNDRED_INCHES if kind == "in" else largest <= _HUNDRED_INCHES
    if not doubtful or any(one.fraction for one in measures if one.bare):
        return
    written = [" x ".join(f"{one.text} {each}" if one.bare else one.text for one in measures)
               for each in (kind, unit)]  # fmt: skip
    raise refusal(
        f"It is not clear whether {quoted(' x '.join(one.text for one in measures))} is in {_CALLED[kind]} "
        f"throughout; "
        f"write {' or '.join(written)}.",
        *written,
    )


def _value(measure: Measure) -> float:
    return length_of(measure.text, "mm").mm if not measure.fraction else 1.0


def _in_unit(measure: Measure, tail: str) -> Length:
    if tail in _INCHES:
        return read_length(measure.text, unit="in", field="line")
    if tail == "mm":
        return read_length(measure.text, unit="mm", field="line")
    return read_length(f"{measure.text} {tail}", field="line")


def written(length: Length, unit: Unit | None) -> str:
    """Write a length so that it reads back the same, in a build of some unit or of any.

    Args:
        length: the length.
        unit: [mm or in] what a bare number will mean where it is read; None where that is not known, which
            gives every number its unit.

    Returns:
        The writing; a length worked out is written in the unit without its name where that is known.

    Source: this project.

    Example:
        >>> written(Length(120_000_000), "mm"), written(Length(120_000_000, "12"), None)
        ('12', '12 mm')
    """
    for text in _writings(length, unit):
        if unit is None and Measure.of(text.translate(PLAIN).lstrip("+- ")).bare:
            continue
        if _WHOLE.fullmatch(text.translate(PLAIN)) and _reads_back(text, length, unit):
            return text
    return f"{plain_mm(length)} mm"


def _writings(length: Length, unit: Unit | None) -> list[str]:
    """The ways in which a length may be written, the best first."""
    own = "in" if length.unit == "in" else "mm"
    texts = [length.written, f"{length.written} {own}"] if length.written else []
    return [*texts, plain_mm(length)]


def _reads_back(text: str, length: Length, unit: Unit | None) -> bool:
    """Whether a writing gives the same ticks, in a build of that unit or in builds of both."""
    units: tuple[Unit, ...] = ("mm", "in") if unit is None else (unit,)
    try:
        return all(length_of(text, each, signed=True).ticks == length.ticks for each in units)
    except InputError:
        return False


def plain_mm(length: Length) -> str:
    """Write the millimetres of a length in plain digits.

    Args:
        length: the length.

    Returns:
        The digits, without a unit.

    Source: this project.

    Example:
        >>> plain_mm(Length(5))
        '0.0000005'
    """
    whole, part = divmod(abs(length.ticks), TICKS_PER_MM)
    digits = f"{whole}.{part:07d}".rstrip("0").rstrip(".")
    return f"-{digits}" if length.ticks < 0 else digits
