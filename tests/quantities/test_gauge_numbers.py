"""Gauge numbers: the system is never guessed, and every number reads back."""

from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.quantities.errors import InputError
from calculators.quantities.gauges import (
    ABBREVIATIONS,
    USES,
    System,
    find_number,
    gauge,
    gauges_of,
    read_gauge,
)
from calculators.quantities.reading import read_length

SYSTEMS = get_args(System)


@pytest.mark.parametrize("system", SYSTEMS)
def test_every_number_of_a_gauge_reads_back_by_its_short_writing(system):
    for one in gauges_of(system).values():
        assert read_gauge(one.name) == one
        assert gauge(system, one.number) == one
        assert gauge(ABBREVIATIONS[system], one.number) == one
        assert read_length(one.name).mm == pytest.approx(one.thickness_mm, abs=5e-8)
        assert one.thickness_mm == pytest.approx(float(one.inches) * 25.4, rel=1e-15)


@pytest.mark.parametrize("system", SYSTEMS)
def test_numbers_run_one_way(system):
    sizes = [one.thickness_mm for one in gauges_of(system).values()]
    assert sizes == sorted(sizes, reverse=system != "music-wire")
    assert len(set(sizes)) == len(sizes)


def test_each_system_has_a_short_writing_and_a_use():
    assert set(ABBREVIATIONS) == set(USES) == set(SYSTEMS)


@pytest.mark.parametrize("number", ["0", "1/0", 0])
def test_nought_is_written_in_two_ways(number):
    assert gauge("imperial-standard", number).number == "0"


def test_noughts_are_counted():
    assert gauge("SWG", "000").number == "3/0"
    assert gauge("swg", "07").number == "7"


def test_sixteen_gauge_of_what():
    with pytest.raises(InputError) as caught:
        read_gauge("16 gauge", field="sheet")
    assert str(caught.value) == (
        "'16 gauge' does not say which gauge; write one of "
        "16 SWG (1.626 mm), 16 B&S (1.291 mm), 16 BWG (1.651 mm), 16 MSG (1.519 mm)."
    )


def test_refusals():
    with pytest.raises(InputError) as caught:
        gauge("paris", 3)
    assert str(caught.value) == (
        "'paris' is not a gauge; write one of brown-sharpe, imperial-standard, birmingham-wire, us-steel, "
        "us-steel-wire, stubs-steel-wire, music-wire."
    )
    with pytest.raises(InputError) as caught:
        gauge("us-steel", 99)
    assert str(caught.value) == "There is no number '99' in the MSG gauge; it runs from 3 to 36."
    with pytest.raises(InputError) as caught:
        read_gauge("five")
    assert str(caught.value) == (
        "'five' is not a gauge number; write it as 20 SWG, 20 B&S, 16 BWG or 20 MSG."
    )


@given(st.text(max_size=300), st.one_of(st.text(max_size=300), st.sampled_from(SYSTEMS)))
def test_no_text_raises_anything_but_a_sentence(number, system):
    try:
        found = gauge(system, number)
    except InputError as error:
        sentences = str(error)
    else:
        sentences = found.source + "."
    assert sentences.endswith(".")


def test_a_length_is_no_gauge_number():
    assert [find_number(text) for text in ("1/4 in", "20", "20 mm", "5'", "0.5", "M5")] == [None] * 6


@pytest.mark.parametrize(("number", "mm"), [("38", 0.1524), ("40", 0.1219), ("44", 0.0813), ("50", 0.0254)])
def test_fine_wire_of_the_british_gauge(number: str, mm: float):
    """BS 3737 prints fine wire in millimetres too, to four places (from memory)."""
    assert gauge("SWG", number).thickness_mm == pytest.approx(mm, abs=5e-5)
