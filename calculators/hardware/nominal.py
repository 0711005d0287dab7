"""The nominal size of a thread: the name under which the tables of heads, nuts and washers list it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from calculators.hardware.threads import find_thread
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

Family = Literal["metric", "unified", "british", "BA"]
Basis = Literal["published", "common practice", "from memory"]
"""How a size is known; a remembered size is never called published."""


@dataclass(frozen=True, slots=True)
class Nominal:
    """A thread's nominal size.

    `name` is how the tables list it (`M5`, `No. 10`, `5/16`, `2 BA`), `family` which standards apply:
    `british` covers the Whitworth forms and the model engineers' threads.
    """

    name: str
    family: Family
    designation: str
    major_mm: float
    pitch_mm: float


def nominal_of(size: str) -> Nominal:
    """Find a thread's nominal size and the family of standards that its hardware follows.

    Args:
        size: a thread as the trade writes it (`M5`, `10-32 UNF`, `5/16 BSF`, `2 BA`).

    Returns:
        The nominal size, with the major diameter and pitch in [mm].

    Raises:
        InputError: when no such thread is known.

    Source: this project.

    Example:
        >>> nominal_of("10-32 UNF").name
        'No. 10'
    """
    thread = find_thread(size, field="size")
    text = thread.designation
    if match := re.match(r"M[\d.]+", text):
        return Nominal(match.group(), "metric", text, thread.major_mm, thread.pitch_mm)
    if text.endswith("BA"):
        return Nominal(text, "BA", text, thread.major_mm, thread.pitch_mm)
    unified = "UN" in text
    # a leading number and its pitch (10-32) is a numbered size unless it is a fraction or whole inches
    match = re.match(r"(?:No\. |#)?(\d+(?: \d+/\d+|/\d+)?)", text)
    first = match.group(1) if match else text
    if unified and "/" not in first and thread.major_mm < 5.6:
        first = f"No. {first}"
    return Nominal(first, "unified" if unified else "british", text, thread.major_mm, thread.pitch_mm)


def table_row(table: str, standard: str, nominal: Nominal, what: str) -> Row:
    """Find the row of one standard for a nominal size.

    Args:
        table: the table's name.
        standard: the standard as the table's key names it.
        nominal: the size.
        what: the thing in words, for the error's sentence (`pan heads`).

    Returns:
        The row of the table.

    Raises:
        InputError: when the standard does not list the size; its sentence names the sizes that exist.

    Source: this project.
    """
    row = load(table).find(standard, nominal.name)
    if row is None:
        sizes = tuple(row["size"] for row in load(table).where("standard", standard))
        raise InputError.of(
            f"There are no {what} for {nominal.designation} in {standard}; there are {', '.join(sizes)}.",
            field="size",
            choices=sizes,
        )
    return row


def basis_of(row: Row) -> Basis:
    """Say how a table row is known, in the words that results carry.

    Args:
        row: the row.

    Returns:
        `published` for a row that was read, `from memory` or `common practice`.

    Source: this project.
    """
    if row.source.confidence == "read":
        return "published"
    return "from memory" if row.source.confidence == "memory" else "common practice"
