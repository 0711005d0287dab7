"""The lengths that matter in a joint: engagement, penetration, what is left, what stands out.

Each lies between two places on the axis, is dimensioned there and said in words with what it belongs to.
"""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass

from calculators.drawing.section_plan import LayerShape, Plan
from calculators.drawing.section_words import Write
from calculators.joints.model import JointResult

LEAST_MM = 0.005
"""A shorter length is nought on a drawing that is read to hundredths, and is said in words alone."""


@dataclass(frozen=True, slots=True)
class Fact:
    """A length on the axis from `near` to `far`: what it is, and to which member of the stack it belongs.

    `item` is None for the screw's own; `broken` says that the drawing stops before `far`.
    """

    name: str
    near: float
    far: float
    item: int | None = None
    broken: bool = False

    @property
    def length(self) -> float:
        """The length itself [mm]."""
        return self.far - self.near


def facts_of(plan: Plan, result: JointResult) -> list[Fact]:
    """Return the lengths that matter for a joint, from the head on; none lies over another.

    Args:
        plan: what is drawn.
        result: the joint as worked out.

    Returns:
        The facts [mm].

    Source: this project.
    """
    found = [fact for fact in _every(plan, result) if fact.length >= LEAST_MM]
    kept: list[Fact] = []
    for fact in found:
        if all(fact.far <= other.near + 1e-9 or fact.near >= other.far - 1e-9 for other in kept):
            kept.append(fact)
    return sorted(kept, key=lambda fact: fact.near)


def _every(plan: Plan, result: JointResult) -> Iterator[Fact]:
    """Every fact; where two would lie over one another the earlier is kept."""
    last = plan.layers[-1] if plan.layers else None
    for shape in plan.layers:
        hole = shape.hole
        if hole and hole.countersink_depth_mm and not hole.from_behind:
            yield Fact(
                "left under the cone", shape.surface + hole.countersink_depth_mm, shape.back, shape.item
            )
    if last and result.penetration_mm is not None:
        yield Fact("penetration", plan.tip - result.penetration_mm, plan.tip, last.item)
        yield Fact("left behind the point", plan.tip, last.back, last.item, last.broken)
    elif result.engagement_mm is not None:
        yield from _engaged(plan, result.engagement_mm)
    for shape in plan.layers:
        if (behind := _behind(shape)) is not None:
            yield Fact("left behind the hole", behind, shape.back, shape.item, shape.broken)
    if result.protrusion_mm is not None:
        yield Fact("protrusion", plan.tip - result.protrusion_mm, plan.tip)


def _engaged(plan: Plan, length_mm: float) -> Iterator[Fact]:
    """The stretch of thread that is engaged: of several parts or inserts the one with the least, as told."""
    threads = [(each.near, each.far, each.item) for each in plan.hardware if each.is_insert]
    threads += [(shape.thread[0], shape.thread[1], shape.item) for shape in plan.layers if shape.thread]
    for near, far, item in threads:
        start, end = max(near, plan.thread), min(far, plan.tip)
        if abs(end - start - length_mm) < LEAST_MM:
            yield Fact("engagement", start, end, item)
            return


def _behind(shape: LayerShape) -> float | None:
    """Where a blind hole's point ends; None for a hole right through."""
    hole = shape.hole
    if hole is None or hole.depth_mm is None or hole.from_behind:
        return None
    return shape.bearing + hole.depth_mm + max(hole.point_mm, 0.0)


def fact_words(fact: Fact, write: Write) -> str:
    r"""Say a fact: its name and its length.

    Args:
        fact: the fact.
        write: how a length is written.

    Returns:
        The words.

    Source: this project.

    Example:
        >>> fact_words(Fact("penetration", 22.0, 44.5), str)
        'penetration\xa022.5'
    """
    return f"{fact.name} {write(fact.length)}".replace(" ", "\u00a0")
