"""From what a sentence offers (a mark, a size) to the whole line in which it stands."""

from __future__ import annotations

import re
from collections.abc import Callable, Iterator
from dataclasses import replace

from calculators.planning.lines.holes import holes_from
from calculators.planning.lines.joints import joint_from
from calculators.planning.lines.known import Known
from calculators.planning.lines.model import Kind, Unread
from calculators.planning.lines.parts import part_from
from calculators.planning.lines.pockets import pocket_from
from calculators.planning.lines.poses import pose_from
from calculators.planning.lines.steps import step_from
from calculators.planning.lines.stock import stock_from
from calculators.planning.model import Build
from calculators.quantities.errors import InputError

MOST_LINES = 20
"""How many unread lines are helped so; a person mends the first ones before the rest."""

MOST_CHOICES = 6
_PART_BEGINS = re.compile(r"\s*[:;,](?!\d)|\s(?:with|through|thru|into|in|to|from|on)(?=\s)", re.IGNORECASE)
_FASTENER_BEGINS = re.compile(
    r"(?P<count>(?:[0-9]{1,4} (?:off |x )?)?)(?:no|nr|#|№)\.? ?[0-9]", re.IGNORECASE
)
_TWICE = re.compile(r"(?<!\w)([^\W\d_]+) \1(?!\w)", re.IGNORECASE)
_QUOTED = re.compile(r"'([^']{1,60})'")


def offered_lines(
    kind: Kind, unread: tuple[Unread, ...], build: Build, *, part: str = "", face: str = ""
) -> tuple[Unread, ...]:
    """Make each choice of an unread line a whole line: the line with the choice where it was meant to stand.

    A choice that leads nowhere, so that the line would be refused as before, is left out; the sentences stay.

    Args:
        kind: what the lines are of.
        unread: the lines that were not read.
        build: the build that they are read against.
        part: the mark of the part, for holes and pockets.
        face: the face, for holes and pockets whose line says none.

    Returns:
        The same lines, whose choices are whole lines.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> parts = (Component("P1", "Lid rail"), Component("P2", "Lid glass"), Component("P3", "Hinge"))
        >>> says = ("'lid' could be P1 Lid rail, P2 Lid glass.",)
        >>> asked = Unread(1, "M3 x 8 csk: hinge into lid", says, ("P1", "P2"))
        >>> offered_lines("joint", (asked,), Build("B1", "Box", components=parts))[0].choices
        ('M3 x 8 csk: hinge into P1', 'M3 x 8 csk: hinge into P2')
    """
    known = Known(build)
    reads = _reader(kind, known, part, face)
    helped = tuple(_offered(each, reads) if each.choices else each for each in unread[:MOST_LINES])
    return (*helped, *(replace(each, choices=()) for each in unread[MOST_LINES:]))


def _offered(unread: Unread, reads: Callable[[str], tuple[str, ...]]) -> Unread:
    lines: dict[str, None] = {}
    for choice in unread.choices[:MOST_CHOICES]:
        tried = [
            (line, reads(line))
            for line in dict.fromkeys((choice, *_put_in(unread, choice)))
            if not _TWICE.search(line)
        ]
        good = [line for line, faults in tried if not faults]
        nearer = [line for line, faults in tried[1:] if set(faults).isdisjoint(unread.says)]
        lines.update(dict.fromkeys((good or nearer)[:1]))
    return replace(unread, choices=tuple(lines))


def _put_in(unread: Unread, choice: str) -> Iterator[str]:
    """The line with the choice in the place of what its sentences quote."""
    begins = _FASTENER_BEGINS.match(unread.text)
    if " " in choice and begins is not None and not any(map(_QUOTED.search, unread.says)):
        rest = _PART_BEGINS.search(unread.text)
        yield begins["count"] + choice + (unread.text[rest.start() :] if rest is not None else "")
    for said in dict.fromkeys(piece for sentence in unread.says for piece in _QUOTED.findall(sentence)):
        every = list(re.finditer(rf"(?<!\w){re.escape(said)}(?!\w)", unread.text, re.IGNORECASE))
        found = every[-1 if said.isdecimal() else 0] if every else None  # the screw's own figures stand first
        if found is None:
            continue
        before, behind = unread.text[: found.start()], unread.text[found.end() :]
        first = choice.split(" ")[0]
        begun = re.search(rf"(?<![^\W_]){re.escape(first)}", before, re.IGNORECASE)
        rest = _PART_BEGINS.search(behind)
        if (
            " " in choice and begun is not None and not said.isdecimal()
        ):  # the choice is the whole fastener, of which this is a piece
            yield before[: begun.start()] + choice + (behind[rest.start() :] if rest is not None else "")
        else:
            yield before + choice + behind


def _reader(kind: Kind, known: Known, part: str, face: str) -> Callable[[str], tuple[str, ...]]:
    """Reads a line for its faults alone."""
    readers: dict[Kind, Callable[[str], object]] = {
        "part": lambda text: part_from(text, known),
        "joint": lambda text: joint_from(text, known),
        "hole": lambda text: holes_from(text, known, part, face),
        "pocket": lambda text: pocket_from(text, known, part, face),
        "pose": lambda text: pose_from(text, known),
        "step": lambda text: step_from(text, known),
        "stock": lambda text: stock_from(text, known),
    }

    def faults(text: str) -> tuple[str, ...]:
        try:
            readers[kind](text)
        except InputError as error:
            return tuple(fault.says for fault in error.faults)
        return ()

    return faults
