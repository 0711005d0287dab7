"""Counting the checks against outside sources.

A test in this folder asks for the fixture `published`, opens a source with it and checks values as printed::

    def test_pitch_diameters(published):
        book = published("ISO 724:1993, as stated by an open CAD part table", confidence="read")
        book.check("M10 pitch diameter", found=9.0257, printed=9.026, tolerance=0.0005, unit="mm")
        book.same("B is an integer series", found="b", printed="b")
        book.differs("M22 tapping drill", found=19.5, printed=18.5, reason="misprint: 22 - 2.5 = 19.5")

`confidence` is "read", "memory" or "common practice", in the words of the table that it comes from.
`check` compares numbers within a tolerance, `same` compares anything else; both assert and count.
`differs` is for a printed value that is known to be wrong or of another edition: it needs a reason, it
fails as soon as the two agree, and it is counted apart, so that no disagreement is dropped in silence.
Every source must be used: a test that opens one and checks nothing fails. The sums are printed at the end
of the run by `tests/conftest.py`; they travel on the test reports, so they hold for parallel runs too.
"""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

import pytest

CONFIDENCES = ("read", "memory", "common practice")


class Book:
    """One outside source and the number of values that a test checked against it."""

    def __init__(self, source: str, confidence: str) -> None:
        if not source.strip():
            raise ValueError("a check names its source")
        if confidence not in CONFIDENCES:
            raise ValueError(f"confidence is one of {', '.join(CONFIDENCES)}, not {confidence!r}")
        self.tally = {"source": source, "confidence": confidence, "checked": 0, "differ": 0}

    def check(self, label: str, found: float, printed: float, tolerance: float, unit: str = "") -> None:
        """Assert that a number agrees with the printed one within `tolerance` (absolute, in `unit`)."""
        found, printed = float(found), float(printed)
        # The tolerance is usually half of the last printed place; a float's last bits must not decide.
        allowed = tolerance * (1 + 1e-9) + 1e-12
        close = math.isfinite(found) and abs(found - printed) <= allowed
        assert close, (
            f"{label}: found {found} {unit}, printed {printed} (+- {tolerance}); {self.tally['source']}"
        )
        self._count("checked")

    def same(self, label: str, found: object, printed: object) -> None:
        """Assert that a text or another exact value is the printed one."""
        assert found == printed, f"{label}: found {found!r}, printed {printed!r}; {self.tally['source']}"
        self._count("checked")

    def differs(self, label: str, found: float, printed: float, reason: str, tolerance: float = 1e-9) -> None:
        """Assert that a printed value known to disagree still does, for the stated reason."""
        assert reason.strip(), f"{label}: a disagreement states its reason"
        apart = abs(float(found) - float(printed)) > tolerance
        assert apart, f"{label}: listed as differing ({reason}), but it agrees with the printed {printed}"
        self._count("differ")

    def _count(self, kind: str) -> None:
        count = self.tally[kind]
        assert isinstance(count, int)
        self.tally[kind] = count + 1


@pytest.fixture
def published(request: pytest.FixtureRequest) -> Iterator[Callable[..., Book]]:
    """Open a source: `published(source, confidence="read")` gives the `Book` that counts its checks."""
    books: list[Book] = []

    def open_book(source: str, confidence: str = "read") -> Book:
        book = Book(source, confidence)
        books.append(book)
        request.node.user_properties.append(("published", book.tally))
        return book

    yield open_book
    idle = [book.tally["source"] for book in books if not (book.tally["checked"] or book.tally["differ"])]
    assert not idle, f"opened but not checked: {idle}"
