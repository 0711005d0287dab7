"""How far a lever travels each way, and what ends it: stops, springs, the angle of an edge, a flexure."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator, Sequence
from itertools import pairwise

from calculators.mechanics.pivot.energy import spring_length
from calculators.mechanics.pivot.model import HALF_TURN, End, Lever, Spring
from calculators.mechanics.pivot.rooting import root_between
from calculators.quantities.errors import InputError

NOTHING = "nothing, within half a turn"
"""What ends the travel where nothing does."""

_LENGTH_TOLERANCE_MM = 1e-9


def stop_angle(gap_mm: float, radius_mm: float, width_mm: float = 0.0) -> float:
    """How far a straight lever turns until its edge meets the tip of a stop.

    a = arctan((g + w/2)/R) - arcsin((w/2)/sqrt(R^2 + (g + w/2)^2))

    Args:
        gap_mm: [mm] from the lever's edge to the tip, square to the lever at rest; 0 or more.
        radius_mm: [mm] from the pivot to the tip along the lever at rest, over 0.
        width_mm: [mm] across the lever there, 0 or more.

    Returns:
        The angle [rad], 0 to less than a quarter turn.

    Raises:
        InputError: when the radius is not over 0, or gap or width is less.

    Source: the distance of the tip from the lever's axis is half the width at contact (geometry, derived
        here).

    Example:
        >>> round(math.degrees(stop_angle(23.5, 220, 6)), 2), round(math.degrees(stop_angle(15, 220, 6)), 2)
        (6.09, 3.9)
    """
    if radius_mm <= 0 or gap_mm < 0 or width_mm < 0:
        says = "A stop needs a radius over 0 mm, and a gap and a width of the lever of 0 mm or more."
        raise InputError.of(says, field="stop_radius")
    half = width_mm / 2
    reach = math.hypot(radius_mm, gap_mm + half)
    return max(0.0, math.atan2(gap_mm + half, radius_mm) - math.asin(half / reach))


def turning_points(spring: Spring) -> tuple[float, ...]:
    """The angles at which a spring is shortest and longest.

    Args:
        spring: a spring of a lever with a sharp edge, pin or flexure.

    Returns:
        The angles [rad], from less than minus half a turn to half a turn; none where the length does not
        change. A rounded edge moves them by less than its radius over the spring's arm.

    Source: L^2 = p^2 + a^2 - 2 p a cos(t - d) (law of cosines).

    Example:
        >>> [round(math.degrees(each)) for each in turning_points(Spring(100, 0, 0, 50, 1, 10))]
        [90, -90]
    """
    if not math.hypot(spring.x_mm, spring.y_mm) or not math.hypot(spring.anchor_x_mm, spring.anchor_y_mm):
        return ()
    near = math.atan2(spring.anchor_y_mm, spring.anchor_x_mm) - math.atan2(spring.y_mm, spring.x_mm)
    near = math.remainder(near, 2 * HALF_TURN)
    return near, math.remainder(near + HALF_TURN, 2 * HALF_TURN)


def angles_at_length(
    lever: Lever, spring: Spring, length_mm: float, low: float, high: float
) -> tuple[float, ...]:
    """The angles between two ends at which a spring has a length.

    Args:
        lever: the lever.
        spring: one of its springs.
        length_mm: [mm] the length.
        low: [rad] the one end.
        high: [rad] the other end, more.

    Returns:
        The angles [rad], smallest first; those at which the length is only touched may be left out.

    Source: this project.

    Example:
        >>> found = angles_at_length(Lever(), Spring(100, 0, 100, 30, 1, 30), 30, -1, 1)
        >>> [round(math.degrees(each), 3) for each in found]
        [0.0, 33.398]
    """
    found: list[float] = []

    def over(angle: float) -> float:
        return spring_length(lever, spring, angle) - length_mm

    for start, end in pairwise(_sections(spring, low, high)):
        at_start, at_end = over(start), over(end)
        if abs(at_start) < _LENGTH_TOLERANCE_MM:
            found.append(start)
        if min(abs(at_start), abs(at_end)) >= _LENGTH_TOLERANCE_MM and (at_start < 0) != (at_end < 0):
            found.append(root_between(over, start, end))
    if abs(over(high)) < _LENGTH_TOLERANCE_MM:
        found.append(high)
    return tuple(sorted(found))


def _sections(spring: Spring, low: float, high: float) -> list[float]:
    """The ends and what lies between them of nought and the spring's turning points."""
    inner = {each for each in (0.0, *turning_points(spring)) if low < each < high}
    return sorted({low, high} | inner)


def travel_ends(
    lever: Lever,
    stops: tuple[float | None, float | None],
    limits: Sequence[tuple[float, float, str]] = (),
) -> tuple[End, End]:
    """The ends of a lever's travel, each the first thing met on the way from the lever as drawn.

    Args:
        lever: the lever.
        stops: [rad] the angles of the two stops, the first 0 or less, the second 0 or more; None where there
            is none.
        limits: further limits: [rad] angles to either side of 0, and in words what they are of.

    Returns:
        The clockwise end and the anticlockwise end; half a turn where nothing stops it.

    Raises:
        InputError: when the lever as drawn is beyond a limit already.

    Source: this project.

    Example:
        >>> low, high = travel_ends(Lever(), (-0.1, None), [(-0.2, 0.3, "the limit of the flexure")])
        >>> low, high.what
        (End(angle_rad=-0.1, what='the low stop'), 'the limit of the flexure')
    """
    _refuse_drawn_beyond(lever)
    lows = [End(stops[0], "the low stop")] if stops[0] is not None else []
    highs = [End(stops[1], "the high stop")] if stops[1] is not None else []
    for below, above, what in limits:
        lows.append(End(below, what))
        highs.append(End(above, what))
    for number, spring in enumerate(lever.springs, start=1):
        for room, what in _spring_limits(lever, spring, number):
            lows += [End(each, what) for each in _first(spring, room, -HALF_TURN)]
            highs += [End(each, what) for each in _first(spring, room, HALF_TURN)]
    lows.append(End(-HALF_TURN, NOTHING))
    highs.append(End(HALF_TURN, NOTHING))
    # Of limits that act together the first is told.
    return max(lows, key=lambda end: end.angle_rad), min(highs, key=lambda end: end.angle_rad)


def _spring_limits(
    lever: Lever, spring: Spring, number: int
) -> Iterator[tuple[Callable[[float], float], str]]:
    """For each length at which a spring stops the lever: how much room is left at an angle, and its words."""
    if (solid := spring.solid_mm) is not None and spring.kind != "extension":
        yield lambda angle: spring_length(lever, spring, angle) - solid, f"spring {number} closed solid"
    if (longest := spring.longest_mm) is not None:
        yield lambda angle: longest - spring_length(lever, spring, angle), f"spring {number} at its longest"


def _first(spring: Spring, room: Callable[[float], float], end: float) -> tuple[float, ...]:
    """The first angle from 0 towards an end at which the room is used up; none where it never is."""
    way = sorted(_sections(spring, min(0.0, end), max(0.0, end)), key=abs)
    for start, stop in pairwise(way):
        if room(stop) < -_LENGTH_TOLERANCE_MM:
            return (start if room(start) <= _LENGTH_TOLERANCE_MM else root_between(room, start, stop),)
    return ()


def _refuse_drawn_beyond(lever: Lever) -> None:
    for number, spring in enumerate(lever.springs, start=1):
        length = spring_length(lever, spring, 0.0)
        solid, longest = spring.solid_mm, spring.longest_mm
        if spring.kind != "extension" and solid is not None and length < solid - _LENGTH_TOLERANCE_MM:
            says = (
                f"Spring {number} is {length:.4g} mm long in the lever as drawn, shorter than its solid "
                f"length of {solid:.4g} mm; move its anchor or draw the lever at an angle that it can take."
            )
            raise InputError.of(says, field=f"springs[{number - 1}].solid_length", value=length, limit=solid)
        if longest is not None and length > longest + _LENGTH_TOLERANCE_MM:
            says = (
                f"Spring {number} is {length:.4g} mm long in the lever as drawn, longer than its longest of "
                f"{longest:.4g} mm; move its anchor or draw the lever at an angle that it can take."
            )
            raise InputError.of(says, field=f"springs[{number - 1}].longest", value=length, limit=longest)


def slack_angles(lever: Lever, low: float, high: float) -> tuple[tuple[int, float], ...]:
    """The angles at which a spring goes slack or takes up.

    Args:
        lever: the lever.
        low: [rad] the one end of the travel.
        high: [rad] the other end, more.

    Returns:
        For each the number of the spring, from 1, and the angle [rad].

    Source: this project.

    Example:
        >>> slack_angles(Lever((Spring(100, 0, 100, 30, 1, 30),)), -1, 0.5)
        ((1, 0.0),)
    """
    return tuple(
        (number, angle)
        for number, spring in enumerate(lever.springs, start=1)
        if spring.kind != "both"
        for angle in angles_at_length(lever, spring, spring.free_length_mm, low, high)
    )
