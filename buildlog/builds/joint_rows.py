"""The joints of a build as rows of a table, and the places of one joint in every part."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.joints.model import Finding
from calculators.planning.inspection import SEVERITIES
from calculators.planning.model import Joint
from calculators.planning.tree import split_copy
from calculators.planning.worked import WorkedBuild, WorkedJoint
from calculators.quantities import Length


@dataclass(frozen=True, slots=True)
class JointRow:
    """One joint: its places by their layers, how many there are, and the worst that the check says of it."""

    joint: Joint
    worked: tuple[WorkedJoint, ...]
    count: int | None
    worst: Finding | None
    findings: int

    @property
    def rank(self) -> int:
        """Where it stands when the worst come first."""
        return SEVERITIES.index(self.worst.severity) if self.worst else len(SEVERITIES)

    @property
    def rule_words(self) -> str:
        """The rule of the worst finding in words."""
        return self.worst.rule.replace("-", " ") if self.worst else ""

    def words(self) -> list[str]:
        """What is searched."""
        stack = [member.part or member.item for member in self.joint.stack]
        parts = [item.layer.part for one in self.worked for item in one.inputs.stack if item.layer]
        worst = [self.worst.severity, self.worst.rule] if self.worst else []
        return [
            self.joint.mark,
            self.joint.title,
            self.joint.fastener,
            self.joint.home,
            *stack,
            *parts,
            *worst,
        ]


def joint_rows(worked: WorkedBuild) -> list[JointRow]:
    """Every joint of a build, those too that cannot be worked out."""
    groups: dict[str, list[WorkedJoint]] = {}
    for one in worked.joints:
        groups.setdefault(one.joint.mark, []).append(one)
    findings: dict[str, list[Finding]] = {}
    for finding in worked.findings:  # the worst comes first
        findings.setdefault(finding.joint, []).append(finding)
    return [
        _row(joint, groups.get(joint.mark, []), findings.get(joint.mark, [])) for joint in worked.build.joints
    ]


def _row(joint: Joint, groups: list[WorkedJoint], findings: list[Finding]) -> JointRow:
    count = sum(one.count for one in groups) if groups else None
    return JointRow(joint, tuple(groups), count, findings[0] if findings else None, len(findings))


def mark_order(mark: str) -> tuple[tuple[int, int, str], ...]:
    """Marks in the order of their numbers: F2 before F10."""
    return tuple(
        (1, int(piece), "") if piece.isdecimal() else (0, 0, piece)
        for piece in re.findall(r"[0-9]{1,18}|[^0-9]+", mark)
    )


ORDERS = {
    "mark": lambda row: mark_order(row.joint.mark),
    "title": lambda row: row.joint.title.casefold(),
    "fastener": lambda row: row.joint.fastener.casefold(),
    "count": lambda row: row.count,
    "worst": lambda row: row.rank,
}
"""The columns that the table can be ordered by."""


@dataclass(frozen=True, slots=True)
class PlaceRow:
    """One place in one part: as it was written in the home's datum, worked out in any other part's."""

    place: str
    part: str
    copies: tuple[str, ...]
    face: str
    u: Length | float | None
    v: Length | float | None
    angle_deg: object
    is_home: bool
    says: str = ""


def place_rows(worked: WorkedBuild, joint: Joint) -> list[PlaceRow]:
    """The places of a joint, place by place: in its home, then in every other part that it goes through."""
    home = split_copy(joint.home)[0]
    others: dict[str, list[PlaceRow]] = {}
    for row in _followers(worked, joint, home):
        others.setdefault(row.place, []).append(row)
    rows: list[PlaceRow] = []
    for place in joint.places:
        rows.append(
            PlaceRow(place.id, joint.home, (), joint.face, place.u, place.v, place.angle_deg, is_home=True)
        )
        rows += others.pop(place.id, [])
    return rows + [row for left in others.values() for row in left]


def _followers(worked: WorkedBuild, joint: Joint, home: str) -> Iterator[PlaceRow]:
    for hole in worked.holes:
        if hole.joint != joint.mark or hole.part == home:
            continue
        behind = hole.hole is not None and hole.hole.from_behind
        says = []
        if hole.u_mm is None:
            says.append("not known until the part has a pose")
        if behind:
            says.append("mirrored: drilled from the far side")
        if hole.mirrored:
            says.append("mirrored: this copy is the other hand")
        yield PlaceRow(
            hole.place, hole.part, hole.copies, hole.face if hole.u_mm is not None else "",
            hole.u_mm, hole.v_mm, hole.angle_deg, is_home=False, says="; ".join(says),
        )  # fmt: skip
