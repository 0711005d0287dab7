"""Wood-screw-strength: what a screw or nail in wood holds, along itself and sideways."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.calculation import Calculator, Given, Input, Picture, Result, Value, named
from calculators.declared.wood_screw_steps import basis_words, steps_of
from calculators.drawing.strength import held_screw_pictures
from calculators.hardware.wood_screws import ROOT_OF_SHANK, SERIES, wood_screw
from calculators.materials import Material, find_material
from calculators.mechanics.held_screw import HeldScrew, check_held, held_loads, warnings_of
from calculators.mechanics.screw_surroundings import distance_row, pilot_mm
from calculators.mechanics.screws_in_wood import (
    GRAVITY_BASES,
    KINDS,
    full_depth_d,
    gravity_on_12,
)
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted
from calculators.tables import load

COACH_ROOT = 0.7
"""Root of a coach screw of its shank, where no table lists the size (DIN 571's proportion)."""
_COACH = ("DIN 571", "ASME B18.2.1 lag screw")
_METALS = ("steel", "hardened steel", "stainless", "brass")


@dataclass(frozen=True, slots=True)
class _Sizes:
    shank: float
    root: float
    head: float | None
    hole: float


def _screw_sizes(given: Given) -> _Sizes:
    gauge, diameter, kind = given.text_or_none("gauge"), given.mm_or_none("diameter"), given.text("kind")
    if (gauge is None) == (diameter is None):
        says = (
            "Give the gauge or the diameter, not both."
            if gauge
            else "Give the screw's gauge or its diameter."
        )
        raise InputError.of(says, field="gauge")
    if diameter is not None:
        share = COACH_ROOT if kind == "coach screw" else 1.0 if kind == "nail" else ROOT_OF_SHANK
        return _Sizes(diameter, share * diameter, None, diameter)
    assert gauge is not None
    if kind == "nail":
        raise InputError.of("A nail is named by its diameter here; give the diameter.", field="gauge")
    if kind == "coach screw":
        return _coach_sizes(gauge)
    screw = wood_screw(gauge, given.text("standard"))
    return _Sizes(screw.shank_mm, screw.root_mm, screw.head_diameter_mm, screw.clearance_hole_mm)


def _coach_sizes(gauge: str) -> _Sizes:
    text = gauge.strip().removeprefix("M").removesuffix("mm").removesuffix("in").strip(' "')
    for standard in _COACH:
        row = load("wood_screws").find(standard, text)
        if row is not None:
            top, slash, bottom = text.partition("/")
            shank = float(top) / float(bottom) * 25.4 if slash else float(text)
            return _Sizes(shank, row.number("root"), row.number("across_flats"), shank)
    sizes = [row["size"] for standard in _COACH for row in load("wood_screws").where("standard", standard)]
    says = f"No coach screw {quoted(gauge)} is listed; there are {', '.join(sizes)}; else give its diameter."
    raise InputError.of(says, field="gauge", choices=tuple(sizes))


def _wood(text: str | None, field: str) -> Material | None:
    if text is None:
        return None
    wood = find_material(text, field=field)
    if not wood.is_solid_wood:
        says = (
            f"{wood.name} is not solid wood; the rules are of solid wood, such as white oak or Sitka spruce."
        )
        raise InputError.of(says, field=field)
    return wood


def _gravity(given: Given, wood: Material | None) -> tuple[float, str]:
    """Specific gravity on the volume at 12 %, and words for where it is from."""
    own = given.number_or_none("specific_gravity")
    if own is not None:
        basis = given.text("gravity_basis")
        return gravity_on_12(own, basis), basis_words(own, basis)
    if wood is None:
        says = "Give the species, such as white oak, or its specific gravity."
        raise InputError.of(says, field="species")
    if wood.specific_gravity is None:
        says = f"No specific gravity is known for {wood.name}; give it, or a species such as white oak."
        raise InputError.of(says, field="specific_gravity")
    return wood.specific_gravity, f"{wood.name}: {wood.sources[0]}; ovendry mass, volume at 12 %"


def _held(given: Given) -> tuple[HeldScrew, str]:
    sizes, wood = _screw_sizes(given), _wood(given.text_or_none("species"), "species")
    gravity, words = _gravity(given, wood)
    side_text = given.text_or_none("side_species")
    side = _wood(side_text, "side_species") if side_text else wood
    kind = given.text("kind")
    metal = (
        "coach screw steel"
        if kind == "coach screw" and given.text("metal") == "steel"
        else given.text("metal")
    )
    head = given.mm_or_none("head") or sizes.head
    thickness = given.mm_or_none("side_thickness")
    screw = HeldScrew(
        kind=kind, shank_mm=sizes.shank, root_mm=sizes.root, penetration_mm=given.mm("penetration"),
        gravity=gravity, group=wood.kind if wood else "", grain=given.text("grain"),
        across=given.flag("across_grain"), pilot_mm=given.mm_or_none("pilot"),
        end_mm=given.mm_or_none("end_distance"), edge_mm=given.mm_or_none("edge_distance"), side_mm=thickness,
        side_gravity=side.specific_gravity if side_text and side else gravity,
        side_strength_mpa=side.compression_perpendicular_mpa if side else None,
        head_mm=head if thickness is not None or given.mm_or_none("head") else None, hole_mm=sizes.hole,
        metal=metal, factor=given.number("factor"),
    )  # fmt: skip
    check_held(screw, given.mm_or_none("length"))
    return screw, words


def _work(given: Given) -> Result:
    screw, words = _held(given)
    loads = held_loads(screw)
    row = distance_row(screw.pilot_mm != 0)
    results = named(
        working_load=loads.working_n,
        governs=loads.governs,
        withdrawal=loads.withdrawal_n,
        lateral=Value(loads.lateral_n, "N"),
        lateral_allowable=Value(loads.lateral_allowable_n, "N"),
        screw_tension=loads.tension_n,
        specific_gravity=screw.gravity,
        pilot_recommended=pilot_mm(screw.kind, screw.gravity, screw.hardwood, screw.shank_mm, screw.root_mm),
        depth_for_full_lateral=full_depth_d(screw.kind, screw.gravity) * screw.shank_mm,
        end_distance_needed=row.number("end") * screw.shank_mm,
        end_distance_loaded=row.number("end_loaded") * screw.shank_mm,
        edge_distance_needed=row.number("edge") * screw.shank_mm,
    )
    for name, value in (
        ("allowable_load", loads.allowable_n),
        ("head_pull_through", loads.pull_through_n),
        ("head_crushing", loads.crushing_n),
    ):
        if value is not None:
            results |= named(**{name: value})
    sources = (f"specific gravity: {words}", *WOOD_SCREW_STRENGTH.sources)
    return Result(results, steps_of(screw, loads), tuple(warnings_of(screw, loads)), sources)


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    screw, _ = _held(given)
    return held_screw_pictures(screw, held_loads(screw))


def _length(name: str, text: str, most: float, example: str = "", *, least: float | None = None) -> Input:
    return Input(
        name=name, help=text, kind="length", unit="mm", optional=True, maximum=most, example=example,
        above=None if least is not None else 0, minimum=least,
    )  # fmt: skip


WOOD_SCREW_STRENGTH = Calculator(
    name="wood-screw-strength",
    summary="What a screw or nail holds in wood, along itself and sideways, and what it needs about it.",
    purpose="Strength and stiffness",
    inputs=(
        Input(
            name="gauge",
            help="the screw's number, its diameter in the metric series, or a coach screw's size",
            kind="text",
            optional=True,
            example="No. 8; metric: 4; coach screw: 10 or 3/8",
        ),
        _length("diameter", "or its shank diameter", 30, "4.2 mm"),
        Input(
            name="penetration",
            help="the length of thread (of a nail, of shank) in the piece that holds",
            kind="length",
            unit="mm",
            above=0,
            maximum=500,
            example="25 mm",
        ),
        Input(name="species", help="the wood that holds", kind="text", optional=True, example="white oak"),
        Input(
            name="specific_gravity",
            help="or its specific gravity; with both, this counts",
            kind="number",
            optional=True,
            minimum=0.1,
            maximum=1.3,
            example="0.68",
        ),
        Input(
            name="gravity_basis",
            help="the volume that the specific gravity is on, of the ovendry mass",
            kind="choice",
            choices=GRAVITY_BASES,
            default="12 %",
        ),
        Input(
            name="kind",
            help="what it is",
            kind="choice",
            choices=KINDS,
            synonyms=(
                ("wood-screw", "wood screw"),
                ("coach-screw", "coach screw"),
                ("lag-screw", "coach screw"),
                ("lag", "coach screw"),
                ("coach", "coach screw"),
                ("screw", "wood screw"),
            ),
            default="wood screw",
        ),
        Input(
            name="standard",
            help="which series the gauge is of",
            kind="choice",
            choices=SERIES,
            default="inch-us",
        ),
        Input(
            name="grain",
            help="whether it goes into side grain or end grain",
            kind="choice",
            choices=("side", "end"),
            default="side",
        ),
        Input(
            name="metal",
            help="the screw's metal",
            kind="choice",
            choices=_METALS,
            synonyms=(("hardened-steel", "hardened steel"), ("stainless-steel", "stainless")),
            default="steel",
        ),
        _length("pilot", "the pilot hole that was drilled, 0 for none; left out, the right one", 30, least=0),
        _length("end_distance", "from the screw to the end of the piece", 10_000),
        _length("edge_distance", "from the screw to the nearest edge", 10_000),
        _length("side_thickness", "the thickness of the piece under the head", 500, "18 mm"),
        Input(
            name="side_species",
            help="its wood, where it is another",
            kind="text",
            optional=True,
            example="Sitka spruce",
        ),
        _length("head", "the diameter of the head, or of a washer under it; left out, the standard's", 200),
        _length("length", "the screw's whole length", 1000),
        Input(
            name="across_grain",
            help="whether a coach screw pushes across the grain",
            kind="flag",
            optional=True,
        ),
        Input(
            name="factor",
            help="the factor of safety on the hold in the wood",
            kind="number",
            default="5",
            minimum=1,
            maximum=20,
        ),
    ),
    outputs=(
        "withdrawal",
        "working_load",
        "governs",
        "allowable_load",
        "lateral",
        "lateral_allowable",
        "screw_tension",
        "head_pull_through",
        "head_crushing",
        "specific_gravity",
        "pilot_recommended",
        "depth_for_full_lateral",
        "end_distance_needed",
        "end_distance_loaded",
        "edge_distance_needed",
    ),
    either=(("gauge", "diameter"), ("species", "specific_gravity")),
    work=_work,
    draw=_draw,
    sources=(
        "withdrawal: USDA Wood Handbook ch. 8, means of tests in sound dry wood",
        "sideways: USDA Wood Handbook Table 8-4 (from memory), at the proportional limit; allowable 3/4",
        "allowable 2,850 G2 D and end grain 2/3: timber engineering formulas, eq. 6.37 and p. 171",
        "head drawn through: NDS 2018, 12.2.5 (from memory)",
        "distances: EN 1995-1-1 Table 8.2 (from memory)",
        "pilot: Wood Handbook and NDS lead holes; charts disagree",
    ),
    cautions=(
        "An estimate for the workshop, not for lifting, people or buildings: local codes and "
        "licensed practice "
        "come first.",
        "Wood varies from board to board; knots, splits, damp and shaking loads hold much less.",
    ),
    example={
        "gauge": "No. 8",
        "penetration": "25 mm",
        "species": "white oak",
        "side_thickness": "18 mm",
    },
)
