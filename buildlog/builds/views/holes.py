"""Side C, the holes."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.hole_rows import ORDERS, by_part, hole_lines, words_of
from buildlog.builds.listing import listing
from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of


@require_safe
def holes(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show every hole of a build, by part and face, found and ordered as the address asks."""
    row = row_of(request, number)
    names = {one.mark: one.name for one in plain_of(row).components}
    found = listing(request.GET, hole_lines(row), words=lambda line: words_of(line, names), orders=ORDERS)
    context = {
        "list": found,
        "parts": [] if found.sort else by_part(found.page.object_list, names),
    }
    return show(request, row, "holes", "builds/holes.html", context)
