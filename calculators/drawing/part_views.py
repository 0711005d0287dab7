"""Which views of a part say it all, what each shows, and where they lie to one another."""

from __future__ import annotations

from collections import Counter
from dataclasses import dataclass
from typing import Literal, cast

from calculators.drawing.face_shape import FaceShape
from calculators.drawing.part_body import Body
from calculators.drawing.part_cut import Cut, cut_at
from calculators.drawing.part_edges import Edges, view_edges
from calculators.drawing.part_holes import Bored, HoleView, bored, hole_view
from calculators.drawing.part_shape import PartShape
from calculators.geometry.frames import FaceFrame, face_frame
from calculators.geometry.model import Face

Projection = Literal["first", "third"]
_FIRST: dict[str, tuple[int, int]] = {
    "front": (0, 0), "top": (0, 1), "bottom": (0, -1), "left": (1, 0), "right": (-1, 0), "back": (2, 0)
}  # fmt: skip
_THIRD: dict[str, tuple[int, int]] = {
    "front": (0, 0), "top": (0, -1), "bottom": (0, 1), "right": (1, 0), "left": (-1, 0), "back": (2, 0)
}  # fmt: skip
_ORDER = ("top", "front", "bottom", "back", "left", "right")


@dataclass(frozen=True, slots=True)
class View:
    """One view: the face that it looks at, its column and row (to the right, down), what it shows.

    `own` are the numbers of the holes that are named here, with their centres in u and v. `cut` is the
    section that is drawn instead of the view.
    """

    face: str
    column: int
    row: int
    frame: FaceFrame
    edges: Edges
    holes: HoleView
    own: dict[int, tuple[float, float]]
    shape: FaceShape | None
    cut: Cut | None = None

    @property
    def size(self) -> tuple[float, float]:
        """How wide and high the part is in it [mm]."""
        (u, to_u), (v, to_v) = self.frame.u_range, self.frame.v_range
        return to_u - u, to_v - v


def views_of(part: PartShape, projection: Projection, *, in_a_row: bool = False) -> tuple[View, ...]:
    """Choose and draw the views of a part: the front, and each face that has something on it.

    Args:
        part: the part.
        projection: which angle of projection they are laid out in.
        in_a_row: whether they stand one below the other instead, for a narrow page.

    Returns:
        The views, the one with the most on it first; the front as a section where that says more.

    Source: ISO 128, ISO 5456-2 (views, from memory).
    """
    body = Body(part.solid)
    holes = [bored(body, face, hole) for face, hole in part.holes()]
    chosen = _chosen(part, holes)
    cut = cut_at(body, holes, y) if (y := _cut_place(part, holes, chosen)) is not None else None
    where = _FIRST if projection == "first" else _THIRD
    shapes = {face.face: face for face in part.faces}
    found: list[View] = []
    named: set[int] = set()
    for face in chosen:
        frame = face_frame(part.solid, cast(Face, face))
        section = cut if face == "front" else None
        drawn = hole_view(holes, face, frame, without=section.numbers if section else frozenset())
        if section is not None:
            drawn = HoleView((), (), {})  # what is hidden behind a section is not drawn
        edges = view_edges(section.body if section else body, frame)
        if section is not None:
            edges = Edges(edges.seen, ())
        own = {number: at for number, at in drawn.opens.items() if number not in named}
        named |= set(own)
        column, row = (0, len(found)) if in_a_row else where[face]
        found.append(View(face, column, row, frame, edges, drawn, own, shapes.get(face), section))
    return tuple(found)


def _faces_of_holes(part: PartShape, holes: list[Bored]) -> Counter[str]:
    """How many holes open towards each view; those in a round side towards the nearest."""
    found: Counter[str] = Counter()
    for one in holes:
        if one.face != "side":
            found[one.face] += 1
            continue
        _, y, z = one.way
        through = one.comes_out  # seen from either side, so from the side that is drawn anyway
        across = (abs(y), "back" if y < 0 and not through else "front")
        upright = (abs(z) - 1e-6, "bottom" if z > 0 and not through else "top")
        found[max(across, upright)[1]] += 1
    return found


def _chosen(part: PartShape, holes: list[Bored]) -> list[str]:
    counts = _faces_of_holes(part, holes)
    for face in part.faces:
        counts[face.face] += len(face.pockets)
    for pocket in part.solid.pockets:
        if not pocket.diameter:
            counts[_facing(pocket.face, pocket.angle)] += 1
    counts.pop("side", None)
    wanted = {face for face, count in counts.items() if count} | {"front"}
    if part.is_round:
        if not wanted & {"left", "right"}:
            wanted.add("left")
    elif "bottom" not in wanted and (part.solid.outline or part.folds or wanted <= {"front", "back"}):
        wanted.add("top")
    return sorted(wanted, key=lambda face: (-counts[face], _ORDER.index(face)))


def _facing(face: str, angle_deg: float) -> str:
    if face != "side":
        return face
    return ("back", "top", "front", "bottom")[round(angle_deg / 90.0) % 4]


def _cut_place(part: PartShape, holes: list[Bored], chosen: list[str]) -> float | None:
    """Where a section along the part says more than its front view; None where that is needed as it is."""
    counts = _faces_of_holes(part, holes)
    flats = [_facing(one.face, one.angle) for one in part.solid.pockets if not one.diameter]
    if counts["front"] or counts["back"] or any(face in ("front", "back") for face in flats):
        return None
    telling = [one for one in holes if abs(one.way[1]) < 1e-6]
    if part.is_round:
        return 0.0 if part.solid.bore or any(abs(one.start[1]) < 1e-6 for one in telling) else None
    worth = Counter[float]()
    for one in telling:
        plain = one.hole.through and one.hole.outer_mm <= one.hole.diameter_mm and not one.hole.thread
        worth[round(one.start[1], 3)] += 1 if plain else 4
    if not worth or (max(worth.values()) < 4 and len(telling) < 4):
        return None
    y, _ = max(worth.items(), key=lambda item: (item[1], -item[0]))
    return y if 1e-3 < y < part.solid.width - 1e-3 else None
