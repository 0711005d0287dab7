"""Loading the published tables of this project by name, each read and checked once."""

from __future__ import annotations

import os
from functools import cache

from calculators.tables.model import Table, TableError
from calculators.tables.reading import read_table

_FOLDER = os.path.join(os.path.dirname(__file__), "data")


@cache
def names() -> tuple[str, ...]:
    """The names of all published tables, in alphabetical order.

    Returns:
        The names that `load` takes.

    Source: this project.

    Example:
        >>> "threads" in names()
        True
    """
    return tuple(sorted(file.removesuffix(".csv") for file in os.listdir(_FOLDER) if file.endswith(".csv")))


@cache
def load(name: str) -> Table:
    """Load a published table, checking it against its own header.

    Args:
        name: the table's name, which is its file's name without the ending.

    Returns:
        The table as frozen records.

    Raises:
        TableError: when there is no such table or its file is faulty (a programmer's mistake).

    Source: this project.

    Example:
        >>> load("threads").row("M5").number("pitch")
        0.8
    """
    if name not in names():
        raise TableError(name, f"there is no such table; there are {', '.join(names())}.")
    return read_table(os.path.join(_FOLDER, f"{name}.csv"))
