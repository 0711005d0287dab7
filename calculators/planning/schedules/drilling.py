"""One hole as it is made: its sizes, its drill by name, and the steps in their order."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from calculators.hardware.drills import nearest_drill
from calculators.hardware.holes import clearance_hole, tapping_hole
from calculators.hardware.threads import find_thread
from calculators.joints.model import LayerHole
from calculators.planning.model import Component, Hole
from calculators.planning.schedules.cutting import is_wood
from calculators.planning.worked import Entry
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

PILOT_FROM_MM = 6.0
"""A hole in metal of more than this is begun with a pilot drill (common practice)."""

METAL_PILOT_MM = 3.0
REAM_UNDER_MM = 0.2
"""How much is left for the reamer (common practice)."""

_NAMED_MM = 0.02
"""A drill within this of the size is the drill for it [mm]."""


@dataclass(frozen=True, slots=True)
class Drilling:
    """A hole's sizes in millimetres and the steps that make it; None where there is nothing of the kind."""

    kind: str
    diameter_mm: float | None
    drill: str
    depth_mm: float | None
    countersink_diameter_mm: float | None = None
    countersink_angle_deg: float | None = None
    counterbore_diameter_mm: float | None = None
    counterbore_depth_mm: float | None = None
    slot_length_mm: float | None = None
    slot_along: str = ""
    thread: str = ""
    thread_depth_mm: float | None = None
    steps: tuple[str, ...] = ()
    basis: str = ""
    note: str = ""


def drilling_of_layer(hole: LayerHole, part: Component, entry: Entry = "in") -> Drilling:
    """Say how a hole that follows from a joint is made.

    Args:
        hole: the hole as the joint needs it.
        part: the part it is in.
        entry: whether the screw comes in or goes out by the face; a countersink is only where it comes in.

    Returns:
        The drilling, with its steps.

    Source: common practice.
    """
    here = entry == "in"
    drilling = Drilling(
        hole.kind,
        hole.diameter_mm,
        hole.drill,
        hole.depth_mm,
        hole.countersink_diameter_mm if here else None,
        hole.countersink_angle_deg if here else None,
        hole.counterbore_diameter_mm if here else None,
        hole.counterbore_depth_mm if here else None,
        hole.slot_length_mm,
        hole.slot_along,
        hole.thread,
        hole.thread_depth_mm,
        basis=hole.basis,
    )
    return replace(drilling, steps=tuple(_steps(drilling, is_wood(part))))


def drilling_of_direct(hole: Hole, part: Component) -> Drilling:
    """Say how a hole that a person placed is made; its drill is found from its size or its thread.

    Args:
        hole: the hole.
        part: the part it is in.

    Returns:
        The drilling, with its steps; without a diameter where neither size nor readable thread is given.

    Source: tapping and clearance holes as in `calculators.hardware.holes`; else common practice.

    Example:
        >>> from calculators.quantities.length import Length
        >>> hole = Hole("h1", "top", Length(0), Length(0), kind="tapping", thread="M5")
        >>> drilling_of_direct(hole, Component("P1", "Plate", material="brass")).drill
        '4.2 mm'
    """
    diameter_mm, drill, thread, note = _size_of(hole)
    if hole.kind not in ("tapping", "insert"):
        thread = ""
    drilling = Drilling(
        hole.kind,
        diameter_mm,
        drill,
        _mm(hole.depth),
        _mm(hole.countersink_diameter),
        float(hole.countersink_angle_deg) if hole.countersink_angle_deg is not None else None,
        _mm(hole.counterbore_diameter),
        _mm(hole.counterbore_depth),
        _mm(hole.slot_length),
        hole.slot_along,
        thread,
        _mm(hole.thread_depth),
        note="; ".join(part for part in (note, hole.note) if part),
    )
    return replace(drilling, steps=tuple(_steps(drilling, is_wood(part))))


def _mm(length: Length | None) -> float | None:
    return length.mm if length is not None else None


def _size_of(hole: Hole) -> tuple[float | None, str, str, str]:
    """The diameter, drill, thread in canonical writing and a note of a hole placed by hand."""
    if hole.diameter is None:
        return _size_by_thread(hole.kind, hole.thread)
    _, _, shown, note = _size_by_thread("", hole.thread)
    return hole.diameter.mm, drill_named(hole.diameter.mm), shown, note


# A build repeats a few sizes many times, and each look-up goes through hundreds of drills.
@lru_cache(maxsize=1024)
def _size_by_thread(kind: str, written: str) -> tuple[float | None, str, str, str]:
    """The same where no diameter is stated."""
    try:
        thread = find_thread(written) if written else None
    except InputError:
        return None, "", written, "the thread is not known"
    shown = thread.designation if thread is not None else ""
    if thread is not None and kind == "tapping":
        tapping = tapping_hole(thread)
        return tapping.drill_mm, tapping.drill.name, shown, f"{tapping.percent:.0f} % of thread"
    if thread is not None and kind == "clearance":
        clearance = clearance_hole(thread)
        name = clearance.drill.name if clearance.drill is not None else ""
        return clearance.diameter_mm, name, "", f"clears {shown}"
    return None, "", shown, "" if kind in ("", "spot") else "its diameter is not stated"


@lru_cache(maxsize=1024)
def drill_named(diameter_mm: float | None) -> str:
    """Name the drill of a size.

    Args:
        diameter_mm: the diameter [mm], or None.

    Returns:
        Its name; nothing where no drill is within 0.02 mm.

    Source: the table of drills.

    Example:
        >>> drill_named(5.5), drill_named(5.53), drill_named(None)
        ('5.5 mm', '', '')
    """
    if diameter_mm is None or diameter_mm <= 0:
        return ""
    try:
        found = nearest_drill(diameter_mm)
    except InputError:
        return ""
    return found.name if abs(found.diameter_mm - diameter_mm) <= _NAMED_MM else ""


def _steps(hole: Drilling, wood: bool) -> Iterator[str]:
    """The steps in the order of the bench: centre, pilot, final, then what is cut after."""
    if hole.kind == "spot":
        yield "spot through from its mate"
        if hole.diameter_mm is None:
            return
    else:
        yield "centre"
    if hole.diameter_mm is None:
        return
    depth = "through" if hole.depth_mm is None else f"{_shown(hole.depth_mm)} deep"
    final = hole.drill or f"{_shown(hole.diameter_mm)} mm"
    if not wood and hole.diameter_mm > PILOT_FROM_MM:
        yield f"pilot {_shown(METAL_PILOT_MM)} mm, {depth}"
    if hole.kind == "reamed":
        yield f"drill {_shown(hole.diameter_mm - REAM_UNDER_MM)} mm, {depth}"
        yield f"ream {_shown(hole.diameter_mm)} mm"
    elif hole.slot_length_mm is not None:
        along = f" along {hole.slot_along}" if hole.slot_along else ""
        yield f"drill {final} at both ends, {depth}"
        yield f"open to a slot {_shown(hole.slot_length_mm)} mm long{along}"
    else:
        yield f"drill {final}, {depth}"
    yield from _after(hole)


def _after(hole: Drilling) -> Iterator[str]:
    if hole.counterbore_diameter_mm is not None:
        deep = f", {_shown(hole.counterbore_depth_mm)} deep" if hole.counterbore_depth_mm is not None else ""
        yield f"counterbore {_shown(hole.counterbore_diameter_mm)} mm{deep}"
    if hole.countersink_diameter_mm is not None:
        angle = f" at {hole.countersink_angle_deg:g} deg" if hole.countersink_angle_deg is not None else ""
        yield f"countersink to {_shown(hole.countersink_diameter_mm)} mm{angle}"
    if hole.thread and hole.kind == "tapping":
        deep = f", {_shown(hole.thread_depth_mm)} deep" if hole.thread_depth_mm is not None else ""
        yield f"tap {hole.thread}{deep}"


def _shown(value_mm: float) -> str:
    """Millimetres to the hundredth, as they are set on a caliper."""
    return f"{value_mm:.2f}".rstrip("0").rstrip(".")
