"""Washers, nuts and inserts of a joint's section, in real millimetres about the axis."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.drawing.figures import Figure
from calculators.drawing.shanks import insert_figures, nut_figure, washer_figure
from calculators.hardware.fastener import Insert, Nut, Washer
from calculators.hardware.inserts import insert_of
from calculators.hardware.nuts import nut_of
from calculators.hardware.washers import washer_of
from calculators.joints.model import MeasuredItem, StackItem
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Hardware:
    """A washer, nut or insert of the stack where it lies, with its figures."""

    item: int
    what: Washer | Nut | Insert
    near: float
    far: float
    figures: tuple[Figure, ...]

    @property
    def is_insert(self) -> bool:
        """Whether it is an insert, which lies within a layer."""
        return isinstance(self.what, Insert)


def hardware_of(index: int, item: StackItem, near: float, far: float, major: float) -> Hardware:
    """Return a washer, nut or insert with its figures; where no table has its size it is drawn by proportion.

    Args:
        index: its place in the stack.
        item: the member of the stack.
        near: where it begins on the axis [mm].
        far: where it ends on the axis [mm].
        major: the screw's diameter [mm].

    Returns:
        The hardware [mm].

    Source: the tables of nuts, washers and inserts; proportions common practice.
    """
    measured = item.measured or MeasuredItem()
    if item.washer is not None:
        outside = measured.outside_mm or (item.washer.outside.mm if item.washer.outside else None)
        return Hardware(index, item.washer, near, far, (_washer(item.washer, outside, near, far, major),))
    if item.nut is not None:
        far = far if far > near else near + 0.8 * major
        flats = measured.outside_mm or _nut_flats(item.nut) or (5 if item.nut.form == "wing" else 1.7) * major
        return Hardware(index, item.nut, near, far, (nut_figure(item.nut.form, flats, near, far),))
    insert = item.insert or Insert("")
    outside, body = _insert_sizes(insert, measured, major)
    far = far if far > near else near + 2 * major
    return Hardware(index, insert, near, far, insert_figures(major, body, outside, near, far))


def _washer(washer: Washer, outside: float | None, near: float, far: float, major: float) -> Figure:
    if outside is None:
        try:
            outside = washer_of(washer.size, washer.form).outside_mm
        except InputError:
            outside = 2.1 * major
    return washer_figure(washer.form, outside, near, far if far > near else near + 0.1 * major)


def _nut_flats(nut: Nut) -> float | None:
    try:
        size = nut_of(nut.size, nut.form)
    except InputError:
        return None
    return size.across_flats_mm or size.outside_mm


def _insert_sizes(insert: Insert, measured: MeasuredItem, major: float) -> tuple[float, float]:
    outside = measured.outside_mm or (insert.outside.mm if insert.outside else None)
    body = measured.body_mm or (insert.body.mm if insert.body else None)
    if outside is None or body is None:
        try:
            size = insert_of(insert.size)
            outside = outside or size.outside_mm
            body = body or min(size.body_mm, outside)
        except InputError:
            outside = outside or 1.8 * major
            body = body or 0.5 * (outside + major)
    return outside, body
