"""Sheets: those that take long to print, with how far they are, and those that were printed."""

from __future__ import annotations

from django.db import models
from django.utils import timezone

from buildlog.builds.models import Build, Change
from buildlog.workshops.models import Person, Workshop


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
    options = models.JSONField(default=dict)
    address = models.CharField(max_length=200, blank=True)
    state = models.CharField(max_length=10, choices=State.choices, default=State.WORKING)
    says = models.CharField(max_length=200, default="Waiting for its turn")
    pdf = models.BinaryField(null=True)
    made_at = models.DateTimeField(auto_now_add=True)
    seen_at = models.DateTimeField(default=timezone.now)

    def __str__(self) -> str:
        return f"{self.kind} of {self.build}: {self.state}"


class PrintedSheet(models.Model):
    """One sheet as it was printed: what it shows, and when it was printed and by whom, first and last.

    `code` stands on the paper and leads here, `title` is what its kind is called, `options` are the choices
    of its kind. `facts` is all that it says that matters at the bench (`buildlog.sheets.recording` writes and
    reads it), `digest` a short text that is another where one of the facts is. `shows` lists the parts on it,
    each with its revision and a digest of its own facts. `last_change` is the number of the build's last
    change before it was printed. `gone` says that the paper is thrown away. It belongs to the installation
    and is not in the build file.
    """

    build = models.ForeignKey(Build, on_delete=models.CASCADE, related_name="printed")
    code = models.CharField(max_length=8)
    kind = models.CharField(max_length=20)
    title = models.CharField(max_length=60, blank=True)
    component = models.CharField(max_length=40, blank=True)
    options = models.JSONField(default=dict)
    paper = models.CharField(max_length=10)
    digest = models.CharField(max_length=16)
    facts = models.BinaryField()
    shows = models.JSONField(default=list)
    person = models.ForeignKey(Person, on_delete=models.SET_NULL, null=True, related_name="+")
    first_at = models.DateTimeField(default=timezone.now)
    last_at = models.DateTimeField(default=timezone.now)
    times = models.PositiveIntegerField(default=1)
    last_change = models.BigIntegerField(default=0)
    gone = models.BooleanField(default=False)

    class Meta:
        ordering = ("-last_at", "-id")
        constraints = (models.UniqueConstraint(fields=["build", "code"], name="code_once_in_build"),)
        indexes = (models.Index(fields=["code"], name="printed_by_code"),)

    def __str__(self) -> str:
        return f"{self.kind} of {self.build}: {self.code}"


class PrinterReading(models.Model):
    """What the check rules of one of the workshop's printers measured once, and how long they were drawn.

    The newest of a name counts, for every build of the workshop; one whose `change` of a build was undone
    does not. The build keeps what was read for it too, and its file carries that along.
    """

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="printer_readings")
    printer = models.CharField(max_length=60)
    along_mm = models.DecimalField(max_digits=7, decimal_places=3)
    across_mm = models.DecimalField(max_digits=7, decimal_places=3)
    along_drawn_mm = models.DecimalField(max_digits=7, decimal_places=3, default=100)
    across_drawn_mm = models.DecimalField(max_digits=7, decimal_places=3, default=100)
    on = models.DateField()
    person = models.ForeignKey(Person, on_delete=models.SET_NULL, null=True, related_name="+")
    change = models.ForeignKey(Change, on_delete=models.SET_NULL, null=True, related_name="+")

    class Meta:
        indexes = (models.Index(fields=["workshop", "-id"], name="printers_of_a_workshop"),)

    def __str__(self) -> str:
        return f"{self.printer}: {self.along_mm} along, {self.across_mm} across"
