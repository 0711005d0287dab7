"""What a part drawing writes of a hole, a pocket and a fold, beside them and in its table."""

from __future__ import annotations

from collections.abc import Callable

from calculators.drawing.face_shape import HoleShape, PocketShape
from calculators.drawing.part_shape import Fold

Write = Callable[[float], str]


def hole_size(hole: HoleShape, write: Write) -> str:
    """Write the size of a hole: its diameter or slot, or its thread.

    Args:
        hole: the hole.
        write: how a length is written.

    Returns:
        The words, without its depth.

    Source: ISO 129-1, ISO 6410-1 (from memory).

    Example:
        >>> hole_size(HoleShape(1, 0, 0, 4.2, thread="M5"), str)
        'M5 (drill ø4.2)'
    """
    if hole.slot_length_mm > hole.diameter_mm and hole.slot_along:
        return f"slot {write(hole.diameter_mm)} × {write(hole.slot_length_mm)} along {hole.slot_along}"
    if hole.thread:
        return f"{hole.thread} (drill ø{write(hole.diameter_mm)})"
    return f"ø{write(hole.diameter_mm)}" + (" reamed" if hole.kind == "reamed" else "")


def hole_depth(hole: HoleShape, write: Write) -> str:
    """Write how deep a hole is, and its thread.

    Args:
        hole: the hole.
        write: how a length is written.

    Returns:
        The words: `through`, or so many deep.

    Source: common practice.

    Example:
        >>> hole_depth(HoleShape(1, 0, 0, 4.2, depth_mm=15, thread="M5", thread_depth_mm=12), str)
        'thread 12 deep, hole 15 deep'
    """
    deep = "through" if hole.through else f"{write(hole.depth_mm or 0.0)} deep"
    if hole.thread and hole.thread_depth_mm is not None:
        return f"thread {write(hole.thread_depth_mm)} deep, hole {deep}"
    return deep


def hole_mouth(hole: HoleShape, write: Write) -> str:
    """Write the countersink or counterbore of a hole.

    Args:
        hole: the hole.
        write: how a length is written.

    Returns:
        The words; nothing for a plain mouth.

    Source: ISO 15786 (from memory), in words of the trade.

    Example:
        >>> hole_mouth(HoleShape(1, 0, 0, 5.5, countersink_diameter_mm=10.4), str)
        'csk ø10.4 × 90°'
    """
    words = []
    if hole.countersink_diameter_mm > hole.diameter_mm:
        words.append(f"csk ø{write(hole.countersink_diameter_mm)} × {hole.countersink_angle_deg:g}°")
    if hole.counterbore_diameter_mm > hole.diameter_mm:
        deep = f" × {write(hole.counterbore_depth_mm)} deep" if hole.counterbore_depth_mm else ""
        words.append(f"c'bore ø{write(hole.counterbore_diameter_mm)}{deep}")
    return ", ".join(words)


def hole_words(hole: HoleShape, write: Write) -> str:
    """Write all that is said of a hole beside it.

    Args:
        hole: the hole.
        write: how a length is written.

    Returns:
        The words.

    Source: ISO 129-1, ISO 15786 (from memory).

    Example:
        >>> hole_words(HoleShape(1, 0, 0, 5.5, countersink_diameter_mm=10.4), str)
        'ø5.5 through, csk ø10.4 × 90°'
        >>> hole_words(HoleShape(1, 0, 0, 4.2, depth_mm=15, thread="M5", thread_depth_mm=12), str)
        'M5 × 12 deep, drill ø4.2 × 15 deep'
    """
    mouth = hole_mouth(hole, write)
    if hole.thread and not (hole.slot_length_mm > hole.diameter_mm and hole.slot_along):
        drill = f"drill ø{write(hole.diameter_mm)} "
        drill += "through" if hole.through else f"× {write(hole.depth_mm or 0.0)} deep"
        thread = f" × {write(hole.thread_depth_mm)} deep" if hole.thread_depth_mm is not None else ""
        return f"{hole.thread}{thread}, {drill}" + (f", {mouth}" if mouth else "")
    join = " " if hole.through else " × "
    return f"{hole_size(hole, write)}{join}{hole_depth(hole, write)}" + (f", {mouth}" if mouth else "")


def is_circle(pocket: PocketShape) -> bool:
    """Say whether a pocket is as round as it is long: a bore that was entered as a recess.

    Args:
        pocket: the pocket.

    Returns:
        True for a circle.

    Source: geometry.

    Example:
        >>> is_circle(PocketShape("p1", 0, 0, 20, 20, 10)), is_circle(PocketShape("p1", 0, 0, 20, 20))
        (True, False)
    """
    long, wide = pocket.length_mm, pocket.width_mm
    return abs(long - wide) < 1e-3 and pocket.corner_mm > 0 and abs(2 * pocket.corner_mm - wide) < 2e-3


def pocket_words(pocket: PocketShape, write: Write) -> str:
    """Write the size of a rebate, slot or recess.

    Args:
        pocket: the pocket.
        write: how a length is written.

    Returns:
        The words: length by width, depth, the radius of its corners.

    Source: common practice.

    Example:
        >>> pocket_words(PocketShape("p1", 0, 0, 40, 12, 3, 8), str)
        '40 × 12 × 8 deep, corners R3'
    """
    deep = "through" if pocket.depth_mm is None else f"× {write(pocket.depth_mm)} deep"
    if is_circle(pocket):
        return f"ø{write(pocket.length_mm)} {deep}"
    corners = f", corners R{write(pocket.corner_mm)}" if pocket.corner_mm > 0 else ""
    return f"{write(pocket.length_mm)} × {write(pocket.width_mm)} {deep}{corners}"


def fold_words(fold: Fold, write: Write) -> str:
    """Write what is folded at a line.

    Args:
        fold: the fold.
        write: how a length is written.

    Returns:
        The words.

    Source: common practice.

    Example:
        >>> fold_words(Fold(20, "across", 90, 2), str)
        'fold 90°, inside R2'
    """
    inside = f", inside R{write(fold.radius_mm)}" if fold.radius_mm is not None else ""
    return f"fold {fold.angle_deg:g}°{inside}"
