"""The rule for how near to one another screws stand in one piece of wood."""

from __future__ import annotations

import math
from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass, replace
from functools import lru_cache

from calculators.geometry.features import edge_distances
from calculators.geometry.frames import face_frame
from calculators.geometry.model import Face, Solid
from calculators.geometry.vectors import Vector
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Severity, Spot
from calculators.planning.checks.keeping import looked_at
from calculators.planning.checks.rule import BuildRule, Seen, build_rule
from calculators.planning.checks.shifting import own_way, shifted_place, step_from
from calculators.planning.checks.site import JointSite, PartSite, Site
from calculators.tables import load

_EN = "EN 1995-1-1 table 8.2, a1 and a2; over 6 mm table 8.4 (from memory)"
_FACES: tuple[Face, ...] = ("top", "bottom", "front", "back")
"""The faces with side grain: the screws go in across the grain, and wood splits from one to the next."""

_DENSE_GRAVITY = 0.45
"""About 430 kg/m3 characteristic: 0.45 x 1.12 x 1000 x 0.85 (0.85 of the mean: common practice)."""

_THICK_MM = 6.0
_TINY = 1e-6


@dataclass(frozen=True, slots=True)
class _Screw:
    """A screw that holds in a face: along and across the grain [mm], its diameter [mm], how it is loaded."""

    joint: str
    place: str
    face: Face
    u: float
    v: float
    along: float
    across: float
    d: float
    loaded: bool
    drilled: bool
    copies: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class _Pair:
    """Two screws, how far apart they are and how far they should be along and across the grain [mm]."""

    first: _Screw
    second: _Screw
    along: float
    across: float
    along_wanted: float
    across_wanted: float

    @property
    def share(self) -> float:
        """How far apart they are, of what is wanted that way: 1 on the ellipse of both distances."""
        return math.hypot(self.along / self.along_wanted, self.across / self.across_wanted)


@dataclass(frozen=True, slots=True)
class _Found:
    """Of a part: the worst pair of each two joints, and how many more of theirs are too near."""

    part: str
    worst: tuple[tuple[_Pair, int], ...]


@build_rule(
    "spacing-in-wood",
    "wood",
    "Screws in one piece of wood stand 4 diameters apart along the grain and 3 across it (5 and 4 where they "
    "are loaded sideways, more where no pilot hole is drilled); staggered ones by the ellipse of the two.",
    f"{_EN}; the ellipse and half of the distance as an error: common practice",
    Limit("screws-apart-least", 50.0, "%", "common practice", "screws in wood, of the distance wanted, "
          "at the very least"),
    Limit("screws-apart", 100.0, "%", _EN, "screws in wood, of the distance wanted between them"),
)  # fmt: skip
def _spacing_in_wood(site: Site) -> Iterator[Seen]:
    """How near screws stand in one piece of wood: of one joint and of different ones."""
    for pairs in looked_at(site, "spacing-in-wood", _groups(site), _pairs_of):
        for pair, others in pairs.worst:
            yield _seen(site, pairs.part, pair, others)


def _groups(site: Site) -> Iterator[tuple[object, ...]]:
    """Each part of solid wood with at least two screws that hold in it, and the joints that they are of."""
    for part in site.parts.values():
        pilots = [one.joint for one in part.holes if one.hole is not None and one.hole.kind == "pilot"]
        if len(pilots) < 2 or part.material is None or not part.material.is_solid_wood:
            continue
        if part.solid is not None and part.solid.shape == "block":
            yield (part, *(site.joints[mark] for mark in dict.fromkeys(pilots) if mark in site.joints))


def _pairs_of(things: tuple[object, ...]) -> _Found:
    """The pairs of screws in a part that stand too near."""
    part, joints = things[0], [one for one in things[1:] if isinstance(one, JointSite)]
    assert isinstance(part, PartSite)
    assert part.material is not None
    gravity = part.material.specific_gravity
    dense = gravity is not None and gravity >= _DENSE_GRAVITY
    wanted = part.limits["screws-apart"] / 100.0
    found: dict[tuple[str, str], list[_Pair]] = defaultdict(list)
    for pair in _near(_screws(part, {one.mark: one for one in joints}), dense, wanted):
        found[pair.first.joint, pair.second.joint].append(pair)
    worst = tuple((min(pairs, key=lambda one: one.share), len(pairs) - 1) for pairs in found.values())
    return _Found(part.mark, worst)


def _screws(part: PartSite, joints: dict[str, JointSite]) -> list[_Screw]:
    assert part.solid is not None
    screws = []
    frames = {face: face_frame(part.solid, face) for face in _FACES}
    for one in part.holes:
        if one.hole is None or one.hole.kind != "pilot" or one.face not in frames or one.joint not in joints:
            continue
        if one.u_mm is None or one.v_mm is None:
            continue
        joint = joints[one.joint]
        x, y, z = frames[one.face].point(one.u_mm, one.v_mm)
        across = y if one.face in ("top", "bottom") else z
        screws.append(
            _Screw(one.joint, one.place, one.face, one.u_mm, one.v_mm, x, across,
                   joint.groups[0].result.major_mm, joint.joint.loaded_sideways,
                   _drilled(joint, part.mark, one.place), one.copies)
        )  # fmt: skip
    return screws


def _drilled(joint: JointSite, part: str, place: str) -> bool:
    """Whether a pilot hole is drilled there; it is unless a person says that it is not."""
    for group in joint.groups:
        if place and place not in group.places:
            continue
        for item in group.inputs.stack:
            if item.layer is not None and item.layer.part == part and not item.layer.hole.pilot:
                return False
    return True


def _near(screws: list[_Screw], dense: bool, wanted: float) -> Iterator[_Pair]:
    """Pairs on one face that are too near, in the order along the grain: a sweep, not each with each."""
    by_face: dict[Face, list[_Screw]] = defaultdict(list)
    for screw in screws:
        by_face[screw.face].append(screw)
    for on_face in by_face.values():
        on_face.sort(key=lambda one: (one.along, one.across, one.joint, one.place))
        farthest = 15.0 * wanted * max(one.d for one in on_face)
        for index, first in enumerate(on_face):
            for second in on_face[index + 1 :]:
                if second.along - first.along > farthest:
                    break
                if first.copies and second.copies and not set(first.copies) & set(second.copies):
                    continue
                pair = _pair(first, second, dense)
                if pair.share < wanted - _TINY:
                    yield pair


def _pair(first: _Screw, second: _Screw, dense: bool) -> _Pair:
    d = max(first.d, second.d)
    loaded = first.loaded or second.loaded
    along, across = _distances(d, dense, loaded, first.drilled and second.drilled)
    if (first.joint, _order(first.place)) > (second.joint, _order(second.place)):
        first, second = second, first
    return _Pair(
        first, second, abs(second.along - first.along), abs(second.across - first.across), along * d,
        across * d,
    )  # fmt: skip


def _order(place: str) -> tuple[int, str]:
    return (int(place) if place.isdecimal() else 10**9, place)


@lru_cache(maxsize=512)
def _distances(d: float, dense: bool, loaded: bool, drilled: bool) -> tuple[float, float]:
    """How far apart screws should be along and across the grain, in diameters."""
    if d > _THICK_MM + _TINY:
        name = "over 6 mm"
    elif drilled:
        name = "pilot drilled"
    elif dense:
        name = "not drilled dense"
    else:
        name = "not drilled" if d >= 5.0 else "not drilled under 5 mm"
    row, more = load("wood_screw_spacings").row(name), "_loaded" if loaded else ""
    return row.number(f"along{more}"), row.number(f"across{more}")


def _seen(site: Site, part: str, pair: _Pair, others: int) -> Seen:
    first, second = pair.first, pair.second
    share, least, good = 100.0 * pair.share, site.limits["screws-apart-least"], site.limits["screws-apart"]
    severity: Severity = "error" if share < least - _TINY else "warning"
    both = (
        f"Screws {first.place} and {second.place} of {second.joint}"
        if first.joint == second.joint
        else f"Screw {first.place} of {first.joint} and screw {second.place} of {second.joint}"
    )
    cost = "the wood splits from one to the other" if severity == "error" else "the wood may split between"
    more = f" {others} more pair{'s' if others > 1 else ''} of theirs stand too near." if others else ""
    says = (
        f"{both} are {pair.along:.1f} mm apart along the grain and {pair.across:.1f} across it in {part}; "
        f"{pair.along_wanted:.1f} along or {pair.across_wanted:.1f} across is wanted for "
        f"{max(first.d, second.d):.2f} "
        f"mm screws. That is {share:.0f} %: {cost}.{more}"
    )
    spots = tuple(Spot(part, one.face, one.u, one.v, max(one.d, 3.0)) for one in (first, second))
    return Seen(
        severity, says, second.joint, part, second.place, share, least if severity == "error" else good, "%",
        _mends(site, pair, part), f"joints[{second.joint}].places[{second.place}]", spots,
    )  # fmt: skip


def _mends(site: Site, pair: _Pair, part: str) -> tuple[Mend, ...]:
    """Move one of the two away from the other, the way that is shorter first; else words."""
    solid = site.parts[part].solid
    assert solid is not None
    far = _farther(site, pair)
    for screw, other, way, how_far in (
        (pair.second, pair.first, "along", far[0]), (pair.first, pair.second, "along", far[0]),
        (pair.second, pair.first, "across", far[1]), (pair.first, pair.second, "across", far[1]),
    ):  # fmt: skip
        for sign in (1.0, -1.0) if getattr(screw, way) == getattr(other, way) else (0.0,):
            step = how_far * (sign or math.copysign(1.0, getattr(screw, way) - getattr(other, way)))
            if how_far > 0.0 and (mend := _moved(site, solid, screw, part, way, step)) is not None:
                return (mend,)
    return (Mend("Set them further apart, stagger them, or use fewer or thinner screws."),)


def _farther(site: Site, pair: _Pair) -> tuple[float, float]:
    """How much farther apart they must be, along the grain alone or across it alone [mm]."""
    wanted = site.limits["screws-apart"] / 100.0
    along, across = pair.along_wanted * wanted, pair.across_wanted * wanted
    x = along * math.sqrt(max(0.0, 1.0 - (pair.across / across) ** 2)) - pair.along
    y = across * math.sqrt(max(0.0, 1.0 - (pair.along / along) ** 2)) - pair.across
    first, second = pair.first, pair.second
    return step_from(first.u + second.u, x), step_from(first.v + second.v, y)


def _moved(site: Site, solid: Solid, screw: _Screw, part: str, way: str, step: float) -> Mend | None:
    """The mend where the screw then stands on its face, free of all others, and no worse in its joint."""
    site_part = site.parts[part]
    joints = {one.joint: site.joints[one.joint] for one in site_part.holes if one.joint in site.joints}
    screws = _screws(site_part, joints)
    same = [one for one in screws if (one.joint, one.place) == (screw.joint, screw.place)]
    if len(same) != 1:
        return None  # moving the place moves more than this one screw
    du, dv = _on_face(solid, screw.face, way, step)
    moved = replace(screw, u=screw.u + du, v=screw.v + dv, **{way: getattr(screw, way) + step})
    if edge_distances(solid, moved.face, moved.u, moved.v).least_mm < 3.0 * moved.d:
        return None
    assert site_part.material is not None
    dense = (site_part.material.specific_gravity or 0.0) >= _DENSE_GRAVITY
    wanted = site.limits["screws-apart"] / 100.0
    rest = [one for one in screws if one is not same[0] and one.face == moved.face]
    if any(_pair(moved, one, dense).share < wanted - _TINY for one in rest):
        return None
    own: Vector = own_way(solid, screw.face, du, dv)
    return shifted_place(site, site.joints[screw.joint].joint, screw.place, part, own)


def _on_face(solid: Solid, face: Face, way: str, step: float) -> tuple[float, float]:
    """A step along or across the grain, in the face's own u and v."""
    frame = face_frame(solid, face)
    if way == "along":
        return step * frame.u_axis[0], 0.0
    across = 1 if face in ("top", "bottom") else 2
    return 0.0, step * frame.v_axis[across]


RULES: tuple[BuildRule, ...] = (_spacing_in_wood,)
