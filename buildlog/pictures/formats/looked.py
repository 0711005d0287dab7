"""What looking at a file gives, and the error where it makes no sense."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Looked:
    """A picture before it is decoded.

    `format` is Pillow's name of it, `turn` the orientation as Exif counts it (1 to 8), `data` what the
    decoder shall see.
    """

    format: str
    width: int
    height: int
    data: bytes
    turn: int = 1


class Damaged(Exception):
    """The file is cut off, or is not put together as its format has it."""
