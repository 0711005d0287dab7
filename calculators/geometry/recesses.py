"""Recesses cut with a round cutter: what stands in the corners, and how the part can be made to seat."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import ceil, isfinite, sqrt

from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted
from calculators.quantities.reading import read_length
from calculators.tables import Row, load

_ROOT_2 = sqrt(2)
_MOST_PASSES = 1000


@dataclass(frozen=True, slots=True)
class Plate:
    """A flat part with round or sharp corners [mm]."""

    length_mm: float
    width_mm: float
    thickness_mm: float
    corner_mm: float = 0.0


def read_plate(text: str, *, field: str = "part") -> Plate:
    """Read a plate as `60 x 30 x 5 mm`, with `r 3` behind it where its corners are round.

    Args:
        text: what a person wrote; a unit at the end stands for all that have none.
        field: the name of the input, for the faults.

    Returns:
        The plate.

    Raises:
        InputError: when it is not three lengths and perhaps a radius.

    Source: this project.

    Example:
        >>> read_plate("2 1/2 x 1 x 1/8 in, r 1/16")
        Plate(length_mm=63.5, width_mm=25.4, thickness_mm=3.175, corner_mm=1.5875)
    """
    says = f"{quoted(text)} is not a part; write length x width x thickness, as 60 x 30 x 5 mm"
    says += " or 60 x 30 x 5 mm r 3."
    head, _, tail = re.sub(r"\b(radius|corners?)\b", "r", text.lower()).partition("r")
    sizes = [part.strip(" ,;") for part in re.split(r"\s*(?:[x×*]|\bby\b)\s*", head.strip(" ,;"))]
    if len(sizes) != 3 or not all(sizes) or ("r" in text.lower() and not tail.strip()):
        raise InputError.of(says, field=field)
    units = re.search(r"[a-z\"']+$", sizes[-1])
    unit = units[0] if units else "mm"
    every = [*sizes, tail.strip()] if tail.strip() else sizes
    written = [one if re.search(r"[a-z\"']\s*$", one) else f"{one} {unit}" for one in every]
    found = [read_length(one, field=field, maximum_mm=1e5).mm for one in written]
    if min(found[:3]) <= 0:
        raise InputError.of(f"A part of {quoted(text)} has no size; write each over 0 mm.", field=field)
    plate = Plate(*found)
    if plate.corner_mm > min(plate.length_mm, plate.width_mm) / 2:
        most = min(plate.length_mm, plate.width_mm) / 2
        says = f"A corner radius of {plate.corner_mm:g} mm is more than half the part's width;"
        says += f" write at most {most:g} mm."
        raise InputError.of(says, field=field, value=plate.corner_mm, limit=most, unit="mm")
    return plate


def corner_overlap(cutter_radius_mm: float, corner_mm: float, clearance_mm: float = 0.0) -> float:
    """How far a part's corner reaches into the round corner that a cutter leaves, along the diagonal.

        overlap = (R - r)(sqrt 2 - 1) - c sqrt 2

    It is less than nought by as much as the corner is clear; a cutter no larger than the part's own corner
    and its clearance always clears.

    Args:
        cutter_radius_mm: [mm] the cutter's radius R.
        corner_mm: [mm] the radius r of the part's corner, 0 where it is sharp.
        clearance_mm: [mm] the clearance c on each side.

    Returns:
        The overlap [mm].

    Source: geometry.

    Example:
        >>> round(corner_overlap(6.35, 0), 2)
        2.63
    """
    if cutter_radius_mm <= corner_mm + clearance_mm:
        return -clearance_mm
    return (cutter_radius_mm - corner_mm) * (_ROOT_2 - 1) - clearance_mm * _ROOT_2


def clearance_needed(cutter_radius_mm: float, corner_mm: float) -> float:
    """The clearance on each side with which a part's corner just clears a round corner.

        c = (R - r)(1 - 1/sqrt 2)

    Args:
        cutter_radius_mm: [mm] the cutter's radius R.
        corner_mm: [mm] the radius r of the part's corner.

    Returns:
        The clearance [mm], 0 where none is needed.

    Source: geometry.

    Example:
        >>> round(clearance_needed(6.35, 0), 2)
        1.86
    """
    return max(0.0, (cutter_radius_mm - corner_mm) * (1 - 1 / _ROOT_2))


def largest_cutter_radius(corner_mm: float, clearance_mm: float) -> float:
    """The largest cutter's radius in whose corner a part still seats.

        R = r + c (2 + sqrt 2)

    Args:
        corner_mm: [mm] the radius r of the part's corner.
        clearance_mm: [mm] the clearance c on each side.

    Returns:
        The radius [mm].

    Source: geometry: `corner_overlap` set to nought.

    Example:
        >>> round(largest_cutter_radius(3, 0.1), 3)
        3.341
    """
    return corner_mm + clearance_mm * (2 + _ROOT_2)


def corner_radius_needed(cutter_radius_mm: float, clearance_mm: float) -> float:
    """The radius that the part's corners are to be given to seat in a cutter's corners.

        r = R - c (2 + sqrt 2)

    Args:
        cutter_radius_mm: [mm] the cutter's radius R.
        clearance_mm: [mm] the clearance c on each side.

    Returns:
        The radius [mm], 0 where a sharp corner clears.

    Source: geometry: `corner_overlap` set to nought.

    Example:
        >>> round(corner_radius_needed(6.35, 0.1), 2)
        6.01
    """
    return max(0.0, cutter_radius_mm - clearance_mm * (2 + _ROOT_2))


def cutter_that_fits(most_mm: float) -> Row | None:
    """The largest cutter of the table that is no larger than a diameter.

    Args:
        most_mm: [mm] the largest diameter that will do.

    Returns:
        Its row, or None where every cutter of the table is larger.

    Source: the table of cutters (common practice).

    Example:
        >>> cutter_that_fits(6.7)["name"], cutter_that_fits(0.5)
        ('1/4 in', None)
    """
    fitting = [row for row in load("cutters").rows if row.number("diameter") <= most_mm + 1e-9]
    return max(fitting, key=lambda row: row.number("diameter"), default=None)


def passes_for(depth_mm: float, depth_per_pass_mm: float) -> int:
    """How many passes a depth takes, each no deeper than so much.

    Args:
        depth_mm: [mm] the whole depth, over 0.
        depth_per_pass_mm: [mm] the most that one pass takes, over 0.

    Returns:
        The passes.

    Raises:
        InputError: when a pass is so shallow that there would be no end of them.

    Source: this project.

    Example:
        >>> passes_for(10, 4), passes_for(8, 4)
        (3, 2)
    """
    if not (
        isfinite(depth_per_pass_mm) and depth_per_pass_mm > 0 and depth_mm / depth_per_pass_mm <= _MOST_PASSES
    ):
        says = f"The depth of a pass gives more than {_MOST_PASSES} passes; write a deeper one."
        raise InputError.of(says, field="depth_per_pass", limit=depth_mm / _MOST_PASSES, unit="mm")
    return max(1, ceil(depth_mm / depth_per_pass_mm - 1e-9))


def bush_offset(bush_mm: float, cutter_mm: float) -> float:
    """How far a guide bush keeps the cut from the template's edge.

        offset = (bush - cutter) / 2

    Args:
        bush_mm: [mm] the bush's outside diameter, more than the cutter's.
        cutter_mm: [mm] the cutter's diameter.

    Returns:
        The offset [mm].

    Raises:
        InputError: for a bush that the cutter does not pass through.

    Source: common practice.

    Example:
        >>> bush_offset(16, 12)
        2.0
    """
    if not bush_mm > cutter_mm:
        says = f"A cutter of {cutter_mm:g} mm does not pass through a bush of {bush_mm:g} mm;"
        says += " write a larger bush."
        raise InputError.of(says, field="guide_bush", value=bush_mm, limit=cutter_mm, unit="mm")
    return (bush_mm - cutter_mm) / 2
