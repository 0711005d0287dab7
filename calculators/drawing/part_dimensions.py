"""Running dimensions of a view from its datum, and what is written of its holes, in how much room."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from calculators.drawing.lettering import spread, text_width, wrap
from calculators.drawing.part_body import placed_corners
from calculators.drawing.part_shape import PartShape
from calculators.drawing.part_views import View
from calculators.drawing.part_words import Write, fold_words, hole_words, is_circle, pocket_words
from calculators.drawing.section_words import plain_mm
from calculators.geometry.outlines import arc_of, pieces

LETTER_MM = 2.5
"""The height of the type in print: ISO 3098's least for a drawing of this size (from memory)."""

KINK_MM = 7.0
"""How far from the view a dimension's figures stand, so that leaders have room to spread."""

PITCH = 1.25
"""From one label to the next, in heights of the type."""

_SAME_MM = 0.005
_MOST_KINDS, _MOST_CALLED = 5, 12
"""Of more kinds of holes than this in a view the sizes stand in the table alone; so much is said at all."""

_CALLED_MM = 40.0
_SPARE_MM, _LOW_MM = 12.0, 4.0
"""How far figures may stand beyond a view: far at its end, little at its datum, where the two rows meet."""


@dataclass(frozen=True, slots=True)
class Label:
    """A figure of a running dimension: the place that it names, from where its line comes, where it stands.

    `at` and `stands` are along the axis [mm on the sheet, from the view's own left or bottom]; `begins` is
    where its line begins, across it.
    """

    says: str
    at: float
    begins: float
    stands: float


@dataclass(frozen=True, slots=True)
class Called:
    """Words beside a view with a line to what they name: places in mm from the view's lower left corner."""

    lines: tuple[str, ...]
    to: tuple[float, float]
    stands: float


@dataclass(frozen=True, slots=True)
class Dimensions:
    """What is written about a view at one scale.

    `along` stands below it, `up` to its left, `called` to its right. `round_mm` are the diameters of a round
    part seen from the side, with their words. `too_dense` says that figures of places are in the table alone.
    """

    along: tuple[Label, ...] = ()
    up: tuple[Label, ...] = ()
    called: tuple[Called, ...] = ()
    rounds: tuple[tuple[float, str], ...] = ()
    too_dense: bool = False

    @property
    def below_mm(self) -> float:
        """How much room the figures below take."""
        return KINK_MM + max((text_width(one.says, LETTER_MM) for one in self.along), default=-KINK_MM)

    @property
    def left_mm(self) -> float:
        """How much room the figures to the left take."""
        rounds = 7.0 * len(self.rounds) + 4.0 * bool(self.rounds)
        return rounds + KINK_MM + max((text_width(one.says, LETTER_MM) for one in self.up), default=-KINK_MM)

    @property
    def right_mm(self) -> float:
        """How much room the words to the right take."""
        wide = [text_width(line, LETTER_MM) for one in self.called for line in one.lines]
        return max(wide) + KINK_MM + 1.0 if wide else 0.0


def dimensions_of(
    part: PartShape,
    views: Sequence[View],
    scale: float,
    write: Write = plain_mm,
    *,
    with_words: bool = True,
    is_narrow: bool = False,
) -> tuple[Dimensions, ...]:
    """Say what is written about each view at a scale.

    Args:
        part: the part.
        views: its views, the one with the most on it first.
        scale: millimetres on the sheet for one of the part.
        write: how a length is written.
        with_words: whether there is room beside the views for what is said of holes.
        is_narrow: whether there is room for no words beside them at all.

    Returns:
        The dimensions of each view, in their order. A size of the whole part is written once.

    Source: ISO 129-1 (running dimensions from a datum, from memory).
    """
    told: set[int] = set()
    found: list[Dimensions] = []
    for view in views:
        u_axis, v_axis = _axis(view.frame.u_axis), _axis(view.frame.v_axis)
        places = _places(part, view)
        along, dense_u = _labels(
            view, 0, places[0], scale, write, limit=_limit(part, u_axis), whole=u_axis not in told
        )
        up, dense_v = _labels(
            view, 1, places[1], scale, write, limit=_limit(part, v_axis), whole=v_axis not in told
        )
        told |= {u_axis, v_axis}
        called, dense_words = ((), False) if is_narrow else _called(part, view, scale, write, with_words)
        rounds = tuple(_rounds(part, view, write)) if part.is_round and _is_side(view) else ()
        if part.is_round and _is_side(view):
            up = ()
        if rounds and any(one.rounds for one in found):
            rounds = ()
        found.append(Dimensions(along, up, called, rounds, dense_u or dense_v or dense_words))
    return tuple(found)


def _is_side(view: View) -> bool:
    return view.face not in ("left", "right")


def _axis(way: tuple[float, float, float]) -> int:
    return max(range(3), key=lambda axis: abs(way[axis]))


def _limit(part: PartShape, axis: int) -> tuple[str, str]:
    names = ("length", "width", "thickness") if not part.is_round else ("length", "diameter", "diameter")
    words = part.limits.get(names[axis], "")
    return names[axis], f" {words}" if words else ""


def _rounds(part: PartShape, view: View, write: Write) -> Iterator[tuple[float, str]]:
    for name, diameter in (("diameter", part.solid.diameter), ("bore", part.solid.bore)):
        if diameter:
            limit = part.limits.get(name, "")
            yield diameter, f"ø{write(diameter)}" + (f" {limit}" if limit else "")


_Places = dict[float, float]
"""Places along one axis of a view [mm], and for each the least place across it from which its line comes."""


def _places(part: PartShape, view: View) -> tuple[_Places, _Places]:
    """The places that are dimensioned in a view, along u and along v."""
    along: _Places = {}
    up: _Places = {}

    def add(u: float, v: float, reach_u: float = 0.0, reach_v: float = 0.0) -> None:
        along[round(u, 3)] = min(along.get(round(u, 3), v - reach_v), v - reach_v)
        up[round(v, 3)] = min(up.get(round(v, 3), u - reach_u), u - reach_u)

    for u, v in view.own.values():
        add(u, v)
    if view.shape is not None:
        for pocket in view.shape.pockets:
            (low_u, high_u), (low_v, high_v) = view.frame.u_range, view.frame.v_range
            if is_circle(pocket):
                add(pocket.u_mm + pocket.length_mm / 2, pocket.v_mm + pocket.width_mm / 2)
                continue
            for u in (pocket.u_mm, pocket.u_mm + pocket.length_mm):
                for v in (pocket.v_mm, pocket.v_mm + pocket.width_mm):
                    add(min(max(u, low_u), high_u), min(max(v, low_v), high_v))
    if part.solid.outline and view.face in ("top", "bottom"):
        for x, y in placed_corners(part.solid):
            u, v, _ = view.frame.read((x, y, 0.0))
            add(u, v)
    if view.face in ("top", "bottom"):
        for fold in part.folds:
            if fold.runs == "across":
                along[round(fold.at_mm, 3)] = 0.0
            else:
                v = view.frame.read((0.0, fold.at_mm, 0.0))[1]
                up[round(v, 3)] = 0.0
    return along, up


def _labels(
    view: View, axis: int, places: _Places, scale: float, write: Write, *, limit: tuple[str, str], whole: bool
) -> tuple[tuple[Label, ...], bool]:
    """The figures of one axis, spread apart; with too many of them those of the whole part alone."""
    (least, most), (across, _) = (
        (view.frame.u_range, view.frame.v_range) if axis == 0 else (view.frame.v_range, view.frame.u_range)
    )
    off_axis = (
        least < 0
    )  # of a round part's end its middle is the datum, and its diameter is written elsewhere
    ends = {round(least, 3), round(most, 3)} if (whole or places) and not off_axis else set()
    whole = whole and not off_axis
    values = _apart(sorted({*places, *ends, *({0.0} if places or whole else ())}))
    pitch = PITCH * LETTER_MM
    room = (most - least) * scale + _SPARE_MM + _LOW_MM
    dense = len(values) * pitch > room
    if dense:
        values = sorted({*ends, 0.0})
    wanted = [(value - least) * scale for value in values]
    stands = _spread(wanted, pitch, (-_LOW_MM, (most - least) * scale + _SPARE_MM))
    labels = [
        Label(
            write(value) + (limit[1] if value == round(most, 3) and least == 0 else ""),
            at,
            (places.get(value, across) - across) * scale,
            place,
        )
        for value, at, place in zip(values, wanted, stands, strict=True)
    ]
    if off_axis and values == [0.0]:
        return (), False  # a hole on the axis needs no place
    return tuple(labels), dense and bool(places)


def _apart(values: Sequence[float]) -> list[float]:
    """Values that are written alike are written once."""
    found: list[float] = []
    for value in values:
        if not found or value - found[-1] > _SAME_MM:
            found.append(value)
    return found


def _spread(wanted: Sequence[float], pitch: float, field: tuple[float, float]) -> list[float]:
    """Move labels apart, each as little as it can, and keep them in their field."""
    stands = spread(wanted, [pitch] * len(wanted), 0.0)
    for i in range(len(stands)):
        stands[i] = max(stands[i], field[0] + i * pitch)
    for i in reversed(range(len(stands))):
        stands[i] = min(stands[i], field[1] - (len(stands) - 1 - i) * pitch)
    return stands


def _called(
    part: PartShape, view: View, scale: float, write: Write, with_holes: bool
) -> tuple[tuple[Called, ...], bool]:
    """What is said beside a view of its holes, pockets, corners and folds: like ones together."""
    left, low = view.frame.u_range[0], view.frame.v_range[0]
    groups: dict[str, list[tuple[float, float]]] = defaultdict(list)
    kinds = {hole_words(hole, write) for _, hole in part.holes() if hole.number in view.own}
    few = with_holes and len(kinds) <= _MOST_KINDS
    for _, hole in part.holes():
        if few and hole.number in view.own:
            u, v = view.own[hole.number]
            rim = hole.outer_mm / 2 * 0.7071
            if hole.slot_length_mm > hole.diameter_mm:
                rim = 0.0
            groups[hole_words(hole, write)].append((u + rim, v + rim))
    for pocket in view.shape.pockets if view.shape else ():
        at = (pocket.u_mm + pocket.length_mm, pocket.v_mm + pocket.width_mm / 2)
        inside = min(at[0], view.frame.u_range[1]), min(max(at[1], low), view.frame.v_range[1])
        groups[pocket_words(pocket, write)].append(inside)
    if view.face in ("top", "bottom"):
        for radius, at in _radii(part, view):
            groups[f"R{write(radius)}"].append(at)
        for fold in part.folds:
            place = (fold.at_mm, view.frame.v_range[1] * 0.75) if fold.runs == "across" else None
            at = place or (view.frame.u_range[1] * 0.9, view.frame.read((0.0, fold.at_mm, 0.0))[1])
            groups[fold_words(fold, write)].append(at)
    if not groups or len(groups) > _MOST_CALLED:
        return (), bool(groups)
    made = []
    for words, places in groups.items():
        count = f"{len(places)} × " if len(places) > 1 else ""
        to = max(places, key=lambda at: (round(at[0], 3), at[1]))
        made.append(
            (wrap(count + words, LETTER_MM, _CALLED_MM), ((to[0] - left) * scale, (to[1] - low) * scale))
        )
    heights = [PITCH * LETTER_MM * len(lines) for lines, _ in made]
    stands = spread([to[1] for _, to in made], heights, 1.5)
    lowest = min(place - high / 2 for place, high in zip(stands, heights, strict=True))
    up = max(-2.0 - lowest, 0.0)  # they stand beside the view or above it, never down among the figures below
    return tuple(
        Called(tuple(lines), to, place + up) for (lines, to), place in zip(made, stands, strict=True)
    ), False


def _radii(part: PartShape, view: View) -> Iterator[tuple[float, tuple[float, float]]]:
    """The radii of an outline's arcs, each with a point of it."""
    if not part.solid.outline:
        return
    for start, end in pieces(part.solid.outline):
        arc = arc_of(start, end)
        if arc is None:
            continue
        # The middle of an arc lies off the middle of its chord by the bulge times half of the chord.
        b = start.bulge / 2
        x = (start.x + end.x) / 2 + b * (end.y - start.y)
        y = (start.y + end.y) / 2 - b * (end.x - start.x)
        u, v, _ = view.frame.read((x, y, 0.0))
        yield arc.radius, (u, v)
