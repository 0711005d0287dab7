"""Keeping photographs."""

from __future__ import annotations

from buildlog.pictures.models import Picture
from buildlog.pictures.reading import ReadPicture
from buildlog.workshops.models import Workshop


def keep_picture(workshop: Workshop, read: ReadPicture) -> Picture:
    """Keep a picture in a workshop; one that is there already is given back as it is."""
    return Picture.objects.get_or_create(
        workshop=workshop,
        digest=read.digest,
        defaults={"width": read.width, "height": read.height, "full": read.full, "small": read.small},
    )[0]
