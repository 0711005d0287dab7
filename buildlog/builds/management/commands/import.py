"""`manage.py import`: a build file or an archive read into a workshop."""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from io import BytesIO
from pathlib import Path
from typing import IO, Any

from django.core.management.base import CommandParser
from django.db import DatabaseError

from buildlog.builds.archive import MOST_BYTES
from buildlog.builds.keeping import read_in, says_of
from buildlog.builds.lookup import find_workshop
from buildlog.plain_command import SentenceCommand, read_file
from buildlog.workshops.models import Person, Workshop
from calculators.planning.buildfile.parsing import LARGEST_FILE
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted


class Command(SentenceCommand):
    """Reads one build."""

    help = "Read a build file, or an archive of one with its photographs, into a workshop."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the file, and what to do where its number is taken."""
        parser.add_argument("file", help="a build file, an archive, or - for standard input")
        parser.add_argument("--workshop", default="", help="into which, where there are several")
        parser.add_argument("--as", dest="number", metavar="NUMBER", default="", help="under another number")
        parser.add_argument("--replace", action="store_true", help="in place of the build with that number")
        parser.add_argument("--by", metavar="NAME", default="", help="who reads it (a sign-in name)")

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Read it, and say where it stands."""
        workshop = find_workshop(options["workshop"])
        person = _member(workshop, options["by"])
        name = options["file"]
        shown = "standard input" if name == "-" else Path(name).name
        with _opened(name) as file:
            try:
                done = read_in(
                    workshop, person, file, shown, number=options["number"], replace_it=options["replace"]
                )
            except DatabaseError as problem:
                raise InputError.of(f"Nothing was saved: the database answered “{problem}”.") from problem
        return says_of(done), 0


def _member(workshop: Workshop, username: str) -> Person | None:
    if not username:
        return None
    found = Person.objects.filter(username=username, memberships__workshop=workshop).first()
    if found is None:
        names = tuple(workshop.people.order_by("username").values_list("username", flat=True)[:20])
        raise InputError.of(
            f"Nobody signs in to {workshop.name} as {quoted(username)}; there are {', '.join(names)}.",
            field="--by",
            choices=names,
        )
    return found


@contextmanager
def _opened(name: str) -> Iterator[IO[bytes]]:
    """The file, open: an archive is read where it lies, anything else is small enough to be read whole."""
    path = Path(name)
    try:
        is_zip = name != "-" and path.is_file() and path.stat().st_size <= MOST_BYTES
        file = path.open("rb") if is_zip else None
    except (OSError, ValueError):
        file = None  # which `read_file` says in a sentence
    if file is None:
        yield BytesIO(read_file(name, most_bytes=LARGEST_FILE, what="a build file or an archive"))
        return
    with file:
        yield file
