"""Three wires in a thread: which wires, what a micrometer reads over them, and the pitch diameter from it."""

from __future__ import annotations

import math

from calculators.hardware.thread_profile import CREST_RADII
from calculators.hardware.thread_sizes import Thread


def best_wire_mm(pitch_mm: float, angle_deg: float) -> float:
    """The wire that touches the flanks at the pitch line, where an error of the angle counts least.

    w = p / (2 cos a), a being half of the flank angle.

    Args:
        pitch_mm: [mm] pitch, over 0.
        angle_deg: [deg] flank angle, over 0 and under 180.

    Returns:
        The wire's diameter [mm].

    Source: geometry; 0.57735 p, 0.56369 p and 0.54626 p of a maker's sheet of wire formulas.

    Example:
        >>> round(best_wire_mm(1.0, 60), 5)
        0.57735
    """
    return pitch_mm / (2 * math.cos(math.radians(angle_deg) / 2))


def wire_range_mm(thread: Thread) -> tuple[float, float]:
    """The smallest and the largest wire that measure a thread.

    The smallest lies level with the crest: w (1 + 1/sin a) / 2 is the depth from the crest to the sharp root.
    The largest touches where the straight flank ends: w = 2 x / cos a, x being half of the groove there.

    Args:
        thread: a thread of the tables.

    Returns:
        The two diameters [mm].

    Source: geometry; basic profiles of ISO 68-1, ASME B1.1, BS 84, BS 93.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> [round(each, 4) for each in wire_range_mm(find_thread("M6"))]
        [0.5052, 1.0104]
    """
    a, p = math.radians(thread.angle_deg) / 2, thread.pitch_mm
    height = p / (2 * math.tan(a))
    crest_to_sharp_root = height / 2 + (thread.major_mm - thread.pitch_diameter_mm) / 2
    if thread.angle_deg > 58:
        groove = p / 2 - p / 16
    else:
        rounding = CREST_RADII["BA" if thread.angle_deg < 50 else "Whitworth"]
        groove = p / 2 - rounding * p * math.cos(a)
    return 2 * crest_to_sharp_root / (1 + 1 / math.sin(a)), 2 * groove / math.cos(a)


def lead_correction_mm(wire_mm: float, pitch_mm: float, pitch_diameter_mm: float, angle_deg: float) -> float:
    """What the slope of the thread adds to a reading over wires: c = w/2 tan^2(lead angle) cos a cot a.

    Args:
        wire_mm: [mm] diameter of the wires, over 0.
        pitch_mm: [mm] pitch, of a thread of one start, over 0.
        pitch_diameter_mm: [mm] pitch diameter, over 0.
        angle_deg: [deg] flank angle, over 0 and under 180.

    Returns:
        The correction [mm].

    Source: Machinery's Handbook, "Measuring screw threads", approximate formula with the lead angle (from
        memory); good where the lead angle is less than 5 degrees.

    Example:
        >>> round(lead_correction_mm(0.57735, 1.0, 5.35, 60), 4)
        0.0015
    """
    a, slope = math.radians(angle_deg) / 2, pitch_mm / (math.pi * pitch_diameter_mm)
    return wire_mm / 2 * slope**2 * math.cos(a) / math.tan(a)


def reading_over_wires_mm(
    pitch_diameter_mm: float, wire_mm: float, pitch_mm: float, angle_deg: float, *, lead: bool = True
) -> float:
    """What a micrometer reads over three wires: M = E + w (1 + 1/sin a) - p/2 cot a + c.

    Args:
        pitch_diameter_mm: [mm] pitch diameter E, over 0.
        wire_mm: [mm] diameter of the wires, over 0.
        pitch_mm: [mm] pitch, of a thread of one start, over 0.
        angle_deg: [deg] flank angle, over 0 and under 180.
        lead: whether the correction c for the lead angle is in it.

    Returns:
        The reading [mm].

    Source: Machinery's Handbook, "Measuring screw threads", three-wire method (from memory).

    Example:
        >>> round(reading_over_wires_mm(0.2164 * 25.4, 0.028868 * 25.4, 1.27, 60, lead=False) / 25.4, 4)
        0.2597
    """
    a = math.radians(angle_deg) / 2
    correction = lead_correction_mm(wire_mm, pitch_mm, pitch_diameter_mm, angle_deg) if lead else 0.0
    return pitch_diameter_mm + wire_mm * (1 + 1 / math.sin(a)) - pitch_mm / 2 / math.tan(a) + correction


def pitch_diameter_from_mm(
    reading_mm: float, wire_mm: float, pitch_mm: float, angle_deg: float, *, lead: bool = True
) -> float:
    """The pitch diameter from a reading over three wires: `reading_over_wires_mm` solved for E.

    Args:
        reading_mm: [mm] reading over the wires, over 0.
        wire_mm: [mm] diameter of the wires, over 0.
        pitch_mm: [mm] pitch, of a thread of one start, over 0.
        angle_deg: [deg] flank angle, over 0 and under 180.
        lead: whether the correction for the lead angle is taken off.

    Returns:
        The pitch diameter [mm]; nought or less where no thread gives such a reading.

    Source: Machinery's Handbook, "Measuring screw threads", three-wire method (from memory).

    Example:
        >>> round(pitch_diameter_from_mm(6.5964, 0.7332, 1.27, 60, lead=False), 3)
        5.497
    """
    a = math.radians(angle_deg) / 2
    plain = reading_mm - wire_mm * (1 + 1 / math.sin(a)) + pitch_mm / 2 / math.tan(a)
    found = plain
    if lead and plain > pitch_mm / 2:
        # The correction is some thousandths of a millimetre; three rounds leave nothing of the error.
        for _ in range(3):
            found = plain - lead_correction_mm(wire_mm, pitch_mm, max(found, pitch_mm / 2), angle_deg)
    return found
