"""Screw-twist-off: the torque that twists a screw's head off, and how hard it may be driven."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, named
from calculators.calculation.result import number_text
from calculators.drawing.strength import Bar, load_bars
from calculators.hardware.nominal import nominal_of
from calculators.hardware.threads import find_thread
from calculators.hardware.wood_screws import ROOT_OF_SHANK, SERIES, wood_screw
from calculators.materials.metals import strength_of
from calculators.mechanics.screw_surroundings import metal_row
from calculators.mechanics.twisting import (
    DRIVING_SHARE,
    SHEAR_OF_TENSILE,
    breaking_row,
    twist_off_most_nm,
    twist_off_nm,
)
from calculators.quantities.errors import InputError

_METALS = ("steel", "hardened steel", "stainless", "brass")


@dataclass(frozen=True, slots=True)
class _Root:
    """The root that shears, how it is known, its shear strength, and the published torque if there is one."""

    mm: float
    words: str
    shear: float
    shear_words: str
    published: float | None = None
    published_words: str = ""


def _root(given: Given) -> _Root:
    named_by = [name for name in ("gauge", "designation", "diameter", "root") if given.get(name) is not None]
    if len(named_by) != 1:
        says = "Give one of gauge (wood screw), designation (machine screw), diameter (shank) or root."
        raise InputError.of(says, field=named_by[1] if named_by else "gauge")
    own, grade = given.number_or_none("shear_strength"), given.text_or_none("grade")
    if named_by[0] == "designation":
        return _machine(given, own, grade)
    if grade is not None:
        says = "A grade is of machine screws; give the metal of a wood screw."
        raise InputError.of(says, field="grade")
    row = metal_row(given.text("metal"))
    shear = own if own is not None else row.number("shear")
    shear_words = "as given" if own is not None else row.source.says
    if named_by[0] == "gauge":
        screw = wood_screw(given.text("gauge"), given.text("standard"))
        return _Root(screw.root_mm, screw.root_basis, shear, shear_words)
    if named_by[0] == "diameter":
        words = "root about 2/3 of the shank (Wood Handbook ch. 8)"
        return _Root(ROOT_OF_SHANK * given.mm("diameter"), words, shear, shear_words)
    return _Root(given.mm("root"), "as given", shear, shear_words)


def _machine(given: Given, own: float | None, grade: str | None) -> _Root:
    thread = find_thread(given.text("designation"), field="designation")
    words = f"core of the screw, {thread.form.source}"
    if own is not None:
        return _Root(thread.core_diameter_mm, words, own, "as given")
    metal = given.text("metal")
    kind = {"stainless": "stainless steel"}.get(metal, metal)
    strength = strength_of(grade or ("12.9" if metal == "hardened steel" else ""), thread.major_mm, kind=kind)
    shear = SHEAR_OF_TENSILE * strength.tensile_mpa
    shear_words = f"{SHEAR_OF_TENSILE:g} of {strength.tensile_mpa:g} MPa, grade {strength.grade}"
    shear_words += f", {strength.source}"
    coarse = thread.system == "ISO metric coarse"
    row = breaking_row(strength.grade, nominal_of(thread.designation).name) if coarse else None
    if row is None:
        return _Root(thread.core_diameter_mm, words, shear, shear_words)
    return _Root(thread.core_diameter_mm, words, shear, shear_words, row.number("torque"), row.source.says)


def _work(given: Given) -> Result:
    root = _root(given)
    skin, whole = twist_off_nm(root.mm, root.shear), twist_off_most_nm(root.mm, root.shear)
    drive = DRIVING_SHARE * skin
    d, t = number_text(root.mm, 5), number_text(root.shear)
    steps = [
        Step("d", "root diameter", "", root.mm, "mm", root.words),
        Step("t", "shear strength", "", root.shear, "MPa", root.shear_words),
        Step("twist-off, first", "pi d^3 t / 16", f"pi x ({d} mm)^3 x {t} MPa / 16", skin, "N m",
             "the skin reaches t"),
        Step("twist-off, at most", "pi d^3 t / 12", f"pi x ({d} mm)^3 x {t} MPa / 12", whole, "N m",
             "the whole root shears"),
        Step("driving, at most", "2/3 first", f"2/3 x {number_text(skin)} N m", drive, "N m",
             "EN 14592 asks 1.5 (from memory)"),
    ]  # fmt: skip
    results = named(
        twist_off_torque=skin, twist_off_most=whole, driving_torque_most=drive, root_diameter=root.mm
    )
    sources = [f"root: {root.words}", f"shear strength: {root.shear_words}"]
    if root.published is not None:
        results |= named(breaking_torque=root.published)
        sources.append(f"breaking torque: {root.published_words}")
    return Result(results, tuple(steps), _warnings(given, skin, drive), tuple(sources))


def _warnings(given: Given, skin: float, drive: float) -> tuple[str, ...]:
    found = []
    torque, wood = given.number_or_none("driving_torque"), given.text_or_none("designation") is None
    if torque is not None and torque >= skin:
        found.append(f"{torque:g} N m twists the screw off: its root goes at {skin:.2g} N m.")
    elif torque is not None and torque > drive:
        found.append(
            f"{torque:g} N m is {100 * torque / skin:.0f} % of the twist-off torque; two thirds, "
            f"{drive:.2g} N m, "
            "leaves a margin."
        )
    if skin < 1.0:
        found.append(
            f"At {skin:.2g} N m it takes no more than the fingers: drive it by hand, never with a "
            "powered driver."
        )
    if wood and given.text("metal") in ("brass", "stainless"):
        found.append(
            "In hardwood drive a steel screw of the same size first, take it out, wax, then this one by hand."
        )
    return tuple(found)


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    bars = []
    torque = given.number_or_none("driving_torque")
    first = result.results["twist_off_torque"].value
    assert isinstance(first, float)
    if torque is not None:
        bars.append(Bar("driving torque", torque, wrong=torque >= first))
    for name, words in (
        ("driving_torque_most", "driving, at most"),
        ("twist_off_torque", "twist-off, first"),
        ("twist_off_most", "twist-off, at most"),
        ("breaking_torque", "least by the standard"),
    ):
        value = result.results[name].value if name in result.results else None
        if isinstance(value, float):
            bars.append(Bar(words, value))
    caption = f"The root begins to go at {first:.2g} N m."
    return (load_bars(bars, title="Torque that twists the screw off", unit="N m", caption=caption),)


SCREW_TWIST_OFF = Calculator(
    name="screw-twist-off",
    summary="The torque that twists a screw off at its root, and how hard it may be driven.",
    purpose="Strength and stiffness",
    inputs=(
        Input(
            name="gauge",
            help="a wood screw's number, or its diameter in the metric series",
            kind="text",
            optional=True,
            example="No. 4",
        ),
        Input(
            name="standard",
            help="which series the gauge is of",
            kind="choice",
            choices=SERIES,
            default="inch-us",
        ),
        Input(
            name="designation",
            help="or a machine screw's thread",
            kind="text",
            optional=True,
            example="M3 or 4 BA",
        ),
        Input(
            name="diameter",
            help="or a wood screw's shank",
            kind="length",
            unit="mm",
            optional=True,
            above=0.3,
            maximum=30,
        ),
        Input(
            name="root",
            help="or the root itself",
            kind="length",
            unit="mm",
            optional=True,
            above=0.2,
            maximum=40,
        ),
        Input(
            name="metal",
            help="the screw's metal",
            kind="choice",
            choices=_METALS,
            synonyms=(("hardened-steel", "hardened steel"), ("stainless-steel", "stainless")),
            default="steel",
        ),
        Input(
            name="grade",
            help="a machine screw's grade; left out, the weakest of its metal",
            kind="text",
            optional=True,
            example="8.8 or A2-70",
        ),
        Input(
            name="shear_strength",
            help="the shear strength, where you know it",
            kind="quantity",
            unit="MPa",
            optional=True,
            minimum=5,
            maximum=1500,
        ),
        Input(
            name="driving_torque",
            help="the torque it is driven with, to compare",
            kind="quantity",
            unit="N m",
            optional=True,
            above=0,
            maximum=1000,
            example="0.5 N m",
        ),
    ),
    outputs=("twist_off_torque", "twist_off_most", "driving_torque_most", "breaking_torque", "root_diameter"),
    either=(("gauge", "designation", "diameter", "root"),),
    work=_work,
    draw=_draw,
    sources=(
        "T = pi d^3 t / 16 to pi d^3 t / 12: mechanics",
        "breaking torques: ISO 898-7 (from memory), ISO 3506-1 (read from a supplier's table)",
    ),
    cautions=(
        "A guide for the workshop: screws of one box differ, and a blow of a powered driver "
        "counts more than its "
        "torque. Guard your eyes: heads fly.",
    ),
    example={"designation": "M5", "grade": "A2-70"},
)
