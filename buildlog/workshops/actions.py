"""Every write to people and workshops."""

from __future__ import annotations

import secrets
from datetime import timedelta
from hashlib import sha256

from django.db import IntegrityError, connection, transaction
from django.utils import timezone
from django.utils.crypto import constant_time_compare, salted_hmac
from django.utils.text import slugify

from buildlog.workshops.models import Invitation, Membership, Person, Role, Workshop
from calculators.quantities.errors import InputError

OPEN_FOR = timedelta(days=14)
"""How long an invitation can be taken."""

_BEGINNING = 0x0DD1E6
"""Names the lock in PostgreSQL of those that begin a workshop; any number does."""

_SIGNS = "23456789abcdefghjkmnpqrstvwxyz"
"""What a set-up code is made of: nothing that is misread."""


def begin_workshop(name: str, owner: Person) -> Workshop:
    """Make a workshop with its first owner. Its slug follows from its name, with a number where needed."""
    base = slugify(name)[:50] or "workshop"
    with transaction.atomic():
        _alone()
        taken = set(Workshop.objects.filter(slug__startswith=base).values_list("slug", flat=True))
        slug, count = base, 1
        while slug in taken:
            count += 1
            slug = f"{base}-{count}"
        workshop = Workshop.objects.create(name=name, slug=slug)
        Membership.objects.create(workshop=workshop, person=owner, role=Role.OWNER)
    return workshop


def _alone() -> None:
    """Wait until no other transaction begins a workshop. SQLite has one writer at a time as it is."""
    if connection.vendor == "postgresql":
        with connection.cursor() as cursor:
            cursor.execute("SELECT pg_advisory_xact_lock(%s)", [_BEGINNING])


def change_habits(workshop: Workshop, habits: str) -> None:
    """Keep what the workshop's new builds begin with, a document that was read to see that it is sound."""
    workshop.habits = habits
    workshop.save(update_fields=["habits"])


def set_up_code() -> str:
    """The code that lets somebody become the first owner; it follows from the installation's secret key."""
    digest = int.from_bytes(salted_hmac("first owner", "set up").digest()[:8], "big")
    return "".join(_SIGNS[(digest // len(_SIGNS) ** place) % len(_SIGNS)] for place in range(8))


@transaction.atomic
def make_first_owner(username: str, name: str, password: str, workshop: str, code: str) -> Person:
    """Make the first person of an installation and their workshop; InputError where the code is wrong."""
    if not constant_time_compare(code.strip().lower(), set_up_code()):
        raise InputError.of(
            "That is not the code that `python3 manage.py set-up-code` prints on the server.", field="code"
        )
    _alone()
    if Person.objects.exists():
        raise InputError.of("This installation has an owner already; sign in, or ask for an invitation.")
    person = Person.objects.create_user(username, password=password, name=name)
    begin_workshop(workshop, person)
    return person


def invite(workshop: Workshop, by: Person, name: str, role: str) -> tuple[Invitation, str]:
    """Make an invitation; the secret that its link carries is given once and kept nowhere."""
    secret = secrets.token_urlsafe(24)
    invitation = Invitation.objects.create(
        workshop=workshop,
        role=role,
        name=name,
        digest=_digest(secret),
        made_by=by,
        open_until=timezone.now() + OPEN_FOR,
    )
    return invitation, secret


def find_invitation(secret: str) -> Invitation | None:
    """The invitation that a link carries, where it is still open."""
    found = Invitation.objects.filter(digest=_digest(secret), taken_by=None, open_until__gt=timezone.now())
    return found.select_related("workshop", "made_by").first()


def withdraw_invitation(workshop: Workshop, pk: int) -> bool:
    """Take back an invitation that nobody has taken; False where there is none."""
    gone, _ = Invitation.objects.filter(workshop=workshop, pk=pk, taken_by=None).delete()
    return bool(gone)


@transaction.atomic
def take_invitation(invitation: Invitation, person: Person) -> Membership:
    """Let a person in with the role of an invitation, once; InputError where somebody was quicker."""
    still = Invitation.objects.filter(pk=invitation.pk, taken_by=None, open_until__gt=timezone.now())
    if not still.update(taken_by=person):
        raise InputError.of("This invitation is not open any more; ask for another.")
    membership, is_new = Membership.objects.get_or_create(
        workshop=invitation.workshop, person=person, defaults={"role": invitation.role}
    )
    if not is_new and membership.role != Role.OWNER:
        membership.role = invitation.role
        membership.save(update_fields=["role"])
    return membership


def take_invitation_anew(invitation: Invitation, username: str, name: str, password: str) -> Person:
    """Let somebody new in; InputError, and nobody is made, where the name or the invitation was taken."""
    person = Person(username=Person.normalize_username(username), name=name)
    person.set_password(password)  # it takes a while, so it is done before the database is kept from others
    try:
        with transaction.atomic():
            person.save()
            take_invitation(invitation, person)
    except IntegrityError:
        raise InputError.of(
            "Somebody signs in with that name already; choose another.", field="username"
        ) from None
    return person


@transaction.atomic
def change_role(workshop: Workshop, username: str, role: str) -> Membership:
    """Give a member another role; InputError where that would leave the workshop without an owner."""
    membership = _member(workshop, username)
    if membership.role == Role.OWNER and role != Role.OWNER:
        _check_another_owner(workshop, membership)
        _withdraw_invitations_of(membership)
    membership.role = role
    membership.save(update_fields=["role"])
    return membership


@transaction.atomic
def remove_member(workshop: Workshop, username: str) -> Membership:
    """Take a person out of a workshop; what they wrote stays. InputError for the last owner."""
    membership = _member(workshop, username)
    if membership.role == Role.OWNER:
        _check_another_owner(workshop, membership)
        _withdraw_invitations_of(membership)
    membership.delete()
    return membership


def _member(workshop: Workshop, username: str) -> Membership:
    Workshop.objects.select_for_update().get(pk=workshop.pk)  # one change of its people at a time
    members = workshop.memberships.select_related("person")
    membership = next((each for each in members if each.person.username == username), None)
    if membership is None:
        raise InputError.of("Nobody of that name is in this workshop any more.")
    return membership


def _check_another_owner(workshop: Workshop, membership: Membership) -> None:
    if not workshop.memberships.filter(role=Role.OWNER).exclude(pk=membership.pk).exists():
        raise InputError.of(
            f"{membership.person.get_full_name()} is the only owner; make somebody else an owner first."
        )


def _withdraw_invitations_of(membership: Membership) -> None:
    """Close the links that an owner has made and may have kept: they would lead back in."""
    Invitation.objects.filter(
        workshop=membership.workshop_id, made_by=membership.person_id, taken_by=None
    ).delete()


def _digest(secret: str) -> str:
    return sha256(secret.encode("utf-8", "surrogatepass")).hexdigest()
