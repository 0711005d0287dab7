"""Wood screw: the sizes of a wood screw by its number or diameter, and the holes it needs."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.hardware.wood_screws import PILOT_HARDWOOD, PILOT_SOFTWOOD, SERIES, WoodScrew, wood_screw


def _wood_screw(given: Given) -> Result:
    screw = wood_screw(
        given.text("gauge"), given.text("standard"), head_angle_deg=given.number_or_none("head_angle")
    )
    results = named(
        shank_diameter=screw.shank_mm,
        root_diameter=screw.root_mm,
        head_diameter=screw.head_diameter_mm,
        head_height=screw.head_height_mm,
        head_angle=screw.head_angle_deg,
        clearance_hole=screw.clearance_hole_mm,
        pilot_softwood=screw.pilot_softwood_mm,
        pilot_hardwood=screw.pilot_hardwood_mm,
    )
    sources = (
        f"shank: {screw.shank_basis}",
        f"root: {screw.root_basis}",
        f"head: {screw.head_basis}",
        f"clearance hole: {screw.clearance_basis}",
        f"pilot holes: 90 % in hardwood, 70 % in softwood {screw.pilot_hardwood_basis.partition('% ')[2]}",
    )
    warning = (
        "Try the pilot hole in a piece of the same wood first: charts disagree, and what worked is right."
    )
    return Result(results, _working(screw), (warning,), sources)


def _working(screw: WoodScrew) -> tuple[Step, ...]:
    root = number_text(screw.root_mm)
    steps = [
        Step("pilot, softwood", f"{PILOT_SOFTWOOD:g} root", f"{PILOT_SOFTWOOD:g} x {root}",
             screw.pilot_softwood_mm, "mm", "common practice"),
        Step("pilot, hardwood", f"{PILOT_HARDWOOD:g} root", f"{PILOT_HARDWOOD:g} x {root}",
             screw.pilot_hardwood_mm, "mm", "common practice"),
    ]  # fmt: skip
    if screw.number is not None:
        first, each = (0.060, 0.013) if screw.series == "inch-us" else (0.052, 0.014)
        formula, numbers = f"25.4 ({first} + {each} n)", f"25.4 ({first} + {each} x {screw.number})"
        source = screw.shank_basis.partition("(")[2].rstrip(")")
        steps.insert(0, Step("shank", formula, numbers, screw.shank_mm, "mm", source))
    return tuple(steps)


WOOD_SCREW = Calculator(
    name="wood-screw",
    summary="The sizes of a wood screw by its number or diameter, and the holes it needs.",
    purpose="Fasten and check a joint",
    inputs=(
        Input(
            name="gauge",
            help="the screw's number, 0 to 24, or for the metric series its diameter in mm",
            kind="text",
            example="8 or No. 8; metric: 4",
        ),
        Input(
            name="standard",
            help="which series the number is of",
            kind="choice",
            choices=SERIES,
            default="inch-us",
        ),
        Input(
            name="head_angle",
            help="the angle of the countersunk head, where it is not the series' own",
            kind="quantity",
            unit="deg",
            optional=True,
            minimum=60,
            maximum=120,
        ),
    ),
    outputs=(
        "shank_diameter",
        "root_diameter",
        "head_diameter",
        "head_height",
        "head_angle",
        "clearance_hole",
        "pilot_softwood",
        "pilot_hardwood",
    ),
    work=_wood_screw,
    sources=(
        "ASME B18.6.1 (inch-us)",
        "BS 1210 gauge (inch-british; common practice)",
        "DIN 7996 and DIN 97 (metric)",
        "pilot holes by the root diameter (common practice)",
    ),
    example={"gauge": "8", "standard": "inch-us"},
)
