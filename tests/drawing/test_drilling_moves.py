"""Drilling moves, replayed by a machine on paper: each hole where it is drilled, how deep and with which tool.

Depths are worked out here from the hole's numbers and the cone of a drill, h = d / 2 / tan(angle / 2)
(geometry); what is drilled when, and how far beyond, is common practice.
"""

from __future__ import annotations

import itertools
import math
import random
from dataclasses import replace

import pytest

from calculators.drawing.drilling_moves import Moves, SetUp, drilling_moves
from calculators.drawing.face_shape import FaceShape, HoleShape, PocketShape
from calculators.drawing.iso_code import CAUTIONS, iso_code
from calculators.geometry.outlines import circle, rectangle
from calculators.quantities.errors import InputError
from tests.drawing.iso_6983 import Danger, Drilled, Run, run

PLATE = FaceShape("P1", "Plate", "top", rectangle(0, 0, 120, 80), 12.0, material="brass")


def cone(diameter: float, angle_deg: float = 118.0) -> float:
    return diameter / 2 / math.tan(math.radians(angle_deg / 2))


def random_face(seed: int) -> tuple[FaceShape, SetUp]:
    pick = random.Random(seed)
    thick = pick.choice([4.0, 9.0, 18.0, 40.0])
    holes = []
    for number in range(1, pick.randint(1, 40) + 1):
        d = pick.choice([1.0, 2.1, 3.3, 4.2, 5.5, 6.9, 8.2])
        kind = pick.choice(["clearance", "tapping", "pilot", "plain", "reamed"])
        blind = pick.random() < 0.5
        more: dict[str, object] = {}
        if kind == "tapping":
            more = {"thread": "M5", "thread_depth_mm": 4.0}
        if pick.random() < 0.3:
            more |= {
                "countersink_diameter_mm": round(d * 1.9, 3),
                "countersink_angle_deg": pick.choice([82.0, 90.0]),
            }
        elif pick.random() < 0.2:
            more |= {"counterbore_diameter_mm": d * 2, "counterbore_depth_mm": round(thick / 4, 3)}
        if kind == "clearance" and pick.random() < 0.3:
            more |= {"slot_length_mm": d * 2.5, "slot_along": pick.choice("uv")}
        depth = round(pick.uniform(0.5, max(thick - cone(d) - 0.1, 0.6)), 3) if blind else None
        holes.append(
            HoleShape(
                number, round(pick.uniform(-50, 500), 3), round(pick.uniform(-20, 300), 3), d, kind, depth,
                head_side=pick.random() < 0.8, **more,  # type: ignore[arg-type]
            )
        )  # fmt: skip
    shape = FaceShape(
        "P7", f"Board {seed}", "top", rectangle(0, 0, 500, 300), thick, tuple(holes),
        material=pick.choice(["oak", "mild steel", "brass", "beech plywood", "something odd"]),
    )  # fmt: skip
    set_up = SetUp(
        safe_mm=pick.choice([6.0, 15.0, 40.0]), clear_mm=pick.choice([1.0, 2.0]), peck=pick.choice([0.5, 1.0, 3.0]),
        beyond_mm=pick.choice([0.0, 0.5, 2.0]), spot=pick.random() < 0.7,
    )  # fmt: skip
    return shape, set_up


def by_place(done: Run, moves: Moves) -> dict[tuple[float, float, str], list[Drilled]]:
    """What was drilled, by place and kind of tool, the tool named by the plan's list."""
    kinds = {tool.number: tool.kind for tool, _ in moves.cuts}
    found: dict[tuple[float, float, str], list[Drilled]] = {}
    for one in done.drilled:
        found.setdefault((one.x, one.y, kinds[one.tool]), []).append(one)
    return found


@pytest.mark.parametrize("seed", range(120))
def test_each_hole_is_drilled_once_where_it_is_how_deep_and_with_its_tool(seed: int) -> None:
    shape, set_up = random_face(seed)
    moves = drilling_moves(shape, set_up)
    done = run(iso_code(moves))
    drilled = by_place(done, moves)
    sizes = {tool.number: (tool.diameter_mm, tool.angle_deg) for tool, _ in moves.cuts}
    left = {int(says.split()[1]) for says in moves.left_out}
    count = 0

    def once(x: float, y: float, kind: str, deep: float, size: float, angle: float) -> Drilled:
        nonlocal count
        (one,) = drilled[round(x, 3), round(y, 3), kind]
        assert one.deepest == pytest.approx(deep, abs=0.0006)
        assert sizes[one.tool] == pytest.approx((size, angle), abs=1e-3)
        count += 1
        return one

    for hole in shape.holes:
        d, u, v = hole.diameter_mm, hole.u_mm, hole.v_mm
        is_slot = hole.slot_length_mm > 0
        tip = 0.0 if is_slot else cone(d)
        if hole.depth_mm is not None and hole.depth_mm + tip > shape.depth_mm + 1e-6:
            assert hole.number in left
            continue
        assert hole.number not in left
        bottom = shape.depth_mm + set_up.beyond_mm if hole.depth_mm is None else hole.depth_mm
        if is_slot:
            half = (hole.slot_length_mm - d) / 2
            du, dv = (half, 0.0) if hole.slot_along == "u" else (0.0, half)
            cut = once(u - du, v - dv, "slot cutter", bottom, d, 180.0)
            far = (round(u + du, 3), round(v + dv, 3))
            at_bottom = {way[:4] for way in cut.ways if way[4] == pytest.approx(-bottom, abs=0.0006)}
            near = (round(u - du, 3), round(v - dv, 3))
            assert at_bottom == {(*near, *far), (*far, *near)}
            steps = [down for _, down in cut.feeds]
            assert max(a - b for a, b in zip([0.0, *steps], steps, strict=False)) <= 0.5 * d + 0.001
        else:
            size = d - 0.2 if hole.kind == "reamed" else d
            cut = once(u, v, "drill", bottom + cone(size), size, 118.0)
            reached = 0.0
            for _, down in cut.feeds:
                assert -down - reached <= set_up.peck * size + 0.0011
                reached = -down
            if set_up.spot:
                once(u, v, "spot drill", cone(min(3.0, size)), 3.0, 118.0)
        if hole.head_side and hole.countersink_diameter_mm:
            wide, angle = hole.countersink_diameter_mm, hole.countersink_angle_deg
            once(u, v, "countersink", cone(wide, angle), wide, angle)
        if hole.head_side and hole.counterbore_diameter_mm:
            once(u, v, "flat cutter", hole.counterbore_depth_mm, hole.counterbore_diameter_mm, 180.0)
    assert count == len(done.drilled)
    assert min(done.heights_between) >= set_up.safe_mm
    assert len(done.tools) == len(set(done.tools)) == len(moves.cuts)


def test_a_hole_by_hand() -> None:
    """A 5 mm blind hole 6 deep: the tip of 118 degrees is 1.502 lower; pecks of at most 5: two of 3.751."""
    shape = replace(PLATE, holes=(HoleShape(1, 30, 20, 5.0, depth_mm=6.0),))
    code = iso_code(drilling_moves(shape, SetUp(spot=False))).splitlines()
    start = code.index("G0 X30.000 Y20.000")
    feed = code[start + 2].split()[2]
    assert code[start : start + 7] == [
        "G0 X30.000 Y20.000", "G0 Z2.000", f"G1 Z-3.751 {feed}", "G0 Z2.000", "G0 Z-3.251", f"G1 Z-7.502 {feed}",
        "G0 Z15.000",
    ]  # fmt: skip


def test_speed_and_feed_are_those_of_the_cutting_speed_calculator() -> None:
    """Brass with high speed steel at 60 m/min (from memory): 5 mm turns at 1000 x 60 / (5 pi) = 3,820, feeds
    0.02 x 5 = 0.1 mm a turn: 382 mm a minute."""
    shape = replace(PLATE, holes=(HoleShape(1, 30, 20, 5.0),))
    done = run(iso_code(drilling_moves(shape, SetUp(spot=False))))
    assert done.speeds == {1: 3820.0}
    assert done.feeds == {1: {382.0}}


def test_the_machine_s_own_speeds_bound_the_drill_and_a_drill_too_fast_is_said() -> None:
    shape = replace(PLATE, material="mild steel", holes=(HoleShape(1, 30, 20, 8.0),))
    moves = drilling_moves(shape, SetUp(spot=False, least_rpm=8_000))
    assert moves.cuts[0][0].rpm == 8_000
    assert "would run at 1114 turns a minute in mild steel; the machine's least is 8000" in moves.notes[0]


def test_threads_and_reamed_holes_are_left_for_the_hand() -> None:
    holes = (
        HoleShape(1, 10, 10, 4.2, "tapping", thread="M5", thread_depth_mm=10.0),
        HoleShape(2, 30, 10, 6.0, "reamed"),
    )
    moves = drilling_moves(replace(PLATE, holes=holes))
    assert moves.by_hand == ("Tap hole 1: M5, 10 mm deep.", "Ream hole 2 to 6 mm.")
    assert [tool.diameter_mm for tool, _ in moves.cuts if tool.kind == "drill"] == [4.2, 5.8]


@pytest.mark.parametrize(
    ("hole", "why"),
    [
        ({"copies": ("P1.2",)}, "Hole 1 is not drilled: it is only in P1.2; say which copy is drilled."),
        ({"mirrored": True}, "Hole 1 is not drilled: it is a hole of the other hand, which is laid off the other way round."),
        ({"slanted": True}, "Hole 1 is not drilled: it does not stand square to the face."),
        ({"kind": "spot"}, "Hole 1 is not drilled: it is spotted through from its mate."),
        (
            {"depth_mm": 11.0},
            "Hole 1 is not drilled: it is blind, but with the drill's point it needs 12.5 mm, and the part is 12 mm "
            "thick.",
        ),
    ],
)  # fmt: skip
def test_what_is_not_drilled_is_said_with_the_reason(hole: dict[str, object], why: str) -> None:
    one = replace(HoleShape(1, 10, 10, 5.0), **hole)  # type: ignore[arg-type]
    moves = drilling_moves(replace(PLATE, holes=(one,)))
    assert moves.left_out == (why,)
    assert moves.cuts == ()
    assert why[:40] in " ".join(run(iso_code(moves)).comments)


def test_a_copy_s_own_hole_is_drilled_when_that_copy_is() -> None:
    one = HoleShape(1, 10, 10, 5.0, copies=("P1.2",))
    moves = drilling_moves(replace(PLATE, holes=(one,)), SetUp(copy="P1.2", spot=False))
    assert [cut.hole for _, cuts in moves.cuts for cut in cuts] == [1]
    assert drilling_moves(replace(PLATE, holes=(one,)), SetUp(copy="P1.1")).left_out == (
        "Hole 1 is not drilled: it is only in P1.2.",
    )


def test_pockets_are_not_cut_and_that_is_said() -> None:
    moves = drilling_moves(replace(PLATE, pockets=(PocketShape("k1", 0, 0, 40, 20, depth_mm=6),)))
    assert moves.left_out == ("Pocket k1, 40 x 20 mm, is not cut by these moves.",)


def test_a_hole_that_begins_in_a_recess_is_deeper_by_it() -> None:
    shape = replace(PLATE, holes=(HoleShape(1, 10, 10, 5.0, depth_mm=3.0, below_mm=4.0),))
    done = run(iso_code(drilling_moves(shape, SetUp(spot=False))))
    assert done.drilled[0].deepest == pytest.approx(7.0 + cone(5.0), abs=0.001)


def test_the_code_begins_with_the_cautions_and_holds_plain_signs_alone() -> None:
    name = "Plate (old) ; %  ×  Ø ü\nM30 ☠ مرحبا" + "x" * 200
    shape = replace(PLATE, name=name, holes=(HoleShape(1, 10, 10, 5.0),))
    done = run(iso_code(drilling_moves(shape)))
    said = " ".join(done.comments)
    for caution in CAUTIONS:
        assert caution.replace(";", ",") in said
    assert len(done.drilled) == 2


def test_a_round_end_has_its_zero_on_the_axis_and_a_side_is_refused() -> None:
    end = FaceShape("P2", "Post", "left", circle(0, 0, 40), 60.0, (HoleShape(1, 0, -12, 5.0, depth_mm=10.0),))
    assert [(one.x, one.y) for one in run(iso_code(drilling_moves(end, SetUp(spot=False)))).drilled] == [
        (0, -12)
    ]
    with pytest.raises(InputError, match="does not lie flat on a router"):
        drilling_moves(replace(end, is_wrapped=True))


@pytest.mark.parametrize(
    ("change", "says"),
    [
        ({"safe_mm": 1.0}, "The safe height is from 3 to 300 mm, not 1."),
        ({"safe_mm": math.nan}, "The safe height is from 3 to 300 mm, not nan."),
        ({"peck": 0.0}, "The depth of a peck is from 0.1 to 20 diameters, not 0."),
        (
            {"beyond_mm": 50.0},
            "How far a through hole goes into the board under it is from 0 to 20 mm, not 50.",
        ),
        ({"clear_mm": 18.0}, "Feeding begins at 18 mm, above the safe height of 15 mm."),
        ({"least_rpm": 20_000.0}, "The machine's least speed is greater than its greatest."),
    ],
)
def test_a_set_up_that_cannot_be_is_refused(change: dict[str, float], says: str) -> None:
    with pytest.raises(InputError) as caught:
        drilling_moves(PLATE, replace(SetUp(), **change))  # type: ignore[arg-type]
    assert str(caught.value) == says


@pytest.mark.parametrize(
    ("lines", "danger"),
    [
        (
            ["G21 G17 G90 G94", "G0 Z15.000", "T1 M6", "M0", "S900 M3", "G0 X5.000 Y5.000", "G0 Z-1.000"],
            "down into",
        ),
        (["G21 G17 G90 G94", "G0 Z15.000", "G1 Z-1.000 F100"], "without a turning spindle"),
        (["G21 G17 G90 G94", "G0 Z15.000", "T1 M6", "S900 M3"], "without a stop"),
        (["G0 Z15.000"], "not set before"),
        (["G21 G17 G90 G94", "G81 X0.000 Y0.000 Z-5.000 R2.000 F100"], "unknown words"),
    ],
)
def test_the_machine_on_paper_refuses_what_is_dangerous(lines: list[str], danger: str) -> None:
    with pytest.raises(Danger, match=danger):
        run("\n".join(["%", *lines, "M30", "%", ""]))


def test_ways_between_holes_are_short() -> None:
    """A grid of 10 by 10 at 20 mm is gone through to and fro: 99 ways of about 20 mm, not from end to end."""
    holes = tuple(HoleShape(10 * j + i + 1, 20.0 * i, 20.0 * j, 3.0) for j in range(10) for i in range(10))
    moves = drilling_moves(replace(PLATE, holes=holes), SetUp(spot=False))
    ((_, cuts),) = moves.cuts
    way = sum(math.dist((a.x, a.y), (b.x, b.y)) for a, b in itertools.pairwise(cuts))
    assert way == pytest.approx(99 * 20.0)


def test_more_pecks_than_a_controller_should_be_given_are_refused() -> None:
    """A hole of 0.3 mm in 1000 mm, by a hundredth of a millimetre or so at once, is 33,000 pecks."""
    holes = tuple(HoleShape(number, 5.0 * number, 10.0, 0.3) for number in range(1, 5))
    deep = FaceShape("P1", "Block", "top", rectangle(0, 0, 120, 80), 1000.0, holes, material="oak")
    with pytest.raises(InputError) as refused:
        drilling_moves(deep, SetUp(peck=0.1))
    fault = refused.value.faults[0]
    assert fault.field == "peck"
    assert fault.says.endswith("pecks, and at most 100,000 are written: let a peck be deeper.")
    assert len(iso_code(drilling_moves(replace(deep, holes=holes[:2]), SetUp(peck=0.1)))) < 4_000_000


def test_more_cuts_than_a_face_has_are_refused() -> None:
    """Each hole is spotted and drilled, so 10,001 holes are 20,002 cuts."""
    holes = tuple(HoleShape(number, number % 100, number // 100, 0.5) for number in range(1, 10_002))
    with pytest.raises(InputError, match=r"more than 20,000 cuts in this face; drill it in parts\."):
        drilling_moves(replace(PLATE, holes=holes))
