"""What every kind of spring is read from: wire, diameters, coils, material."""

from __future__ import annotations

from dataclasses import dataclass, field

from calculators.calculation import Given, Step
from calculators.calculation.result import Plain, Value, number_text
from calculators.mechanics.springs.changes import rate_changes
from calculators.mechanics.springs.rates import spring_index
from calculators.mechanics.springs.stresses import BENDING_FACTORS, SHEAR_FACTORS
from calculators.mechanics.springs.wires import CYCLES, SpringWire, Use, allowed_percent, spring_wire
from calculators.quantities.errors import InputError

POISSON = 0.3
"""Poisson's ratio where only one modulus is given (usual for metals, common practice)."""

USUAL_INDEX, WOUND_INDEX = (4.0, 12.0), (3.0, 16.0)
"""The index that is easily wound, and that which can be wound at all (EN 13906-1, from memory)."""


@dataclass(slots=True)
class Spring:
    """A spring as read, and what has been worked out of it so far."""

    given: Given
    kind: str
    wire_mm: float
    mean_mm: float
    shear_modulus_mpa: float
    modulus_mpa: float
    wire: SpringWire | None
    results: dict[str, Value | float | bool | str] = field(default_factory=dict)
    steps: list[Step] = field(default_factory=list)
    warnings: list[str] = field(default_factory=list)
    sources: list[str] = field(default_factory=list)

    @property
    def index(self) -> float:
        """Mean diameter by wire."""
        return self.mean_mm / self.wire_mm

    @property
    def factor(self) -> tuple[str, str, float]:
        """The factor for curvature: its name, its formula, its value."""
        factors = BENDING_FACTORS if self.kind == "torsion" else SHEAR_FACTORS
        name, formula, function = factors[self.given.text("factor")]
        return name, formula, function(self.index)

    def step(
        self, symbol: str, formula: str, numbers: str, value: float, unit: str, source: str = ""
    ) -> None:
        """Write down one step of the working."""
        self.steps.append(Step(symbol, formula, numbers, value, unit, source))


def n(value: float) -> str:
    """Write a number within a step.

    Args:
        value: a finite number.

    Returns:
        The number to five figures.

    Source: this project.

    Example:
        >>> n(4.9743652)
        '4.9744'
    """
    return number_text(value, 5)


def read_spring(given: Given) -> Spring:
    """Read what all kinds of springs have.

    Args:
        given: the inputs of the calculator.

    Returns:
        The spring, with the first steps of its working.

    Raises:
        InputError: when diameters contradict each other, or nothing says how stiff the wire is.

    Source: this project.
    """
    wire_mm = given.mm("wire")
    mean_mm, how = _mean_mm(given, wire_mm)
    spring_index(wire_mm, mean_mm)
    shear, modulus, wire = _moduli(given, wire_mm)
    spring = Spring(given, given.text("kind"), wire_mm, mean_mm, shear, modulus, wire)
    if how:
        spring.step(*how)
    index = spring.index
    spring.step("C", "D/d", f"{n(mean_mm)} mm/{n(wire_mm)} mm", index, "1", "EN 13906-1, from memory")
    low, high = USUAL_INDEX
    if not low <= index <= high:
        hard = not WOUND_INDEX[0] <= index <= WOUND_INDEX[1]
        says = "hardly any winder can make it" if hard else "it is hard to wind and to keep true"
        spring.warnings.append(f"The index D/d is {n(index)}, outside the usual 4 to 12: {says}.")
    spring.results |= {
        "spring_index": index,
        "mean_diameter": mean_mm,
        "outside_diameter": mean_mm + wire_mm,
        "inside_diameter": mean_mm - wire_mm,
    }
    return spring


def _mean_mm(given: Given, wire_mm: float) -> tuple[float, tuple[str, str, str, float, str] | None]:
    names = ("mean_diameter", "outside_diameter", "inside_diameter")
    said = [name for name in names if given.get(name) is not None]
    if len(said) != 1:
        had = "none is given" if not said else f"{' and '.join(said)} are given"
        says = f"Write one of mean_diameter, outside_diameter and inside_diameter; {had}."
        raise InputError.of(says, field=said[1] if said else "mean_diameter", choices=names)
    size = given.mm(said[0])
    if said[0] == "mean_diameter":
        return size, None
    sign, side = (-1, "D_o - d") if said[0] == "outside_diameter" else (1, "D_i + d")
    mean = size + sign * wire_mm
    if mean <= wire_mm:
        raise InputError.of(
            f"An outside diameter of {size:.6g} mm cannot be wound of wire of {wire_mm:.6g} mm; "
            f"write one over {2 * wire_mm:.6g} mm.",
            field=said[0],
            value=size,
            limit=2 * wire_mm,
            unit="mm",
        )
    word = "-" if sign < 0 else "+"
    return mean, ("D", side, f"{n(size)} mm {word} {n(wire_mm)} mm", mean, "mm")


def _moduli(given: Given, wire_mm: float) -> tuple[float, float, SpringWire | None]:
    """Shear modulus and modulus [MPa], and the wire where its material is named."""
    material = given.text_or_none("material")
    wire = spring_wire(material, wire_mm) if material else None
    shear, modulus = given.number_or_none("shear_modulus"), given.number_or_none("modulus")
    shear = 1000 * shear if shear is not None else wire.shear_modulus_mpa if wire else None
    modulus = 1000 * modulus if modulus is not None else wire.modulus_mpa if wire else None
    if shear is None and modulus is None:
        needed = "modulus" if given.text("kind") == "torsion" else "shear_modulus"
        says = f"Nothing says how stiff the wire is; write its material, or its {needed}."
        raise InputError.of(says, field="material")
    if shear is None:
        assert modulus is not None
        shear = modulus / (2 * (1 + POISSON))
    modulus = shear * 2 * (1 + POISSON) if modulus is None else modulus
    if shear >= modulus:
        raise InputError.of(
            f"The shear modulus of {shear / 1000:.6g} GPa is not under the modulus of "
            f"{modulus / 1000:.6g} GPa; for metals it is about 0.38 of it.",
            field="shear_modulus",
            value=shear / 1000,
            limit=modulus / 1000,
            unit="GPa",
        )
    return shear, modulus, wire


def modulus_step(spring: Spring) -> None:
    """Write down the modulus that the rate is worked out with, and where it is from.

    Args:
        spring: the spring; the step and the source are added to it.

    Source: table `spring_wire_moduli`.
    """
    winds = spring.kind == "torsion"
    symbol, name = ("E", "modulus") if winds else ("G", "shear_modulus")
    value = (spring.modulus_mpa if winds else spring.shear_modulus_mpa) / 1000
    stated = spring.given.number_or_none(name) is not None
    if stated or spring.wire is None:
        other = "" if stated else ("from G" if winds else "from E") + f", Poisson's ratio {POISSON} assumed"
        spring.step(symbol, "as given" if stated else other, "", value, "GPa")
    else:
        what = f"{spring.wire.name} of {n(spring.wire_mm)} mm"
        spring.step(symbol, what, "", value, "GPa", spring.wire.modulus_source)
        spring.sources.append(f"moduli: {spring.wire.modulus_source}")


def coils_of(spring: Spring, more: float, why: str) -> tuple[float, float]:
    """The active coils and the counted ones, from whichever was given.

    Args:
        spring: the spring.
        more: [1] how many more are active than are counted; below 0 where end coils are dead.
        why: that in words, for a refusal.

    Returns:
        Active coils and counted coils [1], both above 0.

    Raises:
        InputError: when both or neither are given, or none would be left.

    Source: this project.
    """
    active, total = spring.given.number_or_none("active_coils"), spring.given.number_or_none("total_coils")
    if (active is None) == (total is None):
        had = "both are given" if active is not None else "neither is given"
        says = f"Write one of active_coils and total_coils; {had}."
        raise InputError.of(says, field="active_coils", choices=("active_coils", "total_coils"))
    if active is None:
        assert total is not None
        active = total + more
    else:
        total = active - more
    short, value = ("active_coils", active) if total > 0 else ("total_coils", total)
    if active <= 0 or total <= 0:
        given_name = (
            "total_coils" if spring.given.number_or_none("total_coils") is not None else "active_coils"
        )
        says = f"That leaves {n(value)} {short.replace('_', ' ')}, since {why}; write more coils."
        raise InputError.of(says, field=given_name, value=value, limit=0.0)
    return active, total


def limit_of(spring: Spring, use: Use, symbol: str, allowed: str) -> float | None:
    """The stress that the wire may bear in one use; None where its strength is not known.

    Args:
        spring: the spring; steps, warnings and sources are added to it.
        use: where the stress is.
        symbol: the symbol of the limit.
        allowed: what it is the limit of, in words.

    Returns:
        The limit [MPa], or None.

    Source: tables `spring_wire_strengths`, `spring_wires` and `spring_wire_cycles`.
    """
    tensile = tensile_of(spring)
    if tensile is None:
        return None
    cycles = spring.given.text("cycles")
    material = spring.wire.name if spring.wire else "music-wire"
    stated = (
        spring.given.number_or_none("allowed_share") if use in ("compression", "body", "torsion") else None
    )
    share = stated if stated is not None else allowed_percent(material, use, CYCLES[cycles])
    source = "as given" if stated is not None else _share_source(use, cycles)
    numbers = f"{n(share)} % x {n(tensile)} MPa"
    spring.step(symbol, f"{allowed} share x R_m", numbers, share / 100 * tensile, "MPa", source)
    return share / 100 * tensile


def _share_source(use: Use, cycles: str) -> str:
    if cycles in ("static", "10000"):
        if use == "hook_torsion":
            return "carbon steel 35 %, common practice; others Shigley table 10-7, from memory"
        return "Shigley tables 10-6, 10-7 and section 10-12, from memory"
    return f"share for {int(cycles):,} times, table spring_wire_cycles, from memory".replace(",000", " 000")


def tensile_of(spring: Spring) -> float | None:
    """The least tensile strength of the wire, with its step the first time it is asked for.

    Args:
        spring: the spring; the step, or a warning that no strength is known, is added to it.

    Returns:
        The strength [MPa], or None.

    Source: table `spring_wire_strengths`.
    """
    wire, stated = spring.wire, spring.given.number_or_none("tensile_strength")
    found = stated if stated is not None else wire.tensile_mpa if wire else None
    if "tensile_strength" in spring.results:
        return found
    if found is None:
        if _no_strength(wire) not in spring.warnings:
            spring.warnings.append(_no_strength(wire))
        return None
    if stated is None and wire is not None:
        spring.step("R_m", f"{wire.tensile_formula} for {wire.name}", f"d = {n(spring.wire_mm)} mm", found,
                    "MPa", wire.tensile_source)  # fmt: skip
        spring.sources.append(f"tensile strength: {wire.tensile_source}")
    else:
        spring.step("R_m", "as given", "", found, "MPa")
    if wire is None:
        spring.warnings.append("No material is named, so the shares of cold-drawn steel wire are used.")
    spring.results["tensile_strength"] = found
    return found


def _no_strength(wire: SpringWire | None) -> str:
    if wire is None:
        return "No material is named, so the stress has no limit here; write a material or tensile_strength."
    low, high = wire.tensile_range_mm
    if not high:
        return (
            f"No strength is listed for {wire.name}, which depends on its temper; write a tensile_strength."
        )
    return (
        f"No strength is listed for {wire.name} of this diameter (it is for {low:g} to {high:g} mm); "
        "write a tensile_strength."
    )


def sensitivity_of(spring: Spring, active: float) -> Value:
    """How the rate changes when wire, diameter or coils are off, as rows.

    Args:
        spring: the spring.
        active: [1] its active coils, above 0.

    Returns:
        Rows of what is off, by how much, and the rate's change [%].

    Source: the formulas of the rate.
    """
    given = spring.given
    changes = rate_changes(
        spring.wire_mm,
        spring.mean_mm,
        active,
        wound_up=spring.kind == "torsion",
        wire_off_mm=given.mm_or_none("wire_tolerance"),
        diameter_off_mm=given.mm_or_none("diameter_tolerance"),
        coils_off=given.number_or_none("coils_tolerance"),
    )
    rows: list[Plain] = [
        {
            "name": each.of,
            "off_by": f"{number_text(each.by, 3)}{'' if each.unit == '1' else ' ' + each.unit}",
            "rate_percent_if_less": each.less_percent,
            "rate_percent_if_more": each.more_percent,
        }
        for each in changes
    ]
    return Value(rows)
