"""What findings redden in a joint's section: the place in it that each one's rule speaks of.

A finding of a rule that has no place in `section_places.PLACES` reddens the part that it names, or the head.
"""

from __future__ import annotations

from collections.abc import Sequence

from calculators.drawing.drives import Line
from calculators.drawing.section_places import PLACES, Box, Red, Spoken, closed, wall_of
from calculators.drawing.section_plan import Plan
from calculators.drawing.section_sheet import View
from calculators.drawing.svg import RED_WASH, path
from calculators.joints.model import Finding


def red_of(plan: Plan, finding: Finding) -> Red:
    """Return what a finding reddens.

    Args:
        plan: what is drawn.
        finding: the finding.

    Returns:
        The stretches and lines [mm]; never nothing.

    Source: this project.
    """
    named = tuple(shape for shape in plan.layers if finding.part and shape.layer.part == finding.part)
    spoken = Spoken(plan, named or plan.layers, plan.major / 2)
    place = PLACES.get(finding.rule)
    red = place(spoken) if place else Red()
    if red.washes or red.lines:
        return red
    if named:
        return Red(lines=tuple(wall_of(shape) for shape in named))
    return Red(lines=(closed(plan.head.outline if plan.head else plan.shank.outline),))


def red_marks(plan: Plan, view: View, findings: Sequence[Finding]) -> list[str]:
    """Draw in red what the findings speak of, with a bar beside each part that one of them names.

    Args:
        plan: what is drawn.
        view: how it lies.
        findings: the findings to mark.

    Returns:
        The elements: the washes first, so that lines stay to be seen.

    Source: this project.
    """
    reds = [red_of(plan, finding) for finding in findings]
    washes = list(dict.fromkeys(box for red in reds for box in red.washes))
    lines = list(dict.fromkeys(line for red in reds for line in red.lines))
    parts = []
    edges: list[Line] = []
    for box in washes:
        left, near, right, far = _within(box, view)
        parts.append(
            path(
                [view.ring([(left, near), (right, near), (right, far), (left, far)])],
                "none",
                fill=RED_WASH,
                opacity=0.75,
            )
        )
        edges += [((left, near), (right, near)), ((left, far), (right, far))]
    drawn = [view.ring(_clipped(line, view)) for line in [*edges, *lines]]
    parts.append(path(drawn, "finding", closed=False))
    marked = {finding.part for finding in findings}
    x = view.at(view.half_width, 0.0)[0] + 1.6
    bars = [
        [(x, view.at(0.0, shape.surface)[1]), (x, view.at(0.0, shape.shown)[1])]
        for shape in plan.layers
        if shape.layer.part and shape.layer.part in marked
    ]
    parts.append(path(bars, "finding", closed=False))
    return parts


def _within(box: Box, view: View) -> Box:
    left, near, right, far = box
    wide = view.half_width
    return max(left, -wide), max(near, view.near), min(right, wide), min(far, view.far)


def _clipped(line: Line, view: View) -> list[tuple[float, float]]:
    return [
        (min(max(x, -view.half_width), view.half_width), min(max(z, view.near), view.far)) for x, z in line
    ]
