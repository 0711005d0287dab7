"""Tightening-torque: the torque for a preload, the preload of a torque, and the stress in the screw."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, named
from calculators.calculation.result import number_text
from calculators.drawing.strength import Bar, load_bars
from calculators.hardware.holes import clearance_hole
from calculators.hardware.nuts import nut_of
from calculators.hardware.threads import Thread, find_thread
from calculators.materials.metals import GradeStrength, grade_names, strength_of
from calculators.mechanics.bolts import (
    TorqueParts,
    combined_stress_mpa,
    preload_n,
    scatter_row,
    torque_nm,
    torque_parts,
)
from calculators.mechanics.stripping import stripping
from calculators.quantities.errors import InputError
from calculators.tables import load

METHODS = load("tightening_methods").column("method")
_HANDBOOK = "Machinery's Handbook (from memory)"
_FRICTION = "ISO 16047 and VDI 2230 (from memory)"


def _work(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    grade = _grade(given, thread)
    steps: list[Step] = []
    force, torque = _force_and_torque(given, thread, grade, steps)
    scatter = scatter_row(given.text("method"))
    share = scatter.number("scatter") / 100
    ends = (force * (1 - share), force * (1 + share))
    percent = number_text(100 * share)
    for name, sign, value in (("least", "-", ends[0]), ("most", "+", ends[1])):
        steps.append(
            Step(f"{name} preload", f"F (1 {sign} {percent} %)", "", value, "N", scatter.source.says)
        )
    parts, friction_steps = _by_friction(given, thread, force)
    tension, shear, combined = combined_stress_mpa(force, parts.shank_nm, thread.tensile_stress_area_mm2)
    factor = parts.total_nm * 1000 / (force * thread.major_mm) if force > 0 else 0.0
    results = named(torque=torque, preload=force, preload_least=ends[0], preload_most=ends[1], stress=tension)
    results |= named(
        shear_stress=shear, combined_stress=combined, torque_by_friction=parts.total_nm,
        nut_factor_by_friction=factor,
    )  # fmt: skip
    steps += [*friction_steps, *_stress_steps(thread, force, parts, (tension, shear, combined))]
    warnings: list[str] = []
    sources = [f"nut factor: T = K F d, {_HANDBOOK}", f"torque by friction: {_FRICTION}"]
    sources.append(f"scatter: {scatter.source.says}")
    if grade is not None:
        proof = grade.proof_mpa * thread.tensile_stress_area_mm2
        results |= named(
            proof_load=proof, proof_share=100 * force / proof, yield_share=100 * combined / grade.yield_mpa
        )
        sources.append(f"grade {grade.grade}: {grade.source}")
        warnings += _stress_warnings(grade, proof, ends[1], force, combined)
    warnings += _nut_warnings(given, thread, grade, force)
    return Result(results, tuple(steps), tuple(warnings), tuple(sources))


def _grade(given: Given, thread: Thread) -> GradeStrength | None:
    text = given.text_or_none("grade")
    if text is None:
        return None
    return strength_of(text, thread.major_mm)


def _force_and_torque(
    given: Given, thread: Thread, grade: GradeStrength | None, steps: list[Step]
) -> tuple[float, float]:
    force, torque = given.number_or_none("preload"), given.number_or_none("torque")
    k, d, d_text = given.number("nut_factor"), thread.major_mm, number_text(thread.major_mm)
    if force is not None and torque is not None:
        says = "Give the torque or the preload, not both: the one follows from the other."
        raise InputError.of(says, field="torque")
    if torque is not None:
        force = preload_n(torque, k, d)
        numbers = f"{number_text(torque)} N m / ({number_text(k)} x {d_text} mm)"
        steps.append(Step("F", "T / (K d)", numbers, force, "N", _HANDBOOK))
        return force, torque
    if force is None:
        if grade is None:
            says = (
                f"Give the preload, the torque, or the grade, such as 8.8; grades are "
                f"{', '.join(grade_names())}."
            )
            raise InputError.of(says, field="preload", choices=grade_names())
        area, part = thread.tensile_stress_area_mm2, given.number("proof_fraction")
        force = part * grade.proof_mpa * area
        numbers = f"{number_text(part)} x {number_text(grade.proof_mpa)} MPa x {number_text(area, 4)} mm2"
        steps.append(Step("F", "fraction x proof stress x stress area", numbers, force, "N", grade.source))
    torque = torque_nm(force, k, d)
    numbers = f"{number_text(k)} x {number_text(force)} N x {d_text} mm"
    steps.append(Step("T", "K F d", numbers, torque, "N m", _HANDBOOK))
    return force, torque


def _bearing(given: Given, thread: Thread) -> float:
    """The mean diameter of the face that turns: between the hole and the width across flats."""
    wide, hole = given.mm_or_none("head_width"), given.mm_or_none("hole")
    d = thread.major_mm
    if wide is None:
        try:
            wide = nut_of(thread.designation).across_flats_mm or 1.6 * d
        except InputError:
            wide = 1.6 * d
    if hole is None:
        try:
            hole = clearance_hole(thread, "medium").diameter_mm
        except InputError:
            hole = 1.1 * d
    if not d <= hole < wide:
        raise InputError.of(
            f"A hole of {hole:.4g} mm does not lie between the screw's {d:.4g} mm and the head's "
            f"{wide:.4g} mm.",
            field="hole",
            value=hole,
            limit=d if hole < d else wide,
            unit="mm",
        )
    return (wide + hole) / 2


def _by_friction(given: Given, thread: Thread, force: float) -> tuple[TorqueParts, list[Step]]:
    turned, thread_friction = _bearing(given, thread), given.number("thread_friction")
    head_friction = given.number("head_friction")
    parts = torque_parts(
        force,
        thread.pitch_mm,
        thread.pitch_diameter_mm,
        thread.angle_deg,
        thread_friction,
        head_friction,
        turned,
    )
    f = number_text(force)
    slope = number_text(thread.angle_deg / 2)
    steps = [
        Step("climbing the thread", "F p / (2 pi)", f"{f} N x {number_text(thread.pitch_mm)} mm / (2 pi)",
             parts.climb_nm, "N m", _FRICTION),
        Step("friction in the thread", "F m_t d2 / (2 cos(a/2))",
             f"{f} N x {number_text(thread_friction)} x {number_text(thread.pitch_diameter_mm)} mm / "
             f"(2 cos {slope} deg)", parts.thread_nm, "N m", _FRICTION),
        Step("friction under the head", "F m_h D_b / 2",
             f"{f} N x {number_text(head_friction)} x {number_text(turned)} mm / 2", parts.head_nm, "N m",
             _FRICTION),
        Step("torque by friction", "sum", "", parts.total_nm, "N m"),
    ]  # fmt: skip
    return parts, steps


def _stress_steps(
    thread: Thread, force: float, parts: TorqueParts, stresses: tuple[float, float, float]
) -> list[Step]:
    area = thread.tensile_stress_area_mm2
    return [
        Step("stress", "F / A", f"{number_text(force)} N / {number_text(area, 4)} mm2", stresses[0], "MPa",
             thread.tensile_stress_area_basis),
        Step("shear stress", "16 T_shank / (pi d_s^3)",
             f"16 x {number_text(parts.shank_nm)} N m / (pi "
             f"({number_text((4 * area / 3.14159265) ** 0.5, 5)} mm)^3)",
             stresses[1], "MPa", "d_s is the diameter of the stress area"),
        Step("combined stress", "sqrt(s^2 + 3 t^2)",
             f"sqrt(({number_text(stresses[0])} MPa)^2 + 3 ({number_text(stresses[1])} MPa)^2)", stresses[2],
             "MPa", "von Mises"),
    ]  # fmt: skip


def _stress_warnings(
    grade: GradeStrength, proof: float, most: float, force: float, combined: float
) -> Iterator[str]:
    if combined > grade.yield_mpa:
        yield (
            f"Pulled and twisted at once the screw has {combined:.0f} MPa, over its yield of "
            f"{grade.yield_mpa:.0f} MPa: it stretches for good or snaps. Use less torque."
        )
    elif force > proof:
        yield (
            f"The preload of {force:.0f} N is over the proof load of {proof:.0f} N: the screw "
            f"stretches for good."
        )
    elif most > proof:
        yield (
            f"At the upper end of the scatter the preload is {most:.0f} N, over the proof load of "
            f"{proof:.0f} N."
        )


def _nut_warnings(given: Given, thread: Thread, grade: GradeStrength | None, force: float) -> Iterator[str]:
    form = given.text("nut")
    if form == "none" or grade is None:
        return
    nut = nut_of(thread.designation, form)
    strips = stripping(thread, nut.height_mm, grade.tensile_mpa, grade.tensile_mpa)
    least = min(strips.bolt_n, strips.nut_n)
    if least < strips.break_n:
        yield (
            f"A {form} nut of {nut.height_mm:.3g} mm, as strong as the bolt, strips at about "
            f"{least:.0f} N, before "
            f"the bolt breaks at {strips.break_n:.0f} N."
        )
    if force > least:
        yield f"The preload of {force:.0f} N is more than the thread in a {form} nut bears, {least:.0f} N."


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    values = {name: one.value for name, one in result.results.items()}
    bars = [
        Bar(words, value)
        for name, words in (
            ("preload_least", "preload, least"),
            ("preload", "preload"),
            ("preload_most", "preload, most"),
            ("proof_load", "proof load"),
        )
        if isinstance(value := values.get(name), float)
    ]
    if not any(bar.value > 0 for bar in bars):
        return ()
    caption = f"Tightened by {given.text('method')}, the preload may be off by the scatter either way."
    return (load_bars(bars, title=f"Preload of {given.text('designation')}", caption=caption),)


TIGHTENING_TORQUE = Calculator(
    name="tightening-torque",
    summary="The torque that gives a bolt its preload, or the preload of a torque, and the stress in it.",
    purpose="Strength and stiffness",
    inputs=(
        Input(name="designation", help="the thread", kind="text", example="M8, 1/4 UNC or 2 BA"),
        Input(
            name="grade",
            help="the bolt's grade, for its proof load",
            kind="text",
            optional=True,
            example="8.8, A2-70, SAE 5 or brass",
        ),
        Input(
            name="proof_fraction",
            help="the part of the proof load to tighten to, where neither preload nor torque is given",
            kind="quantity",
            unit="1",
            default="0.75",
            minimum=0.05,
            maximum=1,
            example="0.75 or 75 %",
        ),
        Input(
            name="preload",
            help="or the preload wanted",
            kind="quantity",
            unit="N",
            optional=True,
            minimum=1,
            maximum=5e6,
            example="10 kN",
        ),
        Input(
            name="torque",
            help="or the torque used, to find the preload",
            kind="quantity",
            unit="N m",
            optional=True,
            minimum=0.001,
            maximum=20_000,
            example="25 N m",
        ),
        Input(
            name="nut_factor",
            help="the nut factor K: about 0.2 dry, 0.15 lightly oiled, 0.12 with molybdenum grease",
            kind="number",
            default="0.2",
            minimum=0.05,
            maximum=0.6,
        ),
        Input(
            name="method",
            help="how it is tightened, which says how far the preload may be off",
            kind="choice",
            choices=METHODS,
            synonyms=tuple((name.replace(" ", "-"), name) for name in METHODS),
            default="torque wrench dry",
        ),
        Input(
            name="thread_friction",
            help="friction in the thread, for the torque by friction beside K",
            kind="number",
            default="0.15",
            minimum=0,
            maximum=1,
        ),
        Input(
            name="head_friction",
            help="friction under the head or nut that turns",
            kind="number",
            default="0.15",
            minimum=0,
            maximum=1,
        ),
        Input(
            name="head_width",
            help="width across flats, or diameter, of what turns; left out, that of a full nut",
            kind="length",
            unit="mm",
            optional=True,
            above=0,
            maximum=200,
        ),
        Input(
            name="hole",
            help="the hole under it; left out, the medium clearance hole",
            kind="length",
            unit="mm",
            optional=True,
            above=0,
            maximum=200,
        ),
        Input(
            name="nut",
            help="a nut to check the thread of, as strong as the bolt",
            kind="choice",
            choices=("none", "full", "half"),
            synonyms=(("thin", "half"), ("lock", "half"), ("jam", "half")),
            default="none",
        ),
    ),
    outputs=(
        "torque",
        "preload",
        "preload_least",
        "preload_most",
        "stress",
        "shear_stress",
        "combined_stress",
        "proof_load",
        "proof_share",
        "yield_share",
        "torque_by_friction",
        "nut_factor_by_friction",
    ),
    either=(("preload", "torque"),),
    work=_work,
    draw=_draw,
    sources=(
        f"T = K F d: {_HANDBOOK}",
        f"torque by friction: {_FRICTION}",
        "grades: ISO 898-1, ISO 3506-1, SAE J429 as their rows say",
    ),
    cautions=(
        "A guide for the workshop, not for lifting, people, pressure or buildings: follow the "
        "maker's figures "
        "and local codes, and licensed practice where they ask for it.",
        "Screws and tools snap without warning: guard your eyes, pull towards you with a firm "
        "stance, and try "
        "small screws in scrap first.",
    ),
    example={"designation": "M8", "grade": "8.8"},
)
