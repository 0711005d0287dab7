"""When what is fitted by the steps: whether a part is there already when a joint is made."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Literal

from calculators.planning.checks.site import Site
from calculators.planning.model import AssemblyStep, Joint
from calculators.planning.tree import split_copy

There = Literal["yes", "perhaps", "same step", "no"]
"""Whether a part is in its place when a joint is made; `perhaps` where the steps do not settle it."""

_Place = tuple[int, int]

_ORDER = "fitting order"


@dataclass(frozen=True, slots=True)
class FittingOrder:
    """The steps in order, where each mark is first fitted (step, place in it), and what is in what."""

    steps: tuple[AssemblyStep, ...]
    fitted: dict[str, _Place]
    parents: dict[str, str]
    ties: list[tuple[tuple[str, ...], _Place | None]]
    """Parts that a joint or glue holds together, and when."""

    held: set[str]
    """Every part that some joint or glue holds."""

    def of_part(self, copy: str) -> _Place | None:
        """Where a copy is fitted, by itself or with a sub-assembly that it is in; None where nowhere."""
        mark = split_copy(copy)[0]
        for name in (copy, *self.within(mark)):
            if name in self.fitted:
                return self.fitted[name]
        return None

    def within(self, mark: str) -> tuple[str, ...]:
        """A mark and the sub-assemblies that it is in, from the inside out."""
        found = [mark]
        while (mark := self.parents.get(mark, "")) and mark not in found:
            found.append(mark)
        return tuple(found)

    def of_joint(self, joint: Joint) -> _Place | None:
        """Where a joint is made: by its own mark, else with the last of its parts; None where unknown."""
        if joint.mark in self.fitted:
            return self.fitted[joint.mark]
        parts = [self.of_part(mark) for mark in marks_of(joint)]
        known = [each for each in parts if each is not None]
        return max(known) if known and len(known) == len(parts) else None

    def there(self, copy: str, joint: Joint) -> There:
        """Whether a copy is in its place, and held there, when a joint is made.

        What is fitted in a later step is not; nor is what nothing holds to the joint's own parts by then:
        they are put together on the bench. Where the steps say nothing of the joint, one that is all within a
        sub-assembly is made without what is outside of that.
        """
        when = self.of_joint(joint)
        if when is None:
            return self._on_the_bench(copy, joint)
        fitted, mark = self.of_part(copy), split_copy(copy)[0]
        if fitted is None:
            return "perhaps"
        if fitted[0] > when[0] or (fitted[0] == when[0] and fitted[1] > when[1]):
            return "no"
        if mark in self.held and mark not in self._held_to(joint, when):
            return "no"
        if fitted[0] == when[0]:  # what is loose is taken away again for the moment
            return "same step" if mark in self.held else "no"
        return "yes" if mark in self.held else "perhaps"

    def _held_to(self, joint: Joint, when: _Place) -> set[str]:
        """The parts that earlier joints and glue hold to the parts of a joint."""
        ties = [marks for marks, made in self.ties if made is not None and made < when]
        found = set(marks_of(joint))
        while True:
            more = {mark for marks in ties if not found.isdisjoint(marks) for mark in marks} - found
            if not more:
                return found
            found |= more

    def _on_the_bench(self, copy: str, joint: Joint) -> There:
        chains = [self.within(mark)[1:] for mark in marks_of(joint)]
        shared = [name for name in chains[0] if all(name in chain for chain in chains)] if chains else []
        if shared and shared[0] not in self.within(split_copy(copy)[0]):
            return "no"
        return "perhaps"


def marks_of(joint: Joint) -> tuple[str, ...]:
    """The marks of the parts that a joint goes through by its stack, and of its home.

    Args:
        joint: the joint.

    Returns:
        Each mark once.

    Source: this project.
    """
    names: Iterable[str] = (joint.home, *(member.part for member in joint.stack))
    return tuple(dict.fromkeys(split_copy(name)[0] for name in names if name))


def fitting_order(site: Site) -> FittingOrder:
    """Read the order of fitting from the steps of a build.

    Args:
        site: the build.

    Returns:
        The order.

    Source: this project.
    """
    return site.share(_ORDER, lambda: _order(site))


def _order(site: Site) -> FittingOrder:
    steps = tuple(sorted(site.build.steps, key=lambda step: step.number))
    fitted: dict[str, _Place] = {}
    for index, step in enumerate(steps):
        for place, name in enumerate(step.fits):
            fitted.setdefault(name, (index, place))
    parents = {part.mark: part.parent for part in site.build.components}
    ties: list[tuple[tuple[str, ...], _Place | None]] = []
    order = FittingOrder(steps, fitted, parents, ties, set())
    for joint in site.build.joints:
        ties.append((marks_of(joint), order.of_joint(joint)))
    for index, step in enumerate(steps):
        if step.glued:
            ties.append((tuple(split_copy(name)[0] for name in step.glued), (index, len(step.fits))))
    order.held.update(mark for marks, _ in ties if len(marks) > 1 for mark in marks)
    return order
