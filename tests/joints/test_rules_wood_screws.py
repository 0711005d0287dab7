"""Each rule for wood screws just inside and just outside its limits; its mend makes the finding go."""

from __future__ import annotations

from typing import Any

import pytest

from calculators.joints import JointResult, StackItem
from tests.joints.joint_makers import found, layer, mended, nut, severities, work

NO_8 = 4.1656  # 0.060 + 0.013 x 8 in


def two(length: str, top_mm: float, base_mm: float, **more: Any) -> JointResult:
    more.setdefault("steel_first", True)
    return work(
        f"No. 8 x {length} csk brass", layer("top", "oak", top_mm), layer("base", "oak", base_mm), **more
    )


@pytest.mark.parametrize(
    ("diameters", "sideways", "severity"),
    [
        (2.99, False, ["error"]),
        (3.01, False, ["warning"]),
        (3.99, False, ["warning"]),
        (4.01, False, []),
        (4.01, True, ["note"]),
        (6.99, True, ["note"]),
        (7.01, True, []),
        (-1.0, False, ["error"]),
    ],
)
def test_penetration(diameters: float, sideways: bool, severity: list[str]) -> None:
    result = two("2", 50.8 - diameters * NO_8, 60, loaded_sideways=sideways)
    assert severities(result, "penetration") == severity
    for finding in found(result, "penetration"):
        assert finding.part == "base"
        assert finding.unit == "D"
        assert finding.value == pytest.approx(diameters, abs=1e-3)
        assert finding.source.startswith("USDA Wood Handbook")
    if severity:
        assert found(mended(result, "penetration"), "penetration") == []


def test_a_screw_that_does_not_reach_says_so() -> None:
    (finding,) = found(two("1", 30, 40), "penetration")
    assert finding.says == "The screw does not reach base: it ends 4.6 mm short and holds nothing."


@pytest.mark.parametrize(
    ("left", "severity"), [(-1, "error"), (0.99, "error"), (1.01, "warning"), (2.99, "warning")]
)
def test_wood_behind_the_point(left: float, severity: str) -> None:
    result = two("1 3/4", 20, 44.45 - 20 + left)
    (finding,) = found(result, "wood-behind-point")
    assert finding.severity == severity
    assert finding.value == pytest.approx(left)
    assert ("comes out" in finding.says) == (left < 0)
    assert finding.mends[0].value == "No. 8 x 1 1/2 csk brass"
    assert found(mended(result, "wood-behind-point"), "wood-behind-point") == []
    assert found(two("1 3/4", 20, 44.45 - 20 + 3.01), "wood-behind-point") == []


def holed(material: str, **hole: Any) -> JointResult:
    stack = (layer("top", "pine", 20), layer("base", material, 40, hole=hole))
    return work("No. 8 x 1 1/2 csk steel zinc plated", *stack)


ROOT = NO_8 * 2 / 3


@pytest.mark.parametrize(
    ("material", "percent", "severity"),
    [
        ("oak", 84.9, ["warning"]),
        ("oak", 85.1, []),
        ("oak", 99.9, []),
        ("oak", 100.1, ["warning"]),
        ("pine", 64.9, ["warning"]),
        ("pine", 65.1, []),
        ("pine", 74.9, []),
        ("pine", 75.1, ["warning"]),
    ],
)
def test_pilot_hole(material: str, percent: float, severity: list[str]) -> None:
    wood = {"oak": "oak", "pine": "Scots pine"}[material]
    result = holed(wood, diameter_mm=percent / 100 * ROOT)
    assert result.holes[1].basis.startswith("as given; by rule ")
    assert severities(result, "pilot-hole") == severity
    if severity:
        (finding,) = found(result, "pilot-hole")
        assert finding.value == pytest.approx(percent, abs=0.01)
        assert found(mended(result, "pilot-hole"), "pilot-hole") == []


def test_no_pilot_in_hardwood() -> None:
    result = holed("oak", pilot=False)
    assert severities(result, "pilot-hole") == ["error"]
    assert found(mended(result, "pilot-hole"), "pilot-hole") == []
    assert severities(holed("softwood", pilot=False), "pilot-hole") == []
    assert severities(holed("unobtanium"), "pilot-hole") == ["unchecked"]


def test_pilot_by_the_rules_is_rounded_to_a_drill_that_is_owned() -> None:
    # 90 % of 2.777 = 2.499
    hole = work(
        "No. 8 x 2 csk steel", layer("a", "oak", 20), layer("b", "oak", 40), drills=("number 1-60",)
    ).holes[1]
    assert hole.drill == "#40"  # 0.098 in = 2.489 mm
    halves = work(
        "No. 8 x 2 csk steel", layer("a", "oak", 20), layer("b", "oak", 40), drills=("1-13 by 1",)
    ).holes[1]
    assert halves.diameter_mm == 2.0
    assert "2.50 mm, down to 2 mm" in halves.basis


@pytest.mark.parametrize(
    ("wood", "percent", "severity"),
    [("oak", 64, ["warning"]), ("oak", 66, []), ("oak", 84, []), ("oak", 86, ["warning"]),
     ("Scots pine", 39, ["warning"]), ("Scots pine", 41, []), ("Scots pine", 74, []), ("Scots pine", 76, ["warning"])],
)  # fmt: skip
def test_pilot_of_a_coach_screw_goes_by_its_shank(wood: str, percent: float, severity: list[str]) -> None:
    """65 to 85 % of the shank in dense hardwood, 40 to 75 % in softwood: Wood Handbook ch. 8, from memory."""
    base = layer("b", wood, 80, hole={"diameter_mm": percent / 100 * 8.0})
    result = work("8 x 60 coach screw steel", layer("a", "beech", 20), base)
    assert severities(result, "pilot-hole") == severity
    if severity:
        assert found(mended(result, "pilot-hole"), "pilot-hole") == []
    by_rule = work("8 x 60 coach screw steel", layer("a", "beech", 20), layer("b", wood, 80))
    assert found(by_rule, "pilot-hole") == []


def test_shank_hole() -> None:
    def upper(**hole: Any) -> JointResult:
        return work("No. 8 x 2 csk brass", layer("a", "oak", 20, hole=hole), layer("b", "oak", 40))

    assert severities(upper(diameter_mm=NO_8 - 0.1), "shank-hole") == ["error"]
    assert severities(upper(diameter_mm=NO_8), "shank-hole") == ["warning"]
    assert severities(upper(diameter_mm=NO_8 + 0.1), "shank-hole") == []
    assert severities(upper(), "shank-hole") == []
    assert found(mended(upper(diameter_mm=4.0), "shank-hole"), "shank-hole") == []
    both = work("No. 8 x 2 csk brass", layer("a", "oak", 20, takes="pilot"), layer("b", "oak", 40))
    assert severities(both, "shank-hole") == ["error"]
    assert found(mended(both, "shank-hole"), "shank-hole") == []


def test_plain_shank_in_the_pilot_of_hardwood() -> None:
    # 2 in: a third, 16.93 mm, is plain; 1 D is 4.17
    assert severities(two("2", 16.93 - 4.2, 60), "shank-in-pilot") == ["note"]
    assert severities(two("2", 16.93 - 4.1, 60), "shank-in-pilot") == []


@pytest.mark.parametrize(
    ("fastener", "wood", "steel_first", "severity"),
    [
        ("No. 8 x 1 1/2 csk brass", "oak", False, ["warning"]),
        ("No. 8 x 1 1/2 csk brass", "oak", True, []),
        ("No. 8 x 1 1/2 csk brass", "Scots pine", False, []),
        ("No. 14 x 1 1/2 csk brass", "oak", False, ["warning"]),
        ("No. 7 x 1 1/2 csk stainless", "oak", False, ["warning"]),
        ("No. 8 x 1 1/2 csk stainless", "oak", False, []),
        ("No. 8 x 1 1/2 csk steel", "oak", False, []),
        ("No. 8 x 1 1/2 csk", "oak", False, ["unchecked"]),
    ],
)
def test_soft_screws_in_hardwood(fastener: str, wood: str, steel_first: bool, severity: list[str]) -> None:
    result = work(fastener, layer("a", "brass", 4), layer("b", wood, 60), steel_first=steel_first)
    assert severities(result, "soft-screw-in-hardwood") == severity
    if severity == ["warning"]:
        assert found(mended(result, "soft-screw-in-hardwood"), "soft-screw-in-hardwood") == []


def placed(**where: Any) -> JointResult:
    sideways = where.pop("sideways", False)
    stack = (layer("a", "brass", 4), layer("b", "oak", 60, **where))
    return work("No. 8 x 1 1/2 csk steel zinc plated", *stack, loaded_sideways=sideways)


@pytest.mark.parametrize(
    ("rule", "where", "sideways", "severity"),
    [
        ("end-distance", 3.99, False, ["error"]),
        ("end-distance", 4.01, False, ["warning"]),
        ("end-distance", 6.99, False, ["warning"]),
        ("end-distance", 7.01, False, []),
        ("end-distance", 7.01, True, ["warning"]),
        ("end-distance", 11.99, True, ["warning"]),
        ("end-distance", 12.01, True, []),
        ("edge-distance", 1.49, False, ["error"]),
        ("edge-distance", 1.51, False, ["warning"]),
        ("edge-distance", 2.99, False, ["warning"]),
        ("edge-distance", 3.01, False, []),
    ],
)
def test_distances(rule: str, where: float, sideways: bool, severity: list[str]) -> None:
    result = placed(**{rule.replace("-distance", "_mm"): where * NO_8, "sideways": sideways})
    assert severities(result, rule) == severity
    if severity:
        assert found(result, rule)[0].value == pytest.approx(where)
        assert found(mended(result, rule), rule) == []
    assert severities(placed(sideways=sideways), rule) == []


def test_in_a_narrow_edge_a_thinner_screw_is_offered() -> None:
    """9 mm from the edge is 3 d of a screw of 3 mm: No. 4 is 0.112 in or 2.84 mm, No. 5 is 3.18 mm."""
    result = placed(edge_mm=9.0)
    (finding,) = found(result, "edge-distance")
    says = "Move it to 12.5 mm or more from the edge; for that b must be 25.0 mm wide."  # 3 and 6 x 4.166
    assert finding.mends[0].says == says
    assert finding.mends[1].value.startswith("No. 4 x ")
    assert found(mended(result, "edge-distance", 1), "edge-distance") == []


def test_end_grain() -> None:
    assert severities(placed(grain="end"), "end-grain") == ["warning"]
    assert severities(placed(grain="side"), "end-grain") == []


def test_a_wood_screw_holds_in_wood_alone() -> None:
    result = work("No. 8 x 1 csk steel", layer("a", "oak", 10), layer("b", "brass", 40))
    assert severities(result, "wood-screw-in-wood") == ["error"]


@pytest.mark.parametrize(
    ("fastener", "wood", "wet", "severity"),
    [
        ("No. 8 x 1 1/2 csk steel", "oak", True, ["error"]),
        ("No. 8 x 1 1/2 csk steel", "oak", False, ["warning"]),
        ("No. 8 x 1 1/2 csk steel zinc plated", "oak", True, ["warning"]),
        ("No. 8 x 1 1/2 csk steel zinc plated", "oak", False, ["note"]),
        ("No. 8 x 1 1/2 csk brass", "oak", True, []),
        ("No. 8 x 1 1/2 csk steel", "Scots pine", True, []),
        ("No. 8 x 1 1/2 csk", "oak", False, ["unchecked"]),
        ("No. 8 x 1 1/2 csk steel", "unobtanium", False, ["unchecked"]),
    ],
)
def test_metal_in_wood(fastener: str, wood: str, wet: bool, severity: list[str]) -> None:
    result = work(fastener, layer("a", "brass", 4), layer("b", wood, 60), wet=wet)
    assert severities(result, "metal-in-wood") == severity
    if severity and severity != ["unchecked"]:
        assert found(mended(result, "metal-in-wood"), "metal-in-wood") == []


@pytest.mark.parametrize(
    ("fastener", "wet", "mend"),
    [
        ("M5 x 40 pan steel", False, "Use brass: M5 x 40 pan brass."),
        ("M5 x 40 pan steel", True, "Use silicon bronze: M5 x 40 pan silicon bronze."),
        ("M5 x 40 socket cap steel", False, "Use stainless A2: M5 x 40 socket cap stainless A2."),
        ("M5 x 40 button steel", True, "Use stainless A4: M5 x 40 button stainless A4."),
    ],
)
def test_the_metal_offered_is_one_that_such_a_head_is_made_of(fastener: str, wet: bool, mend: str) -> None:
    """Socket heads are sold in steel and stainless, slotted and cross heads in brass too (common practice)."""
    result = work(fastener, layer("a", "oak", 33), nut("M5 nut brass"), wet=wet)
    (finding,) = found(result, "metal-in-wood")
    assert [each.says for each in finding.mends] == [mend]


def test_lengths_of_wood_screws() -> None:
    def chosen(top_mm: float, base_mm: float) -> JointResult:
        return work("No. 8 csk brass", layer("a", "oak", top_mm), layer("b", "oak", base_mm))

    # 22 + 7 x 4.166 = 51.2 at best; 22 + 60 - 3 at most: 2 1/4 in = 57.15 is the first with full strength
    deep = chosen(22, 60)
    assert deep.length_needed_mm == pytest.approx((22 + 4 * NO_8, 79))
    assert deep.fastener.length is not None
    assert deep.fastener.length.written == "2 1/4 in"
    # 22 + 28 - 3 = 47: the longest that fits is 1 3/4 in
    shallow = chosen(22, 28)
    assert shallow.fastener.length is not None
    assert shallow.fastener.length.written == "1 3/4 in"
    assert shallow.stock_lengths_mm == pytest.approx((44.45,))
    # 12 mm of wood behind a plate cannot hold 3 D and leave 1 mm
    thin = chosen(6, 12)
    assert thin.length_needed_mm is None
    assert severities(thin, "no-stock-length") == ["error"]
    given = work("No. 8 x 3 csk brass", layer("a", "oak", 22), layer("b", "oak", 28))
    assert given.fastener.length is not None
    assert given.fastener.length.mm == pytest.approx(76.2)


def test_a_bought_hinge_leaf() -> None:
    def hinge(recess: float) -> JointResult:
        leaf: StackItem = layer(
            "leaf", "brass", 3.0, hole={"countersink_diameter_mm": recess, "diameter_mm": 3.0}
        )
        return work("No. 4 x 5/8 csk brass", leaf, layer("side", "oak", 20))

    head = 2 * 2.8448
    assert severities(hinge(head), "head-against-countersink") == []
    assert severities(hinge(head - 0.29), "head-against-countersink") == ["warning"]
    assert severities(hinge(head - 0.31), "head-against-countersink") == ["error"]
    proud = hinge(head - 0.5)
    assert proud.head_below_mm == pytest.approx(-0.25)
    assert proud.penetration_mm == pytest.approx(15.875 - 3.0 - 0.25)
    assert found(mended(proud, "head-against-countersink"), "head-against-countersink") == []
    deep = hinge(head + 0.5)
    assert deep.head_below_mm == pytest.approx(0.25)
    assert deep.penetration_mm == pytest.approx(15.875 - 3.0 + 0.25)


def test_a_length_is_mended_to_the_nearest_that_fits() -> None:
    # a 180 mm deep part would take any longer screw: 5/8 in is the next to 1/2 in
    short = work(
        "No. 4 x 1/2 csk brass", layer("leaf", "brass", 1.6), layer("side", "oak", 180), steel_first=True
    )
    assert found(short, "penetration")[0].mends[0].value == "No. 4 x 5/8 csk brass"
    # 7 D sideways is 29.2 mm: 10 + 29.2 = 39.2, so 1 3/4 in; where 37 is the most, nothing is offered
    sideways = work(
        "No. 8 x 1 1/4 csk brass", layer("a", "oak", 10), layer("b", "oak", 60), loaded_sideways=True
    )
    assert found(sideways, "penetration")[0].mends[0].value == "No. 8 x 1 3/4 csk brass"
    thin = work("No. 8 x 1 1/4 csk brass", layer("a", "oak", 10), layer("b", "oak", 30), loaded_sideways=True)
    assert [finding.mends for finding in found(thin, "penetration")] == [()]
