"""What can be said of a joint in JSON: every key declared once, for the reader, the help and the limits.

Lengths are bounded in millimetres, whatever the unit that the joint is written in.
"""

from __future__ import annotations

from functools import partial
from typing import get_args

from calculators.calculation import Input
from calculators.hardware.holes import LEAST_PERCENT, MOST_PERCENT
from calculators.joints.limits import LIMITS, Limit
from calculators.joints.model import Fit, HoleKind, Seat, Takes

_size = partial(Input, kind="length", unit="mm", above=0, maximum=10_000, optional=True)
_distance = partial(Input, kind="length", unit="mm", minimum=0, maximum=10_000, optional=True)
_angle = partial(Input, kind="quantity", unit="deg", optional=True)
_word = partial(Input, kind="choice", optional=True)
_text = partial(Input, kind="text", optional=True)
_flag = partial(Input, kind="flag", default="no")

HOLE_INPUTS = (
    _word(name="kind", choices=get_args(HoleKind), help="the kind of hole"),
    _size(name="diameter", help="its diameter"),
    _size(name="depth", help="depth of a blind hole, to the drill's shoulder"),
    _size(name="slot_length", help="length of a slot, overall"),
    _word(name="slot_along", choices=("u", "v"), help="the axis of the face that a slot lies along"),
    _angle(name="countersink_angle", minimum=10, maximum=170, help="included angle of the countersink"),
    _size(name="countersink_diameter", help="diameter of the countersink at the surface"),
    _size(name="counterbore_diameter", help="diameter of the counterbore"),
    _size(name="counterbore_depth", help="depth of the counterbore"),
    _flag(name="pilot", default="yes", help="whether a pilot hole is drilled"),
)
"""What may be decided about a layer's hole; the rules give the rest."""

LAYER_INPUTS = (
    _text(name="part", help="the part's mark or name"),
    _text(name="material", help="its material, such as oak or mild steel"),
    _size(name="thickness", optional=False, help="its thickness along the screw", example="22 mm"),
    _word(
        name="takes",
        choices=tuple(word for word in get_args(Takes) if word),
        help="what its hole is for, where it is not as usual",
    ),
    _word(name="fit", choices=get_args(Fit), default="medium", help="the fit of a clearance hole"),
    _text(name="thread", help="the thread that it is tapped with, where it is not the screw's own"),
    _size(name="thread_depth", help="full thread in a blind hole"),
    _size(name="drilled_depth", help="depth of a blind hole"),
    _word(name="grain", choices=("side", "end"), help="how the screw lies to the grain"),
    Input(
        name="hole",
        kind="json",
        optional=True,
        members=HOLE_INPUTS,
        help="an object with what is decided about its hole",
    ),
    _distance(name="edge", help="from the axis to the nearest edge across the grain"),
    _distance(name="end", help="from the axis to the nearest end"),
    _distance(name="side", help="from the axis to the nearest edge of a metal part"),
    _distance(name="gap", help="air before this layer"),
)
"""What may be said of one layer."""

WASHER_INPUTS = (
    _text(name="washer", optional=False, help="the washer", example="M5 repair washer"),
    _word(name="under", choices=("head", "nut"), default="head", help="what it lies under"),
    _size(name="thickness", help="its thickness as measured"),
    _size(name="outside", help="its outside diameter as measured"),
    _size(name="inside", help="its inside diameter as measured"),
)
NUT_INPUTS = (
    _text(name="nut", optional=False, help="the nut", example="M5 half nut"),
    _word(name="at", choices=("end", "head"), default="end", help="the side of the layers that it is on"),
    _size(name="height", help="its height as measured"),
    _size(name="across_flats", help="its width across flats as measured"),
)
INSERT_INPUTS = (
    _text(name="insert", optional=False, help="the insert", example="M4 insert OD 8 x 10 brass"),
    _size(name="length", help="its length as measured"),
    _size(name="outside", help="its outside diameter as measured"),
    _size(name="body", help="diameter of its body as measured"),
)
HEAD_INPUTS = (
    _size(name="diameter", help="its diameter as measured"),
    _size(name="height", help="its height as measured"),
    _angle(name="angle", minimum=60, maximum=120, help="its included angle as measured"),
    _size(name="across_flats", help="its width across flats as measured"),
)


def _limit(limit: Limit) -> Input:
    """A limit as an input; ratios such as so many diameters are plain numbers."""
    known = limit.unit in ("mm", "deg", "%")
    says = limit.says if known else f"{limit.says} [{limit.unit}]"
    return Input(
        name=limit.name,
        kind="quantity" if known else "number",
        unit=limit.unit if known else "",
        minimum=0,
        default=f"{limit.value:g}",
        help=says,
    )


LIMIT_INPUTS = tuple(_limit(limit) for limit in LIMITS)

_hardware = partial(Input, kind="json", or_text=True, optional=True)

JOINT_INPUTS = (
    Input(
        name="fastener",
        kind="text",
        help="the fastener, with or without its length",
        example="No. 8 x 1 3/4 csk brass or M5 csk",
    ),
    Input(
        name="layers",
        kind="json",
        members=LAYER_INPUTS,
        or_text=True,
        help="the parts from the head side, one a line (part, material, thickness), or a list of objects",
        example='batten, oak, 22 mm or [{"part": "batten", "thickness": "22 mm"}]',
    ),
    _hardware(
        name="washers",
        members=WASHER_INPUTS,
        help="a washer or a list of them, each as text (under the head) or as an object",
        example='M5 washer or [{"washer": "M5", "under": "nut"}]',
    ),
    _hardware(
        name="nut", members=NUT_INPUTS, help="the nut, as text or as an object", example="M5 or M5 half nut"
    ),
    _hardware(name="nuts", help="a list of further nuts, each as for nut", example='["M5 half nut"]'),
    _hardware(
        name="insert",
        members=INSERT_INPUTS,
        help="the threaded insert, as text or as an object, in the layer that takes it or in the last",
        example="M4 insert OD 8 x 10 brass",
    ),
    _word(name="seat", choices=get_args(Seat), help="how the head sits, where it is not as usual"),
    Input(
        name="head",
        kind="json",
        optional=True,
        members=HEAD_INPUTS,
        help="an object with sizes of the head as measured",
    ),
    _angle(
        name="head_angle",
        minimum=60,
        maximum=120,
        help="the countersunk angle of the workshop's numbered wood screws",
    ),
    Input(
        name="torque",
        kind="quantity",
        unit="N m",
        above=0,
        maximum=10_000,
        optional=True,
        help="the tightening torque",
        example="6 N m or 50 lbf in",
    ),
    Input(
        name="nut_factor",
        kind="number",
        above=0,
        maximum=10,
        default="0.2",
        help="the nut factor, of torque to clamping force times diameter",
    ),
    _flag(name="clamps", default="yes", help="whether it pulls the layers together; a stop screw does not"),
    Input(
        name="stands",
        kind="length",
        unit="mm",
        minimum=-10_000,
        maximum=10_000,
        optional=True,
        help="how far the head end of a stud, grub or stop screw stands out of the first layer",
    ),
    _flag(name="steel_first", help="whether a steel screw is driven before the brass one"),
    _flag(name="wet", help="whether the joint lives outdoors or in the damp"),
    _flag(name="loaded_sideways", help="whether the load is across the screw"),
    _text(name="lock", help="what keeps it from working loose, such as low-strength threadlocker"),
    _hardware(
        name="drills",
        help="the drills owned, as text or a list of texts; without it any standard drill",
        example="1.0-13.0 by 0.5",
    ),
    Input(
        name="engagement",
        kind="quantity",
        unit="%",
        minimum=LEAST_PERCENT,
        maximum=MOST_PERCENT,
        optional=True,
        help="the depth of thread wanted in a tapped hole; without it the recommended drill",
    ),
    Input(
        name="limits",
        kind="json",
        optional=True,
        members=LIMIT_INPUTS,
        help="an object with limits of the rules that replace the usual ones",
        example='{"engagement-least": 1.2}',
    ),
    _word(name="unit", choices=("mm", "in"), default="mm", help="what a bare length is in"),
    _text(name="mark", help="the joint's mark, for the findings"),
)
"""What may be said of a joint."""
