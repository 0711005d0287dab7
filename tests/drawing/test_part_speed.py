"""The time and the work of a part drawing grow with its holes and no faster: ten times the holes, twelve times at most."""

from __future__ import annotations

from collections.abc import Callable

import pytest

from calculators.drawing.part_room import Room
from calculators.drawing.part_shape import PartShape
from calculators.drawing.part_sheet import PartDrawing, draw_part
from tests.benchmarks.yardstick import processor_seconds
from tests.drawing.part_speed import plate_of, row_of


def drawn(part: PartShape, room: Room | None = None) -> PartDrawing:
    """Drawn at 1:1, on paper that grows with the part."""
    paper = (part.solid.length * 1.4 + 120, part.solid.width + part.solid.thickness + 160)
    drawing = draw_part(part, paper=paper, room=room)
    assert drawing.scale == "1:1"
    return drawing


@pytest.mark.parametrize("made", [plate_of, row_of])
def test_ten_times_the_holes_take_at_most_twelve_times_the_time(made: Callable[[int], PartShape]) -> None:
    few, many = made(50), made(500)
    drawn(few)
    short = min(processor_seconds(lambda: drawn(few)) for _ in range(5))
    long = min(processor_seconds(lambda: drawn(many)) for _ in range(3))
    assert long <= 12 * short


@pytest.mark.parametrize("made", [plate_of, row_of])
def test_ten_times_the_holes_look_at_most_at_twelve_times_the_boxes(made: Callable[[int], PartShape]) -> None:
    few, many = Room(), Room()
    drawn(made(50), few)
    drawn(made(500), many)
    assert 0 < many.asked <= 12 * few.asked


def test_every_hole_of_five_hundred_is_drawn_and_stands_in_the_table() -> None:
    drawing = drawn(plate_of(500))
    assert len(drawing.rows) == 500
    assert drawing.svg.count('class="hole edge"') == 500
