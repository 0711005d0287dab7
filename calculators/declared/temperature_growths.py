"""Temperature growth: how much lengths of two materials grow apart when it gets warmer or colder."""

from __future__ import annotations

from functools import partial

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.materials import Material, find_material
from calculators.mechanics.fits import growth_mm
from calculators.quantities.errors import InputError
from calculators.tables import load

_BOOK = "handbook coefficients of linear expansion (from memory)"


def _growth(given: Given) -> Result:
    length = given.mm("length")
    first, second = given.number("from_temperature"), given.number("to_temperature")
    rise = second - first
    one, coefficient, source = _coefficient(given.text("material"), "material")
    grown = growth_mm(length, coefficient, rise)
    d = number_text
    working = [
        Step("dT", "t2 - t1", f"{d(second)} - {d(first)} degC", rise, "K"),
        Step(f"alpha of {one.name}", "", "", coefficient * 1e6, "um/m K", source),
        Step(
            "growth",
            "alpha L dT",
            f"{d(coefficient)}/K x {d(length)} mm x {d(rise)} K",
            grown,
            "mm",
            "definition",
        ),
    ]
    results = named(growth=grown)
    other_name = given.text_or_none("other")
    if other_name is not None:
        other, other_coefficient, source = _coefficient(other_name, "other")
        apart = grown - growth_mm(length, other_coefficient, rise)
        working.append(Step(f"alpha of {other.name}", "", "", other_coefficient * 1e6, "um/m K", source))
        numbers = f"({d(coefficient)} - {d(other_coefficient)})/K x {d(length)} mm x {d(rise)} K"
        working.append(Step("apart", "(alpha1 - alpha2) L dT", numbers, apart, "mm"))
        results |= named(growth_apart=apart)
    warnings = []
    if one.is_solid_wood:
        warnings.append(
            "This is along the grain; across it moisture moves the wood far more than temperature does."
        )
    return Result(results, tuple(working), tuple(warnings))


def _coefficient(name: str, field: str) -> tuple[Material, float, str]:
    material = find_material(name, field=field)
    row = load("thermal_growth").find(material.kind)
    if row is None:
        raise InputError.of(f"How {material.name} grows with temperature is not known here.", field=field)
    return material, row.number("coefficient"), row.source.says


_degrees = partial(Input, kind="quantity", unit="degC", minimum=-100, maximum=500)

TEMPERATURE_GROWTH = Calculator(
    name="temperature-growth",
    summary="How much a length grows when it warms, and how far two materials grow apart.",
    purpose="Material and cost",
    inputs=(
        Input(
            name="length",
            help="the length, along the grain for wood",
            kind="length",
            unit="mm",
            above=0,
            maximum=100_000,
            example="600 mm",
        ),
        Input(name="material", help="the material", kind="text", example="brass"),
        Input(name="other", help="a second material on the same length", kind="text", optional=True),
        _degrees(name="from_temperature", help="the temperature at which it was measured", default="20 degC"),
        _degrees(name="to_temperature", help="the other temperature", example="35 degC"),
    ),
    outputs=("growth", "growth_apart"),
    work=_growth,
    sources=(_BOOK,),
    example={"length": "600 mm", "material": "brass", "other": "oak", "to_temperature": "35 degC"},
)
