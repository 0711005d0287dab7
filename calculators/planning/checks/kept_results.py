"""The kept calculations of a build as rules read them: numbers of today, inputs, the person's own limits."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from typing import TYPE_CHECKING

from calculators.calculation.result import Result, Value
from calculators.calculation.spreads import parted
from calculators.planning.checks.site import Site
from calculators.quantities.errors import InputError
from calculators.quantities.units import read_quantity

if TYPE_CHECKING:
    # The calculators and their tables are loaded for builds that have need of them.
    from calculators.planning.calculations import WorkedCalculation


@dataclass(frozen=True, slots=True)
class Kept:
    """One kept calculation that could be worked with the sizes of today."""

    worked: WorkedCalculation
    result: Result
    inputs: dict[str, str]

    @property
    def mark(self) -> str:
        """Its mark."""
        return self.worked.calculation.mark

    @property
    def named(self) -> str:
        """Mark and title, to begin a sentence with."""
        return f"{self.mark} {self.worked.calculation.title}".strip()

    def number(self, name: str) -> float | None:
        """A result as a number, in the unit that the nomenclature gives it; None where it is none."""
        value = self.result.results.get(name, Value(None)).value
        return float(value) if isinstance(value, int | float) and not isinstance(value, bool) else None

    def rows(self, name: str) -> tuple[dict[str, object], ...]:
        """A result that is a list of like objects; empty where it is none."""
        one = self.result.results.get(name)
        listed = one.value if one is not None and isinstance(one.value, list | tuple) else ()
        return tuple(dict(each) for each in listed if isinstance(each, dict))

    def given(self, name: str, unit: str) -> float | None:
        """An input as a number in a unit, without the spread written with it; None where it is left out."""
        return quantity(self.inputs.get(name, ""), unit)

    def limited(self, *names: str) -> bool:
        """Whether the person has set a limit of their own on one of these results."""
        return any(held.limit.result in names and not held.says for held in self.worked.limits)

    def tied(self, name: str) -> bool:
        """Whether an input, or a member of its rows, hangs on a size of the build."""
        return any(one.input == name or one.input.startswith(f"{name}[") for one in self.worked.ties)

    def at(self, name: str) -> str:
        """The path of an input in the build file; of the calculation where that input is left out."""
        path = f"calculations[{self.mark}]"
        return f"{path}.inputs[{name}]" if name in self.inputs else path


def kept_results(site: Site, *calculators: str) -> Iterator[Kept]:
    """Give the kept calculations of some calculators that could be worked.

    Args:
        site: the build.
        *calculators: their names.

    Yields:
        Each in the order of the build.

    Source: this project.
    """
    for one in site.calculations:
        if one.calculation.calculator in calculators and one.now is not None:
            yield Kept(one, one.now, dict(one.inputs))


def quantity(text: str, unit: str) -> float | None:
    """Read a quantity that a person wrote, without its spread.

    Args:
        text: as it was written.
        unit: [text] the unit that is wanted, and that a bare number has.

    Returns:
        The number; None where nothing is written or it cannot be read.

    Source: this project.

    Example:
        >>> quantity("1 in", "mm"), quantity("5", "deg"), quantity("", "mm")
        (25.4, 5.0, None)
    """
    try:
        return read_quantity(parted(text)[0], unit, field="value") if text.strip() else None
    except InputError:
        return None
