"""The rule for holes placed by hand that should be in line with a mate's hole or with a joint's axis."""

from __future__ import annotations

import math
from collections.abc import Iterator, Mapping
from dataclasses import dataclass

from calculators.geometry.frames import to_face
from calculators.geometry.shapes import Box, box_of, moved
from calculators.geometry.vectors import Vector, along, dot, scale, subtract
from calculators.joints.model import LayerHole, Mend, Severity
from calculators.planning.checks.fasteners_in_space import PlacedFastener, all_fasteners
from calculators.planning.checks.in_one_part_cuts import HoleCut, part_cuts
from calculators.planning.checks.near_things import (
    PlacedPart,
    found_between,
    found_near,
    placed_parts,
    thread_major_mm,
)
from calculators.planning.checks.rule import BuildRule, Seen, build_rule, setting
from calculators.planning.checks.shifting import millimetres, shifted_place
from calculators.planning.checks.site import Site

PARALLEL = 1.0 - 1e-6
ABUT_MM = 0.1
"""Two holes go on into one another when no more air than this is between their ends."""

IN_LINE_MM = 0.05
"""Holes no farther off than this are in line for all that a drill can do (common practice)."""

ALIKE = 2.0
"""Holes of which one is more than this many times as wide as the other are not meant to be one."""

WARN_SHARE = 0.7
_CLEAR = ("clearance", "plain", "slot", "reamed")
_KEPT = "holes by hand where they lie"


@dataclass(frozen=True, slots=True, eq=False)
class _Drilled:
    """A hole by hand in one copy where it lies; `fills` is the diameter of what it takes [mm]."""

    part: PlacedPart
    hole: HoleCut
    start: Vector
    way: Vector
    slide: Vector
    fills: float
    box: Box

    @property
    def id(self) -> str:
        return self.hole.place

    @property
    def path(self) -> str:
        return self.hole.path


@dataclass(frozen=True, slots=True)
class _Off:
    """Two holes, or a hole and a fastener's axis, out of line: by how much, and what would do [mm]."""

    hole: _Drilled
    other: _Drilled | PlacedFastener
    off: float
    fit: float
    short: float = 0.0
    """How much the hole is too small for the fastener."""

    @property
    def severity(self) -> Severity:
        return "error" if self.short > 0.0 or self.off > self.fit + IN_LINE_MM else "warning"


@build_rule(
    "holes-of-mates",
    "holes and pockets",
    "Holes of two parts that touch are in line within their fit, and a hole by hand with its joint's axis.",
    "common practice: (H - F)/2, the rest of the hole about what goes through it",
)
def _holes_of_mates(site: Site) -> Iterator[Seen]:
    """Hold how far two holes are off one another against half the difference of what they take.

    Two holes placed by hand in parts that touch are meant to be one when their axes are nearer than half the
    larger diameter, neither is twice as wide as the other, and one goes on where the other ends. A joint's
    fastener is meant to go through a hole by hand under the same condition: then the float is (H - F)/2. An
    error beyond the float, a warning over 70 % of it.
    """
    drilled = _drilled(site)
    if not drilled:
        return
    pairs: dict[tuple[str, str, str], list[_Off]] = {}
    for one in found_near(site, "holes of mates", drilled, ABUT_MM, _holes_off):
        assert isinstance(one.other, _Drilled)
        low, high = sorted((one.hole.part.mark, one.other.part.mark))
        pairs.setdefault((low, high, one.severity), []).append(one)
    for key in sorted(pairs):
        yield _of_holes(site, pairs[key])
    fasteners = {(one.joint, one.place, one.home): one for one in all_fasteners(site)}
    axes: dict[tuple[str, str, str, bool], list[_Off]] = {}
    for one in found_between(site, "holes of joints", fasteners, drilled, ABUT_MM, _axis_off):
        assert isinstance(one.other, PlacedFastener)
        axes.setdefault((one.other.joint, one.hole.part.mark, one.severity, one.short > 0.0), []).append(one)
    for axis in sorted(axes):
        yield _of_joint(site, axes[axis])


def _drilled(site: Site) -> Mapping[tuple[str, str], _Drilled]:
    before: Mapping[tuple[str, str], _Drilled] = (
        site.previous.shared(_KEPT) if site.previous else None
    ) or {}

    def make() -> dict[tuple[str, str], _Drilled]:
        made: dict[tuple[str, str], _Drilled] = {}
        for name, part in placed_parts(site).items():
            if not part.site.component.holes:
                continue
            cuts = part_cuts(part.site)
            for hole in cuts.holes if cuts else ():
                if hole.hole.direct is not None:
                    had = before.get((name, hole.place))
                    if had is None or had.part is not part:
                        had = _where(part, hole)
                    made[name, hole.place] = had
        return made

    return site.share(_KEPT, make)


def _where(part: PlacedPart, hole: HoleCut) -> _Drilled:
    own, cut = part.transform, hole.cut
    fills = max(2.0 * cut.radius, thread_major_mm(hole))
    return _Drilled(
        part, hole, own.point(cut.mark), own.direction(cut.way), own.direction(cut.bore.slide), fills,
        box_of(moved(cut.bore, own)),
    )  # fmt: skip


def _sideways(hole: _Drilled, start: Vector) -> float:
    """How far a point lies from the axis of a hole; of a slot, from the strip of its axes [mm]."""
    away = subtract(start, hole.start)
    off = subtract(away, scale(hole.way, dot(away, hole.way)))
    run = math.sqrt(dot(hole.slide, hole.slide))
    if run > 0.0:
        way = scale(hole.slide, 1.0 / run)
        off = subtract(off, scale(way, min(max(dot(off, way), -run / 2.0), run / 2.0)))
    return math.sqrt(dot(off, off))


def _meant(first: float, second: float, off: float) -> bool:
    small, large = sorted((first, second))
    return off < large / 2.0 and large <= ALIKE * small


def _out_of_line(off: float, fit: float) -> bool:
    return off > max(IN_LINE_MM, WARN_SHARE * fit) + 1e-6


def _holes_off(first: _Drilled, second: _Drilled) -> _Off | None:
    if first.part is second.part or abs(dot(first.way, second.way)) < PARALLEL:
        return None
    off = min(_sideways(first, second.start), _sideways(second, first.start))
    if not _meant(first.fills, second.fills, off) or not _abut(first, second):
        return None
    fit = abs(first.fills - second.fills) / 2.0
    if not _out_of_line(off, fit):
        return None
    moving = second if _is_planned(second) or not _is_planned(first) else first
    return _Off(moving, first if moving is second else second, off, fit)


def _is_planned(one: _Drilled) -> bool:
    return one.part.site.component.state == "planned"


def _abut(first: _Drilled, second: _Drilled) -> bool:
    """Whether one hole goes on where the other ends, along their common axis."""
    at = dot(subtract(second.start, first.start), first.way)
    facing = 1.0 if dot(first.way, second.way) > 0.0 else -1.0
    begins, leaves = _stretch(first)
    ends = sorted(at + facing * far for far in _stretch(second))
    return max(ends[0] - leaves, begins - ends[1]) <= ABUT_MM


def _stretch(one: _Drilled) -> tuple[float, float]:
    """From where to where along its axis a hole has its full width [mm]."""
    cut = one.hole.cut
    full = [at for at, ring in cut.bore.rings if ring > 0.0]
    return cut.enter, cut.leave if cut.last is not None else max(full)


def _axis_off(fastener: PlacedFastener, hole: _Drilled) -> _Off | None:
    if hole.part.name not in fastener.copies or abs(dot(fastener.way, hole.way)) < PARALLEL:
        return None
    off = _sideways(hole, fastener.start)
    if not _meant(hole.fills, fastener.diameter_mm, off):
        return None
    layer = _layer_hole(fastener, hole.part.name)
    if layer is None:
        return None
    clear = layer.kind in _CLEAR
    width = 2.0 * hole.hole.cut.radius
    short = fastener.diameter_mm - width if clear else 0.0
    if short > 0.01:
        return _Off(hole, fastener, off, 0.0, short)
    fit = (width - fastener.diameter_mm) / 2.0 if clear else _float_elsewhere(fastener)
    return _Off(hole, fastener, off, max(fit, 0.0)) if _out_of_line(off, max(fit, 0.0)) else None


def _layer_hole(fastener: PlacedFastener, copy: str) -> LayerHole | None:
    """The joint's own hole in a copy."""
    worked = fastener.axis.worked
    layers = [index for index, item in enumerate(worked.inputs.stack) if item.layer]
    for stretch in fastener.axis.stretches:
        if stretch.copy == copy:
            number = layers.index(stretch.item)
            return next((hole for hole in worked.result.holes if hole.layer == number), None)
    return None


def _float_elsewhere(fastener: PlacedFastener) -> float:
    """The least float of the fastener in the holes that it passes clear [mm]."""
    floats = [
        (hole.diameter_mm - fastener.diameter_mm) / 2.0
        for hole in fastener.axis.worked.result.holes
        if hole.kind in _CLEAR
    ]
    return max(min(floats, default=0.0), 0.0)


def _worst(several: list[_Off]) -> _Off:
    return min(
        several, key=lambda one: (-round(one.off - one.fit + one.short, 6), one.hole.id, one.hole.part.name)
    )


def _of_holes(site: Site, several: list[_Off]) -> Seen:
    one = _worst(several)
    other = one.other
    assert isinstance(other, _Drilled)
    hole, fit = one.hole, f"{one.fit:.3g} mm is what their fit gives"
    says = (
        f"Hole {hole.id} of {hole.part.mark} and hole {other.id} of {other.part.mark}, which lie on one "
        f"another, are {one.off:.3g} mm out of line; {fit}: drill one through the other, or move one."
        f"{_more(several)}"
    )
    mends = [_in_line([each for each in several if each.hole.part.mark == hole.part.mark])]
    if not _is_planned(hole) or _is_planned(other):
        turned = [
            _Off(each.other, each.hole, each.off, each.fit)
            for each in several
            if isinstance(each.other, _Drilled) and each.other.part.mark == other.part.mark
        ]
        mends.append(_in_line(turned))
    return Seen(
        one.severity, says, "", hole.part.mark, hole.id, one.off, one.fit, "mm",
        tuple(mend for mend in mends if mend is not None), f"{hole.path}.u",
        (hole.hole.spot, other.hole.spot),
    )  # fmt: skip


def _more(several: list[_Off]) -> str:
    rest = len({one.hole.path for one in several}) - 1
    return f" So are {rest} more." if rest > 1 else " So is one more." if rest else ""


def _of_joint(site: Site, several: list[_Off]) -> Seen:
    one = _worst(several)
    other, hole = one.other, one.hole
    assert isinstance(other, PlacedFastener)
    if one.short > 0.0:
        says = (
            f"Hole {hole.id} of {hole.part.mark} is {2.0 * hole.hole.cut.radius:.4g} mm wide, and "
            f"{other.names}, which goes through it, {other.diameter_mm:.4g} mm: it does not pass."
        )
        at = f"{hole.path}.diameter"
        return Seen(
            "error", says, other.joint, hole.part.mark, other.place, 2.0 * hole.hole.cut.radius,
            other.diameter_mm, "mm", (), at, (hole.hole.spot,),
        )  # fmt: skip
    says = (
        f"Hole {hole.id} of {hole.part.mark} is {one.off:.3g} mm off the axis of {other.names}; "
        f"{one.fit:.3g} mm is what the hole gives: move one of them.{_more(several)}"
    )
    mends: list[Mend] = []
    moved_hole = _in_line(several)
    if moved_hole is not None:
        mends.append(moved_hole)
    if (
        len(
            {
                (each.other.joint, each.other.place)
                for each in several
                if isinstance(each.other, PlacedFastener)
            }
        )
        == 1
    ):
        away = subtract(hole.start, other.start)
        way = hole.part.transform.own_direction(subtract(away, scale(other.way, dot(away, other.way))))
        joint = site.joints[other.joint].joint
        shifted = shifted_place(site, joint, other.place, hole.part.mark, way)
        if shifted is not None:
            mends.append(shifted)
    return Seen(
        one.severity, says, other.joint, hole.part.mark, other.place, one.off, one.fit, "mm",
        tuple(mends), f"{hole.path}.u", (hole.hole.spot,),
    )  # fmt: skip


def _in_line(several: list[_Off]) -> Mend | None:
    """Offer to move the holes of one part into line; None where its copies want other places."""
    targets: dict[str, tuple[_Drilled, float, float]] = {}
    for one in several:
        assert isinstance(one.hole, _Drilled)
        drilled, other = one.hole, one.other
        solid, face = drilled.part.site.solid, drilled.hole.hole.face
        if solid is None or face == "side":
            return None
        away = subtract(drilled.start, other.start)
        on_axis = along(other.start, (other.way, dot(away, other.way)))
        u, v, _ = to_face(solid, face, drilled.part.transform.own_point(on_axis))
        had = targets.get(drilled.path)
        if had is not None and max(abs(had[1] - u), abs(had[2] - v)) > 0.01:
            return None
        targets[drilled.path] = (drilled, u, v)
    if not targets:
        return None
    fields = [
        (f"{path}.{name}", millimetres(round(value, 2)))
        for path, (_, u, v) in targets.items()
        for name, value in (("u", u), ("v", v))
    ]
    (drilled, u, v), *rest = targets.values()
    mark = drilled.part.mark
    if rest:
        return setting(f"Move {len(targets)} holes of {mark} into line.", *fields)
    says = f"Move hole {drilled.id} of {mark} to u {millimetres(round(u, 2))}, v {millimetres(round(v, 2))}."
    return setting(says, *fields)


RULES: tuple[BuildRule, ...] = (_holes_of_mates,)
