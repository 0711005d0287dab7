"""What a line of hardware says: a screw, a nut, a washer or an insert as plain data.

Reading and writing the trade's short forms is in `designation.py`; the sizes behind them are in the
tables of `threads.py`, `heads.py`, `nuts.py`, `washers.py`, `wood_screws.py` and `inserts.py`.
"""

from __future__ import annotations

from dataclasses import dataclass
from typing import Literal

from calculators.quantities.length import Length

Family = Literal["machine", "wood"]
Head = Literal[
    "",  # not stated
    "csk",
    "raised csk",
    "pan",
    "cheese",
    "round",
    "socket cap",
    "socket csk",
    "button",
    "hex",
    "coach",
    "knurled",
    "none",  # grub screws and studs
]
Drive = Literal["", "slotted", "cross", "hex socket", "hexalobular", "square", "hand"]
Kind = Literal["screw", "set screw", "bolt", "grub screw", "stud", "coach screw"]
"""A set screw is threaded to its head (British sense); a bolt has a plain shank; a grub screw has no head."""

Point = Literal["", "cup", "cone", "flat", "dog"]
NutForm = Literal["full", "half", "dome", "square", "wing", "stiff", "knurled"]
WasherForm = Literal["plain", "small", "repair", "spring", "crinkle", "toothed", "cup"]
Series = Literal["inch-us", "inch-british", "metric"]
"""Which series a wood screw's number or size is of."""


@dataclass(frozen=True, slots=True)
class Fastener:
    """A screw, bolt, grub screw, stud or wood screw, as one line says it.

    `size` is the canonical thread (`M5`, `M6 x 0.75`, `5/16 BSF`, `10-32 UNF`, `2 BA`) of a machine
    screw; of a wood screw the number (`No. 8`) or for the metric series the diameter (`4`). `length` is
    None where it is still to be found. `cut_to` is a length to which a longer stock length is shortened.
    """

    family: Family
    size: str
    length: Length | None = None
    head: Head = ""
    drive: Drive = ""
    kind: Kind = "screw"
    material: str = ""
    finish: str = ""
    grade: str = ""
    point: Point = ""
    series: Series | Literal[""] = ""
    cut_to: Length | None = None


@dataclass(frozen=True, slots=True)
class Nut:
    """A nut: its thread and form."""

    size: str
    form: NutForm = "full"
    material: str = ""
    finish: str = ""


@dataclass(frozen=True, slots=True)
class Washer:
    """A washer: for which thread or screw size, of which form, with its own sizes where stated."""

    size: str
    form: WasherForm = "plain"
    outside: Length | None = None
    thickness: Length | None = None
    material: str = ""
    finish: str = ""


@dataclass(frozen=True, slots=True)
class Insert:
    """A threaded insert for wood: the thread inside, its outside and body diameter and length."""

    size: str
    length: Length | None = None
    outside: Length | None = None
    body: Length | None = None
    material: str = ""


Hardware = Fastener | Nut | Washer | Insert
