"""The demonstration: its workshop, its people and its three builds, made once."""

from __future__ import annotations

from django.db import transaction

from buildlog.builds.actions import begin_build
from buildlog.builds.lookup import demonstration_build, demonstration_numbers
from buildlog.builds.models import Build
from buildlog.workshops.demonstration import demonstration_person, make_people
from buildlog.workshops.models import Person
from calculators.planning.documents import write_context


@transaction.atomic
def make_demonstration() -> Person:
    """Make what is missing of the demonstration; a build that is there is left as people have changed it."""
    workshop = make_people()
    there = set(Build.rows.of(workshop).values_list("number", flat=True))
    for number in demonstration_numbers():
        if number not in there:
            build = demonstration_build(number)
            begin_build(workshop, None, build, f"Read from {number}.json")
            if workshop.habits == "{}":
                workshop.habits = write_context(build.context)
                workshop.save(update_fields=["habits"])
    person = demonstration_person()
    assert person is not None
    return person
