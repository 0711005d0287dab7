"""What every finding must be, whatever the build: said in a sentence, with finite numbers, at a field that is there."""

from __future__ import annotations

import math
import re
from typing import Any, get_args

from calculators.geometry.frames import FACES
from calculators.joints.model import Finding, Severity
from calculators.joints.rules import RULES as JOINT_RULES
from calculators.planning.buildfile.declaration import BUILD_RECORD
from calculators.planning.buildfile.records import Many, Record, Table
from calculators.planning.checks import RULES
from calculators.planning.edits.setting import _STEP, _index
from calculators.planning.model import Build

OUTSIDE = (
    "near-match-threads", "wood-movement", "fitted-after-closed", "calculation-beyond-limit",
    "calculation-to-look-at", "calculation-not-worked", "axis-misses-part", "place-off-part", "part-in-the-way",
    "typed-thickness", "parts-overlap", "pose", "cannot-be-worked-out", "acceptance-lapsed", "rule-switched-off",
    "rule-failed",
)  # fmt: skip
"""The rules that stand neither among those of the joint nor in the list of the whole-build check."""

KNOWN = {rule.name for rule in (*JOINT_RULES, *RULES)} | set(OUTSIDE)
_WORD = re.compile(r"[a-z][a-z0-9]*(-[a-z0-9]+)*")


def leads_somewhere(build: Build, path: str) -> bool:
    """Whether a path of the build file names a field, or a record, that this build has."""
    steps = [(each[1], each[2]) for each in _STEP.finditer(path)]
    if "".join(f".{name}" + (f"[{key}]" if key is not None else "") for name, key in steps) != f".{path}":
        return False
    record, held = BUILD_RECORD, build
    for place, (name, key) in enumerate(steps):
        if name not in record.declared:
            return False
        kind, last = record.declared[name].kind, place == len(steps) - 1
        inner: Any = getattr(held, name) if held is not None else None
        if key is None and last:
            return True
        if isinstance(kind, Table):
            return last
        if key is not None and isinstance(kind, Many) and isinstance(kind.kind, Record):
            index = _index(inner or (), key)
            if index is None:
                return False
            record, held = kind.kind, inner[index]
        elif key is None and isinstance(kind, Record):
            record, held = kind, inner
        else:
            return False
    return True


def ill_formed(build: Build, finding: Finding) -> list[str]:
    """Say what is wrong with a finding; nothing where it is as it should be."""
    faults = []
    if finding.rule not in KNOWN or not _WORD.fullmatch(finding.rule):
        faults.append(f"no rule: {finding.rule}")
    if finding.severity not in get_args(Severity):
        faults.append(f"severity: {finding.severity}")
    if (
        not finding.says.strip()
        or finding.says[-1] not in ".!?”"
        or "None" in finding.says
        or "nan" in finding.says.split()
    ):
        faults.append(f"no sentence: {finding.says!r}")
    if len(finding.source) < 5:
        faults.append("no source")
    if finding.joint and finding.joint not in {one.mark for one in build.joints}:
        faults.append(f"no such joint: {finding.joint}")
    for name in ("value", "limit"):
        number = getattr(finding, name)
        if number is not None and not (isinstance(number, float | int) and math.isfinite(number)):
            faults.append(f"{name}: {number!r}")
    if finding.value is None and finding.unit:
        faults.append(f"a unit and no value: {finding.unit}")
    if finding.at and not leads_somewhere(build, finding.at):
        faults.append(f"leads nowhere: {finding.at}")
    faults += [
        f"mend: {mend}" for mend in finding.mends if not mend.says.strip() or mend.says[-1] not in ".!?”"
    ]
    return [*faults, *_spots(build, finding)]


def _spots(build: Build, finding: Finding) -> list[str]:
    parts = {one.mark: one for one in build.components}
    faults = []
    for spot in finding.spots:
        numbers = [spot.u_mm, spot.v_mm, spot.radius_mm, spot.to_u_mm or 0.0, spot.to_v_mm or 0.0]
        part = parts.get(spot.part)
        if (
            part is None
            or spot.face not in FACES
            or not all(map(math.isfinite, numbers))
            or spot.radius_mm <= 0
        ):
            faults.append(f"spot: {spot}")
        elif (spot.face == "side") and part.size.shape == "block":
            faults.append(f"a block has no side: {spot}")
    return faults
