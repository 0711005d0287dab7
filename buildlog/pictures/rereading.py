"""A photograph that comes back from an archive of ours.

Writing a JPEG anew changes its bytes and so its digest. One that is already as it would be kept (a plain
JPEG of at most the kept size, with nothing in it but the picture) is kept byte for byte, so that a build
that is written, read and written again is the same file; any other is made anew like a photograph from
outside.
"""

from __future__ import annotations

from hashlib import sha256
from io import BytesIO

from PIL import Image

from buildlog.pictures.formats import jpeg
from buildlog.pictures.reading import FULL_SIDE, ReadPicture, read_picture

_HEAD = b"\xff\xd8\xff\xe0\x00\x10JFIF\0"
"""How a file that was written here begins: a JFIF segment without room for a thumbnail."""


def read_again(data: bytes, name: str) -> ReadPicture:
    """Read a photograph, keeping its bytes where they are as we write them. Raises InputError."""
    read = read_picture(data, name)  # decodes it whole, so that what is damaged is refused
    if not _is_plain(data):
        return read
    return ReadPicture(data, read.small, read.width, read.height, sha256(data).hexdigest())


def _is_plain(data: bytes) -> bool:
    """Whether a JPEG that could be decoded holds a picture of the kept size and nothing else."""
    if not data.startswith(_HEAD) or data.count(b"\xff\xe0") != 1:
        return False
    looked = jpeg.look(data)
    if looked.data != data or max(looked.width, looked.height) > FULL_SIDE:
        return False  # something was left out: metadata, a comment, what was hung on
    with Image.open(BytesIO(data), formats=("JPEG",)) as image:
        return image.mode == "RGB" and "icc_profile" not in image.info and "adobe" not in image.info
