"""Section properties: area, centroid, second moments and moduli of a section."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Result, Step, named
from calculators.calculation.result import number_text
from calculators.declared.section_inputs import SECTION_INPUTS, section_given, section_steps
from calculators.drawing.profiles import section_picture
from calculators.mechanics.sections import Section, shear_factor
from calculators.quantities.errors import InputError


def _section(given: Given) -> Section:
    section = section_given(given)
    if section is None:
        says = "Give a section, as rectangle 20 x 35 mm (width x depth), or the pieces that it is made of."
        raise InputError.of(says, field="section")
    return section


def _properties(given: Given) -> Result:
    section = _section(given)
    most, least = section.principal_mm4
    results = named(
        section_area=section.area_mm2,
        centroid_up=section.bottom_mm,
        centroid_across=section.left_mm,
        second_moment=section.second_moment_mm4,
        second_moment_side=section.side_moment_mm4,
        product_moment=section.product_mm4,
        second_moment_most=most,
        second_moment_least=least,
        principal_angle=section.principal_angle_deg,
        section_modulus_top=section.second_moment_mm4 / section.top_mm,
        section_modulus_bottom=section.second_moment_mm4 / section.bottom_mm,
        section_modulus_side=section.side_moment_mm4 / max(section.left_mm, section.right_mm),
        radius_of_gyration=section.least_gyration_mm,
        shear_factor=shear_factor(section),
    )
    half = f"({number_text(section.second_moment_mm4)} + {number_text(section.side_moment_mm4)}) / 2"
    apart = (
        f"sqrt((({number_text(section.second_moment_mm4)} - {number_text(section.side_moment_mm4)}) / 2)^2"
    )
    apart += f" + ({number_text(section.product_mm4)})^2)"
    working = (
        *section_steps(section),
        Step("I_least", "(I + I_side)/2 - sqrt(((I - I_side)/2)^2 + I_xy^2)", f"{half} - {apart}", least,
             "mm4", "Mohr's circle"),
        Step("r", "sqrt(I_least / A)", f"sqrt({number_text(least)} / {number_text(section.area_mm2)})",
             section.least_gyration_mm, "mm"),
    )  # fmt: skip
    warnings = (
        ("It is not alike left and right: under a load from above it also bends sideways.",)
        if abs(section.product_mm4) > 1e-6 * section.second_moment_mm4
        else ()
    )
    sources = ("parallel axis theorem; Machinery's Handbook, Moments of Inertia (from memory)",)
    return Result(results, working, warnings, sources)


SECTION_PROPERTIES = Calculator(
    name="section-properties",
    summary="Area, neutral axis, second moments and moduli of a section, also put together of pieces.",
    purpose="Strength and stiffness",
    inputs=SECTION_INPUTS,
    outputs=(
        "section_area",
        "centroid_up",
        "centroid_across",
        "second_moment",
        "second_moment_side",
        "product_moment",
        "second_moment_most",
        "second_moment_least",
        "principal_angle",
        "section_modulus_top",
        "section_modulus_bottom",
        "section_modulus_side",
        "radius_of_gyration",
        "shear_factor",
    ),
    work=_properties,
    either=(("section", "pieces"),),
    sources=("parallel axis theorem; Machinery's Handbook, Moments of Inertia (from memory)",),
    draw=lambda given, result: (section_picture(_section(given)),),
    example={"pieces": "rectangle, 60, 20; rectangle, 20, 40"},
)
