"""Photographs of a workshop by their digests."""

from __future__ import annotations

from collections.abc import Iterable
from typing import Literal

from buildlog.pictures.models import Picture
from buildlog.workshops.models import Workshop

Size = Literal["full", "small"]


def picture_of(workshop: Workshop, digest: str) -> Picture | None:
    """The picture with this digest; its two files are only read when they are asked for."""
    return Picture.objects.filter(workshop=workshop, digest=digest).defer("full", "small").first()


def file_of(workshop: Workshop, digest: str, size: Size) -> bytes | None:
    """One of the two JPEG files of a picture, in one query; None where there is none."""
    found = Picture.objects.filter(workshop=workshop, digest=digest).values_list(size, flat=True).first()
    return None if found is None else bytes(found)  # PostgreSQL gives a view of memory


def missing_digests(workshop: Workshop, digests: Iterable[str]) -> tuple[str, ...]:
    """Which of the digests the workshop has no picture for, each once, in their order; one query."""
    wanted = dict.fromkeys(digests)
    there = set(Picture.objects.filter(workshop=workshop, digest__in=wanted).values_list("digest", flat=True))
    return tuple(digest for digest in wanted if digest not in there)


def pictures_of(workshop: Workshop, digests: Iterable[str]) -> dict[str, Picture]:
    """The pictures that are there of the digests, without their files; one query."""
    found = Picture.objects.filter(workshop=workshop, digest__in=set(digests)).defer("full", "small")
    return {picture.digest: picture for picture in found}
