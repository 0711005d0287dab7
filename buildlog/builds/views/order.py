"""Side F, the order of assembly."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of
from calculators.planning.schedules import assembly_list


@require_safe
def order(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the steps of assembly."""
    row = row_of(request, number)
    return show(request, row, "order", "builds/order.html", {"assembly": assembly_list(plain_of(row))})
