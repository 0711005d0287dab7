"""What a piece costs from its stock. Money is exact decimals, never a float."""

from __future__ import annotations

import re
from decimal import ROUND_HALF_EVEN, Decimal, InvalidOperation
from fractions import Fraction

from calculators.quantities.errors import InputError
from calculators.quantities.marks import plain, quoted

LARGEST = Decimal(10) ** 9
"""No price or sum above this is worked with."""

_MONEY = re.compile(r"\d{1,9}(?:[.,]\d{1,4})?")


def read_money(text: str, *, field: str = "price") -> Decimal:
    """Read an amount of money as a plain number, in whatever currency the whole sum is in.

    Args:
        text: the amount, as `12.50` or `12,5`; no more than four decimals, no thousands marks.
        field: the name of the input, for the error.

    Returns:
        The amount, exact, 0 or more.

    Raises:
        InputError: when it is no such amount.

    Source: this project.

    Example:
        >>> read_money("12,50")
        Decimal('12.50')
    """
    line = plain(text[:64]).strip()
    if not _MONEY.fullmatch(line):
        says = f"{quoted(text)} is not an amount of money; write a plain number such as 12.50."
        raise InputError.of(says, field=field)
    try:
        return Decimal(line.replace(",", "."))
    except InvalidOperation:  # pragma: no cover - the pattern lets none through
        raise InputError.of(f"{quoted(text)} is not an amount of money.", field=field) from None


def rounded_money(amount: Fraction | Decimal) -> Decimal:
    """Round a sum to the hundredth, halves to the even one.

    Args:
        amount: the exact sum.

    Returns:
        The sum with two decimals.

    Source: banker's rounding (common practice).

    Example:
        >>> rounded_money(Fraction(1, 3)), rounded_money(Decimal("0.125"))
        (Decimal('0.33'), Decimal('0.12'))
    """
    exact = Fraction(amount)
    return (Decimal(exact.numerator) / Decimal(exact.denominator)).quantize(
        Decimal("0.01"), rounding=ROUND_HALF_EVEN
    )
