"""How a build is kept: its header and its records as documents, and every change that was made to it.

A record (component, joint, step, entry, calculation) is one row whose document has the form of the build
file; the fields are declared once, in `calculators.planning`. Lengths stand in it as exact decimals beside
what was written. What is asked of the database (numbers, marks, order, dates) has columns of its own.
"""

from __future__ import annotations

from typing import Self

from django.db import models

from buildlog.workshops.models import Person, Workshop
from calculators.planning.model import BuildState


class BuildRows(models.QuerySet["Build"]):
    """Builds of a workshop."""

    def of(self, workshop: Workshop) -> Self:
        """Those of one workshop; views have the workshop from the door."""
        return self.filter(workshop=workshop)

    def for_person(self, person: Person) -> Self:
        """Those of all workshops of one person."""
        return self.filter(workshop__memberships__person=person)


class Build(models.Model):
    """One build. `stamp` is a new id at every change, so that what was worked out before is known as old."""

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="builds")
    number = models.CharField(max_length=100)
    title = models.CharField(max_length=200)
    state = models.CharField(max_length=20)
    due = models.DateField(null=True, blank=True)
    header = models.TextField()
    stamp = models.CharField(max_length=20)
    begun_at = models.DateTimeField(auto_now_add=True)
    changed_at = models.DateTimeField(auto_now=True)

    rows = BuildRows.as_manager()

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=["workshop", "number"], name="number_once_in_workshop"),
        )

    def __str__(self) -> str:
        return f"{self.number} {self.title}"

    @property
    def is_done(self) -> bool:
        """Whether nothing is to be done on it any more."""
        done: BuildState = "done"
        return self.state == done


class Record(models.Model):
    """One component, joint, step, entry or calculation of a build. `place` orders the records of a kind."""

    build = models.ForeignKey(Build, on_delete=models.CASCADE, related_name="records")
    kind = models.CharField(max_length=20)
    key = models.CharField(max_length=60)
    place = models.BigIntegerField()
    document = models.TextField()

    class Meta:
        ordering = ("kind", "place", "id")
        constraints = (
            models.UniqueConstraint(fields=["build", "kind", "key"], name="record_once_in_build"),
            models.UniqueConstraint(
                fields=["build", "key"],
                condition=models.Q(kind__in=("component", "joint", "calculation", "stock")),
                name="mark_once_in_build",
            ),
        )

    def __str__(self) -> str:
        return f"{self.kind} {self.key}"


class Change(models.Model):
    """One action of a person on a build: who, when, what in a sentence, why. Undoing is a change too.

    `undoes` is the change that this one takes back; where that was itself an undoing, this is a redoing.
    """

    build = models.ForeignKey(Build, on_delete=models.CASCADE, related_name="changes")
    person = models.ForeignKey(Person, on_delete=models.SET_NULL, null=True, related_name="+")
    at = models.DateTimeField(auto_now_add=True)
    says = models.CharField(max_length=300)
    reason = models.TextField(blank=True)
    undoes = models.OneToOneField(
        "self", on_delete=models.SET_NULL, null=True, blank=True, related_name="undone_by"
    )
    is_redo = models.BooleanField(default=False)
    is_undoable = models.BooleanField(default=True)

    class Meta:
        ordering = ("-id",)
        indexes = (models.Index(fields=["build", "person", "-id"], name="changes_of_a_person"),)

    def __str__(self) -> str:
        return self.says

    @property
    def is_undo(self) -> bool:
        """Whether it takes back what a person had done."""
        return self.undoes_id is not None and not self.is_redo


class Altered(models.Model):
    """One record (or the header: kind `build`) in a change, as it was and as it became; '' is not there."""

    change = models.ForeignKey(Change, on_delete=models.CASCADE, related_name="altered")
    kind = models.CharField(max_length=20)
    key = models.CharField(max_length=60)
    old = models.TextField(blank=True)
    new = models.TextField(blank=True)
    old_place = models.BigIntegerField(null=True)
    new_place = models.BigIntegerField(null=True)

    class Meta:
        ordering = ("id",)

    def __str__(self) -> str:
        return f"{self.kind} {self.key}"
