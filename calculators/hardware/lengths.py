"""The lengths in which screws are sold, and how much of a screw is threaded."""

from __future__ import annotations

from bisect import bisect_left
from fractions import Fraction
from functools import cache
from math import isfinite

from calculators.hardware.fastener import Fastener
from calculators.hardware.heads import METRIC_STANDARDS
from calculators.hardware.nominal import Nominal, nominal_of
from calculators.hardware.wood_screws import wood_screw
from calculators.quantities.errors import InputError
from calculators.quantities.length import TICKS_PER_MM, Length
from calculators.tables import Row, load

_TICKS_PER_INCH = 254_000_000

# Shortest and longest in diameters where no range is tabled: machine screws, hexagons, headless, studs.
_RANGES = {"screw": (0.75, 16.0), "hex": (1.25, 20.0), "grub screw": (0.75, 6.0), "stud": (2.0, 40.0)}
_INCH_MM = 25.4
_SIX_INCHES_MM = 6 * _INCH_MM


def stock_lengths(fastener: Fastener) -> tuple[Length, ...]:
    """The lengths in which a screw of this size and head is sold, shortest first.

    Args:
        fastener: the screw; its own length is not looked at.

    Returns:
        Exact lengths, written as the trade writes them (`40 mm`, `1 3/4 in`).

    Raises:
        InputError: when the thread, number or series is not known.

    Source: ISO 888 and the product standards' ranges (from memory) for metric; merchants' usual lengths
        (common practice) for inch, BA and numbered screws.

    Example:
        >>> screw = Fastener("wood", "No. 8", head="csk", series="inch-us")
        >>> [length.written for length in stock_lengths(screw)][-4:]
        ['2 3/4 in', '3 in', '3 1/2 in', '4 in']
    """
    if fastener.family == "wood":
        return _wood_lengths(fastener)
    nominal = nominal_of(fastener.size)
    row = _range_row(fastener, nominal)
    if row is not None:
        shortest, longest = row.number("shortest"), row.number("longest")
    else:
        least, most = (
            _RANGES["hex"] if _is_hexagon(fastener) else _RANGES.get(fastener.kind, _RANGES["screw"])
        )
        shortest, longest = least * nominal.major_mm, most * nominal.major_mm
    choices = _metric(_nominal("metric")) if nominal.family == "metric" else _inches(_nominal("inch"))
    return _within(choices, shortest, longest)


def thread_length_mm(fastener: Fastener, length_mm: float) -> float:
    """The length of thread on a screw of a given length, measured back from its point.

    Bolts: b = 2 d + 6 mm up to 125 mm, + 12 to 200, + 25 above (metric); 2 D + 1/4 in up to 6 in, + 1/2 in
    above (inch). Socket screws: 2 d + 12 mm; 2 D + 1/2 in. Wood screws: 2/3 of the length; coach screws
    0.6. Screws too short for that, set screws, grub screws and studs are threaded all along.

    Args:
        fastener: the screw.
        length_mm: its nominal length [mm], above 0 and up to 10 000.

    Returns:
        The length of thread [mm], at most the length.

    Raises:
        InputError: when the length is out of range or the size is not known.

    Source: ISO 4014, ISO 4762 and ISO 1207 (from memory); ASME B18.2.1, B18.3 and B18.6.3 (from memory);
        wood screws ASME B18.6.1 and DIN 571 (from memory); BSW, BSF and BA by common practice.

    Example:
        >>> thread_length_mm(Fastener("machine", "M8", head="hex", kind="bolt"), 60.0)
        22.0
    """
    if not isfinite(length_mm) or not 0 < length_mm <= 10_000:
        raise InputError.of(
            f"A screw's length lies above 0 and up to 10 000 mm, not {length_mm:g}.",
            field="length",
            value=length_mm,
            limit=10_000.0 if length_mm > 0 else 0.0,
            unit="mm",
        )
    if fastener.kind in ("grub screw", "set screw", "stud") or fastener.head in ("none", "knurled"):
        return length_mm
    if fastener.kind == "coach screw" or (fastener.family == "wood" and fastener.head in ("hex", "coach")):
        return 0.6 * length_mm
    if fastener.family == "wood":
        return length_mm * 2 / 3
    nominal = nominal_of(fastener.size)
    if nominal.family == "metric":
        return _metric_thread_mm(fastener, nominal, length_mm)
    return _inch_thread_mm(fastener, nominal, length_mm)


def plain_shank_mm(fastener: Fastener, length_mm: float) -> float:
    """The length without thread under the head of a screw.

    l_s = l - b

    Args:
        fastener: the screw.
        length_mm: its nominal length [mm], above 0 and up to 10 000.

    Returns:
        The plain length [mm], 0 for a screw that is threaded to its head.

    Raises:
        InputError: as `thread_length_mm`.

    Source: as `thread_length_mm`.

    Example:
        >>> plain_shank_mm(Fastener("machine", "M8", head="hex", kind="bolt"), 60.0)
        38.0
    """
    return length_mm - thread_length_mm(fastener, length_mm)


def _metric_thread_mm(fastener: Fastener, nominal: Nominal, length_mm: float) -> float:
    diameter = nominal.major_mm
    row = _range_row(fastener, nominal)
    threaded_to = row.number_or_none("threaded_to_head") if row is not None else None
    if threaded_to is not None and length_mm <= threaded_to:
        return length_mm
    if fastener.kind == "bolt" or fastener.head == "coach":
        extra = 6.0 if length_mm <= 125 else 12.0 if length_mm <= 200 else 25.0
        return min(length_mm, 2 * diameter + extra)
    if fastener.head in ("socket cap", "socket csk"):
        return min(length_mm, 2 * diameter + 12)
    if fastener.head in ("csk", "raised csk", "pan", "cheese", "round") and threaded_to is not None:
        return min(length_mm, 25.0 if diameter <= 3 else 38.0)
    return length_mm


def _inch_thread_mm(fastener: Fastener, nominal: Nominal, length_mm: float) -> float:
    diameter = nominal.major_mm
    extra = 0.25 if length_mm <= _SIX_INCHES_MM else 0.5
    capscrew = nominal.family == "unified" and fastener.head == "hex"
    if fastener.kind == "bolt" or fastener.head == "coach" or capscrew:
        return min(length_mm, 2 * diameter + extra * _INCH_MM)
    if fastener.head in ("socket cap", "socket csk"):
        return min(length_mm, 2 * diameter + 0.5 * _INCH_MM)
    if nominal.family == "unified":
        small = diameter < 3.2  # No. 5 and under: to the head up to 1 1/8 in, else 1 in; above: 2 in, 1 1/2
        to_head, least = (1.125, 1.0) if small else (2.0, 1.5)
        return length_mm if length_mm <= to_head * _INCH_MM + 1e-6 else least * _INCH_MM
    return length_mm


def _is_hexagon(fastener: Fastener) -> bool:
    return fastener.head in ("hex", "coach") or fastener.kind in ("bolt", "set screw")


def _range_row(fastener: Fastener, nominal: Nominal) -> Row | None:
    """The row of the commercial range, for metric screws of a product standard."""
    if nominal.family != "metric":
        return None
    series = METRIC_STANDARDS.get(fastener.head, "")
    if fastener.kind == "grub screw":
        series = "ISO 4026"
    elif fastener.head == "csk" and fastener.drive == "hex socket":
        series = "ISO 10642"
    elif fastener.head == "hex" and fastener.kind == "bolt":
        series = "ISO 4014"
    elif fastener.kind == "stud":
        return None
    return load("stock_lengths").find(series, nominal.name) if series else None


def _wood_lengths(fastener: Fastener) -> tuple[Length, ...]:
    table = load("stock_lengths")
    if fastener.kind == "coach screw" or fastener.head in ("hex", "coach"):
        name = fastener.size.strip().removesuffix("mm").strip().lstrip("M")
        row = table.find("DIN 571", name)
        if row is not None:
            return _within(_metric(_nominal("metric")), row.number("shortest"), row.number("longest"))
        row = table.find("lag screw", name)
        if row is None:
            sizes = tuple(each["size"] for each in table.rows if each["series"] in ("DIN 571", "lag screw"))
            raise InputError.of(
                f"There is no coach screw {fastener.size!r}; there are {', '.join(sizes)}.",
                field="size",
                choices=sizes,
            )
        return _within(_inches(_nominal("inch wood")), row.number("shortest"), row.number("longest"))
    screw = wood_screw(fastener.size, fastener.series)
    metric = screw.series == "metric"
    row = table.find("DIN 97" if metric else "wood screw", screw.name)
    if row is not None:
        shortest, longest = row.number("shortest"), row.number("longest")
    else:
        shortest, longest = 3.5 * screw.shank_mm, 24 * screw.shank_mm
    return _within(
        _metric(_nominal("metric")) if metric else _inches(_nominal("inch wood")), shortest, longest
    )


@cache
def _nominal(series: str) -> tuple[str, ...]:
    """The lengths of one series as they are written, shortest first."""
    return tuple(row.text("written") for row in load("nominal_lengths").rows if row.text("series") == series)


@cache
def _metric(texts: tuple[str, ...]) -> tuple[Length, ...]:
    return tuple(Length(round(Fraction(text) * TICKS_PER_MM), f"{text} mm", "mm") for text in texts)


@cache
def _inches(texts: tuple[str, ...]) -> tuple[Length, ...]:
    return tuple(
        Length(int(sum(Fraction(part) for part in text.split()) * _TICKS_PER_INCH), f"{text} in", "in")
        for text in texts
    )


def _within(lengths: tuple[Length, ...], shortest_mm: float, longest_mm: float) -> tuple[Length, ...]:
    """The lengths of a range; the one next to its middle where the range falls between two lengths."""
    inside = tuple(length for length in lengths if shortest_mm - 1e-3 <= length.mm <= longest_mm + 1e-3)
    if inside:
        return inside
    place = bisect_left([length.mm for length in lengths], shortest_mm)
    return (lengths[min(place, len(lengths) - 1)],)
