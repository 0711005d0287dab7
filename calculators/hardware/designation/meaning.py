"""What the words of a line say together, and what contradicts; screws go on to `screw_words.py`."""

from __future__ import annotations

from dataclasses import dataclass
from difflib import get_close_matches
from typing import Literal, cast

from calculators.hardware.designation.asking import AskBack, without
from calculators.hardware.designation.tokens import Token
from calculators.hardware.designation.words import FORMS_OF, vocabulary
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

Item = Literal["", "screw", "nut", "washer", "insert"]

_MACHINE_HEADS = frozenset({"socket cap", "socket csk", "button", "cheese", "coach", "knurled", "hex"})
_SCREW_SLOTS = ("head", "drive", "kind", "point", "series", "family")
_ACCEPTED = "write it as M5 x 20 csk slotted brass, No. 8 x 1 3/4 csk brass, M6 half nut or M5 repair washer"


@dataclass(frozen=True, slots=True)
class Meaning:
    """What the words say; empty where they say nothing."""

    item: Item = ""
    family: str = ""
    kind: str = ""
    head: str = ""
    drive: str = ""
    point: str = ""
    material: str = ""
    finish: str = ""
    grade: str = ""
    series: str = ""
    form: str = ""

    @property
    def is_wood(self) -> bool:
        """Whether the words themselves say a wood screw."""
        return self.family == "wood"

    @property
    def is_machine(self) -> bool:
        """Whether the words themselves say a machine screw."""
        return not self.is_wood and (
            self.family == "machine"
            or self.kind in {"bolt", "set screw", "grub screw", "stud"}
            or (self.head in _MACHINE_HEADS and self.kind != "coach screw")
            or bool(self.point or self.grade)
        )


@dataclass(frozen=True, slots=True)
class Words:
    """The words of a line: what each slot says, the words that need their neighbours, and the line."""

    line: str
    tokens: tuple[Token, ...]
    said: dict[str, str]
    contexts: dict[str, Token]
    item: Item
    field: str

    def of(self, *slots: str) -> list[Token]:
        """The pieces of the line that speak of some slots."""
        return [token for token in self.tokens if token.slot in slots]


def gather(line: str, tokens: list[Token], field: str) -> Words:
    """Collect the words of a line by what they speak of.

    Args:
        line: the plain line.
        tokens: its pieces.
        field: the name of the input.

    Returns:
        The words.

    Raises:
        InputError: when a word is refused or not understood.
        AskBack: when two words contradict each other, or one is nearly right.

    Source: this project.
    """
    _refuse_unknown(line, tokens, field)
    words = tuple(token for token in tokens if token.slot and token.slot != "label")
    item = _item(line, words, field)
    said: dict[str, str] = {}
    first: dict[str, Token] = {}
    for token in words:
        if token.slot in ("item", "context"):
            continue
        old = said.get(token.slot)
        merged = _merged(token.slot, old, token.value) if old else token.value
        if merged is None:
            raise contradiction(line, [first[token.slot]], [token])
        said[token.slot] = merged
        first.setdefault(token.slot, token)
    contexts = {token.value: token for token in words if token.slot == "context"}
    return Words(line, words, said, contexts, item, field)


def contradiction(line: str, some: list[Token], others: list[Token]) -> AskBack:
    """Make the question which of two contradicting words is to stay.

    Args:
        line: the plain line.
        some: the pieces on the one side, at least one.
        others: the pieces on the other side, at least one.

    Returns:
        The question to raise; its lines leave out the one or the other.

    Source: this project.
    """
    says = f"{quoted(some[0].text)} and {quoted(others[0].text)} contradict each other"
    return AskBack(says, [without(line, *others), without(line, *some)])


def _refuse_unknown(line: str, tokens: list[Token], field: str) -> None:
    faults: list[Fault] = []
    questions: list[AskBack] = []
    for token in tokens:
        if token.slot == "refused":
            faults.append(Fault(f"{quoted(token.text)} cannot be used: {token.value}.", field))
        elif token.kind == "unknown":
            words = [word for word in vocabulary() if len(word) > 2]
            near = get_close_matches(token.text, words, n=3, cutoff=0.76)
            hint = f"; the nearest words are {', '.join(near)}" if near else f"; {_ACCEPTED}"
            faults.append(Fault(f"{quoted(token.text)} is not understood{hint}.", field))
            lines = [" ".join(f"{line[: token.start]} {w} {line[token.end :]}".split()) for w in near]
            if near:
                questions.append(AskBack(f"{quoted(token.text)} is not understood{hint}", lines))
    if len(faults) == 1 and questions:
        raise questions[0]
    if faults:
        raise InputError(*faults[:5])


_AGREE: dict[str, tuple[tuple[str, str, str], ...]] = {
    "head": (("csk", "raised csk", "raised csk"), ("csk", "socket csk", "socket csk")),
    "kind": (("set screw", "grub screw", "grub screw"),),
    "material": (
        ("steel", "mild steel", "mild steel"),
        ("steel", "stainless", "stainless"),
        ("stainless", "stainless A1", "stainless A1"),
        ("stainless", "stainless A2", "stainless A2"),
        ("stainless", "stainless A4", "stainless A4"),
        ("bronze", "silicon bronze", "silicon bronze"),
        ("bronze", "phosphor bronze", "phosphor bronze"),
    ),
    "finish": (
        ("plated", "zinc plated", "zinc plated"),
        ("plated", "nickel plated", "nickel plated"),
        ("plated", "chrome plated", "chrome plated"),
        ("zinc plated", "yellow zinc plated", "yellow zinc plated"),
    ),
    "form": (("half", "full", "half"),),
}
"""Two words of one slot that agree, and the more telling one that stays."""


def _merged(slot: str, old: str, new: str) -> str | None:
    if old == new:
        return old
    return next((stays for a, b, stays in _AGREE.get(slot, ()) if {a, b} == {old, new}), None)


def _item(line: str, words: tuple[Token, ...], field: str) -> Item:
    """Decide whether the line is a screw, nut, washer or insert; a line is one thing."""
    named: dict[str, list[Token]] = {}
    for token in words:
        if token.slot == "item":
            named.setdefault(token.value, []).append(token)
    for token in words:
        if token.slot == "kind" or (token.slot == "family" and not {"nut", "insert"} & set(named)):
            named.setdefault("screw", []).append(token)
    cup = any(token.value == "cup" for token in words)
    if "washer" in named and cup and all(token.slot == "item" for token in named.get("screw", ())):
        named.pop("screw", None)  # the screw cup washer
    if len(named) > 1:
        first, second = list(named.values())[:2]
        says = (
            f"{quoted(first[0].text)} and {quoted(second[0].text)} are different things: a line is one thing"
        )
        raise AskBack(says, [without(line, *second), without(line, *first)])
    return cast(Item, next(iter(named), ""))


def part_meaning(words: Words) -> Meaning:
    """Settle the words of a nut, washer or insert.

    Args:
        words: the words of the line.

    Returns:
        The meaning.

    Raises:
        InputError: when a word is not said of such a thing.
        AskBack: when its form contradicts, or could be one of two.

    Source: common practice.
    """
    item, said, field = words.item, dict(words.said), words.field
    if item == "nut" and said.get("head") == "knurled":
        said["form"] = said.pop("head")
    if item == "insert" and said.get("family") == "wood":
        del said["family"]
    if "grade" in said:
        kept = f"; write it as stainless {said['grade'][:2]}" if said["grade"][0] == "A" else "; leave it out"
        raise InputError.of(f"The grade {said['grade']} of a {item} is not kept{kept}.", field=field)
    for slot in _SCREW_SLOTS:
        if slot in said:
            says = f"{quoted(words.of(slot)[0].text)} is said of screws, not of a {item}; leave it out."
            raise InputError.of(says, field=field)
    form = said.get("form", "")
    for word, token in words.contexts.items():
        form = _form_in_context(form, word, token, words)
    allowed = FORMS_OF.get(item, ())
    if form and form not in allowed:
        says = f"There is no {form} {item}; write it {'as ' + ', '.join(allowed) if allowed else 'without'}."
        raise InputError.of(says, field=field)
    form = form or {"nut": "full", "washer": "plain"}.get(item, "")
    return Meaning(item, material=said.get("material", ""), finish=said.get("finish", ""), form=form)


_CONTEXT_FORMS: dict[str, dict[str, str]] = {
    "nut": {"dome": "dome", "cap": "dome", "square": "square", "hex": "full", "plain": "full"},
    "washer": {"flat": "plain", "plain": "plain", "cup": "cup", "star": "toothed"},
}


def _form_in_context(form: str, word: str, token: Token, words: Words) -> str:
    """Settle one word whose meaning hangs on the nut or washer that it stands with."""
    if word == "lock":
        if form in {"half", "stiff", "spring", "toothed", "crinkle"}:
            return form
        forms = {"nut": ("half", "stiff"), "washer": ("spring", "toothed")}.get(words.item, ())
        lines = [f"{without(words.line, token)} {each}" for each in forms]
        raise AskBack(f"{quoted(token.text)} can be {' or '.join(forms) or 'of a nut or washer only'}", lines)
    turned = _CONTEXT_FORMS.get(words.item, {}).get(word)
    if turned is None:
        raise InputError.of(
            f"{quoted(token.text)} is not said of a {words.item}; leave it out.", field=words.field
        )
    if form in ("", turned):
        return turned
    if turned in ("full", "plain"):  # a hexagon half nut, a flat repair washer
        return form
    if form in ("full", "plain"):
        return turned
    raise contradiction(words.line, words.of("form", "head") or [token], [token])
