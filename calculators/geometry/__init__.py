"""Solids, faces and poses: where things lie and what an axis meets on its way; and setting out.

May import: tables, quantities, calculation, hardware, materials. All numbers are millimetres and degrees.
Setting out has a module a subject (`circles`, `positions`, `arcs`, `tapers`, `triangles`, `recesses`,
`bends`, `hole_depths`, `hole_fits`, `slip_gauges`, `photographs`), imported by its name. So have shapes
(`shapes`), how near they are (`nearness`, by `parallel_shapes` and `simplices`), which are near at all
(`near_pairs`) and what a hole takes out of a part (`cuts`, `cuts_apart`).
Offers: `placements`, `axis_from`, `layers_along`, `hole_in_layer`, `overlaps`, `gaps`, `face_point`,
`to_face`, `edge_distances`, `on_face`, `to_pocket` and the records that they speak in.
"""

from calculators.geometry.features import EdgeDistances, edge_distances, on_face, to_pocket
from calculators.geometry.frames import face_frame, face_point, to_face
from calculators.geometry.layers import (
    Gap,
    HoleMarks,
    Mark,
    Overlap,
    axis_from,
    gaps,
    hole_in_layer,
    layers_along,
    overlaps,
)
from calculators.geometry.model import Body, Face, Layer, Pocket, Pose, Solid
from calculators.geometry.poses import placements
from calculators.geometry.solids import check_solid
from calculators.geometry.vectors import Transform

__all__ = [
    "Body",
    "EdgeDistances",
    "Face",
    "Gap",
    "HoleMarks",
    "Layer",
    "Mark",
    "Overlap",
    "Pocket",
    "Pose",
    "Solid",
    "Transform",
    "axis_from",
    "check_solid",
    "edge_distances",
    "face_frame",
    "face_point",
    "gaps",
    "hole_in_layer",
    "layers_along",
    "on_face",
    "overlaps",
    "placements",
    "to_face",
    "to_pocket",
]
