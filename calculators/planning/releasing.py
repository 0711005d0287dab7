"""Parts released for making: what was released, what has changed since, which revision comes next."""

from __future__ import annotations

import re
from collections import Counter
from collections.abc import Iterator, Mapping
from dataclasses import dataclass, fields, is_dataclass, replace
from datetime import date
from typing import Any

from calculators.planning.model import Build, Component, Release
from calculators.planning.worked import WorkedBuild, WorkedHole
from calculators.quantities.length import Length

LETTERS = "ABCDEFGHJKLMNPRTUVWY"
"""Letters of revisions: without I, O, Q, S, X and Z, which are taken for figures or other letters."""

RELEASED = ("released", "made", "fitted")
"""The states of a part that somebody makes, or has made, from what is written."""

MADE_CONTENT = (
    "material", "stock", "size", "grain_cut", "corner_radius", "outline", "holes", "pockets", "bends", "legs",
)  # fmt: skip
"""The fields of a part that say what is made; its name, its notes and where it lies are not of them."""

Drilled = Mapping[str, tuple[str, ...]]
"""The holes that follow from joints, as `drilled_in` gives them, by the mark of the part."""


@dataclass(frozen=True, slots=True)
class Difference:
    """One thing that is made otherwise: its field (`size.length`, `holes[h1].u`, `drilled`), then and now."""

    field: str
    old: str
    new: str

    @property
    def words(self) -> str:
        """The field in words: `thickness`, `hole h1, u`, `the holes of joints`."""
        if self.field == "drilled":
            return "the holes of joints"
        bare = self.field.removeprefix("size.").replace("_", " ")
        named = re.sub(r"^(hole|pocket|bend)s\[([^\]]*)\]", r"\1 \2", bare)
        return named.replace(".", ", ")


def next_revision(letter: str) -> str:
    """Give the revision after one.

    Args:
        letter: the revision now; nothing: there is none yet.

    Returns:
        The next letter, after Y two letters; of a revision that is no such letter, `A` behind it.

    Source: letters that are left out by common practice; this project.

    Example:
        >>> next_revision(""), next_revision("A"), next_revision("H"), next_revision("Y"), next_revision("AY")
        ('A', 'B', 'J', 'AA', 'BA')
    """
    letter = letter.strip().upper()
    if not letter:
        return "A"
    if not all(sign in LETTERS for sign in letter):
        return f"{letter[:9]}A"
    digits = [LETTERS.index(sign) for sign in letter]
    for at in reversed(range(len(digits))):
        if digits[at] + 1 < len(LETTERS):
            digits[at] += 1
            return "".join(LETTERS[each] for each in digits)
        digits[at] = 0
    return ("A" + "A" * len(digits))[:10]


def drilled_in(worked: WorkedBuild, mark: str) -> tuple[str, ...]:
    """Say which holes of a part follow from joints, in lines that stay the same as long as the holes do.

    A line names no joint and no copy unless the copies differ, so that a new mark changes nothing.

    Args:
        worked: the build worked out.
        mark: the part's mark.

    Returns:
        A line for each hole, sorted; several alike are one line with their number before it.

    Source: this project.
    """
    return drilled_of(worked, {mark})[mark]


def drilled_of(worked: WorkedBuild, marks: set[str]) -> dict[str, tuple[str, ...]]:
    """Say which holes of several parts follow from joints.

    Args:
        worked: the build worked out.
        marks: the parts' marks.

    Returns:
        For each mark the lines, as `drilled_in`.

    Source: this project.
    """
    found: dict[str, Counter[str]] = {mark: Counter() for mark in marks}
    apart: dict[str, dict[str, Counter[str]]] = {mark: {} for mark in marks}
    for hole in worked.holes:
        if hole.part in marks and hole.hole is not None:
            line = _drilled_line(hole)
            if not hole.copies:
                found[hole.part][line] += 1
            for copy in hole.copies:
                apart[hole.part].setdefault(copy, Counter())[line] += 1
    for mark, copies in apart.items():
        sets = list(copies.values())
        if sets and all(one == sets[0] for one in sets):
            found[mark] += sets[0]
            continue
        for copy, lines in copies.items():
            number = copy.rpartition(".")[2]
            found[mark].update({f"copy {number}: {line}": count for line, count in lines.items()})
    return {
        mark: tuple(sorted(line if count == 1 else f"{count} x {line}" for line, count in lines.items()))
        for mark, lines in found.items()
    }


def _drilled_line(one: WorkedHole) -> str:
    hole = one.hole
    assert hole is not None
    words = [str(hole.kind)]
    if hole.diameter_mm is not None:
        words.append(_mm(hole.diameter_mm))
    if hole.slot_length_mm is not None:
        words.append(f"x {_mm(hole.slot_length_mm)} along {hole.slot_along}")
    if hole.thread:
        words.append(f"for {hole.thread}")
    said = [" ".join(words)]
    if hole.depth_mm is not None:
        said.append(f"{_mm(hole.depth_mm)} deep")
    if hole.thread_depth_mm is not None:
        said.append(f"thread {_mm(hole.thread_depth_mm)}")
    if one.entry == "in" and hole.countersink_diameter_mm is not None:
        said.append(f"countersunk {_mm(hole.countersink_diameter_mm)}")
    if one.entry == "in" and hole.counterbore_diameter_mm is not None:
        said.append(f"counterbored {_mm(hole.counterbore_diameter_mm)} x {_mm(hole.counterbore_depth_mm)}")
    drilled = ", ".join(said)
    if one.u_mm is None:
        return drilled
    across = f"{_mm(one.angle_deg)} deg" if one.angle_deg is not None else _mm(one.v_mm)
    hand = ", other hand" if one.mirrored else ""
    return f"{one.face} {_mm(one.u_mm)}, {across}{hand}: {drilled}"


def _mm(value: float | None) -> str:
    """To the hundredth, so that what only a computer can tell apart is no change."""
    shown = f"{value or 0.0:.2f}".rstrip("0").rstrip(".")
    return "0" if shown == "-0" else shown


def changes_since(release: Release, part: Component, drilled: tuple[str, ...]) -> tuple[Difference, ...]:
    """Say what of a part is made otherwise than it was released.

    Args:
        release: the release.
        part: the part as it is.
        drilled: its holes that follow from joints, as `drilled_in` gives them.

    Returns:
        What differs; nothing where name, note, state, place or the writing of a size is all that changed.

    Source: this project.

    Example:
        >>> lid = Component("P1", "Lid", material="oak")
        >>> changes_since(Release("P1-A", "P1", "A", lid), replace(lid, material="ash", name="Top"), ())
        (Difference(field='material', old='oak', new='ash'),)
    """
    return tuple(_made_otherwise(release.part, part, release.drilled, drilled))


def _made_otherwise(
    old: Component, new: Component, drilled_before: tuple[str, ...], drilled_after: tuple[str, ...]
) -> Iterator[Difference]:
    for name in MADE_CONTENT:
        was, now = getattr(old, name), getattr(new, name)
        if was is not now:
            yield from _differences(name, was, now)
    gone, come = Counter(drilled_before), Counter(drilled_after)
    if gone != come:
        lost, new_lines = sorted((gone - come).elements()), sorted((come - gone).elements())
        yield Difference("drilled", "; ".join(lost), "; ".join(new_lines))


def _differences(path: str, old: Any, new: Any) -> Iterator[Difference]:
    if _bare(old) == _bare(new):
        return
    if is_dataclass(old) and type(old) is type(new) and not isinstance(old, Length):
        for one in fields(old):
            yield from _differences(f"{path}.{one.name}", getattr(old, one.name), getattr(new, one.name))
    elif isinstance(old, tuple) and all(hasattr(one, "id") for one in (*old, *new)):
        had, has = {one.id: one for one in old}, {one.id: one for one in new}
        for key in dict.fromkeys((*had, *has)):
            yield from _differences(f"{path}[{key}]", had.get(key), has.get(key))
    else:
        yield Difference(path, _words(old), _words(new))


def _bare(value: Any) -> Any:
    """A value without its writing and its notes."""
    if isinstance(value, Length):
        return value.ticks
    if isinstance(value, tuple):
        return tuple(map(_bare, value))
    if is_dataclass(value):
        return tuple(_bare(getattr(value, one.name)) for one in fields(value) if one.name != "note")
    return value


def _words(value: Any) -> str:
    if value is None or value == ():
        return ""
    if isinstance(value, Length):
        if not value.written:
            return f"{value.exact_mm:f} mm"
        bare = not any(sign.isalpha() or sign in "\"'″′" for sign in value.written)
        return f"{value.written} {value.unit}" if bare else value.written
    if isinstance(value, tuple):
        return ", ".join(map(_words, value))
    if is_dataclass(value):
        said = ((one.name.replace("_", " "), getattr(value, one.name)) for one in fields(value))
        told = (f"{name} {_words(each)}" for name, each in said if name not in ("id", "note") and each)
        return ", ".join(told)
    return str(value)


def is_released(part: Component) -> bool:
    """Say whether a part is made, or was made, from what is written of it.

    Args:
        part: the part.

    Returns:
        True for one that is released, made or fitted, and is not bought in.

    Source: this project.

    Example:
        >>> is_released(Component("P1", "Lid", state="made")), is_released(Component("P2", "Hinge"))
        (True, False)
    """
    return part.state in RELEASED and part.stock != "bought"


def released_marks(build: Build) -> set[str]:
    """Give the marks of the parts that are released.

    Args:
        build: the build.

    Returns:
        The marks.

    Source: this project.
    """
    return {one.mark for one in build.components if is_released(one)}


def needs_reason(
    before: Build, after: Build, drilled_before: Drilled, drilled_after: Drilled
) -> tuple[str, ...]:
    """Name the released parts that a change makes otherwise, so that a reason must be given.

    Args:
        before: the build before the change.
        after: the build after it.
        drilled_before: the holes that follow from joints, of the parts released before.
        drilled_after: the same of the parts released after.

    Returns:
        Their marks in the order of the build.

    Source: this project: design decision that a released part is changed for one reason.
    """
    return tuple(
        new.mark
        for old, new in _pairs(before, after)
        if old is not None and _is_changed(old, new, drilled_before, drilled_after)
    )


def _is_changed(old: Component, new: Component, drilled_before: Drilled, drilled_after: Drilled) -> bool:
    if not (is_released(old) and is_released(new)):
        return False
    differ = _made_otherwise(old, new, drilled_before.get(old.mark, ()), drilled_after.get(new.mark, ()))
    return next(differ, None) is not None


def _pairs(before: Build, after: Build) -> Iterator[tuple[Component | None, Component]]:
    """Each component with what it was; one that has a new mark by the place where it stood."""
    old = {one.mark: one for one in before.components}
    there = {one.mark for one in after.components}
    for index, one in enumerate(after.components):
        was = old.get(one.mark)
        if was is None and index < len(before.components) and before.components[index].mark not in there:
            was = before.components[index]
        yield was, one


def with_releases(
    before: Build,
    after: Build,
    drilled_before: Drilled,
    drilled_after: Drilled,
    reason: str,
    by: str,
    on: date | None,
) -> Build:
    """Keep a record of each part that a change releases, and of each released part that it changes.

    A part that is released gets the next revision, the first one the revision that it has, or A. A released
    part that is made otherwise gets the next one; where nothing was kept of it, what it was is kept first. A
    part that is made or fitted was made to its revision; one that was made before a change stays so.

    Args:
        before: the build before the change.
        after: the build after it.
        drilled_before: the holes that follow from joints, of the parts released before.
        drilled_after: the same of the parts released after.
        reason: why released parts are changed.
        by: who changes them.
        on: the day.

    Returns:
        The build with the releases; the very same where there is nothing to keep.

    Source: this project.
    """
    books = _Book(after, reason, by, on)
    components = []
    for old, new in _pairs(before, after):
        if not is_released(new):
            components.append(new)
            continue
        drilled = drilled_after.get(new.mark, ())
        if old is None or not is_released(old):
            new = books.release(old, new, drilled)
        elif _is_changed(old, new, drilled_before, drilled_after):
            new = books.change(old, new, drilled_before.get(old.mark, ()), drilled)
        components.append(_made(old, new))
    if all(one is other for one, other in zip(components, after.components, strict=True)):
        return after
    return replace(after, components=tuple(components), releases=tuple(books.releases))


def _made(old: Component | None, new: Component) -> Component:
    """The part, made to its revision where it is made now and nobody says to which."""
    had = old.made_to if old is not None else ""
    was_made = old is not None and old.state in ("made", "fitted")
    if new.state not in ("made", "fitted") or was_made or new.made_to != had:
        return new
    return replace(new, made_to=new.revision) if new.made_to != new.revision else new


class _Book:
    """The releases of a build, to which some are added."""

    def __init__(self, build: Build, reason: str, by: str, on: date | None) -> None:
        self.releases = list(build.releases)
        self._ids = {one.id for one in build.releases}
        self._last = {one.mark: one for one in build.releases}
        self._reason, self._by, self._on = reason, by, on

    def release(self, old: Component | None, new: Component, drilled: tuple[str, ...]) -> Component:
        """The part as it is released now."""
        last = self._last.get(new.mark)
        if last is not None and not changes_since(last, new, drilled):
            return replace(new, revision=last.revision)  # what was taken back is released again as it was
        is_typed = new.revision and (old is None or old.revision != new.revision)
        kept = new.revision or "A" if is_typed or last is None else ""
        revision = kept or next_revision(last.revision if last is not None else "")
        return self._keep(replace(new, revision=revision), drilled, self._reason, self._by, self._on)

    def change(
        self, old: Component, new: Component, had: tuple[str, ...], drilled: tuple[str, ...]
    ) -> Component:
        """The part as it is released anew; what it was made to stays."""
        if new.mark not in self._last:
            was = replace(old, mark=new.mark, revision=old.revision or "A")
            self._keep(was, had, "", "", None)
        revision = next_revision(self._last[new.mark].revision)
        if new.revision and new.revision != old.revision:
            revision = new.revision
        made_to = old.made_to or old.revision or "A" if old.state in ("made", "fitted") else new.made_to
        changed = replace(new, revision=revision, made_to=made_to)
        return self._keep(changed, drilled, self._reason, self._by, self._on)

    def _keep(
        self, part: Component, drilled: tuple[str, ...], reason: str, by: str, on: date | None
    ) -> Component:
        word = re.sub(r"[^0-9A-Za-z]+", "-", part.revision).strip("-") or "1"
        key, number = f"{part.mark}-{word}", 1
        while key in self._ids:
            number += 1
            key = f"{part.mark}-{word}-{number}"
        self._ids.add(key)
        one = Release(key, part.mark, part.revision, part, on, by, reason, tuple(x[:400] for x in drilled))
        self.releases.append(one)
        self._last[part.mark] = one
        return part
