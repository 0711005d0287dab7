"""How much a browser may send: looked at before anything of it is read.

Django reads a form, files too, before the door has settled who asks. A stranger sends no more than a form;
a person no more than the most photographs that are taken at once.
"""

from __future__ import annotations

from collections.abc import Callable

from django.conf import settings
from django.http import HttpRequest, HttpResponse
from django.shortcuts import render

MOST_BYTES = 100 * 40 * 1024 * 1024 + 8 * 1024 * 1024
"""A hundred photographs of 40 MB each, and the form around them [bytes]."""


class BoundedBody:
    """Answers 413 to what is longer than can be taken."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        length = sent_length(request)
        # What is no longer than a form costs no question of who asks.
        if length > settings.DATA_UPLOAD_MAX_MEMORY_SIZE and (
            length > MOST_BYTES or not request.user.is_authenticated
        ):
            return render(request, "413.html", {"most": MOST_BYTES // 1024**2}, status=413)
        return self.get_response(request)


def sent_length(request: HttpRequest) -> int:
    """The length that the browser says; a server takes no more of it. 0 where it says none."""
    said = str(request.META.get("CONTENT_LENGTH") or "")
    return int(said) if said.isascii() and said.isdigit() and len(said) < 20 else 0
