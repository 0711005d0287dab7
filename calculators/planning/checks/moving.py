"""Rules for parts that move: what they meet on their way, and how near they come to it."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass, replace

from calculators.calculation.result import number_text
from calculators.geometry.near_pairs import near_pairs_between
from calculators.geometry.nearness import apart, first_of
from calculators.geometry.shapes import Box, Turned, block_shape, box_of, moved, round_shape
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
    fasteners,
    hollows_in,
    movers,
    moves_with,
    spot_at,
    things_of,
)
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import Site

_TOUCH_MM = 0.1
"""Parts nearer than this at rest touch by design: what a part lies on, its bearings."""

_FREE_MM = 1.0
"""What lies in a hollow with more room than this does not run in it."""

_STOP_MM = 0.2
"""A stop that is touched at the end of the travel may be out by this."""

_SWEEPS, _SEEN = "swept pairs", "moving things"
MOST_PAIRS = 1_500
"""So many pairs of convex pieces are followed through their travel at one check."""


def _n(value: float) -> str:
    return number_text(value, 3)


@dataclass(frozen=True, slots=True)
class _Met:
    """A moving piece and a fixed one that come too near: how, and the limit that holds for the two [mm]."""

    mover: Mover
    moving: Thing
    fixed: Thing
    swept: Swept
    limit_mm: float


@dataclass(frozen=True, slots=True)
class _Looked:
    """What was found of all that moves; `hollow` are pairs of which one lies in a hollow of the other."""

    met: tuple[_Met, ...] = ()
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
    worst: dict[tuple[str, str], _Met] = {}
    for met in looked.met:
        if not met.fixed.joint:
            key = (met.moving.named, met.fixed.part)
            if key not in worst or met.swept.distance < worst[key].swept.distance:
                worst[key] = met
    for met in worst.values():
        yield _seen(site, met, looked.met)
    yield from _not_looked_at(site, looked)


@build_rule(
    "fastener-in-the-sweep",
    "mechanism",
    "No screw, nut or washer that stands still reaches into the space of a moving part.",
    CP,
)
def _fastener_in_the_sweep(site: Site) -> Iterator[Seen]:
    looked = _looked(site)
    worst: dict[tuple[str, str, str], _Met] = {}
    for met in looked.met:
        if met.fixed.joint:
            key = (met.moving.named, met.fixed.joint, met.fixed.place)
            if key not in worst or met.swept.distance < worst[key].swept.distance:
                worst[key] = met
    for met in worst.values():
        yield _seen(site, met, looked.met)


def _not_looked_at(site: Site, looked: _Looked) -> Iterator[Seen]:
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
    if looked.hollow:
        pairs = ", ".join(f"{moving} in {fixed}" for moving, fixed in looked.hollow[:3])
        more = f" and {len(looked.hollow) - 3} more" if len(looked.hollow) > 3 else ""
        says = f"What moves within a hollow of another part is not followed: {pairs}{more}. Try it by hand."
        yield unchecked(says, part=looked.hollow[0][0].split(".")[0])
    if looked.left_out:
        says = f"{looked.left_out} pairs of moving and fixed pieces were not followed: there are too many."
        yield unchecked(says)


def _looked(site: Site) -> _Looked:
    return site.share(_SEEN, lambda: _look(site))


def _look(site: Site) -> _Looked:
    every = tuple(movers(site))
    if not every:
        return _Looked()
    moving = moves_with(site, every)
    held: dict[Mover, list[Thing]] = {mover: [] for mover in every}
    fixed: list[Thing] = []
    for copy, mover in moving.items():
        held[mover] += things_of(site, copy)
    for with_mover, things in fasteners(site, moving):
        if with_mover is not None:
            held[with_mover] += things
        else:
            fixed += things
    within = max(site.limits["swept-to-wood"], site.limits["swept-to-metal"])
    boxes = {mover: [swept_box(each.shape, mover.sweep) for each in things] for mover, things in held.items()}
    fixed += _near_things(site, moving, [box for each in boxes.values() for box in each], within)
    fixed_boxes = [box_of(each.shape) for each in fixed]
    met: list[_Met] = []
    hollow: dict[tuple[str, str], None] = {}
    followed = 0
    for mover, things in held.items():
        pairs = sorted(near_pairs_between(boxes[mover], fixed_boxes, within))
        touching = _touching(site, [(things[i], fixed[j]) for i, j in pairs], hollow)
        for i, j in pairs:
            one, other = things[i], fixed[j]
            if (one.named, other.named) in touching:
                continue
            followed += 1
            if followed <= MOST_PAIRS:
                limit = _limit(site, one, other)
                swept = _swept(site, mover.sweep, one, other, limit)
                if (
                    not swept.at_least
                    and swept.distance < limit - 1e-6
                    and not _is_stop(mover, one, other, swept)
                ):
                    met.append(_Met(mover, one, other, swept, limit))
    return _Looked(tuple(met), tuple(hollow), max(0, followed - MOST_PAIRS))


def _near_things(site: Site, moving: dict[str, Mover], boxes: list[Box], near: float) -> list[Thing]:
    """The pieces of the copies that stand still and lie near what is swept."""
    still = [copy for copy in site.placed.bodies if copy not in moving]
    about = []
    for copy in still:
        solid, transform = site.placed.bodies[copy].solid, site.placed.transforms[copy]
        blank = round_shape(solid) if solid.shape == "round" else block_shape(solid)
        about.append(box_of(moved(blank, transform)))
    close = {j for _, j in near_pairs_between(boxes, about, near)}
    return [thing for j in sorted(close) for thing in things_of(site, still[j])]


def _touching(
    site: Site, pairs: list[tuple[Thing, Thing]], hollow: dict[tuple[str, str], None]
) -> set[tuple[str, str]]:
    """The pairs of things that touch at rest; of those in a wide hollow of the other a note is made."""
    found: set[tuple[str, str]] = set()
    for one, other in pairs:
        key = (one.named, other.named)
        if key in found or (one.joint and other.joint):
            continue
        if apart(one.shape, other.shape, _TOUCH_MM + 1e-6).distance > _TOUCH_MM:
            continue
        if other.joint and not _in_its_hole(site, one, other):
            continue
        found.add(key)
        if other.copy and _lies_free(site, one, other):
            hollow[key] = None
    return found


def _in_its_hole(site: Site, moving: Thing, fixed: Thing) -> bool:
    """Whether a fixed fastener touches by design: it goes through a hole of what moves."""
    if moving.joint:
        return True
    return any(apart(fixed.shape, hole, 1e-3).distance < 0.0 for hole in hollows_in(site, moving.copy))


def _lies_free(site: Site, moving: Thing, fixed: Thing) -> bool:
    """Whether a moving piece overlaps a fixed part's blank only because it lies free in a hollow of it."""
    own_low, own_high = box_of(moving.shape)
    for hollow in hollows_in(site, fixed.copy):
        if apart(moving.shape, hollow).distance < -_FREE_MM:
            low, high = box_of(hollow)
            room = sorted((high[i] - low[i]) - (own_high[i] - own_low[i]) for i in range(3))
            if room[1] > _FREE_MM:
                return True
    return False


def _limit(site: Site, one: Thing, other: Thing) -> float:
    return site.limits["swept-to-wood" if one.wood or other.wood else "swept-to-metal"]


def _swept(site: Site, sweep: Sweep, one: Thing, other: Thing, limit: float) -> Swept:
    """How near the two come; taken over from the build before where neither has changed."""
    kept: dict[object, Swept] = site.share(_SWEEPS, dict)
    key = (sweep, one.shape, other.shape, limit)
    found = kept.get(key)
    if found is None:
        before = site.previous.shared(_SWEEPS) if site.previous else None
        found = before.get(key) if before else None
        if found is None:
            found = nearest_in_sweep(one.shape, other.shape, sweep, limit)
        kept[key] = found
    return found


def _is_stop(mover: Mover, one: Thing, other: Thing, swept: Swept) -> bool:
    """Whether the two touch only at an end of the travel, and there by no more than a hair."""
    sweep = mover.sweep
    if not -_STOP_MM <= swept.distance <= _STOP_MM:
        return False
    reach = reach_of(one.shape, sweep) if sweep.kind == "turns" else 0.0
    back = 3.0 * _STOP_MM if sweep.kind == "slides" else math.degrees(3.0 * _STOP_MM / max(reach, 1.0))
    near_low, near_high = swept.at <= sweep.least + back, swept.at >= sweep.most - back
    if not (near_low or near_high):
        return False
    least = sweep.least + back if near_low else sweep.least
    most = sweep.most - back if near_high else sweep.most
    if least >= most:
        return False
    return (
        nearest_in_sweep(one.shape, other.shape, replace(sweep, least=least, most=most), _STOP_MM).distance
        > 0.0
    )


def _seen(site: Site, met: _Met, every: tuple[_Met, ...]) -> Seen:
    moving, fixed, swept, sweep = met.moving, met.fixed, met.swept, met.mover.sweep
    unit = "deg" if sweep.kind == "turns" else "mm"
    touches = swept.distance <= 1e-6
    what = site.parts[fixed.part].component.name if not fixed.joint else ""
    other = f"{fixed.named} {what}".strip()
    carried = "" if moving.copy == met.mover.copy else f", carried by {met.mover.copy},"
    where = f"at {_n(swept.at)} {unit}"
    side = "least" if swept.at < 0.0 or (swept.at == 0.0 and sweep.most == 0.0) else "most"
    at = f"components[{met.mover.mark}].motion.{side}"
    if touches:
        first = first_near(moving.shape, fixed.shape, sweep, sweep.least if side == "least" else sweep.most)
        start = f" from {_n(first)} {unit} on" if first is not None and abs(first) > 0.0 else ""
        deep = f", {_n(-swept.distance)} mm deep {where}" if swept.distance < -0.05 else f" {where}"
        says = f"{moving.named}{carried} runs into {other}{start}{deep}. Move one of them, or stop it sooner."
    else:
        material = "wood" if moving.wood or fixed.wood else "metal"
        says = (
            f"{moving.named}{carried} comes within {_n(swept.distance)} mm of {other} {where}; keep "
            f"{_n(met.limit_mm)} mm clear of {material}."
        )
    spots = spot_at(site, fixed.copy, swept.near.second_point) if fixed.copy else ()
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


def _mends(met: _Met, every: tuple[_Met, ...]) -> tuple[Mend, ...]:
    """Let it move less far: so far as all that these two things meet stays clear."""
    sweep, unit = met.mover.sweep, "deg" if met.mover.sweep.kind == "turns" else "mm"
    fields, words = [], []
    both = (met.moving.named, met.fixed.named)
    for side, end in (("least", sweep.least), ("most", sweep.most)):
        first = math.inf
        for each in every:
            if each.mover == met.mover and (each.moving.named, each.fixed.named) == both:
                found = first_near(each.moving.shape, each.fixed.shape, sweep, end, each.limit_mm)
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
