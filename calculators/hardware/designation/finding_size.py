"""Finding the size that a line names, and deciding of which system it is.

How what is not said is decided (common practice):

1. An explicit thread (`M5`, `10-32`, `2 BA`, `1/4 BSF`) makes a machine screw, a nut, a washer or an insert.
2. A number without threads per inch (`No. 8`, `#8`, `8 gauge`) with a countersunk, raised or round head is
   a wood screw: machine screws of numbered sizes are written with their threads per inch. With another
   head, or none, it is asked back, unless only one thing of that number exists (`No. 14`).
3. Two bare millimetre numbers with a countersunk or raised head and a cross, hexalobular or square drive,
   or with the word wood, are a metric wood screw (`5 x 50 csk cross`); with a word that only machine
   screws have (hex, bolt, socket cap, a grade) they are the coarse metric thread; else it is asked back.
   With the word wood and a length in inches the bare number is the screw's number (`8 x 1 1/2`); a bare
   length under two diameters (`8 x 2`) is inches in an inch build, and asked back in a metric one.
4. A bare fraction (`1/4 x 1`) is asked back among the threads of that diameter; `1 1/2 x 8 wood screw` has
   its length first, as ironmongers write it.
5. `set screw` with a headed word is threaded to its head; without one it is asked back.
6. A bare fraction of length is inches. A bare number of length is in the unit of the thread's system, and
   asked back where that would be absurd (`5/16 BSF x 50`).
7. `x OD x thickness` of a washer may come in any order: the outside is the largest, the thickness the least.
"""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import dataclass
from fractions import Fraction
from typing import Literal

from calculators.hardware.designation.asking import AskBack, replaced
from calculators.hardware.designation.meaning import Meaning
from calculators.hardware.designation.measures import SHORTEST_WOOD_DIAMETERS_MM
from calculators.hardware.designation.sizes import (
    LARGEST_NUMBER,
    all_inch_sizes,
    coach_screw_sizes,
    coarse_sizes,
    metric_wood_sizes,
    plain_size,
    threads_of_inches,
    threads_of_number,
)
from calculators.hardware.designation.threads_written import known_thread
from calculators.hardware.designation.tokens import Token
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

Unit = Literal["mm", "in"]
ACCEPTED = (
    "write it as M5 x 20 csk slotted brass, No. 8 x 1 3/4 csk brass, 5/16 BSF x 2 hex set screw, "
    "M6 half nut, M5 repair washer 25 x 1.5 or M4 insert OD 8 x 10"
)


@dataclass(frozen=True, slots=True)
class FoundSize:
    """The size that a line names, and the piece of the line that names it."""

    size: str
    token: Token


def find_size(line: str, tokens: list[Token], meaning: Meaning, unit: Unit, field: str) -> FoundSize:
    """Find the size: an explicit thread, a number, or a bare diameter.

    Args:
        line: the plain line.
        tokens: its pieces.
        meaning: what its words say.
        unit: [mm or in] what a bare diameter means.
        field: the name of the input.

    Returns:
        The canonical size and the piece that names it.

    Raises:
        InputError: when there is no size, or two.
        AskBack: when it could be of several systems, or does not exist but others nearly do.

    Source: common practice, by the rules at the head of this module.
    """
    named = [token for token in tokens if token.kind in ("thread", "gauge")]
    if len({token.value for token in named}) > 1:
        both = " and ".join(quoted(token.text) for token in named[:2])
        raise InputError.of(f"{both} are two sizes; write a line for each thing.", field=field)
    if named and named[0].kind == "thread":
        return _threaded(line, named[0], meaning, field)
    if named:
        return _numbered(line, named[0], meaning, field)
    numbers = [token for token in tokens if token.kind == "number"]
    if not numbers:
        raise InputError.of(f"The line names no size; {ACCEPTED}.", field=field)
    token = _size_among(numbers, meaning, unit, field)
    kind, name, _ = plain_size(token.text, _marked(token, unit), field)
    if kind == "in":
        by_length = _number_behind_length(numbers, token, meaning)
        if by_length is not None and meaning.is_wood:
            return FoundSize(f"No. {by_length.text}", by_length)
        return _bare_inch(line, token, name, meaning, by_length)
    return _bare_mm(line, token, name, numbers, meaning, unit)


def _choose(says: str, line: str, token: Token, names: Iterable[str]) -> AskBack:
    """Make the question which of several sizes stands in the place of one piece."""
    return AskBack(says, [replaced(line, token.start, token.end, name.lower()) for name in names])


def _threaded(line: str, token: Token, meaning: Meaning, field: str) -> FoundSize:
    """An explicit thread; a coach screw is often called by one, though its own is a wood thread."""
    if not meaning.is_wood:
        return FoundSize(token.value, token)
    diameter = token.value.removeprefix("M")
    if meaning.kind == "coach screw" and diameter in coach_screw_sizes():
        return FoundSize(diameter, token)
    says = f"{token.value} is a machine thread, which a wood screw does not have"
    if meaning.kind != "coach screw" and diameter in metric_wood_sizes():
        raise _choose(says, line, token, [diameter])
    raise InputError.of(
        f"{says}; name it by its number or diameter, as No. 8 or 5 x 50 wood screw.", field=field
    )


def _numbered(line: str, token: Token, meaning: Meaning, field: str) -> FoundSize:
    """A number without threads per inch: rule 2 of the module."""
    number = int(token.value)
    if meaning.kind == "coach screw":
        says = f"A coach screw is named by its diameter, not by No. {number}; write 8 x 80 or 3/8 x 3."
        raise InputError.of(says, field=field)
    wood, threads = f"No. {number}", threads_of_number(number)
    machine_only = meaning.item in ("nut", "insert") or (meaning.is_machine and meaning.item != "washer")
    if machine_only and not threads:
        says = f"There is no machine thread {wood}; they run from No. 0 to No. 12"
        raise _choose(says, line, token, threads_of_number(12))
    if number > LARGEST_NUMBER:
        raise _choose(
            f"There is no {wood}; the largest is No. {LARGEST_NUMBER}", line, token, [f"no {LARGEST_NUMBER}"]
        )
    if machine_only:
        raise _choose(f"{wood} can be several threads", line, token, threads)
    decided = meaning.is_wood or meaning.head in ("csk", "raised csk", "round") or not threads
    if meaning.item == "washer" or decided:
        return FoundSize(wood, token)
    says = f"{wood} can be a wood screw or a machine screw"
    raise _choose(says, line, token, [f"wood screw no {number}", *threads])


def _marked(token: Token, unit: Unit) -> str:
    """The unit of a bare diameter: its own, else the build's."""
    marks = {"mm": "mm", "millimetre": "mm", "millimetres": "mm", "cm": "mm", "": unit}
    return marks.get(token.unit, "in")


def _size_among(numbers: list[Token], meaning: Meaning, unit: Unit, field: str) -> Token:
    """Choose which bare number is the size: of a washer the second largest, else the first."""
    free = [token for token in numbers if not token.label] or numbers
    if meaning.item != "washer" or len(free) == 1:
        return free[0]

    def millimetres(token: Token) -> Fraction:
        kind, _, value = plain_size(token.text, _marked(token, unit), field)
        return value * Fraction(254, 10) if kind == "in" or _marked(token, unit) == "in" else value

    if any(token.label == "outside" for token in numbers):
        return free[0]
    return sorted(free, key=millimetres, reverse=True)[1]


def _number_behind_length(numbers: list[Token], token: Token, meaning: Meaning) -> Token | None:
    """Find the number in `1 1/2 x 8`: the ironmonger's way, length first."""
    others = [other for other in numbers if other is not token and not other.label]
    if len(others) != 1 or meaning.is_machine or meaning.kind or meaning.item not in ("", "screw"):
        return None
    other = others[0]
    behind = other.start > token.start and not other.unit and other.text.isdigit()
    return other if behind and int(other.text) <= LARGEST_NUMBER else None


def _bare_inch(line: str, token: Token, name: str, meaning: Meaning, by_length: Token | None) -> FoundSize:
    """A bare diameter in inches, or a length first: rule 4 of the module."""
    shown = name if "in" in name else f"{name} in"
    if meaning.item == "washer":
        return FoundSize(name, token)
    if meaning.kind == "coach screw":
        if name in coach_screw_sizes():
            return FoundSize(name, token)
        listed = [size for size in coach_screw_sizes() if "/" in size]
        raise _choose(f"There is no coach screw of {shown}", line, token, listed)
    if meaning.is_wood:
        numbered = [f"no {number}" for number in (4, 6, 8, 10, 12)]
        raise _choose(f"Wood screws are named by number, not by {shown}", line, token, numbered)
    threads = list(threads_of_inches(name))
    if not threads:
        near = sorted(all_inch_sizes(), key=lambda pair: abs(pair[1] - float(_inches(name))))[:2]
        threads = [thread for size, _ in near for thread in threads_of_inches(size)]
        raise _choose(f"There is no thread of {shown}", line, token, threads)
    if meaning.item in ("", "screw") and not meaning.is_machine and not meaning.head:
        threads.append(f"coach screw {name.removesuffix(' in')}")
    asked = _choose(f"{shown} can be of several threads", line, token, threads)
    if by_length is None:
        raise asked
    as_wood = replaced(line, by_length.start, by_length.end, f"wood screw no {by_length.text}")
    ways = (
        [as_wood, *asked.lines] if meaning.head in ("csk", "raised csk", "round") else [*asked.lines, as_wood]
    )
    raise AskBack(f"{shown} can be a wood screw's length or a thread", ways)


def _inches(name: str) -> Fraction:
    return plain_size(name.removesuffix(" in"), "in", "")[2]


def _bare_mm(
    line: str, token: Token, name: str, numbers: list[Token], meaning: Meaning, unit: Unit
) -> FoundSize:
    """A bare whole number or decimal: rule 3 of the module; a number where the lengths are inches."""
    lengths = [other for other in numbers if other is not token]
    inches = any("/" in other.text or other.unit not in ("", "mm", "cm") for other in lengths)
    bare = bool(lengths) and all(not other.unit and "/" not in other.text for other in lengths)
    countable = name.isdigit() and not token.unit and int(name) <= LARGEST_NUMBER
    if meaning.kind == "coach screw":
        return _metric_wood(line, token, name, meaning)
    if meaning.is_wood:
        short = bare and float(lengths[0].text.replace(",", ".")) < SHORTEST_WOOD_DIAMETERS_MM * float(name)
        if countable and (inches or (short and unit == "in")):
            return FoundSize(f"No. {name}", token)
        if short and countable:
            raise _of_any_system(line, token, name, meaning, metric=True, number=True)
        return _metric_wood(line, token, name, meaning)
    if inches or (countable and unit == "in" and bare and meaning.item != "washer"):
        raise _of_any_system(line, token, name, meaning, metric=not inches, number=countable)
    wood_drive = meaning.head in ("csk", "raised csk") and meaning.drive in ("cross", "hexalobular", "square")
    machine_only = meaning.is_machine or meaning.item in ("nut", "insert", "washer")
    if machine_only:
        thread = known_thread(f"M{name}")
        if thread is None:
            near = sorted(coarse_sizes(), key=lambda size: abs(float(size[1:]) - float(name)))[:3]
            raise _choose(f"There is no thread M{name}", line, token, near)
        return FoundSize(thread, token)
    if wood_drive and name in metric_wood_sizes():
        return FoundSize(name, token)
    raise _of_any_system(line, token, name, meaning, metric=True, number=False)


def _metric_wood(line: str, token: Token, name: str, meaning: Meaning) -> FoundSize:
    coach = meaning.kind == "coach screw"
    listed = [size for size in (coach_screw_sizes() if coach else metric_wood_sizes()) if "/" not in size]
    if name in listed:
        return FoundSize(name, token)
    near = sorted(listed, key=lambda size: abs(float(size) - float(name)))[:3]
    raise _choose(f"There is no {meaning.kind or 'wood screw'} of {name} mm", line, token, near)


def _of_any_system(
    line: str, token: Token, name: str, meaning: Meaning, *, metric: bool, number: bool
) -> AskBack:
    """Ask of which system a bare number is."""
    machine_only = meaning.is_machine or meaning.item in ("nut", "insert")
    names: list[str] = []
    if metric and not meaning.is_wood:
        names.append(f"m{name}")
    if metric and not machine_only and name in metric_wood_sizes():
        names.append(f"wood screw {name} mm")
    if number and not machine_only:
        names.append(f"wood screw no {name}")
    if number and not meaning.is_wood:
        names += [*threads_of_number(int(name)), f"{name} ba"]
    return _choose(f"{quoted(token.text)} does not say of which system it is", line, token, names)


def insist_on_thing(line: str, tokens: list[Token], meaning: Meaning, found: FoundSize) -> None:
    """Ask what is meant where a line names a size and nothing that tells a screw from a nut.

    Args:
        line: the plain line.
        tokens: its pieces.
        meaning: what its words say.
        found: its size.

    Raises:
        AskBack: when it could be a screw, a nut or a washer.

    Source: this project.
    """
    tells = meaning.item or meaning.kind or meaning.head or meaning.drive or meaning.point or meaning.family
    if tells or any(token.kind == "number" and token is not found.token for token in tokens):
        return
    things = ("wood screw", "washer") if found.size.startswith("No.") else ("nut", "washer", "screw")
    raise AskBack(f"{found.size} does not say what it is", [f"{line} {thing}" for thing in things])
