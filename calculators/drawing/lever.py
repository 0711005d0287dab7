"""A lever about a pivot to scale, at rest and at both ends of its travel; and its moment by angle."""

from __future__ import annotations

import math
from collections.abc import Iterator, Sequence
from itertools import pairwise

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM, Axis, Bound, Curve, Spot, chart
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
from calculators.drawing.mechanism import arc_dimension, mechanism_pictures
from calculators.drawing.sketch import Sketch
from calculators.drawing.svg import PAPER, Point
from calculators.mechanics.pivot.balance import breaks
from calculators.mechanics.pivot.energy import moment, place_of, pull_of, spring_length
from calculators.mechanics.pivot.model import Lever
from calculators.mechanics.pivot.standing import Standing
from calculators.mechanics.pivot.travel import NOTHING, slack_angles

_COILS = 7
_MOST_NAMED = 6
"""With more springs and loads than this only their numbers stand in the drawing."""


def lever_pictures(
    lever: Lever,
    stood: Standing,
    *,
    kind: str = "pin",
    edge_deg: float = 60.0,
    v_deg: float = 90.0,
    stop_tips: tuple[Point | None, Point | None] = (None, None),
) -> tuple[Picture, ...]:
    """Draw a lever and its moment by angle.

    Args:
        lever: the lever.
        stood: how it stands.
        kind: pin, knife-edge or flexure.
        edge_deg: [deg] included angle of a knife edge.
        v_deg: [deg] included angle of its V.
        stop_tips: [mm] where the tips of the two stops are, None where only their angles are known.

    Returns:
        The lever to scale, the lever in each of its positions, and the curve of its moment.

    Source: this project; lines of ISO 128 (from memory).
    """
    wide, slim = (
        _drawing(lever, stood, width, kind, (edge_deg, v_deg), stop_tips) for width in (BROAD_MM, NARROW_MM)
    )
    curves = [_moments(lever, stood, width) for width in (BROAD_MM, NARROW_MM)]
    positions = mechanism_pictures(
        lever,
        stood,
        _bounds(lever, stood, stop_tips),
        (BROAD_MM, NARROW_MM),
        kind=kind,
        angles_deg=(edge_deg, v_deg),
        stop_tips=stop_tips,
    )
    at_rest, ends = _deg(stood.rest_rad), f"{_deg(stood.low.angle_rad)} and {_deg(stood.high.angle_rad)}"
    return (
        Picture("The lever", wide, slim, f"To scale: at rest at {at_rest}, dashed at {ends}."),
        *positions,
        Picture(
            "Moment by angle",
            curves[0],
            curves[1],
            "Where the curve falls through nought the lever comes back, where it rises it does not.",
        ),
    )


def _deg(angle: float) -> str:
    return f"{number_text(math.degrees(angle) if abs(angle) > 1e-10 else 0.0, 3)} deg"


def _bounds(
    lever: Lever, stood: Standing, tips: Sequence[Point | None], also: Sequence[float] = ()
) -> tuple[float, float, float, float]:
    ends = [end.angle_rad for end in (stood.low, stood.high) if end.what != NOTHING]
    angles = [*(_between(*ends) if len(ends) == 2 else ends), stood.rest_rad, *also]
    every = [(0.0, 0.0), *((one.anchor_x_mm, one.anchor_y_mm) for one in lever.springs)]
    every += [place_of(lever, x, y, angle) for x, y in acted_points(lever) for angle in angles]
    every += [tip for tip in tips if tip is not None]
    span = max(max(abs(x) for x, _ in every), max(abs(y) for _, y in every), 1.0)
    pad = 0.06 * span
    for number in range(len(lever.loads)):
        for angle in {stood.rest_rad, *ends}:
            tail = load_tail(lever, number, angle, 0.25 * span)
            every += [tail] if tail else []
    xs, ys = [x for x, _ in every], [y for _, y in every]
    return min(xs) - pad, min(ys) - pad, max(xs) + pad, max(ys) + pad


def _between(low: float, high: float) -> list[float]:
    return [low + (high - low) * place / 24 for place in range(25)]


def _drawing(
    lever: Lever,
    stood: Standing,
    width: float,
    kind: str,
    angles_deg: tuple[float, float],
    tips: tuple[Point | None, Point | None],
) -> str:
    side = 22.0 if width >= 120 else 12.0
    over = [each.angle_rad for each in stood.balances if each.kind == "unstable"]
    sketch = Sketch(_bounds(lever, stood, tips, over), width, sides_mm=(side, side), tallest_mm=0.62 * width)
    unit = 1 / sketch.scale
    for end in (stood.low, stood.high):
        if end.what != NOTHING:
            draw_arms(sketch, lever, end.angle_rad, "hidden")
    for each in stood.balances:
        if each.kind == "unstable":
            draw_arms(sketch, lever, each.angle_rad, "finding")
    draw_arms(sketch, lever, stood.rest_rad, "outline")
    for spring in lever.springs:
        start = place_of(lever, spring.x_mm, spring.y_mm, stood.rest_rad)
        anchor = (spring.anchor_x_mm, spring.anchor_y_mm)
        slack = pull_of(spring, spring_length(lever, spring, stood.rest_rad)) == 0
        sketch.shape([_zigzag(start, anchor, 1.5 * unit)], "thin" if slack else "edge", closed=False)
        sketch.circle(anchor, 0.9 * unit, "edge", PAPER)
    for index in range(len(lever.loads)):
        draw_load(sketch, lever, index, stood.rest_rad)
    draw_pivot(sketch, lever, kind, angles_deg)
    for end, tip, side in zip((stood.low, stood.high), tips, (-1, 1), strict=True):
        if tip is not None or end.what.endswith("stop"):
            draw_stop(sketch, lever, end.angle_rad, tip, side)
    _travel(sketch, lever, stood)
    _notes(sketch, lever, stood)
    return sketch.svg(title="Lever about its pivot, to scale", description=" ".join(_words(lever, stood)))


def _zigzag(start: Point, end: Point, half: float) -> list[Point]:
    """A spring between two points: a straight lead at each end and a zigzag between."""
    length = math.dist(start, end)
    if length < 1e-9:
        return [start, end]
    along = ((end[0] - start[0]) / length, (end[1] - start[1]) / length)
    body, lead = 0.7 * length, 0.15 * length
    found = [start]
    for place in range(2 * _COILS + 1):
        at = lead + body * place / (2 * _COILS)
        off = 0.0 if place in (0, 2 * _COILS) else half * (1 if place % 2 else -1)
        found.append((start[0] + at * along[0] - off * along[1], start[1] + at * along[1] + off * along[0]))
    return [*found, end]


def _travel(sketch: Sketch, lever: Lever, stood: Standing) -> None:
    """Dimension the travel from end to end, where something ends it on both sides."""
    far = far_point(lever)
    low, high = stood.low, stood.high
    if far is None or NOTHING in (low.what, high.what):
        return
    first = math.atan2(far[1], far[0])
    says = f"travel {_deg(high.angle_rad - low.angle_rad)}"
    arc_dimension(sketch, 0.75 * math.hypot(*far), first + low.angle_rad, first + high.angle_rad, says)


def _notes(sketch: Sketch, lever: Lever, stood: Standing) -> None:
    named = len(lever.springs) + len(lever.loads) <= _MOST_NAMED and sketch.width >= 120
    for number, spring in enumerate(lever.springs, start=1):
        start = place_of(lever, spring.x_mm, spring.y_mm, stood.rest_rad)
        middle = ((start[0] + spring.anchor_x_mm) / 2, (start[1] + spring.anchor_y_mm) / 2)
        pull = pull_of(spring, spring_length(lever, spring, stood.rest_rad))
        more = f" {number_text(pull, 3)} N" if pull else " slack"
        sketch.note(middle, f"spring {number}{more}" if named else str(number), dot=False)
    for number, load in enumerate(lever.loads, start=1):
        if load.force_n > 0 and named:
            tail = load_tail(lever, number - 1, stood.rest_rad, ARROW_MM / sketch.scale)
            if tail:
                sketch.note(tail, f"{number_text(load.force_n, 3)} N", dot=False)
    far = far_point(lever)
    for end in (stood.low, stood.high):
        if far is not None and end.what != NOTHING:
            sketch.note(place_of(lever, far[0], far[1], end.angle_rad), _deg(end.angle_rad), dot=False)
    for each in stood.balances:
        if far is not None and each.kind == "unstable":
            at = place_of(lever, far[0], far[1], each.angle_rad)
            sketch.note(at, f"over centre {_deg(each.angle_rad)}", wrong=True, dot=False)


def _words(lever: Lever, stood: Standing) -> Iterator[str]:
    """What is to be seen, in sentences with the numbers."""
    yield f"The lever rests at {_deg(stood.rest_rad)} from where it is drawn."
    for word, end in (("Clockwise", stood.low), ("Anticlockwise", stood.high)):
        yield f"{word} it goes to {_deg(end.angle_rad)}: {end.what}."
    for each in stood.balances:
        if each.kind == "unstable":
            yield f"At {_deg(each.angle_rad)} it goes over centre: let go there it falls to either side."
    for number, spring in enumerate(lever.springs, start=1):
        length = spring_length(lever, spring, stood.rest_rad)
        pull = pull_of(spring, length)
        does = f"pulls {number_text(pull, 3)} N" if pull > 0 else f"pushes {number_text(-pull, 3)} N"
        yield f"Spring {number} is {number_text(length, 4)} mm long and {does if pull else 'is slack'}."
    for number, load in enumerate(lever.loads, start=1):
        yield f"Load {number} is {number_text(load.force_n, 3)} N."


def _moments(lever: Lever, stood: Standing, width: float) -> str:
    low, high = stood.low.angle_rad, stood.high.angle_rad
    edges = [low, *breaks(lever, low, high), high]
    pieces = []
    for start, end in pairwise(edges):
        steps = max(2, round(120 * (end - start) / (high - low)))
        ends = [start + (end - start) * place / steps for place in range(steps + 1)]
        ends[0], ends[-1] = start + 1e-9, end - 1e-9
        pieces.append([(math.degrees(each), moment(lever, each)) for each in ends])
    most = max(abs(turn) for piece in pieces for _, turn in piece)
    unit, by = ("N m", 1000.0) if most >= 500.0 else ("N mm", 1.0)
    curves = [Curve(tuple(piece)) for piece in _scaled(pieces, by)]
    # Where a spring takes up with its initial tension the moment jumps.
    curves += [Curve((one[-1], other[0]), line="thin") for one, other in pairwise(_scaled(pieces, by))]
    bounds = [
        Bound(_short(end.what) if width >= 120 else "", x=math.degrees(end.angle_rad))
        for end in (stood.low, stood.high)
        if end.what != NOTHING
    ]
    falls = ", ".join(f"{each.kind} at {_deg(each.angle_rad)}" for each in stood.balances) or "nowhere"
    return chart(
        Axis("angle", "deg"),
        Axis("moment, anticlockwise", unit),
        curves,
        title="Moment on the lever by angle",
        description=f"Between {_deg(low)} and {_deg(high)} the moment is nought: {falls}.",
        spots=_spots(lever, stood, by, width),
        bounds=bounds,
        width_mm=width,
        height_mm=84.0 if width >= 120 else 74.0,
    )


def _scaled(pieces: Sequence[Sequence[Point]], by: float) -> list[list[Point]]:
    return [[(angle, turn / by) for angle, turn in piece] for piece in pieces]


def _spots(lever: Lever, stood: Standing, by: float, width: float) -> list[Spot]:
    """The balances, and where springs go slack; with too many of them only the balances have their words."""
    slack = slack_angles(lever, stood.low.angle_rad, stood.high.angle_rad)
    named = len(slack) + len(stood.balances) <= (7 if width >= 120 else 5)
    spots = []
    for each in stood.balances[:5]:
        to = each.angle_rad if each.to_rad is None else each.to_rad
        says = f"{'balance' if each.kind == 'stable' else each.kind} {_deg(each.angle_rad)}"
        says = says if each.to_rad is None else f"free {_deg(each.angle_rad)} to {_deg(to)}"
        spots.append(Spot(math.degrees((each.angle_rad + to) / 2), 0.0, says, each.kind == "unstable"))
    for number, angle in slack:
        says = f"spring {number} slack" if named else ""
        spots.append(Spot(math.degrees(angle), moment(lever, angle) / by, says))
    return spots


def _short(what: str) -> str:
    return what.split(",")[0].removeprefix("the ")
