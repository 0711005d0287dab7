"""Which of several inputs were given, where an answer needs so many of them."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.calculation import Given
from calculators.quantities.errors import InputError


def given_of(given: Given, names: Sequence[str], count: int) -> tuple[str, ...]:
    """The inputs that were given, of which there must be so many.

    Args:
        given: the inputs as read.
        names: the inputs of which some must be given.
        count: how many of them.

    Returns:
        The names of those given, in the order of `names`.

    Raises:
        InputError: when there are fewer or more, at the input that is missing or too many.

    Source: this project.

    Example:
        >>> given_of(Given({"chord": 1.0, "height": 2.0, "radius": None}), ("chord", "height", "radius"), 2)
        ('chord', 'height')
    """
    found = tuple(name for name in names if given.get(name) is not None)
    if len(found) == count:
        return found
    words = {1: "one", 2: "two", 3: "three"}[count]
    listed = f"{', '.join(name.replace('_', ' ') for name in names[:-1])} and {names[-1].replace('_', ' ')}"
    if len(found) < count:
        says = f"Write {words} of {listed}."
        raise InputError.of(says, field=next(name for name in names if name not in found))
    says = f"Write only {words} of {listed}; the rest follows from {'it' if count == 1 else 'them'}."
    raise InputError.of(says, field=found[-1])
