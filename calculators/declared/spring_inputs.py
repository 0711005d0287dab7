"""The inputs and results of the spring calculator."""

from __future__ import annotations

from calculators.calculation import Input
from calculators.mechanics.springs.buckling import SEATINGS
from calculators.mechanics.springs.coils import ENDS, HOOKS
from calculators.mechanics.springs.rates import LEAST_WIRE_MM, MOST_COILS, MOST_DIAMETER_MM, MOST_WIRE_MM
from calculators.mechanics.springs.stresses import SHEAR_FACTORS
from calculators.mechanics.springs.wires import CYCLES, wire_names, wire_synonyms

LONGEST_MM = 10_000.0
"""No spring is longer."""


def length(name: str, about: str, *, most: float = LONGEST_MM, example: str = "") -> Input:
    """An optional length over nought.

    Args:
        name: the input's name.
        about: what it is.
        most: [mm] the most that is accepted, above 0.
        example: how it is written.

    Returns:
        The declaration.

    Source: this project.
    """
    return Input(
        name=name, help=about, kind="length", unit="mm", optional=True, above=0, maximum=most, example=example
    )


WIRE = Input(
    name="wire",
    help="diameter of the wire",
    kind="length",
    unit="mm",
    minimum=LEAST_WIRE_MM,
    maximum=MOST_WIRE_MM,
    example="1.2 mm or 18 SWG",
)
MATERIAL = Input(
    name="material",
    help="wire's material, which gives its moduli and its strength by diameter",
    kind="choice",
    choices=wire_names(),
    synonyms=wire_synonyms(),
    optional=True,
)
SHEAR_MODULUS = Input(
    name="shear_modulus",
    help="shear modulus of the wire, where the material's own is not wanted",
    kind="quantity",
    unit="GPa",
    optional=True,
    minimum=0.1,
    maximum=500,
)
CYCLES_INPUT = Input(
    name="cycles",
    help="how often the load comes from nought; up to 10 000 times counts as static",
    kind="choice",
    choices=tuple(CYCLES),
    default="static",
)
FACTOR = Input(
    name="factor",
    help="factor by which the stress is corrected for the wire's curvature",
    kind="choice",
    choices=tuple(SHEAR_FACTORS),
    synonyms=(("bergsträsser", "bergstrasser"),),
    default="wahl",
)

INPUTS: tuple[Input, ...] = (
    Input(
        name="kind",
        help="whether it is pressed (compression), pulled (extension) or wound up (torsion)",
        kind="choice",
        choices=("compression", "extension", "torsion"),
        synonyms=(("tension", "extension"), ("pressed", "compression"), ("pulled", "extension")),
        default="compression",
    ),
    WIRE,
    length("mean_diameter", "mean diameter of the coil", most=MOST_DIAMETER_MM),
    length("outside_diameter", "outside diameter of the coil, instead of the mean", most=MOST_DIAMETER_MM),
    length("inside_diameter", "inside diameter of the coil, instead of the mean", most=MOST_DIAMETER_MM),
    Input(
        name="active_coils",
        help="coils that spring: without closed ends, with the hooks' or legs' share",
        kind="number",
        optional=True,
        above=0,
        maximum=MOST_COILS,
    ),
    Input(
        name="total_coils",
        help="coils as counted, instead of the active ones; of the body without hooks or legs",
        kind="number",
        optional=True,
        above=0,
        maximum=MOST_COILS,
    ),
    MATERIAL,
    SHEAR_MODULUS,
    Input(
        name="modulus",
        help="modulus of elasticity of the wire (torsion, buckling, hooks), where not the material's own",
        kind="quantity",
        unit="GPa",
        optional=True,
        minimum=0.1,
        maximum=1000,
    ),
    length("free_length", "length without load; of an extension spring inside the hooks", example="40 mm"),
    length("working_length", "length at which it works", example="25 mm"),
    Input(
        name="ends",
        help=(
            "form of the ends; left out it is closed-and-ground, centre-hook or straight-legs after the kind"
        ),
        kind="choice",
        choices=(*ENDS, *HOOKS, "straight-legs"),
        synonyms=(("ground", "closed-and-ground"), ("plain", "open"), ("squared", "closed"),
                  ("squared-and-ground", "closed-and-ground"), ("plain-and-ground", "open-and-ground"),
                  ("hooks", "centre-hook"), ("full-loop", "centre-hook"), ("legs", "straight-legs")),
        optional=True,
    ),
    Input(
        name="initial_tension",
        help="extension: pull at which the coils begin to open",
        kind="quantity",
        unit="N",
        optional=True,
        minimum=0,
        maximum=1e6,
    ),
    length("travel", "how far it moves to and fro about its working length, each way"),
    length("hook_radius", "extension: mean radius of the hook, where it is not the coil's"),
    length("hook_bend_radius", "extension: mean radius of the bend to the hook; left out, twice the wire"),
    Input(
        name="working_angle",
        help="torsion: angle by which it is wound up",
        kind="quantity",
        unit="deg",
        optional=True,
        minimum=0,
        maximum=36000,
        example="90 deg",
    ),
    length("arm", "torsion: distance from the axis to where the load bears"),
    length("legs", "torsion: length of both legs together, from the coil to where they bear"),
    length("mandrel", "torsion: diameter of the rod within the coil"),
    Input(
        name="seating",
        help="compression: how the ends are held, for buckling",
        kind="choice",
        choices=tuple(SEATINGS),
        default="both-flat",
    ),
    Input(name="guided", help="whether a rod or bore keeps it straight", kind="flag", default="no"),
    CYCLES_INPUT,
    FACTOR,
    Input(
        name="tensile_strength",
        help="least tensile strength of the wire, where the table's is not wanted",
        kind="quantity",
        unit="MPa",
        optional=True,
        minimum=10,
        maximum=5000,
    ),
    Input(
        name="allowed_share",
        help="share of the tensile strength that the coils may bear, where the table's is not wanted",
        kind="quantity",
        unit="%",
        optional=True,
        minimum=1,
        maximum=100,
    ),
    length("wire_tolerance", "how far the wire may be off; left out, 1 % of it"),
    length("diameter_tolerance", "how far the mean diameter may be off; left out, 2 % of it"),
    Input(
        name="coils_tolerance",
        help="how many coils there may be too many or too few",
        kind="number",
        default="0.25",
        minimum=0,
        maximum=10,
    ),
)  # fmt: skip

OUTPUTS: tuple[str, ...] = (
    "rate",
    "load",
    "winding_moment",
    "stress",
    "stress_limit",
    "stress_share",
    "solid_length",
    "buckles",
    "working_travel",
    "travel_left",
    "travel_left_percent",
    "longest_length",
    "turns",
    "longest_angle",
    "spring_index",
    "mean_diameter",
    "outside_diameter",
    "inside_diameter",
    "active_coils",
    "total_coils",
    "free_length",
    "coil_pitch",
    "lift_angle",
    "initial_tension",
    "initial_stress",
    "initial_tension_usual",
    "hook_bending_stress",
    "hook_bending_share",
    "hook_torsion_stress",
    "hook_torsion_share",
    "inside_diameter_wound",
    "mandrel_clearance",
    "wound_length",
    "solid_load",
    "solid_stress",
    "outside_diameter_solid",
    "slenderness",
    "slenderness_limit",
    "critical_travel",
    "stress_factor",
    "stress_factor_name",
    "tensile_strength",
    "natural_frequency",
    "wire_length",
    "mass",
    "sensitivity",
)
