"""The working of wood-screw-strength, step by step."""

from __future__ import annotations

from calculators.calculation import Step
from calculators.calculation.result import number_text
from calculators.mechanics.held_screw import METAL_FACTOR, HeldLoads, HeldScrew
from calculators.mechanics.screw_surroundings import THICK_HEADS, metal_row
from calculators.mechanics.screws_in_wood import END_GRAIN_LATERAL, LATERAL_ALLOWABLE, withdrawal_row

_POWERS = {
    "wood screw": ("108.25 G^2 D L", "{k} x {g}^2 x {d} mm x {l} mm"),
    "coach screw": ("125.4 G^1.5 D^0.75 L", "{k} x {g}^1.5 x ({d} mm)^0.75 x {l} mm"),
    "nail": ("54.12 G^2.5 D L", "{k} x {g}^2.5 x {d} mm x {l} mm"),
}


def basis_words(gravity: float, basis: str) -> str:
    """Say what a specific gravity that was given is on, and what became of it.

    Args:
        gravity: specific gravity as given.
        basis: the volume it is on.

    Returns:
        The words.

    Source: this project.

    Example:
        >>> basis_words(0.55, "green")
        '0.55 as given, on ovendry mass and green volume, brought to 12 % (Wood Handbook ch. 4, from memory)'
    """
    words = f"{gravity:g} as given, on ovendry mass and "
    if basis == "12 %":
        return words + "volume at 12 %"
    return words + f"{basis} volume, brought to 12 % (Wood Handbook ch. 4, from memory)"


def steps_of(screw: HeldScrew, loads: HeldLoads) -> tuple[Step, ...]:
    """Set the working out.

    Args:
        screw: the screw.
        loads: its loads.

    Returns:
        The steps.

    Source: this project.
    """
    return (*_withdrawal(screw, loads), *_bounds(screw, loads), *_lateral(screw, loads))


def _withdrawal(screw: HeldScrew, loads: HeldLoads) -> list[Step]:
    row = withdrawal_row(screw.kind)
    formula, numbers = _POWERS[screw.kind]
    g, d, length = (number_text(each, 5) for each in (screw.gravity, screw.shank_mm, screw.penetration_mm))
    put_in = numbers.format(k=row["coefficient"], g=g, d=d, l=length)
    steps = [
        Step("D", "shank diameter", "", screw.shank_mm, "mm"),
        Step("G", "specific gravity, volume at 12 %", "", screw.gravity, "1"),
        Step("withdrawal, side grain", formula, put_in, loads.side_grain_n, "N", row.source.says),
    ]
    if screw.in_end_grain:
        share = number_text(loads.grain_share)
        source = "Wood Handbook ch. 8" + (" (from memory)" if screw.kind != "coach screw" else "")
        numbers = f"{share} x {number_text(loads.side_grain_n)} N"
        steps.append(
            Step("withdrawal, end grain", f"{share} side grain", numbers, loads.withdrawal_n, "N", source)
        )
    if loads.allowable_n is not None:
        put_in = f"2850 lbf/in2 x {g}^2 x {d} mm x {length} mm"
        if screw.in_end_grain:
            put_in += f" x {number_text(loads.grain_share)}"
        steps.append(Step("older allowable", "2850 G^2 D L", put_in, loads.allowable_n, "N",
                          withdrawal_row("wood screw", "allowable").source.says))  # fmt: skip
    return steps


def _bounds(screw: HeldScrew, loads: HeldLoads) -> list[Step]:
    metal, factor = metal_row(screw.metal), number_text(screw.factor)
    steps = [
        Step("d", "root diameter", "", screw.root_mm, "mm"),
        Step("screw breaks", "pi/4 d^2 R",
             f"pi/4 x ({number_text(screw.root_mm, 5)} mm)^2 x {metal['tensile']} MPa", loads.tension_n, "N",
             metal.source.says),
    ]  # fmt: skip
    if loads.pull_through_n is not None and screw.head_mm and screw.side_mm and screw.side_gravity:
        head, g = number_text(screw.head_mm, 5), number_text(screw.side_gravity, 5)
        thin = screw.side_mm <= THICK_HEADS * screw.head_mm
        formula = "690 pi D_H G^2 t" if thin else "1725 pi D_H^2 G^2"
        numbers = f"690 lbf/in2 x pi x {head} mm x {g}^2 x {number_text(screw.side_mm, 5)} mm"
        if not thin:
            numbers = f"1725 lbf/in2 x pi x ({head} mm)^2 x {g}^2"
        steps.append(Step("head drawn through, allowable", formula, numbers, loads.pull_through_n, "N",
                          "NDS 2018, 12.2.5 (from memory)"))  # fmt: skip
    if loads.crushing_n is not None and screw.head_mm and screw.side_strength_mpa:
        numbers = (
            f"{number_text(screw.side_strength_mpa)} MPa x pi/4 x (({number_text(screw.head_mm, 5)} mm)^2 - "
            f"({number_text(screw.hole_mm, 5)} mm)^2)"
        )
        steps.append(Step("wood crushes under the head", "s pi/4 (D_H^2 - hole^2)", numbers, loads.crushing_n,
                          "N", "USDA Wood Handbook Table 5-3 (from memory)"))  # fmt: skip
    least = (
        f"{number_text(loads.withdrawal_n)} N / {factor}, {number_text(loads.tension_n)} N / {METAL_FACTOR:g}"
    )
    if loads.pull_through_n is not None:
        least += f", {number_text(loads.pull_through_n)} N"
    steps.append(
        Step("working load", "least of hold, screw and head", f"least of {least}", loads.working_n, "N")
    )
    return steps


def _lateral(screw: HeldScrew, loads: HeldLoads) -> list[Step]:
    row = loads.lateral_row
    if row is None or loads.lateral_full_n is None:
        return []
    k = row[screw.kind.replace(" ", "_")]
    power = "1.5" if screw.kind == "nail" else "2"
    d = number_text(screw.shank_mm, 5)
    steps = [
        Step("sideways, full depth", f"K D^{power}", f"{k} x ({d} mm)^{power}", loads.lateral_full_n, "N",
             f"{row['group']}, G {row['gravity_least']} to {row['gravity_most']}: {row.source.says}"),
        Step("share for the depth", "L / (full depth)", f"{number_text(screw.depth_d, 4)} D deep",
             loads.depth_share, "1", "Wood Handbook ch. 8"),
    ]  # fmt: skip
    if loads.side_factor != 1:
        steps.append(Step("factor of the side member", "Table 8-10", "", loads.side_factor, "1",
                          "USDA Wood Handbook FPL-GTR-190 Table 8-10"))  # fmt: skip
    if loads.across_factor != 1:
        steps.append(Step("factor across the grain", "Table 8-11", "", loads.across_factor, "1",
                          "USDA Wood Handbook FPL-GTR-190 Table 8-11"))  # fmt: skip
    if screw.in_end_grain:
        steps.append(Step("factor in end grain", "2/3", "", END_GRAIN_LATERAL, "1",
                          "timber engineering formulas, p. 171"))  # fmt: skip
    if loads.lateral_n is not None and loads.lateral_allowable_n is not None:
        steps.append(Step("sideways", "full depth x shares", "", loads.lateral_n, "N"))
        steps.append(Step("sideways, allowable", f"{LATERAL_ALLOWABLE:g} sideways",
                          f"{LATERAL_ALLOWABLE:g} x {number_text(loads.lateral_n)} N",
                          loads.lateral_allowable_n, "N"))  # fmt: skip
    return steps
