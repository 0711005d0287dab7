"""The one door: before a view runs it is settled who asks, and what they may do here.

Every address that has a `workshop` in it is proven against the person's membership, and the view finds
the workshop in `request.workshop`. A stranger gets 404; nobody (not signed in) is asked to sign in. Reading
is for every member, changing (any method but GET, HEAD and OPTIONS) for owners and makers. An address
without a workshop must say by one of the marks below for whom it is: a view without a mark answers 404 to
everybody, so that forgetting shuts the door.
"""

from __future__ import annotations

from collections.abc import Callable
from typing import Any, Literal, TypeVar, cast
from urllib.parse import urlencode

from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import render
from django.urls import reverse

from buildlog.workshops.models import Membership, Person, Role, Workshop
from buildlog.workshops.units import remember_units

View = TypeVar("View", bound=Callable[..., Any])
Door = Literal["all", "signed in", "viewers", "owners"]
SAFE = ("GET", "HEAD", "OPTIONS")


class WorkshopRequest(HttpRequest):
    """A request that has come through the door of a workshop."""

    user: Person
    workshop: Workshop
    membership: Membership


def open_to_all(view: View) -> View:
    """Mark a view that shows no workshop's data: whoever asks may see it."""
    return _marked(view, "all")


def for_signed_in(view: View) -> View:
    """Mark a view that is about the person who asks."""
    return _marked(view, "signed in")


def for_viewers(view: View) -> View:
    """Mark a workshop's view whose POST changes no build, so that viewers may use it too."""
    return _marked(view, "viewers")


def for_owners(view: View) -> View:
    """Mark a workshop's view that only its owners may open."""
    return _marked(view, "owners")


def _marked(view: View, door: Door) -> View:
    view.door = door  # type: ignore[attr-defined]
    return view


def door_of(view: Callable[..., Any]) -> Door | None:
    """The mark of a view, or None."""
    return getattr(view, "door", None)


class OneDoor:
    """The middleware that keeps the door."""

    def __init__(self, get_response: Callable[[HttpRequest], HttpResponse]) -> None:
        self.get_response = get_response

    def __call__(self, request: HttpRequest) -> HttpResponse:
        return self.get_response(request)

    def process_view(
        self, request: HttpRequest, view: Callable[..., Any], args: tuple[Any, ...], kwargs: dict[str, Any]
    ) -> HttpResponse | None:
        """Let the request through (None), send it to sign in, or refuse it."""
        door = door_of(view)
        if any("\x00" in value for value in kwargs.values() if isinstance(value, str)):
            raise Http404("an address that PostgreSQL could not look up")
        remember_units(request)
        if door == "all":
            return None
        if "workshop" not in kwargs and door != "signed in":
            raise Http404("a view that nobody has opened")
        if not request.user.is_authenticated:
            return ask_to_sign_in(request)
        if door == "signed in":
            return None
        member = membership_in(request.user, kwargs["workshop"])
        if member is None:
            raise Http404("no such workshop of this person")
        through = cast(WorkshopRequest, request)
        through.workshop, through.membership = member.workshop, member
        if door == "owners" and member.role != Role.OWNER:
            return refuse(request, "Only an owner of the workshop can open this page.")
        if request.method not in SAFE and not member.may_change and door != "viewers":
            return refuse(
                request,
                "You are a viewer here: you can read and print, but an owner or maker must change it.",
            )
        return None


def membership_in(person: Person, slug: str) -> Membership | None:
    """The person's membership in the workshop with this slug, with the workshop, in one query."""
    return person.memberships.select_related("workshop").filter(workshop__slug=slug).first()


def ask_to_sign_in(request: HttpRequest) -> HttpResponse:
    """Send somebody who is not signed in to the sign-in page, to come back afterwards where that is safe."""
    address = reverse("people:sign-in")
    if request.method in SAFE:
        address += "?" + urlencode({"next": request.get_full_path()})
    return HttpResponseRedirect(address)


def refuse(request: HttpRequest, says: str) -> HttpResponse:
    """Answer 403 with the reason."""
    return render(request, "workshops/refused.html", {"says": says}, status=403)
