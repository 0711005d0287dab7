"""WebP: the size from its first chunk, the turn from its Exif chunk.

Source: WebP container specification and RFC 9649 (2024) [from memory].
"""

from __future__ import annotations

from buildlog.pictures.formats.exif import turn_in
from buildlog.pictures.formats.looked import Damaged, Looked

MOST_CHUNKS = 5_000


def is_one(data: bytes) -> bool:
    """Whether it begins as a WebP does."""
    return data[:4] == b"RIFF" and data[8:12] == b"WEBP"


def look(data: bytes) -> Looked:
    """Look at the first chunk, and through the others for the turn. Raises Damaged."""
    whole = 8 + int.from_bytes(data[4:8], "little")
    if whole > len(data) or len(data) < 30:
        raise Damaged("cut off")
    data = data[:whole]
    turn, at = 1, 12
    for _ in range(MOST_CHUNKS):
        if at + 8 > len(data):
            break
        end = at + 8 + int.from_bytes(data[at + 4 : at + 8], "little")
        if data[at : at + 4] == b"EXIF":
            turn = turn_in(data[at + 8 : end].removeprefix(b"Exif\0\0"))
        at = end + end % 2
    else:
        raise Damaged("too many chunks")
    return Looked("WEBP", *_size(data), data, turn)


def _size(data: bytes) -> tuple[int, int]:
    name = data[12:16]
    if name == b"VP8X":
        return int.from_bytes(data[24:27], "little") + 1, int.from_bytes(data[27:30], "little") + 1
    if name == b"VP8L":
        bits = int.from_bytes(data[21:25], "little")
        return (bits & 0x3FFF) + 1, (bits >> 14 & 0x3FFF) + 1
    if name == b"VP8 ":
        sides = data[26:28], data[28:30]
        width, height = (int.from_bytes(side, "little") & 0x3FFF for side in sides)
        return width, height
    raise Damaged("does not begin with a picture")
