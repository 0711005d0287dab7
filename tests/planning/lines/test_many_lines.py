"""Hundreds of lines are read in a few seconds, and none of them reads the whole build again."""

from __future__ import annotations

import time

from calculators.planning.lines import add_lines
from tests.benchmarks.yardstick import yardstick
from tests.planning.lines.cast_of_lines import EMPTY

SIZES = ("1/2", "3/4", "1", "1 1/4")


def test_five_hundred_parts_and_four_hundred_joints_are_read_in_seconds() -> None:
    parts = "\n".join(
        f"{i % 5 + 1} piece {i}a, {300 + i} x 120 x {i % 9 + 3}, oak, quarter-sawn, made # note"
        for i in range(500)
    )
    joints = "\n".join(
        f"{i % 9 + 1} No. {4 + i % 4 * 2} x {SIZES[i // 4 % 4]} csk brass, P{i + 1:02d} 1.2 into piece {i + 1}a, edge 6"
        for i in range(400)
    )
    began = time.process_time()
    with_parts = add_lines("part", parts, EMPTY)
    with_joints = add_lines("joint", joints, with_parts.build)
    took_s = time.process_time() - began
    assert (len(with_parts.added), with_parts.unread) == (500, ())
    assert (len(with_joints.added), with_joints.unread) == (400, ())
    assert with_joints.build.joints[399].stack[1].part == "P401"
    assert took_s / yardstick() < 120  # about 20 is usual
