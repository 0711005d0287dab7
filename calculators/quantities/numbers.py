"""Numbers as people write them, read exactly: decimals with point or comma, fractions, mixed numbers."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction


@dataclass(frozen=True, slots=True)
class Number:
    """An exact number and its plain writing."""

    value: Fraction
    text: str


class NumberFault(ValueError):
    """What is wrong with a number: the end of a sentence that begins with the text, and the choices.

    `rest` is the unit that stood behind it, kept so that the choices can be written whole.
    """

    def __init__(self, says: str, choices: tuple[str, ...] = (), rest: str = "") -> None:
        super().__init__(says)
        self.says, self.choices, self.rest = says, choices, rest


_SIGN = r"(?P<sign>[-+]?) ?"
_MIXED = re.compile(_SIGN + r"(?:(?P<whole>\d+)(?: |-))?(?P<top>\d+) ?/ ?(?P<bottom>\d+)")
_DECIMAL = re.compile(_SIGN + r"(?P<digits>\d*\.?\d+|\d+\.)")
_DECIMAL_COMMA = re.compile(_SIGN + r"(?P<whole>\d*),(?P<places>\d+)")
_COMMA_GROUPS = re.compile(_SIGN + r"(?P<digits>\d{1,3}(?:,\d{3})+\.\d+|\d{1,3}(?:,\d{3}){2,}(?:\.\d+)?)")
_POINT_GROUPS = re.compile(_SIGN + r"(?P<digits>\d{1,3}(?:\.\d{3})+,\d+|\d{1,3}(?:\.\d{3}){2,}(?:,\d+)?)")
_SPACE_GROUPS = re.compile(_SIGN + r"(?P<digits>\d{1,3}(?: \d{3})+(?:[.,]\d+)?)")


def read_number(text: str) -> Number:
    """Read a number exactly: `31.75`, `31,75`, `.8`, `3/8`, `1 1/4`, `1-1/4`, `1,234.5`.

    Args:
        text: the number alone, in plain signs, of bounded length.

    Returns:
        The number and its plain writing.

    Raises:
        NumberFault: when it is none, divides by nought, or has a comma that could be either.

    Source: common practice; the comma that could be either is asked back.

    Example:
        >>> read_number("1-1/4").value
        Fraction(5, 4)
        >>> read_number("31,75").text
        '31.75'
    """
    text = text.strip()
    if found := _MIXED.fullmatch(text):
        return _fraction(found)
    if found := _DECIMAL.fullmatch(text):
        return _decimal(found["sign"], found["digits"])
    if found := _DECIMAL_COMMA.fullmatch(text):
        whole, places = found["whole"], found["places"]
        if len(places) == 3 and 1 <= len(whole) <= 3 and whole.strip("0"):
            sign = found["sign"].replace("+", "")
            choices = (f"{sign}{whole}.{places}", f"{sign}{whole}{places}")
            raise NumberFault("has a comma that could be a decimal comma or part thousands", choices)
        return _decimal(found["sign"], f"{whole or 0}.{places}")
    if found := _COMMA_GROUPS.fullmatch(text):
        return _decimal(found["sign"], found["digits"].replace(",", ""))
    if found := _POINT_GROUPS.fullmatch(text):
        return _decimal(found["sign"], found["digits"].replace(".", "").replace(",", "."))
    if found := _SPACE_GROUPS.fullmatch(text):
        joined = found["sign"].replace("+", "") + found["digits"].replace(" ", "").replace(",", ".")
        raise NumberFault("has a space inside the number", (joined,))
    raise NumberFault("cannot be read as a number")


def _decimal(sign: str, digits: str) -> Number:
    digits = digits.rstrip(".")
    value = Fraction(digits if digits[0] != "." else "0" + digits)
    value = -value if sign == "-" else value
    return Number(value, decimal_text(value))


def _fraction(found: re.Match[str]) -> Number:
    whole, top, bottom = int(found["whole"] or 0), int(found["top"]), int(found["bottom"])
    if bottom == 0:
        raise NumberFault("divides by nought")
    if found["whole"] and top >= bottom:
        raise NumberFault("has a whole number before a fraction that is not less than one")
    value = whole + Fraction(top, bottom)
    plain = f"{whole} {top}/{bottom}" if found["whole"] else f"{top}/{bottom}"
    if found["sign"] == "-":
        return Number(-value, "-" + plain)
    return Number(value, plain)


def decimal_text(value: Fraction | int, places: int = 12) -> str:
    """Write a number in canonical decimals: no exponent, no trailing noughts, no minus before nought.

    Args:
        value: the exact number.
        places: [1] decimals at most, 0 or more; it is rounded half to even there.

    Returns:
        The digits.

    Source: this project.

    Example:
        >>> decimal_text(Fraction(7, 4)), decimal_text(Fraction(-1, 3), 4), decimal_text(Fraction(1200))
        ('1.75', '-0.3333', '1200')
    """
    scaled = round(Fraction(value) * 10**places)
    digits = str(abs(scaled)).rjust(places + 1, "0")
    whole, part = digits[: len(digits) - places], digits[len(digits) - places :].rstrip("0")
    return ("-" if scaled < 0 else "") + whole + ("." + part if part else "")


def mixed_text(value: Fraction) -> str:
    """Write an exact fraction as a mixed number.

    Args:
        value: the number.

    Returns:
        `1 3/4`, `3/8`, `2`, with a minus before a negative one.

    Source: common practice.

    Example:
        >>> mixed_text(Fraction(7, 4)), mixed_text(Fraction(-3, 8)), mixed_text(Fraction(2))
        ('1 3/4', '-3/8', '2')
    """
    whole, rest = divmod(abs(value), 1)
    part = f"{rest.numerator}/{rest.denominator}" if rest else ""
    sign = "-" if value < 0 else ""
    return sign + " ".join(piece for piece in (str(whole) if whole or not rest else "", part) if piece)
