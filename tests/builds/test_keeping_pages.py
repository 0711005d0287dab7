"""Keeping a build as a file, and reading one in."""

from __future__ import annotations

from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponseBase
from django.test import Client

from buildlog.builds.actions import begin_build, undo
from buildlog.builds.lookup import DEMONSTRATION
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.builds.views import keeping
from buildlog.pictures.actions import keep_picture
from buildlog.workshops.models import Membership, Person, Role, Workshop
from calculators.planning import model as plain
from calculators.planning.files import write_build
from tests.builds.test_archive import opened, photograph, with_photographs

pytestmark = pytest.mark.database
BUILDS = "/workshops/thornbank-workshop/builds"
READ = "/workshops/thornbank-workshop/read-build/"


def sent(data: bytes, name: str = "a.json") -> SimpleUploadedFile:
    return SimpleUploadedFile(name, data)


def bytes_of(answer: HttpResponseBase) -> bytes:
    """The whole of an answer, whether it is sent from memory or from a file."""
    return b"".join(answer)  # type: ignore[arg-type]


def test_the_file_that_is_kept_is_the_file_that_was_read(client: Client, demonstration: Person) -> None:
    page = client.get(f"{BUILDS}/TW-31/keeping/").content.decode()
    assert f'href="{BUILDS}/TW-31/keeping/build.json"' in page
    answer = client.get(f"{BUILDS}/TW-31/keeping/build.json")
    assert answer.content == (DEMONSTRATION / "TW-31.json").read_bytes()
    assert answer["Content-Disposition"] == 'attachment; filename="TW-31.json"'
    answer = client.get(f"{BUILDS}/TW-31/keeping/build.zip")
    assert answer["Content-Type"] == "application/zip"
    assert opened(bytes_of(answer)) == plain_of(Build.rows.get(number="TW-31"))


def test_a_large_archive_is_sent_from_a_file(
    client: Client, demonstration: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    address = f"{BUILDS}/TW-31/keeping/build.zip"
    small = client.get(address)
    monkeypatch.setattr(keeping, "IN_MEMORY", 100)
    large = client.get(address)
    assert (small.streaming, large.streaming) == (False, True)
    assert bytes_of(large) == small.content
    assert large["Content-Disposition"] == small["Content-Disposition"] == 'attachment; filename="TW-31.zip"'
    large.close()


def test_an_archive_goes_from_one_workshop_to_another(client: Client, demonstration: Person) -> None:
    here = Workshop.objects.get(slug="thornbank-workshop")
    one, other = photograph(), photograph(10)
    keep_picture(here, one)
    begin_build(here, demonstration, with_photographs(one, other), "Begun")
    assert "1 of its photographs is not to be had" in client.get(f"{BUILDS}/B1/keeping/").content.decode()
    data = bytes_of(client.get(f"{BUILDS}/B1/keeping/build.zip"))
    barn = Workshop.objects.create(name="Barn", slug="barn")
    Membership.objects.create(person=demonstration, workshop=barn, role=Role.OWNER)
    answer = client.post("/workshops/barn/read-build/", {"file": sent(data, "B1.zip")}, follow=True)
    assert answer.redirect_chain == [("/workshops/barn/builds/B1/", 302)]
    assert "B1 Stool is in Barn now. 1 of its photographs is neither" in answer.content.decode()
    assert [each.digest for each in barn.pictures.all()] == [one.digest]
    assert bytes_of(client.get("/workshops/barn/builds/B1/keeping/build.zip")) == data


def test_a_number_that_is_there_is_asked_about(client: Client, demonstration: Person) -> None:
    data = write_build(plain.Build("TW-31", "Another", components=(plain.Component("P1", "seat"),)))
    answer = client.post(READ, {"file": sent(data)})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "There is a build with the number &#x27;TW-31&#x27; in Thornbank Workshop already" in page
    assert 'name="number" value="TW-34"' in page
    answer = client.post(READ, {"file": sent(data), "do": "as", "number": "TW-32"})
    assert "number &#x27;TW-32&#x27;" in answer.content.decode()
    assert 'name="number" value="TW-32"' in answer.content.decode()
    assert (
        client.post(READ, {"file": sent(data), "do": "as", "number": "TW-34"})["Location"]
        == f"{BUILDS}/TW-34/"
    )
    row = Build.rows.get(number="TW-31")
    before = plain_of(row)
    assert client.post(READ, {"file": sent(data), "do": "replace"})["Location"] == f"{BUILDS}/TW-31/"
    row.refresh_from_db()
    assert plain_of(row).title == "Another"
    undo(row, demonstration)
    row.refresh_from_db()
    assert plain_of(row) == before


@pytest.mark.parametrize(
    ("data", "number", "says"),
    [
        (None, "", "Choose a file"),
        (b"", "", "The file is empty"),
        (b'{"schema_version": 1, "number": "B1", "ti', "", "The file breaks off"),
        (b"PK\x03\x04" + bytes(100), "", "breaks off or is no ZIP file"),
        (b"\x00\xff\x00", "", "not UTF-8"),
        (write_build(plain.Build("B1", "x")), "a/b", "cannot stand in an address"),
        (write_build(plain.Build("B1", "x")), "a\x00b", "a character that no text can hold"),
        (write_build(plain.Build("B1", "x")), "x" * 300, "may have 40"),
    ],
)  # fmt: skip
def test_what_cannot_be_read_is_said_in_sentences(
    data: bytes | None, number: str, says: str, client: Client, demonstration: Person
) -> None:
    form = {"do": "as", "number": number} | ({"file": sent(data)} if data is not None else {})
    answer = client.post(READ, form)
    assert answer.status_code == 422
    assert says in answer.content.decode()
    assert Build.rows.count() == 3


def test_each_fault_names_its_place_and_fifty_are_told(client: Client, demonstration: Person) -> None:
    parts = ", ".join(f'{{"mark": "P{i}", "name": "x", "state": "lost"}}' for i in range(80))
    data = f'{{"schema_version": 1, "number": "B1", "title": "x", "components": [{parts}]}}'.encode()
    page = client.post(READ, {"file": sent(data)}).content.decode()
    assert "components[49] (P49).state: " in page or "components[49].state: " in page
    assert "And 30 more." in page
    assert page.count("class=&quot;") == 0


def test_with_script_the_answer_goes_to_where_the_build_is(client: Client, demonstration: Person) -> None:
    answer = client.post(READ, {"file": sent(write_build(plain.Build("B1", "x")))}, HTTP_HX_REQUEST="true")
    assert (answer.status_code, answer["HX-Redirect"]) == (200, f"{BUILDS}/B1/")


def test_viewers_keep_and_do_not_read_in(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    assert client.get(f"{BUILDS}/TW-31/keeping/build.json").status_code == 200
    assert "You are a viewer here" in client.get(READ).content.decode()
    assert client.post(READ, {"file": sent(b"{}")}).status_code == 403
    client.force_login(Person.objects.create(username="stranger"))
    for address in (f"{BUILDS}/TW-31/keeping/build.zip", f"{BUILDS}/TW-31/keeping/", READ):
        assert client.get(address).status_code == 404


def test_a_name_of_any_kind_can_be_a_file_name(client: Client, demonstration: Person) -> None:
    here = Workshop.objects.get(slug="thornbank-workshop")
    begin_build(here, None, plain.Build('Ж "1"', "x"), "Begun")
    answer = client.get(f"{BUILDS}/%D0%96%20%221%22/keeping/build.json")
    assert answer["Content-Disposition"] == "attachment; filename*=utf-8''%D0%96%20%221%22.json"
    zipped = client.get(f"{BUILDS}/%D0%96%20%221%22/keeping/build.zip")
    assert opened(BytesIO(bytes_of(zipped)).getvalue()).number == 'Ж "1"'
