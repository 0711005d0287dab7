"""The heads of screws and bolts: how wide, how high, at what angle, and by which standard."""

from __future__ import annotations

from dataclasses import dataclass
from math import cos, pi, radians, tan
from typing import Literal, get_args

from calculators.hardware.fastener import Drive, Head
from calculators.hardware.nominal import Basis, Nominal, basis_of, nominal_of, table_row
from calculators.hardware.wood_screws import WoodScrew, wood_screw
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

HEADS: tuple[str, ...] = get_args(Head)
WORDS = {
    "csk": "countersunk heads",
    "raised csk": "raised countersunk heads",
    "pan": "pan heads",
    "cheese": "cheese heads",
    "round": "round heads",
    "socket cap": "socket cap heads",
    "socket csk": "countersunk socket heads",
    "button": "button heads",
    "hex": "hexagon heads",
    "coach": "coach bolt heads",
    "knurled": "knurled heads",
    "none": "headless screws",
}

METRIC_STANDARDS = {
    "csk": "ISO 2009",
    "raised csk": "ISO 2010",
    "pan": "ISO 7045",
    "cheese": "ISO 1207",
    "socket cap": "ISO 4762",
    "socket csk": "ISO 10642",
    "button": "ISO 7380-1",
    "hex": "ISO 4017",
    "coach": "DIN 603",
    "knurled": "DIN 464",
}
"""The product standard of each head of a metric screw, which gives its sizes and its range of lengths."""

_UNIFIED = {
    "csk": "ASME B18.6.3 Table 1A",
    "raised csk": "ASME B18.6.3 Table 1A",
    "pan": "ASME B18.6.3 Table 9B",
    "cheese": "ASME B18.6.3 Table 10A",
    "round": "ASME B18.6.3 round",
    "socket cap": "ASME B18.3 Table 1A",
    "socket csk": "ASME B18.3 Table 2",
    "button": "ASME B18.3 button",
    "hex": "ASME B18.2.1 Table 6",
    "coach": "ASME B18.5",
}
_BRITISH = {"hex": "BS 1083"}
_BA = {"hex": "BS 57"}
_STANDARDS: dict[str, dict[str, str]] = {
    "metric": METRIC_STANDARDS,
    "unified": _UNIFIED,
    "british": _BRITISH,
    "BA": _BA,
}
# Standards that carry the series on where the first one ends.
_CARRIED_ON = {"ISO 2009": "DIN 963", "ASME B18.2.1 Table 6": "ASME B18.6.3 hexagon"}

# Where no table was read, the trade's proportions of the major diameter: head diameter, head height
# (None: the cone's own height), raised part, cone angle. Common practice.
_Proportion = tuple[float, float | None, float, float | None]
_OLD_BRITISH: dict[str, _Proportion] = {
    "csk": (1.75, None, 0.0, 90.0),
    "raised csk": (1.75, None, 0.2, 90.0),
    "cheese": (1.75, 0.6, 0.0, None),
    "round": (1.75, 0.7, 0.0, None),
    "socket cap": (1.6, 1.0, 0.0, None),
    "socket csk": (2.0, None, 0.0, 90.0),
}
_PROPORTIONS: dict[str, dict[str, _Proportion]] = {
    "metric": {"round": (1.75, 0.7, 0.0, None)},
    "unified": {},
    "british": _OLD_BRITISH,
    "BA": _OLD_BRITISH,
}
_COUNTERSUNK = ("csk", "raised csk", "socket csk")


@dataclass(frozen=True, slots=True)
class HeadSize:
    """The sizes of a head, in millimetres and degrees.

    `diameter_mm` is the widest the head is (of a hexagon, across its corners). `height_mm` of a
    countersunk head is the depth of its cone; a raised head stands `raised_mm` above that. `angle_deg` is
    the cone's included angle. `sharp_diameter_mm` is where a countersunk head's cone would end in a sharp
    edge; the head itself is a little smaller. `socket_mm` is the width of a hexagon socket across flats.
    """

    diameter_mm: float
    height_mm: float
    angle_deg: float | None
    across_flats_mm: float | None
    across_corners_mm: float | None
    slot_width_mm: float | None
    slot_depth_mm: float | None
    source: str
    basis: Basis
    sharp_diameter_mm: float | None = None
    raised_mm: float = 0.0
    socket_mm: float | None = None


def across_corners_mm(across_flats_mm: float) -> float:
    """The width across the corners of a sharp hexagon, the greatest that it can be.

    e = s / cos 30

    Args:
        across_flats_mm: the width across flats, s [mm], above 0.

    Returns:
        The width across corners, e [mm].

    Source: geometry of the regular hexagon.

    Example:
        >>> round(across_corners_mm(8.0), 2)
        9.24
    """
    return across_flats_mm / cos(pi / 6)


def cone_height_mm(head_diameter_mm: float, hole_mm: float, angle_deg: float) -> float:
    """The height of a countersunk head's cone from its rim down to a given diameter.

    h = (d_head - d_hole) / (2 tan(angle / 2))

    Args:
        head_diameter_mm: the head's diameter [mm].
        hole_mm: the diameter at which the cone ends [mm], not above the head's.
        angle_deg: the included angle of the cone [deg], between 0 and 180.

    Returns:
        The height [mm].

    Source: geometry.

    Example:
        >>> round(cone_height_mm(8.4, 4.0, 90.0), 3)
        2.2
    """
    return (head_diameter_mm - hole_mm) / (2 * tan(radians(angle_deg) / 2))


def head_of(
    head: str,
    size: str,
    *,
    family: Literal["machine", "wood"] = "machine",
    drive: str = "",
    series: str = "",
    head_angle_deg: float | None = None,
) -> HeadSize:
    """Find the size of a screw's head.

    Args:
        head: one of the heads that a fastener may have (`csk`, `pan`, `hex`, ...).
        size: the thread (`M5`, `2 BA`), or a wood screw's number or diameter.
        family: `machine` or `wood`.
        drive: the drive, where it decides the standard: a slotted pan head is lower than a recessed one.
        series: a wood screw's series (`inch-us`, `inch-british`, `metric`).
        head_angle_deg: the angle of a wood screw's countersunk head [deg], 60 to 120, where the workshop's
            screws differ from their series (90 on American shanks); machine screws keep their standard's.

    Returns:
        The head's sizes [mm], with their source and how they are known. A head `none` has the thread's
        diameter and no height.

    Raises:
        InputError: when the head is not known or not stated, when the size is not known, or when no
            standard or proportion gives such a head; the sentence names those that exist.

    Source: the standard named in the result, or common practice (proportions of the old British screws).

    Example:
        >>> head_of("socket cap", "M5").height_mm
        5.0
        >>> round(head_of("csk", "4 BA").diameter_mm, 2)
        6.3
    """
    _check_head(head)
    if family == "wood":
        return _wood_head(head, size, series, head_angle_deg)
    nominal = nominal_of(size)
    if head == "none":
        return _plain(nominal.major_mm, 0.0, "a headless screw is as wide as its thread", "published")
    if (special := _special_standard(head, drive, nominal)) is not None:
        return _from_row(table_row("heads", special, nominal, WORDS[head]), head, nominal)
    standard = _STANDARDS[nominal.family].get(head, "")
    for name in (standard, _CARRIED_ON.get(standard, "")):
        if name and (row := load("heads").find(name, nominal.name)) is not None:
            return _from_row(row, head, nominal)
    if (proportion := _PROPORTIONS[nominal.family].get(head)) is not None:
        return _from_proportion(proportion, nominal)
    if nominal.family == "british" and head == "hex" and nominal.major_mm < 6.3:
        return _small_british_hexagon(nominal)
    if not standard:
        raise _no_such_head(head, nominal)
    return _from_row(table_row("heads", standard, nominal, WORDS[head]), head, nominal)


def _check_head(head: str) -> None:
    if not head:
        raise InputError.of(
            f"The screw's head is not stated; say one of {', '.join(HEADS[1:])}.",
            field="head",
            choices=HEADS[1:],
        )
    if head not in HEADS:
        raise InputError.of(
            f"{head!r} is not a head that is known here; heads are {', '.join(HEADS[1:])}.",
            field="head",
            choices=HEADS[1:],
        )


def _no_such_head(head: str, nominal: Nominal) -> InputError:
    there = [*_STANDARDS[nominal.family], *_PROPORTIONS[nominal.family]]
    names = tuple(name for name in HEADS if name in there)
    return InputError.of(
        f"No standard for {WORDS[head]} on {nominal.designation} is known here; there are "
        f"{', '.join(names)}. For any other head, measure it and give its diameter and height.",
        field="head",
        choices=names,
    )


def _special_standard(head: str, drive: str, nominal: Nominal) -> str | None:
    """The standard where the drive decides it."""
    if head == "pan" and drive == "slotted":
        return {"metric": "ISO 1580", "unified": "ASME B18.6.3 Table 9A"}.get(nominal.family)
    if head == "csk" and drive == "hex socket":
        return {"metric": "ISO 10642", "unified": "ASME B18.3 Table 2"}.get(nominal.family)
    return None


def _plain(diameter_mm: float, height_mm: float, source: str, basis: Basis) -> HeadSize:
    return HeadSize(diameter_mm, height_mm, None, None, None, None, None, source, basis)


def _from_row(row: Row, head: str, nominal: Nominal) -> HeadSize:
    flats = row.number_or_none("across_flats")
    corners = None if flats is None else across_corners_mm(flats)
    diameter = row.number_or_none("diameter") or corners or 0.0
    raised = row.number_or_none("raise") or 0.0
    basis, source = basis_of(row), row.source.says
    if head == "raised csk" and not raised:
        raised = 0.2 * nominal.major_mm
        basis, source = "common practice", f"{source}; raised part 0.2 D (common practice)"
    return HeadSize(
        diameter_mm=diameter,
        height_mm=row.number("height"),
        angle_deg=row.number_or_none("angle"),
        across_flats_mm=flats,
        across_corners_mm=corners,
        slot_width_mm=row.number_or_none("slot_width"),
        slot_depth_mm=None,
        source=source,
        basis=basis,
        sharp_diameter_mm=row.number_or_none("sharp_diameter"),
        raised_mm=raised,
        socket_mm=row.number_or_none("socket"),
    )


def _from_proportion(proportion: _Proportion, nominal: Nominal) -> HeadSize:
    wide, high, raised, angle = proportion
    diameter = wide * nominal.major_mm
    if high is not None:
        height = high * nominal.major_mm
    else:
        height = cone_height_mm(diameter, nominal.major_mm, angle or 90.0)
    source = f"head diameter {wide:g} D (common practice)"
    return HeadSize(
        diameter, height, angle, None, None, None, None, source, "common practice",
        raised_mm=raised * nominal.major_mm,
    )  # fmt: skip


def _small_british_hexagon(nominal: Nominal) -> HeadSize:
    """BS 1083 begins at 1/4 in; below it the trade's hexagons follow the BA size of about that diameter."""
    flats = 1.75 * nominal.major_mm
    source = "hexagon 1.75 D across flats, 0.75 D high, under 1/4 in (common practice)"
    return HeadSize(
        across_corners_mm(flats), 0.75 * nominal.major_mm, None, flats, across_corners_mm(flats),
        None, None, source, "common practice",
    )  # fmt: skip


def _wood_head(head: str, size: str, series: str, angle: float | None) -> HeadSize:
    if head in ("hex", "coach"):
        return _coach_screw_head(size)
    screw = wood_screw(size, series, head_angle_deg=angle)
    if head == "none":
        return _plain(screw.shank_mm, 0.0, "a headless screw is as wide as its shank", "published")
    if head in ("csk", "raised csk"):
        raised = 0.25 * screw.shank_mm if head == "raised csk" else 0.0
        return HeadSize(
            screw.head_diameter_mm, screw.head_height_mm, screw.head_angle_deg, None, None,
            screw.slot_width_mm, None, screw.head_basis, screw.head_kind, raised_mm=raised,
        )  # fmt: skip
    if head in ("round", "pan", "cheese"):
        return _round_wood_head(screw)
    names = ("csk", "raised csk", "round", "pan", "hex")
    raise InputError.of(
        f"Wood screws have no {WORDS[head]} here; there are {', '.join(names)}.", field="head", choices=names
    )


def _round_wood_head(screw: WoodScrew) -> HeadSize:
    row = load("wood_screws").find("DIN 7996", screw.name) if screw.series == "metric" else None
    if row is not None:
        return _plain(row.number("head_diameter"), row.number("head_height"), row.source.says, basis_of(row))
    source = "round head 2 D wide and 0.7 D high (common practice)"
    return _plain(2 * screw.shank_mm, 0.7 * screw.shank_mm, source, "common practice")


def _coach_screw_head(size: str) -> HeadSize:
    name = size.strip().removesuffix("mm").strip().lstrip("M")
    table = load("wood_screws")
    row = table.find("DIN 571", name) or table.find("ASME B18.2.1 lag screw", name)
    if row is None:
        sizes = tuple(
            row["size"] for row in table.rows if row["standard"] in ("DIN 571", "ASME B18.2.1 lag screw")
        )
        raise InputError.of(
            f"There is no coach screw {size!r}; there are {', '.join(sizes)} (mm, and inch fractions).",
            field="size",
            choices=sizes,
        )
    flats = row.number("across_flats")
    corners = across_corners_mm(flats)
    return HeadSize(
        corners, row.number("head_height"), None, flats, corners, None, None, row.source.says, basis_of(row)
    )


def head_names() -> tuple[str, ...]:
    """The heads that a screw can be asked for with.

    Returns:
        The names, `none` included.

    Source: this project.

    Example:
        >>> head_names()[0]
        'csk'
    """
    return HEADS[1:]


__all__ = ["HEADS", "Drive", "HeadSize", "across_corners_mm", "cone_height_mm", "head_names", "head_of"]
