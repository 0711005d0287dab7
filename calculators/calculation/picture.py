"""A picture that goes with a result: a drawing or a curve, made of the same numbers."""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Picture:
    """One picture: SVG with a title and a description in words, for a broad page and for a narrow one.

    `svg` is made for about 170 mm of width; `narrow`, for 90 mm, may be left out where the broad one is
    still read at that size. `caption` says in a sentence what is to be seen in it.
    """

    title: str
    svg: str
    narrow: str = ""
    caption: str = ""
