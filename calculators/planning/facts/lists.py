"""What sheets say in lists: the joints, the fasteners, what is cut, bought and put together, the findings."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from calculators.hardware.designation import write_hardware
from calculators.joints.model import LayerHole, StackItem
from calculators.planning.edits import finding_key
from calculators.planning.facts.fact import Fact
from calculators.planning.facts.parts import in_mm, told
from calculators.planning.schedules.assembly import AssemblyLine, AssemblyList
from calculators.planning.schedules.buying import BuyLine
from calculators.planning.schedules.cutting import CutLine
from calculators.planning.schedules.fasteners import FastenerLine, FastenerSchedule, house_writing
from calculators.planning.worked import WorkedBuild, WorkedJoint


def cutting_facts(lines: Iterable[CutLine]) -> list[Fact]:
    """Say what is cut out: how many, of what, the finished sizes and those to cut out at.

    Args:
        lines: the cut list.

    Returns:
        The facts; that a part is made is none of them, since it is ticked off on the paper.

    Source: this project.
    """
    found: list[Fact] = []
    for one in lines:
        rough = (one.rough_length_mm, one.rough_width_mm, one.rough_thickness_mm, one.rough_diameter_mm)
        said = [
            ("revision", one.revision),
            ("count", str(one.quantity)),
            ("material", ", ".join(word for word in (one.material, one.stock) if word)),
            ("length", in_mm(one.length)),
            ("width", in_mm(one.width)),
            ("thickness", in_mm(one.thickness)),
            ("diameter", in_mm(one.diameter)),
            ("bore", in_mm(one.bore)),
            ("cut out at", " x ".join(in_mm(each) for each in rough if each is not None)),
            ("grain", one.grain),
        ]
        found += told(one.mark, said)
    return found


def buying_facts(lines: Iterable[BuyLine]) -> list[Fact]:
    """Say what is to be bought, how much of it and where.

    Args:
        lines: the buying list.

    Returns:
        The facts.

    Source: this project.
    """
    found: list[Fact] = []
    for one in lines:
        key = f"{one.kind} {one.what}"
        said = [
            ("to buy", f"{one.total}" + (f", {one.spares} of them spare" if one.spares else "")),
            ("length", in_mm(one.length_mm)),
            ("area", f"{one.area_m2:.3f} m²" if one.area_m2 is not None else ""),
            ("volume", f"{one.volume_m3:.4f} m³" if one.volume_m3 is not None else ""),
            ("for", ", ".join(one.used)),
            ("from", one.supplier),
            ("note", one.note),
        ]
        via = one.used[0] if len(one.used) == 1 else ""
        found += told(
            "", said, f"{one.what} (steel twin)" if one.kind == "steel twin" else one.what, key, via
        )
    return found


def fastener_facts(schedule: FastenerSchedule) -> list[Fact]:
    """Say which fasteners are needed, how many, where, and with which drills.

    Args:
        schedule: the fastener schedule.

    Returns:
        The facts.

    Source: this project.
    """
    found: list[Fact] = []
    for one in schedule.lines:
        found += told("", _fastener(one), one.designation, f"{one.kind} {one.designation} {one.cut_to}")
    for pair in schedule.near:
        found += told("", [("easily taken for one another", pair.says)], f"{pair.first} and {pair.second}")
    return found + told("", [("not counted", ", ".join(schedule.unread))])


def _fastener(one: FastenerLine) -> Iterator[tuple[str, str]]:
    yield "count", str(one.count)
    yield "where", ", ".join(map(str, one.used))
    yield "length measured", one.length_measured
    yield "cut to", one.cut_to
    yield "drills", "; ".join(map(str, one.drills))
    yield "countersink", "; ".join(map(str, one.countersinks))
    yield "torque", ", ".join(f"{torque:g} N m" for torque in one.torque_nm)
    yield "from", ", ".join(one.suppliers)
    yield "note", one.note


def joint_facts(
    worked: WorkedBuild, joints: Iterable[WorkedJoint], *, with_holes: bool = False
) -> list[Fact]:
    """Say what a joint is made with, from the head on.

    Args:
        worked: the build worked out.
        joints: its joints that are on the sheet.
        with_holes: with the hole in each layer and how far the fastener reaches.

    Returns:
        The facts: the mark of the joint stands as their part.

    Source: this project.
    """
    found: list[Fact] = []
    groups: Counter[str] = Counter()
    for one in joints:
        mark = one.joint.mark
        groups[mark] += 1
        places = f"places {', '.join(one.places)}" if len(one.places) < len(one.joint.places) else ""
        said = [("count", str(one.count)), *_joint(worked, one)]
        said += _reach(one) if with_holes else []
        found += told(mark, said, places, f"group {groups[mark]}" if groups[mark] > 1 else "places")
    return found


def _joint(worked: WorkedBuild, one: WorkedJoint) -> Iterator[tuple[str, str]]:
    joint = one.joint
    yield "fastener", write_hardware(house_writing(one.result.fastener, worked.build))
    yield "from the head", ", ".join(filter(None, map(_member, one.inputs.stack)))
    yield "torque", f"{joint.torque_nm:f} N m" if joint.torque_nm is not None else ""
    yield "lock", joint.lock
    yield "reached from", joint.reached_from
    yield "tool", joint.tool
    yield "first", "a steel screw" if joint.steel_first else ""


def _member(item: StackItem) -> str:
    if item.layer is not None:
        return f"{item.layer.part} {in_mm(item.layer.thickness_mm)}"
    hardware = item.washer or item.nut or item.insert
    return write_hardware(hardware) if hardware is not None else ""


def _reach(one: WorkedJoint) -> Iterator[tuple[str, str]]:
    result = one.result
    for hole in result.holes:
        yield f"hole in {hole.part}, layer {hole.layer + 1}", _hole(hole)
    yield "length of thread engaged", in_mm(result.engagement_mm)
    yield "penetration", in_mm(result.penetration_mm)
    yield "past the nut", in_mm(result.protrusion_mm)


def _hole(hole: LayerHole) -> str:
    said = [f"{hole.kind} {in_mm(hole.diameter_mm)}", f"for {hole.thread}" if hole.thread else ""]
    said.append(f"{in_mm(hole.depth_mm)} deep" if hole.depth_mm is not None else "through")
    if hole.countersink_diameter_mm is not None:
        said.append(f"countersunk {in_mm(hole.countersink_diameter_mm)}")
    if hole.counterbore_diameter_mm is not None:
        said.append(
            f"counterbored {in_mm(hole.counterbore_diameter_mm)} x {in_mm(hole.counterbore_depth_mm)}"
        )
    return ", ".join(word for word in said if word)


def assembly_facts(assembly: AssemblyList) -> list[Fact]:
    """Say what is put together in which step, with what and with what care.

    A step is known again by its title, so that one that is moved is told as moved.

    Args:
        assembly: the assembly list.

    Returns:
        The facts.

    Source: this project.
    """
    found: list[Fact] = []
    seen: Counter[str] = Counter()
    for step in assembly.steps:
        seen[step.title] += 1
        of = f"step {step.number}, {step.title}"
        found += told("", _step(step), of, f"step {step.title} {seen[step.title]}", str(step.number))
    rest = [
        ("components in no step", ", ".join(assembly.components_in_no_step)),
        ("joints in no step", ", ".join(assembly.joints_in_no_step)),
    ]
    return found + told("", rest)


def _step(step: AssemblyLine) -> Iterator[tuple[str, str]]:
    yield "comes as number", str(step.number)
    yield "fits", ", ".join(map(str, step.parts))
    for joint in step.joints:
        said = [
            str(joint),
            f"{joint.torque_nm:f} N m" if joint.torque_nm is not None else "",
            joint.lock,
            f"from {joint.reached_from}" if joint.reached_from else "",
            "a steel screw first" if joint.steel_first else "",
        ]
        yield f"joint {joint.mark}", ", ".join(word for word in said if word)
    yield "last chance for", "; ".join(map(str, step.closes))
    yield "caution", step.caution
    yield "check", step.check
    yield "tools", ", ".join(step.tools)
    yield "glue", " ".join(word for word in (", ".join(step.glued), *step.times) if word)
    yield "note", step.note
    yield "not in the build", ", ".join(step.unknown)


def check_facts(worked: WorkedBuild, component: str) -> list[Fact]:
    """Say what the check finds, and what is let stand and why.

    Args:
        worked: the build worked out.
        component: of this component alone; nothing: of all.

    Returns:
        The facts; the part is the one, or the joint, that a finding is about.

    Source: this project.
    """
    found: list[Fact] = []
    seen: Counter[str] = Counter()
    for one in worked.findings:
        if component in ("", one.part):
            key = finding_key(one)
            seen[key] += 1
            of = one.rule.replace("-", " ")
            found += told(
                one.joint or one.part, [(one.severity, one.says)], of, f"{key} {seen[key]}", one.part
            )
    for one, acceptance in worked.accepted:
        if component in ("", one.part):
            of = f"{one.rule.replace('-', ' ')}, let stand"
            key = f"{finding_key(one)} let stand"
            found += told(one.joint or one.part, [("because", acceptance.reason)], of, key, one.part)
    return found
