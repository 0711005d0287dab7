"""What a form of parts/_line_entry.html sent: its lines, with what was mended and what was chosen."""

from __future__ import annotations

from django.http import QueryDict


def typed_lines(sent: QueryDict, name: str) -> list[str]:
    """Every line that was typed, empty ones left out, in the order that the page shows them.

    The new lines come first, then those that were not understood before, as they were mended. Where a choice
    was pressed, its text stands in the place of the line that it belongs to.

    Args:
        sent: what the form posted
        name: the name of its entry, which all of its lines share

    Returns:
        the lines, without the spaces round them

    Raises:
        nothing: a choice that names no line is left aside

    Source:
        this project.
    """
    texts = sent.getlist(name)
    at, colon, chosen = sent.get(f"{name}-choice", "").partition(":")
    if colon and at.isascii() and at.isdigit() and len(at) < 7 and 0 < int(at) < len(texts):
        texts[int(at)] = chosen
    return [line.strip() for text in texts for line in text.splitlines() if line.strip()]
