"""The rule for levers on knife edges and flexures: the stops act before the free swing ends."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.calculation.result import number_text
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Severity
from calculators.planning.checks.kept_results import Kept, kept_results
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.site import Site
from calculators.quantities.errors import InputError

_STILL = 1e-9

_SWING = ("edge_angle", "v_angle", "edge_lean", "margin", "stop_low", "stop_high", "stop_radius",
          "gap_low", "gap_high", "lever_width")  # fmt: skip


def _n(value: float) -> str:
    return number_text(value, 3)


@build_rule(
    "pivot-travel",
    "mechanism",
    "The stops of a lever on a knife edge or a flexure act before its free swing ends, with a margin.",
    f"geometry; margin of 1 degree: {CP}",
    Limit("pivot-margin", 1.0, "deg", CP, "angle kept between a stop and the end of the free swing"),
)
def _pivot_travel(site: Site) -> Iterator[Seen]:
    for kept in kept_results(site, "knife-edge", "pivot"):
        if kept.limited("swing_left", "travel", "low_end", "high_end"):
            continue
        margin = kept.given("margin", "deg")
        margin = site.limits["pivot-margin"] if margin is None else margin
        swing = _free_swing(kept)
        if swing is None:
            continue
        low, high, stop_low, stop_high = swing
        lefts = [(stop_low - low, "low")] if stop_low is not None else []
        lefts += [(high - stop_high, "high")] if stop_high is not None else []
        if not lefts:
            continue
        left, side = min(lefts)
        if left >= margin - _STILL:
            continue
        stop = stop_low if side == "low" else stop_high
        flank = low if side == "low" else high
        assert stop is not None
        says = f"{kept.named}: the stop acts at {_n(abs(stop))} deg, the free swing is {_n(abs(flank))} deg"
        if left < -_STILL:
            says += f", {_n(-left)} deg before it: the edge rides up or the flexure is overbent."
        else:
            says += f": {_n(left)} deg are left, {_n(margin)} deg should be."
        most = max(0.0, min(-low, high) - margin)
        says += f" Set the stops at {_n(most)} deg or less, or give it more swing."
        severity: Severity = "error" if left < -_STILL else "warning"
        gap = next((name for name in _stop_names(side) if name in kept.inputs), "edge_angle")
        yield Seen(
            severity, says, part=kept.mark, place="swing left", value=left, limit=margin, unit="deg",
            at=kept.at(gap), mends=_nearer_stops(kept, low + margin, high - margin),
        )  # fmt: skip


def _stop_names(side: str) -> tuple[str, str]:
    return f"stop_{side}", f"gap_{side}"


def _free_swing(kept: Kept) -> tuple[float, float, float | None, float | None] | None:
    """The ends of the free swing and the angles of the stops [deg]; None where there is no such swing."""
    if kept.worked.calculation.calculator == "pivot" and kept.inputs.get("kind", "pin") == "flexure":
        return _flexure_swing(kept)
    if "edge_angle" not in kept.inputs or "v_angle" not in kept.inputs:
        return None
    result = kept
    if kept.worked.calculation.calculator == "pivot":
        if kept.inputs.get("kind") != "knife-edge":
            return None
        from calculators.calculation.answering import answer
        from calculators.catalogue import find_calculator

        try:
            inputs = {name: kept.inputs[name] for name in _SWING if name in kept.inputs}
            edge = answer(find_calculator("knife-edge"), inputs)
        except InputError:
            return None
        result = Kept(kept.worked, edge, kept.inputs)
    low, high = result.number("swing_low"), result.number("swing_high")
    if low is None or high is None:
        return None
    return low, high, result.number("stop_angle_low"), result.number("stop_angle_high")


def _flexure_swing(kept: Kept) -> tuple[float, float, float | None, float | None] | None:
    limit = kept.given("flexure_limit", "deg")
    if limit is None:
        return None
    rest = kept.given("flexure_rest", "deg") or 0.0
    stops = [_stop(kept, side) for side in ("low", "high")]
    return rest - limit, rest + limit, stops[0], stops[1]


def _stop(kept: Kept, side: str) -> float | None:
    """The angle of a stop [deg], as it is given or from its gap."""
    angle = kept.given(f"stop_{side}", "deg")
    if angle is not None:
        return angle
    gap, radius = kept.given(f"gap_{side}", "mm"), kept.given("stop_radius", "mm")
    if gap is None or not radius:
        return None
    half = (kept.given("lever_width", "mm") or 0.0) / 2.0
    reach = math.hypot(radius, gap + half)
    turn = math.degrees(math.atan2(gap + half, radius) - math.asin(half / reach))
    return -turn if side == "low" else turn


def _nearer_stops(kept: Kept, low: float, high: float) -> tuple[Mend, ...]:
    """Set both stops so that they act at these angles at the latest; none where they hang on sizes."""
    fields, words = [], []
    for side, angle in (("low", low), ("high", high)):
        now = _stop(kept, side)
        if now is None or abs(now) <= abs(angle) + _STILL:
            continue
        if angle * (-1.0 if side == "low" else 1.0) <= 0.0:
            return ()
        name = f"stop_{side}" if f"stop_{side}" in kept.inputs else f"gap_{side}"
        if kept.tied(name):
            return ()
        if name.startswith("stop"):
            written = f"{math.copysign(math.floor(abs(angle) * 10.0 + 1e-9) / 10.0, angle):g} deg"
        else:
            half = (kept.given("lever_width", "mm") or 0.0) / 2.0
            turn = math.radians(abs(angle))
            gap = (kept.given("stop_radius", "mm") or 0.0) * math.tan(turn) + half / math.cos(turn) - half
            if gap <= 0.0 or kept.tied("stop_radius"):
                return ()
            written = f"{math.floor(gap * 10.0) / 10.0:g} mm"
        fields.append((f"calculations[{kept.mark}].inputs[{name}]", written))
        words.append(f"{name.replace('_', ' ')} {written}")
    return (setting(f"Set the stops nearer: {', '.join(words)}.", *fields),) if fields else ()


RULES: tuple[BuildRule, ...] = (_pivot_travel,)
