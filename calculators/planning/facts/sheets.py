"""The facts of each kind of sheet, in one list: a kind that is not here cannot be said to be out of date.

What the check finds is a fact of the check sheet alone. Others print it as a warning; what is made by them
is as they say, whatever is found or let stand.
"""

from __future__ import annotations

from collections.abc import Callable, Iterable, Mapping
from functools import cached_property
from itertools import groupby

from calculators.planning.facts.fact import Fact
from calculators.planning.facts.lists import (
    assembly_facts,
    buying_facts,
    check_facts,
    cutting_facts,
    fastener_facts,
    joint_facts,
)
from calculators.planning.facts.parts import body_facts, cut_facts, hole_facts, told
from calculators.planning.model import Component
from calculators.planning.schedules import (
    assembly_list,
    buying_list,
    cut_list,
    fastener_schedule,
    hole_schedule,
)
from calculators.planning.schedules.cutting import parts_to_cut
from calculators.planning.schedules.holes import HoleLine
from calculators.planning.tree import split_copy
from calculators.planning.worked import WorkedBuild, WorkedJoint
from calculators.quantities.errors import InputError


class SheetFacts:
    """The facts of every sheet of one build worked out; each schedule is made once for all of them."""

    def __init__(self, worked: WorkedBuild) -> None:
        self.worked = worked
        self._known: dict[tuple[str, str, tuple[tuple[str, str], ...]], tuple[Fact, ...]] = {}

    @cached_property
    def components(self) -> dict[str, Component]:
        """The components by their marks."""
        return {one.mark: one for one in self.worked.build.components}

    @cached_property
    def holes(self) -> dict[str, list[HoleLine]]:
        """The holes of each part that has any, in the order of the schedule."""
        lines = hole_schedule(self.worked.build, self.worked)
        return {part: list(holes) for part, holes in groupby(lines, key=lambda line: line.part)}

    @cached_property
    def made(self) -> tuple[str, ...]:
        """The marks of the parts that are made here."""
        return tuple(one.mark for one in parts_to_cut(self.worked.build))

    def joints(self, component: str) -> list[WorkedJoint]:
        """The joints that go through or into a component, or all.

        Args:
            component: the component's mark; nothing: all joints.

        Returns:
            The joints worked out, in their order.

        Source: this project.
        """
        return [
            one
            for one in self.worked.joints
            if not component
            or any(item.layer and split_copy(item.layer.part)[0] == component for item in one.inputs.stack)
        ]

    def of(
        self, kind: str, component: str = "", options: Mapping[str, str] | None = None
    ) -> tuple[Fact, ...]:
        """Say all that a sheet says that matters at the bench.

        Args:
            kind: the kind of sheet.
            component: the mark of the component that it is of; nothing: the whole build.
            options: what else was chosen, by name.

        Returns:
            The facts, in the order of the sheet.

        Raises:
            InputError: for a kind that there is not.

        Source: this project.
        """
        if kind not in FACTS:
            raise InputError.of(f"There is no sheet “{kind[:40]}”.", choices=tuple(FACTS))
        chosen = tuple(sorted((options or {}).items()))
        known = self._known.get((kind, component, chosen))
        if known is None:
            build = self.worked.build
            header = told("", [("revision of the build", build.revision)])
            known = (*header, *FACTS[kind](self, component, dict(chosen)))
            self._known[kind, component, chosen] = known
        return known


def sheet_facts(
    kind: str, worked: WorkedBuild, component: str = "", options: Mapping[str, str] | None = None
) -> tuple[Fact, ...]:
    """Say all that a sheet of a build says that matters at the bench.

    Args:
        kind: the kind of sheet, one of `FACTS`.
        worked: the build worked out.
        component: the mark of the component that it is of; nothing: the whole build.
        options: what else was chosen, by name, such as a face.

    Returns:
        The facts, in the order of the sheet; the same for equal builds.

    Raises:
        InputError: for a kind that there is not, or a tree of components that has a ring.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Build
        >>> build = Build("B1", "Stool", revision="A")
        >>> sheet_facts("cut", WorkedBuild(build))
        (Fact(part='', what='revision of the build', value='A', of='', key='', via=''),)
    """
    return SheetFacts(worked).of(kind, component, options)


Wanted = Mapping[str, str]


def _drilling(facts: SheetFacts, component: str, _: Wanted) -> Iterable[Fact]:
    for mark, holes in facts.holes.items():
        if component in ("", mark):
            yield from body_facts(facts.components[mark])
            yield from hole_facts(holes)
            yield from cut_facts(facts.components[mark])


def _cut(facts: SheetFacts, component: str, _: Wanted) -> Iterable[Fact]:
    return cutting_facts(line for line in cut_list(facts.worked.build) if component in ("", line.mark))


def _shopping(facts: SheetFacts, component: str, _: Wanted) -> Iterable[Fact]:
    lines = buying_list(facts.worked.build, facts.worked)
    return buying_facts(line for line in lines if not component or component in line.used)


def _fasteners(facts: SheetFacts, component: str, _: Wanted) -> Iterable[Fact]:
    worked, joints = facts.worked, facts.joints(component)
    some = WorkedBuild(worked.build, tuple(joints), worked.holes, worked.findings)
    return [*fastener_facts(fastener_schedule(worked.build, some)), *joint_facts(worked, joints)]


def _assembly(facts: SheetFacts, _component: str, _: Wanted) -> Iterable[Fact]:
    assembly = assembly_list(facts.worked.build)
    yield from assembly_facts(assembly)
    fitted = {joint.mark for step in assembly.steps for joint in step.joints}
    drawn = [one for one in facts.worked.joints if one.joint.mark in fitted and _is_stacked(one)]
    yield from (fact for fact in joint_facts(facts.worked, drawn) if fact.what == "from the head")


def _is_stacked(one: WorkedJoint) -> bool:
    """Whether the order of what is on a fastener is drawn beside its step."""
    layers = sum(item.layer is not None for item in one.inputs.stack)
    return bool(one.riders) or layers < len(one.inputs.stack) or layers > 2


def _check(facts: SheetFacts, component: str, _: Wanted) -> Iterable[Fact]:
    return check_facts(facts.worked, component)


def _part(facts: SheetFacts, component: str, _: Wanted) -> Iterable[Fact]:
    yield from told("", [("projection", f"{facts.worked.build.context.projection} angle")])
    for mark in (component,) if component else facts.made:
        if mark in facts.components:
            yield from body_facts(facts.components[mark])
            yield from hole_facts(facts.holes.get(mark, ()))
            yield from cut_facts(facts.components[mark])


def _template(facts: SheetFacts, component: str, wanted: Wanted) -> Iterable[Fact]:
    face = wanted.get("face", "")
    for mark in (component,) if component else facts.made:
        if mark in facts.components:
            part, holes = facts.components[mark], facts.holes.get(mark, ())
            yield from body_facts(part)
            yield from hole_facts((one for one in holes if face in ("", one.face)), drilled=False)
            yield from cut_facts(part, face)


def _moves(facts: SheetFacts, component: str, wanted: Wanted) -> Iterable[Fact]:
    """The set-up that was chosen is no fact: what is chosen otherwise is another sheet."""
    face = wanted.get("face", "")
    for mark in (component,) if component else facts.made:
        if mark in facts.components:
            yield from body_facts(facts.components[mark])
            yield from hole_facts(one for one in facts.holes.get(mark, ()) if face in ("", one.face))
            yield from cut_facts(facts.components[mark], face)


def _sections(facts: SheetFacts, component: str, _: Wanted) -> Iterable[Fact]:
    return joint_facts(facts.worked, facts.joints(component), with_holes=True)


FACTS: dict[str, Callable[[SheetFacts, str, Wanted], Iterable[Fact]]] = {
    "fasteners": _fasteners,
    "drilling": _drilling,
    "cut": _cut,
    "shopping": _shopping,
    "assembly": _assembly,
    "check": _check,
    "part": _part,
    "template": _template,
    "moves": _moves,
    "sections": _sections,
}
"""For each kind of sheet the facts that it shows: what is asked is a component, and choices by name."""
