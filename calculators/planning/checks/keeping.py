"""What a rule of the whole build found of things that are as they were, taken over from the build before."""

from __future__ import annotations

from collections.abc import Callable, Iterable, Iterator
from typing import TypeVar

from calculators.planning.checks.site import Site

Things = TypeVar("Things", bound=tuple[object, ...])
Found = TypeVar("Found")


def looked_at(
    site: Site, name: str, each: Iterable[Things], look: Callable[[Things], Found]
) -> Iterator[Found]:
    """Look at each group of things, and at those that are the very same as before only once.

    Args:
        site: the build.
        name: under which what was found is kept; each rule has its own.
        each: groups of things (sites of parts and of joints, where the parts lie), on which alone what is
            found depends.
        look: what finds.

    Yields:
        What is found of each group, in order.

    Source: this project.
    """
    before = site.previous.shared(name) if site.previous else None
    now: dict[tuple[int, ...], tuple[Things, Found]] = {}
    for things in each:
        key = tuple(map(id, things))
        held = before.get(key) if before else None  # it holds the things too, so none has another's id
        if held is None:
            held = (things, look(things))
        now[key] = held
        yield held[1]
    site.share(name, lambda: now)
