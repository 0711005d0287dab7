"""Signing in, the first owner, invitations, roles, accounts: what each does, and what it refuses."""

from __future__ import annotations

import re
from datetime import timedelta

import pytest
from django.conf import LazySettings
from django.core.cache import cache
from django.core.management import call_command
from django.test import Client
from django.utils import timezone

from buildlog.workshops.actions import begin_workshop, set_up_code
from buildlog.workshops.models import Invitation, Membership, Person, Role, Workshop

pytestmark = pytest.mark.database

PASSWORD = "ash-and-elm-41"


@pytest.fixture(autouse=True)
def _no_tries() -> None:
    cache.clear()


@pytest.fixture
def ann(db: None) -> Person:
    person = Person.objects.create_user("ann", password=PASSWORD, name="Ann Orr")
    begin_workshop("Shed", person)
    return person


@pytest.fixture
def shed(ann: Person) -> Workshop:
    return Workshop.objects.get(slug="shed")


@pytest.fixture
def owner(ann: Person) -> Client:
    client = Client()
    client.force_login(ann)
    return client


def test_signing_in_goes_where_one_wanted_to_go_and_nowhere_else(client: Client, ann: Person) -> None:
    answer = client.get("/workshops/shed/")
    assert answer["Location"] == "/sign-in/?next=%2Fworkshops%2Fshed%2F"
    sent = {"username": "ann", "password": PASSWORD, "next": "/workshops/shed/"}
    assert client.post("/sign-in/", sent)["Location"] == "/workshops/shed/"
    assert client.get("/workshops/shed/").status_code == 200
    for elsewhere in ("https://example.org/", "//example.org", "javascript:alert(1)"):
        assert client.post("/sign-in/", {**sent, "next": elsewhere})["Location"] == "/"
    client.post("/sign-out/")
    assert client.get("/workshops/shed/").status_code == 302


def test_a_wrong_password_is_said_and_too_many_are_refused(client: Client, ann: Person) -> None:
    for _ in range(10):
        answer = client.post("/sign-in/", {"username": "ann", "password": "wrong"})
        assert answer.status_code == 422
        assert "That name and password do not go together" in answer.content.decode()
        assert 'value="ann"' in answer.content.decode()
    answer = client.post("/sign-in/", {"username": "ann", "password": PASSWORD})
    assert "Too many tries went wrong" in answer.content.decode()
    assert client.get("/account/").status_code == 302
    cache.clear()
    assert client.post("/sign-in/", {"username": "ann", "password": PASSWORD}).status_code == 302


def test_a_new_installation_asks_for_its_owner_and_for_the_code_of_the_server(
    client: Client, db: None, capsys: pytest.CaptureFixture[str]
) -> None:
    assert client.get("/")["Location"].startswith("/sign-in/")
    assert client.get("/sign-in/")["Location"] == "/first-owner/"
    call_command("set-up-code")
    code = capsys.readouterr().out.strip()
    assert re.fullmatch(r"[2-9a-hj-np-tv-z]{8}", code)
    sent = {"name": "Bo", "username": "bo", "password": PASSWORD, "workshop": "Loft", "code": "aaaaaaaa"}
    answer = client.post("/first-owner/", sent)
    assert answer.status_code == 422
    page = answer.content.decode()
    assert "That is not the code that `python3 manage.py set-up-code` prints" in page
    assert 'value="Loft"' in page
    assert Person.objects.count() == 0
    assert client.post("/first-owner/", {**sent, "code": f" {code.upper()} "}).status_code == 302
    assert [(m.person.username, m.workshop.slug, m.role) for m in Membership.objects.all()] == [
        ("bo", "loft", "owner")
    ]
    assert client.get("/").status_code == 200
    assert client.get("/first-owner/").status_code == 404
    assert Client().post("/first-owner/", {**sent, "username": "eve", "code": code}).status_code == 404


def test_the_code_follows_from_the_secret_key(settings: LazySettings) -> None:
    first = set_up_code()
    settings.SECRET_KEY = "another " * 10
    assert set_up_code() != first


@pytest.mark.parametrize(
    ("field", "value", "says"),
    [
        ("password", "12345678", "too common"),
        ("password", "short1", "too short"),
        ("password", "", "required"),
        ("username", "ann", "Somebody signs in with that name already"),
        ("username", "ANN", "Somebody signs in with that name already"),
        ("username", "a b", "valid username"),
        ("name", "", "required"),
        ("name", "x" * 121, "at most 120"),
        ("username", "x\x00y", "Null characters"),
    ],
)
def test_each_bad_field_of_a_new_person_gets_its_sentence_and_keeps_the_rest(
    field: str, value: str, says: str, owner: Client, shed: Workshop
) -> None:
    link = invitation_link(owner)
    sent = {"name": "Cy Dee", "username": "cy", "password": PASSWORD, field: value}
    answer = Client().post(link, sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert says in page
    assert "Cy Dee" in page or field == "name"
    assert Person.objects.count() == 1


def invitation_link(owner: Client, role: str = "maker") -> str:
    page = owner.post("/workshops/shed/invite/", {"name": "Cy", "role": role}).content.decode()
    found = re.search(r'value="http://testserver(/invitations/[^"]+/)"', page)
    assert found
    return found[1]


@pytest.mark.parametrize("role", Role.values)
def test_an_invitation_lets_one_person_in_once_with_its_role(
    role: str, owner: Client, shed: Workshop
) -> None:
    link = invitation_link(owner, role)
    visitor = Client()
    assert "Ann Orr invites Cy" in visitor.get(link).content.decode()
    sent = {"name": "Cy Dee", "username": "cy", "password": PASSWORD}
    assert visitor.post(link, sent).status_code == 302
    assert Membership.objects.get(person__username="cy").role == role
    assert visitor.get("/workshops/shed/").status_code == 200
    assert "This invitation is not open" in Client().get(link).content.decode()
    assert Client().post(link, {**sent, "username": "eve"}).status_code == 404


def test_an_invitation_lets_in_somebody_who_has_an_account(owner: Client, shed: Workshop) -> None:
    other = Person.objects.create_user("rasheed", password=PASSWORD)
    visitor = Client()
    visitor.force_login(other)
    link = invitation_link(owner, "viewer")
    assert visitor.post(link).status_code == 302
    assert Membership.objects.get(person=other).role == "viewer"


def test_an_invitation_that_is_old_withdrawn_or_made_up_lets_nobody_in(owner: Client, shed: Workshop) -> None:
    link = invitation_link(owner)
    Invitation.objects.update(open_until=timezone.now() - timedelta(seconds=1))
    assert Client().get(link).status_code == 404
    link = invitation_link(owner)
    newest = Invitation.objects.latest("pk")
    assert owner.post("/workshops/shed/members/", {"invitation": newest.pk}).status_code == 302
    assert Client().get(link).status_code == 404
    for secret in ("x", "%00", "%ff", "é", "a" * 3000):
        assert Client().get(f"/invitations/{secret}/").status_code == 404


def test_an_invitation_of_another_workshop_is_not_withdrawn_from_here(owner: Client, shed: Workshop) -> None:
    invitation_link(owner)
    other = Person.objects.create_user("rasheed")
    begin_workshop("Barn", other)
    stranger = Client()
    stranger.force_login(other)
    stranger.post("/workshops/barn/members/", {"invitation": Invitation.objects.get().pk})
    assert Invitation.objects.count() == 1


def test_roles_are_given_and_the_last_owner_stays(owner: Client, shed: Workshop, ann: Person) -> None:
    bo = Person.objects.create_user("bo", name="Bo")
    Membership.objects.create(person=bo, workshop=shed, role=Role.VIEWER)

    def ask(**sent: str) -> str:
        return owner.post("/workshops/shed/members/", sent, follow=True).content.decode()

    assert "Ann Orr is the only owner" in ask(username="ann", role="maker")
    assert "Ann Orr is the only owner" in ask(username="ann", role="out")
    assert "Bo is owner now" in ask(username="bo", role="owner")
    assert "Choose one of: owner, maker, viewer" in ask(username="bo", role="king")
    assert "Nobody of that name" in ask(username="zoe", role="maker")
    assert "That invitation is not open any more." in ask(invitation="999")
    assert owner.post("/workshops/shed/members/", {"username": "ann", "role": "out"})["Location"] == "/"
    assert [m.person.username for m in shed.memberships.all()] == ["bo"]
    assert owner.get("/workshops/shed/").status_code == 404


@pytest.mark.parametrize("role", [Role.MAKER, Role.VIEWER])
def test_only_owners_find_and_use_the_settings(role: str, shed: Workshop) -> None:
    bo = Person.objects.create_user("bo", name="Bo")
    Membership.objects.create(person=bo, workshop=shed, role=role)
    client = Client()
    client.force_login(bo)
    page = client.get("/workshops/shed/").content.decode()
    assert "Invite somebody" not in page
    assert "Ann Orr" in page
    for address, sent in (
        ("invite", {"name": "x", "role": "owner"}),
        ("members", {"username": "bo", "role": "owner"}),
        ("rename", {"name": "Mine"}),
    ):
        assert client.post(f"/workshops/shed/{address}/", sent).status_code == 403
    assert Membership.objects.get(person=bo).role == role
    assert client.post("/workshops/shed/leave/").status_code == 302
    assert not shed.memberships.filter(person=bo).exists()


def test_an_account_changes_its_name_units_and_password(client: Client, ann: Person) -> None:
    client.post("/sign-in/", {"username": "ann", "password": PASSWORD})
    client.post("/account/", {"what": "about", "name": "Ann O.", "units": "in"})
    ann.refresh_from_db()
    assert (ann.name, ann.units) == ("Ann O.", "in")
    answer = client.post("/account/", {"what": "password", "old": "wrong", "new": "cherry-wood-9"})
    assert (answer.status_code, "That is not your password." in answer.content.decode()) == (422, True)
    client.post("/account/", {"what": "password", "old": PASSWORD, "new": "cherry-wood-9"})
    assert client.get("/account/").status_code == 200
    ann.refresh_from_db()
    assert ann.check_password("cherry-wood-9")
    answer = client.post("/account/", {"what": "about", "name": "", "units": "furlongs"})
    assert answer.status_code == 422
    assert "furlongs is not one of the available choices" in answer.content.decode()


def test_the_units_of_pages_are_kept_for_a_person_and_for_nobody(client: Client, ann: Person) -> None:
    assert client.post("/units/", {"units": "in", "back": "/bench/"})["Location"] == "/bench/"
    assert client.session["units"] == "in"
    assert client.post("/units/", {"units": "in", "back": "//example.org"})["Location"] == "/"
    client.force_login(ann)
    client.post("/units/", {"units": "mm"})
    client.post("/units/", {"units": "cubits"})
    ann.refresh_from_db()
    assert ann.units == "mm"


def test_a_workshop_is_begun_and_renamed_its_address_staying(owner: Client, shed: Workshop) -> None:
    assert owner.post("/new-workshop/", {"name": "Shed"})["Location"] == "/workshops/shed-2/"
    assert owner.post("/new-workshop/", {"name": "ورشة"})["Location"] == "/workshops/workshop/"
    assert owner.post("/new-workshop/", {"name": " "}).status_code == 422
    assert owner.post("/workshops/shed/rename/", {"name": 'Big "Shed" & <b>'}).status_code == 302
    assert "Big &quot;Shed&quot; &amp; &lt;b&gt;" in owner.get("/workshops/shed/").content.decode()
    assert owner.post("/workshops/shed/rename/", {"name": ""}).status_code == 422
