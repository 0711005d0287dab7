"""Side B, the joints, and the page of one joint."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.page import row_of, show
from buildlog.builds.queries import worked_of
from buildlog.builds.showing import joint_context, worst_of
from calculators.planning.schedules import fastener_schedule


@require_safe
def joints(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the joints of a build and the fasteners that they take."""
    row = row_of(request, number)
    worked = worked_of(row)
    context = {
        "schedule": fastener_schedule(worked.build, worked),
        "joints": worked.joints,
        "severity": worst_of(worked.findings),
    }
    return show(request, row, "joints", "builds/joints.html", context)


@require_safe
def joint(request: HttpRequest, workshop: str, number: str, mark: str) -> HttpResponse:
    """Show one joint: its section beside its numbers, and what is wrong with it."""
    row = row_of(request, number)
    return show(request, row, "joints", "builds/joint.html", joint_context(worked_of(row), mark))
