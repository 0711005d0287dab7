"""What is wrong with a hole beside a pocket, a countersink beside anything, or a pocket: pure looks.

Taken as meant, and so never told, besides what `in_one_part_holes.py` names:

- a hole in a pocket's floor, or one that a pocket ends on its axis; a plain hole that runs across a pocket
  and on beyond it (a peg, a wire);
- pockets of one face that run into one another (a stepped pocket); a rebate, slot or lap that is open at an
  edge of its face, whatever it meets; a pocket that goes right through, without a stated depth.
"""

from __future__ import annotations

import math
from collections.abc import Iterable, Iterator

from calculators.geometry.chords import pocket_frame
from calculators.geometry.cuts import bore_shape, through_depth
from calculators.geometry.cuts_apart import farthest_from_axis, same_line
from calculators.geometry.features import to_pocket
from calculators.geometry.model import Pocket, Solid
from calculators.geometry.nearness import apart
from calculators.geometry.outline_lines import holds_rectangle, stretches_inside
from calculators.geometry.shapes import Turned, box_of
from calculators.geometry.vectors import Vector, dot
from calculators.joints.model import Spot
from calculators.planning.checks.in_one_part_cuts import HoleCut, PartCuts, PocketCut
from calculators.planning.checks.in_one_part_holes import TINY_MM, Trouble, capital
from calculators.planning.checks.in_one_part_pairs import axis_in_pocket, one_place, starts_in, together
from calculators.planning.checks.in_one_part_walls import walls_of_block

_LOOKS = 16
"""Along so many lines and at every corner the floor of a pocket is looked at towards an outline."""


def wall_to_pocket(cuts: PartCuts, hole: HoleCut, pocket: PocketCut, least: float) -> Trouble | None:
    """Look at a hole and a pocket beside or across it.

    Args:
        cuts: the part's cuts.
        hole: one of its holes.
        pocket: one of its pockets.
        least: the wall that should be left [mm].

    Returns:
        What is wrong, or None.

    Source: this project; what is taken as meant stands at the head of this file.
    """
    if hole.off_face:
        return None
    cut = hole.cut
    if starts_in(hole, pocket):
        return _by_the_wall(cuts, hole, pocket, hole.cut.radius, "")
    end = cut.first.surface_out
    if cut.last is None and end.of == "pocket" and end.pocket == pocket.index:
        return None  # straight on: what is left behind a blind hole's point is another rule's
    crossed = axis_in_pocket(cuts, hole, pocket)
    if crossed is not None:
        held = hole.kind in ("tapping", "insert", "pilot") and hole.hole.direct is not None
        through = cut.last is not None and crossed[1] < cut.leave - 1.0 and crossed[0] > cut.enter + 1.0
        if held and through:
            says = (
                f"{capital(hole.name)} is cut in two by {pocket.name} in the {pocket.pocket.face} of "
                f"{cuts.part}, over {crossed[1] - crossed[0]:.1f} mm: move one of them."
            )
            return Trouble("error", says, crossed[0] - crossed[1], 0.0, (hole.spot,))
        return None
    near = apart(cut.bore, pocket.shape, enough=least)
    if near.distance >= least - TINY_MM:
        return None
    spots = (cuts.spot_at(hole, near.first_point),)
    if near.distance <= 0.0:
        says = (
            f"{capital(pocket.name)} in the {pocket.pocket.face} of {cuts.part} opens {hole.name}"
            f"{f', by {-near.distance:.1f} mm' if near.distance < -0.05 else ''}: move one of them."
        )
        return Trouble("error", says, near.distance, least, spots)
    says = (
        f"Only {near.distance:.1f} mm of {cuts.part} is left between {hole.name} and {pocket.name} in the "
        f"{pocket.pocket.face}: leave {least:g} mm."
    )
    return Trouble("warning", says, near.distance, least, spots)


def _by_the_wall(
    cuts: PartCuts, hole: HoleCut, pocket: PocketCut, radius: float, what: str
) -> Trouble | None:
    """Look whether a circle about a hole in a pocket's floor runs into the pocket's wall."""
    frame = pocket_frame(cuts.solid, pocket.geometry)
    if abs(dot(frame.inward, hole.cut.way)) < 0.999999:
        return None
    slide = hole.cut.bore.slide if not what else (0.0, 0.0, 0.0)
    over = -math.inf
    for half in (-0.5, 0.5):
        m = hole.cut.mark
        u, v, _ = frame.read((m[0] + half * slide[0], m[1] + half * slide[1], m[2] + half * slide[2]))
        over = max(over, radius + to_pocket(pocket.geometry, u, v))
    if over <= TINY_MM:
        return None
    name = capital(f"{what}{hole.name}")
    says = (
        f"{name}, in the floor of {pocket.name} in the "
        f"{pocket.pocket.face} of {cuts.part}, runs {over:.1f} mm into the pocket's wall: move it, or make "
        "the pocket larger."
    )
    return Trouble("error", says, -over, 0.0, (hole.spot,))


def recess_word(hole: HoleCut) -> str:
    """Name the recess of a hole.

    Args:
        hole: a hole with a recess.

    Returns:
        `countersink` or `counterbore`.

    Source: this project.
    """
    recess = hole.cut.recess
    assert recess is not None
    return "counterbore" if recess.rings[0][1] == recess.rings[-1][1] else "countersink"


def recess_overlaps(
    cuts: PartCuts, hole: HoleCut, others: Iterable[HoleCut], pockets: Iterable[PocketCut]
) -> Iterator[Trouble]:
    """Look at the countersink or counterbore of a hole: edges, pockets and other holes that it overlaps.

    Where the bore itself is at fault the other rules tell it, and this one is silent.

    Args:
        cuts: the part's cuts.
        hole: a hole with a recess.
        others: holes near it.
        pockets: pockets near it.

    Yields:
        What is wrong.

    Source: this project.
    """
    recess = hole.cut.recess
    if recess is None or hole.off_face:
        return
    word, box = recess_word(hole), box_of(recess)
    for face, left, bare in _edges(cuts, hole, recess):
        if left < -TINY_MM and bare > TINY_MM:
            says = (
                f"The {word} of {hole.name} overlaps the {face} of {cuts.part} by {-left:.1f} mm: move it "
                "in, or make it smaller."
            )
            yield Trouble("error", says, left, 0.0, (hole.spot,))
    for pocket in pockets:
        if starts_in(hole, pocket):
            if _by_the_wall(cuts, hole, pocket, hole.cut.radius, "") is None:
                over = _by_the_wall(cuts, hole, pocket, _widest(recess), f"the {word} of ")
                if over is not None:
                    yield over
        elif _touches(box, pocket.box) and axis_in_pocket(cuts, hole, pocket) is None:
            overlap = apart(recess, pocket.shape, enough=0.0).distance
            if overlap < -TINY_MM and apart(hole.cut.bore, pocket.shape, enough=0.0).distance > -TINY_MM:
                says = (
                    f"The {word} of {hole.name} overlaps {pocket.name} in the {pocket.pocket.face} of "
                    f"{cuts.part} by {-overlap:.1f} mm: move one of them."
                )
                yield Trouble("error", says, overlap, 0.0, (hole.spot,))
    for other in others:
        found = _recess_and_hole(cuts, hole, other, word)
        if found is not None:
            yield found


def _recess_and_hole(cuts: PartCuts, hole: HoleCut, other: HoleCut, word: str) -> Trouble | None:
    """Look at a recess and another hole with its own recess; of two recesses the first tells it."""
    recess = hole.cut.recess
    assert recess is not None
    if other is hole or not together(hole, other) or one_place(hole, other) or other.off_face:
        return None
    if same_line(hole.cut, other.cut):
        return None
    own = other.cut.recess
    into, what = math.inf, ""
    if own is not None and _order(hole) < _order(other):
        into, what = apart(recess, own, enough=0.0).distance, f"the {recess_word(other)} of {other.name}"
    bore = apart(recess, other.cut.bore, enough=0.0).distance
    if bore < into:
        into, what = bore, other.name
    if into >= -TINY_MM or apart(hole.cut.bore, other.cut.bore, enough=0.0).distance <= 0.0:
        return None
    says = (
        f"The {word} of {hole.name} overlaps {what} in {cuts.part} by {-into:.1f} mm: move one of them, or "
        "make it smaller."
    )
    return Trouble("error", says, into, 0.0, (hole.spot, other.spot))


def _order(hole: HoleCut) -> tuple[str, str, float, float, float, str]:
    one = hole.hole
    return (one.joint, hole.place, one.u_mm or 0.0, one.v_mm or 0.0, one.angle_deg or 0.0, one.face)


def _widest(shape: Turned) -> float:
    return max(ring for _, ring in shape.rings)


def _touches(a: tuple[tuple[float, ...], tuple[float, ...]], b: tuple[tuple[float, ...], ...]) -> bool:
    return all(a[0][i] <= b[1][i] and b[0][i] <= a[1][i] for i in range(3))


def _edges(cuts: PartCuts, hole: HoleCut, recess: Turned) -> Iterator[tuple[str, float, float]]:
    """Give each edge of the face about a recess: what is left to it, and what the bore leaves."""
    solid, cut = cuts.solid, hole.cut
    if solid.shape == "block":
        if cut.square and cut.first.surface_in.of != "pocket":
            bare = dict(walls_of_block(solid, cut.bore, hole.box, cut.way))
            for face, left in walls_of_block(solid, recess, box_of(recess), cut.way):
                yield face, left, bare[face]
        return
    if abs(cut.way[0]) > 0.999999:
        outside = solid.diameter / 2.0
        yield "side", outside - farthest_from_axis(recess), outside - farthest_from_axis(cut.bore)
        inner = bore_shape(solid)
        if inner is not None and math.hypot(cut.mark[1], cut.mark[2]) > 0.05:
            yield "bore", apart(recess, inner).distance, apart(cut.bore, inner).distance
    elif abs(cut.way[0]) < 1e-6:
        low, high = box_of(recess)
        yield "left", low[0], hole.box[0][0]
        yield "right", solid.length - high[0], solid.length - hole.box[1][0]


def open_at_edge(cuts: PartCuts, pocket: PocketCut) -> bool:
    """Say whether a pocket is open at an edge of its face: a rebate, a lap, a slot that runs out.

    Args:
        cuts: the part's cuts.
        pocket: one of its pockets.

    Returns:
        True where its outline reaches the face's outline.

    Source: this project.
    """
    frame, one = pocket_frame(cuts.solid, pocket.geometry), pocket.geometry
    if cuts.solid.outline and one.face in ("top", "bottom"):
        low, high = span_in_plan(cuts.solid, one)
        return not holds_rectangle(cuts.solid.outline, low, high, TINY_MM)
    reaches = one.u <= frame.u_range[0] + TINY_MM or one.u + one.length >= frame.u_range[1] - TINY_MM
    if cuts.solid.shape == "round" and one.face not in ("left", "right"):
        return reaches
    return reaches or (one.v <= frame.v_range[0] + TINY_MM or one.v + one.width >= frame.v_range[1] - TINY_MM)


def span_in_plan(solid: Solid, one: Pocket) -> tuple[tuple[float, float], tuple[float, float]]:
    """Return the rectangle of a pocket in the top or the bottom of a block, in X and Y.

    Args:
        solid: a block.
        one: a pocket of its top or bottom.

    Returns:
        The corners with the least and with the greatest X and Y [mm].

    Source: this project (the frames of the developers' guide).
    """
    y = one.v if one.face == "top" else solid.width - one.v - one.width
    return (one.u, y), (one.u + one.length, y + one.width)


def floor_of(cuts: PartCuts, pocket: PocketCut) -> tuple[float, float] | None:
    """Return what is left under a pocket's floor.

    Args:
        cuts: the part's cuts.
        pocket: one of its pockets.

    Returns:
        What is left and how thick the part is there [mm]; None for a pocket that goes right through without
        a stated depth, is open at an edge, or opens the bore of a round part.

    Source: this project.
    """
    one = pocket.geometry
    if one.depth is None or open_at_edge(cuts, pocket):
        return None
    if cuts.solid.shape == "round" and one.face not in ("left", "right"):
        return _floor_across(cuts.solid, one, one.depth)
    if cuts.solid.outline and one.face not in ("top", "bottom"):
        return _floor_to_outline(cuts.solid, one, one.depth)
    thick = through_depth(cuts.solid, pocket_frame(cuts.solid, one))
    return thick - one.depth, thick


def _floor_to_outline(solid: Solid, one: Pocket, depth: float) -> tuple[float, float] | None:
    """The floor of a pocket that is cut in from a side: where the outline leaves least beyond it."""
    frame = pocket_frame(solid, one)
    ends = [one.u + one.length * share / _LOOKS for share in range(_LOOKS + 1)]
    corners = [frame.read((corner.x, corner.y, 0.0))[0] for corner in solid.outline]
    least: tuple[float, float] | None = None
    for u in (*ends, *(u for u in corners if one.u < u < one.u + one.length)):
        point = frame.point(u, one.v)
        for enter, leave in stretches_inside(solid.outline, point[:2], frame.inward[:2]):
            if enter <= depth + TINY_MM < leave and (least is None or leave - depth < least[0]):
                least = leave - depth, leave - max(enter, 0.0)
    return least


def _floor_across(solid: Solid, one: Pocket, depth: float) -> tuple[float, float] | None:
    """The floor of a pocket in a round part's side: to the far side where it is nearest, or to the bore."""
    radius, bore = solid.diameter / 2.0, solid.bore / 2.0
    height = radius - depth
    nearest = 0.0 if one.v <= 0.0 <= one.v + one.width else min(abs(one.v), abs(one.v + one.width))
    farthest = max(abs(one.v), abs(one.v + one.width))
    if bore > 0.0:
        left = height - math.sqrt(max(0.0, bore**2 - nearest**2))
        return (left, radius - bore) if nearest < bore and left > TINY_MM else None
    if farthest >= radius:  # a flat
        return radius + height, solid.diameter
    return height + math.sqrt(radius**2 - farthest**2), solid.diameter


def floor_trouble(cuts: PartCuts, pocket: PocketCut, least: float, better: float) -> Trouble | None:
    """Look at a pocket's own floor.

    Args:
        cuts: the part's cuts.
        pocket: one of its pockets.
        least: the floor that must be left [mm]; half the thickness of a part thinner than twice that.
        better: the floor that should be left [mm]; a quarter of the thickness where that is less.

    Returns:
        What is wrong, or None.

    Source: common practice.
    """
    found = floor_of(cuts, pocket)
    if found is None:
        return None
    left, thick = found
    must, should = min(least, thick / 2.0), min(better, thick / 4.0)
    limit = max(must, should)
    if left >= limit - TINY_MM:
        return None
    spot = _middle(cuts, pocket)
    name = f"{capital(pocket.name)} in the {pocket.pocket.face} of {cuts.part}"
    depth = pocket.geometry.depth or 0.0
    if left <= TINY_MM:
        out = "goes right through" if depth >= thick - TINY_MM else "comes out of the far side"
        says = (
            f"{name} is {depth:g} mm deep in {thick:g} mm, so it {out}: make it less deep, or "
            "leave its depth out if it is meant to."
        )
        return Trouble("error", says, left, must, (spot,), "depth")
    thin = left < must - TINY_MM
    says = (
        f"{name} leaves a floor of {left:.3g} mm, {depth:g} mm deep in {thick:g} mm"
        f"{f', and {must:g} mm is the least' if thin and must < limit else ''}: leave {limit:g} mm."
    )
    return Trouble("error" if thin else "warning", says, left, must if thin else limit, (spot,), "depth")


def pockets_meet(cuts: PartCuts, a: PocketCut, b: PocketCut, least: float) -> Trouble | None:
    """Look at two pockets from different faces.

    Args:
        cuts: the part's cuts.
        a: a pocket.
        b: another.
        least: what should be left between them [mm].

    Returns:
        What is wrong, or None.

    Source: this project.
    """
    if a.pocket.face == b.pocket.face and a.geometry.angle == b.geometry.angle:
        return None
    if open_at_edge(cuts, a) or open_at_edge(cuts, b):
        return None
    if a.geometry.depth is None or b.geometry.depth is None:
        return None
    near = apart(a.shape, b.shape, enough=least)
    if near.distance >= least - TINY_MM:
        return None
    where = f"{a.name} in the {a.pocket.face} and {b.name} in the {b.pocket.face} of {cuts.part}"
    spots = (_middle(cuts, a), _middle(cuts, b))
    if near.distance <= 0.0:
        by = f", {-near.distance:.1f} mm into one another" if near.distance < -0.05 else ""
        # Mortises from neighbouring faces of a leg often meet, for tenons that are mitred or shortened.
        opposite = abs(dot(_inward(cuts, a), _inward(cuts, b))) > 0.5
        then = "make one less deep, or move it" if opposite else "see that what lies in them has room"
        says = f"{capital(where)} meet{by}: {then}."
        return Trouble("error" if opposite else "warning", says, near.distance, least, spots)
    says = f"Only {near.distance:.1f} mm is left between {where}: leave {least:g} mm."
    return Trouble("warning", says, near.distance, least, spots)


def _inward(cuts: PartCuts, pocket: PocketCut) -> Vector:
    return pocket_frame(cuts.solid, pocket.geometry).inward


def _middle(cuts: PartCuts, pocket: PocketCut) -> Spot:
    one = pocket.geometry
    u, v = one.u + one.length / 2.0, one.v + one.width / 2.0
    if one.face == "side":
        v = one.angle
    return Spot(cuts.part, one.face, u, v, max(3.0, min(one.length, one.width) / 2.0))
