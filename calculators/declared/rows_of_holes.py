"""Row-of-holes and divide-length: equal spacing along a length, and pieces with equal gaps."""

from __future__ import annotations

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.drawing.rows_of_holes import draw_gaps, draw_rows
from calculators.geometry.positions import (
    ENDS,
    MOST_IN_A_ROW,
    Spacing,
    added_errors,
    gap_between,
    spaced,
)
from calculators.quantities.errors import InputError

_MOST_PLACES = 2000
_DIVISOR = {"at-the-ends": "(n - 1)", "half-spaces": "n", "whole-spaces": "(n + 1)"}


def _row(given: Given) -> Result:
    length, count, margin = given.mm("length"), given.integer("count"), given.mm("margin")
    ends, error = given.text("ends"), given.mm("setting_error")
    along = spaced(length, count, margin_mm=margin, ends=ends)
    across, rows = _across(given)
    if len(along.places_mm) * rows > _MOST_PLACES:
        says = f"{count} holes in {rows} rows are more than the {_MOST_PLACES} set out at once; write fewer."
        raise InputError.of(says, field="rows", limit=_MOST_PLACES / count)
    n = {"at-the-ends": count - 1, "half-spaces": count, "whole-spaces": count + 1}[ends]
    steps = [
        Step("space", f"(length - 2 margin) / {_DIVISOR[ends]}",
             f"({number_text(length)} - 2 x {number_text(margin)}) / {n}", along.space_mm, "mm"),
    ]  # fmt: skip
    if across is not None:
        steps.append(Step("row space", "between rows", "", across.space_mm, "mm"))
    chain = max(1, count - 1)
    found, e = added_errors(chain, error), number_text(error)
    steps += [
        Step("chain, worst", "n e", f"{chain} x {e}", found.chain_worst_mm, "mm", "errors all one way"),
        Step("chain, likely", "e sqrt(n)", f"{e} x sqrt({chain})", found.chain_likely_mm, "mm",
             "root of the sum of squares"),
        Step("one datum", "e", "", found.baseline_mm, "mm", "each measured from the same edge"),
    ]  # fmt: skip
    rows_at = across.places_mm if across is not None else (0.0,)
    results = named(
        spacing=along.space_mm,
        row_spacing=across.space_mm if across is not None and rows > 1 else None,
        positions=_places(along, rows_at),
        running=_running(along),
        chain_error=found.chain_worst_mm,
        chain_error_likely=found.chain_likely_mm,
        datum_error=found.baseline_mm,
    )
    warnings = []
    hole = given.mm_or_none("hole")
    if hole is not None:
        closest = min([along.space_mm] if count > 1 else [length])
        closest = min(closest, across.space_mm) if across is not None and rows > 1 else closest
        results |= named(land=closest - hole)
        steps.append(Step("land", "space - hole", f"{number_text(closest)} - {number_text(hole)}",
                          closest - hole, "mm"))  # fmt: skip
        if closest <= hole + 1e-9:
            warnings.append("The holes touch or run into each other: take fewer or smaller ones.")
        edge = min(along.places_mm[0], length - along.places_mm[-1])
        if edge < 1.5 * hole:
            warnings.append(
                f"The first hole is {number_text(edge, 4)} mm from the end; 1.5 holes, "
                f"{number_text(1.5 * hole, 4)} mm, or more is usual in metal (common practice)."
            )
    return Result(results, tuple(steps), tuple(warnings))


def _across(given: Given) -> tuple[Spacing | None, int]:
    """The rows across the width, where there is more than one or a width to centre one in."""
    rows, width = given.integer("rows"), given.mm_or_none("width")
    if rows == 1:
        return (None if width is None else Spacing(width, (width / 2,))), 1
    if width is None:
        says = "The input width is missing; several rows are spaced across it."
        raise InputError.of(says, field="width")
    try:
        return spaced(width, rows, margin_mm=given.mm("side_margin")), rows
    except InputError as error:
        raise InputError.of(error.faults[0].says, field="side_margin", limit=width / 2, unit="mm") from None


def _places(along: Spacing, rows_at: tuple[float, ...]) -> Value:
    found = [{"x": x, "y": y} for y in rows_at for x in along.places_mm]
    lines = (f"{i}: x {each['x']:.2f}, y {each['y']:.2f} mm" for i, each in enumerate(found, 1))
    return Value(found, "mm", "\n".join(lines))


def _running(along: Spacing) -> Value:
    value = [{"from_end": x} for x in along.places_mm]
    return Value(value, "mm", ", ".join(f"{x:.2f}" for x in along.places_mm) + " mm")


def _length(name: str, says: str, **more: object) -> Input:
    return Input(name=name, help=says, kind="length", unit="mm", **more)  # type: ignore[arg-type]


ROW_OF_HOLES = Calculator(
    name="row-of-holes",
    summary="Where to drill a row or a grid of equally spaced holes, and why to measure from one datum.",
    purpose="Set out and mark",
    inputs=(
        _length("length", "the length from end to end", above=0, maximum=50000, example="300 mm"),
        Input(name="count", help="how many holes in a row", kind="integer", minimum=1, maximum=MOST_IN_A_ROW,
              example="6"),
        _length("margin", "from each end to the first hole or space", default="0 mm", minimum=0,
                maximum=25000),
        Input(name="ends", help="where the first and the last hole stand: at the margins, or half a space "
              "or a whole one from them", kind="choice", choices=ENDS, default="at-the-ends"),
        Input(name="rows", help="how many rows", kind="integer", default="1", minimum=1, maximum=100),
        _length("width", "the width that the rows are spread over", optional=True, above=0, maximum=50000),
        _length("side_margin", "from each side to the first row", default="0 mm", minimum=0, maximum=25000),
        _length("hole", "the diameter of each hole", optional=True, above=0, maximum=1000, example="5 mm"),
        _length("setting_error", "how far one measurement may be off", default="0.3 mm", minimum=0,
                maximum=100),
    ),
    outputs=("spacing", "row_spacing", "positions", "running", "chain_error", "chain_error_likely",
             "datum_error", "land"),
    work=_row,
    sources=("equal spacing: geometry", "errors of a chain and from a datum: sum and root of sum of squares"),
    draw=draw_rows,
    example={"length": "360 mm", "count": "6", "margin": "30 mm", "rows": "2", "width": "80 mm",
             "side_margin": "20 mm", "hole": "5 mm"},
)  # fmt: skip


def _divide(given: Given) -> Result:
    length, count, width = given.mm("length"), given.integer("count"), given.mm("width")
    both = given.text("ends") == "gaps-at-ends"
    gap = gap_between(length, count, width, at_ends=both)
    gaps = count + 1 if both else count - 1
    first = gap if both else 0.0
    marks = [(first + i * (gap + width), first + i * (gap + width) + width) for i in range(count)]
    steps = (
        Step("gap", f"(length - n width) / (n {'+' if both else '-'} 1)",
             f"({number_text(length)} - {count} x {number_text(width)}) / {gaps}", gap, "mm"),
        Step("pitch", "gap + width", f"{number_text(gap)} + {number_text(width)}", gap + width, "mm",
             "from the same side of one piece to that of the next"),
    )  # fmt: skip
    value = [{"from": a, "to": b} for a, b in marks]
    lines = "\n".join(f"{i}: {a:.2f} to {b:.2f} mm" for i, (a, b) in enumerate(marks, 1))
    results = named(gap=gap, spacing=gap + width, marks=Value(value, "mm", lines))
    return Result(results, steps)


DIVIDE_LENGTH = Calculator(
    name="divide-length",
    summary="The equal gap between slats, spindles or shelves that stand in a length, and their marks.",
    purpose="Set out and mark",
    inputs=(
        _length("length", "the length between the ends", above=0, maximum=50000, example="1000 mm"),
        Input(name="count", help="how many pieces", kind="integer", minimum=1, maximum=MOST_IN_A_ROW,
              example="9"),
        _length("width", "the width of each piece; 0 for bare marks", default="0 mm", minimum=0,
                maximum=25000, example="20 mm"),
        Input(name="ends", help="whether there is a gap at each end or a piece against each", kind="choice",
              choices=("gaps-at-ends", "pieces-at-ends"), default="gaps-at-ends"),
    ),
    outputs=("gap", "spacing", "marks"),
    work=_divide,
    sources=("equal gaps: geometry",),
    draw=draw_gaps,
    example={"length": "1000 mm", "count": "9", "width": "20 mm"},
)  # fmt: skip
