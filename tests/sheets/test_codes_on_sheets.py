"""The code and the square code on every page of every sheet, read back from the PDF's own vectors."""

from __future__ import annotations

import io
import re
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from functools import cache

import pdfplumber
import pytest
from django.conf import LazySettings
from django.core.exceptions import DisallowedHost, ImproperlyConfigured
from django.test import RequestFactory

from buildlog.settings.environment import public_address
from buildlog.sheets.making import KINDS, make_sheet
from buildlog.sheets.stamping import address_of_paper, stamp_of
from calculators.drawing.square_code import LONGEST, square_code
from calculators.planning.facts import code_shown, paper_code
from calculators.planning.inspection import inspect_build
from calculators.planning.model import AssemblyStep
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from tests.planning.test_resolving import batten_screws, build, pillar_screw
from tests.sheets.square_codes import dark_rectangles, decode, modules

MM = 72 / 25.4
HOME = "https://oddleg.example"


@pytest.fixture(scope="module")
def worked() -> WorkedBuild:
    steps = (AssemblyStep(1, "Pillar", fits=("P10", "F03")), AssemblyStep(2, "Battens", fits=("P02", "F01")))
    joints = (pillar_screw(), batten_screws())
    return inspect_build(replace(build(*joints), steps=steps, issued=date(2025, 6, 6), revision="B"))


@pytest.fixture(scope="module")
def printed(worked: WorkedBuild) -> Callable[[str, str, str], pdfplumber.PDF]:
    """Sheets of P02 by kind, paper and address, each printed and read once."""

    @cache
    def make(kind: str, paper: str, address: str) -> pdfplumber.PDF:
        pdf = make_sheet(kind, worked, paper=paper, component="P02", address=address)
        return pdfplumber.open(io.BytesIO(pdf))

    return make


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("kind", KINDS)
def test_every_page_has_its_code_in_words_and_as_a_square_that_leads_to_its_page(
    kind: str, paper: str, worked: WorkedBuild, printed: Callable[..., pdfplumber.PDF]
) -> None:
    code = stamp_of(worked, kind, "P02").code
    pdf = printed(kind, paper, HOME)
    assert pdf.pages
    for page in pdf.pages:
        assert code_shown(code) in page.extract_text()
        matrix, size = modules(dark_rectangles(page))
        assert decode(matrix) == f"{HOME}/paper/{code}/"
        assert len(matrix) * size >= 15 * MM


@pytest.mark.parametrize("paper", ["a4", "letter"])
@pytest.mark.parametrize("kind", KINDS)
def test_the_square_has_its_quiet_zone_and_lies_where_printers_print(
    kind: str, paper: str, printed: Callable[..., pdfplumber.PDF]
) -> None:
    """Four modules around it are white, and it is 5 mm or more from the paper's edges."""
    page = printed(kind, paper, HOME).pages[0]
    dark = dark_rectangles(page)
    matrix, size = modules(dark)
    left, top = min(one["x0"] for one in dark), min(one["top"] for one in dark)
    right, bottom = left + len(matrix) * size, top + len(matrix) * size
    quiet = 4 * size - 0.3 * MM  # the inner half of the line around it is allowed
    for one in (*page.chars, *page.lines, *page.rects, *page.curves):
        if one in dark or (one.get("fill") and one["non_stroking_color"] in ((1,), (1, 1, 1))):
            continue
        apart = (
            one["x1"] < left - quiet
            or one["x0"] > right + quiet
            or one["bottom"] < top - quiet
            or one["top"] > bottom + quiet
        )
        around = one["x0"] <= left - quiet and one["x1"] >= right + quiet
        assert apart or (around and one["top"] <= top - quiet and one["bottom"] >= bottom + quiet), one
    assert bottom + 4 * size <= float(page.height) - 5 * MM
    assert right + 4 * size <= float(page.width) - 5 * MM


@pytest.mark.parametrize("kind", [kind for kind in ("cut", "template", "part") if kind in KINDS])
def test_without_an_address_the_code_stands_alone(
    kind: str, worked: WorkedBuild, printed: Callable[..., pdfplumber.PDF]
) -> None:
    for page in printed(kind, "a4", "").pages:
        assert dark_rectangles(page) == []
        assert code_shown(stamp_of(worked, kind, "P02").code) in page.extract_text()


def test_the_code_of_another_component_is_another(worked: WorkedBuild) -> None:
    """Those of one component are the same on both papers, as the tests above find."""
    codes = {stamp_of(worked, kind, component).code for kind in KINDS for component in ("", "P01", "P02")}
    assert len(codes) == 3 * len(KINDS)


@pytest.mark.parametrize("length", [20, 40, 60, 80, 100])
def test_addresses_of_all_lengths_are_read_back(length: int) -> None:
    """From the vectors of the SVG alone: sizes 2 to 6 of the standard."""
    text = "https://" + "a" * (length - 8)
    drawn = square_code(text)
    runs = [
        {"x0": float(x), "x1": float(x) + float(w), "top": float(y), "bottom": float(y) + 1}
        for x, y, w in re.findall(r"M(\d+) (\d+)h(\d+)v1", drawn)
    ]
    matrix, size = modules(runs)
    assert size == 1
    assert decode(matrix) == text
    width = float(re.search(r'width="([\d.]+)mm"', drawn)[1])  # type: ignore[index]
    assert width * len(matrix) / (len(matrix) + 8) >= 15


def test_a_square_code_says_what_it_holds_and_takes_no_book() -> None:
    assert "<title>a &lt;b&gt;</title>" in square_code("x", "a <b>")
    for text in ("", "x" * (LONGEST + 1)):
        with pytest.raises(InputError, match=r"^A square code holds 1 to 300 characters, not \d+\.$"):
            square_code(text)


def test_other_content_has_another_code_and_the_same_has_the_same(worked: WorkedBuild) -> None:
    again = inspect_build(worked.build)
    other = inspect_build(replace(worked.build, components=worked.build.components[:-1]))
    for kind in KINDS:
        assert stamp_of(worked, kind).code == stamp_of(again, kind).code
        assert stamp_of(worked, kind).code == paper_code("B1", kind, stamp_of(worked, kind).digest)
    assert stamp_of(worked, "cut").code != stamp_of(other, "cut").code


# Where the square codes lead.


def test_a_configured_address_goes_before_what_was_asked_for(settings: LazySettings) -> None:
    asked = RequestFactory().get("/", headers={"host": "localhost:8123"})
    settings.PUBLIC_ADDRESS, settings.DEMO = HOME, True
    assert address_of_paper(asked) == HOME == address_of_paper()


def test_the_demonstration_prints_the_address_that_it_was_asked_by_and_a_server_does_not(
    settings: LazySettings,
) -> None:
    asked = RequestFactory().get("/", headers={"host": "localhost:8123"})
    settings.PUBLIC_ADDRESS, settings.DEMO = "", True
    assert address_of_paper(asked) == "http://localhost:8123"
    assert address_of_paper() == ""
    settings.DEMO = False
    assert address_of_paper(asked) == ""


def test_a_host_that_is_not_ours_is_refused(settings: LazySettings) -> None:
    settings.PUBLIC_ADDRESS, settings.DEMO = "", True
    with pytest.raises(DisallowedHost):
        address_of_paper(RequestFactory().get("/", headers={"host": "evil.example"}))


@pytest.mark.parametrize(
    ("url", "hosts", "address"),
    [
        ("https://oddleg.example/", (), "https://oddleg.example"),
        (" http://10.0.0.7:8000 ", ("x",), "http://10.0.0.7:8000"),
        ("", ("oddleg.example",), "https://oddleg.example"),
        ("", ("oddleg.example", "www.oddleg.example"), ""),
        ("", (".oddleg.example",), ""),
        ("", ("*",), ""),
        ("", (), ""),
    ],
)
def test_the_public_address_is_read_or_is_the_only_name_of_the_server(
    url: str, hosts: tuple[str, ...], address: str
) -> None:
    assert public_address(url, hosts) == address


@pytest.mark.parametrize(
    "url",
    [
        "oddleg.example",
        "ftp://x",
        "https://",
        "https://x/y",
        "https://x?y",
        "https://u:p@x",
        "https://x:port",
        "https://[x",
    ],
)
def test_what_is_no_address_of_a_server_is_said(url: str) -> None:
    with pytest.raises(ImproperlyConfigured) as error:
        public_address(url)
    assert str(error.value) == (
        "ODDLEG_ADDRESS cannot be read: write the address that phones in the workshop open,"
        " such as https://oddleg.example."
    )
