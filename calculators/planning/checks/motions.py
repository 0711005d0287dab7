"""What moves in a build and what stands still: solids where they lie, cut into convex pieces."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from functools import lru_cache

from calculators.geometry.frames import FACES, to_face
from calculators.geometry.model import Solid
from calculators.geometry.pieces import hollows_of, pieces_of
from calculators.geometry.shapes import Shape, moved
from calculators.geometry.sweeping import Sweep
from calculators.geometry.vectors import Vector, scale
from calculators.joints.model import Spot
from calculators.planning.checks.fasteners_in_space import all_fasteners
from calculators.planning.checks.in_one_part_cuts import part_cuts
from calculators.planning.checks.site import Site
from calculators.planning.model import Motion
from calculators.planning.tree import split_copy


@dataclass(frozen=True, slots=True)
class Mover:
    """One copy of a part that moves: its name, the part's mark, its motion in the build's frame."""

    copy: str
    mark: str
    sweep: Sweep


@dataclass(frozen=True, slots=True)
class Thing:
    """A convex piece that lies in the build: of a copy of a part, or of a fastener at a place of a joint."""

    shape: Shape
    part: str
    copy: str = ""
    joint: str = ""
    place: str = ""
    wood: bool = False

    @property
    def named(self) -> str:
        """What it is of, in words."""
        if self.joint:
            return f"{self.joint} at {self.place}" if self.place else self.joint
        return self.copy or self.part


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
    return Sweep(motion.kind, point, way, float(motion.least), float(motion.most))


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


@lru_cache(maxsize=4096)
def own_pieces(solid: Solid) -> tuple[Shape, ...]:
    """Cut a part into convex pieces in its own frame; once for each solid.

    Args:
        solid: the part.

    Returns:
        The pieces [mm].

    Source: this project.
    """
    return pieces_of(solid)


def things_of(site: Site, copy: str) -> list[Thing]:
    """Give the convex pieces of a copy where it lies.

    Args:
        site: the build.
        copy: the copy's name.

    Returns:
        The pieces in the build's frame.

    Source: this project.
    """
    mark, transform = site.placed.mark_of[copy], site.placed.transforms[copy]
    material = site.parts[mark].material
    wood = material is not None and material.is_wood
    pieces = own_pieces(site.placed.bodies[copy].solid)
    return [Thing(moved(piece, transform), mark, copy, wood=wood) for piece in pieces]


def hollows_in(site: Site, copy: str) -> list[Shape]:
    """Give the bore, the round hollows and all the holes of a copy where they lie.

    Args:
        site: the build.
        copy: the copy's name.

    Returns:
        The hollows in the build's frame.

    Source: this project.
    """
    mark, transform = site.placed.mark_of[copy], site.placed.transforms[copy]
    shapes = [each.shape for each in hollows_of(site.placed.bodies[copy].solid)]
    cuts = part_cuts(site.parts[mark])
    for hole in cuts.holes if cuts is not None else ():
        if not hole.hole.copies or copy in hole.hole.copies:
            shapes.append(hole.cut.bore)
    return [moved(shape, transform) for shape in shapes]


def fasteners(site: Site, moving: dict[str, Mover]) -> Iterator[tuple[Mover | None, list[Thing]]]:
    """Give the pieces of each fastener that moves as a whole or stands still as a whole.

    A fastener that goes through what moves and what stands still is a pivot, and is left out.

    Args:
        site: the build.
        moving: the mover of each moving copy.

    Yields:
        The mover that it moves with, or None, and its pieces.

    Source: this project.
    """
    for one in all_fasteners(site):
        through = {moving[copy].copy if copy in moving else "" for copy in (*one.copies, one.home)}
        if len(through) > 1:
            continue
        mover = moving.get(one.home)
        part = site.placed.mark_of.get(one.home, "")
        yield mover, [Thing(each.shape, part, joint=one.joint, place=one.place) for each in one.pieces]


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
