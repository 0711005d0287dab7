"""Pictures of holes in section: a blind tapped hole, and a countersink with its head."""

from __future__ import annotations

from math import radians, tan

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.setting_out import number_of, two_widths
from calculators.drawing.sketch import Sketch
from calculators.drawing.svg import RED_WASH, STEEL, Point
from calculators.hardware.threads import find_thread


def draw_blind_hole(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the hole in section: drill, full thread, lead and point, and the wall where it is known.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project; a tapped hole in section as in ISO 6410-1 (from memory).
    """
    thread = find_thread(given.text("designation"), field="designation")
    full, tip, drill = (number_of(result, name) for name in ("drill_depth", "tip_depth", "drill_diameter"))
    wanted, r, big = given.mm("full_thread"), drill / 2, thread.major_mm / 2
    part = given.mm_or_none("thickness")
    through = part is not None and tip >= part
    bottom = -(part if part is not None else tip * 1.25)
    low = min(bottom, -tip)
    half = max(3.2 * big, 0.3 * tip)
    title = f"Blind hole for {thread.designation}"
    wall = "" if part is None else f" {number_text(part - tip, 4)} mm is left behind the point."
    says = (
        f"{title} in section: full thread to {number_text(wanted, 5)} mm, drill of "
        f"{number_text(drill, 5)} mm to "
        f"{number_text(full, 5)} mm with its full diameter and {number_text(tip, 5)} mm to its tip.{wall}"
    )
    hole: list[Point] = [(-r, 0), (-r, -full), (0, -tip), (r, -full), (r, 0)]

    def draw(sheet: float) -> str:
        sketch = Sketch((-half, low, half, 0), sheet, sides_mm=(24, 30), tallest_mm=85)
        outer = [(-half, 0.0), (-half, bottom), (half, bottom), (half, 0.0)]
        sketch.shape([outer, hole], "none", manner="metal")
        if through and part is not None:
            sketch.shape([_beyond(r, full, tip, part)], "finding", fill=RED_WASH)
        sketch.shape([[(-half, 0), (-r, 0)], [(r, 0), (half, 0)]], closed=False)
        sketch.shape(
            [[(-half, bottom), (half, bottom)]], "outline" if part is not None else "break", closed=False
        )
        sketch.shape([hole], closed=False)
        sketch.shape([[(-r, -full), (r, -full)]], "edge", closed=False)
        sides = [[(side * big, 0), (side * big, -wanted)] for side in (-1, 1)]
        sketch.shape(sides, "thin", closed=False)
        sketch.shape([[(-big, -wanted), (big, -wanted)]], "outline", closed=False)
        over = 2 / sketch.scale
        sketch.shape([[(0, over), (0, -tip - over)]], "centre", closed=False)
        sketch.upward((big, 0), (big, -wanted), f"thread {number_text(wanted, 4)}", -5)
        sketch.upward((r, 0), (r, -full), f"drill {number_text(full, 4)}", 5)
        if part is not None:
            wrong = part - tip < 1.5
            left = number_text(part - tip, 4)
            sketch.note(
                (0, -tip),
                f"{left} mm left" if not through else f"through by {-float(left):g} mm",
                wrong=wrong,
            )
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)


def _beyond(r: float, full: float, tip: float, part: float) -> list[Point]:
    """What of the drill comes out at the other face."""
    if full >= part:
        return [(-r, -part), (-r, -full), (0, -tip), (r, -full), (r, -part)]
    across = r * (tip - part) / (tip - full) if tip > full else 0.0
    return [(-across, -part), (0, -tip), (across, -part)]


def draw_countersink(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw a countersink in section with the head in it, and in red where it comes out.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    head, hole, below = given.mm("head_diameter"), given.mm("hole"), given.mm("below")
    slope = tan(radians(given.number("angle")) / 2)
    depth, mouth = number_of(result, "depth"), number_of(result, "diameter")
    thickness = given.mm_or_none("thickness")
    broken = thickness is not None and depth >= thickness - 1e-9
    bottom = -(thickness if thickness is not None else 1.5 * depth + 0.2 * hole)
    half = 0.9 * mouth
    angle = number_text(given.number("angle"), 4)
    title = f"Countersink of {angle} degrees for a head of {number_text(head, 5)} mm"
    left = "" if thickness is None else f" {number_text(thickness - depth, 4)} mm is left under the cone."
    says = (
        f"{title} in section: {number_text(depth, 5)} mm deep, {number_text(mouth, 5)} mm wide, over a "
        "hole of "
        f"{number_text(hole, 5)} mm.{left}"
    )
    # A head that goes below the other face is drawn down to it, so that the section stays true.
    at_bottom = max(hole / 2, mouth / 2 + bottom * slope)
    end = max(-depth, bottom)
    cut: list[Point] = [(-mouth / 2, 0), (-at_bottom, end), (-hole / 2, end), (-hole / 2, bottom),
                        (hole / 2, bottom), (hole / 2, end), (at_bottom, end), (mouth / 2, 0)]  # fmt: skip
    tip = -below - (head - hole) / 2 / slope
    screw: list[Point] = [(-head / 2, -below), (head / 2, -below), (hole / 2, tip), (hole / 2,
                                                                                     bottom - 0.3 * hole),
                          (-hole / 2, bottom - 0.3 * hole), (-hole / 2, tip)]  # fmt: skip

    def draw(sheet: float) -> str:
        low = min(bottom - 0.3 * hole, tip)
        sketch = Sketch((-half, low, half, 0), sheet, sides_mm=(24, 28), tallest_mm=75)
        outer = [(-half, 0.0), (-half, bottom), (half, bottom), (half, 0.0)]
        sketch.shape([outer, cut], "none", manner="metal")
        sketch.shape([screw], "edge", fill=STEEL)
        faces = [
            [(-half, 0), (-mouth / 2, 0), (-at_bottom, end)],
            [(half, 0), (mouth / 2, 0), (at_bottom, end)],
        ]
        under = [[(-half, bottom), (-at_bottom if broken else -hole / 2, bottom)],
                 [(half, bottom), (at_bottom if broken else hole / 2, bottom)]]  # fmt: skip
        sketch.shape([*faces, *under], closed=False)
        if broken:
            edges = [[(side * at_bottom, bottom), (side * hole / 2, bottom)] for side in (-1, 1)]
            sketch.shape(edges, "finding", closed=False)
        over = 2 / sketch.scale
        sketch.shape([[(0, over), (0, low - over)]], "centre", closed=False)
        sketch.across((-mouth / 2, 0), (mouth / 2, 0), number_text(mouth, 5), -5)
        sketch.upward((mouth / 2, 0), (hole / 2, -depth), f"{number_text(depth, 4)} deep", 5, wrong=broken)
        if thickness is not None:
            sketch.upward((-half, 0), (-half, bottom), number_text(thickness, 5), -5)
            if broken:
                sketch.note((at_bottom, bottom), "comes out here", wrong=True)
            else:
                sketch.below(f"{number_text(thickness - depth, 4)} mm left under the cone")
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)
