"""The order of assembly as its page shows it: each step with its findings, and where it can be moved."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import QueryDict

from buildlog.builds.actions import fingerprint
from buildlog.builds.listing import ROWS, Listing, listing
from buildlog.builds.queries import remembered
from buildlog.builds.showing import ShownFinding, show_findings
from calculators.joints.model import Finding
from calculators.planning.documents import Name
from calculators.planning.model import AssemblyStep, Build
from calculators.planning.order import RULE
from calculators.planning.schedules import assembly_list
from calculators.planning.schedules.assembly import AssemblyLine, AssemblyList
from calculators.planning.worked import WorkedBuild


@dataclass(frozen=True, slots=True)
class OrderRow:
    """A step in the order, with its fingerprint and what the check says of it.

    Moving it up puts it before the step `before`, moving it down before the step `after` ('' is the end);
    `following` is the step after it.
    """

    line: AssemblyLine
    step: AssemblyStep
    seen: str
    findings: list[ShownFinding]
    is_first: bool
    is_last: bool
    before: str
    after: str
    following: str


@dataclass(frozen=True, slots=True)
class Order:
    """All that the page shows."""

    found: Listing[tuple[int, AssemblyLine]]
    rows: list[OrderRow]
    assembly: AssemblyList
    late: int


def order_of(worked: WorkedBuild, asked: QueryDict, at: int | None = None) -> Order:
    """Gather the page: the steps that are asked for (those about step `at`), each with its findings."""
    build = worked.build
    assembly = remembered(worked, "assembly", lambda: assembly_list(build))
    place = next((i for i, line in enumerate(assembly.steps) if line.number == at), None)
    if place is not None and "find" not in asked:
        asked = asked.copy()
        asked["page"] = str(place // ROWS + 1)
    late = [finding for finding in worked.findings if finding.rule == RULE]
    found = listing(
        asked,
        [(index, line) for index, line in enumerate(assembly.steps)],
        words=lambda row: _words(row[1]),
        orders={},
    )
    steps = {step.number: step for step in build.steps}
    by_step = _by_step(build, late)
    rows = [_row(worked, assembly, index, steps[line.number], by_step) for index, line in found.page]
    return Order(found, rows, assembly, len(late))


def _words(line: AssemblyLine) -> list[object]:
    return [line.number, line.title, *line.parts, *line.joints, *line.closes, *line.tools, line.caution]


def _by_step(build: Build, late: list[Finding]) -> dict[int, list[Finding]]:
    """The findings of each step that fits something after it was closed."""
    fitted: dict[str, list[int]] = {}
    for step in build.steps:
        for mark in step.fits:
            fitted.setdefault(mark, []).append(step.number)
    found: dict[int, list[Finding]] = {}
    for finding in late:
        for number in fitted.get(finding.joint or finding.part, ()):
            if finding.limit is not None and number > finding.limit:
                found.setdefault(number, []).append(finding)
    return found


def _row(
    worked: WorkedBuild,
    assembly: AssemblyList,
    index: int,
    step: AssemblyStep,
    late: dict[int, list[Finding]],
) -> OrderRow:
    def number_at(place: int) -> str:
        return str(assembly.steps[place].number) if 0 <= place < len(assembly.steps) else ""

    return OrderRow(
        assembly.steps[index],
        step,
        fingerprint("step", step),
        show_findings(worked, late.get(step.number, ())),
        index == 0,
        index == len(assembly.steps) - 1,
        number_at(index - 1),
        number_at(index + 2),
        number_at(index + 1),
    )


def name_of(step: int) -> Name:
    """The name of a step's record."""
    return ("step", str(step))
