"""Builds for hypothesis whose parts, holes, pockets, fasteners, motions and records truly meet one another."""

from __future__ import annotations

from dataclasses import replace
from datetime import date, timedelta
from decimal import Decimal
from typing import Any

from hypothesis import strategies as st

from calculators.planning import model
from calculators.quantities import Length

BLOCK_FACES = ("top", "bottom", "front", "back", "left", "right")
ROUND_FACES = ("left", "right", "side")
MATERIALS = (
    "white oak", "beech", "Scots pine", "birch plywood", "mild steel", "brass", "aluminium 6082", "stainless steel",
    "music wire", "acrylic", "no such stuff", "",
)  # fmt: skip
FASTENERS = (
    "M5 x 20 csk slotted brass", "M6 x 30 hex set screw steel", "M6 x 16 socket cap steel", "M4 x 10 grub steel",
    "No. 8 x 1 1/2 csk slotted brass wood screw", "No. 10 x 2 round slotted steel wood screw", "M8 x 100 coach bolt steel",
    "1/4 BSF x 1 in hex set screw steel", "2 BA x 3/4 cheese brass", "10-32 UNF x 1/2 socket cap steel", "M6 hex set screw steel",
    "5 x 60 csk pozidriv steel wood screw", "M8 x 60 coach screw, steel", "M6 x 20 hex set screw stainless A2",
)  # fmt: skip
ITEMS = (
    "M5 washer", "M6 washer", "M6 nut", "M6 half nut", "M8 nut", "M6 dome nut", "1/4 BSF nut", "2 BA nut", "M6 insert",
    "M6 stiff nut", "M8 repair washer", "M6 nut stainless A2",
)  # fmt: skip
THREADS = ("", "M5", "M6", "2 BA", "1/4 BSF", "10-32 UNF", "nonsense")
TODAY = date(2025, 6, 6)
SIZES = st.sampled_from((0.5, 1.6, 3, 5, 6, 10, 12, 18, 20, 25, 40, 60, 100, 160, 300, 640)) | st.floats(
    0.0001, 1e5
)
NEAR = st.integers(-5, 60) | st.integers(0, 30) | st.integers(0, 300) | st.floats(-200, 700)
SMALL = st.sampled_from((0.5, 2, 3, 4, 4.5, 5, 6, 6.6, 8, 10, 12, 16, 20, 35))


def mm(value: float) -> Length:
    return Length(round(max(-1e5, min(1e5, value)) * 10**7))


def size_mm(value: float) -> Length:
    return Length(max(1, mm(value).ticks))


lengths = SMALL.map(size_mm)
spots = NEAR.map(mm)


def maybe(strategy: st.SearchStrategy[Any], empty: Any = None) -> st.SearchStrategy[Any]:
    return st.just(empty) | strategy


def sides(shape: str) -> tuple[str, ...]:
    return ROUND_FACES if shape == "round" else BLOCK_FACES


def where(draw: st.DrawFn, face: str) -> dict[str, Any]:
    """A point of a face."""
    at = {"u": draw(spots), "v": draw(spots)}
    return (
        {**at, "v": None, "angle_deg": Decimal(draw(st.sampled_from((0, 30, 90, 180, 355))))}
        if face == "side"
        else at
    )


@st.composite
def sizes(draw: st.DrawFn) -> model.Size:
    if draw(st.integers(0, 3)) == 0:
        diameter = draw(SIZES)
        bore = maybe(st.just(size_mm(min(diameter, 1e5) * 0.6)))
        bored = draw(bore) if diameter > 1 else None
        return model.Size("round", size_mm(draw(SIZES)), diameter=size_mm(diameter), bore=bored)
    if draw(st.integers(0, 15)) == 0:
        return model.Size()
    return model.Size("block", *(size_mm(draw(SIZES)) for _ in range(3)))


@st.composite
def holes(draw: st.DrawFn, shape: str, number: int) -> model.Hole:
    face = draw(st.sampled_from(sides(shape)))
    kind = draw(
        st.sampled_from(("clearance", "pilot", "tapping", "plain", "reamed", "insert", "slot", "spot"))
    )
    return model.Hole(
        f"h{number}",
        face,
        **where(draw, face),
        kind=kind,
        diameter=draw(maybe(lengths)),
        depth=draw(maybe(lengths)),
        thread=draw(st.sampled_from(THREADS)) if kind == "tapping" else "",
        countersink_diameter=draw(maybe(lengths)),
        counterbore_diameter=draw(maybe(lengths)),
        counterbore_depth=draw(maybe(lengths)),
        slot_length=draw(maybe(lengths)) if kind == "slot" else None,
        slot_along=draw(st.sampled_from(("", "u", "v"))) if kind == "slot" else "",
    )


@st.composite
def pockets(draw: st.DrawFn, shape: str, number: int) -> model.Pocket:
    face = draw(st.sampled_from(sides(shape)))
    return model.Pocket(
        f"k{number}",
        face,
        draw(spots),
        draw(spots),
        size_mm(draw(SIZES)),
        size_mm(draw(SIZES)),
        depth=draw(maybe(lengths)),
        corner_radius=draw(maybe(lengths)),
        cutter=draw(maybe(lengths)),
        squared=draw(st.booleans()),
        angle_deg=Decimal(45) if face == "side" else None,
    )


@st.composite
def poses(draw: st.DrawFn, shape: str, on: list[tuple[str, str]], copy: int) -> model.Pose:
    under, other = draw(st.sampled_from(on)) if on else ("", "block")
    face = draw(st.sampled_from(sides(other))) if under else "top"
    own = draw(st.sampled_from(sides(shape))) if shape == "round" else draw(st.sampled_from(BLOCK_FACES))
    return model.Pose(
        copy,
        under,
        face,
        draw(spots),
        draw(spots) if face != "side" else mm(0),
        angle_deg=Decimal(draw(st.sampled_from((0, 45, 90)))) if face == "side" else Decimal(0),
        turned_deg=Decimal(draw(st.sampled_from((0, 90, 180, 17)))),
        let_in=draw(maybe(lengths, mm(0))),
        own_face=own,
        point=draw(st.sampled_from(("corner", "centre"))),
        hand=draw(st.sampled_from(("same", "other"))),
    )


@st.composite
def bends(draw: st.DrawFn, size: model.Size) -> tuple[model.Bend, ...]:
    """Folds that lie within a block, none of any other part."""
    if size.shape != "block" or not size.length or not size.width:
        return ()
    found = []
    for number in range(draw(st.sampled_from((0, 0, 1, 2)))):
        runs = draw(st.sampled_from(("across", "along")))
        whole = size.length if runs == "across" else size.width
        at = Length(max(1, min(whole.ticks - 1, whole.ticks * draw(st.integers(1, 9)) // 10)))
        if whole.ticks > 1:
            found.append(model.Bend(f"b{number}", at, runs, radius=draw(maybe(lengths))))
    return tuple(found)


@st.composite
def motions(draw: st.DrawFn, marks: list[str]) -> model.Motion:
    least, most = draw(st.sampled_from(((0, 2), (-1, 0), (-6, 30), (-90, 360), (0, 30))))
    carried = draw(st.lists(st.sampled_from(marks), max_size=2, unique=True)) if marks else []
    return model.Motion(
        draw(st.sampled_from(("turns", "slides"))),
        draw(st.sampled_from(("X", "Y", "Z"))),
        Decimal(least),
        Decimal(most),
        draw(spots),
        draw(spots),
        draw(spots),
        tuple(carried),
    )


@st.composite
def components(
    draw: st.DrawFn, number: int, before: list[model.Component], stock: list[str]
) -> model.Component:
    size = draw(sizes())
    quantity = draw(st.sampled_from((1, 1, 1, 2)))
    on = [(one.mark, one.size.shape) for one in before if one.quantity == 1 and one.size.shape and one.poses]
    posed = size.shape and draw(st.integers(0, 5)) > 0
    mark = f"P{number:02d}"
    return model.Component(
        mark,
        f"Part {number}",
        quantity=quantity,
        material=draw(st.sampled_from(MATERIALS)),
        stock=draw(st.sampled_from(("", "board", "sheet", "bar", "tube", "turned", "bought"))),
        size=size,
        grain_cut=draw(st.sampled_from(("", "flat", "quarter"))),
        corner_radius=draw(maybe(lengths)),
        state=draw(st.sampled_from(("planned", "released", "made", "fitted", "bought", "in hand"))),
        revision=draw(st.sampled_from(("", "A", "B"))),
        made_to=draw(st.sampled_from(("", "A"))),
        poses=tuple(draw(poses(size.shape, on, copy)) for copy in range(1, quantity + 1)) if posed else (),
        holes=tuple(draw(holes(size.shape, i)) for i in range(draw(st.integers(0, 3)))) if size.shape else (),
        pockets=tuple(draw(pockets(size.shape, i)) for i in range(draw(st.integers(0, 2)))) if size.shape else (),
        bends=draw(bends(size)),
        legs=tuple(draw(lengths) for _ in range(draw(st.sampled_from((0, 0, 2, 3))))),
        motion=draw(maybe(motions([one.mark for one in before]))) if posed else None,
        end_float=draw(maybe(lengths)),
        end_shake=draw(maybe(lengths)),
        evidence=draw(st.sampled_from(("", "measured", "design", "catalogue", "judged", "none"))),
        from_stock=draw(st.sampled_from(["", *stock])),
        reused=draw(st.booleans()),
    )  # fmt: skip


@st.composite
def layer_holes(draw: st.DrawFn, ids: list[str]) -> model.LayerHole:
    return model.LayerHole(
        places=tuple(draw(st.lists(st.sampled_from(ids), max_size=1))) if ids else (),
        kind=draw(
            st.sampled_from(("", "clearance", "tapping", "pilot", "insert", "plain", "slot", "reamed"))
        ),
        diameter=draw(maybe(lengths)),
        depth=draw(maybe(lengths)),
        slot_length=draw(maybe(lengths)),
        slot_along=draw(st.sampled_from(("", "u", "v"))),
        counterbore_diameter=draw(maybe(lengths)),
        counterbore_depth=draw(maybe(lengths)),
        countersink_diameter=draw(maybe(lengths)),
        pilot=draw(st.booleans()),
    )


@st.composite
def joints(draw: st.DrawFn, mark: str, parts: list[model.Component]) -> model.Joint:
    home = draw(st.sampled_from(parts))
    face = draw(st.sampled_from(sides(home.size.shape))) if home.size.shape else ""
    ids = [str(i + 1) for i in range(draw(st.integers(1, 3)))] if face else []
    places = tuple(model.Place(one, **where(draw, face)) for one in ids)
    named = [home, *draw(st.lists(st.sampled_from(parts), max_size=2))]
    members = [
        model.StackMember(
            part=one.mark,
            thickness=draw(maybe(lengths)),
            takes=draw(st.sampled_from(("", "", "clearance", "thread", "pilot"))),
            thread=draw(st.sampled_from(THREADS[:-1])),
            thread_depth=draw(maybe(lengths)),
            drilled_depth=draw(maybe(lengths)),
            holes=tuple(draw(layer_holes(ids)) for _ in range(draw(st.sampled_from((0, 0, 1))))),
        )
        for one in named
    ]
    for item in draw(st.lists(st.sampled_from(ITEMS), max_size=3)):
        members.insert(draw(st.integers(0, len(members))), model.StackMember(item=item))
    return model.Joint(
        mark,
        f"Joint {mark}",
        draw(st.sampled_from(FASTENERS)),
        home.mark,
        face,
        places,
        tuple(members) if draw(st.integers(0, 4)) else (),
        seat=draw(st.sampled_from(("", "", "surface", "flush", "counterbore", "proud"))),
        torque_nm=draw(maybe(st.sampled_from((Decimal("0.5"), Decimal(8))))),
        clamps=draw(st.booleans()),
        stands=draw(maybe(spots)),
        lock=draw(st.sampled_from(("", "low-strength threadlocker"))),
        coating=draw(maybe(st.just(Length.of_mm("0.008")))),
        spotted=draw(st.booleans()),
        wet=draw(st.booleans()),
        loaded_sideways=draw(st.booleans()),
        tool=draw(st.sampled_from(("", "screwdriver", "10 mm spanner"))),
        reached_from=draw(st.sampled_from(("", "below", "front"))),
    )


def records(
    draw: st.DrawFn, parts: list[model.Component], joined: list[model.Joint], stock: list[str]
) -> dict[str, Any]:
    """Steps, stock, readings, moisture, releases, calculations that speak of the parts and joints."""
    marks = [one.mark for one in parts]
    names = [*marks, *(one.mark for one in joined)]
    some = st.lists(st.sampled_from(names), max_size=4, unique=True).map(tuple)
    days = st.integers(-200, 30).map(lambda day: TODAY + timedelta(days=day))
    minutes = maybe(st.sampled_from((Decimal(5), Decimal(15), Decimal(40))))
    return {
        "steps": tuple(
            model.AssemblyStep(
                i + 1,
                f"Step {i + 1}",
                draw(some),
                draw(some),
                glued=tuple(draw(st.lists(st.sampled_from(marks), max_size=3, unique=True))),
                open_minutes=draw(minutes),
                rehearsed_minutes=draw(minutes),
                cure_hours=draw(maybe(st.just(Decimal(24)))),
                done=draw(maybe(days)),
                caution=draw(st.sampled_from(("", "Let the springs down first."))),
            )
            for i in range(draw(st.integers(0, 3)))
        ),
        "stock": tuple(
            model.Stock(
                mark,
                f"Piece {mark}",
                draw(st.sampled_from(MATERIALS)),
                draw(st.sampled_from(("board", "sheet", "bar"))),
                size_mm(draw(SIZES)),
                size_mm(draw(SIZES)),
                size_mm(draw(SIZES)),
                measured=draw(st.booleans()),
                count=draw(maybe(st.integers(0, 3))),
            )
            for mark in stock
        ),
        "readings": tuple(
            model.Reading(f"r{i}", f"{draw(st.sampled_from(marks))} {draw(st.sampled_from(('length', 'width', 'diameter')))}",
                          size_mm(draw(SIZES)), draw(maybe(lengths)), method=draw(st.sampled_from(("", "caliper", "photograph"))))
            for i in range(draw(st.integers(0, 3)))
        ),
        "moisture": tuple(
            model.Moisture(f"m{i}", draw(days), Decimal(draw(st.sampled_from((6, 10, 18)))), tuple(draw(st.lists(st.sampled_from(marks), max_size=2, unique=True))))
            for i in range(draw(st.integers(0, 2)))
        ),
        "releases": tuple(
            model.Release(f"{one.mark}-A", one.mark, "A", draw(st.just(one) | st.just(replace(one, holes=()))), draw(days), "R. T.")
            for one in draw(st.lists(st.sampled_from(parts), max_size=2, unique=True))
        ),
        "calculations": tuple(
            model.Calculation("K01", "Sag", "shelf-sag", (("span", "600 mm"), ("width", "240 mm"), ("thickness", "18 mm"), ("material", "beech"), ("mass", draw(st.sampled_from(("8 kg", "400 kg", "some"))))),
                              (("thickness", f"{one.mark} thickness"),))
            for one in draw(st.lists(st.sampled_from(parts), max_size=1))
        ),
    }  # fmt: skip


@st.composite
def contexts(draw: st.DrawFn) -> model.Context:
    return model.Context(
        drills=draw(st.sampled_from(((), ("1.0-13.0 by 0.5",), ("2 mm", "no drill")))),
        taps=draw(st.sampled_from(((), ("M5", "M6", "2 BA")))),
        cutters=draw(st.sampled_from(((), ("6 mm", "1/2 in")))),
        moisture_change_percent=draw(maybe(st.just(Decimal(4)))),
        place_moisture_percent=draw(maybe(st.just(Decimal(9)))),
        position_mm=draw(maybe(st.sampled_from((Decimal("0.2"), Decimal(2))))),
        printer_along_mm=draw(maybe(st.sampled_from((Decimal(100), Decimal(102))))),
        printer_across_mm=draw(maybe(st.just(Decimal("99.9")))),
        printer_on=draw(maybe(st.just(date(2025, 1, 1)))),
        hardware=draw(
            st.sampled_from(((), (("M5 x 20 csk slotted brass", Decimal(2)), ("no such screw", Decimal(1)))))
        ),
        as_of=draw(maybe(st.just(TODAY))),
    )


@st.composite
def interacting(draw: st.DrawFn) -> model.Build:
    """A build of two to five parts that lie on one another, with up to three joints."""
    stock = [f"S{i}" for i in range(draw(st.integers(0, 2)))]
    parts: list[model.Component] = []
    for number in range(draw(st.integers(2, 5))):
        parts.append(draw(components(number + 1, parts, stock)))
    joined = [draw(joints(f"F{i:02d}", parts)) for i in range(1, draw(st.sampled_from((1, 2, 3, 0))) + 1)]
    return model.Build(
        "I1",
        "Things that meet",
        unit=draw(st.sampled_from(("mm", "in"))),
        state=draw(st.sampled_from(("planning", "making"))),
        context=draw(contexts()),
        components=tuple(parts),
        joints=tuple(joined),
        **records(draw, parts, joined, stock),
    )
