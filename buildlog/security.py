"""The headers that tell a browser what a page of Oddleg may do."""

from __future__ import annotations

from collections.abc import Callable

from django.http import HttpRequest, HttpResponse

CONTENT_SECURITY_POLICY = "; ".join(
    (
        "default-src 'none'",
        "script-src 'self'",
        "style-src 'self'",
        "img-src 'self'",
        "font-src 'self'",
        "connect-src 'self'",  # partial pages
        "form-action 'self'",
        "frame-ancestors 'none'",
        "base-uri 'none'",
    )
)
PERMISSIONS_POLICY = "camera=(), geolocation=(), microphone=(), payment=(), usb=()"


class SecurityHeaders:
    """Sets the content security policy and its companions on every answer."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        response = self.get_response(request)
        response.headers.setdefault("Content-Security-Policy", CONTENT_SECURITY_POLICY)
        response.headers.setdefault("Permissions-Policy", PERMISSIONS_POLICY)
        # Unless a view says otherwise a page is its person's own: nobody else's cache keeps it, and a browser
        # asks again before it shows it to the next person at the bench.
        response.headers.setdefault("Cache-Control", "private, no-cache")
        response.headers.setdefault("Cross-Origin-Resource-Policy", "same-origin")
        return response
