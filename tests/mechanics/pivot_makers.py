"""Random levers, and their potential energy worked out another way: with complex numbers and by integration."""

import cmath
import math

from hypothesis import strategies as st

from calculators.mechanics.pivot.model import Lever, Load, Spring

PLACES = st.floats(-200, 200).map(lambda value: round(value, 2))


@st.composite
def springs(draw):
    kind = draw(st.sampled_from(["extension", "compression", "both"]))
    return Spring(
        draw(PLACES),
        draw(PLACES),
        draw(PLACES),
        draw(PLACES),
        draw(st.floats(0.01, 5)),
        draw(st.floats(0, 300)),
        kind,
        draw(st.sampled_from([0.0, 0.0, 0.7, 4.0])) if kind == "extension" else 0.0,
    )


@st.composite
def loads(draw):
    direction = draw(st.sampled_from([-math.pi / 2, 0.3, 2.0]))
    return Load(draw(PLACES), draw(PLACES), draw(st.floats(0, 50)), direction, draw(st.booleans()))


@st.composite
def levers(draw, *, rolling=True):
    return Lever(
        tuple(draw(st.lists(springs(), max_size=4))),
        tuple(draw(st.lists(loads(), max_size=3))),
        draw(st.sampled_from([0.0, 0.0, 500.0])),
        draw(st.sampled_from([0.0, 0.4])),
        draw(st.sampled_from([0.0, 0.0, 3.0])) if rolling else 0.0,
        draw(st.sampled_from([-math.pi / 2, 0.0, 2.5])),
    )


def carried(lever, point, angle, steps=400):
    """Where a rolling edge carries a point of the lever: its velocity is that of a turn about the contact.

    The contact runs along the bed as the edge rolls off its length; the path is added up by Runge and Kutta.
    """
    if not lever.edge_radius_mm:
        return point * cmath.exp(1j * angle)
    # Square to the bed, away from it; an edge that turns anticlockwise rolls towards a quarter turn on.
    normal = -cmath.exp(1j * lever.edge_points_rad)

    def velocity(turned, place):
        contact = lever.edge_radius_mm * turned * normal * 1j
        return 1j * (place - contact)

    place, turned, step = point, 0.0, angle / steps
    for _ in range(steps):
        k1 = velocity(turned, place)
        k2 = velocity(turned + step / 2, place + step / 2 * k1)
        k3 = velocity(turned + step / 2, place + step / 2 * k2)
        k4 = velocity(turned + step, place + step * k3)
        place += step / 6 * (k1 + 2 * k2 + 2 * k3 + k4)
        turned += step
    return place


def energy_otherwise(lever, angle):
    """The potential energy, from lengths found with complex numbers; loads that follow are left out."""
    turn = cmath.exp(1j * angle)
    total = lever.torsion_n_mm_per_rad * (angle - lever.torsion_rest_rad) ** 2 / 2
    for each in lever.springs:
        length = abs(complex(each.x_mm, each.y_mm) * turn - complex(each.anchor_x_mm, each.anchor_y_mm))
        opened = length - each.free_length_mm
        if each.kind == "extension":
            opened = max(opened, 0.0)
        if each.kind == "compression":
            opened = min(opened, 0.0)
        total += (each.initial_tension_n + each.rate_n_per_mm * opened / 2) * opened
    for each in lever.loads:
        if each.follows:
            lever_arm = (
                complex(each.x_mm, each.y_mm).conjugate() * cmath.rect(each.force_n, each.direction_rad)
            ).imag
            total -= lever_arm * angle
        else:
            moved = complex(each.x_mm, each.y_mm) * turn
            total -= (moved.conjugate() * cmath.rect(each.force_n, each.direction_rad)).real
    return total
