"""A torsion spring: worked out step by step."""

from __future__ import annotations

from math import pi

from calculators.calculation import Value
from calculators.declared.spring_pressed import STEEL_DENSITY, share_of_limit
from calculators.declared.spring_reading import Spring, coils_of, limit_of, modulus_step, n, sensitivity_of
from calculators.declared.spring_working import index_put_in, mass_put_in
from calculators.mechanics.springs.coils import wound_mean_mm
from calculators.mechanics.springs.rates import (
    leg_coils,
    torsion_rate_n_mm_per_deg,
    winding_frequency_hz,
    wire_length_mm,
    wire_mass_kg,
)
from calculators.mechanics.springs.stresses import bending_stress_mpa
from calculators.quantities.errors import InputError


def work_wound(spring: Spring) -> None:
    """Work out a torsion spring.

    Args:
        spring: the spring as read; its results, steps and warnings are added to it.

    Raises:
        InputError: when the coils, the length or the rod within cannot be.

    Source: EN 13906-3; Shigley, Mechanical Engineering Design, 9th ed., section 10-12 (both from memory).
    """
    given, wire, mean = spring.given, spring.wire_mm, spring.mean_mm
    legs = given.mm_or_none("legs") or 0.0
    more = leg_coils(mean, legs)
    active, body = coils_of(spring, more, f"the legs count as {n(more)} coils")
    if legs:
        spring.step("n", "n_b + l/(3 pi D), the legs bend too",
                    f"{n(body)} + {n(legs)} mm/(3 pi x {n(mean)} mm)", active, "1",
                    "Shigley 10-48, from memory")  # fmt: skip
    modulus_step(spring)
    rate = torsion_rate_n_mm_per_deg(wire, mean, active, spring.modulus_mpa)
    numbers = f"{n(spring.modulus_mpa)} MPa x ({n(wire)} mm)^4/(64 x {n(mean)} mm x {n(active)}) x pi/180"
    spring.step("k", "E d^4/(64 D n) x pi/180", numbers, rate, "N mm/deg", "EN 13906-3, from memory")
    solid = (body + 1) * wire
    spring.step("L_c", "(n_b + 1) d", f"({n(body)} + 1) x {n(wire)} mm", solid, "mm")
    free = given.mm_or_none("free_length")
    if free is not None and free < solid - 1e-9:
        raise InputError.of(
            f"The free length of {free:.6g} mm is under the {solid:.6g} mm of the closed coils; "
            "write a longer one, thinner wire or fewer coils.",
            field="free_length",
            value=free,
            limit=solid,
            unit="mm",
        )
    spring.results |= {
        "rate": Value(rate, "N mm/deg"),
        "solid_length": solid,
        "free_length": free if free is not None else solid,
        "active_coils": active,
        "total_coils": body,
        "sensitivity": sensitivity_of(spring, active),
        "buckles": Value(None, "", "not worked out for a torsion spring; carry a long one on a rod"),
    }
    turned = given.number_or_none("working_angle")
    if turned is not None:
        _at_work(spring, rate, active, body, turned, free if free is not None else solid)
    rod = given.mm_or_none("mandrel")
    if rod is not None and turned is None:
        _rod(spring, rod, mean - wire)
    _weigh(spring, active, body, legs, rate)


def _at_work(spring: Spring, rate: float, active: float, body: float, turned: float, free: float) -> None:
    given, wire = spring.given, spring.wire_mm
    moment = rate * turned
    spring.step("M", "k theta", f"{n(rate)} N mm/deg x {n(turned)} deg", moment, "N mm")
    spring.results |= {"winding_moment": moment, "turns": turned / 360}
    arm = given.mm_or_none("arm")
    if arm is not None:
        spring.step("F", "M/r", f"{n(moment)} N mm/{n(arm)} mm", moment / arm, "N")
        spring.results["load"] = moment / arm
    name, formula, factor = spring.factor
    spring.step("K", formula, index_put_in(formula, spring.index), factor, "1", f"factor of {name}")
    stress = bending_stress_mpa(moment, wire, factor)
    spring.step("sigma", "K 32 M/(pi d^3), inside of the coil",
                f"{n(factor)} x 32 x {n(moment)} N mm/(pi x ({n(wire)} mm)^3)", stress, "MPa",
                "EN 13906-3, from memory")  # fmt: skip
    spring.results |= {"stress": stress, "stress_factor": factor, "stress_factor_name": name}
    limit = limit_of(spring, "torsion", "sigma_zul", "bending: allowed")
    share_of_limit(spring, stress, limit, "sigma", "sigma_zul")
    if limit is not None:
        most = limit * pi * wire**3 / (32 * factor) / rate
        numbers = f"pi x ({n(wire)} mm)^3 x {n(limit)} MPa/(32 x {n(factor)} x {n(rate)} N mm/deg)"
        spring.step("theta_zul", "pi d^3 sigma_zul/(32 K k)", numbers, most, "deg")
        spring.results["longest_angle"] = most
    of_body = turned * body / active
    mean = wound_mean_mm(spring.mean_mm, body, of_body)
    spring.step("D'", "D n_b/(n_b + theta_b/360)",
                f"{n(spring.mean_mm)} mm x {n(body)}/({n(body)} + {n(of_body)} deg/360)", mean, "mm",
                "Shigley 10-51, from memory")  # fmt: skip
    spring.results["inside_diameter_wound"] = mean - wire
    longer = free + of_body / 360 * wire
    spring.step(
        "L", "L0 + d theta_b/360", f"{n(free)} mm + {n(wire)} mm x {n(of_body)} deg/360", longer, "mm"
    )
    spring.results["wound_length"] = longer
    rod = given.mm_or_none("mandrel")
    if rod is not None:
        _rod(spring, rod, mean - wire)
    if mean <= wire:
        spring.warnings.append("Wound so far the coil is no wider than its wire: it jams long before.")


def _rod(spring: Spring, rod: float, inside: float) -> None:
    """Room between the rod and the coil as it is wound."""
    free_inside = spring.mean_mm - spring.wire_mm
    if rod >= free_inside:
        raise InputError.of(
            f"A rod of {rod:.6g} mm does not go into the coil of {free_inside:.6g} mm inside; "
            f"write a mandrel under {free_inside:.6g} mm.",
            field="mandrel",
            value=rod,
            limit=free_inside,
            unit="mm",
        )
    room = inside - rod
    spring.step("room", "D_i - rod", f"{n(inside)} mm - {n(rod)} mm", room, "mm")
    spring.results["mandrel_clearance"] = room
    if room <= 0:
        spring.warnings.append(
            f"It binds on the rod: wound up, the coil is {n(inside)} mm inside and the rod {n(rod)} mm."
        )
    elif room < 0.02 * inside:
        spring.warnings.append(f"Only {n(room)} mm of room is left about the rod; it may bind.")


def _weigh(spring: Spring, active: float, body: float, legs: float, rate: float) -> None:
    density = spring.wire.density_kg_m3 if spring.wire else STEEL_DENSITY
    coils = wire_length_mm(spring.mean_mm, spring.wire_mm, body)
    length = coils + legs
    mass = wire_mass_kg(spring.wire_mm, length, density)
    numbers = f"{n(body)} x sqrt((pi x {n(spring.mean_mm)} mm)^2 + ({n(spring.wire_mm)} mm)^2) + {n(legs)} mm"
    spring.step("l", "n_b sqrt((pi D)^2 + d^2) + l_legs", numbers, length, "mm")
    spring.step("m", "rho (pi/4) d^2 l", mass_put_in(spring, density, length), 1000 * mass, "g",
                "" if spring.wire else "steel assumed")  # fmt: skip
    lively = wire_mass_kg(spring.wire_mm, coils, density)
    frequency = winding_frequency_hz(rate, lively, spring.mean_mm)
    inertia = lively * spring.mean_mm**2 / 4
    spring.step("f", "(1/2) sqrt(k/I), I = m (D/2)^2, both legs held",
                f"(1/2) sqrt({n(rate * 180 / pi / 1000)} N m/({n(inertia)} x 10^-6 kg m2))",
                frequency, "Hz", "this project")  # fmt: skip
    spring.results |= {"wire_length": length, "mass": mass, "natural_frequency": frequency}
