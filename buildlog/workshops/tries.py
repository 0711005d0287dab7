"""How often somebody may try to sign in: guessing passwords is made slow."""

from __future__ import annotations

from hashlib import sha256

from django.core.cache import cache

MOST = 10
WAIT_SECONDS = 15 * 60


def too_many(username: str) -> bool:
    """Whether the tries for a sign-in name are used up for now."""
    return int(cache.get(_key(username), 0)) >= MOST


def count_try(username: str) -> None:
    """Count a try that failed."""
    key = _key(username)
    if not cache.add(key, 1, WAIT_SECONDS):
        try:
            cache.incr(key)
        except ValueError:  # it ran out between the two
            cache.set(key, 1, WAIT_SECONDS)


def forget_tries(username: str) -> None:
    """Begin anew, after somebody has signed in."""
    cache.delete(_key(username))


def _key(username: str) -> str:
    return f"tries-{sha256(username.casefold().encode('utf-8', 'surrogatepass')).hexdigest()}"
