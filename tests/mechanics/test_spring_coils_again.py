"""The formulas of springs derived a second time, by numbers: energy along the wire, curved bars, chains, columns."""

import math
from itertools import pairwise

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.mechanics.springs.buckling import SEATINGS, limit_of_moduli, steadiness
from calculators.mechanics.springs.changes import rate_changes
from calculators.mechanics.springs.coils import (
    ENDS,
    pitch_mm,
    solid_length_mm,
    solid_outside_mm,
    wound_mean_mm,
)
from calculators.mechanics.springs.measured import line_through, shear_modulus_of_rate_mpa
from calculators.mechanics.springs.rates import (
    compression_rate_n_per_mm,
    leg_coils,
    lift_angle_deg,
    natural_frequency_hz,
    torsion_rate_n_mm_per_deg,
    winding_frequency_hz,
    wire_length_mm,
    wire_mass_kg,
)
from calculators.mechanics.springs.stresses import (
    bending_factor,
    bergstrasser_factor,
    direct_shear_factor,
    en_bending_factor,
    hook_bending_stress_mpa,
    outer_bending_factor,
    wahl_factor,
)
from calculators.mechanics.springs.wires import CYCLES, allowed_percent, spring_wire, wire_names, wire_sizes
from calculators.quantities.errors import InputError

E, G = 206_000.0, 79_000.0


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def dot(a, b):
    return sum(x * y for x, y in zip(a, b, strict=True))


def helix_energy(d, mean, turns, pitch, moment_at, steps=4000):
    """Strain energy of a helical wire under the moment vector that each of its points bears."""
    radius, rise = mean / 2, pitch / (2 * math.pi)
    inertia = math.pi * d**4 / 64
    speed = math.hypot(radius, rise)
    energy = 0.0
    for step in range(steps):
        t = 2 * math.pi * turns * (step + 0.5) / steps
        point = (radius * math.cos(t), radius * math.sin(t), rise * t)
        tangent = (-radius * math.sin(t) / speed, radius * math.cos(t) / speed, rise / speed)
        moment = moment_at(point)
        twist = dot(moment, tangent)
        bend2 = dot(moment, moment) - twist**2
        ds = speed * 2 * math.pi * turns / steps
        energy += (twist**2 / (2 * G * 2 * inertia) + bend2 / (2 * E * inertia)) * ds
    return energy


@pytest.mark.parametrize(("d", "mean", "turns"), [(1.0, 10.0, 8), (2.0, 9.0, 5), (0.3, 3.6, 20)])
def test_rate_by_the_strain_energy_of_the_wire(d, mean, turns):
    """Castigliano: half of F times its travel is the energy; at a flat pitch the formula is exact."""
    force = (0.0, 0.0, 1.0)
    energy = helix_energy(d, mean, turns, 1e-3 * d, lambda point: cross(force, point))
    assert 1 / (2 * energy) == pytest.approx(compression_rate_n_per_mm(d, mean, turns, G), rel=1e-5)


def test_at_ten_degrees_the_plain_rate_is_within_three_hundredths():
    """What the warning about steep coils is about: the true rate at a lift of 10 degrees."""
    d, mean, turns = 1.0, 10.0, 8
    pitch = math.pi * mean * math.tan(math.radians(10))
    energy = helix_energy(d, mean, turns, pitch, lambda point: cross((0.0, 0.0, 1.0), point))
    assert 1 / (2 * energy) == pytest.approx(compression_rate_n_per_mm(d, mean, turns, G), rel=0.03)


@pytest.mark.parametrize(("d", "mean", "turns"), [(1.0, 10.0, 8), (2.0, 9.0, 5)])
def test_torsion_rate_by_the_strain_energy_of_the_wire(d, mean, turns):
    energy = helix_energy(d, mean, turns, 1e-3 * d, lambda _: (0.0, 0.0, 1.0))
    per_radian = 1 / (2 * energy)
    assert per_radian * math.pi / 180 == pytest.approx(torsion_rate_n_mm_per_deg(d, mean, turns, E), rel=1e-5)


def test_legs_by_the_bending_of_a_bar():
    """A bar of length l, held at one end, turns by F l^2/(3 E I) about the axis when its end is pushed."""
    d, mean, leg = 2.0, 16.0, 30.0
    inertia = math.pi * d**4 / 64
    # A moment M at the axis is a push M/l at the leg's end; the end moves F l^3/(3 E I), an angle of that over l.
    angle_of_leg = (1 / leg) * leg**3 / (3 * E * inertia) / leg
    angle_of_coil = math.pi * mean / (E * inertia)
    assert leg_coils(mean, 2 * leg) == pytest.approx(2 * angle_of_leg / angle_of_coil)


def curved_bar_factors(index, steps=20_000):
    """Stress at the inside and outside of a round curved bar over 32 M/(pi d^3): Winkler, by integration."""
    r, a = index / 2, 0.5
    area = per_radius = 0.0
    for step in range(steps):
        y = -a + 2 * a * (step + 0.5) / steps
        strip = 2 * math.sqrt(a * a - y * y) * 2 * a / steps
        area += strip
        per_radius += strip / (r + y)
    neutral = area / per_radius
    shift = r - neutral
    nominal = 32 / math.pi
    inner = (neutral - (r - a)) / (area * shift * (r - a)) / nominal
    outer = ((r + a) - neutral) / (area * shift * (r + a)) / nominal
    return inner, outer


@pytest.mark.parametrize("index", [4, 6, 8, 12, 16])
def test_bending_factors_by_integrating_a_curved_bar(index):
    """Wahl's are approximations of Winkler's bar; they keep within 1 % from an index of 4 up."""
    inner, outer = curved_bar_factors(index)
    assert bending_factor(index) == pytest.approx(inner, rel=0.01)
    assert outer_bending_factor(index) == pytest.approx(outer, rel=0.01)
    assert en_bending_factor(index) == pytest.approx(inner, rel=0.02)


@pytest.mark.parametrize("factor", [wahl_factor, bergstrasser_factor, bending_factor, en_bending_factor])
def test_a_straight_wire_needs_no_factor(factor):
    assert factor(1e6) == pytest.approx(1, abs=2e-6)
    values = [factor(c) for c in (3, 4, 6, 10, 20)]
    assert values == sorted(values, reverse=True)
    assert min(values) > 1


@pytest.mark.parametrize("index", [4, 6, 8, 12])
def test_the_two_shear_factors_are_within_two_hundredths_and_above_direct_shear(index):
    assert bergstrasser_factor(index) == pytest.approx(wahl_factor(index), rel=0.02)
    assert direct_shear_factor(index) < bergstrasser_factor(index) < wahl_factor(index)


def test_a_wide_hook_is_a_straight_bar_bent_and_pulled():
    d, mean = 1.0, 12.0
    plain = 32 * (mean / 2) / (math.pi * d**3) + 1 / (math.pi * d**2 / 4)
    assert hook_bending_stress_mpa(1.0, d, mean, 1e6) == pytest.approx(plain, rel=1e-5)


def lowest_frequency(stiffness, mass, parts, free_end):
    """Lowest frequency of a chain of equal masses and springs, by inverse iteration on its matrix."""
    k, m = stiffness * parts, mass / parts
    count = parts if free_end else parts - 1
    diagonal = [2.0 * k] * count
    masses = [m] * count
    if free_end:
        diagonal[-1], masses[-1] = k, m / 2
    shape = [1.0] * count
    value = 0.0
    for _ in range(60):
        # Solve the three-diagonal system (Thomas) with the masses times the last shape.
        load = [weight * each for weight, each in zip(masses, shape, strict=True)]
        upper, rest = [0.0] * count, [0.0] * count
        for i in range(count):
            pivot = diagonal[i] + (k * upper[i - 1] if i else 0.0)
            upper[i] = -k / pivot
            rest[i] = (load[i] + (k * rest[i - 1] if i else 0.0)) / pivot
        found = rest[:]
        for i in range(count - 2, -1, -1):
            found[i] = rest[i] - upper[i] * found[i + 1]
        largest = max(map(abs, found))
        value, shape = 1 / largest, [each / largest for each in found]
    return math.sqrt(value) / (2 * math.pi)


@pytest.mark.parametrize("free_end", [False, True])
def test_natural_frequency_by_a_chain_of_masses(free_end):
    found = natural_frequency_hz(5.0, 0.012, one_end_free=free_end)
    assert found == pytest.approx(lowest_frequency(5000.0, 0.012, 200, free_end), rel=1e-4)


def test_winding_frequency_by_a_chain_of_turning_masses():
    inertia = 0.012 * (16e-3 / 2) ** 2
    per_radian = 7.0e-3 * 180 / math.pi
    found = winding_frequency_hz(7.0, 0.012, 16.0)
    assert found == pytest.approx(lowest_frequency(per_radian, inertia, 200, False), rel=1e-4)


def test_frequency_of_round_steel_wire_by_its_usual_form():
    """f = d/(2 pi D^2 n) sqrt(G/(2 rho)), from the same wave along the wire."""
    d, mean, n, rho = 2.0, 16.0, 8.0, 7850.0
    mass = wire_mass_kg(d, wire_length_mm(mean, 0.0, n), rho)
    usual = (d * 1e-3) / (2 * math.pi * (mean * 1e-3) ** 2 * n) * math.sqrt(G * 1e6 / (2 * rho))
    assert natural_frequency_hz(compression_rate_n_per_mm(d, mean, n, G), mass) == pytest.approx(usual)


def critical_by_equilibrium(free, d, mean, n, nu):
    """Haringx's column solved by halving: its bending and shear stiffness from the energy of its wire."""
    inertia = math.pi * d**4 / 64
    wire = math.pi * mean * n
    # A moment across the axis twists and bends the wire by turns, half of it each.
    bend_give = wire * (0.5 / (2 * G * inertia) + 0.5 / (E * inertia))
    # A push across the axis bends the wire in the plane of the coil with Q R cos t.
    shear_give = (mean / 2) ** 2 * 0.5 * wire / (E * inertia)
    rate = compression_rate_n_per_mm(d, mean, n, G)

    def over(travel):
        length = free - travel
        load = rate * travel
        return (
            load * (1 + load * shear_give / length) - math.pi**2 * (length / bend_give) / (nu * length) ** 2
        )

    low, high = 0.0, free * 0.5 / (1 - G / E)
    if over(high) < 0:
        return None
    for _ in range(200):
        middle = (low + high) / 2
        low, high = (low, middle) if over(middle) > 0 else (middle, high)
    return high


@pytest.mark.parametrize("seating", list(SEATINGS))
@pytest.mark.parametrize("free", [60.0, 90.0, 150.0, 400.0])
def test_buckling_by_the_equilibrium_of_a_column_with_shear(seating, free):
    d, mean, n = 2.0, 16.0, 12.0
    found = steadiness(free, mean, G / E, seating)
    expected = critical_by_equilibrium(free, d, mean, n, SEATINGS[seating][0])
    if expected is None:
        assert found.critical_travel_mm is None
    else:
        assert found.critical_travel_mm == pytest.approx(expected, rel=1e-9)


def test_just_beyond_the_limit_it_buckles_late_and_longer_ones_early():
    limit = limit_of_moduli(G / E)
    free = 2 * limit * 16.0
    assert steadiness(free * 0.999, 16.0, G / E).critical_travel_mm is None
    shares = [
        steadiness(free * by, 16.0, G / E).critical_travel_mm / (free * by) for by in (1.0001, 1.2, 2, 5, 20)
    ]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] < 0.5 / (1 - G / E)


@given(st.sampled_from(sorted(ENDS)), st.floats(0.2, 5), st.floats(2, 30), st.floats(1.05, 6))
def test_pitch_laid_out_again_gives_the_free_length(ends, d, active, times):
    """The height of the coils, one after another, with what the ends add or have lost by grinding."""
    end = ENDS[ends]
    free = times * solid_length_mm(ends, d, active + end.dead)
    pitch = pitch_mm(ends, d, active, free)
    climbs = {"closed-and-ground": (2, active), "closed": (2, active), "open-and-ground": (0, active + 1),
              "open": (0, active)}[ends]  # fmt: skip
    height = climbs[0] * d + climbs[1] * pitch
    height += 0 if end.solid_wires == 0 else d
    assert height == pytest.approx(free)


def test_the_outside_grows_as_the_wire_lies_flatter():
    """One turn of wire keeps its length: sqrt((pi D)^2 + p^2) free, sqrt((pi D')^2 + d^2) solid."""
    d, mean, pitch = 2.0, 16.0, 7.0
    turn = math.hypot(math.pi * mean, pitch)
    solid = math.sqrt(turn**2 - d**2) / math.pi
    assert solid_outside_mm(d, mean, pitch) == pytest.approx(solid + d)


def test_a_wound_coil_keeps_its_wire():
    mean = wound_mean_mm(16.0, 8.0, 540.0)
    assert mean * (8.0 + 1.5) == pytest.approx(16.0 * 8.0)


def test_lift_and_length_of_one_turn():
    """A turn unrolled is a triangle: 3-4-5."""
    mean, pitch = 4 / math.pi, 3.0
    assert wire_length_mm(mean, pitch, 1) == pytest.approx(5)
    assert lift_angle_deg(mean, pitch) == pytest.approx(math.degrees(math.asin(0.6)))


@settings(max_examples=60)
@given(st.floats(0.1, 10), st.floats(1.5, 20), st.floats(1, 100), st.floats(0.5, 2))
def test_rates_scale(d, index, n, by):
    rate = compression_rate_n_per_mm(d, d * index, n, G)
    assert compression_rate_n_per_mm(d * by, d * index * by, n, G) == pytest.approx(rate * by)
    assert compression_rate_n_per_mm(d, d * index, n * by, G * by) == pytest.approx(rate)
    wound = torsion_rate_n_mm_per_deg(d, d * index, n, E)
    assert torsion_rate_n_mm_per_deg(d * by, d * index * by, n, E) == pytest.approx(wound * by**3)
    assert shear_modulus_of_rate_mpa(rate, d, d * index, n) == pytest.approx(G)


def test_a_spring_of_twice_the_coils_is_two_end_to_end():
    one = compression_rate_n_per_mm(1, 10, 6, G)
    assert 1 / compression_rate_n_per_mm(1, 10, 12, G) == pytest.approx(2 / one)


@pytest.mark.parametrize("wound_up", [False, True])
def test_changes_of_the_rate_by_working_it_out_again(wound_up):
    d, mean, n = 1.5, 14.0, 9.0

    def rate(d, mean, n):
        return (
            torsion_rate_n_mm_per_deg(d, mean, n, E) if wound_up else compression_rate_n_per_mm(d, mean, n, G)
        )

    changes = rate_changes(
        d, mean, n, wound_up=wound_up, wire_off_mm=0.02, diameter_off_mm=0.3, coils_off=0.5
    )
    plain = rate(d, mean, n)
    for change, off in zip(changes, ((0.02, 0, 0), (0, 0.3, 0), (0, 0, 0.5)), strict=True):
        more = rate(d + off[0], mean + off[1], n + off[2])
        less = rate(d - off[0], mean - off[1], n - off[2])
        assert change.more_percent == pytest.approx(100 * (more / plain - 1))
        assert change.less_percent == pytest.approx(100 * (less / plain - 1))


def test_a_line_through_many_readings_is_the_one_with_the_least_squares():
    readings = [(0.0, 1.1), (5.0, 1.9), (10.0, 3.2), (15.0, 4.0), (20.0, 5.1)]
    line = line_through(readings)

    def squares(rate, intercept):
        return sum((f - intercept - rate * x) ** 2 for x, f in readings)

    least = squares(line.rate_n_per_mm, line.intercept_n)
    for rate_off, start_off in ((1e-4, 0), (-1e-4, 0), (0, 1e-3), (0, -1e-3), (1e-4, -1e-3)):
        assert squares(line.rate_n_per_mm + rate_off, line.intercept_n + start_off) > least
    assert line.worst_n == max(abs(f - line.intercept_n - line.rate_n_per_mm * x) for x, f in readings)


WITH_STRENGTHS = [name for name in wire_names() if name != "beryllium-copper"]


def test_wire_without_a_listed_strength_says_so():
    wire = spring_wire("beryllium-copper", 1.0)
    assert (wire.tensile_mpa, wire.tensile_range_mm) == (None, (0.0, 0.0))


@pytest.mark.parametrize("material", WITH_STRENGTHS)
def test_wire_of_every_material_is_metal_and_thins_stronger(material):
    low, high = spring_wire(material, 1.0).tensile_range_mm
    sizes = [low + (high - low) * i / 40 for i in range(1, 41)]
    found = [spring_wire(material, size) for size in sizes]
    strengths = [wire.tensile_mpa for wire in found]
    assert all(600 < each < 3300 for each in strengths)
    # Where two ranges of a table meet, their curves need not, but never by more than a few MPa.
    assert all(after <= before + 30 for before, after in pairwise(strengths))
    assert all(0.33 < wire.shear_modulus_mpa / wire.modulus_mpa < 0.43 for wire in found)
    assert spring_wire(material, high * 1.01).tensile_mpa is None
    assert low == 0 or spring_wire(material, low * 0.99).tensile_mpa is None


@pytest.mark.parametrize("material", wire_names())
@pytest.mark.parametrize("use", ["compression", "body", "hook_torsion", "hook_bending", "torsion"])
def test_more_cycles_never_allow_more(material, use):
    shares = [allowed_percent(material, use, cycles) for cycles in CYCLES.values()]
    assert shares == sorted(shares, reverse=True)
    assert shares[0] == shares[1]
    assert shares[0] <= 87


@pytest.mark.parametrize(
    "series", ["metric", "music-wire-gauge", "imperial-standard", "us-steel-wire", "brown-sharpe"]
)
def test_sizes_of_wire_rise(series):
    sizes = [each.wire_mm for each in wire_sizes(series)]
    assert len(sizes) > 20
    assert sizes == sorted(set(sizes))
    assert sizes[-1] <= 16


@pytest.mark.parametrize(
    ("values", "says"),
    [
        (
            (2, 2, 8, 80e3),
            "A mean diameter of 2 mm cannot be wound of wire of 2 mm; write one over 2 and up to 1000 mm.",
        ),
        (
            (2, 1, 8, 80e3),
            "A mean diameter of 1 mm cannot be wound of wire of 2 mm; write one over 2 and up to 1000 mm.",
        ),
        (
            (2, 1001, 8, 80e3),
            "A mean diameter of 1001 mm cannot be wound of wire of 2 mm; write one over 2 and up to 1000 mm.",
        ),
        ((0, 16, 8, 80e3), "A wire of 0 mm is outside the limits; write 0.02 to 50 mm."),
        ((-2, 16, 8, 80e3), "A wire of -2 mm is outside the limits; write 0.02 to 50 mm."),
        ((2, 16, 0, 80e3), "0 active coils cannot be; write more than 0 and up to 1000."),
        ((2, 16, 8, -1), "A shear modulus of -1 MPa is outside the limits; write 1 to 1e+06 MPa."),
        (
            (2, float("nan"), 8, 80e3),
            "A mean diameter of nan mm cannot be wound of wire of 2 mm; write one over 2 and up to 1000 mm.",
        ),
        ((2, 16, float("nan"), 80e3), "nan active coils cannot be; write more than 0 and up to 1000."),
    ],
)
def test_the_rate_refuses_what_cannot_be(values, says):
    with pytest.raises(InputError) as caught:
        compression_rate_n_per_mm(*values)
    assert str(caught.value) == says
