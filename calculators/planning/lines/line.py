"""One line of text made ready to read: signs made plain, quoted names set aside, its note taken off."""

from __future__ import annotations

import re

from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

LONGEST_TEXT = 64_000
"""The longest line with its notes [characters]."""

LONGEST_READ = 1_000
"""The longest line without its note [characters]."""

GAP = "\x1f"
"""Stands in a line where something was taken out of it."""

_FIRST_ASIDE = 0xF0000
_MOST_ASIDE = 500
_ASIDE = re.compile("[\U000f0000-\U000f0fff]")
HAS_WORD = re.compile("[^\\W_]|[\U000f0000-\U000f0fff]")
"""Finds a letter or digit, or something that was set aside."""

_UNWRITABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff\U000f0000-\U000f0fff]")
_INVISIBLE = dict.fromkeys(
    map(ord, "\u200b\u200e\u200f\u2060\ufeff\u00ad\u202a\u202b\u202c\u202d\u202e\u2066\u2067\u2068\u2069")
)
_NEVER_CLOSED = "\x00"
"""Stands for an opening quote while quotes are looked for; no text has it."""
_QUOTED = re.compile(r'“((?:[^”]|””)*)”|(?:^|(?<=[\s,:;]))"(?=[^\W\d])([^"]*)"(?=$|[\s,:;])')
_BULLET = re.compile(r"^(?:[-–—*•·▪◦] )+(?=[^\W_]|[\U000f0000-\U000f0fff])")
"""What a list has before each of its lines."""

_NOTE = re.compile(r"(?:^|\s)#(?![0-9])\s*(?P<note>.*)$", re.DOTALL)
_SEMICOLON = re.compile(r"\s*;\s*(?P<note>.*)$", re.DOTALL)
# Each sign becomes one sign, so that a place in the plain text is the same place in the text as shown.
PLAIN = str.maketrans(
    {
        **dict.fromkeys("×✕✖╳∗*", "x"),
        **dict.fromkeys("−‐‑‒–—", "-"),
        **dict.fromkeys("⁄∕", "/"),
        **dict.fromkeys("″“”„‟", '"'),
        **dict.fromkeys("′‘’´", "'"),
        **dict.fromkeys("⌀∅ø", "Ø"),
        "º": "°",
    }
)


def refusal(says: str, *choices: str) -> InputError:
    """Make the error of a line.

    Args:
        says: the sentence.
        choices: what may be meant.

    Returns:
        The error to raise; its field is `line`.

    Source: this project.

    Example:
        >>> refusal("No.", "yes").faults[0].choices
        ('yes',)
    """
    return InputError.of(says, field="line", choices=choices)


class Line:
    """A line from which pieces are taken one after another.

    `shown` is the text as written with its spaces tidied, `plain` the same length in plain signs; `note` is
    what stood behind `#`. What was in quotes is one private sign in both, and `opened` gives it back.
    """

    __slots__ = ("_aside", "note", "plain", "shown")

    def __init__(self, text: str, *, semicolon_note: bool = False, longest: int = LONGEST_READ) -> None:
        if not isinstance(text, str):
            raise refusal("A line is read from text.")
        if len(text) > LONGEST_TEXT:
            raise refusal(f"The line has {len(text):,} characters; a line has at most {LONGEST_TEXT:,}.")
        if "\n" in text or "\r" in text:
            raise refusal("This is more than one line; write one thing on each line.")
        if _UNWRITABLE.search(text):
            raise refusal(f"{quoted(text)} has a character that no text can hold; take it out.")
        self._aside: list[str] = []
        # Behind the last closing quote nothing closes; to look for that from each opening one takes long.
        last = text.rfind("”") + 1
        text = _QUOTED.sub(self._put_aside, text[:last] + text[last:].replace("“", _NEVER_CLOSED))
        text = text.replace(_NEVER_CLOSED, "“")
        self.shown = _BULLET.sub("", " ".join(text.translate(_INVISIBLE).split()))
        self.note: str | None = None
        self._take_note(_NOTE)
        if semicolon_note:
            self._take_note(_SEMICOLON)
        if len(self.shown) > longest:
            says = (
                f"The line has {len(self.shown):,} characters before its note; it may have {longest:,}. "
                "Write what is long behind # as its note."
            )
            raise refusal(says)
        self.plain = self.shown.translate(PLAIN)

    def _put_aside(self, found: re.Match[str]) -> str:
        if len(self._aside) >= _MOST_ASIDE:
            raise refusal("The line has more quotes than can be read; leave them out.")
        self._aside.append(found[0].replace(_NEVER_CLOSED, "“"))
        return chr(_FIRST_ASIDE + len(self._aside) - 1)

    def _take_note(self, pattern: re.Pattern[str]) -> None:
        found = pattern.search(self.shown)
        if found:
            note = self.as_written(found["note"]).strip()
            self.note = note if self.note is None else f"{note}; {self.note}"
            self.shown = self.shown[: found.start()].rstrip()

    def set_aside(self, pattern: re.Pattern[str]) -> None:
        """Put every piece that a pattern finds aside whole, such as what stands in round brackets."""
        while found := pattern.search(self.plain):
            if len(self._aside) >= _MOST_ASIDE:
                raise refusal("The line has more brackets than can be read; leave some out.")
            self._aside.append(self.shown[found.start() : found.end()])
            self.replace(found.start(), found.end(), chr(_FIRST_ASIDE + len(self._aside) - 1))

    def replace(self, start: int, end: int, by: str) -> None:
        """Put something else in the place of a piece."""
        self.plain = self.plain[:start] + by + self.plain[end:]
        self.shown = self.shown[:start] + by + self.shown[end:]

    def take(self, pattern: re.Pattern[str]) -> re.Match[str] | None:
        """Find a pattern in the plain text and take it out of the line."""
        found = pattern.search(self.plain)
        if found is not None:
            self.replace(found.start(), found.end(), GAP)
        return found

    def as_written(self, text: str) -> str:
        """Put what was set aside back with its quotes or brackets."""
        while found := _ASIDE.search(text):
            text = text[: found.start()] + self._aside[ord(found[0]) - _FIRST_ASIDE] + text[found.end() :]
        return text

    def opened(self, text: str) -> str:
        """Put what was set aside back without its quotes."""
        while found := _ASIDE.search(text):
            inner = self._aside[ord(found[0]) - _FIRST_ASIDE]
            text = text[: found.start()] + unquoted(inner) + text[found.end() :]
        return text


def aside_in(text: str) -> list[str]:
    """Find the private signs in a piece of a line.

    Args:
        text: the piece.

    Returns:
        The signs, each for something that was set aside.

    Source: this project.
    """
    return _ASIDE.findall(text)


def unquoted(text: str) -> str:
    """Take the quotes off a text that was quoted.

    Args:
        text: with or without quotes about it.

    Returns:
        What stands in them.

    Source: this project.

    Example:
        >>> unquoted("“a ””b”””")
        'a ”b”'
    """
    if len(text) >= 2 and text[0] == "“" and text[-1] == "”":
        return text[1:-1].replace("””", "”")
    if len(text) >= 2 and text[0] == text[-1] == '"':
        return text[1:-1]
    return text


def in_quotes(text: str) -> str:
    """Put a text in quotes so that it is read back whole, whatever is in it.

    Args:
        text: a text of one line.

    Returns:
        The text between “ and ”, a closing quote in it doubled.

    Source: this project.

    Example:
        >>> in_quotes("4 off, brass")
        '“4 off, brass”'
    """
    return "“" + text.replace("”", "””") + "”"


def tidied(text: str) -> str:
    r"""Tidy what is left of a line into a name: no gaps, no stray commas or dashes at its ends.

    Args:
        text: what is left.

    Returns:
        The name.

    Source: this project.

    Example:
        >>> tidied(" sides \x1f , , ")
        'sides'
    """
    text = " ".join(text.replace(GAP, " ").split())
    text = re.sub(r"\s+([,;:.])", r"\1", text)
    text = re.sub(r"([,;:])(?:\s*[,;:])+", r"\1", text)
    return text.strip(" ,;:-")
