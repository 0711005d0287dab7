"""A workshop, its people, and who belongs to which."""

from __future__ import annotations

from django.contrib.auth.models import AbstractUser
from django.db import models


class Person(AbstractUser):
    """Somebody who signs in. One name as they write it, not a first and a last one."""

    first_name = None  # type: ignore[assignment]
    last_name = None  # type: ignore[assignment]
    name = models.CharField(max_length=120, blank=True)

    def get_full_name(self) -> str:
        """The name as the person writes it, or the sign-in name while there is none."""
        return self.name or self.username

    def get_short_name(self) -> str:
        """The same name: nobody's name is cut up."""
        return self.get_full_name()


class Workshop(models.Model):
    """The people who share builds, stock and settings; every row of data belongs to one."""

    name = models.CharField(max_length=120)
    people = models.ManyToManyField(Person, through="Membership", related_name="workshops")

    def __str__(self) -> str:
        return self.name


class Membership(models.Model):
    """One person in one workshop."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="memberships")
    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="memberships")

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=["person", "workshop"], name="person_once_in_workshop"),
        )

    def __str__(self) -> str:
        return f"{self.person} in {self.workshop}"
