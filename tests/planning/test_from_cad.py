"""A drawing taken into a part: what becomes of each shape, what is left and why, and parts there and back."""

from __future__ import annotations

import io
import math
import random
from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from calculators.drawing.dxf_in import read_dxf
from calculators.drawing.dxf_out import dxf_of
from calculators.drawing.face_shape import FaceShape
from calculators.drawing.flat_drawing import FlatCircle, FlatDrawing, FlatPath, FlatPoint
from calculators.geometry.outlines import Outline, Vertex, bounds, circle, rectangle
from calculators.planning.drawn.face_shapes import face_shapes
from calculators.planning.edits import put
from calculators.planning.from_cad.choosing import Choices, LayerChoice, layer_rows
from calculators.planning.from_cad.taking import Taken, take_drawing
from calculators.planning.model import Build, Component, Hole, Pocket, Size
from calculators.planning.outlining import outline_of
from calculators.planning.resolving import resolve_build
from calculators.quantities import Length
from calculators.quantities.errors import InputError
from tests.drawing.random_faces import random_face


def mm(value: float) -> Length:
    return Length.of_mm(value)


PLATE = Component("P1", "Plate", material="brass", size=Size("block", mm(100), mm(50), mm(6)))
BARE = Component("P1", "Plate", size=Size("block", thickness=mm(6)))
EDGE = FlatPath("Edge", rectangle(10, 20, 100, 50), closed=True)


def taken(
    drawing: FlatDrawing, part: Component = BARE, present: FaceShape | None = None, **choices: Any
) -> Taken:
    """What a drawing makes with every layer taken, unless another choice is made."""
    layers = tuple(LayerChoice(row.name) for row in layer_rows(drawing))
    return take_drawing(
        part, drawing, replace(Choices(drawing.unit or "mm", layers=layers), **choices), present
    )


def outline(made: Taken) -> Outline:
    return outline_of(made.part.outline)


def refusal(drawing: FlatDrawing, part: Component = BARE, **choices: Any) -> tuple[str, str]:
    with pytest.raises(InputError) as caught:
        taken(drawing, part, **choices)
    return caught.value.faults[0].field, str(caught.value)


# There and back


def as_chosen(drawing: FlatDrawing, face: str, **more: Any) -> Choices:
    """The choices as they are proposed."""
    layers = tuple(
        LayerChoice(row.name, row.take, None if row.depth_mm is None else mm(row.depth_mm))
        for row in layer_rows(drawing)
    )
    return Choices(drawing.unit, face, layers=layers, **more)  # type: ignore[arg-type]


def facts(face: FaceShape) -> list[tuple[Any, ...]]:
    """All that a machinist needs of the holes and pockets, to a tick of 1e-7 mm."""
    holes = [
        (
            h.kind, h.depth_mm, h.thread, h.thread_depth_mm, h.slot_along,
            *(round(v, 6) for v in (h.u_mm, h.v_mm, h.diameter_mm, h.countersink_diameter_mm, h.countersink_angle_deg if h.countersink_diameter_mm else 0, h.counterbore_diameter_mm, h.counterbore_depth_mm, h.slot_length_mm)),
        )
        for h in face.holes
    ]  # fmt: skip
    cut = [("pocket", p.depth_mm, "", *(round(v, 6) for v in (p.u_mm, p.v_mm, p.length_mm, p.width_mm, p.corner_mm))) for p in face.pockets]  # fmt: skip
    return sorted(holes, key=str) + sorted(cut, key=str)


@pytest.mark.parametrize("seed", range(100))
def test_a_random_part_goes_to_cad_and_comes_back_the_same(seed: int) -> None:
    face = random_face(seed)
    read = read_dxf(io.BytesIO(dxf_of([face])))
    name = "bottom" if seed % 4 == 0 else "top"
    made = take_drawing(BARE, read, as_chosen(read, name))
    assert [one for one in made.left if one.what != "TEXT"] == []
    build = put(Build("B", "B", components=(BARE,)), "component", made.part, key="P1")
    (back,) = face_shapes(resolve_build(build), "P1")
    assert back.face == name
    assert facts(back) == facts(replace(face, face=name))
    left, bottom, right, top = bounds(face.outline)
    assert (left, bottom) == pytest.approx((0, 0), abs=1e-6)
    assert made.part.size.length is not None
    assert made.part.size.length.mm == pytest.approx(right, abs=1e-6)
    assert made.part.size.width is not None
    assert made.part.size.width.mm == pytest.approx(top, abs=1e-6)
    assert len(back.outline) == len(face.outline)
    for one in face.outline:
        assert min(math.dist((one.x, one.y), (each.x, each.y)) for each in back.outline) < 1e-6
    # A radius is kept to 1e-7 mm, which moves the top of an arc of nearly half a circle by a micrometre.
    assert bounds(back.outline) == pytest.approx(bounds(face.outline), abs=2e-3)


def test_a_part_read_again_over_itself_is_not_made_twice() -> None:
    part = replace(PLATE, holes=(Hole("h1", "top", mm(20), mm(10), diameter=mm(5)),),
                   pockets=(Pocket("k1", "top", mm(50), mm(10), mm(20), mm(10), mm(2)),))  # fmt: skip
    (face,) = face_shapes(resolve_build(Build("B", "B", components=(part,))), "P1")
    read = read_dxf(io.BytesIO(dxf_of([face])))
    again = take_drawing(part, read, as_chosen(read, "top"), face)
    assert again.part == part
    assert again.said == (
        "One hole is in the part already, at the same place and as wide, and not made again.",
        "One pocket is in the part already, at the same place and as large, and not made again.",
    )
    anew = take_drawing(part, read, as_chosen(read, "top", replace=True), face)
    assert [one.id for one in anew.part.holes] == ["h1"]
    assert anew.made[:2] == (
        "A rectangle, 100 long and 50 mm wide",
        "2 holes and pockets placed by hand on this face taken out",
    )


def test_what_only_some_copies_have_is_proposed_to_be_left() -> None:
    names = (
        "PLAIN_THROUGH",
        "PLAIN_THROUGH_OTHER_HAND",
        "PLAIN_THROUGH_ONLY_IN_P1.2",
        "DATUM",
        "BORE_THROUGH",
        "Edge",
    )
    rows = layer_rows(FlatDrawing("mm", tuple(FlatCircle(name, 1, 1, 1) for name in names), hidden=("Edge",)))
    assert {row.name: row.take for row in rows} == dict.fromkeys(names, False) | {"PLAIN_THROUGH": True}


# The outline


def test_the_outermost_outline_becomes_the_part_s_and_its_corner_the_datum() -> None:
    made = taken(FlatDrawing("mm", (FlatCircle("Holes", 30, 45, 2.5),), (EDGE,)))
    assert (made.part.size.length, made.part.size.width, made.part.outline) == (mm(100), mm(50), ())
    (hole,) = made.part.holes
    assert (hole.u, hole.v, hole.diameter, hole.depth, hole.kind) == (mm(20), mm(25), mm(5), None, "plain")
    assert made.made == ("A rectangle, 100 long and 50 mm wide", "1 plain Ø5 hole, through")
    assert (made.left, made.said) == ((), ())


def test_inches_are_exact() -> None:
    drawing = FlatDrawing(
        "in", (FlatCircle("0", 0.5, 0.3125, 0.0625),), (FlatPath("0", rectangle(0, 0, 4, 1.5), closed=True),)
    )
    made = taken(drawing)
    assert made.part.size.length is not None
    assert made.part.size.length.inches == 4
    (hole,) = made.part.holes
    assert hole.v is not None
    assert (hole.u.exact_mm, hole.v.exact_mm) == (Decimal("12.7"), Decimal("7.9375"))
    assert hole.diameter is not None
    assert hole.diameter.exact_mm == Decimal("3.175")


def test_a_drawing_without_a_unit_asks_for_it() -> None:
    drawing = FlatDrawing("", (FlatCircle("0", 1, 1, 0.25),))
    assert refusal(drawing, unit="") == (
        "unit", "The drawing does not say its unit; choose one: mm, cm, m, in, ft.",
    )  # fmt: skip
    (hole,) = taken(drawing, unit="in").part.holes
    assert hole.diameter == mm(12.7)


def test_seen_from_the_bottom_the_outline_is_turned_over() -> None:
    shape = (Vertex(0, 0), Vertex(100, 0), Vertex(100, 20), Vertex(60, 50, -0.3), Vertex(0, 50))
    made = taken(
        FlatDrawing("mm", (FlatCircle("0", 20, 10, 2),), (FlatPath("0", shape, closed=True),)), face="bottom"
    )
    corners = {(one.x.mm, one.y.mm) for one in made.part.outline}
    assert corners >= {(0.0, 50.0), (100.0, 50.0), (100.0, 30.0), (60.0, 0.0)}
    build = put(Build("B", "B", components=(BARE,)), "component", made.part, key="P1")
    (back,) = face_shapes(resolve_build(build), "P1")
    assert {(round(one.x, 6), round(one.y, 6)) for one in back.outline} == {(one.x, one.y) for one in shape}


def test_from_the_drawing_s_origin_the_outline_must_begin_there() -> None:
    drawing = FlatDrawing("mm", (FlatCircle("0", 30, 45, 2.5),), (EDGE,))
    assert refusal(drawing, datum="origin") == (
        "datum",
        "The outline begins at 10, 20 from the drawing's origin, but the datum of a part is the corner of its block: "
        "count from the outline, or let the outline only say the datum.",
    )  # fmt: skip
    made = taken(drawing, PLATE, datum="origin", outline="datum")
    assert [(one.u, one.v) for one in made.part.holes] == [(mm(30), mm(45))]
    assert made.part.size == PLATE.size
    assert made.said == ("The outline only says where the datum is; the part keeps its sizes.",)


def test_only_top_and_bottom_take_an_outline() -> None:
    made = taken(FlatDrawing("mm", (), (EDGE,)), PLATE, face="front")
    assert made.part == PLATE
    assert made.said == (
        "Only the top and the bottom of a block take an outline: here it says where the datum is, and the part keeps "
        "its sizes.",
        "Nothing is made of what was chosen.",
    )


def test_one_of_several_outermost_outlines_is_the_part_and_the_rest_is_told() -> None:
    small = FlatPath("Edge", rectangle(200, 0, 30, 30), closed=True)
    drawing = FlatDrawing("mm", (FlatCircle("0", 215, 15, 3), FlatCircle("0", 50, 40, 3)), (EDGE, small))
    made = taken(drawing, which=1)
    assert made.outer == ("100 x 50 mm, from 10, 20, on layer Edge", "30 x 30 mm, from 200, 0, on layer Edge")
    assert made.part.size.length == mm(30)
    assert [(one.u, one.v) for one in made.part.holes] == [(mm(15), mm(15))]
    assert sorted((one.what, one.why) for one in made.left) == [
        ("CIRCLE", "lies outside the outline of the part"),
        ("outline", "is an outline beside the one that is the part"),
    ]
    assert refusal(drawing, which=2) == ("which", "There are 2 outermost outlines; choose one of them.")


def test_a_disc_is_an_outline_too_and_of_a_round_part_its_middle_is_the_datum() -> None:
    drawing = FlatDrawing("mm", (FlatCircle("0", 50, 50, 40), FlatCircle("0", 70, 50, 3)))
    disc = taken(drawing)
    assert disc.part.size.length == mm(80)
    assert bounds(outline(disc)) == pytest.approx((0, 0, 80, 80))
    bar = Component("P1", "Bar", size=Size("round", length=mm(60), diameter=mm(80)))
    made = taken(drawing, bar, face="left", outline="datum")
    assert [(one.u, one.v, one.diameter) for one in made.part.holes] == [(mm(20), mm(0), mm(6))]
    assert made.part.size == bar.size


def test_without_an_outline_holes_are_counted_from_the_drawing_s_origin() -> None:
    made = taken(FlatDrawing("mm", (FlatCircle("0", 5, 5, 1), FlatCircle("0", 20, 5, 1))), PLATE)
    assert [one.u for one in made.part.holes] == [mm(5), mm(20)]
    assert made.said == (
        "There is no closed outline on the layers chosen: the part keeps its own, and u and v are counted from the "
        "drawing's origin.",
    )


# Circles, slots, pockets, points


def test_the_larger_of_two_circles_is_what_was_chosen() -> None:
    drawing = FlatDrawing(
        "mm",
        (FlatCircle("0", 30, 40, 2.25), FlatCircle("0", 30, 40, 4.2), FlatCircle("0", 30, 40, 6)),
        (EDGE,),
    )
    plain = taken(drawing)
    assert [one.what for one in plain.left] == ["CIRCLE of 8.4 mm", "CIRCLE of 12 mm"]
    (sunk,) = taken(drawing, pairs="countersink", countersink_angle_deg=82.0).part.holes
    assert (sunk.diameter, sunk.countersink_diameter, sunk.countersink_angle_deg) == (
        mm(4.5),
        mm(8.4),
        Decimal(82),
    )
    (bored,) = taken(drawing, pairs="counterbore", counterbore_depth=mm(3)).part.holes
    assert (bored.counterbore_diameter, bored.counterbore_depth) == (mm(8.4), mm(3))
    assert refusal(drawing, pairs="counterbore") == (
        "counterbore_depth", "Give the depth of the counterbores, or let the larger circles be something else.",
    )  # fmt: skip


def test_circles_drawn_twice_are_one_hole() -> None:
    made = taken(FlatDrawing("mm", (FlatCircle("0", 30, 40, 2), FlatCircle("1", 30.004, 40, 2.001)), (EDGE,)))
    assert len(made.part.holes) == 1
    assert made.said == ("One circle is drawn twice, and taken once.",)


def test_closed_shapes_become_slots_and_pockets_as_chosen() -> None:
    slot = FlatPath(
        "In", (Vertex(40, 30), Vertex(60, 30, 1.0), Vertex(60, 36), Vertex(40, 36, 1.0)), closed=True
    )
    recess = FlatPath("In", rectangle(70, 30, 20, 10, 2), closed=True)
    drawing = FlatDrawing("mm", (), (EDGE, slot, recess))
    made = taken(drawing)
    (hole,), (pocket,) = made.part.holes, made.part.pockets
    assert (hole.kind, hole.u, hole.v, hole.diameter, hole.slot_length, hole.slot_along) == (
        "slot", mm(40), mm(13), mm(6), mm(26), "u",
    )  # fmt: skip
    assert (pocket.u, pocket.v, pocket.length, pocket.width, pocket.corner_radius, pocket.depth) == (
        mm(60), mm(10), mm(20), mm(10), mm(2), None,
    )  # fmt: skip
    both = taken(drawing, layers=(LayerChoice("Edge"), LayerChoice("In", depth=mm(4), closed="pockets")))
    assert [(one.length, one.corner_radius, one.depth) for one in both.part.pockets] == [
        (mm(26), mm(3), mm(4)), (mm(20), mm(2), mm(4)),
    ]  # fmt: skip
    none = taken(drawing, layers=(LayerChoice("Edge"), LayerChoice("In", closed="nothing")))
    assert [one.why for one in none.left] == ["is left out, as chosen for its layer"] * 2


def test_shapes_that_no_pocket_can_be_are_told() -> None:
    three = FlatPath("In", (Vertex(40, 30), Vertex(60, 30), Vertex(50, 45)), closed=True)
    aslant = FlatPath(
        "In", (Vertex(70, 30), Vertex(80, 40, 1.0), Vertex(77, 43), Vertex(67, 33, 1.0)), closed=True
    )
    loose = FlatPath("In", (Vertex(20, 30), Vertex(25, 30)))
    made = taken(FlatDrawing("mm", (), (EDGE, three, aslant, loose)))
    assert sorted(one.why for one in made.left) == [
        "does not close: 5 mm are missing to the nearest end; draw it closed"
        if any("missing" in one.why for one in made.left)
        else "does not close; draw it closed",
        "is a slot that lies aslant; slots and pockets run along u or v",
        "is neither a circle, a slot nor a rectangle square to the face, which a pocket must be",
    ]


def test_points_become_holes_where_a_diameter_is_given() -> None:
    drawing = FlatDrawing("mm", (), (EDGE,), (FlatPoint("P", 30, 40), FlatPoint("HOLE_CENTRES", 31, 40)))
    assert [one.why for one in taken(drawing).left] == [
        "is a point; give the diameter of points to make holes of them"
    ]
    (hole,) = taken(drawing, points_diameter=mm(3)).part.holes
    assert (hole.u, hole.v, hole.diameter) == (mm(20), mm(20), mm(3))


def test_curves_in_short_lines_are_said() -> None:
    curve = FlatPath(
        "Edge",
        tuple(Vertex(one.x, one.y) for one in rectangle(0, 0, 90, 40, 9)),
        closed=True,
        curve="ellipse",
    )
    made = taken(FlatDrawing("mm", (), (curve,)))
    assert made.said == ("One ellipse was laid out in 8 short lines, within 0.01 mm (layer Edge).",)


def test_what_is_more_than_one_part_takes_is_refused() -> None:
    drawing = FlatDrawing("mm", tuple(FlatCircle("0", at, 0, 0.2) for at in range(5_001)))
    assert refusal(drawing) == (
        "layers", "The layers chosen have 5,001 circles; one part takes at most 5,000. Choose fewer layers.",
    )  # fmt: skip
    ring = tuple(
        Vertex(100 + 90 * (1 + 0.1 * (at % 2)) * x, 100 + 90 * (1 + 0.1 * (at % 2)) * y)
        for at, (x, y) in enumerate(_round(2_100))
    )
    assert refusal(FlatDrawing("mm", (), (FlatPath("0", ring, closed=True),))) == (
        "which", "The outline has 2,100 corners; a part has at most 2,000. Draw its curves as arcs.",
    )  # fmt: skip


def _round(count: int) -> list[tuple[float, float]]:
    return [(math.cos(2 * math.pi * at / count), math.sin(2 * math.pi * at / count)) for at in range(count)]


def test_layers_that_are_not_taken_make_nothing() -> None:
    drawing = FlatDrawing("mm", (FlatCircle("Holes", 30, 45, 2.5),), (EDGE,))
    made = taken(drawing, layers=(LayerChoice("Edge"), LayerChoice("Holes", take=False)))
    assert made.part.holes == ()


def test_ids_go_on_from_those_of_the_part() -> None:
    part = replace(
        PLATE,
        holes=(
            Hole("h1", "top", mm(1), mm(1), diameter=mm(1)),
            Hole("h3", "left", mm(1), mm(1), diameter=mm(1)),
        ),
    )
    chance = random.Random(2)
    circles = tuple(FlatCircle("0", 10 + 5 * at, chance.uniform(25, 60), 1) for at in range(1, 4))
    made = taken(FlatDrawing("mm", circles, (EDGE,)), part)
    assert [one.id for one in made.part.holes] == ["h1", "h3", "h2", "h4", "h5"]
    assert circle(0, 0, 1)


def test_many_alike_are_counted_in_words() -> None:
    circles = tuple(FlatCircle("0", 20 + 10 * at, 30, 2) for at in range(3))
    recesses = tuple(FlatPath("0", rectangle(20 + 20 * at, 50, 10, 5), closed=True) for at in range(2))
    made = taken(FlatDrawing("mm", circles, (EDGE, *recesses)), kind="clearance")
    assert made.made[1:] == ("3 clearance Ø4 holes, through", "2 pockets 10 x 5, through")
