"""The stops of a joint along its axis, its head and its threads, and whether two of them draw together."""

from __future__ import annotations

from dataclasses import dataclass
from itertools import pairwise
from typing import Literal

from calculators.joints.worked import Bite, Member, Worked

SLACK_MM = 0.005
"""Places along the axis that differ by less than this are one place."""

Hold = Literal["drawn", "kept off", "shoulder", "stands", "hand", "two threads"]
"""How two stops hold what lies between: drawn together; kept off by the end of a thread; kept off by a
shoulder that is meant to; the head stands off; set by hand and not drawn up; two threads that no nut ends."""


@dataclass(frozen=True, slots=True)
class Stop:
    """The head, or a thread that the screw runs in: it holds along the axis from `enter_mm` to `leave_mm`.

    `first` and `last` are its places in the stack (an insert's part belongs to it); -1 is the head's.
    """

    first: int
    last: int
    enter_mm: float
    leave_mm: float
    name: str
    bite: Bite | None = None

    @property
    def is_nut(self) -> bool:
        """Whether it is a nut, which can be turned by itself."""
        return self.bite is not None and self.bite.kind == "nut"


@dataclass(frozen=True, slots=True)
class Span:
    """Two stops that follow one another, what lies between, how they hold it, and the play left [mm]."""

    near: Stop
    far: Stop
    between: tuple[Member, ...]
    hold: Hold
    play_mm: float
    why: str = ""


def name_of(member: Member) -> str:
    """Name a member of the stack in a few words.

    Args:
        member: the member.

    Returns:
        The part's mark, or what it is.

    Source: this project.
    """
    return (member.part or "the part") if member.layer is not None else f"the {member.kind}"


def stops_of(worked: Worked) -> tuple[Stop, ...]:
    """Give the stops that hold, from the head on; a thread that the screw does not reach is none.

    Args:
        worked: the joint.

    Returns:
        The stops in their order along the axis.

    Source: common practice.
    """
    head = Stop(-1, -1, 0.0, 0.0, "the head")
    # a nut that only a plain shank is in is reached too: it stops at the end of the thread
    reached = [bite for bite in worked.bites if worked.tip_mm - bite.enter_mm > SLACK_MM]
    threads = [_of_bite(worked, bite) for bite in reached]
    threads.sort(key=lambda stop: stop.first)
    return (*(() if worked.screw.headless else (head,)), *threads)


def _of_bite(worked: Worked, bite: Bite) -> Stop:
    places = [bite.member.item]
    name = name_of(bite.member)
    if bite.kind == "insert":
        hosts = [
            member
            for member in worked.layers
            if member.takes == "insert" and abs(member.enter_mm - bite.member.enter_mm) <= SLACK_MM
        ]
        places += [host.item for host in hosts]
        name = f"the insert in {name_of(hosts[0])}" if hosts else "the insert"
    return Stop(min(places), max(places), bite.enter_mm, bite.leave_mm, name, bite)


def spans_of(worked: Worked) -> tuple[Span, ...]:
    """Give each pair of neighbouring stops with what lies between them and how they hold it.

    A head draws to the thread after it when the screw is turned home, two threads draw together only where
    one of them is a nut. A blind thread's end, a dome nut's cap and the end of a plain shank keep them off.

    Args:
        worked: the joint.

    Returns:
        The spans from the head on.

    Source: common practice.
    """
    stops = stops_of(worked)
    return tuple(_span(worked, near, far) for near, far in pairwise(stops))


def _span(worked: Worked, near: Stop, far: Stop) -> Span:
    between = tuple(
        member
        for member in worked.stack.members
        if near.last < member.item < far.first and member.kind != "insert"
    )
    if near.bite is None:
        hold, play, why = _from_head(worked, far, between)
    else:
        hold, play, why = _of_threads(worked, near, far, between)
    return Span(near, far, between, hold, max(play, 0.0), why)


def _from_head(worked: Worked, far: Stop, between: tuple[Member, ...]) -> tuple[Hold, float, str]:
    joint, bite = worked.joint, far.bite
    assert bite is not None
    if joint.stands_mm is not None:
        play = between[0].enter_mm if between else far.enter_mm
        return "stands", play, f"the head stands {{play}} off {name_of(between[0]) if between else far.name}"
    off, why, shoulder = _kept_off(worked, bite, far.name)
    if off > SLACK_MM:
        meant = shoulder and not joint.clamps
        return ("shoulder" if meant else "kept off"), off, why
    if not joint.clamps:
        return "hand", 0.0, "not drawn up: this joint pulls nothing together"
    return "drawn", 0.0, ""


def _kept_off(worked: Worked, bite: Bite, name: str) -> tuple[float, str, bool]:
    """How far the head is kept off what it should bear on, why, and whether a shoulder does it."""
    if bite.kind == "wood":
        return 0.0, "", False
    plain = 0.0 if worked.screw.headless else worked.plain_mm or 0.0
    shank = worked.stack.starts_mm + plain - bite.enter_mm
    end = _end_of_thread(worked, bite)
    bottom = worked.tip_mm - end if end is not None else 0.0
    if plain and shank >= bottom and shank > SLACK_MM:
        return shank, f"the plain shank is {{play}} longer than what lies before {name}", True
    if bottom > SLACK_MM:
        return bottom, f"the screw bottoms in {name} {{play}} before the head bears", False
    return 0.0, "", False


def _end_of_thread(worked: Worked, bite: Bite) -> float | None:
    """Where a closed thread ends; None for one that is open."""
    if bite.kind == "nut" and bite.member.nut is not None and bite.member.nut.form == "dome":
        return bite.enter_mm + worked.limits["dome-thread"] * bite.depth_mm
    return bite.leave_mm if bite.blind and not bite.from_behind else None


def _of_threads(
    worked: Worked, near: Stop, far: Stop, between: tuple[Member, ...]
) -> tuple[Hold, float, str]:
    taken = sum(member.bears_mm for member in between)
    room = far.enter_mm - near.leave_mm - taken
    if not (near.is_nut or far.is_nut):
        return (
            "two threads",
            room,
            f"{near.name} and {far.name} are both threaded: the screw draws neither up",
        )
    if worked.joint.clamps or not any(member.kind == "layer" for member in between):
        bite = far.bite if far.is_nut else None
        off, why, _ = _kept_off(worked, bite, far.name) if bite is not None and between else (0.0, "", False)
        return ("kept off", off, why) if off > SLACK_MM else ("drawn", 0.0, "")
    return "hand", room, "not drawn up: this joint pulls nothing together"
