"""Short ways of writing joints for tests."""

from __future__ import annotations

from typing import Any

from calculators.hardware.designation import read_fastener, read_insert, read_nut, read_washer
from calculators.joints import Finding, JointInput, JointResult, Layer, StackItem, work_joint
from calculators.joints.mending import apply_mend
from calculators.joints.model import HoleOverride


def layer(
    part: str, material: str, thickness_mm: float, hole: dict[str, Any] | None = None, **more: Any
) -> StackItem:
    return StackItem(layer=Layer(part, material, thickness_mm, hole=HoleOverride(**(hole or {})), **more))


def washer(text: str) -> StackItem:
    return StackItem(washer=read_washer(text))


def nut(text: str) -> StackItem:
    return StackItem(nut=read_nut(text))


def insert(text: str) -> StackItem:
    return StackItem(insert=read_insert(text))


def joint(fastener: str, *stack: StackItem, **more: Any) -> JointInput:
    more.setdefault("wood_screw_head_angle_deg", 90.0)
    return JointInput("J1", read_fastener(fastener), stack, **more)


def work(fastener: str, *stack: StackItem, **more: Any) -> JointResult:
    return work_joint(joint(fastener, *stack, **more))


def found(result: JointResult, rule: str) -> list[Finding]:
    return [finding for finding in result.findings if finding.rule == rule]


def severities(result: JointResult, rule: str) -> list[str]:
    return [finding.severity for finding in found(result, rule)]


def mended(result: JointResult, rule: str, which: int = 0) -> JointResult:
    """The joint worked again with the first finding's mend carried out."""
    return work_joint(apply_mend(result.joint, found(result, rule)[0].mends[which]))
