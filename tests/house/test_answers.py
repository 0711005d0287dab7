"""What every answer carries, who is signed in, and what is said when something is not there."""

from __future__ import annotations

import pytest
from django.conf import LazySettings
from django.test import Client, RequestFactory

from buildlog.builds.demonstrating import make_demonstration
from buildlog.builds.models import Build
from buildlog.workshops.demonstration import NAME, WORKSHOP
from buildlog.workshops.middleware import is_from_this_machine
from buildlog.workshops.models import Person, Workshop

pytestmark = pytest.mark.database


def test_every_answer_has_the_strict_policy(client: Client) -> None:
    for address, status in (("/bench/", 200), ("/no-such-page", 404)):
        answer = client.get(address)
        assert answer.status_code == status
        assert answer["Content-Security-Policy"] == (
            "default-src 'none'; script-src 'self'; style-src 'self'; img-src 'self'; font-src 'self';"
            " connect-src 'self'; form-action 'self'; frame-ancestors 'none'; base-uri 'none'"
        )
        assert answer["X-Content-Type-Options"] == "nosniff"
        assert answer["X-Frame-Options"] == "DENY"
        assert answer["Referrer-Policy"] == "same-origin"


def test_a_missing_page_is_said_in_a_sentence(client: Client) -> None:
    answer = client.get("/no-such-page")
    assert answer.status_code == 404
    assert "There is no page at this address, or it belongs to a workshop that you are not in." in (
        answer.content.decode()
    )


def test_a_fault_of_ours_is_said_in_a_sentence(
    client: Client, monkeypatch: pytest.MonkeyPatch, settings: LazySettings, caplog: pytest.LogCaptureFixture
) -> None:
    settings.DEMO = True
    monkeypatch.setattr("buildlog.workshops.middleware.is_from_this_machine", lambda request: 1 / 0)
    client.raise_request_exception = False
    answer = client.get("/")
    assert answer.status_code == 500
    assert "The fault is on our side and has been written to the log." in answer.content.decode()
    assert "ZeroDivisionError" in caplog.text


def test_a_form_without_its_token_is_refused_in_a_sentence() -> None:
    answer = Client(enforce_csrf_checks=True).post("/")
    assert answer.status_code == 403
    assert "Nothing was saved. Go back, load the page again, and save once more" in answer.content.decode()


def test_nobody_is_signed_in_without_the_demonstration(client: Client) -> None:
    make_demonstration()
    assert not client.get("/").wsgi_request.user.is_authenticated


def test_a_visitor_from_this_machine_is_the_demonstration_person(
    client: Client, demonstration: Person
) -> None:
    assert client.get("/").wsgi_request.user == demonstration
    assert (demonstration.name, [shop.name for shop in demonstration.workshops.all()]) == (NAME, [WORKSHOP])


@pytest.mark.parametrize(
    "origin",
    [
        {"REMOTE_ADDR": "192.168.1.20"},
        {"REMOTE_ADDR": ""},
        {"REMOTE_ADDR": "127.0.0.1", "HTTP_X_FORWARDED_FOR": "192.168.1.20"},
        {"REMOTE_ADDR": "127.0.0.1", "HTTP_X_REAL_IP": "127.0.0.1"},
        {"REMOTE_ADDR": "127.0.0.1", "HTTP_FORWARDED": "for=192.168.1.20"},
    ],
)
def test_a_visitor_from_elsewhere_or_through_a_proxy_is_nobody(
    client: Client, demonstration: Person, origin: dict[str, str]
) -> None:
    assert not client.get("/", **origin).wsgi_request.user.is_authenticated


@pytest.mark.parametrize(
    ("address", "is_here"), [("127.0.0.1", True), ("127.8.8.8", True), ("::1", True), ("10.0.0.1", False)]
)
def test_this_machine_is_known_by_its_address(address: str, is_here: bool) -> None:
    assert is_from_this_machine(RequestFactory().get("/", REMOTE_ADDR=address)) is is_here


def test_a_person_who_signed_in_stays_who_they_are(client: Client, demonstration: Person) -> None:
    other = Person.objects.create_user("rasheed", name="Rasheed Okoye")
    client.force_login(other)
    assert client.get("/").wsgi_request.user == other


def test_making_the_demonstration_twice_makes_it_once(demonstration: Person) -> None:
    assert make_demonstration() == demonstration
    assert (Person.objects.count(), Workshop.objects.count(), Build.rows.count()) == (3, 1, 3)
    assert not demonstration.has_usable_password()
