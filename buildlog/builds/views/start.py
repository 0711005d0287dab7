"""The first page: what is on the bench."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from buildlog.builds.models import Build
from buildlog.builds.queries import worked_of
from buildlog.builds.showing import counts_of
from buildlog.workshops.door import for_signed_in
from buildlog.workshops.models import Person


@require_safe
@for_signed_in
def start(request: HttpRequest) -> HttpResponse:
    """Show the person's builds and what the check says of each."""
    assert isinstance(request.user, Person)
    rows = Build.rows.for_person(request.user).select_related("workshop").order_by("number")[:50]
    builds = [
        {"row": row, "build": worked.build, "counts": counts_of(worked)}
        for row in rows
        for worked in [worked_of(row)]
    ]
    return render(request, "builds/start.html", {"builds": builds})
