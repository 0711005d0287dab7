"""Yes and no as the help writes them, and depths that a depth stop can be set to."""

from __future__ import annotations

import pytest

from calculators.joints.reading import read_joint
from calculators.quantities.errors import InputError
from tests.joints.joint_makers import layer, work

BATTEN = {"part": "batten", "material": "oak", "thickness": 22}


@pytest.mark.parametrize(("written", "pilot"), [("no", False), ("Yes", True), (False, False), (True, True)])
def test_yes_and_no_are_read_in_the_inner_objects_too(written: object, pilot: bool) -> None:
    joint = read_joint(
        {"fastener": "No. 8 x 1 3/4 csk brass", "layers": [BATTEN, {**BATTEN, "hole": {"pilot": written}}]}
    )
    assert joint.stack[1].layer is not None
    assert joint.stack[1].layer.hole.pilot is pilot


def test_other_words_are_refused() -> None:
    with pytest.raises(InputError, match="must be true or false, not 'perhaps'"):
        read_joint(
            {"fastener": "No. 8 x 1 3/4 csk brass", "layers": [{**BATTEN, "hole": {"pilot": "perhaps"}}]}
        )


def test_a_pilot_is_as_deep_as_the_screw_less_its_point_to_the_half_millimetre_below() -> None:
    """44.45 - 22 = 22.45 in; a 2.5 drill has 0.3 x 2.5 = 0.75 of point: 21.70, so 21.5."""
    result = work("No. 8 x 1 3/4 csk brass", layer("batten", "oak", 22), layer("base", "oak", 28))
    assert result.holes[1].kind == "pilot"
    assert result.holes[1].depth_mm == 21.5
