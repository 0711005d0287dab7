"""A pose on one line as people say it: `P11 on P01 top at 515, 85, turned 0, let in 6`."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from calculators.planning.lines.checking import kept
from calculators.planning.lines.faces import FACES, check_edges, face_of, take_from_edges
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import GAP, Line, refusal, tidied
from calculators.planning.lines.measures import COORDINATE, MEASURE, length_of
from calculators.planning.lines.spots import is_empty, read_degrees, take_spots
from calculators.planning.model import Build, Component, Pose
from calculators.planning.tree import copy_name, split_copy
from calculators.quantities.marks import quoted

WRITE = "write it as P11 on P01 top at 515, 85, turned 0, let in 6, or P01 on the ground"
_MEASURE = MEASURE
_FACE = "|".join((*FACES, "underside", "underneath"))
_JOIN = r"(?:,|(?<![^\W_])and)? ?(?<![^\W_])"
_GROUND = re.compile(r"(?<![^\W_])on (?:the )?(?:ground|floor|bench|table)(?![^\W_])", re.IGNORECASE)
_TURNED = re.compile(
    rf"{_JOIN}(?:turned|rotated|turn)(?: by)? (?P<deg>[-+]?[0-9]{{1,3}}(?:[.,][0-9]{{1,6}})?) ?(?:°|deg"
    r"(?:rees?)?\b\.?)?(?![^\W_])",
    re.IGNORECASE,
)
_LET_IN = re.compile(
    rf"{_JOIN}(?:let[ -]?in|sunk|recessed|housed)(?: by)? (?P<depth>-?{_MEASURE})(?: deep)?(?![^\W_])",
    re.IGNORECASE,
)
_STOOD = re.compile(
    rf"{_JOIN}(?:stood off|stands off|standing off|stand off|clear by|off by)(?: by)? "
    rf"(?P<depth>{_MEASURE})(?![^\W_])",
    re.IGNORECASE,
)
_OWN = re.compile(
    rf"{_JOIN}(?:own (?:face )?(?P<a>{_FACE})(?: face)?(?: down)?|(?:its|with its|by its) "
    rf"(?P<b>{_FACE})(?: face| end)?(?: down)?|(?P<c>{_FACE}) (?:face )?down)(?![^\W_])",
    re.IGNORECASE,
)
_OTHER = re.compile(
    rf"{_JOIN}(?:of the )?(?:other hand(?:ed)?|mirrored|opposite hand(?:ed)?)(?![^\W_])",
    re.IGNORECASE,
)
_SAME = re.compile(rf"{_JOIN}same hand(?:ed)?(?![^\W_])", re.IGNORECASE)
_CENTRE = re.compile(
    rf"{_JOIN}(?:its )?(?:centred?|centered?|center)(?: point)? (?=at )|(?:,|and) ?by (?:its )?cent"
    r"(?:re|er)(?![^\W_])",
    re.IGNORECASE,
)
_AROUND = re.compile(
    rf"{_JOIN}(?:around|round at|at an angle of|angle) (?P<deg>[-+]?[0-9]{{1,3}}(?:\.[0-9]{{1,6}})?) ?(?:°"
    r"|deg(?:rees?)?\b\.?)?(?![^\W_])",
    re.IGNORECASE,
)
_ON = re.compile(
    r"^(?P<what>.+?) (?:lies |laid |goes |fixed |sits |stands )?(?P<word>on|in|under|against) (?:the )?"
    r"(?P<rest>.+)$",
    re.IGNORECASE,
)
_TARGET = re.compile(
    rf"^(?:(?P<face>{_FACE}) (?:face |end )?of (?:the )?(?P<of>.+?)|(?P<name>.+?)(?:'s?)?(?: (?:the )?"
    rf"(?P<behind>{_FACE})(?: face| end)?)?)$",
    re.IGNORECASE,
)
_COPY = re.compile(r"^(?P<name>.+?)[ ,]+(?:copy|no\.?|number) (?P<copy>[0-9]{1,7})$", re.IGNORECASE)


def read_pose_line(text: str, build: Build) -> tuple[str, Pose]:
    """Read where one copy of a part lies.

    A part that is there several times is said with its copy (`P02.1`); without it the next copy that lies
    nowhere yet is taken. The face of what it lies on is its top where the line does not say.

    Args:
        text: the line.
        build: the build.

    Returns:
        The mark of the part and the pose of the copy.

    Raises:
        InputError: when the line cannot be read, with a sentence and what may be meant.

    Source: this project.

    Example:
        >>> box = Build("B1", "Box", components=(Component("P01", "Base"), Component("P11", "Plate")))
        >>> mark, pose = read_pose_line("P11 on P01 top at 515, 85, turned 0, let in 6", box)
        >>> mark, pose.on, pose.face, pose.u.mm, pose.v.mm, pose.let_in.mm
        ('P11', 'P01', 'top', 515.0, 85.0, 6.0)
    """
    return pose_from(text, Known(build))


def pose_from(text: str, known: Known) -> tuple[str, Pose]:
    """Read a pose against what is known; as `read_pose_line`.

    Args:
        text: the line.
        known: what there is so far.

    Returns:
        The mark and the pose.

    Raises:
        InputError: when it cannot be read.

    Source: this project.
    """
    line = Line(text)
    if not line.shown:
        raise refusal(f"The line says nothing; {WRITE}.")
    edges = take_from_edges(line)
    said = _take_words(line, known)
    head, spot_line = _parted(line)
    ground = _GROUND.search(head.plain)
    if ground is not None:
        what = head.opened(tidied(head.shown[: ground.start()]))
        head.replace(0, ground.end(), "")
        one, copy = _copy_of(what, known)
        target, face = "", "top"
        if not is_empty(head.plain):
            raise refusal(f"{quoted(head.shown)} is not understood; {WRITE}.")
    else:
        found = _ON.match(head.plain)
        if found is None:
            raise refusal(f"The line does not say what lies on what; {WRITE}.")
        one, copy = _copy_of(head.opened(tidied(head.shown[found.start("what") : found.end("what")])), known)
        target, face = _target(head.shown[found.start("rest") : found.end("rest")], head, known)
    said.setdefault("own_face", "bottom")
    check_edges(edges, face)
    _place(spot_line, known, face, said)
    pose = kept(Pose(copy, target, **{"face": face, **said}), known.unit)
    _check(one, pose, known)
    return one.mark, pose


def _take_words(line: Line, known: Known) -> dict[str, Any]:
    said: dict[str, Any] = {}
    turned = line.take(_TURNED)
    if turned is not None:
        said["turned_deg"] = read_degrees(turned["deg"])
    let_in, stood = line.take(_LET_IN), line.take(_STOOD)
    if let_in is not None and stood is not None:
        raise refusal("The line says both let in and stood off; write one of them.")
    if let_in is not None:
        said["let_in"] = length_of(let_in["depth"], known.unit, signed=True)
    if stood is not None:
        length = length_of(stood["depth"], known.unit)
        said["let_in"] = length_of(f"-{length.written}", known.unit, signed=True)
    own = line.take(_OWN)
    if own is not None:
        said["own_face"] = face_of(Component("-", "-"), own["a"] or own["b"] or own["c"])
    if line.take(_OTHER):
        said["hand"] = "other"
    line.take(_SAME)
    if line.take(_CENTRE):
        said["point"] = "centre"
    around = line.take(_AROUND)
    if around is not None:
        said["angle_deg"] = read_degrees(around["deg"])
    return said


def _parted(line: Line) -> tuple[Line, Line | None]:
    """Part a line into what lies on what, and where."""
    at = re.search(rf"(?<![^\W_])at (?={COORDINATE})", line.plain, re.IGNORECASE)
    if at is None:
        gap = line.plain.find(GAP)
        rest = line.plain[gap:] if gap >= 0 else ""
        if not is_empty(rest):
            raise refusal(f"{quoted(tidied(line.shown[gap:]))} is not understood; {WRITE}.")
        if gap >= 0:
            line.replace(gap, len(line.plain), "")
        line.replace(len(line.plain.rstrip(" ,;:")), len(line.plain), "")
        return line, None
    where = Line(line.as_written(line.shown[at.start() :].replace(GAP, ";")))
    line.replace(at.start(), len(line.plain), "")
    line.plain = line.plain.replace(GAP, " ").rstrip(" ,;:")
    line.shown = line.shown.replace(GAP, " ")[: len(line.plain)]
    return line, where


def _copy_of(text: str, known: Known) -> tuple[Component, int]:
    """Find the part that is laid down, and which copy of it."""
    said = _COPY.match(text)
    found = known.copy(text)
    number: int | None
    if found is not None:
        one, number = found
    elif said is not None and known.exact(text) is None:
        one, number = known.find(said["name"]), int(said["copy"])
    else:
        one, number = known.find(text), None
    total = known.total(one.mark)
    if number is not None and number > total:
        raise refusal(
            f"There is no copy {number} of {one.mark}: it is there {total} time{'s' if total != 1 else ''}."
        )
    if number is not None or total == 1:
        return one, number or 1
    posed = {pose.copy for pose in one.poses}
    free = next((copy for copy in range(1, total + 1) if copy not in posed), None)
    if free is None:
        names = [copy_name(one.mark, copy, total) for copy in range(1, min(total, 12) + 1)]
        raise refusal(
            f"All {total} copies of {one.mark} lie somewhere; write which one moves, such as {names[0]}.",
            *names,
        )
    return one, free


def _target(text: str, line: Line, known: Known) -> tuple[str, str]:
    """Find what it lies on, and on which face."""
    text = text.strip(" ,;:")
    found = _TARGET.match(text)
    whole = line.opened(text)
    one = known.copy(whole)
    if one is None and known.exact(whole) is not None:
        one = known.exact(whole), None  # type: ignore[assignment]
    face = ""
    if one is None and found is not None:
        face = (found["face"] or found["behind"] or "").lower()
        name = line.opened((found["of"] or found["name"]).removesuffix("'s"))
        one = known.copy(name) or (known.find(name), None)
    assert one is not None
    component, number = one
    total = known.total(component.mark)
    if number is not None and number > total:
        raise refusal(
            f"There is no copy {number} of {component.mark}: it is there {total} "
            f"time{'s' if total != 1 else ''}."
        )
    on = component.mark if number is None else copy_name(component.mark, number, total)
    return on, face_of(component, face)


def _place(line: Line | None, known: Known, face: str, said: dict[str, Any]) -> None:
    if line is None:
        return
    spots = take_spots(line, known.unit, face)
    if len(spots) != 1:
        raise refusal("A copy lies in one place; write one line for each.")
    if not is_empty(line.plain):
        raise refusal(f"{quoted(tidied(line.as_written(line.shown)))} is not understood; {WRITE}.")
    spot = spots[0]
    said["u"] = spot.u
    if spot.angle_deg is not None:
        said["angle_deg"] = spot.angle_deg
    if spot.v is not None:
        said["v"] = spot.v


def _check(one: Component, pose: Pose, known: Known) -> None:
    """The own face must be one that the part has, and what it lies on must not lie on it."""
    own = pose.own_face
    if one.size.shape == "block" and own == "side":
        raise refusal(
            f"{one.mark} is a block and has no side to lie on; its faces are {', '.join(FACES[:6])}.",
            *FACES[:6],
        )
    name = known.name_of_copy(one, pose.copy)
    seen: set[str] = set()
    on = _standing_on(pose.on, known)
    while on and on not in seen:
        if on == name:
            raise refusal(f"{name} would lie on itself: what it lies on leads back to it.")
        seen.add(on)
        on = _standing_on(_pose_on(on, known), known)


def _standing_on(on: str, known: Known) -> str:
    if not on:
        return ""
    mark, number = split_copy(on)
    if on in known.components:
        mark, number = on, None
    return copy_name(mark, number or 1, known.total(mark))


def _pose_on(name: str, known: Known) -> str:
    mark, number = (name, None) if name in known.components else split_copy(name)
    component = known.components.get(mark)
    poses = component.poses if component is not None else ()
    return next((pose.on for pose in poses if pose.copy == (number or 1)), "")


def with_pose(component: Component, pose: Pose) -> Component:
    """Lay a copy down: a copy that lies somewhere already is moved.

    Args:
        component: the part.
        pose: the pose of one of its copies.

    Returns:
        The part with the pose.

    Source: this project.
    """
    others = [one for one in component.poses if one.copy != pose.copy]
    return replace(component, poses=tuple(sorted((*others, pose), key=lambda one: one.copy)))
