"""Quantities as people write them: lengths, gauges, forces and angles, read exactly and shown plainly.

May import: the standard library, pint (inside `units.py` alone) and `calculators.tables`.
Offers: `read_length`, `write_length`, `Length`, `InputError`, `Fault`; the rest by module.
"""

from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import TICKS_PER_MM, Length
from calculators.quantities.reading import read_length, write_length

__all__ = ["TICKS_PER_MM", "Fault", "InputError", "Length", "read_length", "write_length"]
