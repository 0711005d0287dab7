"""Strings and tensioned wire: tension, pitch, stress, stretch."""

from __future__ import annotations

import re
from dataclasses import dataclass
from functools import cache
from math import log2, pi, sqrt

from calculators.quantities.errors import InputError
from calculators.quantities.marks import plain, quoted
from calculators.tables import load

_LETTERS = {"c": 0, "d": 2, "e": 4, "f": 5, "g": 7, "a": 9, "b": 11}
_NAMES = ("C", "C#", "D", "D#", "E", "F", "F#", "G", "G#", "A", "A#", "B")
_NOTE = re.compile(r"([a-g])\s?(#{1,2}|b{1,2}|♯|♭|sharp|flat)?\s?(-1|10|\d)")
_STEPS = {"#": 1, "##": 2, "b": -1, "bb": -2, "♯": 1, "♭": -1, "sharp": 1, "flat": -1, None: 0, "": 0}


@dataclass(frozen=True, slots=True)
class Wire:
    """What a string is of; `strength_mpa` is the least tensile strength at the diameter asked for."""

    name: str
    density_kg_m3: float
    modulus_gpa: float
    at_1_mm_mpa: float
    exponent: float
    least_mm: float
    most_mm: float
    source: str

    def strength_mpa(self, diameter_mm: float) -> float:
        """The least tensile strength of wire so thick, at the nearer end where it is outside the range."""
        within = min(max(diameter_mm, self.least_mm), self.most_mm)
        return float(self.at_1_mm_mpa / within**self.exponent)


def wire_names() -> tuple[str, ...]:
    """What strings are of.

    Returns:
        The names.

    Source: table `string_wires`.

    Example:
        >>> wire_names()[0]
        'steel'
    """
    return load("string_wires").column("name")


def wire_synonyms() -> tuple[tuple[str, str], ...]:
    """Other words for them, as a choice takes them.

    Returns:
        Pairs of another word and the name.

    Source: table `string_wires`.

    Example:
        >>> dict(wire_synonyms())["music-wire"]
        'steel'
    """
    rows = load("string_wires").rows
    pairs = [(row["name"], row["name"]) for row in rows]
    pairs += [(other, row["name"]) for row in rows for other in row["also"].split(";") if other]
    return tuple(("-".join(word.lower().split()), name) for word, name in pairs)


@cache
def wire_of(name: str) -> Wire:
    """Look a string's material up.

    Args:
        name: one of `wire_names`.

    Returns:
        Its figures.

    Raises:
        InputError: when there is none of that name.

    Source: table `string_wires`.

    Example:
        >>> wire_of("steel").density_kg_m3
        7850.0
    """
    row = load("string_wires").find(name)
    if row is None:
        says = f"{quoted(name)} is not a material of strings; write one of {', '.join(wire_names())}."
        raise InputError.of(says, field="material", choices=wire_names())
    return Wire(
        row["name"], row.number("density"), row.number("modulus"), row.number("at_1_mm"),
        row.number("exponent"), row.number("least"), row.number("most"), row.source.says,
    )  # fmt: skip


def round_mass(diameter_mm: float, density_kg_m3: float) -> float:
    """The mass of a round string for each length of it.

    mu = density pi d^2 / 4

    Args:
        diameter_mm: [mm] diameter, above 0.
        density_kg_m3: [kg/m3] density, above 0.

    Returns:
        The mass per length [g/m].

    Source: geometry.

    Example:
        >>> round(round_mass(0.254, 7850), 4)
        0.3978
    """
    return density_kg_m3 * pi * diameter_mm**2 / 4 * 1e-3


def round_diameter(mass_g_per_m: float, density_kg_m3: float) -> float:
    """The diameter of a round string of a mass per length: `round_mass` the other way.

    d = sqrt(4 mu / (pi density))

    Args:
        mass_g_per_m: mass per length [g/m], above 0.
        density_kg_m3: [kg/m3] density, above 0.

    Returns:
        The diameter [mm].

    Source: geometry.

    Example:
        >>> round(round_diameter(round_mass(0.254, 7850), 7850), 6)
        0.254
    """
    return sqrt(4 * mass_g_per_m * 1e3 / (pi * density_kg_m3))


def tension_of(length_mm: float, frequency_hz: float, mass_g_per_m: float) -> float:
    """The tension at which a string sounds a pitch.

    T = mu (2 L f)^2

    Args:
        length_mm: [mm] sounding length, above 0.
        frequency_hz: [Hz] of its lowest mode, above 0.
        mass_g_per_m: mass per length [g/m], above 0.

    Returns:
        The tension [N].

    Source: Mersenne 1636; Rayleigh, Theory of Sound, ch. 6 (from memory).

    Example:
        >>> tension_of(500, 100, 10)
        100.0
    """
    return mass_g_per_m * 1e-3 * (2 * length_mm * 1e-3 * frequency_hz) ** 2


def frequency_of(length_mm: float, tension_n: float, mass_g_per_m: float) -> float:
    """The pitch of a string under a tension.

    f = sqrt(T / mu) / (2 L)

    Args:
        length_mm: [mm] sounding length, above 0.
        tension_n: [N] tension, above 0.
        mass_g_per_m: mass per length [g/m], above 0.

    Returns:
        The frequency [Hz].

    Source: as `tension_of`.

    Example:
        >>> frequency_of(500, 100, 10)
        100.0
    """
    return sqrt(tension_n / (mass_g_per_m * 1e-3)) / (2 * length_mm * 1e-3)


def inharmonicity(length_mm: float, tension_n: float, diameter_mm: float, modulus_gpa: float) -> float:
    """How much a stiff string's overtones are sharp: f_n = n f sqrt(1 + B n^2).

    B = pi^3 E d^4 / (64 T L^2)

    Args:
        length_mm: [mm] sounding length, above 0.
        tension_n: [N] tension, above 0.
        diameter_mm: [mm] diameter of the plain string, above 0.
        modulus_gpa: [GPa] modulus of elasticity, above 0.

    Returns:
        The factor B [1].

    Source: H. Fletcher, J. Acoust. Soc. Am. 36 (1964) 203 (from memory).

    Example:
        >>> round(inharmonicity(400, 700, 1.0, 200), 6)
        0.000865
    """
    return pi**3 * modulus_gpa * 1e3 * diameter_mm**4 / (64 * tension_n * length_mm**2)


def note_frequency(note: str, a4_hz: float = 440.0, *, field: str = "note") -> float:
    """The frequency of a note in equal temperament, by its name and octave.

    f = a4 x 2^(n / 12), n half steps from A4

    Args:
        note: letter, sharp or flat, octave; C4 is the middle C.
        a4_hz: [Hz] the pitch of A4, above 0.
        field: the name of the input, for the error.

    Returns:
        The frequency [Hz].

    Raises:
        InputError: when it is no such name.

    Source: ISO 16:1975 (A4 440 Hz); scientific pitch notation (from memory).

    Example:
        >>> round(note_frequency("C4"), 3), note_frequency("a3")
        (261.626, 220.0)
    """
    found = _NOTE.fullmatch(plain(note[:20]).strip().lower())
    if not found:
        says = f"{quoted(note)} is not a note; write a letter, # or b, and the octave, as A4, C#3 or Bb2."
        raise InputError.of(says, field=field)
    letter, sign, octave = found.groups()
    steps = _LETTERS[letter] + _STEPS[sign] + 12 * (int(octave) - 4) - 9
    return float(a4_hz * 2 ** (steps / 12))


def nearest_note(frequency_hz: float, a4_hz: float = 440.0) -> tuple[str, float]:
    """The note of equal temperament that is nearest to a frequency, and how far off it is.

    Args:
        frequency_hz: [Hz] above 0.
        a4_hz: [Hz] the pitch of A4, above 0.

    Returns:
        Its name, and by how many cents the frequency is above it [1].

    Source: cent of 1/1200 octave (A. J. Ellis, from memory).

    Example:
        >>> nearest_note(220.0)
        ('A3', 0.0)
    """
    steps = 12 * log2(frequency_hz / a4_hz)
    nearest = round(steps)
    place = nearest + 57
    return f"{_NAMES[place % 12]}{place // 12}", 100 * (steps - nearest)
