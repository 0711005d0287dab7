"""Splitting a line of hardware into its pieces: sizes, numbers, words and separators."""

from __future__ import annotations

import re
from dataclasses import dataclass, replace
from typing import Literal

from calculators.hardware.designation.threads_written import DECIMAL, FRACTION, find_written_thread
from calculators.hardware.designation.words import vocabulary
from calculators.quantities.marks import plain

LONGEST = 200
"""The longest line that is looked at."""

TokenKind = Literal["thread", "gauge", "number", "grade", "word", "by", "unknown"]


@dataclass(frozen=True, slots=True)
class Token:
    """One piece of a line.

    `text` is the piece in plain signs, `start` and `end` its place in the plain line. A word carries its
    `slot` and `value`, a number its `unit` ('' when bare) and the `label` said of it, a thread its
    designation and a gauge its number as `value`.
    """

    kind: TokenKind
    text: str
    start: int
    end: int
    slot: str = ""
    value: str = ""
    unit: str = ""
    label: str = ""


_SIGNS = str.maketrans(
    {"×": " x ", "✕": " x ", "╳": " x ", "∗": " x ", "*": " x ", "№": " no ", "–": "-", "—": "-",
     "Ø": " ", "ø": " ", "⌀": " ", "º": "o", "°": "o", ";": " ", ":": " ", "=": " ",
     "(": " ", ")": " ", "[": " ", "]": " ", "+": " "}
)  # fmt: skip

_SLASHED = (
    (re.compile(r"\bc/s(?:k|unk)?\b"), "csk"),
    (re.compile(r"\br/(?:hd|h)\b"), "rh"),
    (re.compile(r"\bs/s\b"), "ss"),
    (re.compile(r"\bz/p\b"), "zp"),
    (re.compile(r"\bn/p\b"), "np"),
    (re.compile(r"\bh/t\b"), "ht"),
    (re.compile(r"\bo/d\b"), "od"),
    (re.compile(r"\bw/s\b"), "wood screw"),
)

GAUGE = re.compile(
    r"(?:number|num|no|nr|nou|#) ?(?P<size>[0-9]{1,3})(?![0-9./,])"
    r"|(?P<after>[0-9]{1,2}) ?(?:gauge|ga|g)(?![a-z0-9])"
)
GRADE = re.compile(
    r"(?:(?:grade|gr|class|cl) ?)?(?P<class>4\.6|4\.8|5\.6|5\.8|6\.8|8\.8|9\.8|10\.9|12\.9|14\.9)"
    r"(?![0-9./\"]| ?(?:mm|in|inch)\b)"
    r"|(?:grade|gr|class|cl) ?(?P<named>[0-9]{1,2}|[a-z])(?![0-9a-z./])"
    r"|(?:stainless (?:steel )?)?(?P<stainless>a[124] ?- ?(?:50|70|80))(?![0-9])(?: stainless(?: steel)?)?"
)
NUMBER = re.compile(
    rf"(?P<number>{FRACTION}|{DECIMAL})"
    r"(?:[ -]?(?P<unit>mm|millimetres?|cm|thou|inches|inch|in|ft|\"|')(?![a-z]))?"
)
BY = re.compile(r"(?:x|by)(?= ?[0-9.,#]| no ?[0-9]|$| )|[-/](?= |[0-9.])")
LETTERS = re.compile("[a-z]+")
PHRASE = re.compile(r"[a-z0-9][a-z0-9']*(?: [a-z0-9][a-z0-9']*){0,3}")
HEXALOBULAR = re.compile(r"(?:t|tx) ?[0-9]{1,2}(?![0-9a-z./])")
OTHER = re.compile(r"[^\s,]+")


def plain_line(text: str) -> str:
    """Bring a line to plain lower-case signs, as the patterns of this module expect it.

    Args:
        text: the line as written, of bounded length.

    Returns:
        The line: one space between pieces, `x` for every multiplication sign, no dots behind letters.

    Source: this project.

    Example:
        >>> plain_line("6BA × 3/16″ ch. hd. C/SK")
        '6ba x 3/16" ch hd csk'
    """
    line = plain(text.translate(_SIGNS)).lower()
    for pattern, instead in _SLASHED:
        line = pattern.sub(instead, line)
    line = re.sub(r"(?<=[a-z])\.(?=[a-z](?:\.|\b))", "", line)
    line = re.sub(r"(?<=[a-z])\.(?![0-9])|(?<=\bno)\.", " ", line)
    line = re.sub(r"(?<=[a-z])'(?=[a-z])", "", line)
    line = re.sub(r"(?<=[a-z])[-/](?=[a-z])|,(?![0-9])|(?<![0-9]),", " ", line)
    return " ".join(line.split())


def split_line(line: str) -> list[Token]:
    """Split a plain line into its pieces, longest phrase first.

    Args:
        line: a line from `plain_line`.

    Returns:
        The pieces in their order; what is not understood has the kind `unknown`.

    Source: this project.

    Example:
        >>> [(t.kind, t.text) for t in split_line("m5 x 20 csk brass")]
        [('thread', 'm5'), ('by', 'x'), ('number', '20'), ('word', 'csk'), ('word', 'brass')]
    """
    tokens: list[Token] = []
    at = 0
    while at < len(line):
        if line[at] in " ,":
            at += 1
            continue
        token = _next_token(line, at, tokens)
        tokens.append(token)
        at = token.end
    return _join_labels([t for t in tokens if t.slot != "noise"])


def _next_token(line: str, at: int, before: list[Token]) -> Token:
    """Read the piece that begins at one place; the longest sensible one wins."""
    thread = find_written_thread(line, at)
    if thread is not None:
        return Token("thread", line[at : thread.end], at, thread.end, value=thread.designation)
    after_by = bool(before) and (before[-1].kind == "by" or before[-1].slot == "label")
    if found := GAUGE.match(line, at):
        number = found["size"] or found["after"]
        return Token("gauge", found[0], at, found.end(), value=str(int(number)))
    if not after_by and (found := GRADE.match(line, at)):
        grade = found["class"] or (found["named"] or found["stainless"]).upper().replace(" ", "")
        return Token("grade", found[0], at, found.end(), "grade", grade)
    if found := BY.match(line, at):
        return Token("by", found[0], at, found.end())
    if found := NUMBER.match(line, at):
        return Token("number", found["number"], at, found.end(), unit=found["unit"] or "")
    return _word(line, at)


def _word(line: str, at: int) -> Token:
    """Read the longest phrase that is understood, else a piece that is not."""
    if found := HEXALOBULAR.match(line, at):
        return Token("word", found[0], at, found.end(), "drive", "hexalobular")
    known = vocabulary()
    if phrase := PHRASE.match(line, at):
        words = phrase[0].split()
        for count in range(len(words), 0, -1):
            text = " ".join(words[:count])
            if text in known:
                return Token("word", text, at, at + len(text), *known[text])
    letters = LETTERS.match(line, at)
    if letters and letters[0] in known and line[letters.end() : letters.end() + 1].isdigit():
        return Token("word", letters[0], at, letters.end(), *known[letters[0]])  # 'csk20'
    other = OTHER.match(line, at)
    end = other.end() if other else at + 1
    return Token("unknown", line[at:end], at, end)


def _join_labels(tokens: list[Token]) -> list[Token]:
    """Give each label to its number: the one that stands right before it, else the one right behind."""
    joined: list[Token] = []
    waiting = ""
    for index, token in enumerate(tokens):
        if token.slot == "label":
            previous = joined[-1] if joined else None
            following = tokens[index + 1] if index + 1 < len(tokens) else None
            takes_next = following is not None and following.kind == "number"
            bare = previous is not None and previous.kind == "number" and not previous.label
            if bare and previous is not None and token.value != "cut to" and not waiting:
                joined[-1] = replace(previous, label=token.value)
            elif takes_next:
                waiting = token.value
            else:
                joined.append(replace(token, kind="unknown"))
        elif token.kind == "number" and waiting:
            joined.append(replace(token, label=waiting))
            waiting = ""
        else:
            joined.append(token)
    return joined
