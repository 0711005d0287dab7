"""Rules for one part that is sawn to an outline: each just inside and just outside what the outline leaves.

The plate is 80 x 40 x 20 with a round right end of radius 20 about (60, 20). Distances by hand: from a point
(x, y) right of the middle, 20 less its distance from (60, 20).
"""

from __future__ import annotations

import json

import pytest

from calculators.joints.model import Finding
from calculators.planning.files import read_build
from calculators.planning.inspection import inspect_build
from calculators.planning.lines import add_lines
from calculators.planning.model import Build
from calculators.quantities.errors import InputError

PLATE = "plate 80 x 40 x 20 oak, outline 0,0 to 60,0 arc 20 left to 60,40 to 0,40"


def plate(*holes: str, kind: str = "hole", line: str = PLATE) -> Build:
    build = add_lines("part", line, Build("B1", "Bench")).build
    read = add_lines(kind, "\n".join(holes), build, part="P01")
    assert not read.unread
    return read.build


def found(build: Build, *rules: str) -> list[Finding]:
    return [one for one in inspect_build(build).findings if one.rule in rules]


@pytest.mark.parametrize(
    ("hole", "severity", "says"),
    [
        # hypot(9, 12) = 15: 5 to the arc, less a radius of 2 is just what wood is to keep; 2.1 is not enough.
        ("top: 4 at 69,8", None, ""),
        ("top: 4.2 at 69,8", "warning", "Hole h1 leaves only 2.9 mm of P01 to its outline: leave 3 mm."),
        (
            "top: 11 at 69,8",
            "error",
            "Hole h1 breaks out of the outline of P01 by 0.5 mm: move it in, or make it smaller.",
        ),
        # The same place from below, where v is counted from the back.
        ("bottom: 4.2 at 69,32", "warning", "Hole h1 leaves only 2.9 mm of P01 to its outline: leave 3 mm."),
        # From the front at x = 75 the axis comes in by the arc at y = 20 - sqrt(400 - 225) = 6.8.
        ("front: 4 at 75,10", None, ""),
        # From the left along y = 5, 5 over the front edge: 3 less than its middle is.
        ("left: 6 at 35,10 x 30 deep", "warning", "Hole h1 leaves only 2.0 mm of P01 to its outline: leave 3 mm."),
    ],
)  # fmt: skip
def test_a_hole_keeps_a_wall_to_the_outline(hole: str, severity: str | None, says: str) -> None:
    told = found(plate(hole), "hole-breaks-out")
    assert [(one.severity, one.says) for one in told] == ([(severity, says)] if severity else [])


@pytest.mark.parametrize(("hole", "off"), [("top: 4 at 75,35", 1.2), ("bottom: 4 at 75,5", 1.2)])
def test_a_hole_off_the_outline_is_off_the_part(hole: str, off: float) -> None:
    """hypot(15, 15) = 21.2, and the block's own corner would be 5 and 5 beyond it."""
    (told,) = found(plate(hole), "feature-off-part")
    assert (told.severity, told.value) == ("error", pytest.approx(off, abs=0.02))
    assert told.says.startswith("Hole h1 lies 1.2 mm off the")


def test_a_countersink_over_the_arc_is_told() -> None:
    build = plate("top: 4 at 69,8, countersunk 12")
    told = found(build, "countersink-overlaps")
    assert [one.says for one in told] == [
        "The countersink of hole h1 overlaps the outline of P01 by 1.0 mm: move it in, or make it smaller."
    ]


@pytest.mark.parametrize(
    ("pocket", "rule", "says"),
    [
        (
            "recess 8 x 4 x 5 deep at 76,34",
            "feature-off-part",
            "Pocket k1 lies 1.3 mm off the top of P01: nothing is cut.",  # hypot(16, 14) = 21.26
        ),
        ("recess 20 x 20 x 5 deep at 66,20", "feature-off-part", ""),  # it overlaps the outline: a rebate
        (
            "recess 20 x 20 x 18.5 deep at 40,10",
            "pockets-meet",
            "Pocket k1 in the top of P01 leaves a floor of 1.5 mm, 18.5 mm deep in 20 mm, and 2 mm is the "
            "least: leave 5 mm.",
        ),
        ("recess 20 x 20 x 18.5 deep at 66,20", "pockets-meet", ""),  # open at the outline, as a rebate is
    ],
)
def test_pockets_are_held_against_the_outline(pocket: str, rule: str, says: str) -> None:
    assert [one.says for one in found(plate(pocket, kind="pocket"), rule)] == ([says] if says else [])


def file_with(*corners: tuple[float, ...]) -> bytes:
    size = {name: {"mm": str(mm)} for name, mm in (("length", 80), ("width", 40), ("thickness", 6))}
    outline = [{"x": {"mm": str(x)}, "y": {"mm": str(y)}} for x, y in corners]
    part = {"mark": "P01", "name": "Plate", "size": {"shape": "block", **size}, "outline": outline}
    return json.dumps({"schema_version": 1, "number": "B1", "title": "B", "components": [part]}).encode()


@pytest.mark.parametrize(
    ("corners", "says"),
    [
        (
            ((0, 0), (0, 40), (80, 40), (80, 0)),
            "The outline goes round clockwise; it goes anticlockwise as seen from the top.",
        ),
        (((0, 0), (80, 40), (80, 0), (0, 40)), "The outline crosses or touches itself at 40,20 (in mm)."),
        (
            ((0, 0), (81, 0), (81, 40), (0, 40)),
            "The outline reaches 81 mm along X, beyond the length of 80 mm.",
        ),
    ],
)
def test_a_file_whose_outline_cannot_be_is_refused(corners, says: str) -> None:
    with pytest.raises(InputError) as caught:
        read_build(file_with(*corners))
    assert [fault.says for fault in caught.value.faults] == [says]
    assert caught.value.faults[0].field.startswith("components[0] (P01).outline")


def test_an_outline_a_hair_off_its_block_is_taken() -> None:
    assert read_build(file_with((0, 0), (80.009, 0), (80, 40), (0, 40))).components[0].outline
