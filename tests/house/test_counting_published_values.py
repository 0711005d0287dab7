"""The counting of checks against outside sources: it must fail where it should and sum rightly."""

import pytest

from tests.conftest import published_totals
from tests.published.conftest import Book


def report(when="call", outcome="passed", properties=()):
    return pytest.TestReport("test", ("file", 1, "test"), {}, outcome, None, when, user_properties=properties)


def test_a_value_outside_its_tolerance_fails_and_is_not_counted():
    book = Book("a source", "read")
    book.check("size", found=1.0004, printed=1, tolerance=0.0005)
    with pytest.raises(AssertionError, match=r"size: found 1\.0006 mm, printed 1\.0 .* a source"):
        book.check("size", found=1.0006, printed=1, tolerance=0.0005, unit="mm")
    with pytest.raises(AssertionError, match="found nan"):
        book.check("size", found=float("nan"), printed=1, tolerance=10)
    with pytest.raises(AssertionError, match="found 'a', printed 'b'"):
        book.same("name", "a", "b")
    assert (book.tally["checked"], book.tally["differ"]) == (1, 0)


def test_a_listed_disagreement_must_differ_and_have_a_reason():
    book = Book("a source", "memory")
    book.differs("size", found=19.5, printed=18.5, reason="misprint")
    with pytest.raises(AssertionError, match="but it agrees with the printed"):
        book.differs("size", found=19.5, printed=19.5, reason="misprint")
    with pytest.raises(AssertionError, match="states its reason"):
        book.differs("size", found=19.5, printed=18.5, reason=" ")
    assert (book.tally["checked"], book.tally["differ"]) == (0, 1)


def test_a_source_needs_a_name_and_a_known_confidence():
    with pytest.raises(ValueError, match="a check names its source"):
        Book(" ", "read")
    with pytest.raises(ValueError, match="confidence is one of"):
        Book("a source", "sure")


def test_totals_take_passed_calls_alone_and_sum_by_source():
    tally = {"source": "s", "confidence": "read", "checked": 3, "differ": 1}
    other = {"source": "s", "confidence": "memory", "checked": 2, "differ": 0}
    reports = [
        report(properties=[("published", tally), ("published", other)]),
        report(properties=[("published", tally), ("else", 5)]),
        report(when="setup", properties=[("published", tally)]),
        report(outcome="failed", properties=[("published", tally)]),
    ]
    assert published_totals(reports) == {("s", "read"): [6, 2], ("s", "memory"): [2, 0]}
