"""What a page says after it has saved: what was done, and what the check says now that it did not say."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Callable, Mapping
from dataclasses import dataclass
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest
from django.urls import reverse
from django.utils.html import format_html, format_html_join
from django.utils.safestring import SafeString

from buildlog.builds.actions import Edit, Overtaken, Saved, Says, change_build
from buildlog.builds.conflicts import Conflict, conflict_of
from buildlog.builds.forms import add_faults
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.showing import finding_at, rule_words
from calculators.joints.model import Finding
from calculators.planning.documents import Name
from calculators.planning.edits import finding_key
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

_MORE = re.compile(r"\b[0-9]+ more\b")
FIRST_NEW = 2
"""The most new findings that the sentence after a change names."""


def save_and_say(
    request: HttpRequest,
    row: Build,
    edit: Edit,
    says: Says,
    *,
    seen: Mapping[Name, str] | None = None,
    draft: str = "",
    reason: str = "",
) -> Saved:
    """Change a build and say so on the next page, with what the change did to the check.

    `draft` is the name of the form's draft, which the browser then forgets. Raises as `change_build` does.
    """
    saved = change_build(row, of_workshop(request).user, edit, says, seen=seen, reason=reason)
    say_saved(request, row, saved, draft=draft)
    return saved


def say_saved(request: HttpRequest, row: Build, saved: Saved, *, draft: str = "") -> None:
    """Say on the next page what a change did. `row` is the build as it was before."""
    if saved.change is None:
        messages.info(request, "Nothing was changed: it is so already.", extra_tags=draft)
        return
    told = SafeString("")
    workshop = of_workshop(request).workshop
    now = Build.rows.of(workshop).get(pk=row.pk)
    if plain_of(row) == saved.before:
        address = reverse("builds:check", args=(workshop.slug, now.number))
        told = told_of(address, change_of_check(worked_of(row), worked_of(now)))
    says = format_html("{}. {}", saved.change.says.removesuffix("."), told)
    messages.success(request, SafeString(says.strip()), extra_tags=draft)


def address_of(request: HttpRequest, row: Build, name: str, *args: object) -> str:
    """The address of a page of a build."""
    return reverse(f"builds:{name}", args=(of_workshop(request).workshop.slug, row.number, *args))


@dataclass(frozen=True, slots=True)
class ChangeOfCheck:
    """What a change did to the check: how many it mended, which are new, how many weigh otherwise.

    `like` are those that a mended one told already as so many more.
    """

    mended: int
    new: tuple[Finding, ...]
    other: int
    like: int = 0

    @property
    def words(self) -> str:
        """The sentence without its stop; nothing where the check says what it said."""
        if not self.mended and not self.new and not self.other:
            return ""
        rest = f", {self.like} more like it left" if self.like else ""
        rest += f", {self.other} of another severity" if self.other else ""
        return f"This change: {self.mended} mended, {len(self.new)} new{rest}"


def change_of_check(before: WorkedBuild, after: WorkedBuild) -> ChangeOfCheck:
    """Compare what the check said with what it says; letting a finding stand mends nothing."""
    were, are = _all_found(before), _all_found(after)
    old = Counter(map(finding_key, were))
    new = Counter(map(finding_key, are))
    mended, come = old - new, new - old
    graver = Counter((finding_key(one), one.severity) for one in were)
    graver -= Counter((finding_key(one), one.severity) for one in are)
    told = Counter(_kind(one) for one in were if finding_key(one) in mended and _MORE.search(one.says))
    named, like = [], 0
    for one in after.findings:
        key = finding_key(one)
        if come[key] > 0:
            come[key] -= 1
            if told[_kind(one)] > 0:
                told[_kind(one)] -= 1
                like += 1
            else:
                named.append(one)
    return ChangeOfCheck(mended.total(), tuple(named), graver.total() - mended.total(), like)


def _kind(one: Finding) -> tuple[str, str, str]:
    return one.rule, one.joint, one.part


def _all_found(worked: WorkedBuild) -> list[Finding]:
    return [*worked.findings, *(finding for finding, _ in worked.accepted)]


def told_of(address: str, change: ChangeOfCheck) -> SafeString:
    """The sentence with the first new findings named and linked, where something broke."""
    if not change.words:
        return SafeString("")
    if not change.new:
        return format_html("{}.", change.words)
    named = format_html_join(
        SafeString("; "),
        '<a href="{}{}">{}</a>',
        (
            (address, finding_at(one), f"{one.where}, {rule_words(one)}" if one.where else rule_words(one))
            for one in change.new[:FIRST_NEW]
        ),
    )
    more = f" and {len(change.new) - FIRST_NEW} more" if len(change.new) > FIRST_NEW else ""
    return format_html("{}: {}{}.", change.words, named, more)


def save_form(
    request: HttpRequest,
    row: Build,
    form: forms.BaseForm,
    edit: Edit,
    says: Says,
    *,
    seen: Name,
    theirs: Callable[[Any], forms.BaseForm],
    draft: str = "",
    fields: Mapping[str, str] | None = None,
) -> Saved | Conflict | None:
    """Save what a form says: None where it cannot be, with the faults beside its fields.

    `seen` names the record that the form is of; the form has sent its fingerprint as `seen`. Where somebody
    else has changed it since, both versions come back; `theirs` makes a form of the record as it is now.
    """
    printed = request.POST.get("seen", "")
    try:
        return save_and_say(request, row, edit, says, seen={seen: printed} if printed else None, draft=draft)
    except InputError as error:
        add_faults(form, error, fields)
    except Overtaken as error:
        if error.theirs is None:
            form.add_error(None, f"{error} It is gone.")
            return None
        return conflict_of(error, [(form, theirs(error.theirs))])
    return None


def keeps_theirs(request: HttpRequest, draft: str = "") -> bool:
    """Whether a person who saw both versions lets the others' stand; it is then said."""
    if request.POST.get("conflict") != "theirs":
        return False
    messages.info(request, "What the others saved stands; yours was let go.", extra_tags=draft)
    return True
