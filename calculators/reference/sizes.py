"""The sizes in the tables that are nearest to a length: drills, cutters, threads, gauges."""

from __future__ import annotations

from dataclasses import dataclass
from functools import cache

from calculators.hardware.drills import all_drills
from calculators.hardware.threads import all_threads
from calculators.quantities.gauges import ABBREVIATIONS, gauges_of
from calculators.quantities.length import Length
from calculators.tables import load

_SAME_MM = 1e-6
_FAR = 0.2
"""A size farther off than this share of the length is no answer."""


@dataclass(frozen=True, slots=True)
class NearSize:
    """A size that exists: its name, its millimetres, and how much larger it is than the length."""

    name: str
    size_mm: float
    error_mm: float

    @property
    def exact(self) -> bool:
        """Whether it is the length itself."""
        return abs(self.error_mm) < _SAME_MM


@dataclass(frozen=True, slots=True)
class NearSizes:
    """The sizes of one kind on either side of a length, and the table that holds them."""

    kind: str
    table: str
    sizes: tuple[NearSize, ...]


@cache
def _kinds() -> tuple[tuple[str, str, tuple[tuple[str, float], ...]], ...]:
    """Each kind with its table and its sizes."""
    kinds = [
        ("drills", "drills", tuple((each.name, each.diameter_mm) for each in all_drills())),
        ("threads, by their major diameter", "threads",
         tuple((each.designation, each.major_mm) for each in all_threads())),
        ("cutters", "cutters", tuple((row["name"], row.number("diameter")) for row in load("cutters").rows)),
    ]  # fmt: skip
    gauges = [gauge for system in ABBREVIATIONS for gauge in gauges_of(system).values()]
    kinds.append(
        ("gauges", "gauges_imperial_standard", tuple((each.name, each.thickness_mm) for each in gauges))
    )
    return tuple(kinds)


def near_sizes(length: Length) -> tuple[NearSizes, ...]:
    """Find the sizes on either side of a length, of each kind that comes near it.

    Args:
        length: the length, over 0.

    Returns:
        For each kind the next smaller size, all that are equal, and the next larger, within a fifth of it.

    Source: the tables of drills, threads, cutters and gauges.

    Example:
        >>> [size.name for size in near_sizes(Length.of_mm(4.7625))[0].sizes]
        ['4.7 mm', '3/16 in', '4.8 mm']
    """
    found = ((kind, table, _either_side(sizes, length.mm)) for kind, table, sizes in _kinds())
    return tuple(NearSizes(kind, table, sizes) for kind, table, sizes in found if sizes)


def _either_side(sizes: tuple[tuple[str, float], ...], mm: float) -> tuple[NearSize, ...]:
    near = [NearSize(name, size, size - mm) for name, size in sizes if abs(size - mm) <= _FAR * mm]
    near.sort(key=lambda each: each.size_mm)
    below = [each for each in near if each.error_mm <= -_SAME_MM]
    above = [each for each in near if each.error_mm >= _SAME_MM]
    return (*_as_near(below[::-1]), *(each for each in near if each.exact), *_as_near(above))


def _as_near(sizes: list[NearSize]) -> tuple[NearSize, ...]:
    """The first and all that are of its size."""
    return tuple(each for each in sizes if abs(each.size_mm - sizes[0].size_mm) < _SAME_MM)
