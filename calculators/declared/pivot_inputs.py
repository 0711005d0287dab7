"""The inputs of a lever about a pivot: springs, loads, pivot, stops and the adjuster of a spring."""

from __future__ import annotations

from calculators.calculation import Input
from calculators.mechanics.pivot.knife_edge import MARGIN_DEG

MOST_ROWS = 12
LARGEST_MM = 3000.0
LARGEST_N = 1e5


def _place(name: str, says: str, *, default: str | None = None, optional: bool = False) -> Input:
    return Input(
        name=name,
        help=says,
        kind="length",
        unit="mm",
        minimum=-LARGEST_MM,
        maximum=LARGEST_MM,
        default=default,
        optional=optional,
    )


def _length(name: str, says: str, *, above: float | None = None, default: str | None = None) -> Input:
    return Input(
        name=name,
        help=says,
        kind="length",
        unit="mm",
        above=above,
        minimum=None if above is not None else 0,
        maximum=LARGEST_MM,
        default=default,
        optional=default is None,
    )


def _angle(
    name: str,
    says: str,
    limits: tuple[float, float] = (-180, 180),
    *,
    above: float | None = None,
    default: str | None = None,
    example: str = "",
) -> Input:
    return Input(
        name=name,
        help=says,
        kind="quantity",
        unit="deg",
        above=above,
        minimum=None if above is not None else limits[0],
        maximum=limits[1],
        default=default,
        optional=default is None,
        example=example,
    )


SPRINGS = Input(
    name="springs",
    help="the springs: where each is fixed to the lever as drawn, where it is anchored, and what it is; "
    "x to the right and y up from the pivot",
    kind="rows",
    minimum=0,
    maximum=MOST_ROWS,
    optional=True,
    example="150 mm, 0 mm, 150 mm, 37.5 mm, 0.23 N/mm, 23.5 mm",
    members=(
        _place("x", "where it is fixed on the lever as drawn, so far to the right of the pivot"),
        _place("y", "where it is fixed on the lever as drawn, so far above the pivot", default="0 mm"),
        _place("anchor_x", "where it is anchored, so far to the right of the pivot"),
        _place("anchor_y", "where it is anchored, so far above the pivot"),
        Input(
            name="rate",
            help="its rate",
            kind="quantity",
            unit="N/mm",
            above=0,
            maximum=10_000,
            example="0.23 N/mm",
        ),
        Input(
            name="free_length",
            help="its length without load, between the same points",
            kind="length",
            unit="mm",
            minimum=0,
            maximum=LARGEST_MM,
        ),
        Input(
            name="kind",
            help="an extension spring only pulls, a compression spring only pushes, a rod does both",
            kind="choice",
            choices=("extension", "compression", "both"),
            synonyms=(("pull", "extension"), ("push", "compression")),
            default="extension",
        ),
        Input(
            name="initial_tension",
            help="pull at which an extension spring begins to open",
            kind="quantity",
            unit="N",
            minimum=0,
            maximum=LARGEST_N,
            default="0 N",
        ),
        _length("solid_length", "length at which a compression spring is closed"),
        _length("longest", "length that it must not pass", above=0),
    ),
)

LOADS = Input(
    name="loads",
    help="forces and masses on the lever as drawn; give either the force or the mass of each",
    kind="rows",
    minimum=0,
    maximum=MOST_ROWS,
    optional=True,
    example="120 mm, 0 mm, mass=0.2 kg",
    members=(
        _place("x", "where it acts on the lever as drawn, so far to the right of the pivot"),
        _place("y", "where it acts on the lever as drawn, so far above the pivot", default="0 mm"),
        Input(
            name="force",
            help="the force",
            kind="quantity",
            unit="N",
            minimum=0,
            maximum=LARGEST_N,
            optional=True,
        ),
        Input(
            name="mass",
            help="a mass that hangs there",
            kind="quantity",
            unit="kg",
            minimum=0,
            maximum=10_000,
            optional=True,
        ),
        _angle("direction", "where the force points, anticlockwise from the right", default="-90 deg"),
        Input(
            name="follows",
            help="whether the force turns with the lever; no keeps its direction",
            kind="flag",
            default="no",
        ),
    ),
)

PIVOT = (
    Input(
        name="kind",
        help="what the lever turns on",
        kind="choice",
        choices=("pin", "knife-edge", "flexure"),
        synonyms=(("knife", "knife-edge"), ("edge", "knife-edge"), ("leaf", "flexure"), ("shaft", "pin")),
        default="pin",
    ),
    Input(
        name="plane",
        help="an upright lever feels weights; one that turns on a level plane only their inertia",
        kind="choice",
        choices=("upright", "level"),
        synonyms=(("vertical", "upright"), ("horizontal", "level")),
        default="upright",
    ),
    Input(
        name="lever_mass",
        help="mass of the lever itself",
        kind="quantity",
        unit="kg",
        minimum=0,
        maximum=10_000,
        optional=True,
    ),
    _place("centre_x", "centre of mass of the lever as drawn, so far right of the pivot", default="0 mm"),
    _place("centre_y", "centre of mass of the lever as drawn, so far above the pivot", default="0 mm"),
    Input(
        name="inertia",
        help="moment of inertia of the lever itself about the pivot, without the masses of the loads",
        kind="quantity",
        unit="kg m2",
        above=0,
        maximum=1e6,
        optional=True,
    ),
    _length("pin_radius", "radius of the pin", above=0),
    Input(
        name="friction",
        help="coefficient of friction of pin and hole",
        kind="number",
        minimum=0,
        maximum=2,
        optional=True,
        example="0.15",
    ),
    _angle("edge_angle", "included angle of the knife edge", (0, 179), above=0, example="60 deg"),
    _angle("v_angle", "included angle of the V that it stands in", (0, 180), above=0, example="90 deg"),
    _angle(
        "edge_lean",
        "angle of the lever at which the edge stands in the middle of the V",
        (-90, 90),
        default="0 deg",
    ),
    _angle("margin", "angle that is kept from the flank of the V", (0, 45), default=f"{MARGIN_DEG:g} deg"),
    _angle("edge_points", "where the edge points, anticlockwise from the right", default="-90 deg"),
    Input(
        name="edge_radius",
        help="radius of the edge, which rolls on the bottom of the V",
        kind="length",
        unit="mm",
        minimum=0,
        maximum=50,
        default="0 mm",
    ),
    Input(
        name="flexure_rate",
        help="rotational stiffness of the flexure",
        kind="quantity",
        unit="N m/deg",
        minimum=0,
        maximum=1e5,
        optional=True,
    ),
    _angle("flexure_rest", "angle of the lever at which the flexure is relaxed", default="0 deg"),
    _angle("flexure_limit", "angle that the flexure is bent from there at most", (0, 180), above=0),
)

STOPS = (
    _angle("stop_low", "angle of the stop on the clockwise side, 0 or less", (-180, 0), example="-6 deg"),
    _angle("stop_high", "angle of the stop on the anticlockwise side", (0, 180), example="6 deg"),
    _length("stop_radius", "from the pivot along the lever to the tips of the stops", above=0),
    _length("gap_low", "gap from the lever as drawn to the stop on the clockwise side"),
    _length("gap_high", "gap from the lever as drawn to the stop on the anticlockwise side"),
    _length("lever_width", "width of the lever at the stops", default="0 mm"),
)

ADJUSTER = (
    Input(
        name="adjust_spring",
        help="number of the spring whose anchor is moved",
        kind="integer",
        minimum=1,
        maximum=MOST_ROWS,
        default="1",
    ),
    Input(
        name="thread_pitch",
        help="how far one turn of its adjuster moves the anchor away from the lever; 1 mm where left out",
        kind="length",
        unit="mm",
        above=0,
        maximum=20,
        optional=True,
    ),
)

INPUTS = (SPRINGS, LOADS, *PIVOT, *STOPS, *ADJUSTER)
