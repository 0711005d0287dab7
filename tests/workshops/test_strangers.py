"""What a stranger, somebody who was let go, or another page may not do: read, get back in, guess, flood."""

from __future__ import annotations

import re
from io import BytesIO

import pytest
from django.conf import LazySettings
from django.core.cache import cache
from django.test import Client

from buildlog.builds.models import Build
from buildlog.workshops.actions import begin_workshop, invite
from buildlog.workshops.models import Invitation, Membership, Person, Role, Workshop

pytestmark = pytest.mark.database

PASSWORD = "ash-and-elm-41"
AT = "/workshops/thornbank-workshop/builds/TW-31/"


@pytest.fixture(autouse=True)
def _no_tries() -> None:
    cache.clear()


@pytest.fixture
def ann(db: None) -> Person:
    person = Person.objects.create_user("ann", password=PASSWORD, name="Ann Orr")
    begin_workshop("Shed", person)
    return person


@pytest.mark.parametrize(
    "address",
    [
        AT,
        f"{AT}parts/",
        f"{AT}journal/",
        f"{AT}keeping/build.json",
        f"{AT}keeping/build.zip",
        f"{AT}sheets/cut.csv",
        f"{AT}no-such-page/",
        "/account/",
        "/",
        "/sign-in/",
        "/workshops/thornbank-workshop/",
    ],
)
def test_no_shared_cache_keeps_a_page_and_a_browser_asks_again(
    address: str, client: Client, demonstration: Person
) -> None:
    """RFC 9111, 5.2.2: what does not say so may be kept by guess, also for the next person at the bench."""
    said = client.get(address)["Cache-Control"]
    assert "private" in said, said
    assert "no-cache" in said or "no-store" in said, said


def test_what_is_not_private_may_be_kept(client: Client) -> None:
    answer = client.get("/static/oddleg.css")
    answer.close()
    assert "public" in answer["Cache-Control"]


@pytest.mark.parametrize("leaves", ["out", "maker", "viewer"])
def test_an_owner_who_is_let_go_does_not_come_back_by_a_link_of_their_own(leaves: str, ann: Person) -> None:
    shed = Workshop.objects.get(slug="shed")
    bo = Person.objects.create_user("bo", name="Bo")
    Membership.objects.create(person=bo, workshop=shed, role=Role.OWNER)
    _, kept = invite(shed, bo, "myself", Role.OWNER)
    _, hers = invite(shed, ann, "Cy", Role.MAKER)
    client = Client()
    client.force_login(ann)
    client.post("/workshops/shed/members/", {"username": "bo", "role": leaves})
    again = Client()
    again.force_login(bo)
    assert again.post(f"/invitations/{kept}/").status_code == 404
    assert not shed.memberships.filter(person=bo, role=Role.OWNER).exists()
    assert again.get(f"/invitations/{hers}/").status_code == 200
    assert Invitation.objects.count() == 1


def test_guessing_from_one_address_is_slowed_over_all_names(client: Client, ann: Person) -> None:
    for turn in range(50):
        client.post("/sign-in/", {"username": f"nobody{turn}", "password": "x"})
    answer = client.post("/sign-in/", {"username": "ann", "password": PASSWORD})
    assert "Too many tries went wrong" in answer.content.decode()
    elsewhere = client.post("/sign-in/", {"username": "ann", "password": PASSWORD}, REMOTE_ADDR="10.0.0.9")
    assert elsewhere.status_code == 302


def test_a_stranger_who_guesses_does_not_shut_out_the_person(client: Client, ann: Person) -> None:
    for _ in range(12):
        client.post("/sign-in/", {"username": "ann", "password": "x"}, REMOTE_ADDR="10.0.0.9")
    answer = client.post("/sign-in/", {"username": "ann", "password": PASSWORD}, REMOTE_ADDR="10.0.0.8")
    assert answer.status_code == 302


def test_guessing_one_name_from_many_addresses_is_slowed_too(client: Client, ann: Person) -> None:
    for turn in range(100):
        sent = {"username": "ann", "password": "x"}
        client.post("/sign-in/", sent, REMOTE_ADDR=f"10.0.{turn}.9")
    answer = client.post("/sign-in/", {"username": "ANN", "password": PASSWORD}, REMOTE_ADDR="10.1.0.8")
    assert "Too many tries went wrong" in answer.content.decode()


def test_many_names_do_not_make_the_tries_of_one_forgotten(client: Client, ann: Person) -> None:
    """The cache lets go of the oldest when it is full; 300 entries, its default, are quickly full."""
    for _ in range(10):
        client.post("/sign-in/", {"username": "ann", "password": "x"})
    for turn in range(400):
        sent = {"username": f"nobody{turn}", "password": "x"}
        client.post("/sign-in/", sent, REMOTE_ADDR=f"10.{turn // 250}.{turn % 250}.9")
    answer = client.post("/sign-in/", {"username": "ann", "password": PASSWORD})
    assert "Too many tries went wrong" in answer.content.decode()


def test_behind_a_proxy_the_address_is_the_one_that_the_proxy_saw(
    client: Client, ann: Person, settings: LazySettings
) -> None:
    settings.SECURE_PROXY_SSL_HEADER = ("HTTP_X_FORWARDED_PROTO", "https")
    for turn in range(50):
        sent = {"username": f"nobody{turn}", "password": "x"}
        client.post("/sign-in/", sent, HTTP_X_FORWARDED_FOR=f"1.1.1.{turn}, 10.0.0.9")
    sent = {"username": "ann", "password": PASSWORD}
    refused = client.post("/sign-in/", sent, HTTP_X_FORWARDED_FOR="1.1.1.99, 10.0.0.9")
    assert "Too many tries went wrong" in refused.content.decode()
    assert client.post("/sign-in/", sent, HTTP_X_FORWARDED_FOR="10.0.0.9, 10.0.0.8").status_code == 302


@pytest.mark.parametrize(
    "address",
    [
        "/workshops/thornbank-workshop/builds/TW%00-31/",
        f"{AT}parts/P%0001/",
        f"{AT}joints/%00/",
        f"{AT}sheets/printing/%00/",
        f"{AT}sheets/printing/%00/sheet.pdf",
        f"{AT}journal/entries/%00/",
        f"{AT}parts/P01/holes/%00/",
        f"{AT}sheets/%00.pdf",
        "/bench/%00/",
        "/bench/tables/%00/",
    ],
)
@pytest.mark.parametrize("method", ["get", "post"])
def test_an_address_with_a_nought_byte_is_not_there(
    method: str, address: str, client: Client, demonstration: Person
) -> None:
    """PostgreSQL takes no text with U+0000 and raises where SQLite finds nothing."""
    assert getattr(client, method)(address).status_code == 404


@pytest.mark.parametrize(
    ("address", "sent"),
    [
        (f"{AT}sheets/printing/begin/", {"kind": "cut", "component": "P\0"}),
        (f"{AT}mend/", {"key": "\0", "at": "\0"}),
        (f"{AT}parts/", {"lines": "a\0b"}),
        (f"{AT}about/", {"what": "about", "title": "a\0"}),
        (f"{AT}journal/", {"text": "x\0", "date": "2025-06-30", "held": "\0.\0", "marks": "\0", "key": "\0"}),
        (f"{AT}undo/", {"back": "/\0"}),
        (f"{AT}parts/P01/", {"name": "\0", "seen": "\0"}),
        (f"{AT}parts/P01/line/", {"line": "\0", "seen": "\0"}),
        (f"{AT}order/1/", {"line": "\0", "seen": "\0"}),
        (f"{AT}joints/F03/", {"line": "\0", "seen": "\0"}),
        (f"{AT}joints/F03/places/", {"home": "\0", "face": "\0", "places": "\0"}),
        (f"{AT}joints/F03/stack/0/", {"part": "\0", "hole-TOTAL_FORMS": "\0"}),
        (f"{AT}about/delete/", {"typed": "\0"}),
        ("/workshops/thornbank-workshop/new-build/", {"number": "\0", "title": "\0"}),
        ("/workshops/thornbank-workshop/members/", {"username": "\0", "role": "\0", "invitation": "\0"}),
        ("/workshops/thornbank-workshop/invite/", {"name": "\0", "role": "\0"}),
        ("/workshops/thornbank-workshop/rename/", {"name": "\0"}),
        ("/units/", {"units": "\0", "back": "\0"}),
        ("/sign-in/", {"username": "\0", "password": "\0", "next": "\0"}),
        ("/account/", {"what": "password", "old": "\0", "new": "\0"}),
        ("/account/", {"what": "about", "name": "\0", "units": "\0"}),
    ],
)
def test_a_nought_byte_in_a_field_is_refused_and_nothing_is_saved(
    address: str, sent: dict[str, str], client: Client, demonstration: Person
) -> None:
    before = list(Build.rows.order_by("pk").values_list("stamp", flat=True))
    assert client.post(address, sent).status_code in (302, 404, 409, 422)
    assert list(Build.rows.order_by("pk").values_list("stamp", flat=True)) == before


def test_a_stranger_cannot_fill_the_disk(client: Client, ann: Person) -> None:
    """The form is read before it is known who asks; what is longer than a form needs waits for a person."""
    upload = BytesIO(b"x" * 3_000_000)
    upload.name = "long.bin"
    answer = client.post("/sign-in/", {"username": "ann", "password": "x", "file": upload})
    assert answer.status_code == 413
    assert "Nothing was saved" in answer.content.decode()


def test_more_than_can_be_read_is_refused_before_it_is_read(
    client: Client, ann: Person, settings: LazySettings
) -> None:
    client.force_login(ann)

    class Unread(BytesIO):
        def read(self, size: int | None = -1) -> bytes:
            raise AssertionError("it was read")

    answer = client.generic(
        "POST",
        "/workshops/shed/read-build/",
        b"",
        "multipart/form-data; boundary=x",
        CONTENT_LENGTH=str(6 * 1024**3),
        **{"wsgi.input": Unread()},
    )
    assert answer.status_code == 413


@pytest.mark.parametrize("slug", ["THORNBANK-WORKSHOP", "thornbank%2dworkshop%2f", "thornbank-workshop%20"])
def test_a_slug_in_another_writing_is_another_workshop(
    slug: str, client: Client, demonstration: Person
) -> None:
    assert client.get(f"/workshops/{slug}/builds/TW-31/").status_code == 404


@pytest.mark.parametrize(
    ("header", "value"),
    [
        ("HTTP_X_HTTP_METHOD_OVERRIDE", "POST"),
        ("HTTP_X_ORIGINAL_URL", "/account/"),
    ],
)
def test_headers_that_other_systems_obey_change_nothing(
    header: str, value: str, client: Client, demonstration: Person
) -> None:
    page = client.get(f"{AT}undo/", **{header: value})
    assert page.status_code == 405
    assert "evil.example" not in page.content.decode()


def test_another_name_for_this_machine_finds_no_demonstration(
    client: Client, demonstration: Person, settings: LazySettings
) -> None:
    """A page of another site that has its name lead to 127.0.0.1 asks with that name."""
    settings.ALLOWED_HOSTS = ["localhost", "127.0.0.1", "[::1]"]
    for host in ("evil.example", "127.0.0.1.evil.example", "localhost.evil.example:8000", "", "127.0.0.1@e"):
        answer = client.get("/", HTTP_HOST=host)
        assert answer.status_code == 400, host
        assert "Thornbank" not in answer.content.decode()


@pytest.mark.parametrize(
    "origin",
    ["http://evil.example", "null", "http://localhost:3000", "https://testserver", "http://testserver:1"],
)
def test_a_form_of_another_page_is_refused_whatever_token_it_has(origin: str, demonstration: Person) -> None:
    client = Client(enforce_csrf_checks=True)
    page = client.get(f"{AT}about/").content.decode()
    token = re.search(r'name="csrfmiddlewaretoken" value="([^"]+)"', page)
    assert token
    sent = {"csrfmiddlewaretoken": token[1]}
    assert client.post(f"{AT}undo/", sent, HTTP_ORIGIN=origin).status_code == 403
    assert client.post(f"{AT}undo/", sent, HTTP_ORIGIN="http://testserver").status_code == 302


@pytest.mark.parametrize(
    "sign",
    [
        {"HTTP_VIA": "1.1 shop"},
        {"HTTP_X_FORWARDED_HOST": "a"},
        {"HTTP_X_FORWARDED_PROTO": "https"},
        {"SERVER_PROTOCOL": "HTTP/1.0"},
    ],
)
def test_whoever_comes_through_a_proxy_is_not_signed_in(
    sign: dict[str, str], client: Client, demonstration: Person
) -> None:
    assert client.get(AT, **sign)["Location"].startswith("/sign-in/")
