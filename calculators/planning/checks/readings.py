"""The rule for readings: what was measured of a size, against the size that was chosen and other readings."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from itertools import pairwise

from calculators.joints.limits import Limit
from calculators.joints.model import Mend
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import Site
from calculators.planning.model import Component, Reading
from calculators.planning.ties import mark_of_tie, read_tie, size_now, size_text
from calculators.planning.worked import WorkedJoint
from calculators.quantities.errors import InputError

_CALIPER = Limit("reading-caliper", 0.05, "mm", CP, "how far a reading by caliper may be off")
_MICROMETER = Limit("reading-micrometer", 0.01, "mm", CP, "how far a reading by micrometer may be off")
_RULE = Limit("reading-rule", 0.5, "mm", CP, "how far a reading by rule may be off")
_OTHER = Limit("reading-other", 0.5, "%", CP, "how far a drawing's or a catalogue's size may be off")
_METHOD = {"caliper": _CALIPER.name, "micrometer": _MICROMETER.name, "rule": _RULE.name}
_VAGUE = ("photograph", "judgement")
"""What tells nothing without its uncertainty."""


@build_rule(
    "reading-disagrees",
    "records",
    "The size that was chosen lies within what its best reading leaves open, and readings of one size agree.",
    CP,
    _CALIPER,
    _MICROMETER,
    _RULE,
    _OTHER,
)
def _reading_disagrees(site: Site) -> Iterator[Seen]:
    """Each size that was read, against its most certain reading; readings against one another."""
    if not site.build.readings:
        return
    parts = {mark: part.component for mark, part in site.parts.items()}
    joints = _joints_read(site)
    by_size: dict[str, list[tuple[Reading, float]]] = {}
    vague: list[Reading] = []
    for one in site.build.readings:
        off = uncertainty_mm(one, site.limits)
        if off is None:
            vague.append(one)
        else:
            by_size.setdefault(_size_of(one.of), []).append((one, off))
    for size, readings in by_size.items():
        best, off = min(readings, key=lambda pair: pair[1])
        chosen = size_now(size, parts, joints)
        if chosen is not None and abs(chosen.mm - best.value.mm) > off + 1e-6:
            yield _differs(size, best, off, chosen.mm, parts)
        yield from _among_themselves(size, readings, parts)
    if vague:
        named = ", ".join(f"{one.of} ({one.method})" for one in vague[:5])
        more = f" and {len(vague) - 5} more" if len(vague) > 5 else ""
        yield unchecked(
            f"No plus or minus is given with {named}{more}, so nothing can be held against it.",
            part=mark_of_tie(vague[0].of) if len(vague) == 1 else "",
            at=f"readings[{vague[0].id}].uncertainty",
        )


def uncertainty_mm(one: Reading, limits: Mapping[str, float]) -> float | None:
    """Tell how far a reading may be off.

    Args:
        one: the reading.
        limits: the limits that hold.

    Returns:
        What is given with it, or is usual for how it was taken [mm]; None where only the person can tell.

    Source: common practice.
    """
    if one.uncertainty is not None:
        return abs(one.uncertainty.mm)
    if one.method in _VAGUE:
        return None
    if one.method in _METHOD:
        return limits[_METHOD[one.method]]
    return abs(one.value.mm) * limits[_OTHER.name] / 100.0


def _size_of(text: str) -> str:
    """The size that is meant, in the one writing for it."""
    try:
        return read_tie(text).written
    except InputError:
        return text


def _joints_read(site: Site) -> dict[str, list[WorkedJoint]]:
    """The joints of which a size was read."""
    marks = {mark_of_tie(one.of) for one in site.build.readings} - site.parts.keys()
    found: dict[str, list[WorkedJoint]] = {}
    if marks:
        for one in site.worked.joints:
            if one.joint.mark in marks:
                found.setdefault(one.joint.mark, []).append(one)
    return found


def told(one: Reading) -> str:
    """Write a reading as the person wrote it, with how and where it was taken.

    Args:
        one: the reading.

    Returns:
        Such as `165.2 ± 0.8 (photograph, the museum's)`.

    Source: this project.
    """
    value = one.value.written or f"{one.value.mm:g}"
    off = one.uncertainty
    plus = f" ± {off.written or f'{off.mm:g}'}" if off is not None else ""
    how = ", ".join(dict.fromkeys(filter(None, (one.method, one.exemplar))))
    return f"{value}{plus}{f' ({how})' if how else ''}"


def _differs(
    size: str, best: Reading, off_mm: float, chosen_mm: float, parts: Mapping[str, Component]
) -> Seen:
    mark = mark_of_tie(size)
    apart = abs(chosen_mm - best.value.mm)
    says = (
        f"{size} is {_mm(chosen_mm)} mm, but it was read as {told(best)}: {_mm(best.value.mm)} mm, "
        f"{_mm(apart)} apart where {_mm(off_mm)} is left open. Take one of them, or say why."
    )
    path = _path(size, parts)
    mends: tuple[Mend, ...] = ()
    if path:
        mends = (setting(f"Take what was read: {size} {told(best)}.", (path, size_text(best.value))),)
    is_part = mark in parts
    return Seen(
        "warning", says, "" if is_part else mark, mark if is_part else "", value=apart, limit=off_mm,
        unit="mm", place=size.removeprefix(f"{mark} "), mends=mends, at=path or f"readings[{best.id}].value",
    )  # fmt: skip


def _mm(value: float) -> str:
    return f"{value:.3f}".rstrip("0").rstrip(".")


def _path(size: str, parts: Mapping[str, Component]) -> str:
    """The field that holds a size of a part; nothing for that of a joint, or one that is made already."""
    try:
        tie = read_tie(size)
    except InputError:
        return ""
    part = parts.get(tie.mark)
    if part is None:
        return ""
    name = tie.size.replace(" ", "_")
    if tie.feature:
        return f"components[{tie.mark}].{tie.feature}s[{tie.id}].{name}"
    if tie.size == "corner radius":
        return f"components[{tie.mark}].corner_radius"
    if part.made_size is not None and getattr(part.made_size, name, None) is not None:
        return ""
    return f"components[{tie.mark}].size.{name}"


def _among_themselves(
    size: str, readings: list[tuple[Reading, float]], parts: Mapping[str, Component]
) -> Iterator[Seen]:
    """The first two neighbours, in the order of their values, that leave a gap between what each allows."""
    ordered = sorted(readings, key=lambda pair: pair[0].value.ticks)
    for (low, low_off), (high, high_off) in pairwise(ordered):
        apart, open_mm = high.value.mm - low.value.mm, low_off + high_off
        if apart > open_mm + 1e-6:
            mark = mark_of_tie(size)
            says = (
                f"The readings of {size} do not agree: {told(low)} and {told(high)} are {_mm(apart)} mm "
                f"apart, where {_mm(open_mm)} is left open between them. One is of another thing or wrong."
            )
            yield Seen(
                "note", says, "" if mark in parts else mark, mark if mark in parts else "",
                place=size.removeprefix(f"{mark} "), value=apart, limit=open_mm, unit="mm",
                at=f"readings[{high.id}].value",
            )  # fmt: skip
            return


RULES: tuple[BuildRule, ...] = (_reading_disagrees,)
