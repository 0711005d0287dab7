"""The kinds of value in a build file: each reads, writes and describes itself, so that the three agree."""

from __future__ import annotations

import re
import unicodedata
from abc import ABC, abstractmethod
from datetime import date
from decimal import Decimal
from difflib import get_close_matches
from fractions import Fraction
from typing import Any

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.parsing import NumberText, Repeating
from calculators.planning.model import Unit
from calculators.quantities.marks import quoted
from calculators.quantities.numbers import decimal_text

Schema = dict[str, Any]


class Kind(ABC):
    """One kind of value."""

    @abstractmethod
    def read(self, raw: Any, at: str, collector: Collector) -> Any:
        """Read a JSON value; what cannot be read is a fault, and something harmless comes back."""

    @abstractmethod
    def write(self, value: Any, unit: Unit) -> Any:
        """Write the value as JSON, where `unit` is the build's."""

    @abstractmethod
    def schema(self) -> Schema:
        """Describe the JSON that `read` takes."""


def kind_of_json(raw: Any) -> str:
    """Name what a JSON value is, with a glimpse of it, for a sentence.

    Args:
        raw: a value as `parse` gives it.

    Returns:
        Such as `a list`, `the number 3`, `the text 'oak'`.

    Source: this project.

    Example:
        >>> kind_of_json([1]), kind_of_json(None)
        ('a list', 'null (leave out what there is nothing to say of)')
    """
    if raw is None:
        return "null (leave out what there is nothing to say of)"
    if isinstance(raw, bool):
        return "true" if raw else "false"
    if isinstance(raw, NumberText):
        return f"the number {quoted(raw)[1:-1]}"
    if isinstance(raw, str):
        return f"the text {quoted(raw)}"
    return "a list" if isinstance(raw, list) else "an object"


def check_repeating(raw: dict[str, Any], at: str, collector: Collector) -> None:
    """Note a fault for each name that a JSON object gave more than once.

    Args:
        raw: the object.
        at: its place.
        collector: where faults go.

    Source: this project.
    """
    if isinstance(raw, Repeating):
        for name in raw.names:
            collector.fault(at, f"{quoted(name)} stands here more than once; keep one of them.")


_UNWRITABLE = re.compile("[\x00-\x08\x0b\x0c\x0e-\x1f\x7f\ud800-\udfff\ufffe\uffff]")


_DIGEST = re.compile(r"[0-9a-f]{64}")


class Text(Kind):
    """A text of bounded length; of one line unless `lines`."""

    def __init__(self, most: int = 200, *, lines: bool = False, least: int = 0) -> None:
        self.most, self.lines, self.least = most, lines, least

    def read(self, raw: Any, at: str, collector: Collector) -> str:
        """Read a text."""
        if not isinstance(raw, str) or isinstance(raw, NumberText):
            collector.fault(at, f"Here stands a text in quotes, not {kind_of_json(raw)}.")
            return ""
        self._check(raw, at, collector)
        return str(raw)

    def _check(self, raw: str, at: str, collector: Collector) -> None:
        if len(raw) > self.most:
            says = f"This text has {len(raw):,} characters; it may have {self.most:,}."
            collector.fault(at, says, value=float(len(raw)), limit=float(self.most))
        elif len(raw) < self.least or (self.least and not raw.strip()):
            collector.fault(at, "This text is empty; it must say something.")
        elif not raw.isprintable():
            if _UNWRITABLE.search(raw):
                collector.fault(at, f"{quoted(raw)} has a character that no text can hold; take it out.")
            elif not self.lines and ("\n" in raw or "\r" in raw):
                collector.fault(at, f"{quoted(raw)} has a line break; write it on one line.")

    def write(self, value: Any, unit: Unit) -> str:
        """Write it as it is."""
        return str(value)

    def schema(self) -> Schema:
        """A string with its limits."""
        found: Schema = {"type": "string", "maxLength": self.most}
        return {**found, "minLength": self.least} if self.least else found


def is_mark(text: str, most: int = 20) -> bool:
    """Say whether a text has the form of a mark: letters and digits of any script, and hyphens.

    Args:
        text: the text.
        most: [1] the most characters allowed.

    Returns:
        True when it has, begins with a letter or digit, and is in Unicode's composed form.

    Source: this project.

    Example:
        >>> is_mark("P11"), is_mark("Ж-3"), is_mark("P 11"), is_mark("P02.1")
        (True, True, False, False)
    """
    if not 0 < len(text) <= most:
        return False
    if text.isascii():
        return text[0].isalnum() and text.replace("-", "").isalnum()
    if not text[0].isalnum() or unicodedata.normalize("NFC", text) != text:
        return False
    return all(sign == "-" or unicodedata.category(sign)[0] == "M" or sign.isalnum() for sign in text)


class Mark(Text):
    """A mark or id: letters, digits and hyphens."""

    def __init__(self, most: int = 20) -> None:
        super().__init__(most, least=1)

    def read(self, raw: Any, at: str, collector: Collector) -> str:
        """Read a mark."""
        if not isinstance(raw, str) or isinstance(raw, NumberText):
            collector.fault(at, f'Here stands a mark in quotes, such as "P11", not {kind_of_json(raw)}.')
            return ""
        if not is_mark(raw, self.most):
            says = (
                f"{quoted(raw)} is not a mark; write letters, digits and hyphens, "
                f"beginning with a letter or digit, at most {self.most}."
            )
            collector.fault(at, says)
        return str(raw)

    def schema(self) -> Schema:
        """A short string without the signs that separate marks."""
        return {"type": "string", "minLength": 1, "maxLength": self.most, "pattern": r"^[^\s.,;:/()\[\]{}]+$"}


class BuildNumber(Text):
    """The number of a build, which stands in addresses and in names of files: no slash, not dots alone."""

    def __init__(self) -> None:
        super().__init__(40, least=1)

    def _check(self, raw: str, at: str, collector: Collector) -> None:
        super()._check(raw, at, collector)
        if "/" in raw or "\\" in raw or (raw and not raw.strip(".")):
            says = f"{quoted(raw)} cannot stand in an address; write it without a slash, such as 2024-17."
            collector.fault(at, says)

    def schema(self) -> Schema:
        """A short string without slashes."""
        return {**super().schema(), "pattern": r"^(?!\.+$)[^/\\]+$"}


class Digest(Text):
    """A SHA-256 digest: 64 hexadecimal digits in small letters."""

    def __init__(self) -> None:
        super().__init__(64, least=64)

    def _check(self, raw: str, at: str, collector: Collector) -> None:
        if not _DIGEST.fullmatch(raw):
            collector.fault(at, f"A digest is 64 hexadecimal digits in small letters, not {quoted(raw)}.")

    def schema(self) -> Schema:
        """A string with the pattern of a digest."""
        return {"type": "string", "pattern": _DIGEST.pattern}


class Whole(Kind):
    """A whole number within limits, a JSON number."""

    def __init__(self, least: int, most: int) -> None:
        self.least, self.most = least, most

    def read(self, raw: Any, at: str, collector: Collector) -> int:
        """Read a whole number."""
        readable = isinstance(raw, NumberText) and re.fullmatch(r"-?[0-9]{1,15}", raw)
        if readable and self.least <= (number := int(raw)) <= self.most:
            return number
        says = f"Here stands a whole number from {self.least} to {self.most:,}, not {kind_of_json(raw)}."
        collector.fault(at, says)
        return self.least

    def write(self, value: Any, unit: Unit) -> int:
        """Write a JSON number."""
        return int(value)

    def schema(self) -> Schema:
        """An integer with its limits."""
        return {"type": "integer", "minimum": self.least, "maximum": self.most}


_DECIMAL = re.compile(r"-?[0-9]{1,9}(\.[0-9]{1,12})?")


class Exact(Kind):
    """An exact decimal: a JSON string of plain digits (a JSON number is read too)."""

    def __init__(self, least: int, most: int) -> None:
        self.least, self.most = least, most

    def read(self, raw: Any, at: str, collector: Collector) -> Decimal:
        """Read a decimal."""
        readable = isinstance(raw, str) and _DECIMAL.fullmatch(raw)
        if readable and self.least <= (number := Decimal(raw)) <= self.most:
            return number
        says = (
            f"Here stands a decimal number from {self.least} to {self.most:,} with at most 12 places, "
            f'such as "12.5", not {kind_of_json(raw)}.'
        )
        collector.fault(at, says)
        return Decimal(self.least)

    def write(self, value: Any, unit: Unit) -> str:
        """Write plain digits without trailing noughts."""
        return decimal_text(Fraction(value))

    def schema(self) -> Schema:
        """A string of digits, or a number."""
        return {
            "anyOf": [
                {"type": "string", "pattern": r"^-?[0-9]{1,9}(\.[0-9]{1,12})?$"},
                {"type": "number", "minimum": self.least, "maximum": self.most},
            ]
        }


class Day(Kind):
    """A calendar date as ISO 8601 writes it."""

    def read(self, raw: Any, at: str, collector: Collector) -> date:
        """Read a date."""
        if isinstance(raw, str) and re.fullmatch(r"[0-9]{4}-[0-9]{2}-[0-9]{2}", raw):
            try:
                return date.fromisoformat(raw)
            except ValueError:
                pass
        collector.fault(at, f'Here stands a date such as "2024-03-31", not {kind_of_json(raw)}.')
        return date.min

    def write(self, value: Any, unit: Unit) -> str:
        """Write the date."""
        return str(value.isoformat())

    def schema(self) -> Schema:
        """A string of the form of a date."""
        return {"type": "string", "format": "date", "pattern": "^[0-9]{4}-[0-9]{2}-[0-9]{2}$"}


class Flag(Kind):
    """True or false."""

    def read(self, raw: Any, at: str, collector: Collector) -> bool:
        """Read true or false."""
        if isinstance(raw, bool):
            return raw
        collector.fault(at, f"Here stands true or false without quotes, not {kind_of_json(raw)}.")
        return False

    def write(self, value: Any, unit: Unit) -> bool:
        """Write it."""
        return bool(value)

    def schema(self) -> Schema:
        """A boolean."""
        return {"type": "boolean"}


class Choice(Kind):
    """One of a few words."""

    def __init__(self, *words: str) -> None:
        self.words = words

    def read(self, raw: Any, at: str, collector: Collector) -> str:
        """Read one of the words."""
        if isinstance(raw, str) and raw in self.words and not isinstance(raw, NumberText):
            return str(raw)
        near = near_names(raw, self.words) if isinstance(raw, str) and not collector.full else ()
        listed = ", ".join(f'"{word}"' for word in self.words)
        collector.fault(at, f"Here stands one of {listed}, not {kind_of_json(raw)}.", near or self.words)
        return self.words[0]

    def write(self, value: Any, unit: Unit) -> str:
        """Write the word."""
        return str(value)

    def schema(self) -> Schema:
        """An enumeration."""
        return {"enum": list(self.words)}


def near_names(name: str, names: tuple[str, ...]) -> tuple[str, ...]:
    """Find the names that somebody may have meant.

    Args:
        name: what was written.
        names: what there is.

    Returns:
        The nearest, best first, at most three.

    Source: this project.

    Example:
        >>> near_names("lenght", ("length", "width"))
        ('length',)
    """
    return tuple(get_close_matches(name[:40].lower(), names, n=3, cutoff=0.6))
