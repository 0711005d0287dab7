"""How often somebody may try to sign in: guessing passwords is made slow.

Tries are counted for a name from one address, so that a stranger who guesses does not shut the person out;
for an address over all names; and for a name over all addresses, which only many machines together use up.
"""

from __future__ import annotations

from collections.abc import Iterator
from contextlib import suppress
from hashlib import sha256
from ipaddress import IPv6Address, ip_address, ip_network

from django.conf import settings
from django.core.cache import cache
from django.http import HttpRequest

MOST, MOST_OF_ADDRESS, MOST_OF_NAME = 10, 50, 100
WAIT_SECONDS = 15 * 60


def take_try(username: str, address: str) -> bool:
    """Count a try before it is made, so that several at once are counted too; False where none is left."""
    return all(_count(key) <= most for key, most in _keys(username, address))


def give_back(username: str, address: str) -> None:
    """Take back what was counted for a try that was right, and begin anew with that name from there."""
    for key, most in _keys(username, address):
        if most == MOST:
            cache.delete(key)
        else:
            with suppress(ValueError):  # it ran out since
                cache.decr(key)


def address_of(request: HttpRequest | None) -> str:
    """Where a request comes from: behind a proxy what that saw, which stands last; of IPv6 the network."""
    if request is None:
        return ""
    seen = str(request.META.get("REMOTE_ADDR", ""))
    if settings.SECURE_PROXY_SSL_HEADER:
        seen = str(request.META.get("HTTP_X_FORWARDED_FOR", seen)).rpartition(",")[2].strip()
    try:
        address = ip_address(seen)
    except ValueError:
        return seen[:100]
    if isinstance(address, IPv6Address) and address.ipv4_mapped is None:
        return str(ip_network((address, 64), strict=False))
    return str(address)


def _count(key: str) -> int:
    if cache.add(key, 1, WAIT_SECONDS):
        return 1
    try:
        return int(cache.incr(key))
    except ValueError:  # it ran out between the two
        cache.set(key, 1, WAIT_SECONDS)
        return 1


def _keys(username: str, address: str) -> Iterator[tuple[str, int]]:
    name = username.casefold()
    for what, most in (((name, address), MOST), (("", address), MOST_OF_ADDRESS), ((name, ""), MOST_OF_NAME)):
        text = "\n".join(what).encode("utf-8", "surrogatepass")
        yield f"tries-{sha256(text).hexdigest()}", most
