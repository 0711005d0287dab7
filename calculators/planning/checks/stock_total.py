"""The rule for stock: all parts that are cut from a piece, or from like pieces, come out of it together."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.joints.limits import Limit
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule
from calculators.planning.checks.site import PartSite, Site
from calculators.planning.checks.stock_fit import is_cut_here, named
from calculators.planning.model import Component
from calculators.planning.schedules.cutting import rough_sizes

_KERF = Limit("saw-kerf", 3.0, "mm", CP, "what each saw cut takes")
_EASE = 1e-6
_USED = Limit("stock-used", 85.0, "%", CP, "of a board or sheet, what can be got out as parts")


@build_rule(
    "stock-runs-out",
    "material",
    "All parts that are cut from one piece, or like pieces, of the rack come out of it together.",
    CP,
    _KERF,
    _USED,
)
def _stock_runs_out(site: Site) -> Iterator[Seen]:
    """Lengths of bars with a saw cut each, areas of boards and sheets, against what is there."""
    cut: dict[str, list[PartSite]] = {}
    for part in site.parts.values():
        if part.component.from_stock and is_cut_here(part.component):
            cut.setdefault(part.component.from_stock, []).append(part)
    for piece in site.build.stock:
        parts = cut.get(piece.mark, ())
        if sum(part.total for part in parts) < 2 or piece.length is None:
            continue
        count = piece.count if piece.count is not None else 1
        flat = piece.form in ("board", "sheet") and piece.width is not None
        if flat and piece.width is not None:
            have = piece.length.mm * piece.width.mm / 1e6 * count
            need = sum(_area_m2(part.component) * part.total for part in parts)
            most, unit, what = have * site.limits["stock-used"] / 100.0, "m2", "area"
        elif piece.form in ("bar", "tube", "turned"):
            kerf = site.limits["saw-kerf"]
            have = most = piece.length.mm * count
            need = sum((_length_mm(part.component) + kerf) * part.total for part in parts) - kerf * count
            unit, what = "mm", "length"
        else:
            continue
        if need <= most + _EASE:
            continue
        says = (
            f"{_listed(parts)} take {need:.4g} {unit} of {named(piece)} and it has {have:.4g}"
            f"{f' in {count} pieces' if count > 1 else ''}"
        )
        says += (
            "."
            if need > have + _EASE
            else f": of an {what} about {site.limits['stock-used']:g} % comes out as parts."
        )
        yield Seen(
            "error" if need > have + _EASE else "warning", says, place=piece.mark, value=need,
            limit=have if need > have + _EASE else most, unit=unit, at=f"stock[{piece.mark}].count",
        )  # fmt: skip


def _listed(parts: list[PartSite] | tuple[PartSite, ...]) -> str:
    named = [f"{part.mark}{f' ({part.total})' if part.total > 1 else ''}" for part in parts]
    if len(named) > 5:
        return f"{', '.join(named[:4])} and {len(named) - 4} more"
    return " and ".join(filter(None, (", ".join(named[:-1]), named[-1])))


def _length_mm(one: Component) -> float:
    (length, *_), _ = rough_sizes(one)
    return length or 0.0


def _area_m2(one: Component) -> float:
    (length, width, _, diameter), _ = rough_sizes(one)
    across = width if width is not None else diameter
    return (length or 0.0) * (across or 0.0) / 1e6


RULES: tuple[BuildRule, ...] = (_stock_runs_out,)
