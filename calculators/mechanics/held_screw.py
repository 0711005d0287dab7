"""One screw or nail in wood with all that bears on it: its loads, which of them governs, and what to mind."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from calculators.mechanics.screw_surroundings import (
    crushing_n,
    distance_row,
    head_pull_through_n,
    metal_row,
    pilot_band_mm,
    pilot_mm,
    screw_tension_n,
)
from calculators.mechanics.screws_in_wood import (
    END_GRAIN_LATERAL,
    END_GRAIN_WITHDRAWAL,
    LATERAL_ALLOWABLE,
    across_grain_factor,
    depth_share,
    full_depth_d,
    lateral_n,
    lateral_row,
    least_depth_d,
    side_member_factor,
    withdrawal_n,
)
from calculators.quantities.errors import InputError
from calculators.tables import Row

METAL_FACTOR = 3.0
"""Factor on the breaking load of the screw itself, which varies less than wood (common practice)."""


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldScrew:
    """A screw or nail in the piece that holds it; lengths in millimetres, gravity on the volume at 12 %.

    `group` is `hardwood`, `softwood` or empty where it is not known. `side_mm` is the thickness of the piece
    under the head, `side_gravity` and `side_strength_mpa` are of its wood (None where not known), `head_mm`
    the diameter of head or washer on it, `hole_mm` the hole through it. `metal` is a row's name of
    `screw_metals`.
    """

    kind: str
    shank_mm: float
    root_mm: float
    penetration_mm: float
    gravity: float
    group: str = ""
    grain: str = "side"
    across: bool = False
    pilot_mm: float | None = None
    end_mm: float | None = None
    edge_mm: float | None = None
    side_mm: float | None = None
    side_gravity: float | None = None
    side_strength_mpa: float | None = None
    head_mm: float | None = None
    hole_mm: float = 0.0
    metal: str = "steel"
    factor: float = 5.0

    @property
    def depth_d(self) -> float:
        """Penetration in diameters."""
        return self.penetration_mm / self.shank_mm

    @property
    def hardwood(self) -> bool:
        """Whether its pilot goes by hardwood: as the group says, without one from a gravity of 0.5."""
        return self.group == "hardwood" if self.group else self.gravity >= 0.5

    @property
    def in_end_grain(self) -> bool:
        """Whether it holds in end grain."""
        return self.grain == "end"


@dataclass(frozen=True, slots=True, kw_only=True)
class HeldLoads:
    """The loads in newtons; None where nothing is known or the rule does not reach."""

    side_grain_n: float
    grain_share: float
    withdrawal_n: float
    allowable_n: float | None
    tension_n: float
    pull_through_n: float | None
    crushing_n: float | None
    lateral_row: Row | None
    lateral_full_n: float | None
    depth_share: float
    side_factor: float
    across_factor: float
    lateral_n: float | None
    working_n: float
    governs: str

    @property
    def lateral_allowable_n(self) -> float | None:
        """The allowable sideways load, three quarters of that at the proportional limit [N]."""
        return None if self.lateral_n is None else LATERAL_ALLOWABLE * self.lateral_n


def check_held(screw: HeldScrew, length_mm: float | None = None) -> None:
    """Refuse what cannot be.

    Args:
        screw: the screw.
        length_mm: its whole length [mm], or None where it was not given.

    Raises:
        InputError: when it is deeper than it is long, its pilot leaves nothing to bite, it stands out of the
            wood at an edge, or its head falls through its hole.

    Source: geometry; pilots above the root are outside the tests behind the rules (Wood Handbook ch. 8).
    """
    inside, side = screw.penetration_mm, screw.side_mm or 0.0
    if length_mm is not None and inside + side > length_mm + 1e-9:
        if side:
            what = f"penetration of {inside:g} mm and side piece of {side:g} mm together are"
        else:
            what = f"penetration of {inside:g} mm is"
        raise _refused(f"The {what} more than the screw's length of {length_mm:g} mm.", "penetration", inside,
                       length_mm)  # fmt: skip
    if screw.pilot_mm is not None:
        bound, name = (
            (screw.root_mm, "root") if screw.kind == "wood screw" else (screw.shank_mm, "shank diameter")
        )
        if screw.pilot_mm > bound + 1e-9 or screw.pilot_mm >= screw.shank_mm:
            raise _refused(
                f"A pilot of {screw.pilot_mm:.4g} mm is larger than the {name} of {bound:.4g} mm: the rules "
                "for holding end there; give a smaller one.", "pilot", screw.pilot_mm, bound)  # fmt: skip
    for name, distance in (("end_distance", screw.end_mm), ("edge_distance", screw.edge_mm)):
        if distance is not None and distance < screw.shank_mm / 2:
            raise _refused(
                f"An {name.replace('_', ' ')} of {distance:g} mm is less than half the diameter of "
                f"{screw.shank_mm:.4g} mm: the screw would stand out of the wood.",
                name, distance, screw.shank_mm / 2)  # fmt: skip
    if screw.head_mm is not None and screw.head_mm <= screw.hole_mm:
        raise _refused(
            f"A head of {screw.head_mm:g} mm falls through its hole of {screw.hole_mm:.4g} mm; "
            "give a wider head "
            "or washer.", "head", screw.head_mm, screw.hole_mm)  # fmt: skip


def _refused(says: str, field: str, value: float, limit: float) -> InputError:
    return InputError.of(says, field=field, value=value, limit=limit, unit="mm")


def held_loads(screw: HeldScrew) -> HeldLoads:
    """Work out all loads of a screw or nail in wood.

    Args:
        screw: the screw, already checked.

    Returns:
        The loads [N], and which of them bounds the working load along the screw.

    Raises:
        InputError: where a size lies outside the limits of a rule.

    Source: USDA Wood Handbook ch. 8; NDS 2018, 12.2.5; timber engineering formulas, as the rules say.

    Example:
        >>> sizes = {"shank_mm": 4.1656, "root_mm": 2.777, "penetration_mm": 25}
        >>> one = HeldScrew(kind="wood screw", gravity=0.68, **sizes)
        >>> found = held_loads(one)
        >>> round(found.withdrawal_n), round(found.working_n), found.governs
        (5213, 1043, 'the hold in the wood')
    """
    side_grain = withdrawal_n(screw.kind, screw.gravity, screw.shank_mm, screw.penetration_mm)
    share = END_GRAIN_WITHDRAWAL[screw.kind] if screw.in_end_grain else 1.0
    allowable = None
    if screw.kind == "wood screw":
        sizes = (screw.gravity, screw.shank_mm, screw.penetration_mm)
        allowable = share * withdrawal_n("wood screw", *sizes, "allowable")
    tension = screw_tension_n(screw.root_mm, metal_row(screw.metal).number("tensile"))
    through, crushes = _head(screw)
    bounds = [(share * side_grain / screw.factor, "the hold in the wood")]
    bounds.append((tension / METAL_FACTOR, "the screw itself"))
    if through is not None:
        bounds.append((through, "the head in the side piece"))
    working, governs = min(bounds)
    row, full, depth, side, across, lateral = _lateral(screw)
    return HeldLoads(
        side_grain_n=side_grain, grain_share=share, withdrawal_n=share * side_grain, allowable_n=allowable,
        tension_n=tension, pull_through_n=through, crushing_n=crushes, lateral_row=row, lateral_full_n=full,
        depth_share=depth, side_factor=side, across_factor=across, lateral_n=lateral, working_n=working,
        governs=governs,
    )  # fmt: skip


def _head(screw: HeldScrew) -> tuple[float | None, float | None]:
    if screw.head_mm is None or screw.side_mm is None:
        return None, None
    gravity = screw.side_gravity
    through = None if gravity is None else head_pull_through_n(gravity, screw.head_mm, screw.side_mm)
    strength = screw.side_strength_mpa
    return through, None if strength is None else crushing_n(strength, screw.head_mm, screw.hole_mm)


def _lateral(
    screw: HeldScrew,
) -> tuple[Row | None, float | None, float, float, float, float | None]:
    """The row, the full load, the three shares and the load; no load where the rule does not reach."""
    depth = depth_share(screw.kind, screw.depth_d, full_depth_d(screw.kind, screw.gravity))
    coach = screw.kind == "coach screw"
    side = side_member_factor(screw.side_mm / screw.shank_mm) if coach and screw.side_mm else 1.0
    across = across_grain_factor(screw.shank_mm) if coach and screw.across else 1.0
    row = lateral_row(screw.group, screw.gravity)
    if row is None:
        return None, None, depth, side, across, None
    full = lateral_n(screw.kind, row.number(screw.kind.replace(" ", "_")), screw.shank_mm)
    if depth == 0:
        return row, full, depth, side, across, None
    grain = END_GRAIN_LATERAL if screw.in_end_grain else 1.0
    return row, full, depth, side, across, full * depth * side * across * grain


def warnings_of(screw: HeldScrew, loads: HeldLoads) -> Iterator[str]:
    """What to mind about a screw or nail in wood.

    Args:
        screw: the screw.
        loads: its loads.

    Yields:
        Sentences with the number and the limit.

    Source: USDA Wood Handbook ch. 8 and EN 1995-1-1 Table 8.2 (both from memory); common practice.
    """
    depth, d = screw.depth_d, screw.shank_mm
    if loads.lateral_n is None and loads.lateral_row is None:
        least = "0.33 (hardwood) or 0.29 (softwood)"
        yield (
            f"No sideways load is tabled for a specific gravity of {screw.gravity:.3g}; it begins at {least}."
        )
    elif loads.lateral_n is None:
        least_d = least_depth_d(screw.kind, full_depth_d(screw.kind, screw.gravity))
        yield f"It goes in {depth:.1f} D: under {least_d:.2g} D no sideways load is to be counted on."
    elif loads.depth_share < 1:
        full = full_depth_d(screw.kind, screw.gravity)
        yield f"It goes in {depth:.1f} D: its full sideways load comes with {full:.3g} D."
    if loads.lateral_row is not None and screw.gravity > loads.lateral_row.number("gravity_most") + 0.011:
        most = loads.lateral_row["gravity_most"]
        yield (
            f"The sideways load is that of a specific gravity of {most}, the end of the table; this wood has "
            f"{screw.gravity:.3g}."
        )
    if screw.in_end_grain:
        yield (
            "In end grain the hold varies and is not to be relied on: a cross-dowel, or a plug "
            "with its grain "
            "across the screw, holds."
        )
    if loads.withdrawal_n > loads.tension_n:
        yield (
            f"The {screw.kind} breaks at {loads.tension_n:.0f} N, before the wood lets go at "
            f"{loads.withdrawal_n:.0f} N."
        )
    if screw.hardwood and screw.metal == "brass":
        yield (
            "Brass in hardwood: drive a steel screw of the same size first, take it out, wax, then this one."
        )
    yield from _pilot_warning(screw)
    if loads.crushing_n is not None and loads.working_n > loads.crushing_n:
        yield (
            f"The wood under the head begins to crush at {loads.crushing_n:.0f} N, less than the "
            "working load: "
            "put a washer under it."
        )
    row = distance_row(screw.pilot_mm != 0)
    for name, value, needed in (
        ("end", screw.end_mm, row.number("end")),
        ("edge", screw.edge_mm, row.number("edge")),
    ):
        if value is not None and value < needed * d - 1e-9:
            yield (
                f"It is {value:g} mm, {value / d:.1f} d, from the {name}; {needed:g} d, "
                f"{needed * d:.1f} mm, is wanted: the wood may split."
            )


def _pilot_warning(screw: HeldScrew) -> Iterator[str]:
    if screw.pilot_mm is None:
        return
    least, most = pilot_band_mm(screw.kind, screw.gravity, screw.hardwood, screw.shank_mm, screw.root_mm)
    if least - 1e-9 <= screw.pilot_mm <= most + 1e-9:
        return
    best = pilot_mm(screw.kind, screw.gravity, screw.hardwood, screw.shank_mm, screw.root_mm)
    cost = "it drives hard and may split or shear" if screw.pilot_mm < least else "the thread holds less"
    yield (
        f"The pilot of {screw.pilot_mm:.3g} mm is outside {least:.3g} to {most:.3g} mm: {cost}; begin with "
        f"{best:.2g} mm."
    )
