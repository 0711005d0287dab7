"""Threads drawn to scale: the form with its sizes, a screw in a nut, wires in a thread."""

from __future__ import annotations

import math
from collections.abc import Sequence
from dataclasses import replace
from itertools import pairwise

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.chart import BROAD_MM, NARROW_MM
from calculators.drawing.sketch import Sketch, round_line
from calculators.drawing.svg import INK, PAPER, RED, STEEL, Point
from calculators.hardware.thread_comparison import Comparison
from calculators.hardware.thread_profile import Profile, nut_profile, screw_profile
from calculators.hardware.thread_sizes import Thread
from calculators.hardware.thread_wires import reading_over_wires_mm

_STEPS = 16
_MOST_TURNS = {BROAD_MM: 6, NARROW_MM: 4}


def thread_picture(thread: Thread) -> tuple[Picture, ...]:
    """Draw the basic form of a thread with its pitch, angle, depth and three diameters.

    Args:
        thread: a thread of the tables.

    Returns:
        One picture, broad and narrow.

    Source: basic profiles of ISO 68-1, ASME B1.1, BS 84, BS 93.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> thread_picture(find_thread("M6"))[0].title
        'The form of M6'
    """
    broad, narrow = (_form(thread, width) for width in (BROAD_MM, NARROW_MM))
    rounded = " Crest and root are rounded." if screw_profile(thread).round_mm else ""
    says = (
        f"Half of the section of the screw, from the axis outwards, at basic sizes: the flanks stand at "
        f"{thread.angle_deg:g} degrees to each other.{rounded}"
    )
    return (Picture(f"The form of {thread.designation}", broad, narrow, says),)


def _form(thread: Thread, width: float) -> str:
    p, shape = thread.pitch_mm, _basic_screw(thread)
    top, middle, bottom = (each / 2 for each in (shape.major_mm, shape.pitch_diameter_mm, shape.minor_mm))
    count = 3 if width == BROAD_MM else 2
    base = bottom - 0.35 * p
    right = 44.0 if width == BROAD_MM else 33.0
    sketch = Sketch((0.0, base, count * p, top + 0.05 * p), width, sides_mm=(6, right), tallest_mm=46)
    edge = _screw_edge(shape, 0.0, count)
    _metal(sketch, [(0, base), *_cut(edge, 0.0, count * p), (count * p, base)], "outline")
    names = (("major", top, 2 * top), ("pitch", middle, 2 * middle), ("minor", bottom, 2 * bottom))
    for name, level, size in names:
        line = "centre" if name == "pitch" else "dimension"
        sketch.shape([[(0, level), (count * p, level)]], line, closed=False)
        place = (count * p + 1.5 / sketch.scale, _clear(level, names, sketch))
        sketch.label(place, f"{name} {size:.3f}", anchor="start", ink="dimension")
    sketch.across((p / 2, top), (3 * p / 2, top), f"p {number_text(p, 5)}", -4.0)
    _angle_mark(sketch, thread, shape)
    sketch.below(f"Scale {_ratio(sketch.scale)}; diameters in mm; the axis lies below.")
    title = f"The form of {thread.designation}"
    says = (
        f"Section of {count} threads of pitch {number_text(p, 5)} mm at {thread.angle_deg:g} degrees. Major "
        f"diameter {2 * top:.3f} mm, pitch diameter {2 * middle:.3f} mm, minor diameter {2 * bottom:.3f} mm."
    )
    return sketch.svg(title=title, description=says)


def _angle_mark(sketch: Sketch, thread: Thread, shape: Profile) -> None:
    """The flank angle in the groove between the first two teeth, its vertex the sharp root."""
    p, a, top = thread.pitch_mm, shape.half_angle, shape.major_mm / 2
    vertex = (p, shape.pitch_diameter_mm / 2 - p / (4 * math.tan(a)))
    reach = (top - vertex[1]) / math.cos(a)
    legs = [(p + side * reach * math.sin(a), vertex[1] + reach * math.cos(a)) for side in (-1, 1)]
    sketch.shape([[legs[0], vertex, legs[1]]], "hidden", closed=False)
    half, radius = math.degrees(a), 0.72 * (top - vertex[1])
    sketch.shape([round_line(vertex, radius, 90 - half, 90 + half)], "dimension", closed=False)
    sketch.label((p, vertex[1] + radius + 2.4 / sketch.scale), f"{thread.angle_deg:g}°", ink="dimension")


def _clear(level: float, names: Sequence[tuple[str, float, float]], sketch: Sketch) -> float:
    """Where a diameter's words stand: at its line, further out where lines are closer than their words."""
    middle = names[1][1]
    if level == middle:
        return level
    least = 1.35 * sketch.letter / sketch.scale
    return max(level, middle + least) if level > middle else min(level, middle - least)


def _basic_screw(thread: Thread) -> Profile:
    """The basic profile: of 60 degree forms that with the flat root of the nut's minor diameter."""
    return replace(screw_profile(thread), minor_mm=thread.minor_diameter_mm)


def _radii(low: float, high: float) -> list[float]:
    """Radii from root to crest, close together at both ends, where a rounded thread bends."""
    return [low + (high - low) * (1 - math.cos(math.pi * i / _STEPS)) / 2 for i in range(_STEPS + 1)]


def _screw_edge(shape: Profile, start: float, count: int, extra: int = 1) -> list[Point]:
    """The outline of a screw's teeth from left to right, the first tooth's middle at start + p/2."""
    line: list[Point] = []
    low, high = shape.minor_mm / 2, shape.major_mm / 2
    radii = _radii(low, high)
    for tooth in range(-extra, count + extra):
        middle = start + (tooth + 0.5) * shape.pitch_mm
        widths = [_with_root(shape, each) for each in radii]
        line += [(middle - wide, each) for wide, each in zip(widths, radii, strict=True)]
        line += [(middle + wide, each) for wide, each in zip(reversed(widths), reversed(radii), strict=True)]
    return line


def _with_root(shape: Profile, radius: float) -> float:
    """Half of a tooth's width with the fillet of a rounded root."""
    wide, r = shape.tooth_mm(radius), shape.round_mm
    up = radius - shape.minor_mm / 2
    if r > 0 and up < r * (1 - math.sin(shape.half_angle)):
        wide = max(wide, shape.pitch_mm / 2 - math.sqrt(max(0.0, r * r - (r - up) ** 2)))
    return wide


def _nut_edge(shape: Profile, start: float, count: int) -> list[Point]:
    """The outline of a nut's grooves from left to right, the first groove's middle at start + p/2."""
    line: list[Point] = []
    low, high = shape.minor_mm / 2, shape.major_mm / 2
    radii = _radii(low, high)
    for groove in range(-1, count + 1):
        middle = start + (groove + 0.5) * shape.pitch_mm
        widths = [shape.groove_mm(each) for each in radii]
        line += [(middle - wide, each) for wide, each in zip(widths, radii, strict=True)]
        line += [(middle + wide, each) for wide, each in zip(reversed(widths), reversed(radii), strict=True)]
    return line


def _cut(line: Sequence[Point], left: float, right: float) -> list[Point]:
    """The part of a line that runs to the right, between two places, with its ends put in."""
    found: list[Point] = []
    for (x, y), (to_x, to_y) in pairwise(line):
        for edge in (left, right):
            if min(x, to_x) < edge < max(x, to_x):
                found.append((edge, y + (to_y - y) * (edge - x) / (to_x - x)))
        if left <= to_x <= right:
            found.append((to_x, to_y))
    return found


def thread_pair(found: Comparison) -> tuple[Picture, ...]:
    """Draw the first turns of a screw in a nut, both in the middle of their limits; where they foul in red.

    Args:
        found: the comparison.

    Returns:
        One picture, broad and narrow; none where the two never meet.

    Source: this project.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> from calculators.hardware.thread_comparison import compare_threads
        >>> thread_pair(compare_threads(find_thread("M5"), find_thread("10-32"), 5))[0].title
        'M5 in 10-32 UNF'
    """
    screw, nut = found.screw, found.nut
    apart = abs(screw.major_mm - nut.major_mm) > 2 * max(screw.pitch_mm, nut.pitch_mm)
    if not found.same_hand or apart or screw.major_mm <= nut.minor_diameter_mm:
        return ()
    broad, narrow = (_pair(found, width) for width in (BROAD_MM, NARROW_MM))
    says = f"An ordinary {screw.designation} screw in an ordinary {nut.designation} nut: {_outcome(found)}"
    return (Picture(f"{screw.designation} in {nut.designation}", broad, narrow, says),)


def _outcome(found: Comparison) -> str:
    turns = found.turns["ordinary"]
    if found.plays_mm["ordinary"] <= 0:
        return (
            f"they foul by {-found.plays_mm['ordinary']:.3f} mm from the first turn on; red is metal of both."
        )
    if turns is not None and turns < found.threads_engaged:
        return f"the play is used up after {turns:.1f} turns; red is metal of both."
    return "nothing fouls over the length engaged."


def _pair(found: Comparison, width: float) -> str:
    screw, nut = screw_profile(found.screw, "ordinary"), nut_profile(found.nut, "ordinary")
    turns = found.turns["ordinary"]
    wanted = found.threads_engaged if turns is None else min(found.threads_engaged, turns + 2)
    count = max(2, min(_MOST_TURNS[width], math.ceil(wanted)))
    step = screw.pitch_mm - nut.pitch_mm
    # The first tooth leans on one side, so that the whole play is there to be used up.
    lean = -math.copysign(max(0.0, found.plays_mm["ordinary"]), step) if step else 0.0
    start = (nut.pitch_mm - screw.pitch_mm) / 2 + lean
    p = max(screw.pitch_mm, nut.pitch_mm)
    end = count * min(screw.pitch_mm, nut.pitch_mm)
    low, high = (
        min(screw.minor_mm, nut.minor_mm) / 2 - 0.3 * p,
        max(screw.major_mm, nut.major_mm) / 2 + 0.3 * p,
    )
    sketch = Sketch((0.0, low, end, high), width, sides_mm=(4, 4), tallest_mm=60)
    bolt = _cut(_screw_edge(screw, start, count), 0.0, end)
    hole = _cut(_nut_edge(nut, 0.0, count), 0.0, end)
    sketch.shape([[(0, high), *hole, (end, high)]], "none", manner="other")
    _metal(sketch, [(0, low), *bolt, (end, low)], "none")
    foul = [ring for turn in range(count) for ring in _fouls(screw, nut, start, turn, end)]
    sketch.shape(foul, "none", fill=RED, opacity=0.85)
    sketch.shape([bolt, hole], "edge", closed=False)
    levels = (
        (high - 0.12 * p, f"nut {found.nut.designation}"),
        (low + 0.12 * p, f"screw {found.screw.designation}"),
    )
    for level, words in levels:
        sketch.label((end / 2, level), words)
    sketch.below(f"Scale {_ratio(sketch.scale)}; {count} turns; {_outcome(found)}")
    says = (
        f"Section through {count} turns. Screw: major {screw.major_mm:.3f}, pitch diameter "
        f"{screw.pitch_diameter_mm:.3f} mm, pitch {screw.pitch_mm:.4f} mm. Nut: minor {nut.minor_mm:.3f}, "
        f"pitch diameter {nut.pitch_diameter_mm:.3f} mm, pitch {nut.pitch_mm:.4f} mm. "
        f"{_outcome(found).capitalize()}"
    )
    return sketch.svg(title=f"{found.screw.designation} in {found.nut.designation}", description=says)


def _fouls(screw: Profile, nut: Profile, start: float, turn: int, end: float) -> list[list[Point]]:
    """The rings where one tooth lies in the nut's metal, on its left and on its right."""
    tooth, groove = start + (turn + 0.5) * screw.pitch_mm, (turn + 0.5) * nut.pitch_mm
    low, high = nut.minor_mm / 2 + 1e-9, screw.major_mm / 2 - 1e-9
    if high <= low:
        return []
    rings = []
    for side in (-1.0, 1.0):
        inner: list[Point] = []
        outer: list[Point] = []
        for radius in _radii(low, high):
            wall = groove + side * nut.groove_mm(radius)
            metal = max(wall, tooth) if side > 0 else min(wall, tooth)
            flank = tooth + side * screw.tooth_mm(radius)
            deep = side * (flank - metal) > 1e-6
            inner.append((min(max(metal if deep else flank, 0.0), end), radius))
            outer.append((min(max(flank, 0.0), end), radius))
        if any(abs(a[0] - b[0]) > 1e-6 for a, b in zip(inner, outer, strict=True)):
            rings.append([*inner, *reversed(outer)])
    return rings


def wires_in_thread(thread: Thread, wire_mm: float) -> tuple[Picture, ...]:
    """Draw three wires in a thread between the anvils of a micrometer, the middle of the screw left out.

    Args:
        thread: a thread of the tables.
        wire_mm: [mm] diameter of the wires, over 0.

    Returns:
        One picture, broad and narrow.

    Source: geometry; the wire's middle is w / (2 sin a) above the sharp root.

    Example:
        >>> from calculators.hardware.thread_names import find_thread
        >>> wires_in_thread(find_thread("M6"), 0.577)[0].title
        'Three wires in M6'
    """
    broad, narrow = (_wires(thread, wire_mm, width) for width in (BROAD_MM, NARROW_MM))
    says = (
        f"Wires of {number_text(wire_mm, 4)} mm; the dots mark where they touch the flanks, the chain line "
        "is the pitch line."
    )
    return (Picture(f"Three wires in {thread.designation}", broad, narrow, says),)


def _wires(thread: Thread, wire: float, width: float) -> str:
    p, shape = thread.pitch_mm, _basic_screw(thread)
    a = shape.half_angle
    # The two sides of the screw are brought together: its middle is a band of 1.2 pitches.
    shift = shape.minor_mm / 2 - 0.6 * p
    count = 3
    crest, line = shape.major_mm / 2 - shift, shape.pitch_diameter_mm / 2 - shift
    middle = line - p / (4 * math.tan(a)) + wire / (2 * math.sin(a))
    reach = middle + wire / 2
    high = max(reach, crest) + 0.2 * p
    sketch = Sketch((0.0, -high, count * p, high), width, sides_mm=(6, 30), tallest_mm=80)
    edge = [(x, y - shift) for x, y in _cut(_screw_edge(shape, 0.0, count), 0.0, count * p)]
    under = [(x, y - shift) for x, y in _cut(_screw_edge(shape, p / 2, count), 0.0, count * p)]
    gap = 0.12 * p
    _metal(sketch, [(0, gap), *edge, (count * p, gap)], "outline")
    _metal(sketch, [(0, -gap), *((x, -y) for x, y in under), (count * p, -gap)], "outline")
    for level in (line, -line):
        sketch.shape([[(0, level), (count * p, level)]], "centre", closed=False)
    for x, y, way in ((p, middle, 1), (2 * p, middle, 1), (1.5 * p, -middle, -1)):
        _lay_wire(sketch, (x, y), wire, way * a)
    for way in (1, -1):
        sketch.shape(
            [[(0.35 * p, way * reach), (count * p - 0.35 * p, way * reach)]], "outline", closed=False
        )
    reading = reading_over_wires_mm(thread.pitch_diameter_mm, wire, p, thread.angle_deg)
    sketch.upward((count * p - 0.35 * p, -reach), (count * p - 0.35 * p, reach), f"M {reading:.3f}", 6.0)
    sketch.across((p - wire / 2, middle), (p + wire / 2, middle), f"w {number_text(wire, 4)}", -4.0)
    sketch.below(
        f"Scale {_ratio(sketch.scale)}; the middle of the screw is left out. M is read at the basic pitch "
        f"diameter, {thread.pitch_diameter_mm:.3f} mm."
    )
    says = (
        f"Two wires of {number_text(wire, 4)} mm lie in neighbouring grooves above, one below; over them a "
        f"micrometer reads {reading:.3f} mm at the basic pitch diameter of {thread.pitch_diameter_mm:.3f} mm."
    )
    return sketch.svg(title=f"Three wires in {thread.designation}", description=says)


def _lay_wire(sketch: Sketch, at: Point, wire: float, half_angle: float) -> None:
    """A wire, with dots where it touches the flanks; the angle is negative where the groove opens down."""
    sketch.circle(at, wire / 2, "outline", fill=PAPER)
    for side in (-1, 1):
        touch = (
            at[0] + side * wire / 2 * math.cos(half_angle),
            at[1] - wire / 2 * math.sin(half_angle),
        )
        sketch.shape([round_line(touch, 0.55 / sketch.scale)], "none", fill=INK)


def _metal(sketch: Sketch, ring: Sequence[Point], line: str) -> None:
    """An area of metal: its tone, then its hatching and its edge upon it."""
    sketch.shape([ring], "none", fill=STEEL)
    sketch.shape([ring], line, manner="metal")


def _ratio(scale: float) -> str:
    return f"{number_text(scale, 2)} : 1" if scale >= 1 else f"1 : {number_text(1 / scale, 2)}"
