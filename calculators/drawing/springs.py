"""Pictures of a spring: to scale at its lengths, and its load over its length."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from math import cos, radians, sin

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM, Axis, Bound, Curve, Spot, chart
from calculators.drawing.coils_drawn import Coil, pressed_coil, pulled_coil, ring, round_scale, stroke
from calculators.drawing.svg import PAPER, STEEL, Point, document, lettering, path
from calculators.mechanics.springs.coils import HOOKS

_TALLEST_MM = 80.0
_LETTER = 3.6


@dataclass(frozen=True, slots=True)
class _State:
    """One length at which a spring is drawn, with its load where that is known."""

    name: str
    length_mm: float
    load_n: float | None

    @property
    def lines(self) -> tuple[str, ...]:
        load = () if self.load_n is None else (f"{_n(self.load_n)} N",)
        return (self.name, f"{_n(self.length_mm)} mm", *load)


def draw_spring(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw what the spring calculator worked out.

    Args:
        given: its inputs.
        result: its result.

    Returns:
        The spring to scale and its load over its length; only what is known is drawn.

    Source: this project; lines of ISO 128 (from memory).
    """
    if given.text("kind") == "torsion":
        return _wound(given, result)
    return _pressed(given, result) if given.text("kind") == "compression" else _pulled(given, result)


def _n(value: float) -> str:
    return number_text(value, 4)


def _number(result: Result, name: str) -> float | None:
    one = result.results.get(name)
    value = None if one is None else one.value
    return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None


def _sure(result: Result, name: str) -> float:
    value = _number(result, name)
    assert value is not None, name
    return value


def _both(title: str, caption: str, draw: Callable[[float], str]) -> Picture:
    return Picture(title, draw(BROAD_MM), draw(NARROW_MM), caption)


# Pressed and pulled: the same row of elevations and the same chart.


def _pressed(given: Given, result: Result) -> tuple[Picture, ...]:
    free, load = _number(result, "free_length"), _number(result, "load")
    if free is None:
        return ()
    solid = _sure(result, "solid_length")
    working = given.mm_or_none("working_length")
    states = [_State("free", free, 0.0)]
    states += [_State("at work", working, load)] if working is not None else []
    states += [_State("solid", solid, _number(result, "solid_load"))]
    coil = pressed_coil(
        given.text_or_none("ends") or "closed-and-ground",
        given.mm("wire"),
        _sure(result, "mean_diameter"),
        _sure(result, "active_coils"),
    )
    outside = _number(result, "outside_diameter_solid") or _sure(result, "outside_diameter")
    says = "; ".join(f"{each.name} {', '.join(each.lines[1:])}" for each in states)
    row = _row("Compression spring to scale", states, outside, coil, says)
    return (row, _load_chart(result, states, free, solid))


def _pulled(given: Given, result: Result) -> tuple[Picture, ...]:
    free, load = _sure(result, "free_length"), _number(result, "load")
    working = given.mm_or_none("working_length")
    states = [_State("free", free, 0.0)]
    if working is not None and working > free:
        states.append(_State("at work", working, load))
    ends = given.text_or_none("ends") or "centre-hook"
    coil = pulled_coil(
        ends, given.mm("wire"), _sure(result, "mean_diameter"), _sure(result, "total_coils"), free
    )
    says = "; ".join(f"{each.name} {', '.join(each.lines[1:])}" for each in states)
    row = _row("Extension spring to scale", states, _sure(result, "outside_diameter"), coil, says,
               over=given.mm("wire") if HOOKS[ends].bent else 0.0)  # fmt: skip
    return (row, _load_chart(result, states, free, None))


def _row(
    title: str,
    states: Sequence[_State],
    outside_mm: float,
    coil: Coil,
    says: str,
    over: float = 0.0,
) -> Picture:
    """Draw a spring at several lengths side by side, standing on one line; `over` is what lies beyond."""
    tallest = max(each.length_mm for each in states) + 2 * over

    def draw(width: float) -> str:
        column = (width - 4) / len(states)
        fits = min((column - 4) / outside_mm, _TALLEST_MM / tallest)
        scale = round_scale(fits)
        height = tallest * scale + 8
        base = height - 4 - over * scale
        body = []
        for place, each in enumerate(states):
            middle = 2 + column * (place + 0.5)
            body += coil(each.length_mm, (middle, base), scale)
            top = base - each.length_mm * scale - over * scale
            body.append(
                path([[(middle, top - 2), (middle, base + over * scale + 2)]], "centre", closed=False)
            )
            body += [
                lettering(middle, height + 3.5 + 1.3 * _LETTER * line, words, _LETTER, anchor="middle",
                          ink="label" if line == 0 else "dimension")
                for line, words in enumerate(each.lines)
            ]  # fmt: skip
        total = height + 3.5 + 1.3 * _LETTER * max(len(each.lines) for each in states)
        words = f"Drawn at {number_text(scale, 2)} times its size. {says}."
        return document(body, width, total, title=title, description=words)

    return _both(title, f"The spring at each length, all to one scale: {says}.", draw)


def _load_chart(result: Result, states: Sequence[_State], free: float, solid: float | None) -> Picture:
    rate, initial = _sure(result, "rate"), _number(result, "initial_tension") or 0.0
    sign = 1.0 if solid is None else -1.0
    limit = _limit_load(result)
    last = solid if solid is not None else max(
        [each.length_mm for each in states] + [_number(result, "longest_length") or 0.0]
    )  # fmt: skip
    if last == free:
        last = free + _sure(result, "mean_diameter")
    line = [(free, initial), (last, initial + rate * sign * (last - free))]
    curve = Curve(((free, 0.0), *line) if initial else tuple(line), "")
    spots = [
        Spot(
            each.length_mm,
            each.load_n or 0.0,
            f"{each.name} {_n(each.length_mm)}\u00a0mm, {_n(each.load_n or 0.0)}\u00a0N",
            wrong=limit is not None and (each.load_n or 0.0) > limit,
        )
        for each in states
    ]
    bounds = []
    if limit is not None:
        bounds.append(Bound(f"limit of stress {_n(limit)}\u00a0N", y=limit, wrong=True))
    critical = _number(result, "critical_travel")
    if critical is not None and solid is not None and free - critical > solid:
        bounds.append(Bound(f"buckles at {_n(free - critical)} mm", x=free - critical, wrong=True))
    says = "; ".join(spot.says for spot in spots) + "".join(f"; {bound.says}" for bound in bounds)
    title = "Load over length"

    def draw(width: float) -> str:
        return chart(Axis("length", "mm"), Axis("load", "N", least=0.0), [curve], title=title,
                     description=f"{says}.", spots=spots, bounds=bounds, width_mm=width)  # fmt: skip

    return _both(title, f"{_n(rate)} N for each mm: {says}.", draw)


def _limit_load(result: Result) -> float | None:
    """The load [N], or moment [N mm], at which the stress comes to its limit."""
    limit, stress = _number(result, "stress_limit"), _number(result, "stress")
    load = _number(result, "winding_moment")
    load = _number(result, "load") if load is None else load
    return limit / stress * load if limit and stress and load else None


# Wound up: the end view with the legs, and moment over angle.


def _wound(given: Given, result: Result) -> tuple[Picture, ...]:
    turned = given.number_or_none("working_angle") or 0.0
    mean, wire = _sure(result, "mean_diameter"), given.mm("wire")
    arm = given.mm_or_none("arm") or 1.1 * mean
    rest = 360 * (_sure(result, "total_coils") % 1.0)
    inside = _number(result, "inside_diameter_wound")
    rod = given.mm_or_none("mandrel")
    reach = max(arm, mean / 2) + wire
    says = f"coil {_n(mean + wire)} mm outside, {_n(mean - wire)} mm inside at rest"
    says += f", {_n(inside)} mm inside wound up by {_n(turned)} deg" if turned and inside else ""
    says += f", on a rod of {_n(rod)} mm" if rod else ""
    title = "Torsion spring from its end, to scale"

    def draw(width: float) -> str:
        fits = min((width - 8) / (2 * reach), _TALLEST_MM / (2 * reach))
        scale = round_scale(fits)
        half = reach * scale + 3
        at = (width / 2, half)
        body = [ring(at, (mean + wire) / 2 * scale, "outline", STEEL)]
        body.append(ring(at, (mean - wire) / 2 * scale, "outline", PAPER))
        if inside is not None and turned and inside > 0:
            body += [ring(at, side * scale, "hidden") for side in (inside / 2, inside / 2 + wire)]
        body.append(ring(at, rod / 2 * scale, "edge", "#e6dfc8") if rod else "")
        body.append(_leg(at, mean, arm, 180.0, wire, scale, left=True))
        body.append(_leg(at, mean, arm, 180.0 + rest, wire, scale))
        if turned:
            end = _leg_line(at, mean, arm, 180.0 + rest + turned, scale)
            body.append(path([end], "hidden", closed=False))
            body.append(_arc(at, arm * 0.8 * scale, 180.0 + rest, min(turned, 360.0), mean / 2 / (0.8 * arm)))
        body += [path([[(at[0] - half, at[1]), (at[0] + half, at[1])],
                       [(at[0], at[1] - half), (at[0], at[1] + half)]], "centre", closed=False)]  # fmt: skip
        body.append(lettering(at[0], 2 * half + _LETTER, _end_words(turned, width), _LETTER, anchor="middle"))
        description = f"Drawn at {number_text(scale, 2)} times its size: {says}."
        return document(body, width, 2 * half + 1.6 * _LETTER, title=title, description=description)

    picture = _both(title, f"From its end, to scale: {says}.", draw)
    return (picture, _moment_chart(result, turned)) if turned else (picture,)


def _end_words(turned: float, width: float) -> str:
    if not turned:
        return "at rest"
    by = f"{_n(turned)} deg"
    return (
        f"full lines at rest, broken lines wound up by {by}" if width > 120 else f"broken: wound up by {by}"
    )


def _leg_line(at: Point, mean: float, arm: float, angle: float, scale: float) -> list[Point]:
    """A leg that leaves the coil on a tangent where the angle points, as long as its load's arm is far."""
    a = radians(angle)
    long = max(arm**2 - mean**2 / 4, 0.0) ** 0.5
    start = (mean / 2 * cos(a), mean / 2 * sin(a))
    end = (start[0] - long * sin(a), start[1] + long * cos(a))
    return [(at[0] + x * scale, at[1] - y * scale) for x, y in (start, end)]


def _leg(
    at: Point, mean: float, arm: float, angle: float, wire: float, scale: float, *, left: bool = False
) -> str:
    """A leg; the two ends of the wire run off in opposite senses."""
    line = _leg_line((0.0, 0.0), mean, arm, angle, scale)
    if left:
        line = [(x, -y) for x, y in _leg_line((0.0, 0.0), mean, arm, -angle, scale)]
    return stroke([(at[0] + x, at[1] + y) for x, y in line], wire * scale)


def _arc(at: Point, radius: float, start: float, turned: float, ratio: float) -> str:
    """The angle wound up, as an arc across the leg."""
    lag = 90.0 * (1 - min(1.0, ratio))
    angles = [radians(start + lag + turned * i / 40) for i in range(41)]
    return path(
        [[(at[0] + radius * cos(a), at[1] - radius * sin(a)) for a in angles]], "dimension", closed=False
    )


def _moment_chart(result: Result, turned: float) -> Picture:
    moment, limit = _sure(result, "winding_moment"), _limit_load(result)
    furthest = max(turned, _number(result, "longest_angle") or 0.0)
    curve = Curve(((0.0, 0.0), (furthest, moment / turned * furthest)))
    wrong = limit is not None and moment > limit
    spots = [Spot(turned, moment, f"at work {_n(turned)}\u00a0deg, {_n(moment)}\u00a0N\u00a0mm", wrong=wrong)]
    bounds = [Bound(f"limit of stress {_n(limit)} N mm", y=limit, wrong=True)] if limit is not None else []
    says = "; ".join([spots[0].says, *(each.says for each in bounds)])
    title = "Moment over angle"

    def draw(width: float) -> str:
        return chart(Axis("angle", "deg"), Axis("moment", "N mm"), [curve], title=title,
                     description=f"{says}.", spots=spots, bounds=bounds, width_mm=width)  # fmt: skip

    return _both(title, f"{_n(moment / turned)} N mm for each degree: {says}.", draw)
