"""An entry as its form sent it: what was typed, the photographs, and both versions where two people wrote."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Any

from django.http import HttpRequest
from django.utils.html import format_html
from django.utils.safestring import SafeString

from buildlog.builds.actions import Overtaken, fingerprint
from buildlog.builds.ids import SIGNS, new_id
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.journal.forms import FIELDS, EntryForm, as_typed
from buildlog.journal.photographs import Held, held_in, held_of, photographs_from, take_photographs
from calculators.planning.model import Entry

NOTHING = "Write something, or choose a photograph."
_ID = re.compile(rf"[{SIGNS}]{{12}}")


@dataclass(frozen=True, slots=True)
class Entering:
    """The form of an entry with its photographs; `key` is the entry's id, which a new one has beforehand.

    `seen` is the fingerprint of the entry as the person has seen it, '' of nothing.
    """

    form: EntryForm
    held: list[Held]
    key: str
    seen: str = ""

    def entry(self) -> Entry:
        """The entry as it shall be; the form must be valid."""
        build = self.form.build
        entry = self.form.written(Entry(self.key, self.form.cleaned_data["date"], ""))
        return replace(entry, photographs=photographs_from(self.held, build))


def begin_entering(row: Build, entry: Entry | None = None) -> Entering:
    """The form as it is first shown."""
    key = entry.id if entry else new_id()
    return Entering(EntryForm(plain_of(row), entry=entry), held_of(entry), key, fingerprint("entry", entry))


def read_entering(request: HttpRequest, row: Build, key: str = "", entry: Entry | None = None) -> Entering:
    """The form as it was sent, its photographs read and kept, and its faults set beside their fields.

    `key` and `entry` are of the entry that is changed; a new one sends the id that its form began with, so
    that a form sent twice writes one entry.
    """
    form = EntryForm(plain_of(row), request.POST, entry=entry)
    own = request.POST.get("key", "")
    key = key or (own if _ID.fullmatch(own) else new_id())
    held, gone = held_in(request.POST, entry, row.workshop)
    held, bad = take_photographs(row.workshop, request.FILES.getlist("photographs"), held)
    is_sound = form.is_valid()
    for says in (*gone, *bad):
        form.add_error("photographs", says)
    if is_sound and not _says_something(form, held) and not bad:
        form.add_error("text", NOTHING)
    return Entering(form, held, key, request.POST.get("seen", "")[:40])


def _says_something(form: EntryForm, held: list[Held]) -> bool:
    typed = any(form.cleaned_data.get(name) for name in FIELDS if name != "date")
    return typed or any(not each.is_left_out for each in held)


@dataclass(frozen=True, slots=True)
class Kept:
    """What a page carries along unseen, in the manner of a hidden field of a form."""

    name: str
    value: str

    @property
    def as_hidden(self) -> SafeString:
        """The field."""
        return format_html('<input type="hidden" name="{}" value="{}">', self.name, self.value)


def conflict_of(entering: Entering, overtaken: Overtaken) -> dict[str, Any]:
    """Both versions for parts/_conflict.html."""
    form, theirs = entering.form, overtaken.theirs
    typed = as_typed(theirs) if theirs else {}
    fields: list[dict[str, Any]] = []
    same: list[Any] = []
    mine = as_typed(entering.entry())
    for name in FIELDS:
        if theirs and typed[name] == mine[name]:
            same.append(form[name])
        else:
            label = form.fields[name].label
            form.fields[name].widget.attrs["aria-label"] = f"Your {label}"
            fields.append({"label": label, "theirs": typed.get(name, ""), "field": form[name]})
    for each in entering.held:
        same.append(Kept("held", each.value))
        same.append(Kept(f"caption-{each.name}", each.photograph.caption))
        if each.is_left_out:
            same.append(Kept("leave-out", each.name))
    by = overtaken.by
    says = f"{by} changed this entry while you had it open." if theirs else f"{by} deleted this entry."
    if _photographs(theirs) != _photographs(entering.entry()):
        says += f" Theirs has {_count(theirs)}, yours {_count(entering.entry())}; yours are kept with yours."
    return {"says": says, "fields": fields, "same": same, "seen": fingerprint("entry", theirs)}


def _photographs(entry: Entry | None) -> list[tuple[str, str]]:
    return [(each.digest, each.caption) for each in entry.photographs] if entry else []


def _count(entry: Entry | None) -> str:
    number = len(_photographs(entry))
    return f"{number} photograph{'s' * (number != 1)}"
