"""From a joint of the build to the stack at each of its places: which layers its axis meets."""

from __future__ import annotations

from collections.abc import Collection, Sequence
from dataclasses import dataclass, replace
from decimal import Decimal
from functools import lru_cache

from calculators.geometry.features import edge_distances, on_face
from calculators.geometry.layers import Mark, axis_from, hole_in_layer, overlaps
from calculators.geometry.model import Face, Solid
from calculators.geometry.model import Layer as Stretch
from calculators.geometry.vectors import Vector
from calculators.hardware.designation import read_hardware
from calculators.hardware.fastener import Fastener, Insert, Nut, Washer
from calculators.joints.model import Finding, HoleOverride, JointInput, Layer, MeasuredItem, StackItem
from calculators.joints.sizes import screw_of
from calculators.planning import model, surprises
from calculators.planning.around import Around, parts_around
from calculators.planning.placing import PlacedBuild
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

_TOUCHING_MM = 0.05
MOST_LAYERS = 60
"""More layers than this on one axis are no joint but parts laid inside one another."""

MOST_CLASHES = 10
"""So many clashes on one axis are told; the rest are of the same parts laid inside one another."""

_FAR_MM = 400.0
"""How far along an axis parts that the stack names are looked for."""


@dataclass(frozen=True, slots=True)
class PlacedStretch:
    """A layer found along an axis: which member of the stack it is, and where to mark it out."""

    item: int
    copy: str
    entry: Mark
    exit: Mark | None = None
    mirrored: bool = False


@dataclass(frozen=True, slots=True)
class PlaceStack:
    """The stack at one place of one copy of the home.

    `start` and `way` are None where nothing is posed.

    `times` counts the copies that it stands for: those that have no pose are taken to be like the first.
    """

    place: str
    home: str
    items: tuple[StackItem, ...]
    times: int = 1
    start: Vector | None = None
    way: Vector | None = None
    stretches: tuple[PlacedStretch, ...] = ()
    findings: tuple[Finding, ...] = ()
    reach_mm: float = 0.0
    """How far along the axis parts were looked for."""

    around: tuple[Around, ...] = ()
    """The parts that lie around what the axis meets, as a lever on a bush."""

    met: frozenset[str] = frozenset()
    """The copies that the axis meets, of the stack or not: another hole may make them so."""


def stacks_of(
    unit: model.Unit, joint: model.Joint, fastener: Fastener, placed: PlacedBuild
) -> tuple[PlaceStack, ...]:
    """Find the stack of a joint at every place of every copy of its home.

    Args:
        unit: what a bare number means in the build (`mm`, `in`).
        joint: one of its joints.
        fastener: its fastener, read.
        placed: the build's parts where they lie.

    Returns:
        One stack for each place and copy; one alone, without a place, for a joint that is not placed.

    Raises:
        InputError: when a member of the stack cannot be read or a thickness is not to be had, with
            sentences whose field is the place in the joint.

    Source: this project.
    """
    finder = _Finder(unit, joint, fastener, placed)
    homes = _homes(joint, placed)
    if joint.places and joint.face and homes:
        more = placed.totals.get(joint.home, 1) - len(homes)
        return tuple(
            replace(finder.at(home, place), times=1 + more if home == homes[0] else 1)
            for home in homes
            for place in joint.places
        )
    return (PlaceStack("", homes[0] if homes else "", finder.typed_items()),)


def axis_count(joint: model.Joint, placed: PlacedBuild) -> int:
    """Count the axes that `stacks_of` follows for a joint.

    Args:
        joint: the joint.
        placed: the build's parts where they lie.

    Returns:
        Its places times the posed copies of its home [1]; 1 for a joint that is not placed.

    Source: this project.
    """
    homes = _homes(joint, placed)
    return len(homes) * len(joint.places) if joint.places and joint.face and homes else 1


def _homes(joint: model.Joint, placed: PlacedBuild) -> tuple[str, ...]:
    return placed.copies.get(joint.home, (joint.home,) if joint.home in placed.mark_of else ())


@dataclass(frozen=True, slots=True)
class _Finder:
    unit: model.Unit
    joint: model.Joint
    fastener: Fastener
    placed: PlacedBuild

    def at(self, home: str, place: model.Place) -> PlaceStack:
        """Return the stack at one place: along its axis where the home is posed, else as typed."""
        assert self.joint.face
        v = float(place.angle_deg or 0) if self.joint.face == "side" else (place.v.mm if place.v else 0.0)
        if home not in self.placed.transforms:
            typed, at_home, off = self._on_home(self.typed_items(place.id), home, place, v)
            return PlaceStack(place.id, home, typed, stretches=at_home, findings=off)
        body = self.placed.bodies[home]
        start, way = axis_from(home, self.joint.face, place.u.mm, v, [body], self.placed.transforms)
        reach = self._reach()
        met = self.placed.layers(start, way, reach)
        if len(met) > MOST_LAYERS:
            raise InputError.of(
                f"The axis of {self.joint.mark} at place {place.id} goes through {len(met)} layers; a joint "
                f"has at most {MOST_LAYERS}: parts lie inside one another, or the place is wrong.",
                field=f"places[{place.id}]",
            )
        around = tuple(
            each
            for each in parts_around(self.placed, met, (start, way), reach, _shank_mm(self.fastener))
            if each.name != home
        )
        meets = frozenset(each.name for each in met)
        aside = {each.name for each in around}
        met = tuple(each for each in met if each.name not in aside)
        pairs, findings = self._pair(met, place.id, aside | {self.placed.mark_of[name] for name in aside})
        items: list[StackItem] = []
        stretches: list[PlacedStretch] = []
        previous: Stretch | None = None
        for member, stretch in pairs:
            if stretch is None:
                items.append(self._item(member, place.id))
                continue
            gap = max(0.0, stretch.enter - previous.leave) if previous else 0.0
            item, found = self._found(member, stretch, (start, way), place.id, gap)
            stretches.append(replace(found, item=len(items)))
            items.append(item)
            previous = stretch
        return PlaceStack(
            place.id, home, tuple(items), 1, start, way, tuple(stretches), findings, reach, around, meets
        )

    def _found(
        self, member: model.StackMember, stretch: Stretch, axis: tuple[Vector, Vector], place: str, gap: float
    ) -> tuple[StackItem, PlacedStretch]:
        """Make the member of the stack from a stretch of material that the axis goes through."""
        name = stretch.name
        body = self.placed.bodies[name]
        marks = hole_in_layer(*axis, stretch, body, self.placed.transforms[name])
        mark = marks.entry
        layer = self._layer(member, self.placed.mark_of[name], stretch.thickness, place, gap)
        layer = _with_edges(layer, member, body.solid, mark.face, mark.u, mark.v)
        return StackItem(layer=layer), PlacedStretch(0, name, marks.entry, marks.exit, marks.mirrored)

    def typed_items(self, place: str = "") -> tuple[StackItem, ...]:
        """Return the stack as it was typed, for a joint whose parts have no poses yet."""
        if not any(member.part for member in self.joint.stack):
            raise InputError.of(
                f"{self.joint.mark} names no part that its fastener goes through or into, and its home has "
                "no pose along whose axis they could be found; add the parts to its stack.",
                field="stack",
            )
        return tuple(self._item(member, place) for member in self.joint.stack)

    def _reach(self) -> float:
        if any(member.part for member in self.joint.stack) or self.fastener.length is None:
            return _FAR_MM
        return self.fastener.length.mm

    def _pair(
        self, met: tuple[Stretch, ...], place: str, aside: Collection[str]
    ) -> tuple[list[tuple[model.StackMember, Stretch | None]], tuple[Finding, ...]]:
        """Match what the axis meets with what the stack names; both kinds of surprise become findings.

        A named part that is known to lie around the axis is neither met nor missed.
        """
        members = self.joint.stack
        named = [member.part for member in members if member.part]
        if not named:
            return self._unnamed(met), self._clashes(met, place)
        findings: list[Finding] = []
        left = list(met)
        pairs: list[tuple[model.StackMember, Stretch | None]] = []
        for member in members:
            stretch = next((each for each in left if self._is(each, member.part)), None)
            if stretch is None and member.part in aside:
                continue
            if member.part and stretch is None and self._is_posed(member.part):
                findings.append(surprises.axis_misses_part(self.joint.mark, member.part, place))
                continue
            if stretch is not None:
                left.remove(stretch)
                findings += surprises.typed_thickness(self.joint.mark, member, stretch.thickness, place)
            pairs.append((member, stretch))
        used = [stretch for _, stretch in pairs if stretch]
        if not used and not any(member.part for member, _ in pairs):
            raise InputError.of(
                f"{self.joint.mark} meets none of the parts of its stack at place {place}; move the place "
                "or the parts.",
                field=f"places[{place}]",
            )
        findings += self._add_unnamed(pairs, left, place)
        return pairs, (*findings, *self._clashes([s for _, s in pairs if s], place))

    def _add_unnamed(
        self, pairs: list[tuple[model.StackMember, Stretch | None]], left: list[Stretch], place: str
    ) -> list[Finding]:
        """Count the parts that lie between the named ones, or between the last of them and its nut."""
        findings = []
        named = {stretch.name for _, stretch in pairs if stretch}
        last = max((stretch.leave for _, stretch in pairs if stretch), default=0.0)
        has_nut = any(isinstance(self._read(m), Nut) for m in self.joint.stack if m.item)
        for stretch in left:
            under_nut = has_nut and abs(stretch.enter - last) <= _TOUCHING_MM
            if stretch.name in named or not (stretch.leave <= last or under_nut):
                continue
            last = max(last, stretch.leave)
            mark = self.placed.mark_of[stretch.name]
            findings.append(surprises.part_in_the_way(self.joint.mark, mark, stretch.thickness, place))
            before = [i for i, (_, other) in enumerate(pairs) if other and other.enter < stretch.enter]
            pairs.insert(before[-1] + 1 if before else 0, (model.StackMember(part=mark), stretch))
        return findings

    def _unnamed(self, met: tuple[Stretch, ...]) -> list[tuple[model.StackMember, Stretch | None]]:
        """Take the layers that touch one another; washers lie under the head, nuts and inserts at the end."""
        touching: list[Stretch] = []
        for stretch in met:
            if touching and stretch.enter > max(each.leave for each in touching) + _TOUCHING_MM:
                break
            touching.append(stretch)
        if not touching:
            raise InputError.of(
                f"The axis of {self.joint.mark} meets no part; move its place or name the parts in its "
                "stack.",
                field="places",
            )
        parts: list[tuple[model.StackMember, Stretch | None]] = [
            (model.StackMember(part=self.placed.mark_of[each.name]), each) for each in touching
        ]
        hardware = [(member, self._read(member)) for member in self.joint.stack]
        ends = next(
            (i for i, (_, item) in enumerate(hardware) if not isinstance(item, Washer)), len(hardware)
        )
        first: list[tuple[model.StackMember, Stretch | None]] = [(m, None) for m, _ in hardware[:ends]]
        return first + parts + [(m, None) for m, _ in hardware[ends:]]

    def _is(self, stretch: Stretch, part: str) -> bool:
        return bool(part) and part in (self.placed.mark_of[stretch.name], stretch.name)

    def _is_posed(self, part: str) -> bool:
        copies = self.placed.copies.get(part, (part,))
        return any(copy in self.placed.transforms for copy in copies)

    def _clashes(self, stretches: Sequence[Stretch], place: str) -> tuple[Finding, ...]:
        marks = self.placed.mark_of
        return tuple(
            surprises.parts_overlap(
                self.joint.mark, marks[each.first.name], marks[each.second.name], each, place
            )
            for each in overlaps(stretches)[:MOST_CLASHES]
        )

    def _read(self, member: model.StackMember) -> Washer | Nut | Insert:
        return _hardware(member.item, self.unit)

    def _item(self, member: model.StackMember, place: str) -> StackItem:
        if member.part:
            thickness = member.thickness or self._own_thickness(member.part)
            return StackItem(
                layer=_with_edges(
                    self._layer(member, member.part, thickness.mm, place, 0.0), member, None, "top", 0, 0
                )
            )
        item = self._read(member)
        measured = None
        if member.thickness or member.outside or member.body:
            measured = MeasuredItem(
                thickness_mm=_mm(member.thickness),
                outside_mm=_mm(member.outside),
                body_mm=_mm(member.body),
            )
        if isinstance(item, Washer):
            return StackItem(washer=item, measured=measured)
        if isinstance(item, Nut):
            return StackItem(nut=item, measured=measured)
        return StackItem(insert=item, measured=measured)

    def _own_thickness(self, part: str) -> Length:
        component = self.placed.components.get(part)
        size = component.made_size if component and component.made_size else None
        for each in (size, component.size if component else None):
            if each and each.shape == "block" and each.thickness:
                return each.thickness
        raise InputError.of(
            f"How thick {part} is along {self.joint.mark} is not known: type its thickness in the stack, or "
            "give both parts a pose.",
            field=f"stack[{part}].thickness",
        )

    def _layer(
        self, member: model.StackMember, mark: str, thickness_mm: float, place: str, gap_mm: float
    ) -> Layer:
        component = self.placed.components.get(mark)
        return Layer(
            mark,
            component.material if component else "",
            round(thickness_mm, 6),
            member.takes,
            member.fit,
            member.thread,
            _mm(member.thread_depth),
            _mm(member.drilled_depth),
            member.grain,
            _override(member, place),
            gap_mm=0.0 if gap_mm < 1e-4 else round(gap_mm, 6),
        )

    def _on_home(
        self, items: tuple[StackItem, ...], home: str, place: model.Place, v: float
    ) -> tuple[tuple[StackItem, ...], tuple[PlacedStretch, ...], tuple[Finding, ...]]:
        """Give the home's own layer its edges and its place, though nothing is posed."""
        mark = self.placed.mark_of[home]
        solid = self.placed.solids.get(mark)
        face, u = self.joint.face, place.u.mm
        assert face
        off: tuple[Finding, ...] = ()
        if solid is not None and not on_face(solid, face, u, v):
            off = (surprises.place_off_part(self.joint.mark, mark, face, place.id),)
        for index, item in enumerate(items):
            if item.layer and item.layer.part == mark:
                member = next(each for each in self.joint.stack if each.part in (mark, home))
                layer = _with_edges(item.layer, member, None if off else solid, face, u, v)
                stretch = PlacedStretch(index, home, Mark(face, u, v, 0.0, oblique=False))
                return (*items[:index], replace(item, layer=layer), *items[index + 1 :]), (stretch,), off
        return items, (), off


@lru_cache(maxsize=512)
def _shank_mm(fastener: Fastener) -> float:
    """The diameter of a fastener; nought where no table has it."""
    try:
        return screw_of(JointInput("", fastener, ()))[0].major_mm
    except InputError:
        return 0.0


# It is asked for several times at each place of each joint.
@lru_cache(maxsize=512)
def _hardware(line: str, unit: model.Unit) -> Washer | Nut | Insert:
    item = read_hardware(line, unit=unit, field="stack.item")
    if isinstance(item, Fastener):
        raise InputError.of(
            f"“{line}” is a screw; the stack takes washers, nuts, inserts and parts.", field="stack.item"
        )
    return item


def _with_edges(
    layer: Layer, member: model.StackMember, solid: Solid | None, face: Face, u: float, v: float
) -> Layer:
    """Add how far the axis is from edges and ends, and whether it runs into end grain."""
    edge, end = _mm(member.edge), _mm(member.end)
    side, grain = None, layer.grain
    if solid is not None:
        found = edge_distances(solid, face, u, v)
        # A hole marked on the outline of a bore lies in no material there: nothing is nearest to it.
        side = _distance(found.least_mm)
        edge = _distance(found.to_edge_mm) if edge is None else edge
        end = _distance(found.to_end_mm) if end is None else end
        grain = grain or ("end" if found.end_grain else "side")
    return replace(layer, edge_mm=edge, end_mm=end, side_mm=side, grain=grain)


def _distance(value: float | None) -> float | None:
    return None if value is None or value < 0 else round(value, 6)


def _override(member: model.StackMember, place: str) -> HoleOverride:
    """Lay what was decided for this place over what was decided for all of them."""
    result = HoleOverride()
    for hole in sorted(member.holes, key=lambda each: bool(each.places)):
        if hole.places and place not in hole.places:
            continue
        result = HoleOverride(
            hole.kind or result.kind,
            _first(_mm(hole.diameter), result.diameter_mm),
            _first(_mm(hole.depth), result.depth_mm),
            _first(_mm(hole.slot_length), result.slot_length_mm),
            hole.slot_along or result.slot_along,
            _first(_number(hole.countersink_angle_deg), result.countersink_angle_deg),
            _first(_mm(hole.countersink_diameter), result.countersink_diameter_mm),
            _first(_mm(hole.counterbore_diameter), result.counterbore_diameter_mm),
            _first(_mm(hole.counterbore_depth), result.counterbore_depth_mm),
            hole.pilot and result.pilot,
        )
    return result


def _first(new: float | None, old: float | None) -> float | None:
    return old if new is None else new


def _mm(length: Length | None) -> float | None:
    return None if length is None else length.mm


def _number(value: Decimal | None) -> float | None:
    return None if value is None else float(value)
