"""The place of a finding in red on the face of its part: on the part's page, and fetched from the check."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any, cast
from xml.etree import ElementTree

import pytest
from django.test import Client

from buildlog.builds.models import Build
from buildlog.builds.queries import worked_of
from buildlog.builds.red_places import MOST_DRAWN, red_faces, red_on
from buildlog.workshops.models import Person
from calculators.joints.model import Finding, Spot
from calculators.planning.edits import finding_key
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build as PlainBuild
from calculators.planning.model import Component, Hole, Pose, Size
from calculators.quantities import Length

pytestmark = [pytest.mark.database, pytest.mark.shows]
BUILD = "/workshops/thornbank-workshop/builds/TW-31/"
SVG = "{http://www.w3.org/2000/svg}"


def mm(value: float) -> Length:
    return Length(round(value * 10_000_000), f"{value:g}", "mm")


def plate(*holes: Hole) -> PlainBuild:
    size = Size("block", mm(100), mm(40), mm(10))
    part = Component("P1", "Plate", size=size, poses=(Pose(1, ""),), holes=holes)
    rod = Component("P2", "Rod", size=Size("round", mm(100), diameter=mm(20)))
    return PlainBuild("B1", "Box", components=(part, rod))


def spotted(*spots: Spot) -> Finding:
    return Finding("holes-meet", "error", "Two holes meet.", "s", part="P1", value=2.5, limit=3.0, unit="mm",
                   spots=spots)  # fmt: skip


def reds(svg: str, tag: str) -> list[dict[str, str]]:
    return [
        one.attrib for one in ElementTree.fromstring(svg).iter(f"{SVG}{tag}") if one.get("class") == "red"
    ]


def test_a_ring_lies_where_the_finding_says_on_both_widths() -> None:
    (face,) = red_faces(inspect_build(plate()), [spotted(Spot("P1", "top", 30, 10, 4))])
    assert (face.part.mark, face.face) == ("P1", "top")
    for plan in (face.broad, face.narrow):
        (outline,) = [
            one.attrib
            for one in ElementTree.fromstring(plan.svg).iter(f"{SVG}rect")
            if one.get("class") == "outline"
        ]
        scale = float(outline["width"]) / 100
        (ring,) = reds(plan.svg, "circle")
        assert (float(ring["cx"]) - float(outline["x"])) / scale == pytest.approx(30, abs=0.01)
        bottom = float(outline["y"]) + float(outline["height"])
        assert (bottom - float(ring["cy"])) / scale == pytest.approx(10, abs=0.01)
        assert "holes meet 2.5" in "".join(ElementTree.fromstring(plan.svg).itertext())
        assert "In red: Two holes meet." in plan.svg


def test_each_face_that_has_a_place_is_drawn_once() -> None:
    finding = spotted(
        Spot("P1", "top", 30, 10),
        Spot("P1", "top", 40, 10),
        Spot("P1", "left", 5, 5),
        Spot("P1.1", "left", 9, 5),
    )
    faces = red_faces(inspect_build(plate()), [finding])
    assert [(one.face, len(reds(one.broad.svg, "circle"))) for one in faces] == [("top", 2), ("left", 2)]


def test_a_rounds_side_is_laid_flat() -> None:
    """A quarter of the way round a rod of 20 mm is 15.7 mm above the line of +Y."""
    finding = replace(spotted(Spot("P2", "side", 50, 90.0)), part="P2")
    (face,) = red_faces(inspect_build(plate()), [finding])
    (outline,) = [
        one.attrib
        for one in ElementTree.fromstring(face.broad.svg).iter(f"{SVG}rect")
        if one.get("class") == "outline"
    ]
    assert float(outline["height"]) / float(outline["width"]) == pytest.approx(62.83 / 100, abs=1e-3)
    (ring,) = reds(face.broad.svg, "circle")
    middle = float(outline["y"]) + float(outline["height"]) / 2
    scale = float(outline["width"]) / 100
    assert (middle - float(ring["cy"])) / scale == pytest.approx(15.708, abs=0.01)
    assert (float(ring["cx"]) - float(outline["x"])) / scale == pytest.approx(50, abs=0.01)


@pytest.mark.parametrize(
    ("spots", "drawn"),
    [
        ((Spot("P9", "top", 1, 1),), []),  # there is no such part
        ((Spot("P1", "side", 1, 1),), []),  # a block has no side
        ((Spot("P2", "top", 1, 1),), [("P2", "top")]),  # the plane that a rod lies by
        (tuple(Spot("P1", "top", 1e5 * (i % 3 - 1), -1e5, 1e4) for i in range(500)), [("P1", "top")]),
        ((), []),
    ],
)
def test_odd_places_stop_nothing(spots: tuple[Spot, ...], drawn: list[tuple[str, str]]) -> None:
    faces = red_faces(inspect_build(plate()), [spotted(*spots)])
    assert [(one.part.mark, one.face) for one in faces] == drawn
    for face in faces:
        ElementTree.fromstring(face.broad.svg)
        ElementTree.fromstring(face.narrow.svg)


def test_of_thousands_of_holes_those_near_the_place_are_drawn() -> None:
    holes = tuple(
        Hole(f"h{at}", "top", mm(1 + at % 99), mm(1 + at // 99), diameter=mm(0.5)) for at in range(3_000)
    )
    (face,) = red_faces(inspect_build(plate(*holes)), [spotted(Spot("P1", "top", 30, 10))])
    assert face.broad.svg.count('class="hole"') == MOST_DRAWN


def test_only_what_is_on_the_face_is_marked() -> None:
    finding = spotted(Spot("P1", "top", 30, 10), Spot("P1", "front", 3, 1), Spot("P2", "left", 0, 0))
    assert [(one.u_mm, one.v_mm) for one in red_on([finding], "P1", "front").marks] == [(3, 1)]


def found() -> Finding:
    worked = worked_of(Build.rows.get(number="TW-31"))
    return next(one for one in worked.findings if one.spots and one.spots[0].face != "side")


def test_the_check_fetches_the_drawing_and_works_without_script(
    client: Client, demonstration: Person
) -> None:
    key = finding_key(found())
    address = f"{BUILD}in-red/?finding={key}"
    check = client.get(f"{BUILD}?rule={found().rule}").content.decode()
    escaped = key.replace(":", "%3A")
    assert f'hx-get="{BUILD}in-red/?finding={escaped}"' in check
    assert f'<a href="{BUILD}in-red/?finding={escaped}">' in check
    assert "<svg" not in check
    page = client.get(address).content.decode()
    assert "<h1>" in page
    assert 'class="red"' in page
    part = client.get(address, headers={"HX-Request": "true"}).content.decode()
    assert part.startswith('<div class="drawn">')
    assert "<html" not in part
    assert 'class="red"' in part


def test_the_parts_page_draws_what_is_wrong_on_its_faces(client: Client, demonstration: Person) -> None:
    one = found()
    mark = one.spots[0].part.split(".")[0]
    page = client.get(f"{BUILD}parts/{mark}/").content.decode()
    assert re.search(r'<circle class="red"', page)
    assert "In red: " in page


@pytest.mark.parametrize("key", ["", "nothing:F99", "\x00", "x" * 9_000, "<script>"])
def test_a_finding_that_there_is_not_is_not_found(key: str, client: Client, demonstration: Person) -> None:
    answer = client.get(f"{BUILD}in-red/", {"finding": key})
    assert answer.status_code == 404


def test_strangers_see_no_drawing(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(f"{BUILD}in-red/", {"finding": finding_key(found())}).status_code == 404


def test_a_page_of_findings_with_places_stays_small(client: Client, demonstration: Person) -> None:
    answer = client.get(BUILD)
    assert cast(Any, answer).content.count(b"<svg") == 0
    assert len(answer.content) < 400_000
