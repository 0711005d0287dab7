"""A mend that a person has pressed, as an edit of the build and a sentence for the log."""

from __future__ import annotations

import re
from collections.abc import Callable

from buildlog.builds.joint_edits import in_words
from calculators.joints.model import Finding
from calculators.planning import model as plain
from calculators.planning.edits import find, find_finding, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError


def mended(worked: WorkedBuild, key: str, at: str) -> tuple[Callable[[plain.Build], plain.Build], str]:
    """The edit that carries out a mend, and what it comes to. Raises InputError where it cannot be."""
    index = mend_index(at)
    finding = find_finding(worked, key)
    after = mend(worked, key, index)

    def edit(build: plain.Build) -> plain.Build:
        # Somebody may have saved in between: then the mend is worked out for what there is now.
        return after if build == worked.build else mend(inspect_build(build, worked), key, index)

    return edit, _says(worked.build, after, finding, index)


def mend_index(at: str) -> int:
    """Which mend an address or a form names; the first where it names none. Raises InputError."""
    if not at:
        return 0
    if not (at.isascii() and at.isdigit() and len(at) < 4):
        raise InputError.of("A mend has a number from 0; press one of the buttons beside the finding.")
    return int(at)


def _says(before: plain.Build, after: plain.Build, finding: Finding, index: int) -> str:
    """What was done, in one sentence that names the mark."""
    if finding.joint and find(before, "joint", finding.joint) != find(after, "joint", finding.joint):
        return in_words(find(before, "joint", finding.joint), find(after, "joint", finding.joint))
    words = finding.mends[index].says.removesuffix(".")
    named = finding.joint or finding.part or not finding.where
    if named and re.search(rf"(?<![\w-]){re.escape(finding.joint or finding.part)}(?![\w-])", words):
        return words  # it says itself where
    return f"{finding.where}: {words[:1].lower()}{words[1:]}" if finding.where else words
