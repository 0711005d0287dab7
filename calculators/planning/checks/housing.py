"""Rules for parts let into pockets of others: corners, depth, room."""

from __future__ import annotations

import math
from collections.abc import Callable, Iterator

from calculators.geometry.recesses import corner_radius_needed, largest_cutter_radius
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Spot
from calculators.planning.checks import panels
from calculators.planning.checks.housed import Across, Housed, housed_pairs
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.shifting import millimetres
from calculators.planning.checks.site import Site
from calculators.quantities.errors import InputError
from calculators.quantities.reading import read_length

CORNER = Limit("recess-corner-most", 0.2, "mm", CP, "a corner that overlaps its recess more does not go in")
PROUD = Limit("recess-proud", 0.2, "mm", CP, "a part meant flush may stand proud or lie sunk by this much")
TIGHT = Limit("recess-tight", 0.1, "mm", CP, "a part may be larger than its pocket by this much")
LOOSE = Limit("recess-loose", 1.0, "mm", CP, "play on each side of a part in its pocket")

_MEANT_MM, _MEANT_SHARE = 1.0, 0.25
"""A part is meant flush when it is within this of its pocket's depth, or within this share of it."""

_LOOSE_MOST = 3.0
"""A pocket with more play than three times the limit on a side is a room for the part, no fit."""

Score = Callable[[Housed], float]


def _worst(site: Site, score: Score) -> Iterator[tuple[Housed, float, int]]:
    """Give each part in its pocket once, at its worst copies, with their number."""
    worst: dict[tuple[str, str, str], tuple[Housed, float, int]] = {}
    for one in housed_pairs(site):
        value = score(one)
        if value <= 1e-6:
            continue
        had = worst.get(one.key)
        count = (had[2] if had else 0) + 1
        if had is None or (-value, one.part.name) < (-had[1], had[0].part.name):
            worst[one.key] = (one, value, count)
        else:
            worst[one.key] = (had[0], had[1], count)
    yield from (worst[key] for key in sorted(worst))


@build_rule(
    "recess-corner",
    "holes and pockets",
    "The corners of a part let into a pocket are no sharper than the cutter leaves the pocket's.",
    "geometry: (R - r)(sqrt 2 - 1) - c sqrt 2; 0.2 mm: common practice",
    CORNER,
)
def _recess_corner(site: Site) -> Iterator[Seen]:
    """Look at each corner of the pocket that the part fills, with the clearance on either side.

        overlap = sqrt((r - cu - p)^2 + (r - cv - p)^2) + p - r

    for a pocket's radius r, a part's radius p and clearances cu, cv: with like clearances c it is
    (r - p)(sqrt 2 - 1) - c sqrt 2. Corners squared by hand count as sharp.
    """
    most = site.limits["recess-corner-most"]
    for one, overlap, _ in _worst(site, lambda each: max((far for far, _, _ in _corners(each)), default=0.0)):
        corners = [corner for corner in _corners(one) if corner[0] > 1e-6]
        r, p = one.geometry.corner_radius, one.part_corner
        error = overlap > most + 1e-6
        limit = f", and {most:g} is the most that gives way" if error else ""
        says = (
            f"{one.part.mark} does not go into pocket {one.pocket.id} of {one.holder.mark}: its corners "
            f"(radius {p:.4g}) meet the corners that the cutter leaves (radius {r:.4g}) by {overlap:.3g} mm "
            f"on the diagonal{limit}. Square the pocket's corners by chisel, take a smaller cutter, or round "
            f"the corners of {one.part.mark}."
        )
        spots = tuple(Spot(one.holder.mark, one.pocket.face, u, v, max(3.0, r)) for _, u, v in corners)
        yield Seen(
            "error" if error else "warning", says, part=one.holder.mark, place=one.pocket.id, value=overlap,
            limit=most, unit="mm", mends=tuple(_corner_mends(one, site)), spots=spots,
            at=f"{one.path}.{'corner_radius' if one.pocket.corner_radius else 'cutter'}",
        )  # fmt: skip


def _corners(one: Housed) -> Iterator[tuple[float, float, float]]:
    """Give how far the part overlaps each corner of its pocket [mm], with the corner's u and v."""
    r, p = one.geometry.corner_radius, one.part_corner
    u_low, u_high = one.u.clearances()
    v_low, v_high = one.v.clearances()
    for at_u, cu, u_wall in ((0.0, u_low, one.u.low_wall), (1.0, u_high, one.u.high_wall)):
        for at_v, cv, v_wall in ((0.0, v_low, one.v.low_wall), (1.0, v_high, one.v.high_wall)):
            du, dv = r - max(cu, 0.0) - p, r - max(cv, 0.0) - p
            if not (u_wall and v_wall) or du <= 0.0 or dv <= 0.0:
                continue
            u = one.geometry.u + at_u * one.geometry.length
            v = one.geometry.v + at_v * one.geometry.width
            yield math.hypot(du, dv) + p - r, u, v


def _corner_mends(one: Housed, site: Site) -> Iterator[Mend]:
    yield setting(
        f"Square the corners of pocket {one.pocket.id} in {one.holder.mark} by chisel.",
        (f"{one.path}.squared", "true"),
    )
    clearance = max(min(one.u.side, one.v.side), 0.0)
    clearance = min(clearance, *(max(value, 0.0) for value in (*one.u.clearances(), *one.v.clearances())))
    most = 2.0 * largest_cutter_radius(one.part_corner, clearance)
    owned = [
        (found, line)
        for line, found in ((line, _diameter(line)) for line in site.context.cutters)
        if found is not None and 0.0 < found <= min(most, one.u.pocket, one.v.pocket) + 1e-9
    ]
    if owned:
        _, line = max(owned)
        fields = [(f"{one.path}.cutter", line)]
        if one.pocket.corner_radius:
            fields.insert(0, (f"{one.path}.corner_radius", ""))
        yield setting(f"Cut pocket {one.pocket.id} with the {line} cutter.", *fields)
    needed = math.ceil(corner_radius_needed(one.geometry.corner_radius, clearance) * 2.0 - 1e-6) / 2.0
    solid = one.part.site.solid
    if solid is not None and needed <= min(solid.length, solid.width) / 2.0:
        yield setting(
            f"Round the corners of {one.part.mark} to {needed:g} mm.",
            (f"components[{one.part.mark}].corner_radius", millimetres(needed)),
        )


def _diameter(line: str) -> float | None:
    try:
        return read_length(line, field="cutters", maximum_mm=1000.0).mm
    except InputError:
        return None


@build_rule(
    "recess-depth",
    "holes and pockets",
    "A part that is let in flush is as thick as its pocket is deep.",
    CP,
    PROUD,
)
def _recess_depth(site: Site) -> Iterator[Seen]:
    """Look at parts that lie on the floor of their pocket and are nearly as thick as it is deep."""
    limit = site.limits["recess-proud"]
    for one, off, _ in _worst(site, _off_flush):
        if off <= limit + 1e-6:
            continue
        proud = one.thickness > one.depth
        says = (
            f"{one.part.mark} is {one.thickness:.4g} mm thick in pocket {one.pocket.id} of "
            f"{one.holder.mark}, which is {one.depth:.4g} mm deep: it "
            f"{'stands' if proud else 'lies'} {off:.3g} mm {'proud' if proud else 'sunk'}. "
            f"Cut the pocket {one.thickness:.4g} mm deep, or make {one.part.mark} to suit."
        )
        to = millimetres(one.thickness)
        fields = [(f"{one.path}.depth", to)]
        for name in one.part.site.copies:
            copy = name.removeprefix(one.part.mark).removeprefix(".") or "1"
            pose = next((each for each in one.part.site.component.poses if str(each.copy) == copy), None)
            if pose is not None and abs(pose.let_in.mm - one.depth) < 0.2:
                fields.append((f"components[{one.part.mark}].poses[{copy}].let_in", to))
        yield Seen(
            "warning", says, part=one.holder.mark, place=one.pocket.id, value=off, limit=limit, unit="mm",
            mends=(setting(f"Cut pocket {one.pocket.id} {to} deep.", *fields),), at=f"{one.path}.depth",
            spots=(_middle(one),),
        )  # fmt: skip


def _off_flush(one: Housed) -> float:
    if math.isinf(one.depth) or abs(one.goes_in - one.depth) > 0.2 or not (one.u.closed or one.v.closed):
        return 0.0
    off = abs(one.thickness - one.depth)
    return off if off <= max(_MEANT_MM, _MEANT_SHARE * min(one.depth, 4 * _MEANT_MM)) else 0.0


def _middle(one: Housed) -> Spot:
    pocket = one.geometry
    return Spot(
        one.holder.mark, one.pocket.face, pocket.u + pocket.length / 2.0, pocket.v + pocket.width / 2.0,
        max(3.0, min(pocket.length, pocket.width) / 2.0),
    )  # fmt: skip


@build_rule(
    "recess-fit",
    "holes and pockets",
    "A pocket is no smaller than the part that is let into it, and not much larger.",
    CP,
    TIGHT,
    LOOSE,
)
def _recess_fit(site: Site) -> Iterator[Seen]:
    """Look across the part wherever it lies between two walls of its pocket."""
    tight, loose = site.limits["recess-tight"], site.limits["recess-loose"]
    for one, short, _ in _worst(site, lambda each: _short(each, tight)):
        word, across = _named(one, max((one.u, one.v), key=lambda each: _between(each)))
        says = (
            f"Pocket {one.pocket.id} of {one.holder.mark} is {across.pocket:.5g} mm {word}, and "
            f"{one.part.mark}, which is let into it, {across.part:.5g} mm: it is {short:.3g} mm too small."
        )
        field = "length" if across is one.u else "width"
        place = "u" if field == "length" else "v"
        start = getattr(one.geometry, place) + across.low
        mend = setting(
            f"Cut pocket {one.pocket.id} {millimetres(across.part)} {word}.",
            (f"{one.path}.{place}", millimetres(start)),
            (f"{one.path}.{field}", millimetres(across.part)),
        )
        yield Seen(
            "error", says, part=one.holder.mark, place=one.pocket.id, value=-short, limit=0.0, unit="mm",
            mends=(mend,), at=f"{one.path}.{field}", spots=(_middle(one),),
        )  # fmt: skip
    for one, play, _ in _worst(site, lambda each: _play(each, loose)):
        says = (
            f"{one.part.mark} has {play:.3g} mm of play on each side in pocket {one.pocket.id} of "
            f"{one.holder.mark}: more than {loose:g} mm is a loose fit."
        )
        yield Seen(
            "note", says, part=one.holder.mark, place=one.pocket.id, value=play, limit=loose, unit="mm",
            at=one.path, spots=(_middle(one),),
        )  # fmt: skip


def _between(across: Across) -> float:
    return across.part - across.pocket if across.closed else -math.inf


def _short(one: Housed, tight: float) -> float:
    return max(_between(one.u), _between(one.v)) if one.too_tight(tight) else 0.0


def _named(one: Housed, across: Across) -> tuple[str, Across]:
    """Say whether it is the longer or the shorter side of the pocket."""
    return ("long" if across.pocket >= max(one.u.pocket, one.v.pocket) else "wide"), across


def _play(one: Housed, loose: float) -> float:
    """The play on each side of a part that nearly fits its pocket both ways; nought for any other."""
    if not (one.u.closed and one.v.closed) or one.part.site.component.motion is not None:
        return 0.0
    play = max(one.u.side, one.v.side)
    return play if loose + 1e-6 < play <= _LOOSE_MOST * loose else 0.0


RULES: tuple[BuildRule, ...] = (_recess_corner, _recess_depth, _recess_fit, *panels.RULES)
