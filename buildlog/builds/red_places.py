"""The places of findings in red on the faces of their parts."""

from __future__ import annotations

import math
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from buildlog.builds.drawings import holes_of, plan_of, unrolled
from buildlog.builds.showing import measure_of, rule_words
from calculators.drawing.face_plan import Plan, PlanHandle
from calculators.drawing.plan_marks import PlanMark
from calculators.joints.model import Finding
from calculators.planning.edits import finding_key
from calculators.planning.model import Component
from calculators.planning.schedules.holes import HoleLine
from calculators.planning.tree import split_copy
from calculators.planning.worked import WorkedBuild

MOST_FACES = 6
"""The most faces that are drawn for one finding."""

MOST_WORDS = 12
"""The most marks of one face that have words of their own beside them."""

MOST_MARKS = 200
MOST_DRAWN = 400
"""A face with more holes than this is drawn on the drilling sheet alone; with something wrong, in part."""

_BROAD, _NARROW = (170.0, 90.0), (86.0, 110.0)


@dataclass(frozen=True, slots=True)
class RedFace:
    """A face of a part with what is wrong on it, drawn for a broad and for a narrow page."""

    part: Component
    face: str
    broad: Plan
    narrow: Plan
    says: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Red:
    """What is to be drawn in red on one face: the marks, and the sentences that go with them."""

    marks: tuple[PlanMark, ...] = ()
    says: tuple[str, ...] = ()


def found_with(worked: WorkedBuild, key: str) -> list[Finding]:
    """The findings with a key, those too that are let stand; they may share it."""
    every = (*worked.findings, *(finding for finding, _ in worked.accepted))
    return [one for one in every if finding_key(one) == key]


def lies_in(finding: Finding, mark: str) -> bool:
    """Whether a finding has a place on a face of a part."""
    return any(split_copy(spot.part)[0] == mark for spot in finding.spots)


def red_faces(worked: WorkedBuild, findings: Sequence[Finding]) -> list[RedFace]:
    """The faces that a finding, or several with one key, has places on, each drawn with them in red."""
    parts = {one.mark: one for one in worked.build.components}
    wanted = dict.fromkeys((split_copy(spot.part)[0], spot.face) for one in findings for spot in one.spots)
    found = []
    for mark, face in list(wanted)[:MOST_FACES]:
        if mark not in parts:
            continue
        holes = tuple(hole for hole in holes_of(worked, mark) if hole.face == face)
        drawn = draw_red(parts[mark], face, holes, red_on(findings, mark, face))
        if drawn is not None:
            found.append(drawn)
    return found


def draw_red(
    part: Component,
    face: str,
    holes: tuple[HoleLine, ...],
    red: Red,
    handles: Mapping[int, PlanHandle] | None = None,
) -> RedFace | None:
    """One face with its marks; of very many holes those near them; None where it cannot be drawn.

    With `handles` its holes can be picked and moved.
    """
    holes = _near(holes, red.marks)
    plans = []
    for width, height in (_BROAD, _NARROW):
        if face == "side":
            plan = unrolled(
                part, holes, width_mm=width, height_mm=height, marks=red.marks, says=" ".join(red.says),
                handles=handles,
            )  # fmt: skip
        else:
            plan = plan_of(
                part, face, holes, width_mm=width, height_mm=height, marks=red.marks, says=" ".join(red.says),
                handles=handles,
            )  # fmt: skip
        if plan is None:
            return None
        plans.append(plan)
    return RedFace(part, face, plans[0], plans[1], red.says)


def _near(holes: tuple[HoleLine, ...], marks: Sequence[PlanMark]) -> tuple[HoleLine, ...]:
    if len(holes) <= MOST_DRAWN or not marks:
        return holes[:MOST_DRAWN]
    u, v = marks[0].u_mm, marks[0].v_mm
    nearest = sorted(holes, key=lambda one: math.hypot((one.u_mm or 0.0) - u, (one.v_mm or 0.0) - v))
    return tuple(nearest[:MOST_DRAWN])


def red_on(findings: Iterable[Finding], mark: str, face: str) -> Red:
    """What findings have to show on one face of a part."""
    marks: list[PlanMark] = []
    says: list[str] = []
    told: set[str] = set()
    for one in findings:
        spots = [spot for spot in one.spots if split_copy(spot.part)[0] == mark and spot.face == face]
        if not spots:
            continue
        says.append(f"In red: {one.says}")
        for index, spot in enumerate(spots):
            words = _words(one)
            is_told = index == 0 and words not in told and len(told) < MOST_WORDS
            to = (spot.to_u_mm, spot.to_v_mm)
            marks.append(
                PlanMark(
                    spot.u_mm,
                    spot.v_mm,
                    spot.radius_mm,
                    words if is_told else "",
                    (to[0], to[1]) if to[0] is not None and to[1] is not None else None,
                )
            )
            if is_told:
                told.add(words)
        if len(marks) >= MOST_MARKS:
            break
    return Red(tuple(marks), tuple(says))


def _words(finding: Finding) -> str:
    """A few words for beside the place: the rule, and its number."""
    number = measure_of(finding).split(",")[0]
    unit = (
        f" {finding.unit}"
        if number and finding.unit not in ("", "1") and not number.endswith(finding.unit)
        else ""
    )
    return f"{rule_words(finding)} {number}{unit}".strip()
