"""Side H, the journal."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of


@require_safe
def entries(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the entries of a build, newest first."""
    row = row_of(request, number)
    found = sorted(plain_of(row).entries, key=lambda entry: entry.date, reverse=True)
    return show(request, row, "journal", "journal/entries.html", {"entries": found})
