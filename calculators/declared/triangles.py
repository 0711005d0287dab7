"""Right-triangle, square-check and polygon: the plain geometry of setting out."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.declared.choosing import given_of
from calculators.drawing.triangles import draw_frame, draw_polygon, draw_triangle
from calculators.geometry.triangles import polygon, right_triangle, squareness

_SIDES = ("base", "height", "slope", "angle")


def _triangle(given: Given) -> Result:
    known = given_of(given, _SIDES, 2)
    found = right_triangle(
        base_mm=given.mm_or_none("base"), height_mm=given.mm_or_none("height"),
        slope_mm=given.mm_or_none("slope"), angle_deg=given.number_or_none("angle"),
    )  # fmt: skip
    base, height = found.base_mm, found.height_mm
    b, h, s, a = map(number_text, (base, height, found.slope_mm, found.angle_deg))
    every = {
        "base": Step("base", "slope cos(angle)", f"{s} x cos({a} deg)", base, "mm"),
        "height": Step("height", "slope sin(angle)", f"{s} x sin({a} deg)", height, "mm"),
        "slope": Step("slope", "sqrt(base^2 + height^2)", f"sqrt({b}^2 + {h}^2)", found.slope_mm, "mm"),
        "angle": Step("angle", "atan(height / base)", f"atan({h} / {b})", found.angle_deg, "deg"),
    }
    steps = [step for name, step in every.items() if name not in known]
    if base > 0:
        steps.append(Step("fall", "height / base", f"{h} / {b}", 100 * height / base, "%", "per cent"))
    results = named(
        triangle_base=base, triangle_height=height, triangle_slope=found.slope_mm,
        triangle_angle=found.angle_deg, other_angle=90 - found.angle_deg,
        gradient=100 * height / base if base > 0 else None,
    )  # fmt: skip
    return Result(results, tuple(steps))


def _length(name: str, says: str, **more: object) -> Input:
    return Input(name=name, help=says, kind="length", unit="mm", **more)  # type: ignore[arg-type]


RIGHT_TRIANGLE = Calculator(
    name="right-triangle",
    summary="A right triangle from any two of its base, height, slope and angle.",
    purpose="Set out and mark",
    inputs=(
        _length("base", "the level side; two of the four are wanted", optional=True, above=0, maximum=100000,
                example="300 mm"),
        _length("height", "the upright side", optional=True, above=0, maximum=100000, example="400 mm"),
        _length("slope", "the longest side", optional=True, above=0, maximum=200000),
        Input(name="angle", help="the angle between base and slope", kind="quantity", unit="deg",
              optional=True, minimum=0.01, maximum=89.99),
    ),
    outputs=("triangle_base", "triangle_height", "triangle_slope", "triangle_angle", "other_angle",
             "gradient"),
    work=_triangle,
    sources=("right triangle: geometry",),
    draw=draw_triangle,
    example={"base": "300 mm", "height": "400 mm"},
)  # fmt: skip


def _square(given: Given) -> Result:
    length, width = given.mm("length"), given.mm("width")
    first, second = given.mm("diagonal"), given.mm_or_none("other_diagonal")
    found = squareness(length, width, first, second)
    n, w, d = map(number_text, (length, width, first))
    if second is None:
        formula = "acos((l^2 + w^2 - d^2) / (2 l w))"
        numbers = f"acos(({n}^2 + {w}^2 - {d}^2) / (2 x {n} x {w}))"
    else:
        formula = "acos((e^2 - d^2) / (4 l w))"
        numbers = f"acos(({number_text(second)}^2 - {d}^2) / (4 x {n} x {w}))"
    unit = min(length, width) // 3
    steps = (
        Step("square diagonal", "sqrt(l^2 + w^2)", f"sqrt({n}^2 + {w}^2)", found.diagonal_mm, "mm"),
        Step("corner", formula, numbers, found.corner_deg, "deg", "law of cosines"),
        Step("lean", "w cos(corner)", f"{w} x cos({number_text(found.corner_deg, 8)} deg)", found.lean_mm,
             "mm",
             "by which the far side stands over"),
        Step("3-4-5", "5 x a third of the shorter side, whole mm", f"5 x {number_text(unit)}", 5 * unit, "mm",
             f"mark {number_text(3 * unit)} and {number_text(4 * unit)} from the corner"),
    )  # fmt: skip
    off = found.corner_deg - 90
    results = named(
        square_diagonal=found.diagonal_mm, corner=found.corner_deg, out_of_square=off, lean=found.lean_mm,
    )  # fmt: skip
    warnings = []
    if abs(found.lean_mm) > 1e-6:
        longer = "the diagonal measured" if off > 0 else "the other diagonal"
        warnings.append(
            f"Out of square by {number_text(abs(off), 3)} degrees: push the corners of {longer} together "
            "until "
            f"the far side has gone over by {number_text(abs(found.lean_mm), 4)} mm and both diagonals are "
            f"{number_text(found.diagonal_mm, 7)} mm."
        )
    if second is not None:
        # In a parallelogram the squares of both diagonals add up to those of all four sides.
        mean = ((first**2 + second**2) / 2) ** 0.5
        if abs(mean - found.diagonal_mm) > 0.002 * found.diagonal_mm:
            warnings.append(
                f"The diagonals do not go with the sides: their mean square is {number_text(mean, 6)} mm, "
                "where "
                f"these sides make it {number_text(found.diagonal_mm, 6)} mm. Opposite sides differ, or "
                "one was "
                "read wrong."
            )
    return Result(results, steps, tuple(warnings))


SQUARE_CHECK = Calculator(
    name="square-check",
    summary="Whether a frame is square by its diagonals, and how far to push it.",
    purpose="Set out and mark",
    inputs=(
        _length("length", "one pair of sides", above=0, maximum=100000, example="800 mm"),
        _length("width", "the other pair", above=0, maximum=100000, example="600 mm"),
        _length("diagonal", "one diagonal as measured", above=0, maximum=200000, example="998 mm"),
        _length("other_diagonal", "the other diagonal", optional=True, above=0, maximum=200000,
                example="1002 mm"),
    ),
    outputs=("square_diagonal", "corner", "out_of_square", "lean"),
    work=_square,
    sources=("diagonals of a parallelogram, law of cosines: geometry",),
    draw=draw_frame,
    example={"length": "800 mm", "width": "600 mm", "diagonal": "998 mm", "other_diagonal": "1002 mm"},
)  # fmt: skip

_SIZES = ("side", "across_flats", "across_corners")


def _polygon(given: Given) -> Result:
    sides = given.integer("sides")
    given_of(given, _SIZES, 1)
    found = polygon(
        sides, side_mm=given.mm_or_none("side"), across_flats_mm=given.mm_or_none("across_flats"),
        across_corners_mm=given.mm_or_none("across_corners"),
    )  # fmt: skip
    s, f = number_text(found.side_mm), number_text(found.across_flats_mm)
    steps = (
        Step("side", "flats tan(180/n)", f"{f} x tan(180/{sides})", found.side_mm, "mm"),
        Step("flats", "side / tan(180/n)", f"{s} / tan(180/{sides})", found.across_flats_mm, "mm",
             "circle within"),
        Step("corners", "side / sin(180/n)", f"{s} / sin(180/{sides})", found.across_corners_mm, "mm",
             "circle about"),
        Step("area", "n side flats / 4", f"{sides} x {s} x {f} / 4", found.area_mm2, "mm2"),
        Step("mitre", "180 / n", f"180 / {sides}", 180 / sides, "deg", "saw from square"),
    )  # fmt: skip
    results = named(
        side=found.side_mm, across_flats=found.across_flats_mm, across_corners=found.across_corners_mm,
        polygon_area=found.area_mm2, round_about=sides * found.side_mm, inside_angle=180 - 360 / sides,
        mitre_angle=180 / sides,
    )  # fmt: skip
    warnings: tuple[str, ...] = ()
    if sides % 2:
        warnings = (
            "With an odd number of sides a flat faces a corner: across flats and across corners are here the "
            "diameters of the circles within and about it.",
        )
    return Result(results, steps, warnings)


POLYGON = Calculator(
    name="polygon",
    summary="A regular polygon from its side, its width across flats or across corners, and its mitre.",
    purpose="Set out and mark",
    inputs=(
        Input(name="sides", help="how many sides", kind="integer", minimum=3, maximum=100, example="6"),
        _length("side", "one side; one of the three sizes is wanted", optional=True, above=0, maximum=100000),
        _length("across_flats", "the diameter of the circle within", optional=True, above=0, maximum=100000,
                example="10 mm"),
        _length("across_corners", "the diameter of the circle about", optional=True, above=0, maximum=100000),
    ),
    outputs=("side", "across_flats", "across_corners", "polygon_area", "round_about", "inside_angle",
             "mitre_angle"),
    work=_polygon,
    sources=("regular polygons: geometry",),
    draw=draw_polygon,
    either=(_SIZES,),
    example={"sides": "6", "across_flats": "10 mm"},
)  # fmt: skip
