"""An extension spring: worked out step by step."""

from __future__ import annotations

from math import pi

from calculators.calculation import Value
from calculators.declared.spring_pressed import rate_of, slack_warning, stress_of, weigh
from calculators.declared.spring_reading import Spring, coils_of, limit_of, n
from calculators.declared.spring_working import stress_put_in
from calculators.mechanics.springs.coils import HOOKS, extension_free_length_mm, hook_coils
from calculators.mechanics.springs.stresses import (
    bending_factor,
    hook_bending_stress_mpa,
    hook_torsion_stress_mpa,
    load_at_stress_n,
    shear_stress_mpa,
    usual_initial_stress_mpa,
)
from calculators.quantities.errors import InputError

BEND_WIRES = 2.0
"""Mean radius of the bend from coil to hook, in diameters of the wire, where it is not given (C2 = 4)."""


def work_pulled(spring: Spring) -> None:
    """Work out an extension spring.

    Args:
        spring: the spring as read; its results, steps and warnings are added to it.

    Raises:
        InputError: when the lengths or the hooks cannot be.

    Source: EN 13906-2; Shigley, Mechanical Engineering Design, 9th ed., section 10-11 (both from memory).
    """
    given = spring.given
    ends = given.text_or_none("ends") or "centre-hook"
    more = hook_coils(ends, spring.shear_modulus_mpa, spring.modulus_mpa)
    active, body = coils_of(spring, more, f"the hooks count as {n(more)} coils")
    if more:
        numbers = f"{n(body)} + {n(spring.shear_modulus_mpa / 1000)} GPa/{n(spring.modulus_mpa / 1000)} GPa"
        spring.step("n", "n_b + G/E, the hooks bend too", numbers, active, "1", "Shigley 10-40, from memory")
    rate = rate_of(spring, active)
    solid = (body + 1) * spring.wire_mm
    spring.step("L_c", "(n_b + 1) d, body with its coils touching",
                f"({n(body)} + 1) x {n(spring.wire_mm)} mm", solid, "mm")  # fmt: skip
    spring.results |= {"solid_length": solid, "active_coils": active, "total_coils": body}
    free = _free_length(spring, ends, body, solid)
    initial = _initial_tension(spring)
    working = given.mm_or_none("working_length")
    if working is not None:
        _at_work(spring, ends, rate, free, working, initial)
    spring.results["buckles"] = Value(False, "", "no: it is pulled")
    weigh(spring, active, body, spring.wire_mm, rate, 2 * pi * spring.mean_mm if HOOKS[ends].bent else 0.0)


def _free_length(spring: Spring, ends: str, body: float, solid: float) -> float:
    """The free length inside the hooks, given or that of a close-wound body with loops of its own size."""
    free = spring.given.mm_or_none("free_length")
    if free is None:
        free = extension_free_length_mm(ends, spring.wire_mm, spring.mean_mm, body)
        inside = n(spring.mean_mm - spring.wire_mm)
        spring.step("L0", "2 h D_i + (n_b + 1) d, inside the hooks",
                    f"2 x {HOOKS[ends].inside:g} x {inside} mm + {n(solid)} mm", free, "mm",
                    "Shigley 10-39, from memory")  # fmt: skip
        spring.warnings.append(
            f"No free length was given: {n(free)} mm inside the hooks is reckoned, with loops of "
            "the coil's size."
        )
    elif free < solid - 1e-9:
        raise InputError.of(
            f"The free length of {free:.6g} mm is under the {solid:.6g} mm of the closed body; "
            "write the length inside the hooks, thinner wire or fewer coils.",
            field="free_length",
            value=free,
            limit=solid,
            unit="mm",
        )
    spring.results["free_length"] = free
    return free


def _initial_tension(spring: Spring) -> float:
    """The initial tension, beside the range that winding usually leaves."""
    given = spring.given.number_or_none("initial_tension")
    low, high = (
        load_at_stress_n(stress, spring.wire_mm, spring.mean_mm, 1.0)
        for stress in usual_initial_stress_mpa(spring.index)
    )
    initial = 0.0 if given is None else given
    stress = shear_stress_mpa(initial, spring.wire_mm, spring.mean_mm)
    spring.step("F_i", "as given" if given is not None else "none given", "", initial, "N",
                f"usual for this index {n(low)} to {n(high)} N, Shigley 10-41, from memory")  # fmt: skip
    spring.step("tau_i", "8 F_i D/(pi d^3), uncorrected", stress_put_in(spring, initial), stress, "MPa")
    spring.results |= {
        "initial_tension": initial,
        "initial_stress": stress,
        "initial_tension_usual": Value([low, high], "N", f"{n(low)} to {n(high)} N"),
    }
    if given is None:
        spring.warnings.append(
            f"No initial tension was given, so none is reckoned; a close-wound spring of this index usually "
            f"has {n(low)} to {n(high)} N."
        )
    elif not low <= initial <= high and initial > 0:
        spring.warnings.append(
            f"The initial tension of {n(initial)} N is outside the {n(low)} to {n(high)} N that is usually "
            "wound at this index."
        )
    return initial


def _at_work(spring: Spring, ends: str, rate: float, free: float, working: float, initial: float) -> None:
    travel = working - free
    spring.step("s", "L - L0", f"{n(working)} mm - {n(free)} mm", travel, "mm")
    if travel <= 0:
        spring.warnings.append(
            f"It is slack: it works at {n(working)} mm and is {n(free)} mm long without load."
        )
        load = 0.0
        spring.step("F", "slack", "", load, "N")
    else:
        load = initial + rate * travel
        spring.step("F", "F_i + k s", f"{n(initial)} N + {n(rate)} N/mm x {n(travel)} mm", load, "N")
    limit = limit_of(spring, "body", "tau_zul", "body: allowed")
    spring.results |= {"working_travel": max(0.0, travel), "load": load}
    spring.results["stress"] = stress_of(spring, load, limit)
    if limit is not None:
        most = load_at_stress_n(limit, spring.wire_mm, spring.mean_mm, spring.factor[2])
        reach = max(0.0, most - initial) / rate
        spring.step("L_max", "L0 + (F_zul - F_i)/k, F_zul = pi d^3 tau_zul/(8 K D)",
                    f"{n(free)} mm + ({n(most)} N - {n(initial)} N)/{n(rate)} N/mm"
                    if most > initial else f"F_zul = {n(most)} N is not over F_i",
                    free + reach, "mm")  # fmt: skip
        spring.results |= {"longest_length": free + reach, "travel_left": free + reach - working}
    if HOOKS[ends].bent:
        _hooks(spring, load)
    if ends == "side-hook" and load > 0:
        spring.warnings.append(
            "A hook at the side pulls off the axis: the stress in the body rises towards twice that given."
        )
    swing = spring.given.mm_or_none("travel")
    if swing is not None and travel > 0:
        slack_warning(spring, swing, travel)
        reach = rate * (travel + swing) + initial
        if limit is not None and shear_stress_mpa(
            reach, spring.wire_mm, spring.mean_mm, spring.factor[2]
        ) > limit:  # fmt: skip
            spring.warnings.append(
                f"Pulled {n(swing)} mm further it bears {n(reach)} N, which overstretches the body."
            )


def _hooks(spring: Spring, load: float) -> None:
    """Bending and torsion of the hooks, where extension springs break first."""
    given, wire = spring.given, spring.wire_mm
    r1 = given.mm_or_none("hook_radius") or spring.mean_mm / 2
    r2 = given.mm_or_none("hook_bend_radius") or BEND_WIRES * wire
    for name, radius in (("hook_radius", r1), ("hook_bend_radius", r2)):
        if radius < 0.75 * wire:
            raise InputError.of(
                f"A {name.replace('_', ' ')} of {radius:.6g} mm is too sharp for wire of {wire:.6g} mm; "
                f"write {0.75 * wire:.6g} mm or more, to the middle of the wire.",
                field=name,
                value=radius,
                limit=0.75 * wire,
                unit="mm",
            )
    bending = hook_bending_stress_mpa(load, wire, spring.mean_mm, r1)
    torsion = hook_torsion_stress_mpa(load, wire, spring.mean_mm, r2)
    c1, c2 = 2 * r1 / wire, 2 * r2 / wire
    in_bending, in_torsion = bending_factor(c1), (4 * c2 - 1) / (4 * c2 - 4)
    formula = "(4 C1^2 - C1 - 1)/(4 C1 (C1 - 1)), C1 = 2 r1/d"
    spring.step("K_A", formula, f"(4 x {n(c1)}^2 - {n(c1)} - 1)/(4 x {n(c1)} x ({n(c1)} - 1))", in_bending,
                "1", "Shigley 10-35, from memory")  # fmt: skip
    spring.step("K_B", "(4 C2 - 1)/(4 C2 - 4), C2 = 2 r2/d", f"(4 x {n(c2)} - 1)/(4 x {n(c2)} - 4)",
                in_torsion, "1", "Shigley 10-37, from memory")  # fmt: skip
    bent = f"{n(in_bending)} x 16 x {n(spring.mean_mm)} mm/(pi x ({n(wire)} mm)^3)"
    formulas = (
        ("sigma_A", "F (K_A 16 D/(pi d^3) + 4/(pi d^2))",
         f"{n(load)} N x ({bent} + 4/(pi x ({n(wire)} mm)^2))", bending,
         "Shigley 10-34, from memory", "hook_bending", "sigma_zul"),
        ("tau_B", "K_B 8 F D/(pi d^3)", stress_put_in(spring, load, in_torsion), torsion,
         "Shigley 10-36, from memory", "hook_torsion", "tau_zul,B"),
    )  # fmt: skip
    for symbol, formula, numbers, stress, source, use, allowed in formulas:
        spring.step(symbol, formula, numbers, stress, "MPa", source)
        spring.results[f"{use}_stress"] = stress
        limit = limit_of(spring, "hook_bending" if use == "hook_bending" else "hook_torsion", allowed,
                         "hook: allowed")  # fmt: skip
        if limit is None:
            continue
        spring.results[f"{use}_share"] = 100 * stress / limit
        if stress > limit:
            words = "bending" if use == "hook_bending" else "torsion"
            spring.warnings.append(
                f"The hook is over its limit in {words}: {n(stress)} MPa of {n(limit)} MPa. Hooks break "
                "first; take a larger bend, a smaller last coil or less load."
            )
