"""Depths that a depth stop can be set to."""

from __future__ import annotations

from tests.joints.joint_makers import layer, work


def test_a_pilot_is_as_deep_as_the_screw_less_its_point_to_the_half_millimetre_below() -> None:
    """44.45 - 22 = 22.45 in; a 2.5 drill has 0.3 x 2.5 = 0.75 of point: 21.70, so 21.5."""
    result = work("No. 8 x 1 3/4 csk brass", layer("batten", "oak", 22), layer("base", "oak", 28))
    assert result.holes[1].kind == "pilot"
    assert result.holes[1].depth_mm == 21.5
