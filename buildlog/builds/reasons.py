"""Released parts are changed for a reason: it is asked in one place, for whatever page changes them.

`change_build` raises `ReasonNeeded`; `AsksReason` answers with a page that carries along all that was typed.
What comes back from it names the reason in `RELEASE_REASON`, which `change_build` then finds here.
"""

from __future__ import annotations

from collections.abc import Callable, Iterator
from contextlib import contextmanager
from contextvars import ContextVar
from dataclasses import dataclass
from urllib.parse import urlsplit

from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme

from buildlog.builds.models import Build
from buildlog.builds.page import build_context, of_workshop
from calculators.planning.model import Component

RELEASE_REASON = "release_reason"
LONGEST_REASON = 2_000
MOST_NAMED = 12
_NOT_CARRIED = ("csrfmiddlewaretoken", RELEASE_REASON)

_given: ContextVar[Callable[[], str]] = ContextVar("release reason", default=str)


class ReasonNeeded(Exception):
    """A change would make released parts otherwise, and says no reason.

    It is no `InputError`: a page sets those beside the fields that they concern, but nothing typed is wrong.
    """

    def __init__(self, build: Build, parts: tuple[Component, ...]) -> None:
        self.build, self.parts = build, parts
        super().__init__(f"{', '.join(one.mark for one in parts)}: why is this changed?")


def reason_given() -> str:
    """The reason that came with the request that is being answered; nothing where none did."""
    return _given.get()().strip()[:LONGEST_REASON]


@contextmanager
def giving_reason(reason: str | Callable[[], str]) -> Iterator[None]:
    """Let whatever is changed meanwhile have this reason, which may be looked up when it is wanted."""
    token = _given.set(reason if callable(reason) else lambda: reason)
    try:
        yield
    finally:
        _given.reset(token)


@dataclass(frozen=True, slots=True)
class Carried:
    """One field that was sent, to be sent again."""

    name: str
    value: str


class AsksReason:
    """Hands the reason of a request to what it changes, and asks for one where it is needed."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        outside = _given.get()
        with giving_reason(lambda: request.POST.get(RELEASE_REASON) or outside()):
            return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """Answer with the question; None for all else."""
        return ask_reason(request, exception) if isinstance(exception, ReasonNeeded) else None


def ask_reason(request: HttpRequest, needed: ReasonNeeded) -> HttpResponse:
    """The page that asks why released parts are changed, with all that was typed."""
    row = Build.rows.of(of_workshop(request).workshop).filter(pk=needed.build.pk).first()
    if row is None:
        raise Http404("the build is gone")
    carried = [
        Carried(name, value)
        for name, values in request.POST.lists()
        if name not in _NOT_CARRIED
        for value in values
    ]
    marks = [one.mark for one in needed.parts]
    context = build_context(request, row, "") | {
        "parts": needed.parts[:MOST_NAMED],
        "more": max(0, len(marks) - MOST_NAMED),
        "carried": carried,
        "to": request.get_full_path(),
        "name": RELEASE_REASON,
        "longest": LONGEST_REASON,
        "leave": _back(request, row),
        "was_empty": RELEASE_REASON in request.POST,
    }
    return render(request, "builds/reason.html", context, status=409)


def _back(request: HttpRequest, row: Build) -> str:
    """Where the form stood, as the browser says; else the check."""
    came = request.headers.get("Referer", "")
    if url_has_allowed_host_and_scheme(came, {request.get_host()}, require_https=request.is_secure()):
        parts = urlsplit(came)
        return parts.path + (f"?{parts.query}" if parts.query else "")
    return reverse("builds:check", args=(of_workshop(request).workshop.slug, row.number))
