"""The lists that a build is made from (fasteners, holes, cutting, buying, assembly), its findings; as CSV.

May import: calculators.planning.model, tree and worked, and everything below calculators.planning.
Offers the functions below; the records of each list are in its own file.
"""

from calculators.planning.schedules.assembly import assembly_list
from calculators.planning.schedules.buying import buying_list
from calculators.planning.schedules.cutting import cut_list
from calculators.planning.schedules.fasteners import fastener_schedule
from calculators.planning.schedules.findings import finding_list
from calculators.planning.schedules.holes import hole_schedule
from calculators.planning.schedules.spreadsheet import schedule_csv

__all__ = [
    "assembly_list",
    "buying_list",
    "cut_list",
    "fastener_schedule",
    "finding_list",
    "hole_schedule",
    "schedule_csv",
]
