"""What the words of a line say together: the thing, its head, drive, material; and what contradicts."""

from __future__ import annotations

from dataclasses import dataclass, replace
from difflib import get_close_matches
from typing import Literal

from calculators.hardware.designation.asking import AskBack, replaced
from calculators.hardware.designation.tokens import Token
from calculators.hardware.designation.words import vocabulary
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

Item = Literal["", "screw", "nut", "washer", "insert"]
_MACHINE_HEADS = frozenset({"socket cap", "socket csk", "button", "cheese", "coach", "knurled", "hex"})
_WOOD_HEADS = ("csk", "raised csk", "round", "pan", "hex")
_SCREW_SLOTS = ("head", "drive", "kind", "point", "series", "family")
_SLOT_NAMES = {
    "head": "a head", "drive": "a drive", "kind": "a kind of screw", "point": "a point", "material": "a material",
    "finish": "a finish", "grade": "a grade", "series": "a series", "form": "a form", "item": "a thing",
    "family": "a family",
}  # fmt: skip
_FORMS_OF = {
    "nut": ("full", "half", "dome", "square", "wing", "stiff", "knurled"),
    "washer": ("plain", "small", "repair", "spring", "crinkle", "toothed", "cup"),
}
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
        return (
            self.family == "machine"
            or self.kind in {"bolt", "set screw", "grub screw", "stud"}
            or (self.head in _MACHINE_HEADS and self.kind != "coach screw")
            or bool(self.point or self.grade)
        )


def understand(line: str, tokens: list[Token], field: str) -> Meaning:
    """Read the words of a line together.

    Args:
        line: the plain line.
        tokens: its pieces.
        field: the name of the input.

    Returns:
        The meaning.

    Raises:
        InputError: when a word is not understood, or two words contradict each other.
        AskBack: when the words could mean several things.

    Source: common practice.
    """
    _refuse_unknown(tokens, field)
    words = [token for token in tokens if token.slot and token.slot != "label"]
    item = _item(words, field)
    said: dict[str, str] = {}
    for token in words:
        if token.slot not in {"item", "context"}:
            _say(said, token.slot, token.value, item, token.text, field)
    contexts = {token.value: token for token in words if token.slot == "context"}
    said = {slot: text.partition("\0")[0] for slot, text in said.items()}
    if item in ("nut", "washer", "insert"):
        return _part(item, said, contexts, field)
    return _screw(line, said, contexts, words, item, field)


def _refuse_unknown(tokens: list[Token], field: str) -> None:
    faults = []
    for token in tokens:
        if token.slot == "refused":
            faults.append(Fault(f"{quoted(token.text)} cannot be used: {token.value}.", field))
        elif token.kind == "unknown":
            near = tuple(get_close_matches(token.text, vocabulary(), n=3, cutoff=0.6))
            hint = f"the nearest words are {', '.join(near)}" if near else _ACCEPTED
            faults.append(Fault(f"{quoted(token.text)} is not understood; {hint}.", field, near))
    if faults:
        raise InputError(*faults[:5])


def _say(said: dict[str, str], slot: str, value: str, item: str, text: str, field: str) -> None:
    """Note one word; a second that says something else is a contradiction, unless it only adds."""
    old, _, old_text = said.get(slot, "").partition("\0")
    merged = _merged(slot, old, value) if old else value
    if merged is None:
        says = f"{quoted(old_text)} and {quoted(text)} contradict each other: each is {_SLOT_NAMES[slot]}; keep one."
        raise InputError.of(says, field=field, choices=(old_text, text))
    said[slot] = f"{merged}\0{text if merged == value else old_text}"


def _merged(slot: str, old: str, new: str) -> str | None:
    """Two words of one slot that agree, the more telling one winning; None when they do not."""
    if old == new:
        return old
    pair = {old, new}
    tells: tuple[tuple[set[str], str], ...] = {
        "head": (
            ({"csk", "raised csk"}, "raised csk"),
            ({"csk", "socket csk"}, "socket csk"),
        ),
        "kind": (({"set screw", "grub screw"}, "grub screw"), ({"bolt", "coach screw"}, "coach screw")),
        "material": (({"steel", "mild steel"}, "mild steel"), ({"steel", "stainless"}, "stainless"),
                     ({"stainless", "stainless A2"}, "stainless A2"), ({"stainless", "stainless A4"}, "stainless A4"),
                     ({"bronze", "silicon bronze"}, "silicon bronze"),
                     ({"bronze", "phosphor bronze"}, "phosphor bronze")),
        "finish": (({"plated", "zinc plated"}, "zinc plated"), ({"plated", "nickel plated"}, "nickel plated"),
                   ({"plated", "chrome plated"}, "chrome plated"),
                   ({"zinc plated", "yellow zinc plated"}, "yellow zinc plated")),
        "form": (({"half", "full"}, "half"),),
    }.get(slot, ())  # fmt: skip
    return next((winner for both, winner in tells if pair == both), None)


def _item(words: list[Token], field: str) -> Item:
    """Decide whether the line is a screw, nut, washer or insert; a line is one thing."""
    named = {token.value: token.text for token in words if token.slot == "item"}
    for token in words:
        if token.slot == "kind" or (token.slot == "family" and "nut" not in named and "insert" not in named):
            named.setdefault("screw", token.text)
    if (
        "screw" in named
        and "washer" in named
        and "cup" in {t.value for t in words}
        and named["screw"] == "screw"
    ):
        del named["screw"]
    if len(named) > 1:
        both = " and ".join(sorted(quoted(text) for text in named.values()))
        says = f"{both} are different things; write each on a line of its own."
        raise InputError.of(says, field=field, choices=tuple(sorted(named)))
    for item in named:
        return item  # type: ignore[return-value]
    return ""


def _part(item: Item, said: dict[str, str], contexts: dict[str, Token], field: str) -> Meaning:
    """Settle a nut, washer or insert."""
    if item == "nut" and said.get("head") == "knurled":
        del said["head"]
        said["form"] = "knurled"
    if item == "insert" and said.get("family") == "wood":
        del said["family"]
    if said.get("grade", "").startswith("A"):
        says = f"The class of a stainless {item} is not kept; write it as stainless {said['grade'][:2]}."
        raise InputError.of(says, field=field, choices=(f"stainless {said['grade'][:2]}",))
    if "grade" in said:
        raise InputError.of(
            f"The grade of a {item} is not kept; leave out {quoted(said['grade'])}.", field=field
        )
    for slot in _SCREW_SLOTS:
        if slot in said:
            raise InputError.of(
                f"{quoted(said[slot])} is said of screws, not of a {item}; leave it out.", field=field
            )
    form = said.get("form", "")
    turned = {
        "nut": {"dome": "dome", "cap": "dome", "square": "square", "hex": "full", "plain": "full"},
        "washer": {"flat": "plain", "plain": "plain", "cup": "cup", "star": "toothed"},
    }.get(item, {})
    for word, token in contexts.items():
        if word == "lock":
            if form in {"half", "stiff", "spring", "toothed", "crinkle"}:
                continue
            forms = ("half nut", "stiff nut") if item == "nut" else ("spring washer", "toothed washer")
            says = f"{quoted(token.text)} can be {' or '.join(forms)}; write one of them."
            raise InputError.of(says, field=field, choices=forms)
        if word not in turned:
            raise InputError.of(f"{quoted(token.text)} is not said of a {item}; leave it out.", field=field)
        if form not in ("", turned[word]) and turned[word] not in {"full", "plain"}:
            says = f"{quoted(form)} and {quoted(token.text)} contradict each other: each is a form; keep one."
            raise InputError.of(says, field=field, choices=(form, turned[word]))
        form = form or turned[word]
    allowed = _FORMS_OF.get(item, ())
    if form and form not in allowed:
        says = f"There is no {form} {item}; write {', '.join(allowed) or 'it without'}."
        raise InputError.of(says, field=field, choices=allowed)
    default = {"nut": "full", "washer": "plain"}.get(item, "")
    return Meaning(
        item, material=said.get("material", ""), finish=said.get("finish", ""), form=form or default
    )


def _screw(
    line: str, said: dict[str, str], contexts: dict[str, Token], words: list[Token], item: Item, field: str
) -> Meaning:
    """Settle a screw, or a line that does not say what it is."""
    if "form" in said:
        word = said["form"]
        things = tuple(f"{word} {thing}" for thing, forms in _FORMS_OF.items() if word in forms)
        raise InputError.of(
            f"{quoted(word)} is said of nuts and washers; write {' or '.join(things)}.",
            field=field,
            choices=things,
        )
    grade, material = said.get("grade", ""), said.get("material", "")
    if grade.startswith("A") and material in ("", "stainless", f"stainless {grade[:2]}"):
        material = f"stainless {grade[:2]}"
    meaning = Meaning(
        item, said.get("family", ""), said.get("kind", ""), said.get("head", ""), said.get("drive", ""),
        said.get("point", ""), material, said.get("finish", ""), grade, said.get("series", ""),
    )  # fmt: skip
    for word in ("hex", "cap", "coach", "flat", "cup", "square", "star", "dome", "lock"):
        if word in contexts:
            meaning = _in_context(meaning, word, contexts[word], line, field)
    meaning = _settle_kind(meaning, line, words, field)
    meaning = _settle_drive(meaning, line, words, field)
    return _check(_settle_family(meaning), field)


def _contradiction(first: str, second: str, what: str, field: str) -> InputError:
    says = f"{quoted(first)} and {quoted(second)} contradict each other: a screw has one {what}; keep one."
    return InputError.of(says, field=field, choices=(first, second))


def _with_head(meaning: Meaning, head: str, word: str, field: str) -> Meaning:
    if meaning.head not in ("", head):
        raise _contradiction(meaning.head, word, "head", field)
    return replace(meaning, head=head)


def _with_drive(meaning: Meaning, drive: str, word: str, field: str) -> Meaning:
    if meaning.drive not in ("", drive):
        raise _contradiction(meaning.drive, word, "drive", field)
    return replace(meaning, drive=drive)


def _in_context(meaning: Meaning, word: str, token: Token, line: str, field: str) -> Meaning:
    """Settle one word whose meaning hangs on its neighbours."""
    headless = meaning.kind in {"grub screw", "stud"} or meaning.head == "none"
    if word == "hex":
        if headless or meaning.head in {"button", "socket cap", "socket csk"}:
            return _with_drive(meaning, "hex socket", token.text, field)
        return _with_head(meaning, "hex", token.text, field)
    if word == "cap":
        if meaning.head == "hex":  # the American hex cap screw is the hexagon bolt
            return replace(meaning, kind=meaning.kind or "bolt")
        return _with_head(meaning, "socket cap", token.text, field)
    if word == "coach":
        if meaning.kind == "bolt" or meaning.head == "coach":
            return _with_head(meaning, "coach", token.text, field)
        lines = [replaced(line, token.start, token.end, kind) for kind in ("carriage bolt", "coach screw")]
        raise AskBack(f"{quoted(token.text)} can be a bolt or a screw", lines, ("coach bolt", "coach screw"))
    if word == "flat" and not headless:
        return _with_head(meaning, meaning.head if "csk" in meaning.head else "csk", token.text, field)
    if word in {"flat", "cup"}:
        if meaning.point not in ("", word):
            raise _contradiction(meaning.point, token.text, "point", field)
        return replace(meaning, point=word)
    if word in {"square", "star"}:
        return _with_drive(meaning, "square" if word == "square" else "hexalobular", token.text, field)
    if word == "dome":
        lines = [replaced(line, token.start, token.end, head) for head in ("round", "button")]
        raise AskBack(f"{quoted(token.text)} can be a round or a button head", lines, ("round", "button"))
    says = f"{quoted(token.text)} is said of nuts and washers; write half nut, stiff nut or spring washer."
    raise InputError.of(says, field=field, choices=("half nut", "stiff nut", "spring washer"))


def _settle_kind(meaning: Meaning, line: str, words: list[Token], field: str) -> Meaning:
    """Settle what 'set screw' means, and that grub screws and studs have no head."""
    if meaning.head == "none" and meaning.kind in ("", "set screw"):
        meaning = replace(meaning, kind="grub screw")
    if meaning.head == "coach" and meaning.kind == "":
        meaning = replace(meaning, kind="bolt")
    if meaning.kind in {"grub screw", "stud"}:
        return _with_head(meaning, "none", f"{meaning.kind} (which has no head)", field)
    if meaning.kind != "set screw" or meaning.head:
        return meaning
    token = next(word for word in words if word.value == "set screw")
    driven = {"hex socket": "cap", "slotted": "cheese", "cross": "pan"}.get(meaning.drive, "hex")
    if meaning.drive == "hex socket":
        driven = "socket cap"
    lines = [
        replaced(line, token.start, token.end, text) for text in ("grub screw", f"{driven} head set screw")
    ]
    says = f"{quoted(token.text)} can be a screw without a head, or one with a head and threaded all along"
    raise AskBack(says, lines, ("grub screw", "hex set screw"))


def _settle_drive(meaning: Meaning, line: str, words: list[Token], field: str) -> Meaning:
    """Settle 'socket', and the drives that a head brings with it."""
    if meaning.drive == "hex socket" and meaning.family != "wood":
        if meaning.head == "csk":
            meaning = replace(meaning, head="socket csk")
        elif not meaning.head:
            token = next(word for word in words if word.value == "hex socket")
            heads = ("socket cap", "socket csk", "button hex socket", "grub hex socket")
            lines = [replaced(line, token.start, token.end, head) for head in heads]
            raise AskBack(f"{quoted(token.text)} says the drive, not the head", lines, heads)
    if meaning.head in {"socket cap", "socket csk"} and not meaning.drive:
        meaning = replace(meaning, drive="hex socket")
    if meaning.head == "knurled" and not meaning.drive:
        meaning = replace(meaning, drive="hand")
    return meaning


def _settle_family(meaning: Meaning) -> Meaning:
    if meaning.kind == "coach screw":
        return replace(meaning, family="wood")
    if meaning.kind in {"bolt", "set screw", "grub screw", "stud"} and not meaning.family:
        return replace(meaning, family="machine")
    return meaning


_DRIVES_REFUSED = {
    "socket cap": ("slotted", "cross", "square", "hand"),
    "socket csk": ("slotted", "cross", "square", "hand"),
    "coach": ("slotted", "cross", "square", "hex socket", "hexalobular", "hand"),
    "knurled": ("cross", "square", "hexalobular"),
    "hex": ("hand", "hex socket", "square"),
}


def _check(meaning: Meaning, field: str) -> Meaning:
    """Refuse words that cannot be true of one screw."""
    if meaning.drive in _DRIVES_REFUSED.get(meaning.head, ()):
        says = f"{quoted(meaning.head)} and {quoted(meaning.drive)} contradict each other; keep the head or the drive."
        raise InputError.of(says, field=field, choices=(meaning.head, meaning.drive))
    if meaning.drive == "hand" and meaning.head not in {"knurled", ""}:
        raise _contradiction(meaning.head, "hand", "way of turning", field)
    if meaning.kind == "stud" and meaning.drive:
        raise _contradiction("stud", meaning.drive, "way of turning", field)
    if meaning.is_wood and (
        meaning.kind not in ("", "coach screw") or meaning.point or meaning.head not in ("", *_WOOD_HEADS)
    ):
        odd = next(
            t
            for t in (meaning.head if meaning.head not in _WOOD_HEADS else "", meaning.kind, meaning.point)
            if t
        )
        says = f"{quoted(odd)} is not said of a wood screw; its head is {', '.join(_WOOD_HEADS)}."
        raise InputError.of(says, field=field, choices=_WOOD_HEADS)
    return meaning
