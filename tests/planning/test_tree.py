"""Quantities through the tree, the names of copies, and how many there are of each joint."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.planning.model import Build, Component, Joint, Place
from calculators.planning.tree import copy_names, joint_count, split_copy, total_quantity
from calculators.quantities import InputError, Length


def part(mark: str, parent: str = "", quantity: int = 1) -> Component:
    return Component(mark, mark, parent, quantity)


def joint(**more: object) -> Joint:
    return Joint("F1", "t", "M5 x 20 csk steel", **more)


def places(count: int) -> tuple[Place, ...]:
    return tuple(Place(str(i), Length(0), Length(0)) for i in range(count))


def test_quantities_multiply_through_the_tree_whatever_the_order() -> None:
    components = (part("P1", "A2", 3), part("A1", quantity=2), part("A2", "A1", 4), part("P2"))
    assert total_quantity(Build("B", "t", components=components)) == {"P1": 24, "A1": 2, "A2": 8, "P2": 1}


@given(quantities=st.lists(st.integers(1, 3), min_size=1, max_size=10), data=st.data())
def test_every_total_is_its_quantity_times_its_parents_total(
    quantities: list[int], data: st.DataObject
) -> None:
    parents = [data.draw(st.integers(-1, i - 1)) for i in range(len(quantities))]
    components = [
        part(f"P{i}", f"P{parent}" if parent >= 0 else "", quantity)
        for i, (parent, quantity) in enumerate(zip(parents, quantities, strict=True))
    ]
    totals = total_quantity(Build("B", "t", components=tuple(data.draw(st.permutations(components)))))
    for one in components:
        assert totals[one.mark] == one.quantity * totals.get(one.parent, 1)


@pytest.mark.parametrize(
    ("components", "field", "says"),
    [
        ((part("P1", "P2"), part("P2", "P1")), "components[0] (P1).parent", "P1 is inside itself: its parents lead back to it."),
        ((part("P1", "P1"),), "components[0] (P1).parent", "P1 is inside itself: its parents lead back to it."),
        ((part("P1", "P9"),), "components[0] (P1).parent", "There is no component 'P9'."),
        ((part("A1", "", 1001), part("P1", "A1", 1000)), "components[1] (P1).quantity", "There would be more than 1,000,000 copies of P1."),
    ],
)  # fmt: skip
def test_what_cannot_be_counted_gets_a_sentence(
    components: tuple[Component, ...], field: str, says: str
) -> None:
    with pytest.raises(InputError) as caught:
        total_quantity(Build("B", "t", components=components))
    assert [(fault.field, fault.says) for fault in caught.value.faults] == [(field, says)]


def test_copies_are_numbered_where_there_are_several() -> None:
    assert copy_names("P02", 3) == ("P02.1", "P02.2", "P02.3")
    assert copy_names("P02", 1) == ("P02",)


@pytest.mark.parametrize(
    ("name", "expected"),
    [
        ("P02.3", ("P02", 3)),
        ("P02", ("P02", None)),
        ("P02.0", ("P02.0", None)),
        ("P02.", ("P02.", None)),
        ("P02.x", ("P02.x", None)),
        ("P02.99999999999", ("P02.99999999999", None)),
    ],
)
def test_a_name_is_split_into_mark_and_copy(name: str, expected: tuple[str, int | None]) -> None:
    assert split_copy(name) == expected


def test_a_joint_counts_its_places_times_the_copies_of_its_home() -> None:
    totals = {"P1": 4}
    assert joint_count(joint(home="P1", places=places(3)), totals) == 12
    assert joint_count(joint(home="P1.2", places=places(3)), totals) == 3
    assert joint_count(joint(home="P1"), totals) == 4
    assert joint_count(joint(), totals) == 1
    assert joint_count(joint(places=places(2)), totals) == 2
    assert joint_count(joint(home="P1", places=places(3), count=5), totals) == 5
    assert joint_count(joint(home="P1", places=places(3), count=0), totals) == 0
