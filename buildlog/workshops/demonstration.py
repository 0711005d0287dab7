"""The demonstration workshop, its people, and who is signed in to it. All names are invented."""

from __future__ import annotations

from django.db import transaction

from buildlog.workshops.models import Membership, Person, Role, Workshop

USERNAME = "ines"
NAME = "Ines Hallam"
WORKSHOP = "Thornbank Workshop"
SLUG = "thornbank-workshop"
OTHERS = (("rob", "Rob Teasdale", Role.MAKER), ("visitor", "A visitor", Role.VIEWER))


@transaction.atomic
def make_people() -> Workshop:
    """Make the demonstration's workshop and people, or find them. None has a password to guess."""
    workshop, _ = Workshop.objects.get_or_create(slug=SLUG, defaults={"name": WORKSHOP})
    for username, name, role in ((USERNAME, NAME, Role.OWNER), *OTHERS):
        person, is_new = Person.objects.get_or_create(username=username, defaults={"name": name})
        if is_new:
            person.set_unusable_password()
            person.save(update_fields=["password"])
        Membership.objects.get_or_create(person=person, workshop=workshop, defaults={"role": role})
    return workshop


def demonstration_person() -> Person | None:
    """Find the person that a visitor from this machine is signed in as."""
    return Person.objects.filter(username=USERNAME, is_active=True).first()
