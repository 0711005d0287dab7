"""Numbers put in for the letters of a formula, as a handbook sets them out."""

from __future__ import annotations

import re
from collections.abc import Mapping

from calculators.calculation.result import number_text


def put_in(formula: str, values: Mapping[str, float]) -> str:
    """Put numbers in a formula whose letters stand apart, multiplied where only a space is between.

    Args:
        formula: as `P L^3 / (48 E I)`; what follows a comma explains letters and is left out.
        values: the number for each letter; of none of them is the number less than nought.

    Returns:
        The formula with its numbers.

    Source: this project.

    Example:
        >>> put_in("P a (3 L^2 - 4 a^2) / (24 E I)", {"P": 500, "a": 26, "L": 55, "E": 28e6, "I": 67})
        '500 x 26 x (3 x 55^2 - 4 x 26^2) / (24 x 28000000 x 67)'
    """
    sum_alone = formula.split(",")[0]
    names = "|".join(sorted(map(re.escape, values), key=len, reverse=True))
    numbers = re.sub(
        rf"(?<![A-Za-z0-9])(?:{names})(?![A-Za-z0-9])", lambda m: number_text(values[m[0]]), sum_alone
    )
    return re.sub(r"(?<=[\d)])\s+(?=[\d(]|sqrt)", " x ", numbers)
