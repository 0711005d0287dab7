"""What is cut in a component and where its copies lie, each as a line that can be changed or taken out.

All are functions from plain data to plain data, to be run inside `change_build`.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from typing import Any, Literal, get_args

from calculators.planning.edits import find, put
from calculators.planning.lines import (
    read_hole_line,
    read_pocket_line,
    read_pose_line,
    write_hole_line,
    write_pocket_line,
    write_pose_line,
)
from calculators.planning.model import Build, Component, Hole, Pocket, Pose
from calculators.planning.tree import total_quantity
from calculators.quantities.errors import InputError

Feature = Literal["hole", "pocket", "pose"]
FEATURES: tuple[Feature, ...] = get_args(Feature)
_FIELDS = {"hole": "holes", "pocket": "pockets", "pose": "poses"}


@dataclass(frozen=True, slots=True)
class FeatureLine:
    """A hole, a pocket or a pose on one line; `key` is its id, of a pose the number of the copy."""

    key: str
    line: str
    face: str


class FeatureOvertaken(Exception):
    """Somebody else changed or took out a hole, a pocket or a pose; `theirs` is its line now, or nothing."""

    def __init__(self, key: str, theirs: str) -> None:
        self.key, self.theirs = key, theirs
        super().__init__(key)


def feature_lines(build: Build, component: Component, kind: Feature) -> list[FeatureLine]:
    """The holes, pockets or poses of a component, each on its line."""
    total = total_quantity(build)[component.mark] if kind == "pose" else 1
    return [
        FeatureLine(_key(one), _written(build, component.mark, one, total), one.face)
        for one in getattr(component, _FIELDS[kind])
    ]


def _key(one: Hole | Pocket | Pose) -> str:
    return str(one.copy) if isinstance(one, Pose) else one.id


def _written(build: Build, mark: str, one: Hole | Pocket | Pose, total: int) -> str:
    match one:
        case Hole():
            return write_hole_line(one, build.unit)
        case Pocket():
            return write_pocket_line(one, build.unit)
    return write_pose_line(mark, one, build.unit, total)


def change_feature(build: Build, mark: str, kind: Feature, key: str, line: str, seen: str) -> Build:
    """The build with one hole, pocket or pose as its line says; an empty line takes it out.

    `seen` is the line that the person had before them. Raises InputError, FeatureOvertaken.
    """
    component: Component = find(build, "component", mark)
    every = getattr(component, _FIELDS[kind])
    at = next((index for index, one in enumerate(every) if _key(one) == key), None)
    if at is None:
        raise FeatureOvertaken(key, "")
    now = feature_lines(build, component, kind)[at].line
    if now != seen:
        raise FeatureOvertaken(key, now)
    if line.strip() == now:
        return build
    rest = (*every[:at], *every[at + 1 :])
    new = _read(_holding(build, component, kind, rest), mark, kind, every[at], line) if line.strip() else ()
    return _holding(build, component, kind, (*every[:at], *new, *every[at + 1 :]))


def _holding(build: Build, component: Component, kind: Feature, every: Iterable[Any]) -> Build:
    new: dict[str, Any] = {_FIELDS[kind]: tuple(every)}
    return put(build, "component", replace(component, **new), key=component.mark)


def _read(build: Build, mark: str, kind: Feature, old: Any, line: str) -> tuple[Any, ...]:
    """What a line says in the place of what was there; the first keeps its id."""
    if kind == "hole":
        first, *more = read_hole_line(line, build, mark, old.face)
        ids = {old.id} | {one.id for one in find(build, "component", mark).holes}
        return (replace(first, id=old.id), *(replace(one, id=_free(ids)) for one in more))
    if kind == "pocket":
        return (replace(read_pocket_line(line, build, mark, old.face), id=old.id),)
    named, pose = read_pose_line(of_part(line, mark), build)
    if named != mark:
        raise InputError.of(f"The line is of {named}, but it is a copy of {mark} that is moved.")
    return (pose,)


def _free(ids: set[str]) -> str:
    """The next free id of a hole, which is then taken."""
    number = next(number for number in range(1, len(ids) + 2) if f"h{number}" not in ids)
    ids.add(f"h{number}")
    return f"h{number}"


def of_part(line: str, mark: str) -> str:
    """A line of a pose that leaves its own part out, with the part."""
    return (
        f"{mark} {line.strip()}" if line.strip().casefold().startswith(("on ", "in ", "against ")) else line
    )
