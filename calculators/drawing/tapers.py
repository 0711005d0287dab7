"""Pictures of a taper, of leaning sides in section and of a splayed leg from two sides."""

from __future__ import annotations

from math import cos, radians, tan

from calculators.calculation import Given, Picture, Result
from calculators.calculation.result import number_text
from calculators.drawing.setting_out import number_of, two_widths
from calculators.drawing.sketch import Sketch, round_line
from calculators.drawing.svg import STEEL


def draw_taper(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the taper from the side, where both its ends are known.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture, or none where the ends are not known.

    Source: this project.
    """
    if not {"large_end", "small_end", "taper_length"} <= set(result.results):
        return ()
    large, small, length, angle = (
        number_of(result, name) for name in ("large_end", "small_end", "taper_length", "included_angle")
    )
    # Very long tapers would be drawn as a line; none is drawn longer than eight times its end.
    if length > 40 * max(large, 1e-9):
        return ()
    title = f"Taper from {number_text(large, 5)} to {number_text(small, 5)} mm"
    says = (
        f"{title} in {number_text(length, 5)} mm: {number_text(angle, 4)} degrees between the sides, "
        f"{number_text(angle / 2, 4)} degrees from the axis."
    )

    def draw(sheet: float) -> str:
        sketch = Sketch((0, -large / 2, length, large / 2), sheet, sides_mm=(22, 22), tallest_mm=80)
        sketch.shape(
            [[(0, -large / 2), (0, large / 2), (length, small / 2), (length, -small / 2)]], fill=STEEL
        )
        over = 3 / sketch.scale
        sketch.shape([[(-over, 0), (length + over, 0)]], "centre", closed=False)
        sketch.across((0, -large / 2), (length, -small / 2), number_text(length, 5), 8)
        sketch.upward((0, -large / 2), (0, large / 2), number_text(large, 5), -6)
        sketch.upward((length, -small / 2), (length, small / 2), number_text(small, 5), 6)
        sketch.below(
            f"{number_text(angle, 4)}° between the sides, {number_text(angle / 2, 4)}° from the axis"
        )
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)


def draw_sides(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw one side flat on the saw's table with its mitre, and its edge with the tilt.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    mitre, tilt = number_of(result, "mitre_angle"), number_of(result, "blade_tilt")
    high, wide, thick = 40.0, 110.0, 12.0
    run, bevel = high * tan(radians(min(mitre, 55))), thick * tan(radians(min(tilt, 60)))
    m, t = f"{mitre:.2f}°", f"{tilt:.2f}°"
    title = f"One of {given.integer('sides')} sides leaning {number_text(given.number('lean'), 4)} degrees"
    says = f"{title}: crosscut {m} from square, blade tilted {t} from upright for mitred edges."

    def draw(sheet: float) -> str:
        sketch = Sketch((0, -32, wide, high), sheet, sides_mm=(16, 16), tallest_mm=80)
        face = [(0, high), (wide, high), (wide - run, 0), (run, 0)]
        sketch.shape([face], fill=STEEL)
        sketch.shape([[(run, 0), (run, high)]], "hidden", closed=False)
        sketch.shape([round_line((run, 0), 26, 90, 90 + mitre)], "dimension", closed=False)
        turn = radians(90 + mitre / 2)
        sketch.label((run + 32 * cos(turn) + 8, 30), m, anchor="start", ink="dimension")
        edge = [(0, -20), (wide, -20), (wide - bevel, -20 - thick), (bevel, -20 - thick)]
        sketch.shape([edge], manner="wood")
        sketch.shape([[(bevel, -20 - thick), (bevel, -16)]], "hidden", closed=False)
        sketch.label((bevel + 4, -20 + 6), t, anchor="start", ink="dimension")
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, "Above, the side flat on the table; below, its edge."),)


def draw_legs(given: Given, result: Result) -> tuple[Picture, ...]:
    """Draw the leg from the front and from the end, and the sight line in plan.

    Args:
        given: the inputs as read.
        result: what was worked out of them.

    Returns:
        One picture.

    Source: this project.
    """
    height = given.mm("height")
    along, across = number_of(result, "foot_along"), number_of(result, "foot_across")
    lean, sight = number_of(result, "true_lean"), number_of(result, "sight_line")
    title = f"Leg leaning {number_text(lean, 4)} degrees along its sight line"
    says = (
        f"{title}. The sight line lies {number_text(sight, 4)} degrees from the length of the piece. Over "
        f"{number_text(height, 5)} mm of height the foot stands {along:.1f} mm along and {across:.1f} mm "
        "across."
    )
    gap, base = 0.35 * height, max(along, 0.05 * height)
    shift = base + gap
    plan = shift + max(across, 0.05 * height) + gap

    def draw(sheet: float) -> str:
        right = plan + max(along, 0.3 * height)
        sketch = Sketch((0, 0, right, height), sheet, sides_mm=(8, 22), tallest_mm=75)
        for start, foot, says_lean in (
            (0.0, along, given.number("along")),
            (shift, across, given.number("across")),
        ):
            sketch.shape([[(start, height), (start + foot, 0)]], "outline", closed=False)
            sketch.shape(
                [[(start, height), (start, 0)], [(start, 0), (start + foot, 0)]], "hidden", closed=False
            )
            sketch.note((start + foot / 2, height / 2), f"{number_text(says_lean, 4)}°", dot=False)
        middle = height / 2
        sketch.shape([[(plan, middle), (plan + along, middle + across)]], "outline", closed=False)
        sketch.shape([[(plan, middle), (plan + max(along, 0.3 * height), middle)]], "hidden", closed=False)
        sketch.circle((plan, middle), height / 60, "edge", STEEL)
        sketch.note((plan + along, middle + across), f"sight line {number_text(sight, 4)}°", dot=False)
        sketch.below(
            f"from the front, from the end, and in plan; the leg is {number_of(result, 'leg_length'):.1f} "
            "mm long"
        )
        return sketch.svg(title=title, description=says)

    return (two_widths(title, draw, says),)
