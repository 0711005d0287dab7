"""However strange the joint, its stack is drawn in every arrangement and each member's state is told in words."""

from __future__ import annotations

import xml.etree.ElementTree as ElementTree
from math import isfinite

from hypothesis import HealthCheck, Phase, given, settings
from hypothesis import strategies as st

from calculators.drawing.stack_drawing import ARRANGEMENTS, stack_drawing
from calculators.joints import JointInput, work_joint
from calculators.joints.freedom import SCREW, freedom_of
from calculators.joints.riders import Rider
from calculators.quantities.errors import InputError
from tests.joints.strange_joints import joints

QUICK = settings(
    deadline=None,
    max_examples=60,
    suppress_health_check=[HealthCheck.too_slow],
    phases=[Phase.explicit, Phase.reuse, Phase.generate],
)
SIZES = st.floats(-5, 60, allow_nan=False)
RIDERS = st.lists(
    st.builds(
        lambda enter, thick, bore, on: Rider("P<&{play}>", "brass", enter, enter + thick, bore, on),
        SIZES,
        st.floats(0.01, 30),
        st.floats(0.5, 40),
        st.one_of(st.none(), st.floats(0.5, 40)),
    ),
    max_size=2,
)


@given(joint=joints, riders=RIDERS)
@QUICK
def test_every_joint_that_is_worked_out_has_its_states_and_drawings(
    joint: JointInput, riders: list[Rider]
) -> None:
    try:
        result = work_joint(joint)
    except InputError:
        return
    found = freedom_of(result, riders)
    assert [each.item for each in found if each.rider < 0] == [SCREW, *range(len(joint.stack))]
    assert [each.rider for each in found if each.rider >= 0] == list(range(len(riders)))
    for each in found:
        assert each.state in ("tight", "loose", "free to turn")
        assert each.why
        assert isfinite(each.end_play_mm)
        assert each.end_play_mm >= 0.0
        assert each.side_play_mm is None or isfinite(each.side_play_mm)
        assert not (each.clamped and each.state != "tight")
    for arrangement in ARRANGEMENTS:
        svg = stack_drawing(result, arrangement, riders=riders, narrow=len(found) % 2 == 0)
        ElementTree.fromstring(svg)
        assert "nan" not in svg.split("</desc>")[1]
