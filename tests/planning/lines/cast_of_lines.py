"""A build that the lines of these tests are read against, and short ways to write what they mean."""

from __future__ import annotations

from typing import Any

from calculators.planning.model import AssemblyStep, Build, Component, Joint, Size
from calculators.quantities import read_length
from calculators.quantities.length import Length


def mm(text: str | float) -> Length:
    """A length as it was written in a build in millimetres."""
    return read_length(str(text), unit="mm", minimum_mm=-1e6)


def inch(text: str) -> Length:
    """A length as it was written where a bare number is inches."""
    return read_length(text, unit="in", minimum_mm=-1e6)


def ticks(value_mm: float) -> Length:
    """A length that was worked out."""
    return Length.of_mm(value_mm)


def block(length: Any = None, width: Any = None, thickness: Any = None) -> Size:
    """A block's sizes, as written in a build in millimetres where they are texts or numbers."""
    return Size(
        "block",
        *(one if one is None or isinstance(one, Length) else mm(one) for one in (length, width, thickness)),
    )


def rod(diameter: Any, length: Any = None, bore: Any = None) -> Size:
    """A round's sizes."""
    sizes = [one if one is None or isinstance(one, Length) else mm(one) for one in (length, diameter, bore)]
    return Size("round", length=sizes[0], diameter=sizes[1], bore=sizes[2])


BOX = Build(
    "B1",
    "Box",
    components=(
        Component("G1", "Carcase"),
        Component("P01", "sides", "G1", 4, "oak", "board", block(300, 120, 12)),
        Component("P02", "base", "G1", 1, "ply", "sheet", block(276, 96, 6)),
        Component("P03", "lid", "", 1, "oak", "board", block(300, 120, 12)),
        Component("P04", "hinges", "", 2, "brass", "bought"),
        Component("P05", "catch", "", 1, "brass", "bought", block(20, 12, 6)),
        Component("P06", "plate", "", 1, "mild steel", "", block(90, 90, 2)),
        Component("P07", "rail", "", 1, "maple", "board", block(400, 60, 18)),
        Component("P08", "Lid rail, long", "", 1, "oak", "board", block(400, 40, 18)),
        Component("P09", "Drum bracket", "", 1, "aluminium", "", block(110, 50, 3)),
        Component("P10", "Pillar", "", 1, "copper", "bar", rod(20, 165)),
        Component("P11", "Flange plate", "", 1, "gunmetal", "", block(90, 90, 6)),
    ),
    joints=(Joint("F01", "Old", "M5 x 20 csk"),),
    steps=(AssemblyStep(4, "Glue up"),),
)
"""A box in millimetres: groups, counted parts, a round, names with commas."""

INCHES = Build(
    "B2",
    "Stool",
    unit="in",
    components=(Component("A1", "legs", "", 3, "ash"), Component("A2", "seat", "", 1, "elm")),
)
"""A build in inches, whose marks are A1 and A2."""

EMPTY = Build("B3", "Nothing yet")
