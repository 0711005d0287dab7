"""Grub-screw-hold: the torque that grub screws hold on a shaft."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.drawing.strength import Bar, load_bars
from calculators.hardware.nominal import nominal_of
from calculators.hardware.threads import Thread, find_thread
from calculators.mechanics.bolts import preload_n
from calculators.mechanics.set_screws import (
    BORE_FRICTION,
    bore_reaction_n,
    holding_row,
    holding_torque_nm,
    point_row,
    seated_torque_nm,
)
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

POINTS = load("set_screw_points").column("point")
_NEWTONS_PER_LBF = 0.45359237 * 9.80665
_SHEAR_MPA = 420.0
"""Shear strength of a grub screw of usual steel (45H has far more; common practice, on the safe side)."""


def _work(given: Given) -> Result:
    thread = find_thread(given.text("designation"), field="designation")
    shaft, count = given.mm("shaft"), given.integer("count")
    if thread.major_mm > shaft:
        raise InputError.of(
            f"A grub screw of {thread.major_mm:.4g} mm is thicker than the shaft of {shaft:g} mm; "
            "take one of about "
            "half the shaft.",
            field="designation", value=thread.major_mm, limit=shaft, unit="mm",
        )  # fmt: skip
    row = point_row(given.text("point"))
    steps: list[Step] = []
    force = _force(given, thread, steps)
    apart = given.number("angle_between")
    reaction = bore_reaction_n(force, count, apart)
    friction = row.number("friction")
    torque = holding_torque_nm(force, shaft, friction, count=count, apart_deg=apart)
    f, radius = number_text(force), number_text(shaft / 2)
    steps += [
        Step("R", "F" if count == 1 else "F sqrt(2 + 2 cos a)",
             f"{f} N" if count == 1 else f"{f} N x sqrt(2 + 2 cos {number_text(apart)} deg)", reaction, "N",
             "force of the shaft against its bore"),
        Step("holding torque", "(n m_p F + m_b R) D / 2",
             f"({count} x {number_text(friction)} x {f} N + {BORE_FRICTION:g} x {number_text(reaction)} N) x "
             f"{radius} mm", torque, "N m", row.source.says),
    ]  # fmt: skip
    results = named(holding_torque=torque, holding_force=torque * 2000 / shaft, point_force=force)
    tabled = _tabled(thread, given.text("point"))
    sources = list(GRUB_SCREW_HOLD.sources)
    if tabled is not None:
        share = row.number("share")
        results |= named(holding_tabled=tabled.number("holding") * _NEWTONS_PER_LBF * share)
        steps.append(Step("tabled", "holding power x share of the point",
                          f"{tabled['holding']} lbf x {number_text(share)}",
                          tabled.number("holding") * _NEWTONS_PER_LBF * share, "N",
                          f"tightened with {tabled['torque']} lbf in, {tabled.source.says}"))  # fmt: skip
        sources.append(f"tabled: {tabled.source.says}")
    seat = given.text("seat")
    if seat == "hole":
        results |= _seated(given, thread, shaft, count, steps)
    return Result(results, tuple(steps), _warnings(given, thread, torque), tuple(sources))


def _force(given: Given, thread: Thread, steps: list[Step]) -> float:
    force, torque = given.number_or_none("force"), given.number_or_none("torque")
    k = given.number("nut_factor")
    if (force is None) == (torque is None):
        says = "Give the torque or the point's force" + (", not both." if force else ".")
        raise InputError.of(says, field="torque")
    if force is not None:
        return force
    assert torque is not None
    force = preload_n(torque, k, thread.major_mm)
    numbers = f"{number_text(torque)} N m / ({number_text(k)} x {number_text(thread.major_mm)} mm)"
    source = "as a bolt's preload; Machinery's Handbook (from memory)"
    steps.append(Step("F", "T / (K d)", numbers, force, "N", source))
    return force


def _tabled(thread: Thread, point: str) -> Row | None:
    if not thread.is_unified or point == "brass pad":
        return None
    name = nominal_of(thread.designation).name
    return holding_row(name.replace("No. ", "#"))


def _seated(given: Given, thread: Thread, shaft: float, count: int, steps: list[Step]) -> dict[str, Value]:
    point = given.mm_or_none("point_diameter")
    point = 0.5 * thread.major_mm if point is None else point
    if point > thread.major_mm:
        raise InputError.of(
            f"The point of {point:g} mm is wider than its screw of {thread.major_mm:.4g} mm.",
            field="point_diameter", value=point, limit=thread.major_mm, unit="mm",
        )  # fmt: skip
    torque = seated_torque_nm(point, _SHEAR_MPA, shaft, count)
    numbers = (
        f"{count} x {_SHEAR_MPA:g} MPa x pi/4 x ({number_text(point)} mm)^2 x {number_text(shaft / 2)} mm"
    )
    steps.append(Step("points shear", "n t pi/4 d_p^2 D / 2", numbers, torque, "N m", "mechanics"))
    return named(seated_torque=torque)


def _warnings(given: Given, thread: Thread, torque: float) -> tuple[str, ...]:
    found = []
    shaft, needed = given.mm("shaft"), given.number_or_none("torque_needed")
    seat, count = given.text("seat"), given.integer("count")
    if needed is not None and needed > torque:
        found.append(
            f"It slips: {needed:g} N m is asked and friction holds {torque:.2g} N m at best. File "
            "a flat, drill a hole "
            "for a dog point, or pin it."
        )
    elif needed is not None and needed > torque / 2:
        found.append(
            f"{needed:g} N m is asked and friction holds {torque:.2g} N m at best: less than the "
            "factor of 2 that "
            "steady loads want (4 where they shake)."
        )
    if seat == "smooth" and given.text("point") in ("cup", "cone"):
        found.append(
            f"A {given.text('point')} point raises a burr: the part will not draw off the shaft. "
            "A flat on the shaft, "
            "or a brass pad, saves it."
        )
    if seat == "flat":
        found.append(
            "On a flat the hold is positive once the point meets the flat's edge; friction is its least."
        )
    if count == 2 and given.number("angle_between") > 120:
        found.append("Screws nearly opposite push against one another, not the shaft against its bore.")
    if thread.major_mm < 0.25 * shaft:
        found.append(
            f"The screw is {thread.major_mm / shaft:.2f} of the shaft; about a half holds best, a "
            "quarter at least."
        )
    return tuple(found)


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    needed = given.number_or_none("torque_needed")
    torque = result.results["holding_torque"].value
    assert isinstance(torque, float)
    bars = [Bar("held by friction", torque)]
    if needed is not None:
        bars.insert(0, Bar("asked of it", needed, wrong=needed > torque))
    seated = result.results["seated_torque"].value if "seated_torque" in result.results else None
    if isinstance(seated, float):
        bars.append(Bar("points shear", seated))
    caption = f"Friction holds {torque:.2g} N m at best."
    return (load_bars(bars, title="Torque held on the shaft", unit="N m", caption=caption),)


def _quantity(name: str, text: str, unit: str, most: float, example: str = "") -> Input:
    return Input(
        name=name,
        help=text,
        kind="quantity",
        unit=unit,
        optional=True,
        above=0,
        maximum=most,
        example=example,
    )


GRUB_SCREW_HOLD = Calculator(
    name="grub-screw-hold",
    summary="The torque that a grub screw holds on a shaft, by its point and how tight it is.",
    purpose="Strength and stiffness",
    inputs=(
        Input(name="designation", help="the grub screw's thread", kind="text", example="M4 or 1/4 UNC"),
        Input(
            name="shaft",
            help="the shaft's diameter",
            kind="length",
            unit="mm",
            minimum=0.5,
            maximum=300,
            example="6 mm",
        ),
        _quantity("torque", "the screw's tightening torque", "N m", 500, "0.5 N m"),
        _quantity("force", "or the force of its point", "N", 1e6, "600 N"),
        Input(
            name="nut_factor",
            help="the nut factor K, 0.2 for plain dry steel",
            kind="number",
            default="0.2",
            minimum=0.05,
            maximum=0.6,
        ),
        Input(
            name="point",
            help="the screw's point",
            kind="choice",
            choices=POINTS,
            synonyms=(("brass-pad", "brass pad"), ("knurled-cup", "cup")),
            default="cup",
        ),
        Input(
            name="seat",
            help="what the shaft offers: smooth, a flat, or a hole for the point",
            kind="choice",
            choices=("smooth", "flat", "hole"),
            synonyms=(("none", "smooth"), ("dimple", "hole")),
            default="smooth",
        ),
        Input(
            name="point_diameter",
            help="the point's diameter in that hole; left out, half the screw",
            kind="length",
            unit="mm",
            optional=True,
            above=0,
            maximum=50,
        ),
        Input(name="count", help="how many screws", kind="integer", default="1", minimum=1, maximum=2),
        Input(
            name="angle_between",
            help="the angle between two screws, seen along the shaft",
            kind="quantity",
            unit="deg",
            default="90 deg",
            minimum=0,
            maximum=180,
        ),
        _quantity("torque_needed", "the torque asked of the shaft, to compare", "N m", 10_000, "0.4 N m"),
    ),
    outputs=("holding_torque", "holding_force", "point_force", "holding_tabled", "seated_torque"),
    either=(("torque", "force"),),
    work=_work,
    draw=_draw,
    sources=(
        "friction at point and bore, 0.25 and 0.15: common practice",
        "points beside the cup: a maker's catalogue of socket screws (read)",
    ),
    cautions=(
        "An estimate: shock, oil and a hard shaft halve it. Where a slip could hurt someone, pin "
        "or key the part and "
        "follow local codes.",
        "Small screws strip their sockets or snap: guard your eyes.",
    ),
    example={
        "designation": "1/4-20 UNC",
        "shaft": "12 mm",
        "torque": "9.8 N m",
        "point": "dog",
        "seat": "hole",
    },
)
