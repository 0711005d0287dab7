"""Every hole of a build as rows of a table, by part and face or in another order."""

from __future__ import annotations

from collections.abc import Callable, Iterable
from dataclasses import dataclass
from itertools import groupby
from typing import Any

from buildlog.builds.models import Build
from buildlog.builds.queries import Kept, worked_of
from calculators.planning.schedules import hole_schedule
from calculators.planning.schedules.holes import FACE_ORDER, HoleLine

_LINES: Kept[tuple[HoleLine, ...]] = Kept(8)


@dataclass(frozen=True, slots=True)
class PartHoles:
    """The holes of one part on this page, face by face."""

    part: str
    name: str
    faces: tuple[tuple[str, tuple[HoleLine, ...]], ...]


def hole_lines(row: Build) -> tuple[HoleLine, ...]:
    """Every hole of a build; remembered as long as the build is as it is."""
    lines = _LINES.get(row.stamp)
    if lines is None:
        worked = worked_of(row)
        lines = hole_schedule(worked.build, worked)
        _LINES.put(row.stamp, lines)
    return lines


def by_part(lines: Iterable[HoleLine], names: dict[str, str]) -> list[PartHoles]:
    """Holes that follow each other in the schedule's order, under their parts and faces."""
    return [
        PartHoles(
            part,
            names.get(part, ""),
            tuple((face, tuple(holes)) for face, holes in groupby(found, key=lambda line: line.face)),
        )
        for part, found in groupby(lines, key=lambda line: line.part)
    ]


def words_of(line: HoleLine, names: dict[str, str]) -> list[object]:
    """What is searched of a hole."""
    size = "" if line.diameter_mm is None else f"{line.diameter_mm:g}"
    through = "through" if line.through else ""
    return [
        line.part, names.get(line.part, ""), line.face or "not placed", size, line.kind, line.thread,
        line.drill, line.joint, line.place, line.note, through,
    ]  # fmt: skip


def _face(line: HoleLine) -> int:
    return FACE_ORDER.index(line.face) if line.face in FACE_ORDER else len(FACE_ORDER)


ORDERS: dict[str, Callable[[HoleLine], Any]] = {
    "face": _face,
    "u": lambda line: line.u_mm,
    "diameter": lambda line: line.diameter_mm,
    "kind": lambda line: (line.kind, line.thread),
    "for": lambda line: (line.joint, line.place) if line.joint else None,
}
"""The columns that the table can be ordered by; without one it is by part and face."""
