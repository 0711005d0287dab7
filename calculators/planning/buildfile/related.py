"""What must hold of stock, motions, readings and releases: what they name is there."""

from __future__ import annotations

from difflib import get_close_matches
from typing import Protocol

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.tied import missing_size
from calculators.planning.model import Build, Component
from calculators.planning.ties import read_tie
from calculators.planning.tree import split_copy
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted


class Known(Protocol):
    """What can say whether a name is that of a component or a copy of one."""

    def check(self, name: str, at: str, totals: dict[str, int], *, joints: bool, copies: bool = True) -> bool:
        """Say whether there is such a component; note a fault if not."""


def check_kept_records(build: Build, totals: dict[str, int], names: Known, collector: Collector) -> None:
    """Check the names in stock, motions, readings, moisture readings and releases.

    An acceptance may be of something that is there no more: it is then of no effect.

    Args:
        build: the build.
        totals: how many there are of each component, by mark.
        names: what says whether there is such a component.
        collector: where faults go.

    Source: this project.
    """
    rack = {one.mark for one in build.stock}
    for i, one in enumerate(build.components):
        at = f"components[{i}] ({one.mark})"
        if one.from_stock and one.from_stock not in rack:
            _no_stock(one.from_stock, f"{at}.from_stock", rack, collector)
        if one.motion is not None:
            _check_motion(one, at, totals, names, collector)
    for i, meter in enumerate(build.moisture):
        for j, name in enumerate(meter.parts):
            names.check(name, f"moisture[{i}] ({meter.id}).parts[{j}]", totals, joints=False)
    for i, release in enumerate(build.releases):
        place = f"releases[{i}] ({release.id})"
        there = names.check(release.mark, f"{place}.mark", totals, joints=False, copies=False)
        if there and release.part.mark != release.mark:
            says = f"This is the release of {release.mark}, but the part in it is {release.part.mark}."
            collector.fault(f"{place}.part.mark", says)
    _check_readings(build, collector)


def _no_stock(mark: str, at: str, rack: set[str], collector: Collector) -> None:
    if collector.full:
        collector.fault(at, "")
        return
    near = tuple(get_close_matches(mark[:40], sorted(rack)[:2_000], n=3, cutoff=0.6))
    meant = f"; did you mean {' or '.join(near)}?" if near else "."
    collector.fault(at, f"There is no stock {quoted(mark)} on the rack{meant}", near)


def _check_motion(
    one: Component, at: str, totals: dict[str, int], names: Known, collector: Collector
) -> None:
    motion = one.motion
    if motion is None:
        return
    if motion.least > 0 or motion.most < 0:
        says = "A motion goes from nought or less to nought or more: nought is where the part is laid."
        collector.fault(f"{at}.motion", says)
    elif motion.least == motion.most:
        collector.fault(f"{at}.motion", "A motion from nought to nought moves nothing; say how far it goes.")
    for j, name in enumerate(motion.carries):
        place = f"{at}.motion.carries[{j}]"
        if names.check(name, place, totals, joints=False) and split_copy(name)[0] == one.mark:
            collector.fault(place, f"{one.mark} cannot carry itself.")


def _check_readings(build: Build, collector: Collector) -> None:
    if not build.readings:
        return
    parts = {one.mark: one for one in build.components}
    joints = {one.mark for one in build.joints}
    for i, reading in enumerate(build.readings):
        at = f"readings[{i}] ({reading.id}).of"
        try:
            tie = read_tie(reading.of)
        except InputError as error:
            collector.take(at, error)
            continue
        says = missing_size(tie, parts, joints)
        if says:
            collector.fault(at, f"A reading of {tie.written} stands for nothing: {says}")
