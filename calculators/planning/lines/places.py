"""The places of a joint: read from a list, a row, a grid or a circle, and written back."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction

from calculators.planning.lines.checking import kept
from calculators.planning.lines.counts import in_figures
from calculators.planning.lines.faces import face_of
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import GAP, Line, refusal
from calculators.planning.lines.measures import COORDINATE, written
from calculators.planning.lines.spots import COUNT, WRITE, Spot, check_places, is_empty, take_spots
from calculators.planning.model import Build, Place, Unit
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted
from calculators.quantities.numbers import decimal_text


def read_place_lines(text: str, build: Build, home: str, face: str) -> tuple[Place, ...]:
    """Read the places of a joint: a list, a row, a grid or a circle; several lines or one.

    Args:
        text: the places; `at` before them may be left out.
        build: the build.
        home: the mark of the component, or the name of the copy, whose face they are on.
        face: the face.

    Returns:
        The places with the ids 1, 2, 3 and so on.

    Raises:
        InputError: when they cannot be read, or the home has no such face.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> box = Build("B1", "Box", components=(Component("P1", "Side"),))
        >>> [(p.id, p.u.mm, p.v.mm) for p in read_place_lines("20,30; 20,70", box, "P1", "top")]
        [('1', 20.0, 30.0), ('2', 20.0, 70.0)]
    """
    known = Known(build)
    found = known.copy(home)
    if found is None:
        raise known.unknown(home)
    if not isinstance(text, str) or len(text) > 200_000:  # type: ignore[redundant-expr]
        raise refusal(f"Places are read from text of at most 200,000 characters; {WRITE}.")
    on = face_of(found[0], face)
    spots: list[Spot] = []
    for piece in re.split(r"\r\n|\n|\r", text):
        if piece.strip():
            spots += places_in(Line(piece, longest=60_000), build.unit, on)
            check_places(spots)
    if not spots:
        raise refusal(f"No place is given; {WRITE}.")
    return places_of(tuple(spots), build.unit)


def places_of(spots: tuple[Spot, ...], unit: Unit) -> tuple[Place, ...]:
    """Make places of spots, with the ids 1, 2, 3 and so on.

    Args:
        spots: where they are.
        unit: [mm or in] the build's unit.

    Returns:
        The places.

    Source: this project.
    """
    return tuple(
        kept(Place(str(i), spot.u, spot.v, spot.angle_deg), unit) for i, spot in enumerate(spots, start=1)
    )


def places_in(line: Line, unit: Unit, face: str) -> tuple[Spot, ...]:
    """Read a line that is places and nothing else.

    Args:
        line: the line.
        unit: [mm or in] what a bare number means.
        face: the face.

    Returns:
        The places.

    Raises:
        InputError: when something else is left over.

    Source: this project.
    """
    pattern = re.search(r"(?<![^\W_])(?:at|from|row|grid|circle|pcd)(?![^\W_])", line.plain, re.IGNORECASE)
    if pattern is None and re.match(r"[-+]?[0-9.¼½¾]", line.plain):
        line.plain, line.shown = f"at {line.plain}", f"at {line.shown}"
    count = None
    head = re.match(rf"(?P<count>{COUNT})(?: places?| holes?| off)? (?=at |on )", line.plain, re.IGNORECASE)
    if head is not None:
        count = in_figures(head["count"])
        line.replace(0, head.end(), "")
    spots = take_spots(line, unit, face, count)
    if not is_empty(line.plain):
        raise refusal(f"{quoted(line.as_written(line.shown.replace(GAP, ' ')))} is not understood; {WRITE}.")
    return spots


def write_places(places: tuple[Place, ...], unit: Unit | None = None) -> str:
    """Write places so that they read back the same.

    Args:
        places: the places.
        unit: [mm or in] the unit of the build they are read in; without it every number carries its unit.

    Returns:
        Such as `20,30; 20,70`.

    Source: this project.

    Example:
        >>> write_places((Place("1", Length(200_000_000, "20"), Length(300_000_000, "30")),), "mm")
        '20,30'
    """
    return "; ".join(write_spot(place.u, place.v, place.angle_deg, unit) for place in places)


def write_spot(u: Length, v: Length | None, angle_deg: Decimal | None, unit: Unit | None) -> str:
    """Write one place.

    Args:
        u: along u [mm].
        v: along v [mm].
        angle_deg: the angle on a side [deg].
        unit: [mm or in] the unit of the build it is read in, or None.

    Returns:
        `20,30` or `40, 90 deg`.

    Source: this project.
    """
    first = _without_commas(u, unit)
    if angle_deg is not None:
        return f"{first}, {decimal_text(Fraction(angle_deg))} deg"
    second = _without_commas(v, unit) if v is not None else "0"
    simple = re.fullmatch(r"[0-9.]+", first) and re.fullmatch(r"[0-9.]+", second)
    return f"{first},{second}" if simple else f"{first}, {second}"


def _without_commas(length: Length, unit: Unit | None) -> str:
    text = written(length, unit)
    return text if re.fullmatch(COORDINATE, text, re.IGNORECASE) else written(Length(length.ticks), unit)
