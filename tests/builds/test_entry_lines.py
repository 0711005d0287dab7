"""The lines that a form of parts/_line_entry.html sends."""

from __future__ import annotations

import pytest
from django.http import QueryDict

from buildlog.builds.entry import typed_lines


def sent(*texts: str, choice: str | None = None) -> QueryDict:
    form = QueryDict(mutable=True)
    form.setlist("lines", list(texts))
    if choice is not None:
        form["lines-choice"] = choice
    return form


def test_new_lines_come_before_mended_ones_and_empty_ones_are_left_out() -> None:
    assert typed_lines(sent(" M5 x 20 \r\n\r\nM6 x 30", "mended", "  "), "lines") == [
        "M5 x 20",
        "M6 x 30",
        "mended",
    ]


def test_a_choice_takes_the_place_of_its_line() -> None:
    assert typed_lines(sent("", "No 8 x 1", "other", choice="1:8-32 UNC x 1"), "lines") == [
        "8-32 UNC x 1",
        "other",
    ]
    assert typed_lines(sent("", "a", "b", choice="2:3:4"), "lines") == ["a", "3:4"]


@pytest.mark.parametrize("choice", ["", ":", "0:x", "3:x", "-1:x", "x", "one:x", "99999999999:x", "²:x", "1"])
def test_a_choice_of_no_line_is_left_aside(choice: str) -> None:
    assert typed_lines(sent("new", "a", "b", choice=choice), "lines") == ["new", "a", "b"]


def test_nothing_sent_is_no_line() -> None:
    assert typed_lines(QueryDict(""), "lines") == []
