"""Finding a thread inside a line of hardware: which letters and figures belong to it."""

from __future__ import annotations

import re
from dataclasses import dataclass
from fractions import Fraction
from functools import lru_cache

from calculators.hardware.thread_names import find_thread
from calculators.quantities.errors import InputError

FRACTION = r"(?:[0-9]{1,3}(?: |-))?[0-9]{1,3}/[0-9]{1,3}(?![0-9])"
DECIMAL = r"(?:[0-9]{1,6}[.,][0-9]{1,7}|[.,][0-9]{1,7}|[0-9]{1,6})(?![0-9])"
_INCH_MARK = r"(?: ?(?:\"|inch(?:es)?(?![a-z])|in(?![a-z])))?"
_SYSTEM = (
    r"(?P<system>unc|unf|unef|uns|un|bsw|bsf|whitworth|whit|bsb|bspp|bspt|bsp|bsc|cei|npt|me)(?![a-z0-9])"
)
_SIZE = rf"(?P<size>{FRACTION}|(?:no ?|# ?)?[0-9]{{1,2}}(?![0-9./,])|0?\.[0-9]{{2,4}})"

_METRIC = re.compile(
    rf"m ?(?P<size>{DECIMAL})(?!/)"
    rf"(?: ?(?:x|-|/) ?(?P<pitch>{DECIMAL})"
    rf"(?![/.]| ?(?:(?:mm|inch|in)(?![a-z])|\"|[0-9]+/))(?: ?(?:pitch|p)(?![a-z]))?)?"
)
_BA = re.compile(
    r"(?:no ?|# ?)?(?P<size>[0-9]{1,3}) ?-?ba(?![a-z0-9])"
    r"|ba ?-? ?(?:no ?|# ?)?(?P<after>[0-9]{1,2})(?![0-9/.])"
)
_INCH = re.compile(
    rf"{_SIZE}{_INCH_MARK}(?: ?(?:-|x|/| ) ?(?P<tpi>[0-9]{{1,2}}(?:\.5)?)(?![0-9/.]) ?(?:tpi)?)?"
    rf" ?-? ?{_SYSTEM}(?: ?x? ?(?P<late>[0-9]{{1,2}}) ?tpi(?![a-z]))?"
)
_SYSTEM_FIRST = re.compile(
    rf"{_SYSTEM} ?-? ?{_SIZE}{_INCH_MARK}"
    rf"(?: ?- ?(?P<tpi>[0-9]{{2}})(?![0-9/.])|(?: |-|x)*(?P<late>[0-9]{{2}}) ?tpi)?"
)
_PITCHED = re.compile(
    rf"{_SIZE}{_INCH_MARK} ?"
    rf"(?:- ?(?P<tpi>[0-9]{{2}})(?![0-9/.]| [0-9]+/)|(?:-|x|/|) ?(?P<late>[0-9]{{1,2}}) ?tpi(?![a-z]))"
)


_SYSTEM_WORD = re.compile(rf"(?<![a-z]){_SYSTEM}")
_SIZE_BY = re.compile(rf"(?<![0-9./])(?P<size>{FRACTION}){_INCH_MARK}(?= ?x ?[0-9.])")
_NUMBER_BEFORE = re.compile(rf"(?<![0-9./-])(?P<number>{FRACTION}|[0-9]+(?:\.[0-9]+)?){_INCH_MARK} ?-? ?$")
_WHOLE_BEFORE = re.compile(r"(?<![0-9./-])([0-9]{1,2}) ([0-9]+/[0-9]+) ?$")


def untangled(line: str) -> list[str]:
    """Bring a thread's system beside its size where the length stands between (`5/16 x 2 BSF`).

    Args:
        line: the plain line.

    Returns:
        The lines that it can stand for: itself where nothing stands between, two where either number
        could be the size (`1/4 x 1/2 UNF`).

    Source: common practice.

    Example:
        >>> untangled("5/16 x 2 hex bsf")
        ['5/16 bsf x 2 hex']
        >>> untangled("1/4 x 1/2 unf hex")
        ['1/4 unf x 1/2 hex', '1/2 unf x 1/4 hex']
    """
    systems = list(_SYSTEM_WORD.finditer(line))
    if len(systems) != 1 or re.search(r"[0-9]-[0-9.]+ ?$", line[: systems[0].start()]):
        return [line]
    system, before = systems[0], line[: systems[0].start()]
    name = _system(system)
    behind = line[system.end() :]
    mixed = _WHOLE_BEFORE.search(before)
    # '2 5/16 BSF': two inches of 5/16
    if mixed and not known_thread(f"{mixed[0]} {name}") and known_thread(f"{mixed[2]} {name}"):
        return [_tidied(f"{line[: mixed.start()]} {mixed[2]} {system[0]} x {mixed[1]} {behind}")]
    size = _SIZE_BY.search(before)
    if size is None or not known_thread(f"{size['size']} {name}"):
        return [line]
    whole = _INCH.match(line, size.start())
    if whole and whole.end() >= system.end() and known_thread(_inch_text(whole, whole["tpi"])):
        return [line]
    front, between = line[: size.start()], line[size.end() : system.start()]
    ways = [_tidied(f"{front} {size['size']} {system[0]} {between} {behind}")]
    number = _NUMBER_BEFORE.search(before)
    if number and number.start() > size.start() and known_thread(f"{number['number']} {name}"):
        between = line[size.end() : number.start()]
        ways.append(_tidied(f"{front} {number['number']} {system[0]} {between} {size['size']} {behind}"))
    return ways


def _tidied(line: str) -> str:
    return " ".join(line.split())


@dataclass(frozen=True, slots=True)
class WrittenThread:
    """A thread found in a line: its canonical designation, and where its writing ends."""

    designation: str
    end: int


class ThreadFault(Exception):
    """A thread that does not exist or could be several, with the place in the line where it stands."""

    def __init__(self, error: InputError, start: int, end: int) -> None:
        super().__init__(str(error))
        self.error, self.start, self.end = error, start, end


@lru_cache(maxsize=2048)
def known_thread(text: str) -> str | None:
    """Give the canonical designation of a thread, or None when there is no such single thread.

    Args:
        text: the thread as written.

    Returns:
        The designation.

    Source: this project.

    Example:
        >>> known_thread("m6 x 0.75"), known_thread("M5.7")
        ('M6 x 0.75', None)
    """
    try:
        return find_thread(text, field="hardware").designation
    except InputError:
        return None


def find_written_thread(line: str, at: int) -> WrittenThread | None:
    """Find the thread that begins at one place of a plain line.

    A number behind a metric size is its pitch when such a thread exists (`m6 x 1 x 20`), and otherwise
    the length (`m6 x 20`): no standard pitch is as long as a screw of its size.

    Args:
        line: the plain line.
        at: where to look, 0 or more.

    Returns:
        The thread, or None when none begins there.

    Raises:
        ThreadFault: when something is written as a thread that does not exist or could be several.

    Source: common practice.

    Example:
        >>> find_written_thread("m6 x 1 x 20", 0)
        WrittenThread(designation='M6', end=6)
        >>> find_written_thread("m6 x 20", 0)
        WrittenThread(designation='M6', end=2)
    """
    if at and line[at - 1].isalpha() and line[at - 1] != "x":
        return None
    if found := _METRIC.match(line, at):
        return _metric(line, found)
    if found := _BA.match(line, at):
        return _settled(f"{int(found['size'] or found['after'])} BA", found.start(), found.end())
    if found := _INCH.match(line, at):
        return _inch(found)
    if found := _SYSTEM_FIRST.match(line, at):
        return _settled(_inch_text(found, found["tpi"] or found["late"]), found.start(), found.end())
    if found := _PITCHED.match(line, at):
        return _pitched(found)
    return None


def _settled(text: str, start: int, end: int) -> WrittenThread:
    """Ask the table of threads, remembering the place for its refusal."""
    try:
        return WrittenThread(find_thread(text, field="hardware").designation, end)
    except InputError as error:
        raise ThreadFault(error, start, end) from None


def _metric(line: str, found: re.Match[str]) -> WrittenThread:
    size, pitch = found["size"].replace(",", "."), (found["pitch"] or "").replace(",", ".")
    end = found.end("size")
    if pitch:
        with_pitch = known_thread(f"M{size} x {pitch}")
        if with_pitch is not None:
            return WrittenThread(with_pitch, found.end())
        if re.match(r" ?(?:x|-) ?[0-9.]", line[found.end() :]) and float(pitch) < float(size) / 2:
            return _settled(f"M{size} x {pitch}", found.start(), found.end())
    return _settled(f"M{size}", found.start(), end)


def _inch_text(found: re.Match[str], threads_per_inch: str | None) -> str:
    size = re.sub(r"(?:no|#) ?", "#", found["size"]).replace("-", " ")
    return f"{size}{f'-{threads_per_inch}' if threads_per_inch else ''} {_system(found)}".strip()


def _inch(found: re.Match[str]) -> WrittenThread | None:
    """Settle `1/4-28 unf` and `5/16 bsf`."""
    threads_per_inch = found["tpi"] or found["late"]
    whole = known_thread(_inch_text(found, threads_per_inch))
    if whole is not None:
        return WrittenThread(whole, found.end())
    # '3/4 x 10 unf': the first number is a length, and the thread begins behind it
    if found["tpi"] and known_thread(f"{found['tpi']} {_system(found)}"):
        return None
    return _settled(_inch_text(found, threads_per_inch), found.start(), found.end())


def _system(found: re.Match[str]) -> str:
    system = found.groupdict().get("system") or ""
    return "BSW" if system.startswith("whit") else system.upper()


def _pitched(found: re.Match[str]) -> WrittenThread | None:
    """Settle `10-32` and `1/4 x 40 tpi`; without a thread of that pitch the numbers are size and length."""
    text = _inch_text(found, found["tpi"] or found["late"])
    try:
        return WrittenThread(find_thread(text, field="hardware").designation, found.end())
    except InputError as error:
        several = all(
            find_thread(name).tpi == Fraction(found["tpi"] or 0) for name in error.faults[0].choices
        )
        if found["late"] or several:
            raise ThreadFault(error, found.start(), found.end()) from None
        return None
