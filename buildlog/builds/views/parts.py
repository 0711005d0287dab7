"""Side A, the parts."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of


@require_safe
def parts(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the parts of a build."""
    row = row_of(request, number)
    return show(request, row, "parts", "builds/parts.html", {"components": plain_of(row).components})
