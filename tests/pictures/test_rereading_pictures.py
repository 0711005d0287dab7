"""Photographs that come back: as they were where they are ours, made anew where they are not."""

from __future__ import annotations

from hashlib import sha256
from io import BytesIO

import pytest
from PIL import Image

from buildlog.pictures.reading import FULL_SIDE, read_picture
from buildlog.pictures.rereading import read_again
from calculators.quantities.errors import InputError


def picture(width: int = 400, height: int = 300, **options: object) -> bytes:
    image = Image.effect_noise((width, height), 60).convert("RGB")
    file = BytesIO()
    image.save(file, "JPEG", **options)
    return file.getvalue()


def test_what_was_kept_once_is_kept_byte_for_byte() -> None:
    first = read_picture(picture(3000, 2000, exif=b"Exif\0\0II*\0\x08\0\0\0\0\0"), "a.jpg")
    assert max(first.width, first.height) == FULL_SIDE
    again = read_again(first.full, "a.jpg")
    assert (again.full, again.digest) == (first.full, first.digest)
    assert (again.width, again.height) == (first.width, first.height)
    assert again.small.startswith(b"\xff\xd8\xff")


@pytest.mark.parametrize(
    "data",
    [
        picture(exif=b"Exif\0\0II*\0\x08\0\0\0\0\0"),
        picture(comment=b"51 deg 28 min N"),
        picture(icc_profile=b"0" * 400),
        picture() + b"hidden",
        picture(FULL_SIDE + 1, 40),
    ],
    ids=["exif", "comment", "profile", "tail", "large"],
)
def test_what_holds_more_than_the_picture_is_written_anew(data: bytes) -> None:
    again = read_again(data, "a.jpg")
    assert again.full != data
    assert again.digest == sha256(again.full).hexdigest() != sha256(data).hexdigest()
    assert read_again(again.full, "a.jpg").full == again.full


def test_a_jfif_thumbnail_does_not_pass() -> None:
    data = picture()
    assert data[:11] == b"\xff\xd8\xff\xe0\x00\x10JFIF\0"
    with_thumbnail = data[:4] + b"\x00\x13" + data[6:18] + b"\x01\x01" + b"abc" + data[20:]
    again = read_again(with_thumbnail, "a.jpg")
    assert b"abc" not in again.full[:30]


def test_what_is_damaged_is_refused() -> None:
    with pytest.raises(InputError, match="cut off or damaged"):
        read_again(picture()[:3000], "a.jpg")
