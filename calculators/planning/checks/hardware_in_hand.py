"""The rule for screws, nuts and washers: enough of each in the drawer or on order, with a spare where due."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, field, fields
from functools import lru_cache

from calculators.hardware.designation import read_hardware, write_hardware
from calculators.hardware.fastener import Fastener, Hardware
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule
from calculators.planning.checks.site import Site
from calculators.planning.model import Unit
from calculators.planning.schedules.buying import spares_for
from calculators.planning.schedules.fasteners import house_writing, needs_twin, steel_twin
from calculators.quantities.errors import InputError


@build_rule(
    "enough-hardware",
    "material",
    "There are as many screws, nuts, washers and inserts in hand or on order as are still to be fitted, and "
    "a spare where one is usual; where no hardware is listed, nothing is said.",
    CP,
)
def _enough_hardware(site: Site) -> Iterator[Seen]:
    """Each line of the fastener schedule against what is listed, by meaning and not by spelling."""
    listed = site.context.hardware
    if not listed:
        return
    unit = site.build.unit
    left: list[tuple[Hardware, float]] = []
    for index, (text, count) in enumerate(listed):
        item = _read(text, unit)
        if item is None:
            says = (
                f"“{text}” in the hardware in hand does not read as a screw, nut or washer: it is left out."
            )
            line = f"[{text}]" if not set(text) & set("[]") else ""  # a path cannot hold brackets in a key
            yield Seen("unchecked", says, place=f"line {index + 1}", at=f"context.hardware{line}")
        else:
            left.append((item, float(count)))
    fitted = _fitted(site)
    missing: list[str] = []
    needs = [(what, item, need, used) for what, item, need, used in _needed(site, fitted) if need > 0]
    # What is named to the letter takes its own first; what is said more loosely takes what is left.
    needs.sort(key=lambda one: not any(_same(one[1], have) for have, _ in left))
    for what, item, need, used in needs:
        alike = [index for index, (have, _) in enumerate(left) if _does(have, item)]
        if not alike:
            missing.append(f"{need} x {what}")
            continue
        alike.sort(key=lambda index: not _same(item, left[index][0]))
        total = sum(left[index][1] for index in alike)
        spare = spares_for(item, need)
        wanted = float(need + spare)
        for index in alike:
            taken = min(wanted, left[index][1])
            left[index] = (left[index][0], left[index][1] - taken)
            wanted -= taken
        if total < need:
            short = need - total
            says = (
                f"{what}: {need} are needed ({used}) and {total:g} are in hand or on order: {short:g} short."
            )
        elif total < need + spare:
            says = (
                f"{what}: {need} are needed ({used}) and {total:g} are in hand or on order: and of brass, "
                f"which twists off, {spare} to spare are wanted."
            )
        else:
            continue
        yield Seen(
            "error" if total < need else "warning", says, place=what, value=total,
            limit=float(need if total < need else need + spare), unit="1", at="context.hardware",
        )  # fmt: skip
    if missing:
        few = ", ".join(missing[:6]) + (f" and {len(missing) - 6} more lines" if len(missing) > 6 else "")
        yield Seen(
            "warning", f"Not among the hardware in hand or on order: {few}.", value=float(len(missing)),
            limit=0.0, unit="1", at="context.hardware",
        )  # fmt: skip


@lru_cache(maxsize=2048)
def _read(text: str, unit: Unit) -> Hardware | None:
    try:
        return read_hardware(text, unit=unit)
    except InputError:
        return None


def _fitted(site: Site) -> frozenset[str]:
    """The joints that are fitted already, and need nothing from the drawer."""
    done = {mark for step in site.build.steps if step.done is not None for mark in step.fits}
    states = {mark: part.component.state for mark, part in site.parts.items()}
    for joint in site.build.joints:
        parts = [member.part for member in joint.stack if member.part]
        if parts and all(states.get(part) == "fitted" for part in parts):
            done.add(joint.mark)
    return frozenset(done)


_twin = lru_cache(maxsize=1024)(steel_twin)
_written = lru_cache(maxsize=4096)(write_hardware)


@dataclass(slots=True)
class _Need:
    """A thing of which some are still to be fitted: how many, and in which joints."""

    count: int = 0
    joints: dict[str, None] = field(default_factory=dict)


def _needed(site: Site, fitted: frozenset[str]) -> Iterator[tuple[str, Hardware, int, str]]:
    """All that is still to be fitted: what it is called, the thing itself, how many, in which joints."""
    found: dict[Hardware, _Need] = {}
    twins: set[tuple[str, Hardware]] = set()
    for one in site.worked.joints:
        mark = one.joint.mark
        if mark in fitted or not one.count:
            continue
        fastener = house_writing(one.result.fastener, site.build)
        items: list[Hardware | None] = [fastener]
        for member in one.inputs.stack:
            if member.layer is None:
                items += [member.washer, member.nut, member.insert]
        for item in items:
            if item is not None:
                _add(found, item, one.count, mark)
        if needs_twin(one) and (mark, twin := _twin(fastener)) not in twins:
            twins.add((mark, twin))
            _add(found, twin, 1, mark)
    for item, need in found.items():
        joints = list(need.joints)
        used = ", ".join(joints[:5]) + (" ..." if len(joints) > 5 else "")
        yield _written(item), item, need.count, used


def _add(found: dict[Hardware, _Need], item: Hardware, count: int, mark: str) -> None:
    need = found.setdefault(item, _Need())
    need.count += count
    need.joints[mark] = None


def _bare(item: Hardware) -> dict[str, object]:
    """What a line says, without how a length is written and what it is cut down to."""
    said: dict[str, object] = {"what": type(item).__name__}
    for each in fields(item):
        value = getattr(item, each.name)
        if each.name in ("cut_to", "series") or value in ("", None):
            continue
        said[each.name] = getattr(value, "ticks", value)
    if isinstance(item, Fastener):
        said.setdefault("material", "steel")
    return said


def _same(one: Hardware, other: Hardware) -> bool:
    return _bare(one) == _bare(other)


def _does(have: Hardware, wanted: Hardware) -> bool:
    """Whether what is in the drawer is what is wanted, as far as both say."""
    one, other = _bare(have), _bare(wanted)
    return all(one[name] == other[name] for name in one.keys() & other.keys())


RULES: tuple[BuildRule, ...] = (_enough_hardware,)
