"""The trade's short way of writing hardware, read and written in one canonical form.

May import: `calculators.quantities`, `calculators.tables`, and the threads of `calculators.hardware`.
Offers: `read_hardware`, `read_fastener`, `read_nut`, `read_washer`, `read_insert`,
`write_hardware`, `canonical`.
"""

from calculators.hardware.designation.reading import (
    read_fastener,
    read_hardware,
    read_insert,
    read_nut,
    read_washer,
)
from calculators.hardware.designation.writing import canonical, write_hardware

__all__ = [
    "canonical",
    "read_fastener",
    "read_hardware",
    "read_insert",
    "read_nut",
    "read_washer",
    "write_hardware",
]
