"""What the pages of a build show, gathered from the build worked out. Nothing is computed here."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from urllib.parse import quote, urlencode

from buildlog.builds.field_at import field_at, field_words
from buildlog.builds.queries import remembered
from calculators.drawing.section import joint_section
from calculators.hardware.designation import read_fastener
from calculators.joints.model import Finding, LayerHole, Mend, StackItem
from calculators.planning.edits import can_mend, finding_key, lapsed_id
from calculators.planning.edits.accepting import NEVER
from calculators.planning.edits.layers import members_of
from calculators.planning.inspection import SEVERITIES
from calculators.planning.model import Joint
from calculators.planning.tree import split_copy
from calculators.planning.worked import WorkedBuild, WorkedJoint
from calculators.quantities.errors import InputError

FIRST_FINDINGS = 100
"""The most findings that the page of a joint shows; the check pages through all of them."""

FIRST_GROUPS = 4
"""The most drawings on one page, where the places of a joint go through different layers."""

SHEETS = (
    ("fasteners", "Fastener schedule"),
    ("drilling", "Drilling sheet"),
    ("cut", "Cut sheet"),
    ("assembly", "Assembly sheet"),
)


@dataclass(frozen=True, slots=True)
class ShownMend:
    """A mend: which of the finding's it is, the words of its button, and whether one action does it."""

    index: int
    says: str
    words: str
    can_be_done: bool


@dataclass(frozen=True, slots=True)
class ShownFinding:
    """A finding with its key for addresses, its number and limit in words, and its mends."""

    finding: Finding
    key: str
    measure: str
    mends: tuple[ShownMend, ...]
    field: str = ""
    """The address of the very field within the build; '' where it has none."""

    field_words: str = ""
    part: str = ""
    """The mark of the component that it is about."""

    stands: str = ""
    """The id of the acceptance that it says has lapsed."""

    can_stand: bool = True
    """Whether a person can let it stand."""

    @property
    def at_words(self) -> str:
        """The words of the link to the field; those that the place in words says already are left out."""
        place = self.finding.place
        if place and self.field_words == f"place {place}":
            return "its place"
        return "its field" if place and self.field_words == place else self.field_words

    @property
    def lies_in(self) -> tuple[str, ...]:
        """The parts with a place of it that can be drawn in red."""
        return tuple(dict.fromkeys(split_copy(spot.part)[0] for spot in self.finding.spots))

    @property
    def calculation(self) -> str:
        """The mark of the kept calculation that it is about, or nothing."""
        return self.finding.part if self.finding.rule.startswith("calculation-") else ""

    @property
    def to_do(self) -> list[ShownMend]:
        """The mends that one action does."""
        return [mend for mend in self.mends if mend.can_be_done]

    @property
    def advice(self) -> list[ShownMend]:
        """The mends that a person must see to."""
        return [mend for mend in self.mends if not mend.can_be_done]


@dataclass(frozen=True, slots=True)
class StackRow:
    """One member of a stack: what it is, its thickness, its holes, and which of the stored members it is."""

    item: StackItem
    thickness_mm: float | None
    holes: tuple[LayerHole, ...]
    member: int | None


@dataclass(frozen=True, slots=True)
class JointGroup:
    """Those places of a joint that go through the same layers, drawn and listed."""

    worked: WorkedJoint
    stack: tuple[StackRow, ...]
    broad: str
    narrow: str


def counts_of(worked: WorkedBuild) -> list[tuple[str, int]]:
    """How many findings there are of each severity, worst first, those of none left out."""
    return counts_by_severity(worked.findings)


def counts_by_severity(findings: Iterable[Finding]) -> list[tuple[str, int]]:
    """How many of some findings there are of each severity, worst first, those of none left out."""
    counts: Counter[str] = Counter(finding.severity for finding in findings)
    return [(severity, counts[severity]) for severity in SEVERITIES if counts[severity]]


def show_findings(worked: WorkedBuild, findings: Iterable[Finding]) -> list[ShownFinding]:
    """Findings as the pages show them."""
    joints = {joint.mark: joint for joint in worked.build.joints}
    return [_shown(worked, finding, joints.get(finding.joint)) for finding in findings]


def _shown(worked: WorkedBuild, finding: Finding, joint: Joint | None) -> ShownFinding:
    mends = tuple(
        ShownMend(index, mend.says, mend_words(mend, joint), _can(worked, finding, index))
        for index, mend in enumerate(finding.mends)
    )
    return ShownFinding(
        finding,
        finding_key(finding),
        measure_of(finding),
        mends,
        field_at(worked.build, finding.at) if finding.at else "",
        field_words(finding.at),
        split_copy(finding.part)[0],
        lapsed_id(finding),
        finding.rule not in NEVER,
    )


def _can(worked: WorkedBuild, finding: Finding, index: int) -> bool:
    """Whether a mend is carried out by a button: tried once, as long as the build is as it is."""
    name = f"mend {index} of {finding.rule}|{finding.where}|{finding.says}"
    return remembered(worked, name, lambda: can_mend(worked, finding, index))


def finding_at(finding: Finding) -> str:
    """Where a finding is shown, within its build: at its joint, else on the check."""
    key = quote(finding_key(finding), safe="")
    if finding.joint:
        return f"joints/{quote(finding.joint, safe='')}/?see={key}"
    return f"?{urlencode({'rule': finding.rule})}#finding-{key}"


def rule_words(finding: Finding) -> str:
    """The name of a finding's rule in words."""
    return finding.rule.replace("-", " ")


def measure_of(finding: Finding) -> str:
    """The number of a finding and its limit in words, where the rule has numbers."""
    if finding.value is None:
        return ""
    limit = f", limit {_number(finding.limit)}" if finding.limit is not None else ""
    unit = "" if finding.unit == "1" else finding.unit  # a bare number: so many pieces
    return f"{_number(finding.value)}{limit} {unit}".strip()


def _number(value: float) -> str:
    return f"{value:.2f}".rstrip("0").rstrip(".")


def mend_words(mend: Mend, joint: Joint | None) -> str:
    """The words of a mend's button: the new length alone where nothing else of the fastener changes."""
    if mend.field == "fastener" and joint is not None:
        try:
            old, new = read_fastener(joint.fastener), read_fastener(mend.value)
        except InputError:
            return mend.says.removesuffix(".")
        bare_old, bare_new = (replace(each, length=None, cut_to=None) for each in (old, new))
        if new.length is not None and bare_old == bare_new and new.cut_to is None:
            unit = new.length.unit if new.length.written.replace(" ", "").replace("/", "").isdigit() else ""
            return f"Use {new.length.written} {unit}".strip()
    return mend.says.removesuffix(".")


def joint_groups(
    worked: WorkedBuild, mark: str, findings: Sequence[Finding] | None = None, first: int = 0
) -> list[JointGroup]:
    """The drawings and stacks of a joint from its `first` group on; `findings` are drawn in red."""
    names = {component.mark: component.name for component in worked.build.components}
    found = [each for each in worked.joints if each.joint.mark == mark]
    marked = [each for each in worked.findings if each.joint == mark] if findings is None else findings
    return [_group(each, names, marked) for each in found[first : first + FIRST_GROUPS]]


def _group(worked: WorkedJoint, names: dict[str, str], findings: Sequence[Finding]) -> JointGroup:
    return JointGroup(
        worked,
        _stack(worked),
        joint_section(worked.result, names=names, findings=findings),
        joint_section(worked.result, names=names, findings=findings, narrow=True),
    )


def _stack(worked: WorkedJoint) -> tuple[StackRow, ...]:
    """The members of a stack with how much of the axis each takes, hardware too, and the holes in each."""
    taken = {extent.item: extent.leave_mm - extent.enter_mm for extent in worked.result.extents}
    layers = [index for index, item in enumerate(worked.inputs.stack) if item.layer is not None]
    holes: dict[int, list[LayerHole]] = {}
    for hole in worked.result.holes:
        holes.setdefault(layers[hole.layer], []).append(hole)
    members = members_of(worked.joint, worked.inputs)
    return tuple(
        StackRow(item, taken.get(index), tuple(holes.get(index, ())), members[index])
        for index, item in enumerate(worked.inputs.stack)
    )
