"""A QR code as vectors, large enough for a phone held over a bench."""

from __future__ import annotations

from calculators.drawing.svg import escape, number
from calculators.quantities.errors import InputError

SYMBOL_MM = 15.5
"""How large the square is drawn at least, its quiet zone not counted."""

MODULE_MM = 0.4
"""How large one of its modules is drawn at least."""

QUIET = 4
"""Modules left white around it (ISO/IEC 18004, from memory)."""

LONGEST = 300


def square_code(text: str, title: str = "") -> str:
    """Draw a QR code with error correction level M, its quiet zone included.

    Args:
        text: what it holds, such as an address: 1 to 300 characters.
        title: what a screen reader says; nothing: what it holds.

    Returns:
        The SVG, as large as it is printed. One path: for each run of dark modules in a row a rectangle.

    Raises:
        InputError: where the text is empty or too long.

    Source: ISO/IEC 18004 (from memory): level M mends about 15 % of the code words, the quiet zone is four
        modules wide.

    Example:
        >>> square_code("https://oddleg.example/paper/7KQ2M4XD/")[:46]
        '<svg xmlns="http://www.w3.org/2000/svg" width='
    """
    import segno  # takes long to load, and few pages need it

    if not 0 < len(text) <= LONGEST:
        raise InputError.of(f"A square code holds 1 to {LONGEST} characters, not {len(text)}.", field="text")
    rows = segno.make(text, error="m", micro=False, boost_error=False).matrix
    count = len(rows)
    module = max(SYMBOL_MM / count, MODULE_MM)
    side, whole = count + 2 * QUIET, number((count + 2 * QUIET) * module, 3)
    runs = "".join(
        f"M{QUIET + start} {QUIET + y}h{end - start}v1h-{end - start}z"
        for y, row in enumerate(rows)
        for start, end in _runs(row)
    )
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" width="{whole}mm" height="{whole}mm"'
        f' viewBox="0 0 {side} {side}" role="img"><title>{escape(title or text)}</title>'
        f'<path d="{runs}" fill="#000"/></svg>'
    )


def _runs(row: bytes | bytearray) -> list[tuple[int, int]]:
    """Where dark modules stand side by side in a row: from, to."""
    found: list[tuple[int, int]] = []
    for x, dark in enumerate(row):
        if dark and found and found[-1][1] == x:
            found[-1] = (found[-1][0], x + 1)
        elif dark:
            found.append((x, x + 1))
    return found
