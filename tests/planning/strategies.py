"""Arbitrary whole builds for hypothesis: every field by its declared kind, then made to hold together."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal

from hypothesis import strategies as st

from calculators.planning import model
from calculators.planning.buildfile import declaration as declared
from calculators.planning.buildfile.kinds import (
    BuildNumber,
    Choice,
    Day,
    Digest,
    Exact,
    Flag,
    Kind,
    Mark,
    Text,
    Whole,
)
from calculators.planning.buildfile.lengths import LengthKind
from calculators.planning.buildfile.records import Many, Record, Table
from calculators.quantities import Length, read_length

WRITINGS = [
    "1 3/4 in",
    '3/8"',
    "44.45",
    "31,75 mm",
    "5' 3\"",
    "20 SWG",
    "1-1/4",
    "0.8",
    "10 thou",
    "¾ in",
    "6",
]
FASTENERS = [
    "M5 x 20 csk slotted brass",
    "No. 8 x 1 3/4 csk slotted brass",
    "2 BA x 3/4 cheese brass",
    "M6 x 30 hex steel",
]
ITEMS = ["M5 washer", "M5 full nut", "M6 half nut"]

TEXT = st.text(st.characters(exclude_categories=["Cs", "Cc"], exclude_characters="￾￿\u2028"), max_size=12)
MARKS = ["P01", "Z-9", "ж3", "部品1", "A1"]
JOINT_MARKS = ["F01", "F-2", "Ø3"]
CALCULATION_MARKS = ["K01", "Kж"]
RACK = ["S1", "板-2"]
CALCULATORS = ["nearest", "tapping-drill", "convert", "no such calculator"]
IDS = ["1", "2", "k3"]


def text_of(kind: Text) -> st.SearchStrategy[str]:
    if isinstance(kind, BuildNumber):
        return TEXT.map(lambda text: f"B{text}".replace("/", "-").replace("\\", "-"))
    lines = TEXT if not kind.lines else TEXT.map(lambda text: text + "\n# two\tlines")
    return lines.map(lambda text: (text[: kind.most] or "x") if kind.least else text[: kind.most]).map(
        lambda text: (
            "xyz"[: kind.most] if kind.least and (not text.strip() or len(text) < kind.least) else text
        )
    )


def lengths_of(kind: LengthKind) -> st.SearchStrategy[Length]:
    least = kind.least_mm * 10**7 + (1 if kind.above else 0)
    ticks = st.integers(least, kind.most_mm * 10**7)
    worked_out = st.builds(Length, ticks, st.just(""), st.sampled_from(["mm", "in"]))
    written = st.builds(
        lambda text, unit: read_length(text, unit=unit),
        st.sampled_from(WRITINGS),
        st.sampled_from(["mm", "in"]),
    )
    return worked_out | written


def decimals_of(kind: Exact) -> st.SearchStrategy[Decimal]:
    return st.decimals(kind.least, kind.most, allow_nan=False, allow_infinity=False, places=4)


def values_of(kind: Kind) -> st.SearchStrategy[object]:
    match kind:
        case Record():
            return record_of(kind)
        case Many():
            return st.lists(values_of(kind.kind), max_size=2).map(tuple)
        case Table():
            pairs = st.dictionaries(text_of(kind.names), values_of(kind.kind), max_size=3)
            return pairs.map(lambda found: tuple(found.items()))
        case Mark():
            return st.sampled_from(IDS)
        case Digest():
            return st.sampled_from(["0" * 64, "0123456789abcdef" * 4])
        case Text():
            return text_of(kind)
        case Whole():
            return st.integers(kind.least, min(kind.most, 4))
        case Exact():
            return decimals_of(kind)
        case LengthKind():
            return lengths_of(kind)
        case Choice():
            return st.sampled_from(kind.words)
        case Day():
            return st.dates(date(1900, 1, 1))
        case Flag():
            return st.booleans()
    raise AssertionError(kind)


def record_of(record: Record) -> st.SearchStrategy[object]:
    """A record with a few of its optional fields given: all at once would use up what may be drawn."""
    kinds = {name: one.kind for name, one in record.declared.items()}
    optional = [name for name in kinds if name not in record.required]

    @st.composite
    def drawn(draw: st.DrawFn) -> object:
        some = draw(st.lists(st.sampled_from(optional), max_size=6, unique=True)) if optional else []
        return record.make(**{name: draw(values_of(kinds[name])) for name in (*record.required, *some)})

    return drawn()


def spot(face: str, one: model.Hole | model.Place) -> model.Hole | model.Place:
    if face == "side":
        return replace(one, v=None, angle_deg=one.angle_deg or Decimal(0))
    return replace(one, v=one.v or Length(0), angle_deg=None)


def face_for(shape: str, face: str) -> str:
    allowed = {"round": ("left", "right", "side"), "block": ("top", "front", "left")}.get(shape)
    return face if not allowed or face in allowed else allowed[0]


def unique(found: tuple, name: str = "id") -> tuple:
    kept = {getattr(one, name): one for one in found}
    return tuple(kept.values())


def whole(size: model.Size | None) -> model.Size | None:
    return replace(size, bore=None) if size is not None and size.diameter is not None else size


def bends(one: model.Component) -> tuple[model.Bend, ...]:
    """The bends that lie on the sheet, none on a round."""
    if one.size.shape == "round":
        return ()
    size = {"across": one.size.length, "along": one.size.width}
    found: list[model.Bend] = []
    for bend in unique(one.bends):
        limit = size[bend.runs]
        most = limit.ticks - 1 if limit else 10**12
        if most > 0:
            found.append(replace(bend, at=Length(max(1, min(abs(bend.at.ticks), most)))))
    return tuple(found)


def motion(one: model.Motion | None, marks: list[str]) -> model.Motion | None:
    """A motion that goes somewhere and carries the parts that were there before."""
    return one and replace(
        one, most=one.most + 1 if one.least == one.most else one.most, carries=tuple(marks)
    )


def outline(one: model.Component, size: model.Size) -> tuple[model.Corner, ...]:
    """An outline that fits its block: with a step, a rounded corner or a hollow side, as was drawn."""
    length, width = (side.ticks if side else 60 * 10**7 for side in (size.length, size.width))
    if not one.outline or size.shape != "block" or min(length, width) < 10**7:
        return ()

    def at(x: int, y: int, radius: int = 0, turns: str = "") -> model.Corner:
        return model.Corner(Length(x), Length(y), Length(radius) if radius else None, turns)

    foot = (at(0, 0), at(length, 0))
    if one.outline[0].long:
        r = min(length, width) // 4
        return (*foot, at(length, width - r, r, "left"), at(length - r, width), at(0, width))
    if one.outline[0].turns == "right" and length <= 3 * width:
        return (*foot, at(length, width, length, "right"), at(0, width))
    half = width // 2
    return (*foot, at(length, half), at(length // 2, half), at(length // 2, width), at(0, width))


def component(one: model.Component, mark: str, parents: list[str]) -> model.Component:
    size = whole(one.size)
    holes = []
    for hole in unique(one.holes):
        face = face_for(size.shape, hole.face)
        holes.append(replace(spot(face, hole), face=face, thread_depth=None))
    return replace(
        one,
        mark=mark,
        parent=parents[len(one.name) % len(parents)] if parents and one.reused else "",
        size=size,
        made_size=whole(one.made_size),
        rough=whole(one.rough),
        outline=outline(one, size),
        holes=tuple(holes),
        pockets=tuple(replace(p, face=face_for(size.shape, p.face)) for p in unique(one.pockets)),
        bends=bends(replace(one, size=size)),
        motion=motion(one.motion, parents),
        from_stock=RACK[0] if one.from_stock else "",
        poses=tuple(
            replace(pose, copy=1, on="", own_face=face_for(size.shape, pose.own_face))
            for pose in one.poses[:1]
        ),
    )


def joint(one: model.Joint, mark: str, components: tuple[model.Component, ...]) -> model.Joint:
    home = components[len(one.title) % len(components)] if components else None
    face = face_for(home.size.shape, one.face) if home is not None and one.face else one.face
    places = tuple(spot(face or ("side" if place.v is None else ""), place) for place in unique(one.places))
    ids = [place.id for place in places]
    return replace(
        one,
        mark=mark,
        home=home.mark if home is not None else "",
        face=face,
        places=places,
        fixed_place=ids[0] if ids and one.fixed_place else "",
        fastener=FASTENERS[len(one.note) % len(FASTENERS)],
        stack=tuple(member(m, home, ids) for m in one.stack),
    )


def member(one: model.StackMember, home: model.Component | None, ids: list[str]) -> model.StackMember:
    holes = tuple(replace(h, places=tuple(x for x in h.places if x in ids)) for h in one.holes)
    if home is not None and not one.item:
        return replace(one, part=home.mark, item="", holes=holes)
    return replace(one, part="", item=ITEMS[len(one.thread) % len(ITEMS)], holes=holes)


def calculation(
    one: model.Calculation,
    mark: str,
    components: tuple[model.Component, ...],
    joints: tuple[model.Joint, ...],
) -> model.Calculation:
    """A calculation that ties an input to a size of the first part, hole or joint that there is."""
    name = CALCULATORS[len(one.title) % len(CALCULATORS)]
    inputs = (*(pair for pair in one.inputs if pair[0] != "length"), ("length", "6 mm"))
    ties = [f"{each.mark} {size}" for each in components for size in ("thickness", "Bore")]
    ties += [f"{each.mark}.hole.{hole.id}.depth" for each in components for hole in each.holes]
    ties += [f"{each.mark} stack thickness" for each in joints]
    tie = (("length", ties[len(one.note) % len(ties)]),) if ties else ()
    return replace(one, mark=mark, calculator=name, inputs=inputs, ties=tie)


def some(draw: st.DrawFn, record: Record) -> tuple:
    """Up to two of a record, for the lists that a draw of many fields seldom fills."""
    return tuple(draw(record_of(record)) for _ in range(draw(st.integers(0, 2))))


def size_of(one: model.Reading, components: tuple[model.Component, ...]) -> str:
    """A size that a part may have, or one of its holes or pockets."""
    ties = [f"{each.mark} {size}" for each in components for size in ("length", "corner radius")]
    ties += [f"{each.mark} hole {hole.id} depth" for each in components for hole in each.holes]
    ties += [f"{each.mark} pocket {pocket.id} width" for each in components for pocket in each.pockets]
    return ties[len(one.note) % len(ties)]


def kept_records(draw: st.DrawFn, build: model.Build) -> model.Build:
    """The build with stock, readings, moisture readings, releases and acceptances that name what it holds."""
    parts = build.components
    marks = [one.mark for one in parts]
    names = [*marks, *(one.mark for one in build.joints)]
    stock = tuple(
        replace(draw(record_of(declared.STOCK_RECORD)), mark=mark) for mark in RACK[: draw(st.integers(0, 2))]
    )
    if not stock:
        parts = tuple(replace(one, from_stock="") for one in parts)
    readings = unique(some(draw, declared.READING_RECORD)) if parts else ()
    releases = unique(some(draw, declared.RELEASE_RECORD)) if parts else ()
    moisture = unique(some(draw, declared.MOISTURE_RECORD))
    acceptances = unique(some(draw, declared.ACCEPTANCE_RECORD))
    released = [parts[i % len(parts)] for i in range(len(releases))]
    return replace(
        build,
        components=parts,
        stock=stock,
        readings=tuple(replace(one, of=size_of(one, parts)) for one in readings),
        moisture=tuple(replace(one, parts=tuple(marks[:1])) for one in moisture),
        releases=tuple(
            replace(one, mark=part.mark, part=part) for one, part in zip(releases, released, strict=True)
        ),
        acceptances=tuple(
            replace(
                one, joint=names[-1] if one.by and names else "", part=marks[0] if one.says and marks else ""
            )
            for one in acceptances
        ),
    )


@st.composite
def builds(draw: st.DrawFn) -> model.Build:
    build = draw(record_of(declared.BUILD_RECORD))
    build = replace(
        build,
        context=draw(record_of(declared.CONTEXT_RECORD)),
        steps=build.steps or some(draw, declared.STEP_RECORD),
        entries=build.entries or some(draw, declared.ENTRY_RECORD),
    )
    components: tuple[model.Component, ...] = ()
    for i in range(draw(st.integers(0, 3))):
        one = draw(record_of(declared.COMPONENT_RECORD))
        one = replace(
            one,
            holes=one.holes or some(draw, declared.HOLE_RECORD),
            pockets=one.pockets or some(draw, declared.POCKET_RECORD),
            poses=one.poses or some(draw, declared.POSE_RECORD),
            bends=one.bends or some(draw, declared.BEND_RECORD),
            motion=one.motion or draw(st.none() | record_of(declared.MOTION_RECORD)),
        )
        components += (component(one, MARKS[i], MARKS[:i]),)
    joints: tuple[model.Joint, ...] = ()
    for mark in JOINT_MARKS[: draw(st.integers(0, 2))]:
        one = draw(record_of(declared.JOINT_RECORD))
        one = replace(
            one,
            places=one.places or some(draw, declared.PLACE_RECORD),
            stack=one.stack or some(draw, declared.STACK_RECORD),
        )
        joints += (joint(one, mark, components),)
    calculations = tuple(
        calculation(draw(record_of(declared.CALCULATION_RECORD)), mark, components, joints)
        for mark in CALCULATION_MARKS[: draw(st.integers(0, 2))]
    )
    marks = [one.mark for one in components]
    kept = [one.mark for one in calculations]
    names = [*marks, *(one.mark for one in joints)]
    build = kept_records(draw, replace(build, components=components, joints=joints))
    return replace(
        build,
        calculations=calculations,
        steps=tuple(
            replace(one, fits=tuple(names[:2]), closes=tuple(names[2:3]), glued=tuple(marks[1:2]))
            for one in unique(build.steps, "number")
        ),
        entries=tuple(
            replace(
                one,
                marks=(*names[:3], *kept[:1]),
                photographs=tuple(
                    replace(picture, id=f"{one.id}-{place}") for place, picture in enumerate(one.photographs)
                ),
            )
            for one in unique(build.entries)
        ),
    )
