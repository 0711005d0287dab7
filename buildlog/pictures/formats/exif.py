"""The one thing that is read from Exif data: how the camera was held."""

from __future__ import annotations

import struct

ORIENTATION = 0x0112
SHORT = 3


def turn_in(exif: bytes) -> int:
    """The orientation (1 to 8) in Exif data that begins with its TIFF header; 1 where there is none.

    Source: Exif 2.32 (CIPA DC-008-2019), 4.5.2 and 4.6.4 A, tag 0x0112 [from memory].
    """
    order = {b"II*\0": "<", b"MM\0*": ">"}.get(exif[:4])
    if order is None or len(exif) < 10:
        return 1
    (start,) = struct.unpack_from(order + "I", exif, 4)
    if start + 2 > len(exif):
        return 1
    (count,) = struct.unpack_from(order + "H", exif, start)
    for at in range(start + 2, min(start + 2 + 12 * count, len(exif) - 11), 12):
        tag, kind, _, value = struct.unpack_from(order + "HHIH", exif, at)
        if tag == ORIENTATION:
            return value if kind == SHORT and 1 <= value <= 8 else 1
    return 1
