"""A workshop's habits: the tools, series and limits that its new builds begin with."""

from __future__ import annotations

from typing import Any

from django.contrib import messages
from django.http import HttpRequest, HttpResponse
from django.shortcuts import redirect, render
from django.views.decorators.http import require_http_methods

from buildlog.builds.forms import add_faults
from buildlog.builds.header_forms import ContextForm, habits_of
from buildlog.builds.page import of_workshop
from buildlog.workshops.actions import change_habits
from buildlog.workshops.door import for_owners
from calculators.planning.documents import read_context, write_context
from calculators.quantities.errors import InputError


class HabitsForm(ContextForm):
    """The context of new builds; the day that a build is judged on is its own."""

    def __init__(self, *args: Any, **kwargs: Any) -> None:
        super().__init__(*args, **kwargs)
        del self.fields["as_of"]


@for_owners
@require_http_methods(["GET", "HEAD", "POST"])
def habits(request: HttpRequest, workshop: str) -> HttpResponse:
    """Show and change the habits; builds that are begun already keep theirs."""
    here = of_workshop(request).workshop
    now = habits_of(here)
    form = HabitsForm(request.POST if request.method == "POST" else None, initial=HabitsForm.of(now))
    if form.is_valid():
        document = write_context(form.changed(now))
        try:
            read_context(document)
        except InputError as error:
            add_faults(form, error)
        else:
            change_habits(here, document)
            says = f"The habits of {here.name} are saved; new builds begin with them."
            messages.success(request, says, extra_tags=f"{here.slug}/habits")
            return redirect("builds-of:habits", here.slug)
    return render(request, "builds/habits.html", {"form": form}, status=422 if form.errors else 200)
