"""A database that others keep busy, and a build that went while a page was at it: said, not a fault."""

from __future__ import annotations

import logging
from collections.abc import Callable

from django.db import OperationalError
from django.http import Http404, HttpRequest, HttpResponse
from django.shortcuts import render

from buildlog.builds.models import Build

RETRY_SECONDS = 5
# https://www.postgresql.org/docs/current/errcodes-appendix.html: a serialisation failure, a deadlock, a lock
# that could not be had, a connection too many.
_BUSY_CODES = frozenset({"40001", "40P01", "55P03", "53300"})
_log = logging.getLogger("oddleg.busy")


class Busy:
    """Answers 503 where the database was busy for too long, 404 where the build was deleted meanwhile."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_exception(self, request: HttpRequest, exception: Exception) -> HttpResponse | None:
        """Turn the two into answers; None for all else, which is a fault."""
        if is_busy(exception):
            _log.warning("the database is busy: %s", str(exception).partition("\n")[0])
            answer = render(request, "503.html", status=503)
            answer["Retry-After"] = str(RETRY_SECONDS)
            return answer
        if isinstance(exception, Build.DoesNotExist):
            raise Http404(str(exception)) from exception
        return None


def is_busy(error: Exception) -> bool:
    """Whether an error only says that others were writing: SQLite's words, or PostgreSQL's code."""
    if not isinstance(error, OperationalError):
        return False
    code = getattr(error.__cause__, "sqlstate", None)
    return code in _BUSY_CODES or "is locked" in str(error)
