"""The schedules that are given as CSV, by the names in their addresses."""

from __future__ import annotations

from collections.abc import Callable
from dataclasses import dataclass

from calculators.planning.schedules import (
    assembly_list,
    buying_list,
    cut_list,
    fastener_schedule,
    finding_list,
    hole_schedule,
    schedule_csv,
)
from calculators.planning.schedules.assembly import AssemblyLine
from calculators.planning.schedules.buying import BuyLine
from calculators.planning.schedules.cutting import CutLine
from calculators.planning.schedules.fasteners import FastenerLine
from calculators.planning.schedules.findings import FindingLine
from calculators.planning.schedules.holes import HoleLine
from calculators.planning.worked import WorkedBuild


@dataclass(frozen=True, slots=True)
class Spreadsheet:
    """One schedule: its word, and its text as CSV."""

    word: str
    rows: Callable[[WorkedBuild], str]


SPREADSHEETS = {
    "fasteners": Spreadsheet(
        "Fastener schedule",
        lambda worked: schedule_csv(FastenerLine, fastener_schedule(worked.build, worked).lines),
    ),
    "holes": Spreadsheet(
        "Hole schedule", lambda worked: schedule_csv(HoleLine, hole_schedule(worked.build, worked))
    ),
    "cut": Spreadsheet("Cut list", lambda worked: schedule_csv(CutLine, cut_list(worked.build))),
    "shopping": Spreadsheet(
        "Shopping list", lambda worked: schedule_csv(BuyLine, buying_list(worked.build, worked))
    ),
    "assembly": Spreadsheet(
        "Assembly order", lambda worked: schedule_csv(AssemblyLine, assembly_list(worked.build).steps)
    ),
    "check": Spreadsheet("Findings", lambda worked: schedule_csv(FindingLine, finding_list(worked))),
}
