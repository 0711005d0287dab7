"""Spring: rate, load, stress and steadiness of a coil that is pressed, pulled or wound up."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Result, named
from calculators.declared.spring_inputs import INPUTS, OUTPUTS
from calculators.declared.spring_pressed import work_pressed
from calculators.declared.spring_pulled import work_pulled
from calculators.declared.spring_reading import read_spring
from calculators.declared.spring_wound import work_wound
from calculators.drawing.springs import draw_spring
from calculators.mechanics.springs.coils import ENDS, HOOKS
from calculators.quantities.errors import Fault, InputError

CAUTION = (
    "A spring stores energy: wear eye protection, let the load off before taking anything apart, and hold "
    "both ends when cutting or unhooking, since wire ends fly."
)
"""The caution that stands beside every spring."""

GUIDE = (
    "Strengths and shares are guidance for the workshop, for new wire at room temperature without setting or "
    "shot peening; where a failure could hurt someone, local codes and licensed practice come first."
)
"""What the limits are worth."""

PURPOSE = "Springs, pivots and strings"

_KINDS = {"compression": work_pressed, "extension": work_pulled, "torsion": work_wound}
_ONLY = {
    "initial_tension": ("extension",),
    "hook_radius": ("extension",),
    "hook_bend_radius": ("extension",),
    "working_length": ("compression", "extension"),
    "travel": ("compression", "extension"),
    "working_angle": ("torsion",),
    "arm": ("torsion",),
    "legs": ("torsion",),
    "mandrel": ("torsion",),
}
"""The inputs that not every kind has."""

_ENDS = {"compression": tuple(ENDS), "extension": tuple(HOOKS), "torsion": ("straight-legs",)}


def _spring(given: Given) -> Result:
    kind = given.text("kind")
    _check_kind(given, kind)
    spring = read_spring(given)
    _KINDS[kind](spring)
    ordered = {name: spring.results[name] for name in OUTPUTS if name in spring.results}
    name, _, _ = spring.factor
    sources = (*dict.fromkeys(spring.sources), f"stress: factor of {name}", *SOURCES[kind])
    return Result(named(**ordered), tuple(spring.steps), tuple(spring.warnings), sources)


def _check_kind(given: Given, kind: str) -> None:
    """Refuse inputs and ends that springs of this kind do not have."""
    faults = [
        Fault(
            f"The input {name} is of no use for a spring of kind {kind}; it is for {' and '.join(kinds)}.",
            name,
        )
        for name, kinds in _ONLY.items()
        if kind not in kinds and given.get(name) is not None
    ]
    ends = given.text_or_none("ends")
    if ends is not None and ends not in _ENDS[kind]:
        says = f"A spring of kind {kind} has no ends {ends}; write one of {', '.join(_ENDS[kind])}."
        faults.append(Fault(says, "ends", _ENDS[kind]))
    if faults:
        raise InputError(*faults)


_BOOK = "Shigley, Mechanical Engineering Design, 9th ed."
SOURCES: dict[str, tuple[str, ...]] = {
    "compression": ("EN 13906-1 (from memory)", f"{_BOOK}, ch. 10 (from memory)"),
    "extension": ("EN 13906-2 (from memory)", f"{_BOOK}, 10-11 (from memory)"),
    "torsion": ("EN 13906-3 (from memory)", f"{_BOOK}, 10-12 (from memory)"),
}
"""The sources of the rules of each kind."""

SPRING = Calculator(
    name="spring",
    summary="Rate, load, stress, solid length and steadiness of a coil spring pressed, pulled or wound up.",
    purpose=PURPOSE,
    either=(("mean_diameter", "outside_diameter", "inside_diameter"), ("active_coils", "total_coils")),
    inputs=INPUTS,
    outputs=OUTPUTS,
    varying=("rate",),
    work=_spring,
    draw=draw_spring,
    sources=(
        "EN 13906-1, -2 and -3 (from memory)",
        "Shigley, Mechanical Engineering Design, 9th ed., ch. 10",
    ),
    cautions=(CAUTION, GUIDE),
    example={
        "kind": "compression",
        "wire": "1.2 mm",
        "outside_diameter": "12 mm",
        "active_coils": "8",
        "material": "music-wire",
        "free_length": "40 mm",
        "working_length": "25 mm",
        "ends": "closed-and-ground",
    },
)
