"""The numbers put in a step of the working give the step's value, worked out here by plain arithmetic.

No table is behind this: the arithmetic is Python's own. Where a step converts units within itself its value is
off by a power of ten, which is allowed; an angle may come in radians.
"""

from __future__ import annotations

import math
import re

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import all_calculators, find_calculator

_KNOWN = {
    name: getattr(math, name) for name in ("sqrt", "pi", "sin", "cos", "tan", "atan", "asin", "acos", "log10")
}
_UNITS = re.compile(
    r"(?<![A-Za-z_])(mm4|mm3|mm2|N mm/deg|N m/deg|N m|N mm|N/mm|N/m|mm|kN|MPa|GPa|N|kg/m3|kg/m|kg mm|kg|g/m2|"
    r"m/min|m/s2|mm/min|m2/l|m3|m2|rpm|deg|Hz|%|m|g|K|h)(?![A-Za-z0-9_(])"
)
# Steps that say more than a sum: rounding to whole passes, inch units within, the sum of unlike pounds.
_MORE_THAN_ARITHMETIC = {
    ("rebate", "passes"),
    ("wood-screw-strength", "older allowable"),
    ("wood-screw-strength", "head drawn through, allowable"),
    ("grub-screw-hold", "tabled"),
}
CASES = [(each.name, dict(each.example)) for each in all_calculators()] + [
    ("spring", {"kind": "extension", "wire": "0.8 mm", "mean_diameter": "8 mm", "active_coils": "20",
                "material": "music-wire", "free_length": "40 mm", "working_length": "60 mm",
                "initial_tension": "2 N"}),
    ("spring", {"kind": "torsion", "wire": "1.8 mm", "mean_diameter": "15 mm", "total_coils": "4.25",
                "legs": "50 mm", "material": "music-wire", "working_angle": "90 deg", "arm": "25 mm",
                "mandrel": "10 mm"}),
    ("spring", {"wire": "1 mm", "mean_diameter": "8 mm", "active_coils": "20", "material": "stainless-302",
                "free_length": "80 mm", "working_length": "50 mm", "factor": "bergstrasser"}),
    ("shelf-sag", {"span": "900", "width": "250", "thickness": "18", "material": "chipboard",
                   "contents": "books", "strip_depth": "38", "strip_thickness": "19",
                   "strip_material": "European oak"}),
    ("beam", {"support": "propped", "load": "100 N", "load_kind": "at", "at": "200 mm", "span": "500 mm",
              "second_moment": "1000 mm4", "modulus": "200 GPa", "outermost": "5 mm"}),
    ("beam", {"support": "fixed-ends", "load_kind": "several", "span": "500 mm", "modulus": "200 GPa",
              "loads": "100 N, 200; 50 N, 300, 500; -20 N, 100; at=250, moment=1 N m",
              "second_moment": "1000 mm4", "outermost": "5 mm"}),
    ("beam", {"support": "overhanging", "load": "100 N", "overhang": "200 mm", "span": "500 mm",
              "second_moment": "1000 mm4", "modulus": "200 GPa", "outermost": "5 mm"}),
    ("beam", {"load": "100 N", "span": "600 mm", "section": "rectangle 200 x 12 mm", "material": "European oak",
              "with_self_weight": "yes"}),
    ("moisture", {"humidity": "40 %", "temperature": "-1 degC"}),
    ("bush-fit", {"bore": "12 mm", "bush_outside": "12.02 mm", "bush_bore": "8 mm", "length": "12 mm",
                  "housing_outside": "20 mm", "housing": "aluminium"}),
    ("section-properties", {"section": "tube 20 x 2 mm"}),
    ("section-properties", {"section": "round 12 mm"}),
    ("bend-allowance", {"thickness": "1", "radius": "1", "angle": "120", "legs": "20; 20"}),
    ("square-check", {"length": "800", "width": "600", "diagonal": "998"}),
]  # fmt: skip


def _worked_out(numbers: str) -> float | None:
    """What the numbers come to; None where they are words."""
    text = re.sub(
        r"(?<!a)(sin|cos|tan)\(([^()]*)\)", lambda m: f"{m[1]}(({_UNITS.sub('', m[2])})*pi/180)", numbers
    )
    text = re.sub(r"([\d.]+) %", r"(\1/100)", text)
    text = _UNITS.sub("", text).replace("^", "**").replace(" x ", "*")
    text = re.sub(r"(\d|\)|pi)\s+(?=pi|\()", r"\1*", text)
    text = re.sub(r"(\d|\))\s+(?=sqrt|sin|cos|tan|atan)", r"\1*", text)
    if not re.fullmatch(r"(?:[\d\s.+\-*/(),]|pi|sqrt|a?sin|a?cos|a?tan|log10)+", text):
        return None
    try:
        found = eval(text, {"__builtins__": {}}, _KNOWN)
    except (SyntaxError, TypeError, ZeroDivisionError):
        return None
    return float(found) if isinstance(found, int | float) else None


def _agrees(found: float, value: float, unit: str) -> bool:
    if abs(found - value) <= 2e-3 * abs(value) + 1e-9:
        return True
    if unit == "deg" and abs(math.degrees(found) - value) <= 2e-3 * abs(value):
        return True
    if found * value <= 0:
        return False
    # A root of a unit that is out by a thousand is out by half a power of ten.
    power = 2 * math.log10(found / value)
    return abs(power - round(power)) < 3e-3


@pytest.mark.parametrize(("name", "given"), CASES)
def test_the_numbers_put_in_give_the_value(name: str, given: dict[str, object]) -> None:
    wrong = []
    for step in answer(find_calculator(name), given).working:
        if (name, step.symbol) in _MORE_THAN_ARITHMETIC or not isinstance(step.value, int | float):
            continue
        found = _worked_out(step.numbers)
        if found is not None and not _agrees(found, step.value, step.unit):
            wrong.append((step.line, found))
    assert wrong == []


@pytest.mark.parametrize("given", [given for name, given in CASES if name == "beam" and "load_kind" in given])
def test_a_beam_without_a_table_is_set_out_by_its_brackets(given: dict[str, object]) -> None:
    steps = {step.symbol: step for step in answer(find_calculator("beam"), given).working}
    for symbol in ("M", "d"):
        assert _worked_out(steps[symbol].numbers) is not None


def test_most_steps_can_be_followed_by_arithmetic() -> None:
    """So that the check above is not of nothing: of the springs' steps with numbers nearly all are sums."""
    steps = [
        step
        for name, given in CASES
        if name == "spring"
        for step in answer(find_calculator(name), given).working
        if step.numbers
    ]
    followed = [step for step in steps if _worked_out(step.numbers) is not None]
    assert len(followed) > 0.8 * len(steps)
