"""Every mend that can be carried out: an error goes, and no new one comes."""

from __future__ import annotations

from itertools import product

import pytest

from calculators.joints import work_joint
from calculators.joints.mending import apply_mend
from tests.joints.joint_makers import layer, nut, washer, work

FASTENERS = (
    "No. 8 x 1 csk brass",
    "No. 4 x 1/2 csk steel",
    "M5 x 12 csk steel",
    "M5 x 40 hex bolt steel",
    "2 BA x 1/2 cheese brass",
    "1/4-28 UNF x 5/8 hex steel",
    "5/16 BSF x 2 hex set screw steel",
)
MATERIALS = ("oak", "Scots pine", "brass", "aluminium")
THICKNESSES = tuple(product((1.6, 6.0, 20.0), (4.0, 12.0, 40.0)))


@pytest.mark.parametrize("fastener", FASTENERS)
def test_mends_clear_errors_and_bring_none(fastener: str) -> None:
    tried = 0
    for above, below, (thin, thick), nutted in product(MATERIALS, MATERIALS, THICKNESSES, (False, True)):
        if nutted and fastener.startswith("No."):
            continue
        held = (nut(f"{fastener.split(' x ')[0]} nut"),) if nutted else ()
        result = work(fastener, layer("a", above, thin), layer("b", below, thick), *held)
        errors = {(each.rule, each.part) for each in result.findings if each.severity == "error"}
        for finding, mend in ((each, mend) for each in result.findings for mend in each.mends if mend.field):
            tried += 1
            after = work_joint(apply_mend(result.joint, mend)).findings
            left = {(each.rule, each.part) for each in after if each.severity == "error"}
            case = f"{above} {thin:g} on {below} {thick:g}, nut {nutted}: {finding.says} {mend.says}"
            assert (finding.rule, finding.part) not in left, case
            assert left <= errors, case
    assert tried > 40  # so that the loop above cannot pass by finding nothing to try


def test_a_thicker_washer_is_put_where_none_was_measured() -> None:
    """40 mm wide on a 10 mm head: (40 - 10) / 12 = 2.5 mm is wanted; 0.5 is there."""
    stack = (washer("M6 washer 40 x 0.5"), layer("a", "oak", 20), layer("b", "oak", 20), nut("M6 full nut"))
    result = work("M6 x 60 hex bolt steel", *stack)
    thin = [each for each in result.findings if each.rule == "washer-thickness"]
    assert [mend.field for each in thin for mend in each.mends] == ["stack[0].measured.thickness_mm"]
    after = work_joint(apply_mend(result.joint, thin[0].mends[0]))
    assert "washer-thickness" not in {each.rule for each in after.findings}
