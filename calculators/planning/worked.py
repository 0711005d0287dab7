"""The build worked out: every joint with its layers found, every hole that follows from it, all findings.

These records are made by `resolving.py` and `inspection.py` and read by the schedules, sheets and drawings.
"""

from __future__ import annotations

from dataclasses import dataclass, field
from typing import TYPE_CHECKING, Literal

from calculators.joints.model import Finding, JointInput, JointResult, LayerHole
from calculators.joints.riders import Rider
from calculators.planning import model
from calculators.planning.placing import PlacedBuild

if TYPE_CHECKING:
    from calculators.planning.calculations import WorkedCalculation
    from calculators.planning.checks.site import Site
    from calculators.planning.resolving import Resolution

Entry = Literal["in", "out"]
"""Whether the axis of a joint comes `in` by the face that a hole is given on, or goes `out` by it."""


@dataclass(frozen=True, slots=True)
class WorkedHole:
    """One hole in one face of a part, with the copies that have it.

    `part` is a component's mark and `copies` the names of its copies that carry this hole (`P02.1`; empty:
    every copy). `u_mm` and `v_mm` are from the face's datum [mm], None while nothing is posed that the
    place could be found from; on a round part's `side`, v is nought and `angle_deg` [deg] takes its place.
    A hole that follows from a joint has `joint` (its mark), `place` (the id of the place) and `hole`, and
    no `direct`; a hole placed by a person has `direct` and neither of the others. `mirrored` marks a hole
    of a copy that is the other hand: u, v are the drawn part's, to be laid off the other way round. `entry`
    `out` says that the axis leaves by this face: a countersink for the head is then on the far side.
    `below_mm` [mm] is how far under the face the material begins, in a recess or behind a slit.
    `way` is the axis inward from the face, in the drawn part's frame, where it is not square to the face.
    `clamps` is False at a joint that pulls nothing together: a grub, stop or thumb screw.
    """

    part: str
    copies: tuple[str, ...]
    face: model.Face
    u_mm: float | None
    v_mm: float | None
    angle_deg: float | None = None
    joint: str = ""
    place: str = ""
    hole: LayerHole | None = None
    direct: model.Hole | None = None
    mirrored: bool = False
    entry: Entry = "in"
    below_mm: float = 0.0
    way: tuple[float, float, float] | None = None
    clamps: bool = True


@dataclass(frozen=True, slots=True)
class WorkedJoint:
    """One joint, or those places of it that have the same layers, with what follows.

    `count` is how many fasteners this record stands for in the whole build: its places times the copies
    of its home, or the count typed over. `places` are the ids of its places (empty for a joint that is
    not placed). Where the places of one joint meet different layers, there is a record for each group;
    their counts add up to the joint's. `riders` are the parts around its stack, as a lever on a bush.
    """

    joint: model.Joint
    count: int
    places: tuple[str, ...]
    inputs: JointInput
    result: JointResult
    riders: tuple[Rider, ...] = ()


@dataclass(frozen=True, slots=True)
class WorkedBuild:
    """A build with everything that follows from it: joints in order, holes, findings, kept calculations.

    A joint whose fastener line cannot be read has no `WorkedJoint`; a finding says so. `accepted` are
    findings that somebody lets stand, each with the acceptance. `placed` is where its parts lie, for whoever
    goes on from here; None for a build that was put together by hand. `resolution` and `site` are what the
    next inspection takes over of it.
    """

    build: model.Build
    joints: tuple[WorkedJoint, ...] = ()
    holes: tuple[WorkedHole, ...] = ()
    findings: tuple[Finding, ...] = ()
    placed: PlacedBuild | None = field(default=None, compare=False, repr=False)
    calculations: tuple[WorkedCalculation, ...] = ()
    accepted: tuple[tuple[Finding, model.Acceptance], ...] = ()
    resolution: Resolution | None = field(default=None, compare=False, repr=False)
    site: Site | None = field(default=None, compare=False, repr=False)
