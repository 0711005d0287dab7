"""Beams a second way: the tables' formulas, finite differences, equilibrium, superposition, shear."""

from itertools import pairwise
from math import sqrt

import pytest
from hypothesis import assume, given
from hypothesis import strategies as st

from calculators.mechanics.beams.cases import CASES, SUPPORTS, Laid, loads_of, standard_case, supports_of
from calculators.mechanics.beams.line import Load, Support, bend
from calculators.quantities.errors import InputError

shares = st.floats(0.02, 0.98)


@pytest.mark.parametrize(("support", "kind"), list(CASES))
@given(
    load=st.floats(0.1, 1e4),
    span=st.floats(10, 5000),
    a=shares,
    c=st.floats(0.05, 1.5),
    stiffness=st.floats(1e5, 1e13),
)
def test_the_brackets_give_what_the_tables_give(support, kind, load, span, a, c, stiffness):
    place = span * (a / 2 if kind == "two" else a)
    laid = Laid(load, span, place, c * span if support == "overhanging" else 0.0, stiffness)
    case = standard_case(support, kind, laid)
    assume(case is not None)
    bent = bend(span + laid.overhang, supports_of(support, span), loads_of(support, kind, laid), stiffness)
    assert abs(bent.deflection.value) == pytest.approx(case.deflection(laid), rel=1e-7)
    assert abs(bent.moment.value) == pytest.approx(case.moment(laid), rel=1e-7)


def differences(length, supports, loads, stiffness, steps):
    """Deflection by finite differences of E I y'''' = w, which knows nothing of brackets.

    Unknown are y at the nodes and at two beyond either end; the equations are those of the inner nodes,
    moment and shear force nought at a free end, slope nought where held. A support takes its node's equation
    for y = 0. Forces are spread over one step.
    """
    h = length / steps
    size = steps + 5
    rows = [[0.0] * size for _ in range(size)]
    right = [0.0] * size
    force = [0.0] * (steps + 1)
    for load in loads:
        if load.to_mm is None:
            force[round(load.at_mm / h)] += load.force_n / h
        else:
            first, last = round(load.at_mm / h), round(load.to_mm / h)
            for node in range(first, last + 1):
                half = 0.5 if node in (first, last) else 1.0
                force[node] += half * load.force_n / (load.to_mm - load.at_mm)
    rests = {round(each.at_mm / h): each.held for each in supports}
    for node in range(steps + 1):
        row = node + 2
        if node in rests:
            rows[row][row] = 1.0
            continue
        for off, by in zip(range(-2, 3), (1, -4, 6, -4, 1), strict=True):
            rows[row][row + off] = float(by)
        # a force at a free end lies on half a step, of which the difference takes a whole
        right[row] = force[node] * h**4 / stiffness * (2.0 if node in (0, steps) else 1.0)
    for end, beyond in ((0, (0, 1)), (steps, (steps + 4, steps + 3))):
        row = end + 2
        held = rests.get(end)
        if held:  # slope nought by both pairs
            rows[beyond[1]][row - 1], rows[beyond[1]][row + 1] = -1.0, 1.0
            rows[beyond[0]][row - 2], rows[beyond[0]][row + 2] = -1.0, 1.0
        else:  # moment nought; and shear nought, or at a rest y'''' = 0 stands for what is not known beyond
            for off, by in zip((-1, 0, 1), (1.0, -2.0, 1.0), strict=True):
                rows[beyond[1]][row + off] = by
            pattern = (-1.0, 2.0, 0.0, -2.0, 1.0) if held is None else (1.0, -2.0, 0.0, -2.0, 1.0)
            if held is None:
                for off, by in zip(range(-2, 3), pattern, strict=True):
                    rows[beyond[0]][row + off] = by
            else:
                rows[beyond[0]][row - 2], rows[beyond[0]][row + 2], rows[beyond[0]][row] = 1.0, 1.0, -2.0
    return solve(rows, right)[2:-2]


def solve(rows, right):
    rows = [[*row, value] for row, value in zip(rows, right, strict=True)]
    for column in range(len(rows)):
        best = max(range(column, len(rows)), key=lambda row: abs(rows[row][column]))
        rows[column], rows[best] = rows[best], rows[column]
        for row in range(column + 1, len(rows)):
            if rows[row][column]:
                by = rows[row][column] / rows[column][column]
                rows[row] = [a - by * b for a, b in zip(rows[row], rows[column], strict=True)]
    found = [0.0] * len(rows)
    for row in reversed(range(len(rows))):
        rest = sum(rows[row][other] * found[other] for other in range(row + 1, len(rows)))
        found[row] = (rows[row][-1] - rest) / rows[row][row]
    return found


@pytest.mark.parametrize(
    ("length", "supports", "loads"),
    [
        (1200, [Support(0), Support(1200)], [Load(300, 80), Load(600, 120, 1200)]),
        (1200, [Support(0, True)], [Load(600, 80), Load(300, 120, 900)]),
        (1200, [Support(0, True), Support(1200, True)], [Load(300, 80), Load(600, 120, 1200)]),
        (1200, [Support(0, True), Support(1200)], [Load(900, 80), Load(0, 50, 600)]),
        (1200, [Support(0), Support(800)], [Load(400, 80), Load(800, 60, 1200)]),
        (1200, [Support(200), Support(700), Support(1200)], [Load(400, 80), Load(800, 60, 1000)]),
        (1200, [Support(0, True), Support(500), Support(900)], [Load(250, -40), Load(0, 90, 1200)]),
    ],
)
def test_finite_differences_come_to_the_same(length, supports, loads):
    stiffness, steps = 2e9, 120
    nodes = differences(length, supports, loads, stiffness, steps)
    bent = bend(length, supports, loads, stiffness)
    greatest = max(abs(y) for y in nodes)
    for x, y, _, _ in bent.sampled:
        node = round(x / (length / steps))
        if abs(x - node * length / steps) < 1e-6:
            # second-order differences with 120 steps: within 1 in 100 of the greatest
            assert y == pytest.approx(nodes[node], abs=0.01 * greatest)
    assert abs(bent.deflection.value) == pytest.approx(greatest, rel=0.01)


@st.composite
def beams(draw):
    length = draw(st.floats(50, 5000))
    places = draw(st.lists(st.integers(0, 40), min_size=2, max_size=5, unique=True))
    supports = [Support(length * place / 40, draw(st.booleans())) for place in sorted(places)]
    loads = []
    for _ in range(draw(st.integers(1, 5))):
        at = draw(st.floats(0, 0.9)) * length
        to = at + draw(st.floats(0.01, 0.1)) * length if draw(st.booleans()) else None
        loads.append(
            Load(at, draw(st.floats(-500, 500)), to, draw(st.sampled_from((0.0, 1.0))) * length * 10)
        )
    assume(any(load.force_n or load.moment_n_mm for load in loads))
    return length, supports, loads


@given(beams())
def test_reactions_balance_the_loads(beam):
    length, supports, loads = beam
    bent = bend(length, supports, loads, 1e9)
    total = sum(load.force_n for load in loads)
    scale = sum(abs(load.force_n) + abs(load.moment_n_mm) / length for load in loads)
    assert sum(each.force_n for each in bent.reactions) == pytest.approx(total, abs=1e-6 * scale)
    turning = sum(
        load.force_n * ((load.at_mm + (load.to_mm or load.at_mm)) / 2) + load.moment_n_mm for load in loads
    )
    held = sum(each.force_n * each.at_mm - each.moment_n_mm for each in bent.reactions)
    assert held == pytest.approx(turning, abs=1e-6 * scale * length)


@given(beams())
def test_the_beam_does_not_sink_at_its_supports_and_is_smooth(beam):
    length, supports, loads = beam
    bent = bend(length, supports, loads, 1e9)
    greatest = abs(bent.deflection.value)
    for support in supports:
        for x, y, _, _ in bent.sampled:
            if x == pytest.approx(support.at_mm, abs=1e-9):
                assert abs(y) <= 1e-7 * greatest + 1e-12
    assert max(abs(y) for _, y, _, _ in bent.sampled) <= greatest * (1 + 1e-6) + 1e-15
    assert max(abs(m) for _, _, m, _ in bent.sampled) <= abs(bent.moment.value) * (1 + 1e-6) + 1e-9


@given(beams())
def test_shear_force_is_the_slope_of_the_moment(beam):
    length, supports, loads = beam
    bent = bend(length, supports, loads, 1e9)
    scale = max(abs(m) for _, _, m, _ in bent.sampled) + 1e-9
    for (x1, _, m1, v1), (x2, _, m2, v2) in pairwise(bent.sampled):
        if x2 - x1 > 1e-9 * length:  # within a stretch the shear force is straight, so that its mean is exact
            assert m2 - m1 == pytest.approx((v1 + v2) / 2 * (x2 - x1), abs=1e-6 * scale)


@given(beams(), st.floats(0.2, 5))
def test_twice_the_load_and_twice_the_stiffness(beam, by):
    length, supports, loads = beam
    one = bend(length, supports, loads, 1e9)
    more = [Load(load.at_mm, load.force_n * by, load.to_mm, load.moment_n_mm * by) for load in loads]
    assert abs(bend(length, supports, more, 1e9 * by).deflection.value) == pytest.approx(
        abs(one.deflection.value), rel=1e-6
    )


@given(a=shares, b=shares)
def test_a_load_here_bends_there_as_a_load_there_bends_here(a, b):
    """Maxwell's reciprocal theorem, on a propped beam."""
    supports = supports_of("propped", 1000)
    marker = 1e-9  # a load too small to matter puts a sample where the other stands
    one = bend(1000, supports, [Load(1000 * a, 1.0), Load(1000 * b, marker)], 1e6)
    other = bend(1000, supports, [Load(1000 * b, 1.0), Load(1000 * a, marker)], 1e6)

    def at(bent, place):
        return min(bent.sampled, key=lambda each: abs(each[0] - place))[1]

    assert at(one, 1000 * b) == pytest.approx(at(other, 1000 * a), rel=1e-5, abs=1e-9)


def test_shear_adds_what_timoshenko_has():
    """Cantilever P L / (k G A); resting beam P L / (4 k G A), and w L^2 / (8 k G A)."""
    stiffness, shear = 1e9, 2e5
    for supports, loads, added in (
        (supports_of("cantilever", 500), [Load(500, 100)], 100 * 500 / shear),
        (supports_of("simply-supported", 500), [Load(250, 100)], 100 * 500 / (4 * shear)),
        (supports_of("simply-supported", 500), [Load(0, 100, 500)], 100 * 500 / (8 * shear)),
    ):
        plain = bend(500, supports, loads, stiffness).deflection.value
        whole = bend(500, supports, loads, stiffness, shear_stiffness_n=shear).deflection.value
        assert whole - plain == pytest.approx(added, rel=1e-9)


def test_shear_moves_the_reactions_of_a_propped_beam():
    """The prop's force by compatibility: the cantilever's tip sinks by w L^4 / 8 E I + w L^2 / 2 k G A."""
    stiffness, shear, length, total = 1e8, 5e4, 400.0, 80.0
    bent = bend(
        length, supports_of("propped", length), [Load(0, total, length)], stiffness, shear_stiffness_n=shear
    )
    sink = total * length**3 / (8 * stiffness) + total * length / (2 * shear)
    give = length**3 / (3 * stiffness) + length / shear
    assert bent.reactions[1].force_n == pytest.approx(sink / give, rel=1e-9)


def test_a_cantilevers_formulas_meet_at_its_end():
    laid = Laid(7, 300, 300, 0, 1e8)
    assert CASES["cantilever", "at"].deflection(laid) == pytest.approx(
        CASES["cantilever", "end"].deflection(laid)
    )


def test_the_place_of_the_greatest_sag_of_a_propped_beam():
    bent = bend(1600, supports_of("propped", 1600), [Load(0, 10, 1600)], 1e9)
    assert bent.deflection.at_mm == pytest.approx(1600 * (15 - sqrt(33)) / 16, rel=1e-9)


def test_a_short_overhang_is_worked_out_by_brackets():
    assert standard_case("overhanging", "end", Laid(1, 1000, 500, 50, 1e9)) is None


@pytest.mark.parametrize(
    ("support", "kind", "a", "says"),
    [
        (
            "simply-supported", "at", 700,
            "The load at 700 mm is outside the beam; write a place from 0 to 600 mm.",
        ),
        (
            "simply-supported", "two", 400,
            "Two equal loads stand 400 mm from either end of a span of 600 mm; at may be up to half of it, 300 mm.",
        ),
        (
            "propped", "end", 300,
            "A propped beam has no free end; write the load's place as at, or take a cantilever.",
        ),
    ],
)  # fmt: skip
def test_loads_off_the_beam_are_refused(support, kind, a, says):
    with pytest.raises(InputError) as caught:
        loads_of(support, kind, Laid(10, 600, a, 0, 1))
    assert str(caught.value) == says


def test_every_support_holds_the_beam_up():
    for support in SUPPORTS:
        supports = supports_of(support, 1000)
        assert len(supports) > 1 or supports[0].held
