"""Loose lines and arcs joined: against outlines that are cut into pieces, shuffled and turned round."""

from __future__ import annotations

import random

import pytest

from calculators.geometry.outline_joining import Places, anticlockwise, backwards, joined
from calculators.geometry.outline_kinds import simplified
from calculators.geometry.outlines import Outline, Vertex, area, bounds, circle, pieces, rectangle
from tests.drawing.random_faces import random_outline


def cut_up(outline: Outline, chance: random.Random) -> list[tuple[Vertex, ...]]:
    """Each line and arc alone, some drawn from their end, in any order."""
    found: list[tuple[Vertex, ...]] = []
    for one, to in pieces(outline):
        path: tuple[Vertex, ...] = (one, Vertex(to.x, to.y))
        found.append(backwards(path) if chance.random() < 0.5 else path)
    chance.shuffle(found)
    return found


@pytest.mark.parametrize("seed", range(30))
def test_an_outline_in_pieces_is_put_together_again(seed: int) -> None:
    chance = random.Random(seed)
    wanted = [random_outline(chance, 300, 60), rectangle(400, 0, 50, 20), circle(600, 0, 30)]
    paths = [path for outline in wanted for path in cut_up(outline, chance)]
    chance.shuffle(paths)
    made = joined(paths)
    assert made.open == ()
    assert sorted(round(area(one), 6) for one in made.closed) == sorted(round(area(one), 6) for one in wanted)
    boxes = sorted(tuple(round(value, 6) for value in bounds(one)) for one in made.closed)
    assert boxes == sorted(tuple(round(value, 6) for value in bounds(one)) for one in wanted)


def test_ends_within_a_hundredth_of_a_millimetre_meet_and_others_do_not() -> None:
    def u_and_lid(gap: float) -> list[tuple[Vertex, ...]]:
        return [
            (Vertex(0, 10), Vertex(0, 0), Vertex(10, 0), Vertex(10, 10)),
            (Vertex(10, 10 + gap), Vertex(0, 10)),
        ]

    assert len(joined(u_and_lid(0.0099)).closed) == 1
    made = joined(u_and_lid(0.35))
    assert made.closed == ()
    ((one),) = made.open
    assert one.gap_mm == pytest.approx(0.35)
    assert sorted(one.ends) == sorted([(10.0, 10.0), (10.0, 10.35)])


def test_where_three_lines_meet_it_is_not_known_which_go_on() -> None:
    square = [(Vertex(0, 0), Vertex(10, 0), Vertex(10, 10), Vertex(0, 10)), (Vertex(0, 10), Vertex(0, 0))]
    made = joined([*square, (Vertex(0, 10), Vertex(-5, 15))])
    assert made.closed == ()
    assert {one.meeting for one in made.open} == {3}


def test_what_is_drawn_twice_is_taken_once_and_an_arc_beside_a_line_is_another() -> None:
    chord = (Vertex(0, 0), Vertex(10, 0))
    bow = (Vertex(0, 0, 0.4), Vertex(10, 0))
    made = joined([chord, bow, backwards(chord), bow])
    assert (len(made.closed), made.open, made.twice) == (1, (), 2)
    assert len(made.closed[0]) == 2


def test_a_line_without_length_is_counted_and_left_out() -> None:
    made = joined([(Vertex(3, 3), Vertex(3, 3)), *cut_up(rectangle(0, 0, 5, 5), random.Random(1))])
    assert (len(made.closed), made.without_length) == (1, 1)


def test_a_path_that_closes_by_itself_is_closed() -> None:
    made = joined([(Vertex(0, 0), Vertex(5, 0), Vertex(5, 5), Vertex(0, 0.004))])
    assert len(made.closed) == 1
    assert area(made.closed[0]) == pytest.approx(12.5, abs=0.02)


def test_outlines_come_anticlockwise_with_the_same_first_corner() -> None:
    clockwise = (Vertex(0, 0, -0.3), Vertex(0, 10), Vertex(20, 10), Vertex(20, 0))
    turned = anticlockwise(clockwise)
    assert area(turned) == pytest.approx(-area(clockwise))
    assert (turned[0].x, turned[0].y) == (0, 0)
    assert anticlockwise(turned) == turned


def test_places_are_told_apart_by_their_distance() -> None:
    places = Places(0.01)
    first = places.number_of(1.0, 1.0)
    assert places.number_of(1.0, 1.0099) == first
    assert places.number_of(1.0, 1.011) != first
    assert places.known(-50.0, 0.0) is None


def test_many_open_lines_are_told_without_their_gaps() -> None:
    made = joined([(Vertex(at, 0), Vertex(at, 1)) for at in range(300)])
    assert len(made.open) == 300
    assert {one.gap_mm for one in made.open} == {None}


def test_lines_that_only_go_on_make_no_corner() -> None:
    assert (
        len(simplified((Vertex(0, 0), Vertex(4, 0), Vertex(9, 0), Vertex(9, 5), Vertex(0, 5), Vertex(0, 2))))
        == 4
    )
    halves = [Vertex(5, 0, 0.4142135623730951), Vertex(0, 5, 0.4142135623730951), Vertex(-5, 0, 0.4142135623730951),
              Vertex(0, -5, 0.4142135623730951)]  # fmt: skip
    round_one = simplified(tuple(halves))
    assert len(round_one) == 2
    assert area(round_one) == pytest.approx(78.5398163)  # 25 pi
