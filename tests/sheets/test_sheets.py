"""The sheets, read back from their PDF."""

from __future__ import annotations

import io
from dataclasses import replace
from datetime import date
from decimal import Decimal

import pdfplumber
import pytest

from buildlog.sheets.making import KINDS, make_sheet, sheet_html
from buildlog.sheets.printing import print_pdf
from calculators.planning.checks.accepting import fingerprint
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Acceptance, AssemblyStep, Build
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from tests.planning.test_resolving import batten_screws, build, pillar_screw


@pytest.fixture(scope="module")
def worked() -> WorkedBuild:
    steps = (
        AssemblyStep(1, "Pillar", fits=("P10", "F03"), caution="Hold the pillar."),
        AssemblyStep(2, "Battens", fits=("P02", "F01"), closes=("F03",)),
    )
    return inspect_build(
        replace(build(pillar_screw(), batten_screws()), steps=steps, issued=date(2025, 6, 6))
    )


def text_of(pdf: bytes) -> list[str]:
    with pdfplumber.open(io.BytesIO(pdf)) as paper:
        return [page.extract_text() for page in paper.pages]


@pytest.mark.parametrize("kind", KINDS)
def test_every_page_has_its_title_block_and_its_number(kind: str, worked: WorkedBuild) -> None:
    pages = text_of(make_sheet(kind, worked))
    for number, text in enumerate(pages, 1):
        assert f"{number} of {len(pages)}" in text
        assert "2025-06-06" in text
        assert "Stand: " in text


@pytest.mark.parametrize("kind", KINDS)
def test_equal_builds_give_equal_bytes(kind: str, worked: WorkedBuild) -> None:
    assert make_sheet(kind, worked) == make_sheet(kind, inspect_build(worked.build))


@pytest.mark.parametrize(("paper", "size"), [("a4", (595.3, 841.9)), ("letter", (612, 792))])
def test_paper_has_its_size(paper: str, size: tuple[float, float], worked: WorkedBuild) -> None:
    with pdfplumber.open(io.BytesIO(make_sheet("drilling", worked, paper=paper))) as pdf:
        assert (float(pdf.pages[0].width), float(pdf.pages[0].height)) == pytest.approx(size, abs=0.1)


def test_the_errors_of_the_check_stand_on_the_paper(worked: WorkedBuild) -> None:
    first = text_of(make_sheet("cut", worked))[0]
    assert "screw-bottoms" in first
    assert "Mend them before anything is cut" in " ".join(first.split())


def test_the_check_sheet_has_every_finding_and_what_is_let_stand(worked: WorkedBuild) -> None:
    found = next(one for one in worked.findings if one.rule == "screw-bottoms")
    standing = Acceptance(
        "x1", found.rule, fingerprint(found), "A packer goes under the head.", "Ines Hallam", date(2025, 6, 6),
        found.joint, found.part, found.place,
    )  # fmt: skip
    accepted = inspect_build(replace(worked.build, acceptances=(standing,)))
    text = " ".join("\n".join(text_of(make_sheet("check", accepted))).split())
    for one in accepted.findings:
        assert one.rule in text
    assert f"{len(accepted.findings)} findings, 1 let stand" in text
    assert text.index("Let stand") < text.index("screw-bottoms")
    for word in ("packer", "Ines", "Hallam", "2025-06-06"):
        assert word in text[text.index("Let stand") :]


def test_the_assembly_sheet_tells_how_long_glue_stays_open(worked: WorkedBuild) -> None:
    glue = AssemblyStep(
        1, "Battens", fits=("P02",), glued=("P01", "P02"), open_minutes=Decimal(12), rehearsed_minutes=Decimal(9),
        cure_hours=Decimal(24),
    )  # fmt: skip
    text = " ".join(text_of(make_sheet("assembly", inspect_build(replace(worked.build, steps=(glue,))))))
    assert "Glue: P01, P02. The glue stays open 12 min; the rehearsal took 9 min. Leave it 24 h" in text


def test_the_drilling_sheet_of_one_component_has_its_holes_alone(worked: WorkedBuild) -> None:
    text = "\n".join(text_of(make_sheet("drilling", worked, component="P02")))
    assert "P02 Batten, bottom" in text
    assert "P01" not in text.split("Caution.")[1]
    for u in ("15", "110", "205"):
        assert u in text


def test_the_drilling_plan_is_true_to_the_scale_that_it_states(worked: WorkedBuild) -> None:
    """A 220 x 45 batten at 1:2 is 110 x 22.5 mm in the PDF's own vectors."""
    assert "Plan 1:2" in "\n".join(text_of(make_sheet("drilling", worked, component="P02")))
    with pdfplumber.open(io.BytesIO(make_sheet("drilling", worked, component="P02"))) as pdf:
        shapes = [(r["width"] * 25.4 / 72, r["height"] * 25.4 / 72) for page in pdf.pages for r in page.rects]
    assert any(abs(w - 110) < 0.05 and abs(h - 22.5) < 0.05 for w, h in shapes)


def test_the_assembly_sheet_warns_of_the_last_chance_and_cautions(worked: WorkedBuild) -> None:
    text = "\n".join(text_of(make_sheet("assembly", worked)))
    assert "Hold the pillar." in text
    assert "Last chance, closed by this step: F03" in text
    assert "drive a steel screw first" in text


def test_hostile_words_stay_words() -> None:
    sly = Build("B<script>", '<img src="http://127.0.0.1:9/x"><b>Sly</b>', workshop="</title>&")
    html = sheet_html("cut", inspect_build(sly))
    assert "<img" not in html
    assert "<script" not in html
    assert print_pdf(html).startswith(b"%PDF")


def test_a_sheet_fetches_nothing_from_outside(
    caplog: pytest.LogCaptureFixture, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked: list[str] = []
    from buildlog.sheets import printing

    honest = printing.OwnFiles.fetch

    def fetch(self: object, url: str, headers: object = None) -> object:
        asked.append(url)
        return honest(self, url, headers)  # type: ignore[arg-type]

    monkeypatch.setattr(printing.OwnFiles, "fetch", fetch)
    hostile = (
        '<link rel="stylesheet" href="file:///etc/passwd"><img src="https://example.org/a.png">'
        '<link rel="stylesheet" href="../settings/base.py"><link rel="stylesheet" href="ink.css">'
    )
    assert print_pdf(hostile).startswith(b"%PDF")
    served = []
    for url in dict.fromkeys(asked):
        try:
            honest(printing.OwnFiles(), url)
        except ValueError:
            continue
        served.append(url)
    assert len(asked) >= 4
    assert all(url.startswith("file:///sheet/") for url in served)
    assert any(url.endswith("ink.css") for url in served)


@pytest.mark.parametrize(
    ("kind", "more", "says"),
    [
        (
            "drill",
            {},
            "There is no sheet “drill”; the sheets are fasteners, drilling, cut, shopping, assembly, check, part, "
            "sections, moves, template.",
        ),
        ("cut", {"paper": "a3"}, "There is no paper “a3”; the papers are a4 and letter."),
        (
            "cut",
            {"component": "P99"},
            "There is no component “P99” in B1; its components are P01, P11, P10, P02.",
        ),
    ],
)
def test_what_there_is_not_is_said(kind: str, more: dict[str, str], says: str, worked: WorkedBuild) -> None:
    with pytest.raises(InputError) as error:
        make_sheet(kind, worked, **more)
    assert str(error.value) == says
