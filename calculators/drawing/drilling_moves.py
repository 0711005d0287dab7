"""What a router drills in one face of a part: its tools in order with their holes, and what is left to do.

The part lies on its back with this face up: X along the face's u, Y along its v, Z 0 at the face and upward.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterable, Iterator
from dataclasses import dataclass, field
from typing import Literal

from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.mechanics.cutting_speeds import (
    TOUGH,
    cutting_speed_row,
    drill_feed_mm,
    drill_point_mm,
    turns_per_min,
)
from calculators.quantities.errors import Fault, InputError

POINT_DEG = 118.0
"""The point of an ordinary twist drill, and of the spot drill [deg] (common practice)."""

MOST_CUTS = 20_000
MOST_PECKS = 100_000
REAM_UNDER_MM = 0.2
"""What is left for the reamer (common practice)."""

_SPOT_MM = 3.0
_SLOT_STEP = 0.5
"""A slot cutter goes so deep at once, of its diameter (common practice)."""

ToolKind = Literal["spot drill", "drill", "countersink", "flat cutter", "slot cutter"]
_ORDER: tuple[ToolKind, ...] = ("spot drill", "drill", "countersink", "flat cutter", "slot cutter")


@dataclass(frozen=True, slots=True)
class SetUp:
    """How the machine is set up [mm, turns a minute].

    `safe_mm` is the height over the face that clears every clamp, `clear_mm` the height at which feeding
    begins, `peck` the depth of a peck in diameters of the drill, `beyond_mm` how far a through hole goes
    on into the board under the part. `copy` is the copy of the part that is drilled, where copies differ.
    """

    safe_mm: float = 15.0
    clear_mm: float = 2.0
    peck: float = 1.0
    beyond_mm: float = 1.0
    spot: bool = True
    least_rpm: float = 1_000.0
    most_rpm: float = 18_000.0
    copy: str = ""


LIMITS: dict[str, tuple[float, float, str, str]] = {
    "safe_mm": (3.0, 300.0, "mm", "The safe height"),
    "clear_mm": (0.5, 20.0, "mm", "The height at which feeding begins"),
    "peck": (0.1, 20.0, "diameters", "The depth of a peck"),
    "beyond_mm": (0.0, 20.0, "mm", "How far a through hole goes into the board under it"),
    "least_rpm": (1.0, 60_000.0, "turns a minute", "The machine's least speed"),
    "most_rpm": (100.0, 60_000.0, "turns a minute", "The machine's greatest speed"),
}
"""What each number of a set-up may be: least, most, its unit, and what it is called in a sentence."""


@dataclass(frozen=True, slots=True)
class Tool:
    """A tool with its place in the order, its diameter [mm], the angle of its point [deg], speed and feed."""

    number: int
    kind: ToolKind
    diameter_mm: float
    angle_deg: float
    rpm: float
    feed_mm_per_min: float

    @property
    def words(self) -> str:
        """What it is called: `drill 5.5 mm`."""
        angle = f" {self.angle_deg:g} deg" if self.kind in ("spot drill", "countersink") else ""
        return f"{self.kind}{angle} {round(self.diameter_mm, 3):g} mm"


@dataclass(frozen=True, slots=True)
class Cut:
    """One going down: at (x, y) to `depth_mm` below the face with the tool's tip, in pecks of `peck_mm`.

    A slot goes on from there to (`to_x`, `to_y`) and back at each peck.
    """

    hole: int
    x: float
    y: float
    depth_mm: float
    peck_mm: float
    to_x: float | None = None
    to_y: float | None = None

    @property
    def pecks(self) -> int:
        """In how many pecks it is made, none deeper than `peck_mm`."""
        return max(1, -int(-self.depth_mm // self.peck_mm)) if self.peck_mm > 0 else 1


@dataclass(frozen=True, slots=True)
class Moves:
    """All that is drilled in a face: the tools in order with their cuts, and what a person does besides.

    `left_out` says which holes and pockets are not made, and why; `by_hand` what follows the machine.
    """

    shape: FaceShape
    set_up: SetUp
    cuts: tuple[tuple[Tool, tuple[Cut, ...]], ...]
    left_out: tuple[str, ...] = ()
    by_hand: tuple[str, ...] = ()
    notes: tuple[str, ...] = ()


@dataclass(slots=True)
class _Plan:
    """The cuts by tool while they are collected."""

    shape: FaceShape
    set_up: SetUp
    by_tool: dict[tuple[ToolKind, float, float], list[Cut]] = field(default_factory=dict)
    left_out: list[str] = field(default_factory=list)
    by_hand: list[str] = field(default_factory=list)

    def add(self, kind: ToolKind, diameter: float, angle: float, cut: Cut) -> None:
        self.by_tool.setdefault((kind, round(diameter, 4), round(angle, 3)), []).append(cut)


def checked(set_up: SetUp) -> SetUp:
    """Look whether a set-up can be worked with.

    Args:
        set_up: the set-up.

    Returns:
        The same set-up.

    Raises:
        InputError: with a sentence for each number that is out of its limits, or speeds the wrong way round.

    Source: limits of this project.

    Example:
        >>> checked(SetUp()).safe_mm
        15.0
    """
    faults = []
    for name, (least, most, unit, called) in LIMITS.items():
        value = float(getattr(set_up, name))
        if not least <= value <= most:
            says = f"{called} is from {least:g} to {most:g} {unit}, not {value:g}."
            faults.append(Fault(says, name, value=value, limit=most, unit=unit))
    if not faults and set_up.clear_mm > set_up.safe_mm:
        says = f"Feeding begins at {set_up.clear_mm:g} mm, above the safe height of {set_up.safe_mm:g} mm."
        faults.append(Fault(says, "clear_mm"))
    if not faults and set_up.least_rpm > set_up.most_rpm:
        faults.append(Fault("The machine's least speed is greater than its greatest.", "least_rpm"))
    if faults:
        raise InputError(*faults)
    return set_up


def drilling_moves(shape: FaceShape, set_up: SetUp | None = None) -> Moves:
    """Plan what a router drills in a face.

    Every hole is spotted first, then drilled: blind holes to the drill's shoulder, through holes until the
    whole drill is `beyond_mm` past the back. Countersinks are cut by depth from their diameter,
    counterbores by plunging a flat cutter of their diameter, slots by a cutter of their width. Threads and
    reamed holes are drilled to their size for the tap and the reamer. Pockets are left to others.

    Args:
        shape: the face; not a round part's side, which does not lie flat.
        set_up: how the machine is set up; None: as usual.

    Returns:
        The moves, tools in the order of use: spot drill, drills from the smallest, countersinks, cutters.

    Raises:
        InputError: for a side, a set-up out of its limits, and more than 20,000 cuts or 100,000 pecks.

    Source: common practice; speeds and feeds as in `calculators.mechanics.cutting_speeds`.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> plate = FaceShape("P1", "Plate", "top", rectangle(0, 0, 40, 30), 6, (HoleShape(1, 10, 15, 5.0),))
        >>> [tool.words for tool, _ in drilling_moves(plate).cuts]
        ['spot drill 118 deg 3 mm', 'drill 5 mm']
    """
    set_up = checked(set_up or SetUp())
    if shape.is_wrapped:
        raise InputError.of(
            "The side of a round part does not lie flat on a router: drill it from its template.",
            field="face",
        )
    plan = _Plan(shape, set_up)
    for hole in shape.holes:
        why = _why_not(shape, set_up, hole)
        if why:
            plan.left_out.append(f"Hole {hole.number} is not drilled: {why}.")
        else:
            _cuts_of(plan, hole)
    plan.left_out += [
        f"{_pocket_word(one.key)}, {one.length_mm:g} x {one.width_mm:g} mm, is not cut by these moves."
        for one in shape.pockets
    ]
    if sum(map(len, plan.by_tool.values())) > MOST_CUTS:
        raise InputError.of(f"There are more than {MOST_CUTS:,} cuts in this face; drill it in parts.")
    pecks = sum(cut.pecks for each in plan.by_tool.values() for cut in each)
    if pecks > MOST_PECKS:
        says = (
            f"These moves take {pecks:,} pecks, and at most {MOST_PECKS:,} are written: let a peck be deeper."
        )
        raise InputError.of(says, field="peck", value=pecks, limit=MOST_PECKS)
    notes: list[str] = []
    cuts = tuple(_tools(plan, notes))
    return Moves(shape, set_up, cuts, tuple(plan.left_out), tuple(plan.by_hand), tuple(notes))


def _pocket_word(key: str) -> str:
    return f"Pocket {key}" if key else "A pocket"


def _why_not(shape: FaceShape, set_up: SetUp, hole: HoleShape) -> str:
    """Why a hole is left to a person; nothing where it is drilled."""
    if hole.copies and set_up.copy not in hole.copies:
        only = ", ".join(hole.copies[:6])
        return f"it is only in {only}" if set_up.copy else f"it is only in {only}; say which copy is drilled"
    if hole.mirrored:
        return "it is a hole of the other hand, which is laid off the other way round"
    if hole.slanted:
        return "it does not stand square to the face"
    if hole.kind == "spot":
        return "it is spotted through from its mate"
    if hole.diameter_mm <= 0:
        return "its diameter is not known"
    if hole.depth_mm is None:
        return ""
    is_flat = hole.slot_length_mm > hole.diameter_mm
    tip = hole.below_mm + hole.depth_mm + (0.0 if is_flat else drill_point_mm(hole.diameter_mm, POINT_DEG))
    if tip > shape.depth_mm + 1e-6:
        return (
            f"it is blind, but with the drill's point it needs {tip:.1f} mm, and the part is "
            f"{shape.depth_mm:g} mm thick"
        )
    return ""


def _cuts_of(plan: _Plan, hole: HoleShape) -> None:
    """Collect what one hole needs, and what a person does after it."""
    x, y, d, set_up = hole.u_mm, hole.v_mm, hole.diameter_mm, plan.set_up
    if hole.slot_length_mm > d and hole.slot_along:
        _slot(plan, hole)
    else:
        size = d - REAM_UNDER_MM if hole.kind == "reamed" and d > 2 * REAM_UNDER_MM else d
        bottom = (
            plan.shape.depth_mm + set_up.beyond_mm if hole.depth_mm is None else hole.below_mm + hole.depth_mm
        )
        if set_up.spot:
            depth = hole.below_mm + drill_point_mm(min(_SPOT_MM, size), POINT_DEG)
            plan.add("spot drill", _SPOT_MM, POINT_DEG, Cut(hole.number, x, y, depth, depth))
        tip = bottom + drill_point_mm(size, POINT_DEG)
        plan.add("drill", size, POINT_DEG, Cut(hole.number, x, y, tip, set_up.peck * size))
    if hole.head_side and hole.countersink_diameter_mm > d:
        angle = hole.countersink_angle_deg
        depth = hole.below_mm + drill_point_mm(hole.countersink_diameter_mm, angle)
        plan.add("countersink", hole.countersink_diameter_mm, angle, Cut(hole.number, x, y, depth, depth))
    if hole.head_side and hole.counterbore_diameter_mm > d and hole.counterbore_depth_mm > 0:
        bore = hole.counterbore_diameter_mm
        depth = hole.below_mm + hole.counterbore_depth_mm
        plan.add("flat cutter", bore, 180.0, Cut(hole.number, x, y, depth, set_up.peck * bore))
    if hole.thread and hole.kind == "tapping":
        deep = "through" if hole.thread_depth_mm is None else f"{hole.thread_depth_mm:g} mm deep"
        plan.by_hand.append(f"Tap hole {hole.number}: {hole.thread}, {deep}.")
    if hole.kind == "reamed":
        plan.by_hand.append(f"Ream hole {hole.number} to {d:g} mm.")


def _slot(plan: _Plan, hole: HoleShape) -> None:
    x, y, d = hole.u_mm, hole.v_mm, hole.diameter_mm
    half = (hole.slot_length_mm - d) / 2
    du, dv = (half, 0.0) if hole.slot_along == "u" else (0.0, half)
    through = hole.depth_mm is None
    depth = plan.shape.depth_mm + plan.set_up.beyond_mm if through else hole.below_mm + (hole.depth_mm or 0.0)
    cut = Cut(hole.number, x - du, y - dv, depth, _SLOT_STEP * d, x + du, y + dv)
    plan.add("slot cutter", d, 180.0, cut)


def _tools(plan: _Plan, notes: list[str]) -> Iterator[tuple[Tool, tuple[Cut, ...]]]:
    speed, tough = _speed_of(plan.shape.material, notes)
    order = sorted(plan.by_tool, key=lambda one: (_ORDER.index(one[0]), one[1], one[2]))
    for number, (kind, diameter, angle) in enumerate(order, 1):
        wanted = turns_per_min(speed, diameter)
        rpm = min(max(wanted, plan.set_up.least_rpm), plan.set_up.most_rpm)
        feed = drill_feed_mm(diameter, tough) * rpm
        if kind in ("countersink", "flat cutter", "slot cutter"):
            feed *= 0.5
        tool = Tool(number, kind, diameter, angle, round(rpm, -1) or 1.0, max(round(feed), 5))
        if rpm > 1.5 * wanted:
            notes.append(
                f"The {tool.words} would run at {wanted:.0f} turns a minute in {plan.shape.material}; the "
                f"machine's least is {rpm:.0f}: let it cool, or drill these holes at a pillar drill."
            )
        yield tool, tuple(_serpentine(plan.by_tool[kind, diameter, angle], lambda cut: (cut.x, cut.y)))


def _speed_of(material: str, notes: list[str]) -> tuple[float, bool]:
    """The cutting speed of high speed steel [m/min], and whether the material is tough."""
    try:
        row = cutting_speed_row(material)
        speed = row.number_or_none("hss")
        if speed is not None:
            return speed, row["material"] in TOUGH
    except InputError:
        pass
    named = f" for {material}" if material else ""
    notes.append(
        f"No cutting speed is known{named}: speeds and feeds are those of mild steel, the slowest usual."
    )
    return float(cutting_speed_row("mild steel").number("hss")), True


def _serpentine(cuts: Iterable[Cut], at: Callable[[Cut], tuple[float, float]]) -> Iterator[Cut]:
    """The cuts in bands across the part, to and fro, so that the way between them is short."""
    waiting = sorted(cuts, key=lambda cut: (at(cut)[1], at(cut)[0], cut.hole))
    if not waiting:
        return
    span = at(waiting[-1])[1] - at(waiting[0])[1]
    band = max(span / max(math.sqrt(len(waiting)), 1.0), 5.0)
    low = at(waiting[0])[1]
    bands: dict[int, list[Cut]] = {}
    for cut in waiting:
        bands.setdefault(int((at(cut)[1] - low) / band), []).append(cut)
    for turn, key in enumerate(sorted(bands)):
        row = sorted(bands[key], key=lambda cut: (at(cut)[0], at(cut)[1], cut.hole))
        yield from row if turn % 2 == 0 else reversed(row)
