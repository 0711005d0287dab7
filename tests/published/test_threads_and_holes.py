"""Threads, tapping drills, clearance holes and drill sizes against tables as printed.

The printed values stand in data/threads.csv, tapping.csv, clearance.csv and drills.csv beside this file:
on top of each its sources in full, then a line for each value with its tolerance. Each file's notes say
how the tolerances were set and which rows of a source were not used, and why: above all rows that the
project's own tables were taken from, which would only check themselves. A line with a reason is a
printed value that is known to be wrong, older or another choice; it must still differ.
"""

from pathlib import Path

import pytest

from calculators.hardware.drills import find_drill
from calculators.hardware.holes import clearance_hole, engagement_percent, tapping_hole
from calculators.hardware.threads import Thread, find_thread
from calculators.tables import Table, read_table

DATA = Path(__file__).parent / "data"
INCH = 25.4

THREAD_QUANTITIES = {
    "major mm": lambda thread: thread.major_mm,
    "pitch mm": lambda thread: thread.pitch_mm,
    "tpi": lambda thread: INCH / thread.pitch_mm,
    "pitch diameter mm": lambda thread: thread.pitch_diameter_mm,
    "pitch diameter in": lambda thread: thread.pitch_diameter_mm / INCH,
    "minor diameter mm": lambda thread: thread.minor_diameter_mm,
    "minor diameter in": lambda thread: thread.minor_diameter_mm / INCH,
    "core in": lambda thread: thread.core_diameter_mm / INCH,
    "stress area mm2": lambda thread: thread.tensile_stress_area_mm2,
    "stress area in2": lambda thread: thread.tensile_stress_area_mm2 / INCH**2,
}


def thread_quantity(name: str, quantity: str) -> float:
    return THREAD_QUANTITIES[quantity](find_thread(name))


def tapping_quantity(name: str, quantity: str) -> float:
    thread: Thread = find_thread(name)
    if quantity == "drill mm":
        return tapping_hole(thread).hole_mm
    hole_mm = float(quantity.removeprefix("percent of ").removesuffix(" mm"))
    return engagement_percent(thread, hole_mm)


def clearance_quantity(name: str, quantity: str) -> float:
    return clearance_hole(find_thread(name), quantity.removesuffix(" mm")).diameter_mm


def drill_quantity(name: str, quantity: str) -> float:
    assert quantity == "inch"
    return find_drill(name).diameter_in


SUBJECTS = {
    "threads": thread_quantity,
    "tapping": tapping_quantity,
    "clearance": clearance_quantity,
    "drills": drill_quantity,
}


def printed(subject: str) -> Table:
    return read_table(DATA / f"{subject}.csv")


@pytest.mark.parametrize(
    ("subject", "key"), [(subject, key) for subject in SUBJECTS for key in printed(subject).sources]
)
def test_values_as_printed(published, subject, key):
    table = printed(subject)
    source = table.sources[key]
    book = published(f"{source.standard}, from {source.read_from}", confidence=source.confidence)
    for row in table.where("source", key):
        label = f"{row['name']} {row['quantity']}"
        found = SUBJECTS[subject](row["name"], row["quantity"])
        if row.has("reason"):
            book.differs(label, found, row.number("printed"), row["reason"], row.number("tolerance"))
        else:
            book.check(label, found, row.number("printed"), row.number("tolerance"))


def test_six_millimetre_screw_in_a_five_millimetre_hole(published):
    """M6 in a 5.0 mm hole is 77 % of thread on 3/4 H; on 5/8 H the same hole would be called 92 %."""
    book = published("percent of thread conventions on 3/4 H and 5/8 H, shop charts", "common practice")
    percent = engagement_percent(find_thread("M6"), 5.0)
    book.check("M6 in 5.0 mm, 3/4 H", percent, 77, 0.5, "%")
    book.differs("M6 in 5.0 mm, 5/8 H", percent, 92, "that figure is of 5/8 H, 1.0825 p", 0.5)


def test_every_reason_is_listed_once_and_nothing_is_hidden():
    """What disagrees is a small part, and each has its words; a new disagreement has to be written down."""
    differing = {subject: sum(row.has("reason") for row in printed(subject).rows) for subject in SUBJECTS}
    assert differing == {"threads": 12, "tapping": 40, "clearance": 35, "drills": 7}
