"""The working of a joint as steps with the numbers put in, and the sources behind it."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.calculation import Step
from calculators.joints.lengths import holding_bite
from calculators.joints.model import Finding
from calculators.joints.worked import Bite, Pressure, Worked

_GEOMETRY = "geometry"


def steps_of(worked: Worked) -> tuple[Step, ...]:
    """The working, line by line.

    Args:
        worked: the joint.

    Returns:
        The steps in the order in which a person would do them.

    Source: the steps name their own.
    """
    return tuple(
        step
        for part in (_stack_steps, _range_steps, _holding_steps, _hole_steps, _bearing_steps)
        for step in part(worked)
    )


def _stack_steps(worked: Worked) -> Iterator[Step]:
    bite = holding_bite(worked.stack)
    upto = [m for m in worked.stack.members if bite is None or m.item < bite.member.item or m is bite.member]
    ahead = [m for m in upto if m.kind != "insert" and (bite is None or m is not bite.member)]
    sums = [f"{m.bears_mm:.2f}" for m in ahead] + [
        f"{m.layer.gap_mm:.2f}" for m in upto if m.layer is not None and m.layer.gap_mm
    ]
    if sums:
        total = bite.enter_mm if bite is not None and bite.kind != "insert" else ahead[-1].leave_mm
        yield Step("stack", "sum of what lies before the thread", " + ".join(sums), total, "mm", _GEOMETRY)
    start = worked.stack.starts_mm
    if start:
        yield Step("sunk", "head from the surface it is flush with", f"{start:.2f}", start, "mm", _GEOMETRY)
    yield Step(
        "point", "length + sunk", f"{worked.length_mm:.2f} + {start:.2f}", worked.tip_mm, "mm", _GEOMETRY
    )


def _range_steps(worked: Worked) -> Iterator[Step]:
    needed = worked.needed
    if needed is None:
        return
    source = "common practice; limits of the rules"
    yield Step("length at least", needed.formula, needed.numbers, needed.least_mm, "mm", source)
    yield Step("length at most", needed.formula, needed.numbers, needed.most_mm, "mm", source)


def _holding_steps(worked: Worked) -> Iterator[Step]:
    diameter, tip = worked.screw.major_mm, worked.tip_mm
    for bite in worked.bites:
        if bite.kind == "wood":
            inside = tip - bite.enter_mm
            numbers = f"{tip:.2f} - {bite.enter_mm:.2f}"
            yield Step("penetration", "point - face of the point piece", numbers, inside, "mm", _GEOMETRY)
            yield Step(
                "penetration / D", "penetration / D", f"{inside:.2f} / {diameter:.2f}", inside / diameter, "D"
            )
            left = bite.leave_mm - tip
            yield Step(
                "behind", "far face - point", f"{bite.leave_mm:.2f} - {tip:.2f}", left, "mm", _GEOMETRY
            )
        elif bite.kind != "nut":
            yield from _engagement(bite, worked)
        else:
            pitch = worked.screw.pitch_mm
            past = tip - bite.leave_mm
            yield Step("past nut", "point - nut", f"{tip:.2f} - {bite.leave_mm:.2f}", past, "mm", _GEOMETRY)
            if pitch:
                yield Step(
                    "threads past", "past nut / p", f"{past:.2f} / {pitch:.3f}", past / pitch, "threads"
                )


def _engagement(bite: Bite, worked: Worked) -> Iterator[Step]:
    tip, begins = worked.tip_mm, worked.stack.starts_mm + (worked.plain_mm or 0.0)
    first, end = max(bite.enter_mm, begins), min(bite.leave_mm, tip)
    numbers = f"{end:.2f} - {first:.2f}"
    where = bite.member.part
    yield Step(f"engaged in {where}", "thread filled", numbers, bite.engaged_mm, "mm", _GEOMETRY)
    diameter = worked.screw.major_mm
    times = f"{bite.engaged_mm:.2f} / {diameter:.2f}"
    yield Step(f"engaged in {where} / D", "engaged / D", times, bite.engaged_mm / diameter, "D")


def _hole_steps(worked: Worked) -> Iterator[Step]:
    for hole in worked.holes:
        yield Step(f"hole in {hole.part}", hole.kind, hole.drill, hole.diameter_mm, "mm", hole.basis)
        if hole.countersink_depth_mm is not None:
            wide, angle = hole.countersink_diameter_mm, hole.countersink_angle_deg
            numbers = f"({wide:.2f} - {hole.diameter_mm:.2f}) / (2 tan({angle:g}/2))"
            formula = "(head - hole) / (2 tan(angle / 2))"
            name = f"countersink in {hole.part}"
            yield Step(name, formula, numbers, hole.countersink_depth_mm, "mm", _GEOMETRY)
        if hole.depth_mm is not None:
            numbers = f"{hole.depth_mm:.2f} + {hole.point_mm:.2f}"
            deep = hole.depth_mm + hole.point_mm
            yield Step(f"drilled in {hole.part}", "to the shoulder + point", numbers, deep, "mm", _GEOMETRY)


def _bearing_steps(worked: Worked) -> Iterator[Step]:
    joint, preload = worked.joint, worked.preload_n
    if preload is not None:
        numbers = f"{joint.torque_nm:g} / ({joint.nut_factor:g} x {worked.screw.major_mm / 1000:.6f})"
        source = "Machinery's Handbook (from memory); scatter about 30 %"
        yield Step("F", "T / (K d)", numbers, preload, "N", source)
    for pressure in worked.pressures:
        if pressure.area_mm2 is not None and pressure.mpa is not None and preload is not None:
            yield from _pressure_steps(pressure, preload)


def _pressure_steps(pressure: Pressure, preload: float) -> Iterator[Step]:
    area, mpa = pressure.area_mm2 or 0.0, pressure.mpa or 0.0
    numbers = f"pi/4 x ({pressure.outside_mm:.2f}^2 - {pressure.opening_mm:.2f}^2)"
    yield Step(f"area, {pressure.bearer}", "pi/4 (OD^2 - ID^2)", numbers, area, "mm2", _GEOMETRY)
    name = f"pressure on {pressure.member.part}"
    yield Step(name, "F / area", f"{preload:.0f} / {area:.0f}", mpa, "MPa")


def sources_of(worked: Worked, findings: tuple[Finding, ...]) -> tuple[str, ...]:
    """Every source that the result rests on, each once.

    Args:
        worked: the joint.
        findings: its findings.

    Returns:
        The sources.

    Source: this project.
    """
    screw = worked.screw
    own = [
        screw.wood.shank_basis if screw.wood else "",
        screw.wood.root_basis if screw.wood else "",
        screw.thread.source.says if screw.thread else "",
        screw.head_source,
    ]
    holes = [hole.basis for hole in worked.holes]
    rules = [finding.source for finding in findings]
    return tuple(dict.fromkeys(text for text in [*own, *holes, *rules] if text))
