"""Signs a visitor in to the demonstration without a password, on this machine alone."""

from __future__ import annotations

from collections.abc import Callable
from ipaddress import ip_address
from typing import cast

from django.conf import settings
from django.contrib.auth.models import AnonymousUser
from django.http import HttpRequest, HttpResponse
from django.utils.functional import SimpleLazyObject

from buildlog.workshops.demonstration import demonstration_person
from buildlog.workshops.models import Person

# A proxy on this machine would make everybody's request come from loopback; it gives itself away by these.
FORWARDED = (
    "HTTP_X_FORWARDED_FOR",
    "HTTP_X_FORWARDED_HOST",
    "HTTP_X_FORWARDED_PROTO",
    "HTTP_X_FORWARDED_SERVER",
    "HTTP_X_REAL_IP",
    "HTTP_FORWARDED",
    "HTTP_VIA",
)


class DemonstrationSignIn:
    """While DEMO is on, a request from loopback that nobody has signed is the demonstration person's."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        if settings.DEMO and is_from_this_machine(request):
            signed_in = request.user
            # Lazy, so that an answer that asks for no person asks the database for none.
            who = SimpleLazyObject(
                lambda: signed_in if signed_in.is_authenticated else demonstration_person() or AnonymousUser()
            )
            request.user = cast("Person | AnonymousUser", who)
        return self.get_response(request)


def is_from_this_machine(request: HttpRequest) -> bool:
    """Tell whether a request came straight from a program on this machine."""
    if any(request.META.get(name) for name in FORWARDED):
        return False
    if request.META.get("SERVER_PROTOCOL") == "HTTP/1.0":  # no browser's, but some proxies' that say nothing
        return False
    try:
        return ip_address(request.META.get("REMOTE_ADDR", "")).is_loopback
    except ValueError:
        return False
