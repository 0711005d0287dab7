"""What is said where a rule itself fails: a fault of the check is a finding, and stops nothing."""

from __future__ import annotations

from calculators.joints.model import Finding

RULE_FAILED = "rule-failed"


def failed(rule: str, source: str, error: Exception, *, joint: str = "", part: str = "") -> Finding:
    """Say that a rule could not be applied because it failed.

    Args:
        rule: the rule's name.
        source: the rule's source.
        error: what it failed with.
        joint: the mark of the joint that it looked at.
        part: the mark of the part that it looked at.

    Returns:
        An `unchecked` finding of the rule `rule-failed`.

    Source: this project.
    """
    words = str(error)[:120]
    says = (
        f"The rule {rule} failed here ({type(error).__name__}{': ' + words if words else ''}): what it looks "
        "for was not looked at. This is a fault of the check, not of the build."
    )
    return Finding(RULE_FAILED, "unchecked", says, source, joint, part, place=rule)
