"""The hole schedule: every hole of every part, face by face, from its datum, with its drills in order."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass, replace
from itertools import groupby
from math import inf

from calculators.planning.model import Build, Component
from calculators.planning.schedules.drilling import Drilling, drilling_of_direct, drilling_of_layer
from calculators.planning.tree import total_quantity
from calculators.planning.worked import Entry, WorkedBuild, WorkedHole

FACE_ORDER = ("top", "bottom", "front", "back", "left", "right", "side")


@dataclass(frozen=True, slots=True)
class HoleLine:
    """One hole of a part, as it is marked out and drilled.

    `number` runs through the part, face by face, then by u and v. `depth_mm` None is right through,
    `u_mm` None a place that is not known while nothing is posed; it has no face then, and comes last.
    `copies` names the copies that have it (empty: all of them), `copy_count` how many those are. `joint`
    and `place` say where it comes from; a hole placed by hand has its own id in `place` and no joint.
    `basis` says by which rule or standard its size was chosen. `entry`, `below_mm` and `mirrored` are as in
    `WorkedHole`; `slanted` says that it is not square to the face.
    """

    part: str
    face: str
    number: int
    u_mm: float | None
    v_mm: float | None
    angle_deg: float | None
    kind: str
    diameter_mm: float | None
    drill: str
    depth_mm: float | None
    countersink_diameter_mm: float | None
    countersink_angle_deg: float | None
    counterbore_diameter_mm: float | None
    counterbore_depth_mm: float | None
    slot_length_mm: float | None
    slot_along: str
    thread: str
    thread_depth_mm: float | None
    joint: str
    place: str
    steps: tuple[str, ...]
    copies: tuple[str, ...]
    copy_count: int
    basis: str = ""
    note: str = ""
    entry: Entry = "in"
    below_mm: float = 0.0
    mirrored: bool = False
    slanted: bool = False

    @property
    def through(self) -> bool:
        """Whether it goes right through the part."""
        return self.depth_mm is None


def hole_schedule(build: Build, worked: WorkedBuild) -> tuple[HoleLine, ...]:
    """List every hole by part and face, numbered through each part.

    Args:
        build: the build.
        worked: the same build worked out.

    Returns:
        The lines: parts in the order of the build; faces top, bottom, front, back, left, right, side;
        then by u and v. Holes of other-hand copies follow those of the same face.

    Raises:
        InputError: when the tree of components has a ring or a missing parent.

    Source: this project; the order of drilling: common practice.

    Example:
        >>> hole_schedule(Build("B1", "Stool"), WorkedBuild(Build("B1", "Stool")))
        ()
    """
    totals = total_quantity(build)
    components = {one.mark: one for one in build.components}
    order = {mark: i for i, mark in enumerate(components)}
    placed = sorted(
        (one for one in worked.holes if one.part in components), key=lambda one: _position(one, order)
    )
    lines: list[HoleLine] = []
    for part, holes in groupby(placed, key=lambda one: one.part):
        lines += _numbered(_line(one, components[part], totals[part]) for one in holes)
    return tuple(lines)


def _position(one: WorkedHole, order: dict[str, int]) -> tuple[int, int, bool, float, float, str, str]:
    """Where a hole stands in the schedule; u and v to a micrometre, so that noise cannot turn the order."""
    u, v = (_last(value) for value in (one.u_mm, one.angle_deg if one.angle_deg is not None else one.v_mm))
    face = FACE_ORDER.index(one.face) if one.u_mm is not None else len(FACE_ORDER)
    return order[one.part], face, one.mirrored, u, v, one.joint, one.place


def _last(value: float | None) -> float:
    """A position to the micrometre; one that is not known comes last."""
    return inf if value is None else round(value, 3)


def _numbered(lines: Iterable[HoleLine]) -> list[HoleLine]:
    return [replace(line, number=number) for number, line in enumerate(lines, 1)]


def _line(one: WorkedHole, part: Component, total: int) -> HoleLine:
    drilling = _drilling(one, part)
    on_side = one.face == "side"
    copies = one.copies if len(one.copies) < total else ()
    return HoleLine(
        one.part,
        one.face if one.u_mm is not None else "",
        0,
        one.u_mm,
        None if on_side else one.v_mm,
        one.angle_deg,
        drilling.kind,
        drilling.diameter_mm,
        drilling.drill,
        drilling.depth_mm,
        drilling.countersink_diameter_mm,
        drilling.countersink_angle_deg,
        drilling.counterbore_diameter_mm,
        drilling.counterbore_depth_mm,
        drilling.slot_length_mm,
        drilling.slot_along,
        drilling.thread,
        drilling.thread_depth_mm,
        one.joint,
        one.place or (one.direct.id if one.direct is not None else ""),
        drilling.steps,
        copies,
        len(copies) or total,
        drilling.basis,
        "; ".join(note for note in _notes(one, copies, drilling) if note),
        one.entry,
        one.below_mm,
        one.mirrored,
        one.way is not None,
    )


def _drilling(one: WorkedHole, part: Component) -> Drilling:
    if one.direct is not None:
        return drilling_of_direct(one.direct, part)
    if one.hole is not None:
        return drilling_of_layer(one.hole, part, one.entry)
    return Drilling("plain", None, "", None, steps=("centre",))


def _notes(one: WorkedHole, copies: tuple[str, ...], drilling: Drilling) -> Iterable[str]:
    if one.u_mm is None:
        yield "its place is not known yet"
    if one.mirrored:
        yield "other hand: laid off the other way round"
    if copies:
        yield f"only in {', '.join(copies)}"
    if one.below_mm > 0:
        yield f"begins {one.below_mm:g} mm below the face, in a recess or past a slit"
    if one.entry == "out":
        yield "the screw comes out here; its head is on the far side"
    yield drilling.note
