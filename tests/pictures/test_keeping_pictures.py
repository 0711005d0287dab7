"""Pictures kept in the database, found by their digests, and shown."""

from __future__ import annotations

from io import BytesIO
from uuid import uuid4

import pytest
from django.db import IntegrityError, transaction
from django.http import Http404
from django.test import RequestFactory
from django.urls import resolve, reverse
from PIL import Image

from buildlog.pictures.actions import keep_picture
from buildlog.pictures.models import Picture
from buildlog.pictures.queries import file_of, missing_digests, picture_of, pictures_of
from buildlog.pictures.reading import ReadPicture, read_picture
from buildlog.pictures.views import picture
from buildlog.workshops.models import Workshop

pytestmark = pytest.mark.database


def read(shade: int = 90) -> ReadPicture:
    file = BytesIO()
    Image.new("RGB", (600, 300), (shade, 80, 70)).save(file, "PNG")
    return read_picture(file.getvalue(), "x.png")


@pytest.fixture
def workshop() -> Workshop:
    return Workshop.objects.create(name="The shed", slug="the-shed")


@pytest.fixture
def another() -> Workshop:
    return Workshop.objects.create(name="Another", slug="another")


def test_a_picture_is_kept_whole_and_once(workshop):
    photograph = read()
    kept = keep_picture(workshop, photograph)
    assert keep_picture(workshop, photograph).pk == kept.pk
    assert Picture.objects.count() == 1
    kept.refresh_from_db()
    assert (kept.digest, kept.width, kept.height) == (photograph.digest, 600, 300)
    assert (bytes(kept.full), bytes(kept.small)) == (photograph.full, photograph.small)


def test_each_workshop_has_its_own(workshop, another):
    photograph = read()
    assert keep_picture(workshop, photograph).pk != keep_picture(another, photograph).pk
    with pytest.raises(IntegrityError), transaction.atomic():
        Picture.objects.create(
            workshop=another, digest=photograph.digest, width=1, height=1, full=b"", small=b""
        )


def test_a_picture_is_not_kept_when_the_change_around_it_fails(workshop):
    with transaction.atomic():
        keep_picture(workshop, read())
        transaction.set_rollback(True)
    assert not Picture.objects.exists()


def test_pictures_are_found_by_their_digest_in_their_workshop_alone(
    workshop, another, django_assert_num_queries
):
    photograph = read()
    kept = keep_picture(workshop, photograph)
    with django_assert_num_queries(1):
        assert picture_of(workshop, photograph.digest) == kept
    with django_assert_num_queries(2):
        assert file_of(workshop, photograph.digest, "full") == photograph.full
        assert file_of(workshop, photograph.digest, "small") == photograph.small
    assert picture_of(another, photograph.digest) is None
    assert file_of(another, photograph.digest, "full") is None
    assert picture_of(workshop, "0" * 64) is None


def test_missing_digests_in_one_query(workshop, another, django_assert_num_queries):
    digests = [keep_picture(workshop, read(shade)).digest for shade in (10, 120, 240)]
    elsewhere = keep_picture(another, read(60)).digest
    with django_assert_num_queries(1):
        assert missing_digests(workshop, [*digests, elsewhere, "b", "b", "a"]) == (elsewhere, "b", "a")
    with django_assert_num_queries(1):
        assert set(pictures_of(workshop, [*digests, elsewhere])) == set(digests)
    assert missing_digests(workshop, []) == ()


def shown(workshop: Workshop, digest: str, size: str = "full", method: str = "get", **headers: str):
    request = getattr(RequestFactory(), method)("/", headers=headers)
    request.workshop = workshop
    return picture(request, workshop=workshop.slug, digest=digest, size=size)


def test_a_picture_is_shown_with_its_headers(workshop):
    photograph = read()
    keep_picture(workshop, photograph)
    for size in ("full", "small"):
        response = shown(workshop, photograph.digest, size)
        assert response.status_code == 200
        assert response.content == getattr(photograph, size)
        assert dict(response.headers) == {
            "Content-Type": "image/jpeg",
            "X-Content-Type-Options": "nosniff",
            "Cache-Control": "private, max-age=31536000, immutable",
            "Content-Disposition": f'inline; filename="picture-{photograph.digest[:12]}-{size}.jpg"',
            "ETag": f'"{photograph.digest}-{size}"',
        }


def test_a_browser_that_has_it_is_not_sent_it_again(workshop):
    photograph = read()
    keep_picture(workshop, photograph)
    etag = shown(workshop, photograph.digest)["ETag"]
    again = shown(workshop, photograph.digest, **{"if-none-match": etag})
    assert (again.status_code, again.content) == (304, b"")
    assert shown(workshop, photograph.digest, "small", **{"if-none-match": etag}).status_code == 200


def test_a_picture_of_another_workshop_is_not_there(workshop, another):
    photograph = read()
    keep_picture(another, photograph)
    with pytest.raises(Http404):
        shown(workshop, photograph.digest)
    with pytest.raises(Http404):
        shown(workshop, uuid4().hex * 2)


def test_a_picture_is_only_asked_for(workshop):
    assert shown(workshop, "0" * 64, method="post").status_code == 405


@pytest.mark.urls("buildlog.pictures.urls")
def test_the_address_takes_a_digest_and_a_size_alone():
    digest = "0123456789abcdef" * 4
    assert reverse("picture", kwargs={"digest": digest, "size": "small"}) == f"/{digest}-small.jpg"
    assert resolve(f"/{digest}-full.jpg").kwargs == {"digest": digest, "size": "full"}
    for wrong in (
        f"/{digest}-large.jpg",
        f"/{digest[1:]}-full.jpg",
        f"/{digest.upper()}-full.jpg",
        f"/{digest}-full.png",
        f"/{digest}-full.jpg/",
    ):
        with pytest.raises(Http404):
            resolve(wrong)
