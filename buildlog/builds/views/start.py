"""The first page: where one was, and what is on the bench."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render
from django.views.decorators.http import require_safe

from buildlog.builds.header_forms import BeginForm
from buildlog.builds.numbers import next_number
from buildlog.builds.starting import bench_of
from buildlog.workshops.door import for_signed_in
from buildlog.workshops.models import Person


@require_safe
@for_signed_in
def start(request: HttpRequest) -> HttpResponse:
    """Show where the person was, all that is on the bench, and where to begin a build."""
    assert isinstance(request.user, Person)
    members = list(request.user.memberships.select_related("workshop").order_by("workshop__name", "pk"))
    bench = bench_of(request.user, members, request.GET)
    making = [one.workshop for one in members if one.may_change]
    begin = BeginForm(initial={"number": next_number(making[0])}) if len(making) == 1 else None
    context = {"first": bench, "members": members, "making": making, "begin": begin}
    return render(request, "builds/start.html", context)
