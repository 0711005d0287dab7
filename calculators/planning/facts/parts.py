"""What sheets say of a part: what it is made of and how large it is, its holes, its pockets, its folds."""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable, Iterator

from calculators.planning.facts.fact import Fact
from calculators.planning.model import Bend, Component, Corner, Pocket, Size
from calculators.planning.schedules.holes import HoleLine
from calculators.quantities.length import Length

DRILLED = ("steps", "note")
"""What a drilling sheet says of a hole and a template does not: with which drills, in which order."""


def in_mm(value: Length | float | None) -> str:
    """Write a length as the facts have it.

    Args:
        value: the length, a float in [mm].

    Returns:
        Millimetres to the hundredth, so that what only a computer can tell apart is no change; nothing
        where there is no length.

    Source: this project.

    Example:
        >>> in_mm(17.2), in_mm(6.350001), in_mm(None)
        ('17.2 mm', '6.35 mm', '')
    """
    if value is None:
        return ""
    shown = f"{value.mm if isinstance(value, Length) else value:.2f}".rstrip("0").rstrip(".")
    return f"{'0' if shown == '-0' else shown} mm"


def told(
    part: str, said: Iterable[tuple[str, str]], of: str = "", key: str = "", via: str = ""
) -> list[Fact]:
    """Make facts of what is said of one thing, those without a value left out.

    Args:
        part: the mark.
        said: what, and its value.
        of: as in `Fact`.
        key: as in `Fact`.
        via: as in `Fact`.

    Returns:
        The facts.

    Source: this project.
    """
    return [Fact(part, what, value, of, key, via) for what, value in said if value]


def size_facts(size: Size) -> list[tuple[str, str]]:
    """Say how large a part is.

    Args:
        size: its finished size.

    Returns:
        What, and its value; nothing where it is not known.

    Source: this project.
    """
    return [
        ("length", in_mm(size.length)),
        ("width", in_mm(size.width)),
        ("thickness", in_mm(size.thickness)),
        ("diameter", in_mm(size.diameter)),
        ("bore", in_mm(size.bore)),
    ]


def body_facts(part: Component) -> list[Fact]:
    """Say what a part is: its revision, material, sizes (as made too), and an outline that is no rectangle.

    Args:
        part: the part.

    Returns:
        The facts.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Size
        >>> lid = Component("P1", "Lid", material="oak", size=Size("block", thickness=Length.of_mm(12)))
        >>> [(fact.what, fact.value) for fact in body_facts(lid)]
        [('material', 'oak'), ('thickness', '12 mm')]
    """
    return told(
        part.mark,
        [
            ("revision", part.revision),
            ("material", part.material),
            *size_facts(part.size),
            *((f"{what} as made", value) for what, value in size_facts(part.made_size or Size())),
            ("grain", {"flat": "flat-sawn", "quarter": "quarter-sawn"}.get(part.grain_cut, "")),
            ("corner radius", in_mm(part.corner_radius)),
            ("outline", " - ".join(map(_corner, part.outline))),
        ],
    )


def _corner(one: Corner) -> str:
    at = f"{in_mm(one.x)}, {in_mm(one.y)}"
    if one.radius is None:
        return at
    long = " the long way" if one.long else ""
    return f"{at} then radius {in_mm(one.radius)} {one.turns}{long}"


def cut_facts(part: Component, face: str = "") -> list[Fact]:
    """Say what is cut into a part besides its holes, and how it is folded.

    Args:
        part: the part.
        face: of this face alone; nothing: of all.

    Returns:
        The facts of its pockets, folds and legs.

    Source: this project.
    """
    found: list[Fact] = []
    for pocket in part.pockets:
        if face in ("", pocket.face):
            found += told(
                part.mark, _pocket(pocket), f"pocket {pocket.id} on {pocket.face}", f"pocket {pocket.id}"
            )
    if face in ("", "top", "bottom"):
        for bend in part.bends:
            found += told(part.mark, _bend(bend), f"fold {bend.id}", f"fold {bend.id}")
        found += told(part.mark, [("legs", ", ".join(map(in_mm, part.legs)))])
    return found


def _pocket(one: Pocket) -> Iterator[tuple[str, str]]:
    yield "face", one.face
    across = f"{one.angle_deg:f}°" if one.angle_deg is not None else in_mm(one.v)
    yield "place", f"{in_mm(one.u)}, {across}"
    yield "length", in_mm(one.length)
    yield "width", in_mm(one.width)
    yield "depth", in_mm(one.depth) or "through"
    yield "corner radius", "squared" if one.squared else in_mm(one.corner_radius)
    yield "cutter", in_mm(one.cutter)
    yield "note", one.note


def _bend(one: Bend) -> Iterator[tuple[str, str]]:
    yield "place", f"{in_mm(one.at)}, {one.runs}"
    yield "angle", f"{one.angle_deg:f}°"
    yield "radius", in_mm(one.radius)
    yield "note", "; ".join(word for word in ("annealed first" if one.annealed else "", one.note) if word)


def hole_facts(holes: Iterable[HoleLine], *, drilled: bool = True) -> list[Fact]:
    """Say where holes are and how they are made.

    A hole is known again by the joint and place that it follows from, or by its own id, and by its face; its
    number and place are what the paper calls it by.

    Args:
        holes: the lines of one part.
        drilled: with the steps of drilling and the notes; else what is marked out alone.

    Returns:
        The facts.

    Source: this project.
    """
    found: list[Fact] = []
    seen: Counter[str] = Counter()
    for one in holes:
        key = " ".join(
            ("hole", one.joint, one.place, one.face, one.entry, *one.copies, *["other"] * one.mirrored)
        )
        seen[key] += 1
        said = [each for each in _hole(one) if drilled or each[0] not in DRILLED]
        found += told(one.part, said, _called(one), f"{key} {seen[key]}" if seen[key] > 1 else key, one.joint)
    return found


def _called(one: HoleLine) -> str:
    at = _place(one)
    return f"hole {one.number} at {at} on {one.face}" if at else f"hole {one.number}"


def _place(one: HoleLine) -> str:
    if one.u_mm is None:
        return ""
    across = (
        f"{one.angle_deg:.2f}".rstrip("0").rstrip(".") + "°" if one.angle_deg is not None else in_mm(one.v_mm)
    )
    return f"{in_mm(one.u_mm)}, {across}"


def _hole(one: HoleLine) -> Iterator[tuple[str, str]]:
    yield "place", _place(one) or "not known yet"
    made = [one.kind, in_mm(one.diameter_mm), f"for {one.thread}" if one.thread else ""]
    yield "made", " ".join(word for word in made if word)
    depth = in_mm(one.depth_mm) or "through"
    yield (
        "depth",
        depth + (f", thread {in_mm(one.thread_depth_mm)}" if one.thread_depth_mm is not None else ""),
    )
    if one.countersink_diameter_mm is not None:
        angle = f", {one.countersink_angle_deg:g}°" if one.countersink_angle_deg is not None else ""
        yield "countersink", f"{in_mm(one.countersink_diameter_mm)}{angle}"
    if one.counterbore_diameter_mm is not None:
        yield "counterbore", f"{in_mm(one.counterbore_diameter_mm)} x {in_mm(one.counterbore_depth_mm)}"
    if one.slot_length_mm is not None:
        yield "slot", f"{in_mm(one.slot_length_mm)} along {one.slot_along or 'u'}"
    yield "steps", "; ".join(one.steps)
    yield "note", one.note
