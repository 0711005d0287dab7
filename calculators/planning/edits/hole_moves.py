"""Moving one hole or one place of a joint to where a hand put it on a drawing, and adding a place there.

A hole that follows from a joint is moved by moving the joint's place on its home: the axis goes through the
new point, and where it meets the plane of the home's face is the new place. That is exact on every flat face,
mirrored ones and faces that the axis does not meet squarely too.
"""

from __future__ import annotations

import math
import re
from collections.abc import Iterator
from dataclasses import dataclass, replace
from decimal import Decimal
from fractions import Fraction

from calculators.geometry.frames import face_frame
from calculators.geometry.vectors import Vector, dot, subtract
from calculators.planning.edits.records import find, put
from calculators.planning.lines.places import write_spot
from calculators.planning.lines.spots import Spot
from calculators.planning.model import Build, Component, Face, Hole, Joint, Place, Unit
from calculators.planning.placing import PlacedBuild, place_build
from calculators.planning.resolving import resolve_joint
from calculators.planning.stacks import PlacedStretch
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.reading import read_length

_SAME_MM = 0.01
"""A hole within this of where a person saw it is the hole that was seen."""

_FAR_MM = 1e5
_EXACT_MM = 1e-5
_SIXTY_FOURTH_MM = 25.4 / 64.0
_DEGREES = re.compile(r"[-+]?[0-9]{1,3}(?:[.,][0-9]{1,6})?")


@dataclass(frozen=True, slots=True)
class Follower:
    """Which hole of a joint is moved: at what place, in which face of which part, where it was seen [mm]."""

    joint: str
    place: str
    part: str
    face: str
    u_mm: float
    v_mm: float


def read_spot(u: str, v: str, face: str, unit: Unit) -> Spot:
    """Read a place on a face from its two numbers.

    Args:
        u: along the face's u, as a person writes a length.
        v: along its v; on `side` degrees.
        face: the face.
        unit: [mm or in] what a bare number means.

    Returns:
        The place.

    Raises:
        InputError: when one cannot be read, with `u` or `v` as its field.

    Source: this project.

    Example:
        >>> read_spot("20", "1 1/2 in", "top", "mm").v.mm
        38.1
    """
    first = read_length(u, unit=unit, field="u", minimum_mm=-_FAR_MM, maximum_mm=_FAR_MM)
    if face != "side":
        second = read_length(v, unit=unit, field="v", minimum_mm=-_FAR_MM, maximum_mm=_FAR_MM)
        return Spot(first, second)
    text = v.strip().removesuffix("°").removesuffix("deg").strip()
    if not _DEGREES.fullmatch(text):
        raise InputError.of("On a side the second number is an angle, such as 90 or 22.5 deg.", field="v")
    return Spot(first, None, (Decimal(text.replace(",", ".")) % 360 + 360) % 360)


def hole_of(build: Build, mark: str, key: str) -> Hole | None:
    """Find a hole that a person placed in a part.

    Args:
        build: the build.
        mark: the part's mark.
        key: the hole's id.

    Returns:
        The hole, or None where it is gone.

    Raises:
        InputError: when there is no such part.

    Source: this project.
    """
    part: Component = find(build, "component", mark)
    return next((one for one in part.holes if one.id == key), None)


def place_of(build: Build, mark: str, key: str) -> Place | None:
    """Find a place of a joint.

    Args:
        build: the build.
        mark: the joint's mark.
        key: the place's id.

    Returns:
        The place, or None where it is gone.

    Raises:
        InputError: when there is no such joint.

    Source: this project.
    """
    joint: Joint = find(build, "joint", mark)
    return next((one for one in joint.places if one.id == key), None)


def place_words(joint: Joint, place: Place | Spot, unit: Unit | None = None) -> str:
    """Say where a place of a joint is: what a person saw of it.

    Args:
        joint: the joint.
        place: one of its places.
        unit: [mm or in] the unit of the build, or None.

    Returns:
        Such as `P10 top at 20,30`.

    Source: this project.
    """
    return f"{joint.home} {joint.face} at {write_spot(place.u, place.v, place.angle_deg, unit)}"


def is_at(place: Place, u_mm: float, v_mm: float) -> bool:
    """Whether a hole that was seen on the face that its joint is placed on lies at the place itself.

    Where a joint goes through two copies of one part, the same face has a hole of the place and one that
    follows from it.

    Args:
        place: the place.
        u_mm: [mm] where the hole was seen along u.
        v_mm: [mm] where it was seen along v; of no account on a side, whose v are degrees.

    Returns:
        Whether it is the place.

    Source: this project.

    Example:
        >>> is_at(Place("1", Length.of_mm(20), Length.of_mm(30)), 20.0, 45.0)
        False
    """
    v = place.v.mm if place.v is not None and place.angle_deg is None else v_mm
    return math.hypot(place.u.mm - u_mm, v - v_mm) < _SAME_MM


def move_hole(build: Build, mark: str, key: str, to: Spot) -> Build:
    """Put a hole that a person placed somewhere else on its face.

    Args:
        build: the build.
        mark: the part's mark.
        key: the hole's id.
        to: where it shall be.

    Returns:
        The build with it moved.

    Raises:
        InputError: when there is no such hole any more.

    Source: this project.
    """
    part: Component = find(build, "component", mark)
    if hole_of(build, mark, key) is None:
        raise InputError.of(f"{mark} has no hole {key} any more; nothing was moved.")
    moved = tuple(
        replace(one, u=to.u, v=to.v, angle_deg=to.angle_deg) if one.id == key else one for one in part.holes
    )
    return put(build, "component", replace(part, holes=moved), key=mark)


def move_place(build: Build, mark: str, key: str, to: Spot) -> Build:
    """Put a place of a joint somewhere else on its home's face.

    Args:
        build: the build.
        mark: the joint's mark.
        key: the place's id.
        to: where it shall be.

    Returns:
        The build with it moved; all that was decided for the place stays with it.

    Raises:
        InputError: when there is no such place any more.

    Source: this project.
    """
    joint: Joint = find(build, "joint", mark)
    if place_of(build, mark, key) is None:
        raise InputError.of(f"{mark} has no place {key} any more; nothing was moved.")
    places = tuple(Place(one.id, to.u, to.v, to.angle_deg) if one.id == key else one for one in joint.places)
    return put(build, "joint", replace(joint, places=places), key=mark)


def add_place(build: Build, mark: str, to: Spot) -> Build:
    """Give a joint one more place on its home's face.

    Args:
        build: the build.
        mark: the joint's mark.
        to: where it shall be.

    Returns:
        The build with the place, after the others, under the next free id.

    Raises:
        InputError: when the joint is on no face yet.

    Source: this project.
    """
    joint: Joint = find(build, "joint", mark)
    if not joint.home or not joint.face:
        raise InputError.of(f"{mark} is on no face of a part yet; say first where it is, by its places.")
    taken = {one.id for one in joint.places}
    key = next(str(number) for number in range(1, len(taken) + 2) if str(number) not in taken)
    places = (*joint.places, Place(key, to.u, to.v, to.angle_deg))
    return put(build, "joint", replace(joint, places=places), key=mark)


def on_home(build: Build, hole: Follower, to: Spot) -> Spot:
    """Where the place of a joint must lie on its home for a hole that follows from it to lie at `to`.

    Args:
        build: the build.
        hole: the hole that is moved.
        to: where it shall be on the face of its own part.

    Returns:
        The place on the home's face, written in the unit in which `to` was.

    Raises:
        InputError: when the hole is no longer where it was seen, or lies on a side, whose places have no
            such straight way back.

    Source: this project (the axis through a point, met with the plane of the home's face).
    """
    joint: Joint = find(build, "joint", hole.joint)
    place = place_of(build, hole.joint, hole.place)
    there = f"it follows from {hole.joint} on {joint.home or 'no part yet'}: move it there"
    if place is None or not joint.face:
        raise InputError.of(f"{hole.joint} has no place {hole.place} any more; nothing was moved.")
    if to.v is None or joint.face == "side" or hole.face == "side":
        raise InputError.of(f"On a side a hole is not moved like this; {there}.")
    placed = place_build(build)
    for home, copy in _seen(build, joint, hole, placed):
        shift = _shift(hole, copy, to, placed)
        solid = placed.solids[placed.mark_of[home]]
        assert solid is not None
        frame = face_frame(solid, joint.face)
        back = placed.transforms[home].own_direction(shift)
        unit = _unit_of(to.u)
        return Spot(
            _tidy(place.u.mm + dot(back, frame.u_axis), unit, build.unit),
            _tidy((place.v.mm if place.v else 0.0) + dot(back, frame.v_axis), unit, build.unit),
        )
    raise InputError.of(f"The hole is no longer where it was seen, or its part has no pose; {there}.")


def _seen(build: Build, joint: Joint, hole: Follower, placed: PlacedBuild) -> Iterator[tuple[str, str]]:
    """The copies of the home and of the part between which the hole that was seen lies."""
    for axis in resolve_joint(build, joint, placed).axes:
        if axis.place != hole.place or axis.home not in placed.transforms:
            continue
        for stretch in axis.stretches:
            if placed.mark_of[stretch.copy] == hole.part and _is_there(stretch, hole):
                yield axis.home, stretch.copy


def _is_there(stretch: PlacedStretch, hole: Follower) -> bool:
    marks = (stretch.entry, stretch.exit) if stretch.exit is not None else (stretch.entry,)
    return any(
        mark.face == hole.face and math.hypot(mark.u - hole.u_mm, mark.v - hole.v_mm) < _SAME_MM
        for mark in marks
    )


def _shift(hole: Follower, copy: str, to: Spot, placed: PlacedBuild) -> Vector:
    """How far the axis goes, in the build's frame."""
    face: Face = hole.face  # type: ignore[assignment]
    solid = placed.solids[hole.part]
    assert solid is not None
    assert to.v is not None
    frame = face_frame(solid, face)
    own = subtract(frame.point(to.u.mm, to.v.mm), frame.point(hole.u_mm, hole.v_mm))
    return placed.transforms[copy].direction(own)


def _unit_of(length: Length) -> Unit:
    """The unit that a length was written in."""
    if re.search(r"in|[\"″]", length.written):
        return "in"
    return "in" if length.unit == "in" and not re.search(r"m\b", length.written) else "mm"


def _tidy(mm: float, unit: Unit, bare: Unit) -> Length:
    """A length as a person would write it: in inches where it is sixty-fourths, else in millimetres."""
    text = _sixty_fourths(mm) if unit == "in" else ""
    unit = "in" if text else "mm"
    sign = "" if unit == bare else f" {unit}"
    return read_length(f"{text or _decimals(mm)}{sign}", unit=bare, minimum_mm=-2 * _FAR_MM)


def _sixty_fourths(mm: float) -> str:
    """So many inches and sixty-fourths; nothing where it is no whole number of them."""
    count = round(mm / _SIXTY_FOURTH_MM)
    if count < 0 or abs(count * _SIXTY_FOURTH_MM - mm) > _EXACT_MM:
        return ""
    whole, part = divmod(Fraction(count, 64), 1)
    return " ".join(
        [str(whole)] * (whole > 0 or not part) + [f"{part.numerator}/{part.denominator}"] * bool(part)
    )


def _decimals(mm: float) -> str:
    text = f"{mm:.4f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text
