"""The page of a part's drilling moves, its file, its sheet and the command: the same moves everywhere."""

from __future__ import annotations

from pathlib import Path

import pytest
from django.core.management import CommandError, call_command
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.router_form import set_up_asked
from buildlog.workshops.models import Person
from calculators.drawing.drilling_moves import SetUp
from calculators.quantities.errors import InputError
from tests.drawing.iso_6983 import run

pytestmark = [pytest.mark.database, pytest.mark.shows]

BUILD = "/workshops/thornbank-workshop/builds/TW-31"
PAGE = f"{BUILD}/parts/P11/router/"
FILE = Path(__file__).parents[2] / "buildlog/builds/demonstration/TW-31.json"


def test_the_page_shows_tools_and_leads_to_the_file(demonstration: Person) -> None:
    said = Client().get(PAGE).content.decode()
    assert "countersink 90 deg 7.01 mm" in said
    assert "Tap hole 3: 4 BA, 6 mm deep." in said
    assert "Keep a hand at the emergency stop" in said
    assert "parts/P11/drawing.nc?face=top" in said


def test_what_is_asked_on_the_page_is_in_the_file(demonstration: Person) -> None:
    page = Client().get(PAGE, {"face": "bottom", "safe": "1 in", "skip_spot": "on"}).content.decode()
    assert "drawing.nc?face=bottom&amp;safe=1+in&amp;spot=no" in page
    answer = Client().get(f"{BUILD}/parts/P11/drawing.nc", {"face": "bottom", "safe": "1 in", "spot": "no"})
    done = run(answer.content.decode("ascii"))
    assert done.heights_between == {25.4}
    # Through 6 mm of brass, 1 mm into the board, and the cone of 8.2 mm at 118 degrees, 2.464 mm.
    assert [(one.x, one.y, one.deepest) for one in done.drilled] == [(45.0, 45.0, 9.464)]
    assert answer["Content-Disposition"] == 'attachment; filename="TW-31-P11-bottom.nc"'


@pytest.mark.parametrize(
    ("asked", "says"),
    [
        ({"safe": "1"}, "The safe height is from 3 to 300 mm, not 1."),
        ({"safe": "tall"}, "tall"),
        ({"peck": "x"}, "Write a number from 0 to 20"),
        ({"clear": "16"}, "Feeding begins at 16 mm, above the safe height of 15 mm."),
        ({"face": "side"}, "Select a valid choice"),
    ],
)
def test_nonsense_gets_a_sentence_and_stays(asked: dict[str, str], says: str, demonstration: Person) -> None:
    answer = Client().get(PAGE, {"face": "top", **asked})
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert "What it drills" not in answer.content.decode()
    assert Client().get(f"{BUILD}/parts/P11/drawing.nc", asked).status_code in (200, 404)


def test_a_side_alone_is_refused_with_a_sentence(demonstration: Person) -> None:
    answer = Client().get(f"{BUILD}/parts/P34/router/")
    assert answer.status_code == 200
    assert "P34 has holes on its side alone, which does not lie flat" in answer.content.decode()


def test_the_page_asks_the_database_the_same_however_many_holes(demonstration: Person) -> None:
    counts = []
    for mark in ("P11", "P01"):
        Client().get(f"{BUILD}/parts/{mark}/router/")
        with CaptureQueriesContext(
            connection,
        ) as asked:
            Client().get(f"{BUILD}/parts/{mark}/router/")
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_the_command_and_the_page_give_the_same_file(tmp_path: Path, demonstration: Person) -> None:
    out = tmp_path / "p11.nc"
    call_command("drawing", str(FILE), component="P11", face="top", output=str(out), set_up=["safe=20"])
    asked = Client().get(f"{BUILD}/parts/P11/drawing.nc", {"face": "top", "safe": "20"})
    assert out.read_bytes() == asked.content
    assert run(out.read_text()).heights_between == {20.0}


def test_the_command_refuses_a_setting_that_there_is_not(tmp_path: Path) -> None:
    with pytest.raises((CommandError, InputError, SystemExit)):
        call_command(
            "drawing", str(FILE), component="P11", output=str(tmp_path / "x.nc"), set_up=["speed=20"]
        )
    assert not (tmp_path / "x.nc").exists()


def test_the_sheet_has_the_cautions_for_one_part_or_all(demonstration: Person) -> None:
    from buildlog.sheets.making import sheet_html
    from calculators.planning.files import read_build
    from calculators.planning.inspection import inspect_build

    worked = inspect_build(read_build(FILE.read_bytes()))
    said = sheet_html("moves", worked, component="P11", options={"face": "top", "safe": "22"})
    assert "Every clamp is lower than the safe height of 22 mm" in said
    assert "nobody reaches in while anything turns" in said
    whole = sheet_html("moves", worked)
    assert "P11 Flange plate, top face up" in whole
    assert "P34 has holes on its side alone, which does not lie flat" in whole
    with pytest.raises(InputError, match="The safe height is from 3 to 300 mm, not 1"):
        sheet_html("moves", worked, options={"safe": "1"})
    assert Client().get(f"{BUILD}/sheets/moves.pdf?component=P11&face=top").status_code == 200


def test_the_hole_table_is_given_as_csv(demonstration: Person) -> None:
    lines = Client().get(f"{BUILD}/parts/P11/drawing.csv").content.decode("utf-8").splitlines()
    assert lines[0].startswith("part,face,number,u [mm],v [mm],angle [deg],kind,diameter [mm]")
    assert [line.split(",")[:5] for line in lines[1:3]] == [
        ["P11", "top", "1", "9", "9"],
        ["P11", "top", "2", "9", "81"],
    ]
    assert len(lines) == 8


def test_a_set_up_is_read_as_people_write_it() -> None:
    assert set_up_asked({"safe": "1/2 in", "peck": "0,5", "spot": "no"}) == SetUp(
        safe_mm=12.7, peck=0.5, spot=False
    )
    with pytest.raises(InputError) as caught:
        set_up_asked({"safe": "1", "most": "much"})
    assert str(caught.value) == "The machine's greatest speed is a number from 100 to 60000 turns a minute."
