"""Quantities through the tree of sub-assemblies, the names of copies, and the count of each joint."""

from __future__ import annotations

from collections.abc import Mapping

from calculators.planning.model import Build, Component, Joint
from calculators.quantities.errors import Fault, InputError

MOST_COPIES = 1_000_000
"""The most copies of one component in a build."""


def total_quantity(build: Build) -> dict[str, int]:
    """Count the copies of each component in the whole build.

        total = quantity x total of its parent

    Args:
        build: the build.

    Returns:
        The count [1] by mark, in the order of the build.

    Raises:
        InputError: when a parent is missing, the tree has a ring, or the copies pass a million.

    Source: this project.

    Example:
        >>> total_quantity(Build("B1", "Stool", components=(
        ...     Component("A1", "Leg frame", quantity=2), Component("P1", "Leg", parent="A1", quantity=2))))
        {'A1': 2, 'P1': 4}
    """
    totals, faults = count_through(build.components)
    if faults:
        raise InputError(*faults)
    return totals


def count_through(components: tuple[Component, ...]) -> tuple[dict[str, int], tuple[Fault, ...]]:
    """Count copies through the tree, with a fault for each component whose count cannot be known.

    Args:
        components: the components; the first of each mark counts.

    Returns:
        The counts [1] by mark (its own quantity where there is a fault), and the faults; a fault's
        `field` is `components[i] (MARK).parent`.

    Source: this project.

    Example:
        >>> count_through((Component("P1", "Leg", parent="A9"),))[1][0].says
        "There is no component 'A9'."
    """
    index: dict[str, int] = {}
    for i, one in enumerate(components):
        index.setdefault(one.mark, i)
    totals: dict[str, int] = {}
    faults: list[Fault] = []
    for i in index.values():
        _count_up(i, components, index, totals, faults)
    return {mark: totals[mark] for mark in index}, tuple(faults)


def _count_up(
    start: int,
    components: tuple[Component, ...],
    index: dict[str, int],
    totals: dict[str, int],
    faults: list[Fault],
) -> None:
    """Walk from one component to the root, then count back down; each component is counted once."""
    chain: list[int] = []
    on_chain: set[str] = set()
    i = start
    above = 1
    while True:
        one = components[i]
        if one.mark in totals:
            above = totals[one.mark]
            break
        field = f"components[{i}] ({one.mark}).parent"
        if one.mark in on_chain:
            faults.append(Fault(f"{one.mark} is inside itself: its parents lead back to it.", field))
            break
        chain.append(i)
        on_chain.add(one.mark)
        if not one.parent:
            break
        if one.parent not in index:
            faults.append(Fault(f"There is no component {one.parent[:40]!r}.", field))
            break
        i = index[one.parent]
    for i in reversed(chain):
        one = components[i]
        above *= one.quantity
        if above > MOST_COPIES:
            says = f"There would be more than {MOST_COPIES:,} copies of {one.mark}."
            faults.append(Fault(says, f"components[{i}] ({one.mark}).quantity"))
            above = one.quantity
        totals[one.mark] = above


def copy_names(mark: str, total: int) -> tuple[str, ...]:
    """Name the copies of a component: its mark where there is one, else `P02.1`, `P02.2` and so on.

    Args:
        mark: the component's mark.
        total: [1] its copies in the whole build, 0 or more.

    Returns:
        The names.

    Source: this project.

    Example:
        >>> copy_names("P02", 2), copy_names("P01", 1)
        (('P02.1', 'P02.2'), ('P01',))
    """
    return tuple(copy_name(mark, copy, total) for copy in range(1, total + 1))


def copy_name(mark: str, copy: int, total: int) -> str:
    """Name one copy of a component.

    Args:
        mark: the component's mark.
        copy: [1] which copy, from 1.
        total: [1] its copies in the whole build.

    Returns:
        The mark where there is one copy, else `P02.1`.

    Source: this project.

    Example:
        >>> copy_name("P02", 2, 2)
        'P02.2'
    """
    return mark if total == 1 else f"{mark}.{copy}"


def split_copy(name: str) -> tuple[str, int | None]:
    """Split a copy's name into the mark and the number of the copy (None where none is given).

    Args:
        name: `P02` or `P02.1`.

    Returns:
        The mark and the number. A name of another form comes back whole, with None.

    Source: this project.

    Example:
        >>> split_copy("P02.1"), split_copy("P02")
        (('P02', 1), ('P02', None))
    """
    mark, dot, number = name.partition(".")
    if dot and number.isascii() and number.isdecimal() and len(number) <= 7 and number[0] != "0":
        return mark, int(number)
    return name, None


def joint_count(joint: Joint, totals: Mapping[str, int]) -> int:
    """Count a joint's fasteners in the whole build.

        count = places x copies of its home, unless it is typed over

    A home that is one copy (`P02.1`) counts once; no home counts once; no places count as one.

    Args:
        joint: the joint.
        totals: what `total_quantity` gave.

    Returns:
        The count [1].

    Source: this project.

    Example:
        >>> joint_count(Joint("F1", "Cleat", "No. 8 x 1 in csk wood screw", home="P1"), {"P1": 4})
        4
    """
    if joint.count is not None:
        return joint.count
    copies = 1
    if joint.home:
        mark, number = split_copy(joint.home)
        copies = totals.get(mark, 1) if number is None else 1
    return max(1, len(joint.places)) * copies
