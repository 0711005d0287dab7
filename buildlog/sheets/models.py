"""A sheet that takes long to print: how far it is, and its PDF when it is done."""

from __future__ import annotations

from django.db import models
from django.utils import timezone

from buildlog.builds.models import Build
from buildlog.workshops.models import Person


class State(models.TextChoices):
    """How far a printing is."""

    WORKING = "working", "working"
    DONE = "done", "done"
    CANCELLED = "cancelled", "cancelled"
    FAILED = "failed", "failed"


class Printing(models.Model):
    """One printing of a long sheet. `seen_at` is when its worker last gave a sign of life."""

    build = models.ForeignKey(Build, on_delete=models.CASCADE, related_name="printings")
    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="+")
    name = models.CharField(max_length=20, unique=True)
    kind = models.CharField(max_length=20)
    paper = models.CharField(max_length=10)
    component = models.CharField(max_length=40, blank=True)
    state = models.CharField(max_length=10, choices=State.choices, default=State.WORKING)
    says = models.CharField(max_length=200, default="Waiting for its turn")
    pdf = models.BinaryField(null=True)
    made_at = models.DateTimeField(auto_now_add=True)
    seen_at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return f"{self.kind} of {self.build}: {self.state}"
