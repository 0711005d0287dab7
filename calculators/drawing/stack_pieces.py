"""What a stack's drawing shows, piece by piece in real millimetres about the axis, each with its shift.

A point is (x, z): x from the axis, z along it from the plane in which the head bears, positive to the point.
"""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace
from typing import Literal

from calculators.drawing.figures import Figure
from calculators.drawing.hatching import Manner
from calculators.drawing.manner import manner_of
from calculators.drawing.section_hardware import Hardware
from calculators.drawing.section_plan import LayerShape, Plan, section_plan
from calculators.drawing.stack_lines import StackLine
from calculators.joints.model import JointResult
from calculators.joints.riders import Rider

Arrangement = Literal["in line", "apart", "together"]


@dataclass(frozen=True, slots=True)
class Piece:
    """One member as it is drawn, from `near` to `far` along the axis, `half` wide on either side of it.

    `shift` is how far along the sheet it stands from its place [mm on the sheet]. Of `shape`, `hardware` and
    `rider` it has the one that it is; none of them for the fastener. `trimmed` is where its lower side ends.
    """

    line: StackLine
    near: float
    far: float
    half: float
    trimmed: float
    shape: LayerShape | None = None
    hardware: Hardware | None = None
    rider: Rider | None = None
    shift: float = 0.0
    is_bush: bool = False


def pieces_of(
    result: JointResult, lines: Sequence[StackLine], riders: Sequence[Rider]
) -> tuple[Plan, tuple[Piece, ...]]:
    """Make the pieces of a stack where they lie, in the order of its lines.

    Args:
        result: the joint as worked out.
        lines: its members.
        riders: the parts that lie around its stack.

    Returns:
        The plan of its section and the pieces [mm].

    Source: this project.
    """
    plan = section_plan(result)
    shapes = {shape.item: shape for shape in plan.layers}
    hardware = {each.item: each for each in plan.hardware}
    on = {line.item: riders[line.rider].on_mm for line in lines if line.rider >= 0}
    wide = (
        1.12 * max([plan.half_width, *(0.5 * (rider.bore_mm + plan.major) for rider in riders)])
        + 0.4 * plan.major
    )
    pieces = []
    for line in lines:
        if line.rider >= 0:
            rider = riders[line.rider]
            pieces.append(Piece(line, rider.enter_mm, rider.leave_mm, wide, wide, rider=rider))
        elif line.item in shapes:
            shape = shapes[line.item]
            bush = on.get(line.item)
            half = bush / 2 if bush is not None else wide
            below = half if shape.edge is None or bush is not None else min(half, max(shape.edge, 0.0))
            pieces.append(
                Piece(line, shape.surface, shape.shown, half, below, shape, is_bush=bush is not None)
            )
        elif line.item in hardware:
            each = hardware[line.item]
            points = [point for figure in each.figures for point in figure.outline]
            reach, ends = max(abs(x) for x, _ in points), [z for _, z in points]
            pieces.append(Piece(line, min(ends), max(ends), reach, reach, hardware=each))
        else:
            figures = [plan.shank, *([plan.head] if plan.head else [])]
            points = [point for figure in figures for point in figure.outline]
            reach, ends = max(abs(x) for x, _ in points), [z for _, z in points]
            pieces.append(Piece(line, min(ends), max(ends), reach, reach))
    return plan, tuple(pieces)


def drawn_apart(pieces: Sequence[Piece], scale: float, gap: float) -> tuple[Piece, ...]:
    """Shift the pieces along the axis so that they stand in their order with a gap between each two.

    Args:
        pieces: the pieces where they lie, in their order.
        scale: millimetres on the sheet for one millimetre.
        gap: the gap [mm on the sheet].

    Returns:
        The pieces, the first of them where it was.

    Source: common practice (exploded views).
    """
    shifted: list[Piece] = []
    end = 0.0
    for piece in pieces:
        shift = 0.0 if not shifted else end + gap - piece.near * scale
        shifted.append(replace(piece, shift=shift))
        end = piece.far * scale + shift
    return tuple(shifted)


def figures_of(piece: Piece, plan: Plan) -> tuple[Figure, ...]:
    """Give what of a piece is drawn from the outside; none for a part.

    Args:
        piece: a piece.
        plan: the plan of its section.

    Returns:
        The figures [mm].

    Source: this project.
    """
    if piece.hardware is not None:
        return piece.hardware.figures
    if piece.line.kind == "screw":
        return (plan.shank, *([plan.head] if plan.head else []))
    return ()


_ALONG_THE_SHEET: dict[Manner, Manner] = {
    "wood": "wood upright",
    "wood upright": "wood",
    "sheet wood": "sheet wood upright",
    "sheet wood upright": "sheet wood",
}


def manner_along(piece: Piece) -> Manner:
    """Give the hatching of a part where the axis lies level: the grain turns with it.

    Args:
        piece: a part, or a part around the stack.

    Returns:
        The manner.

    Source: this project.
    """
    manner = piece.shape.manner if piece.shape is not None else "metal"
    if piece.rider is not None:
        manner = manner_of(piece.rider.material)
    return _ALONG_THE_SHEET.get(manner, manner)
