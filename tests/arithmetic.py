"""A line of arithmetic that was worked by hand, followed step by step."""

from __future__ import annotations

import math
import re

import pytest

TOLERANCE = 6e-4
"""Values are given to three or four decimals."""

_SUMS = re.compile(r"(?:[\d.()=+*/ -]|sqrt|pi|sin|cos|tan|asin|atan)+")
_KNOWN = {
    "__builtins__": {},
    "sqrt": math.sqrt,
    "pi": math.pi,
    "sin": lambda deg: math.sin(math.radians(deg)),
    "cos": lambda deg: math.cos(math.radians(deg)),
    "tan": lambda deg: math.tan(math.radians(deg)),
    "asin": lambda share: math.degrees(math.asin(share)),
    "atan": lambda share: math.degrees(math.atan(share)),
}


def worked_by_hand(checked: str) -> list[float]:
    """Follow the line of arithmetic: every `a = b` in it must hold; give the results.

    Pieces are parted by semicolons; words before a colon say what is worked; one that begins with an operator
    goes on from the result before it. Angles are in degrees.
    """
    results: list[float] = []
    for piece in checked.split(";"):
        sums = piece.rpartition(":")[2].strip().replace(" x ", " * ")
        if "=" not in sums:
            continue
        if sums[0] in "/*":
            sums = f"{results[-1]} {sums}"
        assert _SUMS.fullmatch(sums), f"no arithmetic: {piece}"
        values = [float(eval(each, dict(_KNOWN))) for each in sums.split("=")]
        for value in values[1:]:
            assert values[0] == pytest.approx(value, abs=TOLERANCE), piece
        results.append(values[-1])
    return results
