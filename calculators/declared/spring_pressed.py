"""A compression spring: worked out step by step."""

from __future__ import annotations

from calculators.calculation import Value
from calculators.declared.spring_reading import Spring, coils_of, limit_of, modulus_step, n, sensitivity_of
from calculators.declared.spring_working import index_put_in, mass_put_in, stress_put_in
from calculators.mechanics.springs.buckling import SEATINGS, steadiness
from calculators.mechanics.springs.coils import (
    ENDS,
    check_compression,
    pitch_mm,
    solid_length_mm,
    solid_outside_mm,
)
from calculators.mechanics.springs.rates import (
    compression_rate_n_per_mm,
    lift_angle_deg,
    natural_frequency_hz,
    wire_length_mm,
    wire_mass_kg,
)
from calculators.mechanics.springs.stresses import shear_stress_mpa
from calculators.quantities.errors import InputError

LEAST_LEFT_PERCENT = 10.0
"""Travel that should be left before a spring goes solid, of all its travel (EN 13906-1, from memory)."""

STEEP_DEG = 10.0
"""Above this lift angle the plain formulas, which take the coil as flat, are too soft (common practice)."""

STEEL_DENSITY = 7850.0
"""[kg/m3] Where no material is named."""


def work_pressed(spring: Spring) -> None:
    """Work out a compression spring.

    Args:
        spring: the spring as read; its results, steps and warnings are added to it.

    Raises:
        InputError: when the lengths cannot be.

    Source: EN 13906-1; Shigley, Mechanical Engineering Design, 9th ed., chapter 10 (both from memory).
    """
    given = spring.given
    ends = given.text_or_none("ends") or "closed-and-ground"
    end = ENDS[ends]
    why = f"ends that are {end.name} take {end.dead:g} coils"
    active, total = coils_of(spring, -end.dead, why)
    rate = rate_of(spring, active)
    solid = solid_length_mm(ends, spring.wire_mm, total)
    formula, numbers = (
        ("d (n_t + 1)", f"{n(spring.wire_mm)} mm x ({n(total)} + 1)")
        if end.solid_wires
        else ("d n_t", f"{n(spring.wire_mm)} mm x {n(total)}")
    )
    spring.step("n_t", f"n + {end.dead:g}, {end.name}", f"{n(active)} + {end.dead:g}", total, "1")
    spring.step("L_c", formula, numbers, solid, "mm", "Shigley table 10-1, from memory")
    spring.results |= {"solid_length": solid, "active_coils": active, "total_coils": total}
    free, working = given.mm_or_none("free_length"), given.mm_or_none("working_length")
    if free is None:
        if working is not None:
            raise InputError.of(
                "The input free_length is missing; without it the load at a working length is not known.",
                field="free_length",
            )
        weigh(spring, active, total, 0.0, rate)
        return
    check_compression(free, solid, working)
    pitch = _shape(spring, ends, active, free)
    limit = limit_of(spring, "compression", "tau_zul", "allowed")
    if working is not None:
        _at_work(spring, rate, free, working, solid, limit)
    _at_solid(spring, rate, free - solid, pitch, limit)
    _steady(spring, free, working, free - solid)
    weigh(spring, active, total, pitch, rate)


def rate_of(spring: Spring, active: float) -> float:
    """Rate of a spring pressed or pulled, with its steps and what changes it.

    Args:
        spring: the spring as read; its results and steps are added to it.
        active: [1] active coils, above 0.

    Returns:
        The rate [N/mm].

    Source: EN 13906-1 (from memory).
    """
    modulus_step(spring)
    rate = compression_rate_n_per_mm(spring.wire_mm, spring.mean_mm, active, spring.shear_modulus_mpa)
    numbers = (
        f"{n(spring.shear_modulus_mpa)} MPa x ({n(spring.wire_mm)} mm)^4/"
        f"(8 x ({n(spring.mean_mm)} mm)^3 x {n(active)})"
    )
    spring.step("k", "G d^4/(8 D^3 n)", numbers, rate, "N/mm", "EN 13906-1, from memory")
    spring.results["rate"] = rate
    spring.results["sensitivity"] = sensitivity_of(spring, active)
    if active < 2:
        spring.warnings.append(f"With {n(active)} active coils the rate is uncertain; two or more are usual.")
    return rate


def _shape(spring: Spring, ends: str, active: float, free: float) -> float:
    """Pitch and lift angle, with their steps."""
    end = ENDS[ends]
    pitch = pitch_mm(ends, spring.wire_mm, active, free)
    less = f" - {end.wires:g} d" if end.wires else ""
    numbers = f" - {end.wires:g} x {n(spring.wire_mm)} mm" if end.wires else ""
    under, below = ("(n + 1)", f"({n(active)} + 1)") if end.pitches else ("n", n(active))
    spring.step("p", f"(L0{less})/{under}", f"({n(free)} mm{numbers})/{below}", pitch, "mm",
                "Shigley table 10-1, from memory")  # fmt: skip
    angle = lift_angle_deg(spring.mean_mm, pitch)
    spring.step("alpha", "atan(p/(pi D))", f"atan({n(pitch)} mm/(pi x {n(spring.mean_mm)} mm))", angle, "deg")
    spring.results |= {"free_length": free, "coil_pitch": pitch, "lift_angle": angle}
    if angle > STEEP_DEG:
        spring.warnings.append(
            f"The coils climb at {n(angle)} deg; above {STEEP_DEG:g} deg the formulas, which take them as "
            "flat, are less sure."
        )
    return pitch


def _at_work(
    spring: Spring, rate: float, free: float, working: float, solid: float, limit: float | None
) -> None:
    travel = free - working
    load = rate * travel
    spring.step("s", "L0 - L", f"{n(free)} mm - {n(working)} mm", travel, "mm")
    spring.step("F", "k s", f"{n(rate)} N/mm x {n(travel)} mm", load, "N")
    stress = stress_of(spring, load, limit)
    left = working - solid
    percent = 100 * left / (free - solid)
    spring.step("s_left", "L - L_c", f"{n(working)} mm - {n(solid)} mm", left, "mm")
    spring.results |= {"working_travel": travel, "load": load, "travel_left": left}
    spring.results |= {"travel_left_percent": percent}
    if percent < LEAST_LEFT_PERCENT:
        spring.warnings.append(
            f"Only {n(percent)} % of the travel is left before the coils close; leave {LEAST_LEFT_PERCENT:g}"
            " % or more."
        )
    swing = spring.given.mm_or_none("travel")
    if swing is not None:
        _swing(spring, swing, travel, left)
    spring.results["stress"] = stress


def _swing(spring: Spring, swing: float, travel: float, left: float) -> None:
    """Whether a spring that moves to and fro by `swing` goes slack or solid."""
    slack_warning(spring, swing, travel)
    if swing >= left:
        spring.warnings.append(
            f"It goes solid: it moves {n(swing)} mm further and only {n(left)} mm of travel are left."
        )


def slack_warning(spring: Spring, swing: float, travel: float) -> None:
    """Say so where a spring that moves to and fro goes slack, or nearly.

    Args:
        spring: the spring; the warning is added to it.
        swing: [mm] how far it moves each way, 0 or more.
        travel: [mm] how far it is pressed or pulled from slack, 0 or more.

    Source: pretension of at least 1.2 times the travel (common practice).
    """
    spring.step("s/s_w", "travel/movement", f"{n(travel)} mm/{n(swing)} mm", travel / swing, "1",
                "1.2 or more, common practice")  # fmt: skip
    if travel <= swing:
        says = "goes slack"
    elif travel < 1.2 * swing:
        says = "nearly goes slack"
    else:
        return
    spring.warnings.append(
        f"It {says}: it is set by {n(travel)} mm and moves {n(swing)} mm back; set it by {n(1.2 * swing)} mm "
        "(1.2 times the movement) or more."
    )


def stress_of(spring: Spring, load: float, limit: float | None) -> float:
    """Corrected stress of a spring pressed or pulled, and its share of the limit, with their steps.

    Args:
        spring: the spring; its results, steps and warnings are added to it.
        load: [N] the load, 0 or more.
        limit: [MPa] the stress that the wire may bear; None where it is not known.

    Returns:
        The stress [MPa].

    Source: EN 13906-1 (from memory), with the factor that was chosen.
    """
    name, formula, factor = spring.factor
    spring.step("K", formula, index_put_in(formula, spring.index), factor, "1", f"factor of {name}")
    stress = shear_stress_mpa(load, spring.wire_mm, spring.mean_mm, factor)
    numbers = stress_put_in(spring, load, factor)
    spring.step("tau", "K 8 F D/(pi d^3)", numbers, stress, "MPa", "EN 13906-1, from memory")
    spring.results["stress_factor"] = factor
    spring.results["stress_factor_name"] = name
    share_of_limit(spring, stress, limit, "tau", "tau_zul")
    return stress


def share_of_limit(spring: Spring, stress: float, limit: float | None, symbol: str, allowed: str) -> None:
    """Share of the limit that a stress takes, with its step, and a warning where it is too much.

    Args:
        spring: the spring; its results, steps and warnings are added to it.
        stress: [MPa] the stress, 0 or more.
        limit: [MPa] the limit; None where it is not known.
        symbol: the symbol of the stress.
        allowed: the symbol of the limit.

    Source: this project.
    """
    if limit is None:
        return
    share = 100 * stress / limit
    spring.step("share", f"{symbol}/{allowed}", f"{n(stress)} MPa/{n(limit)} MPa", share, "%")
    spring.results |= {"stress_limit": limit, "stress_share": share}
    if share > 100:
        spring.warnings.append(
            f"The stress of {n(stress)} MPa is over the {n(limit)} MPa that the wire may bear: "
            "it takes a set or breaks."
        )
    elif share > 90:
        spring.warnings.append(f"The stress is at {n(share)} % of its limit; little is in hand.")


def _at_solid(spring: Spring, rate: float, travel: float, pitch: float, limit: float | None) -> None:
    load = rate * travel
    stress = shear_stress_mpa(load, spring.wire_mm, spring.mean_mm, spring.factor[2])
    spring.step("F_c", "k (L0 - L_c)", f"{n(rate)} N/mm x {n(travel)} mm", load, "N")
    numbers = stress_put_in(spring, load, spring.factor[2])
    spring.step("tau_c", "K 8 F_c D/(pi d^3)", numbers, stress, "MPa")
    outside = solid_outside_mm(spring.wire_mm, spring.mean_mm, pitch)
    numbers = (
        f"sqrt({n(spring.mean_mm)}^2 + ({n(pitch)}^2 - {n(spring.wire_mm)}^2)/pi^2) + {n(spring.wire_mm)}"
    )
    spring.step("D_oc", "sqrt(D^2 + (p^2 - d^2)/pi^2) + d", numbers, outside, "mm",
                "EN 13906-1, from memory")  # fmt: skip
    spring.results |= {"solid_load": load, "solid_stress": stress, "outside_diameter_solid": outside}
    if limit is not None and stress > limit:
        spring.warnings.append(
            f"Pressed solid it comes to {n(stress)} MPa, over the {n(limit)} MPa that the wire may bear: "
            "it takes a set if the coils ever close."
        )


def _steady(spring: Spring, free: float, working: float | None, whole: float) -> None:
    given, seating = spring.given, spring.given.text("seating")
    ratio = spring.shear_modulus_mpa / spring.modulus_mpa
    found = steadiness(free, spring.mean_mm, ratio, seating)
    nu, words = SEATINGS[seating]
    numbers = f"{n(nu)} x {n(free)} mm/{n(spring.mean_mm)} mm; never buckles up to {n(found.limit)}"
    spring.step("nu L0/D", words, numbers, found.slenderness, "1", "EN 13906-1 (Haringx), from memory")
    spring.results |= {"slenderness": found.slenderness, "slenderness_limit": found.limit}
    critical = found.critical_travel_mm
    if critical is not None:
        formula = "L0 (0.5/(1 - G/E)) (1 - sqrt(1 - ((1 - G/E)/(0.5 + G/E)) (pi D/(nu L0))^2))"
        r = n(ratio)
        numbers = f"{n(free)} mm x (0.5/(1 - {r})) x (1 - sqrt(1 - ((1 - {r})/(0.5 + {r})) x "
        numbers += f"(pi x {n(spring.mean_mm)}/({n(nu)} x {n(free)}))^2))"
        spring.step("s_k", formula, numbers, critical, "mm", "EN 13906-1 (Haringx), from memory")
        spring.results["critical_travel"] = critical
    travel = free - working if working is not None else whole
    swing = given.mm_or_none("travel") or 0.0
    would = critical is not None and travel + swing >= critical
    if given.flag("guided"):
        says = "no: it is guided" if would else "no"
        spring.results["buckles"] = Value(False, "", says)
        if would:
            spring.warnings.append(
                "Only its guide keeps it straight: it rubs there; leave room for the larger diameter, "
                "and grease it."
            )
        return
    spring.results["buckles"] = would
    if would and critical is not None:
        to = "pressed" if working is not None else "pressed solid"
        spring.warnings.append(
            f"It buckles at a travel of {n(critical)} mm and is {to} by {n(travel + swing)} mm: guide it "
            "over a rod or in a bore, or take a shorter or wider spring."
        )


def weigh(
    spring: Spring, active: float, total: float, pitch: float, rate: float, hooks_mm: float = 0.0
) -> None:
    """Length and mass of the wire, and the frequency at which the spring surges.

    Args:
        spring: the spring; its results and steps are added to it.
        active: [1] active coils, above 0.
        total: [1] all coils, above 0.
        pitch: [mm] pitch of the active coils, 0 or more.
        rate: [N/mm] rate of the spring, above 0.
        hooks_mm: [mm] wire in the hooks, 0 or more.

    Source: geometry; Shigley, Mechanical Engineering Design, 9th ed., equation 10-25 (from memory).
    """
    density = spring.wire.density_kg_m3 if spring.wire else STEEL_DENSITY
    dead = max(0.0, total - active)
    length = wire_length_mm(spring.mean_mm, pitch, min(active, total)) + hooks_mm
    length += wire_length_mm(spring.mean_mm, spring.wire_mm, dead)
    mass = wire_mass_kg(spring.wire_mm, length, density)
    around = f"(pi x {n(spring.mean_mm)} mm)^2"
    numbers = f"{n(min(active, total))} x sqrt({around} + ({n(pitch)} mm)^2)"
    numbers += f" + {n(dead)} x sqrt({around} + ({n(spring.wire_mm)} mm)^2)" if dead else ""
    numbers += f" + {n(hooks_mm)} mm" if hooks_mm else ""
    formula = "n sqrt((pi D)^2 + p^2) + n_end sqrt((pi D)^2 + d^2)" if dead else "n sqrt((pi D)^2 + p^2)"
    spring.step("l", f"{formula} + hooks" if hooks_mm else formula, numbers, length, "mm")
    spring.step("m", "rho (pi/4) d^2 l", mass_put_in(spring, density, length), 1000 * mass, "g",
                "" if spring.wire else "steel assumed")  # fmt: skip
    lively = wire_mass_kg(spring.wire_mm, wire_length_mm(spring.mean_mm, pitch, active), density)
    frequency = natural_frequency_hz(rate, lively)
    spring.step("f", "(1/2) sqrt(k/m), active coils, both ends held",
                f"(1/2) sqrt({n(1000 * rate)} N/m/{n(lively)} kg)", frequency, "Hz",
                "Shigley 10-25, from memory")  # fmt: skip
    spring.results |= {"wire_length": length, "mass": mass, "natural_frequency": frequency}
