"""Nearest: the drill, fraction, gauge or cutter that exists on either side of a length."""

from __future__ import annotations

from collections.abc import Iterable
from fractions import Fraction
from math import ceil, floor
from typing import cast

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.hardware.drills import SERIES, drills_of
from calculators.quantities.display import DENOMINATORS
from calculators.quantities.errors import InputError
from calculators.quantities.gauges import ABBREVIATIONS, System, gauge, gauges_of
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted
from calculators.quantities.numbers import mixed_text
from calculators.tables.loading import load

Size = tuple[str, float, str]
"""A size that exists: its name, its millimetres, its source."""

_SAME_MM = 1e-6

SYSTEMS = {
    "drill": ("all", *SERIES),
    "fraction": tuple(map(str, DENOMINATORS)),
    "gauge": tuple(ABBREVIATIONS),
    "cutter": ("all", "metric", "inch"),
}
"""The systems of each kind; for fractions the finest one that is wanted."""


def _nearest(given: Given) -> Result:
    length, kind = given.length("length"), given.text("kind")
    system = _system(kind, given.text_or_none("system"))
    sizes = sorted(_sizes(kind, system, length), key=lambda size: size[1])
    mm = length.mm
    below = [size for size in sizes if size[1] < mm - _SAME_MM]
    above = [size for size in sizes if size[1] > mm + _SAME_MM]
    # Of two sizes equally near, the larger is given: holes are opened up, not closed.
    nearest = min(sizes, key=lambda size: (round(abs(size[1] - mm), 6), -size[1]))
    step = Step(
        "error",
        "size - length",
        f"{number_text(nearest[1], 9)} - {number_text(mm, 9)}",
        nearest[1] - mm,
        "mm",
    )
    results = named(
        below=_entry(below[-1] if below else None, mm),
        nearest=_entry(nearest, mm),
        above=_entry(above[0] if above else None, mm),
    )
    sources = dict.fromkeys(size[2] for size in (*below[-1:], nearest, *above[:1]))
    return Result(results, (step,), (), tuple(sources))


def _entry(size: Size | None, mm: float) -> Value:
    if size is None:
        return Value(None, "mm", "none")
    name, size_mm, _ = size
    error = size_mm - mm
    shown = f"{name}: {number_text(size_mm)} mm, {'exact' if abs(error) < _SAME_MM else f'{error:+.3f} mm'}"
    return Value(
        {"name": name, "size": size_mm, "error": 0.0 if abs(error) < _SAME_MM else error}, "mm", shown
    )


def _system(kind: str, text: str | None) -> str:
    allowed = SYSTEMS[kind]
    if text is None:
        if kind == "gauge":
            says = f"The input system is missing; a gauge number needs one of {', '.join(allowed)}."
            raise InputError.of(says, field="system", choices=allowed)
        return "64" if kind == "fraction" else "all"
    word = text.strip().lower().replace(" ", "-").removeprefix("1/")
    if kind == "gauge":
        return gauge(text, 20, field="system").system
    if word not in allowed:
        says = f"{quoted(text)} is not a system for {kind}; write one of {', '.join(allowed)}."
        raise InputError.of(says, field="system", choices=allowed)
    return word


def _sizes(kind: str, system: str, length: Length) -> Iterable[Size]:
    """The sizes that exist, of one kind and system; of fractions only those close by."""
    if kind == "drill":
        drills = drills_of(SERIES if system == "all" else (system,))
        return [(drill.name, drill.diameter_mm, drill.source.says) for drill in drills]
    if kind == "gauge":
        every = gauges_of(cast(System, system)).values()
        return [(one.name, one.thickness_mm, one.source) for one in every]
    if kind == "cutter":
        rows = (row for row in load("cutters").rows if system in ("all", row["series"]))
        return [(row["name"], row.number("diameter"), row.source.says) for row in rows]
    return list(_fractions(length, int(system)))


def _fractions(length: Length, denominator: int) -> Iterable[Size]:
    steps = length.inches * denominator
    for count in sorted({floor(steps) - 1, floor(steps), ceil(steps), ceil(steps) + 1}):
        if count > 0:
            inches = Fraction(count, denominator)
            yield f"{mixed_text(inches)} in", float(inches * Fraction(254, 10)), "inch of 25.4 mm exactly"


NEAREST = Calculator(
    name="nearest",
    summary="The drill, inch fraction, gauge or cutter that exists on either side of a length.",
    purpose="Read and convert a size",
    inputs=(
        Input(
            name="length",
            help="the size wanted",
            kind="length",
            unit="mm",
            above=0,
            maximum=10000,
            example="5.1 mm or 13/64 in",
        ),
        Input(name="kind", help="what is looked for", kind="choice", choices=tuple(SYSTEMS), default="drill"),
        Input(
            name="system",
            help=(
                "drill: all, number, letter, fractional or metric; fraction: the finest, as 64; "
                "gauge: brown-sharpe, imperial-standard and so on; cutter: all, metric or inch"
            ),
            kind="text",
            optional=True,
        ),
    ),
    outputs=("below", "nearest", "above"),
    work=_nearest,
    sources=("ASME B94.11M and ISO 235 (drills)", "the tables of each gauge", "cutters: common practice"),
    example={"length": "5 mm", "kind": "drill"},
)
