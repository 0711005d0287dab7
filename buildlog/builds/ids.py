"""Short ids that sort by time and survive export."""

from __future__ import annotations

import secrets
import time

SIGNS = "0123456789abcdefghjkmnpqrstvwxyz"
"""Digits and letters without i, l, o and u, which are misread in the hand."""


def new_id() -> str:
    """Make an id: seven signs of seconds and five of chance; ids sort by the second they were made."""
    return _signs(int(time.time()), 7) + _signs(secrets.randbits(25), 5)


def _signs(number: int, places: int) -> str:
    return "".join(SIGNS[(number >> (5 * place)) & 31] for place in reversed(range(places)))
