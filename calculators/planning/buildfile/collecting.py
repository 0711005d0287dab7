"""The faults of one file, collected in the order in which a person would meet them."""

from __future__ import annotations

from calculators.planning.model import Unit
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import Length
from calculators.quantities.reading import FARTHEST_MM, read_length

MOST_FAULTS = 50
"""How many faults are told; the rest are counted."""


class Collector:
    """What one reading of a file carries along: the build's unit, the faults found, lengths read already."""

    __slots__ = ("_lengths", "faults", "more", "stopped", "unit")

    def __init__(self, unit: Unit = "mm") -> None:
        self.unit: Unit = unit
        self.faults: list[Fault] = []
        self.more = 0
        self.stopped = False
        """Whether some check was left out because enough faults were found."""
        self._lengths: dict[tuple[str, Unit], Length | InputError] = {}

    @property
    def count(self) -> int:
        """How many faults were found so far."""
        return len(self.faults) + self.more

    @property
    def full(self) -> bool:
        """Whether further faults are only counted, so that no work need be done for their sentences."""
        return len(self.faults) >= MOST_FAULTS

    def fault(
        self,
        at: str,
        says: str,
        choices: tuple[str, ...] = (),
        *,
        value: float | None = None,
        limit: float | None = None,
        unit: str = "",
    ) -> None:
        """Note a fault at a place."""
        if self.full:
            self.more += 1
        else:
            self.faults.append(Fault(says, at, choices, value, limit, unit))

    def take(self, at: str, error: InputError) -> None:
        """Note the faults of an error that something else raised."""
        for fault in error.faults:
            self.fault(at, fault.says, fault.choices, value=fault.value, limit=fault.limit, unit=fault.unit)

    def length(self, text: str, unit: Unit, at: str) -> Length | None:
        """Read a length of any sign, each writing once; None with a fault when it cannot be read."""
        key = (text, unit)
        found = self._lengths.get(key)
        if found is None:
            try:
                found = read_length(text, unit=unit, minimum_mm=-FARTHEST_MM)
            except InputError as error:
                found = error
            self._lengths[key] = found
        if isinstance(found, InputError):
            self.take(at, found)
            return None
        return found

    def raise_if_any(self) -> None:
        """Raise all faults at once, with the count of those that are not told."""
        if not self.faults:
            return
        if self.more:
            count = f"at least {self.more}" if self.stopped else str(self.more)
            raise InputError(*self.faults, Fault(f"And {count} more."))
        raise InputError(*self.faults)
