"""GIF: its first frame alone; comments and further frames are left out.

Source: GIF89a specification (1990), clauses 18 to 27 [from memory].
"""

from __future__ import annotations

import struct

from buildlog.pictures.formats.looked import Damaged, Looked

MOST_BLOCKS = 1_000_000
_EXTENSION, _IMAGE, _CONTROL = 0x21, 0x2C, 0xF9


def is_one(data: bytes) -> bool:
    """Whether it begins as a GIF does."""
    return data[:6] in (b"GIF87a", b"GIF89a")


def look(data: bytes) -> Looked:
    """Find the first frame. Raises Damaged."""
    if len(data) < 13:
        raise Damaged("cut off")
    screen_width, screen_height = struct.unpack_from("<HH", data, 6)
    at = 13 + _colours(data[10])
    kept = [data[:at]]
    while at + 2 <= len(data) and data[at] == _EXTENSION:
        end = _end_of_blocks(data, at + 2)
        if data[at + 1] == _CONTROL:
            kept.append(data[at:end])
        at = end
    if at + 11 > len(data) or data[at] != _IMAGE:
        raise Damaged("no picture")
    left, top, width, height = struct.unpack_from("<HHHH", data, at + 1)
    end = _end_of_blocks(data, at + 11 + _colours(data[at + 9]))
    kept += [data[at:end], b";"]
    return Looked("GIF", max(screen_width, left + width), max(screen_height, top + height), b"".join(kept))


def _colours(flags: int) -> int:
    """The length of the colour table that a byte of flags announces [bytes]."""
    return 3 * 2 ** ((flags & 7) + 1) if flags & 0x80 else 0


def _end_of_blocks(data: bytes, at: int) -> int:
    """Where a chain of blocks ends, each led by its length, the last of length 0."""
    for _ in range(MOST_BLOCKS):
        if at >= len(data):
            raise Damaged("cut off")
        length = data[at]
        at += 1 + length
        if length == 0:
            return at
    raise Damaged("too many blocks")
