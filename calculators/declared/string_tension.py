"""String tension: the pull of a string at its pitch, its stress, and the way back."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import pi, sqrt

from calculators.calculation import Calculator, Given, Result, Step, named
from calculators.calculation.result import Value, number_text
from calculators.declared.string_inputs import STRING_INPUTS
from calculators.drawing.strings import string_pictures
from calculators.mechanics.strings import (
    Wire,
    frequency_of,
    inharmonicity,
    nearest_note,
    note_frequency,
    round_diameter,
    round_mass,
    tension_of,
    wire_of,
)
from calculators.quantities.errors import InputError

_THINNEST_MM, _THICKEST_MM = 0.02, 20.0


@dataclass(frozen=True, slots=True)
class String:
    """A string with everything that was given or follows; `plain` where the mass is of its diameter."""

    length_mm: float
    frequency_hz: float
    tension_n: float
    mass_g_per_m: float
    diameter_mm: float | None
    wire: Wire
    found: str

    @property
    def area_mm2(self) -> float | None:
        """The area that bears the tension."""
        return None if self.diameter_mm is None else pi / 4 * self.diameter_mm**2

    @property
    def stress_mpa(self) -> float | None:
        """The stress in it."""
        return None if self.area_mm2 is None else self.tension_n / self.area_mm2


def string_of(given: Given) -> String:
    """Work out from two of pitch, tension and mass the third.

    Args:
        given: the inputs of the calculator.

    Returns:
        The string.

    Raises:
        InputError: when there is too little, or too much, or the answer is beyond any string.

    Source: as `calculators.mechanics.strings`.
    """
    length, wire = given.mm("length"), wire_of(given.text("material"))
    frequency, tension = _pitch(given), given.number_or_none("tension")
    mass, diameter = given.number_or_none("mass_per_length"), given.mm_or_none("diameter")
    if mass is None and diameter is not None:
        mass = round_mass(diameter, wire.density_kg_m3)
    known = [each is not None for each in (frequency, tension, mass)]
    if sum(known) != 2:
        short = "give two of pitch (frequency or note), tension, and mass (mass per length, or diameter)"
        says = f"With {'more' if sum(known) > 2 else 'less'} than two there is nothing to work out; {short}."
        raise InputError.of(says, field="tension" if sum(known) > 2 else "frequency")
    if tension is None:
        assert frequency is not None
        assert mass is not None
        return String(length, frequency, tension_of(length, frequency, mass), mass, diameter, wire, "tension")
    if frequency is None:
        assert mass is not None
        return String(length, frequency_of(length, tension, mass), tension, mass, diameter, wire, "frequency")
    mass = tension / (2 * length * 1e-3 * frequency) ** 2 * 1e3
    found = round_diameter(mass, wire.density_kg_m3)
    if not _THINNEST_MM <= found <= _THICKEST_MM:
        says = (
            f"That tension would need a string of {found:.3g} mm; strings of {_THINNEST_MM:g} to "
            f"{_THICKEST_MM:g} mm are worked with: change tension, length or pitch."
        )
        raise InputError.of(says, field="tension", value=found, unit="mm")
    return String(length, frequency, tension, mass, found, wire, "diameter")


def _pitch(given: Given) -> float | None:
    frequency, note = given.number_or_none("frequency"), given.text_or_none("note")
    if frequency is not None and note is not None:
        raise InputError.of("Give either the frequency or the note, not both.", field="note")
    return note_frequency(note, given.number("a4")) if note is not None else frequency


def _string_tension(given: Given) -> Result:
    string = string_of(given)
    count, cents = given.integer("count"), given.number("cents")
    limit = given.number("stress_limit") / 100
    name, off = nearest_note(string.frequency_hz, given.number("a4"))
    change = string.tension_n * (2 ** (cents / 600) - 1)
    results = named(
        tension=string.tension_n,
        **_stressed(string, limit),
        frequency=string.frequency_hz,
        note_name=f"{name} {round(off, 1) + 0.0:+.1f} cents",
        mass_per_length=string.mass_g_per_m,
        tension_change=change,
        total_tension=string.tension_n * count,
    )
    working = (*_working(string), *_further(string, limit, cents, change, count))
    return Result(results, working, tuple(_warnings(string, limit)), (string.wire.source,))


def _stressed(string: String, limit: float) -> dict[str, Value]:
    """What needs the diameter."""
    d, stress, area = string.diameter_mm, string.stress_mpa, string.area_mm2
    if d is None or stress is None or area is None:
        return {}
    strength = string.wire.strength_mpa(d)
    by = sqrt(limit * strength / stress)
    values = named(
        stress=stress,
        breaking_share=100 * stress / strength,
        tensile_strength=strength,
        breaking_tension=strength * area,
        string_diameter=d,
        highest_frequency=string.frequency_hz * by,
        longest_string=string.length_mm * by,
        stretch=_stretch(string, area),
        inharmonicity=inharmonicity(string.length_mm, string.tension_n, d, string.wire.modulus_gpa),
    )
    return values


def _stretch(string: String, area_mm2: float) -> float:
    return string.tension_n * string.length_mm / (string.wire.modulus_gpa * 1000 * area_mm2)


def _working(string: String) -> Iterator[Step]:
    length, f, mass = string.length_mm, number_text(string.frequency_hz), number_text(string.mass_g_per_m)
    metres = number_text(length / 1000)
    plain = string.diameter_mm is not None and (
        abs(round_mass(string.diameter_mm, string.wire.density_kg_m3) / string.mass_g_per_m - 1) < 1e-9
    )
    density = number_text(string.wire.density_kg_m3)
    if string.found == "diameter":
        assert string.diameter_mm is not None
        tension = number_text(string.tension_n)
        yield Step("mu", "T / (2 L f)^2", f"{tension} N / (2 x {metres} m x {f} Hz)^2", string.mass_g_per_m,
                   "g/m", "Mersenne")  # fmt: skip
        yield Step("d", "sqrt(4 mu / (pi density))", f"sqrt(4 x {mass} g/m / (pi x {density} kg/m3))",
                   string.diameter_mm, "mm")  # fmt: skip
        return
    if plain and string.diameter_mm is not None:
        yield Step("mu", "density pi d^2 / 4", f"{density} kg/m3 x pi x ({number_text(string.diameter_mm)} "
                   "mm)^2 / 4", string.mass_g_per_m, "g/m")  # fmt: skip
    else:
        yield Step("mu", "as given", "", string.mass_g_per_m, "g/m")
    if string.found == "tension":
        yield Step("T", "mu (2 L f)^2", f"{mass} g/m x (2 x {metres} m x {f} Hz)^2", string.tension_n, "N",
                   "Mersenne")  # fmt: skip
    else:
        yield Step("f", "sqrt(T / mu) / (2 L)", f"sqrt({number_text(string.tension_n)} N / {mass} g/m) / "
                   f"(2 x {metres} m)", string.frequency_hz, "Hz", "Mersenne")  # fmt: skip


def _further(string: String, limit: float, cents: float, change: float, count: int) -> Iterator[Step]:
    tension = number_text(string.tension_n)
    d, stress, area = string.diameter_mm, string.stress_mpa, string.area_mm2
    if d is not None and stress is not None and area is not None:
        strength = string.wire.strength_mpa(d)
        yield Step("stress", "T / (pi d^2 / 4)", f"{tension} N / {number_text(area)} mm2", stress, "MPa")
        yield Step("strength", f"least tensile strength of {string.wire.name}", f"d = {number_text(d)} mm",
                   strength, "MPa", string.wire.source)  # fmt: skip
        yield Step("share", "stress / strength", f"{number_text(stress)} / {number_text(strength)}",
                   100 * stress / strength, "%")  # fmt: skip
        numbers = (
            f"{tension} N x {number_text(string.length_mm)} mm / ({string.wire.modulus_gpa * 1000:g} MPa"
        )
        yield Step("stretch", "T L / (E A)", f"{numbers} x {number_text(area)} mm2)",
                   _stretch(string, area), "mm")  # fmt: skip
    yield Step("more for the cents", "T (2^(cents / 600) - 1)", f"{tension} N x (2^({cents:g} / 600) - 1)",
               change, "N")  # fmt: skip
    yield Step("total", "count x T", f"{count} x {tension} N", count * string.tension_n, "N")


def _warnings(string: String, limit: float) -> Iterator[str]:
    d, stress = string.diameter_mm, string.stress_mpa
    if d is None or stress is None:
        yield (
            "Without the diameter (of a wound string its core) the stress is not known: give it to see how "
            "near to breaking the string is."
        )
        return
    share = stress / string.wire.strength_mpa(d)
    if share > limit:
        breaks = " It will break." if share >= 1 else ""
        yield (
            f"The stress is {number_text(100 * share, 3)} % of the least tensile strength, over the limit of "
            f"{number_text(100 * limit, 3)} %.{breaks}"
        )
    if not string.wire.least_mm <= d <= string.wire.most_mm:
        yield (
            f"The strength of {string.wire.name} is known here for {string.wire.least_mm:g} to "
            f"{string.wire.most_mm:g} mm; that of the nearer end was taken."
        )


STRING_TENSION = Calculator(
    name="string-tension",
    summary="The tension and stress of a string at its pitch; or pitch or diameter from the tension.",
    purpose="Springs, pivots and strings",
    inputs=STRING_INPUTS,
    outputs=(
        "tension",
        "stress",
        "breaking_share",
        "tensile_strength",
        "breaking_tension",
        "string_diameter",
        "highest_frequency",
        "longest_string",
        "stretch",
        "inharmonicity",
        "frequency",
        "note_name",
        "mass_per_length",
        "tension_change",
        "total_tension",
    ),
    work=_string_tension,
    either=(("frequency", "note"),),
    sources=(
        "Mersenne's law: Rayleigh, Theory of Sound (from memory)",
        "strength of wire: Shigley, Mechanical Engineering Design, table 10-4 (from memory)",
        "stiff string: H. Fletcher 1964 (from memory); limit of 70 % common practice",
    ),
    cautions=(
        "A string under tension whips when it breaks: wear eye protection, keep the face out of its plane, "
        "and let the tension down before work on what it is tied to.",
    ),
    draw=lambda given, result: string_pictures(string_of(given), given.number("stress_limit") / 100),
    example={"length": "650 mm", "note": "A3", "diameter": "0.4 mm", "material": "steel"},
)
