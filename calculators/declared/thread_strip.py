"""Thread-strip: whether the bolt breaks or a thread strips, and the engagement that is needed."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.drawing.strength import Bar, load_bars
from calculators.hardware.threads import Thread, find_thread
from calculators.materials import find_material
from calculators.materials.metals import engagement_of, grade_names, strength_of
from calculators.mechanics.stripping import Stripping, stripping
from calculators.quantities.errors import InputError

NUT_MATERIALS = {
    "steel": "mild steel",
    "stainless": "stainless steel",
    "brass": "brass CW614N",
    "bronze": "phosphor bronze PB102",
    "aluminium": "aluminium 6082",
    "cast iron": "cast iron",
    "threaded insert": "brass CW614N",
}
"""What each choice of the nut's metal stands for in the table of materials; an insert is of brass."""

_TABLE = ("steel", "brass", "aluminium", "cast iron", "threaded insert")
_FED = "FED-STD-H28/2B"


def _work(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    bolt, bolt_words = _bolt(given, thread)
    nut, nut_words, kind = _nut(given)
    share, bending = given.number("shear_share"), given.flag("alexander")
    width = given.mm_or_none("nut_width")
    engaged = given.mm("engagement")
    found = stripping(thread, engaged, bolt, nut, shear_share=share, bending=bending, nut_width_mm=width)
    table = _engagements(thread, bolt, share, bending)
    d = thread.major_mm
    results = named(
        fails_first=found.first,
        engagement_needed=found.needed_mm,
        engagement_in_diameters=found.needed_mm / d,
        strip_load_bolt=found.bolt_n,
        strip_load_nut=found.nut_n,
        break_load=found.break_n,
        shear_area_bolt=found.bolt_area_mm2,
        shear_area_nut=found.nut_area_mm2,
        tensile_stress_area=thread.tensile_stress_area_mm2,
        engagements=Value(
            table, "mm", "\n".join(f"{name}: {number_text(length, 3)} mm" for name, length in table.items())
        ),
    )
    rule = engagement_of(kind) if kind else None
    if rule is not None:
        results |= named(engagement_rule=rule * d)
    sources = (
        f"areas: {_FED}, {found.extremes.basis}",
        f"bolt: {bolt_words}",
        f"nut: {nut_words}",
        f"stress area: {thread.tensile_stress_area_basis}",
    )
    steps = _steps(thread, found, bolt, nut, share, engaged)
    return Result(results, steps, _warnings(given, thread, found, rule), sources)


def _bolt(given: Given, thread: Thread) -> tuple[float, str]:
    own, grade = given.number_or_none("bolt_strength"), given.text_or_none("bolt_grade")
    if (own is None) == (grade is None):
        says = (
            "Give the bolt_strength or the bolt_grade, not both."
            if own is not None
            else f"Give the bolt_strength in MPa or the bolt_grade; grades are {', '.join(grade_names())}."
        )
        raise InputError.of(says, field="bolt_strength", choices=() if own is not None else grade_names())
    if own is not None:
        return own, f"{number_text(own)} MPa as given"
    assert grade is not None
    strength = strength_of(grade, thread.major_mm, field="bolt_grade")
    return strength.tensile_mpa, f"grade {strength.grade}, {strength.source}"


def _nut(given: Given) -> tuple[float, str, str]:
    """The nut's tensile strength, words for it, and its kind of metal where that is known."""
    own, named_metal = given.number_or_none("nut_strength"), given.text_or_none("nut_material")
    if (own is None) == (named_metal is None):
        says = (
            "Give the nut_strength or the nut_material, not both."
            if own is not None
            else "Give the nut_strength in MPa or the nut_material."
        )
        raise InputError.of(says, field="nut_strength")
    if own is not None:
        return own, f"{number_text(own)} MPa as given", ""
    assert named_metal is not None
    material = find_material(NUT_MATERIALS[named_metal])
    assert material.tensile_mpa is not None
    return material.tensile_mpa, f"{material.name}, {material.sources[0]}", material.kind


def _engagements(thread: Thread, bolt: float, share: float, bending: bool) -> dict[str, float]:
    """The engagement needed for this bolt in each of the usual metals [mm]."""
    found = {}
    for name in _TABLE:
        strength = find_material(NUT_MATERIALS[name]).tensile_mpa
        assert strength is not None
        found[name] = stripping(thread, 1.0, bolt, strength, shear_share=share, bending=bending).needed_mm
    return found


def _steps(
    thread: Thread, found: Stripping, bolt: float, nut: float, share: float, engaged: float
) -> tuple[Step, ...]:
    e, p = found.extremes, number_text(thread.pitch_mm)
    area, length, x = number_text(thread.tensile_stress_area_mm2, 4), number_text(engaged), number_text(share)
    kn, es, ds, en = (
        number_text(each, 5) for each in (e.minor_nut_mm, e.pitch_screw_mm, e.major_screw_mm, e.pitch_nut_mm)
    )
    half = number_text(thread.angle_deg / 2)
    bolt_text, nut_text = number_text(bolt), number_text(nut)
    steps = [
        Step("break load", "A_t R_b", f"{area} mm2 x {bolt_text} MPa", found.break_n, "N",
             thread.tensile_stress_area_basis),
        Step("K_n", "greatest minor diameter of the nut", "", e.minor_nut_mm, "mm", e.basis),
        Step("E_s", "least pitch diameter of the bolt", "", e.pitch_screw_mm, "mm"),
        Step("D_s", "least major diameter of the bolt", "", e.major_screw_mm, "mm"),
        Step("E_n", "greatest pitch diameter of the nut", "", e.pitch_nut_mm, "mm"),
        Step("A_bolt", "pi K_n L / p (p/2 + (E_s - K_n) tan(a/2))",
             f"pi x {kn} mm x {length} mm / {p} mm x ({p} mm / 2 + ({es} - {kn}) mm x tan {half} deg)",
             found.bolt_area_mm2, "mm2", f"{_FED}, eq. 4a"),
        Step("A_nut", "pi D_s L / p (p/2 + (D_s - E_n) tan(a/2))",
             f"pi x {ds} mm x {length} mm / {p} mm x ({p} mm / 2 + ({ds} - {en}) mm x tan {half} deg)",
             found.nut_area_mm2, "mm2", f"{_FED}, eq. 2a"),
    ]  # fmt: skip
    for name, value in (("C bolt", found.bolt_factor), ("C nut", found.nut_factor)):
        if value != 1:
            numbers = f"strength ratio {number_text(found.ratio, 4)}"
            source = "Alexander 1977 (from memory)"
            steps.append(Step(name, "Alexander's factor", numbers, value, "1", source))
    times = {name: "" if each == 1 else f"{number_text(each, 4)} x "
             for name, each in (("bolt", found.bolt_factor), ("nut", found.nut_factor))}  # fmt: skip
    basis = "shear taken as half the tensile strength" if share == 0.5 else f"shear taken as {x} of tensile"
    steps += [
        Step("strip load, bolt", "C x R_b A_bolt",
             f"{times['bolt']}{x} x {bolt_text} MPa x {number_text(found.bolt_area_mm2)} mm2",
             found.bolt_n, "N",
             basis),
        Step("strip load, nut", "C x R_n A_nut",
             f"{times['nut']}{x} x {nut_text} MPa x {number_text(found.nut_area_mm2)} mm2", found.nut_n, "N",
             basis),
        Step("engagement needed", "L (break load) / (lesser strip load)",
             f"{length} mm x {number_text(found.break_n)} N / "
             f"{number_text(min(found.bolt_n, found.nut_n))} N",
             found.needed_mm, "mm", f"{_FED}, eqs. 14 and 16"),
    ]  # fmt: skip
    return tuple(steps)


def _warnings(given: Given, thread: Thread, found: Stripping, rule: float | None) -> tuple[str, ...]:
    engaged, d = given.mm("engagement"), thread.major_mm
    warnings = []
    if engaged < found.needed_mm - 1e-9:
        warnings.append(
            f"{engaged:.3g} mm of thread strips before the bolt breaks, which gives no warning; "
            f"{found.needed_mm:.3g} mm is needed."
        )
    if engaged < thread.pitch_mm:
        warnings.append("Less than one turn of thread is engaged.")
    if rule is not None and engaged < rule * d - 1e-9:
        warnings.append(
            f"The bench rule asks {rule:g} D of thread in this metal, {rule * d:.3g} mm; here it is "
            f"{engaged / d:.2f} D."
        )
    if found.needed_mm > 3 * d:
        warnings.append(
            f"More than 3 D of thread ({found.needed_mm / d:.1f} D) does not share its load "
            "evenly: use a stronger "
            "metal or an insert."
        )
    if given.text_or_none("nut_material") == "threaded insert":
        warnings.append(
            "This is the thread inside the insert; its outside thread in the piece about it must "
            "hold as well."
        )
    if given.mm_or_none("nut_width") is not None and not given.flag("alexander"):
        warnings.append("The nut_width counts only with Alexander's factors.")
    return tuple(warnings)


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    loads = {}
    for name in ("break_load", "strip_load_bolt", "strip_load_nut"):
        value = result.results[name].value
        assert isinstance(value, float)
        loads[name] = value
    least = min(loads.values())
    words = {
        "break_load": "the bolt breaks",
        "strip_load_bolt": "the bolt's thread strips",
        "strip_load_nut": "the nut's thread strips",
    }
    broken = loads["break_load"] <= least * (1 + 1e-12)
    bars = [Bar(words[name], value, wrong=not broken and value == least) for name, value in loads.items()]
    title = f"What gives way first: {given.text('designation')}"
    caption = f"First {result.results['fails_first'].value}."
    return (load_bars(bars, title=title, caption=caption),)


THREAD_STRIP = Calculator(
    name="thread-strip",
    summary="Whether a bolt breaks or its thread strips, and the thread engagement that is needed.",
    purpose="Strength and stiffness",
    inputs=(
        Input(name="designation", help="the thread", kind="text", example="M5, 1/2-13 UNC or 2 BA"),
        Input(
            name="engagement",
            help="the length of full thread engaged",
            kind="length",
            unit="mm",
            above=0,
            maximum=500,
            example="6 mm",
        ),
        Input(
            name="bolt_strength",
            help="the bolt's tensile strength",
            kind="quantity",
            unit="MPa",
            optional=True,
            minimum=10,
            maximum=2500,
            example="800 MPa",
        ),
        Input(name="bolt_grade", help="or its grade", kind="text", optional=True, example="8.8"),
        Input(
            name="nut_strength",
            help="the tensile strength of the nut or the tapped part",
            kind="quantity",
            unit="MPa",
            optional=True,
            minimum=10,
            maximum=2500,
            example="310 MPa",
        ),
        Input(
            name="nut_material",
            help="or its metal: mild steel, free-cutting brass, aluminium 6082 and so on",
            kind="choice",
            choices=tuple(NUT_MATERIALS),
            synonyms=(
                ("aluminum", "aluminium"),
                ("insert", "threaded insert"),
                ("mild-steel", "steel"),
                ("cast-iron", "cast iron"),
                ("threaded-insert", "threaded insert"),
            ),
            optional=True,
        ),
        Input(
            name="shear_share",
            help="shear strength of the tensile strength: 0.5 by the rule, 0.577 to 0.6 in ductile metals",
            kind="number",
            default="0.5",
            minimum=0.3,
            maximum=1,
        ),
        Input(
            name="alexander",
            help="whether to take Alexander's factors for bending threads",
            kind="flag",
            optional=True,
        ),
        Input(
            name="nut_width",
            help="the nut's width across flats, for Alexander's factor of a nut that spreads",
            kind="length",
            unit="mm",
            optional=True,
            above=0,
            maximum=300,
        ),
    ),
    outputs=(
        "strip_load_bolt",
        "strip_load_nut",
        "break_load",
        "engagement_needed",
        "engagement_in_diameters",
        "engagement_rule",
        "fails_first",
        "shear_area_bolt",
        "shear_area_nut",
        "tensile_stress_area",
        "engagements",
    ),
    either=(("bolt_strength", "bolt_grade"), ("nut_strength", "nut_material")),
    work=_work,
    draw=_draw,
    sources=(
        f"areas and lengths: {_FED} (1991) as a general library works it; Machinery's Handbook",
        "limits of the threads: ISO 965-1, ASME B1.1, BS 84, BS 93 (from memory)",
        "bending of threads: Alexander, SAE 770420 (1977), as in VDI 2230 (from memory)",
    ),
    cautions=(
        "A guide for the workshop, not for lifting, people, pressure or buildings: local codes and licensed "
        "practice come first.",
    ),
    example={"designation": "M5", "engagement": "6 mm", "bolt_grade": "8.8", "nut_material": "steel"},
)
