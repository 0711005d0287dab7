"""Rules for screws and inserts in wood."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.joints.mending import fastener_mend, length_mend, number
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
def penetration(w: Worked) -> Iterator[Seen]:
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
        yield Seen("note", says, piece.part, depth, sideways, "D", mends)


@rule(
    "wood-behind-point",
    "At least 3 mm of wood is left behind a screw's point.",
    "common practice",
)
def wood_behind_point(w: Worked) -> Iterator[Seen]:
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
    "pilot-hole",
    "A pilot hole is 85 to 100 % of the root diameter in hardwood, 65 to 75 % in softwood; "
    "hardwood needs one.",
    "USDA Wood Handbook ch. 8 and NDS lead holes (read as quoted; charts disagree)",
)
def pilot_hole(w: Worked) -> Iterator[Seen]:
    """Whether there is a pilot hole, and how wide."""
    for member in w.layers:
        if member.takes != "pilot" or member.layer is None:
            continue
        if member.material is None:
            says = f"The material of {member.part} is not known, so its pilot hole cannot be checked."
            yield unchecked(says, member.part)
        elif not member.layer.hole.pilot:
            yield from _no_pilot(member)
        elif w.screw.root_mm is None:
            yield unchecked(
                f"The root of this screw is not known, so the pilot in {member.part} cannot be checked."
            )
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
    cost = "it drives hard and may split or shear" if share < least else "the thread holds less"
    best = 0.9 * root if member.is_hardwood else 0.7 * root
    says = (
        f"The pilot in {member.part} is {hole.diameter_mm:.2f} mm, {share:.0f} % of the root of "
        f"{root:.2f} mm; "
        f"in {wood} {least:g} to {most:g} % is usual: {cost}."
    )
    mend = Mend(f"Drill {best:.1f} mm.", f"{member.path}.hole.diameter_mm", number(round(best, 1)))
    yield Seen("warning", says, member.part, share, limit, "%", (mend,))


@rule(
    "shank-hole",
    "The hole in every piece above the last is wider than the screw, so that the thread bites in "
    "one piece only.",
    "common practice",
)
def shank_hole(w: Worked) -> Iterator[Seen]:
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
                f"The thread bites in {member.part} as well as in the piece below: the screw "
                "holds them apart "
                "instead of drawing them together."
            )
            clear = Mend(f"Drill {member.part} clear.", f"{member.path}.takes", "clearance")
            yield Seen("error", says, member.part, hole.diameter_mm, d, "mm", (clear,))
        elif hole.diameter_mm < d - 0.005:
            says = (
                f"The hole in {member.part} is {hole.diameter_mm:.2f} mm for a shank of {d:.2f} "
                "mm: the screw "
                "binds or bites there and does not draw the pieces together."
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
def shank_in_pilot(w: Worked) -> Iterator[Seen]:
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
def soft_screw_in_hardwood(w: Worked) -> Iterator[Seen]:
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


@rule(
    "end-distance",
    "A screw in wood stays 7 diameters from the end of the piece, 12 where it is pushed towards it.",
    "EN 1995-1-1 table 8.2, pre-drilled (from memory)",
)
def end_distance(w: Worked) -> Iterator[Seen]:
    """How near the end of a piece of wood the screw is."""
    good = w.limits["end-distance-loaded" if w.joint.loaded_sideways else "end-distance"]
    for member in _screwed_wood(w):
        assert member.layer is not None
        if member.layer.end_mm is not None and member.layer.grain != "end":
            yield from _near(w, member, member.layer.end_mm, "end", w.limits["end-distance-least"], good)


@rule(
    "edge-distance",
    "A screw in wood stays 3 diameters from the edge of the piece.",
    "EN 1995-1-1 table 8.2, pre-drilled (from memory); common practice",
)
def edge_distance(w: Worked) -> Iterator[Seen]:
    """How near the edge of a piece of wood the screw is."""
    for member in _screwed_wood(w):
        assert member.layer is not None
        if member.layer.edge_mm is not None:
            least, good = w.limits["edge-distance-least"], w.limits["edge-distance"]
            yield from _near(w, member, member.layer.edge_mm, "edge", least, good)


def _screwed_wood(w: Worked) -> list[Member]:
    return [m for m in w.layers if m.is_wood and m.layer is not None and m.takes != "insert"]


def _near(w: Worked, m: Member, distance: float, what: str, least: float, good: float) -> Iterator[Seen]:
    d = w.screw.major_mm
    share = distance / d
    if share >= good - _TINY:
        return
    severity, limit = ("error", least) if share < least - _TINY else ("warning", good)
    cost = "the wood splits" if severity == "error" else "the wood may split: pilot, wax, no force"
    says = (
        f"The screw is {distance:.1f} mm, {share:.1f} d, from the {what} of {m.part}; {good:g} "
        f"d is wanted: {cost}."
    )
    mend = Mend(
        f"Move it to {good * d:.1f} mm or more from the {what}.",
        f"{m.path}.{what}_mm",
        number(good * d + 5e-4),
    )
    yield Seen("error" if severity == "error" else "warning", says, m.part, share, limit, "d", (mend,))


@rule(
    "end-grain",
    "A screw into end grain holds about three quarters as much as in side grain, and unreliably.",
    _WOOD_HANDBOOK,
)
def end_grain(w: Worked) -> Iterator[Seen]:
    """Screws and inserts that hold in end grain."""
    for member in w.layers:
        if member.layer is not None and member.takes in ("pilot", "insert") and member.layer.grain == "end":
            says = (
                f"It holds in the end grain of {member.part}: about 75 % of its hold in side "
                "grain, and not to be "
                "relied on. A cross-dowel, or a plug with its grain across the screw, holds."
            )
            yield Seen("warning", says, member.part)


@rule(
    "metal-in-wood",
    "Steel blackens wood that is rich in tannin and rusts in it; plating does not last in the damp.",
    "common practice; Wood Handbook on fastener corrosion (from memory)",
)
def metal_in_wood(w: Worked) -> Iterator[Seen]:
    """Steel in oak, chestnut and walnut."""
    steel = [metal for metal in _metals(w) if metal in ("steel", "plated steel")]
    stated = bool(w.screw.metal)
    rich = [m for m in w.layers if m.material is not None and m.material.tannin_rich]
    unknown = [m for m in w.layers if m.material is None]
    if not rich:
        if unknown and (steel or not stated):
            names = " and ".join(m.part for m in unknown)
            yield unchecked(
                f"The material of {names} is not known, so steel against its tannin cannot be checked."
            )
        return
    part = rich[0]
    assert part.material is not None
    if not steel:
        if not stated:
            says = f"The screw's material is not stated; steel would stain {part.material.name}."
            yield unchecked(says, part.part)
        return
    bare, wet = "steel" in steel, w.joint.wet
    names = " and ".join(dict.fromkeys(m.part for m in rich))
    what = ("Bare" if bare else "Plated") + f" steel in {part.material.name} ({names})"
    if bare:
        cost = (
            ": it blackens the wood and rusts away in the damp."
            if wet
            else ": it blackens the wood around it."
        )
    else:
        cost = (
            ": in the damp the plating does not last."
            if wet
            else ": it stains once the plating is scratched."
        )
    severity = "error" if bare and wet else "warning" if bare or wet else "note"
    mends: tuple[Mend, ...] = ()
    if w.screw.metal in ("steel", "plated steel"):
        other = "silicon bronze" if wet else "brass"
        changes = {"material": other, "finish": "", "grade": ""}
        mends = fastener_mend(w, f"Use {other}: {{}}.", **changes)
    yield Seen(
        "error" if severity == "error" else "warning" if severity == "warning" else "note",
        what + cost, part.part, mends=mends,
    )  # fmt: skip


def _metals(w: Worked) -> list[str]:
    return [w.screw.metal, *(m.metal for m in w.stack.members if m.kind in ("washer", "nut", "insert"))]


@rule(
    "insert-hole",
    "The hole for an insert is its body's size in softwood, 0.4 to 0.8 mm more in hardwood.",
    "common practice",
)
def insert_hole(w: Worked) -> Iterator[Seen]:
    """The hole for a threaded insert."""
    for host, insert in _inserts(w):
        hole, body = w.hole(host).diameter_mm, insert.body_mm
        if body is None:
            says = (
                f"The body of the insert in {host.part} is not known, so its hole cannot be "
                "checked: measure it."
            )
            yield unchecked(says, host.part)
            continue
        if host.material is None:
            yield unchecked(
                f"The material of {host.part} is not known, so its insert's hole cannot be checked."
            )
            continue
        low, high = 0.0, w.limits["insert-hole-softwood-most"]
        if host.is_hardwood:
            low, high = w.limits["insert-hole-least"], w.limits["insert-hole-most"]
        over = hole - body
        if low - 0.005 <= over <= high + 0.005:
            continue
        best = body + (low if host.is_hardwood else 0.0)
        mend = Mend(f"Drill {best:.1f} mm.", f"{host.path}.hole.diameter_mm", number(best))
        loose = insert.outside_mm is not None and hole >= insert.outside_mm
        cost = "the wood splits as it goes in" if over < low else "its thread has little to hold in"
        says = (
            f"The hole for the insert in {host.part} is {hole:.2f} mm on a body of {body:g} mm; "
            f"{body + low:.1f} to {body + high:.1f} mm is usual: {cost}."
        )
        limit = low if over < low else high
        yield Seen("error" if loose else "warning", says, host.part, over, limit, "mm", (mend,))


@rule(
    "insert-edge",
    "An insert stands at least twice its outside diameter from an edge.",
    "common practice",
)
def insert_edge(w: Worked) -> Iterator[Seen]:
    """How near an edge an insert is."""
    for host, insert in _inserts(w):
        assert host.layer is not None
        known = {"edge": host.layer.edge_mm, "end": host.layer.end_mm, "side": host.layer.side_mm}
        near = sorted((value, name) for name, value in known.items() if value is not None)
        if not near:
            continue
        if not insert.outside_mm:
            yield unchecked(
                f"The outside of the insert in {host.part} is not known: its edge cannot be checked."
            )
            continue
        distance, name = near[0]
        share, good = distance / insert.outside_mm, w.limits["insert-edge"]
        if share >= good - _TINY:
            continue
        least = w.limits["insert-edge-least"]
        error = share < least - _TINY
        says = (
            f"The insert is {distance:.1f} mm from the edge of {host.part}, {share:.1f} of its "
            "outside diameter; "
            f"{good:g} is wanted, or the wood splits."
        )
        away = good * insert.outside_mm
        mend = Mend(f"Move it to {away:.1f} mm or more.", f"{host.path}.{name}_mm", number(away + 5e-4))
        yield Seen(
            "error" if error else "warning", says, host.part, share, least if error else good, "OD", (mend,)
        )


def _inserts(w: Worked) -> list[tuple[Member, Member]]:
    """Each layer that takes an insert, with the insert."""
    hosts = [m for m in w.layers if m.takes == "insert"]
    inserts = [m for m in w.stack.members if m.kind == "insert"]
    return list(zip(hosts, inserts, strict=False))


RULES: tuple[Rule, ...] = (
    penetration, wood_behind_point, pilot_hole, shank_hole, shank_in_pilot, soft_screw_in_hardwood,
    end_distance, edge_distance, end_grain, metal_in_wood, insert_hole, insert_edge,
)  # fmt: skip
