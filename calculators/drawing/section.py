"""The section of a joint: its stack cut through the axis, in true proportion, as SVG."""

from __future__ import annotations

from collections.abc import Mapping, Sequence
from dataclasses import dataclass, replace

from calculators.drawing import section_marks as marks
from calculators.drawing.figures import Figure
from calculators.drawing.hatching import hatch
from calculators.drawing.scales import scale_name
from calculators.drawing.section_facts import Fact, fact_words, facts_of
from calculators.drawing.section_plan import LayerShape, Plan, outline_of_hole, section_plan
from calculators.drawing.section_red import red_marks
from calculators.drawing.section_sheet import NARROW, WIDE, Sheet, View, view_of
from calculators.drawing.section_words import (
    SHOWN,
    Label,
    Write,
    description_of,
    labels_of,
    plain_mm,
    title_of,
)
from calculators.drawing.svg import FONT, PAPER, STEEL, escape, number, path
from calculators.joints.model import Finding, JointResult


@dataclass(frozen=True, slots=True)
class _Drawn:
    """What the parts of the drawing are made from."""

    plan: Plan
    view: View
    sheet: Sheet
    letter: float


def joint_section(
    result: JointResult,
    *,
    narrow: bool = False,
    letter_mm: float = 4.0,
    head_up: bool = True,
    names: Mapping[str, str] | None = None,
    findings: Sequence[Finding] | None = None,
    write: Write = plain_mm,
    tallest_mm: float | None = None,
    with_key: bool = True,
) -> str:
    """Draw a joint cut through its axis.

    The drawing is in true proportion at a scale of ISO 5455, which it states; its size is given in
    millimetres, so that it prints to that scale. The width of the parts is not known and is broken off,
    except at an edge that lies nearer than the drawing reaches. Depths of recesses for the driver are by
    proportion. Beyond the head it is seen from its end.

    Args:
        result: the joint as worked out.
        narrow: draw for a narrow screen, with numbers at the parts and the words below.
        letter_mm: the size of the type on the sheet [mm], from 2 to 8.
        head_up: whether the head is at the top.
        names: names of parts by their marks.
        findings: the findings to mark in red; None: those of the result. Errors and warnings are marked, but
            for those that are drawn on the face of a part.
        write: how a length is written.
        tallest_mm: how tall the section itself may be [mm], from 20 to what its sheet has room for, which
            None takes; dimensions and words come on top of it.
        with_key: whether the words of a narrow drawing stand below it; without them its numbers are those of
            `section_labels`, from 1 on, which the page then gives in a table.

    Returns:
        The SVG element with its title and text equivalent: equal joints give equal text.

    Source: ISO 128-2 (line types), ISO 128-3 (sections), ISO 129-1 (dimensions), ISO 6410-1 (threads) and
    ISO 5455 (scales), all from memory.
    """
    shown = _marked(result, findings)
    plan = section_plan(result)
    letter = min(max(letter_mm, 2.0), 8.0)
    sheet = (NARROW if narrow else WIDE).for_letters(letter)
    if tallest_mm is not None:
        sheet = replace(sheet, tallest=min(max(tallest_mm, 20.0), sheet.tallest))
    facts = facts_of(plan, result)
    labels = _labels(plan, facts, result, names or {}, shown, write)
    chain = marks.chain_of(plan, write)
    lengths = [(fact.near, min(fact.far, plan.far), write(fact.length), fact.broken) for fact in facts]
    sheet = sheet.for_words([span[2] for span in chain], [span[2] for span in lengths], letter)
    view = view_of(plan, sheet, head_up=head_up)
    drawn = _Drawn(plan, view, sheet, letter)
    body = [
        *_layers(drawn),
        *_insert_walls(drawn),
        _figure(view, plan.shank, STEEL),
        *_hardware(drawn),
        _figure(view, plan.head, STEEL) if plan.head else "",
        *red_marks(plan, view, shown),
        _centre_line(drawn),
    ]
    below, above = [view.bottom + 4], [view.top - 4]
    columns = (chain, lengths, write(plan.tip - plan.start_of_length))
    body += marks.dimensions(plan, view, sheet, letter, columns, above, below)
    body += marks.head_end(plan, view, above, below)
    body += marks.labels(labels, view, sheet, letter, above, below, with_key=with_key)
    scale = f"Scale {scale_name(view.scale)}" + (", sizes in mm" if write is plain_mm else "")
    note = marks.scale_note(scale, sheet, letter, max(below) + 1.8 * letter)
    foot = max(below) + (1.4 + 1.1 * len(note)) * letter
    says = description_of(plan, labels, shown, write)
    return _svg([*body, *note], min(above) - 1, foot, sheet.width, title_of(result), says)


def section_labels(
    result: JointResult,
    *,
    names: Mapping[str, str] | None = None,
    findings: Sequence[Finding] | None = None,
    write: Write = plain_mm,
) -> list[Label]:
    """Return the words of a section in the order of the numbers of its narrow drawing.

    Args:
        result: the joint as worked out.
        names: names of parts by their marks.
        findings: the findings to mark; None: those of the result.
        write: how a length is written.

    Returns:
        The labels from the head on.

    Source: this project.
    """
    plan = section_plan(result)
    return _labels(plan, facts_of(plan, result), result, names or {}, _marked(result, findings), write)


def _labels(
    plan: Plan,
    facts: Sequence[Fact],
    result: JointResult,
    names: Mapping[str, str],
    shown: tuple[Finding, ...],
    write: Write,
) -> list[Label]:
    told = [(fact.item, fact_words(fact, write)) for fact in facts]
    return labels_of(plan, result, names, shown, write, told)


def _marked(result: JointResult, findings: Sequence[Finding] | None) -> tuple[Finding, ...]:
    given = result.findings if findings is None else findings
    return tuple(f for f in given if f.severity in SHOWN and not f.spots)


def _svg(body: Sequence[str], top: float, bottom: float, width: float, title: str, says: str) -> str:
    height = bottom - top
    lines = [part for part in body if part]
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="section" role="img" width="{number(width)}mm" '
        f'height="{number(height)}mm" viewBox="0 {number(top)} {number(width)} {number(height)}" '
        f'font-family="{FONT}" fill="none">\n<title>{escape(title)}</title>\n<desc>{escape(says)}</desc>\n'
        + "\n".join(lines)
        + "\n</svg>\n"
    )


def _layers(drawn: _Drawn) -> list[str]:
    return [part for turn, shape in enumerate(drawn.plan.layers) for part in _layer(drawn, shape, turn)]


def _layer(drawn: _Drawn, shape: LayerShape, turn: int) -> list[str]:
    view = drawn.view
    left, right = -view.half_width, view.half_width
    at_edge = shape.edge is not None and shape.edge < right
    if at_edge and shape.edge is not None:
        right = max(shape.edge, 0.0)
    corners = [(left, shape.surface), (right, shape.surface), (right, shape.shown), (left, shape.shown)]
    hole = outline_of_hole(shape)
    rings = [view.ring(corners), *([view.ring(hole)] if hole else [])]
    thick = (shape.shown - shape.surface) * view.scale
    parts = [path(rings, "none", fill=PAPER)]
    parts.append(hatch(rings, shape.manner, turn, closer=1.0 if thick > 4 else 0.6))
    parts.append(path([view.ring(hole)], _hole_line(drawn, shape)) if hole else "")
    ends = [[view.at(left, shape.surface), view.at(right, shape.surface)]]
    if not shape.broken:
        ends.append([view.at(left, shape.shown), view.at(right, shape.shown)])
    else:
        parts.append(marks.break_line(view.at(left, shape.shown), view.at(right, shape.shown)))
    parts.append(marks.break_line(view.at(left, shape.surface), view.at(left, shape.shown)))
    if at_edge:
        ends.append([view.at(right, shape.surface), view.at(right, shape.shown)])
    else:
        parts.append(marks.break_line(view.at(right, shape.surface), view.at(right, shape.shown)))
    parts.append(path(ends, "outline", closed=False))
    parts.append(_female_thread(view, shape))
    return parts


def _hole_line(drawn: _Drawn, shape: LayerShape) -> str:
    """Choose a finer line where the thick one would fill the gap between the hole and the screw."""
    least = min(x for x, _ in shape.profile if x > 0) if any(x > 0 for x, _ in shape.profile) else 0.0
    gap = (least - drawn.plan.major / 2) * drawn.view.scale
    return "edge" if 0 < gap < 0.8 else "outline"


def _female_thread(view: View, shape: LayerShape) -> str:
    if shape.thread is None:
        return ""
    near, far, major = shape.thread
    far = min(far, shape.shown)
    lines = [[view.at(x, near), view.at(x, far)] for x in (-major / 2, major / 2)]
    end = path([[view.at(-major / 2, far), view.at(major / 2, far)]], "outline", closed=False)
    return path(lines, "thin", closed=False) + (end if far < shape.shown else "")


def _figure(view: View, figure: Figure, fill: str) -> str:
    lines = [("thin", figure.thin), ("hidden", figure.hidden), ("outline", figure.edges)]
    outline = path([view.ring(figure.outline)], "outline", fill=fill)
    return outline + "".join(
        path([view.ring(line) for line in group], kind, closed=False) for kind, group in lines if group
    )


def _hardware(drawn: _Drawn) -> list[str]:
    return [
        _figure(drawn.view, figure, STEEL)
        for each in drawn.plan.hardware
        if not each.is_insert
        for figure in each.figures
    ]


def _insert_walls(drawn: _Drawn) -> list[str]:
    parts = []
    for each in drawn.plan.hardware:
        for figure in each.figures if each.is_insert else ():
            ring = drawn.view.ring(figure.outline)
            parts.append(_figure(drawn.view, figure, PAPER))
            parts.append(hatch([ring], "metal", 1, closer=0.5))
    return parts


def _centre_line(drawn: _Drawn) -> str:
    view = drawn.view
    x = view.at(0.0, 0.0)[0]
    return path([[(x, view.top - 3.5), (x, view.bottom + 3.5)]], "centre", closed=False)
