"""Rules for sheet: measured where something is cut to its thickness, and no gauge without its system."""

from __future__ import annotations

import re
from collections.abc import Iterator

from calculators.joints.limits import Limit
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.site import PartSite, Site
from calculators.planning.checks.tools import is_to_make
from calculators.planning.model import Component, Pocket, Stock
from calculators.planning.ties import read_tie, size_text
from calculators.planning.tree import split_copy
from calculators.quantities.errors import InputError
from calculators.quantities.gauges import System, gauges_of

_OFF = Limit(
    "sheet-thickness-off", 0.1, "mm", CP, "a sheet as measured may be this much off what its parts say"
)
_GROOVE = Limit(
    "groove-for-sheet", 1.0, "mm", CP, "a groove this near to a sheet's thickness is cut for the sheet"
)
_NOMINAL = ("sheet wood", "plastic")
"""Sheet that is sold by a round number and comes thinner or thicker; metal and glass come nearer."""


@build_rule(
    "sheet-measured",
    "material",
    "Sheet that a groove, a recess or a screw's point is made for is measured, not taken by its name; a "
    "gauge number has its system beside it.",
    "BS 3737, ASTM B258 and the other gauges of the tables; common practice",
    _OFF,
    _GROOVE,
)
def _sheet_measured(site: Site) -> Iterator[Seen]:
    """Parts against what was measured of their sheet, and parts of which nothing was."""
    stock = {one.mark: one for one in site.build.stock}
    tied = _tied_thicknesses(site)
    made_for: dict[str, str] | None = None
    for part in site.parts.values():
        one = part.component
        piece = stock.get(one.from_stock)
        if one.stock == "sheet" and piece is not None and piece.measured:
            yield from _differs(one, piece, site.limits["sheet-thickness-off"])
        elif _is_nominal(part):
            if made_for is None:
                made_for = _made_for(site)
            what = made_for.get(one.mark) or tied.get(one.mark, "")
            if what and one.size.thickness is not None:
                named = one.size.thickness.written or f"{one.size.thickness.mm:g}"
                yield Seen(
                    "warning",
                    f"{one.mark} is {named} by its name and not measured, but {what}: measure the sheet "
                    "before anything is cut to it.",
                    part=one.mark,
                    value=one.size.thickness.mm,
                    unit="mm",
                    at=f"components[{one.mark}].size.thickness",
                )
    yield from _bare_gauges(site)


def _is_nominal(part: PartSite) -> bool:
    one = part.component
    if not is_to_make(one) or one.evidence == "measured" or one.size.thickness is None:
        return False
    if one.made_size is not None and one.made_size.thickness is not None:
        return False
    return (
        part.material is not None and part.material.kind in _NOMINAL and one.stock in ("sheet", "board", "")
    )


def _differs(one: Component, piece: Stock, most_mm: float) -> Iterator[Seen]:
    """A part that is said to be of another thickness than its sheet was measured at."""
    said, true = one.size.thickness, piece.thickness
    if said is None or true is None or not is_to_make(one):
        return
    if one.made_size is not None and one.made_size.thickness is not None:
        return
    if abs(said.mm - true.mm) <= most_mm + 1e-9:
        return
    at = f"components[{one.mark}].size.thickness"
    says = (
        f"{one.mark} is given as {said.mm:g} thick, but {piece.mark} ({piece.called}), from which it is cut, "
        f"measures {true.mm:g}: {abs(said.mm - true.mm):.3g} mm {'less' if true.mm < said.mm else 'more'}."
    )
    yield Seen(
        "error", says, part=one.mark, value=said.mm, limit=true.mm, unit="mm",
        mends=(setting(f"Take the measured {true.mm:g} mm.", (at, size_text(true))),), at=at,
    )  # fmt: skip


def _tied_thicknesses(site: Site) -> dict[str, str]:
    """The parts whose thickness a kept calculation takes, with the words for it."""
    found: dict[str, str] = {}
    for kept in site.build.calculations:
        for _, text in kept.ties:
            try:
                tie = read_tie(text)
            except InputError:
                continue
            if tie.size == "thickness" and not tie.feature:
                found.setdefault(tie.mark, f"{kept.mark} is worked with its thickness")
    return found


def _made_for(site: Site) -> dict[str, str]:
    """What is made for the thickness of each nominal sheet part, in words; in one pass over the build."""
    most = site.limits["groove-for-sheet"]
    nominal = {mark: part for mark, part in site.parts.items() if _is_nominal(part)}
    found: dict[str, str] = {}
    for part in site.parts.values():
        for pose in part.component.poses:
            below = split_copy(pose.on)[0]
            for sheet, other in ((part.mark, below), (below, part.mark)):
                if sheet not in nominal or sheet in found or other not in site.parts:
                    continue
                thickness = nominal[sheet].component.size.thickness
                groove = _groove(site.parts[other].component, thickness.mm if thickness else 0.0, most)
                if groove is not None:
                    found[sheet] = f"pocket {groove.id} of {other} is as wide as it is thick"
                elif sheet == part.mark and pose.let_in.ticks > 0:
                    found[sheet] = f"it is let into {other}"
        if part.mark in nominal and part.mark not in found:
            point = next(
                (
                    hole
                    for hole in part.holes
                    if hole.hole is not None
                    and hole.hole.kind in ("pilot", "tapping", "insert")
                    and hole.hole.depth_mm is not None
                ),
                None,
            )
            if point is not None:
                found[part.mark] = f"the point of {point.joint} stands in it"
    return found


def _groove(one: Component, thickness_mm: float, most_mm: float) -> Pocket | None:
    return next(
        (
            pocket
            for pocket in one.pockets
            if any(abs(size.mm - thickness_mm) <= most_mm + 1e-9 for size in (pocket.width, pocket.length))
        ),
        None,
    )


_BARE = re.compile(r"(?<![\w./])(\d{1,2})\s*-?(?:gauge|gage|ga\.?)(?![\w])", re.IGNORECASE)
_SYSTEM = re.compile(
    r"S\.?W\.?G|B\.?W\.?G|A\.?W\.?G|M\.?S\.?G|imperial|birmingham|stubs|brown|sharpe|manufacturers|music|"
    r"\bUS\b|U\.S\.|steel wire|zinc gauge|B\s*&\s*S",
    re.IGNORECASE,
)
_OF_SCREWS = re.compile(r"screw|wood", re.IGNORECASE)


def bare_gauge(text: str) -> int | None:
    """Find a gauge number that stands without the system that it is of.

    Args:
        text: what a sheet or wire is called.

    Returns:
        The number; None where there is none, or its system is named, or it is the number of a screw.

    Source: this project.

    Example:
        >>> bare_gauge("16 gauge sheet"), bare_gauge("16 SWG sheet"), bare_gauge("8 gauge screws")
        (16, None, None)
    """
    found = _BARE.search(text)
    if found is None or _SYSTEM.search(text):
        return None
    if _OF_SCREWS.search(text[found.end() : found.end() + 20]):
        return None
    return int(found[1])


def _bare_gauges(site: Site) -> Iterator[Seen]:
    """Stock and parts that are known by a bare gauge number, and by no thickness."""
    for piece in site.build.stock:
        if piece.thickness is None and piece.diameter is None:
            number = bare_gauge(piece.called)
            number = number if number is not None else bare_gauge(piece.note)
            if number is not None:
                yield _ambiguous(number, piece.mark, "", f"stock[{piece.mark}].thickness")
    for part in site.parts.values():
        one = part.component
        if one.size.thickness is None and one.size.diameter is None and (one.material or one.note):
            number = bare_gauge(one.material)
            number = number if number is not None else bare_gauge(one.note)
            if number is not None:
                yield _ambiguous(number, one.mark, one.mark, f"components[{one.mark}].size.thickness")


_SYSTEMS: tuple[System, ...] = ("imperial-standard", "brown-sharpe", "birmingham-wire", "us-steel")
"""The systems by which sheet is sold under a number."""


def _ambiguous(number: int, mark: str, part: str, at: str) -> Seen:
    found = [known[str(number)] for one in _SYSTEMS if str(number) in (known := gauges_of(one))]
    sizes = [one.thickness_mm for one in found]
    told = ", ".join(f"{one.thickness_mm:.3g} mm as {one.name}" for one in found)
    spread = max(sizes) - min(sizes) if len(sizes) > 1 else None
    says = (
        f"{mark} is “{number} gauge”, of no system{f': {told}' if told else ''}. Say which gauge it is, or "
        "measure it and give the thickness."
    )
    return Seen(
        "error", says, part=part, place="" if part else mark, value=spread, limit=0.0 if spread else None,
        unit="mm" if spread else "", at=at,
    )  # fmt: skip


RULES: tuple[BuildRule, ...] = (_sheet_measured,)
