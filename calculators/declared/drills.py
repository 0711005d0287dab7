"""Drill: the diameter of a drill by its name."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.hardware.drills import find_drill


def _drill(given: Given) -> Result:
    drill = find_drill(given.text("name"), field="name")
    step = Step("d", "inches x 25.4", f"{number_text(drill.diameter_in)} x 25.4", drill.diameter_mm, "mm")
    results = named(drill=drill.name, diameter=drill.diameter_mm, diameter_inches=drill.diameter_in)
    return Result(results, (step,), _mind(given.text("name")), (drill.source.says,))


def _mind(name: str) -> tuple[str, ...]:
    """A bare whole number may have been meant as a number drill, which is quite another size."""
    bare = name.strip()
    if not (bare.isascii() and bare.isdecimal() and 1 <= int(bare[:4]) <= 80):
        return ()
    numbered = find_drill(f"#{int(bare)}")
    return (f"{bare} is read as {bare} mm; the number drill {numbered.name} is {numbered.diameter_mm:g} mm.",)


DRILL = Calculator(
    name="drill",
    summary="The diameter of a drill by its number, letter, fraction or millimetres.",
    purpose="Read and convert a size",
    inputs=(
        Input(
            name="name",
            help="the drill; a bare number is mm",
            kind="text",
            unit="mm",
            example="#7, F, 13/64 in or 5.1 mm",
        ),
    ),
    outputs=("drill", "diameter", "diameter_inches"),
    work=_drill,
    sources=("ASME B94.11M", "ISO 235"),
    example={"name": "#7"},
)
