"""A step of assembly on one line: `5 Pillar to flange: fits P10, F03; closes F10; tools 13 mm spanner`."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from calculators.planning.lines.checking import kept
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import LONGEST_TEXT, Line, refusal, tidied
from calculators.planning.model import AssemblyStep, Build
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

WRITE = (
    "write it as 5 Pillar to flange: fits P10, F03; closes F10; tools 13 mm spanner; caution ...; check ..."
)
MOST_NUMBER = 1_000_000
_NUMBER = re.compile(r"^(?:step )?(?P<number>[0-9]{1,9})(?P<stop> ?[.):]|(?=[ ;])|$) ?", re.IGNORECASE)
_WORDS = {
    **dict.fromkeys(("fits", "fit", "fitting", "put on", "parts"), "fits"),
    **dict.fromkeys(("closes", "close", "shuts", "buries", "covers"), "closes"),
    **dict.fromkeys(("tools", "tool"), "tools"),
    **dict.fromkeys(("caution", "cautions", "warning", "beware"), "caution"),
    **dict.fromkeys(("check that", "check", "checks"), "check"),
    "note": "note",
}
_CLAUSE = re.compile(
    r"^(?P<word>" + "|".join(sorted(_WORDS, key=len, reverse=True)) + r")(?![^\W_]) ?:? ?(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_LAST = r"(?:fits|closes|tools|caution|check|note)"
_BREAK = re.compile(rf" ?; ?|\. (?={_LAST}(?![^\W_]))|, ?(?=(?:fits|closes)(?![^\W_]))", re.IGNORECASE)
_AND = re.compile(r" ?[,&+] ?| and ")


def read_step_line(text: str, build: Build, now: AssemblyStep | None = None) -> AssemblyStep:
    """Read a step of assembly, or the changes to one, from a line.

    Args:
        text: the line; without a number it is the next.
        build: the build: its marks, its steps.
        now: the step as it is, where the line changes it: what the line does not say stays.

    Returns:
        The step.

    Raises:
        InputError: when the line cannot be read, with a sentence and what may be meant.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Component
        >>> box = Build("B1", "Box", components=(Component("P10", "Pillar"), Component("P11", "Flange")))
        >>> step = read_step_line("5 Pillar to flange: fits P10; closes P11; check it stands square", box)
        >>> step.number, step.fits, step.closes, step.check
        (5, ('P10',), ('P11',), 'it stands square')
    """
    return step_from(text, Known(build), now)


def step_from(text: str, known: Known, now: AssemblyStep | None = None) -> AssemblyStep:
    """Read a step against what is known; as `read_step_line`.

    Args:
        text: the line.
        known: what there is so far.
        now: the step as it is, where it is changed.

    Returns:
        The step.

    Raises:
        InputError: when it cannot be read.

    Source: this project.
    """
    line = Line(text, longest=LONGEST_TEXT)
    if not line.shown:
        raise refusal(f"The line says nothing; {WRITE}.")
    number = _take_number(line, known, now)
    said: dict[str, Any] = {} if line.note is None else {"note": line.note}
    clauses = _clauses(line)
    title = clauses.pop(0) if clauses and not _begins_with_clause(clauses[0], now is None) else ""
    head, colon, rest = title.partition(":")
    if colon and _CLAUSE.match(rest.strip()):
        title = head
        clauses.insert(0, rest.strip())
    faults: list[Fault] = []
    for clause in clauses:
        _say(clause, line, known, said, faults)
    if faults:
        raise InputError(*faults[:5])
    title = line.opened(tidied(title))
    if title:
        said["title"] = title
    if now is not None:
        if not said and number == now.number:
            raise refusal(f"The line changes nothing of step {now.number}; {WRITE}.")
        return kept(replace(now, number=number, **said), known.unit)
    if not said.get("title"):
        named = [known.components[mark].name for mark in said.get("fits", ()) if mark in known.components]
        if not named:
            raise refusal(f"The step does not say what is done; {WRITE}.")
        said["title"] = f"Fit {named[0]}"[:200]
    return kept(AssemblyStep(number, **said), known.unit)


def _begins_with_clause(text: str, new: bool) -> bool:
    """Whether a line has no title: `Close the lid` and `Check the pitch` are titles of a new step."""
    found = _CLAUSE.match(text)
    return found is not None and (not new or found["word"].lower() in ("fits", "closes", "tools", "caution"))


def _clauses(line: Line) -> list[str]:
    """Part a line at its semicolons; a text that holds one is in quotes."""
    return [clause.strip() for clause in _BREAK.split(line.shown) if clause.strip(" ,;:")]


def _take_number(line: Line, known: Known, now: AssemblyStep | None) -> int:
    found = _NUMBER.match(line.plain)
    following = max(known.steps, default=0) + 1
    if found is None:
        if now is not None:
            return now.number
        if following > MOST_NUMBER:
            following = next(one for one in range(1, MOST_NUMBER + 1) if one not in known.steps)
        return following
    number = int(found["number"])
    if number > MOST_NUMBER:
        raise refusal(f"A step's number is at most {MOST_NUMBER:,}, not {number:,}.")
    line.replace(0, found.end(), "")
    if number in known.steps and (now is None or number != now.number):
        says = (
            f"There is a step {number} already, {quoted(known.steps[number].title)}; write another number, "
            f"such as {following}, or none."
        )
        raise refusal(says, str(following))
    return number


def _say(clause: str, line: Line, known: Known, said: dict[str, Any], faults: list[Fault]) -> None:
    found = _CLAUSE.match(clause)
    if found is None:
        raise refusal(f"{quoted(line.as_written(clause))} is not understood in a step; {WRITE}.")
    name, rest = _WORDS[found["word"].lower()], found["rest"].strip(" ,:")
    if name in ("caution", "check", "note"):
        text = line.opened(rest)
        said[name] = f"{said[name]}; {text}" if said.get(name) else text
        return
    pieces = [
        piece.strip()
        for piece in (re.split(r" ?, ?", rest) if name == "tools" else _pieces(rest, line, known))
    ]
    names = [line.opened(piece) for piece in pieces if piece]
    if not names:
        faults.append(Fault(f"{quoted(clause)} says {found['word'].lower()}, but not what; {WRITE}.", "line"))
        return
    if name != "tools":
        names = [mark for one in names if (mark := _mark(one, known, faults))]
    said[name] = tuple(dict.fromkeys((*said.get(name, ()), *names)))


def _pieces(text: str, line: Line, known: Known) -> list[str]:
    """Part a list of marks and names; a name that holds a comma or `and` stays whole."""
    return [text] if known.exact(line.opened(text)) is not None else _AND.split(text)


def _mark(text: str, known: Known, faults: list[Fault]) -> str:
    joint = known.joint_by_mark(text)
    if joint is not None and known.by_mark(text) is None:
        return joint.mark
    found = known.copy(text)
    if found is not None and found[1] is not None:
        one, number = found
        total = known.total(one.mark)
        if number is not None and number <= total:
            return known.name_of_copy(one, number)
        faults.append(Fault(f"There is no copy {quoted(text)}: {one.mark} is there {total} times.", "line"))
        return ""
    try:
        return known.find(text).mark
    except InputError as error:
        fault = error.faults[0]
        if not known.candidates(text):
            fault = known.unknown(text, joints=True).faults[0]
        faults.append(fault)
        return ""
