"""A machine that runs ISO 6983 code on paper: it says what was drilled where, and refuses what is dangerous.

Written from the standard's words, not from the program that writes the code. It knows nothing of parts.
"""

from __future__ import annotations

import re
from dataclasses import dataclass, field

_WORD = re.compile(r"([A-Z])([+-]?\d+(?:\.\d+)?)")
_KNOWN_G = {"0", "1", "17", "21", "40", "49", "54", "80", "90", "94"}
_KNOWN_M = {"0", "3", "5", "6", "30"}


class Danger(Exception):
    """The code would break a tool or hurt somebody, or is not in the language."""


@dataclass
class Drilled:
    """A place where a tool went below the face: with which tool, how deep, in which steps, and where it went on to."""

    tool: int
    x: float
    y: float
    deepest: float = 0.0
    feeds: list[tuple[float, float]] = field(default_factory=list)
    ways: list[tuple[float, float, float, float, float]] = field(default_factory=list)
    """From x, y to x, y at z, for what is milled."""


@dataclass
class Run:
    """What a whole program did."""

    drilled: list[Drilled] = field(default_factory=list)
    heights_between: set[float] = field(default_factory=set)
    tools: list[int] = field(default_factory=list)
    speeds: dict[int, float] = field(default_factory=dict)
    feeds: dict[int, set[float]] = field(default_factory=dict)
    comments: list[str] = field(default_factory=list)


@dataclass
class _State:
    x: float = 0.0
    y: float = 0.0
    z: float = 1000.0
    tool: int = 0
    called: int = 0
    spindle: bool = False
    stopped: bool = False
    rpm: float = 0.0
    motion: str = ""
    feed: float = 0.0
    modes: set[str] = field(default_factory=set)
    now: Drilled | None = None
    ended: bool = False


def run(code: str) -> Run:
    """Run a program. Raises Danger."""
    if not code.isascii():
        raise Danger("signs that a controller does not know")
    lines = code.split("\n")
    if lines[0] != "%" or lines[-2:] != ["%", ""]:
        raise Danger("a program begins and ends with %")
    done, state = Run(), _State()
    for line in lines[1:-2]:
        if len(line) > 72:
            raise Danger(f"a line that is too long: {line}")
        bare = _without_comments(line, done)
        if bare:
            if state.ended:
                raise Danger(f"{line} after the end")
            _block(bare, state, done)
    if not state.ended:
        raise Danger("no end of the program")
    if state.spindle:
        raise Danger("the spindle runs at the end")
    return done


def _without_comments(line: str, done: Run) -> str:
    for said in re.findall(r"\(([^()]*)\)", line):
        done.comments.append(said)
    bare = re.sub(r"\([^()]*\)", "", line).strip()
    if "(" in bare or ")" in bare:
        raise Danger(f"a bracket that does not close: {line}")
    return bare


def _block(bare: str, state: _State, done: Run) -> None:
    words = _WORD.findall(bare)
    if " ".join(letter + value for letter, value in words) != bare:
        raise Danger(f"words that cannot be read: {bare}")
    values = {letter: value for letter, value in words if letter not in "GM"}
    gs, ms = [v for k, v in words if k == "G"], [v for k, v in words if k == "M"]
    if set(gs) - _KNOWN_G or set(ms) - _KNOWN_M or set(values) - set("XYZFST"):
        raise Danger(f"unknown words: {bare}")
    if len([g for g in gs if g in "01"]) > 1 or len(ms) > 1:
        raise Danger(f"two commands that exclude one another: {bare}")
    for g in gs:
        if g in ("0", "1"):
            state.motion = g
        else:
            state.modes.add(g)
    if "F" in values:
        state.feed = float(values["F"])
    if "S" in values:
        state.rpm = float(values["S"])
    if "T" in values:
        state.called = int(values["T"])
    _machine(ms, state, done)
    if set(values) & set("XYZ"):
        to = tuple(
            float(values.get(axis, was)) for axis, was in zip("XYZ", (state.x, state.y, state.z), strict=True)
        )
        _move(state, done, *to)


def _machine(ms: list[str], state: _State, done: Run) -> None:
    for m in ms:
        if m == "3":
            if state.stopped is False and state.tool:
                raise Danger("the spindle starts without a stop after the tool was changed")
            if state.rpm <= 0:
                raise Danger("the spindle starts without a speed")
            state.spindle = True
            done.speeds[state.tool] = state.rpm
        elif m == "5":
            state.spindle = False
        elif m == "0":
            state.stopped = True
        elif m == "6":
            if state.spindle:
                raise Danger("the tool is changed while the spindle runs")
            if state.z <= 0:
                raise Danger("the tool is changed in the work")
            state.tool, state.stopped, state.now = state.called, False, None
            done.tools.append(state.tool)
        elif m == "30":
            state.ended = True


def _move(state: _State, done: Run, x: float, y: float, z: float) -> None:
    if not {"17", "21", "90", "94"} <= state.modes:
        raise Danger("units, plane or feed are not set before the first move")
    sideways = (x, y) != (state.x, state.y)
    if state.motion == "0":
        _fast(state, done, x, y, z, sideways)
    elif state.motion == "1":
        _fed(state, done, x, y, z, sideways)
    else:
        raise Danger("a move of no kind")
    state.x, state.y, state.z = x, y, z


def _fast(state: _State, done: Run, x: float, y: float, z: float, sideways: bool) -> None:
    if sideways and min(z, state.z) <= 0:
        raise Danger(f"a fast move sideways in the work, to {x} {y}")
    if sideways:
        if z != state.z:
            raise Danger("a fast move on a slant")
        done.heights_between.add(z)
        state.now = None
    if z < 0:
        here = state.now
        if here is None or (here.x, here.y) != (x, y) or here.ways or z < -here.deepest:
            raise Danger(f"a fast move down into the work at {x} {y}")


def _fed(state: _State, done: Run, x: float, y: float, z: float, sideways: bool) -> None:
    if not state.spindle or not state.feed > 0:
        raise Danger("a feed without a turning spindle or without a rate")
    done.feeds.setdefault(state.tool, set()).add(state.feed)
    if sideways:
        if state.now is None or z != state.z:
            raise Danger("milling on a slant, or before going down")
        state.now.ways.append((state.x, state.y, x, y, z))
        return
    if z < 0:
        if state.now is None:
            state.now = Drilled(state.tool, x, y)
            done.drilled.append(state.now)
        state.now.feeds.append((state.z, z))
        state.now.deepest = max(state.now.deepest, -z)
