"""The threads of a build that are too alike to lie on one bench: one starts in the other's hole and jams."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass

from calculators.hardware.threads import Thread, find_thread, near_matches
from calculators.planning.worked import WorkedJoint
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class NearThreads:
    """Two threads that are easily taken for one another, each with the marks of the joints that bring it."""

    first: Thread
    second: Thread
    first_joints: tuple[str, ...]
    second_joints: tuple[str, ...]


def near_threads(joints: Iterable[WorkedJoint]) -> tuple[NearThreads, ...]:
    """Find the pairs of threads in a build's joints that are nearly alike.

    Args:
        joints: the joints worked out.

    Returns:
        The pairs, in the order in which the joints first bring them.

    Source: common practice; the limits are those of `near_matches`.

    Example:
        >>> near_threads([])
        ()
    """
    users: dict[Thread, dict[str, None]] = {}
    for one in joints:
        for thread in _threads_of(one):
            users.setdefault(thread, {})[one.joint.mark] = None
    return tuple(
        NearThreads(first, second, tuple(users[first]), tuple(users[second]))
        for first, second in near_matches(users)
    )


def _threads_of(one: WorkedJoint) -> list[Thread]:
    """The machine threads that a joint brings to the bench: its fastener's, its nuts', its tapped parts'."""
    fastener, names = one.result.fastener, []
    if fastener.family == "machine":
        names.append(fastener.size)
    for item in one.inputs.stack:
        names += [held.size for held in (item.nut, item.insert) if held is not None]
        if item.layer is not None and item.layer.thread:
            names.append(item.layer.thread)
    found = []
    for name in dict.fromkeys(names):
        try:
            found.append(find_thread(name))
        except InputError:
            continue
    return found
