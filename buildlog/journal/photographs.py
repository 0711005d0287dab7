"""The photographs of an entry on their way through its form.

A photograph that was taken is kept at once, and the form that is shown again holds it by its digest, so that
one bad file among twenty costs none of the others. What a form says it holds is believed only where the
workshop has that picture.
"""

from __future__ import annotations

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from typing import BinaryIO, cast

from django.core.files.uploadedfile import UploadedFile
from django.http import QueryDict

from buildlog.builds.ids import new_id
from buildlog.pictures.actions import keep_picture
from buildlog.pictures.models import Picture
from buildlog.pictures.queries import pictures_of
from buildlog.pictures.reading import read_picture
from buildlog.workshops.models import Workshop
from calculators.planning.model import Build, Entry, Photograph
from calculators.quantities.errors import InputError

MOST_PHOTOGRAPHS = 200
_DIGEST = re.compile(r"[0-9a-f]{64}")
GONE = "A photograph that this page held is not in the workshop any more; choose it again."


@dataclass(frozen=True, slots=True)
class Held:
    """One photograph in the form of an entry; a new one has no id yet."""

    photograph: Photograph
    is_left_out: bool = False

    @property
    def name(self) -> str:
        """What stands for it in the names of its fields."""
        return self.photograph.id or self.photograph.digest

    @property
    def value(self) -> str:
        """What the form carries along."""
        return f"{self.photograph.id}.{self.photograph.digest}"


def held_of(entry: Entry | None) -> list[Held]:
    """The photographs of an entry as it is."""
    return [Held(each) for each in entry.photographs] if entry else []


def held_in(sent: QueryDict, entry: Entry | None, workshop: Workshop) -> tuple[list[Held], list[str]]:
    """The photographs that a form sent along, with their captions, and a sentence about any not there."""
    own = {each.id: each for each in entry.photographs} if entry else {}
    pairs = [value.partition(".") for value in dict.fromkeys(sent.getlist("held"))]
    there = pictures_of(workshop, [digest for _, _, digest in pairs if _DIGEST.fullmatch(digest)])
    left_out = set(sent.getlist("leave-out"))
    held, faults = [], []
    for key, _, digest in pairs:
        found = own.get(key)
        if (found is None or found.digest != digest) and digest in there:
            found = _photograph(there[digest])
        if found is None or found.digest != digest:
            faults.append(GONE)
            continue
        one = Held(found)
        caption = sent.get(f"caption-{key or digest}", found.caption).strip()
        held.append(
            Held(replace(found, caption=caption), one.name in left_out or (key or digest) in left_out)
        )
    return held, faults[:1]


def take_photographs(
    workshop: Workshop, files: Iterable[UploadedFile], held: Sequence[Held]
) -> tuple[list[Held], list[str]]:
    """Read and keep new photographs behind those that are held; a sentence for each that cannot be."""
    taken, faults = list(held), []
    digests = {each.photograph.digest for each in held}
    for file in files:
        if len(taken) >= MOST_PHOTOGRAPHS:
            faults.append(
                f"An entry can have {MOST_PHOTOGRAPHS} photographs; put the others in another entry."
            )
            break
        try:
            picture = keep_picture(workshop, read_picture(cast(BinaryIO, file), file.name or ""))
        except InputError as error:
            faults += [fault.says for fault in error.faults]
            continue
        if picture.digest not in digests:  # the same one chosen twice is one
            digests.add(picture.digest)
            taken.append(Held(_photograph(picture)))
    return taken, faults


def _photograph(picture: Picture) -> Photograph:
    return Photograph("", picture.digest, picture.width, picture.height)


def photographs_from(held: Iterable[Held], build: Build) -> tuple[Photograph, ...]:
    """The photographs that the entry shall have, each with an id."""
    used = {picture.id for entry in build.entries for picture in entry.photographs}
    found = []
    for each in held:
        if not each.is_left_out:
            one = each.photograph if each.photograph.id else replace(each.photograph, id=_unused(used))
            used.add(one.id)
            found.append(one)
    return tuple(found)


def _unused(used: set[str]) -> str:
    while (fresh := new_id()) in used:
        pass
    return fresh
