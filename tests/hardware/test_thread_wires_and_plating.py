"""Wires in threads and coatings on them, by plain geometry: distances to lines, offsets of lines, round trips."""

import math

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.thread_plating import greatest_coating_mm, pitch_diameter_growth_mm
from calculators.hardware.thread_profile import screw_profile
from calculators.hardware.thread_wires import (
    best_wire_mm,
    lead_correction_mm,
    pitch_diameter_from_mm,
    reading_over_wires_mm,
    wire_range_mm,
)
from calculators.hardware.threads import all_threads

ALL = all_threads()
ANY = st.sampled_from(ALL)


def resting_height(wire, pitch, angle):
    """Height of a wire's middle over the pitch line, lowered into the groove until it is w/2 from a flank."""
    half = math.radians(angle) / 2
    # The flank from the pitch line's point (p/4, 0), up and outwards.
    along = (math.sin(half), math.cos(half))

    def distance(height):
        to = (0 - pitch / 4, height)
        return abs(to[0] * along[1] - to[1] * along[0])

    low, high = -pitch / (4 * math.tan(half)), 20 * pitch
    for _ in range(100):
        middle = (low + high) / 2
        low, high = (middle, high) if distance(middle) < wire / 2 else (low, middle)
    return low


@given(ANY, st.floats(0, 1))
def test_reading_is_twice_the_top_of_a_wire_at_rest(thread, at):
    least, most = wire_range_mm(thread)
    wire = least + at * (most - least)
    top = thread.pitch_diameter_mm / 2 + resting_height(wire, thread.pitch_mm, thread.angle_deg) + wire / 2
    found = reading_over_wires_mm(
        thread.pitch_diameter_mm, wire, thread.pitch_mm, thread.angle_deg, lead=False
    )
    assert found == pytest.approx(2 * top, abs=1e-7)


@pytest.mark.parametrize("thread", ALL, ids=[each.designation for each in ALL])
def test_best_wire_touches_at_the_pitch_line_and_lies_in_the_range(thread):
    half, p = math.radians(thread.angle_deg) / 2, thread.pitch_mm
    wire = best_wire_mm(p, thread.angle_deg)
    touch = resting_height(wire, p, thread.angle_deg) - wire / 2 * math.sin(half)
    assert touch == pytest.approx(0, abs=1e-9)
    least, most = wire_range_mm(thread)
    assert least < wire < most
    top = thread.pitch_diameter_mm / 2 + resting_height(least, p, thread.angle_deg) + least / 2
    assert top == pytest.approx(thread.major_mm / 2, abs=2e-4 * p)
    # The largest touches where the straight flank ends: the tooth there is as wide as its flanks make it.
    shape = screw_profile(thread)
    reach = resting_height(most, p, thread.angle_deg) - most / 2 * math.sin(half)
    radius = thread.pitch_diameter_mm / 2 + reach
    assert radius <= thread.major_mm / 2 + 1e-9
    flank = p / 4 - reach * math.tan(half)
    assert shape.tooth_mm(radius - 1e-9) == pytest.approx(flank, abs=2e-4 * p)


@given(ANY, st.floats(-0.2, 0.2), st.floats(0, 1), st.booleans())
def test_pitch_diameter_comes_back_from_its_reading(thread, off, at, lead):
    least, most = wire_range_mm(thread)
    wire, p, angle = least + at * (most - least), thread.pitch_mm, thread.angle_deg
    size = thread.pitch_diameter_mm + off * p
    reading = reading_over_wires_mm(size, wire, p, angle, lead=lead)
    assert pitch_diameter_from_mm(reading, wire, p, angle, lead=lead) == pytest.approx(size, abs=1e-6)


@pytest.mark.parametrize("thread", ALL, ids=[each.designation for each in ALL])
def test_lead_correction_is_that_of_the_half_angle_square_to_the_thread(thread):
    """A wire lies along the thread and meets the half angle of the normal section: tan an = tan a cos l.

    With it w (1 + 1/sin an) is larger than w (1 + 1/sin a) by the correction, but for terms of tan^4.
    """
    half, p = math.radians(thread.angle_deg) / 2, thread.pitch_mm
    slope = p / (math.pi * thread.pitch_diameter_mm)
    normal = math.atan(math.tan(half) * math.cos(math.atan(slope)))
    wire = best_wire_mm(p, thread.angle_deg)
    exact = wire * (1 / math.sin(normal) - 1 / math.sin(half))
    found = lead_correction_mm(wire, p, thread.pitch_diameter_mm, thread.angle_deg)
    assert found == pytest.approx(exact, rel=0.02)


@given(st.sampled_from([47.5, 55.0, 60.0]), st.floats(0, 0.05))
def test_growth_is_the_flank_moved_square_to_itself(angle, coating):
    """The flank's line moved out by t meets the axis' direction t / sin a further out; twice on the diameter."""
    half = math.radians(angle) / 2
    normal = (math.cos(half), math.sin(half))
    # A point of the coated flank, followed along the flank back to where it was over the axis.
    moved = (coating * normal[0], coating * normal[1])
    back = moved[0] / math.sin(half)
    height = moved[1] + back * math.cos(half)
    assert pitch_diameter_growth_mm(coating, angle) == pytest.approx(2 * height, abs=1e-12)
    assert greatest_coating_mm(2 * height, angle) == pytest.approx(coating, abs=1e-12)


def test_no_room_takes_no_coating():
    assert greatest_coating_mm(-0.01, 60) == 0
    assert pitch_diameter_growth_mm(0, 55) == 0
