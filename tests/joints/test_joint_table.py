"""A table of joints worked by hand: each row is arithmetic that a person can follow with a pencil."""

from __future__ import annotations

from typing import Any

import pytest

from calculators.joints import JointInput
from tests.joints.joint_makers import found, insert, joint, layer, mended, nut, severities, washer, work

DRILLS = ("1.0-13.0 by 0.5", "1.0-6.0 by 0.1", "number 1-60")


def made(fastener: str, *stack: Any, **more: Any) -> JointInput:
    return joint(fastener, *stack, drills=DRILLS, **more)


WOOD_SCREWS = {
    # 44.45 - 22 = 22.45; / 4.166 = 5.4 D; 50 - 44.45 = 5.55
    "batten": (
        ("No. 8 x 1 3/4 csk brass", layer("batten", "oak", 22), layer("base", "oak", 28)),
        (22.45, 5.39, 5.55),
    ),
    # 22.225 - 6 = 16.225; / 3.505 = 4.63 D; 28 - 22.225 = 5.775
    "flange": (
        ("No. 6 x 7/8 csk brass", layer("plate", "brass", 6), layer("base", "oak", 22)),
        (16.225, 4.63, 5.775),
    ),
    # 15.875 - 1.626 = 14.249; / 2.845 = 5.01 D
    "thin plate": (
        ("No. 4 x 5/8 csk brass", layer("plate", "brass", 1.626), layer("base", "oak", 28)),
        (14.249, 5.01, 13.751),
    ),
    # 25.4 - 8 = 17.4; / 3.505 = 4.96 D; 36 - 25.4 = 10.6
    "nut plate": (
        ("No. 6 x 1 csk brass", layer("plate", "mild steel", 8), layer("base", "oak", 28)),
        (17.4, 4.96, 10.6),
    ),
    "strap": (
        ("No. 6 x 1 csk brass", layer("strap", "brass", 6), layer("base", "oak", 28)),
        (19.4, 5.53, 8.6),
    ),
    # 12.7 - 1.6 = 11.1; / 2.845 = 3.90 D
    "hinge": (
        ("No. 4 x 1/2 csk brass", layer("leaf", "brass", 1.6), layer("side", "oak", 18)),
        (11.1, 3.90, 6.9),
    ),
}


@pytest.mark.parametrize("name", WOOD_SCREWS)
def test_penetration_of_wood_screws(name: str) -> None:
    (fastener, *stack), (inside, diameters, behind) = WOOD_SCREWS[name]
    result = work(fastener, *stack, steel_first=True, drills=DRILLS)
    assert result.penetration_mm == pytest.approx(inside, abs=0.001)
    assert result.penetration_d == pytest.approx(diameters, abs=0.005)
    assert result.behind_point_mm == pytest.approx(behind, abs=0.001)
    assert severities(result, "penetration") == (["warning"] if diameters < 4 else [])
    assert severities(result, "wood-behind-point") == []
    assert result.engagement_mm is None
    assert result.protrusion_mm is None


MACHINE_SCREWS = {
    # 19.05 - 8 - 1.5 = 9.55 of 10; / 4.7 = 2.03 D
    "slit lug": (
        ("2 BA x 3/4 cheese brass", layer("lug", "brass", 8), layer("lug", "brass", 10, gap_mm=1.5)),
        {},
        (9.55, 2.03, None),
    ),
    # 4.7625 in 4.5: 4.5 / 2.8 = 1.61 D, 0.2625 out
    "grub": (("6 BA x 3/16 grub", layer("clamp", "brass", 4.5)), {"clamps": False}, (4.5, 1.61, 0.2625)),
    # 12.7 - 6 = 6.7; / 3.6 = 1.86 D
    "countersunk": (
        ("4 BA x 1/2 csk steel", layer("block", "gauge plate", 6), layer("carrier", "brass", 10)),
        {},
        (6.7, 1.86, None),
    ),
    # 10 - 3 = 7 under the counterbore; 12.7 - 7 = 5.7; / 3.6 = 1.58 D
    "counterbored": (
        (
            "4 BA x 1/2 cheese steel",
            layer("carrier", "brass", 10, hole={"counterbore_depth_mm": 3.0}),
            layer("flange", "brass", 6),
        ),
        {},
        (5.7, 1.58, None),
    ),
    # 9.525 - 1.626 = 7.899; / 3.6 = 2.19 D
    "blind": (
        (
            "4 BA x 3/8 csk steel",
            layer("plate", "brass", 1.626),
            layer("post", "brass", 40, thread_depth_mm=10),
        ),
        {},
        (7.899, 2.19, None),
    ),
    # 25.4 through 10: 10 / 3.6 = 2.78 D, 15.4 out
    "stop screw": (
        ("4 BA x 1 cheese brass", layer("post", "brass", 10)),
        {"clamps": False},
        (10.0, 2.78, 15.4),
    ),
    # 25.4 through 22: 22 / 4.7 = 4.68 D, 3.4 out
    "thumb screw": (
        ("2 BA x 1 knurled brass", layer("bob", "brass", 22)),
        {"clamps": False},
        (22.0, 4.68, 3.4),
    ),
    # 6.35 - 1.219 = 5.131; / 2.8 = 1.83 D
    "bracket": (
        ("6 BA x 1/4 csk brass", layer("sheet", "brass", 1.219), layer("post", "brass", 6)),
        {},
        (5.131, 1.83, None),
    ),
    # 4.7625 in 4.0: 4 / 2.2 = 1.82 D, 0.7625 out
    "collet": (("8 BA x 3/16 grub", layer("collet", "brass", 4)), {"clamps": False}, (4.0, 1.82, 0.7625)),
    # 10 - 3 = 7; / 3 = 2.33 D
    "drum": (
        (
            "M3 x 10 csk steel",
            layer("tube", "aluminium", 3),
            layer("cap", "aluminium", 94, thread_depth_mm=10),
        ),
        {},
        (7.0, 2.33, None),
    ),
    # 9.525 - 3 - 0.8 = 5.725; / 4.826 = 1.19 D
    "motor": (
        (
            "10-32 UNF x 3/8 pan steel",
            washer("No. 10 washer 0.8 mm"),
            layer("plate", "mild steel", 3),
            layer("motor", "steel", 45, thread="10-32 UNF", thread_depth_mm=8),
        ),
        {},
        (5.725, 1.19, None),
    ),
    # 15.875 - 1.6 - 6 = 8.275 in 8: 8 / 6.35 = 1.26 D, 0.275 out
    "yoke": (
        (
            "1/4-28 UNF x 5/8 hex steel",
            washer("1/4 UNF washer 1.6 mm"),
            layer("strap", "brass", 6),
            layer("yoke", "mild steel", 8),
        ),
        {},
        (8.0, 1.26, 0.275),
    ),
    # 50.8 through 8: 8 / 7.9375 = 1.01 D, 42.8 out
    "levelling": (
        ("5/16 BSF x 2 knurled steel", layer("plate", "mild steel", 8)),
        {"clamps": False},
        (8.0, 1.01, 42.8),
    ),
}


@pytest.mark.parametrize("name", MACHINE_SCREWS)
def test_engagement_of_machine_screws(name: str) -> None:
    (fastener, *stack), more, (engaged, diameters, out) = MACHINE_SCREWS[name]
    result = work(fastener, *stack, drills=DRILLS, lock="noted", **more)
    assert result.engagement_mm == pytest.approx(engaged, abs=0.001)
    assert result.engagement_d == pytest.approx(diameters, abs=0.005)
    assert result.protrusion_mm == (None if out is None else pytest.approx(out, abs=0.001))
    assert severities(result, "engagement") == []
    assert severities(result, "screw-bottoms") == []


def test_a_stud_in_an_insert() -> None:
    # 20 long, 10 standing out: 10 in the insert; / 4 = 2.5 D
    stud = (
        "M4 x 20 grub steel",
        insert("M4 insert OD 8 body 6.5 x 10 brass"),
        layer("base", "oak", 28, edge_mm=95),
    )
    result = work(*stud, stands_mm=10.0, clamps=False)
    assert result.engagement_mm == pytest.approx(10.0)
    assert result.engagement_d == pytest.approx(2.5)
    assert result.holes[0].kind == "insert"
    assert result.holes[0].diameter_mm == pytest.approx(6.9)
    assert [f.rule for f in result.findings if f.rule.startswith("insert")] == []


def test_a_stud_in_a_blind_post_and_an_insert() -> None:
    # the post is 25, its stud 10 in from the joint: the tail lies 15 below the post's top
    stud = (
        "M4 x 20 grub steel",
        layer("post", "brass", 25, takes="thread", thread_depth_mm=12.0),
        insert("M4 insert OD 8 body 6.5 x 10 brass"),
        layer("base", "oak", 28),
    )
    result = work(*stud, stands_mm=-15.0, clamps=False)
    assert result.engagement_mm == pytest.approx(10.0)
    assert severities(result, "engagement") == []
    assert [(e.enter_mm, e.leave_mm) for e in result.extents] == [(-15.0, 10.0), (10.0, 20.0), (10.0, 38.0)]


def pillar(length: str = "2") -> Any:
    return (
        f"5/16 BSF x {length} hex set screw steel zinc plated",
        washer("5/16 BSF repair washer"),
        layer("base", "oak", 22, hole={"diameter_mm": 8.2}),
        layer("flange", "brass", 6, hole={"diameter_mm": 8.2}),
        layer("pillar", "brass", 165, thread_depth_mm=18.0, drilled_depth_mm=22.0, hole={"diameter_mm": 6.9}),
    )


def test_a_set_screw_that_bottoms_is_mended_by_the_next_shorter_one() -> None:
    result = work(*pillar(), torque_nm=6.0)
    (finding,) = found(result, "screw-bottoms")
    assert finding.severity == "error"
    assert finding.says == (
        "The screw bottoms before it clamps: 21.2 mm of screw for 18.0 mm of thread, 3.2 mm too long."
    )
    assert finding.value == pytest.approx(50.8 - 29.626, abs=0.001)
    assert finding.limit == 18.0
    assert finding.mends[0].field == "fastener"
    assert finding.mends[0].value == "5/16 BSF x 1 3/4 hex set screw steel zinc plated"
    right = work(*pillar("1 3/4"), torque_nm=6.0)
    assert found(right, "screw-bottoms") == []
    assert right.engagement_mm == pytest.approx(44.45 - 29.626, abs=0.001)
    assert right.engagement_d == pytest.approx(1.87, abs=0.005)
    assert right.holes[-1].thread_percent == pytest.approx(70, abs=0.5)


def test_washers_on_oak() -> None:
    # 6 N m / (0.2 x 7.9375 mm) = 3780 N; the washer's own hole is 1.05 D = 8.33: 737 mm2; 5.1 MPa
    head = work(*pillar(), torque_nm=6.0)
    assert head.preload_n == pytest.approx(6000 / (0.2 * 7.9375))
    assert head.washer_pressure_mpa == pytest.approx(5.13, abs=0.01)
    # 2.5 N m / (0.2 x 5 mm) = 2500 N; pi/4 (25^2 - 5.3^2) = 469 mm2; 5.3 MPa. 40 - 33.5 - 4.7 = 1.8 past the nut
    below = work(
        "M5 x 40 socket cap steel plated",
        washer("M5 washer 1.0"),
        layer("bracket", "brass", 3),
        layer("base", "oak", 28),
        washer("M5 repair washer 25 x 1.5"),
        nut("M5 nut"),
        torque_nm=2.5,
    )
    assert below.preload_n == pytest.approx(2500)
    assert below.washer_pressure_mpa == pytest.approx(2500 / 469, abs=0.01)
    assert below.protrusion_mm == pytest.approx(1.8)
    assert below.protrusion_threads == pytest.approx(2.25)
    for result in (head, below):
        for rule in ("washer-pressure", "washer-thickness", "threads-past-nut"):
            assert found(result, rule) == []


def test_a_near_match_of_threads_jams() -> None:
    result = work(
        "M5 x 12 pan steel",
        layer("plate", "mild steel", 3),
        layer("motor", "steel", 45, thread="10-32 UNF", thread_depth_mm=8.0),
    )
    (finding,) = found(result, "thread-match")
    assert finding.severity == "error"
    assert finding.value == pytest.approx(0.17, abs=0.005)
    assert "4.480 against 4.310 mm, 0.17 mm too tight" in finding.says
    assert "It jams after a turn or two." in finding.says
    assert [mend.value for mend in finding.mends] == ["10-32 UNF x 3/8 pan steel"]
    assert severities(result, "screw-bottoms") == ["error"]  # 9 of screw for 8 of thread
    # The thread must change first, and 3/8 in then leaves room: 9.525 - 3 = 6.5 of screw for 8 of thread.
    assert found(result, "screw-bottoms")[0].mends == finding.mends
    for rule in ("thread-match", "screw-bottoms"):
        after = mended(result, rule)
        assert [found(after, each) for each in ("thread-match", "screw-bottoms", "engagement")] == [
            [],
            [],
            [],
        ]


def test_countersinks_are_taken_from_the_hole_as_drilled() -> None:
    plates = {
        # head, hole, plate: depth (head - hole) / 2 at 90 degrees
        "No. 4 x 5/8 csk brass": (1.626, (5.69 - 3.0) / 2, "warning"),
        "4 BA x 3/8 csk steel": (1.626, (6.3 - 3.9) / 2, None),
        "6 BA x 1/4 csk brass": (1.219, (4.9 - 3.1) / 2, None),
        "M3 x 10 csk steel": (3.0, (5.5 - 3.4) / 2, None),
    }
    for text, (thick, depth, severity) in plates.items():
        below = layer("below", "oak", 28) if text.startswith("No.") else layer("below", "brass", 12)
        result = work(text, layer("plate", "brass", thick), below)
        assert result.holes[0].countersink_depth_mm == pytest.approx(depth, abs=0.01), text
        assert result.holes[0].left_mm == pytest.approx(thick - depth, abs=0.01)
        assert severities(result, "countersink-depth") == ([severity] if severity else [])
