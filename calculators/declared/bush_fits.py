"""Bush fit: what pressing a bush into a bore does."""

from __future__ import annotations

from functools import partial

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.materials import Material, find_material
from calculators.mechanics.fits import Elastic, Pressed, growth_mm, press_in
from calculators.quantities.errors import InputError
from calculators.tables import load

_LAME = "Lame's equations of thick cylinders (Shigley ch. 3, from memory)"
_POISSON = 0.3
_RUNNING_MM = 0.02
"""A running clearance below this is tight for a hand-made bush (common practice)."""


def _bush(given: Given) -> Result:
    bore, outside = given.mm("bore"), given.mm("bush_outside")
    inner, length = given.mm("bush_bore"), given.mm("length")
    around = given.mm_or_none("housing_outside")
    _check_bush(bore, outside, inner, around)
    bush, housing = (
        find_material(given.text("bush"), field="bush"),
        find_material(given.text("housing"), field="housing"),
    )
    give_bush, give_housing = _elastic(bush, "bush"), _elastic(housing, "housing")
    interference = max(0.0, outside - bore)
    pressed = press_in(
        interference,
        bore,
        inner,
        around if around is not None else 1000 * bore,
        length,
        give_bush,
        give_housing,
        given.number("friction"),
    )
    d, mu = number_text, given.number("friction")
    after = inner - pressed.bore_closing_mm
    working = [
        Step("interference", "bush outside - bore", f"{d(outside)} - {d(bore)} mm", outside - bore, "mm"),
        Step("Eo", f"modulus of {housing.name}", "", give_housing.modulus_mpa, "MPa"),
        Step("Ei", f"modulus of {bush.name}", "", give_bush.modulus_mpa, "MPa"),
        *_pressing_steps(inner / 2, bore / 2, around, pressed, give_bush, give_housing, outside - bore),
        Step(
            "bore after pressing",
            "bush bore - closing",
            f"{d(inner)} - {d(pressed.bore_closing_mm)} mm",
            after,
            "mm",
        ),
        Step(
            "force",
            "mu p pi D L",
            f"{d(mu)} x {d(pressed.pressure_mpa)} MPa x pi x {d(bore)} mm x {d(length)} mm",
            pressed.force_n,
            "N",
            "Coulomb friction",
        ),
    ]
    results = named(
        interference=outside - bore,
        pressure=pressed.pressure_mpa,
        bore_closing=pressed.bore_closing_mm,
        bore_after=after,
        press_force=pressed.force_n,
        bush_stress=-pressed.bush_hoop_mpa,
        housing_stress=pressed.housing_hoop_mpa,
    )
    warnings = _bush_warnings(
        outside - bore, bore, bush, housing, -pressed.bush_hoop_mpa, pressed.housing_hoop_mpa
    )
    shaft = given.mm_or_none("shaft")
    if shaft is not None:
        clearance = after - shaft
        working.append(
            Step(
                "running clearance",
                "bore after pressing - shaft",
                f"{d(after)} - {d(shaft)} mm",
                clearance,
                "mm",
            )
        )
        results |= named(running_clearance=clearance)
        if clearance < _RUNNING_MM:
            warnings.append(
                f"The shaft has {number_text(clearance, 3)} mm in the bush after pressing; 0.02 mm is little "
                "for a hand-made bearing (common practice): ream the bush, or take a thinner shaft."
            )
    warm = _warming(housing, interference, bore)
    if warm is not None:
        rise, coefficient = warm
        working.append(
            Step(
                "warming",
                "(interference + 0.001 D) / (alpha D)",
                f"({d(interference)} + 0.001 x {d(bore)}) / ({d(1e6 * coefficient)} x 10^-6 x {d(bore)})",
                rise,
                "K",
                "definition",
            )
        )
        results |= {"warming": Value(rise, "K")}
    return Result(results, tuple(working), tuple(warnings))


def _pressing_steps(
    a: float, b: float, around: float | None, pressed: Pressed, bush: Elastic, housing: Elastic, over: float
) -> tuple[Step, ...]:
    """Pressure, closing and hoop stresses, by the radii of the bush's bore and of where they meet."""
    d = number_text
    p, inside, met = d(pressed.pressure_mpa), d(a), d(b)
    c = None if around is None else around / 2
    about = 1.0 if c is None else (c**2 + b**2) / (c**2 - b**2)
    outer = "c far off" if c is None else f"({d(c)}^2 + {met}^2)/({d(c)}^2 - {met}^2)"
    within = (b**2 + a**2) / (b**2 - a**2)
    give = f"({d(about)} + {d(housing.poisson)})/{d(housing.modulus_mpa)} + "
    give += f"({d(within)} - {d(bush.poisson)})/{d(bush.modulus_mpa)}"
    pressure = f"{d(over)} / ({d(2 * b)} x ({give}))" if over > 0 else "no interference"
    closing = f"4 x {p} x {inside} x {met}^2 / ({d(bush.modulus_mpa)} x ({met}^2 - {inside}^2))"
    return (
        Step("Qo", "(c^2 + b^2)/(c^2 - b^2)", outer, about, "1", "c the radius of the housing"),
        Step("Qi", "(b^2 + a^2)/(b^2 - a^2)", f"({met}^2 + {inside}^2)/({met}^2 - {inside}^2)", within, "1",
             "b the radius where they meet, a of the bush's bore"),
        Step("p", "interference / (D ((Qo + nu_o)/Eo + (Qi - nu_i)/Ei))", pressure, pressed.pressure_mpa,
             "MPa", _LAME),
        Step("closing", "4 p a b^2 / (Ei (b^2 - a^2))", closing, pressed.bore_closing_mm, "mm", _LAME),
        Step("hoop stress, bush", "2 p b^2 / (b^2 - a^2)", f"2 x {p} x {met}^2 / ({met}^2 - {inside}^2)",
             -pressed.bush_hoop_mpa, "MPa", _LAME),
        Step("hoop stress, housing", "p Qo", f"{p} x {d(about)}", pressed.housing_hoop_mpa, "MPa", _LAME),
    )  # fmt: skip


def _check_bush(bore: float, outside: float, inner: float, around: float | None) -> None:
    if inner >= min(bore, outside):
        says = (
            f"The bush_bore of {number_text(inner)} mm is not smaller than the bush's outside and the bore; "
            "write a smaller bush_bore."
        )
        raise InputError.of(says, field="bush_bore", value=inner, limit=min(bore, outside), unit="mm")
    if around is not None and around <= bore:
        says = (
            f"The housing_outside of {number_text(around)} mm is not larger than the bore of "
            f"{number_text(bore)} mm; write the size of the metal round the bore."
        )
        raise InputError.of(says, field="housing_outside", value=around, limit=bore, unit="mm")
    if outside > 1.05 * bore:
        says = (
            f"The bush_outside of {number_text(outside)} mm is more than 5 % larger than the bore of "
            f"{number_text(bore)} mm; no bush goes in like that."
        )
        raise InputError.of(says, field="bush_outside", value=outside, limit=1.05 * bore, unit="mm")


def _elastic(material: Material, field: str) -> Elastic:
    if material.modulus_gpa is None or not (material.is_metal or material.kind == "plastic"):
        says = (
            f"{material.name} does not press like a metal; this is worked out for metals and plastics alone."
        )
        raise InputError.of(says, field=field)
    poisson = _POISSON
    if material.shear_modulus_gpa:
        poisson = min(0.45, max(0.2, material.modulus_gpa / (2 * material.shear_modulus_gpa) - 1))
    return Elastic(material.modulus_gpa * 1000, poisson)


def _bush_warnings(
    over: float, bore: float, bush: Material, housing: Material, bush_stress: float, housing_stress: float
) -> list[str]:
    warnings = []
    if over <= 0:
        warnings.append(
            "The bush is not larger than the bore: it will not hold by pressing; fix it otherwise."
        )
    elif over > 0.002 * bore:
        warnings.append(
            f"The interference is {number_text(over / bore * 1000, 3)} thousandths of the diameter; one "
            "thousandth is usual (common practice)."
        )
    for name, material, stress in (("bush", bush, bush_stress), ("housing", housing, housing_stress)):
        if material.yield_mpa is not None and stress > material.yield_mpa:
            warnings.append(
                f"The {name} yields: {number_text(stress, 3)} MPa against "
                f"{number_text(material.yield_mpa, 3)} MPa of {material.name}; then the figures hold no "
                "longer and the fit is looser than they say."
            )
    return warnings


def _warming(housing: Material, interference: float, bore: float) -> tuple[float, float] | None:
    row = load("thermal_growth").find(housing.kind)
    if row is None or interference <= 0:
        return None
    coefficient = row.number("coefficient")
    return (interference + 0.001 * bore) / growth_mm(bore, coefficient, 1.0), coefficient


_size = partial(Input, kind="length", unit="mm", above=0, maximum=500)

BUSH_FIT = Calculator(
    name="bush-fit",
    summary="What pressing a bush into a bore does: its hold, how far its own bore closes, the force.",
    purpose="Machine and finish",
    inputs=(
        _size(name="bore", help="the bore of the housing as measured", example="12 mm"),
        _size(name="bush_outside", help="the bush's outside diameter as measured", example="12.02 mm"),
        _size(name="bush_bore", help="the bush's own bore before pressing", example="8.03 mm"),
        _size(name="length", help="length of the bush in the bore", example="12 mm"),
        Input(
            name="housing_outside",
            help="outside diameter of the metal round the bore; without it the housing is thick",
            kind="length",
            unit="mm",
            above=0,
            maximum=2000,
            optional=True,
        ),
        Input(name="bush", help="material of the bush", kind="text", default="phosphor bronze"),
        Input(name="housing", help="material of the housing", kind="text", default="mild steel"),
        Input(
            name="friction",
            help="friction while pressing",
            kind="number",
            minimum=0,
            maximum=1,
            default="0.12",
        ),
        Input(
            name="shaft",
            help="the shaft that is to run in it",
            kind="length",
            unit="mm",
            above=0,
            maximum=500,
            optional=True,
        ),
    ),
    outputs=(
        "interference",
        "pressure",
        "bore_closing",
        "bore_after",
        "press_force",
        "bush_stress",
        "housing_stress",
        "running_clearance",
        "warming",
    ),
    varying=("warming",),
    work=_bush,
    sources=(_LAME, "one thousandth of the diameter, 0.02 mm of running clearance: common practice"),
    cautions=(
        "Pressing: keep the bush square, use an arbor, keep hands and eyes clear; hard parts can burst. "
        "Sintered bronze is sized with a ball or an arbor, not reamed. Hot parts need gloves and a place.",
    ),
    example={
        "bore": "12 mm",
        "bush_outside": "12.02 mm",
        "bush_bore": "8.03 mm",
        "length": "12 mm",
        "shaft": "8 mm",
    },
)
