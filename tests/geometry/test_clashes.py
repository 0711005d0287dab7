"""Parts in one space: no miss and no false alarm, against separating axes, counted cells and closed forms."""

from __future__ import annotations

import itertools
import math
import random
from collections.abc import Callable

import pytest

from calculators.geometry.clashes import clash_of, piece_in_part
from calculators.geometry.model import Pocket, Solid
from calculators.geometry.pieces import Hollow, mass_of, pieces_of
from calculators.geometry.shapes import Prism, Turned
from calculators.geometry.vectors import Transform, Vector, add, cross, dot, scale, subtract

LEAST = 0.1
AXES = ((1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, 1.0))


def turned_about(axis: int, angle_deg: float) -> Transform:
    c, s = math.cos(math.radians(angle_deg)), math.sin(math.radians(angle_deg))
    columns = [list(row) for row in AXES]
    i, j = (axis + 1) % 3, (axis + 2) % 3
    columns[i][i], columns[i][j], columns[j][i], columns[j][j] = c, s, -s, c
    x, y, z = (tuple(column) for column in columns)
    return Transform((x, y, z))  # type: ignore[arg-type]


def after(first: Transform, then: Transform, shift: Vector) -> Transform:
    x, y, z = (then.direction(column) for column in first.columns)
    return Transform((x, y, z), shift)


def random_pose(chance: random.Random, reach: float) -> Transform:
    turn = Transform()
    for axis in range(3):
        turn = after(turn, turned_about(axis, chance.uniform(0.0, 360.0)), (0.0, 0.0, 0.0))
    return Transform(turn.columns, tuple(chance.uniform(-reach, reach) for _ in range(3)))  # type: ignore[arg-type]


def corners(solid: Solid, placed: Transform) -> list[Vector]:
    sizes = (solid.length, solid.width, solid.thickness)
    return [placed.point(p) for p in itertools.product(*((0.0, size) for size in sizes))]  # type: ignore[arg-type]


def separating(first: Solid, at: Transform, second: Solid, there: Transform) -> float:
    """The least overlap of two boxes over the 15 axes on which alone they can be parted: the separating
    axis theorem. Negative where an axis parts them."""
    ways = [*at.columns, *there.columns]
    for one, other in itertools.product(at.columns, there.columns):
        way = cross(one, other)
        long = math.sqrt(dot(way, way))
        if long > 1e-9:
            ways.append(scale(way, 1.0 / long))
    least = math.inf
    for way in ways:
        ours = [dot(p, way) for p in corners(first, at)]
        theirs = [dot(p, way) for p in corners(second, there)]
        least = min(least, max(ours) - min(theirs), max(theirs) - min(ours))
    return least


@pytest.mark.parametrize("seed", range(8))
def test_blocks_in_any_pose_overlap_as_deep_as_separating_axes_say(seed: int) -> None:
    """250 pairs a seed; the depth within 0.002 mm, and no overlap of more than the limit missed or made up."""
    chance = random.Random(seed)
    clashes = 0
    for _ in range(250):
        sizes = [chance.uniform(1.0, 60.0) for _ in range(6)]
        first, second = Solid("block", *sizes[:3]), Solid("block", *sizes[3:])
        at, there = random_pose(chance, 20.0), random_pose(chance, 20.0)
        truth = separating(first, at, second, there)
        found = clash_of(mass_of(first, transform=at), mass_of(second, transform=there), LEAST)
        if found is None:
            assert truth <= LEAST + 2e-3
        else:
            clashes += 1
            assert found.depth == pytest.approx(truth, abs=2e-3)
    assert 60 < clashes < 240


Cell = tuple[int, int, int]


def random_block(chance: random.Random) -> Solid:
    sizes = [chance.randint(3, 9) for _ in range(3)]
    pockets = []
    for _ in range(chance.randint(0, 4)):
        face = chance.choice(("top", "bottom", "front", "back", "left", "right"))
        across, up, deep = {
            "top": (0, 1, 2), "bottom": (0, 1, 2), "front": (0, 2, 1),
            "back": (0, 2, 1), "left": (1, 2, 0), "right": (1, 2, 0),
        }[face]  # fmt: skip
        u, v = chance.randrange(sizes[across]), chance.randrange(sizes[up])
        depth = chance.choice((None, *range(1, sizes[deep] + 1)))
        pockets.append(
            Pocket(face, u, v, depth, chance.randint(1, 5), chance.randint(1, 5))  # type: ignore[arg-type]
        )
    return Solid("block", *sizes, pockets=tuple(pockets))


def cells(solid: Solid) -> set[Cell]:
    """The unit cells that a block of whole sizes is of, by the table of the faces' u and v."""
    long, wide, thick = int(solid.length), int(solid.width), int(solid.thickness)
    left = set(itertools.product(range(long), range(wide), range(thick)))
    for pocket in solid.pockets:
        for cell in list(left):
            x, y, z = (value + 0.5 for value in cell)
            u, v, depth = {
                "top": (x, y, thick - z), "bottom": (x, wide - y, z), "front": (x, z, y),
                "back": (long - x, z, wide - y), "right": (y, z, long - x), "left": (wide - y, z, x),
            }[pocket.face]  # fmt: skip
            in_u, in_v = 0 < u - pocket.u < pocket.length, 0 < v - pocket.v < pocket.width
            if in_u and in_v and (pocket.depth is None or depth < pocket.depth):
                left.discard(cell)
    return left


@pytest.mark.parametrize("seed", range(8))
def test_blocks_with_pockets_clash_where_they_have_a_cell_in_common(seed: int) -> None:
    """200 pairs a seed, of whole sizes and in quarter turns: counting cells is exact."""
    chance = random.Random(100 + seed)
    clashes = 0
    for _ in range(200):
        first, second = random_block(chance), random_block(chance)
        turn = Transform()
        for axis in range(3):
            turn = after(turn, turned_about(axis, 90.0 * chance.randrange(4)), (0.0, 0.0, 0.0))
        columns = tuple(tuple(float(round(x)) for x in column) for column in turn.columns)
        shift = tuple(float(chance.randint(-5, 9)) for _ in range(3))
        there = Transform(columns, shift)  # type: ignore[arg-type]
        taken = {
            tuple(math.floor(x) for x in there.point((x + 0.5, y + 0.5, z + 0.5)))
            for x, y, z in cells(second)
        }
        common = cells(first) & taken
        found = clash_of(mass_of(first), mass_of(second, transform=there), LEAST)
        assert (found is not None) == bool(common)
        if found is not None:
            clashes += 1
            assert found.depth > 1.0 - 1e-3
            assert any(
                all(c - 0.01 <= p <= c + 1.01 for c, p in zip(cell, found.point, strict=True))
                for cell in common
            )
    assert 30 < clashes < 190


def test_the_boxes_of_a_block_fill_what_its_pockets_leave() -> None:
    chance = random.Random(7)
    for _ in range(200):
        solid = random_block(chance)
        filled: set[Cell] = set()
        for piece in pieces_of(solid):
            assert isinstance(piece, Prism)
            low = [round(x) for x in piece.corner]
            sizes = (round(piece.length), round(piece.width), round(piece.depth))
            spans = [range(a, a + b) for a, b in zip(low, sizes, strict=True)]
            filled |= set(itertools.product(*spans))
        assert filled == cells(solid)


def test_a_comb_of_many_pockets_stays_a_bounded_number_of_boxes() -> None:
    comb = Solid(
        "block", 1000, 50, 20, pockets=tuple(Pocket("top", 10 * i + 2, 0, 10, 5, 50) for i in range(90))
    )  # fmt: skip
    assert len(pieces_of(comb)) < 400


def along_x(length: float, x: float = 0.0, y: float = 0.0, z: float = 0.0) -> Transform:
    del length
    return Transform(shift=(x, y, z))


@pytest.mark.parametrize(
    ("pin", "bore", "off", "clash"),
    [
        (8.0, 8.0, 0.0, None),
        (8.0, 8.05, 0.0, None),
        (8.2, 8.0, 0.0, None),  # 0.1 too thick on each side: no more than the limit
        (8.3, 8.0, 0.0, 0.15),
        (6.0, 8.0, 1.0, None),
        (6.0, 8.0, 1.09, None),
        (6.0, 8.0, 1.2, 0.2),
        (12.0, 8.0, 0.0, 2.0),
    ],
)
def test_a_pin_lies_free_in_a_bore_as_long_as_its_circle_lies_in_the_bore(
    pin: float, bore: float, off: float, clash: float | None
) -> None:
    """Free where off + pin/2 <= bore/2, within the limit; else as deep as off + (pin - bore)/2."""
    bush = mass_of(Solid("round", 20, diameter=30, bore=bore))
    for length, x in ((60.0, -20.0), (10.0, 5.0)):
        found = clash_of(
            bush, mass_of(Solid("round", length, diameter=pin), transform=along_x(length, x, off)), LEAST
        )
        assert (found.depth if found else None) == (None if clash is None else pytest.approx(clash, abs=2e-3))


def hole(depth: float | None, diameter: float = 10.0) -> tuple[Solid, Callable[[], list[Hollow]]]:
    far = 20.0 if depth is None else depth
    bore = Turned((50, 25, 20), (0, 0, -1), ((0.0, diameter / 2), (far, diameter / 2)))
    return Solid("block", 100, 50, 20), lambda: [Hollow(bore, through=depth is None)]


@pytest.mark.parametrize(
    ("depth", "goes_in", "clash"),
    [(None, 40.0, None), (12.0, 12.0, None), (12.0, 12.05, None), (12.0, 13.0, 1.0), (12.0, 5.0, None)],
)
def test_a_dowel_in_a_blind_hole_clashes_with_the_floor_it_is_too_long_for(
    depth: float | None, goes_in: float, clash: float | None
) -> None:
    solid, hollows = hole(depth)
    upright = after(turned_about(1, -90.0), Transform(), (50.0, 25.0, 20.0 - goes_in))
    dowel = mass_of(Solid("round", 60, diameter=10), transform=upright)
    found = clash_of(mass_of(solid, hollows), dowel, LEAST)
    assert (found.depth if found else None) == (None if clash is None else pytest.approx(clash, abs=2e-3))


def test_a_square_pin_goes_through_a_round_hole_as_wide_as_its_diagonal() -> None:
    """A pin 7 x 7 is 9.90 mm over its corners: 0.45 mm too much on each for a hole of 9."""
    pin = Prism((46.5, 21.5, -10), *AXES, 7.0, 7.0, 50.0)
    for diameter, free in ((9.9, True), (10.0, True), (9.0, False)):
        solid, hollows = hole(None, diameter)
        assert (piece_in_part(pin, mass_of(solid, hollows), LEAST) is None) == free


def test_a_rod_askew_through_a_wide_hole_clashes_only_where_it_meets_the_wall() -> None:
    """A 4 mm rod at 10 degrees through 20 mm of wood needs 4/cos 10 + 20 tan 10 = 7.59 mm."""
    for diameter, free in ((7.7, True), (9.0, True), (5.5, False)):
        solid, hollows = hole(None, diameter)
        tilt = turned_about(1, -90.0 + 10.0)
        middle = tilt.direction((30.0, 0.0, 0.0))
        placed = Transform(tilt.columns, subtract((50.0, 25.0, 10.0), middle))
        rod = mass_of(Solid("round", 60, diameter=4), transform=placed)
        assert (clash_of(mass_of(solid, hollows), rod, LEAST) is None) == free


def test_a_shaft_lies_free_on_the_flat_that_is_cut_into_a_round_part() -> None:
    """A flat 4 deep and 20 long on a bar of 20 mm: a block of 18 x 4 on it is free, one of 24 is not."""
    bar = Solid("round", 60, diameter=20, pockets=(Pocket("top", 20, -10, 4, 20, 20),))
    for start, size, free in ((21.0, 18.0, True), (20.0, 20.0, True), (18.0, 24.0, False)):
        block = Prism((start, -8.0, 6.0), *AXES, size, 16.0, 8.0)
        assert (piece_in_part(block, mass_of(bar), LEAST) is None) == free


def test_a_point_of_the_clash_is_told_and_nothing_hangs_on_who_is_first() -> None:
    chance = random.Random(3)
    for _ in range(100):
        first, second = random_block(chance), random_block(chance)
        there = random_pose(chance, 6.0)
        one = clash_of(mass_of(first), mass_of(second, transform=there), LEAST)
        other = clash_of(mass_of(second, transform=there), mass_of(first), LEAST)
        assert (one is None) == (other is None)
        if one is not None and other is not None:
            assert one.depth == pytest.approx(other.depth, abs=2e-3)
            own = there.own_point(one.point)
            assert all(-0.01 <= x <= size + 0.01 for x, size in zip(
                own, (second.length, second.width, second.thickness), strict=True))  # fmt: skip


def inside(point: Vector, solid: Solid, placed: Transform) -> bool:
    """Whether a point lies in a block's material, by the table of the faces; a second opinion to `pieces`."""
    x, y, z = placed.own_point(point)
    long, wide, thick = solid.length, solid.width, solid.thickness
    if not (0 < x < long and 0 < y < wide and 0 < z < thick):
        return False
    for pocket in solid.pockets:
        u, v, depth = {
            "top": (x, y, thick - z), "bottom": (x, wide - y, z), "front": (x, z, y),
            "back": (long - x, z, wide - y), "right": (y, z, long - x), "left": (wide - y, z, x),
        }[pocket.face]  # fmt: skip
        deep = pocket.depth is None or depth < pocket.depth
        if deep and 0 < u - pocket.u < pocket.length and 0 < v - pocket.v < pocket.width:
            return False
    return True


@pytest.mark.parametrize("seed", range(4))
def test_blocks_with_pockets_in_any_pose_against_points_strewn_in_both(seed: int) -> None:
    """60 pairs a seed, 2,000 points each: a ball of 0.5 mm that lies in both is never missed, and where a
    clash of more than 0.5 mm is told, the point that it names lies within 0.3 mm of points in both."""
    chance = random.Random(500 + seed)
    for _ in range(60):
        first, second = random_block(chance), random_block(chance)
        there = random_pose(chance, 7.0)
        found = clash_of(mass_of(first), mass_of(second, transform=there), LEAST)
        near = [add((0.0, 0.0, 0.0), tuple(chance.uniform(-0.25, 0.25) for _ in range(3))) for _ in range(40)]  # type: ignore[arg-type]
        if found is None:
            for _ in range(2000):
                p = (chance.uniform(0, 9), chance.uniform(0, 9), chance.uniform(0, 9))
                if inside(p, first, Transform()) and inside(p, second, there):
                    around = [add(p, way) for way in near]
                    assert not all(inside(q, first, Transform()) and inside(q, second, there) for q in around)
        elif found.depth > 0.5:
            close = [add(found.point, way) for way in near] + [found.point]
            assert any(inside(q, first, Transform()) and inside(q, second, there) for q in close)
