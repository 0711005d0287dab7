"""A pocket on one line: `recess 90 x 90 x 6 deep at 515, 85, corner radius 3`, `rebate 8 x 4 along edge`."""

from __future__ import annotations

import re
from typing import Any

from calculators.planning.lines.checking import kept
from calculators.planning.lines.faces import take_face
from calculators.planning.lines.holes import next_ids, part_called
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import GAP, Line, refusal
from calculators.planning.lines.measures import MEASURE, Measure, chain_lengths, length_of
from calculators.planning.lines.spots import is_empty, read_degrees, take_along, take_spots
from calculators.planning.model import Build, Component, Face, Pocket
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

WRITE = "write it as recess 90 x 90 x 6 deep at 515,85, corner radius 3, or rebate 8 x 4 along front edge"
MOST_POCKETS = 2_000

_MEASURE = MEASURE
_WORD = (
    r"(?:recess|pocket|rebate|rabbet|slot|housing|dado|groove|mortise|mortice|trench|cut-?out|opening|window)"
)
_SIZES = re.compile(
    rf"(?P<a>{_MEASURE})(?: ?(?:long|wide))? ?(?:x|by) ?(?P<b>{_MEASURE})(?: ?(?:wide|deep))?(?: ?(?:x"
    rf"|by) ?(?P<c>{_MEASURE})(?: ?deep)?)?",
    re.IGNORECASE,
)
_DEEP = re.compile(
    rf"(?<![^\W_])(?:(?P<a>{_MEASURE}) ?deep|depth ?(?P<b>{_MEASURE}))(?![^\W_])", re.IGNORECASE
)
_THROUGH = re.compile(r"(?<![^\W_])(?:right through|through|thro'?|thru)(?![^\W_])", re.IGNORECASE)
_CORNER = re.compile(
    rf"(?:(?:with )?(?:corner radius|corners? rad(?:ius)?|corners? r|radius(?:ed)? corners?|corners?"
    rf"|radius|rad\.?) ?[:=]? ?(?P<a>{_MEASURE})(?: rad(?:ius)?)?|(?P<b>{_MEASURE}) (?:corner )?(?:radius"
    rf"|rad)(?: corners?)?)(?![^\W_])",
    re.IGNORECASE,
)
_CUTTER = re.compile(
    rf"(?:with (?:an? )?)?(?:cutter (?P<a>{_MEASURE})|(?P<b>{_MEASURE}) cutter)(?![^\W_])", re.IGNORECASE
)
_SQUARED = re.compile(
    r"(?:corners? )?(?:hand[ -])?squared?(?: corners?| by hand| by chisel| out| up)?(?![^\W_])", re.IGNORECASE
)
_EDGE = re.compile(
    r"(?:along|on|down|round) (?:the )?(?P<edge>top|bottom|front|back|left|right)(?: hand)?(?: edge| end"
    r"| side)?(?![^\W_])",
    re.IGNORECASE,
)
_ANGLE = re.compile(
    r"(?:,|at)? ?(?P<deg>[-+]?[0-9]{1,3}(?:\.[0-9]{1,6})?) ?(?:°|deg(?:rees?)?\b\.?)", re.IGNORECASE
)
_ID = re.compile(r"^(?P<id>k[0-9]{1,6}) ?[:,]? ", re.IGNORECASE)

# On each face of a block: which edge lies at u = 0, at the far u, at v = 0 and at the far v; and the sizes
# along u and v. From the table of frames in DEVELOPERS.md.
_EDGES: dict[str, tuple[tuple[str, str, str, str], tuple[str, str]]] = {
    "top": (("left", "right", "front", "back"), ("length", "width")),
    "bottom": (("left", "right", "back", "front"), ("length", "width")),
    "front": (("left", "right", "bottom", "top"), ("length", "thickness")),
    "back": (("right", "left", "bottom", "top"), ("length", "thickness")),
    "right": (("front", "back", "bottom", "top"), ("width", "thickness")),
    "left": (("back", "front", "bottom", "top"), ("width", "thickness")),
}


def read_pocket_line(text: str, build: Build, part: str, face: str = "") -> Pocket:
    """Read a recess, slot or rebate from a line.

    `90 x 90 x 6` is its length along u, its width along v and its depth; `through` or no depth goes right
    through. `rebate 8 x 4 along front edge` is 8 wide and 4 deep along the whole of that edge of the face.

    Args:
        text: the line.
        build: the build.
        part: the mark of the part.
        face: the face where the line says none; without it the top.

    Returns:
        The pocket with the next free id (`k1`).

    Raises:
        InputError: when the line cannot be read, with a sentence and what may be meant.

    Source: common practice; edges by the frames of this project.

    Example:
        >>> base = Component("P1", "Base")
        >>> box = Build("B1", "Box", components=(base,))
        >>> pocket = read_pocket_line("recess 90 x 60 x 6 deep at 15, 8", box, "P1")
        >>> pocket.id, pocket.length.mm, pocket.width.mm, pocket.depth.mm, pocket.u.mm
        ('k1', 90.0, 60.0, 6.0, 15.0)
    """
    return pocket_from(text, Known(build), part, face)


def pocket_from(text: str, known: Known, part: str, face: str = "") -> Pocket:
    """Read a pocket against what is known; as `read_pocket_line`.

    Args:
        text: the line.
        known: what there is so far.
        part: the mark of the part.
        face: the face where the line says none.

    Returns:
        The pocket.

    Raises:
        InputError: when it cannot be read.

    Source: this project.
    """
    component = part_called(part, known)
    line = Line(text)
    if not line.shown:
        raise refusal(f"The line says nothing; {WRITE}.")
    given = line.take(_ID)
    edge = line.take(_EDGE) if re.search(r"rebate|rabbet|edge", line.plain, re.IGNORECASE) else None
    on = take_face(line, component, face)
    said: dict[str, Any] = {"note": line.note or ""}
    corner, cutter = line.take(_CORNER), line.take(_CUTTER)
    if corner is not None:
        said["corner_radius"] = length_of(corner["a"] or corner["b"], known.unit)
    if cutter is not None:
        said["cutter"] = length_of(cutter["a"] or cutter["b"], known.unit)
    said["squared"] = line.take(_SQUARED) is not None
    sizes = _take_sizes(line, known, edge is not None)
    if edge is not None:
        said.update(_along_edge(component, on, edge["edge"].lower(), sizes))
    else:
        said.update(_placed(line, known, on, sizes))
    left = re.sub(
        rf"(?<![^\W_])(?:{_WORD}|a|an|the|with|and|or|mm)(?![^\W_])", " ", line.plain, flags=re.IGNORECASE
    )
    if not is_empty(left):
        shown = " ".join(line.as_written(line.shown.replace(GAP, " ")).split())
        raise refusal(f"{quoted(shown)} is not understood in a line of a pocket; {WRITE}.")
    if len(component.pockets) >= MOST_POCKETS:
        raise refusal(f"{component.mark} would have more than {MOST_POCKETS:,} pockets.")
    one = next_ids(component, 1, "k", given["id"].lower() if given is not None else "")[0]
    return kept(Pocket(one, on, **said), known.unit)


def _take_sizes(line: Line, known: Known, rebate: bool) -> list[Length | None]:
    """Take the sizes: length, width and depth; of a rebate width and depth."""
    found = line.take(_SIZES)
    if found is None:
        raise refusal(f"The pocket has no sizes; {WRITE}.")
    texts = [found[name] for name in ("a", "b", "c") if found[name]]
    if line.take(re.compile(rf"^[^\x1f]*\x1f ?(?:x|by) ?{_MEASURE}", re.IGNORECASE)):
        raise refusal("There are four sizes: a pocket has a length, a width and a depth.")
    lengths: list[Length | None] = list(chain_lengths([Measure.of(text) for text in texts], known.unit))
    deep, through = line.take(_DEEP), line.take(_THROUGH)
    if deep is not None:
        if len(lengths) == 3 or rebate:
            raise refusal("The pocket says its depth twice; write it once.")
        lengths.append(length_of(deep["a"] or deep["b"], known.unit))
    if through is not None and (len(lengths) == 3 or rebate):
        raise refusal("The pocket says a depth and through; write one of them.")
    if rebate and len(lengths) != 2:
        raise refusal(
            "A rebate along an edge has a width and a depth; write it as rebate 8 x 4 along front edge."
        )
    return [*lengths, None][:3]


def _placed(line: Line, known: Known, face: Face, sizes: list[Length | None]) -> dict[str, Any]:
    angle = line.take(_ANGLE) if face == "side" else None
    spots = take_spots(line, known.unit, "" if face == "side" else face)
    if len(spots) != 1 or spots[0].v is None:
        raise refusal("A pocket has one place; write one line for each.")
    along = take_along(line)
    length, width, depth = sizes
    if along == "v":
        length, width = width, length
    where = {"u": spots[0].u, "v": spots[0].v, "length": length, "width": width, "depth": depth}
    return {**where, "angle_deg": read_degrees(angle["deg"])} if angle is not None else where


def _along_edge(part: Component, face: Face, edge: str, sizes: list[Length | None]) -> dict[str, Any]:
    """Lay a rebate along the whole of an edge of a face."""
    width, depth = sizes[0], sizes[1]
    assert width is not None
    if face not in _EDGES:
        raise refusal(f"A rebate along an edge is cut in a block; {part.mark} is a round.")
    edges, (name_u, name_v) = _EDGES[face]
    if edge not in edges:
        raise refusal(f"The face {face} has no {edge} edge; its edges are {', '.join(edges)}.", *edges)
    whole_u, whole_v = getattr(part.size, name_u), getattr(part.size, name_v)
    if part.size.shape != "block" or whole_u is None or whole_v is None:
        raise refusal(
            f"{part.mark} needs its {name_u} and {name_v} before a rebate can run along its {edge} edge."
        )
    side = edges.index(edge)
    across = whole_u if side < 2 else whole_v
    if width.ticks >= across.ticks:
        raise refusal(
            f"A rebate of {width.written} is as wide as the face, which is {across.exact_mm} mm there."
        )
    zero = Length(0)
    far = Length(across.ticks - width.ticks)
    u, v = (far if side == 1 else zero), (far if side == 3 else zero)
    along_u = side >= 2
    return {
        "u": u,
        "v": v,
        "length": whole_u if along_u else width,
        "width": width if along_u else whole_v,
        "depth": depth,
    }
