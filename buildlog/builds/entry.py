"""What a form of parts/_line_entry.html sent: its lines, with what was mended and what was chosen."""

from __future__ import annotations

from dataclasses import dataclass

from django.http import QueryDict


@dataclass(frozen=True, slots=True)
class UnreadLine:
    """A line that could not be read: its place among those sent, why, and what would be."""

    number: int
    text: str
    says: tuple[str, ...]
    choices: tuple[str, ...] = ()


def typed_lines(sent: QueryDict, name: str) -> list[str]:
    """Every line that was typed under this name, without empty ones, in the order of the page.

    The new lines come first, then those that were not understood before, as they were mended. Where a
    choice was pressed, its text stands in the place of its line; a choice of no line is left aside.
    """
    texts = sent.getlist(name)
    at, colon, chosen = sent.get(f"{name}-choice", "").partition(":")
    if colon and at.isascii() and at.isdigit() and len(at) < 7 and 0 < int(at) < len(texts):
        texts[int(at)] = chosen
    return [line.strip() for text in texts for line in text.splitlines() if line.strip()]
