"""The demonstration workshop and the person who is signed in to it. All names are invented."""

from __future__ import annotations

from django.db import transaction

from buildlog.workshops.models import Membership, Person, Workshop

USERNAME = "ines"
NAME = "Ines Hallam"
WORKSHOP = "Thornbank Workshop"


@transaction.atomic
def make_demonstration() -> Person:
    """Make the demonstration's person and workshop, or find them. The person has no password to guess."""
    person, is_new = Person.objects.get_or_create(username=USERNAME, defaults={"name": NAME})
    if is_new:
        person.set_unusable_password()
        person.save(update_fields=["password"])
    if not person.memberships.exists():
        Membership.objects.create(person=person, workshop=Workshop.objects.create(name=WORKSHOP))
    return person


def demonstration_person() -> Person | None:
    """Find the demonstration's person."""
    return Person.objects.filter(username=USERNAME, is_active=True).first()
