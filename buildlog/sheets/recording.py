"""Sheets that were printed are recorded, so that the paper in the hand can be held against the build."""

from __future__ import annotations

import json
import zlib
from collections.abc import Iterable

from django.db import IntegrityError, transaction
from django.db.models import F
from django.utils import timezone

from buildlog.builds.models import Build
from buildlog.builds.printed import shown_in
from buildlog.sheets.models import PrintedSheet
from buildlog.sheets.stamping import stamp_of
from buildlog.workshops.models import Person
from calculators.planning.facts import Fact
from calculators.planning.worked import WorkedBuild


def last_change_of(row: Build) -> int:
    """The number of the last change of a build: what comes later is not on a sheet that is printed now."""
    return row.changes.order_by("-id").values_list("id", flat=True).first() or 0


def record_printed(
    row: Build,
    person: Person | None,
    worked: WorkedBuild,
    kind: str,
    title: str,
    *,
    paper: str,
    component: str = "",
    options: dict[str, str] | None = None,
    last_change: int = 0,
) -> str:
    """Record that a sheet was printed: one row for each code of a build. Gives the code.

    `last_change` is what `last_change_of` gave before the build was read.
    """
    stamp = stamp_of(worked, kind, component, options)
    again = {"paper": paper, "person": person, "last_at": timezone.now(), "last_change": last_change}
    printed = row.printed.filter(code=stamp.code)
    if printed.update(times=F("times") + 1, gone=False, **again):
        return stamp.code
    try:
        with transaction.atomic():
            PrintedSheet.objects.create(
                build=row, code=stamp.code, kind=kind, title=title, component=component,
                options=options or {}, digest=stamp.digest, facts=packed(stamp.facts),
                shows=shown_in(stamp.facts), **again,
            )  # fmt: skip
    except IntegrityError:  # somebody printed the same sheet at the same moment
        printed.update(times=F("times") + 1, gone=False, **again)
    return stamp.code


def packed(facts: Iterable[Fact]) -> bytes:
    """Facts as they are kept: JSON, compressed, since most of their words are the same."""
    said = [[one.part, one.what, one.value, one.of, one.key, one.via] for one in facts]
    return zlib.compress(json.dumps(said, ensure_ascii=False, separators=(",", ":")).encode())


def unpacked(kept: bytes | memoryview) -> tuple[Fact, ...]:
    """Facts read back."""
    return tuple(Fact(*said) for said in json.loads(zlib.decompress(bytes(kept)).decode()))
