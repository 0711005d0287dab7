"""Rules for folded sheet: holes near bends, how tight a bend is, how long the flat piece is."""

from __future__ import annotations

import math
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.geometry.bends import Bend as Fold
from calculators.geometry.bends import allowance, bend_of, flat_blank, k_of_ratio
from calculators.geometry.frames import face_frame
from calculators.geometry.model import Solid
from calculators.joints.limits import Limit
from calculators.joints.model import Mend, Severity, Spot
from calculators.materials import Material
from calculators.planning.checks.rule import CP, BuildRule, Seen, part_rule, setting, unchecked
from calculators.planning.checks.shifting import millimetres, step_from
from calculators.planning.checks.site import PartSite
from calculators.planning.model import Bend
from calculators.planning.worked import WorkedHole
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

_TINY = 1e-6
_BY_KIND = {
    "brass": "half-hard brass", "copper": "soft copper", "bronze": "phosphor bronze", "steel": "mild steel",
    "stainless steel": "stainless steel", "aluminium": "half-hard aluminium",
}  # fmt: skip
_BY_NAME = {
    "aluminium 6082": "hard aluminium", "aluminium 6061": "hard aluminium", "spring steel": "spring steel",
    "music wire": "spring steel",
}  # fmt: skip
_SOFTENED = {
    "half-hard brass": "soft brass", "hard brass": "soft brass", "half-hard aluminium": "soft aluminium",
    "hard aluminium": "soft aluminium",
}  # fmt: skip
"""What a metal is bent as where no temper is stated, and after it was annealed."""


@part_rule(
    "hole-to-bend",
    "metal parts",
    "From the edge of a hole to the inside of the other leg of a bend there are 2.5 thicknesses and the "
    "radius.",
    CP,
    Limit("hole-to-bend-least", 1.5, "t", CP, "hole's edge to the beginning of a bend, at the very least"),
    Limit("hole-to-bend", 2.5, "t", CP, "hole's edge to the beginning of a bend"),
)
def _hole_to_bend(site: PartSite) -> Iterator[Seen]:
    """Holes that a bend pulls out of round."""
    solid = site.solid
    if solid is None or solid.shape != "block" or not site.component.bends:
        return
    for bend in site.component.bends:
        for one in site.holes:
            if one.u_mm is not None and one.v_mm is not None and one.face in ("top", "bottom"):
                yield from _near_bend(site, solid, bend, one)


def _near_bend(site: PartSite, solid: Solid, bend: Bend, hole: WorkedHole) -> Iterator[Seen]:
    t = solid.thickness
    radius = bend.radius.mm if bend.radius is not None else t
    half = _half_bend(t, radius, float(bend.angle_deg))
    wide = _width_mm(hole)
    assert hole.u_mm is not None
    assert hole.v_mm is not None
    if half is None or wide is None:
        return
    axis = 0 if bend.runs == "across" else 1
    point = face_frame(solid, hole.face).point(hole.u_mm, hole.v_mm)
    away = point[axis] - bend.at.mm
    straight = abs(away) - wide[axis] / 2.0 - half
    least, good = site.limits["hole-to-bend-least"] * t, site.limits["hole-to-bend"] * t
    if straight >= good - _TINY:
        return
    severity: Severity = "error" if straight < least - _TINY else "warning"
    limit = (least if severity == "error" else good) + radius
    name = f"The hole of {hole.joint} at place {hole.place}" if hole.joint else f"Hole {_id(hole)}"
    assumed = "" if bend.radius is not None else f" (its radius is not given: {radius:g} mm, the thickness)"
    cost = "will be pulled out of round" if severity == "error" else "may be pulled out of round"
    says = (
        f"{name} in {site.mark} is {max(straight + radius, 0.0):.1f} mm from the inside of the other leg of "
        f"bend {bend.id}{assumed}; {good + radius:.1f} mm is wanted: it {cost}."
    )
    path = (
        f"joints[{hole.joint}].places[{hole.place}]" if hole.joint
        else f"components[{site.mark}].holes[{_id(hole)}]"
    )  # fmt: skip
    yield Seen(
        severity, says, hole.joint, site.mark, hole.place or _id(hole), straight + radius, limit, "mm",
        _away_from_bend(site, solid, hole, axis, away, good - straight), path,
        (Spot(site.mark, hole.face, hole.u_mm, hole.v_mm, max(wide[0] / 2.0, 2.0)),),
    )  # fmt: skip


def _id(hole: WorkedHole) -> str:
    return hole.direct.id if hole.direct is not None else hole.place


def _half_bend(thickness: float, radius: float, angle_deg: float) -> float | None:
    """How much of the flat sheet on either side of a bend's line goes into the bend [mm]."""
    try:
        k = k_of_ratio(radius, thickness) if radius >= 0.1 * thickness else 1.0 / 3.0
        return allowance(thickness, radius, angle_deg, k) / 2.0
    except InputError:
        return None


def _width_mm(hole: WorkedHole) -> tuple[float, float] | None:
    """How wide a hole is along X and along Y; a slot is long one way."""
    if hole.hole is not None:
        d, slot, along = hole.hole.diameter_mm, hole.hole.slot_length_mm, hole.hole.slot_along
    elif hole.direct is not None and hole.direct.diameter is not None:
        d, along = hole.direct.diameter.mm, hole.direct.slot_along
        slot = hole.direct.slot_length.mm if hole.direct.slot_length is not None else None
    else:
        return None
    long = max(d, slot or 0.0)
    return (long if along == "u" else d, long if along == "v" else d)


def _away_from_bend(
    site: PartSite, solid: Solid, hole: WorkedHole, axis: int, away: float, by: float
) -> tuple[Mend, ...]:
    """Move a hole by hand away from the bend where the flat sheet has room for it; else drill it later."""
    later = Mend("Drill it after bending.")
    frame = face_frame(solid, hole.face)
    name, now = ("u", hole.u_mm) if axis == 0 else ("v", hole.v_mm)
    assert now is not None
    how = frame.u_axis if axis == 0 else frame.v_axis
    step = step_from(now, by) * (1.0 if away >= 0 else -1.0)
    new, (low, high) = now + step * how[axis], frame.u_range if axis == 0 else frame.v_range
    if hole.direct is None or not low + _room(hole) <= new <= high - _room(hole):
        return (later,)
    path = f"components[{site.mark}].holes[{_id(hole)}].{name}"
    return (setting(f"Move it {abs(step):g} mm away from the bend.", (path, millimetres(new))), later)


def _room(hole: WorkedHole) -> float:
    """How far from an edge a hole that is moved should at least stay [mm] (common practice)."""
    wide = _width_mm(hole)
    return 1.5 * wide[0] if wide else 0.0


@dataclass(frozen=True, slots=True)
class _Least:
    """The least radius of a metal's bends [mm], and what it was taken for."""

    mm: float
    metal: str


@part_rule(
    "bend-radius",
    "metal parts",
    "The inside radius of a bend is no less than the thickness, more in hard metal and along the rolling.",
    "common practice; least radii of metals from memory",
    Limit(
        "bend-radius-least", 0.5, "1", CP, "inside radius of a bend, of the usual least, at the very least"
    ),
    Limit("bend-radius", 1.0, "1", CP, "inside radius of a bend, of the usual least for its metal"),
)
def _bend_radius(site: PartSite) -> Iterator[Seen]:
    """Bends that crack."""
    solid, bends = site.solid, site.component.bends
    if not bends or solid is None or solid.shape != "block":
        return
    lacking = [bend.id for bend in bends if bend.radius is None]
    if lacking:
        names = " and ".join(lacking)
        says = (
            f"The inside radius of bend {names} of {site.mark} is not given: whether it cracks is not looked "
            "at."
        )
        yield unchecked(says, part=site.mark, at=f"components[{site.mark}].bends[{lacking[0]}].radius")
    material = site.material
    if material is None or not material.is_metal:
        return
    for bend in bends:
        if bend.radius is not None:
            yield from _tight(site, material, bend, bend.radius.mm, solid.thickness)


def _least_radius(material: Material, bend: Bend, t: float, *, annealed: bool, along: bool) -> _Least:
    name = _BY_NAME.get(material.name) or _BY_KIND.get(material.kind, "mild steel")
    name = _SOFTENED.get(name, name) if annealed else name
    row: Row = load("bend_radii").row(name)
    factor = row.number("along" if along else "across")
    if not annealed:
        factor = max(factor, 1.0)
    return _Least(factor * t, name)


def _tight(site: PartSite, material: Material, bend: Bend, radius: float, t: float) -> Iterator[Seen]:
    along = bend.rolling == "along"
    usual = _least_radius(material, bend, t, annealed=bend.annealed, along=along)
    good, least = site.limits["bend-radius"] * usual.mm, site.limits["bend-radius-least"] * usual.mm
    if radius >= good - _TINY:
        return
    severity: Severity = "error" if radius < least - _TINY else "warning"
    cost = "it cracks" if severity == "error" else "it may crack"
    how = " along the rolling" if along else ""
    says = (
        f"Bend {bend.id} of {site.mark} has an inside radius of {radius:g} mm in {t:g} mm sheet; for "
        f"{usual.metal}{how} {good:.3g} mm or more is usual: {cost}. Try a strip first."
    )
    path = f"components[{site.mark}].bends[{bend.id}]"
    mends = [setting(f"Bend it to {millimetres(_tidy(good))}.", (f"{path}.radius", millimetres(_tidy(good))))]
    soft = _least_radius(material, bend, t, annealed=True, along=along)
    if (
        not bend.annealed
        and soft.metal != usual.metal
        and radius >= site.limits["bend-radius"] * soft.mm - _TINY
    ):
        mends.append(setting("Anneal it along the bend first.", (f"{path}.annealed", "true")))
    turned = _least_radius(material, bend, t, annealed=bend.annealed, along=False)
    if along and radius >= site.limits["bend-radius"] * turned.mm - _TINY:
        mends.append(
            setting("Cut the blank so that it is bent across the rolling.", (f"{path}.rolling", "across"))
        )
    yield Seen(
        severity, says, "", site.mark, bend.id, radius, least if severity == "error" else good, "mm",
        tuple(mends), f"{path}.radius", _line(site, bend),
    )  # fmt: skip


def _tidy(value: float) -> float:
    return math.ceil(value * 10.0 - 1e-6) / 10.0


def _line(site: PartSite, bend: Bend) -> tuple[Spot, ...]:
    """The bend's line on the face of the flat sheet."""
    solid = site.solid
    if solid is None:
        return ()
    if bend.runs == "across":
        return (Spot(site.mark, "top", bend.at.mm, 0.0, 2.0, bend.at.mm, solid.width),)
    return (Spot(site.mark, "top", 0.0, bend.at.mm, 2.0, solid.length, bend.at.mm),)


@part_rule(
    "flat-length",
    "metal parts",
    "A folded part's flat length is that of its legs less what the bends take.",
    "geometry; k by radius and thickness: DIN 6935 (from memory); common practice",
    Limit("flat-length-most", 1.0, "mm", CP, "flat piece and folded legs apart, at the very most"),
    Limit("flat-length", 0.3, "mm", CP, "flat piece and folded legs apart"),
)
def _flat_length(site: PartSite) -> Iterator[Seen]:
    """Whether the flat piece makes the legs that are wanted."""
    one, solid = site.component, site.solid
    bends = sorted((each for each in one.bends if each.runs == "across"), key=lambda each: each.at.mm)
    if not one.legs or not bends or solid is None or solid.shape != "block" or one.size.length is None:
        return
    path = f"components[{site.mark}]"
    if len(one.legs) != len(bends) + 1:
        says = (
            f"{site.mark} has {len(one.legs)} legs and {len(bends)} bend{'s' if len(bends) > 1 else ''} "
            "across its length; there is one leg more than bends, so its flat length is not looked at."
        )
        yield unchecked(says, part=site.mark, at=f"{path}.legs")
        return
    if any(each.radius is None for each in bends):
        return  # told by bend-radius
    legs, t, length = [each.mm for each in one.legs], solid.thickness, one.size.length.mm
    try:
        folds = [_fold(each, t) for each in bends]
        blank = flat_blank(legs, folds)
    except InputError as error:
        says = f"The folds of {site.mark} cannot be laid out flat: {error.faults[0].says}"
        yield Seen("error", says, part=site.mark, at=f"{path}.legs")
        return
    off = length - blank.length_mm
    most, good = site.limits["flat-length-most"], site.limits["flat-length"]
    if abs(off) <= good + _TINY:
        return
    severity: Severity = "error" if abs(off) > most + _TINY else "warning"
    sums = " + ".join(f"{leg:g}" for leg in legs) + "".join(f" - {each.deduction_mm:.2f}" for each in folds)
    says = (
        f"{site.mark} is {length:g} mm long in the flat; its legs want {sums} = {blank.length_mm:.2f} mm: "
        f"{abs(off):.2f} mm too {'long' if off > 0 else 'short'}."
    )
    exact = millimetres(blank.length_mm)
    mend = setting(f"Cut it {exact} long.", (f"{path}.size.length", exact))
    yield Seen(
        severity, says, "", site.mark, "", abs(off), most if severity == "error" else good, "mm", (mend,),
        f"{path}.size.length",
    )  # fmt: skip


def _fold(bend: Bend, t: float) -> Fold:
    assert bend.radius is not None
    return bend_of(t, bend.radius.mm, float(bend.angle_deg), k_of_ratio(bend.radius.mm, t))


RULES: tuple[BuildRule, ...] = (_hole_to_bend, _bend_radius, _flat_length)
