"""The inputs of the calculator of frames under strings."""

from __future__ import annotations

from calculators.calculation import Input
from calculators.declared.section_inputs import MATERIAL_INPUTS, SECTION_INPUTS

FRAME_INPUTS = (
    Input(
        name="strings",
        help="the strings, a row for those alike",
        kind="rows",
        minimum=1,
        members=(
            Input(name="count", help="how many", kind="integer", minimum=1, maximum=1000),
            Input(
                name="tension",
                help="tension of each",
                kind="quantity",
                unit="N",
                above=0,
                maximum=10000,
            ),
        ),
        example="12, 52 N; 10, 60 N",
    ),
    Input(
        name="length",
        help="length of the frame between the ends of the strings",
        kind="length",
        unit="mm",
        minimum=20,
        maximum=10000,
    ),
    Input(
        name="offset",
        help="distance of the strings from the neutral axis of the frame",
        kind="length",
        unit="mm",
        above=0,
        maximum=1000,
    ),
    Input(
        name="rails",
        help="how many rails of that section share the pull",
        kind="integer",
        minimum=1,
        maximum=20,
        default="1",
    ),
    *SECTION_INPUTS,
    *MATERIAL_INPUTS,
    Input(
        name="creep",
        help="bow after years over that at once; without it 2 for wood, 1 for the rest",
        kind="number",
        minimum=1,
        maximum=10,
        optional=True,
    ),
    Input(
        name="limit",
        help="the most that it may bow after years is the length over this",
        kind="number",
        minimum=10,
        maximum=10000,
        default="300",
    ),
    Input(
        name="down_angle",
        help="by how much the strings change direction where they press on the board",
        kind="quantity",
        unit="deg",
        above=0,
        maximum=90,
        optional=True,
    ),
    Input(
        name="board_span",
        help="the board between the edges that it rests on",
        kind="length",
        unit="mm",
        minimum=1,
        maximum=10000,
        optional=True,
    ),
    Input(
        name="board_width",
        help="width of the board that bears the pressure",
        kind="length",
        unit="mm",
        minimum=1,
        maximum=10000,
        optional=True,
    ),
    Input(
        name="board_thickness",
        help="thickness of the board",
        kind="length",
        unit="mm",
        minimum=0.1,
        maximum=500,
        optional=True,
    ),
    Input(
        name="board_material",
        help="what the board is of, if not of the same",
        kind="text",
        optional=True,
    ),
)
