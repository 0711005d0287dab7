"""Asking back: the lines that an ambiguous line could stand for, each a whole line that reads back."""

from __future__ import annotations

from collections.abc import Callable, Iterable

from calculators.hardware.designation.tokens import Token
from calculators.hardware.fastener import Hardware
from calculators.quantities.errors import InputError

MOST = 12
"""No question offers more choices than this."""


class AskBack(Exception):
    """A line that could mean several things, or is nearly right.

    Args:
        says: the beginning of the sentence, without its full stop; the choices are put behind it.
        lines: the plain lines that it could stand for.

    Source: this project.
    """

    def __init__(self, says: str, lines: Iterable[str]) -> None:
        super().__init__(says)
        self.says, self.lines = says, tuple(dict.fromkeys(lines))


def replaced(line: str, start: int, end: int, by: str) -> str:
    """Put another writing in the place of one piece of a line.

    Args:
        line: the plain line.
        start: where the piece begins.
        end: where it ends.
        by: what stands there instead.

    Returns:
        The line, with single spaces.

    Source: this project.

    Example:
        >>> replaced("no 10 x 1", 0, 5, "10-32 unf")
        '10-32 unf x 1'
    """
    return " ".join(f"{line[:start]} {by} {line[end:]}".split())


def without(line: str, *tokens: Token) -> str:
    """Leave some pieces out of a line.

    Args:
        line: the plain line.
        tokens: the pieces.

    Returns:
        The line, with single spaces.

    Source: this project.
    """
    for token in sorted(tokens, key=lambda each: -each.start):
        line = f"{line[: token.start]} {line[token.end :]}"
    return " ".join(line.split())


def question(
    asked: AskBack, read: Callable[[str], Hardware], write: Callable[[Hardware], str], field: str
) -> InputError:
    """Turn what is ambiguous into one fault whose choices are canonical lines.

    A line that is itself still ambiguous is opened up once, behind those that are clear.

    Args:
        asked: what could mean several things.
        read: reads a plain line; raises `AskBack` or `InputError`.
        write: writes a canonical line.
        field: the name of the input.

    Returns:
        The error to raise.

    Source: this project.
    """
    clear: dict[str, None] = {}
    pending: list[str] = []
    for line in asked.lines:
        try:
            clear[write(read(line))] = None
        except AskBack as again:
            pending.extend(again.lines)
        except InputError:
            continue
    for line in pending:
        try:
            clear[write(read(line))] = None
        except (AskBack, InputError):
            continue
    choices = tuple(clear)[:MOST]
    says = f"{asked.says}; write {listed(choices)}." if choices else f"{asked.says}."
    return InputError.of(says, field=field, choices=choices)


def listed(names: tuple[str, ...]) -> str:
    """Write names as the end of a sentence: `a, b or c`, at most four and how many more.

    Args:
        names: the names, at least one.

    Returns:
        The list in words.

    Source: this project.

    Example:
        >>> listed(("M5", "M6")), listed(("a", "b", "c", "d", "e", "f"))
        ('M5 or M6', 'a, b, c, d or one of 2 more')
    """
    if len(names) > 5:
        return f"{', '.join(names[:4])} or one of {len(names) - 4} more"
    return " or ".join((", ".join(names[:-1]), names[-1])) if len(names) > 1 else names[0]
