"""Several lines at once: each is read against the build with the earlier ones in it."""

from __future__ import annotations

import re
from collections.abc import Callable
from dataclasses import replace
from typing import get_args

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.consistency import check_build
from calculators.planning.lines.holes import holes_from
from calculators.planning.lines.joints import joint_from
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import refusal
from calculators.planning.lines.model import Kind, LinesRead, Unread
from calculators.planning.lines.parts import part_from
from calculators.planning.lines.pockets import pocket_from
from calculators.planning.lines.poses import pose_from, with_pose
from calculators.planning.lines.steps import step_from
from calculators.planning.lines.stock import stock_from
from calculators.planning.model import Build
from calculators.quantities.errors import Fault, InputError

MOST_LINES = 2_000
MOST_CHARACTERS = 200_000
_REMARK = re.compile(r"\s*#(?!\s?[0-9])")
_MOST = {"part": 20_000, "joint": 20_000, "step": 5_000, "stock": 2_000}
_CALLED = {"part": "components", "joint": "joints", "step": "steps", "stock": "pieces of stock"}


def add_lines(kind: Kind, text: str, build: Build, *, part: str = "", face: str = "") -> LinesRead:
    r"""Read lines into a build, each against the build with the earlier lines in it.

    Empty lines and lines that begin with `#` are passed over; `#8 x 1 1/4` is a screw. A line that
    cannot be read adds nothing and comes back with its sentences. A pose for a copy that lies somewhere
    already moves it.

    Args:
        kind: what the lines are of.
        text: the lines, at most 2,000 and 200,000 characters.
        build: the build.
        part: the mark of the part, for holes and pockets.
        face: the face, for holes and pockets whose line says none.

    Returns:
        The build, what was added, and the lines that were not read.

    Source: this project.

    Example:
        >>> read = add_lines("part", "4 sides 300 x 120 x 12 oak\n0 lids", Build("B1", "Box"))
        >>> read.added, read.unread[0].says
        (('P01',), ("'0' is no count here; write 1 to 100,000.",))
    """
    if kind not in get_args(Kind):
        raise ValueError(f"lines are of {', '.join(get_args(Kind))}, not {kind!r}")
    lines, unread = _lines_of(text)
    read, more = _read(kind, lines, build, part, face, careful=False)
    if read.build is not build and _faults(read.build) and not _faults(build):
        read, more = _read(kind, lines, build, part, face, careful=True)
    return replace(read, unread=tuple(sorted((*unread, *more), key=lambda one: one.number)))


def _lines_of(text: str) -> tuple[list[tuple[int, str]], list[Unread]]:
    """Number the lines; too many are one sentence and nothing is read."""
    if not isinstance(text, str):
        return [], [Unread(1, "", ("Lines are read from text.",))]
    if len(text) > MOST_CHARACTERS:
        count = f"{len(text):,} characters; at once {MOST_CHARACTERS:,} are read"
        says = f"The text has {count}. Nothing was added: part it."
        return [], [Unread(1, text[:200], (says,))]
    every = [(i, line) for i, line in enumerate(re.split(r"\r\n|\n|\r", text), start=1)]
    lines = [(i, line) for i, line in every if line.strip() and not _REMARK.match(line)]
    if len(lines) > MOST_LINES:
        says = (
            f"There are {len(lines):,} lines; at once {MOST_LINES:,} are read. Nothing was added: part them."
        )
        return [], [Unread(lines[MOST_LINES][0], lines[MOST_LINES][1], (says,))]
    return lines, []


def _read(
    kind: Kind, lines: list[tuple[int, str]], build: Build, part: str, face: str, *, careful: bool
) -> tuple[LinesRead, list[Unread]]:
    """Read the lines one after another; `careful` checks the whole build after each, to find a culprit."""
    known = Known(build)
    add = _adder(kind, part, face)
    added: list[str] = []
    unread: list[Unread] = []
    sound = build
    for number, text in lines:
        try:
            names = add(text, known)
            if careful:
                tried = _built(sound, known)
                faults = _faults(tried)
                if faults:
                    known = Known(sound)
                    raise InputError(*faults[:5])
                sound = tried
            added += names
        except InputError as error:
            unread.append(_unread(number, text, error))
    return LinesRead(sound if careful else _built(build, known) if added else build, tuple(added)), unread


def _unread(number: int, text: str, error: InputError) -> Unread:
    says = tuple(dict.fromkeys(fault.says for fault in error.faults))
    return Unread(
        number, text, says, tuple(dict.fromkeys(one for fault in error.faults for one in fault.choices))
    )


def _built(build: Build, known: Known) -> Build:
    there = {step.number for step in build.steps}
    return replace(
        build,
        components=tuple(known.components.values()),
        joints=tuple(known.joints.values()),
        stock=tuple(known.stock.values()) if len(known.stock) > len(build.stock) else build.stock,
        steps=(*build.steps, *(step for number, step in known.steps.items() if number not in there)),
    )


def _faults(build: Build) -> list[Fault]:
    collector = Collector(build.unit)
    check_build(build, collector)
    return collector.faults


def _adder(kind: Kind, part: str, face: str) -> Callable[[str, Known], tuple[str, ...]]:
    def room(count: int) -> None:
        if count >= _MOST[kind]:
            raise refusal(f"A build has at most {_MOST[kind]:,} {_CALLED[kind]}.")

    def add_part(text: str, known: Known) -> tuple[str, ...]:
        room(len(known.components))
        one = part_from(text, known)
        _check_copies(known, one.parent, one.quantity)
        known.add_component(one)
        return (one.mark,)

    def add_joint(text: str, known: Known) -> tuple[str, ...]:
        room(len(known.joints))
        joint = joint_from(text, known)
        known.add_joint(joint)
        return (joint.mark,)

    def add_holes(text: str, known: Known) -> tuple[str, ...]:
        holes = holes_from(text, known, part, face)
        one = known.by_mark(part)
        assert one is not None
        known.replace_component(replace(one, holes=(*one.holes, *holes)))
        return tuple(hole.id for hole in holes)

    def add_pocket(text: str, known: Known) -> tuple[str, ...]:
        pocket = pocket_from(text, known, part, face)
        one = known.by_mark(part)
        assert one is not None
        known.replace_component(replace(one, pockets=(*one.pockets, pocket)))
        return (pocket.id,)

    def add_pose(text: str, known: Known) -> tuple[str, ...]:
        mark, pose = pose_from(text, known)
        one = known.components[mark]
        known.replace_component(with_pose(one, pose))
        return (known.name_of_copy(one, pose.copy),)

    def add_step(text: str, known: Known) -> tuple[str, ...]:
        room(len(known.steps))
        step = step_from(text, known)
        known.add_step(step)
        return (str(step.number),)

    def add_stock(text: str, known: Known) -> tuple[str, ...]:
        room(len(known.stock))
        one = stock_from(text, known)
        known.add_stock(one)
        return (one.mark,)

    adders: dict[Kind, Callable[[str, Known], tuple[str, ...]]] = {
        "part": add_part,
        "joint": add_joint,
        "hole": add_holes,
        "pocket": add_pocket,
        "pose": add_pose,
        "step": add_step,
        "stock": add_stock,
    }
    return adders[kind]


def _check_copies(known: Known, parent: str, quantity: int) -> None:
    copies = quantity * (known.total(parent) if parent else 1)
    if copies > 1_000_000:
        raise refusal(f"There would be {copies:,} copies; a build has at most 1,000,000 of one part.")
