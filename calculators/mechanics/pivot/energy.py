"""What turns a lever at an angle: the potential energy, its slope (moment) and its bend (stiffness)."""

from __future__ import annotations

import math

from calculators.mechanics.pivot.model import Lever, Load, Spring

Vector = tuple[float, float]

_TOUCHING_MM = 1e-12
"""A spring shorter than this has no direction: its ends lie on one another."""


def shift_of(lever: Lever, angle_rad: float) -> tuple[Vector, Vector, Vector]:
    """How far a rounded edge carries the whole lever as it rolls, with its first and second slope.

    s = r (1 - cos a) n + r (a - sin a) n', n square to the bed, n' a quarter turn on from it.

    Args:
        lever: the lever.
        angle_rad: [rad] how far it has turned.

    Returns:
        The shift [mm], its slope [mm/rad] and the slope of that [mm/rad2].

    Source: rolling without sliding of a circle on a line (common practice; derived here).

    Example:
        >>> shift_of(Lever(), 0.1)[0]
        (0.0, 0.0)
    """
    r = lever.edge_radius_mm
    if not r:
        return (0.0, 0.0), (0.0, 0.0), (0.0, 0.0)
    n_x, n_y = -math.cos(lever.edge_points_rad), -math.sin(lever.edge_points_rad)
    cos, sin = math.cos(angle_rad), math.sin(angle_rad)

    def along(normal: float, across: float) -> Vector:
        return (r * (normal * n_x - across * n_y), r * (normal * n_y + across * n_x))

    return along(1 - cos, angle_rad - sin), along(sin, 1 - cos), along(cos, sin)


def place_of(lever: Lever, x_mm: float, y_mm: float, angle_rad: float) -> Vector:
    """Where a point of the lever is when the lever has turned.

    Args:
        lever: the lever.
        x_mm: [mm] the point on the lever as drawn.
        y_mm: [mm] the same, upward.
        angle_rad: [rad] how far it has turned.

    Returns:
        The place [mm].

    Source: rotation of the plane about the origin.

    Example:
        >>> [round(each, 6) for each in place_of(Lever(), 10, 0, math.pi / 2)]
        [0.0, 10.0]
    """
    cos, sin = math.cos(angle_rad), math.sin(angle_rad)
    (shift_x, shift_y), _, _ = shift_of(lever, angle_rad)
    return (x_mm * cos - y_mm * sin + shift_x, x_mm * sin + y_mm * cos + shift_y)


def spring_length(lever: Lever, spring: Spring, angle_rad: float) -> float:
    """The length of a spring when the lever has turned.

    Args:
        lever: the lever.
        spring: one of its springs.
        angle_rad: [rad] how far it has turned.

    Returns:
        The length from the lever's point to the anchor [mm].

    Source: distance of two points.

    Example:
        >>> spring_length(Lever(), Spring(100, 0, 100, 30, 0.2, 23.5), 0.0)
        30.0
    """
    x, y = place_of(lever, spring.x_mm, spring.y_mm, angle_rad)
    return math.hypot(x - spring.anchor_x_mm, y - spring.anchor_y_mm)


def pull_of(spring: Spring, length_mm: float) -> float:
    """The pull of a spring at a length; a push is less than nought.

    F = F_i + k (L - L0) where it acts: an extension spring beyond its free length, a compression spring
    below it.

    Args:
        spring: the spring.
        length_mm: [mm] its length, 0 or more.

    Returns:
        The pull [N]; 0 where it is slack.

    Source: Hooke's law; initial tension as in Shigley's Mechanical Engineering Design, extension springs
        (from memory).

    Example:
        >>> round(pull_of(Spring(0, 0, 0, 0, 0.2, 23.5, initial_tension_n=0.6), 33.5), 6)
        2.6
    """
    stretch = length_mm - spring.free_length_mm
    slack = {"extension": stretch <= 0, "compression": stretch >= 0, "both": False}[spring.kind]
    return 0.0 if slack else spring.initial_tension_n + spring.rate_n_per_mm * stretch


def energy(lever: Lever, angle_rad: float) -> float:
    """The potential energy of all that turns a lever.

    E = sum (F_i x + k x^2/2) - sum F . p + k_t (a - a_0)^2/2, x a spring's stretch where it acts.

    Args:
        lever: the lever.
        angle_rad: [rad] how far it has turned.

    Returns:
        The energy [N mm]; a load that follows the lever gives off its moment times the angle, and with a
        rounded edge what it does along the edge's way.

    Source: potential energy of springs and of constant forces (common practice).

    Example:
        >>> round(energy(Lever(loads=(Load(100, 0, 2.0),)), math.pi / 6), 9)
        100.0
    """
    total = 0.5 * lever.torsion_n_mm_per_rad * (angle_rad - lever.torsion_rest_rad) ** 2
    for spring in lever.springs:
        stretch = spring_length(lever, spring, angle_rad) - spring.free_length_mm
        if spring.kind == "both" or (stretch > 0) == (spring.kind == "extension"):
            total += spring.initial_tension_n * stretch + 0.5 * spring.rate_n_per_mm * stretch * stretch
    for load in lever.loads:
        f_x, f_y = force_of(load, 0.0)
        if load.follows:
            normal, across = _on_bed(lever, f_x, f_y)
            rolled = normal * (1 - math.cos(angle_rad)) + across * (math.sin(angle_rad) - angle_rad)
            total -= (load.x_mm * f_y - load.y_mm * f_x) * angle_rad + lever.edge_radius_mm * rolled
        else:
            x, y = place_of(lever, load.x_mm, load.y_mm, angle_rad)
            total -= f_x * x + f_y * y
    return total + 0.0


def force_of(load: Load, angle_rad: float) -> Vector:
    """The force of a load when the lever has turned.

    Args:
        load: the load.
        angle_rad: [rad] how far the lever has turned.

    Returns:
        Its parts along x and y [N].

    Source: parts of a vector.

    Example:
        >>> [round(each, 9) for each in force_of(Load(0, 0, 5), 1.0)]
        [0.0, -5.0]
    """
    direction = load.direction_rad + (angle_rad if load.follows else 0.0)
    cos, sin = math.cos(direction), math.sin(direction)
    # A quarter turn has no last bits: what hangs straight down pulls nothing sideways.
    cos, sin = (0.0 if abs(each) < 1e-15 else each for each in (cos, sin))
    return (load.force_n * cos, load.force_n * sin)


def moment(lever: Lever, angle_rad: float) -> float:
    """The moment that turns a lever anticlockwise, M = -dE/da.

    Args:
        lever: the lever.
        angle_rad: [rad] how far it has turned.

    Returns:
        The moment [N mm].

    Source: principle of virtual work (common practice).

    Example:
        >>> round(moment(Lever(loads=(Load(100, 0, 2.0),)), 0.0), 9)
        -200.0
    """
    return moment_and_stiffness(lever, angle_rad)[0]


def moment_and_stiffness(lever: Lever, angle_rad: float) -> tuple[float, float]:
    """The moment M = -dE/da and the stiffness K = d2E/da2 of a lever.

    A spring gives M = -F L' and K = k L'^2 + F L'', with L' and L'' the slopes of its length; a load that
    keeps its direction M = F . p' and K = -F . p''.

    Args:
        lever: the lever.
        angle_rad: [rad] how far it has turned.

    Returns:
        The moment [N mm] and the stiffness [N mm/rad].

    Source: principle of virtual work; derivatives of the energy above (derived here).

    Example:
        >>> upright = Lever(loads=(Load(0, 100, 2.0),))
        >>> [round(each) for each in moment_and_stiffness(upright, 0.0)]
        [0, -200]
    """
    cos, sin = math.cos(angle_rad), math.sin(angle_rad)
    shift, slope, bend = shift_of(lever, angle_rad)
    total = -lever.torsion_n_mm_per_rad * (angle_rad - lever.torsion_rest_rad)
    stiffness = lever.torsion_n_mm_per_rad
    for spring in lever.springs:
        turned_x = spring.x_mm * cos - spring.y_mm * sin
        turned_y = spring.x_mm * sin + spring.y_mm * cos
        away_x = turned_x + shift[0] - spring.anchor_x_mm
        away_y = turned_y + shift[1] - spring.anchor_y_mm
        length = math.hypot(away_x, away_y)
        pull = pull_of(spring, length)
        if length < _TOUCHING_MM or (pull == 0.0 and spring.kind != "both"):
            continue
        to_x, to_y = slope[0] - turned_y, slope[1] + turned_x
        rate = (away_x * to_x + away_y * to_y) / length
        curving = to_x * to_x + to_y * to_y + away_x * (bend[0] - turned_x) + away_y * (bend[1] - turned_y)
        total -= pull * rate
        stiffness += spring.rate_n_per_mm * rate * rate + pull * (curving - rate * rate) / length
    for load in lever.loads:
        f_x, f_y = force_of(load, 0.0)
        if load.follows:
            normal, across = _on_bed(lever, f_x, f_y)
            total += load.x_mm * f_y - load.y_mm * f_x
            total += lever.edge_radius_mm * (normal * sin + across * (cos - 1))
            stiffness -= lever.edge_radius_mm * (normal * cos - across * sin)
            continue
        turned_x, turned_y = load.x_mm * cos - load.y_mm * sin, load.x_mm * sin + load.y_mm * cos
        total += f_x * (slope[0] - turned_y) + f_y * (slope[1] + turned_x)
        stiffness -= f_x * (bend[0] - turned_x) + f_y * (bend[1] - turned_y)
    return total, stiffness


def _on_bed(lever: Lever, f_x: float, f_y: float) -> Vector:
    """The parts of a force square to the bed of the edge and along it."""
    n_x, n_y = -math.cos(lever.edge_points_rad), -math.sin(lever.edge_points_rad)
    return (f_x * n_x + f_y * n_y, f_y * n_x - f_x * n_y)


def spring_push(lever: Lever, spring: Spring, angle_rad: float) -> Vector:
    """The force of a spring on the lever.

    Args:
        lever: the lever.
        spring: one of its springs.
        angle_rad: [rad] how far the lever has turned.

    Returns:
        Its parts along x and y [N]; nought where the spring is slack.

    Source: this project.

    Example:
        >>> spring_push(Lever(), Spring(100, 0, 100, 30, 0.2, 20), 0.0)
        (0.0, 2.0)
    """
    x, y = place_of(lever, spring.x_mm, spring.y_mm, angle_rad)
    to_x, to_y = spring.anchor_x_mm - x, spring.anchor_y_mm - y
    length = math.hypot(to_x, to_y)
    if length < _TOUCHING_MM:
        return (0.0, 0.0)
    pull = pull_of(spring, length)
    return (pull * to_x / length, pull * to_y / length)


def reaction(lever: Lever, angle_rad: float) -> Vector:
    """The force of the pivot on the lever, which holds all other forces.

    Args:
        lever: the lever.
        angle_rad: [rad] how far it has turned.

    Returns:
        Its parts along x and y [N].

    Source: sum of forces is nought (statics).

    Example:
        >>> [round(each) for each in reaction(Lever(loads=(Load(100, 0, 2), Load(-50, 0, 4))), 0.0)]
        [0, 6]
    """
    forces = [spring_push(lever, spring, angle_rad) for spring in lever.springs]
    forces += [force_of(load, angle_rad) for load in lever.loads]
    return (0.0 - sum(force[0] for force in forces), 0.0 - sum(force[1] for force in forces))
