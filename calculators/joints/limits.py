"""The limits of the rules: a named table that a workshop may change, value by value."""

from __future__ import annotations

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import isfinite
from types import MappingProxyType

from calculators.quantities.errors import InputError

_CP = "common practice"
_WH = "Wood Handbook ch. 8 (from memory), common practice"
_EN = "EN 1995-1-1 table 8.2 (from memory)"


@dataclass(frozen=True, slots=True)
class Limit:
    """A limit of a rule: its name, default value, unit and where it comes from."""

    name: str
    value: float
    unit: str
    source: str
    says: str


LIMITS: tuple[Limit, ...] = (
    Limit("penetration-least", 3.0, "D", _WH, "a wood screw that goes in less than this cannot be relied on"),
    Limit("penetration", 4.0, "D", _WH, "how far a wood screw should go into the piece that holds it"),
    Limit("penetration-sideways", 7.0, "D", _WH, "how far it should go in for its full strength sideways"),
    Limit("behind-point-least", 1.0, "mm", _CP, "wood left behind the point, at the very least"),
    Limit("behind-point", 3.0, "mm", _CP, "wood that should be left behind the point"),
    Limit("pilot-hardwood-least", 85.0, "%", _WH, "smallest pilot in hardwood, of the root diameter"),
    Limit("pilot-hardwood-most", 100.0, "%", _WH, "largest pilot in hardwood, of the root diameter"),
    Limit("pilot-softwood-least", 65.0, "%", _WH, "smallest pilot in softwood, of the root diameter"),
    Limit("pilot-softwood-most", 75.0, "%", _WH, "largest pilot in softwood, of the root diameter"),
    Limit(
        "coach-pilot-hard-least", 65.0, "%", _WH, "smallest pilot of a coach screw in hardwood, of the shank"
    ),
    Limit(
        "coach-pilot-hard-most", 85.0, "%", _WH, "largest pilot of a coach screw in hardwood, of the shank"
    ),
    Limit(
        "coach-pilot-soft-least", 40.0, "%", _WH, "smallest pilot of a coach screw in softwood, of the shank"
    ),
    Limit(
        "coach-pilot-soft-most", 75.0, "%", _WH, "largest pilot of a coach screw in softwood, of the shank"
    ),
    Limit(
        "shank-in-pilot", 1.0, "D", _CP, "plain shank that may enter a pilot hole before it is worth a word"
    ),
    Limit(
        "small-stainless", 8.0, "No.", _CP, "stainless wood screws below this number twist off in hardwood"
    ),
    Limit("end-distance-least", 4.0, "d", _EN, "screw to the end of the piece, at the very least"),
    Limit("end-distance", 7.0, "d", _EN, "screw to the end of the piece"),
    Limit("end-distance-loaded", 12.0, "d", _EN, "screw to the end of the piece that it pushes towards"),
    Limit("edge-distance-least", 1.5, "d", _CP, "screw to the edge of the piece, at the very least"),
    Limit("edge-distance", 3.0, "d", _EN, "screw to the edge of the piece"),
    Limit("head-over-countersink", 0.3, "mm", _CP, "a head may be this much too wide for its recess"),
    Limit("washer-pressure-most", 100.0, "%", "Wood Handbook table 5-3", "pressure on wood, of its strength"),
    Limit("washer-pressure", 75.0, "%", "Wood Handbook table 5-3", "pressure on wood that leaves a margin"),
    Limit(
        "washer-spread", 12.0, "1", _CP, "a washer spreads its overhang times two when this times as thick"
    ),
    Limit("insert-hole-least", 0.4, "mm", _CP, "hole over an insert's body in hardwood, at least"),
    Limit("insert-hole-most", 0.8, "mm", _CP, "hole over an insert's body in hardwood, at most"),
    Limit("insert-hole-softwood-most", 0.4, "mm", _CP, "hole over an insert's body in softwood, at most"),
    Limit("insert-edge-least", 1.0, "OD", _CP, "insert to the nearest edge, at the very least"),
    Limit("insert-edge", 2.0, "OD", _CP, "insert to the nearest edge"),
    Limit("engagement-least", 1.0, "D", _CP, "thread engaged in a tapped hole, at the very least"),
    Limit("bottoms", 1.0, "pitch", _CP, "a screw should stop this many pitches short of its thread's end"),
    Limit("blind-wall", 1.5, "mm", _CP, "wall left behind a blind hole's point"),
    Limit("threads-past-nut-least", 1.0, "threads", _CP, "threads that should show past a nut"),
    Limit(
        "threads-past-nut-most", 5.0, "threads", _CP, "threads past a nut beyond which they are in the way"
    ),
    Limit(
        "dome-thread",
        0.66,
        "height",
        "DIN 1587 (from memory)",
        "a dome nut's thread, as a share of its height",
    ),
    Limit("dome-engagement", 0.8, "D", _CP, "how far a bolt goes into a dome nut at least"),
    Limit("countersink-depth-most", 1.0, "t", _CP, "countersink's depth of the plate's thickness, at most"),
    Limit("countersink-depth", 0.8, "t", _CP, "countersink's depth that leaves a land in the plate"),
    Limit(
        "countersink-angle", 5.0, "deg", "ISO 7721, ASME B18.6.3 (from memory)", "head and countersink apart"
    ),
    Limit("thread-percent-least", 45.0, "%", _CP, "thread left by a tapping drill, at the very least"),
    Limit("thread-percent-low", 55.0, "%", _CP, "thread left by a tapping drill, at least"),
    Limit("thread-percent-high", 85.0, "%", _CP, "thread left by a tapping drill, at most"),
    Limit("thread-percent-most", 92.0, "%", _CP, "thread left by a tapping drill, at the very most"),
    Limit("clearance-least", 1.02, "D", _CP, "clearance hole where no standard gives one, at least"),
    Limit("clearance-most", 1.20, "D", _CP, "clearance hole where no standard gives one, at most"),
    Limit("counterbore-room", 0.5, "mm", _CP, "counterbore wider than what lies in it, on the diameter"),
    Limit("counterbore-floor", 0.3, "D", _CP, "what a counterbore leaves under the head in metal, at least"),
    Limit("counterbore-floor-wood", 1.0, "D", _CP, "what it leaves under the head in wood, at least"),
    Limit(
        "lock-clamped", 3.0, "D", "VDI 2230 (from memory), common practice", "clamped length that stays tight"
    ),
)
"""Every limit with its default value; `JointInput.limits` replaces values by name."""

_DEFAULTS: Mapping[str, float] = MappingProxyType({limit.name: limit.value for limit in LIMITS})


def limits_with(replaced: Iterable[tuple[str, float]]) -> Mapping[str, float]:
    """Give the limits with some of their values replaced.

    Names of limits that belong to other checks are passed over.

    Args:
        replaced: names and values; every value is finite and not negative.

    Returns:
        Every limit's value by name, in the units of `LIMITS`.

    Raises:
        InputError: when a value is negative or not a number.

    Source: this project.

    Example:
        >>> limits_with([("behind-point", 5.0)])["behind-point"]
        5.0
    """
    replaced = tuple(replaced)
    if not replaced:
        return _DEFAULTS
    values = dict(_DEFAULTS)
    for name, value in replaced:
        if not isfinite(value) or value < 0:
            raise InputError.of(
                f"The limit {name!r} must be a number of 0 or more, not {value}.", field=f"limits.{name}"
            )
        if name in values:
            values[name] = float(value)
    return MappingProxyType(values)
