"""Each rule for machine screws just inside and just outside its limits; its mend makes the finding go."""

from __future__ import annotations

from typing import Any

import pytest

from calculators.joints import JointResult
from calculators.joints.model import MeasuredHead
from tests.joints.joint_makers import found, insert, layer, mended, nut, severities, washer, work


def tapped(material: str, thick_mm: float, length: str = "30", **base: Any) -> JointResult:
    """An M6 screw through 10 mm of steel into a tapped part."""
    base.setdefault("thread_depth_mm", None)
    return work(
        f"M6 x {length} hex set screw steel", layer("a", "steel", 10), layer("b", material, thick_mm, **base)
    )


@pytest.mark.parametrize(
    ("material", "thick_mm", "severity"),
    [
        ("mild steel", 5.9, ["error"]),
        ("mild steel", 6.1, []),
        ("brass", 5.9, ["error"]),
        ("brass", 8.9, ["warning"]),
        ("brass", 9.1, []),
        ("aluminium", 11.9, ["warning"]),
        ("aluminium", 12.1, []),
        ("cast iron", 8.9, ["warning"]),
        ("unobtanium", 20, ["unchecked"]),
        ("oak", 20, ["warning"]),
    ],
)
def test_engagement(material: str, thick_mm: float, severity: list[str]) -> None:
    result = tapped(material, thick_mm)
    assert severities(result, "engagement") == severity
    assert result.engagement_mm == pytest.approx(min(thick_mm, 20))


def test_a_screw_too_short_for_its_thread_is_mended_by_a_longer_one() -> None:
    result = tapped("brass", 20, "16")
    (finding,) = found(result, "engagement")
    assert (finding.severity, finding.value, finding.limit) == ("warning", 1.0, 1.5)
    assert finding.mends[0].value == "M6 x 20 hex set screw steel"
    assert found(mended(result, "engagement"), "engagement") == []
    (short,) = found(tapped("brass", 20, "8"), "engagement")
    assert short.says == "The screw does not reach the thread in b: it ends 2.0 mm short."


@pytest.mark.parametrize(
    ("depth", "severity"), [(14.9, "error"), (15.1, "warning"), (15.9, "warning"), (16.1, None)]
)
def test_a_blind_screw_bottoms(depth: float, severity: str | None) -> None:
    # M6 x 25 through 10: 15 mm free, pitch 1
    result = tapped("mild steel", 60, "25", thread_depth_mm=depth)
    assert severities(result, "screw-bottoms") == ([severity] if severity else [])
    if severity:
        assert found(mended(result, "screw-bottoms"), "screw-bottoms") == []


def test_a_stop_screw_may_bottom() -> None:
    stack = (layer("a", "steel", 10), layer("b", "steel", 60, thread_depth_mm=10.0))
    assert severities(work("M6 x 25 hex set screw steel", *stack, clamps=False), "screw-bottoms") == []


@pytest.mark.parametrize(("thick", "severity"), [(21.4, "error"), (22.9, "warning"), (23.1, None)])
def test_a_blind_hole_breaks_out(thick: float, severity: str | None) -> None:
    # drilled 20 to the shoulder, 5.0 mm drill: point 1.5; 21.5 in all, 23.0 with the wall
    result = tapped("mild steel", thick, "20", thread_depth_mm=15.0, drilled_depth_mm=20.0)
    assert result.holes[1].point_mm == pytest.approx(2.5 / 1.6643, abs=1e-3)
    assert severities(result, "blind-hole-breaks-out") == ([severity] if severity else [])
    if severity:
        after = mended(result, "blind-hole-breaks-out")
        assert found(after, "blind-hole-breaks-out") == []
        assert after.holes[1].depth_mm is not None
        assert after.holes[1].depth_mm >= 15.0 + 1.5


def test_a_blind_hole_is_drilled_for_the_tap() -> None:
    # second tap: 4.5 threads of lead; where there is no room a plug tap, 1.5
    assert tapped("mild steel", 60, "20", thread_depth_mm=12.0).holes[1].depth_mm == pytest.approx(12 + 4.5)
    assert tapped("mild steel", 18, "20", thread_depth_mm=12.0).holes[1].depth_mm == pytest.approx(12 + 1.5)
    stated = tapped("mild steel", 60, "20", drilled_depth_mm=20.0)
    assert stated.holes[1].depth_mm == 20
    assert stated.holes[1].thread_depth_mm == pytest.approx(20 - 4.5)
    assert stated.holes[1].left_mm == pytest.approx(60 - 20 - stated.holes[1].point_mm)


@pytest.mark.parametrize(("stack_mm", "severity"), [(37.8, "error"), (38.0, "warning"), (38.2, None)])
def test_plain_shank(stack_mm: float, severity: str | None) -> None:
    # an M8 x 60 bolt has 2 x 8 + 6 = 22 of thread, 38 plain
    result = work("M8 x 60 hex bolt steel", layer("a", "steel", stack_mm), nut("M8 nut"))
    assert result.plain_shank_mm == 38
    assert severities(result, "plain-shank") == ([severity] if severity else [])


@pytest.mark.parametrize(
    ("hole", "severity"),
    [
        # M6: 3/4 H is 1.299 mm on the diameter
        (6 - 0.921 * 1.299, "error"),
        (6 - 0.919 * 1.299, "warning"),
        (6 - 0.851 * 1.299, "warning"),
        (6 - 0.849 * 1.299, None),
        (6 - 0.56 * 1.299, None),
        (6 - 0.54 * 1.299, "warning"),
        (6 - 0.46 * 1.299, "warning"),
        (6 - 0.44 * 1.299, "error"),
    ],
)
def test_tapping_hole(hole: float, severity: str | None) -> None:
    result = tapped("mild steel", 12, hole={"diameter_mm": hole})
    assert severities(result, "tapping-hole") == ([severity] if severity else [])
    if severity:
        assert found(mended(result, "tapping-hole"), "tapping-hole") == []


def test_percentages_are_on_the_basis_of_the_form() -> None:
    def percent(size: str, hole: float) -> float:
        made = layer("b", "brass", 12, hole={"diameter_mm": hole})
        found_percent = work(f"{size} cheese brass", layer("a", "brass", 5), made).holes[1].thread_percent
        assert found_percent is not None
        return found_percent

    assert percent("2 BA", 4.0) == pytest.approx(72, abs=0.5)
    assert percent("2 BA", 4.1) == pytest.approx(62, abs=0.5)
    assert percent("5/16 BSF", 6.8) == pytest.approx(77, abs=0.5)


@pytest.mark.parametrize(
    ("size", "hole", "severity"),
    [
        ("M6", 5.9, "error"),
        ("M6", 6.3, "warning"),
        ("M6", 6.4, None),
        ("M6", 7.0, None),
        ("M6", 7.1, "warning"),
        ("2 BA", 4.7 * 1.01, "warning"),
        ("2 BA", 4.7 * 1.03, None),
        ("2 BA", 4.7 * 1.19, None),
        ("2 BA", 4.7 * 1.21, "warning"),
        ("2 BA", 4.6, "error"),
    ],
)
def test_clearance_hole(size: str, hole: float, severity: str | None) -> None:
    first = layer("a", "steel", 20, hole={"diameter_mm": hole})
    result = work(f"{size} cheese steel", first, layer("b", "steel", 12))
    assert severities(result, "clearance-hole") == ([severity] if severity else [])
    if severity:
        assert found(mended(result, "clearance-hole"), "clearance-hole") == []


@pytest.mark.parametrize(
    ("size", "fit", "hole"), [("M6", "close", 6.4), ("M6", "medium", 6.6), ("M6", "free", 7.0)]
)
def test_clearance_holes_by_fit(size: str, fit: str, hole: float) -> None:
    result = work(f"{size} cheese steel", layer("a", "steel", 20, fit=fit), layer("b", "steel", 12))
    assert result.holes[0].diameter_mm == hole


def test_lock() -> None:
    def clamped(thick_mm: float, material: str = "brass", **more: Any) -> JointResult:
        return work("M5 cheese steel", layer("a", material, thick_mm), layer("b", "brass", 20), **more)

    assert severities(clamped(14.9), "lock") == ["warning"]
    assert severities(clamped(15.1), "lock") == []
    assert severities(clamped(5, lock="spring tab"), "lock") == []
    assert severities(clamped(5, clamps=False), "lock") == []
    assert severities(clamped(5, "oak"), "lock") == []
    assert severities(clamped(5, "unobtanium"), "lock") == ["unchecked"]
    assert found(mended(clamped(5), "lock"), "lock") == []
    (tapped,) = found(clamped(5), "lock")
    assert [mend.says for mend in tapped.mends] == ["Note a lock, such as low-strength threadlocker."]
    stiff = work("M5 x 20 cheese steel", layer("a", "brass", 8), nut("M5 stiff nut"))
    assert severities(stiff, "lock") == []
    plain = work("M5 x 20 cheese steel", layer("a", "brass", 8), nut("M5 nut"))
    (loose,) = found(plain, "lock")
    assert loose.severity == "warning"
    assert loose.mends[0].says == "Note a lock, such as low-strength threadlocker or a stiff nut."


def test_a_published_drill_that_leaves_much_thread_is_not_its_own_mend() -> None:
    """1 1/4 BSF: 28.5 mm leaves (31.75 - 28.5) / (1.2807 x 25.4 / 9) = 90 %; 29.2 mm about 70 %."""
    result = work(
        "1 1/4 BSF x 2 hex set screw steel", layer("a", "steel", 10), layer("b", "steel", 60), lock="yes"
    )
    (finding,) = found(result, "tapping-hole")
    assert finding.value == pytest.approx(89.9, abs=0.1)
    assert finding.mends[0].says != "Drill 28.5 mm."
    assert found(mended(result, "tapping-hole"), "tapping-hole") == []


def test_no_length_mends_a_part_that_is_too_thin_to_be_tapped() -> None:
    """4 mm of thread is 0.8 D of M5 at most; 8.5 mm is 1.7 D, under the 2 D of aluminium."""
    thicker = "A thicker part, a nut behind it or a thinner screw gives the full hold."

    def mends(length: int, material: str, thick: float) -> list[str]:
        result = work(f"M5 x {length} cheese steel", layer("a", "steel", 4), layer("b", material, thick))
        (finding,) = found(result, "engagement")
        return [mend.says for mend in finding.mends]

    assert mends(12, "brass", 4) == [thicker]
    assert mends(12, "aluminium", 8.5) == ["Use M5 x 16 cheese steel.", thicker]
    assert mends(16, "aluminium", 8.5) == [thicker]


def test_the_torque_offered_is_one_that_both_faces_bear() -> None:
    """Oak bears 7.4 MPa and Scots pine less; the nut's face is the smaller and on the softer wood."""
    stack = (layer("a", "oak", 20), layer("b", "Scots pine", 20), nut("M6 nut"))
    result = work("M6 x 50 hex bolt brass", *stack)
    wanted = {mend.value for finding in found(result, "washer-pressure") for mend in finding.mends}
    assert len(wanted) == 1
    assert found(mended(result, "washer-pressure"), "washer-pressure") == []


@pytest.mark.parametrize(
    ("male", "female", "over", "words"),
    [
        ("M5", "10-32 UNF", 0.171, "It jams after a turn or two."),
        ("10-32 UNF", "M5", -0.171, "It goes in and is weak."),
        ("2 BA", "3/16 BSF", -0.04, "It binds after about 1 turn and damages both."),
        ("M8", "M5", 2.708, "It jams"),
        ("M5", "M8", -2.708, "It does not hold at all."),
    ],
)
def test_threads_that_do_not_match(male: str, female: str, over: float, words: str) -> None:
    made = layer("b", "steel", 8, thread=female)
    result = work(
        f"{male} x 12 cheese steel" if male.startswith("M") else f"{male} cheese steel",
        layer("a", "steel", 3),
        made,
    )
    (finding,) = found(result, "thread-match")
    assert finding.severity == "error"
    assert finding.value == pytest.approx(over, abs=0.005)
    assert words in finding.says


def test_threads_that_match_or_are_not_known() -> None:
    def with_nut(text: str) -> JointResult:
        return work("M5 x 20 cheese steel", layer("a", "steel", 10), nut(text))

    assert found(with_nut("M5 nut"), "thread-match") == []
    assert severities(with_nut("2 BA nut"), "thread-match") == ["error"]
    strange = work("M5 x 20 cheese steel", layer("a", "steel", 6), layer("b", "steel", 10, thread="M5.1"))
    assert severities(strange, "thread-match") == ["unchecked"]
    mend = work("M5 x 20 cheese steel", layer("a", "steel", 10), layer("b", "steel", 10, thread="2 BA"))
    assert found(mended(mend, "thread-match"), "thread-match") == []


def test_stainless_in_stainless() -> None:
    def pair(bolt: str, other: str, **more: Any) -> list[str]:
        result = work(f"M5 x 20 cheese {bolt}", layer("a", "brass", 15), nut(f"M5 nut {other}"), **more)
        return severities(result, "stainless-pair")

    assert pair("stainless", "stainless") == ["warning"]
    assert pair("stainless", "brass") == []
    assert pair("steel", "stainless") == []
    assert pair("stainless", "stainless", lock="anti-seize") == []
    hole = work("M5 x 20 cheese stainless", layer("a", "brass", 5), layer("b", "stainless steel", 20))
    assert severities(hole, "stainless-pair") == ["warning"]
    assert found(mended(hole, "stainless-pair"), "stainless-pair") == []


@pytest.mark.parametrize(
    ("thick", "severity"),
    [(1.04, "error"), (1.06, "warning"), (1.30, "warning"), (1.33, None)],
)
def test_countersink_depth(thick: float, severity: str | None) -> None:
    # M3: head 5.5 in a 3.4 hole at 90 degrees: 1.05 deep
    result = work("M3 csk steel", layer("a", "brass", thick), layer("b", "brass", 12))
    assert result.holes[0].countersink_depth_mm == pytest.approx(1.05)
    assert severities(result, "countersink-depth") == ([severity] if severity else [])


@pytest.mark.parametrize(
    ("angle", "severity"), [(90, None), (86, "warning"), (84.9, "error"), (94.9, "warning")]
)
def test_countersink_angle(angle: float, severity: str | None) -> None:
    first = layer("a", "brass", 6, hole={"countersink_angle_deg": angle})
    result = work("M4 csk steel", first, layer("b", "brass", 12))
    assert severities(result, "countersink-angle") == ([severity] if severity else [])
    if severity:
        assert found(mended(result, "countersink-angle"), "countersink-angle") == []


def bored(wide: float | None, deep: float, seat: str = "", washers: tuple[str, ...] = ()) -> JointResult:
    """An M5 cap screw, head 8.5 x 5, in a counterbore."""
    first = layer("a", "steel", 20, hole={"counterbore_diameter_mm": wide, "counterbore_depth_mm": deep})
    return work(
        "M5 socket cap steel", *(washer(text) for text in washers), first, layer("b", "steel", 12), seat=seat
    )


def test_counterbore() -> None:
    assert severities(bored(8.4, 6), "counterbore") == ["error"]
    assert severities(bored(8.97, 6), "counterbore") == ["warning"]
    assert severities(bored(9.0, 6), "counterbore") == []
    assert found(mended(bored(8.9, 6), "counterbore"), "counterbore") == []
    assert severities(bored(9.0, 6, washers=("M5 washer",)), "counterbore") == ["error"]  # washer of 10
    assert severities(bored(9.5, 4.9), "counterbore") == ["warning"]
    assert severities(bored(9.5, 5.0), "counterbore") == []
    assert found(mended(bored(9.5, 4.0), "counterbore"), "counterbore") == []
    assert "error" in severities(bored(9.5, 20), "counterbore")


def test_a_counterbore_follows_where_the_seat_asks_for_one() -> None:
    result = work("M5 socket cap steel", layer("a", "steel", 20), layer("b", "steel", 12), seat="counterbore")
    hole = result.holes[0]
    assert (hole.counterbore_diameter_mm, hole.counterbore_depth_mm) == (9.5, 5.0)
    assert result.head_below_mm == 0
    assert result.extents[0].leave_mm == 15.0


def test_head_proud() -> None:
    assert severities(bored(9.5, 4.9, "flush"), "head-proud") == ["error"]
    assert severities(bored(9.5, 5.0, "flush"), "head-proud") == []
    assert severities(bored(9.5, 4.9, "proud"), "head-proud") == []
    shallow = bored(9.5, 4.0, "flush")
    assert found(shallow, "head-proud")[0].value == pytest.approx(1.0)
    assert found(mended(shallow, "head-proud"), "head-proud") == []
    assert found(mended(shallow, "head-proud", 1), "head-proud") == []


def test_a_head_that_no_table_knows() -> None:
    stack = (layer("a", "brass", 20), layer("b", "brass", 12))
    assert severities(work("5/16 BSF knurled steel", *stack), "known-data") == ["unchecked"]
    own = MeasuredHead(diameter_mm=14.0, height_mm=8.0)
    assert severities(work("5/16 BSF knurled steel", *stack, measured_head=own), "known-data") == []


@pytest.mark.parametrize(
    ("past", "severity"),
    [(-0.1, "error"), (0.79, "warning"), (0.81, None), (3.99, None), (4.01, "warning")],
)
def test_threads_past_a_nut(past: float, severity: str | None) -> None:
    # M5 nut 4.7, pitch 0.8
    result = work("M5 x 30 hex set screw steel", layer("a", "brass", 30 - 4.7 - past), nut("M5 nut"))
    assert result.protrusion_mm == pytest.approx(past)
    assert severities(result, "threads-past-nut") == ([severity] if severity else [])
    if severity:
        assert found(mended(result, "threads-past-nut"), "threads-past-nut") == []


def test_a_thin_nut_lies_against_the_joint() -> None:
    def two(*nuts: str) -> list[str]:
        made = [nut(text) for text in nuts]
        return severities(
            work("M6 x 30 hex set screw steel", layer("a", "brass", 18), *made), "thin-nut-order"
        )

    assert two("M6 half nut", "M6 nut") == []
    assert two("M6 nut", "M6 half nut") == ["warning"]
    assert two("M6 nut", "M6 nut") == []


def on_oak(
    torque: float | None, washer_text: str = "M6 repair washer 25 x 1.6", wood: str = "oak"
) -> JointResult:
    base = layer("base", wood, 28)
    return work(
        "M6 x 50 hex set screw steel", washer(washer_text), base, layer("p", "steel", 20), torque_nm=torque
    )


def test_washer_pressure() -> None:
    # pi/4 (25^2 - 6.4^2) = 458.7 mm2; 6 N m makes 5000 N: 10.9 MPa
    heavy = on_oak(6.0)
    assert heavy.preload_n == pytest.approx(5000)
    assert heavy.washer_pressure_mpa == pytest.approx(10.9, abs=0.05)
    assert severities(heavy, "washer-pressure") == ["error"]
    assert found(mended(heavy, "washer-pressure"), "washer-pressure") == []
    assert severities(on_oak(None), "washer-pressure") == ["unchecked"]
    assert severities(on_oak(2.0, wood="unobtanium"), "washer-pressure") == ["unchecked"]
    assert severities(on_oak(6.0, wood="steel"), "washer-pressure") == []


@pytest.mark.parametrize(
    ("share", "severity"), [(74, []), (76, ["warning"]), (99, ["warning"]), (101, ["error"])]
)
def test_washer_pressure_at_its_limits(share: float, severity: list[str]) -> None:
    strength = on_oak(6.0)
    (finding,) = found(strength, "washer-pressure")
    assert finding.value is not None
    result = on_oak(6.0 * share / finding.value)
    assert severities(result, "washer-pressure") == severity


def test_small_washers_crush_oak() -> None:
    # ISO 7089: pi/4 (12^2 - 6.4^2) = 80.9 mm2: 62 MPa; ISO 7093, 18 wide: 22 MPa
    assert on_oak(6.0, "M6 washer").washer_pressure_mpa == pytest.approx(62, abs=0.5)
    assert on_oak(6.0, "M6 repair washer").washer_pressure_mpa == pytest.approx(22.5, abs=0.6)
    larger = found(on_oak(6.0, "M6 washer"), "washer-pressure")[0].mends[1]
    assert (larger.field, larger.value) == ("stack[0].washer", "M6 repair washer")


@pytest.mark.parametrize(("thick", "severity"), [(1.24, ["warning"]), (1.26, [])])
def test_washer_thickness(thick: float, severity: list[str]) -> None:
    # M6 hexagon 10 across flats: (25 - 10) / 12 = 1.25
    result = on_oak(3.0, f"M6 repair washer 25 x {thick}")
    assert severities(result, "washer-thickness") == severity


def inserted(wood: str, **more: Any) -> JointResult:
    base = layer("base", wood, 40, **more)
    return work(
        "M4 x 16 cheese steel", layer("p", "brass", 4), insert("M4 insert OD 8 body 6.5 x 10 brass"), base
    )


@pytest.mark.parametrize(
    ("wood", "hole", "severity"),
    [
        ("oak", 6.88, ["warning"]),
        ("oak", 6.9, []),
        ("oak", 7.3, []),
        ("oak", 7.4, ["warning"]),
        ("oak", 8.1, ["error"]),
        ("Scots pine", 6.4, ["warning"]),
        ("Scots pine", 6.5, []),
        ("Scots pine", 6.9, []),
        ("Scots pine", 6.92, ["warning"]),
        ("unobtanium", 7.0, ["unchecked"]),
    ],
)
def test_insert_hole(wood: str, hole: float, severity: list[str]) -> None:
    result = inserted(wood, hole={"diameter_mm": hole})
    assert severities(result, "insert-hole") == severity
    if severity and severity != ["unchecked"]:
        assert found(mended(result, "insert-hole"), "insert-hole") == []


@pytest.mark.parametrize(
    ("edge", "severity"), [(7.9, ["error"]), (8.1, ["warning"]), (15.9, ["warning"]), (16.1, [])]
)
def test_insert_edge(edge: float, severity: list[str]) -> None:
    result = inserted("oak", edge_mm=edge, end_mm=80.0)
    assert severities(result, "insert-edge") == severity
    if severity:
        assert found(mended(result, "insert-edge"), "insert-edge") == []


def test_a_screw_that_reaches_the_end_of_an_insert_hole_bottoms() -> None:
    # hole 10 + 1 deep, 4 of plate: 15 at most; a pitch less 14.3
    assert severities(inserted("oak"), "screw-bottoms") == ["error"]
    base = layer("base", "oak", 40)
    short = work(
        "M4 x 14 cheese steel", layer("p", "brass", 4), insert("M4 insert OD 8 body 6.5 x 10 brass"), base
    )
    assert severities(short, "screw-bottoms") == []


def test_machine_lengths() -> None:
    def chosen(*stack: Any) -> str:
        length = work("M6 hex set screw steel", *stack).fastener.length
        assert length is not None
        return length.written

    # through 10 into brass: 10 + 9 = 19 at least
    assert chosen(layer("a", "steel", 10), layer("b", "brass", 30)) == "20 mm"
    # blind 12: 10 + 9 to 10 + 11
    assert chosen(layer("a", "steel", 10), layer("b", "brass", 30, thread_depth_mm=12.0)) == "20 mm"
    # nut 5.2: 20 + 5.2 + 1 to + 5
    assert chosen(layer("a", "steel", 20), nut("M6 nut")) == "30 mm"
    # 20.5 + 5.2 + 1.6 = 27.3 + 1 to 5: 28.3 to 32.3
    assert chosen(washer("M6 washer"), layer("a", "steel", 20.5), nut("M6 nut")) == "30 mm"


def test_a_joint_without_a_stock_length() -> None:
    # blind thread of 7 behind 15: 15 + 6 = 21 to 21 where M6 comes in 20 and 25
    result = work(
        "M6 hex set screw steel", layer("a", "steel", 15), layer("b", "steel", 30, thread_depth_mm=7.0)
    )
    (finding,) = found(result, "no-stock-length")
    assert finding.severity == "warning"
    assert result.stock_lengths_mm == ()
    assert finding.mends[0].value == "M6 x 25 hex set screw steel cut to 21"
    after = mended(result, "no-stock-length")
    assert found(after, "no-stock-length") == []
    assert after.tip_mm == 21


def test_limits_are_replaced_by_name() -> None:
    stack = (layer("a", "steel", 10), layer("b", "brass", 7))
    assert severities(work("M6 x 20 hex set screw steel", *stack), "engagement") == ["warning"]
    stricter = work(
        "M6 x 20 hex set screw steel", *stack, limits=(("engagement-least", 1.2), ("not a limit", 3.0))
    )
    assert severities(stricter, "engagement") == ["error"]
