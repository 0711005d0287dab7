"""Blind tapped holes: how deep to drill, and what is left of the part behind them."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.hardware.holes import TAP_LEAD_THREADS, Tap, drill_point_mm
from calculators.hardware.threads import Thread
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class BlindHole:
    """A blind tapped hole [mm]: its full thread, the tap's lead, spare depth and the drill's point."""

    full_thread_mm: float
    lead_mm: float
    spare_mm: float
    point_mm: float

    @property
    def full_diameter_mm(self) -> float:
        """How deep the drill goes with its full diameter."""
        return self.full_thread_mm + self.lead_mm + self.spare_mm

    @property
    def to_point_mm(self) -> float:
        """How deep the tip of the drill goes."""
        return self.full_diameter_mm + self.point_mm


def blind_hole(
    thread: Thread,
    full_thread_mm: float,
    drill_mm: float,
    *,
    tap: Tap = "second",
    lead_threads: float | None = None,
    point_deg: float = 118.0,
    spare_mm: float = 0.0,
) -> BlindHole:
    """Work out how deep to drill for so much full thread.

        depth = thread + lead x pitch + spare + (d/2) / tan(point/2)

    Args:
        thread: the thread.
        full_thread_mm: [mm] the depth of full thread wanted, over 0.
        drill_mm: [mm] the tapping drill.
        tap: the last tap that is run in: `taper`, `second` or `plug`.
        lead_threads: [1] the tap's threads that do not cut full; None for the usual number.
        point_deg: [deg] the drill's point angle.
        spare_mm: [mm] more depth, for chips, 0 or more.

    Returns:
        The hole.

    Raises:
        InputError: for a drill that leaves no thread or is smaller than the thread's core.

    Source: geometry; leads of taps common practice.

    Example:
        >>> from calculators.hardware.threads import find_thread
        >>> hole = blind_hole(find_thread("M5"), 8, 4.2, lead_threads=4)
        >>> round(hole.full_diameter_mm, 2), round(hole.to_point_mm, 2)
        (11.2, 12.46)
    """
    if not thread.major_mm * 0.5 < drill_mm < thread.major_mm:
        says = f"A drill of {drill_mm:g} mm is no tapping drill for {thread.designation}; write one under "
        says += f"{thread.major_mm:g} mm, near its tapping size."
        raise InputError.of(says, field="drill", value=drill_mm, limit=thread.major_mm, unit="mm")
    lead = (TAP_LEAD_THREADS[tap] if lead_threads is None else lead_threads) * thread.pitch_mm
    return BlindHole(full_thread_mm, lead, spare_mm, drill_point_mm(drill_mm, point_deg))
