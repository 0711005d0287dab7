"""The fastener schedule: a line for each designation, with its count, its joints and the drills it needs."""

from __future__ import annotations

from dataclasses import dataclass, field, replace
from typing import Literal

from calculators.hardware.designation import write_hardware
from calculators.hardware.fastener import Fastener, Hardware
from calculators.planning.model import Build
from calculators.planning.near_threads import NearThreads, near_threads
from calculators.planning.worked import WorkedBuild, WorkedJoint

LineKind = Literal["fastener", "washer", "nut", "insert", "steel twin"]
_COUNTERSUNK = ("csk", "socket csk")


@dataclass(frozen=True, slots=True)
class Use:
    """Where hardware is used: the joint's mark and how many there."""

    joint: str
    count: int

    def __str__(self) -> str:
        return f"{self.joint} ({self.count})"


@dataclass(frozen=True, slots=True)
class DrillNeeded:
    """A drill that a fastener's holes need: what for, its name, its diameter, and in which parts."""

    purpose: str
    drill: str
    diameter_mm: float
    parts: tuple[str, ...]

    def __str__(self) -> str:
        return f"{self.purpose} {self.drill or f'{self.diameter_mm:g} mm'} in {', '.join(self.parts)}"


@dataclass(frozen=True, slots=True)
class Countersink:
    """A countersink under a head: included angle and diameter at the surface."""

    angle_deg: float
    diameter_mm: float

    def __str__(self) -> str:
        return f"{self.angle_deg:g} deg to {round(self.diameter_mm, 2):g} mm"


@dataclass(frozen=True, slots=True)
class FastenerLine:
    """One line: a designation and all that is needed of it.

    `length_measured` says how its length is measured. `cut_to` is the shortened length, as written.
    """

    designation: str
    kind: LineKind
    count: int
    used: tuple[Use, ...]
    length_measured: str = ""
    cut_to: str = ""
    drills: tuple[DrillNeeded, ...] = ()
    countersinks: tuple[Countersink, ...] = ()
    torque_nm: tuple[float, ...] = ()
    suppliers: tuple[str, ...] = ()
    note: str = ""


@dataclass(frozen=True, slots=True)
class NearPair:
    """Two threads in one build that are too alike: one starts in the other's hole and then jams."""

    first: str
    second: str
    joints: tuple[str, ...]
    says: str


@dataclass(frozen=True, slots=True)
class FastenerSchedule:
    """All fasteners of a build, in the order in which its joints first use them; members of stacks after.

    `unread` are the marks of joints whose fastener could not be worked out and so is not counted.
    """

    lines: tuple[FastenerLine, ...]
    near: tuple[NearPair, ...] = ()
    unread: tuple[str, ...] = ()

    @property
    def total(self) -> int:
        """How many screws and bolts there are, without washers, nuts, inserts and steel twins."""
        return sum(line.count for line in self.lines if line.kind == "fastener")


def fastener_schedule(build: Build, worked: WorkedBuild) -> FastenerSchedule:
    """List the fasteners of a build by canonical designation, with their washers, nuts and inserts.

    Args:
        build: the build.
        worked: the same build worked out.

    Returns:
        The schedule.

    Source: this project; steel twins before brass in hardwood: common practice.

    Example:
        >>> fastener_schedule(Build("B1", "Stool"), WorkedBuild(Build("B1", "Stool"))).lines
        ()
    """
    gathered: dict[tuple[int, str], _Gathered] = {}
    for one in worked.joints:
        fastener = house_writing(one.result.fastener, build)
        _gather(gathered, fastener, "fastener", one, one.count).add_joint(one)
        for item in one.inputs.stack:
            if item.insert is not None:
                _gather(gathered, item.insert, "insert", one, one.count)
            if item.washer is not None:
                _gather(gathered, item.washer, "washer", one, one.count)
            if item.nut is not None:
                _gather(gathered, item.nut, "nut", one, one.count)
    _gather_twins(gathered, worked)
    lines = sorted(gathered.items(), key=lambda pair: pair[0][0])
    read = {one.joint.mark for one in worked.joints}
    unread = tuple(joint.mark for joint in build.joints if joint.mark not in read)
    near = tuple(_near_pair(pair) for pair in near_threads(worked.joints))
    return FastenerSchedule(tuple(one.line() for _, one in lines), near, unread)


_ORDER: dict[LineKind, int] = {"fastener": 0, "steel twin": 1, "washer": 2, "nut": 3, "insert": 4}


@dataclass(slots=True)
class _Gathered:
    """A line while it is being added up."""

    item: Hardware
    designation: str
    kind: LineKind
    used: dict[str, int] = field(default_factory=dict)
    drills: dict[tuple[str, str, float], dict[str, None]] = field(default_factory=dict)
    countersinks: dict[Countersink, None] = field(default_factory=dict)
    torques: dict[float, None] = field(default_factory=dict)
    suppliers: dict[str, None] = field(default_factory=dict)

    def add_joint(self, one: WorkedJoint) -> None:
        """Add what the fastener itself needs: drills, countersinks, torque."""
        for hole in one.result.holes:
            self.drills.setdefault((hole.kind, hole.drill, hole.diameter_mm), {})[hole.part] = None
            if hole.countersink_angle_deg is not None and hole.countersink_diameter_mm is not None:
                self.countersinks[Countersink(hole.countersink_angle_deg, hole.countersink_diameter_mm)] = (
                    None
                )
        if one.inputs.torque_nm is not None:
            self.torques[one.inputs.torque_nm] = None

    def line(self) -> FastenerLine:
        """Return the finished line."""
        cut_to = getattr(self.item, "cut_to", None)
        return FastenerLine(
            self.designation,
            self.kind,
            sum(self.used.values()),
            tuple(Use(joint, count) for joint, count in self.used.items()),
            length_measured(self.item) if isinstance(self.item, Fastener) else "",
            (cut_to.written or f"{cut_to.exact_mm} mm") if cut_to is not None else "",
            tuple(DrillNeeded(*key, tuple(parts)) for key, parts in self.drills.items()),
            tuple(self.countersinks),
            tuple(self.torques),
            tuple(self.suppliers),
            _TWIN_NOTE if self.kind == "steel twin" else "",
        )


_TWIN_NOTE = (
    "one for each joint, to cut the thread before the brass screw: drive it, take it out, wax the brass"
)


def _gather(
    gathered: dict[tuple[int, str], _Gathered], item: Hardware, kind: LineKind, one: WorkedJoint, count: int
) -> _Gathered:
    """Add a count of one thing to its line."""
    designation = write_hardware(item)
    key = (_ORDER[kind], designation)
    line = gathered.setdefault(key, _Gathered(item, designation, kind))
    line.used[one.joint.mark] = line.used.get(one.joint.mark, 0) + count
    if one.joint.supplier and kind == "fastener":
        line.suppliers[one.joint.supplier] = None
    return line


def _gather_twins(gathered: dict[tuple[int, str], _Gathered], worked: WorkedBuild) -> None:
    """Add one steel screw for each joint that has a steel screw driven first, or should have."""
    seen: set[tuple[str, str]] = set()
    for one in worked.joints:
        if not needs_twin(one):
            continue
        twin = steel_twin(house_writing(one.result.fastener, worked.build))
        if (key := (one.joint.mark, write_hardware(twin))) not in seen:
            seen.add(key)
            _gather(gathered, twin, "steel twin", one, 1)


def needs_twin(one: WorkedJoint) -> bool:
    """Say whether a joint needs a steel screw to be driven before its brass ones.

    Args:
        one: the joint worked out.

    Returns:
        True where that is stated, or a rule advises it.

    Source: common practice.
    """
    advised = any(
        finding.rule == "soft-screw-in-hardwood" and finding.severity == "warning"
        for finding in one.result.findings
    )
    return one.count > 0 and (one.joint.steel_first or advised)


def steel_twin(fastener: Fastener) -> Fastener:
    """Return the steel screw of the same size, length and head as a brass one.

    Args:
        fastener: the brass screw.

    Returns:
        The steel screw, without a finish or grade.

    Source: common practice.

    Example:
        >>> steel_twin(Fastener("wood", "No. 8", head="csk", material="brass")).material
        'steel'
    """
    return replace(fastener, material="steel", finish="", grade="", cut_to=None)


def house_writing(fastener: Fastener, build: Build) -> Fastener:
    """Leave the series of a numbered wood screw unsaid where it is the series of the house.

    Args:
        fastener: the fastener.
        build: the build, whose context names the series of the house.

    Returns:
        The fastener as it is written on the sheets of this build.

    Source: this project.

    Example:
        >>> house_writing(Fastener("wood", "No. 8", series="inch-us"), Build("B1", "Stool")).series
        ''
    """
    if fastener.family == "wood" and fastener.series == build.context.wood_screw_series != "metric":
        return replace(fastener, series="")
    return fastener


def length_measured(fastener: Fastener) -> str:
    """Say how the length of a fastener is measured.

    Args:
        fastener: the fastener.

    Returns:
        `overall` of countersunk and headless ones; of raised countersunk ones from the rim; else under
        the head.

    Source: common practice (as in ISO 2009 and ISO 4762, from memory).

    Example:
        >>> length_measured(Fastener("machine", "M5", head="csk"))
        'overall, head included'
    """
    if fastener.head in _COUNTERSUNK:
        return "overall, head included"
    if fastener.head == "raised csk":
        return "from the rim of the head, its raised part not counted"
    if fastener.head == "none" or fastener.kind in ("grub screw", "stud"):
        return "overall"
    return "under the head"


def _near_pair(near: NearThreads) -> NearPair:
    first, second = near.first.designation, near.second.designation
    says = (
        f"{first} and {second} are nearly alike: one starts in the other's hole "
        "and then jams; keep them apart and label them."
    )
    return NearPair(first, second, tuple(dict.fromkeys((*near.first_joints, *near.second_joints))), says)
