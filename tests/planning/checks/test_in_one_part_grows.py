"""Ten times the holes take at most twelve times the work, counted, not timed; and one change looks at one part."""

from __future__ import annotations

import pytest

from calculators.geometry import chords as chords_module
from calculators.geometry import cuts as cuts_module
from calculators.geometry import near_pairs as near_pairs_module
from calculators.planning.checks import in_one_part_holes, in_one_part_pockets
from calculators.planning.checks.in_one_part import RULES
from tests.benchmarks.in_one_part import plate


@pytest.fixture
def work(monkeypatch):
    """How often each of the steps is taken that could grow faster than the holes."""
    counts = {}

    def count(module, name, key):
        kept = getattr(module, name)

        def counting(*given, **more):
            counts[key] = counts.get(key, 0) + 1
            return kept(*given, **more)

        monkeypatch.setattr(module, name, counting)

    count(near_pairs_module, "boxes_near", "boxes compared")
    count(in_one_part_holes, "apart", "distances of holes")
    count(in_one_part_pockets, "apart", "distances of pockets")
    count(chords_module, "pocket_stretch", "axes against pockets")
    count(cuts_module, "chords", "axes")
    return counts


def worked(counts, site):
    counts.clear()
    site.kept.clear()
    for rule in RULES:
        rule.findings(site)
    return dict(counts)


@pytest.mark.parametrize("two_ways", [True, False], ids=["plate", "strip"])
def test_ten_times_the_holes_are_at_most_twelve_times_the_work(work, two_ways):
    small, large = (plate(14, 14), plate(44, 45)) if two_ways else (plate(4, 50), plate(4, 500))
    times = len(large.holes) / len(small.holes)
    few, many = worked(work, small), worked(work, large)
    assert few["axes"] == len(small.holes)
    for step, count in many.items():
        assert count <= 1.2 * times * max(few.get(step, 0), len(small.holes)), step
