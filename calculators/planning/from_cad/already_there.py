"""What a drawing would make and the part has already: it is not made twice."""

from __future__ import annotations

from collections.abc import Iterable, Sequence
from typing import Any

from calculators.drawing.face_shape import HoleShape
from calculators.geometry.outline_joining import Places
from calculators.planning.model import Hole, Pocket

SAME_MM = 0.02
"""A hole this near to one that is there, with a diameter this near to its, is that hole [mm]."""


def new_holes(holes: Sequence[Hole], there: Iterable[HoleShape]) -> tuple[list[Hole], list[str]]:
    """Leave out the holes that are there already.

    Args:
        holes: the holes that would be made on a face.
        there: those that the face has.

    Returns:
        The holes that are new, and a sentence where some are not.

    Source: this project.

    Example:
        >>> new_holes([], [])
        ([], [])
    """
    places, wide_at = Places(SAME_MM), dict[int, list[float]]()
    for one in there:
        wide_at.setdefault(places.number_of(one.u_mm, one.v_mm), []).append(one.diameter_mm)
    found = []
    for hole in holes:
        at = places.known(hole.u.mm, hole.v.mm if hole.v else 0.0)
        wide = hole.diameter.mm if hole.diameter else 0.0
        if at is None or not any(abs(each - wide) <= SAME_MM for each in wide_at.get(at, ())):
            found.append(hole)
    again = len(holes) - len(found)
    words = f"{again} holes are" if again > 1 else "One hole is"
    says = f"{words} in the part already, at the same place and as wide, and not made again."
    return found, [says] if again else []


def new_pockets(pockets: Sequence[Pocket], there: Iterable[Pocket]) -> tuple[list[Pocket], list[str]]:
    """Leave out the pockets that are there already.

    Args:
        pockets: the pockets that would be made.
        there: those that the part has.

    Returns:
        The pockets that are new, and a sentence where some are not.

    Source: this project.

    Example:
        >>> new_pockets([], [])
        ([], [])
    """
    known = {_box(one) for one in there}
    found = [one for one in pockets if _box(one) not in known]
    again = len(pockets) - len(found)
    words = f"{again} pockets are" if again > 1 else "One pocket is"
    return found, [
        f"{words} in the part already, at the same place and as large, and not made again."
    ] if again else []


def _box(one: Pocket) -> tuple[Any, ...]:
    return (one.face, *(round(each.mm / SAME_MM) for each in (one.u, one.v, one.length, one.width)))
