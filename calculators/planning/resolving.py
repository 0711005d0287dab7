"""The build worked out: every joint's stacks, the holes that follow in every part, the findings."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace

from calculators.geometry.layers import Mark
from calculators.geometry.vectors import along
from calculators.hardware.designation import read_fastener
from calculators.hardware.fastener import Fastener
from calculators.joints.failing import failed
from calculators.joints.model import Finding, JointInput, JointResult, Layer, MeasuredHead, StackItem
from calculators.joints.work import work_joint
from calculators.planning import model
from calculators.planning.around import riders_of
from calculators.planning.movement import AxisAt, movement_findings
from calculators.planning.placing import Cell, PlacedBuild, cells_between, place_build
from calculators.planning.placing_again import NOTHING, Difference, place_again
from calculators.planning.stacks import PlaceStack, axis_count, stacks_of
from calculators.planning.tree import joint_count, split_copy
from calculators.planning.worked import WorkedBuild, WorkedHole, WorkedJoint
from calculators.quantities.errors import InputError

_EDGE_RULES = {"edge-distance": "edge_mm", "end-distance": "end_mm", "insert-edge": "side_mm"}
_ROUND_MM = 4
_NEEDS = "this project: what a joint needs before it can be checked"
MOST_AXES = 10_000
"""How many axes are followed in one build: places times posed copies, over all joints."""


@dataclass(frozen=True, slots=True)
class ResolvedJoint:
    """What one joint gives: its places by their layers, the holes in every part, the findings."""

    joints: tuple[WorkedJoint, ...] = ()
    holes: tuple[WorkedHole, ...] = ()
    findings: tuple[Finding, ...] = ()
    axes: tuple[AxisAt, ...] = ()
    """Each place on each copy of the home that has a pose: the axis in space, and the layers on it."""

    marks: frozenset[str] = frozenset()
    """The parts that it hangs on."""

    cells: frozenset[Cell] = frozenset()
    """The cells of space that its axes were followed through."""

    is_known: bool = True
    """False where it could not be worked out, so that what it hangs on is not known."""

    def hangs_on(self, difference: Difference) -> bool:
        """Whether it may be another now."""
        return (
            not self.is_known
            or (difference.everywhere and bool(self.cells))
            or not self.marks.isdisjoint(difference.marks)
            or not self.cells.isdisjoint(difference.cells)
        )


@dataclass(frozen=True, slots=True)
class _Group:
    """The places of a joint whose stacks are alike but for how far they are from edges."""

    stacks: tuple[PlaceStack, ...]
    worked: WorkedJoint
    nearest: dict[tuple[int, str], str]
    """The place at which a layer is nearest to an edge, by layer and kind of edge."""


@dataclass(frozen=True, eq=False)
class Resolution:
    """A build worked out, and what each joint gave, by mark; those beyond `MOST_AXES` are left out."""

    worked: WorkedBuild
    joints: dict[str, ResolvedJoint]
    by_hand: dict[str, tuple[WorkedHole, ...]]
    """The holes that a person placed, by part."""


def resolve_build(build: model.Build) -> WorkedBuild:
    """Work out a build: layers, lengths, holes and joint findings.

    Args:
        build: the build as plain data.

    Returns:
        The build with its joints in order, all holes by part and face, and the joints' findings. What
        cannot be read or worked out becomes a finding; nothing stops the rest.

    Source: this project; each joint by `calculators.joints.work_joint`.
    """
    return resolve(build).worked


def resolve(build: model.Build, previous: Resolution | None = None) -> Resolution:
    """Work out a build as `resolve_build` does, and keep what each joint gave.

    Args:
        build: the build as plain data.
        previous: what was worked out of the build before a change; it changes nothing but the time.

    Returns:
        The build worked out, and each joint.

    Source: this project; each joint by `calculators.joints.work_joint`.
    """
    placed, standing = _standing(build, previous)
    findings = list(placed.findings)
    joints: list[WorkedJoint] = []
    by_hand = _by_hand(build, previous)
    holes = [hole for each in by_hand.values() for hole in each]
    resolved: dict[str, ResolvedJoint] = {}
    followed = 0
    for joint in build.joints:
        axes = axis_count(joint, placed)
        if followed + axes > MOST_AXES:
            findings.append(_too_many(joint, axes))
            continue
        followed += axes
        had = standing.get(joint.mark)
        found = had[1] if had is not None and had[0] is joint else resolve_joint(build, joint, placed)
        resolved[joint.mark] = found
        joints += found.joints
        holes += found.holes
        findings += found.findings
    worked = WorkedBuild(build, tuple(joints), tuple(holes), tuple(findings), placed)
    return Resolution(worked, resolved, by_hand)


def _standing(
    build: model.Build, previous: Resolution | None
) -> tuple[PlacedBuild, dict[str, tuple[model.Joint, ResolvedJoint]]]:
    """Place the parts, and give the joints of before that stand as they were as far as parts go."""
    before = previous.worked if previous else None
    if previous is None or before is None or before.placed is None:
        return place_build(build), {}
    placed, difference = place_again(build, before.placed)
    if before.build.unit != build.unit or before.build.context != build.context:
        return placed, {}
    found = {
        joint.mark: (joint, previous.joints[joint.mark])
        for joint in before.build.joints
        if joint.mark in previous.joints
    }
    if difference is NOTHING:
        return placed, found
    return placed, {mark: each for mark, each in found.items() if not each[1].hangs_on(difference)}


def resolve_joint(build: model.Build, joint: model.Joint, placed: PlacedBuild) -> ResolvedJoint:
    """Work out one joint of a build.

    Args:
        build: the build, whose unit and context hold.
        joint: the joint, which need not be one of the build's own.
        placed: the build's parts where they lie.

    Returns:
        The joint by the places that have the same layers, its holes, and what is wrong with it alone.

    Source: this project; each joint by `calculators.joints.work_joint`.
    """
    try:
        groups = _work(joint, build.unit, build.context, placed)
    except InputError as error:
        findings = _refusals(joint, error)
    except Exception as error:  # whatever it is, the other joints are still given
        findings = [failed("joint", _NEEDS, error, joint=joint.mark)]
    else:
        return _resolved(joint, groups, placed, build.context)
    return ResolvedJoint(findings=tuple(findings), is_known=False)


def _resolved(
    joint: model.Joint, groups: tuple[_Group, ...], placed: PlacedBuild, context: model.Context
) -> ResolvedJoint:
    axes = _axes(groups)
    findings = _told_once([_group_findings(group) for group in groups])
    findings += movement_findings(joint, axes, placed, context)
    marks = {split_copy(joint.home)[0], *(member.part for member in joint.stack)}
    cells: set[Cell] = set()
    for group in groups:
        marks.update(item.layer.part for item in group.worked.inputs.stack if item.layer is not None)
        for stack in group.stacks:
            marks.update(placed.mark_of[name] for name in stack.met.union(one.name for one in stack.around))
            if stack.start is not None and stack.way is not None:
                cells.update(cells_between(stack.start, along(stack.start, (stack.way, stack.reach_mm))))
    return ResolvedJoint(
        tuple(group.worked for group in groups),
        _merged(hole for group in groups for hole in _holes(group, placed)),
        tuple(findings),
        tuple(axes),
        frozenset(marks),
        frozenset(cells),
    )


def _work(
    joint: model.Joint, unit: model.Unit, context: model.Context, placed: PlacedBuild
) -> tuple[_Group, ...]:
    fastener = house_fastener(joint, unit, context)
    by_input: dict[tuple[JointInput, object], list[PlaceStack]] = {}
    for stack in stacks_of(unit, joint, fastener, placed):
        inputs = _joint_input(context, joint, fastener, _edgeless(stack.items))
        by_input.setdefault((inputs, _aside(stack, placed)), []).append(stack)
    counts = _counts(
        joint, placed.totals, [sum(stack.times for stack in stacks) for stacks in by_input.values()]
    )
    groups = []
    for ((inputs, _), stacks), count in zip(by_input.items(), counts, strict=True):
        items, nearest = _least_edges(stacks)
        whole = replace(inputs, stack=items)
        places = tuple(dict.fromkeys(stack.place for stack in stacks if stack.place))
        result = work_joint(whole)
        met = {stretch.copy: stretch.item for stretch in stacks[0].stretches}
        riders = riders_of(stacks[0].around, met, result, placed)
        worked = WorkedJoint(joint, count, places, whole, result, riders)
        groups.append(_Group(tuple(stacks), worked, nearest))
    return tuple(groups)


def _aside(stack: PlaceStack, placed: PlacedBuild) -> tuple[object, ...]:
    """What lies around a stack, by mark and place, so that stacks are alike only where this is."""
    return tuple(
        (placed.mark_of[one.name], round(one.enter, 6), round(one.leave, 6), one.bore_mm)
        for one in stack.around
    )


def house_fastener(joint: model.Joint, unit: model.Unit, context: model.Context) -> Fastener:
    """Read a joint's fastener, a wood screw in the series of the house where its line names none.

    Args:
        joint: the joint.
        unit: what a bare number means in the build (`mm`, `in`).
        context: the build's context.

    Returns:
        The fastener.

    Raises:
        InputError: when the line cannot be read.

    Source: this project.
    """
    fastener = read_fastener(joint.fastener, unit=unit, field="fastener")
    series = context.wood_screw_series
    if fastener.family == "wood" and not fastener.series and series != "inch-us":  # the tables' own default
        return replace(fastener, series=series)
    return fastener


def _joint_input(
    context: model.Context, joint: model.Joint, fastener: Fastener, stack: tuple[StackItem, ...]
) -> JointInput:
    angle, percent = context.wood_screw_head_angle_deg, context.tapping_percent
    return JointInput(
        joint.mark,
        fastener,
        stack,
        joint.seat,
        MeasuredHead(
            joint.head_diameter.mm if joint.head_diameter else None,
            joint.head_height.mm if joint.head_height else None,
            float(joint.head_angle_deg) if joint.head_angle_deg is not None else None,
        ),
        wood_screw_head_angle_deg=None if angle is None else float(angle),
        torque_nm=None if joint.torque_nm is None else float(joint.torque_nm),
        clamps=joint.clamps,
        stands_mm=None if joint.stands is None else joint.stands.mm,
        steel_first=joint.steel_first,
        wet=joint.wet,
        loaded_sideways=joint.loaded_sideways,
        lock=joint.lock,
        drills=context.drills,
        tapping_percent=None if percent is None else float(percent),
        limits=tuple((name, float(value)) for name, value in context.limits),
    )


def _edgeless(items: Iterable[StackItem]) -> tuple[StackItem, ...]:
    return tuple(
        replace(item, layer=replace(item.layer, edge_mm=None, end_mm=None, side_mm=None))
        if item.layer
        else item
        for item in items
    )


def _least_edges(
    stacks: list[PlaceStack],
) -> tuple[tuple[StackItem, ...], dict[tuple[int, str], str]]:
    """Take over all places the least distance to each kind of edge, and remember where it is."""
    items: list[StackItem] = []
    nearest: dict[tuple[int, str], str] = {}
    for index, item in enumerate(stacks[0].items):
        if item.layer is None:
            items.append(item)
            continue
        least: dict[str, float] = {}
        for name in ("edge_mm", "end_mm", "side_mm"):
            known = [(_edge(stack, index, name), stack.place) for stack in stacks]
            values = [(value, place) for value, place in known if value is not None]
            if values:
                least[name], nearest[index, name] = min(values, key=lambda each: each[0])
        layer = item.layer
        items.append(
            replace(
                item,
                layer=replace(
                    layer,
                    edge_mm=least.get("edge_mm"),
                    end_mm=least.get("end_mm"),
                    side_mm=least.get("side_mm"),
                ),
            )
        )
    return tuple(items), nearest


def _edge(stack: PlaceStack, index: int, name: str) -> float | None:
    layer = stack.items[index].layer
    value: float | None = getattr(layer, name) if layer else None
    return value


def _counts(joint: model.Joint, totals: dict[str, int], found: list[int]) -> list[int]:
    """Return how many fasteners each group stands for; a typed count is given to the groups in turn."""
    rest = joint_count(joint, totals)
    counts = []
    for number in found[:-1]:
        counts.append(min(number, rest))
        rest -= counts[-1]
    return [*counts, rest]


def _too_many(joint: model.Joint, axes: int) -> Finding:
    says = (
        f"{joint.mark} has {axes:,} axes, and with those of the joints before it the build has more than the "
        f"{MOST_AXES:,} that are followed: leave out the poses of copies that are like the first."
    )
    return Finding(
        "cannot-be-worked-out",
        "unchecked",
        says,
        _NEEDS,
        joint.mark,
        value=float(axes),
        limit=float(MOST_AXES),
    )


def _refusals(joint: model.Joint, error: InputError) -> list[Finding]:
    return [
        Finding(
            "cannot-be-worked-out",
            "error" if fault.field.startswith("fastener") else "unchecked",
            fault.says,
            _NEEDS,
            joint.mark,
        )
        for fault in error.faults
    ]


def _group_findings(group: _Group) -> list[Finding]:
    """Give the findings of a group, each at the place it is worst; place findings come along."""
    joint, several = group.worked.joint, len(group.stacks) > 1
    found = [finding for stack in group.stacks for finding in stack.findings]
    layers = {item.layer.part: i for i, item in enumerate(group.worked.inputs.stack) if item.layer}
    for finding in group.worked.result.findings:
        place = ""
        edge = _EDGE_RULES.get(finding.rule)
        if edge and several and finding.part in layers:
            place = group.nearest.get((layers[finding.part], edge), "")
        elif len({stack.place for stack in group.stacks}) < len(joint.places):
            place = group.stacks[0].place
        found.append(replace(finding, joint=joint.mark, place=place))
    return list(dict.fromkeys(found))


def _told_once(groups: list[list[Finding]]) -> list[Finding]:
    """Take the findings of all groups; what is told of each of several in the same words is of the joint."""
    if len(groups) < 2:
        return [finding for group in groups for finding in group]
    alike = [{replace(finding, place="") for finding in group} for group in groups]
    of_all = set.intersection(*alike)
    found = [
        bare if bare in of_all and finding.rule not in _EDGE_RULES else finding
        for group in groups
        for finding in group
        for bare in (replace(finding, place=""),)
    ]
    return list(dict.fromkeys(found))


def _axes(groups: tuple[_Group, ...]) -> list[AxisAt]:
    return [
        AxisAt(stack.place, stack.home, stack.start, stack.way, stack.stretches, group.worked)
        for group in groups
        for stack in group.stacks
        if stack.start is not None and stack.way is not None
    ]


def _by_hand(build: model.Build, previous: Resolution | None) -> dict[str, tuple[WorkedHole, ...]]:
    """The holes that a person placed; those of parts that are as they were are the very same."""
    old = {one.mark: one for one in previous.worked.build.components} if previous else {}
    return {
        one.mark: previous.by_hand[one.mark]
        if previous is not None and old.get(one.mark) is one
        else tuple(_direct_holes(one))
        for one in build.components
    }


def _direct_holes(component: model.Component) -> Iterable[WorkedHole]:
    for hole in component.holes:
        angle = float(hole.angle_deg) if hole.angle_deg is not None else None
        yield WorkedHole(
            component.mark,
            (),
            hole.face,
            hole.u.mm,
            hole.v.mm if hole.v else 0.0,
            angle if hole.face == "side" else None,
            direct=hole,
        )


def _holes(group: _Group, placed: PlacedBuild) -> Iterable[WorkedHole]:
    """Give a hole for each layer at each place; a layer of no known place has its hole without u and v."""
    result: JointResult = group.worked.result
    item_of = _item_of_each_layer(group.worked.inputs)
    joint = group.worked.joint
    clamps = joint.clamps and group.worked.inputs.fastener.kind != "grub screw"
    for stack in group.stacks:
        by_item = {stretch.item: stretch for stretch in stack.stretches}
        for hole in result.holes:
            stretch = by_item.get(item_of[hole.layer])
            layer = group.worked.inputs.stack[item_of[hole.layer]].layer
            assert layer is not None
            if stretch is None:
                yield WorkedHole(
                    layer.part, (), "top", None, None, None, group.worked.joint.mark, stack.place, hole
                )
                continue
            mark = stretch.exit if hole.from_behind and stretch.exit else stretch.entry
            on_side = mark.face == "side"
            yield WorkedHole(
                placed.mark_of[stretch.copy],
                (stretch.copy,),
                mark.face,
                round(mark.u, _ROUND_MM),
                0.0 if on_side else round(mark.v, _ROUND_MM),
                round(mark.v, _ROUND_MM) if on_side else None,
                group.worked.joint.mark,
                stack.place,
                hole,
                mirrored=stretch.mirrored,
                below_mm=round(mark.below, _ROUND_MM),
                way=_way(stack, stretch.copy, mark, hole.from_behind, placed),
                clamps=clamps,
            )


def _way(
    stack: PlaceStack, copy: str, mark: Mark, from_behind: bool, placed: PlacedBuild
) -> tuple[float, float, float] | None:
    """Return the axis inward in the drawn part's frame, where it is not square to the face of the mark."""
    if not mark.oblique or stack.way is None:
        return None
    own = placed.transforms[copy].own_direction(stack.way)
    sense = -1.0 if from_behind else 1.0
    return round(sense * own[0], 9), round(sense * own[1], 9), round(sense * own[2], 9)


def _item_of_each_layer(inputs: JointInput) -> list[int]:
    return [index for index, item in enumerate(inputs.stack) if isinstance(item.layer, Layer)]


def _merged(holes: Iterable[WorkedHole]) -> tuple[WorkedHole, ...]:
    """Put the same hole of several copies into one record, by part, face and place."""
    merged: dict[object, WorkedHole] = {}
    for hole in holes:
        key = (
            hole.part,
            hole.face,
            hole.u_mm,
            hole.v_mm,
            hole.angle_deg,
            hole.joint,
            hole.hole,
            hole.direct,
            hole.mirrored,
            hole.below_mm,
            hole.way,
            "" if hole.copies else hole.place,
        )
        first = merged.get(key)
        if first is None:
            merged[key] = hole
        elif hole.copies:
            merged[key] = replace(first, copies=tuple(dict.fromkeys((*first.copies, *hole.copies))))
    return tuple(merged.values())
