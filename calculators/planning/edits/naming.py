"""A short name for a finding that stays the same while its numbers change."""

from __future__ import annotations

import re
from difflib import get_close_matches

from calculators.joints.model import Finding
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

_OTHER = re.compile(r"[^\w.-]+")


def finding_key(finding: Finding) -> str:
    """Name a finding by its rule, joint, part and place; its numbers and words are left out.

    The name can stand in an address. Two findings of one rule at one spot share it.

    Args:
        finding: the finding.

    Returns:
        Its key.

    Source: this project.

    Example:
        >>> finding_key(Finding("edge-distance", "warning", "", "", "F25", "P03", "1", 2.1, 3.0))
        'edge-distance:F25:P03:1'
        >>> finding_key(Finding("lock", "warning", "", "", "F05"))
        'lock:F05'
    """
    pieces = (finding.rule, finding.joint, finding.part, finding.place)
    return ":".join(_OTHER.sub("-", piece).strip("-") for piece in pieces).rstrip(":")


def find_finding(worked: WorkedBuild, key: str) -> Finding:
    """Find a finding of a build by its key.

    Args:
        worked: the build worked out.
        key: what `finding_key` gave.

    Returns:
        The finding; the first of those that share the key.

    Raises:
        InputError: where there is none (any more).

    Source: this project.
    """
    found = next((one for one in worked.findings if finding_key(one) == key), None)
    if found is not None:
        return found
    keys = dict.fromkeys(finding_key(one) for one in worked.findings[:2_000])
    near = tuple(get_close_matches(key[:120], keys, n=3, cutoff=0.6))
    raise InputError.of(
        f"The check finds nothing called {quoted(key)} now; it may be mended already.",
        field="key",
        choices=near,
    )
