"""What every page knows: the workshop that it belongs to, what the person may do, which units it shows."""

from __future__ import annotations

from typing import Any

from django.conf import settings
from django.http import HttpRequest

from buildlog.workshops.units import shown_units


def house(request: HttpRequest) -> dict[str, Any]:
    """The context processor of every page."""
    membership = getattr(request, "membership", None)
    return {
        "workshop": getattr(request, "workshop", None),
        "may_change": bool(membership and membership.may_change),
        "is_owner": bool(membership and membership.role == "owner"),
        "units": shown_units(),
        "is_demonstration": settings.DEMO,
    }
