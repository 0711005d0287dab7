"""Rules for threads that are coated, and for systems of threads and tools that are mixed in one joint."""

from __future__ import annotations

import re
from collections.abc import Iterator

from calculators.hardware.thread_limits import limits_of
from calculators.hardware.thread_plating import greatest_coating_mm, pitch_diameter_growth_mm
from calculators.hardware.threads import Thread
from calculators.joints.model import Mend
from calculators.joints.sizes import thread_of, washer_size
from calculators.joints.worked import Missing
from calculators.planning.checks.rule import BuildRule, Seen, joint_rule, setting
from calculators.planning.checks.site import JointSite
from calculators.quantities.errors import InputError

_TINY = 1e-9
_DIPPED = re.compile(r"hot.?dip|galvani[sz]ed|\bgalv\b|\bhdg\b", re.I)
_OTHER_THAN_DIPPED = re.compile(r"electro.?galvani[sz]ed|mechanically galvani[sz]ed|sherardi[sz]ed", re.I)
_OVERSIZE = re.compile(r"over.?size|tapped (out|over)|6A[ZX]\b", re.I)


@joint_rule(
    "coated-thread",
    "joints",
    "A coating adds four times its thickness to the effective diameter of a thread, which its allowance has "
    "room for; hot-dip galvanised screws run in oversize nuts alone.",
    "ISO 4042, ISO 10684 (from memory); allowances: ISO 965-1, ASME B1.1, BS 93 (from memory)",
)
def _coated_thread(site: JointSite) -> Iterator[Seen]:
    """Whether a coated screw still goes into its nut or hole."""
    if not site.groups:
        return
    fastener = site.groups[0].result.fastener
    thread = thread_of(fastener.size) if fastener.family == "machine" else Missing("", "")
    if isinstance(thread, Missing):
        return
    if site.joint.coating is not None and site.joint.coating.mm > 0:
        yield from _coating(site, thread, site.joint.coating.mm)
    finish = f"{fastener.finish} {fastener.material}"
    if _DIPPED.search(finish) and not _OTHER_THAN_DIPPED.search(finish) and not _has_oversize(site):
        says = (
            f"The screw of {site.mark} is hot-dip galvanised, about 0.05 mm thick, which no usual nut or "
            "tapped hole has room for: it wants a nut tapped oversize and galvanised with it."
        )
        mend = Mend("Use the galvanised nut that is sold with it, or a zinc plated screw.")
        yield Seen("warning", says, site.mark, mends=(mend,), at=f"joints[{site.mark}].fastener")


def _has_oversize(site: JointSite) -> bool:
    if _OVERSIZE.search(f"{site.joint.note} {site.joint.fastener} {site.joint.supplier}"):
        return True
    stack = [item for group in site.groups for item in group.inputs.stack]
    nuts = [item.nut for item in stack if item.nut is not None]
    return bool(nuts) and all(_DIPPED.search(f"{nut.finish} {nut.material}") for nut in nuts)


def _coating(site: JointSite, thread: Thread, coating: float) -> Iterator[Seen]:
    try:
        allowance = limits_of(thread).allowance_mm
    except InputError:
        return
    growth = pitch_diameter_growth_mm(coating, thread.angle_deg)
    if growth <= allowance + _TINY:
        return
    most = greatest_coating_mm(allowance, thread.angle_deg)
    says = (
        f"The coating of {site.mark} is {1000 * coating:.3g} micrometres thick and adds {1000 * growth:.0f} "
        f"to the effective diameter of {thread.designation}; its allowance is {1000 * allowance:.0f}: the "
        "largest screw does not go into the smallest nut."
    )
    path = f"joints[{site.mark}].coating"
    clean = Mend("Run a die nut over the screw, or a tap through the hole, after coating.")
    mends: tuple[Mend, ...] = (clean,)
    if most >= 0.001:
        thin = int(most * 1000 + 1e-6) / 1000
        text = f"{thin:.3f}".rstrip("0")
        mends = (
            setting(f"Coat it {text} mm thick at most, or mask the thread.", (path, f"{text} mm")),
            clean,
        )
    yield Seen("error", says, site.mark, "", "", growth, allowance, "mm", mends, path)


_METRIC = re.compile(r"^M\d")
_BA = re.compile(r"\bBA$")


def _system(size: str) -> str:
    """Which system of sizes a piece of hardware is of, as far as hands and spanners go."""
    text = size.strip()
    return "metric" if _METRIC.match(text) else "BA" if _BA.search(text) else "inch"


_TOOL_MM = re.compile(r"\b\d+(\.\d+)?\s*mm\b[^,;]*\b(spanner|wrench|socket|key|AF)\b|"
                      r"\b(spanner|wrench|socket|key)s?\b[^,;]*\b\d+(\.\d+)?\s*mm\b", re.I)  # fmt: skip
_TOOL_INCH = re.compile(r"\b\d+/\d+(\s*in(ch)?)?\b[^,;]*\b(spanner|wrench|socket|key|AF)\b|"
                        r"\b(spanner|wrench|socket|key)s?\b[^,;]*\b\d+/\d+", re.I)  # fmt: skip
_TOOL_BA = re.compile(r"\bBA\b", re.I)


@joint_rule(
    "mixed-systems",
    "joints",
    "The washers, nuts and tools of a joint are of the system of its screw.",
    "common practice",
)
def _mixed_systems(site: JointSite) -> Iterator[Seen]:
    """Washers of another system than the screw, and tools of two systems at one joint."""
    if not site.groups:
        return
    group = site.groups[0]
    fastener, major = group.result.fastener, group.result.major_mm
    if fastener.family == "machine":
        told: set[str] = set()
        for item in group.inputs.stack:
            washer = item.washer
            if washer is None or _system(washer.size) == _system(fastener.size) or washer.size in told:
                continue
            told.add(washer.size)
            yield _washer_seen(site, washer.size, fastener.size, washer_size(washer), major)
    tools = site.joint.tool
    systems = [name for name, pattern in (("metric", _TOOL_MM), ("inch", _TOOL_INCH), ("BA", _TOOL_BA))
               if pattern.search(tools)]  # fmt: skip
    if len(systems) > 1:
        says = (
            f"{site.mark} is driven with {' and '.join(systems)} tools ({tools}): is its nut or screw of "
            "another system than the rest? One that nearly fits rounds the corners."
        )
        yield Seen("note", says, site.mark, at=f"joints[{site.mark}].tool")


def _washer_seen(site: JointSite, washer: str, screw: str, size: object, major: float) -> Seen:
    inside = getattr(size, "inside_mm", None)
    play = None if inside is None else inside - major
    how = "; how it fits is not known" if play is None else f"; its play is {play:.2f} mm"
    if play is not None and play < 0.0:
        how = f"; its hole is {-play:.2f} mm too small"
    says = (
        f"A {washer} washer lies on the {screw} screw of {site.mark}{how}: it may be meant for another joint."
    )
    return Seen(
        "warning" if play is not None and play < 0.0 else "note", says, site.mark, "", washer, play, None,
        "mm" if play is not None else "", at=f"joints[{site.mark}].stack",
    )  # fmt: skip


RULES: tuple[BuildRule, ...] = (_coated_thread, _mixed_systems)
