"""The assembly list: each step with its parts and fasteners, what it closes off, and what no step fits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from decimal import Decimal

from calculators.hardware.designation import read_hardware, write_hardware
from calculators.planning.model import AssemblyStep, Build, Component, Joint
from calculators.planning.tree import joint_count, split_copy, total_quantity
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class FittedPart:
    """A part that a step fits: its mark or copy, its name, and how many."""

    mark: str
    name: str
    count: int

    def __str__(self) -> str:
        return f"{self.mark} {self.name}" + (f" ({self.count})" if self.count != 1 else "")


@dataclass(frozen=True, slots=True)
class FittedJoint:
    """A joint that a step fits: its mark, what it joins, its fastener in canonical writing, and how many."""

    mark: str
    title: str
    fastener: str
    count: int
    reached_from: str = ""
    tool: str = ""
    torque_nm: Decimal | None = None
    lock: str = ""
    steel_first: bool = False

    def __str__(self) -> str:
        return f"{self.mark} {self.count} x {self.fastener}"


@dataclass(frozen=True, slots=True)
class LastChance:
    """What a step closes off: afterwards it cannot be reached. `fitted_in` is the step that fits it."""

    mark: str
    name: str
    fitted_in: int | None

    def __str__(self) -> str:
        where = f", fitted in step {self.fitted_in}" if self.fitted_in is not None else ", fitted in no step"
        return f"{self.mark} {self.name}".rstrip() + where


@dataclass(frozen=True, slots=True)
class AssemblyLine:
    """One step with everything resolved; `unknown` are marks that the build does not have.

    `times` has a sentence for each time that its glue or finish keeps to.
    """

    number: int
    title: str
    parts: tuple[FittedPart, ...]
    joints: tuple[FittedJoint, ...]
    tools: tuple[str, ...]
    closes: tuple[LastChance, ...]
    caution: str = ""
    check: str = ""
    note: str = ""
    unknown: tuple[str, ...] = ()
    glued: tuple[str, ...] = ()
    times: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class AssemblyList:
    """All steps in their order, and the marks of components and joints that no step fits."""

    steps: tuple[AssemblyLine, ...]
    components_in_no_step: tuple[str, ...]
    joints_in_no_step: tuple[str, ...]


def assembly_list(build: Build) -> AssemblyList:
    """List the steps of assembly in the order of their numbers.

    A component counts as fitted when a step fits it, a sub-assembly that it is in, or all that is in it.

    Args:
        build: the build.

    Returns:
        The list.

    Raises:
        InputError: when the tree of components has a ring or a missing parent.

    Source: this project.

    Example:
        >>> build = Build("B1", "Stool", components=(Component("P1", "Seat"), Component("P2", "Leg")),
        ...               steps=(AssemblyStep(1, "Seat", fits=("P1",)),))
        >>> assembly_list(build).components_in_no_step
        ('P2',)
    """
    resolver = _Resolver(build)
    steps = sorted(build.steps, key=lambda step: step.number)
    return AssemblyList(
        tuple(resolver.line(step) for step in steps),
        _unfitted(build, resolver.fitted_in),
        tuple(joint.mark for joint in build.joints if joint.mark not in resolver.fitted_in),
    )


class _Resolver:
    """Turns marks into parts and joints with their counts."""

    def __init__(self, build: Build) -> None:
        self.build = build
        self.totals = total_quantity(build)
        self.components = {one.mark: one for one in build.components}
        self.joints = {one.mark: one for one in build.joints}
        self.fitted_in: dict[str, int] = {}
        for step in sorted(build.steps, key=lambda step: step.number):
            for mark in step.fits:
                self.fitted_in.setdefault(mark, step.number)
                self.fitted_in.setdefault(split_copy(mark)[0], step.number)

    def line(self, step: AssemblyStep) -> AssemblyLine:
        """Resolve one step."""
        parts: list[FittedPart] = []
        joints: list[FittedJoint] = []
        unknown: list[str] = []
        for mark in step.fits:
            if mark in self.joints:
                joints.append(self._joint(self.joints[mark]))
            elif (component := self.components.get(split_copy(mark)[0])) is not None:
                parts.append(self._part(mark, component))
            else:
                unknown.append(mark)
        tools = dict.fromkeys((*step.tools, *(joint.tool for joint in joints if joint.tool)))
        closes = tuple(self._closed(mark) for mark in step.closes)
        return AssemblyLine(
            step.number,
            step.title,
            tuple(parts),
            tuple(joints),
            tuple(tools),
            closes,
            step.caution,
            step.check,
            step.note,
            tuple(unknown),
            step.glued,
            tuple(_times(step)),
        )

    def _part(self, mark: str, component: Component) -> FittedPart:
        one_copy = split_copy(mark)[1] is not None
        return FittedPart(mark, component.name, 1 if one_copy else self.totals[component.mark])

    def _joint(self, joint: Joint) -> FittedJoint:
        return FittedJoint(
            joint.mark,
            joint.title,
            canonical_line(joint.fastener, self.build),
            joint_count(joint, self.totals),
            joint.reached_from,
            joint.tool,
            joint.torque_nm,
            joint.lock,
            joint.steel_first,
        )

    def _closed(self, mark: str) -> LastChance:
        found = self.joints.get(mark) or self.components.get(split_copy(mark)[0])
        name = found.title if isinstance(found, Joint) else (found.name if found is not None else "")
        return LastChance(mark, name, self.fitted_in.get(mark))


def _times(step: AssemblyStep) -> Iterator[str]:
    if step.open_minutes is not None:
        rehearsed = step.rehearsed_minutes
        took = f"; the rehearsal took {rehearsed:f} min" if rehearsed is not None else ""
        yield f"The glue stays open {step.open_minutes:f} min{took}."
    if step.cure_hours is not None:
        yield f"Leave it {step.cure_hours:f} h to cure."


def canonical_line(line: str, build: Build) -> str:
    """Write a line of hardware in its canonical form.

    Args:
        line: the line as it was written.
        build: the build, whose unit a bare number takes.

    Returns:
        The canonical form, or the line as it is where it cannot be read.

    Source: this project.
    """
    try:
        return write_hardware(read_hardware(line, unit=build.unit))
    except InputError:
        return line


def _unfitted(build: Build, fitted_in: dict[str, int]) -> tuple[str, ...]:
    """The components that neither a step fits, nor their sub-assembly, nor all that is in them.

    Each is looked at once downwards and once upwards, so that it stays linear in a deep tree.
    """
    children: dict[str, list[str]] = {}
    for one in build.components:
        children.setdefault(one.parent, []).append(one.mark)
    down: list[str] = []
    waiting = list(children.get("", ()))
    while waiting:
        mark = waiting.pop()
        down.append(mark)
        waiting.extend(children.get(mark, ()))
    covered = {mark for mark in down if mark in fitted_in}
    for mark in down:
        if mark in covered:
            covered.update(children.get(mark, ()))
    for mark in reversed(down):
        inside = children.get(mark)
        if inside and all(child in covered for child in inside):
            covered.add(mark)
    return tuple(one.mark for one in build.components if one.mark not in covered)
