"""Wood screws by number or diameter: shank, root, head, and the holes that they need."""

from __future__ import annotations

import re
from dataclasses import dataclass
from math import ceil, radians, tan
from typing import get_args

from calculators.hardware.fastener import Series
from calculators.hardware.nominal import Basis, basis_of
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

SERIES: tuple[str, ...] = get_args(Series)
MM_PER_INCH = 25.4
LARGEST_NUMBER = 24
ROOT_OF_SHANK = 2 / 3
PILOT_HARDWOOD = 0.90
PILOT_SOFTWOOD = 0.70
CLEARANCE_MM = 0.1
"""The least by which a clearance hole is wider than the shank (common practice)."""

_PILOTS = "of the root diameter (Wood Handbook and NDS lead holes; charts disagree: trust what worked)"
_ANGLES = {"inch-us": 82.0, "inch-british": 90.0, "metric": 90.0}


@dataclass(frozen=True, slots=True)
class WoodScrew:
    """A wood screw's sizes in millimetres and degrees, each with the words that say how it is known.

    `name` is canonical (`No. 8`; of the metric series the diameter, `4`); `number` is None for metric.
    The head is the countersunk one, `head_height_mm` its cone. The pilots are not rounded to a drill;
    the clearance hole is the next 0.1 mm drill that leaves the shank free.
    """

    name: str
    series: str
    number: int | None
    shank_mm: float
    root_mm: float
    pitch_mm: float | None
    threads_per_inch: float | None
    head_diameter_mm: float
    head_height_mm: float
    head_angle_deg: float
    slot_width_mm: float | None
    clearance_hole_mm: float
    pilot_hardwood_mm: float
    pilot_softwood_mm: float
    shank_basis: str
    root_basis: str
    head_basis: str
    head_kind: Basis
    clearance_basis: str
    pilot_hardwood_basis: str
    pilot_softwood_basis: str


def shank_mm(number: int, series: str = "inch-us") -> float:
    """The shank diameter of a numbered wood screw.

    American: d = 0.060 + 0.013 n inch. British: d = 0.052 + 0.014 n inch.

    Args:
        number: the screw's number n, 0 to 24.
        series: `inch-us` or `inch-british`.

    Returns:
        The shank diameter [mm].

    Raises:
        InputError: when the number is outside 0 to 24 or the series has no numbers.

    Source: ASME B18.6.1 (American); the British screw gauge d = 0.066 + 0.014 (n - 1), common practice
        after BS 1210.

    Example:
        >>> round(shank_mm(8), 3), round(shank_mm(8, "inch-british"), 3)
        (4.166, 4.166)
    """
    if series not in ("inch-us", "inch-british"):
        raise InputError.of(
            "Only the series inch-us and inch-british have numbers; a metric screw is named by its diameter.",
            field="series",
            choices=SERIES,
        )
    if not 0 <= number <= LARGEST_NUMBER:
        raise InputError.of(
            f"There is no wood screw No. {number}; numbers run from 0 to {LARGEST_NUMBER}.",
            field="gauge",
            value=float(number),
            limit=float(LARGEST_NUMBER if number > 0 else 0),
        )
    thousandths = 60 + 13 * number if series == "inch-us" else 52 + 14 * number
    return thousandths * MM_PER_INCH / 1000


def wood_screw(
    gauge: str | int | float, series: str = "inch-us", *, head_angle_deg: float | None = None
) -> WoodScrew:
    """Find a wood screw's sizes and the holes that it needs.

    Clearance hole: the next 0.1 mm drill at least 0.1 mm over the shank. Pilot holes: 90 % of the root
    in hardwood, 70 % in softwood.

    Args:
        gauge: the number (`No. 8`, `8`), or of the metric series the diameter in mm (`4`, `4.5 mm`).
        series: `inch-us`, `inch-british` or `metric`; empty means what the writing says, else inch-us.
        head_angle_deg: the angle of the countersunk head [deg], 60 to 120, where it is not the series' own
            (82 inch-us, 90 the others). At any other angle than 82 an American screw has the common
            head of 2 D.

    Returns:
        The sizes [mm] with their bases.

    Raises:
        InputError: when series, number, diameter or angle is not one that exists.

    Source: ASME B18.6.1; DIN 7996 and DIN 97; the British gauge and the pilots by common practice.

    Example:
        >>> screw = wood_screw("No. 8", head_angle_deg=90)
        >>> round(screw.head_diameter_mm, 2), round(screw.pilot_hardwood_mm, 2), screw.clearance_hole_mm
        (8.33, 2.5, 4.3)
    """
    series = _series(str(gauge), series)
    angle = _ANGLES[series] if head_angle_deg is None else float(head_angle_deg)
    if not 60 <= angle <= 120:
        raise InputError.of(
            f"A countersunk head's angle lies between 60 and 120 degrees, not {angle:g}.",
            field="head_angle",
            value=angle,
            limit=60.0 if angle < 60 else 120.0,
            unit="deg",
        )
    if series == "metric":
        return _metric(str(gauge), angle)
    number = _number(str(gauge))
    return _numbered(number, series, angle)


def _series(gauge: str, series: str) -> str:
    if not series:
        return "metric" if re.search(r"mm\s*$", gauge) else "inch-us"
    if series not in SERIES:
        raise InputError.of(
            f"{series!r} is not a series of wood screws; they are {', '.join(SERIES)}.",
            field="series",
            choices=SERIES,
        )
    return series


def _number(gauge: str) -> int:
    match = re.fullmatch(
        r"\s*(?:no\.?|number|gauge|#)?\s*(\d{1,3})\s*(?:g|gauge)?\s*", gauge, re.I | re.ASCII
    )
    if match is None:
        raise InputError.of(
            f"{gauge!r} is not a wood screw's number; write it as No. 8, from No. 0 to No. {LARGEST_NUMBER}.",
            field="gauge",
        )
    return int(match.group(1))


def _numbered(number: int, series: str, angle: float) -> WoodScrew:
    shank = shank_mm(number, series)
    american = series == "inch-us"
    name = f"No. {number}"
    row = load("wood_screws").find("ASME B18.6.1", name) if american else None
    published_head = row is not None and angle == _ANGLES["inch-us"]
    if row is not None and published_head:
        head, height = row.number("head_diameter"), row.number("head_height")
        head_basis, kind = row.source.says, basis_of(row)
    else:
        head, height, head_basis, kind = _common_head(shank, angle)
    tpi = row.number("threads_per_inch") if row is not None else None
    rule = (
        "0.060 + 0.013 n inch (ASME B18.6.1)" if american else "0.052 + 0.014 n inch (British gauge, BS 1210)"
    )
    return _screw(
        name, series, number, shank, None, MM_PER_INCH / tpi if tpi else None, tpi,
        (head, height, angle, head_basis, kind), row.number_or_none("slot_width") if row else None, rule,
    )  # fmt: skip


def _metric(gauge: str, angle: float) -> WoodScrew:
    table = load("wood_screws")
    text = gauge.strip().lower().removesuffix("mm").strip().removeprefix("m").replace(",", ".")
    name = re.sub(r"\.0+$", "", text)
    row = table.find("DIN 7996", name)
    if row is None:
        sizes = tuple(each["size"] for each in table.where("standard", "DIN 7996"))
        raise InputError.of(
            f"There is no metric wood screw of {gauge.strip()!r} mm; there are {', '.join(sizes)}.",
            field="gauge",
            choices=sizes,
        )
    shank = float(name)
    head_row = table.find("DIN 97", name)
    if head_row is not None and angle == _ANGLES["metric"]:
        sizes_of_head = (head_row.number("head_diameter"), head_row.number("head_height"), angle)
        head = (*sizes_of_head, head_row.source.says, basis_of(head_row))
    else:
        wide, high, says, kind = _common_head(shank, angle)
        head = (wide, high, angle, says, kind)
    return _screw(
        name, "metric", None, shank, row, row.number("pitch"), None, head, None, "the nominal diameter"
    )


def _common_head(shank: float, angle: float) -> tuple[float, float, str, Basis]:
    """The trade's countersunk head, twice the shank wide; the cone's height follows from the angle."""
    height = shank / (2 * tan(radians(angle) / 2))
    return 2 * shank, height, "head 2 D (common practice)", "common practice"


def _screw(
    name: str, series: str, number: int | None, shank: float, root_row: Row | None, pitch: float | None,
    tpi: float | None, head: tuple[float, float, float, str, Basis], slot: float | None, shank_basis: str,
) -> WoodScrew:  # fmt: skip
    root = root_row.number_or_none("root") if root_row is not None else None
    root_basis = root_row.source.says if root_row is not None else ""
    if root is None:
        root = ROOT_OF_SHANK * shank
        root_basis = "root about 2/3 of the shank (Wood Handbook ch. 8, read from a stored page)"
    diameter, height, angle, head_basis, kind = head
    return WoodScrew(
        name=name,
        series=series,
        number=number,
        shank_mm=shank,
        root_mm=root,
        pitch_mm=pitch,
        threads_per_inch=tpi,
        head_diameter_mm=diameter,
        head_height_mm=height,
        head_angle_deg=angle,
        slot_width_mm=slot,
        clearance_hole_mm=ceil((shank + CLEARANCE_MM) * 10 - 1e-6) / 10,
        pilot_hardwood_mm=PILOT_HARDWOOD * root,
        pilot_softwood_mm=PILOT_SOFTWOOD * root,
        shank_basis=shank_basis,
        root_basis=root_basis,
        head_basis=head_basis,
        head_kind=kind,
        clearance_basis="next 0.1 mm drill at least 0.1 mm over the shank (common practice)",
        pilot_hardwood_basis=f"90 % {_PILOTS}",
        pilot_softwood_basis=f"70 % {_PILOTS}",
    )


__all__ = ["SERIES", "WoodScrew", "shank_mm", "wood_screw"]
