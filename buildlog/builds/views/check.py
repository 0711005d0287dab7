"""Side D, the check."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.page import row_of, show
from buildlog.builds.queries import worked_of
from buildlog.builds.showing import FIRST_FINDINGS, counts_of


@require_safe
def check(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show what is wrong with a build, what must be mended first on top."""
    row = row_of(request, number)
    worked = worked_of(row)
    context = {
        "counts": counts_of(worked),
        "findings": worked.findings[:FIRST_FINDINGS],
        "left_out": max(0, len(worked.findings) - FIRST_FINDINGS),
    }
    return show(request, row, "check", "builds/check.html", context)
