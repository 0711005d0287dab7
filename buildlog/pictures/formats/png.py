"""PNG: its chunks, of which only those that the still picture needs are kept.

Text, times, further frames of an animation and all that follows the end are left out. Source: PNG
specification, third edition (W3C, 2025), clauses 5 and 11 [from memory].
"""

from __future__ import annotations

from buildlog.pictures.formats.exif import turn_in
from buildlog.pictures.formats.looked import Damaged, Looked

SIGNATURE = b"\x89PNG\r\n\x1a\n"
MOST_CHUNKS = 50_000
"""Forty megabytes in the usual pieces of 8 KiB are 5,000."""

_NEEDED = frozenset({b"IHDR", b"PLTE", b"tRNS", b"iCCP", b"IDAT", b"IEND"})


def is_one(data: bytes) -> bool:
    """Whether it begins as a PNG does."""
    return data[:8] == SIGNATURE


def look(data: bytes) -> Looked:
    """Look through the chunks. Raises Damaged."""
    kept, turn, at = [SIGNATURE], 1, 8
    if data[12:16] != b"IHDR":
        raise Damaged("does not begin with its header")
    for _ in range(MOST_CHUNKS):
        name = data[at + 4 : at + 8]
        end = at + 12 + int.from_bytes(data[at : at + 4])
        if end > len(data) or len(name) < 4:
            raise Damaged("a chunk that is cut off")
        if name in _NEEDED:
            kept.append(data[at:end])
        elif name == b"eXIf":
            turn = turn_in(data[at + 8 : end - 4])
        if name == b"IEND":
            break
        at = end
    else:
        raise Damaged("too many chunks")
    width, height = int.from_bytes(data[16:20]), int.from_bytes(data[20:24])
    return Looked("PNG", width, height, b"".join(kept), turn)
