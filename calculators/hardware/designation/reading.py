"""Reading a line of hardware as the trade writes it; the rules that decide are in `finding_size.py`."""

from __future__ import annotations

from functools import lru_cache
from typing import Literal, TypeVar

from calculators.hardware.designation.asking import AskBack, question, replaced
from calculators.hardware.designation.building import build
from calculators.hardware.designation.finding_size import ACCEPTED, find_size, insist_on_thing
from calculators.hardware.designation.meaning import gather, part_meaning
from calculators.hardware.designation.screw_words import screw_meaning
from calculators.hardware.designation.threads_written import ThreadFault, untangled
from calculators.hardware.designation.tokens import LONGEST, plain_line, split_line
from calculators.hardware.designation.writing import write_hardware
from calculators.hardware.fastener import Fastener, Hardware, Insert, Nut, Washer
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

Unit = Literal["mm", "in"]


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
        >>> screw = read_hardware("6BA × 3/16 in slotted grub screw brass")
        >>> write_hardware(screw)
        '6 BA x 3/16 slotted grub screw brass'
        >>> write_hardware(read_hardware("#8 x 1-3/4 flat head brass"))
        'No. 8 x 1 3/4 csk brass'
    """
    if unit not in ("mm", "in"):
        raise ValueError(f"a bare size is in mm or in, not {unit!r}")
    if not isinstance(text, str):  # type: ignore[redundant-expr, unused-ignore]
        raise InputError.of(f"Hardware is read from text; {ACCEPTED}.", field=field)
    if not text.strip():
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


@lru_cache(maxsize=4096)  # a build says the same line many times
def _read_line(line: str, unit: Unit, field: str) -> Hardware:
    """Read a plain line; raises `AskBack` where it could mean several things."""
    ways = untangled(line)
    if len(ways) > 1:
        raise AskBack(f"{quoted(line)} can be of either size", ways)
    line = ways[0]
    try:
        tokens = split_line(line)
    except ThreadFault as fault:
        said = fault.error.faults[0]
        lines = [replaced(line, fault.start, fault.end, name.lower()) for name in said.choices]
        raise AskBack(said.says.split(". Write")[0].rstrip("."), lines) from None
    words = gather(line, tokens, field)
    meaning = part_meaning(words) if words.item in ("nut", "washer", "insert") else screw_meaning(words)
    found = find_size(line, tokens, meaning, unit, field)
    insist_on_thing(line, tokens, meaning, found)
    return build(line, tokens, meaning, found.size, found.token, field)


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
