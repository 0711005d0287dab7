"""Holes on one line: `5.5 at 20, 30`, `M4 tapped 10 deep at 20,30`, `row of 5, dia 5, from 37,37 ...`."""

from __future__ import annotations

import re
from decimal import Decimal
from typing import Any

from calculators.hardware.holes import clearance_hole, tap_lead_mm
from calculators.hardware.threads import find_thread
from calculators.planning.lines.checking import kept
from calculators.planning.lines.counts import NUMBERS, in_figures
from calculators.planning.lines.faces import check_edges, take_face, take_from_edges
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import GAP, Line, refusal
from calculators.planning.lines.measures import MEASURE, length_of
from calculators.planning.lines.spots import (
    MOST_PLACES,
    Spot,
    is_empty,
    read_degrees,
    take_along,
    take_spots,
)
from calculators.planning.model import Build, Component, Hole, Unit
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

WRITE = (
    "write it as 5.5 at 20,30, M4 tapped 10 deep at 20,30, or row of 5, dia 5, from 37,37 pitch 32 along u"
)
MOST_HOLES = 20_000

_MEASURE = MEASURE
_DEG = r"(?P<deg>[0-9]{1,3}(?:\.[0-9]+)?) ?(?:°|deg(?:rees?)?\.?)?"
_THREAD = (
    r"(?P<thread>m ?[0-9]+(?:\.[0-9]+)?(?: ?x ?[0-9.]+(?= ?(?:tap|thread|clear)))?|[0-9]{1,2} ?ba"
    r"|(?:no\.? ?)?(?<![0-9])[0-9]{1,4}(?:/[0-9]{1,4})?(?: ?[- ] ?[0-9]{2,3})?"
    r" ?(?:unc|unf|unef|bsf|bsw|whitworth|whit|me|bsc)"
    r"|(?:[0-9]{1,2}|(?<![0-9])[0-9]{1,4}/[0-9]{1,4})-[0-9]{2,3}"
    r")(?![^\W_])"
)
_TAPPED = re.compile(
    rf"(?:(?:tapped|tap|tapping|threaded|thread) (?:for )?{_THREAD}"
    rf"|{_THREAD.replace('thread>', 'thread2>')} (?:tapped|tapping|tap|threaded|thread)?)"
    rf"(?:,? ?(?:hole )?(?P<depth>{_MEASURE}) (?:deep|of thread|thread))?(?![^\W_])|(?:tapped|threaded) "
    rf"(?P<depth2>{_MEASURE}) deep",
    re.IGNORECASE,
)
_CLEAR = re.compile(
    rf"(?:(?P<fit>close|medium|free)(?: fit)? )?(?:clear(?:ance)?(?: hole)? (?:for |of )?{_THREAD}"
    rf"|{_THREAD.replace('thread>', 'thread2>')} (?:clear(?:ance)?)(?: hole)?)(?![^\W_])",
    re.IGNORECASE,
)
_DRILLED = re.compile(rf"(?:drilled|drill) (?P<depth>{_MEASURE})(?: deep)?(?![^\W_])", re.IGNORECASE)
_SINK = re.compile(
    rf"(?:csk|c/?sunk|c/s(?:k|unk)?|countersunk|countersink|counter sunk)(?: to)? ?(?P<dia>{_MEASURE})"
    rf"(?: dia(?:meter)?)?(?: ?(?:x|(?:at|,)(?! ?[-0-9.]+ ?, ?[-0-9])) ?{_DEG})?(?![^\W_])",  # not a place
    re.IGNORECASE,
)
_BORE = re.compile(
    rf"(?:c['/ ]?bore[d]?|counterbored?|counter bored?|spotfaced?|spot face)(?: to)? ?(?P<dia>{_MEASURE})"
    rf"(?: dia(?:meter)?)? ?(?:x|,|by)? ?(?P<depth>{_MEASURE})(?: deep)?(?![^\W_])",
    re.IGNORECASE,
)
_SLOT = re.compile(
    rf"(?:slot(?:ted)?s? (?P<a>{_MEASURE})(?: wide)? ?(?:x|by) ?(?P<b>{_MEASURE})(?: long)?|"
    rf"(?P<a2>{_MEASURE}) ?(?:x|by) ?(?P<b2>{_MEASURE}) slots?)(?![^\W_])",
    re.IGNORECASE,
)
_DEEP = re.compile(
    rf"(?<![^\W_])(?:(?P<a>{_MEASURE}) ?(?:deep|dp|depth)|(?:depth|deep) ?(?P<b>{_MEASURE}))(?![^\W_])",
    re.IGNORECASE,
)
_THROUGH = re.compile(
    r"(?<![^\W_])(?:right through|all through|drilled through|through|thro'?|thru)(?![^\W_])", re.IGNORECASE
)
_DIAMETER = re.compile(
    rf"(?:(?:dia(?:meter)?\.?|Ø|of|drill(?:ed)?|holes? of) ?(?P<a>{_MEASURE})(?: dia(?:meter)?\.?)?|"
    rf"(?P<b>{_MEASURE}) ?(?:dia(?:meter)?\.?|Ø|holes?)(?![^\W_]))",
    re.IGNORECASE,
)
_BARE = re.compile(rf"(?P<a>{_MEASURE})", re.IGNORECASE)
_KINDS = (
    (re.compile(r"(?<![^\W_])pilot(?: holes?)?(?![^\W_])", re.IGNORECASE), "pilot"),
    (re.compile(r"(?<![^\W_])(?:reamed|ream)(?: holes?)?(?![^\W_])", re.IGNORECASE), "reamed"),
    (re.compile(r"(?<![^\W_])(?:clearance|clear)(?: holes?)?(?![^\W_])", re.IGNORECASE), "clearance"),
    (re.compile(r"(?<![^\W_])(?:for (?:an )?)?inserts?(?: holes?)?(?![^\W_])", re.IGNORECASE), "insert"),
    (
        re.compile(r"(?<![^\W_])(?:spot(?:ted)?(?: through)?(?: from its mate)?)(?![^\W_])", re.IGNORECASE),
        "spot",
    ),
    (re.compile(r"(?<![^\W_])(?:plain)(?: holes?)?(?![^\W_])", re.IGNORECASE), "plain"),
)
_COUNT = re.compile(
    rf"^(?P<count>[0-9]{{1,4}}|{'|'.join(NUMBERS)})(?: (?:off|no\.?|holes?|of)(?![^\W_])(?: at "
    rf"(?=[^0-9]))?| ?x(?= ?(?:[0-9.¼½¾]|M[0-9]|dia|Ø|slot|csk))(?! ?[0-9]+ grid)|(?P<either>) (?=at )| "
    rf"(?=dia(?:meter)? [0-9.¼½¾]|Ø|slot|M[0-9]|in a ))",
    re.IGNORECASE,
)
_ID = re.compile(r"^(?P<id>h[0-9]{1,6}) ?[:,]? ", re.IGNORECASE)


def read_hole_line(text: str, build: Build, part: str, face: str = "") -> tuple[Hole, ...]:
    """Read one hole or several alike from a line.

    Without a depth a hole goes right through. `M4 tapped 10 deep` is full thread; it is drilled deeper by the
    lead of a plug tap, one and a half threads, unless the line says `drilled 14`. `M4 clearance` takes the
    medium fit. A countersink of no stated angle is 90 degrees.

    Args:
        text: the line.
        build: the build.
        part: the mark of the part.
        face: the face where the line says none; without it the top of a block.

    Returns:
        The holes with the next free ids (`h1`, `h2`).

    Raises:
        InputError: when the line cannot be read, with a sentence and what may be meant.

    Source: tap lead and countersink angle: common practice; clearance by `calculators.hardware.holes`.

    Example:
        >>> side = Component("P1", "Side")
        >>> [hole.u.mm for hole in read_hole_line("row of 3, dia 5, from 37,37 pitch 32 along u, 12 deep",
        ...                                       Build("B1", "Box", components=(side,)), "P1")]
        [37.0, 69.0, 101.0]
    """
    return holes_from(text, Known(build), part, face)


def holes_from(text: str, known: Known, part: str, face: str = "") -> tuple[Hole, ...]:
    """Read holes against what is known; as `read_hole_line`.

    Args:
        text: the line.
        known: what there is so far.
        part: the mark of the part.
        face: the face where the line says none.

    Returns:
        The holes.

    Raises:
        InputError: when they cannot be read.

    Source: this project.
    """
    component = part_called(part, known)
    line = Line(text, longest=20_000)
    if not line.shown:
        raise refusal(f"The line says nothing; {WRITE}.")
    given = _take_id(line)
    edges = take_from_edges(line)
    on = take_face(line, component, face)
    check_edges(edges, on)
    found = _COUNT.match(line.plain.lstrip(f" ,{GAP}"))
    count = None
    first = ""
    if found is not None:
        lead = len(line.plain) - len(line.plain.lstrip(f" ,{GAP}"))
        count = in_figures(found["count"])
        first = found["count"] if found["either"] is not None and found["count"].isdecimal() else ""
        line.replace(lead, lead + found.end(), "")
    said = _sizes(line, known.unit)
    spots = take_spots(line, known.unit, on, None if first else count)
    said = _rest(line, known.unit, said)
    if first and "diameter" not in said and said.get("kind") != "tapping":
        said["diameter"] = length_of(first, known.unit)  # `5 at 20,30` is a hole of 5
    elif first and count != len(spots):
        raise refusal(f"The line says {count}, but gives {len(spots)} place{'s' if len(spots) != 1 else ''}.")
    if not is_empty(
        re.sub(
            r"(?<![^\W_])(?:holes?|a|the|and|with|drill(?:ed)?|mm|each|equally spaced|of|in|for|on|at|x"
            r"|dia)(?![^\W_])",
            " ",
            line.plain,
            flags=re.I,
        )
    ):
        left = line.as_written(line.shown.replace(GAP, " "))
        raise refusal(f"{quoted(' '.join(left.split()))} is not understood in a line of holes; {WRITE}.")
    note = line.note or ""
    _check_kind(said)
    if len(component.holes) + len(spots) > MOST_HOLES:
        raise refusal(f"{component.mark} would have more than {MOST_HOLES:,} holes.")
    ids = next_ids(component, len(spots), "h", given)
    return tuple(
        kept(_hole(one, on, spot, said, note), known.unit) for one, spot in zip(ids, spots, strict=True)
    )


def part_called(part: str, known: Known) -> Component:
    """Find the part that a feature is cut in, by its mark.

    Args:
        part: the mark.
        known: what there is.

    Returns:
        The part.

    Raises:
        InputError: when there is none.

    Source: this project.
    """
    found = known.by_mark(part)
    if found is None:
        raise known.unknown(part)
    return found


def _take_id(line: Line) -> str:
    found = _ID.match(line.plain)
    if found is None:
        return ""
    line.replace(0, found.end(), "")
    return found["id"].lower()


def next_ids(component: Component, count: int, letter: str, given: str = "") -> tuple[str, ...]:
    """Give the next free ids of holes (`h`) or pockets (`k`) in a part.

    Args:
        component: the part.
        count: how many [1].
        letter: `h` or `k`.
        given: an id that the line itself gives.

    Returns:
        The ids.

    Raises:
        InputError: when the id given is taken.

    Source: this project.
    """
    taken = {one.id for one in (component.holes if letter == "h" else component.pockets)}
    if given:
        if given in taken:
            raise refusal(f"{component.mark} has {given} already; leave the id out.")
        if count == 1:
            return (given,)
    ids: list[str] = []
    number = 0
    while len(ids) < count:
        number += 1
        if f"{letter}{number}" not in taken:
            ids.append(f"{letter}{number}")
    return tuple(ids)


def _sizes(line: Line, unit: Unit) -> dict[str, Any]:
    """Take what says a size by itself: countersink, counterbore, slot, thread."""
    said: dict[str, Any] = {}
    sink = line.take(_SINK)
    if sink is not None:
        said["countersink_diameter"] = length_of(sink["dia"], unit)
        said["countersink_angle_deg"] = read_degrees(sink["deg"]) if sink["deg"] else Decimal(90)
    bore = line.take(_BORE)
    if bore is not None:
        said["counterbore_diameter"] = length_of(bore["dia"], unit)
        said["counterbore_depth"] = length_of(bore["depth"], unit)
    slot = line.take(_SLOT)
    if slot is not None:
        sizes = sorted(
            (length_of(slot["a"] or slot["a2"], unit), length_of(slot["b"] or slot["b2"], unit)),
            key=lambda one: one.ticks,
        )
        said["kind"], (said["diameter"], said["slot_length"]) = "slot", sizes
        said["slot_along"] = take_along(line)
        if not said["slot_along"]:
            raise refusal(
                "The slot does not say which way it runs; write along u or along v.", "along u", "along v"
            )
    _take_thread(line, unit, said)
    return said


def _take_thread(line: Line, unit: Unit, said: dict[str, Any]) -> None:
    clear = line.take(_CLEAR)
    if clear is not None:
        thread = find_thread(clear["thread"] or clear["thread2"], field="line")
        fit = (clear["fit"] or "medium").lower()
        hole = clearance_hole(thread, "close" if fit == "close" else "free" if fit == "free" else "medium")
        said.update(kind="clearance", diameter=Length.of_mm(hole.diameter_mm), thread=thread.designation)
    tapped = line.take(_TAPPED)
    if tapped is None:
        return
    name = tapped["thread"] or tapped["thread2"]
    if not name:
        raise refusal("The hole is tapped, but with which thread; write it as M4 tapped 10 deep at 20,30.")
    thread = find_thread(name, field="line")
    said.update(kind="tapping", thread=thread.designation)
    depth = tapped["depth"] or tapped["depth2"]
    if depth:
        said["thread_depth"] = length_of(depth, unit)
        said["depth"] = Length(said["thread_depth"].ticks + Length.of_mm(tap_lead_mm(thread)).ticks)
    drilled = line.take(_DRILLED)
    if drilled is not None:
        said["depth"] = length_of(drilled["depth"], unit)


def _rest(line: Line, unit: Unit, said: dict[str, Any]) -> dict[str, Any]:
    """Take depth, kind and diameter, which are bare words and numbers, once the places are gone."""
    deep, through = line.take(_DEEP), line.take(_THROUGH)
    if deep is not None:
        depth = length_of(deep["a"] or deep["b"], unit)
        if through is not None:
            raise refusal(f"The hole is both through and {depth.written} deep; write one of them.")
        said["depth"] = depth
    for pattern, kind in _KINDS:
        if line.take(pattern):
            said.setdefault("kind", kind)
    if "diameter" not in said:
        found = line.take(_DIAMETER) or line.take(_BARE)
        if found is not None:
            groups = found.groupdict()
            said["diameter"] = length_of(groups["a"] or groups["b"], unit)
    return said


def _check_kind(said: dict[str, Any]) -> None:
    if "diameter" not in said and said.get("kind") not in ("tapping", "spot"):
        raise refusal(f"The hole has no diameter; {WRITE}.")
    width, depth = said.get("diameter"), said.get("depth")
    for name, what in (("countersink_diameter", "countersink"), ("counterbore_diameter", "counterbore")):
        wide = said.get(name)
        if wide is not None and width is not None and wide.ticks <= width.ticks:
            raise refusal(
                f"The {what} of {wide.written} is not wider than the hole of "
                f"{width.written or width.exact_mm}."
            )
    thread = said.get("thread_depth")
    if thread is not None and depth is not None and thread.ticks > depth.ticks:
        raise refusal(f"The thread of {thread.written} is deeper than the hole of {depth.written}.")


def _hole(hole_id: str, face: Any, spot: Spot, said: dict[str, Any], note: str) -> Hole:
    return Hole(hole_id, face, spot.u, spot.v, spot.angle_deg, note=note, **said)


__all__ = ["MOST_PLACES", "holes_from", "next_ids", "part_called", "read_hole_line"]
