"""Reading a thread's name as people write it: `M5`, `1/4-28`, `No. 10-32`, `2BA`, `3/16 Whit`."""

from __future__ import annotations

import re
import unicodedata
from dataclasses import dataclass
from difflib import get_close_matches
from fractions import Fraction
from functools import cache

from calculators.hardware.thread_sizes import Thread, all_threads
from calculators.quantities.errors import InputError

_LONGEST = 60
_SYSTEM_WORDS: tuple[tuple[str, tuple[str, ...]], ...] = (
    (r"UNEF|NEF", ("UNEF",)),
    (r"UNC|NC", ("UNC",)),
    (r"UNF|NF", ("UNF",)),
    (r"UN", ("UNC", "UNF", "UNEF")),
    (r"BSW|WHITWORTH|WHITW?|WW?", ("BSW",)),
    (r"BSF", ("BSF",)),
    (r"BSB|BRASS", ("BSB",)),
    (r"BA", ("BA",)),
    (r"ME|MODEL ENGINEER", ("ME",)),
    (r"METRIC COARSE|M COARSE", ("ISO metric coarse",)),
    (r"METRIC FINE|M FINE|MF", ("ISO metric fine",)),
    (r"METRIC|MM|M", ("ISO metric coarse", "ISO metric fine")),
)
_DASHES = dict.fromkeys(map(ord, "‐‑‒–—−"), "-")
_NUMBER = r"(?:\d+[ -]+\d+/\d+|\d+/\d+|\d*\.\d+|\d+)"
_SIZE_FIRST = re.compile(rf"(#?) ?({_NUMBER})(?: ?([-X/]?) ?(\d*\.\d+|\d+))?", re.ASCII)
_SIZE_LAST = re.compile(rf"(\d+) ?X ?(#?)({_NUMBER})", re.ASCII)
_ACCEPTED = "Write a thread as M5, M6 x 0.75, 1/4-28 UNF, 10-32, 5/16 BSF, 1/4 BSW, 2 BA or 1/4 x 40 ME."


@dataclass(frozen=True, slots=True)
class _Wanted:
    """What a person's text says about a thread; None or empty where it says nothing."""

    systems: tuple[str, ...] = ()
    size: Fraction | None = None
    numbered: bool = False
    fraction: bool = False
    pitch: Fraction | None = None
    unified: bool = False
    coarse: bool | None = None


def find_thread(text: str, *, field: str = "thread") -> Thread:
    """Find the thread that a person means, whatever order, case, spaces and signs they use.

    Args:
        text: the thread as written, at most 60 characters.
        field: the name of the input, for the error.

    Returns:
        The thread.

    Raises:
        InputError: where nothing or too much is written, where several threads are meant (`choices`
            then holds their canonical names), or where none is known (`choices` holds the nearest).

    Source: this project.

    Example:
        >>> find_thread("1/4-28").designation, find_thread("no.10 x 32").designation
        ('1/4-28 UNF', '10-32 UNF')
        >>> find_thread("m6×0,75").designation, find_thread("BA 2").designation
        ('M6 x 0.75', '2 BA')
    """
    if not text.strip():
        raise InputError.of(f"No thread is given. {_ACCEPTED}", field=field)
    shown = " ".join(text.split())
    if len(shown) > _LONGEST:
        raise InputError.of(
            f"A thread's name is at most {_LONGEST} characters long. {_ACCEPTED}", field=field
        )
    exact = _by_canonical_name().get(shown.upper())
    if exact is not None:
        return exact
    wanted = _understand(_tidy(shown))
    found = [thread for thread in all_threads() if wanted and _matches(thread, wanted)]
    found = _prefer(found, wanted) if wanted else found
    if len(found) == 1:
        return found[0]
    if found:
        names = tuple(thread.designation for thread in found)
        says = f"The thread {shown!r} can be {_listed(names, 'or')}. Write which."
        raise InputError.of(says, field=field, choices=names)
    near = _nearest(shown, wanted)
    says = f"The thread {shown!r} is not known. The nearest are {_listed(near, 'and')}. {_ACCEPTED}"
    raise InputError.of(says, field=field, choices=near)


@cache
def _by_canonical_name() -> dict[str, Thread]:
    return {thread.designation.upper(): thread for thread in all_threads()}


def _listed(names: tuple[str, ...], last: str) -> str:
    """Names as a sentence's list; at most eight are written out."""
    if len(names) > 8:
        return f"{', '.join(names[:8])} {last} {len(names) - 8} more"
    return names[0] if len(names) == 1 else f"{', '.join(names[:-1])} {last} {names[-1]}"


def _tidy(text: str) -> str:
    """Bring signs to one writing: capitals, `X` for times, `#` for number, no quotes, no tolerance class."""
    # A vulgar fraction after a digit is a mixed number, which plain normalisation would run together.
    spaced = re.sub(r"(?<=\d)(?=[¼½¾⅐-⅞])", " ", text)
    tidy = unicodedata.normalize("NFKC", spaced).translate(_DASHES).replace("⁄", "/").upper()
    tidy = re.sub(r"(?<=\d),(?=\d)", ".", tidy)
    tidy = re.sub(r"[×*]", "X", tidy)
    tidy = re.sub(r"(?<=[A-Z])\.(?=[A-Z])", "", tidy)  # B.S.F.
    tidy = re.sub(r"\b(?:NUMBER|NO|NR)\b\.?|№|\bNO(?=\d)", "#", tidy)
    tidy = re.sub(r"(?<=[\d ])(?:INCH(?:ES)?|IN)\b\.?", " ", tidy)
    tidy = re.sub(r"[-\s]+(?:[123][AB]|[4-8][GHEF]|[4-8][GHEF][4-8][GHEF])\s*$", "", tidy)
    tidy = re.sub(r"[\"'“”‘’″′_]|(?<=[A-Z])\.", " ", tidy)
    tidy = re.sub(r"\b(?:THREADS?|THD|SERIES|ISO)\b", " ", tidy)
    return " ".join(re.sub(r"# +", "#", tidy).split())


def _understand(text: str) -> _Wanted | None:
    """Take the words out of a tidied text and read what is left as a size and a pitch."""
    coarse = None
    for word, value in (("COARSE", True), ("FINE", False)):
        if re.search(rf"(?<![A-Z]){word}\b", text):
            coarse = value
            text = re.sub(rf"(?<![A-Z]){word}\b", " ", text)
    per_inch = re.search(r"(\d+(?:\.\d+)?) ?(?:TPI|T P I|PER)\b", text, re.ASCII)
    tpi = Fraction(per_inch[1]) if per_inch else None
    if per_inch:
        text = text[: per_inch.start()] + " " + text[per_inch.end() :]
    systems: tuple[str, ...] = ()
    for words, names in _SYSTEM_WORDS:
        taken = re.sub(rf"(?<![A-Z])(?:{words})(?![A-WYZ])", " ", " ".join(text.split()), count=1)
        if taken != " ".join(text.split()):
            # A metric size may name its unit as well: M5 x 0.8 mm.
            systems, text = names, re.sub(r"(?<![A-Z])MM\b", " ", taken)
            break
    return _read_sizes(text.strip(" -X,@"), systems, tpi, coarse)


def _read_sizes(
    text: str, systems: tuple[str, ...], tpi: Fraction | None, coarse: bool | None
) -> _Wanted | None:
    text = " ".join(text.split())
    swapped = _SIZE_LAST.fullmatch(text)
    if swapped and "/" in swapped[3]:
        hash_sign, size_text, mark, pitch_text = swapped[2], swapped[3], "X", swapped[1]
    else:
        found = _SIZE_FIRST.fullmatch(text)
        if found is None:
            return None
        hash_sign, size_text, mark, pitch_text = found[1], found[2], found[3], found[4]
    size = _fraction(size_text)
    pitch = _fraction(pitch_text) if pitch_text else tpi
    if size is None or (pitch_text and (pitch is None or tpi not in (None, pitch))):
        return None
    # A hyphen between size and threads per inch is the Unified way of writing (ASME B1.1).
    unified = mark == "-" and pitch_text is not None and not systems
    numbered = bool(hash_sign)
    return _Wanted(systems, size, numbered, "/" in size_text or "." in size_text, pitch, unified, coarse)


def _fraction(text: str) -> Fraction | None:
    """A whole, decimal, broken or mixed number; None where the lower figure is nought."""
    total = Fraction(0)
    for part in re.split(r"[ -]+", text):
        top, _, bottom = part.partition("/")
        if bottom and not int(bottom):
            return None
        total += Fraction(int(top), int(bottom)) if bottom else Fraction(top)
    return total


def _matches(thread: Thread, wanted: _Wanted) -> bool:
    if wanted.systems and thread.system not in wanted.systems:
        return False
    if not wanted.systems and thread.is_metric:
        return False  # a metric thread is written with its M
    if wanted.coarse is not None and wanted.coarse != (thread.system in {"ISO metric coarse", "UNC", "BSW"}):
        return False
    return _size_matches(thread, wanted) and _pitch_matches(thread, wanted)


def _size_matches(thread: Thread, wanted: _Wanted) -> bool:
    assert wanted.size is not None
    if thread.is_metric:
        return not wanted.numbered and abs(float(wanted.size) - thread.major_mm) < 1e-9
    if thread.system == "BA" or thread.size.startswith("#"):
        named = wanted.size == int(thread.size.lstrip("#")) and not wanted.fraction
        if named or thread.system == "BA":
            return named
    elif wanted.numbered:
        return False
    # In inches, as a fraction or a decimal of three places (0.190-32).
    return not wanted.numbered and abs(float(wanted.size) * 25.4 - thread.major_mm) < 0.0006 * 25.4


def _pitch_matches(thread: Thread, wanted: _Wanted) -> bool:
    if wanted.pitch is None:
        return True
    if thread.tpi is None:
        return abs(float(wanted.pitch) - thread.pitch_mm) < 1e-9
    return wanted.pitch == thread.tpi


def _prefer(found: list[Thread], wanted: _Wanted) -> list[Thread]:
    """Narrow several threads by the trade's own defaults: bare M is coarse, a hyphen is Unified."""
    if wanted.unified and any(thread.is_unified for thread in found):
        return [thread for thread in found if thread.is_unified]
    if wanted.pitch is None and wanted.coarse is None:
        coarse = [thread for thread in found if thread.system == "ISO metric coarse"]
        return coarse or found
    return found


def _nearest(text: str, wanted: _Wanted | None) -> tuple[str, ...]:
    """The names that a person most likely meant: nearest in size and pitch, else in spelling."""
    if wanted is None or wanted.size is None:
        names = [thread.designation for thread in all_threads()]
        close = get_close_matches(text, names, n=4, cutoff=0.4)
        return tuple(close) or ("M5", "1/4-20 UNC", "2 BA")
    pool = [t for t in all_threads() if not wanted.systems or t.system in wanted.systems]
    pitch = float(wanted.pitch) if wanted.pitch is not None else None

    def distance(thread: Thread) -> tuple[float, float]:
        own = float(thread.tpi) if thread.tpi is not None else thread.pitch_mm
        return _size_distance(thread, wanted), abs(own - pitch) if pitch is not None else 0.0

    return tuple(thread.designation for thread in sorted(pool, key=distance)[:4])


def _size_distance(thread: Thread, wanted: _Wanted) -> float:
    """How far a thread's size is from the one written, in the measure of its own system."""
    size = float(wanted.size or 0)
    if thread.is_metric:
        return abs(size - thread.major_mm)
    if thread.system == "BA" or (thread.size.startswith("#") and not wanted.fraction):
        return abs(size - int(thread.size.lstrip("#")))
    return abs(size * 25.4 - thread.major_mm)
