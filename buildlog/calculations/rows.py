"""The kept calculations of a build as rows of a table, and what the page of one shows."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.calculation.result import Result, number_text
from calculators.joints.model import Finding
from calculators.planning.calculations import HeldLimit, WorkedCalculation, number_of
from calculators.planning.inspection import SEVERITIES
from calculators.planning.kept import number_words, result_changes
from calculators.planning.model import Calculation
from calculators.planning.worked import WorkedBuild
from calculators.quantities.nomenclature import NOMENCLATURE

MAIN = 3
"""How many results a row tells."""


@dataclass(frozen=True, slots=True)
class Told:
    """A result in words: its label and its number with its unit; `was` where it was another."""

    label: str
    words: str
    was: str = ""


@dataclass(frozen=True, slots=True)
class ToldLimit:
    """A limit in words: the result, what it comes to, what it may come to, and whether it keeps to it."""

    label: str
    value: str
    limit: str
    word: str
    is_passed: bool


@dataclass(frozen=True, slots=True)
class KeptRow:
    """One kept calculation: its main results, its limits, what the check says of it.

    `worked` is None where the build has more calculations than are worked.
    """

    calculation: Calculation
    worked: WorkedCalculation | None
    results: tuple[Told, ...]
    limits: tuple[ToldLimit, ...]
    worst: Finding | None

    @property
    def rank(self) -> int:
        """Where it stands when the worst come first."""
        return SEVERITIES.index(self.worst.severity) if self.worst else len(SEVERITIES)

    @property
    def is_to_look_at(self) -> bool:
        """Whether a size that it hangs on has changed."""
        return bool(self.worked and self.worked.changed)

    @property
    def passed(self) -> int:
        """How many of its limits are passed."""
        return sum(one.is_passed for one in self.limits)

    def words(self) -> list[str]:
        """What is searched."""
        one = self.calculation
        ties = [tie for _, tie in one.ties]
        return [one.mark, one.title, one.calculator, one.note, *ties, *(each.label for each in self.results)]


ORDERS = {
    "mark": lambda row: row.calculation.mark,
    "title": lambda row: row.calculation.title.casefold(),
    "calculator": lambda row: row.calculation.calculator,
    "worst": lambda row: row.rank,
}


def kept_rows(worked: WorkedBuild) -> list[KeptRow]:
    """Every kept calculation of a build, those too that cannot be worked."""
    held = {one.calculation.mark: one for one in worked.calculations}
    findings: dict[str, Finding] = {}
    for finding in worked.findings:  # the worst comes first
        if finding.rule.startswith("calculation-"):
            findings.setdefault(finding.part, finding)
    return [_row(one, held.get(one.mark), findings.get(one.mark)) for one in worked.build.calculations]


def _row(one: Calculation, worked: WorkedCalculation | None, worst: Finding | None) -> KeptRow:
    if worked is None or worked.now is None:
        return KeptRow(one, worked, (), (), worst)
    first = {limit.result for limit in one.limits}
    results = _results(worked.now, first)
    return KeptRow(one, worked, results, tuple(map(told_limit, worked.limits)), worst)


def label_of(name: str) -> str:
    """A result's name in words."""
    meaning = NOMENCLATURE.get(name)
    return meaning.label if meaning is not None else name.replace("_", " ")


def _results(result: Result, first: set[str]) -> tuple[Told, ...]:
    """The numbers of a result that have a limit, then the first of the others."""
    names = [name for name, one in result.results.items() if number_of(one) is not None]
    names.sort(key=lambda name: name not in first)
    return tuple(Told(label_of(name), number_words(result.results[name])) for name in names[:MAIN])


def told_limit(held: HeldLimit) -> ToldLimit:
    """A limit in words."""
    limit, unit = held.limit, f" {held.unit}" if held.unit not in ("", "1") else ""
    bound = f"{limit.bound} {limit.value}"
    if held.value is None or held.bound is None or held.says:
        return ToldLimit(label_of(limit.result), "", bound, "not looked at", False)
    value = f"{number_text(held.value, 4)}{unit}"
    if not held.held:
        return ToldLimit(label_of(limit.result), value, bound, "not kept", True)
    return ToldLimit(
        label_of(limit.result), value, bound, "may not be kept" if held.may_pass else "kept", False
    )


def changes_of(worked: WorkedCalculation) -> tuple[Told, ...]:
    """The results that differ between what was last looked at and today."""
    if worked.then is None or worked.now is None:
        return ()
    first = {one.result for one in worked.calculation.limits}
    found = result_changes(worked.then, worked.now, first, most=12)
    return tuple(Told(label_of(name), now, was) for name, was, now in found)
