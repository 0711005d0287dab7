"""Writing what a line can say of a hole, a pocket, a pose or a step, so that it reads back."""

from __future__ import annotations

from decimal import Decimal
from fractions import Fraction

from calculators.planning.lines.known import Known
from calculators.planning.lines.line import in_quotes
from calculators.planning.lines.measures import Measure, chain_lengths, written
from calculators.planning.lines.places import write_spot
from calculators.planning.lines.steps import step_from
from calculators.planning.lines.writing_parts import note_text
from calculators.planning.model import AssemblyStep, Build, Component, Hole, Pocket, Pose, Unit
from calculators.planning.tree import split_copy
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.numbers import decimal_text


def write_hole_line(hole: Hole, unit: Unit | None = None) -> str:
    """Write a hole on one line, without its id.

    Args:
        hole: the hole.
        unit: [mm or in] the unit of the build it is read in; without it every number carries its unit.

    Returns:
        The line; `read_hole_line` gives those fields again.

    Source: this project.

    Example:
        >>> mm = lambda size: Length(size * 10_000_000, str(size))
        >>> hole = Hole("h1", "top", mm(20), mm(30), diameter=mm(5))
        >>> write_hole_line(hole, "mm")
        'top: dia 5 at 20,30'
    """

    def size(length: Length) -> str:
        return written(length, unit)

    words: list[str] = []
    if hole.kind == "slot":
        if hole.diameter is not None and hole.slot_length is not None:
            words.append(
                f"slot {size(hole.diameter)} x {size(hole.slot_length)} along {hole.slot_along or 'u'}"
            )
    elif hole.kind == "tapping" and hole.thread:
        deep = f" {size(hole.thread_depth)} deep" if hole.thread_depth is not None else ""
        words.append(f"{hole.thread} tapped{deep}")
        if hole.depth is not None:
            words.append(f"drilled {size(hole.depth)}")
    elif hole.kind != "plain":
        words.append(hole.kind if hole.kind != "insert" else "insert")
    if hole.diameter is not None and hole.kind != "slot":
        words.append(f"dia {size(hole.diameter)}")
    if hole.depth is not None and not (hole.kind == "tapping" and hole.thread):
        words.append(f"{size(hole.depth)} deep")
    if hole.countersink_diameter is not None:
        angle = hole.countersink_angle_deg if hole.countersink_angle_deg is not None else Decimal(90)
        words.append(f"csk {size(hole.countersink_diameter)} x {decimal_text(Fraction(angle))} deg")
    if hole.counterbore_diameter is not None and hole.counterbore_depth is not None:
        words.append(f"cbore {size(hole.counterbore_diameter)} x {size(hole.counterbore_depth)}")
    where = write_spot(hole.u, hole.v, hole.angle_deg, unit)
    return f"{hole.face}: {', '.join(words)} at {where}{note_text(hole.note)}"


def write_pocket_line(pocket: Pocket, unit: Unit | None = None) -> str:
    """Write a pocket on one line, without its id.

    Args:
        pocket: the pocket.
        unit: [mm or in] the unit of the build it is read in; without it every number carries its unit.

    Returns:
        The line; `read_pocket_line` gives those fields again.

    Source: this project.

    Example:
        >>> mm = lambda size: Length(size * 10_000_000, str(size))
        >>> write_pocket_line(Pocket("k1", "top", mm(515), mm(85), mm(90), mm(90), mm(6), mm(3)), "mm")
        'top: recess 90 x 90 x 6 deep at 515,85, corner radius 3'
    """
    sizes = _together([one for one in (pocket.length, pocket.width, pocket.depth) if one is not None], unit)
    depth = " deep" if pocket.depth is not None else " through"
    where = write_spot(pocket.u, pocket.v, None, unit)
    words = [f"{pocket.face}: recess {' x '.join(sizes)}{depth} at {where}"]
    if pocket.angle_deg is not None and pocket.face == "side":
        words[0] += f", {decimal_text(Fraction(pocket.angle_deg))} deg"
    if pocket.corner_radius is not None:
        words.append(f"corner radius {written(pocket.corner_radius, unit)}")
    if pocket.cutter is not None:
        words.append(f"cutter {written(pocket.cutter, unit)}")
    if pocket.squared:
        words.append("squared")
    return ", ".join(words) + note_text(pocket.note)


def _together(lengths: list[Length], unit: Unit | None) -> list[str]:
    """Write sizes that stand together, each with its unit where they would not read back without."""
    texts = [written(length, unit) for length in lengths]
    try:
        found = chain_lengths([Measure.of(text) for text in texts], unit or "mm")
    except InputError:
        found = []
    same = [one.ticks for one in found] == [one.ticks for one in lengths]
    return texts if same else [written(length, None) for length in lengths]


def write_pose_line(mark: str, pose: Pose, unit: Unit | None = None, total: int | None = None) -> str:
    """Write where a copy lies on one line.

    Args:
        mark: the mark of its part.
        pose: the pose.
        unit: [mm or in] the unit of the build it is read in; without it every number carries its unit.
        total: [1] how many copies there are; with 1 the mark stands alone, else with the number of the copy.

    Returns:
        The line; `read_pose_line` gives those fields again.

    Source: this project.

    Example:
        >>> mm = lambda size: Length(size * 10_000_000, str(size))
        >>> pose = Pose(on="P01", u=mm(515), v=mm(85), let_in=mm(6))
        >>> write_pose_line("P11", pose, "mm", 1)
        'P11 on P01 top at 515,85, let in 6'
    """
    name = mark if total == 1 else f"{mark}.{pose.copy}"
    on_side = bool(pose.on) and pose.face == "side"
    words = [f"{name} on {pose.on} {pose.face}" if pose.on else f"{name} on the ground"]
    if pose.u.ticks or pose.v.ticks or on_side:
        words[0] += f" at {write_spot(pose.u, pose.v, pose.angle_deg if on_side else None, unit)}"
    if pose.angle_deg and not on_side:
        words.append(f"around {decimal_text(Fraction(pose.angle_deg))} deg")
    if pose.turned_deg:
        words.append(f"turned {decimal_text(Fraction(pose.turned_deg))}")
    if pose.let_in.ticks:
        words.append(f"let in {written(pose.let_in, unit)}")
    if pose.own_face != "bottom":
        words.append(f"own face {pose.own_face}")
    if pose.point == "centre":
        words.append("by its centre")
    if pose.hand == "other":
        words.append("other hand")
    return ", ".join(words)


def write_step_line(step: AssemblyStep, build: Build | None = None) -> str:
    """Write a step of assembly on one line.

    Args:
        step: the step.
        build: the build, whose marks decide how the line is read back; it may be left out.

    Returns:
        The line; `read_step_line` gives those fields again. Texts of several lines are left out.

    Source: this project.

    Example:
        >>> write_step_line(AssemblyStep(5, "Pillar to flange", ("P10", "F03"), ("F10",), ("13 mm spanner",)))
        '5 Pillar to flange: fits P10, F03; closes F10; tools 13 mm spanner'
    """
    plain = _step_text(step, False)
    names = {*step.fits, *step.closes}
    stand_ins = tuple(
        Component(mark, mark, quantity=100_000)
        for mark in dict.fromkeys(split_copy(name)[0] for name in names)
    )
    try:
        found = step_from(plain, Known(Build("-", "-", components=stand_ins)))
    except InputError:
        return _step_text(step, True)
    same = all(getattr(found, name) == getattr(step, name) for name in ("number", "title", "tools"))
    same = same and all(
        getattr(found, name) == getattr(step, name)
        for name in ("caution", "check")
        if _one_line(getattr(step, name))
    )
    return plain if same and (not note_text(step.note) or found.note == step.note) else _step_text(step, True)


def _one_line(text: str) -> bool:
    return bool(note_text(text)) if text else True


def _step_text(step: AssemblyStep, safe: bool) -> str:
    def text(words: str) -> str:
        return in_quotes(words) if safe else words

    clauses = [
        f"fits {', '.join(step.fits)}" if step.fits else "",
        f"closes {', '.join(step.closes)}" if step.closes else "",
        f"tools {', '.join(map(text, step.tools))}" if step.tools else "",
        f"caution {text(step.caution)}" if step.caution and _one_line(step.caution) else "",
        f"check {text(step.check)}" if step.check and _one_line(step.check) else "",
    ]
    behind = "; ".join(clause for clause in clauses if clause)
    return f"{step.number} {text(step.title)}{': ' if behind else ''}{behind}{note_text(step.note)}"
