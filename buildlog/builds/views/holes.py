"""Side C, the holes."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.page import row_of, show
from buildlog.builds.queries import worked_of
from calculators.planning.schedules import hole_schedule


@require_safe
def holes(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show every hole of a build."""
    row = row_of(request, number)
    worked = worked_of(row)
    return show(request, row, "holes", "builds/holes.html", {"lines": hole_schedule(worked.build, worked)})
