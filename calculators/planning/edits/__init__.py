"""Everything that changes a build, as functions from a build to a build; and what a change changes.

May import: everything in planning, and below it in calculators. Offers the names below.
"""

from calculators.planning.edits.accepting import accept, acceptance_of, lapsed_id, renew, withdraw
from calculators.planning.edits.comparing import FieldChange, compare_builds
from calculators.planning.edits.effects import (
    Effects,
    FastenerEffect,
    HoleChange,
    PartEffect,
    ScheduleChange,
    effects,
)
from calculators.planning.edits.house_rules import limit_named, reset_limit, set_limit, switch_off, switch_on
from calculators.planning.edits.mends import can_mend, mend
from calculators.planning.edits.naming import find_finding, finding_key
from calculators.planning.edits.ordering import move_record, move_step
from calculators.planning.edits.records import RecordKind, duplicate, find, put
from calculators.planning.edits.removing import remove, taken_along
from calculators.planning.edits.renaming import rename_mark
from calculators.planning.edits.trials import Alternative, alternatives, try_fastener

__all__ = [
    "Alternative",
    "Effects",
    "FastenerEffect",
    "FieldChange",
    "HoleChange",
    "PartEffect",
    "RecordKind",
    "ScheduleChange",
    "accept",
    "acceptance_of",
    "alternatives",
    "can_mend",
    "compare_builds",
    "duplicate",
    "effects",
    "find",
    "find_finding",
    "finding_key",
    "lapsed_id",
    "limit_named",
    "mend",
    "move_record",
    "move_step",
    "put",
    "remove",
    "rename_mark",
    "renew",
    "reset_limit",
    "set_limit",
    "switch_off",
    "switch_on",
    "taken_along",
    "try_fastener",
    "withdraw",
]
