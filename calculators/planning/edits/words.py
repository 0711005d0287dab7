"""Holes, fasteners and lengths in a few words, so that what was and what is can stand side by side."""

from __future__ import annotations

from calculators.hardware.designation import write_hardware
from calculators.planning.model import Build, Component
from calculators.planning.schedules.drilling import Drilling, drilling_of_direct, drilling_of_layer
from calculators.planning.schedules.fasteners import house_writing
from calculators.planning.worked import WorkedHole, WorkedJoint


def shown(value_mm: float) -> str:
    """Write millimetres to the hundredth.

    Args:
        value_mm: the size [mm].

    Returns:
        The number alone.

    Source: this project.

    Example:
        >>> shown(5.5), shown(12.0)
        ('5.5', '12')
    """
    return f"{value_mm:.2f}".rstrip("0").rstrip(".")


def drilling_of(hole: WorkedHole, part: Component) -> Drilling:
    """Say how a hole of a part is made, whether it follows from a joint or was placed by hand.

    Args:
        hole: the hole.
        part: the part.

    Returns:
        The drilling.

    Source: as the schedule of holes.
    """
    if hole.direct is not None:
        return drilling_of_direct(hole.direct, part)
    if hole.hole is not None:
        return drilling_of_layer(hole.hole, part, hole.entry)
    return Drilling("plain", None, "", None)


def hole_words(made: Drilling) -> str:
    """Say a hole's sizes in millimetres.

    Args:
        made: how it is made.

    Returns:
        Words such as `clearance 5.5, countersunk 10.4 at 90 deg`.

    Source: this project.

    Example:
        >>> hole_words(Drilling("tapping", 4.2, "4.2 mm", 12.0, thread="M5"))
        'tapping 4.2 for M5, 12 deep'
    """
    words = [made.kind]
    if made.diameter_mm is not None and made.slot_length_mm is not None:
        along = f" along {made.slot_along}" if made.slot_along else ""
        words.append(f"{shown(made.diameter_mm)} x {shown(made.slot_length_mm)}{along}")
    elif made.diameter_mm is not None:
        words.append(shown(made.diameter_mm))
    if made.thread:
        words.append(f"for {made.thread}")
    said = [" ".join(words)]
    if made.depth_mm is not None:
        said.append(f"{shown(made.depth_mm)} deep")
    if made.thread_depth_mm is not None:
        said.append(f"thread {shown(made.thread_depth_mm)}")
    if made.countersink_diameter_mm is not None:
        angle = f" at {made.countersink_angle_deg:g} deg" if made.countersink_angle_deg is not None else ""
        said.append(f"countersunk {shown(made.countersink_diameter_mm)}{angle}")
    if made.counterbore_diameter_mm is not None:
        deep = f" x {shown(made.counterbore_depth_mm)}" if made.counterbore_depth_mm is not None else ""
        said.append(f"counterbored {shown(made.counterbore_diameter_mm)}{deep}")
    return ", ".join(said)


def place_words(hole: WorkedHole) -> str:
    """Say where a hole is marked out.

    Args:
        hole: the hole.

    Returns:
        Words such as `at 30, 12.5 on top`; nothing where its place is not known.

    Source: this project.
    """
    if hole.u_mm is None:
        return ""
    across = f"{shown(hole.angle_deg)} deg" if hole.angle_deg is not None else shown(hole.v_mm or 0.0)
    hand = ", other hand" if hole.mirrored else ""
    return f"at {shown(hole.u_mm)}, {across} on {hole.face}{hand}"


def fastener_words(one: WorkedJoint, build: Build) -> str:
    """Write a joint's fastener in its canonical form, with the length chosen.

    Args:
        one: the joint worked out.
        build: its build.

    Returns:
        Its designation.

    Source: this project.
    """
    return write_hardware(house_writing(one.result.fastener, build))


def needed_words(one: WorkedJoint) -> str:
    """Say what length a joint needs.

    Args:
        one: the joint worked out.

    Returns:
        Words such as `24 to 31.5 mm`; nothing where no length can do.

    Source: this project.
    """
    needed = one.result.length_needed_mm
    return f"{shown(needed[0])} to {shown(needed[1])} mm" if needed is not None else ""


def length_words(one: WorkedJoint) -> str:
    """Say how long a joint's fastener is.

    Args:
        one: the joint worked out.

    Returns:
        Its length as written with its unit, or what it is cut to; nothing where none is chosen.

    Source: this project.
    """
    length = one.result.fastener.cut_to or one.result.fastener.length
    if length is None:
        return ""
    text = length.written or f"{length.exact_mm:f}"
    return text if text[-1].isalpha() or text[-1] in "\"'″′" else f"{text} {length.unit}"
