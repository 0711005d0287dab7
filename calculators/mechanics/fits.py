"""Limits and fits of ISO 286, and what pressing a bush into a bore does."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import pi

from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted
from calculators.tables import load

LARGEST_MM = 120.0
"""The largest size that the table covers [mm]."""

_CLASS = re.compile(r"(?P<letter>[A-Za-z]{1,2}) ?(?P<grade>\d{1,2})")
_SHAFTS = ("d", "e", "f", "g", "h", "js", "k", "m", "n", "p", "r", "s")
_HOLES = ("D", "E", "F", "G", "H", "JS")
_GRADES = tuple(range(5, 12))
_ABOVE = frozenset("kmnprs")
"""Letters whose figure is the lower deviation of a shaft."""


@dataclass(frozen=True, slots=True)
class Limits:
    """The least and the greatest size of a part [mm], with its class as written."""

    name: str
    least_mm: float
    most_mm: float
    source: str

    @property
    def middle_mm(self) -> float:
        """The size in the middle [mm]."""
        return (self.least_mm + self.most_mm) / 2


def limits_of(size_mm: float, written: str, *, field: str = "hole") -> Limits:
    """The limits of a size by its tolerance class.

    Args:
        size_mm: [mm] the nominal size, over 0 to 120.
        written: the class: H7, F8, js6, f7, h9, p6.
        field: the name of the input, for the error.

    Returns:
        The limits [mm].

    Raises:
        InputError: when the class is none that is known here, or the size is beyond the table.

    Source: ISO 286-1:2010, Tables 1, 4 and 5 (from memory).

    Example:
        >>> one = limits_of(25, "f7")
        >>> round(one.least_mm, 3), round(one.most_mm, 3)
        (24.959, 24.98)
    """
    if not 0 < size_mm <= LARGEST_MM:
        says = f"Fits are known here for sizes over 0 to {LARGEST_MM:g} mm, not {size_mm:g} mm."
        raise InputError.of(says, field="diameter", value=size_mm, limit=LARGEST_MM, unit="mm")
    found = _CLASS.fullmatch(written.strip()[:20])
    letter, grade = (found["letter"], int(found["grade"])) if found else ("", 0)
    known = letter in _SHAFTS or letter in _HOLES
    if not known or grade not in _GRADES or (letter == "k" and grade > 7):
        says = (
            f"{quoted(written)} is not a tolerance class that is known here; write a hole such as H7, F8 or "
            "D10, or a shaft such as f7, h6, k6, p6 or s6, in grades 5 to 11 (k: 5 to 7)."
        )
        raise InputError.of(says, field=field, choices=("H7", "H8", "F7", "h6", "f7", "g6", "p6"))
    row = next(row for row in load("iso_fits").rows if row.number("over") < size_mm <= row.number("up_to"))
    tolerance = row.number(f"it{grade}")
    figure = 0.0 if letter.lower() in ("h", "js") else row.number(letter.lower())
    below, above = _deviations(letter, tolerance, figure)
    return Limits(f"{letter}{grade}", size_mm + below / 1000, size_mm + above / 1000, row.source.says)


def _deviations(letter: str, tolerance: float, figure: float) -> tuple[float, float]:
    """The lower and the upper deviation [um]."""
    if letter.lower() == "js":
        return -tolerance / 2, tolerance / 2
    if letter.isupper():
        return -figure, -figure + tolerance
    if letter in _ABOVE:
        return figure, figure + tolerance
    return figure - tolerance, figure


@dataclass(frozen=True, slots=True)
class Elastic:
    """How a material gives: Young's modulus [MPa] and Poisson's ratio."""

    modulus_mpa: float
    poisson: float


@dataclass(frozen=True, slots=True)
class Pressed:
    """What pressing a bush into a bore does: pressure and stress [MPa], bore's closing [mm], force [N]."""

    pressure_mpa: float
    bore_closing_mm: float
    bush_hoop_mpa: float
    housing_hoop_mpa: float
    force_n: float


def press_in(
    interference_mm: float,
    bore_mm: float,
    bush_bore_mm: float,
    housing_outside_mm: float,
    length_mm: float,
    bush: Elastic,
    housing: Elastic,
    friction: float,
) -> Pressed:
    """Press a bush into a bore that is smaller than it: thick cylinders that stay elastic.

        interference = p D (((c2 + b2)/(c2 - b2) + nu_o)/Eo + ((b2 + a2)/(b2 - a2) - nu_i)/Ei)
        closing = p 2a 2 b2 / (Ei (b2 - a2)),   force = mu p pi D L

    with the radii a of the bush's bore, b where they meet, c of the housing's outside, and D = 2 b.

    Args:
        interference_mm: [mm] the bush's outside diameter less the bore, 0 or more.
        bore_mm: [mm] the diameter where they meet, D.
        bush_bore_mm: [mm] the bush's own bore, less than the bore.
        housing_outside_mm: [mm] outside diameter of the metal round it, more than the bore.
        length_mm: [mm] length of the bush, over 0.
        bush: how the bush gives.
        housing: how the housing gives.
        friction: coefficient of friction while it is pressed, 0 or more.

    Returns:
        The pressure, the hoop stresses at the two bores, the closing of the bush's bore, the force.

    Source: Lame's equations of thick cylinders (Shigley, Mechanical Engineering Design ch. 3, from memory).

    Example:
        >>> steel = Elastic(205_000, 0.3)
        >>> round(press_in(0.02, 20, 1e-6, 1e6, 20, steel, steel, 0.12).pressure_mpa, 1)
        102.5
    """
    a, b, c = bush_bore_mm / 2, bore_mm / 2, housing_outside_mm / 2
    outer = ((c**2 + b**2) / (c**2 - b**2) + housing.poisson) / housing.modulus_mpa
    inner = ((b**2 + a**2) / (b**2 - a**2) - bush.poisson) / bush.modulus_mpa
    pressure = interference_mm / (bore_mm * (outer + inner))
    return Pressed(
        pressure_mpa=pressure,
        bore_closing_mm=pressure * 2 * a * 2 * b**2 / (bush.modulus_mpa * (b**2 - a**2)),
        bush_hoop_mpa=-2 * pressure * b**2 / (b**2 - a**2),
        housing_hoop_mpa=pressure * (c**2 + b**2) / (c**2 - b**2),
        force_n=friction * pressure * pi * bore_mm * length_mm,
    )


def growth_mm(length_mm: float, coefficient_per_k: float, rise_k: float) -> float:
    """How much a length grows when it warms.

        growth = alpha L dT

    Args:
        length_mm: [mm] the length, 0 or more.
        coefficient_per_k: [1/K] coefficient of linear expansion.
        rise_k: [K] rise of temperature, less than nought when it cools.

    Returns:
        The growth [mm].

    Source: definition of the coefficient of linear expansion.

    Example:
        >>> round(growth_mm(1000, 11.7e-6, 20), 3)
        0.234
    """
    return length_mm * coefficient_per_k * rise_k
