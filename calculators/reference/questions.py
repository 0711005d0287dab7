"""What people ask that the names and summaries of the calculators do not say."""

from __future__ import annotations

from collections.abc import Mapping

NOISE = frozenset(
    ("a", "an", "and", "are", "at", "be", "by", "can", "do", "does", "for", "how", "i", "in", "is", "it",
     "many", "much", "my", "of", "on", "or", "should", "that", "the", "this", "to", "what",
     "which", "will", "with")
)  # fmt: skip
"""Words of a question that say nothing of its subject."""

FURTHER_WORDS: Mapping[str, str] = {
    "convert": "inch inches metric imperial millimetres units",
    "thread": "bolt screw tap",
    "tapping-drill": "tap drill size hole",
    "identify-thread": "what screw is this what thread is this unknown bolt nut find pitch gauge caliper",
    "compare-threads": "fits fit wrong nut bolt match",
    "drill": "number letter bit",
    "gauge": "sheet wire metal thickness",
    "wood-screw": "pilot hole woodscrew countersink",
    "joint": "screw length bolt fastener pieces",
    "circle-of-holes": "pitch circle bolt circle flange pcd",
    "row-of-holes": "spacing equal even",
    "divide-length": "spacing spindles slats balusters equal even",
    "rebate": "recess groove housing dado inlay let in router hinge pocket",
    "arc": "radius curve circle bow",
    "taper": "lathe cone wedge",
    "compound-angle": "mitre bevel box sides saw",
    "splayed-leg": "stool chair table leg",
    "square-check": "frame diagonals carcase cabinet",
    "right-triangle": "pythagoras slope brace diagonal",
    "bend-allowance": "sheet metal fold bending brake",
    "fit": "tolerance limits clearance shaft hole press sliding",
    "bush-fit": "bearing press interference bushing",
    "cutting-speed": "rpm spindle revolutions feed milling turning drilling router lathe",
    "timber": "lumber wood board feet volume cubic plank",
    "mass-and-balance": "weight weigh centre of gravity",
    "piece-cost": "price quote money charge",
    "finish": "paint varnish oil lacquer coats",
    "glue": "adhesive clamp spread",
    "temperature-growth": "expansion heat thermal",
    "moisture": "humidity dry wet timber wood",
    "wood-movement": "shrink swell expand seasonal timber panel",
    "wood-screw-strength": "strong hold pull out withdrawal load nail",
    "tightening-torque": "tight tighten bolt spanner wrench",
    "thread-strip": "strong strength bolt nut pull out",
    "screw-twist-off": "snap break shear brass driver strong",
    "grub-screw-hold": "set screw allen socket collar pulley",
    "washer-bearing": "crush wood bolt",
    "beam": "bend sag joist rail strong strength deflection",
    "shelf-sag": "shelves bookcase bend books span",
    "strut": "column post leg buckle strong",
    "string-tension": "wire music pitch",
}
"""More words by which a calculator is asked for, by its name. Source: common practice."""

OTHER_SENSE: Mapping[str, frozenset[str]] = {"bush-fit": frozenset(["housing"])}
"""Words that mean another thing in a calculator than in the list of the trade's words."""
