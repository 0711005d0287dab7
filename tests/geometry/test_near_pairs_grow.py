"""Which boxes are near: all of them, and with work that grows as the number of boxes."""

from __future__ import annotations

import random

import pytest

from calculators.geometry import near_pairs as module
from calculators.geometry.near_pairs import near_pairs, near_pairs_between


def plate(count, across, *, pitch=20.0, chance=None):
    """So many holes 18 mm deep over a plate, at one density, in rows of `across`; some of them long."""
    boxes = []
    for k in range(count):
        x, y = pitch * (k // across), pitch * (k % across)
        x, y = x + chance.uniform(0, 9), y + chance.uniform(0, 9)
        if k % 7 == 3:
            boxes.append(((x, y, 5.0), (x + 60.0, y + 4.0, 9.0)))
        elif k % 7 == 5:
            boxes.append(((x, y, 5.0), (x + 4.0, y + 60.0, 9.0)))
        else:
            size = chance.uniform(2, 10)
            boxes.append(((x, y, 0.0), (x + size, y + size, 18.0)))
    return boxes


def compared(monkeypatch, boxes, within):
    """How many pairs of boxes are compared, and how many cells are looked into."""
    count = 0
    kept = module.boxes_near

    def counting(*given):
        nonlocal count
        count += 1
        return kept(*given)

    monkeypatch.setattr(module, "boxes_near", counting)
    found = sum(1 for _ in near_pairs(boxes, within))
    monkeypatch.setattr(module, "boxes_near", kept)
    return count, found


@pytest.mark.parametrize("shape", ["long", "square", "block"])
def test_ten_times_the_holes_are_at_most_twelve_times_the_work(monkeypatch, shape):
    """At the same density, whether the part grows in one direction, in two or in three."""
    chance = random.Random(shape)
    if shape == "long":
        small, large = plate(500, 5, chance=chance), plate(5000, 5, chance=chance)
    elif shape == "square":
        small, large = plate(500, 22, chance=chance), plate(5000, 71, chance=chance)
    else:
        small, large = [], []
        for boxes, side in ((small, 8), (large, 17)):
            for k in range(side**3):
                x, y, z = (20.0 * n for n in (k // side**2, k // side % side, k % side))
                x, y, z = (n + chance.uniform(0, 9) for n in (x, y, z))
                boxes.append(((x, y, z), (x + 4, y + 5, z + 12)))
        # 17³ is 9.6 times 8³; a pile has fewer neighbours at its skin, so that pairs grow a little faster.
    few, many = compared(monkeypatch, small, 3.0), compared(monkeypatch, large, 3.0)
    times = len(large) / len(small)
    assert few[0] > 0
    assert many[0] <= 1.2 * times * few[0] + (0.5 * times * few[0] if shape == "block" else 0.0)
    # No more than some tens of comparisons for each box: not all pairs.
    assert many[0] < 60 * len(large)


@pytest.mark.parametrize("seed", range(12))
def test_all_pairs_are_found_once_in_any_crowd(seed):
    chance = random.Random(f"crowd {seed}")
    boxes = []
    for _ in range(250):
        low = tuple(chance.uniform(-100, 100) for _ in range(3))
        size = [chance.choice((0.0, 0.5, 3.0, 20.0, 300.0)) * chance.random() for _ in range(3)]
        boxes.append((low, tuple(a + b for a, b in zip(low, size, strict=True))))
    boxes.append(((-500.0,) * 3, (500.0,) * 3))
    boxes += [((1.0, 1.0, 1.0), (2.0, 2.0, 2.0))] * 5
    within = chance.choice((0.0, 1.0, 5.0))
    expected = {
        (i, j) for j in range(len(boxes)) for i in range(j) if plainly_near(boxes[i], boxes[j], within)
    }
    found = list(near_pairs(boxes, within))
    assert set(found) == expected
    assert len(found) == len(expected)
    half = len(boxes) // 2
    crossed = list(near_pairs_between(boxes[:half], boxes[half:], within))
    assert set(crossed) == {(i, j - half) for i, j in expected if i < half <= j}
    assert len(crossed) == len(set(crossed))


def plainly_near(a, b, within):
    for k in range(3):
        gap = max(a[0][k] - b[1][k], b[0][k] - a[1][k])
        if gap > 0 and gap >= within:
            return False
    return True


def test_a_giant_among_many_small_ones_costs_no_more_than_its_neighbours(monkeypatch):
    small = [((20.0 * k, 0.0, 0.0), (20.0 * k + 4, 4.0, 18.0)) for k in range(2000)]
    giant = ((-10.0, -10.0, 30.0), (40100.0, 20.0, 40.0))
    count, found = compared(monkeypatch, [*small, giant], 3.0)
    assert found == 0
    assert count <= 4 * len(small)


@pytest.mark.parametrize("most", [1, 5, 40])
def test_a_heap_on_one_spot_is_bounded(most):
    boxes = [((0.0, 0.0, 0.0), (5.0, 5.0, 5.0))] * 1500
    found = list(near_pairs(boxes, 1.0, most))
    assert 1499 <= len(found) <= most * 1500
    assert len(set(found)) == len(found)
