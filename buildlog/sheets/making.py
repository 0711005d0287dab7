"""The sheets that can be printed: for each its name, its paper, and what stands on it."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from itertools import groupby
from typing import Any

from django.template.loader import render_to_string

from buildlog.builds.drawings import plan_of
from buildlog.builds.sections_drawn import sections_on_paper
from buildlog.builds.stacks_drawn import fitted_stacks
from buildlog.sheets.moves_sheet import OPTIONS as MOVES_OPTIONS
from buildlog.sheets.moves_sheet import moves_content
from buildlog.sheets.papers import PAPERS, Paper
from buildlog.sheets.parts_drawn import part_content
from buildlog.sheets.printing import print_pdf
from buildlog.sheets.stamping import stamp_of
from buildlog.sheets.true_size import OPTIONS as TEMPLATE_OPTIONS
from buildlog.sheets.true_size import template_content
from calculators.drawing.face_plan import Plan
from calculators.planning.model import Component
from calculators.planning.schedules import (
    assembly_list,
    buying_list,
    cut_list,
    fastener_schedule,
    hole_schedule,
)
from calculators.planning.schedules.holes import HoleLine
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Asked:
    """What is asked of a sheet: of which component (nothing: the whole build), on which paper, what else.

    `options` has what a kind takes besides, by the names in `Kind.options`.
    """

    component: str = ""
    paper: Paper = "a4"
    options: Mapping[str, str] = field(default_factory=dict)


@dataclass(frozen=True, slots=True)
class Kind:
    """One kind of sheet: its title, whether it lies on its side, and what it shows of a build.

    `options` are the names of what can be asked of it besides; they stand in addresses as they do here.
    """

    title: str
    landscape: bool
    content: Callable[[WorkedBuild, Asked], dict[str, Any]]
    options: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class FacePage:
    """One face of a part with its holes and its plan; no plan where nothing is known of its size."""

    part: Component
    face: str
    holes: tuple[HoleLine, ...]
    plan: Plan | None


def make_sheet(
    kind: str,
    worked: WorkedBuild,
    *,
    paper: Paper = "a4",
    component: str = "",
    options: Mapping[str, str] | None = None,
    address: str = "",
) -> bytes:
    """Print one kind of sheet of a build, or of one component of it, as PDF.

    `address` is where its square code leads; without one it has the printed code alone. Raises InputError
    for a kind, a paper, a component or an option that there is not.
    """
    return print_pdf(
        sheet_html(kind, worked, paper=paper, component=component, options=options, address=address)
    )


def sheet_html(
    kind: str,
    worked: WorkedBuild,
    *,
    paper: Paper = "a4",
    component: str = "",
    options: Mapping[str, str] | None = None,
    address: str = "",
) -> str:
    """Write a sheet as the HTML that is printed; the arguments are those of `make_sheet`."""
    if kind not in KINDS:
        names = ", ".join(KINDS)
        raise InputError.of(f"There is no sheet “{kind[:40]}”; the sheets are {names}.", choices=tuple(KINDS))
    if paper not in PAPERS:
        raise InputError.of(f"There is no paper “{paper[:40]}”; the papers are a4 and letter.")
    marks = [one.mark for one in worked.build.components]
    if component and component not in marks:
        shown = ", ".join(marks[:12]) + (" ..." if len(marks) > 12 else "")
        raise InputError.of(
            f"There is no component “{component[:40]}” in {worked.build.number}; its components are {shown}."
        )
    sheet = KINDS[kind]
    asked = Asked(component, paper, {name: said for name, said in (options or {}).items() if said})
    if foreign := sorted(set(asked.options) - set(sheet.options)):
        raise InputError.of(f"The {sheet.title.lower()} has nothing to choose that is called {foreign[0]!r}.")
    errors = [finding for finding in worked.findings if finding.severity == "error"]
    context = {
        "build": worked.build,
        "kind": kind,
        "title": sheet.title,
        "paper": PAPERS[paper],
        "orientation": "landscape" if sheet.landscape else "portrait",
        "component": component,
        "errors": errors,
        "revisions": _revisions(worked, component),
        "stamp": stamp_of(worked, kind, component, asked.options, address),
        **sheet.content(worked, asked),
    }
    return render_to_string(f"sheets/{kind}.html", context)


def _revisions(worked: WorkedBuild, component: str) -> list[Component]:
    """The components that a sheet speaks of and that have a revision, letter by letter."""
    shown = [one for one in worked.build.components if one.revision and component in ("", one.mark)]
    return sorted(shown, key=lambda one: one.revision)


def _check(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    """What the check finds, in its order, and what people let stand, of one part or of all."""
    component = asked.component
    found = [one for one in worked.findings if component in ("", one.part)]
    groups = [(severity, list(each)) for severity, each in groupby(found, key=lambda one: one.severity)]
    accepted = [pair for pair in worked.accepted if component in ("", pair[0].part)]
    return {"groups": groups, "accepted": accepted, "count": len(found)}


def _fasteners(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    component = asked.component
    joints = [
        one
        for one in worked.joints
        if not component or any(item.layer and item.layer.part == component for item in one.inputs.stack)
    ]
    some = WorkedBuild(worked.build, tuple(joints), worked.holes, worked.findings)
    return {"schedule": fastener_schedule(worked.build, some), "joints": joints}


def _cut(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    lines = [line for line in cut_list(worked.build) if asked.component in ("", line.mark)]
    groups = (
        ("Wood", "planed", [line for line in lines if line.grain]),
        ("Sheet and plate", "edges", [line for line in lines if not line.grain and not line.diameter]),
        ("Bar, tube and turned", "faced", [line for line in lines if not line.grain and line.diameter]),
    )
    bases = {line.rough_basis: None for line in lines if line.rough_basis}
    return {"groups": [group for group in groups if group[2]], "bases": list(bases)}


def _shopping(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    component = asked.component
    lines = [line for line in buying_list(worked.build, worked) if not component or component in line.used]
    groups = (
        ("Screws, bolts, nuts and washers", [line for line in lines if line.kind not in ("part", "stock")]),
        ("Bought parts", [line for line in lines if line.kind == "part"]),
        ("Material", [line for line in lines if line.kind == "stock"]),
    )
    twins = [line for line in lines if line.kind == "steel twin"]
    return {"groups": [group for group in groups if group[1]], "lines": lines, "twins": twins}


def _assembly(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    assembly = assembly_list(worked.build)
    joints = {joint.mark: joint for joint in worked.build.joints}
    steps = [(step, fitted_stacks(worked, [joint.mark for joint in step.joints])) for step in assembly.steps]
    return {"assembly": assembly, "joints": joints, "steps": steps}


def _drilling(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    lines = [line for line in hole_schedule(worked.build, worked) if asked.component in ("", line.part)]
    placed = [line for line in lines if line.u_mm is not None]
    components = {one.mark: one for one in worked.build.components}
    pages = [
        _face_page(components[part], face, tuple(holes))
        for (part, face), holes in groupby(placed, key=lambda line: (line.part, line.face))
    ]
    return {"pages": pages, "unplaced": [line for line in lines if line.u_mm is None]}


def _face_page(part: Component, face: str, holes: tuple[HoleLine, ...]) -> FacePage:
    return FacePage(part, face, holes, plan_of(part, face, holes))


def _template(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    return template_content(worked, asked.component, asked.paper, asked.options)


def _sections(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    drawn = list(sections_on_paper(worked, asked.component))
    known = {one.joint.mark for one in worked.joints}
    unread = [] if asked.component else [one.mark for one in worked.build.joints if one.mark not in known]
    pairs = [drawn[at : at + 2] for at in range(0, len(drawn), 2)]
    return {"pairs": pairs, "count": len(drawn), "unread": unread}


def _part(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    return part_content(worked, asked.component, asked.paper)


def _moves(worked: WorkedBuild, asked: Asked) -> dict[str, Any]:
    return moves_content(worked, asked.component, asked.options)


KINDS = {
    "fasteners": Kind("Fastener schedule", True, _fasteners),
    "drilling": Kind("Drilling sheet", False, _drilling),
    "cut": Kind("Cut sheet", True, _cut),
    "shopping": Kind("Shopping list", False, _shopping),
    "assembly": Kind("Assembly sheet", False, _assembly),
    "check": Kind("Check sheet", False, _check),
    "part": Kind("Part drawing", True, _part),
    "sections": Kind("Joint sections", False, _sections),
    "moves": Kind("Drilling moves", False, _moves, MOVES_OPTIONS),
    "template": Kind("True-size template", False, _template, TEMPLATE_OPTIONS),
}
"""The sheets by the names that `manage.py sheet` takes."""
