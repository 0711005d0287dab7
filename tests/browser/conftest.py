"""Between two tests the server is quiet: nothing is still being answered when the database is emptied.

The live server and the test share one connection to a database in memory, so a request that is still under
way would have its transaction mixed with the emptying.
"""

from __future__ import annotations

import threading
import time
from collections.abc import Iterator

import pytest
from django.core.signals import request_finished, request_started
from pytest_django.live_server_helper import LiveServer

_LONGEST_SECONDS = 20.0
_QUIET_SECONDS = 0.03
"""How long nothing may be under way before the server counts as quiet: a request may just be coming in."""

_answering: set[int] = set()


@request_started.connect
def _begun(**_: object) -> None:
    _answering.add(threading.get_ident())


@request_finished.connect
def _ended(**_: object) -> None:
    _answering.discard(threading.get_ident())


@pytest.fixture(autouse=True)
def quiet_server(live_server: LiveServer) -> Iterator[None]:
    """Wait after each test, when its pages are closed, until every request has been answered."""
    yield
    deadline = time.monotonic() + _LONGEST_SECONDS
    quiet_since = time.monotonic()
    while time.monotonic() - quiet_since < _QUIET_SECONDS:
        # A browser that goes away leaves its request without an end, but not its thread.
        if _answering & {thread.ident for thread in threading.enumerate()}:
            quiet_since = time.monotonic()
        if time.monotonic() > deadline:
            pytest.fail("The server is still answering a request of the test before.")
        time.sleep(0.005)
    _answering.clear()
