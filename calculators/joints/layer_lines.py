"""The layers of a joint as a person lists them: one a line, part, material and thickness first."""

from __future__ import annotations

import re

from calculators.joints.declaration import LAYER_INPUTS
from calculators.joints.json_values import MOST_LISTED
from calculators.quantities.marks import tidy

_KEYS = {each.name.replace("_", " "): each.name for each in LAYER_INPUTS if each.kind != "json"}
_FIRST = ("part", "material", "thickness")
# A comma between two figures is a decimal comma.
_PARTED = re.compile(r"(?<!\d),|,(?!\d)")
_LABELLED = re.compile(
    rf"({'|'.join(sorted(_KEYS, key=len, reverse=True))})(?: ?[:=] ?| )(.+)", re.IGNORECASE
)


def read_layer_lines(text: str) -> list[dict[str, object]]:
    """Read layers written one a line: `batten, oak, 22 mm, edge 15`.

    Part, material and thickness stand first, in this order; an empty one may be left (`batten, , 22`).
    What follows names itself: `edge 15`, `takes: thread`, `thread depth = 12 mm`. Lines are parted by new
    lines or semicolons.

    Args:
        text: the lines, from the head side.

    Returns:
        An object for each line, as the JSON of a joint has it; at most one more than a joint may hold, so
        that too many are refused where they are counted. What names no key is kept under its own words,
        so that it is refused there too.

    Source: this project.

    Example:
        >>> read_layer_lines("rail, oak, 22 mm")
        [{'part': 'rail', 'material': 'oak', 'thickness': '22 mm'}]
        >>> read_layer_lines("base, , 31,75 mm, edge 15")
        [{'part': 'base', 'thickness': '31,75 mm', 'edge': '15'}]
    """
    lines = [tidy(line) for line in re.split(r"[\n\r;]", text)]
    return [_layer(line) for line in lines if line][: MOST_LISTED + 1]


def _layer(line: str) -> dict[str, object]:
    layer: dict[str, object] = {}
    for place, piece in enumerate(_PARTED.split(line)):
        word = piece.strip()
        if not word:
            continue
        if place < len(_FIRST):
            layer[_FIRST[place]] = word
        elif found := _LABELLED.fullmatch(word):
            layer[_KEYS[found[1].lower()]] = found[2]
        else:
            layer[word] = word
    return layer
