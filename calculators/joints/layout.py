"""The joint laid out and drilled, before the rules look at it."""

from __future__ import annotations

from dataclasses import replace

from calculators.hardware.fastener import Fastener
from calculators.joints.boring import drills_owned
from calculators.joints.checking import check_joint
from calculators.joints.drilling import holes_of
from calculators.joints.holding import engaged, preload_n, pressures
from calculators.joints.laying import lay_stack
from calculators.joints.lengths import choose_length, holding_bite, needed_length, plain_of, stock_of, within
from calculators.joints.limits import limits_with
from calculators.joints.model import JointInput
from calculators.joints.sizes import screw_of
from calculators.joints.worked import Bite, Missing, Range, Worked


def lay_out(joint: JointInput) -> Worked:
    """Work out a joint without asking the rules.

    Args:
        joint: the joint.

    Returns:
        Everything that the rules look at.

    Raises:
        InputError: as `work_joint`.

    Source: as `work_joint`.
    """
    check_joint(joint)
    limits = limits_with(joint.limits)
    screw, missing = screw_of(joint)
    stack, lost = lay_stack(joint, screw)
    needed = needed_length(joint, screw, stack, limits)
    stock = stock_of(joint.fastener)
    length, fits = choose_length(joint, stock, needed)
    fastener = joint.fastener if length is None else replace(joint.fastener, length=length)
    long_mm = _length_mm(fastener, needed, stack.layers[-1].leave_mm - stack.starts_mm)
    plain = plain_of(_unmeasured(fastener), long_mm) if long_mm <= 10_000 else None
    tip = stack.starts_mm + long_mm
    owned = drills_owned(joint.drills)
    gaps = [gap for gap in (stock, owned) if isinstance(gap, Missing)]
    worked = Worked(
        joint, fastener, screw, stack, long_mm, tip, plain, needed,
        () if isinstance(stock, Missing) or needed is None else tuple(x.mm for x in within(stock, needed)),
        not isinstance(stock, Missing), fits, engaged(stack.bites, plain, stack.starts_mm, tip),
        (), (), preload_n(joint, screw), limits, (*missing, *lost, *gaps),
    )  # fmt: skip
    worked = replace(worked, holes=holes_of(worked))
    openings = tuple(hole.diameter_mm for hole in worked.holes)
    return replace(worked, pressures=pressures(joint, screw, stack, openings, worked.preload_n))


def _unmeasured(fastener: Fastener) -> Fastener:
    """The fastener without its length, so that look-ups of the same screw are remembered."""
    return replace(fastener, length=None, cut_to=None)


def _length_mm(fastener: Fastener, needed: Range | None, through_mm: float) -> float:
    """The length as made: cut to, else its own, else the middle of what is needed."""
    for length in (fastener.cut_to, fastener.length):
        if length is not None:
            return length.mm
    if needed is not None:
        return max((needed.least_mm + needed.most_mm) / 2, 0.1)
    return max(through_mm, 0.1)


def behind_point_mm(worked: Worked) -> float | None:
    """What is left of the last part behind the screw's point; negative where a wood screw comes out [mm].

    Args:
        worked: the joint.

    Returns:
        The material left [mm]; None where a machine screw goes right through or never gets there.

    Source: geometry.
    """
    last = worked.layers[-1]
    left = last.leave_mm - worked.tip_mm
    if worked.point_piece is not None:
        return worked.point_piece.leave_mm - worked.tip_mm
    return left if 0 <= left <= last.bears_mm else None


def protrusion_mm(worked: Worked) -> float | None:
    """How far the screw stands past the last nut, or out of a thread that goes right through [mm].

    Args:
        worked: the joint.

    Returns:
        The length [mm], past a nut negative where it does not fill it; None where it does not apply.

    Source: geometry.
    """
    holding: Bite | None = holding_bite(worked.stack)
    if holding is None or holding.kind == "wood":
        return None
    if holding.kind == "nut":
        return worked.tip_mm - max(bite.leave_mm for bite in worked.bites if bite.kind == "nut")
    past = worked.tip_mm - holding.leave_mm
    return past if not holding.blind and past > 0 else None
