"""Springs together: side by side or end to end, what each bears and which is solid first."""

from __future__ import annotations

from collections.abc import Sequence

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.declared.spring import CAUTION, PURPOSE
from calculators.declared.spring_inputs import length
from calculators.declared.spring_reading import n
from calculators.drawing.springs_together import draw_springs
from calculators.mechanics.springs.together import (
    Member,
    Together,
    end_to_end,
    first_solid,
    side_by_side,
)
from calculators.quantities.errors import InputError


def members_of(given: Given) -> tuple[Member, ...]:
    """Read the springs of the calculator.

    Args:
        given: its inputs.

    Returns:
        The springs, with the travel before each begins to bear.

    Raises:
        InputError: when free lengths are given for some of the springs alone.

    Source: this project.
    """
    rows = given.rows("springs")
    free = [row.mm_or_none("free_length") for row in rows]
    known = [each for each in free if each is not None]
    if known and len(known) < len(rows):
        place = free.index(None)
        says = (
            f"Springs, row {place + 1} has no free_length, but others have; write it for all or for none: it "
            "says which bears first."
        )
        raise InputError.of(says, field=f"springs[{place}].free_length")
    pressed = given.text("kind") == "compression"
    ends_on = given.text("arrangement") == "end-to-end"
    first = (max(known) if pressed else min(known)) if known else 0.0
    return tuple(
        Member(
            row.text_or_none("name") or f"spring {place + 1}",
            row.number("rate"),
            row.number("initial_tension"),
            0.0 if ends_on or own is None else abs(first - own),
            row.mm_or_none("most_travel"),
        )
        for place, (row, own) in enumerate(zip(rows, free, strict=True))
    )


def _pair(given: Given) -> Result:
    members = members_of(given)
    load, travel = given.number_or_none("load"), given.mm_or_none("travel")
    if (load is None) == (travel is None):
        had = "both are given" if load is not None else "neither is given"
        raise InputError.of(f"Write one of load and travel; {had}.", field="load", choices=("load", "travel"))
    end_on = given.text("arrangement") == "end-to-end"
    found = (end_to_end if end_on else side_by_side)(members, load_n=load, travel_mm=travel)
    results: dict[str, Value | float | str] = {"load": found.load_n, "working_travel": found.travel_mm}
    if found.rate_n_per_mm is not None:
        results["rate"] = found.rate_n_per_mm
    results["springs_shared"] = Value(_rows(found, end_on), "")
    solid = first_solid(members, end_on=end_on)
    if solid is None:
        results["first_solid"] = "none, since no greatest travel is stated"
    else:
        results |= {"first_solid": solid[0].name, "first_solid_load": solid[1]}
    return Result(named(**results), _steps(members, found, end_on), tuple(_warnings(found, given)))


def _rows(found: Together, end_on: bool) -> list[dict[str, float | str]]:
    whole = found.travel_mm if end_on else found.load_n
    rows: list[dict[str, float | str]] = []
    for each in found.shares:
        part = each.travel_mm if end_on else each.load_n
        row: dict[str, float | str] = {
            "name": each.name,
            "load": each.load_n,
            "working_travel": each.travel_mm,
        }
        row["travel_percent" if end_on else "load_percent"] = 100 * part / whole if whole else 0.0
        rows.append(row | {"state": each.state})
    return rows


def _steps(members: Sequence[Member], found: Together, end_on: bool) -> tuple[Step, ...]:
    """The load and travel of each spring, their sum, and the rate of those that move."""
    steps = []
    together = sum(
        each.initial_n for each, share in zip(members, found.shares, strict=True) if share.state == "held"
    )
    for place, (member, share) in enumerate(zip(members, found.shares, strict=True), 1):
        rate, initial = n(member.rate_n_per_mm), n(member.initial_n)
        if share.state == "held":
            steps.append(_held(place, member, found, end_on, together))
        elif end_on:
            numbers = f"({n(found.load_n)} N - {initial} N)/{rate} N/mm, {share.state}"
            steps.append(Step(f"x{place}", "(F - F_i)/k, 0 to its greatest", numbers, share.travel_mm, "mm"))
        else:
            own = f"{n(found.travel_mm)} mm - {n(member.gap_mm)} mm"
            numbers = f"{initial} N + {rate} N/mm x ({own}), {share.state}"
            steps.append(Step(f"F{place}", "F_i + k (x - gap), not under 0", numbers, share.load_n, "N"))
    if end_on:
        steps.append(Step("x", "x1 + x2 + ...", "", found.travel_mm, "mm", "equilibrium"))
    else:
        steps.append(Step("F", "F1 + F2 + ...", "", found.load_n, "N", "equilibrium"))
    if found.rate_n_per_mm is not None:
        formula = "1/(1/k1 + 1/k2 + ...) of those that move" if end_on else "k1 + k2 + ... of those that bear"
        steps.append(Step("k", formula, "", found.rate_n_per_mm, "N/mm", "equilibrium"))
    return tuple(steps)


def _held(place: int, member: Member, found: Together, end_on: bool, together: float) -> Step:
    """The step of a spring whose initial tension the load does not overcome."""
    load, initial = n(found.load_n), n(member.initial_n)
    if end_on:
        return Step(f"x{place}", "0, held until F is over F_i", f"F {load} N, F_i {initial} N", 0.0, "mm")
    numbers = f"{load} N x {initial} N/{n(together)} N"
    share = found.load_n * member.initial_n / together if together else 0.0
    return Step(f"F{place}", "F F_i/(sum of F_i), held until F is over that sum", numbers, share, "N")


def _warnings(found: Together, given: Given) -> list[str]:
    still = found.load_n > 0 and found.travel_mm == 0
    warnings = []
    if still:
        warnings.append(
            f"The load of {n(found.load_n)} N does not overcome the initial loads: nothing moves yet."
        )
    warnings += [
        f"{each.name} is solid: from here it bears without giving."
        if given.text("kind") == "compression"
        else f"{each.name} is at its greatest travel: pulled further it is overstretched."
        for each in found.shares
        if each.state == "solid"
    ]
    if given.text("arrangement") == "side-by-side":
        warnings += [f"{each.name} bears nothing yet." for each in found.shares if each.state == "slack"]
        if len(found.shares) > 1:
            warnings.append(
                "Side by side they share a plate that must stay level: place them evenly about the load."
            )
    return warnings


SPRING_PAIR = Calculator(
    name="spring-pair",
    summary="Springs side by side or end to end: their rate together, what each bears, which is solid first.",
    purpose=PURPOSE,
    either=(("load", "travel"),),
    inputs=(
        Input(
            name="springs",
            help="the springs, one a row",
            kind="rows",
            minimum=1,
            maximum=12,
            example="2 N/mm, 0 N, 40 mm, 20 mm, outer",
            members=(
                Input(name="rate", help="its rate", kind="quantity", unit="N/mm", minimum=1e-6, maximum=1e6),
                Input(
                    name="initial_tension",
                    help="load at which it begins to give: initial tension, or how far it is set up",
                    kind="quantity",
                    unit="N",
                    default="0",
                    minimum=0,
                    maximum=1e6,
                ),
                length("free_length", "its length without load; for springs side by side of unlike length"),
                length("most_travel", "its own travel until it is solid, or overstretched"),
                Input(name="name", help="what it is called", kind="text", optional=True),
            ),
        ),
        Input(
            name="arrangement",
            help="whether they stand side by side or end to end",
            kind="choice",
            choices=("side-by-side", "end-to-end"),
            synonyms=(("parallel", "side-by-side"), ("series", "end-to-end"), ("nested", "side-by-side")),
            default="side-by-side",
        ),
        Input(
            name="kind",
            help="whether they are pressed or pulled",
            kind="choice",
            choices=("compression", "extension"),
            synonyms=(("tension", "extension"),),
            default="compression",
        ),
        Input(
            name="load",
            help="load on all of them",
            kind="quantity",
            unit="N",
            optional=True,
            minimum=0,
            maximum=1e7,
            example="60 N",
        ),
        Input(
            name="travel",
            help="travel of all of them, instead of the load",
            kind="length",
            unit="mm",
            optional=True,
            minimum=0,
            maximum=100_000,
        ),
    ),
    outputs=("rate", "load", "working_travel", "springs_shared", "first_solid", "first_solid_load"),
    work=_pair,
    draw=lambda given, result: draw_springs(
        members_of(given),
        result,
        end_on=given.text("arrangement") == "end-to-end",
    ),
    sources=("equilibrium of straight-line springs", "stiffness of springs together: common practice"),
    cautions=(CAUTION,),
    example={
        "springs": "2 N/mm, 0 N, 40 mm, 22 mm, outer; 1.5 N/mm, 0 N, 35 mm, 20 mm, inner",
        "load": "38 N",
    },
)
