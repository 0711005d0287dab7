"""Builds that come from files and go into files: one way for the pages and for the commands.

Nothing is half read: the file, all its photographs and the whole build are sound before anything is saved.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass, replace
from tempfile import TemporaryFile
from typing import IO

from django.db import transaction

from buildlog.builds.actions import begin_build, change_build
from buildlog.builds.archive import MOST_FAULTS, digests_of, is_archive, open_archive, write_archive
from buildlog.builds.models import Build
from buildlog.builds.numbers import next_number
from buildlog.builds.queries import plain_of
from buildlog.pictures.actions import keep_picture
from buildlog.pictures.queries import file_of, missing_digests
from buildlog.pictures.reading import ReadPicture
from buildlog.pictures.rereading import read_again
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain
from calculators.planning.buildfile.parsing import LARGEST_FILE
from calculators.planning.documents import check_whole, read_document, write_document
from calculators.planning.files import read_build
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted


@dataclass(frozen=True, slots=True)
class ReadIn:
    """What reading a build in came to.

    `missing` are the digests of photographs that neither the file nor the workshop has, `anew` is how many
    photographs were written anew because they held more than the picture. `is_changed` is False where the
    build that was replaced was the same already.
    """

    row: Build
    missing: tuple[str, ...] = ()
    anew: int = 0
    is_changed: bool = True


def read_in(
    workshop: Workshop,
    person: Person | None,
    file: IO[bytes],
    name: str,
    *,
    number: str = "",
    replace_it: bool = False,
) -> ReadIn:
    """Read a build file or an archive into a workshop.

    `number` is what the build shall be called instead of its own number; a number that is there already is
    refused unless `replace_it`. Raises InputError with all that is wrong with the file.
    """
    with _opened(file) as (build, pictures):
        if number:
            build = replace(build, number=number)
            read_document("build", write_document("build", build))
        row = Build.rows.of(workshop).filter(number=build.number).first()
        if row is not None and not replace_it:
            raise _taken(workshop, build.number)
        with TemporaryFile() as spool:
            read = _read_pictures(pictures, spool)
            anew = sum(one.digest != old for old, one in read.items())
            build = _with_pictures(build, read)
            check_whole(build)
            with transaction.atomic():
                for one in read.values():
                    keep_picture(workshop, one.fetched(spool))
                says = f"Read from {quoted(name)}"
                if row is None:
                    return ReadIn(begin_build(workshop, person, build, says), _missing(workshop, build), anew)
                said = f"{says}, in place of what was here"
                saved = change_build(row, person, lambda _: build, said, releases=False)
    row = Build.rows.of(workshop).get(pk=row.pk)
    return ReadIn(row, _missing(workshop, build), anew, saved.change is not None)


def says_of(done: ReadIn) -> str:
    """What was read, and which of its photographs could not be."""
    row = done.row
    says = [f"{row.number} {row.title} is in {row.workshop.name} now."]
    if not done.is_changed:
        says = [f"{row.number} was the same already; nothing was changed."]
    if done.missing:
        verb = "is" if len(done.missing) == 1 else "are"
        says.append(f"{len(done.missing)} of its photographs {verb} neither in the file nor in the workshop.")
    if done.anew:
        was = "was" if done.anew == 1 else "were"
        says.append(f"{done.anew} of its photographs held more than the picture and {was} written anew.")
    return " ".join(says)


@contextmanager
def _opened(file: IO[bytes]) -> Iterator[tuple[plain.Build, Iterator[tuple[str, bytes]]]]:
    start = file.read(4)
    file.seek(0)
    if is_archive(start):
        with open_archive(file) as archive:
            yield archive.build, archive.pictures()
    else:
        yield read_build(file.read(LARGEST_FILE + 1)), iter(())


@dataclass(frozen=True, slots=True)
class _Spooled:
    """A photograph that was read and waits in a temporary file, so that memory holds one at a time."""

    digest: str
    width: int
    height: int
    at: int
    full: int
    small: int

    def fetched(self, spool: IO[bytes]) -> ReadPicture:
        spool.seek(self.at)
        full, small = spool.read(self.full), spool.read(self.small)
        return ReadPicture(full, small, self.width, self.height, self.digest)


def _read_pictures(pictures: Iterator[tuple[str, bytes]], spool: IO[bytes]) -> dict[str, _Spooled]:
    """Read every photograph, by its digest in the file; InputError with a fault for each that is wrong."""
    found: dict[str, _Spooled] = {}
    faults: list[Fault] = []
    while len(faults) < MOST_FAULTS:
        try:
            digest, data = next(pictures)
            one = read_again(data, f"photographs/{digest}.jpg")
        except StopIteration:
            break
        except InputError as error:
            faults.extend(error.faults)
            continue
        at = spool.seek(0, 2)
        spool.write(one.full)
        spool.write(one.small)
        found[digest] = _Spooled(one.digest, one.width, one.height, at, len(one.full), len(one.small))
    if faults:
        raise InputError(*faults)
    return found


def _with_pictures(build: plain.Build, read: dict[str, _Spooled]) -> plain.Build:
    """The build with each photograph's digest and size as it was read."""

    def of(one: plain.Photograph) -> plain.Photograph:
        if one.digest not in read:
            return one
        now = read[one.digest]
        return replace(one, digest=now.digest, width=now.width, height=now.height)

    entries = tuple(
        replace(entry, photographs=tuple(map(of, entry.photographs))) if entry.photographs else entry
        for entry in build.entries
    )
    return replace(build, entries=entries)


def _missing(workshop: Workshop, build: plain.Build) -> tuple[str, ...]:
    return missing_digests(workshop, digests_of(build))


def _taken(workshop: Workshop, number: str) -> InputError:
    free = next_number(workshop)
    return InputError.of(
        f"There is a build with the number {quoted(number)} in {workshop.name} already: give this one another"
        f" number ({free} is free), or replace the one that is there.",
        field="number",
        choices=(free,),
    )


def write_zip(row: Build, out: IO[bytes]) -> tuple[str, ...]:
    """Write a build and its photographs as an archive, from its start; gives the digests that it lacks."""
    missing = write_archive(plain_of(row), lambda digest: file_of(row.workshop, digest, "full"), out)
    out.seek(0)
    return missing
