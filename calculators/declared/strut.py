"""Strut: the load at which a rod, post or batten pushed at its ends bends out sideways."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import Value, number_text
from calculators.declared.section_inputs import MATERIAL_INPUTS, SECTION_INPUTS, section_given, stuff_given
from calculators.drawing.profiles import section_picture
from calculators.mechanics.sections import Section
from calculators.mechanics.struts import ENDS, WOOD_CRUSHING, Strut, effective_share, strut_of
from calculators.mechanics.stuff import Stuff
from calculators.quantities.errors import InputError

_WOOD_FACTOR, _METAL_FACTOR = 3.0, 2.0


def _asked(given: Given) -> tuple[Section, Stuff, float, str]:
    """Section, material, the strength it is crushed at, and where that is from."""
    section, stuff = section_given(given), stuff_given(given)
    if section is None:
        raise InputError.of("Give a section, as round 10 mm or rectangle 20 x 35 mm.", field="section")
    strength, source = stuff.strength_mpa, stuff.strength_name
    if strength is None:
        says = "No strength is known here of that material; give its yield or crushing strength as strength."
        raise InputError.of(says, field="strength")
    if stuff.wood and given.number_or_none("strength") is None:
        says = (
            f"{WOOD_CRUSHING:g} x modulus of rupture (common practice; Wood Handbook table 5-3, from memory)"
        )
        return section, stuff, strength * WOOD_CRUSHING, says
    return section, stuff, strength, source


def _strut(given: Given) -> Result:
    section, stuff, strength, strength_source = _asked(given)
    share = effective_share(given.text("ends"), advised=given.text("effective") == "advised")
    length = given.mm("length")
    least = section.principal_mm4[1]
    strut = strut_of(stuff.modulus_mpa, strength, section.area_mm2, least, share * length)
    chosen = given.number_or_none("factor")
    factor = chosen if chosen is not None else _WOOD_FACTOR if stuff.wood else _METAL_FACTOR
    allowed, load = strut.buckling_n / factor, given.number_or_none("load")
    results = named(
        buckling_load=strut.buckling_n,
        buckling_rule=strut.rule,
        allowed_load=allowed,
        **({} if load is None else {"load_share": Value(100 * load / allowed, "%")}),
        euler_load=strut.euler_n,
        rankine_load=strut.rankine_n,
        squash_load=strut.squash_n,
        effective_length=strut.effective_mm,
        slenderness_ratio=strut.slenderness,
        euler_from=strut.slenderness_limit,
        second_moment_least=least,
        radius_of_gyration=section.least_gyration_mm,
    )
    working = _working(section, stuff, strength, strength_source, share, length, strut, factor, allowed)
    warnings = tuple(_warnings(strut, load, allowed))
    return Result(results, working, warnings, (f"{stuff.name}: {stuff.modulus_source}",))


def _working(
    section: Section, stuff: Stuff, strength: float, strength_source: str, share: float, length: float,
    strut: Strut, factor: float, allowed: float,
) -> tuple[Step, ...]:  # fmt: skip
    e, least, area = stuff.modulus_mpa, section.principal_mm4[1], section.area_mm2
    s, ratio = number_text(strength), number_text(strut.slenderness)
    steps = [
        Step("A", section.name, "", area, "mm2"),
        Step("I", "least second moment", "", least, "mm4"),
        Step("r", "sqrt(I / A)", f"sqrt({number_text(least)} / {number_text(area)})",
             section.least_gyration_mm, "mm"),
        Step("E", stuff.name, f"{number_text(e / 1000)} GPa", e, "MPa", stuff.short_source),
        Step("s", "strength", strength_source, strength, "MPa"),
        Step("K L", "K x length", f"{number_text(share)} x {number_text(length)} mm", strut.effective_mm,
             "mm", "AISC 360 commentary, table C-A-7.1, from memory"),
        Step("lambda", "K L / r", f"{number_text(strut.effective_mm)} / "
             f"{number_text(section.least_gyration_mm)}", strut.slenderness, "1"),
        Step("Euler from", "pi sqrt(2 E / s)", f"pi x sqrt(2 x {number_text(e)} / {s})",
             strut.slenderness_limit, "1"),
        Step("Euler", "pi^2 E I / (K L)^2", f"pi^2 x {number_text(e)} x {number_text(least)} / "
             f"{number_text(strut.effective_mm)}^2", strut.euler_n, "N"),
    ]  # fmt: skip
    if strut.johnson_n is not None:
        numbers = f"{s} x {number_text(area)} x (1 - {s} x {ratio}^2 / (4 pi^2 x {number_text(e)}))"
        steps.append(
            Step("Johnson", "s A (1 - s lambda^2 / (4 pi^2 E))", numbers, strut.johnson_n, "N", "from memory")
        )
    steps += [
        Step("Rankine", "1 / (1/(s A) + 1/Euler)", f"1 / (1/{number_text(strut.squash_n)} + "
             f"1/{number_text(strut.euler_n)})", strut.rankine_n, "N", "from memory"),
        Step("allowed", f"{strut.rule} / factor",
             f"{number_text(strut.buckling_n)} N / {number_text(factor)}", allowed, "N",
             "factor: common practice"),
    ]  # fmt: skip
    return tuple(steps)


def _warnings(strut: Strut, load: float | None, allowed: float) -> Iterator[str]:
    if load is not None and load > allowed:
        yield f"The load of {number_text(load)} N is more than the {number_text(allowed, 4)} N allowed."
    if strut.slenderness > 200:
        yield (
            f"The slenderness ratio is {number_text(strut.slenderness, 3)}, over 200: so slender a strut "
            "sags and shakes (common practice)."
        )
    yield (
        "This is of a straight strut pushed along its axis. A bend of a thousandth of its length or a push "
        "beside the axis takes much of it."
    )


STRUT = Calculator(
    name="strut",
    summary="The load at which a rod, post or batten pushed at its ends bends out sideways or is crushed.",
    purpose="Strength and stiffness",
    inputs=(
        Input(
            name="length",
            help="length between its ends",
            kind="length",
            unit="mm",
            above=0,
            maximum=20000,
            example="500 mm",
        ),
        Input(
            name="ends",
            help="how its two ends are held; a guided end cannot turn but can move aside",
            kind="choice",
            choices=tuple(ENDS),
            synonyms=(
                ("both-pinned", "pinned"),
                ("hinged", "pinned"),
                ("both-fixed", "fixed"),
                ("free", "fixed-and-free"),
                ("flagpole", "fixed-and-free"),
            ),
            default="pinned",
        ),
        Input(
            name="effective",
            help="effective length as theory has it, or as advised for real ends, which give a little",
            kind="choice",
            choices=("theory", "advised"),
            default="theory",
        ),
        *SECTION_INPUTS,
        *MATERIAL_INPUTS,
        Input(
            name="load",
            help="the load, to compare",
            kind="quantity",
            unit="N",
            minimum=0,
            maximum=1e9,
            optional=True,
        ),
        Input(
            name="factor",
            help="failing load over the load allowed; without it 3 for wood, 2 for the rest",
            kind="number",
            minimum=1,
            maximum=100,
            optional=True,
        ),
    ),
    outputs=(
        "buckling_load",
        "buckling_rule",
        "allowed_load",
        "load_share",
        "euler_load",
        "rankine_load",
        "squash_load",
        "effective_length",
        "slenderness_ratio",
        "euler_from",
        "second_moment_least",
        "radius_of_gyration",
    ),
    work=_strut,
    either=(("section", "pieces"), ("material", "modulus")),
    sources=(
        "Euler; J. B. Johnson's parabola; Rankine: Machinery's Handbook, Columns (from memory)",
        "effective lengths: AISC 360 commentary, table C-A-7.1 (from memory)",
    ),
    cautions=(
        "Guidance for workshop decisions: a strut fails at once and without a sign. Nothing that people "
        "stand under or on, and nothing for lifting or buildings: there codes and a licensed engineer come "
        "first.",
    ),
    draw=lambda given, result: (section_picture(_asked(given)[0], wood=_asked(given)[1].wood),),
    example={
        "length": "500 mm",
        "section": "round 10 mm",
        "material": "mild steel",
        "load": "1 kN",
    },
)
