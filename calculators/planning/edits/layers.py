"""Which member of a joint's stored stack a layer worked out is, and what was decided about its hole."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import replace
from typing import Any

from calculators.joints.model import JointInput, StackItem
from calculators.planning.model import Joint, LayerHole, StackMember
from calculators.planning.worked import WorkedJoint


def members_of(joint: Joint, inputs: JointInput) -> list[int | None]:
    """Match each member of a stack worked out with the stored one: parts by mark, hardware in its order.

    Args:
        joint: the joint as stored.
        inputs: the joint as it was worked out from it.

    Returns:
        For each member worked out the index of the stored one; None for a part that was found on the axis
        and is not named in the stack.

    Source: this project.
    """
    left = list(range(len(joint.stack)))
    found: list[int | None] = []
    for item in inputs.stack:
        part = item.layer.part if item.layer is not None else ""
        index = next((i for i in left if joint.stack[i].part == part), None)
        if index is not None:
            left.remove(index)
        found.append(index)
    return found


def named(
    joint: Joint, group: WorkedJoint, groups: Sequence[WorkedJoint], item: int
) -> tuple[Joint, int] | None:
    """Name a part of the axis in the joint's stack, where it is not named already.

    Where the stack names no part yet, all parts of the axis are named: else those left out would not count.

    Args:
        joint: the joint as stored.
        group: the places whose stack is meant.
        groups: all places of the joint.
        item: [1] which member of the stack worked out.

    Returns:
        The joint, and the index of the member in its stack; None where other places of the joint meet other
        parts, so that naming this one would be wrong there.

    Source: this project.
    """
    members = members_of(joint, group.inputs)
    index = members[item]
    if index is not None:
        return joint, index
    mark = _part(group.inputs.stack[item])
    if any(mark not in map(_part, other.inputs.stack) for other in groups):
        return None
    if not any(member.part for member in joint.stack):
        if any(_parts(other) != _parts(group) for other in groups):
            return None
        stack = [
            StackMember(part=_part(each)) if held is None else joint.stack[held]
            for each, held in zip(group.inputs.stack, members, strict=True)
        ]
        return replace(joint, stack=tuple(stack)), item
    before = [held for held in members[:item] if held is not None]
    after = [held for held in members[item:] if held is not None]
    at = before[-1] + 1 if before else (after[0] if after else 0)
    stack = [*joint.stack[:at], StackMember(part=mark), *joint.stack[at:]]
    return replace(joint, stack=tuple(stack)), at


def _part(item: StackItem) -> str:
    return item.layer.part if item.layer is not None else ""


def _parts(group: WorkedJoint) -> list[str]:
    return [part for part in map(_part, group.inputs.stack) if part]


def places_for(group: WorkedJoint, groups: Sequence[WorkedJoint], part: str) -> tuple[str, ...]:
    """Say for which places a decision about a part's hole is made.

    Args:
        group: the places that it is made for.
        groups: all places of the joint.
        part: the part's mark.

    Returns:
        None by name, for all places, where no other places of the joint go through the part.

    Source: this project.
    """
    elsewhere = any(other is not group and part in _parts(other) for other in groups)
    return group.places if elsewhere else ()


def with_hole(member: StackMember, places: tuple[str, ...], rule: str, **fields: Any) -> StackMember:
    """Decide something about a member's hole, at the places named or at all.

    What was decided before for single places is overruled there too.

    Args:
        member: the member of the stack.
        places: ids of places; none: all.
        rule: the rule that it is decided for, which stands as the reason where no other is written.
        **fields: the fields of `LayerHole`.

    Returns:
        The member.

    Source: this project.

    Example:
        >>> with_hole(StackMember(part="P1"), (), "head-proud", pilot=False).holes[0].reason
        'mends head-proud'
    """
    holes: list[LayerHole] = []
    done = False
    for hole in member.holes:
        if set(hole.places) == set(places):
            hole, done = replace(hole, **fields, reason=hole.reason or f"mends {rule}"), True
        elif not places or (set(hole.places) <= set(places) and (hole.places or "pilot" in fields)):
            over = {name: value for name, value in fields.items() if _decided(hole, name)}
            hole = replace(hole, **over) if over else hole
            done = done or "pilot" in over  # a pilot is drilled where nothing says no
        holes.append(hole)
    if not done:
        holes.append(LayerHole(places=places, **fields, reason=f"mends {rule}"))
    return replace(member, holes=tuple(holes))


def _decided(hole: LayerHole, name: str) -> bool:
    value = getattr(hole, name)
    return not value if name == "pilot" else value not in (None, "")
