"""What is tight, what is loose and what is free to turn among all that a screw or stud goes through."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import dataclass
from typing import Literal

from calculators.joints.layout import lay_out
from calculators.joints.model import JointResult
from calculators.joints.riders import Ridden, Rider, ridden_of
from calculators.joints.stops import SLACK_MM, Span, name_of, spans_of, stops_of
from calculators.joints.worked import Member, Worked

State = Literal["tight", "loose", "free to turn"]
Write = Callable[[float], str]

SCREW = -1
"""Stands for the fastener itself where a place in the stack is asked for."""

TURNS_AT_MOST_MM = 0.5
"""A hole with more play across than this is no bearing: its part is loose (common practice)."""


@dataclass(frozen=True, slots=True)
class Freedom:
    """How one member of a stack is held, and why in a few words.

    `item` is its place in the stack, `SCREW` for the fastener; `rider` is the number of a part that lies
    around the stack, else -1. `end_play_mm` is how far it may move along the axis, `side_play_mm` how much
    wider its hole is than what it lies on (None where it has no hole of its own). `clamped` says that it is
    pressed between bearing faces, `undrawn` that the screw runs in two threads and does not draw it up.
    """

    item: int
    state: State
    why: str
    end_play_mm: float = 0.0
    side_play_mm: float | None = None
    clamped: bool = False
    rider: int = -1
    undrawn: bool = False


def mm_words(value: float) -> str:
    """Write a play: to a hundredth of a millimetre, with its unit.

    Args:
        value: a length [mm].

    Returns:
        The text.

    Source: this project.

    Example:
        >>> mm_words(0.2), mm_words(12.0)
        ('0.2 mm', '12 mm')
    """
    return f"{value:.2f}".rstrip("0").rstrip(".") + " mm"


def freedom_of(
    result: JointResult, riders: Sequence[Rider] = (), *, write: Write = mm_words
) -> tuple[Freedom, ...]:
    """Tell for a joint's fastener and each member of its stack whether it is tight, loose or free to turn.

    Tight is what is clamped between bearing faces, what the screw is threaded into, and what is pressed on.
    What lies between two stops (the head and a thread, or two threads) is clamped where they draw together:
    the screw is turned home or a nut is tightened, and neither the end of a blind thread nor the end of a
    plain shank nor a longer bush keeps them off. What is not clamped is free to turn where it is kept so on
    purpose, by a shoulder, a bush or a head that stands off, and its hole is a bearing; else it is loose.

        play on a bush = length of the bush - thickness of what lies around it
        play under a shoulder = plain shank - what lies before the thread

    Args:
        result: the joint as worked out.
        riders: parts that lie around the stack and that its axis does not meet.
        write: how a play is written.

    Returns:
        The fastener first, then the members in their order, then the riders in theirs.

    Raises:
        InputError: as `work_joint`.

    Source: common practice (clamped stacks, shoulder screws, bushes longer than what turns on them, lock
        nuts); the limit of a bearing's play: common practice.

    Example:
        >>> from calculators.hardware.designation import read_fastener, read_nut
        >>> from calculators.joints import JointInput, Layer, StackItem, work_joint
        >>> stack = (StackItem(layer=Layer("P1", "brass", 10)), StackItem(nut=read_nut("M5 nut")))
        >>> found = freedom_of(work_joint(JointInput("F1", read_fastener("M5 x 20 hex set screw"), stack)))
        >>> [(each.state, each.why) for each in found][1]
        ('tight', 'clamped between the head and the nut')
    """
    worked = lay_out(result.joint)
    reader = _Reader(worked, spans_of(worked), ridden_of(worked, riders), write)
    members = tuple(reader.member(member) for member in worked.stack.members)
    around = tuple(reader.rider(number, each) for number, each in enumerate(reader.ridden))
    return (reader.screw(), *members, *around)


@dataclass(frozen=True, slots=True)
class _Reader:
    worked: Worked
    spans: tuple[Span, ...]
    ridden: tuple[Ridden, ...]
    write: Write

    def screw(self) -> Freedom:
        """The fastener itself: drawn up, locked, or turning in its thread."""
        for span in self.spans:
            if span.hold == "drawn":
                if span.near.bite is None or span.between:
                    return Freedom(SCREW, "tight", f"drawn up between {span.near.name} and {span.far.name}")
                return Freedom(SCREW, "tight", f"locked by {span.near.name} against {span.far.name}")
            if span.hold == "shoulder":
                return Freedom(SCREW, "tight", f"its shoulder bears on {span.far.name}")
            if span.hold == "kept off":
                return Freedom(SCREW, "tight", f"it stops in {span.far.name} before its head bears")
        locked = self._locked()
        if locked:
            return Freedom(SCREW, "tight", locked)
        bites = [stop for stop in stops_of(self.worked) if stop.bite is not None]
        if not bites:
            return Freedom(SCREW, "loose", "it runs in no thread")
        bears = self._bears_on()
        if bears is not None:
            return Freedom(SCREW, "tight", f"its point presses on {name_of(bears)}")
        holding = bites[-1]
        if holding.bite is not None and holding.bite.kind == "wood":
            return Freedom(SCREW, "tight", f"the wood of {holding.name} grips its thread")
        if holding.is_nut:
            return Freedom(SCREW, "free to turn", f"{holding.name} is not tightened: nothing locks it")
        why = f"turns in the thread of {holding.name} until its point bears: nothing else locks it"
        return Freedom(SCREW, "free to turn", why)

    def member(self, member: Member) -> Freedom:
        """One member of the stack."""
        span = next((each for each in self.spans if member in each.between), None)
        if span is None:
            return self._end(member) or self._outside(member)
        side = self._side_play(member)
        if side is not None and side <= 0.0 and member.layer is not None:
            return Freedom(member.item, "tight", "pressed on the shank", 0.0, side)
        near, far = self._neighbours(span, member)
        play, why = self._play(span, member)
        if span.hold == "drawn" and play <= SLACK_MM:
            return Freedom(
                member.item, "tight", self._clamped(span, member, near, far), 0.0, side, clamped=True
            )
        state = self._unclamped(span, member, side, play)
        return Freedom(member.item, state, why, play, side, undrawn=span.hold == "two threads")

    def rider(self, number: int, ridden: Ridden) -> Freedom:
        """A part that lies around the stack."""
        one, play, side = ridden.rider, ridden.play_mm, ridden.side_play_mm
        inner = name_of(ridden.on) if ridden.on is not None else "the shank"
        item = ridden.on.item if ridden.on is not None else SCREW
        span = next((each for each in self.spans if ridden.on in each.between), None)
        off = span.play_mm if span is not None and span.hold != "drawn" else 0.0
        if side <= 0.0:
            return Freedom(item, "tight", f"pressed on {inner}", 0.0, side, rider=number)
        if play + off > SLACK_MM:
            if ridden.on is not None and play > SLACK_MM:
                why = f"{inner} is {self.write(play)} longer than {ridden.what}: {one.part} turns"
            else:
                why = f"{self.write(play + off)} of room along the axis: {one.part} turns"
            state: State = "free to turn" if side <= TURNS_AT_MOST_MM else "loose"
            if state == "loose":
                why = why.replace(f"{one.part} turns", f"{one.part} shakes, {self.write(side)} wider")
            return Freedom(item, state, why, play + off, side, rider=number)
        if span is not None and span.hold != "drawn":
            return Freedom(item, "loose", span.why.replace("{play}", self.write(span.play_mm)),
                           0.0, side, rider=number)  # fmt: skip
        words = f"{self.write(-play)} longer than {inner}" if play < -SLACK_MM else f"as long as {inner}"
        why = f"{words}: clamped between {ridden.near} and {ridden.far}"
        return Freedom(item, "tight", why, 0.0, side, clamped=True, rider=number)

    def _clamped(self, span: Span, member: Member, near: str, far: str) -> str:
        gap = self._gap(span, member)
        across = f", drawn in over a gap of {self.write(gap)}" if gap > SLACK_MM else ""
        return f"clamped between {near} and {far}{across}"

    def _gap(self, span: Span, member: Member) -> float:
        """The air between a member and the next one towards the thread."""
        place = span.between.index(member)
        if place + 1 < len(span.between):
            return span.between[place + 1].enter_mm - member.leave_mm
        layer = span.far.bite.member.layer if span.far.bite else None
        return layer.gap_mm if layer is not None else 0.0

    def _unclamped(self, span: Span, member: Member, side: float | None, play: float) -> State:
        """What is kept free on purpose, on a bearing, is free to turn."""
        hole = self.worked.hole(member) if member.layer is not None else None
        bearing = side is not None and side <= TURNS_AT_MOST_MM and not (hole and hole.slot_length_mm)
        meant = span.hold in ("shoulder", "stands") or (span.hold == "hand" and span.near.bite is not None)
        return "free to turn" if meant and bearing and member.kind == "layer" and play > SLACK_MM else "loose"

    def _play(self, span: Span, member: Member) -> tuple[float, str]:
        """The play of a member along the axis, and why."""
        short = self._pinched(span)
        if span.hold != "drawn":
            why = span.why.replace("{play}", self.write(span.play_mm))
            if span.hold in ("shoulder", "stands") and member.kind == "layer" and span.play_mm > SLACK_MM:
                why += f": {name_of(member)} turns"
            return span.play_mm, why
        if short is not None and short.on is not None:
            around = f"{short.rider.part} around {name_of(short.on)} is {self.write(-short.play_mm)} longer"
            if member is short.on:
                return -short.play_mm, f"{around}: not clamped"
        return 0.0, ""

    def _pinched(self, span: Span) -> Ridden | None:
        """The rider that is longer than the bush within it, so that it is clamped instead of the bush."""
        return next(
            (each for each in self.ridden if each.on in span.between and each.play_mm < -SLACK_MM), None
        )

    def _neighbours(self, span: Span, member: Member) -> tuple[str, str]:
        place, short = span.between.index(member), self._pinched(span)
        names = [
            short.rider.part if short is not None and each is short.on else name_of(each)
            for each in span.between
        ]
        near = names[place - 1] if place else span.near.name
        return near, names[place + 1] if place + 1 < len(names) else span.far.name

    def _side_play(self, member: Member) -> float | None:
        if member.layer is not None:
            return round(self.worked.hole(member).diameter_mm - self.worked.screw.major_mm, 6)
        return None if member.inside_mm is None else member.inside_mm - self.worked.screw.major_mm

    def _locked(self) -> str:
        """What keeps the screw from turning in its thread, in words."""
        if self.worked.joint.lock:
            return f"locked: {self.worked.joint.lock}"
        stiff = any(
            member.nut is not None and member.nut.form == "stiff" for member in self.worked.stack.members
        )
        return "the stiff nut holds by itself" if stiff else ""

    def _bears_on(self) -> Member | None:
        """The layer that a headless screw's point stands against, where it runs in a thread before it."""
        if not self.worked.screw.headless:
            return None
        last = self.worked.layers[-1]
        reached = self.worked.tip_mm >= last.enter_mm - SLACK_MM
        return last if last.takes == "plain" and last.number > 0 and reached else None

    def _end(self, member: Member) -> Freedom | None:
        """A member that the screw is threaded into, or that holds the insert that it is threaded into."""
        stop = next((each for each in stops_of(self.worked) if each.first <= member.item <= each.last
                     and each.bite is not None), None)  # fmt: skip
        if stop is None or stop.bite is None:
            return None
        drawn = [span for span in self.spans if span.hold == "drawn" and stop in (span.near, span.far)]
        if member.kind == "nut":
            return self._nut(member, drawn)
        if member.kind == "insert":
            return Freedom(member.item, "tight", f"fast in {stop.name.removeprefix('the insert in ')}")
        if stop.bite.kind == "insert":
            return Freedom(member.item, "tight", "the insert is fast in it")
        if stop.bite.kind == "wood":
            return Freedom(member.item, "tight", "the wood screw holds in it")
        before = next(
            (each.near for each in self.spans if each.far == stop and each.hold == "two threads"), None
        )
        if before is not None and not self.worked.screw.headless:
            why = f"the screw runs in its thread and in that of {before.name}: it is not drawn up to it"
            return Freedom(member.item, "tight", why, undrawn=True)
        return Freedom(member.item, "tight", "the screw runs in its thread")

    def _nut(self, member: Member, drawn: list[Span]) -> Freedom:
        for span in drawn:
            other = span.near if member.item == span.far.first else span.far
            to = span.between[-1 if member.item == span.far.first else 0] if span.between else None
            against = name_of(to) if to is not None else other.name
            return Freedom(member.item, "tight", f"tightened against {against}")
        nut = member.nut
        if nut is not None and nut.form == "stiff":
            return Freedom(member.item, "tight", "a stiff nut: it stays where it is turned to")
        if self.worked.joint.lock:
            return Freedom(member.item, "tight", f"locked: {self.worked.joint.lock}")
        return Freedom(member.item, "loose", "not tightened against anything")

    def _outside(self, member: Member) -> Freedom:
        """A member that lies between no two stops."""
        if any(bite.member is member or bite.member.item == member.item for bite in self.worked.bites):
            return Freedom(member.item, "loose", "the screw does not reach its thread")
        if member is self._bears_on():
            return Freedom(member.item, "tight", "the screw's point presses on it")
        stops = stops_of(self.worked)
        side = self._side_play(member)
        if stops and member.item > stops[-1].last and stops[-1].bite is not None:
            why = f"beyond {stops[-1].name}, in whose thread the screw holds: not held by it"
            return Freedom(member.item, "loose", why, 0.0, side)
        if stops and member.item < stops[0].first:
            return Freedom(member.item, "loose", f"nothing holds it against {stops[0].name}", 0.0, side)
        return Freedom(member.item, "loose", "the screw reaches no thread: nothing holds it", 0.0, side)


def clamped_together(result: JointResult, riders: Sequence[Rider] = ()) -> tuple[tuple[str, ...], ...]:
    """Give the parts that a joint presses against one another, a group for each pair of stops that draws.

    Args:
        result: the joint as worked out.
        riders: the parts that lie around its stack.

    Returns:
        The groups, by the parts' marks; a bush that is shorter than what lies around it is in none.

    Raises:
        InputError: as `work_joint`.

    Source: common practice.

    Example:
        >>> from calculators.hardware.designation import read_fastener
        >>> from calculators.joints import JointInput, Layer, StackItem, work_joint
        >>> stack = tuple(StackItem(layer=Layer(mark, "brass", 10)) for mark in ("P1", "P2"))
        >>> clamped_together(work_joint(JointInput("F1", read_fastener("M5 x 18 hex set screw"), stack)))
        (('P1', 'P2'),)
    """
    worked = lay_out(result.joint)
    ridden = ridden_of(worked, riders)
    loose = {each.on.item for each in ridden if each.on is not None and each.play_mm < -SLACK_MM}
    groups = []
    for span in spans_of(worked):
        if span.hold != "drawn":
            continue
        around = [each.rider.part for each in ridden if each.on in span.between and each.play_mm <= SLACK_MM]
        near, far = (
            [m for m in worked.layers if stop.first <= m.item <= stop.last] for stop in (span.near, span.far)
        )
        layers = [m for m in (*near, *span.between, *far) if m.layer is not None and m.item not in loose]
        groups.append(tuple(dict.fromkeys([*(m.part for m in layers), *around])))
    return tuple(groups)
