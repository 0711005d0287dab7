"""A workshop with its standing cast and a build with three entries, for the tests of the journal."""

from __future__ import annotations

from collections.abc import Callable
from datetime import date
from decimal import Decimal
from io import BytesIO

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.test import Client
from PIL import Image

from buildlog.builds.actions import begin_build
from buildlog.builds.models import Build
from buildlog.workshops.models import Membership, Person, Role, Workshop
from calculators.planning import model as plain

HERE = "/workshops/shed/builds/B1/journal/"


@pytest.fixture
def shop(db: None) -> Workshop:
    return Workshop.objects.create(name="Shed", slug="shed")


@pytest.fixture
def row(shop: Workshop) -> Build:
    build = plain.Build(
        "B1",
        "Stool",
        components=tuple(plain.Component(mark, f"part {mark}", quantity=2) for mark in ("P01", "P11", "P12")),
        joints=(plain.Joint("F03", "Leg to seat", "M5 x 20 csk"),),
        entries=(
            plain.Entry("e1", date(2026, 1, 5), "Sawed the legs.", Decimal("2.5"), ("P11",)),
            plain.Entry(
                "e2", date(2026, 1, 9), "Drilled.", None, ("F03", "P01"), "Brass, not steel: it shows."
            ),
            plain.Entry(
                "e3", date(2026, 1, 7), "Glued **two** legs.", Decimal("0.75"), (), "", "Clean them up"
            ),
        ),
    )
    return begin_build(shop, None, build, "Begun")


def member(shop: Workshop, name: str, role: Role) -> Person:
    person = Person.objects.create(username=name, name=name.title())
    Membership.objects.create(person=person, workshop=shop, role=role)
    return person


@pytest.fixture
def owner(shop: Workshop) -> Person:
    return member(shop, "owner", Role.OWNER)


@pytest.fixture
def maker(shop: Workshop) -> Person:
    return member(shop, "maker", Role.MAKER)


@pytest.fixture
def viewer(shop: Workshop) -> Person:
    return member(shop, "viewer", Role.VIEWER)


@pytest.fixture
def stranger(db: None) -> Person:
    elsewhere = Workshop.objects.create(name="Elsewhere", slug="elsewhere")
    return member(elsewhere, "stranger", Role.OWNER)


@pytest.fixture
def as_maker(client: Client, maker: Person, row: Build) -> Client:
    client.force_login(maker)
    return client


@pytest.fixture
def photograph() -> Callable[..., SimpleUploadedFile]:
    """Make the file of a photograph; each shade is another picture."""

    def make(shade: int = 90, name: str = "IMG_0001.JPG") -> SimpleUploadedFile:
        file = BytesIO()
        Image.new("RGB", (600, 300), (shade, 80, 70)).save(file, "JPEG")
        return SimpleUploadedFile(name, file.getvalue(), content_type="image/jpeg")

    return make
