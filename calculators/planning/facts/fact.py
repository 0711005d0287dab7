"""One thing that a sheet says, and what two printings of a sheet say otherwise."""

from __future__ import annotations

import json
from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass
from hashlib import sha256
from itertools import groupby


@dataclass(frozen=True, slots=True)
class Fact:
    """One thing that a sheet says: of a part (its mark, or a joint's), what, and its value in words.

    `of` names the thing in the part that it is about, as it stands on the paper (`hole 3 at 70 mm, 40 mm on
    top`), `key` what that thing is known by when it has moved or has another number; without one, `of`.
    `via` is the mark of the record that it follows from besides the part, such as a hole's joint.
    """

    part: str
    what: str
    value: str
    of: str = ""
    key: str = ""
    via: str = ""

    @property
    def name(self) -> tuple[str, str, str]:
        """What it is known by, from one printing to the next."""
        return self.part, self.key or self.of, self.what


@dataclass(frozen=True, slots=True)
class FactChange:
    """One thing that a sheet would say otherwise now: of which part, what, as printed and as it is.

    Nothing as `old` is what was not on the paper, nothing as `new` what is on it no longer. `via` is as in
    `Fact`.
    """

    part: str
    what: str
    old: str
    new: str
    via: str = ""


def digest_of(facts: Iterable[Fact]) -> str:
    """Give a short text that is another when one of the facts is.

    The numbers and places by which a thing is called are left out: they are facts of their own where they
    matter.

    Args:
        facts: what a sheet says.

    Returns:
        16 hexadecimal digits.

    Source: this project.

    Example:
        >>> thick = Fact("P01", "thickness", "18 mm")
        >>> digest_of([thick]) == digest_of([Fact("P01", "thickness", "17.2 mm")])
        False
    """
    said = [[*fact.name, fact.value] for fact in facts]
    return sha256(json.dumps(said, ensure_ascii=False, separators=(",", ":")).encode()).hexdigest()[:16]


def changes_between(old: Sequence[Fact], new: Sequence[Fact]) -> tuple[FactChange, ...]:
    """Say what a sheet would say otherwise now.

    A thing that is known again has a line for each value that differs; a thing that is new or gone has one
    line with all that was said of it, and so has a part that is new or gone.

    Args:
        old: what the sheet says that was printed.
        new: what it would say.

    Returns:
        The changes: in the order of the printed sheet, then what is new.

    Source: this project.

    Example:
        >>> changes_between([Fact("P01", "thickness", "18 mm")], [Fact("P01", "thickness", "17.2 mm")])
        (FactChange(part='P01', what='thickness', old='18 mm', new='17.2 mm', via=''),)
    """
    had, has = _things(old), _things(new)
    parts_had, parts_has = {part for part, _ in had}, {part for part, _ in has}
    found: list[FactChange] = []
    for gone, come, other, only in ((had, has, parts_has, False), (has, had, parts_had, True)):
        for part, things in groupby(gone.items(), key=lambda each: each[0][0]):
            each = list(things)
            if part and part not in other:
                found.append(_whole_part(part, [fact for _, facts in each for fact in facts], is_new=only))
                continue
            for name, facts in each:
                if name not in come and facts[0].of:
                    found.append(_whole_thing(facts, is_new=only))
                elif name not in come:
                    found += _values([], facts) if only else _values(facts, [])
                elif not only:
                    found += _values(facts, come[name])
    return tuple(found)


Things = dict[tuple[str, str], list[Fact]]


def _things(facts: Iterable[Fact]) -> Things:
    """The facts of each thing of each part; the parts each in one piece."""
    parts: dict[str, Things] = {}
    for fact in facts:
        part, key, _ = fact.name
        parts.setdefault(part, {}).setdefault((part, key), []).append(fact)
    return {name: facts for things in parts.values() for name, facts in things.items()}


def _values(old: list[Fact], new: list[Fact]) -> Iterator[FactChange]:
    """What is said otherwise of one thing; it is called as it is on the paper."""
    had, has = {fact.what: fact for fact in old}, {fact.what: fact for fact in new}
    for what in dict.fromkeys((*had, *has)):
        was, now = had.get(what), has.get(what)
        either = was or now
        assert either is not None
        value_was, value_now = was.value if was else "", now.value if now else ""
        if value_was != value_now:
            called = ": ".join(word for word in (old[0].of if old else "", what) if word)
            yield FactChange(either.part, called, value_was, value_now, either.via)


def _whole_thing(facts: list[Fact], *, is_new: bool) -> FactChange:
    """A thing that is new or gone, in one line."""
    first = facts[0]
    said = "; ".join(f"{fact.what} {fact.value}" for fact in facts if fact.what != "place")
    return FactChange(first.part, first.of, "" if is_new else said, said if is_new else "", first.via)


def _whole_part(part: str, facts: list[Fact], *, is_new: bool) -> FactChange:
    """A part that is new or gone: what it is, and how many things are said of it."""
    said = "; ".join(f"{fact.what} {fact.value}" for fact in facts if not fact.of)
    things = len({fact.key or fact.of for fact in facts if fact.of})
    more = f"{things} thing{'s' if things != 1 else ''} more" if things else ""
    told = "; ".join(each for each in (said, more) if each)
    return FactChange(part, "all of it", "" if is_new else told, told if is_new else "")
