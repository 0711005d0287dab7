"""Which lengths the page of the request in hand shows: millimetres, inches, or both."""

from __future__ import annotations

from collections.abc import Callable
from contextvars import ContextVar

from django.http import HttpRequest

from buildlog.workshops.models import Units

KEPT = "units"
"""The name in the session of somebody who is not signed in."""

_asked: ContextVar[Callable[[], str]] = ContextVar("units")


def remember_units(request: HttpRequest) -> None:
    """Let `shown_units` answer for this request. Nothing is asked of the database until then."""

    def ask() -> str:
        if request.user.is_authenticated:
            return request.user.units
        kept = request.session.get(KEPT)
        return kept if kept in Units.values else Units.BOTH

    _asked.set(ask)


def shown_units() -> str:
    """Tell which units the page in hand shows: `mm`, `in` or `both` (outside a page too)."""
    ask = _asked.get(None)
    return ask() if ask else Units.BOTH
