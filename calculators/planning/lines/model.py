"""What reading several lines gives: the build with them in it, what was added, what could not be read."""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calculators.planning.model import Build

Kind = Literal["part", "joint", "hole", "pocket", "pose", "step", "stock"]
"""What a line can be of."""


@dataclass(frozen=True, slots=True)
class Unread:
    """A line that was not read: its number from 1, its text as it was, the sentences, what may be meant."""

    number: int
    text: str
    says: tuple[str, ...]
    choices: tuple[str, ...] = ()


@dataclass(frozen=True, slots=True)
class LinesRead:
    """The build with all lines in it that could be read.

    `added` names what each of them made: the mark of a part, joint or piece of stock, the id of a hole or
    pocket, the name of the copy that was laid down, the number of a step.
    """

    build: Build
    added: tuple[str, ...] = ()
    unread: tuple[Unread, ...] = ()
