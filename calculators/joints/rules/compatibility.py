"""Rules on what goes with what: threads, metals, lengths that are sold, and data that is missing."""

from __future__ import annotations

from collections.abc import Iterator
from math import radians, tan

from calculators.hardware.threads import Thread
from calculators.joints.mending import fastener_mend, length_mend
from calculators.joints.model import Mend
from calculators.joints.rules.rule import Rule, Seen, rule, unchecked
from calculators.joints.worked import Bite, Worked

_SOCKET_HEADS = ("socket cap", "socket csk", "button")
"""Heads that are sold in steel and stainless alone."""

_SEIZE = ("seize", "grease", "copper slip", "molybdenum", "wax")


@rule(
    "thread-match",
    "A screw and what it runs in carry the same thread.",
    "ISO 724, ASME B1.1, BS 84, BS 93: basic sizes",
)
def _thread_match(w: Worked) -> Iterator[Seen]:
    """Whether both halves of each thread agree."""
    male = w.screw.thread
    if male is None:
        return
    for bite in w.bites:
        if bite.kind == "wood":
            continue
        where = bite.member.part if bite.kind == "tapped" else f"the {bite.kind}"
        if bite.thread is None:
            lack = f"not known ({bite.thread_text})" if bite.thread_text else "not stated"
            says = f"The thread of {where} is {lack}, so it cannot be set against {male.designation}."
            yield unchecked(says, bite.member.part)
        elif bite.thread.designation != male.designation:
            yield _different(w, bite, male, bite.thread, where)


def _different(w: Worked, bite: Bite, male: Thread, female: Thread, where: str) -> Seen:
    over = male.pitch_diameter_mm - female.pitch_diameter_mm
    apart = 100 * abs(male.pitch_mm - female.pitch_mm) / female.pitch_mm
    fit = f"{over:.2f} mm too tight" if over > 0 else f"{-over:.2f} mm slack"
    angles = ""
    if male.angle_deg != female.angle_deg:
        angles = f"; flanks {male.angle_deg:g} against {female.angle_deg:g} degrees"
    says = (
        f"{male.designation} screw, but {where} is {female.designation}: effective diameter "
        f"{male.pitch_diameter_mm:.3f} against {female.pitch_diameter_mm:.3f} mm, {fit}; pitch "
        f"{male.pitch_mm:.3f} "
        f"against {female.pitch_mm:.3f} mm, {apart:.1f} % apart{angles}. {_verdict(male, female, bite)}"
    )
    mends = fastener_mend(w, "Use {}.", size=female.designation)
    return Seen("error", says, bite.member.part, over, 0.0, "mm", mends)


def _verdict(male: Thread, female: Thread, bite: Bite) -> str:
    """What happens when the two are tried, from basic sizes."""
    over = male.pitch_diameter_mm - female.pitch_diameter_mm
    per_turn = abs(male.pitch_mm - female.pitch_mm)
    freedom = max(-over, 0.0) * tan(radians(female.angle_deg) / 2)
    if over > 0.02 or male.major_mm < female.minor_diameter_mm:
        return "It jams after a turn or two." if over > 0 else "It does not hold at all."
    turns = freedom / per_turn if per_turn > 1e-9 else float("inf")
    if turns < bite.depth_mm / female.pitch_mm:
        count = round(max(turns, 1))
        return f"It binds after about {count} turn{'s' if count > 1 else ''} and damages both."
    return "It goes in and is weak."


@rule(
    "stainless-pair",
    "Stainless running in stainless gets an anti-seize compound, or it galls and locks for ever.",
    "common practice",
)
def _stainless_pair(w: Worked) -> Iterator[Seen]:
    """Stainless on stainless."""
    if w.screw.metal != "stainless" or any(word in w.joint.lock.casefold() for word in _SEIZE):
        return
    for bite in w.bites:
        material = bite.member.material
        if bite.member.metal == "stainless" or (material is not None and material.kind == "stainless steel"):
            lock = f"{w.joint.lock}, anti-seize".removeprefix(", ")
            mend = Mend("Use an anti-seize compound, and note it.", "lock", lock)
            says = (
                f"Stainless screw in stainless ({bite.member.part}) without anti-seize: it galls and seizes."
            )
            yield Seen("warning", says, bite.member.part, mends=(mend,))


@rule(
    "metal-in-wood",
    "Steel blackens wood that is rich in tannin and rusts in it; plating does not last in the damp.",
    "common practice; Wood Handbook on fastener corrosion (from memory)",
)
def _metal_in_wood(w: Worked) -> Iterator[Seen]:
    """Steel in oak, chestnut and walnut."""
    steel = [metal for metal in _metals(w) if metal in ("steel", "plated steel")]
    stated = bool(w.screw.metal)
    rich = [m for m in w.layers if m.material is not None and m.material.tannin_rich]
    unknown = [m for m in w.layers if m.material is None]
    if not rich:
        if unknown and (steel or not stated):
            names = " and ".join(m.part for m in unknown)
            yield unchecked(
                f"The material of {names} is not known, so steel against its tannin cannot be checked."
            )
        return
    part = rich[0]
    assert part.material is not None
    if not steel:
        if not stated:
            says = f"The screw's material is not stated; steel would stain {part.material.name}."
            yield unchecked(says, part.part)
        return
    bare, wet = "steel" in steel, w.joint.wet
    names = " and ".join(dict.fromkeys(m.part for m in rich))
    what = ("Bare" if bare else "Plated") + f" steel in {part.material.name} ({names})"
    if bare:
        cost = (
            ": it blackens the wood and rusts away in the damp."
            if wet
            else ": it blackens the wood around it."
        )
    else:
        cost = (
            ": in the damp the plating does not last."
            if wet
            else ": it stains once the plating is scratched."
        )
    severity = "error" if bare and wet else "warning" if bare or wet else "note"
    mends: tuple[Mend, ...] = ()
    if w.screw.metal in ("steel", "plated steel"):
        other = "silicon bronze" if wet else "brass"
        if w.fastener.drive == "hex socket" or w.fastener.head in _SOCKET_HEADS:
            other = "stainless A4" if wet else "stainless A2"
        changes = {"material": other, "finish": "", "grade": ""}
        mends = fastener_mend(w, f"Use {other}: {{}}.", **changes)
    yield Seen(
        "error" if severity == "error" else "warning" if severity == "warning" else "note",
        what + cost, part.part, mends=mends,
    )  # fmt: skip


def _metals(w: Worked) -> list[str]:
    return [w.screw.metal, *(m.metal for m in w.stack.members if m.kind in ("washer", "nut", "insert"))]


@rule(
    "no-stock-length",
    "A stock length lies within what the joint needs.",
    "common practice; stock lengths as the tables of lengths name them",
)
def _no_stock_length(w: Worked) -> Iterator[Seen]:
    """Whether a length that is sold does for this joint."""
    if w.fastener.cut_to is not None:
        return
    asked = w.joint.fastener.length is None
    if w.needed is None:
        if not w.bites:
            yield unchecked(
                "The screw runs in no thread, wood, insert or nut, so its length cannot be found."
            )
        elif asked:
            says = "No length does: the piece that should hold the screw is too thin for it."
            yield Seen(
                "error",
                says,
                w.bites[-1].member.part,
                mends=(Mend("Use a thinner screw, or through bolts."),),
            )
        return
    if not asked or w.fits:
        return
    numbers = f"{w.needed.least_mm:.1f} to {w.needed.most_mm:.1f} mm"
    if not w.stock_known:
        yield unchecked(f"Stock lengths of this fastener are not known; {numbers} is needed.")
        return
    says = f"No stock length lies in what the joint needs, {numbers}"
    if w.fastener.length is not None:
        says += f"; the nearest is {w.fastener.length.mm:.1f} mm"
    yield Seen("warning", f"{says}.", "", w.length_mm, w.needed.least_mm, "mm", length_mend(w))


@rule(
    "known-data",
    "What the tables do not know is said, with what it leaves unchecked.",
    "this project",
)
def _known_data(w: Worked) -> Iterator[Seen]:
    """Look-ups that found nothing."""
    seen = set()
    for missing in w.missing:
        if missing.what.startswith(("the thread of", "the stock lengths")):
            continue  # said by thread-match and no-stock-length
        part = ""
        if missing.item is not None:
            member = next((m for m in w.stack.members if m.item == missing.item), None)
            part = member.part if member is not None else ""
        says = f"Not found: {missing.what}{f' ({part})' if part else ''}. {missing.says}"
        if says not in seen:
            seen.add(says)
            yield unchecked(says, part)


RULES: tuple[Rule, ...] = (_thread_match, _stainless_pair, _metal_in_wood, _no_stock_length, _known_data)
