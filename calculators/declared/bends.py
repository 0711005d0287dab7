"""Bend-allowance: the material in a bend of sheet, the flat blank of several legs, and its limits."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import Plain, number_text
from calculators.drawing.bends import draw_bends
from calculators.geometry.bends import (
    Bend,
    Blank,
    MeasuredTo,
    allowance,
    bend_of,
    flat_blank,
    k_of_ratio,
    k_of_temper,
)
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

_DIN = "DIN 6935 (from memory)"


@dataclass(frozen=True, slots=True)
class _K:
    """The k factor that is used, and where it comes from."""

    value: float
    formula: str
    numbers: str
    source: str


def k_used(given: Given, radius_mm: float) -> _K:
    """The k factor for a bend, as given, by temper, or by how tight it is.

    Args:
        given: the inputs of the calculator, as read.
        radius_mm: [mm] the bend's inside radius.

    Returns:
        The factor with the step that tells it.

    Raises:
        InputError: when it is given twice, or the bend is too sharp for the rule.

    Source: this project.
    """
    own, temper, t = given.number_or_none("k_factor"), given.text_or_none("temper"), given.mm("thickness")
    if own is not None and temper is not None:
        says = "Write k_factor or temper, not both; the temper has a k factor of its own."
        raise InputError.of(says, field="temper")
    if own is not None:
        return _K(own, "as given", "", "")
    if temper is not None:
        k, row = k_of_temper(temper)
        return _K(k, "c / (pi/2)", f"{row['constant']} / (pi/2)", f"{row['metals']}: {row.source.says}")
    k = k_of_ratio(radius_mm, t)
    numbers = f"(0.65 + 0.5 log10({number_text(radius_mm)} / {number_text(t)})) / 2"
    return _K(k, "(0.65 + 0.5 log10(r/t)) / 2, at most 0.5", numbers, _DIN)


def bends_of(given: Given) -> tuple[list[float], list[Bend]]:
    """The legs and the bends between them.

    Args:
        given: the inputs of the calculator, as read.

    Returns:
        The outside lengths of the legs [mm], none where they were left out, and the bends, at least one.

    Raises:
        InputError: for an angle or radius behind the last leg, or a bend out of its limits.

    Source: this project.
    """
    rows = given.rows("legs")
    if rows and any(rows[-1].get(name) is not None for name in ("angle", "radius")):
        says = "Behind the last leg there is no bend; leave its angle and radius out."
        raise InputError.of(says, field="legs")
    bends = []
    for row in rows[:-1] or (Given({}),):
        angle, radius = row.number_or_none("angle"), row.mm_or_none("radius")
        angle = given.number("angle") if angle is None else angle
        radius = given.mm("radius") if radius is None else radius
        to: MeasuredTo = "tangent" if given.text("measured_to") == "tangent" else "corner"
        bends.append(bend_of(given.mm("thickness"), radius, angle, k_used(given, radius).value, to))
    return [row.mm("length") for row in rows], bends


def _bend(given: Given) -> Result:
    t = given.mm("thickness")
    legs, bends = bends_of(given)
    first = bends[0]
    k = k_used(given, first.radius_mm)
    r_text, t_text, a_text = map(number_text, (first.radius_mm, t, first.angle_deg))
    back = (
        "r + t" if given.text("measured_to") == "tangent" and first.angle_deg > 90 else "(r + t) tan(angle/2)"
    )
    numbers = f"({r_text} + {t_text})" + ("" if back == "r + t" else f" x tan({a_text} deg / 2)")
    steps = [
        Step("k", k.formula, k.numbers, k.value, "1", k.source),
        Step("allowance", "angle (r + k t)", f"{a_text} deg x pi/180 x ({r_text} + "
             f"{number_text(k.value)} x {t_text})",
             first.allowance_mm, "mm", "arc of the neutral line"),
        Step("setback", back, numbers, first.setback_mm, "mm", "outside corner to where the bend begins"),
        Step("deduction", "2 setback - allowance",
             f"2 x {number_text(first.setback_mm)} - {number_text(first.allowance_mm)}", first.deduction_mm,
             "mm"),
    ]  # fmt: skip
    least, least_step = _least_radius(given, t)
    to_bend = 2.5 * t + first.radius_mm
    steps += [
        least_step,
        Step("hole to bend", "2.5 t + r", f"2.5 x {t_text} + {r_text}", to_bend, "mm",
             "hole's edge to the inside of the other leg; common practice"),
    ]  # fmt: skip
    results = named(
        allowance=first.allowance_mm, deduction=first.deduction_mm, setback=first.setback_mm,
        k_factor=k.value, least_radius=least, hole_to_bend=to_bend, by_other_rules=_other_rules(given, first),
    )  # fmt: skip
    if len(legs) > 1:
        blank = flat_blank(legs, bends)
        steps.append(_flat_step(legs, bends, blank))
        # The length to cut is what is wanted first.
        results = named(flat_length=blank.length_mm, bend_lines=_bend_lines(blank)) | results
    return Result(results, tuple(steps), tuple(_warnings(given, bends, least, t)))


def _flat_step(legs: list[float], bends: list[Bend], blank: Blank) -> Step:
    numbers = " + ".join(number_text(leg) for leg in legs)
    numbers += "".join(f" - {number_text(bend.deduction_mm)}" for bend in bends)
    return Step("flat length", "sum of legs - deductions", numbers, blank.length_mm, "mm")


def _bend_lines(blank: Blank) -> Value:
    value = [{"begins": round(a, 9), "middle": (a + b) / 2, "ends": b} for a, b in blank.bends_mm]
    lines = "\n".join(
        f"{i}: {one['begins']:.2f} to {one['ends']:.2f}, middle {one['middle']:.2f} mm"
        for i, one in enumerate(value, 1)
    )
    return Value(value, "mm", lines)


def _other_rules(given: Given, bend: Bend) -> Value:
    """The allowance by each of the usual rules, since they differ."""
    t, r, a = given.mm("thickness"), bend.radius_mm, bend.angle_deg
    rules = [(f"{row['temper']} ({row['metals']})", k_of_temper(row["temper"])[0])
             for row in load("bend_constants").rows]  # fmt: skip
    if r >= 0.1 * t:
        rules.append((_DIN, k_of_ratio(r, t)))
    rules.append(("middle of the sheet, for large radii", 0.5))
    value: list[Plain] = [
        {"rule": name, "k_factor": k, "allowance": allowance(t, r, a, k)} for name, k in rules
    ]
    lines = "\n".join(f"{allowance(t, r, a, k):.3f} mm, k {k:.3f}: {name}" for name, k in rules)
    return Value(value, "mm", lines)


def _least_radius(given: Given, t: float) -> tuple[float, Step]:
    material, along = given.text_or_none("material"), given.text("rolling") == "along"
    if material is None:
        row, factor, source = None, 2.0 if along else 1.0, "common practice, where the metal is not named"
    else:
        row = _metal(material)
        factor, source = row.number("along" if along else "across"), f"{row['metal']}: {row.source.says}"
    numbers = f"{number_text(factor)} x {number_text(t)}"
    return factor * t, Step("least radius", "factor t", numbers, factor * t, "mm", source)


def _metal(text: str) -> Row:
    for row in load("bend_radii").rows:
        if text == row["metal"]:
            return row
    raise AssertionError(text)


def _warnings(given: Given, bends: list[Bend], least: float, t: float) -> list[str]:
    found = []
    tight = min(bend.radius_mm for bend in bends)
    if tight < least - 1e-9:
        ways = ["soften the metal first", "take a larger radius"]
        if given.text("rolling") == "along":
            ways.append("turn the blank so that the bend runs across the rolling")
        found.append(
            f"An inside radius of {number_text(tight, 4)} mm may crack: {number_text(least, 4)} mm or "
            "more is "
            f"usual; {', '.join(ways[:-1])} or {ways[-1]}."
        )
    hole = given.mm_or_none("hole_distance")
    needed = 2.5 * t + bends[0].radius_mm
    if hole is not None and hole < needed:
        pulled = "will be pulled out of round" if hole < needed - t else "may be pulled out of round"
        found.append(
            f"A hole {number_text(hole, 4)} mm from the bend {pulled}: {number_text(needed, 4)} mm or "
            "more is "
            "usual. Drill it after bending, or move it."
        )
    if (
        any(bend.angle_deg > 90 for bend in bends)
        and given.text("measured_to") == "corner"
        and given.rows("legs")
    ):
        found.append(
            "Over 90 degrees the outside corner lies in the air beyond the bend; where the legs were "
            "measured "
            "over the metal, write tangent for measured_to."
        )
    return found


_METALS = tuple(row["metal"] for row in load("bend_radii").rows)
_SYNONYMS = tuple(
    ("-".join(also.strip().lower().split()), row["metal"])
    for row in load("bend_radii").rows
    for also in row["also"].split(";")
    if also.strip()
) + tuple(("-".join(metal.split()), metal) for metal in _METALS if " " in metal)


def _length(name: str, says: str, **more: object) -> Input:
    return Input(name=name, help=says, kind="length", unit="mm", **more)  # type: ignore[arg-type]


_ANGLE = Input(name="angle", help="through which the sheet is bent from flat", kind="quantity", unit="deg",
               default="90", above=0, maximum=180)  # fmt: skip

BEND_ALLOWANCE = Calculator(
    name="bend-allowance",
    summary="The material in a bend of sheet or bar, the flat blank to cut, and how tight the bend may be.",
    purpose="Machine and finish",
    inputs=(
        _length("thickness", "the thickness of the sheet", above=0, maximum=100, example="1.2 mm"),
        _length("radius", "the inside radius of the bend", minimum=0, maximum=5000, example="1.5 mm"),
        _ANGLE,
        Input(name="k_factor", help="where the sheet neither stretches nor shortens, as a share of its "
              "thickness "
              "from the inside; without it the usual one for radius and thickness", kind="number",
              optional=True, above=0, maximum=1),
        Input(name="temper", help="how hard the metal is, in place of the k factor", kind="choice",
              choices=("soft", "half-hard", "hard"), optional=True),
        Input(name="legs", help="the outside length of each leg, a row a leg; after it the angle and "
              "radius of "
              "the bend that follows, where they differ", kind="rows", optional=True, minimum=2, maximum=20,
              example="20; 30; 20",
              members=(
                  _length("length", "the outside length", above=0, maximum=20000),
                  Input(name="angle", help="of the bend that follows", kind="quantity", unit="deg",
                        optional=True, above=0, maximum=180),
                  _length("radius", "inside radius of the bend that follows", optional=True, minimum=0,
                          maximum=5000),
                  Input(name="way", help="which way the bend that follows goes", kind="choice",
                        choices=("up", "down"), default="up"),
              )),
        Input(name="measured_to", help="whether the legs reach to the corner where the outside faces "
              "would meet, "
              "or, over 90 degrees, only as far as the metal", kind="choice", choices=("corner", "tangent"),
              default="corner"),
        Input(name="material", help="the metal, for the least radius", kind="choice", choices=_METALS,
              synonyms=_SYNONYMS, optional=True),
        Input(name="rolling", help="whether the bend's line runs across the direction of rolling or along it",
              kind="choice", choices=("across", "along"), default="across"),
        _length("hole_distance", "from the edge of the nearest hole to the inside of the other leg",
                optional=True, minimum=0, maximum=20000),
    ),
    outputs=("allowance", "deduction", "setback", "k_factor", "flat_length", "bend_lines", "least_radius",
             "hole_to_bend", "by_other_rules"),
    work=_bend,
    sources=(
        "allowance: angle x (r + k t), geometry; Machinery's Handbook, bending sheet metal",
        f"k by radius and thickness: {_DIN}",
        "setback and flats: FAA-H-8083-31, chapter 4",
    ),
    cautions=(
        "Folding machines and press brakes crush: keep hands clear of the beam, deburr edges first, and "
        "bend a "
        "trial strip of the same sheet, since tools and sheets differ.",
    ),
    draw=draw_bends,
    either=(("k_factor", "temper"),),
    example={"thickness": "1.219 mm", "radius": "1.5 mm", "temper": "hard", "legs": "20; 20"},
)  # fmt: skip
