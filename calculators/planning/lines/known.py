"""What a line can speak of: the parts, joints and steps that there are, found by mark or by name."""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import lru_cache

from calculators.planning.lines.line import refusal
from calculators.planning.lines.marks import Marks, is_group
from calculators.planning.model import AssemblyStep, Build, Component, Joint, Stock, Unit
from calculators.planning.tree import copy_name, split_copy
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

_WORD = re.compile(r"[^\W_]+")
_SMALL = frozenset(["the", "a", "an", "of", "and", "its", "each", "every", "this", "that"])
_AWKWARD = re.compile(
    r"[,;:()\[\]&+#“”\"]| -+ |\b(?:into|onto|through|thro|thru|to|in|on|under|with|and|plus|for|from|holding"
    r"|fixing"
    r"|beneath|securing|joining|washers?|nuts?|inserts?)\b",
    re.IGNORECASE,
)
_IRREGULAR = {"feet": "foot", "halves": "half", "knives": "knife", "shelves": "shelf", "leaves": "leaf",
              "boxes": "box", "axes": "axis", "axles": "axle", "teeth": "tooth"}  # fmt: skip
_MOST_CANDIDATES = 12


def singular(word: str) -> str:
    """Take the plural off a word.

    Args:
        word: a word in small letters.

    Returns:
        Its singular; words that end in s without being plurals are shortened too, alike in names and lines.

    Source: common practice.

    Example:
        >>> singular("hinges"), singular("boxes"), singular("glass"), singular("bushes")
        ('hinge', 'box', 'glass', 'bush')
    """
    if word in _IRREGULAR:
        return _IRREGULAR[word]
    if len(word) < 4 or word.endswith(("ss", "us", "is")) or not word.endswith("s"):
        return word
    if word.endswith("ies") and len(word) > 4:
        return word[:-3] + "y"
    if word.endswith(("sses", "xes", "ches", "shes")):
        return word[:-2]
    return word[:-1]


@lru_cache(maxsize=8192)
def stems(text: str) -> tuple[str, ...]:
    """Give the words of a name in small letters and the singular, without the, a and of.

    Args:
        text: a name.

    Returns:
        Its words.

    Source: this project.

    Example:
        >>> stems("The Lid rails, long")
        ('lid', 'rail', 'long')
    """
    words = (word for word in _WORD.findall(text.casefold()) if word not in _SMALL)
    return tuple(singular(word) for word in words)


class Known:
    """The parts, joints, steps and stock so far; each line is read against it and then added to it."""

    def __init__(self, build: Build) -> None:
        self.build = build
        self.components: dict[str, Component] = {}
        for one in build.components:
            self.components.setdefault(one.mark, one)
        self.joints: dict[str, Joint] = {}
        for joint in build.joints:
            self.joints.setdefault(joint.mark, joint)
        self.steps: dict[int, AssemblyStep] = {step.number: step for step in build.steps}
        self.stock: dict[str, Stock] = {one.mark: one for one in build.stock}
        self.parents = {one.parent for one in build.components if one.parent}
        self.marks = Marks(build.components, build.joints, build.calculations, build.stock)
        self._by_fold: dict[str, str] = {}
        self._by_name: dict[str, list[str]] = {}
        self._by_stems: dict[tuple[str, ...], list[str]] = {}
        self._by_word: dict[str, dict[str, None]] = {}
        self._by_material: dict[str, dict[str, None]] = {}
        self._awkward: dict[str, None] = {}
        for one in self.components.values():
            self._index(one)

    @property
    def unit(self) -> Unit:
        """What a bare number means."""
        return self.build.unit

    def _index(self, one: Component) -> None:
        self._by_fold.setdefault(one.mark.casefold(), one.mark)
        self._by_name.setdefault(" ".join(one.name.casefold().split()), []).append(one.mark)
        found = stems(one.name)
        self._by_stems.setdefault(found, []).append(one.mark)
        for word in found:
            self._by_word.setdefault(word, {})[one.mark] = None
        for word in stems(one.material):
            self._by_material.setdefault(word, {})[one.mark] = None
        if _AWKWARD.search(one.name):
            self._awkward[" ".join(one.name.casefold().split())] = None

    def add_component(self, one: Component) -> None:
        """Take a new component in."""
        self.components[one.mark] = one
        if one.parent:
            self.parents.add(one.parent)
        self.marks.add(one.mark, "group" if is_group(one, self.parents) else "part")
        self._index(one)

    def replace_component(self, one: Component) -> None:
        """Put a component with the same mark and name in the place of one that there is."""
        self.components[one.mark] = one

    def add_joint(self, joint: Joint) -> None:
        """Take a new joint in."""
        self.joints[joint.mark] = joint
        self.marks.add(joint.mark, "joint")

    def add_stock(self, one: Stock) -> None:
        """Take a new piece of stock in."""
        self.stock[one.mark] = one
        self.marks.add(one.mark, "stock")

    def add_step(self, step: AssemblyStep) -> None:
        """Take a new step in."""
        self.steps[step.number] = step

    def total(self, mark: str) -> int:
        """Count the copies of a component in the whole build."""
        total, seen = 1, set[str]()
        while mark in self.components and mark not in seen:
            seen.add(mark)
            total *= self.components[mark].quantity
            mark = self.components[mark].parent
        return total

    def by_mark(self, text: str) -> Component | None:
        """Find a component by its mark, whatever the case of its letters."""
        if text in self.components:
            return self.components[text]
        mark = self._by_fold.get(text.casefold())
        return self.components[mark] if mark is not None else None

    def joint_by_mark(self, text: str) -> Joint | None:
        """Find a joint by its mark, whatever the case of its letters."""
        if text in self.joints:
            return self.joints[text]
        return next((one for mark, one in self.joints.items() if mark.casefold() == text.casefold()), None)

    def copy(self, text: str) -> tuple[Component, int | None] | None:
        """Find a component, or one copy of it (`P02.1`), by its mark."""
        found = self.by_mark(text)
        if found is not None:
            return found, None
        mark, number = split_copy(text)
        found = self.by_mark(mark) if number is not None else None
        return (found, number) if found is not None else None

    def exact(self, text: str) -> Component | None:
        """Find a component by its mark, or by its name as it is written or in the other number."""
        found = self.by_mark(text)
        if found is not None:
            return found
        for marks in (self._by_name.get(" ".join(text.casefold().split())), self._by_stems.get(stems(text))):
            if marks and len(marks) == 1 and stems(text):
                return self.components[marks[0]]
        return None

    def find(self, text: str) -> Component:
        """Find a component by mark or name; raise with the nearest as choices where it is not clear."""
        found = self.exact(text)
        if found is not None:
            return found
        candidates = self.candidates(text)
        if len(candidates) == 1:
            return candidates[0]
        if candidates:
            raise self.ambiguous(text, candidates)
        raise self.unknown(text)

    def candidates(self, text: str) -> list[Component]:
        """The components that a name fits: the same name, else all of its words, else all of theirs."""
        wanted = stems(text)
        if not wanted:
            return []
        marks = self._by_name.get(" ".join(text.casefold().split())) or self._by_stems.get(wanted)
        if marks:
            return [self.components[mark] for mark in marks]
        holding = [self._by_word.get(word, {}) for word in wanted]
        fitting = [mark for mark in holding[0] if all(mark in each for each in holding)]
        if fitting:
            return [self.components[mark] for mark in fitting]
        return self._of_material(wanted)

    def _of_material(self, wanted: tuple[str, ...]) -> list[Component]:
        """The components of whose name and material together all words are (`oak side`)."""
        found = []
        for mark in {mark: None for word in wanted for mark in self._by_word.get(word, {})}:
            one = self.components[mark]
            name, material = set(stems(one.name)), set(stems(one.material))
            if name & set(wanted) and set(wanted) <= name | material:
                found.append(one)
        return found

    def of_material(self, text: str) -> list[Component]:
        """The components whose material has all these words."""
        wanted = stems(text)
        holding = [self._by_material.get(word, {}) for word in wanted]
        if not holding:
            return []
        return [self.components[mark] for mark in holding[0] if all(mark in each for each in holding)]

    def awkward_names(self, text: str) -> list[str]:
        """The names in a text that hold commas or small words, longest first."""
        folded = text.casefold()
        return sorted((name for name in self._awkward if name in folded), key=lambda name: -len(name))

    def ambiguous(self, text: str, candidates: list[Component]) -> InputError:
        """The question which of several components is meant."""
        some = candidates[:_MOST_CANDIDATES]
        listed = ", ".join(f"{one.mark} {quoted(one.name)[1:-1]}" for one in some[:5])
        more = f" or one of {len(candidates) - 5} more" if len(candidates) > 5 else ""
        says = f"{quoted(text)} could be {listed}{more}; write its mark."
        return refusal(says, *(one.mark for one in some))

    def unknown(self, text: str, *, joints: bool = False) -> InputError:
        """The sentence for a name that there is not, with the nearest marks."""
        near = self.near(text, joints=joints)
        what = "part or joint" if joints else "part"
        shown = " or ".join(self.shown(mark) for mark in near)
        meant = f" Did you mean {shown}?" if near else ""
        return refusal(
            f"There is no {what} called {quoted(text)} here; add the {what} first, or write its mark.{meant}",
            *near,
        )

    def shown(self, mark: str) -> str:
        """A mark with its name."""
        one = self.components.get(mark)
        return f"{mark} {quoted(one.name)[1:-1]}" if one is not None else mark

    def near(self, text: str, *, joints: bool = False) -> tuple[str, ...]:
        """The marks of what somebody may have meant, at most three."""
        folded = text[:60].casefold()
        names = dict(list(self._by_name.items())[:2_000])
        marks = dict(list(self._by_fold.items())[:2_000])
        found = [names[name][0] for name in get_close_matches(folded, names, n=3, cutoff=0.7)]
        found += [marks[mark] for mark in get_close_matches(folded, marks, n=3, cutoff=0.6)]
        if joints:
            found += get_close_matches(text[:60], list(self.joints)[:2_000], n=3, cutoff=0.6)
        return tuple(dict.fromkeys(found))[:3]

    def name_of_copy(self, one: Component, copy: int) -> str:
        """The name of one copy of a component."""
        return copy_name(one.mark, copy, self.total(one.mark))
