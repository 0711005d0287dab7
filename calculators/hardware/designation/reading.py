"""Reading a line of hardware as the trade writes it.

How what is not said is decided (common practice):

1. An explicit thread (`M5`, `10-32`, `2 BA`, `1/4 BSF`) makes a machine screw, a nut, a washer or an insert.
2. A number without threads per inch (`No. 8`, `#8`, `8 gauge`) with a countersunk, raised or round head is
   a wood screw: machine screws of numbered sizes are written with their threads per inch. With another
   head, or none, it is asked back, unless only one thing of that number exists (`No. 14`).
3. Two bare millimetre numbers with a countersunk or raised head and a cross, hexalobular or square drive,
   or with the word wood, are a metric wood screw (`5 x 50 csk cross`); with a word that only machine
   screws have (hex, bolt, socket cap, a grade) they are the coarse metric thread; else it is asked back.
4. A bare fraction (`1/4 x 1`) is asked back among the threads of that diameter.
5. `set screw` with a headed word is threaded to its head; without one it is asked back.
6. A bare fraction of length is inches. A bare number of length is in the unit of the thread's system, and
   asked back where that would be absurd (`5/16 BSF x 50`).
7. `x OD x thickness` of a washer may come in any order: the outside is the largest, the thickness the least.
"""

from __future__ import annotations

from dataclasses import dataclass
from fractions import Fraction
from typing import Literal, TypeVar

from calculators.hardware.designation import sizes
from calculators.hardware.designation.asking import AskBack, question, replaced
from calculators.hardware.designation.building import build
from calculators.hardware.designation.meaning import Meaning, understand
from calculators.hardware.designation.threads_written import ThreadFault
from calculators.hardware.designation.tokens import LONGEST, Token, plain_line, split_line
from calculators.hardware.designation.writing import write_hardware
from calculators.hardware.fastener import Fastener, Hardware, Insert, Nut, Washer
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

Unit = Literal["mm", "in"]
ACCEPTED = (
    "write it as M5 x 20 csk slotted brass, No. 8 x 1 3/4 csk brass, 5/16 BSF x 2 hex set screw, M6 half nut, "
    "M5 repair washer 25 x 1.5 or M4 insert OD 8 x 10"
)


def read_hardware(text: str, *, unit: Unit = "mm", field: str = "hardware") -> Hardware:
    """Read one line of hardware as the trade writes it, in any order of words.

    The lengths come back in their canonical writing (`Length.written` is `1 3/4` or `20`, with the unit
    only where it is not that of the thread's system), not as typed: so that
    `read_hardware(write_hardware(item)) == item` for everything that this function returns, and two people
    who write the same screw differently have the same line in their schedule. The value stays exact.

    Args:
        text: the line, at most 200 characters.
        unit: [mm or in] what a bare size means where no thread system says it.
        field: the name of the input, for the faults.

    Returns:
        The screw, nut, washer or insert.

    Raises:
        InputError: when it is not understood, contradicts itself, does not exist, or could be several
            things (then `choices` holds whole lines to choose from).

    Source: common practice.

    Example:
        >>> screw = read_hardware("6BA × 3/16\\" slotted grub screw brass")
        >>> write_hardware(screw)
        '6 BA x 3/16 slotted grub screw brass'
        >>> write_hardware(read_hardware("#8 x 1-3/4 flat head brass"))
        'No. 8 x 1 3/4 csk brass'
    """
    if unit not in ("mm", "in"):
        raise ValueError(f"a bare size is in mm or in, not {unit!r}")
    if not isinstance(text, str) or not text.strip():
        raise InputError.of(f"No hardware is given; {ACCEPTED}.", field=field)
    if len(text) > LONGEST:
        says = f"A line of hardware has at most {LONGEST} characters, not {len(text)}; {ACCEPTED}."
        raise InputError.of(says, field=field, value=float(len(text)), limit=float(LONGEST))
    line = plain_line(text)
    if not line:
        raise InputError.of(f"{quoted(text)} says nothing that is understood; {ACCEPTED}.", field=field)

    def read(again: str) -> Hardware:
        return _read_line(again, unit, field)

    try:
        return read(line)
    except AskBack as asked:
        raise question(asked, read, write_hardware, field) from None


def _read_line(line: str, unit: Unit, field: str) -> Hardware:
    """Read a plain line; raises `AskBack` where it could mean several things."""
    try:
        tokens = split_line(line)
    except ThreadFault as fault:
        said = fault.error.faults[0]
        lines = [replaced(line, fault.start, fault.end, name.lower()) for name in said.choices]
        raise AskBack(said.says.split(". Write")[0].rstrip("."), lines, said.choices) from None
    meaning = understand(line, tokens, field)
    found = _find_size(line, tokens, meaning, unit, field)
    _insist_on_thing(line, tokens, meaning, found)
    return build(line, tokens, meaning, found.size, found.token, field)


@dataclass(frozen=True, slots=True)
class FoundSize:
    """The size that a line names, and the piece of the line that names it."""

    size: str
    token: Token


def _find_size(line: str, tokens: list[Token], meaning: Meaning, unit: Unit, field: str) -> FoundSize:
    """Find the size: an explicit thread, a number, or a bare diameter."""
    named = [token for token in tokens if token.kind in ("thread", "gauge")]
    if len({token.value for token in named}) > 1:
        both = " and ".join(quoted(token.text) for token in named[:2])
        raise InputError.of(f"{both} are two sizes; write one line for each thing.", field=field)
    if named and named[0].kind == "thread":
        return _threaded(line, named[0], meaning, field)
    if named:
        return _numbered(line, named[0], meaning, field)
    numbers = [token for token in tokens if token.kind == "number"]
    if not numbers:
        raise InputError.of(f"The line names no size; {ACCEPTED}.", field=field)
    return _bare(line, _size_among(numbers, meaning, unit), numbers, meaning, unit)


def _threaded(line: str, token: Token, meaning: Meaning, field: str) -> FoundSize:
    """An explicit thread; a coach screw is often called by one, though it has a wood thread."""
    if not meaning.is_wood:
        return FoundSize(token.value, token)
    diameter = token.value.removeprefix("M")
    if meaning.kind == "coach screw" and diameter in sizes.coach_screw_sizes():
        return FoundSize(diameter, token)
    says = f"{quoted(token.value)} is a machine thread, which a wood screw does not have"
    lines = (
        [replaced(line, token.start, token.end, diameter)] if diameter in sizes.metric_wood_sizes() else []
    )
    if lines and meaning.kind != "coach screw":
        raise AskBack(says, lines)
    raise InputError.of(
        f"{says}; write a number or a diameter, such as No. 8 or 5 x 50 wood screw.", field=field
    )


def _numbered(line: str, token: Token, meaning: Meaning, field: str) -> FoundSize:
    """A number without threads per inch: rule 2 of the module."""
    number = int(token.value)
    wood, threads = f"No. {number}", sizes.threads_of_number(number)
    if meaning.item == "washer":
        _check_number(line, token, number, field)
        return FoundSize(wood, token)
    if meaning.item in ("nut", "insert") or meaning.is_machine:
        _one_of(
            line, token, threads, f"There is no machine thread No. {number}; numbers run from 0 to 12", field
        )
    _check_number(line, token, number, field)
    if meaning.is_wood or meaning.head in ("csk", "raised csk", "round") and meaning.family != "machine":
        return FoundSize(wood, token)
    lines = [replaced(line, token.start, token.end, f"wood screw no {number}")]
    lines += [replaced(line, token.start, token.end, thread.lower()) for thread in threads]
    raise AskBack(f"{quoted(token.text)} can be a wood screw or a machine screw", lines)


def _check_number(line: str, token: Token, number: int, field: str) -> None:
    if number > sizes.LARGEST_NUMBER:
        says = f"There is no No. {number}; numbers run from 0 to {sizes.LARGEST_NUMBER}"
        raise AskBack(says, [replaced(line, token.start, token.end, f"no {sizes.LARGEST_NUMBER}")])


def _one_of(line: str, token: Token, threads: tuple[str, ...], says: str, field: str) -> None:
    """Ask which of several threads is meant; it never returns."""
    if not threads:
        raise InputError.of(f"{says}; write the thread, such as 10-32 UNF, M5 or 2 BA.", field=field)
    lines = [replaced(line, token.start, token.end, thread.lower()) for thread in threads]
    raise AskBack(f"{quoted(token.text)} can be several threads", lines)


def _size_among(numbers: list[Token], meaning: Meaning, unit: Unit) -> Token:
    """Choose which bare number is the size: of a washer the middle one, else the first."""
    free = [token for token in numbers if not token.label] or numbers
    if meaning.item != "washer" or len(free) == 1:
        return free[0]

    def millimetres(token: Token) -> Fraction:
        kind, _, value = sizes.plain_size(token.text, token.unit if token.unit in ("mm", "in") else unit)
        return value * Fraction(254, 10) if kind == "in" or token.unit == '"' else value

    largest_first = sorted(free, key=millimetres, reverse=True)
    has_outside = any(token.label == "outside" for token in numbers)
    return largest_first[0] if has_outside else largest_first[1]


def _bare(line: str, token: Token, numbers: list[Token], meaning: Meaning, unit: Unit) -> FoundSize:
    """A diameter with nothing that says of what: rules 3 and 4 of the module."""
    marked = {"mm": "mm", "millimetre": "mm", "millimetres": "mm", "cm": "mm", "": unit}.get(token.unit, "in")
    kind, name, _ = sizes.plain_size(token.text, marked)
    if meaning.item == "washer":
        if kind == "in":
            return FoundSize(name, token)
        raise AskBack(
            f"{quoted(token.text)} is no washer's size", [replaced(line, token.start, token.end, f"m{name}")]
        )
    if kind == "in":
        return _bare_inch(line, token, name, meaning)
    return _bare_mm(line, token, name, numbers, meaning, unit)


def _bare_inch(line: str, token: Token, name: str, meaning: Meaning) -> FoundSize:
    if meaning.kind == "coach screw":
        if name in sizes.coach_screw_sizes():
            return FoundSize(name, token)
        listed = [
            replaced(line, token.start, token.end, size) for size in sizes.coach_screw_sizes() if "/" in size
        ]
        raise AskBack(f"There is no coach screw of {name.removesuffix(' in')} in", listed)
    if meaning.is_wood:
        says = f"{quoted(token.text)} is no wood screw's number"
        numbered = [replaced(line, token.start, token.end, f"no {number}") for number in (4, 6, 8, 10, 12)]
        raise AskBack(says, numbered)
    lines = [replaced(line, token.start, token.end, t.lower()) for t in sizes.threads_of_inches(name)]
    if meaning.item in ("", "screw") and not meaning.is_machine and meaning.head in ("", "hex"):
        lines.append(replaced(line, token.start, token.end, f"coach screw {name.removesuffix(' in')}"))
    raise AskBack(f"{quoted(token.text)} can be several threads", lines)


def _bare_mm(
    line: str, token: Token, name: str, numbers: list[Token], meaning: Meaning, unit: Unit
) -> FoundSize:
    """A bare whole number or decimal: metric, or one of the numbered sizes where the length is in inches."""
    lengths = [other for other in numbers if other is not token]
    inch_length = any("/" in other.text or other.unit in ("in", "inch", "inches", '"') for other in lengths)
    bare_length = all(not other.unit and "/" not in other.text for other in lengths)
    metric = not inch_length
    lines: list[str] = []
    if meaning.is_wood and metric and (unit == "mm" or token.unit or not bare_length):
        listed = sizes.coach_screw_sizes() if meaning.kind == "coach screw" else sizes.metric_wood_sizes()
        if name in listed:
            return FoundSize(name, token)
        says = f"There is no {meaning.kind or 'wood screw'} of {name} mm; there are {', '.join(listed)}"
        near = sorted((s for s in listed if "/" not in s), key=lambda s: abs(float(s) - float(name)))[:3]
        raise AskBack(says, [replaced(line, token.start, token.end, size) for size in near])
    is_number = name.isdigit() and not token.unit and (inch_length or (unit == "in" and bare_length))
    wood_drive = meaning.head in ("csk", "raised csk") and meaning.drive in ("cross", "hexalobular", "square")
    machine_only = meaning.is_machine or meaning.item in ("nut", "insert")
    if metric and not is_number and wood_drive and not machine_only and name in sizes.metric_wood_sizes():
        return FoundSize(name, token)
    if metric and not meaning.is_wood:
        lines.append(replaced(line, token.start, token.end, f"m{name}"))
    if metric and not machine_only and name in sizes.metric_wood_sizes():
        lines.append(replaced(line, token.start, token.end, f"wood screw {name} mm"))
    if is_number and not machine_only and int(name) <= sizes.LARGEST_NUMBER:
        lines.append(replaced(line, token.start, token.end, f"wood screw no {name}"))
    if is_number and not meaning.is_wood:
        threads = (*sizes.threads_of_number(int(name)), f"{name} ba")
        lines += [replaced(line, token.start, token.end, thread.lower()) for thread in threads]
    raise AskBack(f"{quoted(token.text)} does not say of which system it is", lines)


def _insist_on_thing(line: str, tokens: list[Token], meaning: Meaning, found: FoundSize) -> None:
    """Ask what is meant where a line names a size and nothing that tells a screw from a nut."""
    tells = meaning.item or meaning.kind or meaning.head or meaning.drive or meaning.point or meaning.family
    if tells or any(token.kind == "number" and token is not found.token for token in tokens):
        return
    things = ("nut", "washer", "screw")
    raise AskBack(f"{quoted(line)} does not say what it is", [f"{line} {thing}" for thing in things])


Kind = TypeVar("Kind", Fastener, Nut, Washer, Insert)
_CALLED = {Fastener: "a screw", Nut: "a nut", Washer: "a washer", Insert: "an insert"}


def _read_kind(wanted: type[Kind], text: str, unit: Unit, field: str) -> Kind:
    item = read_hardware(text, unit=unit, field=field)
    if isinstance(item, wanted):
        return item
    says = f"{quoted(text)} is {_CALLED[type(item)]}, and {_CALLED[wanted]} is wanted here; {ACCEPTED}."
    raise InputError.of(says, field=field)


def read_fastener(text: str, *, unit: Unit = "mm", field: str = "fastener") -> Fastener:
    """Read a line that must be a screw, bolt, grub screw or stud; as `read_hardware`.

    Args:
        text: the line, at most 200 characters.
        unit: [mm or in] what a bare size means where no thread system says it.
        field: the name of the input, for the faults.

    Returns:
        The fastener.

    Raises:
        InputError: as `read_hardware`, and when it is a nut, washer or insert.

    Source: this project.

    Example:
        >>> read_fastener("M5 x 20 csk slotted brass").head
        'csk'
    """
    return _read_kind(Fastener, text, unit, field)


def read_nut(text: str, *, unit: Unit = "mm", field: str = "nut") -> Nut:
    """Read a line that must be a nut; as `read_hardware`.

    Args:
        text: the line, at most 200 characters.
        unit: [mm or in] what a bare size means where no thread system says it.
        field: the name of the input, for the faults.

    Returns:
        The nut.

    Raises:
        InputError: as `read_hardware`, and when it is something else.

    Source: this project.

    Example:
        >>> read_nut("4BA half nut brass")
        Nut(size='4 BA', form='half', material='brass', finish='')
    """
    return _read_kind(Nut, text, unit, field)


def read_washer(text: str, *, unit: Unit = "mm", field: str = "washer") -> Washer:
    """Read a line that must be a washer; as `read_hardware`.

    Args:
        text: the line, at most 200 characters.
        unit: [mm or in] what a bare size means where no thread system says it.
        field: the name of the input, for the faults.

    Returns:
        The washer.

    Raises:
        InputError: as `read_hardware`, and when it is something else.

    Source: this project.

    Example:
        >>> read_washer("M5 penny washer").form
        'repair'
    """
    return _read_kind(Washer, text, unit, field)


def read_insert(text: str, *, unit: Unit = "mm", field: str = "insert") -> Insert:
    """Read a line that must be a threaded insert; as `read_hardware`.

    Args:
        text: the line, at most 200 characters.
        unit: [mm or in] what a bare size means where no thread system says it.
        field: the name of the input, for the faults.

    Returns:
        The insert.

    Raises:
        InputError: as `read_hardware`, and when it is something else.

    Source: this project.

    Example:
        >>> read_insert("M4 insert OD 8 x 10 brass").size
        'M4'
    """
    return _read_kind(Insert, text, unit, field)
