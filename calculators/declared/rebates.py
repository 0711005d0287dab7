"""Rebate: a recess for a flat part, its corners, passes, cutter and template."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import Plain, number_text
from calculators.drawing.rebates import draw_rebate
from calculators.geometry.recesses import (
    Plate,
    bush_offset,
    clearance_needed,
    corner_overlap,
    corner_radius_needed,
    cutter_that_fits,
    largest_cutter_radius,
    passes_for,
    read_plate,
)
from calculators.quantities.errors import InputError
from calculators.tables import Row

_DEEPEST = 3.0
"""A cutter that is to reach deeper than so many of its diameters is weak (common practice)."""


def _rebate(given: Given) -> Result:
    plate = read_plate(given.text("part"), field="part")
    cutter, clear, below = given.mm("cutter"), given.mm("clearance"), given.mm("below")
    radius, depth = cutter / 2, plate.thickness_mm + below
    length, width = plate.length_mm + 2 * clear, plate.width_mm + 2 * clear
    if cutter > width + 1e-9:
        says = f"A cutter of {number_text(cutter)} mm is wider than the recess of {number_text(width)} mm."
        raise InputError.of(
            f"{says} Write a smaller one.", field="cutter", value=cutter, limit=width, unit="mm"
        )
    overlap, needed = (
        corner_overlap(radius, plate.corner_mm, clear),
        clearance_needed(radius, plate.corner_mm),
    )
    row = cutter_that_fits(min(width, 2 * largest_cutter_radius(plate.corner_mm, clear)))
    per_pass = given.mm_or_none("depth_per_pass") or cutter / 2
    passes = passes_for(depth, per_pass)
    steps = [*_corner_steps(plate, radius, clear, overlap, needed), *_depth_steps(depth, per_pass, passes)]
    results = named(
        corners=_treatment(overlap, row, depth), ways=_ways(plate, radius, clear, overlap, needed, row),
        cutter=_cutter(row), overlap=overlap, slop_needed=needed, passes=passes, pass_depth=depth / passes,
        recess_length=length, recess_width=width, recess_depth=depth,
    )  # fmt: skip
    warnings = []
    if overlap > 0:
        level = "does not seat" if overlap > 0.2 else "just catches"
        warnings.append(
            f"The part {level}: its corners reach {number_text(overlap, 4)} mm into the round corners of "
            "the recess."
        )
    board = given.mm_or_none("board")
    if board is not None:
        left, said = _floor(board, depth)
        steps.append(
            Step("floor", "board - depth", f"{number_text(board)} - {number_text(depth)}", left, "mm")
        )
        results |= named(floor_left=left)
        warnings += said
    bush = given.mm_or_none("guide_bush")
    if bush is not None:
        offset = bush_offset(bush, cutter)
        numbers = f"({number_text(bush)} - {number_text(cutter)}) / 2"
        steps.append(Step("offset", "(bush - cutter) / 2", numbers, offset, "mm",
                          "the template's edge beyond the cut, each side"))  # fmt: skip
        results |= named(bush_offset=offset, template_length=length + 2 * offset,
                         template_width=width + 2 * offset)  # fmt: skip
    return Result(results, tuple(steps), tuple(warnings))


def _corner_steps(plate: Plate, radius: float, clear: float, overlap: float, needed: float) -> list[Step]:
    big, r, c = map(number_text, (radius, plate.corner_mm, clear))
    size = number_text(plate.width_mm)
    if radius <= plate.corner_mm + clear:
        first = Step("overlap", "-c where R is not over r + c", f"-{c}", overlap, "mm", "clear all round")
    else:
        numbers = f"({big} - {r}) x 0.4142 - {c} x 1.4142"
        first = Step("overlap", "(R - r)(sqrt 2 - 1) - c sqrt 2", numbers, overlap, "mm",
                     "along the diagonal; less than nought is clear")  # fmt: skip
    return [
        first,
        Step("clearance to clear", "(R - r)(1 - 1/sqrt 2)", f"({big} - {r}) x 0.2929", needed, "mm",
             "on each side"),
        Step("largest radius", "r + c (2 + sqrt 2)", f"{r} + {c} x 3.4142",
             largest_cutter_radius(plate.corner_mm, clear), "mm", "of a cutter that clears"),
        Step("recess width", "width + 2 c", f"{size} + 2 x {c}", plate.width_mm + 2 * clear, "mm"),
    ]  # fmt: skip


def _depth_steps(depth: float, per_pass: float, passes: int) -> list[Step]:
    d, p = number_text(depth), number_text(per_pass)
    return [
        Step("depth", "thickness + below", "", depth, "mm"),
        Step("passes", "depth / depth of a pass, rounded up", f"{d} / {p}", passes, "1",
             "half the cutter's diameter a pass, or as given (common practice)"),
    ]  # fmt: skip


def _treatment(overlap: float, row: Row | None, depth: float) -> str:
    """The treatment of the corners that is the least trouble."""
    if overlap <= 0:
        return "as cut: the part seats"
    if row is not None and depth <= _DEEPEST * row.number("diameter"):
        return f"finish the corners with a smaller cutter, {row['name']}"
    return "square the corners by hand, or round those of the part"


def _ways(plate: Plate, radius: float, clear: float, overlap: float, needed: float, row: Row | None) -> Value:
    """Every way to make the part seat, with its number."""
    if overlap <= 0:
        return Value([], "mm", "none is needed")
    relief = radius / 2**0.5
    rounded = corner_radius_needed(radius, clear)
    found: list[tuple[str, float, str]] = [
        ("square by hand", radius, f"square by hand: chisel out {number_text(radius, 4)} mm along each side"),
        ("round the part", rounded, f"round the part's corners to {number_text(rounded, 4)} mm or more"),
        ("widen", needed - clear, f"widen the recess by {number_text(needed - clear, 4)} mm on each side"),
        ("relief holes", relief,
         f"relief holes with the same cutter, centred {number_text(relief, 4)} mm from both sides"),
    ]  # fmt: skip
    if row is not None:
        size = row.number("diameter")
        found.insert(0, ("smaller cutter", size, f"a smaller cutter: {row['name']}"))
    value: Plain = [{"way": way, "size": size} for way, size, _ in found]
    return Value(value, "mm", "\n".join(line for _, _, line in found))


def _cutter(row: Row | None) -> Value:
    if row is None:
        return Value(None, "mm", "none of the usual sizes clears this corner")
    size = row.number("diameter")
    return Value(size, "mm", f"{row['name']} ({number_text(size)} mm)" if "in" in row["name"] else "")


def _floor(board: float, depth: float) -> tuple[float, list[str]]:
    left = board - depth
    if left <= 1e-9:
        says = f"A recess {number_text(depth)} mm deep goes through a board of {number_text(board)} mm;"
        says += " write a thicker board or a thinner part."
        raise InputError.of(says, field="board", value=board, limit=depth, unit="mm")
    if left < 2:
        return left, [
            f"Only {number_text(left, 4)} mm of floor is left; 2 mm is the least (common practice)."
        ]
    if left < min(5.0, board / 4):
        least = number_text(min(5.0, board / 4), 4)
        return left, [
            f"{number_text(left, 4)} mm of floor is left; {least} mm or more is usual (common practice)."
        ]
    return left, []


def _length(name: str, says: str, **more: object) -> Input:
    return Input(name=name, help=says, kind="length", unit="mm", **more)  # type: ignore[arg-type]


REBATE = Calculator(
    name="rebate",
    summary="A recess for a flat part: will the part seat in the round corners, and how to make it seat.",
    purpose="Set out and mark",
    inputs=(
        Input(name="part", help="the part that is let in: length x width x thickness, with r and the "
              "radius of "
              "its corners where they are round", kind="text", example="60 x 30 x 5 mm r 3"),
        _length("cutter", "the diameter of the cutter", above=0, maximum=500, example="12.7 mm or 1/2 in"),
        _length("clearance", "the clearance wanted on each side", default="0.1 mm", minimum=0, maximum=100),
        _length("below", "how far the part lies below the face", default="0 mm", minimum=0, maximum=1000),
        _length("board", "the thickness of the board, for the floor that is left", optional=True, above=0,
                maximum=2000, example="19 mm"),
        _length("depth_per_pass", "the most that one pass takes; without it half the cutter", optional=True,
                above=0, maximum=500),
        _length("guide_bush", "the outside diameter of the guide bush, for a "
                "template", optional=True, above=0,
                maximum=500, example="16 mm"),
    ),
    outputs=("corners", "ways", "cutter", "overlap", "slop_needed", "passes", "pass_depth", "recess_length",
             "recess_width", "recess_depth", "floor_left", "bush_offset", "template_length",
             "template_width"),
    work=_rebate,
    sources=("overlap and clearance of corners: geometry", "cutters: sizes commonly sold (common practice)",
             "floor and depth of a pass: common practice"),
    cautions=(
        "Unplug the router to change cutters, clamp the work and the template, feed against the cutter's "
        "turn, "
        "and wear eye and ear protection and a dust mask.",
    ),
    draw=draw_rebate,
    example={"part": "60 x 30 x 5 mm r 3", "cutter": "12.7 mm", "board": "19 mm", "guide_bush": "16 mm"},
)  # fmt: skip
