"""Reading a lever about a pivot from its inputs, with all that does not go together."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass
from typing import Literal, cast

from calculators.calculation import Given
from calculators.mechanics.pivot.knife_edge import swing_each_way
from calculators.mechanics.pivot.model import Lever, Load, Spring, SpringKind, weight
from calculators.mechanics.pivot.travel import stop_angle
from calculators.quantities.errors import Fault, InputError


@dataclass(frozen=True, slots=True)
class Read:
    """What was read: the lever, its stops [rad], further limits, and its moment of inertia [kg m2]."""

    lever: Lever
    stops: tuple[float | None, float | None]
    limits: tuple[tuple[float, float, str], ...]
    inertia_kg_m2: float | None
    swing_deg: tuple[float, float] | None


def read_lever(given: Given) -> Read:
    """Read a lever from the inputs.

    Args:
        given: the inputs as read.

    Returns:
        What was read, in millimetres, newtons and radians.

    Raises:
        InputError: with a fault for each thing that does not go together.

    Source: this project.
    """
    faults = [*_spring_faults(given), *_load_faults(given), *_pivot_faults(given), *stop_faults(given)]
    if faults:
        raise InputError(*faults)
    kind = given.text("kind")
    is_edge, is_flexure = kind == "knife-edge", kind == "flexure"
    lever = Lever(
        tuple(_spring(row) for row in given.rows("springs")),
        tuple(_loads(given)),
        math.degrees(1000 * (given.number_or_none("flexure_rate") or 0.0)) if is_flexure else 0.0,
        math.radians(given.number("flexure_rest")) if is_flexure else 0.0,
        given.mm("edge_radius") if is_edge else 0.0,
        math.radians(given.number("edge_points")),
    )
    limits, swing = _limits(given)
    return Read(lever, stops_of(given), limits, _inertia(given), swing)


def _spring(row: Given) -> Spring:
    return Spring(
        row.mm("x"),
        row.mm("y"),
        row.mm("anchor_x"),
        row.mm("anchor_y"),
        row.number("rate"),
        row.mm("free_length"),
        cast(SpringKind, row.text("kind")),
        row.number("initial_tension"),
        row.mm_or_none("solid_length"),
        row.mm_or_none("longest"),
    )


def _loads(given: Given) -> Iterator[Load]:
    """The loads in their order; weights of an upright lever among them, the lever's own last."""
    upright = given.text("plane") == "upright"
    for row in given.rows("loads"):
        x, y, mass = row.mm("x"), row.mm("y"), row.number_or_none("mass")
        if mass is not None:
            yield weight(x, y, mass if upright else 0.0)
        else:
            direction = math.radians(row.number("direction"))
            yield Load(x, y, row.number_or_none("force") or 0.0, direction, row.flag("follows"))
    own = given.number_or_none("lever_mass")
    if own is not None and upright:
        yield weight(given.mm("centre_x"), given.mm("centre_y"), own)


def _inertia(given: Given) -> float | None:
    """The moment of inertia of lever and masses; None where nothing is known of it."""
    total = given.number_or_none("inertia") or 0.0
    for row in given.rows("loads"):
        total += (row.number_or_none("mass") or 0.0) * math.hypot(row.mm("x"), row.mm("y")) ** 2 * 1e-6
    own = given.number_or_none("lever_mass")
    if own is not None and given.number_or_none("inertia") is None:
        total += own * math.hypot(given.mm("centre_x"), given.mm("centre_y")) ** 2 * 1e-6
    return total or None


def _limits(
    given: Given,
) -> tuple[tuple[tuple[float, float, str], ...], tuple[float, float] | None]:
    """The limits that the pivot itself sets, and how far a knife edge swings in its V [deg]."""
    kind = given.text("kind")
    if kind == "flexure" and (limit := given.number_or_none("flexure_limit")) is not None:
        rest = given.number("flexure_rest")
        ends = math.radians(rest - limit), math.radians(rest + limit)
        return ((*ends, f"the limit of the flexure, {limit:g} deg"),), None
    edge, v_angle = given.number_or_none("edge_angle"), given.number_or_none("v_angle")
    if kind == "knife-edge" and edge is not None and v_angle is not None:
        swing = swing_each_way(edge, v_angle, given.number("edge_lean"))
        margin = given.number("margin")
        what = f"the flank of the V, less {margin:g} deg" if margin else "the flank of the V"
        if not swing[0] + margin <= 0 <= swing[1] - margin:
            room = min(-swing[0], swing[1])
            says = (
                f"A margin of {margin:g} deg leaves no swing: the lever as drawn is {room:g} deg from the "
                "flank of the V; write a smaller margin or a wider V."
            )
            raise InputError.of(says, field="margin", value=margin, limit=room, unit="deg")
        ends = math.radians(swing[0] + margin), math.radians(swing[1] - margin)
        return ((*ends, what),), swing
    return (), None


def stops_of(given: Given) -> tuple[float | None, float | None]:
    """The angles of the two stops, from their angles or from their gaps.

    Args:
        given: the inputs as read, with `stop_low`, `stop_high`, `gap_low`, `gap_high`, `stop_radius` and
            `lever_width`.

    Returns:
        The clockwise and the anticlockwise stop [rad], None where there is none.

    Source: this project.
    """
    found: list[float | None] = []
    for end, side in (("low", -1), ("high", 1)):
        angle, gap = given.number_or_none(f"stop_{end}"), given.mm_or_none(f"gap_{end}")
        radius = given.mm_or_none("stop_radius")
        if angle is not None:
            found.append(math.radians(angle))
        elif gap is not None and radius is not None:
            found.append(side * stop_angle(gap, radius, given.mm("lever_width")))
        else:
            found.append(None)
    return found[0], found[1]


def _spring_faults(given: Given) -> Iterator[Fault]:
    for place, row in enumerate(given.rows("springs")):
        where, name = f"springs[{place}]", f"Springs, row {place + 1}:"
        kind, free = row.text("kind"), row.mm("free_length")
        solid, longest = row.mm_or_none("solid_length"), row.mm_or_none("longest")
        if kind != "extension" and row.number("initial_tension") > 0:
            says = f"{name} A spring of kind {kind} has no initial tension; leave it out."
            yield Fault(says, f"{where}.initial_tension")
        if kind == "extension" and solid is not None:
            says = f"{name} An extension spring goes slack before it is solid; leave out its solid length."
            yield Fault(says, f"{where}.solid_length")
        if solid is not None and solid >= free:
            says = f"{name} A solid length of {solid:g} mm must be less than the free length of {free:g} mm."
            yield Fault(says, f"{where}.solid_length", (), solid, free, "mm")
        if longest is not None and longest <= free and kind != "compression":
            says = f"{name} The longest of {longest:g} mm must be more than the free length of {free:g} mm."
            yield Fault(says, f"{where}.longest", (), longest, free, "mm")


def _load_faults(given: Given) -> Iterator[Fault]:
    for place, row in enumerate(given.rows("loads")):
        force, mass = row.number_or_none("force"), row.number_or_none("mass")
        if (force is None) == (mass is None):
            both = "both a force and a mass" if force is not None else "neither a force nor a mass"
            says = f"Loads, row {place + 1}: It has {both}; write one of the two."
            yield Fault(says, f"loads[{place}].force")
        if mass is not None and row.flag("follows"):
            says = f"Loads, row {place + 1}: A mass always pulls straight down; leave out follows."
            yield Fault(says, f"loads[{place}].follows")


def _pivot_faults(given: Given) -> Iterator[Fault]:
    if (given.number_or_none("edge_angle") is None) != (given.number_or_none("v_angle") is None):
        missing = "edge_angle" if given.number_or_none("edge_angle") is None else "v_angle"
        says = f"A knife edge's travel needs both edge_angle and v_angle; {missing} is missing."
        yield Fault(says, missing)
    if given.text("kind") == "flexure" and given.number_or_none("flexure_rate") is None:
        says = "A flexure needs its flexure_rate; write 0 N m/deg for one that is not felt."
        yield Fault(says, "flexure_rate")
    if given.number_or_none("flexure_limit") is not None and (
        abs(given.number("flexure_rest")) > given.number("flexure_limit")
    ):
        says = "The flexure is bent beyond its limit in the lever as drawn; write a larger flexure_limit."
        yield Fault(says, "flexure_limit")
    moved = given.rows("springs") or given.rows("loads") or given.number_or_none("flexure_rate")
    if not moved and not given.number_or_none("lever_mass"):
        says = "Nothing turns the lever; write springs or loads, a row for each."
        yield Fault(says, "springs")
    springs = len(given.rows("springs"))
    if springs and given.integer("adjust_spring") > springs:
        number = given.integer("adjust_spring")
        says = f"There is no spring {number}; write adjust_spring from 1 to {springs}."
        yield Fault(says, "adjust_spring", (), float(number), float(springs))


def stop_faults(given: Given) -> Iterator[Fault]:
    """What does not go together in the stops that were given.

    Args:
        given: the inputs as read, as in `stops_of`.

    Yields:
        A fault for each stop that is given twice, or by a gap without its radius.

    Source: this project.
    """
    sides: tuple[Literal["low", "high"], ...] = ("low", "high")
    for end in sides:
        gap = given.mm_or_none(f"gap_{end}")
        if gap is not None and given.number_or_none(f"stop_{end}") is not None:
            says = f"The {end} stop has both stop_{end} and gap_{end}; write one of the two."
            yield Fault(says, f"gap_{end}")
        elif gap is not None and given.mm_or_none("stop_radius") is None:
            says = f"A stop's gap needs its stop_radius, from the pivot to its tip; gap_{end} has none."
            yield Fault(says, "stop_radius")
