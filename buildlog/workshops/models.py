"""A workshop, its people with their roles, and the invitations that bring people in."""

from __future__ import annotations

from django.contrib.auth.models import AbstractUser
from django.db import models


class Role(models.TextChoices):
    """What somebody may do in a workshop."""

    OWNER = "owner", "owner: everything, people and settings too"
    MAKER = "maker", "maker: reads and changes builds"
    VIEWER = "viewer", "viewer: reads and prints"


class Units(models.TextChoices):
    """Which lengths a person's pages show."""

    MM = "mm", "mm"
    INCHES = "in", "in"
    BOTH = "both", "both"


class Person(AbstractUser):
    """Somebody who signs in. One name as they write it, not a first and a last one."""

    first_name = None  # type: ignore[assignment]
    last_name = None  # type: ignore[assignment]
    name = models.CharField(max_length=120, blank=True)
    units = models.CharField(max_length=4, choices=Units.choices, default=Units.BOTH)

    def get_full_name(self) -> str:
        """The name as the person writes it, or the sign-in name while there is none."""
        return self.name or self.username

    def get_short_name(self) -> str:
        """The same name: nobody's name is cut up."""
        return self.get_full_name()


class Workshop(models.Model):
    """The people who share builds, stock and settings; every row of data belongs to one.

    `slug` stands for it in addresses. `habits` is the context that a new build begins with: a JSON document
    in the form of the build file's `context`.
    """

    name = models.CharField(max_length=120)
    slug = models.SlugField(max_length=60, unique=True)
    habits = models.TextField(default="{}")
    people = models.ManyToManyField(Person, through="Membership", related_name="workshops")

    def __str__(self) -> str:
        return self.name


class Membership(models.Model):
    """One person in one workshop, with a role."""

    person = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="memberships")
    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="memberships")
    role = models.CharField(max_length=10, choices=Role.choices, default=Role.MAKER)

    class Meta:
        constraints = (
            models.UniqueConstraint(fields=["person", "workshop"], name="person_once_in_workshop"),
        )

    def __str__(self) -> str:
        return f"{self.person} in {self.workshop}"

    @property
    def may_change(self) -> bool:
        """Whether the person may change builds."""
        return self.role in (Role.OWNER, Role.MAKER)


class Invitation(models.Model):
    """A link that lets one person into a workshop with a role, once, until a date.

    Only the digest of the link's secret is kept.
    """

    workshop = models.ForeignKey(Workshop, on_delete=models.CASCADE, related_name="invitations")
    role = models.CharField(max_length=10, choices=Role.choices, default=Role.MAKER)
    name = models.CharField(max_length=120)
    digest = models.CharField(max_length=64, unique=True)
    made_by = models.ForeignKey(Person, on_delete=models.CASCADE, related_name="+")
    made_at = models.DateTimeField(auto_now_add=True)
    open_until = models.DateTimeField()
    taken_by = models.ForeignKey(Person, on_delete=models.SET_NULL, null=True, related_name="+")

    def __str__(self) -> str:
        return f"{self.name}, {self.role} of {self.workshop}"
