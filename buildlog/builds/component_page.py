"""What the page of one component shows: its faces with their holes, its lines, its joints, its findings."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from django.core.paginator import Page, Paginator
from django.http import Http404, QueryDict

from buildlog.builds.drawings import holes_of
from buildlog.builds.features import FeatureLine, feature_lines
from buildlog.builds.handles import handles_of, step_unit
from buildlog.builds.listing import ROWS
from buildlog.builds.part_rows import groups_of
from buildlog.builds.red_places import MOST_DRAWN, Red, draw_red, lies_in, red_on
from buildlog.builds.release_rows import release_rows
from buildlog.builds.showing import FIRST_FINDINGS, show_findings
from calculators.drawing.face_plan import Plan, PlanHandle
from calculators.joints.model import Finding
from calculators.planning.drawn.motion_picture import motion_picture
from calculators.planning.model import Build, Calculation, Component, Joint
from calculators.planning.schedules.holes import FACE_ORDER, HoleLine
from calculators.planning.ties import mark_of_tie, read_tie
from calculators.planning.tree import split_copy, total_quantity
from calculators.planning.worked import WorkedBuild


@dataclass(frozen=True, slots=True)
class HoleRow:
    """One hole in the table of a face; `own` is its line where it was placed by hand."""

    hole: HoleLine
    own: FeatureLine | None


@dataclass(frozen=True, slots=True)
class FaceHoles:
    """One face: its plan for a broad and a narrow page, and the holes of this page of the table."""

    face: str
    rows: tuple[HoleRow, ...]
    count: int
    broad: Plan | None
    narrow: Plan | None
    red: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class TouchingJoint:
    """A joint that goes through or into the component, with the holes that it makes there."""

    joint: Joint
    holes: int


@dataclass(frozen=True, slots=True)
class TiedCalculation:
    """A kept calculation that hangs on sizes of a part, and the worst that the check says of it."""

    calculation: Calculation
    sizes: tuple[str, ...]
    worst: Finding | None


def component_of(build: Build, mark: str) -> Component:
    """The component with this mark; Http404 where there is none."""
    one = next((each for each in build.components if each.mark == mark), None)
    if one is None:
        raise Http404(f"no part {mark}")
    return one


def component_context(worked: WorkedBuild, mark: str, asked: QueryDict) -> dict[str, Any]:
    """All that the page shows besides its forms."""
    build = worked.build
    one = component_of(build, mark)
    holes = holes_of(worked, mark)
    own = {line.key: line for line in feature_lines(build, one, "hole")}
    page = _page(holes, asked, "holes", {hole.place: at for at, hole in enumerate(holes) if not hole.joint})
    poses = feature_lines(build, one, "pose")
    findings = [each for each in worked.findings if split_copy(each.part)[0] == mark]
    shown = show_findings(worked, findings[:FIRST_FINDINGS])
    to_enter = ("left", "right", "side") if one.size.shape == "round" else FACE_ORDER[:-1]
    return {
        "component": one,
        "total": total_quantity(build)[mark],
        "members": [each for each in build.components if each.parent == mark],
        "groups": groups_of(build),
        "face": asked.get("face", "") if asked.get("face", "") in FACE_ORDER else "",
        "faces": _faces(
            one,
            holes,
            page,
            own,
            [one for one in worked.findings if lies_in(one, mark)],
            handles_of(build, mark, holes),
            asked.get("face", "") if asked.get("face", "") in to_enter else "",
        ),
        "step_unit": step_unit(build),
        "faces_to_enter": to_enter,
        "holes_page": page,
        "pockets": feature_lines(build, one, "pocket"),
        "poses_page": _page(poses, asked, "poses", {line.key: at for at, line in enumerate(poses)}),
        "joints": joints_at(worked, one, holes),
        "tied": tied_to(worked, mark),
        "releases": release_rows(worked, one),
        "findings": [each for each in shown if each.finding.severity != "note"],
        "notes": [each for each in shown if each.finding.severity == "note"],
        "left_out": max(0, len(findings) - FIRST_FINDINGS),
        "let_stand": sum(split_copy(each.part)[0] == mark for each, _ in worked.accepted),
        "motion": [motion_picture(worked, mark, narrow=each) for each in (False, True)] if one.motion else [],
    }


def _page(rows: Sequence[Any], asked: QueryDict, name: str, at: dict[str, int]) -> Page[Any]:
    """The page of a list that is asked for, or the one with what is changed; `at` says where that is."""
    number = asked.get("page") if asked.get("list") == name else "1"
    key = asked.get(name.removesuffix("s"), "")
    return Paginator(rows, ROWS).get_page(at[key] // ROWS + 1 if key in at else number)


def _faces(
    one: Component,
    holes: tuple[HoleLine, ...],
    page: Page[HoleLine],
    own: dict[str, FeatureLine],
    findings: Sequence[Finding],
    handles: Mapping[int, PlanHandle],
    asked: str,
) -> list[FaceHoles]:
    """The faces with holes on this page, with pockets, with something wrong, and the one that is asked for.

    What is not placed comes last.
    """
    every = {face: tuple(found) for face, found in groupby(holes, key=lambda hole: hole.face)}
    shown = {face: tuple(found) for face, found in groupby(page.object_list, key=lambda hole: hole.face)}
    pocketed = {pocket.face for pocket in one.pockets} if page.number == 1 else set()
    spots = (spot for each in findings for spot in each.spots if split_copy(spot.part)[0] == one.mark)
    wrong = {str(spot.face) for spot in spots} if page.number == 1 else set()
    faces = [
        face
        for face in (*FACE_ORDER, "")
        if face in shown or face in pocketed or face in wrong or face == asked != ""
    ]
    return [
        _face(
            one,
            face,
            every.get(face, ()),
            shown.get(face, ()),
            own,
            red_on(findings, one.mark, face),
            handles,
        )
        for face in faces
    ]


def _face(
    one: Component,
    face: str,
    every: tuple[HoleLine, ...],
    shown: tuple[HoleLine, ...],
    own: dict[str, FeatureLine],
    red: Red,
    handles: Mapping[int, PlanHandle],
) -> FaceHoles:
    rows = tuple(HoleRow(hole, None if hole.joint else own.get(hole.place)) for hole in shown)
    if len(every) > MOST_DRAWN:
        return FaceHoles(face, rows, len(every), None, None)
    drawn = draw_red(one, face, every, red, handles) if face else None
    if drawn is None:
        return FaceHoles(face, rows, len(every), None, None)
    return FaceHoles(face, rows, len(every), drawn.broad, drawn.narrow, red.says)


def tied_to(worked: WorkedBuild, mark: str) -> list[TiedCalculation]:
    """The kept calculations with an input that is tied to a size of a part or joint."""
    found = []
    for one in worked.build.calculations:
        sizes = [read_tie(tie).written for _, tie in one.ties if mark_of_tie(tie) == mark]
        if sizes:
            about = (each for each in worked.findings if each.part == one.mark and not each.joint)
            found.append(TiedCalculation(one, tuple(dict.fromkeys(sizes)), next(about, None)))
    return found


def joints_at(worked: WorkedBuild, one: Component, holes: tuple[HoleLine, ...]) -> list[TouchingJoint]:
    """The joints that are at home on a component, name it in their stack, or meet it on their way."""
    met = {
        each.joint.mark
        for each in worked.joints
        if any(item.layer and split_copy(item.layer.part)[0] == one.mark for item in each.inputs.stack)
    }
    counts: dict[str, int] = {}
    for hole in holes:
        counts[hole.joint] = counts.get(hole.joint, 0) + 1
    return [
        TouchingJoint(joint, counts.get(joint.mark, 0))
        for joint in worked.build.joints
        if joint.mark in met
        or split_copy(joint.home)[0] == one.mark
        or any(member.part == one.mark for member in joint.stack)
    ]
