"""What every page of a build has: the build itself, its sides, and what the person can undo."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Any

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from buildlog.builds.models import Build
from buildlog.builds.queries import last_to_redo, last_to_undo, plain_of
from buildlog.workshops.door import WorkshopRequest


@dataclass(frozen=True, slots=True)
class Side:
    """One side of a build: its zone letter on the frame of the sheet, its name, its word, its address."""

    letter: str
    name: str
    word: str
    address: str


SIDES = (
    Side("A", "parts", "parts", "builds:parts"),
    Side("B", "joints", "joints", "builds:joints"),
    Side("C", "holes", "holes", "builds:holes"),
    Side("D", "check", "check", "builds:check"),
    Side("E", "cut", "cut", "builds:cut"),
    Side("F", "order", "order", "builds:order"),
    Side("G", "buying", "buying", "builds:buying"),
    Side("H", "journal", "journal", "journal:entries"),
    Side("J", "paper", "paper", "builds:paper"),
    Side("K", "calculations", "sums", "calculations:calculations"),
    Side("L", "rack", "rack", "builds:rack"),
)
"""The zone letters leave out I and O, as ISO 5457 does on the frame of a drawing sheet."""


def row_of(request: HttpRequest, number: str) -> Build:
    """The build with this number in the workshop that the door let the person into; else Http404."""
    row = Build.rows.of(of_workshop(request).workshop).filter(number=number).first()
    if row is None:
        raise Http404(f"no build {number}")
    return row


def of_workshop(request: HttpRequest) -> WorkshopRequest:
    """The request of a workshop's page, with `workshop` and `membership` that the door has put there."""
    assert hasattr(request, "workshop"), "this address has no workshop in it"
    return request  # type: ignore[return-value]


def build_context(request: HttpRequest, row: Build, side: str) -> dict[str, Any]:
    """What the templates of a build's pages need besides their own content."""
    person = of_workshop(request).user
    return {
        "row": row,
        "build": plain_of(row),
        "sides": SIDES,
        "side": side,
        "undo": last_to_undo(row, person),
        "redo": last_to_redo(row, person),
    }


def show(
    request: HttpRequest, row: Build, side: str, template: str, context: dict[str, Any], *, status: int = 200
) -> HttpResponse:
    """Answer with a page of a build; `status` is 422 where something that was typed could not be taken."""
    return render(request, template, build_context(request, row, side) | context, status=status)
