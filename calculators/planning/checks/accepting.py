"""Findings that a person lets stand: by which values they are known, and when the acceptance lapses."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from hashlib import sha256

from calculators.joints.model import Finding
from calculators.planning.model import Acceptance


@dataclass(frozen=True, slots=True)
class Sorted:
    """Findings parted by their acceptances: what stands, what is accepted with by what, what has lapsed."""

    standing: tuple[Finding, ...]
    accepted: tuple[tuple[Finding, Acceptance], ...]
    lapsed: tuple[Acceptance, ...]


def fingerprint(finding: Finding) -> str:
    """Give the values that a finding is accepted for, as a short text.

    Severity, value and limit to three figures, unit, and the version of the rule; for a finding without a
    value, a digest of its sentence, which holds all that was read.

    Args:
        finding: the finding.

    Returns:
        The text; it is another when the numbers change.

    Source: this project.

    Example:
        >>> fingerprint(Finding("edge-distance", "warning", "", "", "F25", "P03", "1", 2.1091, 3.0, "d"))
        'warning 2.11 against 3 d, rule 1'
    """
    if finding.value is None:
        said = sha256(finding.says.encode()).hexdigest()[:12]
        return f"{finding.severity} {said}, rule {finding.version}"
    limit = "" if finding.limit is None else f" against {finding.limit:.3g}"
    unit = f" {finding.unit}" if finding.unit else ""
    return f"{finding.severity} {finding.value:.3g}{limit}{unit}, rule {finding.version}"


def part_findings(findings: Iterable[Finding], acceptances: Iterable[Acceptance]) -> Sorted:
    """Part findings by the acceptances of the build.

    Args:
        findings: all that the rules found.
        acceptances: what people let stand.

    Returns:
        The findings that stand, those that are accepted, and the acceptances that have lapsed: their
        finding is still there, with other numbers.

    Source: this project.
    """
    given = {(one.rule, one.joint, one.part, one.place, one.given_for): one for one in acceptances}
    spots = {key[:4]: one for key, one in given.items()}
    standing: list[Finding] = []
    accepted: list[tuple[Finding, Acceptance]] = []
    lapsed: dict[str, Acceptance] = {}
    used: set[str] = set()
    for finding in findings:
        spot = (finding.rule, finding.joint, finding.part, finding.place)
        if spot not in spots:
            standing.append(finding)
            continue
        acceptance = given.get((*spot, fingerprint(finding)))
        if acceptance is None:
            standing.append(finding)
            lapsed[spots[spot].id] = spots[spot]
        else:
            accepted.append((finding, acceptance))
            used.add(acceptance.id)
    gone = tuple(one for key, one in lapsed.items() if key not in used)
    return Sorted(tuple(standing), tuple(accepted), gone)
