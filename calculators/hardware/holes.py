"""Holes for screws: clearance and tapping holes, the thread they leave, and what a blind hole needs."""

from __future__ import annotations

import math
from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from calculators.hardware.drills import Drill, drills_of, nearest_drill
from calculators.hardware.threads import Thread
from calculators.quantities.errors import InputError
from calculators.tables import Row, Source, load

Fit = Literal["close", "medium", "free"]
Tap = Literal["taper", "second", "plug"]
FITS: tuple[Fit, ...] = ("close", "medium", "free")

LEAST_PERCENT, MOST_PERCENT = 30.0, 100.0
"""The percentages of thread that may be asked for."""

_USUAL_PERCENT = 72.5
"""Aimed at where no tapping drill is published: the middle of the usual 70 to 75 % (common practice)."""

_FACTORS: dict[Fit, float] = {"close": 1.05, "medium": 1.08, "free": 1.10}
_BY_RULE = Source(
    "rule",
    "1.05, 1.08 or 1.10 of the diameter for a close, medium or free fit, next drill up",
    "usage of the trade",
    "common practice",
)
_ASKED = Source(
    "asked", "worked out for the percentage of thread asked for", "basic profile", "common practice"
)
_USUAL = Source("usual", "worked out for 70 to 75 % of thread", "usage of the trade", "common practice")

TAP_LEAD_THREADS: dict[Tap, float] = {"taper": 9.0, "second": 4.5, "plug": 1.5}
"""Threads of chamfer at a tap's end that do not cut full depth: taper 8-10, second 4-5, plug 1-2."""


@dataclass(frozen=True, slots=True)
class ClearanceHole:
    """A hole that a screw passes through: its diameter and the drill that makes it.

    `drill` is None where none of the drills to choose from is large enough. `drill` is never smaller
    than the hole, but for the last 0.05 mm of a rounded table.
    """

    diameter_mm: float
    drill: Drill | None
    fit: Fit
    source: Source


@dataclass(frozen=True, slots=True)
class TappingHole:
    """A hole to be tapped: the size wanted, the drill nearest to it and the thread that drill leaves.

    `percent` is of the basis named in `basis`, with the drill. `hole_mm` is the table's or the
    computed size.
    """

    hole_mm: float
    drill: Drill
    percent: float
    basis: str
    source: Source

    @property
    def drill_mm(self) -> float:
        """The drill's diameter [mm]."""
        return self.drill.diameter_mm


def _usual_drills(thread: Thread) -> tuple[Drill, ...]:
    """The drills a thread is usually made with: named drills for Unified threads, metric for others."""
    return drills_of(["number", "letter", "fractional"] if thread.is_unified else ["metric"])


def clearance_hole(
    thread: Thread, fit: Fit = "medium", *, among: Iterable[Drill] | None = None
) -> ClearanceHole:
    """The clearance hole for a screw of a thread.

    ISO metric screws by ISO 273, Unified screws by ASME B18.2.8 (close, normal, loose). British
    threads have no standard here: a shop table prints one fit for most, which is given as medium and,
    there being no closer one, as close; the rest is 1.05, 1.08 or 1.10 D, next drill up.

    Args:
        thread: the screw's thread.
        fit: `close`, `medium` or `free`.
        among: the drills to choose from; None for all of the usual series.

    Returns:
        The hole, with its drill and source.

    Raises:
        InputError: for a fit that is none of the three.

    Source: ISO 273; ASME B18.2.8; common practice otherwise, as the result's source says.

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> hole = clearance_hole(find_thread("M5"))
        >>> hole.diameter_mm, hole.drill.name
        (5.5, '5.5 mm')
    """
    if fit not in FITS:
        raise InputError.of("A fit is close, medium or free.", field="fit", choices=FITS)
    diameter_mm, named, source = _clearance(thread, fit)
    if among is None and source is _BY_RULE:
        among = drills_of(["metric"])
    drill = _drill_for(thread, diameter_mm, named, among)
    return ClearanceHole(diameter_mm, drill, fit, source)


def _clearance(thread: Thread, fit: Fit) -> tuple[float, str, Source]:
    """The hole's diameter, the drill that the table names (or an empty text) and the source."""
    row = _clearance_row(thread)
    if row is not None and row.has(fit):
        return row.number(fit), row.text(f"{fit}_drill"), row.source
    least_mm = row.number("medium") if row is not None else 0.0
    if row is not None and fit == "close":
        return least_mm, row.text("medium_drill"), row.source
    by_rule = nearest_drill(_FACTORS[fit] * thread.major_mm, way="up", among=drills_of(["metric"]))
    return max(by_rule.diameter_mm, least_mm), "", _BY_RULE


def _clearance_row(thread: Thread) -> Row | None:
    if thread.is_metric:
        return load("clearance").find("metric", thread.size)
    return load("clearance").find("UN" if thread.is_unified else thread.system, thread.size)


def _drill_for(thread: Thread, diameter_mm: float, named: str, among: Iterable[Drill] | None) -> Drill | None:
    drills = _usual_drills(thread) if among is None else tuple(among)
    if among is None and named and thread.is_unified:
        by_name = [drill for drill in drills if drill.name.removesuffix(" in") == named]
        if by_name:
            return by_name[0]
    # ASME sizes over 1 in are rounded to 0.1 mm, so the drill meant may be up to 0.05 mm under the figure.
    slack_mm = 0.05 if thread.is_unified else 0.0
    fits = [drill for drill in drills if drill.diameter_mm >= diameter_mm - slack_mm]
    return nearest_drill(diameter_mm - slack_mm, way="up", among=fits) if fits else None


def engagement_percent(thread: Thread, hole_mm: float) -> float:
    """The percentage of thread that a tapped hole of this size leaves: 100 (D - hole) / full depth.

    Args:
        thread: the thread.
        hole_mm: the hole before tapping [mm], over 0.

    Returns:
        The percentage [%] of `thread.engagement_basis`; negative for a hole larger than the screw.

    Raises:
        InputError: for a hole that is not over 0.

    Source: ISO 68-1, ASME B1.1, BS 84 and BS 93 basic profiles; the convention is common practice.

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> round(engagement_percent(find_thread("M6"), 5.0))
        77
    """
    if not 0 < hole_mm < 1e6:
        raise InputError.of(
            "A hole must be over 0 mm wide.", field="hole", value=hole_mm, limit=0.0, unit="mm"
        )
    return 100 * (thread.major_mm - hole_mm) / thread.full_engagement_mm


def hole_for_percent(thread: Thread, engagement: float) -> float:
    """The hole that leaves a percentage of thread: D - engagement / 100 x full depth.

    Args:
        thread: the thread.
        engagement: the percentage wanted [%], 30 to 100.

    Returns:
        The hole's diameter before tapping [mm].

    Raises:
        InputError: for a percentage out of its range.

    Source: ISO 68-1, ASME B1.1, BS 84 and BS 93 basic profiles; the convention is common practice.

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> round(hole_for_percent(find_thread("M6"), 75), 3)
        5.026
    """
    if not LEAST_PERCENT <= engagement <= MOST_PERCENT:
        limit = LEAST_PERCENT if engagement < LEAST_PERCENT else MOST_PERCENT
        says = f"The engagement must be from {LEAST_PERCENT:g} to {MOST_PERCENT:g} percent of thread."
        raise InputError.of(says, field="engagement", value=engagement, limit=limit, unit="%")
    return thread.major_mm - engagement / 100 * thread.full_engagement_mm


def tapping_hole(
    thread: Thread, *, engagement: float | None = None, among: Iterable[Drill] | None = None
) -> TappingHole:
    """The hole to drill for tapping a thread, the drill for it, and the thread that it leaves.

    Args:
        thread: the thread.
        engagement: the percentage of thread wanted [%], 30 to 100; None for the recommended drill of
            the tables, or 72.5 % where the tables have none.
        among: the drills to choose from; None for all of the usual series.

    Returns:
        The hole, with the real drill nearest to it and the percentage which that drill leaves.

    Raises:
        InputError: for a percentage out of its range, or when there is no drill to choose from.

    Source: ISO 2306, BS 1157 and shop tables as the result's source says; else the basic profile.

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> hole = tapping_hole(find_thread("1/4-28 UNF"))
        >>> hole.drill.name, round(hole.percent)
        ('#3', 80)
        >>> tapping_hole(find_thread("2 BA"), engagement=62).drill.name
        '4.1 mm'
    """
    row = _tapping_row(thread) if engagement is None else None
    if row is None:
        hole_mm = hole_for_percent(thread, _USUAL_PERCENT if engagement is None else engagement)
        source = _USUAL if engagement is None else _ASKED
        drills = _usual_drills(thread)
    else:
        hole_mm, source = row.number("diameter"), row.source
        # Unified threads over 1 in have a metric drill alone in the tables.
        drills = drills_of(["metric"]) if row.text("series") == "metric" else _usual_drills(thread)
    drill = nearest_drill(hole_mm, among=drills if among is None else among)
    percent = engagement_percent(thread, drill.diameter_mm)
    return TappingHole(hole_mm, drill, percent, thread.engagement_basis, source)


def _tapping_row(thread: Thread) -> Row | None:
    table = load("tapping")
    inch = table.find(thread.designation, "inch") if thread.is_unified else None
    return inch or table.find(thread.designation, "metric")


def drill_point_mm(diameter_mm: float, point_deg: float = 118.0) -> float:
    """The height of the cone that a drill leaves at the bottom of a blind hole: (d / 2) / tan(point / 2).

    Args:
        diameter_mm: the drill's diameter [mm], over 0.
        point_deg: the point angle [deg], over 0 and at most 180.

    Returns:
        The cone's height [mm].

    Raises:
        InputError: for a diameter or an angle out of its range.

    Source: geometry; the 118 degree point is common practice (ASME B94.11M general purpose).

    Example:
        >>> round(drill_point_mm(10), 2)
        3.0
    """
    if not 0 < diameter_mm < 1e6:
        says = "A drill's diameter must be over 0 mm."
        raise InputError.of(says, field="diameter", value=diameter_mm, limit=0.0, unit="mm")
    if not 0 < point_deg <= 180:
        limit = 0.0 if not point_deg > 0 else 180.0
        says = "A drill's point angle must be over 0 and at most 180 degrees."
        raise InputError.of(says, field="point", value=point_deg, limit=limit, unit="deg")
    # A flat bottom has no cone; the tangent of a right angle is not quite without end.
    return 0.0 if point_deg == 180 else diameter_mm / 2 / math.tan(math.radians(point_deg) / 2)


def tap_lead_mm(thread: Thread, tap: Tap = "plug") -> float:
    """How much of a hole's depth the chamfered end of a tap leaves without full thread.

    Args:
        thread: the thread.
        tap: `taper` (9 threads of chamfer), `second` (4.5) or `plug` (1.5, also called bottoming).

    Returns:
        The length [mm].

    Raises:
        InputError: for a tap that is none of the three.

    Source: common practice (taper 8 to 10 threads, second 4 to 5, plug 1 to 2).

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> tap_lead_mm(find_thread("M6"), "second")
        4.5
    """
    if tap not in TAP_LEAD_THREADS:
        raise InputError.of("A tap is taper, second or plug.", field="tap", choices=tuple(TAP_LEAD_THREADS))
    return TAP_LEAD_THREADS[tap] * thread.pitch_mm
