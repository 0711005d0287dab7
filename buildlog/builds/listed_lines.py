"""Lists of records that a form shows one a line, each with an id before a colon by which it is known."""

from __future__ import annotations

from collections.abc import Callable, Sequence
from dataclasses import replace
from typing import Any, TypeVar

from django import forms

from calculators.planning.lines.writing_parts import note_text
from calculators.quantities.errors import InputError

One = TypeVar("One", bound=Any)
MOST_FAULTS = 5


def lines_in(text: str) -> list[str]:
    """The lines of a text that say something, tidied."""
    return [" ".join(line.split()) for line in text.splitlines() if line.strip()]


def read_lines(
    text: str,
    had: Sequence[One],
    write: Callable[[One], str],
    read: Callable[[str, set[str]], One],
) -> tuple[One, ...]:
    """Read a list; `read` has the line and the ids that are taken.

    A line that stands as it was shown is the record that there was, whatever a line cannot say of it; a note
    of several lines, which no line shows, stays with its record. Raises ValidationError with a sentence for
    each line that cannot be read.
    """
    shown = {" ".join(write(one).split()): one for one in had}
    here: dict[str, One] = {one.id: one for one in had}
    found: list[One] = []
    faults: list[str] = []
    for line in lines_in(text):
        try:
            one = shown.get(line) or read(line, {each.id for each in (*had, *found)})
        except InputError as error:
            faults.append(f"“{line[:60]}”: {error.faults[0].says}")
            continue
        old = here.get(one.id)
        if old is not None and old.note and not one.note and not note_text(old.note):
            one = replace(one, note=old.note)
        if any(each.id == one.id for each in found):
            faults.append(
                f"“{line[:60]}”: there is another {one.id} above; give this one another id, or none."
            )
        found.append(one)
    if faults:
        more = [f"And {len(faults) - MOST_FAULTS} more."] if len(faults) > MOST_FAULTS else []
        raise forms.ValidationError([*faults[:MOST_FAULTS], *more])
    return tuple(found)
