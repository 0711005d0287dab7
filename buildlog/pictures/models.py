"""The photographs of a workshop.

The files lie in the database: a row and its picture are saved in one transaction, so that no file is ever
left behind without its row, and a copy of the database holds everything.
"""

from __future__ import annotations

from django.db import models

from buildlog.workshops.models import Workshop


class Picture(models.Model):
    """One photograph, as two JPEG files; `digest` is the SHA-256 of `full` and names it in a build.

    It stays when no entry shows it any more: undoing a change may bring the entry back.
    """

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="pictures")
    digest = models.CharField(max_length=64)
    width = models.PositiveIntegerField()
    height = models.PositiveIntegerField()
    full = models.BinaryField()
    small = models.BinaryField()

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=["workshop", "digest"], name="picture_once_in_workshop"),
        )

    def __str__(self) -> str:
        return self.digest[:12]
