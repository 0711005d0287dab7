"""The sizes of a part in a line: three for a block, a diameter and a length for a round."""

from __future__ import annotations

import re
from dataclasses import dataclass

from calculators.planning.lines.line import GAP, Line, refusal
from calculators.planning.lines.materials_said import materials_in
from calculators.planning.lines.measures import MEASURE, Measure, chain_lengths
from calculators.planning.model import Size, Unit
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

_LABELS = {
    "diameter": ("dia", "diameter", "diam", "Ø", "od", "o/d", "round", "outside diameter", "outside dia"),
    "bore": ("bore", "bored", "id", "i/d", "inside diameter", "inside dia", "hole"),
    "wall": ("wall",),
    "length": ("long", "length", "lg", "len"),
    "width": ("wide", "width", "broad"),
    "thickness": ("thick", "thickness", "thk", "high", "height", "deep"),
}
_ROLE = {name.casefold(): role for role, names in _LABELS.items() for name in names}
_BEFORE = (
    r"(?:outside dia(?:meter)?|inside dia(?:meter)?|dia(?:meter|m)?\.?|bored?|length|width|thickness|height"
    r"|o/?d|i/?d|Ø|wall)"
)
_BEHIND = (
    r"(?:outside dia(?:meter)?|inside dia(?:meter)?|dia(?:meter|m)?|bored?|wall|long|length|lg|wide|width"
    r"|broad|thick|thickness|thk"
    r"|high|height|deep|o/?d|i/?d|round)"
)
_ITEM = re.compile(
    rf"(?:(?<![^\W_])(?P<before>{_BEFORE})[ :=]?)?(?P<text>{MEASURE})(?: ?(?P<behind>{_BEHIND})"
    rf"(?![^\W_])\.?)?",
    re.IGNORECASE,
)
_BY = re.compile(r" ?(?:x|by) ?", re.IGNORECASE)
_LOOSE = re.compile(rf"[ ,{GAP}]*")
_ROUND_WORD = re.compile(r"(?<![^\W_])(?:rods?|dowels?|dowelling|wires?|round bar)(?![^\W_])", re.IGNORECASE)
_TUBE_WORD = re.compile(r"(?<![^\W_])(?:tubes?|tubing|pipes?)(?![^\W_])", re.IGNORECASE)
_SHAPE = re.compile(
    rf"(?:(?<=[,{GAP}])|(?<=[,{GAP}] )|^)(?P<shape>round|block)(?= ?(?:[,{GAP}]|$))", re.IGNORECASE
)
_CORNER = re.compile(
    rf"(?:corner radius|corners? rad(?:ius)?\.?|corners? r|corners? rounded(?: to)?|rounded corners?"
    rf"|radius(?:ed)? corners?|corners?) ?[:=]?"
    rf" ?(?P<text>{MEASURE})(?: rad(?:ius)?)?"
    rf"|(?:(?:rad(?:ius)?|r)\.? ?(?P<text2>{MEASURE}|[0-9.]+) (?:at |on |to )?(?:the )?corners)",
    re.IGNORECASE,
)
_NAMES = ("length", "width", "thickness")
_SQUARE = re.compile(rf"(?P<text>{MEASURE}) ?(?:sq\.?|square)(?![^\W_])", re.IGNORECASE)
_SECTION_WORD = re.compile(
    r"(?<![^\W_])(?:angles?|channels?|box|section|rhs|shs|tubes?|tubing|tees?)(?![^\W_])", re.IGNORECASE
)
_WORDS_BETWEEN = re.compile(r" (?:[^\W\d_]+ ){1,4}x ?", re.IGNORECASE)
_LONGER = 3
"""How many times the other two the last of three sizes is, that is a length whatever their order."""


@dataclass(frozen=True, slots=True)
class _Item:
    """One size in a line: where it stands, what it is, what it is said to be."""

    start: int
    end: int
    measure: Measure
    role: str


@dataclass(slots=True)
class _Sizes:
    """The sizes by what they are: first those that say it, then the others in their order."""

    said: dict[str, Length]
    free: list[tuple[Measure, Length]]


def take_corner_radius(line: Line, unit: Unit) -> Length | None:
    """Take `corner radius 3` out of a line.

    Args:
        line: the line.
        unit: [mm or in] what a bare number means.

    Returns:
        The radius, or None.

    Raises:
        InputError: when it cannot be read.

    Source: common practice.
    """
    found = line.take(_CORNER)
    return (
        chain_lengths([Measure.of(found["text"] or found["text2"])], unit)[0] if found is not None else None
    )


def take_size(line: Line, unit: Unit) -> Size | None:
    """Take the finished sizes out of a line; a single size that says nothing of itself stays in the name.

    Three sizes are a block's length, width and thickness; two a length and a width, with the thickness from a
    gauge or a size that stands alone (`6 mm ply base 276 x 96`). With a diameter the part is a round and the
    other size its length. A rod, dowel or wire of two sizes is a round of the smaller diameter.

    Args:
        line: the line.
        unit: [mm or in] what a bare number means.

    Returns:
        The sizes, or None where the line gives none.

    Raises:
        InputError: when there are too many, they contradict each other, or it is not clear what they are.

    Source: common practice.
    """
    shape = line.take(_SHAPE)
    while (found := _SQUARE.search(line.plain)) is not None:
        line.replace(found.start(), found.end(), f"{found['text']} x {found['text']}")
    text = line.plain
    items = [_item(found) for found in _ITEM.finditer(text)]
    groups: list[list[_Item]] = []
    for item in items:
        if groups and _joined(text, groups[-1][-1], item):
            groups[-1].append(item)
        else:
            groups.append([item])
    sized = [group for group in groups if len(group) > 1 or group[0].role]
    loose = [group[0] for group in groups if len(group) == 1 and not group[0].role]
    if not sized:
        if shape is None:
            return None
        return Size("round") if shape["shape"].lower() == "round" else Size("block")
    sizes = _Sizes({}, [])
    for group in sized:
        _ask_section(group, sized, line)
        _sort_out(group, sizes, unit)
    role = _role_of_loose(sizes, text)
    if role and len(loose) == 1 and (not loose[0].measure.bare or _of_material(text, loose[0])):
        _say_loose(sizes, role, loose[0].measure, unit)
        sized.append(loose)
    starts = {one.start for group in sized for one in group}
    for item in sorted((one for group in sized for one in group), key=lambda one: -one.start):
        end = item.end
        by = _BY.match(text, end)
        if by is not None and by.end() in starts:
            end = by.end()
        line.replace(item.start, end, GAP)
    return _size(sizes, text, shape["shape"].lower() if shape is not None else "")


def _role_of_loose(sizes: _Sizes, text: str) -> str:
    """What the one size that stands apart from the others is, where they leave one open."""
    if "diameter" in sizes.said:
        return "" if sizes.free or "length" in sizes.said or "thickness" in sizes.said else "length"
    if len(sizes.free) + sum(role in _NAMES for role in sizes.said) == 2:
        return "" if "thickness" in sizes.said else "thickness"
    only_long = set(sizes.said) == {"length"} and not sizes.free
    return "diameter" if only_long and _ROUND_WORD.search(text) else ""


def _say_loose(sizes: _Sizes, role: str, measure: Measure, unit: Unit) -> None:
    """Put the size that stands apart where it belongs; `2.4 m of 20 x 20` is a length and no thickness."""
    length = chain_lengths([measure], unit)[0]
    free = [each for _, each in sizes.free]
    if role == "thickness" and len(free) == 2 and thickness_comes_first(free[0], free[1], length):
        sizes.free.append((measure, length))
    else:
        sizes.said[role] = length


def _of_material(text: str, item: _Item) -> bool:
    """Whether a bare size stands before a material, as in `1/4 plywood`."""
    behind = text[item.end :]
    first = next(materials_in(behind), None)
    return first is not None and not behind[: first.start].strip()


def _ask_section(group: list[_Item], sized: list[list[_Item]], line: Line) -> None:
    """Ask for an angle or a hollow section with its sizes in its name, for a block has none of its own."""
    bare = [item for item in group if not item.role]
    long = [item for each in sized for item in each if item.role == "length"]
    if len(bare) + len(long) != 4 or len(bare) < 3 or not _SECTION_WORD.search(line.plain):
        return
    start, end = bare[0].start, bare[2].end
    section = line.shown[start:end]
    behind = line.shown[end:] if long else f", {bare[3].measure.text} long{line.shown[bare[3].end :]}"
    choice = f"{line.shown[:start]}“{section}”{behind}"
    says = (
        f"{quoted(section)} is a section with a length besides; put the section in quotes, which makes it "
        f"part of the name: {choice}."
    )
    raise refusal(says, choice)


def _item(found: re.Match[str]) -> _Item:
    label = (found["before"] or found["behind"] or "").rstrip(".").casefold()
    role = _ROLE.get(label, "diameter" if label else "")
    if found["before"] and found["behind"]:
        raise refusal(f"{quoted(found[0])} says two things of one size; write one of them.")
    return _Item(found.start(), found.end(), Measure.of(found["text"]), role)


def _joined(text: str, first: _Item, second: _Item) -> bool:
    """Whether two sizes belong together: a sign of multiplication between them, or near and labelled."""
    between = text[first.end : second.start]
    if _BY.fullmatch(between):
        return True
    if first.role and second.role:
        return _LOOSE.fullmatch(between) is not None
    if first.role == "diameter" and not second.role and _WORDS_BETWEEN.fullmatch(between):
        return True
    beside = between == " "
    return beside and (first.role in ("diameter", "bore", "wall") or second.role in ("bore", "wall"))


def _sort_out(group: list[_Item], sizes: _Sizes, unit: Unit) -> None:
    for item, length in zip(group, chain_lengths([one.measure for one in group], unit), strict=True):
        if not item.role:
            sizes.free.append((item.measure, length))
        elif item.role in sizes.said:
            both = f"{sizes.said[item.role].written} and {length.written}"
            raise refusal(f"The line gives two sizes as the {item.role}, {both}.")
        else:
            sizes.said[item.role] = length


def _size(sizes: _Sizes, text: str, shape: str) -> Size:
    said, free = sizes.said, sizes.free
    is_round = shape == "round" or "diameter" in said or "bore" in said or "wall" in said
    if not is_round and not said and len(free) == 2 and _ROUND_WORD.search(text):
        free.sort(key=lambda pair: pair[1].ticks)
        is_round = True
    if not is_round and not said and len(free) in (2, 3) and _TUBE_WORD.search(text):
        raise _ask_tube(free)
    if is_round:
        return _round(said, [length for _, length in free])
    return _block(said, free)


def _ask_tube(free: list[tuple[Measure, Length]]) -> Exception:
    first, *others = (measure.text for measure, _ in free)
    bore = f" bore {others[0]}" if len(others) == 2 else ""
    choice = f"{first} dia{bore} x {others[-1]}"
    says = (
        f"The tube's sizes do not say which is its diameter; write {choice}, or of a square tube its sizes "
        f"as long, wide and thick."
    )
    return refusal(says, choice)


def _round(said: dict[str, Length], free: list[Length]) -> Size:
    for role in ("width", "thickness"):
        if role == "thickness" and role in said and "length" not in said and not free:
            said["length"] = said.pop(role)
        elif role in said:
            raise refusal(
                f"A round has a diameter, a bore and a length, and no {role}; the line gives "
                f"{said[role].written}."
            )
    if "diameter" not in said and free and ("bore" in said or "wall" in said or len(free) > 1):
        said["diameter"] = free.pop(0)
    if "length" not in said and free:
        said["length"] = free.pop(0)
    if free:
        left = " and ".join(length.written for length in free)
        raise refusal(
            f"A round has a diameter and a length, and {left} is left over; write it as 20 dia bore 16 x 300."
        )
    bore = said.get("bore")
    if "wall" in said:
        if bore is not None or "diameter" not in said:
            raise refusal("A tube's wall goes with its diameter alone; write it as 20 dia wall 2 x 300.")
        bore = Length(said["diameter"].ticks - 2 * said["wall"].ticks)
        if bore.ticks <= 0:
            raise refusal(f"A wall of {said['wall'].written} leaves no bore in {said['diameter'].written}.")
    diameter = said.get("diameter")
    if bore is not None and diameter is not None and bore.ticks >= diameter.ticks:
        raise refusal(f"The bore of {bore.written} is not less than the diameter of {diameter.written}.")
    return Size("round", length=said.get("length"), diameter=diameter, bore=bore)


def thickness_comes_first(first: Length, second: Length, third: Length) -> bool:
    """Say whether three sizes are in the timber yard's order: `2 x 4 x 24` is 24 long, 4 wide, 2 thick.

    A last size that is the greatest, with the least first, or of three times the others, is no thickness.

    Args:
        first: as written.
        second: as written.
        third: as written.

    Returns:
        True where they are thickness, width and length.

    Source: common practice.

    Example:
        >>> sizes = [Length(size * 10_000_000) for size in (2, 4, 24)]
        >>> thickness_comes_first(*sizes), thickness_comes_first(*reversed(sizes))
        (True, False)
    """
    a, b, c = first.ticks, second.ticks, third.ticks
    return a <= b < c or c >= _LONGER * max(a, b)


def _block(said: dict[str, Length], free: list[tuple[Measure, Length]]) -> Size:
    gauges = [pair for pair in free if pair[0].gauge]
    if len(free) == 2 and len(gauges) == 1 and "thickness" not in said:
        said = {**said, "thickness": gauges[0][1]}
        free = [pair for pair in free if pair is not gauges[0]]
    missing = [role for role in _NAMES if role not in said]
    if len(free) > len(missing):
        count = len(free) + len(said)
        listed = " x ".join(measure.text for measure, _ in free)
        number = {4: "four", 5: "five", 6: "six"}.get(count, str(count))
        raise refusal(
            f"{quoted(listed)} makes {number} sizes: a block has three (length x width x thickness), "
            "a round a diameter and a length."
        )
    if len(free) == 3 and not said and thickness_comes_first(*(length for _, length in free)):
        free = sorted(free, key=lambda pair: -pair[1].ticks)
    found = {**said, **dict(zip(missing, (length for _, length in free), strict=False))}
    return Size("block", found.get("length"), found.get("width"), found.get("thickness"))
