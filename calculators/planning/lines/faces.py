"""The words for the faces of a part, and which of them a part has."""

from __future__ import annotations

import re
from typing import get_args

from calculators.planning.lines.line import GAP, Line, refusal
from calculators.planning.lines.measures import MEASURE
from calculators.planning.model import Component, Face

FACES: tuple[Face, ...] = get_args(Face)
_FACE_WORDS: dict[str, Face] = {
    **{face: face for face in FACES}, "underside": "bottom", "underneath": "bottom", "back face": "back",
}  # fmt: skip
_FACE = "|".join(sorted(_FACE_WORDS, key=len, reverse=True))
FACE_WORD = rf"(?P<face>{_FACE})(?: (?:face|end|edge|side))?"
_FACE_SAID = re.compile(
    rf"^(?:(?:in|on|from|into|to) (?:the )?)?{FACE_WORD} ?:|(?<![^\W_])(?:in|on|from|into) "
    rf"(?:the )?{FACE_WORD.replace('face>', 'face2>')}(?![^\W_])"
    rf"|(?:^|[,{GAP}] ?){FACE_WORD.replace('face>', 'face3>')}(?= ?(?:[,{GAP}]|$| at ))",
    re.IGNORECASE,
)


_DATUM: dict[str, tuple[str, str]] = {
    "top": ("left", "front"), "bottom": ("left", "back"), "front": ("left", "bottom"),
    "back": ("right", "bottom"), "right": ("front", "bottom"), "left": ("back", "bottom"),
}  # fmt: skip
"""The edges of each face from which its u and v run, as seen from outside."""

_EDGE = r"(?:left|right|front|back|bottom|top)"
_FROM = r"from (?:the )?"
_FROM_EDGES = re.compile(
    rf"(?:,|(?<![^\W_])and)? ?(?:(?<![^\W_])at )?(?P<a>{MEASURE}) (?:in )?{_FROM}(?P<first>{_EDGE})"
    rf"(?: edge| end| side)? ?(?:,|and|&)? ?(?P<b>{MEASURE}) (?:in )?{_FROM}(?P<second>{_EDGE})"
    r"(?: edge| end| side)?(?![^\W_])",
    re.IGNORECASE,
)


def take_from_edges(line: Line) -> tuple[str, str] | None:
    """Put `140 from the left, 10 from the front` into the line as the place `at 140,10`.

    Args:
        line: the line.

    Returns:
        The two edges in the order of the line, or None where it does not speak so.

    Source: common practice.
    """
    found = _FROM_EDGES.search(line.plain)
    if found is None:
        return None
    line.replace(found.start(), found.end(), f" at {found['a']},{found['b']}")
    return found["first"].lower(), found["second"].lower()


def check_edges(edges: tuple[str, str] | None, face: str) -> None:
    """Check that a place was said from the edges that the face is set out from.

    Args:
        edges: the edges of a line, or None.
        face: the face.

    Raises:
        InputError: when the face is set out from other edges.

    Source: this project.

    Example:
        >>> check_edges(("left", "front"), "top")
    """
    datum = _DATUM.get(face)
    if edges is not None and edges != datum:
        by = f"from the {datum[0]}, then from the {datum[1]}" if datum else "along the side and by an angle"
        raise refusal(f"The {face} face is set out {by}; write both sizes so, or as u,v.")


def take_face(line: Line, part: Component, given: str) -> Face:
    """Take the face out of a line: what it says, else the one given, else the top of a block.

    Args:
        line: the line.
        part: the part whose face it is.
        given: the face where the line says none; empty where that is open.

    Returns:
        The face.

    Raises:
        InputError: when the part has no such face, or it is open and the part is a round.

    Source: this project.
    """
    found = line.take(_FACE_SAID)
    said = (found["face"] or found["face2"] or found["face3"]) if found is not None else ""
    return face_of(part, said or given)


def face_of(part: Component, said: str) -> Face:
    """Check a face against a part's shape.

    Args:
        part: the part.
        said: the face in words, or nothing.

    Returns:
        The face.

    Raises:
        InputError: when the part has no such face, or a round's is not said.

    Source: this project.

    Example:
        >>> face_of(Component("P1", "Lid"), "underside")
        'bottom'
    """
    allowed: tuple[Face, ...] = FACES
    if part.size.shape == "round":
        allowed = ("left", "right", "side")
    elif part.size.shape == "block":
        allowed = FACES[:6]
    if not said:
        if part.size.shape == "round":
            raise refusal(
                f"{part.mark} is a round: say on the side, in the left end or in the right end.", *allowed
            )
        return "top"
    face = _FACE_WORDS.get(said.casefold())
    if face is None or face not in allowed:
        shape = f"is a {part.size.shape} and" if part.size.shape else "is a part that"
        raise refusal(
            f"{part.mark} {shape} has no {said.casefold()[:20]}; it has {', '.join(allowed)}.", *allowed
        )
    return face
