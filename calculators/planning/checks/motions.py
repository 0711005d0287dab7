"""What moves in a build and what stands still: solids where they lie, cut into convex pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from calculators.geometry.frames import FACES, to_face
from calculators.geometry.shapes import Box, Shape
from calculators.geometry.sweeping import Sweep
from calculators.geometry.vectors import Vector, scale
from calculators.joints.model import Spot
from calculators.planning.checks.fasteners_in_space import PlacedFastener, fasteners_of
from calculators.planning.checks.near_things import PlacedPart, placed_parts
from calculators.planning.checks.site import JointSite, Site
from calculators.planning.model import Motion
from calculators.planning.tree import split_copy

_WHOLE_TURN_DEG = 360.0
_THINGS, _MADE, _FASTENERS = "parts as things", "parts made into things", "fasteners as things"


@dataclass(frozen=True, slots=True)
class Mover:
    """One copy of a part that moves: its name, the part's mark, its motion in the build's frame."""

    copy: str
    mark: str
    sweep: Sweep


@dataclass(frozen=True, slots=True, eq=False)
class Thing:
    """What moves or stands still as one: a copy of a part, or a fastener with its washers and nuts.

    `pieces` are convex and lie in the build's frame, where the thing is at rest; `hollows` are in them.
    """

    pieces: tuple[Shape, ...]
    box: Box
    part: str
    copy: str
    joint: str = ""
    place: str = ""
    name: str = ""
    wood: bool = False
    hollows: tuple[Shape, ...] = ()

    @property
    def named(self) -> str:
        """What it is of, in words."""
        if self.joint:
            return f"{self.joint} at {self.place}" if self.place else self.joint
        return self.copy


def movers(site: Site) -> Iterator[Mover]:
    """Give every posed copy of a part that moves.

    Args:
        site: the build.

    Yields:
        The copies, each with its motion in the build's frame.

    Source: this project.
    """
    for part in site.build.components:
        if part.motion is None:
            continue
        for copy in site.placed.copies.get(part.mark, ()):
            if copy in site.placed.bodies:
                yield Mover(copy, part.mark, sweep_of(site, copy, part.motion))


def sweep_of(site: Site, copy: str, motion: Motion) -> Sweep:
    """Give a copy's motion in the build's frame; a copy of the other hand turns the other way.

    More than a whole turn is a whole turn, half of it to either side.

    Args:
        site: the build.
        copy: the copy's name.
        motion: as its part states it, in its own frame.

    Returns:
        The motion [mm, deg].

    Source: this project.
    """
    transform = site.placed.transforms[copy]
    own: Vector = {"X": (1.0, 0.0, 0.0), "Y": (0.0, 1.0, 0.0), "Z": (0.0, 0.0, 1.0)}[motion.axis]
    way = transform.direction(own)
    if motion.kind == "turns" and transform.mirrored:
        way = scale(way, -1.0)
    point = transform.point((motion.x.mm, motion.y.mm, motion.z.mm))
    least, most = float(motion.least), float(motion.most)
    if motion.kind == "turns" and most - least > _WHOLE_TURN_DEG:
        least, most = -_WHOLE_TURN_DEG / 2.0, _WHOLE_TURN_DEG / 2.0
    return Sweep(motion.kind, point, way, least, most)


def moves_with(site: Site, every: tuple[Mover, ...]) -> dict[str, Mover]:
    """Tell for each copy that moves with which mover it does.

    A part that is carried moves, copy by copy, with the mover's copy that it lies on, else with the copy of
    the same number, else with the first; a sub-assembly that is carried brings all that is in it.

    Args:
        site: the build.
        every: its movers.

    Returns:
        The mover of each moving copy, by the copy's name.

    Source: this project.
    """
    found = {mover.copy: mover for mover in every}
    for mark in dict.fromkeys(mover.mark for mover in every):
        own = [mover for mover in every if mover.mark == mark]
        motion = site.parts[mark].component.motion
        for name in motion.carries if motion else ():
            for copy in _copies(site, name):
                found.setdefault(copy, _mover_of(site, copy, own))
    return found


def _copies(site: Site, name: str) -> list[str]:
    """The posed copies that a name stands for: a copy, a part, or all that is in a sub-assembly."""
    if name in site.placed.bodies:
        return [name]
    marks, found = {name}, []
    for _ in site.build.components:
        more = {part.mark for part in site.build.components if part.parent in marks} - marks
        if not more:
            break
        marks |= more
    for mark in marks:
        found += [copy for copy in site.placed.copies.get(mark, ()) if copy in site.placed.bodies]
    return found


def _mover_of(site: Site, copy: str, own: list[Mover]) -> Mover:
    names = {mover.copy: mover for mover in own}
    under = copy
    for _ in range(len(site.placed.bodies)):
        if under in names:
            return names[under]
        body = site.placed.bodies.get(under)
        if body is None or not body.pose.on:
            break
        under = body.pose.on
    number = split_copy(copy)[1]
    return next((mover for mover in own if split_copy(mover.copy)[1] == number), own[0])


def part_things(site: Site) -> dict[str, Thing]:
    """Give every posed copy as a thing; one that is as it was is the very same object as before.

    Args:
        site: the build.

    Returns:
        The things by their copies' names.

    Source: this project.
    """
    return site.share(_THINGS, lambda: {name: thing for name, (_, thing) in _part_things(site).items()})


def _part_things(site: Site) -> dict[str, tuple[PlacedPart, Thing]]:
    def make() -> dict[str, tuple[PlacedPart, Thing]]:
        before = (site.previous.shared(_MADE) if site.previous else None) or {}
        made = {}
        for name, part in placed_parts(site).items():
            had = before.get(name)
            made[name] = had if had is not None and had[0] is part else (part, _thing(part))
        return made

    return site.share(_MADE, make)


def _thing(part: PlacedPart) -> Thing:
    material, mass = part.site.material, part.mass
    hollows = tuple(each.shape for each in mass.hollows)
    wood = material is not None and material.is_wood
    name = part.site.component.name
    return Thing(mass.pieces, mass.box, part.mark, part.name, name=name, wood=wood, hollows=hollows)


def fastener_things(site: Site, moving: dict[str, Mover]) -> Iterator[tuple[Mover | None, Thing]]:
    """Give each fastener that moves as a whole or stands still as a whole.

    A fastener that goes through what moves and what stands still is a pivot, and is left out.

    Args:
        site: the build.
        moving: the mover of each moving copy.

    Yields:
        The mover that it moves with, or None, and the fastener as a thing.

    Source: this project.
    """
    for mark, joint in site.joints.items():
        if _FASTENERS not in joint.kept:
            joint.kept[_FASTENERS] = tuple((one, _of_fastener(one, joint)) for one in fasteners_of(joint))
        for one, thing in joint.kept[_FASTENERS]:
            through = {moving[copy].copy if copy in moving else "" for copy in (*one.copies, one.home)}
            if len(through) == 1 and mark:
                yield moving.get(one.home), thing


def _of_fastener(one: PlacedFastener, joint: JointSite) -> Thing:
    part = joint.placed.mark_of.get(one.home, "")
    pieces = tuple(each.shape for each in one.pieces)
    return Thing(pieces, one.box, part, one.home, one.joint, one.place)


def spot_at(site: Site, copy: str, point: Vector, radius_mm: float = 4.0) -> tuple[Spot, ...]:
    """Give the place to be drawn in red for a point of the build: on the face of a copy nearest to it.

    Args:
        site: the build.
        copy: the copy's name.
        point: [mm] in the build's frame.
        radius_mm: [mm] of the ring.

    Returns:
        One spot; none for a copy that has no place.

    Source: this project.
    """
    body = site.placed.bodies.get(copy)
    if body is None:
        return ()
    own = site.placed.transforms[copy].own_point(point)
    faces = ("left", "right", "side") if body.solid.shape == "round" else FACES[:-1]
    read = [(face, to_face(body.solid, face, own)) for face in faces]
    face, (u, v, _) = min(read, key=lambda each: abs(each[1][2]))
    return (Spot(site.placed.mark_of[copy], face, round(u, 3), round(v, 3), radius_mm),)
