"""Places said from two edges, as people say them: `20 from the left, 30 from the front`."""

from __future__ import annotations

import pytest

from calculators.planning.lines import read_hole_line, read_pose_line
from calculators.quantities.errors import InputError
from tests.planning.lines.cast_of_lines import BOX


@pytest.mark.parametrize(
    ("line", "face", "place"),
    [
        ("5 dia at 20,30", "top", (20, 30)),
        ("8mm hole 20 from left 30 from front", "top", (20, 30)),
        ("M5 clearance, 20 from the left and 30 from the front edge", "top", (20, 30)),
        ("5.5 at 20 from left, 30 from back", "bottom", (20, 30)),
        ("5 dia, 40 from the right, 6 from the bottom", "back", (40, 6)),
        ("5 dia 10 from front, 6 from bottom", "right", (10, 6)),
        ("5 dia 10 from back, 6 from bottom", "left", (10, 6)),
    ],
)
def test_a_hole_is_placed_from_the_edges_of_its_face(line: str, face: str, place: tuple[int, int]) -> None:
    (hole,) = read_hole_line(line, BOX, "P07", face)
    assert (hole.face, (hole.u.mm, hole.v.mm)) == (face, place)


def test_a_part_is_laid_from_the_edges() -> None:
    mark, pose = read_pose_line("plate on top of the rail, 140 from left, 10 from front, let in 2", BOX)
    assert (mark, pose.on, pose.face, pose.u.mm, pose.v.mm) == ("P06", "P07", "top", 140, 10)


def test_edges_that_a_face_is_not_set_out_from_are_refused() -> None:
    with pytest.raises(InputError, match="The top face is set out from the left, then from the front"):
        read_hole_line("5 dia 20 from the right, 30 from the front", BOX, "P07", "top")
