"""The faces of a component as templates draw them: with the grain, and the folds of bent sheet."""

from __future__ import annotations

from collections.abc import Iterable, Iterator

from calculators.drawing.face_shape import FaceShape
from calculators.drawing.template_marks import FoldLine
from calculators.drawing.template_pages import TemplateFace
from calculators.geometry.model import Solid
from calculators.planning.drawn.face_shapes import face_shape, face_shapes
from calculators.planning.model import Bend, Component
from calculators.planning.placing import solid_of
from calculators.planning.schedules import hole_schedule
from calculators.planning.schedules.cutting import is_wood
from calculators.planning.schedules.holes import FACE_ORDER
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError


def template_faces(worked: WorkedBuild, mark: str, face: str = "") -> tuple[TemplateFace, ...]:
    """Give the faces of a component for their templates.

    Args:
        worked: the build worked out.
        mark: the component's mark.
        face: this face, whether it has holes or not; nothing for every face that has holes.

    Returns:
        The faces in the order of the hole schedule; none for a part without holes whose face is not named.

    Raises:
        InputError: for a component or a face that there is not, and where a size that the face needs is not
            known.

    Source: this project.
    """
    shapes = face_shapes(worked, mark)
    part = next(one for one in worked.build.components if one.mark == mark)
    if not face:
        return tuple(_with_marks(one.face, part, one) for one in shapes if one.holes)
    faces = faces_of(part)
    if face not in faces:
        told = (
            f"{mark} has no face {face[:20]!r}; its faces are {', '.join(faces)}."
            if faces
            else f"The sizes of {mark} are not known yet, so it has no template."
        )
        raise InputError.of(told, field="face", choices=faces)
    found = next((one for one in shapes if one.face == face), None) or _bare(worked, part, face)
    if found is None:
        raise InputError.of(f"A size of {mark} is not known that its {face} needs.", field="face")
    return (_with_marks(face, part, found),)


def _bare(worked: WorkedBuild, part: Component, face: str) -> FaceShape | None:
    lines = hole_schedule(worked.build, worked)
    return face_shape(part, face, (one for one in lines if one.part == part.mark))


def faces_of(part: Component) -> tuple[str, ...]:
    """Name the faces of a component that a template can be made of.

    Args:
        part: the component.

    Returns:
        The names in the order of the hole schedule; nothing while its sizes are not known.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Size
        >>> from calculators.quantities import Length
        >>> faces_of(Component("P1", "Pin", size=Size("round", Length.of_mm(40), diameter=Length.of_mm(8))))
        ('left', 'right', 'side')
    """
    solid = solid_of(part)
    if solid is None:
        return ()
    if solid.shape == "round":
        return ("left", "right", "side")
    return tuple(face for face in FACE_ORDER if face != "side")


def _with_marks(face: str, part: Component, shape: FaceShape) -> TemplateFace:
    solid = solid_of(part)
    folds = tuple(_folds(part.bends, solid, face)) if solid is not None else ()
    return TemplateFace(shape, _grain(part, face), folds)


def _grain(part: Component, face: str) -> str:
    """The grain of wood runs along X, by the frame of a part."""
    if not is_wood(part):
        return ""
    return "end" if face in ("left", "right") else "u"


def _folds(bends: Iterable[Bend], solid: Solid, face: str) -> Iterator[FoldLine]:
    """The fold lines on the two broad faces of a flat sheet."""
    if face not in ("top", "bottom") or solid.shape == "round":
        return
    for bend in bends:
        at = bend.at.mm
        angle = f"{bend.angle_deg.normalize():f}"
        inside = f", inside R{bend.radius.mm:g}" if bend.radius else ""
        says = f"fold {angle}°{inside}"
        if bend.runs == "across":
            yield FoldLine((at, 0.0), (at, solid.width), says)
        else:
            v = at if face == "top" else solid.width - at
            yield FoldLine((0.0, v), (solid.length, v), says)
