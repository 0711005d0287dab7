"""Rules for nuts and washers."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import replace
from math import floor

from calculators.hardware.designation import write_hardware
from calculators.joints.lengths import holding_bite
from calculators.joints.mending import length_mend, number
from calculators.joints.model import Mend
from calculators.joints.rules.rule import Rule, Seen, rule, unchecked
from calculators.joints.sizes import washer_size
from calculators.joints.worked import Bite, Missing, Pressure, Worked
from calculators.quantities.errors import InputError

_TINY = 1e-6


@rule(
    "threads-past-nut",
    "A bolt shows 1 to 5 threads past its nut; in a dome nut it ends within the thread.",
    "common practice; dome nuts by DIN 1587 (from memory)",
)
def _threads_past_nut(w: Worked) -> Iterator[Seen]:
    """How far the bolt stands past its nut."""
    holding = holding_bite(w.stack)
    pitch = w.screw.pitch_mm
    if holding is None or holding.kind != "nut" or not pitch or holding.member.item < w.layers[-1].item:
        return
    nut = holding.member.nut
    if not holding.depth_mm:
        yield unchecked("The nut's height is not known, so the threads past it cannot be counted.")
        return
    past = w.tip_mm - holding.leave_mm
    threads, least, most = past / pitch, w.limits["threads-past-nut-least"], w.limits["threads-past-nut-most"]
    if nut is not None and nut.form == "dome":
        yield from _in_dome(w, holding, past)
        return
    if threads < -_TINY:
        says = (
            f"The bolt ends {-past:.1f} mm inside its nut ({threads:.1f} threads): the nut is "
            "not full and may strip."
        )
        yield Seen("error", says, "", threads, 0.0, "threads", length_mend(w))
    elif threads < least - _TINY:
        says = (
            f"{past:.1f} mm, {threads:.1f} threads, show past the nut: under {least:g} its "
            "last threads are not full."
        )
        yield Seen("warning", says, "", threads, least, "threads", length_mend(w))
    elif threads > most + _TINY:
        says = (
            f"{past:.1f} mm, {threads:.1f} threads, stand past the nut: more than {most:g} catch and corrode."
        )
        yield Seen("warning", says, "", threads, most, "threads", length_mend(w))


def _in_dome(w: Worked, holding: Bite, past: float) -> Iterator[Seen]:
    """A dome nut is closed: the bolt ends in its thread, and never at its cap."""
    inside, thread = w.tip_mm - holding.enter_mm, w.limits["dome-thread"] * holding.depth_mm
    full = w.limits["dome-engagement"] * w.screw.major_mm
    if past > 0:
        says = f"The bolt bottoms in the dome nut: it is {past:.1f} mm longer than the nut is high."
        yield Seen("error", says, "", past / (w.screw.pitch_mm or 1.0), 0.0, "threads", length_mend(w))
    elif inside > thread + _TINY:
        says = (
            f"The bolt goes {inside:.1f} mm into the dome nut, whose thread is about {thread:.1f} mm deep: "
            "it bottoms before it clamps."
        )
        yield Seen("error", says, "", inside, thread, "mm", length_mend(w))
    elif inside < full - _TINY:
        says = (
            f"The bolt goes {inside:.1f} mm into the dome nut: under {full:.1f} mm the nut is not full and "
            "may strip."
        )
        yield Seen("warning", says, "", inside, full, "mm", length_mend(w))


@rule(
    "thin-nut-order",
    "Of two nuts the thin one lies against the joint and is tightened first, the full one on top of it.",
    "Eccles, on locking with two nuts (as quoted); common practice. Old machines show the other way",
)
def _thin_nut_order(w: Worked) -> Iterator[Seen]:
    """The order of a thin and a full nut."""
    last, first = w.layers[-1].item, w.layers[0].item
    behind = [m.nut for m in w.stack.members if m.nut is not None and m.item > last]
    ahead = [m.nut for m in w.stack.members if m.nut is not None and m.item < first]
    for nuts in (behind, ahead[::-1]):  # from the joint outwards
        forms = [nut.form for nut in nuts]
        if "half" in forms and "full" in forms and forms.index("full") < forms.index("half"):
            says = (
                "The full nut lies against the joint and the thin one on top: the thin nut "
                "then carries the load."
            )
            mend = Mend(
                "Put the thin nut on first, at a quarter to half the torque; hold it, then the full nut."
            )
            yield Seen("warning", says, mends=(mend,))


@rule(
    "washer-pressure",
    "A washer, head or nut presses on wood with less than its strength across the grain.",
    "USDA Wood Handbook table 5-3, compression perpendicular to the grain; F = T / (K d), K = 0.2 dry",
)
def _washer_pressure(w: Worked) -> Iterator[Seen]:
    """The pressure of heads, nuts and washers on wood."""
    for pressure in w.pressures:
        member = pressure.member
        if member.material is None:
            says = f"The material of {member.part} is not known, so the pressure on it cannot be checked."
            yield unchecked(says, member.part)
        elif member.is_wood:
            yield from _on_wood(w, pressure)


def _on_wood(w: Worked, pressure: Pressure) -> Iterator[Seen]:
    part, material = pressure.member.part, pressure.member.material
    strength = material.compression_perpendicular_mpa if material else None
    what = f"the {pressure.bearer} on {part}"
    if pressure.area_mm2 is None:
        yield unchecked(
            f"The width of {what} is not known or no wider than the hole: its pressure cannot be told.", part
        )
    elif not strength:
        name = material.name if material else part
        yield unchecked(
            f"No strength across the grain is known for {name}: the pressure of {what} cannot be checked.",
            part,
        )
    elif pressure.mpa is None:
        says = f"No torque is given, so the pressure of {what} cannot be checked."
        most = _torque(w)
        mend = Mend(f"State the torque; up to {most:g} N m leaves a margin here.", "torque_nm", number(most))
        yield unchecked(says, part, (mend,))
    else:
        share = 100 * pressure.mpa / strength
        most, good = w.limits["washer-pressure-most"], w.limits["washer-pressure"]
        if share <= good + _TINY:
            return
        says = (
            f"{what[0].upper()}{what[1:]} presses with {pressure.mpa:.1f} MPa ({w.preload_n:.0f} N over "
            f"{pressure.area_mm2:.0f} mm2), {share:.0f} % of the {strength:.1f} MPa that the wood bears: "
            + (
                "it crushes, and the joint goes loose."
                if share > most
                else "little margin for a season's movement."
            )
        )
        mends = _less_pressure(w, pressure)
        error = share > most + _TINY
        yield Seen("error" if error else "warning", says, part, share, most if error else good, "%", mends)


def _torque(w: Worked) -> float:
    """The torque that keeps every pressure on wood within the good limit, down to a tenth [N m]."""
    forces = [
        each.member.material.compression_perpendicular_mpa * each.area_mm2
        for each in w.pressures
        if each.area_mm2 and each.member.material and each.member.material.compression_perpendicular_mpa
    ]
    force = w.limits["washer-pressure"] / 100 * min(forces)
    torque = force * w.joint.nut_factor * w.screw.major_mm / 1000
    return floor(torque * 10) / 10 if torque >= 0.1 else floor(torque * 1000) / 1000


def _less_pressure(w: Worked, pressure: Pressure) -> tuple[Mend, ...]:
    torque = _torque(w)
    mends = [Mend(f"Tighten to {torque:g} N m at most.", "torque_nm", number(torque))]
    held = pressure.washer.washer if pressure.washer else None
    if pressure.washer is not None and held is not None and held.form in ("plain", "small"):
        larger = replace(held, form="repair", outside=None, thickness=None)
        size = washer_size(larger)
        try:
            text = write_hardware(larger)
        except InputError:
            text = ""
        if text and not isinstance(size, Missing) and size.outside_mm > (pressure.outside_mm or 0):
            says = f"Use a repair washer, {size.outside_mm:g} mm wide."
            mends.append(Mend(says, pressure.washer.path, text))
    return tuple(mends)


@rule(
    "washer-thickness",
    "A washer on wood is at least a twelfth as thick as it is wider than the head or nut on it.",
    "common practice",
)
def _washer_thickness(w: Worked) -> Iterator[Seen]:
    """Whether a washer is stiff enough to spread its load."""
    divisor = w.limits["washer-spread"]
    for pressure in w.pressures:
        washer = pressure.washer
        if washer is None or not pressure.member.is_wood or not divisor:
            continue
        if not washer.outside_mm or pressure.spread_mm is None:
            what = "head" if pressure.bearer.endswith("head") else "nut"
            yield unchecked(
                f"The width of the {what} or its washer is not known: its thickness cannot be checked."
            )
            continue
        needed = (washer.outside_mm - pressure.spread_mm) / divisor
        if washer.bears_mm < needed - 0.005:
            says = (
                f"The {pressure.bearer} is {washer.bears_mm:.2f} mm thick; {washer.outside_mm:g} "
                "mm wide it needs "
                f"{needed:.2f} mm, or it dishes and presses at its hole alone."
            )
            thick = number(-floor(-needed * 10) / 10)
            mend = Mend(
                f"Use a thicker washer, or two: {thick} mm.",
                f"stack[{washer.item}].measured.thickness_mm",
                thick,
            )
            yield Seen("warning", says, pressure.member.part, washer.bears_mm, needed, "mm", (mend,))


RULES: tuple[Rule, ...] = (_threads_past_nut, _thin_nut_order, _washer_pressure, _washer_thickness)
