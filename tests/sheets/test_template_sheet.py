"""The sheet `template`: of one part or of every part that is made, and what it says where nothing can be drawn."""

from __future__ import annotations

import io
from dataclasses import replace
from decimal import Decimal

import pdfplumber
import pytest

from buildlog.builds.lookup import demonstration_build
from buildlog.sheets.making import make_sheet, sheet_html
from buildlog.sheets.true_size import lay_out, stretch_asked
from calculators.drawing.template_paper import Stretch
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Bend, Build, Component, Hole, Size
from calculators.planning.printers import PrinterReadings, with_readings
from calculators.planning.worked import WorkedBuild
from calculators.quantities import Length
from calculators.quantities.errors import InputError


@pytest.fixture(scope="module")
def worked() -> WorkedBuild:
    return inspect_build(demonstration_build("TW-31"))


def mm(value: float) -> Length:
    return Length.of_mm(value)


def drilled(mark: str, long: float, wide: float) -> Component:
    size = Size("block", mm(long), mm(wide), mm(18))
    return Component(
        mark,
        "Board",
        stock="board",
        material="oak",
        size=size,
        holes=(Hole("h1", "top", mm(30), mm(20), diameter=mm(5)),),
    )


def test_the_sheet_of_the_whole_build_has_every_drilled_face_of_what_is_made(worked: WorkedBuild) -> None:
    laid, left_out = lay_out(worked, "", "", "a4", Stretch(), mirrored=False)
    faces = [(one.mark, one.face.shape.face) for one in laid]
    assert ("P01", "top") in faces
    assert ("P15", "side") in faces
    assert "C21" not in {mark for mark, _ in faces}, "a coupling that is bought is not marked out"
    assert left_out == []
    assert all(one.face.shape.holes for one in laid)


def test_what_is_left_out_is_said_on_the_sheet() -> None:
    parts = (
        drilled("P1", 1200, 700),
        drilled("P2", 2400, 1200),
        drilled("P3", 9000, 3000),
        drilled("P4", 100, 90),
    )
    worked = inspect_build(Build("B1", "Floor", components=parts))
    laid, left_out = lay_out(worked, "", "", "a4", Stretch(), mirrored=False)
    pages = {one.mark: len(one.tiling.tiles) for one in laid}
    assert set(pages) == {"P1", "P2", "P4"}
    assert sum(pages.values()) <= 120
    assert len(left_out) == 1
    assert left_out[0].startswith("A template of the top of P3 takes")
    three = replace(worked.build, components=(*(drilled(f"Q{i}", 1200, 1200) for i in range(6)),))
    html = sheet_html("template", inspect_build(three))
    assert "These are not among the pages:" in html
    assert "Print it by itself." in html


def test_a_part_without_holes_has_no_page_until_a_face_is_named(worked: WorkedBuild) -> None:
    bare = replace(drilled("P1", 100, 60), holes=())
    alone = inspect_build(Build("B1", "Box", components=(bare,)))
    assert "No hole has been placed in P1 yet" in sheet_html("template", alone, component="P1")
    with pdfplumber.open(
        io.BytesIO(make_sheet("template", alone, component="P1", options={"face": "front"}))
    ) as pdf:
        assert "front face" in pdf.pages[0].extract_text()


@pytest.mark.parametrize(
    ("component", "options", "says"),
    [
        ("", {"face": "top"}, "Say of which component the face is: --component MARK."),
        (
            "P01",
            {"face": "side"},
            "P01 has no face 'side'; its faces are top, bottom, front, back, left, right.",
        ),
        ("P15", {"face": "top"}, "P15 has no face 'top'; its faces are left, right, side."),
        (
            "P01",
            {"along": "soon"},
            "“soon” is no length in mm that a rule of 100 mm is drawn along the paper.",
        ),
        ("P01", {"printer": "office"}, "TW-31 keeps no readings of a printer called “office”."),
    ],
)
def test_what_is_asked_and_is_not_there(
    component: str, options: dict[str, str], says: str, worked: WorkedBuild
) -> None:
    with pytest.raises(InputError) as error:
        make_sheet("template", worked, component=component, options=options)
    assert str(error.value) == says


def test_the_build_s_last_readings_correct_unless_it_is_said_otherwise() -> None:
    read = PrinterReadings("office", Decimal("99.2"), Decimal(100))
    worked = inspect_build(with_readings(Build("B1", "Box", components=(drilled("P1", 90, 60),)), read))
    assert stretch_asked(worked, {}).along == pytest.approx(100 / 99.2, abs=1e-5)
    assert stretch_asked(worked, {"printer": "office"}) == stretch_asked(worked, {})
    assert stretch_asked(worked, {"along": "100", "across": "100"}).is_none
    assert "Corrected for office: 0.81 % longer along the paper." in sheet_html(
        "template", worked, component="P1"
    )


def test_errors_of_the_check_are_told_on_every_page(worked: WorkedBuild) -> None:
    errors = sum(one.severity == "error" for one in worked.findings)
    assert errors > 1
    html = sheet_html("template", worked, component="P01", options={"face": "top"})
    assert html.count(f"The check finds {errors} errors: mend before anything is marked out.") == 6


def test_grain_and_folds_follow_the_part() -> None:
    board = drilled("P1", 120, 90)
    sheet = replace(
        drilled("P2", 120, 90), material="brass", stock="sheet", bends=(Bend("b1", mm(30), radius=mm(2)),),
    )  # fmt: skip
    worked = inspect_build(Build("B1", "Box", components=(board, sheet)))
    assert ">grain<" in sheet_html("template", worked, component="P1")
    html = sheet_html("template", worked, component="P2")
    assert ">grain<" not in html
    assert "fold 90°, inside R2" in html


def test_signs_in_names_are_escaped_and_long_names_stay_on_the_page() -> None:
    odd = replace(drilled("P1", 90, 60), name='<b>"Ärm" & قطعة ' + "x" * 150)
    html = sheet_html("template", inspect_build(Build("B1", "Box", components=(odd,))), component="P1")
    assert "<b>&quot;" not in html
    assert "&lt;b&gt;&quot;Ärm&quot; &amp; قطعة" in html
