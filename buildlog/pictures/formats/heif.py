"""HEIC and HEIF: the size of the main picture as its description states it.

The library turns the picture itself, as the format wants, so Exif's turn is not asked; and it refuses a
picture that comes out larger than its description says before it decodes it.
"""

from __future__ import annotations

from io import BytesIO

import pillow_heif

from buildlog.pictures.formats.looked import Looked

pillow_heif.options.THUMBNAILS = False
pillow_heif.options.DEPTH_IMAGES = False
pillow_heif.options.AUX_IMAGES = False


def is_one(data: bytes) -> bool:
    """Whether its first box names one of the kinds that the library reads."""
    return data[4:8] == b"ftyp" and data[8:12] in (b"heic", b"heix", b"heim", b"heis", b"mif1", b"msf1")


def look(data: bytes) -> Looked:
    """Look at the description of the main picture; nothing is decoded. Raises what the library raises."""
    width, height = pillow_heif.open_heif(BytesIO(data)).size
    return Looked("HEIF", width, height, data)
