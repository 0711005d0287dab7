"""The buying list: fasteners with their spares, bought parts not in hand, and stock added up."""

from __future__ import annotations

from dataclasses import dataclass, replace
from math import ceil, pi
from typing import Literal

from calculators.hardware.designation import write_hardware
from calculators.hardware.fastener import Fastener, Hardware
from calculators.planning.model import Build, Component
from calculators.planning.schedules.cutting import missing_sizes, parts_to_cut, rough_sizes
from calculators.planning.schedules.fasteners import fastener_schedule, house_writing, steel_twin
from calculators.planning.tree import total_quantity
from calculators.planning.worked import WorkedBuild

BuyKind = Literal["fastener", "washer", "nut", "insert", "steel twin", "part", "stock"]


@dataclass(frozen=True, slots=True)
class BuyLine:
    """One thing to buy.

    Fasteners and parts have `count` and `spares`. Stock has the pieces in `count` and what they add up to
    at their rough sizes: `length_mm` of bar and tube, `area_m2` and `volume_m3` of boards and sheets,
    before any saw cut or waste. `used` are the marks of joints or components that need it.
    """

    kind: BuyKind
    what: str
    count: int
    spares: int = 0
    length_mm: float | None = None
    area_m2: float | None = None
    volume_m3: float | None = None
    used: tuple[str, ...] = ()
    supplier: str = ""
    note: str = ""

    @property
    def total(self) -> int:
        """How many to buy, spares included."""
        return self.count + self.spares


def buying_list(build: Build, worked: WorkedBuild) -> tuple[BuyLine, ...]:
    """List what must be bought: fasteners, bought parts not in hand, stock for the parts not yet made.

    Brass wood screws have spares: a tenth of them or two, whichever is more.

    Args:
        build: the build.
        worked: the same build worked out.

    Returns:
        Fasteners in the order of the fastener schedule, then parts, then stock by material.

    Raises:
        InputError: when the tree of components has a ring or a missing parent.

    Source: common practice (spares); else this project.

    Example:
        >>> hinge = Component("P1", "Butt hinge", quantity=2, stock="bought")
        >>> build = Build("B1", "Box", components=(hinge,))
        >>> [(line.what, line.total) for line in buying_list(build, WorkedBuild(build))]
        [('Butt hinge', 2)]
    """
    totals = total_quantity(build)
    return (*_fasteners(build, worked), *_parts(build, totals), *_stock(build, totals))


def spares_for(item: Hardware, count: int) -> int:
    """Say how many spare ones to buy.

    Args:
        item: the screw, nut, washer or insert.
        count: [1] how many are needed, 0 or more.

    Returns:
        A tenth, rounded up, or two, whichever is more, of brass wood screws; none of anything else.

    Source: common practice.

    Example:
        >>> spares_for(Fastener("wood", "No. 8", material="brass"), 12)
        2
        >>> spares_for(Fastener("wood", "No. 8", material="brass"), 48)
        5
    """
    brass_wood = isinstance(item, Fastener) and item.family == "wood" and "brass" in item.material
    return max(2, ceil(count / 10)) if brass_wood and count else 0


def _fasteners(build: Build, worked: WorkedBuild) -> list[BuyLine]:
    """The lines of the fastener schedule as they are bought: a screw cut to length at its stock length."""
    items = _items(worked)
    bought: dict[tuple[BuyKind, str], BuyLine] = {}
    for line in fastener_schedule(build, worked).lines:
        item = items[line.designation]
        if isinstance(item, Fastener) and item.cut_to is not None:
            item = replace(item, cut_to=None)
        what = write_hardware(item)
        one = bought.get((line.kind, what), BuyLine(line.kind, what, 0, note=line.note))
        suppliers = dict.fromkeys((*filter(None, one.supplier.split(", ")), *line.suppliers))
        bought[line.kind, what] = replace(
            one,
            count=one.count + line.count,
            spares=spares_for(item, one.count + line.count),
            used=tuple(dict.fromkeys((*one.used, *(use.joint for use in line.used)))),
            supplier=", ".join(suppliers),
        )
    return [line for line in bought.values() if line.count]


def _items(worked: WorkedBuild) -> dict[str, Hardware]:
    """Every piece of hardware of the build by its canonical writing."""
    found: dict[str, Hardware] = {}
    for one in worked.joints:
        fastener = house_writing(one.result.fastener, worked.build)
        held: list[Hardware | None] = [fastener, steel_twin(fastener)]
        for member in one.inputs.stack:
            held += [member.washer, member.nut, member.insert]
        for item in held:
            if item is not None:
                found.setdefault(write_hardware(item), item)
    return found


def _parts(build: Build, totals: dict[str, int]) -> list[BuyLine]:
    bought: list[BuyLine] = []
    for one in build.components:
        if one.stock == "bought" and not one.reused and one.state not in ("in hand", "fitted", "made"):
            note = "; ".join(words for words in ("on order" * (one.state == "bought"), one.note) if words)
            bought.append(BuyLine("part", one.name, totals[one.mark], used=(one.mark,), note=note))
    return bought


def _stock(build: Build, totals: dict[str, int]) -> list[BuyLine]:
    """Stock of one material and section together, in the order of its first part."""
    lines: dict[str, BuyLine] = {}
    for one in parts_to_cut(build):
        if one.state in ("made", "fitted", "in hand") or not one.stock:
            continue
        what, count = stock_named(one), totals[one.mark]
        line = lines.get(what, BuyLine("stock", what, 0))
        length_mm, area_m2, volume_m3 = _amounts(one, count)
        note = line.note
        if missing_sizes(one):
            note = "; ".join(filter(None, (note, f"{one.mark} is not counted: {_lacks(one)} not known")))
        lines[what] = replace(
            line,
            count=line.count + count,
            length_mm=_added(line.length_mm, length_mm),
            area_m2=_added(line.area_m2, area_m2),
            volume_m3=_added(line.volume_m3, volume_m3),
            used=(*line.used, one.mark),
            note=note,
        )
    return list(lines.values())


def _lacks(one: Component) -> str:
    return " and ".join(missing_sizes(one))


def _added(first: float | None, second: float | None) -> float | None:
    return first if second is None else (first or 0.0) + second


def stock_named(one: Component) -> str:
    """Name the stock that a part is cut from: material, form and the section that must be bought.

    Args:
        one: the part.

    Returns:
        Such as `brass bar 19.05 mm dia`, `oak board 25 mm`, `ply sheet 12 mm`.

    Source: this project.

    Example:
        >>> from calculators.quantities.length import Length
        >>> from calculators.planning.model import Size
        >>> size = Size("round", diameter=Length.of_mm(19.05))
        >>> stock_named(Component("P1", "Pillar", material="brass", stock="bar", size=size))
        'brass bar 19.05 mm dia'
    """
    (_, width, thickness, diameter), _ = rough_sizes(one)
    form = "bar" if one.stock == "turned" else one.stock
    words = f"{one.material or 'material not stated'} {form}"
    if form in ("board", "sheet"):
        return f"{words} {thickness:.6g} mm" if thickness is not None else words
    if diameter is not None:
        bore = f", bore {one.size.bore.mm:.6g} mm" if form == "tube" and one.size.bore is not None else ""
        return f"{words} {diameter:.6g} mm dia{bore}"
    if width is not None and thickness is not None:
        return f"{words} {width:.6g} x {thickness:.6g} mm"
    return words


def _amounts(one: Component, count: int) -> tuple[float | None, float | None, float | None]:
    """Length [mm], area [m2] and volume [m3] of the stock for all copies of a part."""
    (length, width, thickness, diameter), _ = rough_sizes(one)
    if length is None or missing_sizes(one):
        return None, None, None
    if one.stock in ("board", "sheet"):
        across = width if width is not None else diameter
        area = length * across / 1e6 * count if across is not None else None
        volume = area * thickness / 1000 if area is not None and thickness is not None else None
        return None, area, volume
    section = width * thickness if width is not None and thickness is not None else None
    if diameter is not None:
        section = pi / 4 * diameter**2
    return length * count, None, None if section is None else section * length / 1e9 * count
