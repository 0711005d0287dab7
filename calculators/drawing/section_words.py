"""What a joint's section says in words: its labels, its dimensions, its title and its text equivalent."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass

from calculators.drawing.section_hardware import Hardware
from calculators.drawing.section_plan import LayerShape, Plan
from calculators.drawing.svg import Point, number
from calculators.hardware.designation import write_hardware
from calculators.hardware.fastener import Fastener, Insert, Nut, Washer
from calculators.joints.model import Finding, JointResult, LayerHole
from calculators.quantities.errors import InputError

NO_BREAK = "\u00a0"
Write = Callable[[float], str]
SHOWN = ("error", "warning")
"""Red pencil is for what is wrong; notes and what was not checked stand beside the drawing."""


MOST_FINDINGS = 12
"""So many findings are written at one member of a section; where there are more, their number."""


@dataclass(frozen=True, slots=True)
class Label:
    """The words that belong to a place on the axis: lines with their ink (`label`, `soft`, `finding`).

    `half` is how far what they speak of reaches from the axis; a part reaches as far as the drawing, or to
    its `edge`.
    """

    at: float
    lines: tuple[tuple[str, str], ...]
    half: float = 0.0
    edge: float | None = None
    part: bool = False


def plain_mm(value: float) -> str:
    """Write millimetres with at most two decimals and no unit.

    Args:
        value: a length [mm].

    Returns:
        The text.

    Source: ISO 129-1 (a drawing states its unit once; from memory).

    Example:
        >>> plain_mm(22.0), plain_mm(4.762)
        ('22', '4.76')
    """
    return number(value)


def hole_words(hole: LayerHole, write: Write = plain_mm) -> str:
    """Say a hole in one line: width and kind, depth, thread, countersink, counterbore.

    Args:
        hole: the hole.
        write: how a length is written.

    Returns:
        The line.

    Source: this project.

    Example:
        >>> hole = LayerHole("P10", 2, "tapping", 6.8, "6.8", depth_mm=22, thread_depth_mm=18)
        >>> hole_words(hole).replace(NO_BREAK, " ")
        '6.8 tapping, 22 deep, thread 18'
    """
    # A number stays on one line with its word: the spaces in these pieces do not break.
    words = [f"{write(hole.diameter_mm)} {hole.kind}"]
    if hole.slot_length_mm:
        words.append(f"{write(hole.slot_length_mm)} long")
    if hole.depth_mm is not None:
        words.append(f"{write(hole.depth_mm)} deep")
    if hole.thread_depth_mm is not None:
        words.append(f"thread {write(hole.thread_depth_mm)}")
    if hole.countersink_diameter_mm:
        angle = f" × {plain_mm(hole.countersink_angle_deg)}°" if hole.countersink_angle_deg else ""
        words.append(f"csk {write(hole.countersink_diameter_mm)}{angle}")
    if hole.counterbore_diameter_mm and hole.counterbore_depth_mm:
        words.append(
            f"c'bore {write(hole.counterbore_diameter_mm)} × {write(hole.counterbore_depth_mm)} deep"
        )
    return ", ".join(word.replace(" ", NO_BREAK) for word in words)


def written(item: Fastener | Washer | Nut | Insert) -> str:
    """Write hardware as the trade does, and never fail over what cannot be written.

    Args:
        item: the hardware.

    Returns:
        The line.

    Source: this project.
    """
    try:
        line = write_hardware(item)
    except InputError:
        line = item.size
    return line or item.size or type(item).__name__.lower()


def part_words(shape: LayerShape, names: Mapping[str, str]) -> str:
    """Say a layer's part by mark, name and material.

    Args:
        shape: the layer.
        names: names of parts by their marks.

    Returns:
        The words.

    Source: this project.
    """
    layer = shape.layer
    part = " ".join(word for word in (layer.part, names.get(layer.part, "")) if word)
    return ", ".join(word for word in (part, layer.material) if word) or "part"


def labels_of(
    plan: Plan,
    result: JointResult,
    names: Mapping[str, str],
    findings: Sequence[Finding],
    write: Write,
    facts: Sequence[tuple[int | None, str]] = (),
) -> list[Label]:
    """Return the labels from the head on; a finding stands with the part it speaks of, else with the screw.

    Args:
        plan: what is drawn.
        result: the joint as worked out.
        names: names of parts by their marks.
        findings: the findings to show.
        write: how a length is written.
        facts: the lengths that matter, each in words with the member of the stack that it belongs to.

    Returns:
        The labels.

    Source: this project.
    """
    parts = {shape.layer.part for shape in plan.layers if shape.layer.part}
    told: set[str] = set()
    measures: dict[int | None, list[tuple[str, str]]] = {}
    for item, words in facts:
        measures.setdefault(item, []).append((words, "soft"))
    labels = []
    members: list[LayerShape | Hardware] = sorted([*plan.layers, *plan.hardware], key=lambda each: each.item)
    for member in members:
        if isinstance(member, Hardware):
            reach = max(
                _reach_at(figure.outline, (member.near + member.far) / 2) for figure in member.figures
            )
            lines = [(_hardware_words(member, write), "label"), *measures.get(member.item, ())]
            labels.append(Label((member.near + member.far) / 2, tuple(lines), reach))
            continue
        lines = [(part_words(member, names), "label")]
        if member.hole:
            lines.append((hole_words(member.hole, write), "soft"))
        lines += measures.get(member.item, ())
        if member.layer.part not in told:
            lines += _finding_lines(f for f in findings if member.layer.part and f.part == member.layer.part)
            told.add(member.layer.part)
        labels.append(Label((member.surface + member.shown) / 2, tuple(lines), edge=member.edge, part=True))
    own = [(written(result.fastener), "label"), *measures.get(None, ())]
    own += _finding_lines(f for f in findings if f.part not in parts)
    head = plan.head.outline if plan.head else plan.shank.outline
    lowest = max(z for _, z in head) if plan.head else plan.top
    at = (plan.top + min(lowest, max(0.0, plan.top))) / 2 if plan.head else plan.top
    return [Label(at, tuple(own), max(x for x, _ in head)), *labels]


def _reach_at(outline: Sequence[Point], at: float) -> float:
    """How far an outline goes from the axis at a place on it."""
    reach = 0.0
    for (x, z), (to_x, to_z) in zip(outline, [*outline[1:], *outline[:1]], strict=True):
        if min(z, to_z) <= at <= max(z, to_z):
            part = (at - z) / (to_z - z) if to_z != z else 1.0
            reach = max(reach, x + (to_x - x) * part)
    return reach


def _hardware_words(member: Hardware, write: Write) -> str:
    kind = {Washer: "washer", Nut: "nut", Insert: "insert"}[type(member.what)]
    words = written(member.what)
    if kind not in words:
        words = f"{words} {kind}"
    return f"{words}, {write(member.far - member.near)}"


def _finding_lines(findings: Iterable[Finding]) -> list[tuple[str, str]]:
    every = list(findings)
    says = [f"{finding.severity}: {first_clause(finding.says)}" for finding in every[:MOST_FINDINGS]]
    more = len(every) - MOST_FINDINGS
    return [(line, "finding") for line in (*says, *([f"and {more:,} more"] if more > 0 else []))]


def first_clause(says: str) -> str:
    """Return what a finding says first; its numbers and the rest stand beside the drawing.

    Args:
        says: the finding's sentence.

    Returns:
        The words up to the first colon, semicolon or full stop.

    Source: this project.

    Example:
        >>> first_clause("The screw bottoms before it clamps: 3.2 mm too long.")
        'The screw bottoms before it clamps'
    """
    return re.split(r"[:;.](?:\s|$)", says, maxsplit=1)[0].strip() or says


def title_of(result: JointResult) -> str:
    """Return the drawing's title.

    Args:
        result: the joint as worked out.

    Returns:
        The title.

    Source: this project.
    """
    return f"{result.joint.mark or 'Joint'}: section through the axis of {written(result.fastener)}"


def description_of(plan: Plan, labels: Sequence[Label], findings: Sequence[Finding], write: Write) -> str:
    """Say in sentences all that the drawing shows.

    Args:
        plan: what is drawn.
        labels: its labels.
        findings: the findings that it marks.
        write: how a length is written.

    Returns:
        The text equivalent.

    Source: WCAG 2.2, 1.1.1 (a text that serves the same purpose).
    """
    thick = {(s.surface + s.shown) / 2: s.back - s.surface for s in plan.layers}
    words = ["From the head side:"]
    for label in labels:
        lines = [text for text, ink in label.lines if ink != "finding"]
        thickness = thick.get(label.at) if label.part else None
        words.append(
            "; ".join(lines) + (f"; {write(thickness)} thick" if thickness is not None else "") + "."
        )
    words.append(f"The screw is {write(plan.tip - plan.start_of_length)} long.")
    if plan.end:
        words.append(f"From its head's end {plan.end.says} is seen.")
    last = plan.layers[-1] if plan.layers else None
    if last:
        over = plan.tip - last.back
        side = f"{write(over)} beyond" if over > 0 else f"{write(-over)} short of"
        words.append(f"Its point ends {side} the back of {last.layer.part or 'the last part'}.")
    told = 4 * MOST_FINDINGS
    words += [f"{finding.severity.capitalize()}: {finding.says}" for finding in findings[:told]]
    if len(findings) > told:
        words.append(f"And {len(findings) - told:,} more findings.")
    return " ".join(words)
