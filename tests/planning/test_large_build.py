"""The large build that times are measured with is a sound build of the size it claims."""

from __future__ import annotations

from calculators.planning.files import read_build, write_build
from calculators.planning.schedules import assembly_list, cut_list
from tests.benchmarks.large import counts, large_build


def test_the_large_build_has_the_size_it_claims_and_is_a_sound_file() -> None:
    build = large_build()
    assert counts(build) == (500, 400, 2000)
    assert read_build(write_build(build)) == build


def test_it_grows_with_the_scale() -> None:
    assert counts(large_build(0.1)) == (50, 40, 200)


def test_its_lists_cover_all_of_it() -> None:
    build = large_build(0.1)
    assert sum(line.quantity for line in cut_list(build)) == 50
    assert assembly_list(build).components_in_no_step == ()
    assert assembly_list(build).joints_in_no_step == ()
