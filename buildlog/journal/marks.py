"""The marks that an entry speaks of, as they are typed, and where each leads."""

from __future__ import annotations

import re
from difflib import get_close_matches

from calculators.planning.marks import marks_of
from calculators.planning.model import Build
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

_BETWEEN = re.compile(r"[\s,;]+")


def read_marks(text: str, build: Build) -> tuple[str, ...]:
    """Read marks (`P11, F03`) and names of copies (`P02.1`), each once, in either case of letters.

    Raises InputError with a sentence for each that is not in the build, with those that are near.
    """
    known = {mark.casefold(): mark for mark in marks_of(build)}
    found: dict[str, None] = {}
    faults: list[Fault] = []
    for word in filter(None, _BETWEEN.split(text)):
        base, point, copy = word.partition(".")
        mark = known.get(word.casefold())
        if mark is None and point and base.casefold() in known:
            mark = f"{known[base.casefold()]}.{copy}"
        if mark is not None:
            found[mark] = None
        elif len(faults) < 10:
            faults.append(_unknown(word, known))
    if faults:
        raise InputError(*faults)
    return tuple(found)


def _unknown(word: str, known: dict[str, str]) -> Fault:
    near = tuple(known[each] for each in get_close_matches(word[:40].casefold(), known, n=3, cutoff=0.5))
    if near:
        meant = f"did you mean {', '.join(near[:-1]) + ' or ' * (len(near) > 1) + near[-1]}?"
    else:
        meant = "write marks of parts, joints and calculations that are in it, such as P11, F03."
    return Fault(f"The build has no {quoted(word)}; {meant}", field="marks", choices=near)
