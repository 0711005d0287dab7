"""What rules look at: one part, one joint, or the whole build, each with the limits that hold there."""

from __future__ import annotations

from collections.abc import Callable, Mapping
from dataclasses import dataclass, field
from functools import cached_property
from typing import TYPE_CHECKING, Any, TypeVar, cast

from calculators.geometry.model import Solid
from calculators.materials import Material, find_material
from calculators.planning.model import Build, Component, Context, Joint
from calculators.planning.placing import PlacedBuild, place_build
from calculators.planning.resolving import ResolvedJoint
from calculators.planning.worked import WorkedBuild, WorkedHole, WorkedJoint
from calculators.quantities.errors import InputError

if TYPE_CHECKING:
    from calculators.planning.calculations import WorkedCalculation

Thing = TypeVar("Thing")


@dataclass(frozen=True, eq=False)
class PartSite:
    """One part: as it is, its solid where its sizes are known, all holes in it, from joints and by hand."""

    component: Component
    solid: Solid | None
    holes: tuple[WorkedHole, ...]
    copies: tuple[str, ...]
    total: int
    context: Context
    limits: Mapping[str, float]

    @property
    def mark(self) -> str:
        """The part's mark."""
        return self.component.mark

    @cached_property
    def material(self) -> Material | None:
        """The material as the tables know it; None where they do not."""
        return material_of(self.component.material)

    @cached_property
    def kept(self) -> dict[str, Any]:
        """What several rules share: `site.kept` holds it as long as the part is as it is."""
        return {}


@dataclass(frozen=True, eq=False)
class JointSite:
    """One joint: its places grouped by their layers, its axes in space, the parts that it goes through."""

    joint: Joint
    resolved: ResolvedJoint
    placed: PlacedBuild
    context: Context
    limits: Mapping[str, float]

    @property
    def mark(self) -> str:
        """The joint's mark."""
        return self.joint.mark

    @property
    def groups(self) -> tuple[WorkedJoint, ...]:
        """The joint worked out, once for each group of places with like layers."""
        return self.resolved.joints

    @cached_property
    def kept(self) -> dict[str, Any]:
        """What several rules share: `site.kept` holds it as long as the joint is as it is."""
        return {}


@dataclass(frozen=True, eq=False)
class Site:
    """The whole build: as data, worked out, and what several rules share."""

    worked: WorkedBuild
    parts: Mapping[str, PartSite]
    joints: Mapping[str, JointSite]
    limits: Mapping[str, float]
    previous: Site | None = None
    """The site of the build as it was before, of which what still holds may be taken over."""

    _kept: dict[str, Any] = field(default_factory=dict)

    @property
    def build(self) -> Build:
        """The build as plain data."""
        return self.worked.build

    @property
    def context(self) -> Context:
        """Tools, habits, the day that is taken as today."""
        return self.build.context

    @property
    def placed(self) -> PlacedBuild:
        """Where its parts lie."""
        return self.worked.placed or place_build(self.build)

    @property
    def calculations(self) -> tuple[WorkedCalculation, ...]:
        """Its kept calculations, worked."""
        return self.worked.calculations

    def share(self, name: str, make: Callable[[], Thing]) -> Thing:
        """Give what `make` makes, made once for all rules that ask for it by this name."""
        if name not in self._kept:
            self._kept[name] = make()
        return cast(Thing, self._kept[name])

    def shared(self, name: str) -> Any:
        """What was made under a name; None where nothing was."""
        return self._kept.get(name)


def material_of(name: str) -> Material | None:
    """Find a material in the tables.

    Args:
        name: as a part states it.

    Returns:
        The material; None where the tables do not know it.

    Source: this project.

    Example:
        >>> material_of("no such stuff") is None
        True
    """
    try:
        return find_material(name) if name else None
    except InputError:
        return None
