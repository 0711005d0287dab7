"""One table of names: what every result is called, in which unit it is given, and what it means.

Code, JSON, labels on pages and columns of sheets take their words from here.
"""

from __future__ import annotations

from dataclasses import dataclass

from calculators.quantities.result_names import ROWS


@dataclass(frozen=True, slots=True)
class Name:
    """A result's name, its unit (empty for text and for lists) and its description."""

    name: str
    unit: str
    description: str

    @property
    def label(self) -> str:
        """The name in words: `pitch diameter`."""
        return self.name.replace("_", " ")


NOMENCLATURE: dict[str, Name] = {
    cells[0]: Name(*cells)
    for line in ROWS.strip().splitlines()
    for cells in [tuple(cell.strip() for cell in line.split("|"))]
    if len(cells) == 3
}
"""Every name of a result, with its unit and description."""


def result_name(name: str) -> Name:
    """The entry of a result's name.

    Args:
        name: the name, from the code.

    Returns:
        The name with its unit and description.

    Raises:
        ValueError: when the table has no such name (a programmer's mistake).

    Source: this project.

    Example:
        >>> result_name("pitch_diameter").label, result_name("pitch_diameter").unit
        ('pitch diameter', 'mm')
    """
    if name not in NOMENCLATURE:
        raise ValueError(f"the nomenclature has no {name!r}")
    return NOMENCLATURE[name]
