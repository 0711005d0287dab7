"""The page of a part's drawings to and from CAD: files to be had, a drawing looked at, then saved in one change."""

from __future__ import annotations

import io
import re
from pathlib import Path
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from pytest_django.fixtures import DjangoAssertNumQueries

from buildlog.builds.lookup import find_row
from buildlog.builds.models import Change
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Membership, Person, Role
from calculators.drawing.dxf_in import read_dxf
from calculators.planning.edits import find
from calculators.planning.model import Component
from tests.builds.sending import sent_of
from tests.drawing.test_dxf_hostile import file_of, tags

pytestmark = [pytest.mark.database, pytest.mark.shows]

BUILD = "/workshops/thornbank-workshop/builds/TW-31"
HERE = f"{BUILD}/parts/P11/exchange/"
QUERIES = 5
"""The person, the membership with its workshop, the build, and what can be undone and redone."""


def part(mark: str = "P11") -> Component:
    found: Component = find(plain_of(find_row("TW-31")), "component", mark)
    return found


def plate(*more: str, unit: str = "4") -> bytes:
    """A plate of 120 x 80 from 10, 20 with two holes on layer Holes, and whatever more."""
    header = tags((0, "SECTION"), (2, "HEADER"), (9, "$INSUNITS"), (70, unit), (0, "ENDSEC")) if unit else ""
    corners = ((10, 20), (130, 20), (130, 100), (10, 100))
    ring = tags(
        (0, "LWPOLYLINE"), (8, "Edge"), (70, 1), *(pair for x, y in corners for pair in ((10, x), (20, y)))
    )
    holes = "".join(tags((0, "CIRCLE"), (8, "Holes"), (10, x), (20, 40), (40, 2.75)) for x in (30, 110))
    return header.encode() + file_of(ring + holes + "".join(more))


def send(client: Client, data: bytes, address: str = HERE) -> Any:
    return client.post(address, {"file": SimpleUploadedFile("plate.dxf", data)})


def chosen(page: str, **more: str) -> dict[str, str]:
    """What the form on the page sends, with other choices."""
    sent = {name: value for name, value in sent_of(page, f"{HERE}#from").items() if value or name != "depth"}
    return sent | more


def faults(page: str) -> list[str]:
    return re.findall(r'<p class="fault">(.*?)</p>', page)


def test_files_are_offered_with_what_is_in_them_and_come_with_safe_names(
    client: Client, demonstration: Person
) -> None:
    page = client.get(HERE).content.decode()
    assert f'href="{BUILD}/parts/P11/drawing.dxf?face=top"' in page
    assert "<code>TAPPED_4_BA_6_DEEP_DRILL_THROUGH</code>" in page
    assert "90 x 90 mm, 6 holes; its datum at 0, 0" in page
    answer = client.get(f"{BUILD}/parts/P11/drawing.dxf?face=top")
    assert answer["Content-Type"] == "image/vnd.dxf"
    assert answer["Content-Disposition"] == 'attachment; filename="TW-31-P11-top.dxf"'
    read = read_dxf(io.BytesIO(answer.content))
    assert read.unit == "mm"
    assert sum(one.layer.startswith(("CLEARANCE", "TAPPED")) for one in read.circles) == 6
    svg = client.get(f"{BUILD}/parts/P11/drawing.svg?projection=third")
    assert svg["Content-Type"] == "image/svg+xml"
    assert svg.content.startswith(b"<svg")


@pytest.mark.parametrize(
    "address",
    ["P11/drawing.exe", "P99/drawing.dxf", "P11/drawing.dxf?face=inside", "P99/exchange/", "P11/drawing.svg?projection=9"],
)  # fmt: skip
def test_what_is_not_there_is_not_found(address: str, client: Client, demonstration: Person) -> None:
    assert client.get(f"{BUILD}/parts/{address}").status_code == 404


def test_a_drawing_is_looked_at_first_and_saved_as_one_change_that_can_be_undone(
    client: Client, demonstration: Person, for_a_reason: None
) -> None:
    before, changes = part(), Change.objects.count()
    text = tags((0, "TEXT"), (8, "Notes"), (10, 1), (20, 2), (1, "steel"))
    looked = send(client, plate(text))
    page = looked.content.decode()
    assert looked.status_code == 200, faults(page)
    assert "<li>A rectangle, 120 long and 80 mm wide</li>" in page
    assert "<li>2 plain Ø5.5 holes, through</li>" in page
    assert "is writing, which makes no hole" in page
    assert page.count("<svg") >= 2
    assert (part(), Change.objects.count()) == (before, changes)
    saved = client.post(HERE, chosen(page, do="save", kind="reamed"))
    assert saved.status_code == 302, faults(saved.content.decode())
    assert saved["Location"] == f"{BUILD}/parts/P11/#holes"
    now = part()
    assert (now.size.length.mm, now.size.width.mm) == (120.0, 80.0)  # type: ignore[union-attr]
    new = [one for one in now.holes if one not in before.holes]
    assert [(one.u.mm, one.v.mm, one.kind) for one in new if one.v] == [
        (20.0, 20.0, "reamed"),
        (100.0, 20.0, "reamed"),
    ]
    assert Change.objects.count() == changes + 1
    assert "from plate.dxf: A rectangle, 120 long" in Change.objects.latest("id").says
    client.post(f"{BUILD}/undo/")
    assert part().holes == before.holes
    assert part().size == before.size


def test_layers_are_left_and_depths_taken_as_typed_and_nothing_typed_is_lost(
    client: Client, demonstration: Person
) -> None:
    page = send(client, plate()).content.decode()
    sent = chosen(page, do="look")
    sent.pop("take-0")  # Edge
    sent["depth-1"] = "deep"
    answer = client.post(HERE, sent)
    again = answer.content.decode()
    assert answer.status_code == 422
    assert 'name="depth-1" value="deep"' in again
    sent["depth-1"] = "1/4 in"
    page = client.post(HERE, sent).content.decode()
    assert "<li>2 plain Ø5.5 holes, 6.35 mm deep</li>" in page
    assert "There is no closed outline on the layers chosen" in page


def test_a_drawing_without_a_unit_asks_for_it(client: Client, demonstration: Person) -> None:
    answer = send(client, plate(unit=""))
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "The drawing does not say its unit; choose one: mm, cm, m, in, ft." in faults(page)
    answer = client.post(HERE, chosen(page, do="look", unit="in"))
    assert answer.status_code == 200
    assert "<li>A rectangle, 3048 long and 2032 mm wide</li>" in answer.content.decode()


@pytest.mark.parametrize(
    ("data", "says"),
    [
        (b"%PDF-1.7\n%x\n", "This is no DXF in text"),
        (plate()[:-30], "The file is cut off"),
        (file_of(""), "There is no line, arc or circle in the drawing."),
        (file_of(tags((0, "TEXT"), (1, "a"))), "There is no line, arc or circle in the drawing. It has 1 other things."),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_said_beside_the_file(
    data: bytes, says: str, client: Client, demonstration: Person
) -> None:
    answer = send(client, data)
    assert answer.status_code == 422
    assert any(says in fault for fault in faults(answer.content.decode()))


def test_fifty_megabytes_are_refused_before_they_are_read(client: Client, demonstration: Person) -> None:
    answer = send(client, b"0\nSECTION\n" * (5 * 1024 * 1024))
    assert answer.status_code == 422
    assert faults(answer.content.decode()) == [
        "The file has 50.0 MB, and at most 20 are read; keep in it only the outline and the holes of this part."
    ]


def test_a_drawing_that_was_tampered_with_is_not_taken(client: Client, demonstration: Person) -> None:
    page = send(client, plate()).content.decode()
    sent = chosen(page, do="save")
    sent["drawing"] = sent["drawing"][:-3] + "abc"
    answer = client.post(HERE, sent)
    assert answer.status_code == 422
    assert faults(answer.content.decode()) == [
        "The drawing was read more than a day ago, or did not come back whole: choose the file again."
    ]


def test_what_somebody_changed_meanwhile_is_not_overwritten(
    client: Client, demonstration: Person, for_a_reason: None
) -> None:
    page = send(client, plate()).content.decode()
    client.post(f"{BUILD}/parts/P11/holes/", {"lines": "top at 3, 3, 2 mm dia"})
    held = part()
    answer = client.post(HERE, chosen(page, do="save"))
    assert answer.status_code == 409
    assert any("Nothing was saved" in fault for fault in faults(answer.content.decode()))
    assert part() == held


def test_a_viewer_has_the_files_and_reads_nothing_in(client: Client, demonstration: Person) -> None:
    Membership.objects.filter(person=demonstration).update(role=Role.VIEWER)
    page = client.get(HERE).content.decode()
    assert "drawing.dxf" in page
    assert 'type="file"' not in page
    assert send(client, plate()).status_code == 403


def test_the_page_asks_the_database_the_same_whatever_the_part(
    client: Client, demonstration: Person, django_assert_num_queries: DjangoAssertNumQueries
) -> None:
    client.get(HERE)  # the build is worked out once
    for mark in ("P11", "P10", "P01"):
        with django_assert_num_queries(QUERIES):
            client.get(f"{BUILD}/parts/{mark}/exchange/")


def test_the_largest_drawing_that_is_read_can_be_carried_or_is_refused(
    client: Client, demonstration: Person, tmp_path: Path
) -> None:
    import random

    chance = random.Random(1)
    shapes = "".join(
        tags((0, "LWPOLYLINE"), (8, "0"), *(pair for _ in range(50) for pair in ((10, chance.random() * 999), (20, chance.random() * 999))))
        for _ in range(1_900)
    )  # fmt: skip
    answer = send(client, file_of(shapes))
    assert answer.status_code == 422
    (says,) = faults(answer.content.decode())
    assert says.startswith("The drawing has more corners and shapes than can be carried on")


def test_of_a_released_part_the_reason_is_asked_and_the_drawing_comes_along(
    client: Client, demonstration: Person
) -> None:
    client.post(f"{BUILD}/parts/P11/state/", {"state": f"{part().state}>released"})
    page = send(client, plate()).content.decode()
    asked = client.post(HERE, chosen(page, do="save"))
    assert asked.status_code == 409
    carried = dict(re.findall(r'<input type="hidden" name="([^"]+)" value="([^"]*)"', asked.content.decode()))
    carried.pop("csrfmiddlewaretoken", None)
    saved = client.post(HERE, carried | {"release_reason": "drawn anew"})
    assert saved.status_code == 302
    assert part().size.length.mm == 120.0  # type: ignore[union-attr]
