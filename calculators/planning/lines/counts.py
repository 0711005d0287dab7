"""How many: counts in figures and in words, before what is counted or behind it."""

from __future__ import annotations

import re

from calculators.planning.lines.line import GAP, Line, refusal
from calculators.planning.lines.measures import DECIMAL, FRACTION, UNIT
from calculators.quantities.marks import quoted

NUMBERS: dict[str, int] = {
    "a": 1, "an": 1, "one": 1, "two": 2, "three": 3, "four": 4, "five": 5, "six": 6, "seven": 7, "eight": 8,
    "nine": 9, "ten": 10, "eleven": 11, "twelve": 12, "half a dozen": 6, "half dozen": 6, "a dozen": 12,
    "one dozen": 12, "dozen": 12, "two dozen": 24, "three dozen": 36, "four dozen": 48, "a pair of": 2,
    "one pair "
    "of": 2, "pair of": 2, "a pair": 2, "pair": 2, "two pairs of": 4, "three pairs of": 6, "a couple of": 2,
    "pr of": 2, "1 pair of": 2, "1 pr of": 2, "2 pairs of": 4, "2 pr of": 4,
}  # fmt: skip
"""Counts in words."""

_IN_WORDS = "|".join(sorted(NUMBERS, key=len, reverse=True))
WORD = rf"(?P<word>{_IN_WORDS})(?: of)?(?![\w-])"
_LABELS = r"(?:dia(?:meter)?|od|id|bore|round|thick|long|wide|off|swg|bwg|awg|gauge|ga|deg)"
_BEFORE = re.compile(
    rf"^(?:{WORD}(?=[ ])|(?P<figure>[0-9]{{1,9}}) ?(?:off|no\.?|nos\.?|pcs?\.?|pieces of|pieces|x)"
    rf"(?![\w/-])(?= ?[^\W\d])"
    rf"|(?P<bare>[0-9]{{1,9}}) (?=[^\W\d_])(?!x ?[0-9]|by [0-9]|{UNIT}(?![^\W_])|{_LABELS}\b)"
    rf"|(?P<sized>[0-9]{{1,9}}) (?=(?:{FRACTION}|{DECIMAL})(?: ?{UNIT})? ?(?:x|by) ?[0-9])(?![0-9]+ ?/))",
    re.IGNORECASE,
)
BEHIND = (
    r"(?<![\w./,-])(?<!in )"
    r"(?:(?P<behind>[0-9]{1,9}|one|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve) ?"
    r"(?:off|pcs?\.?|pieces|req(?:uire)?d|reqd|nos?\.?(?= ?(?:$|[,;:)\x1f])))(?![\w])"
    r"|(?:qty|quantity|number off|off) ?[:=]? ?(?P<said>[0-9]{1,9})(?![\w./])"
    r"|(?P<glued>[0-9]{1,3})nos?(?:\.|(?!\w))|(?P<each>[0-9]{1,4}) ?(?:@|off at|pcs?\.? at) ?(?=[0-9]))"
)
_BEHIND = re.compile(BEHIND, re.IGNORECASE)
_WORDS = "a pair|pair|two|three|four|five|six|seven|eight|nine|ten|eleven|twelve"
_ALONE = re.compile(
    rf"\( ?(?P<behind>[0-9]{{1,4}}|{_WORDS})(?: ?(?:off|no\.?|nos\.?|pcs?\.?|pieces|req(?:uire)?d))? ?\)"
    rf"|(?<=[,{GAP}])(?P<lead> ?)(?P<said>{_WORDS})(?= ?(?:[,;{GAP}]|$))",
    re.IGNORECASE,
)
_NO_TIMES = re.compile(
    rf"(?:{_LABELS}|rods?|dowels?|bars?|tubes?|wires?|studding|sq|square|hex|{UNIT})$", re.IGNORECASE
)
_TIMES_WITHIN = re.compile(
    rf"(?<![^\W_])(?P<word>[^\W\d_]+) x ?(?P<times>[0-9]{{1,2}})"
    rf"(?=,|;| (?!(?:{UNIT}|{_LABELS})(?![^\W_]))[^\W\d_])(?! ?x ?[0-9])(?! by )",
    re.IGNORECASE,
)
_TIMES = re.compile(
    r"(?:(?<![^\W_])(?P<word>[^\W\d_]+) |(?<=[,\x1f])|(?<=[,\x1f] ))x ?(?P<times>[0-9]{1,9})$", re.IGNORECASE
)


def in_figures(text: str) -> int:
    """Read a count in figures or words.

    Args:
        text: the count alone.

    Returns:
        The number.

    Source: this project.

    Example:
        >>> in_figures("a pair of"), in_figures("12")
        (2, 12)
    """
    folded = text.casefold()
    return NUMBERS[folded] if folded in NUMBERS else int(text)


def take_count_before(line: Line) -> int | None:
    """Take the count that a line begins with.

    Args:
        line: the line.

    Returns:
        The count, or None where it begins with none.

    Raises:
        InputError: when it is below nought.

    Source: common practice.
    """
    below = re.match(r"-[0-9]{1,9}(?= ?(?:off |x )?[^\W\d])", line.plain)
    if below is not None:
        raise refusal(f"{quoted(below[0])} is no count; write {below[0][1:]}.", line.shown[1:])
    lead = re.match(rf"[ ,:{GAP}]*", line.plain)
    start = lead.end() if lead else 0
    found = _BEFORE.match(line.plain[start:])
    if found is None:
        return None
    line.replace(start, start + found.end(), "")
    word = found["word"] or found["figure"] or found["bare"] or found["sized"]
    return in_figures(word)


def take_count_behind(line: Line) -> int | None:
    """Take the count that stands anywhere behind (`4 off`, `qty 4`, `x4` at the end).

    Args:
        line: the line.

    Returns:
        The count, or None where there is none.

    Raises:
        InputError: when two counts contradict each other.

    Source: common practice.
    """
    count = None
    while (found := line.take(_BEHIND)) is not None:
        word = found["behind"] or found["said"] or found["glued"] or found["each"]
        count = one_count(count, in_figures(word))
    return one_count(count, _take_times(line, _TIMES))


def _take_times(line: Line, pattern: re.Pattern[str]) -> int | None:
    """Take `x 4`; behind the name of a round or a size (`20 dia x 165`, `studding x 200`) it is a length."""
    found = pattern.search(line.plain)
    if found is None or (found["word"] and _NO_TIMES.match(found["word"])):
        return None
    line.replace(found.start() + len(found["word"] or ""), found.end(), GAP)
    return int(found["times"])


def take_count_alone(line: Line) -> int | None:
    """Take a part's count that stands by itself (`Sides (2)`, `battens, three, oak`, `stiles x 2 oak`).

    Args:
        line: the line.

    Returns:
        The count, or None where there is none.

    Raises:
        InputError: when two counts contradict each other.

    Source: common practice.
    """
    found = line.take(_ALONE)
    count = in_figures(found["behind"] or found["said"]) if found is not None else None
    return one_count(count, _take_times(line, _TIMES_WITHIN))


def one_count(first: int | None, second: int | None) -> int | None:
    """Bring two counts together, which must be the same where both are given.

    Args:
        first: a count [1] or None.
        second: another [1].

    Returns:
        The count.

    Raises:
        InputError: when they differ.

    Source: this project.

    Example:
        >>> one_count(None, 4)
        4
    """
    if first is not None and second is not None and first != second:
        says = f"The line says {first} and {second} off; write one count."
        raise refusal(says)
    return first if second is None else second


def check_count(count: int, most: int) -> int:
    """Check a count against its limits.

    Args:
        count: the count [1].
        most: the most allowed [1].

    Returns:
        The count.

    Raises:
        InputError: when it is nought or too large.

    Source: this project.
    """
    if not 1 <= count <= most:
        raise refusal(f"{quoted(str(count))} is no count here; write 1 to {most:,}.")
    return count
