"""What a page says after it has saved: what was done, and what the check says now that it did not say."""

from __future__ import annotations

from collections import Counter
from collections.abc import Callable, Mapping
from typing import Any

from django import forms
from django.contrib import messages
from django.http import HttpRequest
from django.urls import reverse

from buildlog.builds.actions import Edit, Overtaken, Saved, Says, change_build
from buildlog.builds.conflicts import Conflict, conflict_of
from buildlog.builds.forms import add_faults
from buildlog.builds.models import Build
from buildlog.builds.page import of_workshop
from buildlog.builds.queries import plain_of, worked_of
from calculators.planning.documents import Name
from calculators.planning.edits import finding_key
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

CHEAP_JOINTS = 150
"""A build with more joints than this is not worked out twice for the sake of one sentence."""


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
    told = ""
    now = Build.rows.of(of_workshop(request).workshop).get(pk=row.pk)
    if len(saved.after.joints) <= CHEAP_JOINTS and plain_of(row) == saved.before:
        told = change_of_check(worked_of(row), worked_of(now))
    messages.success(request, f"{saved.change.says.removesuffix('.')}. {told}".strip(), extra_tags=draft)


def address_of(request: HttpRequest, row: Build, name: str, *args: object) -> str:
    """The address of a page of a build."""
    return reverse(f"builds:{name}", args=(of_workshop(request).workshop.slug, row.number, *args))


def change_of_check(before: WorkedBuild, after: WorkedBuild) -> str:
    """Say how many findings a change has mended, are new, are graver or less grave; nothing where none."""
    old = Counter(map(finding_key, before.findings))
    new = Counter(map(finding_key, after.findings))
    mended, come = (old - new).total(), (new - old).total()
    were = Counter((finding_key(one), one.severity) for one in before.findings)
    were -= Counter((finding_key(one), one.severity) for one in after.findings)
    other = were.total() - mended
    if not mended and not come and not other:
        return ""
    rest = f", {other} of another severity" if other else ""
    return f"This change: {mended} mended, {come} new{rest}."


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
