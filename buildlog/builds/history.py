"""The log of a build as people read it: who, when, what, why, and each field as it was and as it became."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from typing import Any, cast

from django.core.paginator import Page, Paginator
from django.db.models import F, Window
from django.db.models.functions import RowNumber
from django.http import QueryDict

from buildlog.builds.models import Altered, Build, Change
from buildlog.builds.queries import plain_of
from buildlog.builds.zones import time_in
from calculators.planning import documents
from calculators.planning import model as plain
from calculators.planning.documents import Kind
from calculators.planning.edits import FieldChange, compare_builds

ROWS = 50
"""The changes of one page."""
FIRST_RECORDS = 20
"""The most records of one change that are compared; the others are counted."""
FIRST_FIELDS = 30
_WHAT = {
    "build": "the build",
    "step": "step {key}",
    "entry": "the journal",
    "reading": "reading {key}",
    "moisture": "moisture reading {key}",
    "release": "release {key}",
    "acceptance": "let stand",
}
LONGEST = 300
"""The longest value that is shown whole [characters]."""


@dataclass(frozen=True, slots=True)
class ToldField:
    """One field of one record in a change: a mark and a field in words, the value before and after."""

    what: str
    field: str
    old: str
    new: str


@dataclass(frozen=True, slots=True)
class Told:
    """One change as the page shows it. `was` says whether it undoes or redoes, `since` whether it stands."""

    change: Change
    at: str
    who: str
    was: str
    since: str
    fields: list[ToldField]
    more: int


@dataclass(frozen=True, slots=True)
class History:
    """A page of the log. `find` is the mark that is looked for, `query` the address without the page."""

    told: list[Told]
    page: Page[Change]
    find: str
    query: str


def history_of(row: Build, asked: QueryDict) -> History:
    """Gather a page of the log, newest first. The number of queries does not grow with the log."""
    find = asked.get("find", "")[:60].replace("\x00", "").strip()
    changes = row.changes.select_related("person", "undone_by", "undoes").order_by("-id")
    if find:
        changes = changes.filter(
            pk__in=Altered.objects.filter(change__build=row, key=find).values("change_id")
        )
    page = Paginator(changes, ROWS).get_page(asked.get("page"))
    shown = list(page.object_list)
    altered = _altered(shown, find)
    build = plain_of(row)
    query = QueryDict(mutable=True)
    if find:
        query["find"] = find
    told = [_told(build, change, *altered.get(change.pk, ([], 0))) for change in shown]
    return History(told, page, find, query.urlencode())


def _altered(changes: list[Change], find: str) -> dict[int, tuple[list[Altered], int]]:
    """The first records of each change, and how many it has in all, in one query."""
    mine = Altered.objects.filter(change__in=[change.pk for change in changes])
    if find:
        mine = mine.filter(key=find)
    counted = mine.annotate(
        nth=Window(RowNumber(), partition_by=F("change_id"), order_by=F("id").asc()),
        last=Window(RowNumber(), partition_by=F("change_id"), order_by=F("id").desc()),
    ).filter(nth__lte=FIRST_RECORDS)
    found: dict[int, tuple[list[Altered], int]] = {}
    for one in counted.order_by("change_id", "id"):
        records, count = found.setdefault(one.change_id, ([], one.nth + one.last - 1))
        records.append(one)
        found[one.change_id] = (records, count)
    return found


def _told(build: plain.Build, change: Change, altered: list[Altered], count: int) -> Told:
    compared = _fields(altered)
    was = ("redone" if change.is_redo else "undone") if change.undoes_id is not None else ""
    later = getattr(change, "undone_by", None)
    since = ("redone" if later.is_redo else "undone") if later is not None else ""
    who = change.person.get_full_name() if change.person else "from a command"
    return Told(
        change,
        time_in(build, change.at),
        who,
        was,
        since,
        [_field(one) for one in compared[:FIRST_FIELDS]],
        max(0, len(compared) - FIRST_FIELDS) + max(0, count - len(altered)),
    )


def _fields(altered: Iterable[Altered]) -> tuple[FieldChange, ...]:
    """What differs between the records as they were and as they became, by the same reading as everywhere."""
    old, new = plain.Build("", ""), plain.Build("", "")
    sides: tuple[list[tuple[Kind, Any]], list[tuple[Kind, Any]]] = ([], [])
    headers = [old, new]
    for one in altered:
        for side, text in enumerate((one.old, one.new)):
            if not text:
                continue
            record = documents.read_document(cast(Kind, one.kind), text)
            if one.kind == "build":
                headers[side] = record
            else:
                sides[side].append((cast(Kind, one.kind), record))
    return tuple(
        one
        for one in compare_builds(
            documents.build_from(headers[0], sides[0]), documents.build_from(headers[1], sides[1])
        )
        if not (one.kind == "build" and one.field in ("components", "joints", "calculations", "stock"))
    )


def _field(one: FieldChange) -> ToldField:
    what = _WHAT.get(one.kind, "{key}").format(key=one.key)
    return ToldField(what, one.field.replace("_", " "), _short(one.old), _short(one.new))


def _short(text: str) -> str:
    return text if len(text) <= LONGEST else text[:LONGEST] + "…"
