"""What heads, nuts and washers bear on, floors, loose pilots, threads deeper than their hole: inside and outside.

Sizes from the tables: M6 hexagon 10 across flats (ISO 4017, ISO 4032), washers M6 6.4 x 12, M10 10.5 x 20, M5 5.3 x
10 (ISO 7089), pan head M6 12 (ISO 7045).
"""

from __future__ import annotations

import pytest

from tests.joints.joint_makers import found, insert, layer, mended, nut, severities, washer, work

THROUGH = "head-over-hole"


@pytest.mark.parametrize(("hole_mm", "severity"), [(12.1, "error"), (11.9, None), (6.6, None)])
def test_a_head_goes_through_a_hole_as_wide_as_it_is(hole_mm: float, severity: str | None) -> None:
    first = layer("a", "steel", 10, hole={"diameter_mm": hole_mm})
    result = work("M6 x 30 pan pozidriv steel", first, layer("b", "steel", 10), nut("M6 nut"))
    assert severities(result, THROUGH) == ([severity] if severity else [])
    if severity:
        assert found(mended(result, THROUGH), THROUGH) == []


@pytest.mark.parametrize(("hole_mm", "severity"), [(10.1, "error"), (9.9, None)])
def test_a_nut_goes_through_a_hole_as_wide_as_its_flats(hole_mm: float, severity: str | None) -> None:
    last = layer("b", "steel", 10, hole={"diameter_mm": hole_mm})
    result = work("M6 x 30 hex set screw steel", layer("a", "steel", 10), last, nut("M6 nut"))
    assert severities(result, THROUGH) == ([severity] if severity else [])


@pytest.mark.parametrize(("hole_mm", "severity"), [(12.1, "error"), (11.9, None)])
def test_a_washer_covers_a_hole_up_to_its_own_width(hole_mm: float, severity: str | None) -> None:
    last = layer("b", "steel", 10, hole={"diameter_mm": hole_mm})
    result = work(
        "M6 x 30 hex set screw steel", layer("a", "steel", 10), last, washer("M6 washer"), nut("M6 nut")
    )
    assert severities(result, THROUGH) == ([severity] if severity else [])


def test_a_washer_that_the_head_goes_through() -> None:
    result = work("M6 x 30 hex set screw steel", washer("M10 washer"), layer("a", "steel", 15), nut("M6 nut"))
    (one,) = found(result, THROUGH)
    assert (one.value, one.limit) == (10.5, 10.0)
    assert one.says == (
        "The head is 10.00 mm wide and the hole of the washer under it 10.50 mm: it goes through."
    )


def test_a_washer_that_does_not_go_over_the_screw() -> None:
    result = work("M6 x 30 hex set screw steel", washer("M5 washer"), layer("a", "steel", 15), nut("M6 nut"))
    (one,) = found(result, THROUGH)
    assert one.says == "The washer's hole is 5.30 mm: it does not go over a screw of 6.00 mm."


def test_a_wood_screws_head_goes_through_too() -> None:
    # a round head is twice the shank of 4.1656 wide (common practice): 8.33
    for hole_mm, severity in ((8.5, ["error"]), (8.2, [])):
        first = layer("a", "oak", 20, hole={"diameter_mm": hole_mm})
        result = work("No. 8 x 1 1/2 round slotted brass wood screw", first, layer("b", "oak", 30))
        assert severities(result, THROUGH) == severity


def test_a_stop_screws_head_bears_on_nothing() -> None:
    first = layer("a", "steel", 10, hole={"diameter_mm": 13.0})
    result = work("M6 x 30 pan pozidriv steel", first, layer("b", "steel", 20), stands_mm=8.0, clamps=False)
    assert found(result, THROUGH) == []


@pytest.mark.parametrize(
    ("material", "deep_mm", "severity"),
    # 0.3 D is 1.8 in metal; 1 D is 6 in wood
    [("steel", 8.1, None), ("steel", 8.3, "warning"), ("oak", 3.9, None), ("oak", 4.1, "warning")],
)
def test_a_counterbore_leaves_a_floor(material: str, deep_mm: float, severity: str | None) -> None:
    hole = {"counterbore_diameter_mm": 11.0, "counterbore_depth_mm": deep_mm}
    result = work(
        "M6 x 25 socket cap steel", layer("a", material, 10, hole=hole), layer("b", "steel", 20), seat="proud"
    )
    assert severities(result, "counterbore") == ([severity] if severity else [])


@pytest.mark.parametrize(("hole_mm", "severity"), [(4.1, "warning"), (4.2, "error")])
def test_a_pilot_as_wide_as_the_screw_holds_nothing(hole_mm: float, severity: str) -> None:
    # No. 8 is 4.1656 over its thread
    last = layer("b", "Scots pine", 30, hole={"diameter_mm": hole_mm})
    result = work("No. 8 x 1 1/2 csk slotted brass wood screw", layer("a", "Scots pine", 20), last)
    assert severities(result, "pilot-hole") == [severity]
    assert found(mended(result, "pilot-hole"), "pilot-hole") == []


@pytest.mark.parametrize(
    ("base", "limit"),
    [
        ({"thread_depth_mm": 20.0, "drilled_depth_mm": 18.0}, 18.0),
        ({"thread_depth_mm": 31.0}, 30.0),
        ({"thread_depth_mm": 18.0, "drilled_depth_mm": 20.0}, None),
        ({"thread_depth_mm": 30.0}, None),
    ],
)
def test_a_thread_is_no_deeper_than_its_hole(base: dict[str, float], limit: float | None) -> None:
    result = work("M6 x 25 hex set screw steel", layer("a", "steel", 10), layer("b", "steel", 30, **base))
    assert [one.limit for one in found(result, "tapping-hole")] == ([limit] if limit else [])


def test_an_insert_that_no_table_knows_is_not_called_short() -> None:
    result = work(
        "M7 x 16 hex set screw steel", layer("a", "steel", 5), layer("b", "beech", 30), insert("M7 insert")
    )
    assert found(result, "engagement") == []
    assert found(result, "screw-bottoms") == []
    assert any("insert" in one.says for one in found(result, "known-data"))
