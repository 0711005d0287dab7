"""The numbers that stand in the working of a spring, put in for the symbols of its formulas."""

from __future__ import annotations

import re

from calculators.declared.spring_reading import Spring, n


def index_put_in(formula: str, index: float) -> str:
    """Put the spring index in a formula of it, as that of the factor of Wahl.

    Args:
        formula: a formula in C, as `(4C - 1)/(4C - 4) + 0.615/C`.
        index: [1] the spring index, above 1.

    Returns:
        The formula with the number for each C.

    Source: this project.

    Example:
        >>> index_put_in("(4C^2 - C - 1)/(4C (C - 1))", 8)
        '(4 x 8^2 - 8 - 1)/(4 x 8 x (8 - 1))'
    """
    spaced = re.sub(r"(\d)C", r"\1 x C", formula).replace("C (", "C x (")
    return spaced.replace("C", n(index))


def stress_put_in(spring: Spring, load: float, factor: float | None = None) -> str:
    """Put the numbers in K 8 F D/(pi d^3).

    Args:
        spring: the spring.
        load: [N] the load, 0 or more.
        factor: [1] the factor K; None where the stress is not corrected.

    Returns:
        The numbers with their units.

    Source: this project.
    """
    corrected = "" if factor is None else f"{n(factor)} x "
    return f"{corrected}8 x {n(load)} N x {n(spring.mean_mm)} mm/(pi x ({n(spring.wire_mm)} mm)^3)"


def mass_put_in(spring: Spring, density: float, length: float) -> str:
    """Put the numbers in rho (pi/4) d^2 l.

    Args:
        spring: the spring.
        density: [kg/m3] density of the wire, above 0.
        length: [mm] length of the wire, above 0.

    Returns:
        The numbers with their units.

    Source: this project.
    """
    return f"{n(density)} kg/m3 x (pi/4) x ({n(spring.wire_mm)} mm)^2 x {n(length)} mm"
