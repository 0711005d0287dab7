"""What must hold of the kept calculations of a build: their ties name sizes that there can be."""

from __future__ import annotations

from collections.abc import Mapping

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.model import Build, Calculation, Component
from calculators.planning.ties import JOINT_SIZES, PART_SIZES, PATH, Tie, read_tie
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted


def check_calculations(build: Build, collector: Collector) -> None:
    """Check the ties of every kept calculation; faults go to the collector.

    Args:
        build: the build.
        collector: where faults go.

    Source: this project.
    """
    if not build.calculations:
        return
    parts = {one.mark: one for one in build.components}
    joints = {one.mark for one in build.joints}
    for i, one in enumerate(build.calculations):
        _check(one, f"calculations[{i}] ({one.mark})", parts, joints, collector)


def _check(
    one: Calculation, at: str, parts: Mapping[str, Component], joints: set[str], collector: Collector
) -> None:
    names = {name for name, _ in one.inputs}
    for name, text in one.ties:
        place = f"{at}.ties[{quoted(name)}]" if name.isprintable() else f"{at}.ties"
        path = PATH.fullmatch(name)
        if path is None:
            says = f"{quoted(name)} names no input; write wire, or springs[0].x for a member of a row."
            collector.fault(place, says)
            continue
        if path[1] not in names:
            collector.fault(place, f"{one.mark} ties {quoted(name)}, which is not among its inputs.")
            continue
        try:
            tie = read_tie(text)
        except InputError as error:
            collector.take(place, error)
            continue
        says = missing_size(tie, parts, joints)
        if says:
            collector.fault(place, f"{one.mark} is tied to {tie.written}: {says}")


def missing_size(tie: Tie, parts: Mapping[str, Component], joints: set[str]) -> str:
    """Say why there cannot be such a size.

    Args:
        tie: the size that is meant.
        parts: the components by mark.
        joints: the marks of the joints.

    Returns:
        The end of a sentence; nothing where there can be such a size.

    Source: this project.
    """
    if tie.mark in parts:
        if not tie.feature:
            known = ", ".join(PART_SIZES)
            return "" if tie.size in PART_SIZES else f"a part has no {tie.size}; it has {known}."
        held = parts[tie.mark].holes if tie.feature == "hole" else parts[tie.mark].pockets
        there = any(each.id == tie.id for each in held)
        return "" if there else f"{tie.mark} has no {tie.feature} {quoted(tie.id)}."
    if tie.mark in joints:
        if not tie.feature and tie.size in JOINT_SIZES:
            return ""
        return f"a joint has no such size; it has {', '.join(JOINT_SIZES)}."
    return f"there is no component or joint {quoted(tie.mark)}."
