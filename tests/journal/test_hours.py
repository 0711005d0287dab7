"""Hours as people write them."""

from __future__ import annotations

from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from buildlog.journal.hours import hours_as_typed, hours_shown, read_hours
from calculators.quantities.errors import InputError


@pytest.mark.parametrize(
    ("text", "hours"),
    [
        ("1.5", "1.5"), ("1,5", "1.5"), ("1 1/2", "1.5"), ("1½", "1.5"), (".5", "0.5"), ("3", "3"), ("0", "0"),
        ("1:30", "1.5"), ("0:20", "0.3333"), ("12:05", "12.0833"), ("1 h 30", "1.5"), ("1h30", "1.5"),
        ("1 h 30 min", "1.5"), ("1h 30m", "1.5"), ("2 h", "2"), ("2 hours", "2"), ("1.5 hrs", "1.5"), ("90 min", "1.5"),
        ("45 minutes", "0.75"), ("1 Hour 15 Mins", "1.25"), (" 1:30 ", "1.5"), ("10000", "10000"),
    ],
)  # fmt: skip
def test_hours_are_read_as_people_write_them(text, hours):
    assert read_hours(text) == Decimal(hours)


@pytest.mark.parametrize(
    "text",
    ["", "a morning", "1:75", "1:5", "1:30:00", "1/0", "--1", "1 h 75", "1 h -5", "1 d", "h", "min", "1,500", "1e3", "NaN", "inf", "٣ ساعات", "1" * 99, "\0", "1 h 2 h"],
)  # fmt: skip
def test_what_is_no_hours_is_refused_with_examples(text):
    with pytest.raises(
        InputError,
        match=r"(cannot be read as hours; write 1\.5, 1:30, 1 h 30 or 90 min|is not between 0 and 10,000 hours)\.$",
    ):
        read_hours(text)


@pytest.mark.parametrize("text", ["-1", "10001", "10000:01", "-1/2"])
def test_hours_beyond_the_limits_are_refused(text):
    with pytest.raises(InputError, match=r"is not between 0 and 10,000 hours\.$"):
        read_hours(text)


@given(st.text(max_size=40))
def test_any_text_gives_hours_or_a_sentence(text):
    try:
        hours = read_hours(text)
    except InputError:
        return
    assert 0 <= hours <= 10_000


@given(st.decimals(0, 10_000, places=4))
def test_what_is_typed_again_is_the_same(hours):
    assert read_hours(hours_as_typed(hours)) == hours


@given(st.integers(0, 599_999))
def test_minutes_survive(minutes):
    whole, part = divmod(minutes, 60)
    hours = read_hours(f"{whole}:{part:02}")
    assert hours_shown(hours) == (
        " ".join([f"{whole:,} h"] * (whole > 0) + [f"{part} min"] * (part > 0)) or "0 h"
    )


def test_hours_on_a_page():
    assert [hours_shown(Decimal(one)) for one in ("0", "0.75", "1.5", "2", "1234.3333")] == [
        "0 h", "45 min", "1 h 30 min", "2 h", "1,234 h 20 min",
    ]  # fmt: skip
    assert [hours_as_typed(Decimal(one)) for one in ("1.5", "0.25", "1.3333", "0.1234")] == [
        "1.5",
        "0.25",
        "1:20",
        "0.1234",
    ]
