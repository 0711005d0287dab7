"""The rules of the joint: small pure functions, one file a subject, each with its sentence and source.

May import: the joint's own records and mends. Offers `RULES`, `Rule` and `findings_of`.
"""

from calculators.joints.model import Finding
from calculators.joints.rules import (
    bearing,
    compatibility,
    head,
    insert,
    metal,
    nut_and_washer,
    wood,
    wood_placing,
)
from calculators.joints.rules.rule import Rule, Seen
from calculators.joints.worked import Worked

RULES: tuple[Rule, ...] = (
    *compatibility.RULES,
    *wood.RULES,
    *wood_placing.RULES,
    *insert.RULES,
    *metal.RULES,
    *head.RULES,
    *nut_and_washer.RULES,
    *bearing.RULES,
)
"""Every rule of the joint, in the order in which findings are listed within a severity."""

_ORDER = {"error": 0, "warning": 1, "note": 2, "unchecked": 3}

__all__ = ["RULES", "Rule", "Seen", "findings_of"]


def findings_of(worked: Worked) -> tuple[Finding, ...]:
    """Everything the rules find in a joint, errors first.

    Args:
        worked: the joint as worked out.

    Returns:
        The findings.

    Source: each rule names its own.
    """
    found = [finding for rule in RULES for finding in rule.findings(worked)]
    return tuple(sorted(found, key=lambda finding: _ORDER[finding.severity]))
