"""Rules for heads: countersinks, counterbores, and what stands proud."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.joints.drilling import COUNTERBORE_ROOM_MM
from calculators.joints.mending import number
from calculators.joints.model import Mend
from calculators.joints.rules.rule import Rule, Seen, rule, unchecked
from calculators.joints.worked import Member, Worked

_TINY = 1e-6
_SAME_MM = 0.05
"""Heads and recesses are measured no closer than this."""


def _first(w: Worked) -> Member:
    return w.layers[0]


def _sunk_here(w: Worked) -> bool:
    """Whether a countersunk head sits in the first layer itself."""
    return w.screw.countersunk and _first(w).item == 0 and w.joint.stands_mm is None


@rule(
    "head-against-countersink",
    "A countersunk head is no wider than the recess that it sits in.",
    "common practice",
)
def _head_against_countersink(w: Worked) -> Iterator[Seen]:
    """A head against a countersink that is given, as in a bought hinge."""
    first = _first(w)
    given = first.layer.hole.countersink_diameter_mm if first.layer else None
    if given is None or not w.screw.countersunk:
        return
    head, limit = w.screw.head_diameter_mm, w.limits["head-over-countersink"]
    if head is None:
        yield unchecked(
            f"The head's width is not known, so it cannot be set against the recess in {first.part}."
        )
        return
    over = head - given
    if over <= _SAME_MM:
        return
    proud = max(-w.stack.head_below_mm, 0.0)
    says = (
        f"The head is {head:.2f} mm wide and the recess in {first.part} {given:.2f} mm: it stands "
        f"{proud:.2f} mm proud."
    )
    mend = Mend(
        f"Open the countersink to {head:.1f} mm, or use a smaller screw.",
        f"{first.path}.hole.countersink_diameter_mm",
        number(head + 5e-4),
    )
    yield Seen("error" if over > limit + _TINY else "warning", says, first.part, over, limit, "mm", (mend,))


@rule(
    "countersink-depth",
    "A countersink goes no deeper than 0.8 of the plate; deeper than the plate, the head reaches "
    "what is below.",
    "common practice (sheet-metal rule of three quarters)",
)
def _countersink_depth(w: Worked) -> Iterator[Seen]:
    """How deep the countersink goes into a plate."""
    first = _first(w)
    if not _sunk_here(w) or first.layer is None:
        return
    hole = w.hole(first)
    if hole.countersink_depth_mm is None:
        yield unchecked(
            f"The head's width or angle is not known, so the countersink in {first.part} cannot be checked."
        )
        return
    depth, thick = hole.countersink_depth_mm, first.layer.thickness_mm
    share, most, good = depth / thick, w.limits["countersink-depth-most"], w.limits["countersink-depth"]
    numbers = f"{depth:.2f} mm deep in {round(thick, 2):g} mm, {share:.2f} of it"
    mend = Mend("Use a smaller or a round head, or a thicker plate.")
    if share > most + _TINY:
        says = f"The countersink goes through {first.part}: {numbers}. The head bears on the part below."
        yield Seen("error", says, first.part, share, most, "t", (mend,))
    elif share > good + _TINY:
        says = (
            f"The countersink in {first.part} is {numbers}: the edge under the head is thin "
            "and may pull through."
        )
        yield Seen("warning", says, first.part, share, good, "t", (mend,))


@rule(
    "countersink-angle",
    "The countersink has the angle of the head.",
    "ISO 7721, ASME B18.6.3 (from memory)",
)
def _countersink_angle(w: Worked) -> Iterator[Seen]:
    """The countersink's angle against the head's."""
    first = _first(w)
    given = first.layer.hole.countersink_angle_deg if first.layer else None
    if given is None or not w.screw.countersunk:
        return
    angle = w.screw.head_angle_deg
    if angle is None:
        yield unchecked(
            f"The head's angle is not known, so the countersink in {first.part} cannot be set against it."
        )
        return
    apart, limit = abs(given - angle), w.limits["countersink-angle"]
    if apart < 0.05:
        return
    says = (
        f"The head is {angle:g} degrees and the countersink in {first.part} {given:g}: the head "
        "bears on a ring "
        "and rocks."
    )
    mend = Mend(
        f"Countersink at {angle:g} degrees.", f"{first.path}.hole.countersink_angle_deg", number(angle)
    )
    severe = apart > limit + _TINY
    yield Seen("error" if severe else "warning", says, first.part, apart, limit, "deg", (mend,))


@rule(
    "counterbore",
    "A counterbore is at least 0.5 mm wider than what lies in it, as deep as that is high, and "
    "leaves a floor.",
    "ISO 4762 heads; common practice",
)
def _counterbore(w: Worked) -> Iterator[Seen]:
    """The counterbore's width, depth and floor."""
    first = _first(w)
    if first.layer is None or not first.counterbore_mm:
        return
    if first.counterbore_mm >= first.layer.thickness_mm - _TINY:
        says = (
            f"The counterbore in {first.part} is {first.counterbore_mm:.1f} mm deep in "
            f"{first.layer.thickness_mm:g} "
            "mm: it goes right through and the head pulls in."
        )
        yield Seen("error", says, first.part, first.counterbore_mm, first.layer.thickness_mm, "mm")
    else:
        yield from _counterbore_floor(w, first, first.layer.thickness_mm - first.counterbore_mm)
    yield from _counterbore_width(w, first)
    height = w.screw.head_height_mm
    if height is None:
        yield unchecked(
            f"The head's height is not known, so the counterbore in {first.part} cannot be checked."
        )
    elif w.stack.seat == "counterbore" and w.stack.head_below_mm < -_TINY - 0.005:
        deep = first.counterbore_mm - w.stack.head_below_mm
        says = (
            f"The counterbore in {first.part} is {first.counterbore_mm:.1f} mm deep and "
            f"{deep:.1f} mm is needed: "
            f"the head stands {-w.stack.head_below_mm:.1f} mm proud of it."
        )
        mend = Mend(f"Make it {deep:.1f} mm deep.", f"{first.path}.hole.counterbore_depth_mm", number(deep))
        yield Seen("warning", says, first.part, first.counterbore_mm, deep, "mm", (mend,))


def _counterbore_floor(w: Worked, first: Member, floor: float) -> Iterator[Seen]:
    least = w.limits["counterbore-floor-wood" if first.is_wood else "counterbore-floor"] * w.screw.major_mm
    if floor < least - 0.005:
        says = (
            f"The counterbore in {first.part} leaves a floor of {floor:.1f} mm; {least:.1f} mm keeps the "
            "head from pulling through."
        )
        yield Seen("warning", says, first.part, floor, least, "mm")


def _counterbore_width(w: Worked, first: Member) -> Iterator[Seen]:
    given = first.layer.hole.counterbore_diameter_mm if first.layer else None
    if given is None:
        return
    washers = [m for m in w.stack.members if m.kind == "washer" and m.item < first.item]
    inside = [w.screw.head_diameter_mm, *(m.outside_mm for m in washers)]
    known = [each for each in inside if each is not None]
    if len(known) < len(inside):
        yield unchecked(
            f"What lies in the counterbore of {first.part} has no known width, so it cannot be checked."
        )
        return
    wide, room = max(known), w.limits["counterbore-room"]
    if given >= wide + room - 0.005:
        return
    best = wide + max(room, COUNTERBORE_ROOM_MM)
    mend = Mend(f"Make it {best:.1f} mm wide.", f"{first.path}.hole.counterbore_diameter_mm", number(best))
    what = "washer" if washers and wide > (w.screw.head_diameter_mm or 0) else "head"
    if given < wide - 0.005:
        says = (
            f"The counterbore in {first.part} is {given:.1f} mm wide and the {what} {wide:.1f} "
            "mm: it does not go in."
        )
        yield Seen("error", says, first.part, given, wide, "mm", (mend,))
    else:
        says = (
            f"The counterbore in {first.part} is {given:.1f} mm wide for a {what} of {wide:.1f} "
            f"mm: under {room:g} mm "
            "of room it binds unless all holes are true."
        )
        yield Seen("warning", says, first.part, given, wide + room, "mm", (mend,))


@rule(
    "head-proud",
    "A head that is to be flush does not stand above the surface.",
    "common practice",
)
def _head_proud(w: Worked) -> Iterator[Seen]:
    """Heads that are to be flush and are not."""
    if w.joint.seat != "flush" or w.screw.headless or w.joint.stands_mm is not None:
        return
    first = _first(w)
    if (w.screw.head_height_mm is None and not w.screw.countersunk) or (
        w.screw.countersunk and w.screw.head_diameter_mm is None
    ):
        yield unchecked("The head's size is not known, so whether it is flush cannot be told.", first.part)
        return
    proud = -w.stack.head_below_mm
    if proud > 0.05:
        says = (
            f"The head is to be flush and stands {proud:.1f} mm above {first.part}: what moves over it fouls."
        )
        mends: tuple[Mend, ...] = (Mend("Accept it as proud.", "seat", "proud"),)
        if not w.screw.countersunk and first.layer is not None:
            deep = first.counterbore_mm + proud
            better = Mend(
                f"Counterbore {deep:.1f} mm deep.", f"{first.path}.hole.counterbore_depth_mm", number(deep)
            )
            mends = (better, *mends)
        yield Seen("error", says, first.part, proud, 0.0, "mm", mends)


RULES: tuple[Rule, ...] = (
    _head_against_countersink, _countersink_depth, _countersink_angle, _counterbore, _head_proud,
)  # fmt: skip
