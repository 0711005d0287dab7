"""JPEG: its segments up to the end of the first picture.

What decides the colours is kept (JFIF, Adobe, ICC); Exif, comments, thumbnails, further pictures and all
that follows the end of the picture are left out. Source: ITU-T T.81, annex B [from memory].
"""

from __future__ import annotations

import re

from buildlog.pictures.formats.exif import turn_in
from buildlog.pictures.formats.looked import Damaged, Looked

MOST_SEGMENTS = 5_000
MOST_SCANS = 50
"""A progressive picture of a camera has about ten; each costs a pass over the whole picture."""

_FRAMES = frozenset(range(0xC0, 0xD0)) - {0xC4, 0xC8, 0xCC}
_SCAN, _END, _APP0, _APP1, _APP2, _ADOBE, _COMMENT = 0xDA, 0xD9, 0xE0, 0xE1, 0xE2, 0xEE, 0xFE
_FILL = re.compile(rb"\xff*")
_NEXT_MARKER = re.compile(rb"\xff[^\x00\xd0-\xd7\xff]", re.DOTALL)


def is_one(data: bytes) -> bool:
    """Whether it begins as a JPEG does."""
    return data[:3] == b"\xff\xd8\xff"


def look(data: bytes) -> Looked:
    """Look through the segments. Raises Damaged."""
    kept, sizes, scans, turn = [data[:2]], [], 0, 1
    at = 2
    for _ in range(MOST_SEGMENTS):
        at, marker, end = _segment(data, at)
        if marker == _END:
            break
        if marker in _FRAMES:
            sizes.append((int.from_bytes(data[at + 7 : at + 9]), int.from_bytes(data[at + 5 : at + 7])))
        if marker == _APP1 and data[at + 4 : at + 10] == b"Exif\0\0":
            turn = turn_in(data[at + 10 : end])
        if marker == _SCAN:
            scans += 1
            following = _NEXT_MARKER.search(data, end)
            if following is None:
                raise Damaged("no end of the scan")
            end = following.start()
        if _is_needed(marker, data[at + 4 : at + 16]):
            kept.append(data[at:end])
        at = end
    else:
        raise Damaged("too many segments")
    if len(sizes) != 1 or not 1 <= scans <= MOST_SCANS:
        raise Damaged(f"{len(sizes)} frames, {scans} scans")
    return Looked("JPEG", *sizes[0], b"".join(kept) + b"\xff\xd9", turn)


def _segment(data: bytes, at: int) -> tuple[int, int, int]:
    """Where the next segment begins (there may be filling before it), its marker, and where it ends."""
    filled = _FILL.match(data, at)
    if filled is None or filled.end() == at or filled.end() >= len(data):
        raise Damaged("no marker where one must stand")
    at = filled.end() - 1
    marker = data[at + 1]
    if marker == _END:
        return at, marker, at + 2
    end = at + 2 + int.from_bytes(data[at + 2 : at + 4])
    if end < at + 4 or end > len(data):
        raise Damaged("a segment that is cut off")
    return at, marker, end


def _is_needed(marker: int, start: bytes) -> bool:
    if marker == _APP2:
        return start == b"ICC_PROFILE\0"
    return marker in (_APP0, _ADOBE) or not (_APP0 <= marker <= 0xEF or marker == _COMMENT)
