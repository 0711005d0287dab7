"""Rules for parts that move: what they meet on their way, and how near they come to it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from calculators.calculation.result import number_text
from calculators.geometry.near_pairs import near_pairs, near_pairs_between
from calculators.geometry.nearness import apart, first_of
from calculators.geometry.shapes import Box, Shape, Turned, box_of
from calculators.geometry.sweeping import (
    Sweep,
    Swept,
    first_near,
    moved_to,
    nearest_in_sweep,
    reach_of,
    swept_box,
)
from calculators.geometry.vectors import Vector
from calculators.joints.limits import Limit
from calculators.joints.model import Mend
from calculators.planning.checks.motions import (
    Mover,
    Thing,
    fastener_things,
    movers,
    moves_with,
    part_things,
    spot_at,
)
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import Site

_TOUCH_MM = 0.1
"""Parts nearer than this at rest touch by design: what a part lies on, its bearings."""

_FREE_MM = 1.0
"""What lies in a hollow with more room than this does not run in it."""

_STOP_MM = 0.2
"""A stop that is touched at the end of the travel may be out by this."""

_SEEN, _BOXES, _CROSSING = "what moves", "swept boxes", "ways that cross"
_MOST_PARTNERS = 50
MOST_PAIRS = 1_500
"""So many pairs of convex pieces are followed through their travel for one moving part."""


# A part that is made anew, with a hole more, is swept by the same shapes.
_swept_box = lru_cache(maxsize=4096)(swept_box)
_nearest = lru_cache(maxsize=4096)(nearest_in_sweep)
_first_near = lru_cache(maxsize=1024)(first_near)


def _n(value: float) -> str:
    return number_text(value, 3)


@dataclass(frozen=True, slots=True)
class _Met:
    """A moving piece and a fixed one that come too near: how, and the limit that holds for the two [mm]."""

    mover: Mover
    moving: Thing
    own: Shape
    fixed: Thing
    other: Shape
    swept: Swept
    limit_mm: float


@dataclass(frozen=True, slots=True)
class _Looked:
    """What was found of one that moves; `hollow` are pairs of which one lies in a hollow of the other."""

    of_parts: tuple[Seen, ...] = ()
    of_fasteners: tuple[Seen, ...] = ()
    hollow: tuple[tuple[str, str], ...] = ()
    left_out: int = 0


@build_rule(
    "swept-clearance",
    "mechanism",
    "What moves, with all that it carries, stays clear of what stands still over its whole travel: 2 mm of "
    "wood, 0.5 mm of metal. Parts that touch at rest are left out; so is a stop touched only at the end.",
    CP,
    Limit("swept-to-wood", 2.0, "mm", CP, "what moves stays this clear of wood"),
    Limit("swept-to-metal", 0.5, "mm", CP, "what moves stays this clear of metal"),
)
def _swept_clearance(site: Site) -> Iterator[Seen]:
    looked = _looked(site)
    for each in looked:
        yield from each.of_parts
    yield from _not_looked_at(site, looked)


@build_rule(
    "fastener-in-the-sweep",
    "mechanism",
    "No screw, nut or washer that stands still reaches into the space of a moving part.",
    CP,
)
def _fastener_in_the_sweep(site: Site) -> Iterator[Seen]:
    for each in _looked(site):
        yield from each.of_fasteners


def _not_looked_at(site: Site, looked: tuple[_Looked, ...]) -> Iterator[Seen]:
    lost = [
        part.mark
        for part in site.build.components
        if part.motion is not None and not any(
            copy in site.placed.bodies for copy in site.placed.copies.get(part.mark, ()))
    ]  # fmt: skip
    if lost:
        says = (
            f"Whether {', '.join(lost)} {'moves' if len(lost) == 1 else 'move'} clear cannot be told: give "
            f"{'its size and its place' if len(lost) == 1 else 'their sizes and places'}."
        )
        yield unchecked(says, part=lost[0], at=f"components[{lost[0]}].poses")
    hollow = tuple(dict.fromkeys(pair for each in looked for pair in each.hollow))
    if hollow:
        pairs = ", ".join(f"{moving} in {fixed}" for moving, fixed in hollow[:3])
        more = f" and {len(hollow) - 3} more" if len(hollow) > 3 else ""
        says = f"What moves within a hollow of another part is not followed: {pairs}{more}. Try it by hand."
        yield unchecked(says, part=hollow[0][0].split(".")[0])
    crossing: tuple[tuple[str, str], ...] = site.share(_CROSSING, tuple)
    if crossing:
        pairs = ", ".join(f"{one} and {other}" for one, other in crossing[:3])
        more = f" and {len(crossing) - 3} more" if len(crossing) > 3 else ""
        says = (
            f"Whether parts that both move ever meet is not followed: {pairs}{more} share room. Try it by "
            "hand."
        )
        yield unchecked(says, part=crossing[0][0], at=f"components[{crossing[0][0]}].motion")
    left_out = sum(each.left_out for each in looked)
    if left_out:
        yield unchecked(f"{left_out} pairs of moving and fixed pieces were not followed: there are too many.")


def _looked(site: Site) -> tuple[_Looked, ...]:
    return site.share("looked at what moves", lambda: tuple(_look(site)))


def _look(site: Site) -> Iterator[_Looked]:
    """Look at each mover; at one of which nothing has changed, nor anything near its way, not again."""
    every = tuple(movers(site))
    if not every:
        return
    moving, parts = moves_with(site, every), part_things(site)
    own: dict[Mover, list[Thing]] = {mover: [] for mover in every}
    still = [thing for copy, thing in parts.items() if copy not in moving]
    for copy, mover in moving.items():
        if copy in parts:
            own[mover].append(parts[copy])
    for with_mover, thing in fastener_things(site, moving):
        (own[with_mover] if with_mover is not None else still).append(thing)
    limits = site.limits["swept-to-wood"], site.limits["swept-to-metal"]
    before = (site.previous.shared(_SEEN) if site.previous else None) or {}
    now: dict[object, tuple[object, _Looked]] = {}
    reaches = [_swept_boxes(site, mover, thing) for mover, things in own.items() for thing in things]
    whose = [mover for mover, things in own.items() for _ in things]
    near: dict[Mover, set[int]] = {mover: set() for mover in every}
    for i, j in near_pairs_between(reaches, [thing.box for thing in still], max(limits)):
        near[whose[i]].add(j)
    for mover, things in own.items():
        close = [still[j] for j in sorted(near[mover])]
        key = (mover, limits, tuple(map(id, things)), tuple(map(id, close)))
        found = before.get(key) or ((things, close), _look_at(site, mover, things, close))
        now[key] = found
        yield found[1]
    site.share(_SEEN, lambda: now)
    crossing = {
        (whose[i].mark, whose[j].mark)
        for i, j in near_pairs(reaches, 0.0, _MOST_PARTNERS)
        if whose[i].mark != whose[j].mark and _share_room(reaches[i], reaches[j])
    }
    site.share(_CROSSING, lambda: tuple(sorted({(min(pair), max(pair)) for pair in crossing})))


def _share_room(one: Box, other: Box) -> bool:
    return all(one[0][i] < other[1][i] - 1e-3 and other[0][i] < one[1][i] - 1e-3 for i in range(3))


def _swept_boxes(site: Site, mover: Mover, thing: Thing) -> Box:
    """The box about all that a thing sweeps; made once as long as thing and motion are as they were."""
    kept: dict[object, tuple[Thing, Box]] = site.share(_BOXES, dict)
    before = (site.previous.shared(_BOXES) if site.previous else None) or {}
    key = (mover.sweep, id(thing))
    found = before.get(key)
    if found is None:
        boxes = [_swept_box(piece, mover.sweep) for piece in thing.pieces] or [thing.box]
        low = [min(box[0][i] for box in boxes) for i in range(3)]
        high = [max(box[1][i] for box in boxes) for i in range(3)]
        found = thing, ((low[0], low[1], low[2]), (high[0], high[1], high[2]))
    kept[key] = found
    return found[1]


def _look_at(site: Site, mover: Mover, things: list[Thing], close: list[Thing]) -> _Looked:
    met: list[_Met] = []
    hollow: list[tuple[str, str]] = []
    followed = 0
    for moving in things:
        swept = [_swept_box(piece, mover.sweep) for piece in moving.pieces]
        for fixed in close:
            limit = site.limits["swept-to-wood" if moving.wood or fixed.wood else "swept-to-metal"]
            pairs = list(near_pairs_between(swept, [box_of(piece) for piece in fixed.pieces], limit))
            if not pairs or _touch_at_rest(moving, fixed, hollow):
                continue
            for i, j in sorted(pairs):
                followed += 1
                if followed <= MOST_PAIRS:
                    one = _follow(mover, moving, moving.pieces[i], fixed, fixed.pieces[j], limit)
                    met += [one] if one is not None else []
    worst: dict[tuple[str, str], _Met] = {}
    for each in met:
        key = (each.moving.named, each.fixed.named if each.fixed.joint else each.fixed.part)
        if key not in worst or each.swept.distance < worst[key].swept.distance:
            worst[key] = each
    return _Looked(
        tuple(_seen(site, each, met) for each in worst.values() if not each.fixed.joint),
        tuple(_seen(site, each, met) for each in worst.values() if each.fixed.joint),
        tuple(hollow),
        max(0, followed - MOST_PAIRS),
    )


def _touch_at_rest(moving: Thing, fixed: Thing, hollow: list[tuple[str, str]]) -> bool:
    """Whether two things touch at rest by design; where one lies free in a hollow, a note is made of it.

    A fixed fastener touches a moving part by design only where it lies in a hole of that part.
    """
    touching = [
        (one, other)
        for one in moving.pieces
        for other in fixed.pieces
        if apart(one, other, _TOUCH_MM + 1e-6).distance <= _TOUCH_MM
    ]
    if not touching:
        return False
    if fixed.joint and not moving.joint:
        return any(
            apart(other, hole, 1e-3).distance < 0.0 for _, other in touching for hole in moving.hollows
        )
    if fixed.hollows and any(_lies_free(one, hole) for one, _ in touching for hole in fixed.hollows):
        hollow.append((moving.named, fixed.named))
    return True


def _lies_free(moving: Shape, hollow: Shape) -> bool:
    """Whether a moving piece lies in a hollow with room about it: it does not run in it."""
    (low, high), (own_low, own_high) = box_of(hollow), box_of(moving)
    room = sorted((high[i] - low[i]) - (own_high[i] - own_low[i]) for i in range(3))
    return room[1] > _FREE_MM and apart(moving, hollow, 1e-3).distance < -_FREE_MM


def _follow(mover: Mover, moving: Thing, own: Shape, fixed: Thing, other: Shape, limit: float) -> _Met | None:
    swept = _nearest(own, other, mover.sweep, limit)
    if swept.at_least or swept.distance >= limit - 1e-6 or _is_stop(mover.sweep, own, other, swept):
        return None
    return _Met(mover, moving, own, fixed, other, swept, limit)


def _is_stop(sweep: Sweep, one: Shape, other: Shape, swept: Swept) -> bool:
    """Whether the two touch only at an end of the travel, and there by no more than a hair."""
    if not -_STOP_MM <= swept.distance <= _STOP_MM:
        return False
    reach = reach_of(one, sweep) if sweep.kind == "turns" else 0.0
    back = 3.0 * _STOP_MM if sweep.kind == "slides" else math.degrees(3.0 * _STOP_MM / max(reach, 1.0))
    near_low, near_high = swept.at <= sweep.least + back, swept.at >= sweep.most - back
    if not (near_low or near_high):
        return False
    least = sweep.least + back if near_low else sweep.least
    most = sweep.most - back if near_high else sweep.most
    if least >= most:
        return False
    return _nearest(one, other, replace(sweep, least=least, most=most), _STOP_MM).distance > 0.0


def _seen(site: Site, met: _Met, every: list[_Met]) -> Seen:
    moving, fixed, swept, sweep = met.moving, met.fixed, met.swept, met.mover.sweep
    unit = "deg" if sweep.kind == "turns" else "mm"
    touches = swept.distance <= 1e-6
    other = f"{fixed.named} {fixed.name}".strip()
    carried = "" if moving.copy == met.mover.copy and not moving.joint else f", carried by {met.mover.copy},"
    where = f"at {_n(swept.at)} {unit}"
    side = "least" if swept.at < 0.0 or (swept.at == 0.0 and sweep.most == 0.0) else "most"
    at = f"components[{met.mover.mark}].motion.{side}"
    if touches:
        first = _first_near(met.own, met.other, sweep, sweep.least if side == "least" else sweep.most)
        start = f" from {_n(first)} {unit} on" if first is not None and abs(first) > 0.0 else ""
        deep = f", {_n(-swept.distance)} mm deep {where}" if swept.distance < -0.05 else f" {where}"
        says = f"{moving.named}{carried} runs into {other}{start}{deep}. Move one of them, or stop it sooner."
    else:
        material = "wood" if moving.wood or fixed.wood else "metal"
        says = (
            f"{moving.named}{carried} comes within {_n(swept.distance)} mm of {other} {where}; keep "
            f"{_n(met.limit_mm)} mm clear of {material}."
        )
    spots = () if fixed.joint else spot_at(site, fixed.copy, swept.near.second_point)
    spots = spots or (
        spot_at(site, moving.copy, swept.near.first_point) if fixed.joint and moving.copy else ()
    )
    return Seen(
        "error" if touches else "warning", says, joint=fixed.joint,
        part=moving.part, place=fixed.place if fixed.joint else fixed.named, value=swept.distance,
        limit=met.limit_mm, unit="mm", at=at, spots=spots, mends=_mends(met, every),
    )  # fmt: skip


def _at_rest(sweep: Sweep, swept: Swept) -> Vector:
    """The point of a moving thing that comes nearest, where it lies at rest."""
    point = Turned(swept.near.first_point, (0.0, 0.0, 1.0), ((0.0, 0.0),))
    return first_of(moved_to(point, sweep, -swept.at))


def _mends(met: _Met, every: list[_Met]) -> tuple[Mend, ...]:
    """Let it move less far: so far as all that these two things meet stays clear."""
    sweep, unit = met.mover.sweep, "deg" if met.mover.sweep.kind == "turns" else "mm"
    fields, words = [], []
    both = (met.moving.named, met.fixed.named)
    for side, end in (("least", sweep.least), ("most", sweep.most)):
        first = math.inf
        for each in every:
            if each.mover == met.mover and (each.moving.named, each.fixed.named) == both:
                found = _first_near(each.own, each.other, sweep, end, each.limit_mm)
                first = min(first, abs(found)) if found is not None else first
        if first >= abs(end):
            continue
        short = math.floor(first * 10.0 - 1e-6) / 10.0
        if short <= 0.0:
            return ()
        written = f"{math.copysign(short, end):g}"
        fields.append((f"components[{met.mover.mark}].motion.{side}", written))
        words.append(f"{written} {unit}")
    if not fields:
        return ()
    return (setting(f"Stop {met.mover.mark} at {' and '.join(words)}.", *fields),)


RULES: tuple[BuildRule, ...] = (_swept_clearance, _fastener_in_the_sweep)
