"""The one door: every address of the project, walked by everybody, with every method."""

from __future__ import annotations

import ast
from collections.abc import Iterator
from pathlib import Path

import pytest
from django.conf import LazySettings
from django.http import HttpRequest, HttpResponse
from django.test import Client
from django.urls import URLPattern, URLResolver, get_resolver, path

from buildlog.builds.models import Build, Change
from buildlog.workshops.door import door_of
from buildlog.workshops.models import Membership, Person, Role, Workshop

pytestmark = pytest.mark.database

METHODS = ("get", "head", "post", "put", "patch", "delete", "options")
EXAMPLES = {"workshop": "thornbank-workshop", "number": "TW-31", "slug": "thornbank-workshop"}


def patterns(resolver: URLResolver, before: str = "") -> Iterator[tuple[str, URLPattern, set[str]]]:
    """Every address of the project as its route, with its view and the names in it."""
    for each in resolver.url_patterns:
        route = before + str(each.pattern)
        if isinstance(each, URLResolver):
            yield from patterns(each, route)
        else:
            yield route, each, set(names_in(route))


def names_in(route: str) -> list[str]:
    return [part.split(">")[0].split(":")[-1] for part in route.split("<")[1:]]


def filled(route: str) -> str:
    """An address that exists where the examples say so, and some address of that form otherwise."""
    first, *rest = route.split("<")
    for part in rest:
        kind, _, tail = part.partition(">")
        converter, _, name = kind.rpartition(":")
        examples = EXAMPLES | {"mark": "F03", "kind": "cut", "digest": "0" * 64, "size": "small", "step": "1"}
        if "calculat" in route or "keep/" in route:
            examples |= {"mark": "K01", "name": "nearest"}
        first += examples.get(name, "1" if converter == "int" else "x") + tail
    return "/" + first


EVERY = list(patterns(get_resolver()))
OF_WORKSHOPS = [(route, pattern) for route, pattern, names in EVERY if "workshop" in names]


def test_every_address_is_a_workshops_or_says_for_whom_it_is() -> None:
    for route, pattern, names in EVERY:
        door = door_of(pattern.callback)
        assert "workshop" in names or door in ("all", "signed in"), route
        assert "workshop" not in names or door in (None, "viewers", "owners"), route


def test_what_is_open_to_all_is_listed_here() -> None:
    """Whoever opens another page to everybody must say so in this list too."""
    opened = {route for route, pattern, _ in EVERY if door_of(pattern.callback) == "all"}
    assert opened == OPEN_TO_ALL


OPEN_TO_ALL = {
    "sign-in/", "units/", "first-owner/", "invitations/<str:secret>/", "look/",
    "bench/", "bench/words/", "bench/find/", "bench/tables/", "bench/tables/<str:name>/", "bench/<str:name>/",
}  # fmt: skip


def ask(client: Client, method: str, route: str) -> HttpResponse:
    return getattr(client, method)(filled(route))  # type: ignore[no-any-return]


@pytest.mark.parametrize("method", METHODS)
def test_nobody_is_asked_to_sign_in(
    method: str, client: Client, demonstration: Person, settings: LazySettings
) -> None:
    settings.DEMO = False
    for route, _ in OF_WORKSHOPS:
        answer = ask(client, method, route)
        assert (answer.status_code, answer["Location"][:9]) == (302, "/sign-in/"), route
    assert Change.objects.exclude(says__startswith="Read from").count() == 0


@pytest.mark.parametrize("method", METHODS)
def test_a_member_of_another_workshop_gets_404(method: str, client: Client, demonstration: Person) -> None:
    stranger = Person.objects.create(username="stranger")
    elsewhere = Workshop.objects.create(name="Elsewhere", slug="elsewhere")
    Membership.objects.create(person=stranger, workshop=elsewhere, role=Role.OWNER)
    client.force_login(stranger)
    for route, _ in OF_WORKSHOPS:
        assert ask(client, method, route).status_code == 404, route
    assert Change.objects.exclude(says__startswith="Read from").count() == 0


@pytest.mark.parametrize("method", ["post", "put", "patch", "delete"])
def test_a_viewer_changes_nothing(method: str, client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    before = list(Build.rows.order_by("pk").values_list("number", "stamp"))
    for route, pattern in OF_WORKSHOPS:
        answer = ask(client, method, route)
        Membership.objects.get_or_create(  # it may just have left the workshop, as it may
            person=Person.objects.get(username="visitor"),
            workshop=demonstration.workshops.get(),
            role=Role.VIEWER,
        )
        if door_of(pattern.callback) != "viewers":
            assert answer.status_code == 403, route
            assert answer.content.decode().count("<h1>Not open to you</h1>") == 1, route
    assert list(Build.rows.order_by("pk").values_list("number", "stamp")) == before


def test_a_viewer_reads_everything_but_the_owners_pages(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    for route, pattern in OF_WORKSHOPS:
        status = client.get(filled(route)).status_code
        assert (status == 403) == (door_of(pattern.callback) == "owners"), route
        assert status in (200, 302, 403, 404, 405), route


def test_a_build_of_ones_other_workshop_is_not_reached_through_this_one(
    client: Client, demonstration: Person
) -> None:
    elsewhere = Workshop.objects.create(name="Elsewhere", slug="elsewhere")
    Membership.objects.create(person=demonstration, workshop=elsewhere, role=Role.OWNER)
    for route, _ in OF_WORKSHOPS:
        if "<str:number>" in route:
            address = filled(route).replace("thornbank-workshop", "elsewhere")
            assert client.get(address).status_code in (404, 405), route


def forgotten(request: HttpRequest) -> HttpResponse:
    return HttpResponse("seen")


urlpatterns = [path("forgotten/", forgotten), *get_resolver().url_patterns]


@pytest.mark.urls(__name__)
def test_a_view_without_a_mark_is_shut(client: Client, demonstration: Person) -> None:
    client.force_login(demonstration)
    assert client.get("/forgotten/").status_code == 404


def test_rows_of_builds_are_reached_by_workshop_or_person_alone() -> None:
    """`Build.rows` is followed by `.of` or `.for_person` wherever a request is answered."""
    for file in Path("buildlog").rglob("*.py"):
        if "migrations" in file.parts or file.name in ("actions.py", "lookup.py", "saving.py"):
            continue
        for node in ast.walk(ast.parse(file.read_text(encoding="utf-8"))):
            if isinstance(node, ast.Attribute) and isinstance(node.value, ast.Attribute):
                inner = node.value
                if inner.attr == "rows" and isinstance(inner.value, ast.Name) and inner.value.id == "Build":
                    assert node.attr in ("of", "for_person"), f"{file}:{node.lineno}"


def test_no_form_is_taken_without_its_token(demonstration: Person) -> None:
    """A page of another site can have a browser post anywhere, with its cookies, but not with this."""
    client = Client(enforce_csrf_checks=True)
    client.get("/")
    before = list(Build.rows.order_by("pk").values_list("number", "stamp"))
    for route, _, _ in EVERY:
        for method in ("post", "put", "patch", "delete"):
            assert ask(client, method, route).status_code == 403, (method, route)
    assert list(Build.rows.order_by("pk").values_list("number", "stamp")) == before
