"""Springs that are offered are worked through one by one; none that fits is passed over for a whole size."""

import pytest

from calculators.calculation.answering import answer
from calculators.catalogue import find_calculator
from calculators.mechanics.springs.choosing import MOST_INDEX, STAGES, Wish, choose
from calculators.mechanics.springs.wires import Size, wire_sizes

SPRING, CHOICE = find_calculator("spring"), find_calculator("spring-choice")
WISH = {
    "kind": "compression", "rate_n_per_mm": 2.0, "allowed_percent": 5.0, "load_n": 30.0, "travel_mm": None,
    "largest_outside_mm": 14.0, "smallest_inside_mm": 6.0, "longest_free_mm": 45.0, "material": "music-wire",
    "ends": "closed-and-ground",
}  # fmt: skip
PULLED = WISH | {"kind": "extension", "rate_n_per_mm": 0.5, "load_n": 15.0, "longest_free_mm": 60.0, "ends": "centre-hook"}  # fmt: skip


def worked(wish, each):
    given = {
        "kind": wish["kind"], "wire": each.wire_mm, "mean_diameter": each.mean_mm, "active_coils": each.active_coils,
        "material": wish["material"], "free_length": each.free_mm, "ends": wish["ends"],
    }  # fmt: skip
    if wish["kind"] == "compression":
        given["working_length"] = each.free_mm - each.travel_mm
    else:
        given["working_length"] = each.free_mm + each.travel_mm
        given["initial_tension"] = each.load_n - each.rate_n_per_mm * each.travel_mm
    found = answer(SPRING, given)
    return {name: one.value for name, one in found.results.items()}, found.warnings


@pytest.mark.parametrize(
    "change",
    [
        {}, {"prefer": "length"}, {"prefer": "mass"}, {"load_n": None, "travel_mm": 10.0},
        {"material": "stainless-302", "longest_free_mm": 70.0}, {"ends": "open"}, {"cycles": 1_000_000},
        {"rate_n_per_mm": 0.2, "load_n": 4.0, "longest_free_mm": 80.0, "guided": True},
    ],
    ids=str,
)  # fmt: skip
def test_each_spring_offered_does_it_when_worked_through(change):
    wish = WISH | change
    found, _ = choose(Wish(**wish), wire_sizes("metric"))
    assert found
    for each in found:
        values, warnings = worked(wish, each)
        assert values["rate"] == pytest.approx(each.rate_n_per_mm)
        assert abs(values["rate"] / wish["rate_n_per_mm"] - 1) <= 0.05
        assert values["load"] == pytest.approx(each.load_n)
        assert values["outside_diameter_solid"] <= wish["largest_outside_mm"]
        assert values["inside_diameter"] >= wish["smallest_inside_mm"] - 1e-9
        assert each.free_mm <= wish["longest_free_mm"]
        assert 4 - 1e-9 <= values["spring_index"] <= MOST_INDEX + 1e-9
        assert values["solid_length"] == pytest.approx(each.solid_mm)
        assert values["mass"] == pytest.approx(each.mass_kg)
        assert values["travel_left_percent"] >= 15 - 1e-6
        if not wish.get("cycles"):
            assert values["stress_share"] == pytest.approx(each.stress_percent)
        assert each.stress_percent <= 100
        assert wish.get("guided") or values["buckles"] is False
        assert not any("index" in says for says in warnings)


def test_each_pulled_spring_offered_does_it_when_worked_through():
    found, _ = choose(Wish(**PULLED), wire_sizes("metric"))
    assert found
    for each in found:
        values, warnings = worked(PULLED, each)
        assert values["rate"] == pytest.approx(each.rate_n_per_mm)
        assert values["load"] == pytest.approx(15)
        assert values["stress_share"] == pytest.approx(each.stress_percent)
        assert values["hook_bending_share"] <= 100
        assert values["hook_torsion_share"] <= 100
        low, high = values["initial_tension_usual"]
        assert values["initial_tension"] == pytest.approx((low + high) / 2)
        assert values["free_length"] <= 60
        assert not any("outside the" in says for says in warnings)


@pytest.mark.parametrize(
    ("prefer", "key"), [("stress", "stress_percent"), ("length", "free_mm"), ("mass", "mass_kg")]
)
def test_the_list_is_ranked_as_it_says(prefer, key):
    found, _ = choose(Wish(**WISH | {"prefer": prefer}), wire_sizes("metric"))
    values = [getattr(each, key) for each in found]
    assert values == sorted(values)
    assert len({each.name for each in found}) == len(found)


@pytest.mark.parametrize(
    "size", [each for each in wire_sizes("metric") if 0.9 <= each.wire_mm <= 1.5], ids=str
)
def test_no_size_is_passed_over_that_a_search_by_hand_finds(size):
    """Every mean diameter by tenths and every quarter coil, worked through by the spring calculator itself."""
    offered, _ = choose(Wish(**WISH), [size])
    by_hand = False
    for tenths in range(
        int(10 * 4 * size.wire_mm) + 1, int(10 * min(12 * size.wire_mm, 14 - size.wire_mm)) + 1
    ):
        mean = tenths / 10
        if mean - size.wire_mm < 6:
            continue
        coils = max(3, round(4 * 81700 * size.wire_mm**4 / (8 * mean**3 * 2)) / 4)
        if coils > 60:
            continue
        solid = (coils + 2) * size.wire_mm
        free = 45.0
        if free <= solid + 30 / 2 / 0.83:
            continue
        given = {
            "wire": size.wire_mm, "mean_diameter": mean, "active_coils": coils, "material": "music-wire",
            "free_length": solid + 30 / 2 / 0.84,
        }  # fmt: skip
        found = {name: one.value for name, one in answer(SPRING, given).results.items()}
        if abs(found["rate"] / 2 - 1) > 0.02 or found["outside_diameter_solid"] > 14:
            continue
        given["working_length"] = given["free_length"] - 30 / found["rate"]
        found = {name: one.value for name, one in answer(SPRING, given).results.items()}
        if found["stress_share"] <= 98 and not found["buckles"] and found["lift_angle"] < 11.5:
            by_hand = True
            break
    assert by_hand
    assert offered


def test_the_sizes_that_drop_out_say_why_and_none_is_lost():
    sizes = wire_sizes("metric")
    found, dropped = choose(Wish(**WISH), sizes)
    names = [each.name for each in sizes]
    counted = len(found)
    for each in dropped:
        assert each.why in STAGES
        counted += names.index(each.last) - names.index(each.first) + 1
    assert counted == len(sizes)
    whys = [each.why for each in dropped]
    assert whys[0] == whys[-1] == STAGES[0]


@pytest.mark.parametrize(
    ("change", "wire", "stage"),
    [
        ({}, 3.2, 0), ({"rate_n_per_mm": 200.0}, 1.0, 1), ({"longest_free_mm": 20.0}, 1.4, 2), ({}, 0.8, 3),
        ({"material": "beryllium-copper"}, 1.2, 3),
        ({"rate_n_per_mm": 0.05, "load_n": 4.0, "longest_free_mm": 300.0, "largest_outside_mm": 12.0}, 0.8, 5),
    ],
)  # fmt: skip
def test_a_size_drops_out_where_it_must(change, wire, stage):
    found, dropped = choose(Wish(**WISH | change), [Size("the size", wire)])
    assert found == ()
    assert [each.why for each in dropped] == [STAGES[stage]]


def test_hooks_may_be_what_fails():
    found, dropped = choose(Wish(**PULLED | {"load_n": 34.0}), [Size("the size", 1.0)])
    assert (found, [each.why for each in dropped]) == ((), [STAGES[4]])
