"""The beams of the handbooks' tables: their formulas as printed, and what they rest on and carry.

P is one load [N], W a spread load in all [N], M0 a moment [N mm], L the span, a the load's distance from the
left end, b = L - a, c the overhang [mm].
"""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass
from math import sqrt
from typing import NamedTuple

from calculators.mechanics.beams.line import Load, Support
from calculators.quantities.errors import InputError

SUPPORTS = ("simply-supported", "cantilever", "fixed-ends", "propped", "overhanging")
"""How a beam is held: resting on both ends; held at the left end and free; held at both; held at the left
and resting at the right; resting at the left and at the span, and going on beyond it."""

KINDS = ("centre", "end", "spread", "at", "two", "moment", "several")
"""Where the load is: at the middle, at the free end, spread evenly over the whole, at a place, two alike as
far from either end, a moment, or several in rows."""


class Laid(NamedTuple):
    """What a formula of the tables is about, in N and mm."""

    load: float
    span: float
    a: float
    overhang: float
    stiffness: float


Formula = Callable[[Laid], float]


@dataclass(frozen=True, slots=True)
class Case:
    """One line of the tables: greatest deflection [mm] and moment [N mm], as formula and in words."""

    deflection_words: str
    deflection: Formula
    moment_words: str
    moment: Formula


def _near(q: Laid) -> float:
    """The load's distance from the nearer end."""
    return min(q.a, q.span - q.a)


def _anywhere(q: Laid) -> float:
    n = _near(q)
    long = q.span**2 - n**2
    return q.load * n * long * sqrt(long) / (9 * sqrt(3) * q.span * q.stiffness)


def _held_at(q: Laid) -> float:
    far, near = q.span - _near(q), _near(q)
    return 2 * q.load * far**3 * near**2 / (3 * q.stiffness * (3 * far + near) ** 2)


CASES: dict[tuple[str, str], Case] = {
    ("simply-supported", "centre"): Case(
        "P L^3 / (48 E I)",
        lambda q: q.load * q.span**3 / (48 * q.stiffness),
        "P L / 4",
        lambda q: q.load * q.span / 4,
    ),
    ("simply-supported", "spread"): Case(
        "5 W L^3 / (384 E I)",
        lambda q: 5 * q.load * q.span**3 / (384 * q.stiffness),
        "W L / 8",
        lambda q: q.load * q.span / 8,
    ),
    ("simply-supported", "at"): Case(
        "P n (L^2 - n^2)^1.5 / (9 sqrt(3) L E I), n the nearer of a and b",
        _anywhere,
        "P a b / L",
        lambda q: q.load * q.a * (q.span - q.a) / q.span,
    ),
    ("simply-supported", "two"): Case(
        "P a (3 L^2 - 4 a^2) / (24 E I)",
        lambda q: q.load * q.a * (3 * q.span**2 - 4 * q.a**2) / (24 * q.stiffness),
        "P a",
        lambda q: q.load * q.a,
    ),
    ("cantilever", "end"): Case(
        "P L^3 / (3 E I)",
        lambda q: q.load * q.span**3 / (3 * q.stiffness),
        "P L",
        lambda q: q.load * q.span,
    ),
    ("cantilever", "centre"): Case(
        "5 P L^3 / (48 E I)",
        lambda q: 5 * q.load * q.span**3 / (48 * q.stiffness),
        "P L / 2",
        lambda q: q.load * q.span / 2,
    ),
    ("cantilever", "at"): Case(
        "P a^2 (3 L - a) / (6 E I)",
        lambda q: q.load * q.a**2 * (3 * q.span - q.a) / (6 * q.stiffness),
        "P a",
        lambda q: q.load * q.a,
    ),
    ("cantilever", "spread"): Case(
        "W L^3 / (8 E I)",
        lambda q: q.load * q.span**3 / (8 * q.stiffness),
        "W L / 2",
        lambda q: q.load * q.span / 2,
    ),
    ("cantilever", "moment"): Case(
        "M0 a (2 L - a) / (2 E I)",
        lambda q: q.load * q.a * (2 * q.span - q.a) / (2 * q.stiffness),
        "M0",
        lambda q: q.load,
    ),
    ("fixed-ends", "centre"): Case(
        "P L^3 / (192 E I)",
        lambda q: q.load * q.span**3 / (192 * q.stiffness),
        "P L / 8",
        lambda q: q.load * q.span / 8,
    ),
    ("fixed-ends", "spread"): Case(
        "W L^3 / (384 E I)",
        lambda q: q.load * q.span**3 / (384 * q.stiffness),
        "W L / 12",
        lambda q: q.load * q.span / 12,
    ),
    ("fixed-ends", "at"): Case(
        "2 P f^3 n^2 / (3 E I (3 f + n)^2), n the nearer of a and b, f the farther",
        _held_at,
        "P f^2 n / L^2",
        lambda q: q.load * (q.span - _near(q)) ** 2 * _near(q) / q.span**2,
    ),
    ("fixed-ends", "two"): Case(
        "P a^2 (3 L - 4 a) / (24 E I)",
        lambda q: q.load * q.a**2 * (3 * q.span - 4 * q.a) / (24 * q.stiffness),
        "P a (L - a) / L",
        lambda q: q.load * q.a * (q.span - q.a) / q.span,
    ),
    ("propped", "centre"): Case(
        "P L^3 / (48 sqrt(5) E I)",
        lambda q: q.load * q.span**3 / (48 * sqrt(5) * q.stiffness),
        "3 P L / 16",
        lambda q: 3 * q.load * q.span / 16,
    ),
    ("propped", "spread"): Case(
        "0.0054161 W L^3 / (E I)",
        # (39 + 55 sqrt(33)) / 65536: the place is (15 - sqrt(33)) L / 16 from the held end
        lambda q: (39 + 55 * sqrt(33)) / 65536 * q.load * q.span**3 / q.stiffness,
        "W L / 8",
        lambda q: q.load * q.span / 8,
    ),
    ("overhanging", "end"): Case(
        "P c^2 (L + c) / (3 E I)",
        lambda q: q.load * q.overhang**2 * (q.span + q.overhang) / (3 * q.stiffness),
        "P c",
        lambda q: q.load * q.overhang,
    ),
}
"""The cases that the tables give in closed form, by how the beam is held and where the load is."""


def _tip_is_greatest(q: Laid) -> bool:
    """Whether an overhanging beam bends more at its tip than it rises between its supports."""
    return q.overhang**2 * (q.span + q.overhang) / 3 >= q.overhang * q.span**2 / (9 * sqrt(3))


def standard_case(support: str, kind: str, laid: Laid) -> Case | None:
    """The tables' line for a beam, where they have one.

    Args:
        support: one of `SUPPORTS`.
        kind: one of `KINDS`.
        laid: load, span and places.

    Returns:
        The case, or None where the beam has to be worked out from its brackets.

    Source: beam tables; Machinery's Handbook, Stresses and Deflections in Beams; Roark, Formulas for Stress
        and Strain, table 8.1 (from memory).

    Example:
        >>> standard_case("cantilever", "end", Laid(1, 1, 1, 0, 1)).deflection_words
        'P L^3 / (3 E I)'
    """
    if (support, kind) == ("overhanging", "end") and not _tip_is_greatest(laid):
        return None
    return CASES.get((support, kind))


def supports_of(support: str, span_mm: float) -> tuple[Support, ...]:
    """The places where a beam rests or is held.

    Args:
        support: one of `SUPPORTS`.
        span_mm: [mm] its span, above 0.

    Returns:
        The supports.

    Source: this project.

    Example:
        >>> supports_of("cantilever", 500)
        (Support(at_mm=0.0, held=True),)
    """
    held = {"cantilever": (True,), "fixed-ends": (True, True), "propped": (True, False)}
    ends = held.get(support, (False, False))
    return tuple(Support(at, one) for at, one in zip((0.0, span_mm), ends, strict=False))


def loads_of(support: str, kind: str, laid: Laid) -> tuple[Load, ...]:
    """The loads of one of the kinds, from the tables' letters.

    Args:
        support: one of `SUPPORTS`.
        kind: one of `KINDS` but `several`.
        laid: load [N, or N mm for a moment], span and places [mm].

    Returns:
        The loads.

    Raises:
        InputError: when the load lies outside the beam, or the beam has no free end for it.

    Source: this project.

    Example:
        >>> loads = loads_of("simply-supported", "two", Laid(50, 300, 100, 0, 1))
        >>> [(load.at_mm, load.force_n) for load in loads]
        [(100, 50), (200, 50)]
    """
    whole = laid.span + laid.overhang
    if kind == "centre":
        return (Load(laid.span / 2, laid.load),)
    if kind == "spread":
        return (Load(0.0, laid.load, whole),)
    if kind == "end":
        if support not in ("cantilever", "overhanging"):
            says = f"A {support} beam has no free end; write the load's place as at, or take a cantilever."
            raise InputError.of(says, field="load_kind")
        return (Load(whole, laid.load),)
    check_on_beam(laid.a, whole, "at")
    if kind == "moment":
        return (Load(laid.a, moment_n_mm=laid.load),)
    if kind == "two":
        if laid.a > laid.span / 2:
            says = (
                f"Two equal loads stand {laid.a:g} mm from either end of a span of {laid.span:g} mm; "
                f"at may be up to half of it, {laid.span / 2:g} mm."
            )
            raise InputError.of(says, field="at", value=laid.a, limit=laid.span / 2, unit="mm")
        return (Load(laid.a, laid.load), Load(laid.span - laid.a, laid.load))
    return (Load(laid.a, laid.load),)


def check_on_beam(at_mm: float, whole_mm: float, field: str) -> None:
    """See that a place is on the beam.

    Args:
        at_mm: [mm] the place.
        whole_mm: [mm] the beam's whole length.
        field: the name of the input, for the error.

    Raises:
        InputError: when it is not.

    Source: this project.
    """
    if not 0 <= at_mm <= whole_mm * (1 + 1e-12):
        says = f"The load at {at_mm:g} mm is outside the beam; write a place from 0 to {whole_mm:g} mm."
        raise InputError.of(says, field=field, value=at_mm, limit=whole_mm, unit="mm")
