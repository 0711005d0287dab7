"""Rules for wood screws: how far they go in, and the holes that they need."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.joints.mending import length_mend, number
from calculators.joints.model import Mend
from calculators.joints.rules.rule import Rule, Seen, rule, unchecked
from calculators.joints.worked import Member, Worked

_TINY = 1e-6
_WOOD_HANDBOOK = "USDA Wood Handbook ch. 8 (from memory); common practice"


@rule(
    "penetration",
    "A wood screw goes at least 4 diameters into the piece that holds it, 7 for its full strength sideways.",
    _WOOD_HANDBOOK,
)
def _penetration(w: Worked) -> Iterator[Seen]:
    """How far the point goes into the piece that holds it."""
    piece = w.point_piece
    if piece is None:
        return
    d, inside = w.screw.major_mm, min(w.tip_mm - piece.enter_mm, piece.bears_mm)
    least, good, sideways = (
        w.limits[name] for name in ("penetration-least", "penetration", "penetration-sideways")
    )
    depth = inside / d
    mends = length_mend(w)
    what = f"{max(inside, 0):.1f} mm of screw in {piece.part}, {max(depth, 0):.1f} D"
    if inside <= 0:
        says = f"The screw does not reach {piece.part}: it ends {-inside:.1f} mm short and holds nothing."
        yield Seen("error", says, piece.part, depth, least, "D", mends)
    elif depth < least - _TINY:
        says = f"{what}: under {least:g} D the thread pulls out under little load."
        yield Seen("error", says, piece.part, depth, least, "D", mends)
    elif depth < good - _TINY:
        says = f"{what}: {good:g} D or more is wanted for a screw that keeps its hold."
        yield Seen("warning", says, piece.part, depth, good, "D", mends)
    elif w.joint.loaded_sideways and depth < sideways - _TINY:
        says = f"{what}: loaded sideways, a screw has its full strength only from {sideways:g} D."
        full = piece.enter_mm + sideways * d - w.stack.starts_mm
        yield Seen("note", says, piece.part, depth, sideways, "D", length_mend(w, full))


@rule(
    "wood-behind-point",
    "At least 3 mm of wood is left behind a screw's point.",
    "common practice",
)
def _wood_behind_point(w: Worked) -> Iterator[Seen]:
    """What is left behind the point, or that it comes out."""
    piece = w.point_piece
    if piece is None:
        return
    left = piece.leave_mm - w.tip_mm
    least, good = w.limits["behind-point-least"], w.limits["behind-point"]
    if left < 0:
        says = f"The point comes out of {piece.part} by {-left:.1f} mm."
        yield Seen("error", says, piece.part, left, least, "mm", length_mend(w))
    elif left < least - _TINY:
        says = f"Only {left:.1f} mm of {piece.part} is left behind the point: it will bulge or break through."
        yield Seen("error", says, piece.part, left, least, "mm", length_mend(w))
    elif left < good - _TINY:
        says = (
            f"Only {left:.1f} mm of {piece.part} is left behind the point; {good:g} mm keeps the face safe."
        )
        yield Seen("warning", says, piece.part, left, good, "mm", length_mend(w))


@rule(
    "wood-screw-in-wood",
    "A wood screw holds in wood alone.",
    "common practice",
)
def _wood_screw_in_wood(w: Worked) -> Iterator[Seen]:
    """A wood screw whose point is in something else."""
    piece = w.point_piece
    if piece is not None and piece.material is not None and not piece.is_wood:
        says = (
            f"The screw's thread is in {piece.part}, which is {piece.material.name}: a wood "
            "screw does not hold there."
        )
        yield Seen("error", says, piece.part)


@rule(
    "pilot-hole",
    "A pilot hole is 85 to 100 % of the root diameter in hardwood, 65 to 75 % in softwood; "
    "hardwood needs one. A coach screw's is 65 to 85 % of its shank in hardwood, 40 to 75 % in softwood.",
    "USDA Wood Handbook ch. 8 and NDS lead holes (read as quoted; charts disagree); coach screws from memory",
)
def _pilot_hole(w: Worked) -> Iterator[Seen]:
    """Whether there is a pilot hole, and how wide."""
    for member in w.layers:
        if member.takes != "pilot" or member.layer is None:
            continue
        if member.material is None:
            says = f"The material of {member.part} is not known, so its pilot hole cannot be checked."
            yield unchecked(says, member.part)
        elif not member.is_wood:
            continue
        elif not member.layer.hole.pilot:
            yield from _no_pilot(member)
        elif w.screw.root_mm is None:
            yield from _coach_pilot(w, member)
        else:
            yield from _pilot_width(w, member, w.screw.root_mm)


def _no_pilot(member: Member) -> Iterator[Seen]:
    if member.is_hardwood and member.material is not None:
        says = (
            f"No pilot hole in {member.part}, which is hardwood ({member.material.name}): the wood splits or "
            "the screw shears."
        )
        mend = Mend("Drill a pilot hole.", f"{member.path}.hole.pilot", "true")
        yield Seen("error", says, member.part, mends=(mend,))


def _pilot_width(w: Worked, member: Member, root: float) -> Iterator[Seen]:
    hole = w.hole(member)
    wood = "hardwood" if member.is_hardwood else "softwood"
    least, most = w.limits[f"pilot-{wood}-least"], w.limits[f"pilot-{wood}-most"]
    share = 100 * hole.diameter_mm / root
    if least - _TINY <= share <= most + _TINY:
        return
    limit = least if share < least else most
    loose = hole.diameter_mm >= w.screw.major_mm - 0.005
    cost = "it drives hard and may split or shear" if share < least else "the thread holds less"
    cost = "it is as wide as the screw, whose thread holds in nothing" if loose else cost
    best = 0.9 * root if member.is_hardwood else 0.7 * root
    says = (
        f"The pilot in {member.part} is {hole.diameter_mm:.2f} mm, {share:.0f} % of the root of {root:.2f} "
        f"mm; in {wood} {least:g} to {most:g} % is usual: {cost}."
    )
    mend = Mend(f"Drill {best:.1f} mm.", f"{member.path}.hole.diameter_mm", number(round(best, 1)))
    yield Seen("error" if loose else "warning", says, member.part, share, limit, "%", (mend,))


def _coach_pilot(w: Worked, member: Member) -> Iterator[Seen]:
    """The lead hole of a coach screw, which goes by its shank."""
    hole, d = w.hole(member), w.screw.major_mm
    wood, keys = ("hardwood", "hard") if member.is_hardwood else ("softwood", "soft")
    least, most = (w.limits[f"coach-pilot-{keys}-{end}"] for end in ("least", "most"))
    share = 100 * hole.diameter_mm / d
    if least - _TINY <= share <= most + _TINY:
        return
    limit = least if share < least else most
    loose = hole.diameter_mm >= d - 0.005
    cost = "it drives hard and may split or shear" if share < least else "the thread holds less"
    cost = "it is as wide as the screw, whose thread holds in nothing" if loose else cost
    says = (
        f"The pilot in {member.part} is {hole.diameter_mm:.2f} mm, {share:.0f} % of the shank of {d:.2f} mm; "
        f"for a coach screw in {wood} {least:g} to {most:g} % is usual: {cost}."
    )
    best = (least + most) / 200 * d
    mend = Mend(f"Drill {best:.1f} mm.", f"{member.path}.hole.diameter_mm", number(round(best, 1)))
    yield Seen("error" if loose else "warning", says, member.part, share, limit, "%", (mend,))


@rule(
    "shank-hole",
    "The hole in every piece above the last is wider than the screw, so that the thread bites in "
    "one piece only.",
    "common practice",
)
def _shank_hole(w: Worked) -> Iterator[Seen]:
    """Whether a wood screw is free in the pieces above the one that holds it."""
    if not w.screw.is_wood:
        return
    d = w.screw.major_mm
    for member in w.layers:
        if member is w.point_piece:
            continue
        hole = w.hole(member)
        wide = w.screw.wood.clearance_hole_mm if w.screw.wood else round(1.05 * d + 0.05, 1)
        mend = Mend(f"Drill {wide:g} mm.", f"{member.path}.hole.diameter_mm", number(wide))
        if member.takes == "pilot":
            says = (
                f"The thread bites in {member.part}, where its hole is {hole.diameter_mm:.2f} mm for "
                f"{d:.2f} mm of screw, as well as in the piece below: it holds them apart instead of drawing "
                "them together."
            )
            clear = Mend(f"Drill {member.part} clear.", f"{member.path}.takes", "clearance")
            yield Seen("error", says, member.part, hole.diameter_mm, d, "mm", (clear,))
        elif hole.diameter_mm < d - 0.005:
            says = (
                f"The hole in {member.part} is {hole.diameter_mm:.2f} mm for a shank of {d:.2f} mm: the "
                "screw binds or bites there and does not draw the pieces together."
            )
            yield Seen("error", says, member.part, hole.diameter_mm, d, "mm", (mend,))
        elif hole.diameter_mm <= d + 0.005:
            says = f"The hole in {member.part} is no wider than the shank of {d:.2f} mm: the screw will bind."
            yield Seen("warning", says, member.part, hole.diameter_mm, d, "mm", (mend,))


@rule(
    "shank-in-pilot",
    "Where the plain shank goes on into hardwood, the mouth of the pilot is opened to the shank's size.",
    "common practice",
)
def _shank_in_pilot(w: Worked) -> Iterator[Seen]:
    """Plain shank in the pilot hole."""
    piece = w.point_piece
    if piece is None or w.plain_mm is None or not piece.is_hardwood:
        return
    inside = w.stack.starts_mm + w.plain_mm - piece.enter_mm
    limit = w.limits["shank-in-pilot"]
    if inside > limit * w.screw.major_mm + _TINY and w.tip_mm > piece.enter_mm:
        says = (
            f"About {inside:.1f} mm of plain shank goes into {piece.part}: open the pilot to "
            f"{w.screw.major_mm:.1f} mm that deep, or it splits there."
        )
        yield Seen("note", says, piece.part, inside / w.screw.major_mm, limit, "D")


@rule(
    "soft-screw-in-hardwood",
    "A brass screw, or a stainless one under No. 8, goes into hardwood after a steel one has cut the thread.",
    "common practice; twist-off torque goes with the cube of the root",
)
def _soft_screw_in_hardwood(w: Worked) -> Iterator[Seen]:
    """Soft screws in hard wood."""
    piece = w.point_piece
    if piece is None or w.joint.steel_first or not piece.is_hardwood or piece.material is None:
        return
    number_of = w.screw.wood.number if w.screw.wood else None
    below = w.limits["small-stainless"]
    small = number_of < below if number_of is not None else w.screw.major_mm < 1.524 + 0.3302 * below - _TINY
    if not w.screw.metal:
        says = (
            f"The screw's material is not stated; in hardwood ({piece.material.name}) brass "
            "must not go first."
        )
        yield unchecked(says, piece.part)
    elif w.screw.metal == "brass" or (w.screw.metal == "stainless" and small):
        says = (
            f"A {w.screw.metal} screw driven straight into {piece.material.name} twists off or "
            "loses its slot: "
            "drive a steel twin first, take it out, wax, and drive this one by hand."
        )
        mend = Mend("Drive a steel screw of the same size first.", "steel_first", "true")
        yield Seen("warning", says, piece.part, mends=(mend,))


RULES: tuple[Rule, ...] = (
    _penetration, _wood_behind_point, _wood_screw_in_wood, _pilot_hole, _shank_hole, _shank_in_pilot,
    _soft_screw_in_hardwood,
)  # fmt: skip
