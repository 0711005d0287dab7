"""Every rule of the check in one list, wherever it is applied: for the page of rules and the command."""

from __future__ import annotations

from collections.abc import Mapping
from dataclasses import dataclass
from functools import cache
from types import MappingProxyType

from calculators.joints.limits import LIMITS as JOINT_LIMITS
from calculators.joints.limits import Limit
from calculators.joints.rules import RULES as JOINT_RULES
from calculators.planning.checks.rule import CP, BuildRule, Scope
from calculators.planning.checks.rules import RULES

_THIS = "this project"
_KEPT = "a calculation that is kept with the build, by the sources that it names"


@dataclass(frozen=True, slots=True)
class RuleInfo:
    """A rule as it is listed.

    `subject` is one of `SUBJECTS`, `says` one sentence. `limits` are those that it takes and that can be set.
    `scope` says what it looks at: a part, a joint, or the whole build. `waits_for` names data that a later
    part of this project brings; till then the rule finds nothing. `can_be_off` is False for what only tells
    of the check itself.
    """

    name: str
    subject: str
    says: str
    source: str
    scope: Scope
    limits: tuple[Limit, ...] = ()
    waits_for: str = ""
    can_be_off: bool = True


LIMITS_OF: Mapping[str, tuple[str, ...]] = MappingProxyType(
    {
        "penetration": ("penetration-least", "penetration", "penetration-sideways"),
        "wood-behind-point": ("behind-point-least", "behind-point"),
        "pilot-hole": (
            "pilot-hardwood-least", "pilot-hardwood-most", "pilot-softwood-least", "pilot-softwood-most",
            "coach-pilot-hard-least", "coach-pilot-hard-most",
            "coach-pilot-soft-least", "coach-pilot-soft-most",
        ),
        "shank-in-pilot": ("shank-in-pilot",),
        "soft-screw-in-hardwood": ("small-stainless",),
        "end-distance": ("end-distance-least", "end-distance", "end-distance-loaded"),
        "edge-distance": ("edge-distance-least", "edge-distance"),
        "head-against-countersink": ("head-over-countersink",),
        "washer-pressure": ("washer-pressure-most", "washer-pressure"),
        "washer-thickness": ("washer-spread",),
        "insert-hole": ("insert-hole-least", "insert-hole-most", "insert-hole-softwood-most"),
        "insert-edge": ("insert-edge-least", "insert-edge"),
        "engagement": ("engagement-least",),
        "screw-bottoms": ("bottoms",),
        "blind-hole-breaks-out": ("blind-wall",),
        "threads-past-nut": (
            "threads-past-nut-least", "threads-past-nut-most", "dome-thread", "dome-engagement",
        ),
        "countersink-depth": ("countersink-depth-most", "countersink-depth"),
        "countersink-angle": ("countersink-angle",),
        "tapping-hole": (
            "thread-percent-least", "thread-percent-low", "thread-percent-high", "thread-percent-most",
        ),
        "clearance-hole": ("clearance-least", "clearance-most"),
        "counterbore": ("counterbore-room", "counterbore-floor", "counterbore-floor-wood"),
        "lock": ("lock-clamped",),
    }
)  # fmt: skip
"""The limits of each rule of the joint, by name; a rule that is not here takes none."""

OUTSIDE: tuple[RuleInfo, ...] = (
    RuleInfo(
        "cannot-be-worked-out", "joints",
        "A joint's fastener line, stack and sizes can be read, so that it can be worked out.", _THIS, "joint",
    ),
    RuleInfo(
        "axis-misses-part", "joints", "The axis of each place meets every part that the stack names.", _THIS,
        "joint",
    ),
    RuleInfo(
        "place-off-part", "joints", "Each place of a joint lies on the face that it is placed on.", _THIS,
        "joint",
    ),
    RuleInfo(
        "part-in-the-way", "joints", "The axis of a joint goes through no part that its stack does not name.",
        _THIS, "joint",
    ),
    RuleInfo(
        "typed-thickness", "joints",
        "A thickness typed into a stack is that of the part as it lies, within 0.05 mm.", _THIS, "joint",
    ),
    RuleInfo(
        "parts-overlap", "joints", "No two parts claim the same stretch of a joint's axis.", _THIS, "joint"
    ),
    RuleInfo(
        "near-match-threads", "joints",
        "No two threads of a build are nearer than 0.35 mm in diameter and 5 % in pitch: one starts in the "
        "other's hole and jams.", CP, "build",
    ),
    RuleInfo(
        "pose", "parts in space", "Each part lies on something that has a place and the face that is named.",
        _THIS, "build",
    ),
    RuleInfo(
        "wood-movement", "wood",
        "Fixings more than 100 mm apart across the grain leave the wood the float that the seasons ask for, "
        "and take no more than 70 % of it.",
        "USDA Wood Handbook, table 13-5 of FPL-GTR-190; 100 mm and 70 %: common practice", "joint",
    ),
    RuleInfo(
        "calculation-beyond-limit", "mechanism",
        "What a kept calculation comes to lies within the limit that was set for it.", _KEPT, "build",
    ),
    RuleInfo(
        "calculation-to-look-at", "mechanism",
        "The sizes that a kept calculation hangs on are as they were when somebody last looked.", _KEPT,
        "build",
    ),
    RuleInfo(
        "calculation-not-worked", "mechanism",
        "A kept calculation can be worked with the sizes of today, and held against its limits.", _KEPT,
        "build",
    ),
    RuleInfo("fitted-after-closed", "order", "Nothing is fitted after the step that closes it.", CP, "build"),
    RuleInfo(
        "acceptance-lapsed", "records",
        "A finding that somebody lets stand still has the numbers that it was accepted for.", _THIS, "build",
        can_be_off=False,
    ),
    RuleInfo(
        "rule-switched-off", "records", "A rule that is not applied in a build is named, with the reason.",
        _THIS, "build", can_be_off=False,
    ),
    RuleInfo(
        "rule-failed", "records",
        "A rule that fails on strange data says so, and the others are still applied.", _THIS, "build",
        can_be_off=False,
    ),
)  # fmt: skip
"""The rules that stand in no list of rules, since they are found while the build is worked out."""


@cache
def every_rule() -> tuple[RuleInfo, ...]:
    """List every rule of the check: those of joints, those outside of the lists, those of the whole build.

    Returns:
        Each rule once, by its name.

    Source: this project; each rule names its own.

    Example:
        >>> [rule.limits[0].value for rule in every_rule() if rule.name == "lock"]
        [3.0]
    """
    limits = {limit.name: limit for limit in JOINT_LIMITS}
    of_joints = (
        RuleInfo(
            rule.name,
            "joints",
            rule.says,
            rule.source,
            "joint",
            tuple(limits[name] for name in LIMITS_OF.get(rule.name, ())),
        )
        for rule in JOINT_RULES
    )
    return (*of_joints, *OUTSIDE, *map(_listed, RULES))


def _listed(rule: BuildRule) -> RuleInfo:
    return RuleInfo(rule.name, rule.subject, rule.says, rule.source, rule.scope, rule.limits, rule.waits_for)
