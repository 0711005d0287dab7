"""Gauge: the thickness of a gauge number, in the system that it needs."""

from __future__ import annotations

import re

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.quantities.errors import InputError
from calculators.quantities.gauges import ABBREVIATIONS, USES, gauge
from calculators.quantities.marks import quoted

_WRITTEN = re.compile(
    r"(?:no\.? ?|# ?)?(?P<number>\d{1,6}(?:/0)?) ?(?P<of>[a-z&]{1,12}(?: wire)?)?", re.IGNORECASE
)
_OF = {short.lower(): system for system, short in ABBREVIATIONS.items()} | {"awg": "brown-sharpe"}


def _number(written: str, system: str) -> str:
    """The number alone; a gauge named behind it has to be the one that was chosen."""
    found = _WRITTEN.fullmatch(written.strip()[:40])
    if not found:
        return written
    of = (found["of"] or "").lower()
    if of in ("", "gauge", "gage", "ga", "g") or _OF.get(of) == system:
        return found["number"]
    if of in _OF:
        says = f"{quoted(written)} is a number of {_OF[of]}, not of {system}; choose the gauge that it is of."
        raise InputError.of(says, field="number")
    return written


def _gauge(given: Given) -> Result:
    one = gauge(given.text("system"), _number(given.text("number"), given.text("system")))
    inches = float(one.inches)
    working: tuple[Step, ...] = (
        Step("t", "inches x 25.4", f"{number_text(inches)} x 25.4", one.thickness_mm, "mm"),
    )
    if one.system == "brown-sharpe":
        number = 1 - int(one.number[:-2]) if one.number.endswith("/0") else int(one.number)
        first = Step("d", "0.005 x 92^((36 - n)/39)", f"0.005 x 92^((36 - {number})/39)", inches, "in",
                     "ASTM B258, from memory")  # fmt: skip
        working = (first, *working)
    warnings = (
        f"{one.name}: {USES[one.system]}. Measure the sheet or wire: numbers are taken for one another.",
    )
    return Result(
        named(thickness=one.thickness_mm, thickness_inches=inches), working, warnings, (one.source,)
    )


GAUGE = Calculator(
    name="gauge",
    summary="The thickness of sheet or wire by its gauge number, in a stated system.",
    purpose="Read and convert a size",
    inputs=(
        Input(
            name="system",
            help="which gauge the number is of",
            kind="choice",
            choices=tuple(ABBREVIATIONS),
            synonyms=(
                ("swg", "imperial-standard"),
                ("b&s", "brown-sharpe"),
                ("awg", "brown-sharpe"),
                ("bwg", "birmingham-wire"),
                ("msg", "us-steel"),
            ),
            example="imperial-standard",
        ),
        Input(name="number", help="the gauge number", kind="text", example="20 or 4/0"),
    ),
    outputs=("thickness", "thickness_inches"),
    work=_gauge,
    sources=(
        "ASTM B258 (Brown and Sharpe; formula from memory)",
        "BS 3737 (imperial standard), and the other gauges, as stated by the tables' sources",
    ),
    example={"system": "imperial-standard", "number": "20"},
)
