"""Beam: how far a beam bends, its stress, and what section would do."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Result, Step, named
from calculators.calculation.result import Value, number_text
from calculators.declared.beam_brackets import bracket_steps
from calculators.declared.beam_inputs import BEAM_INPUTS
from calculators.declared.beam_reading import Asked, asked_of
from calculators.declared.beam_warnings import beam_warnings
from calculators.declared.put_in import put_in
from calculators.declared.section_inputs import section_steps
from calculators.drawing.beams import beam_pictures
from calculators.mechanics.beams.cases import Laid, standard_case
from calculators.mechanics.beams.line import Bent, bend

CAUTIONS = (
    "Guidance for workshop decisions: not for floors, stairs, scaffolds, lifting or anything that carries "
    "people. There the local building code and a licensed engineer come first.",
    "Test the real thing with more than its load, close to the ground, before it is relied upon.",
)


def bent(asked: Asked) -> Bent:
    """Bend the beam that was asked for, by its brackets.

    Args:
        asked: the beam as read.

    Returns:
        How it bends.

    Source: as `calculators.mechanics.beams.line`.
    """
    stiffness = asked.stuff.modulus_mpa * asked.stiff.second_moment_mm4
    return bend(asked.whole_mm, asked.supports, asked.all_loads, stiffness)


def _beam(given: Given) -> Result:
    asked = asked_of(given)
    beam = bent(asked)
    sag = abs(beam.deflection.value)
    lasting = sag * asked.creep
    moment = abs(beam.moment.value)
    modulus, allowed = asked.stiff.modulus_mm3, asked.allowed_mpa
    stress = None if modulus is None else moment / modulus
    needed = asked.stiff.second_moment_mm4 * lasting / asked.limit_mm
    results: dict[str, object] = {
        "deflection": beam.deflection.value + 0.0,
        "bending_stress": stress,
        "deflection_at": beam.deflection.at_mm,
        "deflection_long_term": lasting,
        "deflection_limit": asked.limit_mm,
        "bending_moment": beam.moment.value / 1000,
        "bending_moment_at": beam.moment.at_mm,
        "shear_force": abs(beam.shear.value),
        "reactions": _reactions(beam),
        "second_moment": asked.stiff.second_moment_mm4,
        "section_modulus": modulus,
        "allowed_stress": allowed,
        "stress_share": None if stress is None or allowed is None else 100 * stress / allowed,
        "second_moment_needed": needed,
        "depth_needed": depth_needed(asked, lasting, stress),
        "shear_deflection": _sheared(asked, beam),
        "self_weight": asked.weight_n,
        "self_weight_deflection": asked.weight_sag_mm,
    }
    known = {name: value for name, value in results.items() if value is not None}
    return Result(
        named(**known),  # type: ignore[arg-type]
        _working(asked, beam, stress, lasting, needed),
        beam_warnings(asked, beam, known),
        (f"{asked.stuff.name}: {asked.stuff.modulus_source}", "beam tables: Machinery's Handbook, Stresses "
         "and Deflections in Beams; Roark, table 8.1 (from memory)"),
    )  # fmt: skip


def depth_needed(asked: Asked, lasting_mm: float, stress_mpa: float | None) -> float | None:
    """The depth of a plain section of the same width that would keep both limits.

    Args:
        asked: the beam as read.
        lasting_mm: [mm] how far it bends in the long run.
        stress_mpa: [MPa] its stress, where known.

    Returns:
        The depth [mm], of a round or square its one size; None for other sections.

    Source: deflection goes with 1/h^3 and stress with 1/h^2, of a round with 1/d^4 and 1/d^3.
    """
    section = asked.stiff.section
    if section is None or len(section.pieces) != 1:
        return None
    size = 0 if section.pieces[0].shape == "rectangle" and not section.name.startswith("square") else 1
    by = (lasting_mm / asked.limit_mm) ** (1 / (3 + size))
    if stress_mpa is not None and asked.allowed_mpa is not None:
        by = max(by, (stress_mpa / asked.allowed_mpa) ** (1 / (2 + size)))
    return section.depth_mm * float(by)


def _reactions(beam: Bent) -> Value:
    rows = [
        {"at": each.at_mm, "reaction": each.force_n, "holding_moment": each.moment_n_mm / 1000}
        for each in beam.reactions
    ]
    words = [
        f"{number_text(abs(each.force_n))} N {'up' if each.force_n >= 0 else 'down'} at "
        f"{number_text(each.at_mm)} mm"
        + (f", with a moment of {number_text(abs(each.moment_n_mm) / 1000)} N m" if each.moment_n_mm else "")
        for each in beam.reactions
    ]
    return Value(rows, "mm", "\n".join(words))


def _sheared(asked: Asked, beam: Bent) -> float | None:
    """What shearing adds to the greatest deflection."""
    stiffness = asked.shear_stiffness_n
    if stiffness is None:
        return None
    whole = bend(
        asked.whole_mm,
        asked.supports,
        asked.all_loads,
        asked.stuff.modulus_mpa * asked.stiff.second_moment_mm4,
        shear_stiffness_n=stiffness,
        samples=2,
    )
    return abs(whole.deflection.value) - abs(beam.deflection.value)


def _working(
    asked: Asked, beam: Bent, stress: float | None, lasting: float, needed: float
) -> tuple[Step, ...]:
    e, i = asked.stuff.modulus_mpa, asked.stiff.second_moment_mm4
    steps = list(section_steps(asked.stiff.section)) if asked.stiff.section else []
    if not asked.stiff.section:
        steps.append(Step("I", "as given", "", i, "mm4"))
    steps.append(
        Step("E", f"{asked.stuff.name}", f"{number_text(e / 1000)} GPa", e, "MPa", asked.stuff.short_source)
    )
    steps += _table_steps(asked, beam)
    if stress is not None and asked.stiff.modulus_mm3 is not None:
        numbers = f"{number_text(abs(beam.moment.value))} N mm / {number_text(asked.stiff.modulus_mm3)} mm3"
        steps.append(Step("stress", "M / Z", numbers, stress, "MPa"))
    if asked.allowed_mpa is not None:
        steps.append(
            Step("stress allowed", asked.allowed_words, asked.allowed_numbers, asked.allowed_mpa, "MPa",
                 asked.allowed_source)
        )  # fmt: skip
    steps.append(
        Step("d in the long run", "creep x d", f"{number_text(asked.creep)} x "
             f"{number_text(abs(beam.deflection.value))} mm", lasting, "mm", asked.creep_source),
    )  # fmt: skip
    numbers = f"{number_text(asked.span_mm)} mm / {number_text(asked.limit_over)}"
    steps.append(Step("d allowed", "L / limit", numbers, asked.limit_mm, "mm", "common practice"))
    numbers = f"{number_text(i)} mm4 x {number_text(lasting)} / {number_text(asked.limit_mm)}"
    steps.append(Step("I needed", "I x d in the long run / d allowed", numbers, needed, "mm4"))
    return tuple(steps)


def _table_steps(asked: Asked, beam: Bent) -> list[Step]:
    """Deflection and moment: by the tables' formula where they have one, else as the brackets give them."""
    laid = asked.laid
    case = None if asked.weighed else standard_case(asked.support, asked.kind, laid)
    if case is None:
        return list(bracket_steps(asked, beam))
    values = _letters(asked, laid)
    source = "beam tables, from memory"
    return [
        Step("d", case.deflection_words, put_in(case.deflection_words, values), case.deflection(laid), "mm",
             source),
        Step("M", case.moment_words, put_in(case.moment_words, values), case.moment(laid) / 1000, "N m",
             source),
    ]  # fmt: skip


def _letters(asked: Asked, laid: Laid) -> dict[str, float]:
    """The letters of the tables' formulas with their numbers, in N and mm."""
    near, far = sorted((laid.a, laid.span - laid.a))
    return {
        {"spread": "W", "moment": "M0"}.get(asked.kind, "P"): laid.load,
        "L": laid.span, "a": laid.a, "b": laid.span - laid.a, "c": laid.overhang, "n": near, "f": far,
        "E": asked.stuff.modulus_mpa, "I": asked.stiff.second_moment_mm4,
    }  # fmt: skip


BEAM = Calculator(
    name="beam",
    summary="How far a beam, rail or bar bends under its load, its stress, and what depth would do.",
    purpose="Strength and stiffness",
    inputs=BEAM_INPUTS,
    outputs=(
        "deflection",
        "bending_stress",
        "deflection_at",
        "deflection_long_term",
        "deflection_limit",
        "bending_moment",
        "bending_moment_at",
        "shear_force",
        "reactions",
        "second_moment",
        "section_modulus",
        "allowed_stress",
        "stress_share",
        "second_moment_needed",
        "depth_needed",
        "shear_deflection",
        "self_weight",
        "self_weight_deflection",
    ),
    work=_beam,
    either=(("section", "pieces", "second_moment"), ("material", "modulus")),
    sources=(
        "beam tables: Machinery's Handbook; Roark, Formulas for Stress and Strain, table 8.1 (from memory)",
        "moduli and strengths of wood: USDA Wood Handbook, table 5-3; creep: ch. 5",
        "limit of span/300: common practice",
    ),
    cautions=CAUTIONS,
    draw=lambda given, result: beam_pictures(bent(asked_of(given)), asked_of(given).sketch),
    example={
        "support": "simply-supported",
        "load": "100 N",
        "span": "600 mm",
        "section": "rectangle 200 x 12 mm",
        "material": "European oak",
    },
)
