"""The rule for stock: the piece that a part is cut from is long, wide and thick enough for it."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from itertools import permutations
from math import ceil, hypot

from calculators.joints.limits import Limit
from calculators.joints.model import Mend
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import PartSite, Site, material_of
from calculators.planning.checks.tools import is_to_make
from calculators.planning.model import Component, Stock
from calculators.planning.schedules.cutting import is_wood, missing_sizes, rough_sizes

_SPARE = Limit(
    "stock-spare", 5.0, "mm", CP, "stock longer and wider than the part is cut out at, for the saw and ends"
)

Sizes = tuple[float | None, float | None, float | None]


@dataclass(frozen=True, slots=True)
class Against:
    """One size of a part against the stock's: finished, as cut out, and what the stock has [mm]."""

    name: str
    finished_mm: float
    rough_mm: float
    stock_mm: float


@build_rule(
    "stock-holds-part",
    "material",
    "The piece that a part is cut from holds it in length, width and thickness, with what the saw takes.",
    CP,
    _SPARE,
)
def _stock_holds_part(site: Site) -> Iterator[Seen]:
    """Each part still to be made against the piece that it is cut from, or against the whole rack."""
    stock = {one.mark: one for one in site.build.stock}
    waiting = [part for part in site.parts.values() if is_cut_here(part.component)]
    if not stock:
        if waiting and site.build.state == "making":
            yield unchecked(
                f"Nothing is on the rack of this build, so it is not checked whether stock holds the "
                f"{len(waiting)} part{'s' if len(waiting) > 1 else ''} still to be made.",
                at="stock",
            )
        return
    rack, spare = site.build.stock, site.limits["stock-spare"]
    for part in waiting:
        kept = part.kept.get("stock")
        if kept is None or kept[0] != rack:
            kept = part.kept["stock"] = (rack, tuple(_in_its_piece(part, stock, spare)))
        yield from kept[1]


def _in_its_piece(part: PartSite, stock: Mapping[str, Stock], spare_mm: float) -> Iterator[Seen]:
    piece = stock.get(part.component.from_stock)
    if piece is not None:
        yield from _too_small(part, piece, stock, spare_mm)
    elif not part.component.from_stock:
        yield from _none_holds(part, stock)


def is_cut_here(one: Component) -> bool:
    """Whether a part is still to be cut out here, and its sizes are known.

    Args:
        one: the part.

    Returns:
        False for what is made, bought, re-used, or has no sizes yet.

    Source: this project.
    """
    return is_to_make(one) and bool(one.stock) and not missing_sizes(one)


def _sizes_of(one: Component) -> tuple[Sizes, Sizes]:
    """Finished and rough length, width, thickness; of a round part the diameter twice."""
    (length, width, thickness, diameter), _ = rough_sizes(one)
    size = one.size
    finished = (size.length, size.width, size.thickness)
    if size.shape == "round" or (size.diameter is not None and size.width is None):
        wide = size.diameter.mm if size.diameter is not None else None
        return (size.length.mm if size.length else None, wide, wide), (length, diameter, diameter)
    one_mm = tuple(each.mm if each is not None else None for each in finished)
    return (one_mm[0], one_mm[1], one_mm[2]), (length, width, thickness)


_NAMES = ("length", "width", "thickness")


def _orders(one: Component) -> tuple[tuple[int, ...], ...]:
    """Which way round a part may lie in its stock: the length of wood along the grain, a sheet as thick."""
    if one.stock == "sheet":
        return ((0, 1, 2), (1, 0, 2))
    if is_wood(one):
        return ((0, 1, 2), (0, 2, 1))
    return tuple(permutations((0, 1, 2)))


def compare(one: Component, piece: Stock) -> tuple[Against, ...]:
    """Set a part against a piece of stock, the way round in which it goes best.

    Args:
        one: the part.
        piece: the piece.

    Returns:
        Each size that both have.

    Source: geometry; the allowances are those of the cut list.
    """
    finished, rough = _sizes_of(one)
    round_part = finished[1] is not None and finished[1] == finished[2] and one.size.width is None
    length = piece.length.mm if piece.length else None
    if piece.diameter is not None:
        wide = piece.diameter.mm
        if round_part or finished[1] is None or finished[2] is None:
            pairs = [("length", finished[0], rough[0], length), ("diameter", finished[1], rough[1], wide)]
            return _known(pairs)
        corner, rough_corner = hypot(finished[1], finished[2]), hypot(rough[1] or 0.0, rough[2] or 0.0)
        return _known([("length", finished[0], rough[0], length), ("diameter", corner, rough_corner, wide)])
    have = (
        length,
        piece.width.mm if piece.width else None,
        piece.thickness.mm if piece.thickness else None,
    )
    best: tuple[Against, ...] | None = None
    for order in _orders(one):
        pairs = [(_NAMES[i], finished[j], rough[j], have[i]) for i, j in enumerate(order)]
        found = _known(pairs)
        if best is None or _lack(one, found) < _lack(one, best):
            best = found
    return best or ()


def _known(pairs: list[tuple[str, float | None, float | None, float | None]]) -> tuple[Against, ...]:
    return tuple(
        Against(name, finished, rough if rough is not None else finished, have)
        for name, finished, rough, have in pairs
        if finished is not None and have is not None
    )


def _lack(part: Component, found: tuple[Against, ...]) -> tuple[float, float, float]:
    """How much is short of the part itself, and of what it is cut out at; nought where nothing is.

    What cannot be glued up from staves comes first.
    """
    short = [max(one.finished_mm - one.stock_mm, 0.0) for one in found]
    glued = _staves(part, found)
    return (
        sum(lack for lack, one in zip(short, found, strict=True) if glued is None or one is not glued[0]),
        sum(short),
        sum(max(one.rough_mm - one.stock_mm, 0.0) for one in found),
    )


def _too_small(part: PartSite, piece: Stock, stock: Mapping[str, Stock], spare_mm: float) -> Iterator[Seen]:
    one = part.component
    found = compare(one, piece)
    glued = _staves(one, found)
    if glued is not None:
        width, count = glued
        says = (
            f"{one.mark} is {width.finished_mm:g} wide and {named(piece)} is {width.stock_mm:g}: it takes "
            f"{count} staves glued edge to edge."
        )
        yield Seen(
            "note", says, part=one.mark, place="width", value=width.stock_mm, limit=width.finished_mm,
            unit="mm", at=_at(one),
        )  # fmt: skip
        found = tuple(each for each in found if each is not width)
    if one.stock == "sheet" and piece.measured:  # `sheet-measured` sets the thickness against the sheet's
        found = tuple(each for each in found if each.name != "thickness")
    worst = _worst(one, found, spare_mm)
    if worst is None:
        return
    severity, says_of, each = worst
    better = next(
        (
            other
            for mark, other in stock.items()
            if mark != piece.mark
            and _like(one, other)
            and _worst(one, compare(one, other), spare_mm) is None
            and _staves(one, compare(one, other)) is None
        ),
        None,
    )
    mends: tuple[Mend, ...] = ()
    if better is not None:
        mends = (setting(f"Cut it from {named(better)}.", (_at(one), better.mark)),)
    yield Seen(
        "error" if severity == "error" else "warning",
        f"{one.mark} from {named(piece)}: {says_of}",
        part=one.mark,
        place=each.name,
        value=each.stock_mm,
        limit=each.finished_mm if severity == "error" else _wanted(each, spare_mm),
        unit="mm",
        mends=mends,
        at=_at(one),
    )


def _at(one: Component) -> str:
    return f"components[{one.mark}].from_stock"


def named(piece: Stock) -> str:
    """Name a piece of stock: its mark, and what it is called.

    Args:
        piece: the piece.

    Returns:
        Such as `S1 (32 mm oak)`.

    Source: this project.

    Example:
        >>> named(Stock("S1", "32 mm oak"))
        'S1 (32 mm oak)'
    """
    return f"{piece.mark} ({piece.called})" if piece.called else piece.mark


_EASE = 1e-6


def _wanted(each: Against, spare_mm: float) -> float:
    """What the stock should have: what the part is cut out at, and along and across it some spare."""
    return each.rough_mm + (spare_mm if each.name in ("length", "width") else 0.0)


def _worst(one: Component, found: tuple[Against, ...], spare_mm: float) -> tuple[str, str, Against] | None:
    """What is worst of a part in a piece: its severity, in words, and which size."""
    short = max(found, key=lambda each: each.finished_mm - each.stock_mm, default=None)
    if short is not None and short.finished_mm - short.stock_mm > _EASE:
        lack = short.finished_mm - short.stock_mm
        return (
            "error",
            f"its {short.name} of {short.stock_mm:g} mm is {lack:.3g} short of {short.finished_mm:g}.",
            short,
        )
    tight = max(found, key=lambda each: each.rough_mm - each.stock_mm, default=None)
    if tight is not None and tight.rough_mm - tight.stock_mm > _EASE:
        left, usual = tight.stock_mm - tight.finished_mm, tight.rough_mm - tight.finished_mm
        return (
            "warning",
            f"{tight.stock_mm:g} mm of {tight.name} leaves {left:.3g} for sawing and planing to "
            f"{tight.finished_mm:g}; {usual:.3g} is usual.",
            tight,
        )
    # A bar's section is as it is bought, and what is as wide as the part already: nothing is sawn there.
    names = ("length", "width") if one.stock in ("board", "sheet") else ("length",)
    sawn = [
        each
        for each in found
        if each.name in names and (each.rough_mm > each.finished_mm or each.stock_mm - each.rough_mm > _EASE)
    ]
    near = min(sawn, key=lambda each: each.stock_mm - each.rough_mm, default=None)
    if near is not None and near.stock_mm - near.rough_mm < spare_mm - _EASE:
        spare = near.stock_mm - near.rough_mm
        return (
            "warning",
            f"{near.stock_mm:g} mm of {near.name} leaves {spare:.3g} beyond the {near.rough_mm:g} that it is "
            f"cut out at; {spare_mm:g} is wanted for the saw and bad ends.",
            near,
        )
    return None


def _staves(one: Component, found: tuple[Against, ...]) -> tuple[Against, int] | None:
    """The width of a board that must be glued up from narrower ones, and from how many."""
    material = material_of(one.material)
    if one.stock != "board" or (material is not None and not material.is_wood):
        return None
    width = next((each for each in found if each.name == "width"), None)
    if width is None or width.stock_mm <= 0 or width.finished_mm - width.stock_mm <= _EASE:
        return None
    return width, ceil(width.rough_mm / width.stock_mm - 1e-9)


def _like(one: Component, piece: Stock) -> bool:
    """Whether a piece is of a part's material and form, as far as both are said."""
    form = {"turned": "bar"}.get(one.stock, one.stock)
    if not piece.material or not one.material or piece.form not in (form, one.stock):
        return False
    return one.material.casefold() == piece.material.casefold() or (
        (known := material_of(one.material)) is not None and known == material_of(piece.material)
    )


def _none_holds(part: PartSite, stock: Mapping[str, Stock]) -> Iterator[Seen]:
    """A part of which it is not said what it is cut from, and which no piece like it on the rack holds."""
    one = part.component
    pieces = [piece for piece in stock.values() if _like(one, piece)]
    lacks = []
    for piece in pieces:
        found = compare(one, piece)
        glued = _staves(one, found)
        found = tuple(each for each in found if glued is None or each is not glued[0])
        lack = max(found, key=lambda each: each.finished_mm - each.stock_mm, default=None)
        if lack is None or lack.finished_mm - lack.stock_mm <= _EASE:
            return
        lacks.append((lack.finished_mm - lack.stock_mm, piece, lack))
    if not lacks:
        return
    short, piece, lack = min(lacks, key=lambda each: each[0])
    says = (
        f"No piece of {one.material} on the rack holds {one.mark}: the nearest, {named(piece)}, is "
        f"{lack.stock_mm:.6g} mm in {lack.name}, {short:.3g} mm short of its {lack.finished_mm:.6g} mm."
    )
    yield Seen(
        "warning", says, part=one.mark, place=lack.name, value=lack.stock_mm, limit=lack.finished_mm,
        unit="mm", at=_at(one),
    )  # fmt: skip


RULES: tuple[BuildRule, ...] = (_stock_holds_part,)
