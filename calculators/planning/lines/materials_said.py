"""Finding the material that a line names among its other words."""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass
from difflib import get_close_matches
from functools import cache
from itertools import pairwise

from calculators.materials.metals import all_others
from calculators.materials.model import Material
from calculators.materials.woods import all_woods

EVERYDAY = frozenset(
    (
        "box",
        "lead",
        "card",
        "paper",
        "felt",
        "float",
        "glass",
        "magnet",
        "cork",
        "leather",
        "lime",
        "deal",
        "silver",
        "pc",
    )
)
"""Materials whose names are everyday words: said of a part only where they stand alone, not within a name."""

_WORD = re.compile(r"[^\W_]+(?:[./][^\W_]+)*")
ALONE = ",;:\x1f"
_SEPARATED = re.compile(r"[ -]")


@dataclass(frozen=True, slots=True)
class Said:
    """A material as it stands in a line: where, and which one it is."""

    start: int
    end: int
    material: Material


@cache
def _names() -> tuple[dict[frozenset[str], Material], frozenset[str], int]:
    """All names of materials as sets of words, all words of them, and how many words the longest has."""
    found: dict[frozenset[str], Material] = {}
    for material in (*all_woods(), *all_others()):
        for name in (material.name, *material.also):
            found.setdefault(frozenset(_WORD.findall(name.casefold())), material)
    return found, frozenset(word for name in found for word in name), max(map(len, found))


def materials_in(text: str) -> Iterator[Said]:
    """Find the materials that a text names, each the longest name at its place.

    Args:
        text: a line or a piece of one.

    Yields:
        The materials in the order of the text; words of two names for one material belong together
        (`brass CW614N`).

    Source: this project.

    Example:
        >>> [each.material.name for each in materials_in("pillar 20 dia silver steel")]
        ['silver steel']
    """
    names, words, longest = _names()
    found = [(match[0].casefold(), match.start(), match.end()) for match in _WORD.finditer(text)]
    at = 0
    while at < len(found):
        if found[at][0] not in words:
            at += 1
            continue
        for count in range(min(longest, len(found) - at), 0, -1):
            run = found[at : at + count]
            joined = all(_SEPARATED.fullmatch(text[a[2] : b[1]]) for a, b in pairwise(run))
            material = names.get(frozenset(word for word, _, _ in run)) if joined else None
            if material is not None and not _within_name(text, run):
                yield Said(run[0][1], run[-1][2], material)
                at += count
                break
        else:
            at += 1


def _within_name(text: str, run: list[tuple[str, int, int]]) -> bool:
    """Whether an everyday word or a bare number stands among other words, and so is no material."""
    if len(run) > 1 or not (run[0][0] in EVERYDAY or run[0][0].isdecimal()):
        return False
    _, start, end = run[0]
    before, behind = text[:start].rstrip(" "), text[end:].lstrip(" ")
    return not before or before[-1] not in ALONE or bool(behind and behind[0] not in ALONE)


def is_material(text: str) -> bool:
    """Say whether a text is a material and nothing else.

    Args:
        text: a piece of a line.

    Returns:
        True for a known name of one.

    Source: this project.

    Example:
        >>> is_material("oak"), is_material("oak side")
        (True, False)
    """
    words = _WORD.findall(text.casefold())
    return bool(words) and frozenset(words) in _names()[0]


_NEAR = 0.85
"""How like a material's name a word is that is taken for a slip of the pen; `bench` and `birch` are 0.8."""


@cache
def _single_names() -> tuple[str, ...]:
    """The names of materials that are one word of five letters or more."""
    names = {name.casefold() for one in (*all_woods(), *all_others()) for name in (one.name, *one.also)}
    return tuple(sorted(name for name in names if len(name) > 4 and name.isalpha()))


def nearly_material(word: str) -> str:
    """Find the material whose name a word nearly is.

    Args:
        word: one word of a line.

    Returns:
        The name, or nothing where no name is near, or the word is one or its plural.

    Source: common practice.

    Example:
        >>> nearly_material("mahogony"), nearly_material("bench"), nearly_material("maples")
        ('mahogany', '', '')
    """
    folded = word.casefold()
    near = get_close_matches(folded, _single_names(), n=1, cutoff=_NEAR)
    if not near or folded in (near[0], near[0] + "s", near[0] + "es") or folded in _names()[1]:
        return ""
    return near[0]
