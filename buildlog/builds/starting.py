"""What the first page shows: the build that one was at, what has come since, and all that is on the bench."""

from __future__ import annotations

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from django.core.paginator import Page, Paginator
from django.db.models import Q
from django.http import QueryDict
from django.utils import timezone

from buildlog.builds.models import Build, Change
from buildlog.builds.printed import count_out_of_date
from buildlog.builds.queries import is_worked, plain_of, plain_of_many, worked_of, worked_then
from buildlog.builds.showing import ShownFinding, counts_by_severity, counts_of, show_findings
from buildlog.builds.zones import time_in
from buildlog.workshops.models import Membership, Person
from calculators.planning import model as plain
from calculators.planning.edits import finding_key
from calculators.planning.inspection import SEVERITIES
from calculators.planning.resuming import Resumed, resume

DONE: plain.BuildState = "done"
ROWS = 20
"""The builds of one page."""
MOST_DONE = 100
"""The most done builds that are named."""
MOST_JOINTS = 1_500
"""A page works out builds with so many joints together; of the rest it says that nobody has looked yet."""
FIRST_NEW = 5
"""The most new findings that are told here."""
WORTH_TELLING = ("error", "warning")


@dataclass(frozen=True, slots=True)
class OnBench:
    """A build in the list; `counts` is None where it was not worked out for the list's sake."""

    row: Build
    build: plain.Build
    counts: list[tuple[str, int]] | None
    waiting: int
    is_late: bool


@dataclass(frozen=True, slots=True)
class Since:
    """What has come since one's last change: what is new, how many are mended, how often who changed it.

    `on` is the day of that change. `new` are the first few, `new_counts` counts all by severity.
    """

    change: Change
    on: str
    new: list[ShownFinding]
    new_counts: list[tuple[str, int]]
    mended: int
    others: list[tuple[str, int]]


@dataclass(frozen=True, slots=True)
class AtHand:
    """The build that one was at, in full. `first` are its worst findings while nothing is new.

    `old_papers` is how many printed sheets are out of date.
    """

    row: Build
    build: plain.Build
    counts: list[tuple[str, int]]
    resumed: Resumed
    since: Since | None
    first: list[ShownFinding]
    may_change: bool
    old_papers: int

    @property
    def shown(self) -> list[ShownFinding]:
        """The findings to tell: what is new, else what is worst."""
        return (self.since.new if self.since else []) or self.first


@dataclass(frozen=True, slots=True)
class Bench:
    """The whole first page. `query` is the address without the page."""

    at_hand: AtHand | None
    rows: list[OnBench]
    page: Page[Build]
    done: list[Build]
    find: str
    query: str
    count: int


def bench_of(person: Person, members: Sequence[Membership], asked: QueryDict) -> Bench:
    """Gather the first page of a person. The number of queries does not grow with the builds."""
    own = Build.rows.for_person(person).select_related("workshop")
    find = asked.get("find", "")[:100].replace("\x00", "").strip()
    found = own.exclude(state=DONE).order_by("-changed_at", "-pk")
    count = found.count()
    if find:
        found = found.filter(Q(number__icontains=find) | Q(title__icontains=find))
    page = Paginator(found, ROWS).get_page(asked.get("page"))
    rows = list(page.object_list)
    done = list(own.filter(state=DONE).order_by("-changed_at", "-pk")[:MOST_DONE])
    change = _last_change(person) if not find and page.number == 1 else None
    known = rows if change is None or change.build in rows else [*rows, change.build]
    builds = dict(zip(known, plain_of_many(known), strict=True))
    at_hand = None
    if builds and not find and page.number == 1:
        at_hand = _at_hand(person, members, builds, change)
    query = QueryDict(mutable=True)
    if find:
        query["find"] = find
    return Bench(
        at_hand, _on_bench([(row, builds[row]) for row in rows]), page, done, find, query.urlencode(), count
    )


def _on_bench(pairs: list[tuple[Build, plain.Build]]) -> list[OnBench]:
    today, joints = timezone.now().date(), 0
    found = []
    for row, build in pairs:
        counts = None
        if is_worked(row) or joints + len(build.joints) <= MOST_JOINTS:
            joints += 0 if is_worked(row) else len(build.joints)
            counts = counts_of(worked_of(row))
        waiting = sum(one.state == "bought" for one in build.components)
        found.append(OnBench(row, build, counts, waiting, bool(build.due and build.due < today)))
    return found


def _last_change(person: Person) -> Change | None:
    """The person's last change of a build that is not done, of a workshop that they are in."""
    changes = Change.objects.filter(person=person, build__workshop__memberships__person=person)
    return changes.exclude(build__state=DONE).select_related("build__workshop").first()


def _at_hand(
    person: Person, members: Sequence[Membership], builds: dict[Build, plain.Build], change: Change | None
) -> AtHand:
    """The build that the person changed last, else the one whose journal was written last."""
    if change is not None:
        row = change.build
    else:
        row = max(builds, key=lambda each: max((one.date for one in builds[each].entries), default=date.min))
    worked = worked_of(row)
    since = _since(row, person, change) if change is not None else None
    worth = [one for one in worked.findings if one.severity in WORTH_TELLING][:FIRST_NEW]
    may_change = any(one.workshop_id == row.workshop_id and one.may_change for one in members)
    return AtHand(
        row,
        plain_of(row),
        counts_of(worked),
        resume(worked.build),
        since,
        show_findings(worked, worth),
        may_change,
        count_out_of_date(row),
    )


def _since(row: Build, person: Person, change: Change) -> Since:
    """What the check says now that it did not say then, and who has changed the build since."""
    on = time_in(plain_of(row), change.at)[:10]
    later = row.changes.filter(pk__gt=change.pk).select_related("person").order_by("pk")
    names = Counter(one.person.get_full_name() if one.person else "somebody" for one in later[:1000])
    if not names:
        return Since(change, on, [], [], 0, [])
    now, then = worked_of(row), worked_then(row, change)
    # What somebody let stand since is neither mended nor new.
    old = {finding_key(one) for one in (*then.findings, *(one for one, _ in then.accepted))}
    new = [one for one in now.findings if finding_key(one) not in old]
    left = {finding_key(one) for one in (*now.findings, *(one for one, _ in now.accepted))}
    new.sort(key=lambda one: SEVERITIES.index(one.severity))
    return Since(
        change,
        on,
        show_findings(now, new[:FIRST_NEW]),
        counts_by_severity(new),
        len(old - left),
        names.most_common(),
    )
