"""The shape of a screw's tooth and of a nut's groove, at basic sizes or at sizes within the limits.

A radius is measured from the axis, a half-width from the middle of the tooth or groove, along the axis.
Whitworth and British Association crests and roots are rounded; those of the 60 degree forms are taken
flat, as their basic profile is.
"""

from __future__ import annotations

import math
from dataclasses import dataclass

from calculators.hardware.thread_limits import ThreadLimits, limits_of
from calculators.hardware.thread_sizes import Thread

CREST_RADII = {"Whitworth": 0.137329, "BA": 0.180834}
"""Radius of crest and root in pitches: BS 84 and BS 93 (from memory; the depth of each form gives it too)."""

STATES = ("basic", "tight", "ordinary", "slack")
"""Basic sizes; largest screw and smallest nut; middle of the tolerances; smallest screw and largest nut."""


@dataclass(frozen=True, slots=True)
class Profile:
    """A screw or a nut as made [mm]: its diameters, pitch, half of its flank angle [rad], rounding."""

    major_mm: float
    pitch_diameter_mm: float
    minor_mm: float
    pitch_mm: float
    half_angle: float
    round_mm: float = 0.0

    def tooth_mm(self, radius_mm: float) -> float:
        """Half of the width of a screw's tooth at a radius: nought beyond the crest, p/2 at the root [mm]."""
        if radius_mm > self.major_mm / 2:
            return 0.0
        if radius_mm < self.minor_mm / 2:
            return self.pitch_mm / 2
        return min(self._flank_mm(radius_mm), self._under_arc_mm(self.major_mm / 2 - radius_mm))

    def groove_mm(self, radius_mm: float) -> float:
        """Half of the width of a nut's groove at a radius: nought beyond its root, p/2 in its bore [mm]."""
        if radius_mm > self.major_mm / 2:
            return 0.0
        if radius_mm < self.minor_mm / 2:
            return self.pitch_mm / 2
        return min(self._flank_mm(radius_mm), self._under_arc_mm(self.major_mm / 2 - radius_mm))

    def _flank_mm(self, radius_mm: float) -> float:
        """Half of the width between straight flanks: a quarter of the pitch at the pitch line."""
        out = radius_mm - self.pitch_diameter_mm / 2
        return max(0.0, self.pitch_mm / 4 - out * math.tan(self.half_angle))

    def _under_arc_mm(self, depth_mm: float) -> float:
        """Half of the width of the rounding at a depth under its top; no bound below the rounding."""
        r = self.round_mm
        if r <= 0 or depth_mm >= r * (1 - math.sin(self.half_angle)):
            return self.pitch_mm / 2
        return math.sqrt(max(0.0, r * r - (r - depth_mm) ** 2))


def screw_profile(thread: Thread, state: str = "basic") -> Profile:
    """The profile of a thread's screw.

    Args:
        thread: a thread of the tables.
        state: one of `STATES`.

    Returns:
        The profile; a screw that is under size is so at its crest and at its pitch line, each by its own
        tolerance, and its root goes with the pitch line.

    Source: the basic profiles of ISO 68-1, ASME B1.1, BS 84, BS 93; limits as in `limits_of`.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> round(screw_profile(find_thread("M6"), "tight").major_mm, 3)
        5.974
    """
    limits = limits_of(thread)
    major, pitch = thread.major_mm, thread.pitch_diameter_mm
    if state != "basic":
        major, pitch = (_of(state, each) for each in (limits.screw_major_mm, limits.screw_pitch_diameter_mm))
    core = thread.core_diameter_mm + pitch - thread.pitch_diameter_mm
    return _profile(thread, major, pitch, core)


def nut_profile(thread: Thread, state: str = "basic") -> Profile:
    """The profile of a thread's nut.

    Args:
        thread: a thread of the tables.
        state: one of `STATES`.

    Returns:
        The profile; the root of a nut that is over size goes with its pitch line, as a tap cuts both.

    Source: the basic profiles of ISO 68-1, ASME B1.1, BS 84, BS 93; limits as in `limits_of`.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> round(nut_profile(find_thread("M6"), "slack").minor_mm, 3)
        5.153
    """
    limits: ThreadLimits = limits_of(thread)
    pitch, minor = thread.pitch_diameter_mm, thread.minor_diameter_mm
    if state not in ("basic", "tight"):
        least, most = limits.nut_pitch_diameter_mm, limits.nut_minor_mm
        pitch, minor = (sum(least) / 2, sum(most) / 2) if state == "ordinary" else (least[1], most[1])
    return _profile(thread, thread.major_mm + pitch - thread.pitch_diameter_mm, pitch, minor)


def _of(state: str, limits: tuple[float, float]) -> float:
    return {"tight": limits[1], "ordinary": sum(limits) / 2, "slack": limits[0]}[state]


def _profile(thread: Thread, major: float, pitch: float, minor: float) -> Profile:
    form = "BA" if thread.angle_deg < 50 else "Whitworth" if thread.angle_deg < 58 else "ISO"
    rounding = CREST_RADII.get(form, 0.0) * thread.pitch_mm
    return Profile(major, pitch, minor, thread.pitch_mm, math.radians(thread.angle_deg) / 2, rounding)


def play_mm(screw: Profile, nut: Profile) -> float:
    """How far one tooth of a screw can be moved along the axis each way in the middle of one groove of a nut.

    The least difference of the half-widths of groove and tooth over the radii where there is metal of both.

    Args:
        screw: the screw's profile.
        nut: the nut's profile.

    Returns:
        The play each way [mm]; less than nought where the one is in the way of the other, by so much; half
        of the nut's pitch where the screw does not reach the nut's thread at all.

    Source: this project.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> m5 = find_thread("M5")
        >>> round(play_mm(screw_profile(m5), nut_profile(m5)), 6)
        0.0
    """
    low, high = nut.minor_mm / 2, screw.major_mm / 2
    if low >= high:
        return nut.pitch_mm / 2
    radii = [low + (high - low) * place / 48 for place in range(49)]
    # A radius a hair inside each end: there the crest itself is what touches.
    radii[0], radii[-1] = low + 1e-9, high - 1e-9
    return min(nut.groove_mm(each) - screw.tooth_mm(each) for each in radii)
