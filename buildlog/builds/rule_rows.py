"""Every rule of the check with the limits that hold in a build or a workshop, as a page lists them."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable
from dataclasses import dataclass
from functools import lru_cache
from urllib.parse import urlencode

from django.http import QueryDict

from calculators.joints.limits import Limit
from calculators.joints.model import Finding
from calculators.planning.checks.limits import LIMITS
from calculators.planning.checks.listing import RuleInfo, every_rule
from calculators.planning.edits import limit_named
from calculators.planning.model import Context
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Refused:
    """What could not be taken: of which limit or rule, what was typed, and the sentence."""

    name: str
    typed: str
    says: str
    is_limit: bool

    @property
    def place(self) -> str:
        """The id of its limit or rule on the page; nothing where there is none."""
        if self.is_limit:
            return f"limit-{self.name}" if any(one.name == self.name for one in LIMITS) else ""
        return f"rule-{self.name}" if self.name in rule_names() else ""

    def at(self, name: str, *, is_limit: bool) -> Refused | None:
        """Itself, where it is of this limit or rule."""
        return self if (self.name, self.is_limit) == (name, is_limit) else None


@dataclass(frozen=True, slots=True)
class LimitRow:
    """A limit of a rule: the value that holds, and whether it is the build's own."""

    limit: Limit
    value: str
    is_own: bool
    place: str
    """Its id on the page: of a limit that several rules take, the first one's."""

    typed: str = ""
    fault: str = ""

    @property
    def default(self) -> str:
        """The rule's own value."""
        return f"{self.limit.value:g}"

    @property
    def unit(self) -> str:
        """Its unit as it is said; nothing for a bare number."""
        return "" if self.limit.unit == "1" else self.limit.unit


@dataclass(frozen=True, slots=True)
class RuleRow:
    """A rule with its limits, whether and why it is switched off, and how many findings it has here."""

    rule: RuleInfo
    limits: tuple[LimitRow, ...]
    off: str | None
    count: int
    typed: str = ""
    fault: str = ""

    @property
    def words(self) -> str:
        """Its name in words."""
        return self.rule.name.replace("-", " ").capitalize()

    @property
    def is_open(self) -> bool:
        """Whether its limits are shown at once: one is its own, or what was typed could not be taken."""
        return any(one.is_own or one.fault for one in self.limits)


@dataclass(frozen=True, slots=True)
class SubjectRows:
    """The rules under one heading."""

    subject: str
    rules: tuple[RuleRow, ...]

    @property
    def is_open(self) -> bool:
        """Whether it is unfolded at once: a limit is its own, a rule is off, or something is refused."""
        return any(one.is_open or one.off is not None or one.fault for one in self.rules)

    @property
    def count(self) -> int:
        """How many findings its rules have here."""
        return sum(one.count for one in self.rules)


@dataclass(frozen=True, slots=True)
class Unknown:
    """A limit or a rule that is set and that no rule has, with the sentence that names the nearest."""

    name: str
    value: str
    says: str
    is_limit: bool


@dataclass(frozen=True, slots=True)
class Rules:
    """All that the page lists, and what was asked of it."""

    subjects: tuple[SubjectRows, ...]
    unknown: tuple[Unknown, ...]
    find: str
    only: str
    of: int
    shown: int

    @property
    def is_filtered(self) -> bool:
        """Whether something is left out."""
        return bool(self.find or self.only)

    @property
    def query(self) -> str:
        """What was asked, for an address that comes back to it."""
        said = {name: value for name, value in (("find", self.find), ("only", self.only)) if value}
        return f"?{urlencode(said)}" if said else ""


ONLY = (("own", "with limits of its own, or switched off"), ("found", "that find something here"))


def rules_of(
    context: Context, findings: Iterable[Finding], asked: QueryDict, refused: Refused | None = None
) -> Rules:
    """The rules that an address asks for, by subject; `refused` stands beside its limit or rule."""
    find = asked.get("find", "")[:200].strip()
    only = asked.get("only", "") if asked.get("only", "") in dict(ONLY) else ""
    counts = Counter(one.rule for one in findings)
    placed: set[str] = set()
    rows = [_row(rule, context, counts[rule.name], refused, placed) for rule in every_rule()]
    shown = [row for row in rows if _asked(row, find.casefold().split(), only)]
    subjects = dict.fromkeys(row.rule.subject for row in shown)
    return Rules(
        tuple(
            SubjectRows(subject, tuple(row for row in shown if row.rule.subject == subject))
            for subject in subjects
        ),
        unknown_in(context),
        find,
        only,
        len(rows),
        len(shown),
    )


def unknown_in(context: Context) -> tuple[Unknown, ...]:
    """The limits and rules that are set and that there are not."""
    found = []
    for name, value in context.limits:
        try:
            limit_named(name)
        except InputError as error:
            found.append(Unknown(name, str(value), error.faults[0].says, is_limit=True))
    for name, reason in context.rules_off:
        if name not in rule_names():
            found.append(Unknown(name, reason, f"There is no rule called “{name[:80]}”.", is_limit=False))
    return tuple(found)


@lru_cache(maxsize=1)
def rule_names() -> frozenset[str]:
    """The names of all rules."""
    return frozenset(rule.name for rule in every_rule())


def rule_named(name: str) -> RuleInfo:
    """The rule with this name."""
    return next(rule for rule in every_rule() if rule.name == name)


@lru_cache(maxsize=1)
def subject_by_rule() -> dict[str, str]:
    """The heading under which each rule is listed."""
    return {rule.name: rule.subject for rule in every_rule()}


def _row(rule: RuleInfo, context: Context, count: int, refused: Refused | None, placed: set[str]) -> RuleRow:
    own = dict(context.limits)
    limits = []
    for limit in rule.limits:
        is_own = limit.name in own
        value = f"{own[limit.name]:f}" if is_own else f"{limit.value:g}"
        wrong = refused.at(limit.name, is_limit=True) if refused else None
        place = f"limit-{limit.name}" if limit.name not in placed else f"limit-{limit.name}-of-{rule.name}"
        placed.add(limit.name)
        typed, fault = (wrong.typed, wrong.says) if wrong else (value, "")
        limits.append(LimitRow(limit, value, is_own, place, typed, fault))
    wrong = refused.at(rule.name, is_limit=False) if refused else None
    off = dict(context.rules_off).get(rule.name)
    return RuleRow(rule, tuple(limits), off, count, wrong.typed if wrong else "", wrong.says if wrong else "")


def _asked(row: RuleRow, words: list[str], only: str) -> bool:
    if row.fault or any(one.fault for one in row.limits):
        return True
    if only == "own" and row.off is None and not any(one.is_own for one in row.limits):
        return False
    if only == "found" and not row.count:
        return False
    rule = row.rule
    text = " ".join((rule.name, row.words, rule.subject, rule.says, rule.source))
    text = f"{text} {' '.join(f'{one.limit.name} {one.limit.says}' for one in row.limits)}".casefold()
    return all(word in text for word in words)
