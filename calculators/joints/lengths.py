"""The length that a joint needs, the stock lengths that give it, and the one chosen."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import replace
from functools import lru_cache

from calculators.hardware.fastener import Fastener
from calculators.hardware.lengths import stock_lengths, thread_length_mm
from calculators.joints.holding import engagement_rule_d
from calculators.joints.model import JointInput
from calculators.joints.sizes import look_up
from calculators.joints.worked import Bite, Missing, Range, Screw, Stack
from calculators.quantities.length import Length

_SLACK_MM = 0.005
"""Lengths that differ by less than this are one length."""


@lru_cache(maxsize=1024)
def _stock(fastener: Fastener) -> tuple[Length, ...] | Missing:
    return look_up("the stock lengths", lambda: tuple(sorted(stock_lengths(fastener), key=lambda x: x.ticks)))


def stock_of(fastener: Fastener) -> tuple[Length, ...] | Missing:
    """The stock lengths of a fastener, whatever its own length.

    Args:
        fastener: the fastener.

    Returns:
        The lengths, shortest first, or what is missing.

    Source: as `calculators.hardware.lengths.stock_lengths`.
    """
    return _stock(replace(fastener, length=None, cut_to=None))


def needed_length(joint: JointInput, screw: Screw, stack: Stack, limits: Mapping[str, float]) -> Range | None:
    """The shortest and longest screw that the joint can take.

    Wood screws: far enough into the piece that holds them, short enough to leave wood behind the point.
    With a nut: from 1 to 5 threads past it, in a dome nut within its thread. Tapped: the engagement rule,
    or all the thread there is; a pitch short of a blind thread's end, or 5 threads past a through one.

    Args:
        joint: the joint.
        screw: the fastener's sizes.
        stack: the stack as laid out.
        limits: the limits of the rules.

    Returns:
        The range [mm], or None where no length can do.

    Source: the rules `penetration`, `wood-behind-point`, `engagement`, `screw-bottoms`, `threads-past-nut`.
    """
    holding = holding_bite(stack)
    if holding is None:
        return None
    if holding.kind == "wood":
        found = _for_wood(holding, screw, stack, limits)
    elif holding.kind == "nut":
        found = _past_nut(stack, screw, limits)
    else:
        found = _for_thread(holding, screw, stack, limits)
    if found is None or found.most_mm < found.least_mm - 1e-9 or found.most_mm <= 0:
        return None
    return replace(found, least_mm=max(found.least_mm, 0.0))


def holding_bite(stack: Stack) -> Bite | None:
    """The thread that holds the joint: the last nut behind the layers, else the last thread in a part.

    Args:
        stack: the stack as laid out.

    Returns:
        That thread, or None where the screw runs in none.

    Source: this project.
    """
    last = stack.layers[-1]
    behind = [bite for bite in stack.bites if bite.kind == "nut" and bite.member.item > last.item]
    if behind:
        return behind[-1]
    inside = [bite for bite in stack.bites if bite.kind != "nut"]
    if inside:
        return inside[-1]
    return stack.bites[-1] if stack.bites else None


def _for_wood(bite: Bite, screw: Screw, stack: Stack, limits: Mapping[str, float]) -> Range | None:
    enter, leave, diameter, start = bite.enter_mm, bite.leave_mm, screw.major_mm, stack.starts_mm
    for deep, behind in (("penetration", "behind-point"), ("penetration-least", "behind-point-least")):
        least = enter + limits[deep] * diameter - start
        most = leave - limits[behind] - start
        if least <= most:
            numbers = (
                f"{enter - start:.2f} + {limits[deep]:g} x {diameter:.2f} = {least:.2f} up to "
                f"{leave - start:.2f} - {limits[behind]:g}"
            )
            best = enter + limits["penetration-sideways"] * diameter - start
            words = f"above the point piece + {limits[deep]:g} D, up to its far face - {limits[behind]:g} mm"
            return Range(least, most, words, numbers, best)
    return None


def _past_nut(stack: Stack, screw: Screw, limits: Mapping[str, float]) -> Range | None:
    last = max((bite for bite in stack.bites if bite.kind == "nut"), key=lambda bite: bite.leave_mm)
    far = last.leave_mm - stack.starts_mm
    if last.member.nut is not None and last.member.nut.form == "dome" and last.depth_mm:
        enter, thread = last.enter_mm - stack.starts_mm, limits["dome-thread"] * last.depth_mm
        least = min(limits["dome-engagement"] * screw.major_mm, thread)
        numbers = f"{enter:.2f} + {least:.2f} up to {enter:.2f} + {thread:.2f}"
        words = f"stack + {limits['dome-engagement']:g} D, up to the end of the dome nut's thread"
        return Range(enter + least, enter + thread, words, numbers)
    pitch = screw.pitch_mm or 0.0
    least, most = limits["threads-past-nut-least"], limits["threads-past-nut-most"]
    numbers = f"{far:.2f} + {least:g} x {pitch:.3f} up to {far:.2f} + {most:g} x {pitch:.3f}"
    words = f"stack and nuts + {least:g} pitch up to + {most:g} pitches"
    return Range(far + least * pitch, far + most * pitch, words, numbers)


def _for_thread(bite: Bite, screw: Screw, stack: Stack, limits: Mapping[str, float]) -> Range | None:
    pitch, start = screw.pitch_mm or 0.0, stack.starts_mm
    rule = engagement_rule_d(bite)
    wanted = (rule if rule is not None else 1.5) * screw.major_mm
    in_blind = bite.depth_mm - limits["bottoms"] * pitch if bite.blind else bite.depth_mm
    enter = bite.enter_mm - start
    least = enter + min(wanted, max(in_blind, 0.0))
    if bite.blind and not bite.from_behind:
        most = enter + in_blind
        end = f"to {limits['bottoms']:g} pitch short of the thread's end"
    else:
        most = enter + bite.depth_mm + limits["threads-past-nut-most"] * pitch
        end = f"to {limits['threads-past-nut-most']:g} pitches past the thread"
    words = f"above the thread + {wanted / screw.major_mm:.2g} D (or all the thread there is) {end}"
    return Range(least, most, words, f"{enter:.2f} + {least - enter:.2f} up to {most:.2f}")


def choose_length(
    joint: JointInput, stock: tuple[Length, ...] | Missing, needed: Range | None
) -> tuple[Length | None, bool]:
    """The length of the joint's fastener: as given, else the stock length that suits best.

    Wood screws: the shortest with its full strength sideways, else the longest that fits. Others: the
    shortest that fits. Where none fits, the nearest stock length, so that the rest can be shown.

    Args:
        joint: the joint.
        stock: the stock lengths.
        needed: the length needed.

    Returns:
        The length, or None where nothing can be chosen; and whether it was chosen within what is needed.

    Source: common practice.
    """
    fastener = joint.fastener
    if fastener.length is not None:
        return fastener.length, True
    if fastener.cut_to is not None:
        longer = [] if isinstance(stock, Missing) else [x for x in stock if x.ticks >= fastener.cut_to.ticks]
        return (longer[0] if longer else fastener.cut_to), True
    if isinstance(stock, Missing) or not stock or needed is None:
        return None, False
    fitting = within(stock, needed)
    if not fitting:
        above = [each for each in stock if each.mm >= needed.least_mm]
        return (above[0] if above else stock[-1]), False
    if needed.best_mm is not None:
        best = [each for each in fitting if each.mm >= needed.best_mm - _SLACK_MM]
        return (best[0] if best else fitting[-1]), True
    return fitting[0], True


def within(stock: tuple[Length, ...], needed: Range) -> list[Length]:
    """The stock lengths within what is needed.

    Args:
        stock: the stock lengths, shortest first.
        needed: the length needed.

    Returns:
        Those that fit, shortest first.

    Source: this project.
    """
    low, high = needed.least_mm - _SLACK_MM, needed.most_mm + _SLACK_MM
    return [each for each in stock if low <= each.mm <= high]


@lru_cache(maxsize=2048)
def plain_of(fastener: Fastener, length_mm: float) -> float | None:
    """The plain shank under the head.

    Args:
        fastener: the fastener.
        length_mm: its length as made [mm], over 0.

    Returns:
        The plain length [mm], or None where the thread's length is not known.

    Source: as `calculators.hardware.lengths.thread_length_mm`.
    """
    found = look_up("the thread's length", lambda: thread_length_mm(fastener, length_mm))
    return None if isinstance(found, Missing) else max(length_mm - found, 0.0)
