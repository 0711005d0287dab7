"""The part drawing of a component of a build."""

from __future__ import annotations

from collections.abc import Mapping, Sequence

from calculators.drawing.part_shape import Fold, PartShape
from calculators.drawing.part_sheet import PartDrawing, draw_part
from calculators.drawing.part_views import Projection
from calculators.drawing.part_words import Write
from calculators.drawing.plan_marks import PlanMark
from calculators.drawing.section_words import plain_mm
from calculators.materials import find_material
from calculators.planning.drawn.face_shapes import face_shapes
from calculators.planning.drawn.manner import manner_of_part
from calculators.planning.model import Component
from calculators.planning.placing import solid_of
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

BROAD: tuple[float, float] = (273.0, 148.0)
"""Room for the views on an A4 sheet on its side, beside margins and title block [mm]."""


def part_drawing(
    worked: WorkedBuild,
    mark: str,
    *,
    projection: Projection | None = None,
    paper: tuple[float, float] = BROAD,
    with_table: bool = True,
    write: Write = plain_mm,
    marks: Mapping[str, Sequence[PlanMark]] | None = None,
    says: str = "",
) -> PartDrawing:
    """Draw a component of a build in as many views as say it all, with its holes and their places.

    Args:
        worked: the build worked out.
        mark: the component's mark.
        projection: the angle of projection; None is the build's.
        paper: width and height that the views may take [mm]; on less than 130 mm of width they stand one
            below the other.
        with_table: whether the table of holes stands below, within the picture.
        write: how a length is written.
        marks: what is wrong, by face, in red.
        says: what is wrong in words.

    Returns:
        The drawing.

    Raises:
        InputError: when there is no such component, and where a size is missing that its shape needs.

    Source: this project; the conventions are those of `calculators.drawing.part_sheet`.
    """
    shape = part_shape(worked, mark)
    return draw_part(
        shape,
        projection or worked.build.context.projection,
        paper=paper,
        with_table=with_table,
        write=write,
        marks=marks,
        says=says,
    )


def part_shape(worked: WorkedBuild, mark: str) -> PartShape:
    """Give a component as its drawing takes it.

    Args:
        worked: the build worked out.
        mark: the component's mark.

    Returns:
        Its solid, faces, folds and manners of hatching.

    Raises:
        InputError: when there is no such component, and where a size is missing that its shape needs.

    Source: this project.
    """
    faces = face_shapes(worked, mark)
    part = next(one for one in worked.build.components if one.mark == mark)
    solid = solid_of(part)
    if solid is None:
        raise InputError.of(
            f"{mark} cannot be drawn yet: a block needs a length, a width and a thickness, "
            "a round part a length and a diameter.",
            field="size",
        )
    folds = tuple(
        Fold(one.at.mm, one.runs, float(one.angle_deg), one.radius.mm if one.radius else None)
        for one in part.bends
    )
    return PartShape(
        part.mark,
        part.name,
        solid,
        faces,
        part.material,
        folds,
        "X" if _is_wood(part) else "",
        {
            "front": manner_of_part(part, "X", "Z"),
            "top": manner_of_part(part, "X", "Y"),
            "right": manner_of_part(part, "Y", "Z"),
        },
    )


def _is_wood(part: Component) -> bool:
    try:
        return find_material(part.material).is_wood
    except InputError:
        return False
