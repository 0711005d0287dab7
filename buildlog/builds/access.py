"""The one door to builds: a person sees those of their own workshops, and a stranger gets 404."""

from __future__ import annotations

from django.conf import settings
from django.contrib.auth.models import AnonymousUser
from django.http import Http404

from buildlog.builds.queries import demonstration_numbers, worked_demonstration
from buildlog.workshops.models import Person
from calculators.planning.worked import WorkedBuild


def builds_of(person: Person | AnonymousUser) -> tuple[WorkedBuild, ...]:
    """The builds of the person's workshops, worked out, in the order of their numbers."""
    if not (settings.DEMO and isinstance(person, Person) and person.is_authenticated):
        return ()
    names = set(person.workshops.values_list("name", flat=True))
    every = (worked_demonstration(number) for number in demonstration_numbers())
    return tuple(worked for worked in every if worked and worked.build.workshop in names)


def build_of(person: Person | AnonymousUser, number: str) -> WorkedBuild:
    """One build of the person's workshops; Http404 for a number that is not there or not theirs."""
    for worked in builds_of(person):
        if worked.build.number == number:
            return worked
    raise Http404(f"no build {number}")
