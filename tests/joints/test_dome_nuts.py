"""A bolt in a dome nut: by hand, with the nut of DIN 1587 on M6, 12 mm high (table of nuts), thread 0.66 of it."""

from __future__ import annotations

import pytest

from tests.joints.joint_makers import found, layer, mended, nut, severities, washer, work

RULE = "threads-past-nut"


@pytest.mark.parametrize(
    ("stack_mm", "length", "severity"),
    [
        # 0.66 x 12 = 7.92 of thread; at least 0.8 x 6 = 4.8
        (17.9, "30", "error"),  # 12.1 in: longer than the nut is high
        (22.0, "30", "error"),  # 8.0 in: past its thread
        (22.1, "30", None),  # 7.9
        (25.1, "30", None),  # 4.9
        (25.3, "30", "warning"),  # 4.7
    ],
)
def test_it_ends_in_the_thread(stack_mm: float, length: str, severity: str | None) -> None:
    result = work(f"M6 x {length} hex set screw steel", layer("a", "steel", stack_mm), nut("M6 dome nut"))
    assert severities(result, RULE) == ([severity] if severity else [])


def test_a_shorter_bolt_mends_it() -> None:
    result = work("M6 x 40 hex set screw steel", layer("a", "steel", 22.2), nut("M6 dome nut"))
    assert found(mended(result, RULE), RULE) == []


def test_the_length_that_is_found_does_not_bottom() -> None:
    # 23 + 4.8 = 27.8 up to 23 + 7.92 = 30.92
    result = work("M6 hex set screw steel", layer("a", "steel", 23.0), nut("M6 dome nut"))
    assert result.length_needed_mm == pytest.approx((27.8, 30.92))
    assert result.fastener.length is not None
    assert result.fastener.length.mm == 30
    assert found(result, RULE) == []


def test_a_washer_takes_its_thickness() -> None:
    # washer of M6 by ISO 7089: 1.6; 30 - 21 - 1.6 = 7.4 in
    result = work(
        "M6 x 30 hex set screw steel", layer("a", "steel", 21.0), washer("M6 washer"), nut("M6 dome nut")
    )
    assert found(result, RULE) == []
