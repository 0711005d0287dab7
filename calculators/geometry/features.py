"""How far a point of a face is from the part's edges, its ends and its pockets."""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.geometry.frames import face_frame
from calculators.geometry.model import Face, Pocket, Solid
from calculators.geometry.outline_lines import to_ends_and_edges
from calculators.geometry.outlines import to_outline
from calculators.geometry.solids import TOLERANCE_MM


@dataclass(frozen=True, slots=True)
class EdgeDistances:
    """Distances from a point on a face to the outline of the face [mm]; negative ones lie outside it.

    `to_end_mm` is to the nearer end along X (the grain), `to_edge_mm` to the nearer edge across it; None
    where the face has no such edge: a point in an end has no end distance, a point on a round part's side
    no edge. Of an outline, what stands steeper than 45 degrees to the grain is an end, the rest an edge.
    `to_bore_mm` is to the rim of the bore in a round end. `end_grain` says that the face is an end.
    """

    least_mm: float
    to_end_mm: float | None
    to_edge_mm: float | None
    to_bore_mm: float | None = None
    end_grain: bool = False


def edge_distances(solid: Solid, face: Face, u: float, v: float) -> EdgeDistances:
    """Return how far a point on a face is from its ends and edges; pockets are left out of account.

    Of a block with an outline, distances on the top and the bottom go to the outline, and those on the other
    faces to the edges of the block.

    Args:
        solid: the part.
        face: one of its faces.
        u: along the face's u [mm].
        v: along the face's v [mm]; on a round part's `side` the angle [deg].

    Returns:
        The distances [mm].

    Raises:
        InputError: when the part has no such face.

    Source: this project.

    Example:
        >>> edge_distances(Solid("block", 100, 40, 20), "top", 90, 15)
        EdgeDistances(least_mm=10.0, to_end_mm=10.0, to_edge_mm=15.0, to_bore_mm=None, end_grain=False)
    """
    frame = face_frame(solid, face)
    if solid.outline and (face == "top" or face == "bottom"):
        y = v if face == "top" else solid.width - v
        to_end, to_edge = to_ends_and_edges(solid.outline, u, y)
        return EdgeDistances(to_outline(solid.outline, u, y), to_end, to_edge)
    if face == "left" or face == "right":
        return _in_end(solid, u, v, frame.u_range, frame.v_range)
    along = min(u - frame.u_range[0], frame.u_range[1] - u)
    if face == "side":
        return EdgeDistances(along, along, None)
    across = min(v - frame.v_range[0], frame.v_range[1] - v)
    return EdgeDistances(min(along, across), along, across)


def _in_end(
    solid: Solid, u: float, v: float, u_range: tuple[float, float], v_range: tuple[float, float]
) -> EdgeDistances:
    if solid.shape == "block":
        to_edge = min(u - u_range[0], u_range[1] - u, v - v_range[0], v_range[1] - v)
        return EdgeDistances(to_edge, None, to_edge, end_grain=True)
    from_axis = math.hypot(u, v)
    to_edge = solid.diameter / 2.0 - from_axis
    if not solid.bore:
        return EdgeDistances(to_edge, None, to_edge, end_grain=True)
    to_bore = from_axis - solid.bore / 2.0
    return EdgeDistances(min(to_edge, to_bore), None, to_edge, to_bore, end_grain=True)


def on_face(solid: Solid, face: Face, u: float, v: float) -> bool:
    """Say whether a point lies on a face of the blank, its outline included and its bore left out.

    Args:
        solid: the part.
        face: one of its faces.
        u: along the face's u [mm].
        v: along the face's v [mm]; on a round part's `side` the angle [deg].

    Returns:
        True on the face.

    Raises:
        InputError: when the part has no such face.

    Source: this project.

    Example:
        >>> on_face(Solid("round", 10, diameter=30, bore=8), "left", 0, 3)
        False
    """
    return edge_distances(solid, face, u, v).least_mm >= -TOLERANCE_MM


def to_pocket(pocket: Pocket, u: float, v: float) -> float:
    """Return how far a point of the pocket's face is from the pocket's outline.

    Args:
        pocket: the pocket.
        u: along the face's u [mm].
        v: along the face's v [mm] (on a round part's `side` in the pocket's own plane).

    Returns:
        The distance to the outline [mm], negative inside the pocket.

    Source: this project (distance to a rounded rectangle).

    Example:
        >>> to_pocket(Pocket("top", 10, 10, 5, length=40, width=20), 30, 35)
        5.0
    """
    if pocket.diameter:
        return math.hypot(u - pocket.u, v - pocket.v) - pocket.diameter / 2.0
    radius = pocket.corner_radius
    out_u = abs(u - pocket.u - pocket.length / 2.0) - pocket.length / 2.0 + radius
    out_v = abs(v - pocket.v - pocket.width / 2.0) - pocket.width / 2.0 + radius
    return math.hypot(max(out_u, 0.0), max(out_v, 0.0)) + min(max(out_u, out_v), 0.0) - radius
