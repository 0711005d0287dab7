"""Every joint on paper, cut through its axis: the sheet of sections, and the file of one joint."""

from __future__ import annotations

import io
import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from functools import lru_cache
from pathlib import Path

import pdfplumber
import pytest
from django.core.management import call_command
from django.core.management.base import CommandError

from buildlog.builds.lookup import find_build
from buildlog.builds.sections_drawn import section_of_joint, sections_on_paper
from buildlog.sheets.making import make_sheet, sheet_html
from calculators.planning.inspection import inspect_build
from calculators.quantities.errors import InputError

FILE = str(Path(__file__).parents[2] / "buildlog" / "builds" / "demonstration" / "TW-31.json")


@lru_cache
def worked():
    return inspect_build(find_build(FILE, ""))


def test_every_joint_is_drawn_with_its_words_and_holes_by_layer():
    html = sheet_html("sections", worked())
    drawn = list(sections_on_paper(worked()))
    assert {one.worked.joint.mark for one in drawn} == {one.mark for one in worked().build.joints}
    assert html.count('class="section"') == len(drawn)
    for one in drawn:
        balloons = one.drawing.count('class="balloon"')
        assert balloons == len(one.labels) == 1 + len(one.worked.inputs.stack)
        for hole in one.worked.result.holes:
            layers = [label for label in one.labels if label.part]
            said = " ".join(text for text, _ in layers[hole.layer].lines)
            assert f"{hole.kind}" in said.replace("\u00a0", " ")


def test_of_one_component_only_its_joints_are_drawn():
    marks = [one.worked.joint.mark for one in sections_on_paper(worked(), "P10")]
    through = [
        one.joint.mark
        for one in worked().joints
        if any(item.layer and item.layer.part.split(".")[0] == "P10" for item in one.inputs.stack)
    ]
    assert marks == through
    assert 0 < len(marks) < len(worked().joints)


@pytest.mark.parametrize("paper", ["a4", "letter"])
def test_four_stand_on_a_page_and_nothing_runs_over_its_edge(paper):
    some = replace(worked(), joints=worked().joints[2:10], findings=())
    with pdfplumber.open(io.BytesIO(make_sheet("sections", some, paper=paper))) as pdf:
        assert len(pdf.pages) <= 3
        words = [word for page in pdf.pages for word in page.extract_words()]
        assert all(0 <= word["x0"] < word["x1"] <= float(pdf.pages[0].width) for word in words)
        text = "\n".join(page.extract_text() for page in pdf.pages)
    for one in some.joints:
        assert one.joint.mark in text


def test_a_section_on_paper_is_true_to_the_scale_that_it_states():
    """F03's washer is 1 1/4 in over and the drawing 1:2: 15.875 mm, 45 pt, wide on the paper."""
    pillar = replace(worked(), joints=tuple(one for one in worked().joints if one.joint.mark == "F03"))
    with pdfplumber.open(io.BytesIO(make_sheet("sections", pillar))) as pdf:
        page = pdf.pages[0]
        assert "Scale1:2" in "".join(char["text"].strip() for char in page.chars)
        widths = [each["x1"] - each["x0"] for each in [*page.rects, *page.curves]]
    assert any(abs(width - 31.75 / 2 / 25.4 * 72) < 0.2 for width in widths)


def test_a_joint_is_written_as_a_file(tmp_path, capsys):
    target = tmp_path / "f03.svg"
    call_command("drawing", FILE, joint="F03", output=str(target))
    root = ElementTree.parse(target).getroot()
    assert root[0].text.startswith("F03: section through the axis of ")
    assert capsys.readouterr().out == f"{target}: {target.stat().st_size:,} bytes\n"
    assert target.read_text(encoding="utf-8") == section_of_joint(worked(), "F03")


@pytest.mark.parametrize(
    ("more", "says"),
    [
        (
            {"joint": "F99"},
            "There is no joint 'F99' in TW-31. Joints of it are F01, F02, F03, F05, F06, F07.",
        ),
        ({"joint": "F03", "output": "x.dxf"}, "name a file that ends in .svg."),
        ({"joint": "F03", "face": "top"}, "--face goes with --component, not with --joint."),
        ({"joint": "F03", "projection": "first"}, "--projection goes with --component, not with --joint."),
    ],
)
def test_what_cannot_be_drawn_is_said(more, says, tmp_path):
    output = str(tmp_path / more.pop("output", "x.svg"))
    with pytest.raises(CommandError, match=says.replace(".", r"\.")):
        call_command("drawing", FILE, output=output, **more)
    assert list(tmp_path.iterdir()) == []


def test_a_joint_that_cannot_be_worked_out_is_said():
    build = worked().build
    joints = tuple(replace(one, fastener="nonsense") if one.mark == "F03" else one for one in build.joints)
    odd = inspect_build(replace(build, joints=joints))
    with pytest.raises(InputError, match="F03 cannot be drawn before it can be worked out"):
        section_of_joint(odd, "F03")
    assert "<b>Not drawn</b>, because they could not be worked out: F03." in sheet_html("sections", odd)
