"""Faces as DXF, read back by ezdxf, a general library: sound, in millimetres, everything where it is."""

from __future__ import annotations

import hashlib
import io
import os
import subprocess
import sys
from pathlib import Path
from typing import Any

import pytest

from calculators.drawing.dxf_layers import hole_layers, pocket_layer
from calculators.drawing.dxf_out import dxf_of
from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.geometry.outlines import Vertex, circle, rectangle
from calculators.quantities.errors import InputError
from tests.drawing.random_faces import random_face

ROOT = Path(__file__).resolve().parents[2]


def opened(data: bytes) -> Any:
    """The file as ezdxf reads it, with nothing to complain about."""
    import ezdxf

    document = ezdxf.read(io.StringIO(data.decode()))  # type: ignore[attr-defined]
    audit = document.audit()
    assert (audit.errors, audit.fixes) == ([], [])
    return document


def circles(document: Any) -> list[tuple[str, float, float, float]]:
    found = document.modelspace().query("CIRCLE")
    return sorted((one.dxf.layer, one.dxf.center.x, one.dxf.center.y, 2 * one.dxf.radius) for one in found)


def polylines(document: Any) -> list[tuple[str, list[tuple[float, float, float]]]]:
    found = document.modelspace().query("LWPOLYLINE")
    assert all(one.closed for one in found)
    return [(one.dxf.layer, [tuple(point) for point in one.get_points("xyb")]) for one in found]


def test_the_file_is_of_2010_and_in_millimetres() -> None:
    document = opened(dxf_of([random_face(1)]))
    assert document.dxfversion == "AC1024"  # R2010
    assert (document.header["$INSUNITS"], document.header["$MEASUREMENT"]) == (4, 1)


@pytest.mark.parametrize("seed", range(30))
def test_every_hole_pocket_and_corner_lies_where_it_is(seed: int) -> None:
    face = random_face(seed)
    document = opened(dxf_of([face]))
    wanted = []
    for hole in face.holes:
        (name, wide), *more = hole_layers(hole)
        wanted += [(layer, hole.u_mm, hole.v_mm, diameter) for layer, diameter in more]
        if not hole.slot_length_mm:
            wanted.append((name, hole.u_mm, hole.v_mm, wide))
    assert len(circles(document)) == len(wanted)
    for got, want in zip(circles(document), sorted(wanted), strict=True):
        assert got[0] == want[0]
        assert got[1:] == pytest.approx(want[1:], abs=1e-6)
    outlines = {"OUTLINE": [face.outline]}
    for pocket in face.pockets:
        outlines.setdefault(pocket_layer(pocket), []).append(pocket.outline)
    for hole in face.holes:
        if hole.slot_length_mm:
            outlines.setdefault(hole_layers(hole)[0][0], []).append(hole.outline)
    got_lines = polylines(document)
    assert len(got_lines) == sum(map(len, outlines.values()))
    for layer, points in got_lines:
        assert any(
            len(points) == len(outline)
            and all(
                point == pytest.approx((one.x, one.y, one.bulge), abs=1e-6)
                for point, one in zip(points, outline, strict=True)
            )
            for outline in outlines[layer]
        )


def test_numbers_centres_and_title_have_layers_of_their_own() -> None:
    hole = HoleShape(7, 20.0, 10.0, 5.0)
    face = FaceShape("P1", "Plate ^J 50%%c", "top", rectangle(0, 0, 90, 40), 6.0, (hole,), material="brass")
    space = opened(dxf_of([face])).modelspace()
    assert [one.dxf.text for one in space.query('TEXT[layer=="NUMBERS"]')] == ["7"]
    assert [one.dxf.text for one in space.query('TEXT[layer=="TITLE"]')] == [
        "P1 Plate  J 50% %c", "top face seen from outside: u to the right, v upward",
        "brass, 6 mm deep behind this face", "sizes in mm",
    ]  # fmt: skip
    (point,) = space.query("POINT")
    assert (point.dxf.layer, point.dxf.location.x, point.dxf.location.y) == ("HOLE_CENTRES", 20.0, 10.0)
    assert {one.dxf.layer for one in space.query("LINE")} == {"DATUM"}


def test_several_faces_lie_side_by_side_without_overlapping() -> None:
    top = FaceShape("P1", "Plate", "top", rectangle(0, 0, 300, 40), 6.0, (HoleShape(1, 20, 10, 5.0),))
    end = FaceShape("P1", "Plate", "left", circle(0, 0, 30), 300.0, (HoleShape(2, 0, 0, 4.0),), bore_mm=8.0)
    document = opened(dxf_of([top, end]))
    boxes = [points for layer, points in polylines(document) if layer == "OUTLINE"]
    assert max(x for x, _, _ in boxes[0]) + 20 <= min(x for x, _, _ in boxes[1]) + 1e-9
    held = {layer: (x, y, wide) for layer, x, y, wide in circles(document)}
    middle = (min(x for x, _, _ in boxes[1]) + 15.0, 15.0)  # its lower edge lies on the same line
    assert held["BORE_THROUGH"] == pytest.approx((*middle, 8.0), abs=1e-9)
    holes = [one for one in circles(document) if one[0] == "PLAIN_THROUGH"]
    assert [one[3] for one in holes] == [5.0, 4.0]
    assert holes[1][1:3] == pytest.approx(middle, abs=1e-9)


def test_one_face_of_a_round_end_has_its_axis_at_the_origin() -> None:
    end = FaceShape("P1", "Pin", "left", circle(0, 0, 30), 300.0)
    ((_, points),) = polylines(opened(dxf_of([end])))
    assert sorted(points) == [(-15.0, 0.0, 1.0), (15.0, 0.0, 1.0)]


def test_equal_faces_give_equal_bytes_in_every_process() -> None:
    code = (
        "import hashlib\nfrom calculators.drawing.dxf_out import dxf_of\n"
        "from tests.drawing.random_faces import random_face\n"
        "print(hashlib.sha256(dxf_of([random_face(3)])).hexdigest())"
    )
    said = {hashlib.sha256(dxf_of([random_face(3)])).hexdigest()}
    for seed in ("1", "8"):  # of which the library's sets come in different orders
        done = subprocess.run(
            [sys.executable, "-c", code], capture_output=True, text=True, check=True, cwd=ROOT, timeout=60,
            env={**os.environ, "PYTHONHASHSEED": seed},
        )  # fmt: skip
        said.add(done.stdout.strip())
    assert len(said) == 1


def test_no_face_is_refused_in_a_sentence() -> None:
    with pytest.raises(InputError) as caught:
        dxf_of([])
    assert str(caught.value) == "There is no face to write: give the part its sizes first."


def test_an_arc_keeps_its_bulge() -> None:
    outline = (Vertex(0, 0), Vertex(50, 0, 0.25), Vertex(50, 30), Vertex(0, 30))
    ((_, points),) = polylines(opened(dxf_of([FaceShape("P1", "Plate", "top", outline, 6.0)])))
    assert [bulge for _, _, bulge in points] == [0.0, 0.25, 0.0, 0.0]
