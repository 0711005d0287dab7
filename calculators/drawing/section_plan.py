"""What a joint's section shows, in real millimetres about the axis: layers, holes, hardware, the window.

A point is (x, z): x from the axis, z along it from the plane in which the head bears, positive to the point.
"""

from __future__ import annotations

import math
from contextlib import suppress
from dataclasses import dataclass, replace

from calculators.drawing.drives import Line
from calculators.drawing.figures import Figure, HeadSizes, head_figure, recess_in, turned
from calculators.drawing.hatching import Manner
from calculators.drawing.head_end import HeadEnd, head_end
from calculators.drawing.manner import manner_of
from calculators.drawing.section_hardware import Hardware, hardware_of
from calculators.drawing.shanks import ShankSizes, shank_figure, tail_recess
from calculators.drawing.svg import Point
from calculators.hardware.fastener import Fastener
from calculators.hardware.heads import head_of
from calculators.hardware.threads import find_thread
from calculators.joints.model import JointResult, Layer, LayerHole
from calculators.joints.sizes import screw_of
from calculators.quantities.errors import InputError

COUNTERSUNK = frozenset({"csk", "raised csk", "socket csk"})


@dataclass(frozen=True, slots=True)
class LayerShape:
    """One layer as it is cut: from `surface` to `back` on the axis, drawn as far as `shown`.

    `bearing` is where what clamps it lies (under a counterbore). `profile` is the right-hand side of its
    hole. `thread` is the threaded stretch of the hole and the thread's major diameter. `edge` is the
    distance from the axis to the nearest edge, where known.
    """

    item: int
    layer: Layer
    hole: LayerHole | None
    manner: Manner
    surface: float
    back: float
    bearing: float
    shown: float
    profile: tuple[Point, ...] = ()
    thread: tuple[float, float, float] | None = None
    edge: float | None = None

    @property
    def broken(self) -> bool:
        """Whether the drawing stops before the layer does."""
        return self.shown < self.back


@dataclass(frozen=True, slots=True)
class Plan:
    """Everything to be drawn [mm].

    The shank runs from `start` to `tip`; the screw's length is counted from `start_of_length`; its head or
    its tail begins at `top`, its thread at `thread`. `near` and `far` are the window along the axis.
    """

    layers: tuple[LayerShape, ...]
    hardware: tuple[Hardware, ...]
    shank: Figure
    head: Figure | None
    major: float
    start: float
    start_of_length: float
    tip: float
    top: float
    near: float
    far: float
    half_width: float
    thread: float
    end: HeadEnd | None = None


def section_plan(result: JointResult) -> Plan:
    """Lay out what a section shows.

    Args:
        result: the joint as worked out.

    Returns:
        The plan [mm].

    Source: this project.
    """
    spans = _spans(result)
    layers = _layers(result, spans)
    hardware = tuple(
        hardware_of(index, item, *spans[index], result.major_mm)
        for index, item in enumerate(result.joint.stack)
        if item.layer is None
    )
    shank, head, counted = _screw(result)
    head_drawn = head_figure(head)
    shank_drawn = shank_figure(shank)
    figures = [shank_drawn, *([head_drawn] if head_drawn else []), *(f for h in hardware for f in h.figures)]
    points = [point for figure in figures for point in figure.outline]
    far = max([z for _, z in points] + [z for shape in layers for _, z in shape.profile[:-1] or ()])
    near = min([z for _, z in points] + [shape.surface for shape in layers])
    layers = _windowed(layers, near, far, result.major_mm)
    wide = max([abs(x) for x, _ in points] + [x for shape in layers for x, _ in shape.profile])
    top = min(z for _, z in (head_drawn or shank_drawn).outline)
    far = max([far] + [shape.shown for shape in layers])
    return Plan(
        layers,
        hardware,
        shank_drawn,
        head_drawn,
        result.major_mm,
        shank.start,
        counted,
        shank.tip,
        top,
        near,
        far,
        wide,
        min(max(shank.thread, shank.start), shank.tip),
        head_end(head, recess_in(head, 1.0) if head_drawn else tail_recess(shank), shank.root),
    )


def _spans(result: JointResult) -> list[tuple[float, float]]:
    """Return where each member of the stack lies; one that is not told follows the one before it."""
    told = {extent.item: extent for extent in result.extents}
    spans = []
    at = 0.0
    for index, item in enumerate(result.joint.stack):
        if index in told:
            near, far = told[index].enter_mm, max(told[index].leave_mm, told[index].enter_mm)
        else:
            near = at + (item.layer.gap_mm if item.layer else 0.0)
            far = near + (item.layer.thickness_mm if item.layer else 0.0)
        spans.append((near, far))
        at = far if item.insert is None else at
    return spans


def _layers(result: JointResult, spans: list[tuple[float, float]]) -> tuple[LayerShape, ...]:
    shapes: list[LayerShape] = []
    for index, item in enumerate(result.joint.stack):
        if item.layer is None:
            continue
        near, far = spans[index]
        number = len(shapes)
        hole = next((each for each in result.holes if each.layer == number), None)
        surface, back = near, far
        sunk = item.layer.thickness_mm - (far - near)
        if sunk > 1e-6:
            # What is let into a counterbore is missing from the span: before the first layer, behind another.
            surface, back = (
                (far - item.layer.thickness_mm, far)
                if number == 0
                else (near, near + item.layer.thickness_mm)
            )
        distances = [d for d in (item.layer.edge_mm, item.layer.end_mm, item.layer.side_mm) if d is not None]
        shape = LayerShape(
            index,
            item.layer,
            hole,
            # The axis is drawn upright, so wood that is screwed into its end has its grain upright.
            manner_of(item.layer.material, "up" if item.layer.grain == "end" else "across"),
            surface,
            back,
            near,
            back,
            edge=min(distances, default=None),
        )
        if hole:
            shape = replace(
                shape, profile=_profile(shape, hole, far), thread=_thread(shape, hole, result.major_mm)
            )
            shape = _from_behind(shape) if hole.from_behind else shape
        shapes.append(shape)
    return tuple(shapes)


def _profile(shape: LayerShape, hole: LayerHole, leave: float) -> tuple[Point, ...]:
    """Return the right-hand side of a hole, clipped to its layer."""
    radius = max(hole.diameter_mm, hole.slot_length_mm or 0.0) / 2
    sunk, deep = hole.counterbore_diameter_mm, hole.counterbore_depth_mm
    at_back = shape.back > leave + 1e-6
    points = [(radius, shape.surface)]
    if sunk and deep and not at_back:
        wide = max(sunk / 2, radius)
        points = [(wide, shape.surface), (wide, shape.surface + deep), (radius, shape.surface + deep)]
    elif hole.countersink_diameter_mm and hole.countersink_depth_mm:
        wide = max(hole.countersink_diameter_mm / 2, radius)
        points = [(wide, shape.surface), (radius, shape.surface + hole.countersink_depth_mm)]
    if hole.depth_mm is None:
        if at_back and sunk:
            points += [(radius, leave), (max(sunk / 2, radius), leave)]
            radius = max(sunk / 2, radius)
        points.append((radius, max(shape.back, points[-1][1])))
    else:
        floor = max(shape.bearing + hole.depth_mm, points[-1][1])
        points += [(radius, floor), (0.0, floor + max(hole.point_mm, 0.0))]
    return _clipped(points, shape.back)


def _from_behind(shape: LayerShape) -> LayerShape:
    """Turn a hole end for end: it was drilled from the back of its layer."""
    both = shape.surface + shape.back
    profile = tuple((x, both - z) for x, z in reversed(shape.profile))
    if shape.thread is None:
        return replace(shape, profile=profile)
    start, end, major = shape.thread
    return replace(shape, profile=profile, thread=(both - end, both - start, major))


def _clipped(points: list[Point], back: float) -> tuple[Point, ...]:
    kept: list[Point] = []
    for x, z in points:
        if z > back:
            if kept and kept[-1][1] < back:
                (px, pz) = kept[-1]
                kept.append((px + (x - px) * (back - pz) / (z - pz), back))
            break
        kept.append((x, z))
    return tuple(kept)


def _thread(shape: LayerShape, hole: LayerHole, major: float) -> tuple[float, float, float] | None:
    if not hole.thread and hole.kind != "tapping":
        return None
    with suppress(InputError):
        major = find_thread(hole.thread).major_mm if hole.thread else major
    depth = hole.thread_depth_mm if hole.thread_depth_mm is not None else hole.depth_mm
    end = shape.back if depth is None else min(shape.bearing + depth, shape.back)
    return shape.bearing, end, major


def _screw(result: JointResult) -> tuple[ShankSizes, HeadSizes, float]:
    fastener, major = result.fastener, result.major_mm
    try:
        sizes = screw_of(result.joint)[0]
        root, raised, wood, pitch = sizes.root_mm, sizes.raised_mm, sizes.is_wood, sizes.pitch_mm
    except InputError:
        root, raised, wood, pitch = None, 0.0, fastener.family == "wood", None
    kind = "hex" if fastener.kind == "coach screw" and not fastener.head else fastener.head
    if kind == "none" or (not kind and fastener.kind in {"grub screw", "stud"}):
        kind = "none"
    countersunk = kind in COUNTERSUNK
    raised = raised if kind == "raised csk" else 0.0
    # Nought is the surface that a countersunk head is flush with; where it stands, nought is its rim.
    rim = result.head_below_mm + raised if countersunk and result.joint.stands_mm is None else 0.0
    head = HeadSizes(
        kind or "cheese",
        fastener.drive,
        major,
        max(result.head_diameter_mm or 1.9 * major, 1.01 * major),
        max(result.head_height_mm or 0.65 * major, 0.05 * major),
        min(max(result.head_angle_deg or 90.0, 20.0), 170.0),
        result.across_flats_mm,
        rim,
        raised,
        *_recess_widths(fastener),
    )
    length = fastener.cut_to or fastener.length
    tip = result.tip_mm
    starts = tip - length.mm if length else (rim if countersunk else 0.0)
    start = starts
    if countersunk:
        cone = max(head.diameter - major, 0.0) / 2 / math.tan(math.radians(head.angle) / 2)
        start = min(rim + cone, tip)
    thread = starts + result.plain_shank_mm
    shank = ShankSizes(
        major,
        min(root or (0.7 if wood else 0.82) * major, 0.97 * major),
        min(start, tip - 0.02 * major),
        thread,
        tip,
        fastener.point,
        wood,
        kind == "none",
        fastener.drive,
        # Coach screws of DIN 571 have pitches of 0.42 to 0.45 of the shank and roots of 0.70 to 0.75.
        pitch or (0.43 * major if wood else 0.0),
    )
    return shank, head, starts


def _recess_widths(fastener: Fastener) -> tuple[float | None, float | None]:
    """Return the widths of the slot and of the hexagon socket, where the tables of heads have them."""
    if not fastener.head:
        return None, None
    try:
        size = head_of(
            fastener.head,
            fastener.size,
            family=fastener.family,
            drive=fastener.drive,
            series=fastener.series,
        )
    except InputError:
        return None, None
    return size.slot_width_mm, size.socket_mm


def _windowed(
    layers: tuple[LayerShape, ...], near: float, far: float, major: float
) -> tuple[LayerShape, ...]:
    """Break off a last layer that goes on far beyond everything that happens in it."""
    if not layers:
        return layers
    last = layers[-1]
    floor = max(far, last.surface)
    room = max(0.3 * (floor - near), 2.5 * major)
    if last.back <= floor + 1.6 * room:
        return layers
    return (*layers[:-1], replace(last, shown=floor + room))


def outline_of_hole(shape: LayerShape) -> Line:
    """Return the closed outline of a layer's hole about the axis, as far as it is shown.

    Args:
        shape: the layer.

    Returns:
        The outline [mm]; nothing where there is no hole.

    Source: this project.
    """
    if len(shape.profile) < 2:
        return ()
    return turned(_clipped(list(shape.profile), shape.shown))
