"""A lever in each of its positions, to one scale: at rest and at both ends of its travel.

In each the springs have their length there, the loads their direction, and the angle from rest is
dimensioned. What is dangerous there is red: a spring that is solid, at its longest or slack, and an end at
which the lever stays when it is brought there, beyond an over-centre balance.
"""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.lever_parts import (
    ARROW_MM,
    acted_points,
    draw_arms,
    draw_load,
    draw_pivot,
    draw_stop,
    far_point,
    load_tail,
)
from calculators.drawing.sketch import Sketch
from calculators.drawing.spring_between import draw_spring
from calculators.drawing.svg import BLUE, Point
from calculators.mechanics.pivot.energy import place_of, pull_of, spring_length
from calculators.mechanics.pivot.model import End, Lever, Spring
from calculators.mechanics.pivot.standing import Standing
from calculators.mechanics.pivot.travel import NOTHING

LEAST_TURN_RAD = math.radians(0.05)
"""A smaller angle is not dimensioned."""
_CLOSE_MM = 0.005
_MOST_NAMED = 6
"""With more springs and loads than this their words stand below the drawing alone."""


@dataclass(frozen=True, slots=True)
class Position:
    """One position of a lever: its name, its angle [rad], and the end of the travel that it is, if any.

    `stays` says that the lever stays at this end when it is brought there, away from its balance.
    """

    name: str
    angle_rad: float
    end: End | None = None
    stays: bool = False


def positions_of(stood: Standing) -> tuple[Position, ...]:
    """Return the positions that are drawn: at rest, and each end at which something stops the lever.

    Args:
        stood: how the lever stands.

    Returns:
        The positions.

    Source: this project.
    """
    found = [Position("At rest", stood.rest_rad)]
    for name, end, held in zip(
        ("At the clockwise end", "At the anticlockwise end"), (stood.low, stood.high), stood.held, strict=True
    ):
        if end.what != NOTHING:
            found.append(Position(name, end.angle_rad, end, held and stood.balance is not None))
    return tuple(found)


def spring_state(spring: Spring, length_mm: float) -> str:
    """Say how a spring is at a length, where that is a danger: solid, at its longest, slack; else nothing.

    Args:
        spring: the spring.
        length_mm: its length [mm].

    Returns:
        The words, or nothing.

    Source: this project.

    Example:
        >>> from calculators.mechanics.pivot.model import Spring
        >>> spring_state(Spring(0, 0, 0, 9, 1.0, 40.0), 39.0)
        'slack'
    """
    solid = None if spring.kind == "extension" else spring.solid_mm
    if solid is not None and length_mm <= solid + _CLOSE_MM:
        return "closed solid"
    if spring.longest_mm is not None and length_mm >= spring.longest_mm - _CLOSE_MM:
        return "at its longest"
    return "slack" if spring.kind != "both" and pull_of(spring, length_mm) == 0 else ""


def mechanism_pictures(
    lever: Lever,
    stood: Standing,
    bounds: tuple[float, float, float, float],
    widths_mm: tuple[float, float],
    *,
    kind: str,
    angles_deg: tuple[float, float],
    stop_tips: tuple[Point | None, Point | None],
) -> tuple[Picture, ...]:
    """Draw a lever in each of its positions.

    Args:
        lever: the lever.
        stood: how it stands.
        bounds: what all the positions take: least x and y, most x and y [mm].
        widths_mm: the widths of the broad and the narrow sheet [mm].
        kind: pin, knife-edge or flexure.
        angles_deg: [deg] included angles of a knife edge and of its V.
        stop_tips: [mm] where the tips of the stops are, None where only their angles are known.

    Returns:
        A picture for each position.

    Source: this project; lines of ISO 128, springs of ISO 2162-1 (from memory).
    """
    found = []
    for position in positions_of(stood):
        drawn = [
            _drawing(lever, stood, position, bounds, width, kind, angles_deg, stop_tips)
            for width in widths_mm
        ]
        stopped = f" ({position.end.what})" if position.end else ""
        caption = f"{position.name}, {_deg(position.angle_rad)}{stopped}, to scale."
        found.append(Picture(position.name, drawn[0], drawn[1], caption))
    return tuple(found)


def _drawing(
    lever: Lever,
    stood: Standing,
    position: Position,
    bounds: tuple[float, float, float, float],
    width: float,
    kind: str,
    angles_deg: tuple[float, float],
    tips: tuple[Point | None, Point | None],
) -> str:
    side = 22.0 if width >= 120 else 12.0
    sketch = Sketch(bounds, width, sides_mm=(side, side), tallest_mm=0.5 * width)
    angle = position.angle_rad
    if position.end:
        draw_arms(sketch, lever, stood.rest_rad, "hidden")
    draw_arms(sketch, lever, angle, "finding" if position.stays else "outline")
    for spring in lever.springs:
        start = place_of(lever, spring.x_mm, spring.y_mm, angle)
        state = spring_state(spring, spring_length(lever, spring, angle))
        draw_spring(sketch, start, (spring.anchor_x_mm, spring.anchor_y_mm), spring, wrong=bool(state))
    for number in range(len(lever.loads)):
        draw_load(sketch, lever, number, angle)
    draw_pivot(sketch, lever, kind, angles_deg)
    for end, tip, way in zip((stood.low, stood.high), tips, (-1, 1), strict=True):
        if tip is not None or (end is position.end and end.what.endswith("stop")):
            draw_stop(sketch, lever, end.angle_rad, tip, way)
    _angle(sketch, lever, stood, position)
    _notes(sketch, lever, position, width)
    says = list(_words(lever, stood, position))
    return sketch.svg(title=f"Lever, {position.name.lower()}, to scale", description=" ".join(says))


def _angle(sketch: Sketch, lever: Lever, stood: Standing, position: Position) -> None:
    """Dimension the angle from rest; at rest that from the lever as drawn."""
    far = far_point(lever)
    begin = stood.rest_rad if position.end else 0.0
    turn = position.angle_rad - begin
    if far is None or abs(turn) < LEAST_TURN_RAD:
        return
    radius = 0.45 * math.hypot(*far)
    first = math.atan2(far[1], far[0]) + begin
    arc_dimension(sketch, radius, first, first + turn, _deg(turn))


def arc_dimension(sketch: Sketch, radius: float, first_rad: float, last_rad: float, says: str) -> None:
    """Draw a dimension along an arc about the pivot, with an arrow at each end and its words.

    Args:
        sketch: the drawing.
        radius: the arc's radius [mm].
        first_rad: [rad] where it begins, anticlockwise from x.
        last_rad: [rad] where it ends.
        says: its words.

    Source: ISO 129-1 (from memory).
    """
    steps = max(8, math.ceil(abs(math.degrees(last_rad - first_rad)) / 2))
    places = [first_rad + (last_rad - first_rad) * i / steps for i in range(steps + 1)]
    points = [(radius * math.cos(each), radius * math.sin(each)) for each in places]
    sketch.shape([points], "dimension", closed=False)
    unit = 1 / sketch.scale
    room = radius * abs(last_rad - first_rad)
    for at, way in ((first_rad, 1.0), (last_rad, -1.0)):
        turn = math.copysign(1.0, last_rad - first_rad) * way * (1.0 if room > 6 * unit else -1.0)
        tip = (radius * math.cos(at), radius * math.sin(at))
        back = (-math.sin(at) * turn, math.cos(at) * turn)
        out = (math.cos(at), math.sin(at))
        wings = [
            (
                tip[0] + unit * (1.8 * back[0] + side * 0.45 * out[0]),
                tip[1] + unit * (1.8 * back[1] + side * 0.45 * out[1]),
            )
            for side in (1, -1)
        ]
        sketch.shape([[tip, *wings]], "none", fill=BLUE)
    sketch.note(points[len(points) // 2], says, dot=False)


def _notes(sketch: Sketch, lever: Lever, position: Position, width: float) -> None:
    named = len(lever.springs) + len(lever.loads) <= _MOST_NAMED and width >= 120
    for number, spring in enumerate(lever.springs, start=1):
        length = spring_length(lever, spring, position.angle_rad)
        start = place_of(lever, spring.x_mm, spring.y_mm, position.angle_rad)
        middle = ((start[0] + spring.anchor_x_mm) / 2, (start[1] + spring.anchor_y_mm) / 2)
        state = spring_state(spring, length)
        words = f"{number_text(length, 3)} mm" + (f", {state}" if state else "")
        says = f"spring {number}: {words}" if named else str(number)
        sketch.note(middle, says, wrong=bool(state), dot=False)
    for number, load in enumerate(lever.loads, start=1):
        tail = load_tail(lever, number - 1, position.angle_rad, ARROW_MM / sketch.scale)
        if tail and named:
            sketch.note(tail, f"{number_text(load.force_n, 3)} N", dot=False)
    if position.stays:
        sketch.below("The lever stays here when it is brought here.", ink="finding")
    for number, spring in enumerate(lever.springs, start=1):
        state = spring_state(spring, spring_length(lever, spring, position.angle_rad))
        if state and not named:
            sketch.below(f"Spring {number} is {state}.", ink="finding")


def _words(lever: Lever, stood: Standing, position: Position) -> Iterator[str]:
    """What is to be seen, in sentences with the numbers."""
    yield f"{position.name} the lever is at {_deg(position.angle_rad)} from where it is drawn."
    if position.end:
        yield f"That is {_deg(position.angle_rad - stood.rest_rad)} from rest, at {position.end.what}."
    for x, y in acted_points(lever):
        to_x, to_y = place_of(lever, x, y, position.angle_rad)
        yield f"Its point {_mm(x)}, {_mm(y)} is at {_mm(to_x)}, {_mm(to_y)} mm."
    for number, spring in enumerate(lever.springs, start=1):
        length = spring_length(lever, spring, position.angle_rad)
        pull = pull_of(spring, length)
        does = f"pulls {number_text(pull, 3)} N" if pull > 0 else f"pushes {number_text(-pull, 3)} N"
        state = spring_state(spring, length)
        more = f" and is {state}" if state and state != "slack" else ""
        yield f"Spring {number} is {number_text(length, 4)} mm long, {does if pull else 'slack'}{more}."
    if position.stays:
        yield "The lever stays here when it is brought here."


def _mm(value: float) -> str:
    return number_text(value if abs(value) > 1e-9 else 0.0, 4)


def _deg(angle: float) -> str:
    return f"{number_text(math.degrees(angle) if abs(angle) > 1e-10 else 0.0, 3)} deg"
