"""Sides E, G and J: what to cut, what to buy, what to print."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.views.decorators.http import require_safe

from buildlog.builds.page import row_of, show
from buildlog.builds.queries import plain_of, worked_of
from buildlog.builds.showing import SHEETS
from calculators.planning.schedules import buying_list, cut_list


@require_safe
def cut(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show what is cut from stock."""
    row = row_of(request, number)
    return show(request, row, "cut", "builds/cut.html", {"lines": cut_list(plain_of(row))})


@require_safe
def buying(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show what is to be bought."""
    row = row_of(request, number)
    worked = worked_of(row)
    return show(request, row, "buying", "builds/buying.html", {"lines": buying_list(worked.build, worked)})


@require_safe
def paper(request: HttpRequest, workshop: str, number: str) -> HttpResponse:
    """Show the sheets that can be printed."""
    row = row_of(request, number)
    return show(request, row, "paper", "builds/paper.html", {"kinds": SHEETS})
