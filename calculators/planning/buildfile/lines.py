"""The lines of hardware in a build: kept as text, and checked to be readable."""

from __future__ import annotations

from calculators.hardware.designation import read_hardware
from calculators.hardware.fastener import Fastener
from calculators.planning.buildfile.collecting import Collector
from calculators.planning.model import Build
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted


def check_lines(build: Build, collector: Collector) -> None:
    """Check that every fastener is a fastener and every item of a stack a washer, nut or insert.

    Args:
        build: the build.
        collector: where faults go.

    Source: this project.
    """
    known: dict[str, bool | InputError] = {}
    for i, joint in enumerate(build.joints):
        if collector.full:
            # An unreadable line is asked back with its choices, which takes milliseconds for each.
            collector.stopped = True
            return
        at = f"joints[{i}] ({joint.mark})"
        if joint.fastener:
            _check(joint.fastener, f"{at}.fastener", True, known, collector)
        for j, member in enumerate(joint.stack):
            if member.item:
                _check(member.item, f"{at}.stack[{j}].item", False, known, collector)


def _check(
    line: str, at: str, fastener: bool, known: dict[str, bool | InputError], collector: Collector
) -> None:
    """Check one line; each writing is read once."""
    found = known.get(line)
    if found is None:
        try:
            found = isinstance(read_hardware(line, unit=collector.unit), Fastener)
        except InputError as error:
            found = error
        known[line] = found
    if isinstance(found, InputError):
        collector.take(at, found)
    elif found != fastener:
        wanted = "a screw, bolt, stud or wood screw" if fastener else "a washer, nut or insert"
        other = "a washer, nut or insert, which is a member of the stack" if fastener else "a fastener"
        collector.fault(at, f"{quoted(line)} is {other}; here stands {wanted}.")
