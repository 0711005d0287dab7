"""Carrying out a mend in the build: what is said of a joint worked out becomes a change of what is stored."""

from __future__ import annotations

import math
import re
from collections.abc import Iterator, Sequence
from dataclasses import replace
from decimal import Decimal, InvalidOperation
from typing import Any, cast

from calculators.joints.model import Finding, Mend
from calculators.planning.edits.layers import named, places_for, with_hole
from calculators.planning.edits.moving import Edge, has_room, millimetres, moved
from calculators.planning.edits.naming import find_finding
from calculators.planning.edits.ordering import move_steps
from calculators.planning.edits.setting import SET, set_fields
from calculators.planning.model import Build, Joint, StackMember
from calculators.planning.order import RULE as ORDER
from calculators.planning.order import fitted_after_closed
from calculators.planning.placing import PlacedBuild, place_build
from calculators.planning.resolving import house_fastener, resolve_joint
from calculators.planning.stacks import stacks_of
from calculators.planning.ties import TAKE
from calculators.planning.worked import WorkedBuild, WorkedJoint
from calculators.quantities.errors import InputError

_IN_STACK = re.compile(r"stack\[([^\]]+)\]\.(.+)")
_ORDER = re.compile(r"([0-9]{1,7}(?: [0-9]{1,7})*) before ([0-9]{1,7})")
_OF_JOINT = ("fastener", "lock", "seat")
_HOLE_LENGTHS = {
    "diameter_mm": "diameter",
    "depth_mm": "depth",
    "slot_length_mm": "slot_length",
    "countersink_diameter_mm": "countersink_diameter",
    "counterbore_diameter_mm": "counterbore_diameter",
    "counterbore_depth_mm": "counterbore_depth",
}
_EDGES = {"edge_mm": "edge", "end_mm": "end", "side_mm": "side"}


def mend(worked: WorkedBuild, key: str, index: int = 0) -> Build:
    """Carry out a mend that a finding offers.

    A hole, a depth or a takes is decided for the layer that the finding is about, and only at the places
    that it is about where the joint's other places go through the same part otherwise. Places too near an
    edge are moved by the least that will do, all that are too near it at once.

    Args:
        worked: the build worked out.
        key: the finding's key.
        index: [1] which of its mends, from 0.

    Returns:
        The build, mended.

    Raises:
        InputError: when there is no such finding or mend, or when it is one for hands.

    Source: this project.
    """
    finding = find_finding(worked, key)
    if not 0 <= index < len(finding.mends):
        count = len(finding.mends)
        raise InputError.of(
            f"This finding has {count or 'no'} mend{'s' if count != 1 else ''} to choose from.", field="index"
        )
    after = _carried_out(worked, finding, finding.mends[index])
    if after is None:
        raise InputError.of(f"This is mended by hand: {finding.mends[index].says}", field="index")
    return after


def can_mend(worked: WorkedBuild, finding: Finding, index: int = 0) -> bool:
    """Say whether `mend` can carry out a mend, and whether the finding then goes.

    Args:
        worked: the build worked out.
        finding: one of its findings.
        index: [1] which of its mends, from 0.

    Returns:
        False also for a mend that helps but leaves the finding standing.

    Source: this project.
    """
    if not 0 <= index < len(finding.mends):
        return False
    after = _carried_out(worked, finding, finding.mends[index])
    if finding.mends[index].field == SET:  # the tests of the rules see to it that these do mend
        return after is not None
    return after is not None and _goes(worked, finding, after)


def _carried_out(worked: WorkedBuild, finding: Finding, how: Mend) -> Build | None:
    if how.field == "steps":
        return _in_order(worked.build, how.value)
    if how.field == TAKE:
        return take_sizes(worked, how.value)
    if how.field == SET:
        return _set(worked.build, how.value)
    joint = next((one for one in worked.build.joints if one.mark == finding.joint), None)
    if not how.field or joint is None:
        return None
    build = worked.build
    for changed in _changed(worked, joint, finding, how):
        joints = tuple(changed if one is joint else one for one in build.joints)
        after = replace(build, joints=joints)
        if how.field.endswith(".slot_length") and not _goes(worked, finding, after):
            continue  # a slot lies along u or along v: the one that lets the wood move
        return after
    return None


def _set(build: Build, value: str) -> Build | None:
    """The fields set; None where somebody has changed the build so that they cannot be."""
    try:
        return set_fields(build, value)
    except InputError:
        return None


def _goes(worked: WorkedBuild, finding: Finding, after: Build) -> bool:
    """Whether a finding has gone; of several with one key, one fewer is left."""
    left: Sequence[Finding]
    if finding.rule == ORDER:
        left = fitted_after_closed(after)
    elif finding.part in {one.mark for one in after.calculations} and not finding.joint:
        left = _of_calculations(worked, after)
    else:
        joint = next(one for one in after.joints if one.mark == finding.joint)
        left = resolve_joint(after, joint, _placed(worked)).findings
    return _alike(left, finding) < _alike(worked.findings, finding)


def take_sizes(worked: WorkedBuild, mark: str) -> Build | None:
    """Take the build's sizes of today for what was last looked at in a calculation.

    Args:
        worked: the build worked out.
        mark: the calculation's mark.

    Returns:
        The build; None where there is no such calculation, or nothing of it has changed.

    Source: this project.
    """
    from calculators.planning.calculations import looked_at

    found = next((one for one in worked.calculations if one.calculation.mark == mark), None)
    if found is None or not found.changed:
        return None
    kept = tuple(looked_at(one, found) if one.mark == mark else one for one in worked.build.calculations)
    return replace(worked.build, calculations=kept)


def _of_calculations(worked: WorkedBuild, after: Build) -> Sequence[Finding]:
    """What the check then says of calculations; a mend of one changes no joint."""
    from calculators.planning.calculations import work_calculations
    from calculators.planning.kept import calculation_findings

    return tuple(calculation_findings(after, work_calculations(after, worked.joints)))


def _alike(findings: Sequence[Finding], finding: Finding) -> int:
    """How many have the key of a finding, without making the keys of all the others."""
    spot = (finding.rule, finding.joint, finding.part, finding.place)
    return sum((one.rule, one.joint, one.part, one.place) == spot for one in findings)


def _placed(worked: WorkedBuild) -> PlacedBuild:
    return worked.placed or place_build(worked.build)


def _in_order(build: Build, value: str) -> Build | None:
    said = _ORDER.fullmatch(value)
    numbers = {one.number for one in build.steps}
    if said is None or not numbers >= {int(number) for number in (*said[1].split(), said[2])}:
        return None
    return move_steps(build, tuple(int(number) for number in said[1].split()), int(said[2]))


def _changed(worked: WorkedBuild, joint: Joint, finding: Finding, how: Mend) -> Iterator[Joint]:
    """The joint with the mend carried out; where there are several ways to, one after another."""
    groups = [one for one in worked.joints if one.joint.mark == joint.mark]
    if how.field in _OF_JOINT:
        yield replace(joint, **cast(Any, {how.field: how.value}))
    elif how.field == "torque_nm" and (number := _decimal(how.value)) is not None:
        yield replace(joint, torque_nm=number)
    elif how.field == "steel_first":
        yield replace(joint, steel_first=how.value == "true")
    elif how.field == "stack":
        yield from _named_part(joint, groups, how.value)
    elif (said := _IN_STACK.fullmatch(how.field)) is not None:
        where, path = said.groups()
        if path == "thickness":
            stack = tuple(replace(m, thickness=None) if m.part == where else m for m in joint.stack)
            yield replace(joint, stack=stack)
        elif path == "holes.slot_length":
            yield from _slotted(joint, groups, where, how.value, finding.rule)
        elif where.isdecimal():
            yield from _in_layer(worked, joint, groups, finding, int(where), path, how.value)


def _named_part(joint: Joint, groups: Sequence[WorkedJoint], part: str) -> Iterator[Joint]:
    for group in groups:
        for item, one in enumerate(group.inputs.stack):
            if one.layer is not None and one.layer.part == part:
                found = named(joint, group, groups, item)
                if found is not None:
                    yield found[0]
                return


def _in_layer(
    worked: WorkedBuild,
    joint: Joint,
    groups: Sequence[WorkedJoint],
    finding: Finding,
    item: int,
    path: str,
    value: str,
) -> Iterator[Joint]:
    """Change what is stored of one member of the stack."""
    group = _group_of(groups, finding)
    if group is None or item >= len(group.inputs.stack):
        return
    edge = _EDGES.get(path.removeprefix("layer."))
    if edge is not None:
        found = _moved(worked, joint, group, item, cast(Edge, edge), value)
    else:
        found = _with_member(joint, group, groups, item, path, value, finding.rule)
    if found is not None:
        yield found


def _group_of(groups: Sequence[WorkedJoint], finding: Finding) -> WorkedJoint | None:
    """The places of the joint that a finding is about."""
    bare = replace(finding, place="")
    having = [one for one in groups if bare in one.result.findings]
    return next((one for one in having if finding.place in one.places), having[0] if having else None)


def _with_member(
    joint: Joint,
    group: WorkedJoint,
    groups: Sequence[WorkedJoint],
    item: int,
    path: str,
    value: str,
    rule: str,
) -> Joint | None:
    found = named(joint, group, groups, item)
    if found is None:
        return None
    joint, index = found
    member = joint.stack[index]
    layer = group.inputs.stack[item].layer
    places = places_for(group, groups, layer.part) if layer is not None else ()
    changed = _member(member, path, value, places, rule)
    if changed is None:
        return None
    return replace(joint, stack=(*joint.stack[:index], changed, *joint.stack[index + 1 :]))


def _member(
    member: StackMember, path: str, value: str, places: tuple[str, ...], rule: str
) -> StackMember | None:
    if path in ("washer", "nut", "insert"):  # another one, of which nothing is measured yet
        return replace(member, item=value, thickness=None, outside=None, body=None)
    if path == "layer.takes":
        return replace(member, takes=cast(Any, value))
    number = _decimal(value)
    if path == "layer.hole.pilot":
        return with_hole(member, places, rule, pilot=value == "true")
    if number is None:
        return None
    if path == "measured.thickness_mm":
        return replace(member, thickness=millimetres(number))
    if path == "layer.drilled_depth_mm":
        if places:
            return with_hole(member, places, rule, depth=millimetres(number))
        return replace(member, drilled_depth=millimetres(number))
    name = path.removeprefix("layer.hole.")
    if name == "countersink_angle_deg":
        return with_hole(member, places, rule, countersink_angle_deg=number)
    if name in _HOLE_LENGTHS:
        return with_hole(member, places, rule, **{_HOLE_LENGTHS[name]: millimetres(number)})
    return None


def _decimal(value: str) -> Decimal | None:
    try:
        number = Decimal(value)
    except InvalidOperation:
        return None
    return number if number.is_finite() else None


def _moved(
    worked: WorkedBuild, joint: Joint, group: WorkedJoint, item: int, edge: Edge, value: str
) -> Joint | None:
    """Move the places; where the distance was typed, type the one that is wanted."""
    layer, number = group.inputs.stack[item].layer, _decimal(value)
    if layer is None or number is None:
        return None
    found = named(joint, group, [group], item)
    typed = joint.stack[found[1]] if found is not None and found[0] is joint else None
    if typed is not None and edge != "side" and getattr(typed, edge) is not None:
        component = next((one for one in worked.build.components if one.mark == layer.part), None)
        if not has_room(component, layer, edge, float(number)):
            return None
        changed = replace(typed, **cast(Any, {edge: millimetres(number)}))
        return replace(joint, stack=tuple(changed if one is typed else one for one in joint.stack))
    fastener = house_fastener(joint, worked.build.unit, worked.build.context)
    stacks = stacks_of(worked.build.unit, joint, fastener, _placed(worked))
    here = tuple(stack for stack in stacks if stack.place in group.places and len(stack.items) > item)
    return moved(joint, here, item, edge, float(number), _placed(worked)) if here else None


def _slotted(
    joint: Joint, groups: Sequence[WorkedJoint], part: str, value: str, rule: str
) -> Iterator[Joint]:
    """Slots at all places but the one held tight, along u and then along v; else at every place."""
    number = _decimal(value)
    spot = next(
        (
            (group, item)
            for group in groups
            for item, one in enumerate(group.inputs.stack)
            if one.layer is not None and one.layer.part == part
        ),
        None,
    )
    found = named(joint, spot[0], groups, spot[1]) if spot is not None else None
    if number is None or found is None:
        return
    joint, index = found
    every = tuple(place.id for place in joint.places)
    sliding = tuple(one for one in every if one != _held_tight(joint))
    for places in dict.fromkeys((sliding, every)):
        for along in ("u", "v"):
            member = with_hole(
                joint.stack[index],
                places,
                rule,
                kind="slot",
                slot_length=millimetres(number),
                slot_along=along,
            )
            yield replace(joint, stack=(*joint.stack[:index], member, *joint.stack[index + 1 :]))


def _held_tight(joint: Joint) -> str:
    """The place that is held tight: as stated, or the one in the middle where there is one."""
    if joint.fixed_place or len(joint.places) < 3:
        return joint.fixed_place
    across = [one.v.mm if one.v is not None else 0.0 for one in joint.places]
    along = [one.u.mm for one in joint.places]
    u, v = sum(along) / len(along), sum(across) / len(across)
    near = sorted(
        (math.hypot(one_u - u, one_v - v), place.id)
        for one_u, one_v, place in zip(along, across, joint.places, strict=True)
    )
    return near[0][1] if near[0][0] < near[1][0] - 1e-6 else ""
