"""Parts that lie around the stack of a joint: a lever on a bush, a wheel on a shouldered screw."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass

from calculators.joints.worked import Member, Worked

_SLACK_MM = 0.005


@dataclass(frozen=True, slots=True)
class Rider:
    """A part around a joint's axis which the axis itself does not meet, such as a lever on a bush.

    It lies from `enter_mm` to `leave_mm` along the axis, on the scale of the joint's extents. `bore_mm` is
    its hole, `on_mm` the outside diameter of the bush within it; None where it lies on the bare shank.
    """

    part: str
    material: str
    enter_mm: float
    leave_mm: float
    bore_mm: float
    on_mm: float | None = None

    @property
    def thick_mm(self) -> float:
        """Its thickness along the axis [mm]."""
        return self.leave_mm - self.enter_mm


@dataclass(frozen=True, slots=True)
class Ridden:
    """A rider with the member that it lies around (None: the bare shank) and the play that it has there.

    `play_mm` along the axis is below nought where all that lies around the member is longer than it,
    `side_play_mm` where it is pressed on. `what` names all of it, `near` and `far` what is on either side.
    """

    rider: Rider
    on: Member | None
    play_mm: float
    side_play_mm: float
    what: str
    near: str
    far: str


def ridden_of(worked: Worked, riders: Sequence[Rider]) -> tuple[Ridden, ...]:
    """Find what each rider lies around, and the play that is left beside all riders there.

        play = length of the bush - sum of the thicknesses around it

    Args:
        worked: the joint.
        riders: the parts around its stack.

    Returns:
        The riders in the order given.

    Source: common practice (a bush is longer than what turns on it).
    """
    on = [_within(worked, rider) for rider in riders]
    found = []
    for rider, member in zip(riders, on, strict=True):
        others = [other for other, under in zip(riders, on, strict=True) if under is member]
        room = _room(worked, rider, member)
        play = room - sum(other.thick_mm for other in others)
        near, far = _beside(worked, rider, member)
        what = " and ".join(dict.fromkeys(other.part for other in others))
        side = rider.bore_mm - (worked.screw.major_mm if rider.on_mm is None else rider.on_mm)
        found.append(Ridden(rider, member, round(play, 6), round(side, 6), what, near, far))
    return tuple(found)


def _within(worked: Worked, rider: Rider) -> Member | None:
    """The member that fills most of a rider's bore; None where it is the bare shank."""
    shared = [
        (min(member.leave_mm, rider.leave_mm) - max(member.enter_mm, rider.enter_mm), member)
        for member in worked.layers
    ]
    most = max(shared, key=lambda each: each[0])
    return most[1] if most[0] > _SLACK_MM else None


def _room(worked: Worked, rider: Rider, member: Member | None) -> float:
    if member is not None:
        return member.bears_mm
    near = max((m.leave_mm for m in _ahead(worked, rider)), default=0.0)
    far = min((m.enter_mm for m in _behind(worked, rider)), default=worked.tip_mm)
    return far - near


def _ahead(worked: Worked, rider: Rider) -> list[Member]:
    return [m for m in worked.stack.members if m.leave_mm <= rider.enter_mm + 0.5 * rider.thick_mm]


def _behind(worked: Worked, rider: Rider) -> list[Member]:
    return [m for m in worked.stack.members if m.enter_mm >= rider.leave_mm - 0.5 * rider.thick_mm]


def _beside(worked: Worked, rider: Rider, member: Member | None) -> tuple[str, str]:
    """Name what lies on either side."""
    names = [m.part if m.layer is not None else f"the {m.kind}" for m in worked.stack.members]
    if member is not None:
        place = worked.stack.members.index(member)
        near = names[place - 1] if place else "the head"
        return near, names[place + 1] if place + 1 < len(names) else "the end"
    ahead, behind = _ahead(worked, rider), _behind(worked, rider)
    members = worked.stack.members
    near = names[members.index(ahead[-1])] if ahead else "the head"
    return near, names[members.index(behind[0])] if behind else "the end"
