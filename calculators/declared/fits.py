"""Fit: the limits of a hole and a shaft by their classes, and how loose or tight they come out."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.drawing.fit_zones import fit_picture
from calculators.mechanics.fits import LARGEST_MM, limits_of
from calculators.quantities.errors import InputError

_ISO = "ISO 286-1:2010, Tables 1, 4 and 5 (from memory)"


def _fit(given: Given) -> Result:
    size = given.mm("diameter")
    hole = limits_of(size, given.text("hole"), field="hole")
    shaft = limits_of(size, given.text("shaft"), field="shaft")
    if hole.name[0].islower() or shaft.name[0].isupper():
        field, name = ("hole", hole.name) if hole.name[0].islower() else ("shaft", shaft.name)
        letters = "a capital letter, as H7" if field == "hole" else "a small letter, as f7"
        raise InputError.of(f"{name} is not the class of a {field}; a {field} has {letters}.", field=field)
    least, most = hole.least_mm - shaft.most_mm, hole.most_mm - shaft.least_mm
    kind = "clearance" if least >= 0 else "interference" if most <= 0 else "transition"
    d = number_text
    working = (
        Step("hole, least", f"D + lower deviation of {hole.name}", "", hole.least_mm, "mm", _ISO),
        Step("hole, most", f"D + upper deviation of {hole.name}", "", hole.most_mm, "mm"),
        Step("shaft, least", f"D + lower deviation of {shaft.name}", "", shaft.least_mm, "mm", _ISO),
        Step("shaft, most", f"D + upper deviation of {shaft.name}", "", shaft.most_mm, "mm"),
        Step(
            "least clearance",
            "hole, least - shaft, most",
            f"{d(hole.least_mm)} - {d(shaft.most_mm)} mm",
            least,
            "mm",
        ),
        Step(
            "most clearance",
            "hole, most - shaft, least",
            f"{d(hole.most_mm)} - {d(shaft.least_mm)} mm",
            most,
            "mm",
        ),
    )
    results = named(
        hole_least=hole.least_mm,
        hole_most=hole.most_mm,
        shaft_least=shaft.least_mm,
        shaft_most=shaft.most_mm,
        clearance_least=least,
        clearance_most=most,
        fit=Value(kind),
    )
    warnings = []
    if kind == "transition":
        warnings.append("It may come out loose or tight: measure both parts, or choose another class.")
    return Result(results, working, tuple(warnings))


def _draw_fit(given: Given, result: Result) -> tuple[Picture, ...]:
    size = given.mm("diameter")
    hole, shaft = limits_of(size, given.text("hole")), limits_of(size, given.text("shaft"), field="shaft")
    return (fit_picture(size, hole, shaft),)


FIT = Calculator(
    name="fit",
    summary="The limits of a hole and a shaft by their classes, and how loose or tight they come out.",
    purpose="Machine and finish",
    inputs=(
        Input(
            name="diameter",
            help="the nominal diameter",
            kind="length",
            unit="mm",
            above=0,
            maximum=LARGEST_MM,
            example="25 mm",
        ),
        Input(
            name="hole",
            help="the class of the hole: D to H or JS with a grade from 5 to 11",
            kind="text",
            default="H7",
        ),
        Input(
            name="shaft",
            help="the class of the shaft, d to s: f7 runs freely, g6 closely, h6 slides, p6 presses",
            kind="text",
            default="f7",
        ),
    ),
    outputs=(
        "hole_least",
        "hole_most",
        "shaft_least",
        "shaft_most",
        "clearance_least",
        "clearance_most",
        "fit",
    ),
    work=_fit,
    draw=_draw_fit,
    sources=(_ISO,),
    example={"diameter": "25 mm", "hole": "H7", "shaft": "f7"},
)
