"""Signing in and out, one's own account, the people of a workshop, and letting somebody in."""

from __future__ import annotations

from typing import Any, cast

from django.contrib import messages
from django.contrib.auth import login, logout, update_session_auth_hash
from django.contrib.auth.views import LoginView
from django.http import Http404, HttpRequest, HttpResponse, HttpResponseRedirect
from django.shortcuts import redirect, render
from django.urls import reverse
from django.utils.http import url_has_allowed_host_and_scheme
from django.views.decorators.cache import never_cache
from django.views.decorators.debug import sensitive_post_parameters
from django.views.decorators.http import require_http_methods, require_POST, require_safe

from buildlog.workshops import actions
from buildlog.workshops.door import WorkshopRequest, for_owners, for_signed_in, for_viewers, open_to_all
from buildlog.workshops.forms import (
    AccountForm,
    FirstOwnerForm,
    InviteForm,
    NewPersonForm,
    PasswordForm,
    SignInForm,
    WorkshopForm,
)
from buildlog.workshops.models import Person, Role, Units
from buildlog.workshops.units import KEPT
from calculators.quantities.errors import InputError

BACKEND = "django.contrib.auth.backends.ModelBackend"


class SignIn(LoginView):
    """Signing in; an installation without people asks for its first owner instead."""

    template_name = "workshops/sign_in.html"
    authentication_form = SignInForm

    def get(self, request: HttpRequest, *args: Any, **kwargs: Any) -> HttpResponse:
        """Show the form."""
        if not Person.objects.exists():
            return redirect("people:first-owner")
        return super().get(request, *args, **kwargs)

    def form_invalid(self, form: Any) -> HttpResponse:
        """Show it again with what is wrong."""
        return self.render_to_response(self.get_context_data(form=form), status=422)


sign_in = open_to_all(SignIn.as_view())


@for_signed_in
@require_POST
def sign_out(request: HttpRequest) -> HttpResponse:
    """Sign out."""
    logout(request)
    return redirect("people:sign-in")


@open_to_all
@require_POST
def units(request: HttpRequest) -> HttpResponse:
    """Choose the units of one's pages, and go back to the page."""
    chosen = request.POST.get("units", "")
    if chosen in Units.values:
        if request.user.is_authenticated:
            request.user.units = chosen
            request.user.save(update_fields=["units"])
        else:
            request.session[KEPT] = chosen
    back = request.POST.get("back", "")
    safe = back and url_has_allowed_host_and_scheme(back, allowed_hosts={request.get_host()})
    return HttpResponseRedirect(back if safe else reverse("start"))


@for_signed_in
@require_http_methods(["GET", "HEAD", "POST"])
@sensitive_post_parameters("old", "new")
def account(request: HttpRequest) -> HttpResponse:
    """Show and change one's own name, units and password."""
    person = cast(Person, request.user)
    now = {"name": person.get_full_name(), "units": person.units}
    what = request.POST.get("what", "")
    about = AccountForm(request.POST if what == "about" else None, initial=now)
    password = PasswordForm(person, request.POST if what == "password" else None)
    status = 200
    if what == "about" and about.is_valid():
        person.name, person.units = about.cleaned_data["name"], about.cleaned_data["units"]
        person.save(update_fields=["name", "units"])
        messages.success(request, "Your account is saved.")
        return redirect("people:account")
    if what == "password" and password.is_valid():
        person.set_password(password.cleaned_data["new"])
        person.save(update_fields=["password"])
        update_session_auth_hash(request, person)
        messages.success(request, "Your password is changed.")
        return redirect("people:account")
    if what:
        status = 422
    memberships = person.memberships.select_related("workshop").order_by("workshop__name")
    context = {
        "about": about,
        "password": password if person.has_usable_password() else None,
        "memberships": memberships,
        "signed_in": "_auth_user_id" in request.session,
    }
    return render(request, "workshops/account.html", context, status=status)


@open_to_all
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@sensitive_post_parameters("password")
def first_owner(request: HttpRequest) -> HttpResponse:
    """Make the first owner of an installation that has no people yet."""
    if Person.objects.exists():
        raise Http404("there is an owner")
    form = FirstOwnerForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        try:
            person = actions.make_first_owner(**form.cleaned_data)
        except InputError as error:
            form.add_error("code" if error.faults[0].field == "code" else None, str(error))
        else:
            login(request, person, BACKEND)
            return redirect("start")
    return render(request, "workshops/first_owner.html", {"form": form}, status=422 if form.errors else 200)


@open_to_all
@never_cache
@require_http_methods(["GET", "HEAD", "POST"])
@sensitive_post_parameters("password")
def invitation(request: HttpRequest, secret: str) -> HttpResponse:
    """Let somebody in by an invitation: the person who is signed in, or somebody new."""
    found = actions.find_invitation(secret)
    if found is None:
        return render(request, "workshops/invitation_gone.html", status=404)
    signed_in = request.user if request.user.is_authenticated else None
    form = NewPersonForm(request.POST if request.method == "POST" and not signed_in else None)
    if request.method == "POST" and (signed_in or form.is_valid()):
        try:
            if signed_in:
                actions.take_invitation(found, signed_in)
            else:
                login(request, actions.take_invitation_anew(found, **form.cleaned_data), BACKEND)
        except InputError as error:
            if error.faults[0].field != "username":
                return render(request, "workshops/invitation_gone.html", status=404)
            form.add_error("username", str(error))
        else:
            messages.success(request, f"You are in {found.workshop.name} now.")
            return redirect("start")
    context = {"invitation": found, "form": form, "signed_in": signed_in}
    return render(request, "workshops/invitation.html", context, status=422 if form.errors else 200)


@for_signed_in
@require_http_methods(["GET", "HEAD", "POST"])
def new_workshop(request: HttpRequest) -> HttpResponse:
    """Begin another workshop, whose owner one is."""
    form = WorkshopForm(request.POST if request.method == "POST" else None)
    if form.is_valid():
        workshop = actions.begin_workshop(form.cleaned_data["name"], cast(Person, request.user))
        messages.success(request, f"{workshop.name} is begun; you are its owner.")
        return redirect("people:workshop", workshop.slug)
    return render(request, "workshops/workshop_new.html", {"form": form}, status=422 if form.errors else 200)


@require_safe
def workshop(request: WorkshopRequest, workshop: str) -> HttpResponse:
    """Show a workshop: its people; owners find its settings here."""
    return _shown(request, InviteForm(), WorkshopForm(initial={"name": request.workshop.name}))


def _shown(
    request: WorkshopRequest, invite: InviteForm, rename: WorkshopForm, *, link: str = "", status: int = 200
) -> HttpResponse:
    is_owner = request.membership.role == Role.OWNER
    context = {
        "members": request.workshop.memberships.select_related("person").order_by("person__name"),
        "invitations": request.workshop.invitations.filter(taken_by=None).order_by("-made_at")
        if is_owner
        else [],
        "invite": invite,
        "rename": rename,
        "link": link,
        "roles": Role.choices,
    }
    return render(request, "workshops/workshop.html", context, status=status)


@for_owners
@never_cache
@require_POST
def invite(request: WorkshopRequest, workshop: str) -> HttpResponse:
    """Make an invitation and show its link, which is shown this once."""
    form = InviteForm(request.POST)
    rename = WorkshopForm(initial={"name": request.workshop.name})
    if not form.is_valid():
        return _shown(request, form, rename, status=422)
    made, secret = actions.invite(
        request.workshop, request.user, form.cleaned_data["name"], form.cleaned_data["role"]
    )
    link = request.build_absolute_uri(reverse("people:invitation", args=(secret,)))
    messages.success(request, f"The invitation for {made.name} is made; its link is below.")
    return _shown(request, InviteForm(), rename, link=link)


@for_owners
@require_POST
def change_member(request: WorkshopRequest, workshop: str) -> HttpResponse:
    """Give a member another role, take one out, or withdraw an invitation."""
    username, role = request.POST.get("username", ""), request.POST.get("role", "")
    withdrawn = request.POST.get("invitation", "")
    try:
        if withdrawn.isdecimal() and withdrawn.isascii() and len(withdrawn) < 16:
            gone = actions.withdraw_invitation(request.workshop, int(withdrawn))
            says = "The invitation is withdrawn." if gone else "That invitation is not open any more."
        elif role == "out":
            member = actions.remove_member(request.workshop, username)
            says = f"{member.person.get_full_name()} is no longer in {request.workshop.name}."
        elif role in Role.values:
            member = actions.change_role(request.workshop, username, role)
            says = f"{member.person.get_full_name()} is {role} now."
        else:
            raise InputError.of(f"Choose one of: {', '.join(Role.values)}.")
        messages.success(request, says)
    except InputError as error:
        messages.error(request, str(error))
    if not request.workshop.memberships.filter(person=request.user).exists():
        return redirect("start")
    return redirect("people:workshop", request.workshop.slug)


@for_owners
@require_POST
def rename(request: WorkshopRequest, workshop: str) -> HttpResponse:
    """Give the workshop another name; its address stays."""
    form = WorkshopForm(request.POST)
    if not form.is_valid():
        return _shown(request, InviteForm(), form, status=422)
    request.workshop.name = form.cleaned_data["name"]
    request.workshop.save(update_fields=["name"])
    messages.success(request, f"The workshop is called {request.workshop.name} now.")
    return redirect("people:workshop", request.workshop.slug)


@for_viewers
@require_POST
def leave(request: WorkshopRequest, workshop: str) -> HttpResponse:
    """Leave a workshop oneself."""
    try:
        actions.remove_member(request.workshop, request.user.username)
    except InputError as error:
        messages.error(request, str(error))
        return redirect("people:account")
    messages.success(request, f"You are no longer in {request.workshop.name}.")
    return redirect("start")
