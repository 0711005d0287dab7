"""The rule for reaching what holds: a driver, key, socket or spanner gets at each fastener."""

from __future__ import annotations

import json
import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.calculation.result import number_text
from calculators.geometry.shapes import Box
from calculators.joints.model import Mend, Severity
from calculators.planning.checks.fasteners_in_space import fasteners_of
from calculators.planning.checks.fitting_order import FittingOrder, There, fitting_order, marks_of
from calculators.planning.checks.motions import spot_at
from calculators.planning.checks.near_things import PlacedPart, found_between, placed_parts
from calculators.planning.checks.rule import BuildRule, Seen, build_rule, setting
from calculators.planning.checks.site import JointSite, Site
from calculators.planning.checks.tool_ways import (
    TURNS,
    InTheWay,
    ToolWay,
    barred,
    swing_barred,
    swing_box,
    ways_of,
)

_KEPT = "tools of its fasteners"
_PAIRS, _SWINGS = "what bars tools", "what bars spanners"
_SWING_DEG, _LEAST_SWING_DEG = 60.0, 30.0
"""An open-ended spanner turns a hexagon by 60 degrees at a stroke, turned over by 30 (geometry)."""

_BY_ORDER: tuple[tuple[Severity, There], ...] = (
    ("error", "yes"), ("warning", "perhaps"), ("note", "same step"),
)  # fmt: skip
"""What it is that a tool has no way at all, by whether what bars it is there already."""

_SHORT = ("short", "stub", "angle", "offset", "crank")
"""Words for tools that do with little room: whoever writes one has thought of it."""

_SOURCE = "ISO 2936 (from memory); room of drivers, sockets and spanners: common practice"


def _n(value: float) -> str:
    return number_text(value, 3)


@dataclass(frozen=True, slots=True)
class _Barred:
    """A tool that cannot be used with ease: by how much, and what bars it."""

    way: ToolWay
    by: tuple[InTheWay, ...]
    severity: Severity
    value: float
    limit: float
    never: bool = True

    @property
    def rank(self) -> tuple[int, float]:
        """The worst first."""
        return ("error", "warning", "note").index(self.severity), self.value / self.limit


@build_rule(
    "tool-reach",
    "parts in space",
    "Each fastener can be put in and reached by its tool, past all that is fitted before it by the steps: a "
    "driver or key in a straight way, a hexagon by a socket or by a spanner that swings, the screw with its "
    "own length before it.",
    _SOURCE,
)
def _tool_reach(site: Site) -> Iterator[Seen]:
    ways: dict[tuple[str, int], ToolWay] = {}
    for mark, joint in site.joints.items():
        ways.update({(mark, index): way for index, way in enumerate(_ways(joint))})
    by_way: dict[int, list[InTheWay]] = defaultdict(list)
    for met in found_between(site, _PAIRS, ways, placed_parts(site), 0.0, _look):
        by_way[id(met.way)].append(met)
    if not by_way:
        return
    _add_swings(site, ways, by_way)
    order = fitting_order(site)
    groups: dict[tuple[object, ...], list[_Barred]] = defaultdict(list)
    for way in ways.values():
        if id(way) in by_way:
            found = _assessed(way, by_way[id(way)], site, order)
            if found is not None:
                marks = frozenset(site.placed.mark_of[each.copy] for each in found.by)
                groups[way.fastener.joint, way.tool, way.at_nut, marks].append(found)
    for (named, tool, *rest), group in groups.items():
        # A bolt that its spanner does not reach is told of once.
        if tool != "screw" or (named, "spanner", *rest) not in groups:
            yield _seen(site, order, group)


def _ways(joint: JointSite) -> tuple[ToolWay, ...]:
    said = joint.joint
    by_hand = any(word in said.tool.lower() for word in ("finger", "by hand", "hand tight"))
    if by_hand or "open" in said.reached_from.lower().split():  # a lid or door that is swung out of the way
        return ()
    if _KEPT not in joint.kept:
        joint.kept[_KEPT] = tuple(way for one in fasteners_of(joint) for way in ways_of(one))
    held: tuple[ToolWay, ...] = joint.kept[_KEPT]
    return held


@dataclass(frozen=True, slots=True, eq=False)
class _Swing:
    """All the room about a hexagon that a spanner may need: looked at where no socket goes on."""

    way: ToolWay
    box: Box


def _add_swings(site: Site, ways: dict[tuple[str, int], ToolWay], by_way: dict[int, list[InTheWay]]) -> None:
    """Where no socket goes on, add which turns of a spanner each part bars."""
    swings: dict[tuple[str, int], _Swing] = {}
    for key, way in ways.items():
        if way.tool == "spanner" and id(way) in by_way:
            kept: dict[int, _Swing] = site.joints[key[0]].kept.setdefault(_SWINGS, {})
            if id(way) not in kept:
                kept[id(way)] = _Swing(way, swing_box(way))
            swings[key] = kept[id(way)]
    found: dict[int, dict[str, InTheWay]] = defaultdict(dict)
    for met in found_between(site, _SWINGS, swings, placed_parts(site), 0.0, _look_about):
        found[id(met.way)][met.copy] = met
    for place, barring in found.items():
        straight = [each for each in by_way[place] if each.copy not in barring]
        by_way[place] = [*straight, *barring.values()]


def _look_about(swing: _Swing, part: PlacedPart) -> InTheWay | None:
    return None if part.name in swing.way.copies else swing_barred(swing.way, part.name, part.mass)


def _look(way: ToolWay, part: PlacedPart) -> InTheWay | None:
    return None if part.name in way.copies else barred(way, part.name, part.mass)


def _assessed(way: ToolWay, by: list[InTheWay], site: Site, order: FittingOrder) -> _Barred | None:
    """Hold the room that is left against what the tool needs, once for all parts that may be there."""
    joint = site.joints[way.fastener.joint].joint
    there = [(each, order.there(each.copy, joint)) for each in by]
    counted: list[InTheWay] = []
    for severity, now in _BY_ORDER:
        counted += [each for each, when in there if when == now]
        if not counted:
            continue
        value, least, ease = _room(way, counted)
        if value < least:
            return _Barred(way, _that_matter(way, counted, least), severity, value, least)
    surely = [each for each, when in there if when == "yes"]
    if not surely:
        return None
    value, _, ease = _room(way, surely)
    if value >= ease or any(word in joint.tool.lower() for word in _SHORT):
        return None
    return _Barred(way, _that_matter(way, surely, ease), "warning", value, ease, never=False)


def _that_matter(way: ToolWay, met: list[InTheWay], limit: float) -> tuple[InTheWay, ...]:
    if way.tool == "spanner":
        return tuple(each for each in met if each.turns) or tuple(met)
    return tuple(each for each in met if each.free_mm < limit)


def _room(way: ToolWay, met: list[InTheWay]) -> tuple[float, float, float]:
    """What is left, the least that will do, and what does with ease [mm; of a spanner deg]."""
    if way.tool != "spanner":
        return min(each.free_mm for each in met), way.short, way.long
    if all(math.isinf(each.free_mm) for each in met):  # a socket goes on
        return 360.0, _LEAST_SWING_DEG, _SWING_DEG
    turns = 0
    for each in met:
        turns |= each.turns
    free = [not turns >> turn & 1 for turn in range(TURNS)]
    if all(free):
        return 360.0, _LEAST_SWING_DEG, _SWING_DEG
    run = longest = 0
    for one in free + free:
        run = run + 1 if one else 0
        longest = max(longest, run)
    return max(0.0, (longest - 1) * 360.0 / TURNS), _LEAST_SWING_DEG, _SWING_DEG


def _seen(site: Site, order: FittingOrder, group: list[_Barred]) -> Seen:
    worst = min(group, key=lambda one: one.rank)
    way, fastener = worst.way, worst.way.fastener
    joint = site.joints[fastener.joint].joint
    near = min(worst.by, key=lambda each: each.free_mm)
    mark = site.placed.mark_of[near.copy]
    what = f"{near.copy} {site.parts[mark].component.name}".strip()
    others = sorted({site.placed.mark_of[each.copy] for each in worst.by} - {mark})
    what += f" (and {', '.join(others)})" if others else ""
    end = "nut" if way.at_nut else "head"
    if way.tool == "spanner":
        room = f"neither a socket nor a spanner gets {_n(worst.limit)} deg of swing at its {end}"
        room += f" ({_n(worst.value)} deg are left): {what} bars it"
    else:
        needs = f"a {way.tool}"
        if worst.limit <= way.lift:
            needs = "to be put in the screw"
        room = f"{what} leaves {_n(worst.value)} mm straight above its {end}, and {needs} needs "
        room += f"{_n(worst.limit)} mm{'' if worst.never else ' to be used with ease'}"
    more = sorted({one.way.fastener.place for one in group} - {fastener.place})
    also = f"; so at {', '.join(more)}" if more else ""
    if worst.severity == "error":
        advice = "Make the joint before that is fitted, or bore an access hole in line."
    elif worst.severity == "note":
        advice = f"Within their step, {joint.mark} comes before {mark}."
    elif worst.never:
        advice = f"Make {joint.mark} before {mark} is in its place, and write so in the steps."
    else:
        advice = "A short or angled tool will do, or make the joint before that is fitted."
    return Seen(
        worst.severity,
        f"{fastener.names}: {room}{also}. {advice}",
        joint=joint.mark, part=mark, place=fastener.place, value=worst.value, limit=worst.limit,
        unit="deg" if way.tool == "spanner" else "mm", at=f"joints[{joint.mark}].places[{fastener.place}]",
        spots=spot_at(site, fastener.home, way.base), mends=_mends(site, order, worst),
    )  # fmt: skip


def _mends(site: Site, order: FittingOrder, worst: _Barred) -> tuple[Mend, ...]:
    """A short tool; or the joint in the last step before what bars it, where its parts are there by then."""
    joint = site.joints[worst.way.fastener.joint].joint
    if not worst.never:
        tool = f"{joint.tool}, a short {worst.way.tool}" if joint.tool else f"short {worst.way.tool}"
        return (setting(f"Note a short {worst.way.tool} for it.", (f"joints[{joint.mark}].tool", tool)),)
    own = order.fitted.get(joint.mark)
    when = [order.of_part(each.copy) for each in worst.by]
    parts = [order.of_part(mark) for mark in marks_of(joint)]
    if own is None or any(each is None for each in (*when, *parts)):
        return ()
    before = min(each[0] for each in when if each is not None)
    ready = max(each[0] for each in parts if each is not None)
    if not ready < before <= own[0]:
        return ()
    earlier, now = order.steps[before - 1], order.steps[own[0]]
    fits, rest = (*earlier.fits, joint.mark), tuple(mark for mark in now.fits if mark != joint.mark)
    return (
        setting(
            f"Make {joint.mark} in step {earlier.number}.",
            (f"steps[{earlier.number}].fits", json.dumps(list(fits))),
            (f"steps[{now.number}].fits", json.dumps(list(rest))),
        ),
    )


RULES: tuple[BuildRule, ...] = (_tool_reach,)
