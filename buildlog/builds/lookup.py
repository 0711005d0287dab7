"""A build by the word that a command was given: a build file, or the number of a build."""

from __future__ import annotations

import os.path
from functools import lru_cache
from pathlib import Path

from django.db import DatabaseError

from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.plain_command import read_file
from buildlog.workshops.models import Workshop
from calculators.planning import model as plain
from calculators.planning.files import read_build
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

DEMONSTRATION = Path(__file__).parent / "demonstration"

LARGEST_FILE = 64 * 1024 * 1024
"""The largest build file that is read [bytes]."""


def demonstration_numbers() -> tuple[str, ...]:
    """The numbers of the demonstration's build files, in order."""
    return tuple(sorted(path.stem for path in DEMONSTRATION.glob("*.json")))


@lru_cache(maxsize=8)
def demonstration_build(number: str) -> plain.Build:
    """Read one of the demonstration's build files, which do not change while we run."""
    return read_build((DEMONSTRATION / f"{number}.json").read_bytes())


def find_row(number: str, workshop: str = "") -> Build | None:
    """Find a build by its number, in the workshop with this name or slug where one is named.

    Raises InputError where two workshops have the number. None too while there is no database.
    """
    try:
        rows = list(Build.rows.filter(number=number).select_related("workshop").order_by("pk")[:20])
    except DatabaseError:
        return None
    if workshop:
        rows = [row for row in rows if workshop in (row.workshop.name, row.workshop.slug)]
    if len(rows) > 1:
        names = tuple(row.workshop.slug for row in rows)
        raise InputError.of(
            f"{len(rows)} workshops have a build with the number {quoted(number)}; say which with --workshop:"
            f" {', '.join(names)}.",
            choices=names,
        )
    return rows[0] if rows else None


def find_workshop(name: str = "") -> Workshop:
    """Find the workshop with this name or slug, or the only one; InputError where it is not clear which."""
    try:
        found = list(Workshop.objects.order_by("pk")[:200])
    except DatabaseError:
        raise InputError.of(
            "The database cannot be opened or has not been set up: run manage.py migrate, or manage.py demo."
        ) from None
    named = [one for one in found if name in (one.slug, one.name)] if name else found
    if len(named) == 1:
        return named[0]
    slugs = tuple(one.slug for one in found)
    if not slugs:
        raise InputError.of("There is no workshop yet; begin one on the first page, or run manage.py demo.")
    what = (
        f"No workshop is called {quoted(name)}" if name and not named else f"There are {len(named)} workshops"
    )
    raise InputError.of(f"{what}; say which with --workshop: {', '.join(slugs)}.", choices=slugs)


def is_file(name: str) -> bool:
    """Whether a command was given a build file, not a build's number."""
    there = os.path.exists(name)  # unlike Path.exists, False for a name that no file can have
    return there or bool(Path(name).suffix)


def find_build(name: str, workshop: str = "") -> plain.Build:
    """Find a build by the name of its file, or by its number in the database or the demonstration.

    Raises InputError where it is not to be had or the file cannot be read.
    """
    if is_file(name):
        return read_build(read_file(name, most_bytes=LARGEST_FILE, what="a build file (JSON)"))
    row = find_row(name, workshop)
    if row is not None:
        return plain_of(row)
    numbers = demonstration_numbers()
    if name in numbers and not workshop:
        return demonstration_build(name)
    where = f" in the workshop {quoted(workshop)}" if workshop else ""
    raise InputError.of(
        f"There is no build with the number {quoted(name)}{where} and no file of that name; the demonstration"
        f" has {', '.join(numbers)}.",
        choices=numbers,
    )
