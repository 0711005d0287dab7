"""The inputs of the beam calculator."""

from __future__ import annotations

from calculators.calculation import Input
from calculators.declared.section_inputs import MATERIAL_INPUTS, SECTION_INPUTS, TYPED_INPUTS
from calculators.mechanics.beams.cases import KINDS, SUPPORTS

LONGEST_MM = 20_000.0
LARGEST_N = 1e6

LOAD_MEMBERS = (
    Input(
        name="load", help="the force, downward; less than nought upward", kind="quantity", unit="N",
        minimum=-LARGEST_N, maximum=LARGEST_N, default="0",
    ),
    Input(
        name="at", help="where it is, from the left end", kind="length", unit="mm", minimum=0,
        maximum=LONGEST_MM,
    ),
    Input(
        name="to", help="for a load spread evenly: where it ends", kind="length", unit="mm", minimum=0,
        maximum=LONGEST_MM, optional=True,
    ),
    Input(
        name="moment", help="a moment at the place, clockwise", kind="quantity", unit="N m",
        minimum=-LARGEST_N, maximum=LARGEST_N, default="0",
    ),
)  # fmt: skip

BEAM_INPUTS = (
    Input(
        name="support",
        help="how it is held; a cantilever and a propped beam are held at the left end",
        kind="choice",
        choices=SUPPORTS,
        synonyms=(
            ("simple", "simply-supported"),
            ("simply-supported-beam", "simply-supported"),
            ("supported", "simply-supported"),
            ("pinned", "simply-supported"),
            ("fixed", "fixed-ends"),
            ("both-fixed", "fixed-ends"),
            ("built-in", "fixed-ends"),
            ("encastre", "fixed-ends"),
            ("fixed-and-propped", "propped"),
            ("propped-cantilever", "propped"),
            ("overhang", "overhanging"),
        ),
        default="simply-supported",
    ),
    Input(
        name="load",
        help="the load; of a spread load the whole of it, of two equal loads each",
        kind="quantity",
        unit="N",
        above=0,
        maximum=LARGEST_N,
        optional=True,
        example="100 N or 20 kgf",
    ),
    Input(
        name="load_kind",
        help=(
            "where the load is: at the centre, at the free end, spread over the whole length, at a place, "
            "two equal loads as far from either end, a moment, or several in rows; without it the centre, "
            "of a cantilever the end"
        ),
        kind="choice",
        choices=KINDS,
        synonyms=(
            ("center", "centre"),
            ("middle", "centre"),
            ("uniform", "spread"),
            ("tip", "end"),
            ("place", "at"),
            ("two-equal-loads", "two"),
        ),
        optional=True,
    ),
    Input(
        name="span",
        help="distance between the supports, of a cantilever its length",
        kind="length",
        unit="mm",
        above=0,
        maximum=LONGEST_MM,
        example="600 mm",
    ),
    Input(
        name="at",
        help="place of the load or moment from the left end; of two equal loads from either end",
        kind="length",
        unit="mm",
        minimum=0,
        maximum=LONGEST_MM,
        optional=True,
    ),
    Input(
        name="overhang",
        help="of an overhanging beam: its length beyond the right support",
        kind="length",
        unit="mm",
        above=0,
        maximum=LONGEST_MM,
        optional=True,
    ),
    Input(
        name="moment",
        help="with load kind moment: the moment, clockwise",
        kind="quantity",
        unit="N m",
        above=0,
        maximum=LARGEST_N,
        optional=True,
    ),
    Input(
        name="loads",
        help="several loads, a row each",
        kind="rows",
        members=LOAD_MEMBERS,
        optional=True,
        example="100 N, 200 mm; 50 N, 300 mm, 500 mm",
    ),
    *SECTION_INPUTS,
    *TYPED_INPUTS,
    *MATERIAL_INPUTS,
    Input(
        name="factor",
        help="strength over the stress allowed; without it 4 for wood and plastic, 1.67 for metal",
        kind="number",
        minimum=1,
        maximum=100,
        optional=True,
    ),
    Input(
        name="limit",
        help="the most that it may bend in the long run is the span over this",
        kind="number",
        minimum=10,
        maximum=10000,
        default="300",
    ),
    Input(
        name="creep",
        help="deflection after years over that at once; without it 2 for wood, 1 for the rest",
        kind="number",
        minimum=1,
        maximum=10,
        optional=True,
    ),
    Input(
        name="with_self_weight",
        help="whether the beam's own weight counts as load",
        kind="flag",
        default="no",
    ),
)
