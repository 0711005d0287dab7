"""Rules for machine screws in tapped holes and the holes they pass through."""

from __future__ import annotations

from collections.abc import Iterator
from functools import lru_cache

from calculators.hardware.holes import clearance_hole, tap_lead_mm, tapping_hole
from calculators.hardware.threads import Thread
from calculators.joints.holding import engagement_rule_d
from calculators.joints.lengths import holding_bite
from calculators.joints.mending import length_mend, number
from calculators.joints.model import LayerHole, Mend
from calculators.joints.rules.rule import Rule, Seen, rule, unchecked
from calculators.joints.worked import Bite, Member, Worked
from calculators.quantities.errors import InputError

_TINY = 1e-6


@rule(
    "engagement",
    "A screw engages a tapped hole by 1 diameter in steel, 1.5 in brass and cast iron, 2 in aluminium.",
    "common practice; Machinery's Handbook (from memory)",
)
def _engagement(w: Worked) -> Iterator[Seen]:
    """How much thread is engaged in each part."""
    d = w.screw.major_mm
    for bite in w.bites:
        if bite.kind not in ("tapped", "insert") or _of_unknown_length(bite):
            continue
        part = bite.member.part if bite.kind == "tapped" else _host(w, bite).part
        material = bite.member.material
        if bite.kind == "tapped" and material is not None and material.is_wood:
            says = f"A machine thread cut in wood ({part}) strips soon; an insert or a nut holds."
            yield Seen("warning", says, part, bite.engaged_mm / d, unit="D")
            continue
        yield from _engaged(w, bite, part)


def _of_unknown_length(bite: Bite) -> bool:
    """An insert that no table knows; `known-data` says so."""
    return bite.kind == "insert" and not bite.depth_mm


def _host(w: Worked, bite: Bite) -> Member:
    hosts = [m for m in w.layers if m.takes == "insert"]
    return hosts[0] if hosts else bite.member


def _engaged(w: Worked, bite: Bite, part: str) -> Iterator[Seen]:
    d, least = w.screw.major_mm, w.limits["engagement-least"]
    share, wanted = bite.engaged_mm / d, engagement_rule_d(bite)
    kind = bite.member.material.kind if bite.member.material is not None else bite.member.metal
    room = (
        ""
        if bite.depth_mm >= (wanted or least) * d - _TINY
        else f" ({part} has {bite.depth_mm:.1f} mm of thread)"
    )
    what = f"{bite.engaged_mm:.2f} mm of thread engaged in {part}, {share:.2f} D{room}"
    mends = _more_thread(w, bite, least * d, (wanted or least) * d)
    if w.tip_mm <= bite.enter_mm:
        says = (
            f"The screw does not reach the thread in {part}: it ends {bite.enter_mm - w.tip_mm:.1f} mm short."
        )
        yield Seen("error", says, part, share, least, "D", mends)
    elif share < least - _TINY:
        yield Seen("error", f"{what}: under {least:g} D the thread strips.", part, share, least, "D", mends)
    elif wanted is None:
        thing = "The material of the insert" if bite.kind == "insert" else f"The material of {part}"
        says = f"{thing} gives no rule for engagement, so {share:.2f} D cannot be checked."
        if not kind:
            says = f"{thing} is not known, so its {share:.2f} D of thread cannot be checked."
        yield unchecked(says, part)
    elif share < wanted - _TINY:
        says = f"{what}: in {kind} {wanted:g} D keeps the thread from stripping before the screw breaks."
        yield Seen("warning", says, part, share, wanted, "D", mends)


def _more_thread(w: Worked, bite: Bite, least_mm: float, wanted_mm: float) -> tuple[Mend, ...]:
    """Another length where the part has the thread for it; where it has not, no length will do alone."""
    better = length_mend(w) if w.fastener.length is not None and bite == _last_of(w) else ()
    if bite.depth_mm >= wanted_mm - _TINY or bite.kind == "insert":
        return better
    thicker = Mend("A thicker part, a nut behind it or a thinner screw gives the full hold.")
    filled = bite.engaged_mm >= bite.depth_mm - _TINY
    return (thicker,) if filled or bite.depth_mm < least_mm - _TINY else (*better, thicker)


def _last_of(w: Worked) -> Bite:
    return [bite for bite in w.bites if bite.kind in ("tapped", "insert")][-1]


@rule(
    "screw-bottoms",
    "A screw that clamps stops at least one pitch short of the end of a blind thread.",
    "common practice",
)
def _screw_bottoms(w: Worked) -> Iterator[Seen]:
    """Whether the screw reaches the end of its thread before it clamps."""
    if not w.joint.clamps or w.screw.headless:
        return
    pitch, spare = w.screw.pitch_mm or 0.0, w.limits["bottoms"]
    for bite in w.bites:
        end = _end_of_thread(w, bite)
        if end is None or _of_unknown_length(bite):
            continue
        free, depth = w.tip_mm - bite.enter_mm, end - bite.enter_mm
        part = bite.member.part if bite.kind == "tapped" else _host(w, bite).part
        numbers = f"{free:.1f} mm of screw for {depth:.1f} mm of thread"
        if free > depth + _TINY:
            says = f"The screw bottoms before it clamps: {numbers}, {free - depth:.1f} mm too long."
            yield Seen("error", says, part, free, depth, "mm", length_mend(w))
        elif free > depth - spare * pitch + _TINY:
            says = (
                f"The screw ends within a pitch of the thread's end: {numbers}; it may bottom "
                "before it clamps."
            )
            yield Seen("warning", says, part, free, depth - spare * pitch, "mm", length_mend(w))


def _end_of_thread(w: Worked, bite: Bite) -> float | None:
    """Where a blind thread ends on the axis; of an insert, where its blind hole ends."""
    if bite.kind == "tapped" and bite.blind and not bite.from_behind:
        return bite.leave_mm
    if bite.kind == "insert":
        host = _host(w, bite)
        hole = w.hole(host) if host.kind == "layer" else None
        if hole is not None and hole.depth_mm is not None:
            return host.enter_mm + hole.depth_mm
    return None


@rule(
    "blind-hole-breaks-out",
    "Behind the point of the drill of a blind hole at least 1.5 mm of the part is left.",
    "common practice; 118 degree drill point",
)
def _blind_hole_breaks_out(w: Worked) -> Iterator[Seen]:
    """Whether a blind hole comes out at the back."""
    wall = w.limits["blind-wall"]
    for member in w.layers:
        hole = w.hole(member)
        if hole.depth_mm is None or hole.left_mm is None or hole.kind == "pilot" or member.layer is None:
            continue
        left = member.layer.thickness_mm - hole.depth_mm - hole.point_mm
        if left >= wall - _TINY:
            continue
        numbers = (
            f"{hole.depth_mm:.1f} mm deep with {hole.point_mm:.1f} mm of point in "
            f"{member.layer.thickness_mm:g} mm"
        )
        if left < 0:
            says = (
                f"The blind hole in {member.part} breaks out at the back: {numbers}, {-left:.1f} mm too deep."
            )
        else:
            says = f"The blind hole in {member.part} leaves {left:.1f} mm behind its point: {numbers}."
        yield Seen(
            "error" if left < 0 else "warning",
            says,
            member.part,
            left,
            wall,
            "mm",
            _shallower(w, member, hole),
        )


def _shallower(w: Worked, member: Member, hole: LayerHole) -> tuple[Mend, ...]:
    """Drill less deep where the thread still fits with a plug tap."""
    assert member.layer is not None
    most = member.layer.thickness_mm - hole.point_mm - w.limits["blind-wall"]
    bite = next((each for each in w.bites if each.member is member), None)
    needs = 0.0
    if bite is not None and bite.kind == "tapped":
        needs = bite.depth_mm + (tap_lead_mm(bite.thread, "plug") if bite.thread else 0.0)
    if most < max(needs, 0.1):
        return (Mend("Drill and tap it right through, or less deep with a shorter screw."),)
    deep = int(most * 10) / 10
    field = "drilled_depth_mm" if member.layer.hole.depth_mm is None else "hole.depth_mm"
    return (
        Mend(f"Drill {deep:g} mm deep, and finish with a plug tap.", f"{member.path}.{field}", number(deep)),
    )


@rule(
    "plain-shank",
    "The plain shank under a head is shorter than what lies before the thread or the nut.",
    "common practice",
)
def _plain_shank(w: Worked) -> Iterator[Seen]:
    """Whether the screw runs out of thread before it clamps."""
    holding = holding_bite(w.stack)
    if w.screw.is_wood or holding is None or holding.kind == "wood" or not w.joint.clamps:
        return
    if w.plain_mm is None:
        yield unchecked(
            "The length of thread on this fastener is not known, so its plain shank cannot be checked."
        )
        return
    if not w.plain_mm:
        return
    room = holding.enter_mm - w.stack.starts_mm
    what = "nut" if holding.kind == "nut" else "thread"
    mend = Mend("Use one that is threaded to its head, or washers, or a shorter one.")
    if w.plain_mm > room + 0.05:
        says = (
            f"The plain shank is {w.plain_mm:.1f} mm and only {room:.1f} mm lies before the "
            f"{what}: it runs out of "
            "thread before it clamps."
        )
        yield Seen("error", says, holding.member.part, w.plain_mm, room, "mm", (mend,))
    elif w.plain_mm > room - 0.05:
        says = (
            f"The plain shank is just as long as what lies before the {what}, {room:.1f} mm: "
            "it may not clamp."
        )
        yield Seen("warning", says, holding.member.part, w.plain_mm, room, "mm", (mend,))


@rule(
    "tapping-hole",
    "A tapping drill leaves 55 to 85 % of thread, on the named basis of its form, and goes as deep as it.",
    "common practice; 60 degree threads on 3/4 H, Whitworth on 1.2807 p, BA on 1.2 p",
)
def _tapping_hole_rule(w: Worked) -> Iterator[Seen]:
    """What thread the tapping drill leaves."""
    lim = {key: w.limits[f"thread-percent-{key}"] for key in ("least", "low", "high", "most")}
    for bite in w.bites:
        if bite.kind != "tapped":
            continue
        yield from _deeper_than_its_hole(bite.member)
        hole = w.hole(bite.member)
        percent = hole.thread_percent
        if percent is None or bite.thread is None:
            yield unchecked(
                f"The thread in {hole.part} is not known, so its tapping drill cannot be checked."
            )
            continue
        if lim["low"] - _TINY <= percent <= lim["high"] + _TINY:
            continue
        few = percent < lim["low"]
        error = percent < lim["least"] - _TINY or percent > lim["most"] + _TINY
        cost = "little thread is left to hold" if few else "the tap is likely to break"
        says = (
            f"A {hole.diameter_mm:.2f} mm hole in {hole.part} leaves {percent:.3g} % of "
            f"{bite.thread.designation} "
            f"({bite.thread.engagement_basis}); {lim['low']:g} to {lim['high']:g} % is usual: {cost}."
        )
        limit = (lim["least"] if few else lim["most"]) if error else (lim["low"] if few else lim["high"])
        mends = _better_drill(bite.thread, bite.member, lim["low"], lim["high"])
        yield Seen("error" if error else "warning", says, hole.part, percent, limit, "%", mends)


def _deeper_than_its_hole(member: Member) -> Iterator[Seen]:
    """A thread that is stated deeper than the hole, or the part, that it is to be cut in."""
    layer = member.layer
    if layer is None or layer.thread_depth_mm is None:
        return
    thread, drilled = layer.thread_depth_mm, layer.drilled_depth_mm
    if drilled is not None and thread > drilled + _TINY:
        says = f"{thread:g} mm of thread cannot be cut in {member.part} in a hole {drilled:g} mm deep."
        yield Seen("error", says, member.part, thread, drilled, "mm")
    elif thread > layer.thickness_mm + 0.05:
        says = f"{thread:g} mm of thread cannot be cut in {layer.thickness_mm:g} mm of {member.part}."
        yield Seen("error", says, member.part, thread, layer.thickness_mm, "mm")


def _better_drill(thread: Thread, member: Member, low: float, high: float) -> tuple[Mend, ...]:
    """The drill of the tables; one for the middle of the band where that is itself out of it (1 1/4 BSF)."""
    try:
        hole = tapping_hole(thread)
        if not low <= hole.percent <= high:
            hole = tapping_hole(thread, engagement=(low + high) / 2)
    except InputError:
        return ()
    drill = hole.drill
    return (Mend(f"Drill {drill.name}.", f"{member.path}.hole.diameter_mm", number(drill.diameter_mm)),)


@rule(
    "clearance-hole",
    "A clearance hole is within the close and the free fit of its standard, or 1.02 to 1.20 diameters.",
    "ISO 273, ASME B18.2.8; common practice for British threads",
)
def _clearance_hole_rule(w: Worked) -> Iterator[Seen]:
    """Whether machine screws pass their holes, and not too freely."""
    if w.screw.thread is None:
        return
    d = w.screw.major_mm
    least, most = _clearance_band(
        w.screw.thread, w.limits["clearance-least"] * d, w.limits["clearance-most"] * d
    )
    for member in w.layers:
        hole = w.hole(member)
        if member.takes not in ("clearance", "plain", ""):
            continue
        best = _medium(w.screw.thread, d)
        mend = Mend(f"Drill {best:g} mm.", f"{member.path}.hole.diameter_mm", number(best))
        wide = hole.diameter_mm
        if wide < d - 0.005:
            says = (
                f"The hole in {member.part} is {wide:.2f} mm; a screw of {d:.2f} mm does not go through it."
            )
            yield Seen("error", says, member.part, wide, d, "mm", (mend,))
        elif hole.kind in ("clearance", "slot") and not least - 0.005 <= wide <= most + 0.005:
            tight = wide < least
            cost = (
                "holes must be placed very exactly" if tight else "the head or washer has little to bear on"
            )
            says = (
                f"The hole in {member.part} is {wide:.2f} mm; {least:.2f} to {most:.2f} mm is usual: {cost}."
            )
            yield Seen("warning", says, member.part, wide, least if tight else most, "mm", (mend,))


@lru_cache(maxsize=512)
def _clearance_band(thread: Thread, least: float, most: float) -> tuple[float, float]:
    """Close to free by the standard; where none gives it, the trade's share of the diameter."""
    if not (thread.is_metric or thread.is_unified):
        return least, most
    try:
        close, free = clearance_hole(thread, "close"), clearance_hole(thread, "free")
    except InputError:
        return least, most
    if "rule" in (close.source.key, free.source.key):
        return least, most
    return close.diameter_mm, free.diameter_mm


@lru_cache(maxsize=512)
def _medium(thread: Thread, d: float) -> float:
    try:
        return clearance_hole(thread, "medium").diameter_mm
    except InputError:
        return round(1.08 * d, 1)


@rule(
    "lock",
    "A machine screw in metal that clamps less than 3 diameters works loose unless something locks it.",
    "VDI 2230 (from memory); common practice",
)
def _lock(w: Worked) -> Iterator[Seen]:
    """Short clamped lengths without a lock."""
    holding = holding_bite(w.stack)
    if w.screw.is_wood or w.screw.headless or not w.joint.clamps or w.joint.lock.strip() or holding is None:
        return
    if holding.kind == "wood" or any(m.is_wood for m in w.layers):
        return
    nuts = [m.nut for m in w.stack.members if m.nut is not None]
    if len(nuts) > 1 or any(nut.form == "stiff" for nut in nuts):
        return
    clamped = holding.enter_mm if holding.kind != "nut" else w.layers[-1].leave_mm
    share, limit = clamped / w.screw.major_mm, w.limits["lock-clamped"]
    if share >= limit - _TINY:
        return
    unknown = [m.part for m in w.layers if m.material is None]
    if unknown:
        names = " and ".join(unknown)
        yield unchecked(
            f"The material of {names} is not known, so whether the joint needs a lock cannot be told."
        )
        return
    grade = "low-strength threadlocker" if w.screw.major_mm <= 6 else "medium-strength threadlocker"
    says = (
        f"{clamped:.1f} mm clamped, {share:.1f} D, and no lock: under {limit:g} D it shakes "
        "loose where it works."
    )
    other = " or a stiff nut" if holding.kind == "nut" else ""
    mend = Mend(f"Note a lock, such as {grade}{other}.", "lock", grade)
    yield Seen("warning", says, "", share, limit, "D", (mend,))


RULES: tuple[Rule, ...] = (
    _engagement, _screw_bottoms, _blind_hole_breaks_out, _plain_shank, _tapping_hole_rule,
    _clearance_hole_rule, _lock,
)  # fmt: skip
