"""Moving a joint's places away from the edges of a part, by as little as will do."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import replace
from decimal import Decimal
from typing import Literal

from calculators.geometry.features import edge_distances, on_face
from calculators.geometry.frames import face_frame
from calculators.geometry.layers import Mark
from calculators.geometry.model import Solid
from calculators.geometry.vectors import Vector, along, dot
from calculators.joints.model import Layer
from calculators.planning.model import Component, Joint, Place, Size
from calculators.planning.placing import PlacedBuild
from calculators.planning.stacks import PlacedStretch, PlaceStack
from calculators.quantities.length import Length
from calculators.quantities.reading import read_length

Edge = Literal["edge", "end", "side"]
_TINY = 1e-6
_TIDY_MM = 0.5
"""Places are moved to the half millimetre where that will do (common practice)."""

_ENDS = ("left", "right")
_SAME_MM = 0.05


def millimetres(value: float | Decimal | str) -> Length:
    """A length as it would be written by hand.

    Args:
        value: its size [mm]; to the thousandth.

    Returns:
        The length.

    Source: this project.

    Example:
        >>> millimetres(5.5).written
        '5.5 mm'
    """
    text = f"{Decimal(str(value)):.3f}".rstrip("0").rstrip(".")
    return read_length(f"{text} mm", minimum_mm=-1e5)


def moved(
    joint: Joint, stacks: tuple[PlaceStack, ...], item: int, edge: Edge, least_mm: float, placed: PlacedBuild
) -> Joint | None:
    """Move the places of a joint that are too near an edge of one of its layers.

    Args:
        joint: the joint.
        stacks: its stacks at those places whose layers are alike.
        item: [1] which member of those stacks the layer is.
        edge: from what: an `edge` across the grain, an `end`, any `side`.
        least_mm: how far away they must be [mm].
        placed: the build's parts where they lie.

    Returns:
        The joint; None where the part is too narrow, its place is not known, or the home has no room.

    Source: this project.
    """
    places = {place.id: place for place in joint.places}
    for stack in stacks:
        stretch = next((one for one in stack.stretches if one.item == item), None)
        if stretch is None or stack.place not in places:
            return None
        solid = placed.solids.get(placed.mark_of[stretch.copy])
        if solid is None:
            return None
        if places[stack.place] != next(one for one in joint.places if one.id == stack.place):
            continue  # moved already, for another copy of its home
        if _distance(solid, stretch.entry, edge) >= least_mm - _TINY:
            continue
        place = _moved(joint, places[stack.place], stack.home, solid, stretch, (edge, least_mm), placed)
        if place is None:
            return None
        places[stack.place] = place
    after = replace(joint, places=tuple(places[place.id] for place in joint.places))
    return after if after != joint else None


def _distance(solid: Solid, mark: Mark, edge: Edge) -> float:
    found = edge_distances(solid, mark.face, mark.u, mark.v)
    value = {"edge": found.to_edge_mm, "end": found.to_end_mm, "side": found.least_mm}[edge]
    return math.inf if value is None else value


def _moved(
    joint: Joint,
    place: Place,
    home: str,
    solid: Solid,
    stretch: PlacedStretch,
    wanted: tuple[Edge, float],
    placed: PlacedBuild,
) -> Place | None:
    edge, least_mm = wanted
    for room_mm in (math.ceil(least_mm / _TIDY_MM - _TINY) * _TIDY_MM, least_mm):
        shift = _shift(solid, stretch.entry, edge, room_mm)
        at_home = _on_home(joint, home, stretch.copy, shift, placed) if shift is not None else None
        if at_home is not None:
            found = _shifted(place, *at_home)
            if _on_its_face(joint, found, placed.solids.get(placed.mark_of[home])):
                return found
    return None


def _shift(solid: Solid, mark: Mark, edge: Edge, least_mm: float) -> Vector | None:
    """The least move in the part's own frame that gives the distance; None where there is no room."""
    if solid.shape == "round":
        if mark.face != "side" or edge == "edge":
            return None
        along_it = _within(mark.u, (0.0, solid.length), least_mm)
        return None if along_it is None else (along_it - mark.u, 0.0, 0.0)
    frame = face_frame(solid, mark.face)
    in_end = mark.face in _ENDS
    u: float | None = mark.u
    v: float | None = mark.v
    if edge == "side" or (edge == "edge") == in_end:
        u = _within(mark.u, frame.u_range, least_mm)
    if edge != "end":
        v = _within(mark.v, frame.v_range, least_mm)
    if u is None or v is None:
        return None
    return along((0.0, 0.0, 0.0), (frame.u_axis, u - mark.u), (frame.v_axis, v - mark.v))


def _within(value: float, span: tuple[float, float], least_mm: float) -> float | None:
    low, high = span[0] + least_mm, span[1] - least_mm
    return None if low > high + _TINY else min(max(value, low), high)


def _on_home(
    joint: Joint, home: str, copy: str, shift: Vector, placed: PlacedBuild
) -> tuple[float, float] | None:
    """The same move in u and v of the home's face; None where it does not lie in that face."""
    solid = placed.solids.get(placed.mark_of[home])
    if solid is None or not joint.face:
        return None
    if copy != home:
        shift = placed.transforms[home].own_direction(placed.transforms[copy].direction(shift))
    on_side = solid.shape == "round" and joint.face == "side"
    if on_side:
        return (shift[0], 0.0) if math.hypot(shift[1], shift[2]) < _TINY else None
    frame = face_frame(solid, joint.face)
    return (
        (dot(shift, frame.u_axis), dot(shift, frame.v_axis))
        if abs(dot(shift, frame.inward)) < _TINY
        else None
    )


def _shifted(place: Place, u_mm: float, v_mm: float) -> Place:
    if abs(u_mm) > _TINY:
        place = replace(place, u=millimetres(round(place.u.mm + u_mm, 3)))
    if abs(v_mm) > _TINY and place.v is not None:
        place = replace(place, v=millimetres(round(place.v.mm + v_mm, 3)))
    return place


def _on_its_face(joint: Joint, place: Place, solid: Solid | None) -> bool:
    if solid is None or not joint.face:
        return False
    v = float(place.angle_deg or 0) if joint.face == "side" else (place.v.mm if place.v else 0.0)
    return on_face(solid, joint.face, place.u.mm, v)


def has_room(component: Component | None, layer: Layer, edge: Edge, least_mm: float) -> bool:
    """Say whether a part is wide enough for a place that far from both of its edges, or both of its ends.

    The size along the axis is left out where the layer's thickness tells which one that is.

    Args:
        component: the part, or None where it is not known.
        layer: the layer that the axis goes through.
        edge: from what: an `edge` across the grain, an `end`.
        least_mm: how far away it must be [mm].

    Returns:
        False only where its sizes say that there is no room.

    Source: this project.
    """
    size = (component.made_size or component.size) if component is not None else Size()
    if size.shape != "block":
        return True
    if edge == "end":
        return size.length is None or size.length.mm >= 2 * least_mm - _TINY
    across = list(_across(size))
    if layer.grain == "end":
        return all(each >= 2 * least_mm - _TINY for each in across)
    other = [each for each in across if abs(each - layer.thickness_mm) > _SAME_MM]
    if len(other) == 1:
        return other[0] >= 2 * least_mm - _TINY
    return not across or any(each >= 2 * least_mm - _TINY for each in across)


def _across(size: Size) -> Iterator[float]:
    for one in (size.width, size.thickness):
        if one is not None:
            yield one.mm
