"""Rules for wood: its grain, its moisture, what spans it; screws near one another are in `spacing.py`."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.geometry.frames import face_frame
from calculators.joints.limits import Limit
from calculators.planning.checks import across_grain, spacing
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, part_rule, setting, unchecked
from calculators.planning.checks.site import JointSite, PartSite, Site
from calculators.planning.model import Component, Moisture
from calculators.planning.movement import IGNORED_SPAN_MM

_TINY = 1e-6
_NAMED = 6
"""So many marks are named in one sentence."""


def _marks(marks: list[str]) -> str:
    """Marks in a sentence: the first few, and how many more."""
    shown, more = marks[:_NAMED], len(marks) - _NAMED
    if more > 0:
        return f"{', '.join(shown)} and {more} more"
    return f"{', '.join(shown[:-1])} and {shown[-1]}" if len(shown) > 1 else shown[0]


@part_rule(
    "grain-said",
    "wood",
    "Every part of solid wood says how its grain runs: along its length; and how it was sawn where fixings "
    "span it.",
    CP,
    Limit("grain-small", 60.0, "mm", CP, "a part no wider than this may lie across its length unasked"),
    Limit(
        "grain-cut-span", IGNORED_SPAN_MM, "mm", CP, "fixings this far across the grain ask how it was sawn"
    ),
)
def _grain_said(site: PartSite) -> Iterator[Seen]:
    """Solid wood whose grain cannot be told, or may be meant the other way."""
    one, material = site.component, site.material
    if material is None or not material.is_solid_wood or one.stock == "bought" or one.reused:
        return
    path, fixed = f"components[{site.mark}]", bool(site.holes)
    if site.solid is None:
        cost = ": fixings hold in it, so its movement and its splitting cannot be judged" if fixed else ""
        says = (
            f"{site.mark} is of {material.name} and has no sizes that tell how its grain runs (its length is "
            f"along the grain){cost}."
        )
        yield Seen("error" if fixed else "warning", says, part=site.mark, at=f"{path}.size")
        return
    if site.solid.shape != "block":
        return
    if fixed and site.solid.width > max(site.solid.length, site.limits["grain-small"]) + _TINY:
        yield _wider_than_long(site, path)
    span, joint = _widest(site)
    if not one.grain_cut and span > site.limits["grain-cut-span"] + _TINY:
        says = (
            f"The fixings {'of ' + joint + ' ' if joint else ''}in {site.mark} span {span:.0f} mm across "
            "its grain, and whether it is flat or quarter sawn is not said: it is taken as flat sawn, which "
            "moves most."
        )
        mend = setting("It is quarter sawn.", (f"{path}.grain_cut", "quarter"))
        flat = setting("It is flat sawn.", (f"{path}.grain_cut", "flat"))
        yield Seen(
            "note", says, part=site.mark, value=span, limit=site.limits["grain-cut-span"], unit="mm",
            mends=(flat, mend), at=f"{path}.grain_cut",
        )  # fmt: skip


def _wider_than_long(site: PartSite, path: str) -> Seen:
    assert site.solid is not None
    length, width = site.solid.length, site.solid.width
    says = (
        f"{site.mark} is {length:g} mm along its grain and {width:g} mm across it, wider than it is long: "
        "is that how its grain runs? Short grain breaks at its fixings. If not, turn length and width "
        "round, and its pose and holes with them."
    )
    return Seen(
        "warning", says, part=site.mark, value=width, limit=length, unit="mm", at=f"{path}.size.length"
    )


def _widest(site: PartSite) -> tuple[float, str]:
    """How far the fixings of one joint lie apart across the grain of a part [mm], and of which joint."""
    assert site.solid is not None
    reach: dict[str, tuple[float, float]] = {}
    for hole in site.holes:
        if not hole.joint or hole.u_mm is None or hole.v_mm is None or hole.face == "side":
            continue
        y = face_frame(site.solid, hole.face).point(hole.u_mm, hole.v_mm)[1]
        low, high = reach.get(hole.joint, (y, y))
        reach[hole.joint] = min(low, y), max(high, y)
    return max(((high - low, mark) for mark, (low, high) in reach.items()), default=(0.0, ""))


@build_rule(
    "movement-unseen",
    "wood",
    "Fixings that span wood across its grain are held against its movement, for which the parts need their "
    "poses.",
    "common practice; spans under 100 mm are let be",
)
def _movement_unseen(site: Site) -> Iterator[Seen]:
    """Fixings over 100 mm across the grain whose parts have no poses: told once."""
    unseen = [one.mark for one in site.joints.values() if _spans_wood_unposed(site, one)]
    if unseen:
        says = (
            f"The fixings of {_marks(unseen)} may span more than {IGNORED_SPAN_MM:g} mm across the grain of "
            "solid wood, and its parts have no poses: whether their holes let the wood move is not looked "
            "at."
        )
        yield unchecked(says, joint=unseen[0] if len(unseen) == 1 else "", at=f"joints[{unseen[0]}]")


def _spans_wood_unposed(site: Site, joint: JointSite) -> bool:
    """A joint with no axis in space whose places lie far apart across the grain of wood in its stack."""
    if joint.resolved.axes or len(joint.joint.places) < 2 or not joint.joint.face or not joint.groups:
        return False
    layers = [item.layer.part for item in joint.groups[0].inputs.stack if item.layer is not None]
    woods = [mark for mark in layers if _is_solid_wood(site, mark)]
    home = site.parts.get(site.placed.mark_of.get(joint.joint.home, ""))
    if not woods or home is None or home.solid is None or joint.joint.face == "side" or len(set(layers)) < 2:
        return False
    frame = face_frame(home.solid, joint.joint.face)
    points = [frame.point(one.u.mm, one.v.mm if one.v else 0.0) for one in joint.joint.places]
    spans = [max(p[i] for p in points) - min(p[i] for p in points) for i in range(3)]
    if home.mark in woods and spans[1] > IGNORED_SPAN_MM:
        return True
    wide = max((_width(site, mark) for mark in woods if mark != home.mark), default=0.0)
    return min(max(spans), wide) > IGNORED_SPAN_MM  # how that one lies to the home is not known


def _is_solid_wood(site: Site, mark: str) -> bool:
    part = site.parts.get(mark)
    return part is not None and part.material is not None and part.material.is_solid_wood


def _width(site: Site, mark: str) -> float:
    solid = site.parts[mark].solid
    return solid.width if solid is not None and solid.shape == "block" else 0.0


_NEAR_DAYS = Limit("moisture-days", 14.0, "days", CP, "a moisture reading holds for this long")
_NEAR_POINTS = Limit(
    "moisture-points", 2.0, "points", "Wood Handbook ch. 4 (from memory), CP",
    "wood may be this far from the moisture of its place when it is cut to size",
)  # fmt: skip


@build_rule(
    "moisture-logged",
    "wood",
    "Before solid wood is cut to its final size a moisture reading of the last 14 days is within 2 points "
    "of the place where it will stand.",
    "Wood Handbook ch. 4 (from memory); 14 days and 2 points: common practice",
    _NEAR_DAYS,
    _NEAR_POINTS,
)
def _moisture_logged(site: Site) -> Iterator[Seen]:
    """Solid wood about to be cut without a moisture reading, or too wet or dry."""
    parts = [one.mark for one in site.parts.values() if _about_to_be_cut(site, one)]
    if not parts:
        return
    today, place = site.context.as_of, site.context.place_moisture_percent
    if today is None or place is None:
        lacks = [
            words
            for words, value in (("the moisture that wood comes to where the thing will stand", place),
                                 ("the day that counts as today", today))
            if value is None
        ]  # fmt: skip
        says = (
            f"Solid wood is about to be cut to size ({_marks(parts)}), and {' and '.join(lacks)} "
            f"{'are' if len(lacks) > 1 else 'is'} not given: whether it is ready is not looked at."
        )
        yield unchecked(says, at="context.place_moisture_percent" if place is None else "context.as_of")
        return
    latest = {mark: _latest(site, mark) for mark in parts}
    yield from _not_read(site, [mark for mark in parts if latest[mark] is None])
    by_reading: dict[str, list[str]] = {}
    for mark in parts:
        reading = latest[mark]
        if reading is not None:
            by_reading.setdefault(reading.id, []).append(mark)
    for reading in site.build.moisture:
        if reading.id in by_reading:
            yield from _judged(site, reading, by_reading[reading.id], float(place))


def _about_to_be_cut(site: Site, part: PartSite) -> bool:
    one, state = part.component, site.build.state
    if part.material is None or not part.material.is_solid_wood or one.stock == "bought" or one.reused:
        return False
    if _is_parent(site, one):
        return False
    return (one.state == "released" and state not in ("quoted", "done")) or (
        one.state == "planned" and state == "making"
    )


def _is_parent(site: Site, one: Component) -> bool:
    parents = site.share("parents", lambda: {each.parent for each in site.build.components})
    return one.mark in parents


def _latest(site: Site, mark: str) -> Moisture | None:
    """The last reading of a part, or of all wood, up to today."""
    today = site.context.as_of
    readings = [one for one in site.build.moisture if not one.parts or mark in one.parts]
    return max(
        (one for one in readings if today is None or one.on <= today), key=lambda one: one.on, default=None
    )


def _not_read(site: Site, marks: list[str]) -> Iterator[Seen]:
    if marks:
        making = site.build.state == "making"
        says = (
            f"No moisture reading of {_marks(marks)}, about to be cut to size: measure before cutting, or it "
            "shrinks or swells out of size in its place."
        )
        yield Seen(
            "error" if making else "warning", says, part=marks[0] if len(marks) == 1 else "", at="moisture"
        )


def _judged(site: Site, reading: Moisture, marks: list[str], place: float) -> Iterator[Seen]:
    today = site.context.as_of
    assert today is not None
    days, off = (today - reading.on).days, float(reading.percent) - place
    most_days, most = site.limits["moisture-days"], site.limits["moisture-points"]
    part, at = marks[0] if len(marks) == 1 else "", f"moisture[{reading.id}]"
    if days > most_days:
        says = (
            f"The last moisture reading of {_marks(marks)}, about to be cut to size, is {days} days old; "
            f"after {most_days:g} days measure again before cutting."
        )
        yield Seen(
            "warning",
            says,
            "",
            part,
            reading.id,
            float(days),
            most_days,
            "days",
            at=at,
        )
    elif abs(off) > most + _TINY:
        how = "wetter" if off > 0 else "drier"
        says = (
            f"{_marks(marks)} measured {float(reading.percent):g} % moisture, {abs(off):.1f} points {how} "
            f"than the {place:g} % of the place; within {most:g} points is ready to be cut to size. Let it "
            "stand in a room like the place, and measure again."
        )
        yield Seen("warning", says, "", part, reading.id, abs(off), most, "points", at=at)


RULES: tuple[BuildRule, ...] = (
    *spacing.RULES, *across_grain.RULES, _grain_said, _movement_unseen, _moisture_logged,
)  # fmt: skip
