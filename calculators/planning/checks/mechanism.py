"""Rules for mechanisms: springs and pivots of kept calculations, play of shafts, stored energy.

Where the person has set a limit on the very result, that limit holds and the rule here is silent.
"""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.calculation.result import number_text
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Severity
from calculators.planning.checks import bending, held, pivots, running_fits, stored_energy
from calculators.planning.checks.kept_results import Kept, kept_results, quantity
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.site import Site
from calculators.quantities.errors import InputError

_SPRINGS = "EN 13906-1 and -2, Machinery's Handbook (from memory); common practice"
_STILL = 1e-9


def _n(value: float) -> str:
    return number_text(value, 3)


# --- Springs


@build_rule(
    "spring-slack",
    "mechanism",
    "A spring that moves to and fro is set by at least 1.2 times what it gives up, so that it stays tight.",
    f"pretension of at least 1.2 times the travel: {CP}",
    Limit("spring-pretension", 1.2, "1", CP, "stretch of a spring at rest, in multiples of what it gives up"),
)
def _spring_slack(site: Site) -> Iterator[Seen]:
    least = site.limits["spring-pretension"]
    for kept in kept_results(site, "spring"):
        swing, set_by = kept.given("travel", "mm"), kept.number("working_travel")
        if swing and set_by is not None and not kept.limited("working_travel"):
            yield from _slack(kept, "", set_by, swing, least, "working_length")
    for kept in kept_results(site, "pivot"):
        if kept.limited("spring_lengths", "spring_forces"):
            continue
        for row, each in enumerate(kept.rows("spring_lengths")):
            lengths = [each.get(name) for name in ("at_rest", "at_low_end", "at_high_end")]
            rest, *ends = [value for value in lengths if isinstance(value, int | float)] or [0.0]
            free = quantity(_row_text(kept, row, "free_length"), "mm")
            kind = _row_text(kept, row, "kind") or "extension"
            if len(ends) != 2 or free is None or kind not in ("extension", "compression"):
                continue
            pulled = kind == "extension"
            set_by = rest - free if pulled else free - rest
            gives = rest - min(ends) if pulled else max(ends) - rest
            if gives > _STILL:
                yield from _slack(kept, f"spring {row + 1}", set_by, gives, least, "springs")


def _row_text(kept: Kept, row: int, member: str) -> str:
    from calculators.catalogue import find_calculator
    from calculators.planning.tied_inputs import text_at

    try:
        return text_at(find_calculator("pivot"), kept.inputs, f"springs[{row}].{member}")
    except InputError:
        return ""


def _slack(kept: Kept, which: str, set_by: float, gives: float, least: float, field: str) -> Iterator[Seen]:
    if set_by >= least * gives - _STILL:
        return
    slack = set_by <= gives + _STILL
    it = which or "it"
    says = (
        f"{kept.named}: {it} is set by {_n(set_by)} mm from slack and gives up {_n(gives)} mm: "
        f"{'it goes slack' if slack else 'little is left'}. Set it by {_n(least * gives)} mm or more."
    )
    yield Seen(
        "error" if slack else "warning", says, part=kept.mark, place=which or "working travel",
        value=set_by, limit=least * gives, unit="mm", at=kept.at(field),
        mends=_set_tighter(kept, least * gives) if not which else (),
    )  # fmt: skip


def _set_tighter(kept: Kept, stretch: float) -> tuple[Mend, ...]:
    free = kept.number("free_length")
    if free is None or kept.tied("working_length") or kept.tied("free_length"):
        return ()
    up = math.ceil(stretch * 10.0 - 1e-6) / 10.0
    pulled = kept.inputs.get("kind", "compression") == "extension"
    length = free + up if pulled else free - up
    if length <= (kept.number("solid_length") or 0.0):
        return ()
    written = f"{length:.6g} mm"
    return (
        setting(
            f"Install it at {written}, then look at its stress again.",
            (f"calculations[{kept.mark}].inputs[working_length]", written),
        ),
    )


@build_rule(
    "spring-solid",
    "mechanism",
    "A spring keeps some of its travel before its coils close, and its stress within what the wire bears.",
    _SPRINGS,
    Limit("spring-travel-left", 10.0, "%", CP, "travel that should be left before the coils close"),
    Limit("spring-stress", 45.0, "%", _SPRINGS, "stress of a spring's coils, of the tensile strength"),
    Limit("spring-hook-stress", 35.0, "%", _SPRINGS, "stress where a hook rises, of the tensile strength"),
)
def _spring_solid(site: Site) -> Iterator[Seen]:
    for kept in kept_results(site, "spring"):
        if not kept.limited("travel_left", "travel_left_percent", "working_travel", "solid_length"):
            yield from _left(kept, site.limits["spring-travel-left"])
        if kept.limited("stress", "stress_share", "hook_torsion_stress", "hook_torsion_share"):
            continue
        coils = site.limits["spring-stress"] if kept.inputs.get("kind") != "torsion" else None
        hook = site.limits["spring-hook-stress"]
        yield from _stressed(kept, "stress", "stress_share", coils, "the coils")
        yield from _stressed(kept, "hook_torsion_stress", "hook_torsion_share", hook, "the foot of the hook")
        yield from _stressed(kept, "hook_bending_stress", "hook_bending_share", None, "the bend of the hook")


def _left(kept: Kept, least: float) -> Iterator[Seen]:
    """What is left of a spring's travel at the far end of its movement."""
    left, used = kept.number("travel_left"), kept.number("working_travel")
    if left is None or used is None:
        return
    left -= kept.given("travel", "mm") or 0.0
    whole = used + (kept.number("travel_left") or 0.0)
    pulled = kept.inputs.get("kind") == "extension"
    if pulled and left >= 0.0:  # what it bears is told by its stress
        return
    if pulled and (kept.number("stress_share") or 0.0) > 100.0:
        return
    share = 100.0 * left / whole if whole > 0.0 else 0.0
    if share >= least - _STILL:
        return
    if left <= _STILL:
        end = "is overstretched" if pulled else "closes solid"
        says = f"{kept.named}: it {end} {_n(-left)} mm before the end of its travel"
    else:
        says = f"{kept.named}: {_n(left)} mm are left before it closes solid, {_n(share)} % of its travel"
    says += f"; keep {_n(least)} %: use it over less travel, or take a longer spring."
    yield Seen(
        "error" if left <= _STILL else "warning", says, part=kept.mark, place="travel left",
        value=share, limit=least, unit="%", at=kept.at("working_length"),
    )  # fmt: skip


def _stressed(kept: Kept, stress: str, share: str, house: float | None, where: str) -> Iterator[Seen]:
    """Compare a stress with what the wire bears for its use (an error beyond) and with the house's limit."""
    value, of_own, tensile = kept.number(stress), kept.number(share), kept.number("tensile_strength")
    if value is None or not tensile:
        return
    percent = 100.0 * value / tensile
    own = 100.0 * percent / of_own if of_own else None
    if own is None and house is None:
        return
    most = own if own is not None else house
    assert most is not None
    over = percent > most * (1.0 + _STILL)
    limit = most if over else min(most, house if house is not None else most)
    if not over and percent <= limit * (1.0 + _STILL):
        return
    end = "it takes a set or breaks" if over else "little to spare"
    yield Seen(
        "error" if over else "warning",
        f"{kept.named}: {where} bears {_n(value)} MPa, {_n(percent)} % of the wire's tensile strength; "
        f"{_n(limit)} % is the limit: {end}. Thicker wire, more coils, or less travel.",
        part=kept.mark, place=stress.replace("_", " "), value=percent, limit=limit, unit="%",
        at=kept.at("wire"),
    )  # fmt: skip


@build_rule(
    "spring-index",
    "mechanism",
    "A spring's coil is 4 to 12 times its wire: tighter ones crack and strain the wire, wider ones tangle.",
    "EN 13906 (from memory)",
    Limit("spring-index-tight", 4.0, "1", "EN 13906 (from memory)", "mean coil by wire, at least"),
    Limit("spring-index-wide", 12.0, "1", "EN 13906 (from memory)", "mean coil by wire, at most"),
    Limit("spring-index-least", 3.0, "1", CP, "mean coil by wire, at the very least"),
    Limit("spring-index-most", 16.0, "1", CP, "mean coil by wire, at the very most"),
)
def _spring_index(site: Site) -> Iterator[Seen]:
    limits = site.limits
    for kept in kept_results(site, "spring"):
        index = kept.number("spring_index")
        if index is None or kept.limited("spring_index"):
            continue
        tight = index < limits["spring-index-tight"] - _STILL
        if not tight and index <= limits["spring-index-wide"] + _STILL:
            continue
        beyond = limits["spring-index-least"] > index or index > limits["spring-index-most"]
        if tight:
            limit = limits["spring-index-least" if beyond else "spring-index-tight"]
            why = "the wire cracks as it is wound, and its inside is strained far more than reckoned"
        else:
            limit = limits["spring-index-most" if beyond else "spring-index-wide"]
            why = "the coils sway and tangle and will not come out true"
        yield Seen(
            "error" if beyond else "warning",
            f"{kept.named}: the coil is {_n(index)} times the wire, the limit is {_n(limit)}: {why}. "
            f"{'A wider coil or thinner' if tight else 'A narrower coil or thicker'} wire.",
            part=kept.mark, place="spring index", value=index, limit=limit, unit="1", at=kept.at("wire"),
        )  # fmt: skip


# --- Shafts


@build_rule(
    "end-shake",
    "mechanism",
    "A shaft between collars has 0.1 to 0.3 mm of play along its axis.",
    CP,
    Limit("end-shake-least", 0.1, "mm", CP, "play of a shaft between its collars, at least"),
    Limit("end-shake-usual", 0.3, "mm", CP, "play of a shaft between its collars, usually at most"),
    Limit("end-shake-most", 0.5, "mm", CP, "play of a shaft between its collars, at most"),
)
def _end_shake(site: Site) -> Iterator[Seen]:
    least, usual, most = (site.limits[f"end-shake-{name}"] for name in ("least", "usual", "most"))
    good = f"{(least + usual) / 2.0:.3g}"
    for part in site.build.components:
        if part.end_shake is None:
            continue
        play = part.end_shake.mm
        if least - _STILL <= play <= usual + _STILL:
            continue
        severity: Severity
        if play <= 0.0:
            severity, why = "error", "it binds as soon as it warms or is nipped"
        elif play < least:
            severity, why = "warning", "little for warming, dirt and oil"
        else:
            severity, why = ("warning" if play > most + _STILL else "note"), "it knocks to and fro"
        limit = least if play < least else (most if severity == "warning" else usual)
        at = f"components[{part.mark}].end_shake"
        yield Seen(
            severity,
            f"{part.mark} {part.name} has {_n(play)} mm of end shake; {_n(least)} to {_n(usual)} is right: "
            f"{why}.",
            part=part.mark, value=play, limit=limit, unit="mm", at=at,
            mends=(setting(f"Set the collars to {good} mm of play.", (at, good)),),
        )  # fmt: skip


RULES: tuple[BuildRule, ...] = (
    *pivots.RULES,
    _spring_slack,
    _spring_solid,
    _spring_index,
    _end_shake,
    *running_fits.RULES,
    *held.RULES,
    *stored_energy.RULES,
    *bending.RULES,
)
