"""The first page."""

from __future__ import annotations

from django.http import HttpRequest, HttpResponse
from django.shortcuts import render


def start(request: HttpRequest) -> HttpResponse:
    """Show the first page."""
    return render(request, "workshops/start.html")
