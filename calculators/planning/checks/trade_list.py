"""What a careful maker looks at before cutting: 66 things of the trade, and the rules that look at each.

The words are our own; what stands in a rule is said by the rule. A test sees to it that every rule named here
exists, and that nothing of the list is left without a rule or the reason why it needs none.
"""

from __future__ import annotations

from dataclasses import dataclass


@dataclass(frozen=True, slots=True)
class Looked:
    """One thing to look at: its number, its heading, in words, the rules for it, or why it needs none."""

    number: int
    heading: str
    says: str
    rules: tuple[str, ...] = ()
    why_none: str = ""


_WHY_NONE = {
    50: "Every place is stored from the datum of its face, and every table and sheet gives it from there.",
}


def _under(heading: str, *rows: tuple[int, str, str]) -> tuple[Looked, ...]:
    """The rows of a heading; the names of rules are parted by spaces."""
    return tuple(
        Looked(number, heading, says, tuple(rules.split()), _WHY_NONE.get(number, ""))
        for number, says, rules in rows
    )


TRADE_LIST: tuple[Looked, ...] = (
    *_under(
        "wood fixings",
        (1, "a wood screw goes far enough into the piece that holds it", "penetration"),
        (2, "its point does not come near the far side", "wood-behind-point"),
        (3, "the pilot suits the wood and the screw", "pilot-hole"),
        (4, "the thread bites in the last piece alone", "shank-hole shank-in-pilot"),
        (5, "steel goes into hardwood before brass", "soft-screw-in-hardwood"),
        (6, "a screw keeps off the end of the wood", "end-distance"),
        (7, "a screw keeps off its edge", "edge-distance"),
        (8, "nothing hangs on screws in end grain", "end-grain end-grain-pull"),
        (9, "a hinge's countersink takes the head", "head-against-countersink"),
        (10, "steel keeps out of woods that it blackens", "metal-in-wood"),
        (11, "heads and washers do not sink into the wood", "washer-pressure"),
        (12, "a washer is stiff enough to spread its load", "washer-thickness"),
        (13, "an insert has its hole, room round it, and wax", "insert-hole insert-edge insert-wax"),
        (14, "fixings do not cross or crowd one another", "fasteners-meet spacing-in-wood"),
    ),
    *_under(
        "wood movement",
        (15, "fixings far apart across the grain let it move", "wood-movement movement-unseen"),
        (16, "a panel has room in its grooves", "panel-in-frame"),
        (17, "no wide glue joint lies across another's grain", "cross-grain-glue"),
        (18, "a shaft carried across the grain is free at one end", "shaft-across-grain"),
        (19, "wood is metered before it is cut to its last size", "moisture-logged"),
        (20, "the grain of each solid piece is said", "grain-said"),
    ),
    *_under(
        "machine screws",
        (21, "enough thread is engaged for the metal", "engagement"),
        (22, "a screw clamps before it bottoms", "screw-bottoms loose-in-the-stack"),
        (23, "a blind drill stays inside", "blind-hole-breaks-out hole-comes-through"),
        (24, "the plain shank does not reach the thread", "plain-shank"),
        (25, "a bolt fills its nut and no more than shows", "threads-past-nut"),
        (26, "both halves of a joint have one thread", "thread-match mixed-systems"),
        (27, "no two threads on the bench are nearly alike", "near-match-threads"),
        (28, "a countersink leaves a land in its plate", "countersink-depth"),
        (29, "a countersink has the angle of its head", "countersink-angle"),
        (30, "the tapping drill leaves the right thread", "tapping-hole"),
        (31, "a clearance hole clears, and no more", "clearance-hole"),
        (32, "a pattern of holes goes together", "hole-pattern"),
        (33, "a head has room in its counterbore", "counterbore head-proud"),
        (34, "a driver or spanner gets there", "tool-reach"),
        (35, "what moves or shakes is locked", "lock lock-at-pivot"),
        (36, "the thin nut lies on the right side", "thin-nut-order"),
        (37, "stainless does not seize in stainless", "stainless-pair"),
        (38, "a grub screw reaches, and has a flat", "grub-screw"),
        (39, "plated threads still go together", "coated-thread"),
        (40, "drills, taps and cutters are owned", "tools-owned"),
    ),
    *_under(
        "metal",
        (41, "a cutter's round corner does not hold a square part up", "recess-corner"),
        (42, "a recess is as deep as its part and leaves a floor", "recess-depth recess-fit pockets-meet"),
        (43, "holes keep off the edge of metal", "edge-of-metal hole-breaks-out"),
        (44, "holes keep off bends", "hole-to-bend"),
        (45, "a bend is not too tight for its sheet", "bend-radius"),
        (46, "a flat is as long as its bends ask", "flat-length"),
        (47, "holes of parts that meet lie in line", "holes-of-mates"),
        (
            48,
            "all lies inside its part, and nothing hidden clashes",
            "feature-off-part place-off-part parts-in-one-place fastener-meets-part part-in-the-way "
            "parts-overlap",
        ),
        (49, "parts add up to the whole", "sums-to-overall"),
        (50, "sizes are taken from one datum and not added up along a chain", ""),
    ),
    *_under(
        "mechanism",
        (51, "a pivot's stops come before its limit", "pivot-travel"),
        (52, "a spring never hangs slack", "spring-slack"),
        (53, "nor is it driven solid or overstretched", "spring-solid"),
        (54, "it can be wound", "spring-index"),
        (55, "a shaft runs in its bush", "running-fit turning-part-clamped"),
        (56, "a shaft has its end shake", "end-shake"),
        (57, "what moves touches nothing on its way", "swept-clearance fastener-in-the-sweep"),
        (58, "stored energy is named and let down", "stored-energy"),
    ),
    *_under(
        "structure",
        (59, "nothing sags or bows that should be straight", "sag"),
        (60, "wire is not pulled near its strength", "wire-stress"),
    ),
    *_under(
        "material and buying",
        (61, "stock holds its parts with what saw and plane take", "stock-holds-part stock-runs-out"),
        (62, "sheet is measured, and a gauge has its system", "sheet-measured"),
        (63, "there is enough of everything, and a spare", "enough-hardware counts-agree"),
    ),
    *_under(
        "records and order",
        (
            64,
            "nothing is cut by a guess, or to what has changed since",
            "guessed-size reading-disagrees not-in-hand made-before-change released-changed",
        ),
        (65, "the printer prints true", "printer-checked"),
        (
            66,
            "the order of assembly works, and what cures has cured",
            "fitted-after-closed fitted-before-its-base never-fitted glue-time cured-before-next",
        ),
    ),
)  # fmt: skip
"""All 66, in order."""
