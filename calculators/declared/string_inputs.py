"""The inputs of the string calculator."""

from __future__ import annotations

from calculators.calculation import Input
from calculators.mechanics.strings import wire_names, wire_synonyms

STRING_INPUTS = (
    Input(
        name="length",
        help="sounding length",
        kind="length",
        unit="mm",
        minimum=10,
        maximum=10000,
        example="650 mm",
    ),
    Input(
        name="diameter",
        help="diameter; of a wound string that of its core, which bears the tension",
        kind="length",
        unit="mm",
        minimum=0.02,
        maximum=20,
        optional=True,
        example="0.4 mm or 0.016 in",
    ),
    Input(
        name="material",
        help="what it is of, or its core",
        kind="choice",
        choices=wire_names(),
        synonyms=wire_synonyms(),
        default="steel",
    ),
    Input(
        name="tension",
        help="its tension, to find the pitch or the diameter",
        kind="quantity",
        unit="N",
        minimum=0.001,
        maximum=100000,
        optional=True,
    ),
    Input(
        name="frequency",
        help="pitch of the open string",
        kind="quantity",
        unit="Hz",
        minimum=1,
        maximum=20000,
        optional=True,
        example="220 Hz",
    ),
    Input(
        name="note",
        help="its note instead: letter, # or b, octave; C4 is the middle C",
        kind="text",
        optional=True,
        example="A3 or Bb2",
    ),
    Input(name="a4", help="pitch of A4", kind="quantity", unit="Hz", minimum=300, maximum=600, default="440"),
    Input(
        name="mass_per_length",
        help="mass for each length of it, of a wound string; without it, of a plain string, by its diameter",
        kind="quantity",
        unit="g/m",
        minimum=0.001,
        maximum=10000,
        optional=True,
        example="5.2 g/m",
    ),
    Input(
        name="stress_limit",
        help="share of the tensile strength that it may bear",
        kind="quantity",
        unit="%",
        minimum=1,
        maximum=100,
        default="70",
    ),
    Input(name="count", help="how many such strings", kind="integer", minimum=1, maximum=1000, default="1"),
    Input(
        name="cents",
        help="a change of pitch, of which the change of tension is told",
        kind="number",
        minimum=-1200,
        maximum=1200,
        default="5",
    ),
)
