"""What the words of a screw say together: head, drive, kind and point, where each hangs on the others."""

from __future__ import annotations

from dataclasses import replace

from calculators.hardware.designation.asking import AskBack, replaced
from calculators.hardware.designation.meaning import Meaning, Words, contradiction
from calculators.hardware.designation.tokens import Token
from calculators.hardware.designation.words import FORMS_OF
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

WOOD_HEADS = ("csk", "raised csk", "round", "pan", "hex")
"""The heads that wood screws have here."""

DRIVES_REFUSED: dict[str, tuple[str, ...]] = {
    "socket cap": ("slotted", "cross", "square", "hand"),
    "socket csk": ("slotted", "cross", "square", "hand"),
    "coach": ("slotted", "cross", "square", "hex socket", "hexalobular", "hand"),
    "knurled": ("cross", "square", "hexalobular"),
    "hex": ("hand", "hex socket", "square"),
    "none": ("hand",),
    **dict.fromkeys(("csk", "raised csk", "pan", "cheese", "round", "button"), ("hand",)),
}
"""Drives that a head cannot have."""


def screw_meaning(words: Words) -> Meaning:
    """Settle the words of a screw, or of a line that does not say what it is.

    Args:
        words: the words of the line.

    Returns:
        The meaning.

    Raises:
        InputError: when a word is not said of such a screw.
        AskBack: when words contradict each other, or could mean several things.

    Source: common practice.
    """
    said = words.said
    if "form" in said:
        things = [item for item, forms in FORMS_OF.items() if said["form"] in forms]
        says = f"{quoted(words.of('form')[0].text)} is said of a {' or '.join(things)}"
        raise AskBack(says, [f"{words.line} {thing}" for thing in things])
    grade, material = said.get("grade", ""), said.get("material", "")
    if grade[:1] == "A":
        if material not in ("", "stainless", f"stainless {grade[:2]}"):
            raise contradiction(words.line, words.of("material"), words.of("grade"))
        material = f"stainless {grade[:2]}"
    meaning = Meaning(
        words.item, said.get("family", ""), said.get("kind", ""), said.get("head", ""), said.get("drive", ""),
        said.get("point", ""), material, said.get("finish", ""), grade, said.get("series", ""),
    )  # fmt: skip
    for word in ("hex", "cap", "coach", "flat", "cup", "square", "star", "dome", "lock"):
        if word in words.contexts:
            meaning = _in_context(meaning, word, words.contexts[word], words)
    meaning = _settle_kind(meaning, words)
    if meaning.kind == "coach screw":
        if meaning.head not in ("", "hex"):
            raise contradiction(words.line, words.of("kind"), words.of("head", "context") or words.of("kind"))
        meaning = replace(meaning, family="wood", head="hex")
    meaning = _settle_drive(meaning, words)
    if meaning.is_wood and meaning.head == "socket csk":
        meaning = replace(meaning, head="csk", drive=meaning.drive or "hex socket")
    _check(meaning, words)
    return meaning


def _with(meaning: Meaning, slot: str, value: str, token: Token, words: Words) -> Meaning:
    """Give a slot the value that one word says, unless another word says something else."""
    old = getattr(meaning, slot)
    if old not in ("", value):
        others = [t for t in words.of(slot, "kind", "context") if t is not token]
        raise contradiction(words.line, others or [token], [token])
    if slot == "head":
        return replace(meaning, head=value)
    return replace(meaning, drive=value) if slot == "drive" else replace(meaning, point=value)


def _in_context(meaning: Meaning, word: str, token: Token, words: Words) -> Meaning:
    """Settle one word whose meaning hangs on its neighbours."""
    headless = meaning.kind in {"grub screw", "stud"} or meaning.head == "none"
    if word == "hex":
        drives = headless or meaning.head in {"button", "socket cap", "socket csk"}
        return _with(meaning, *(("drive", "hex socket") if drives else ("head", "hex")), token, words)
    if word == "cap":
        if meaning.head == "hex":  # the American hex cap screw is the hexagon bolt
            return replace(meaning, kind=meaning.kind or "bolt")
        return _with(meaning, "head", "socket cap", token, words)
    if word == "coach":
        if meaning.kind == "bolt" or meaning.head == "coach":
            return _with(meaning, "head", "coach", token, words)
        lines = [
            replaced(words.line, token.start, token.end, kind) for kind in ("carriage bolt", "coach screw")
        ]
        raise AskBack(f"{quoted(token.text)} can be a bolt or a screw", lines)
    if word == "flat" and not headless:
        return _with(meaning, "head", meaning.head if "csk" in meaning.head else "csk", token, words)
    if word in {"flat", "cup"}:
        return _with(meaning, "point", word, token, words)
    if word in {"square", "star"}:
        drive = {"square": "square", "star": "hexalobular"}[word]
        return _with(meaning, "drive", drive, token, words)
    if word == "dome":
        lines = [replaced(words.line, token.start, token.end, head) for head in ("round", "button")]
        raise AskBack(f"{quoted(token.text)} can be a round or a button head", lines)
    says = f"{quoted(token.text)} is said of nuts and washers; write half nut, stiff nut or spring washer."
    raise InputError.of(says, field=words.field)


def _settle_kind(meaning: Meaning, words: Words) -> Meaning:
    """Settle what 'set screw' means, and that grub screws and studs have no head."""
    if meaning.head == "none" and meaning.kind in ("", "set screw"):
        meaning = replace(meaning, kind="grub screw")
    if meaning.head == "coach":
        if meaning.kind not in ("", "bolt"):
            raise contradiction(words.line, words.of("kind"), words.of("head", "context") or words.of("kind"))
        return replace(meaning, kind="bolt")
    if meaning.kind in {"grub screw", "stud"}:
        if meaning.head not in ("", "none"):
            raise contradiction(words.line, words.of("kind"), words.of("head", "context") or words.of("kind"))
        return replace(meaning, head="none")
    if meaning.kind != "set screw" or meaning.head:
        return meaning
    token = next(word for word in words.tokens if word.value == "set screw")
    head = {"hex socket": "socket cap", "slotted": "cheese", "cross": "pan"}.get(meaning.drive, "hex")
    lines = [
        replaced(words.line, token.start, token.end, each) for each in ("grub", f"{head} head set screw")
    ]
    raise AskBack(f"{quoted(token.text)} can be without a head, or threaded all along up to a head", lines)


def _settle_drive(meaning: Meaning, words: Words) -> Meaning:
    """Settle 'socket', and the drives that a head brings with it."""
    if meaning.drive == "hex socket" and not meaning.is_wood:
        if meaning.head == "csk":
            meaning = replace(meaning, head="socket csk")
        elif not meaning.head:
            token = next(word for word in words.tokens if word.value == "hex socket")
            heads = ("socket cap", "socket csk", "button hex socket", "hex socket grub")
            lines = [replaced(words.line, token.start, token.end, head) for head in heads]
            raise AskBack(f"{quoted(token.text)} says how it is turned, not which head it has", lines)
    if meaning.head in {"socket cap", "socket csk"} and not meaning.drive:
        meaning = replace(meaning, drive="hex socket")
    if meaning.head == "knurled" and not meaning.drive:
        meaning = replace(meaning, drive="hand")
    return meaning


def _check(meaning: Meaning, words: Words) -> None:
    """Refuse words that cannot be true of one screw."""
    drives, heads = words.of("drive"), words.of("head", "kind")
    if meaning.drive in DRIVES_REFUSED.get(meaning.head, ()) or (meaning.kind == "stud" and meaning.drive):
        drives = drives or words.of("context")
        heads = [token for token in heads or words.of("context") if token not in drives] or drives
        raise contradiction(words.line, heads, drives)
    machine = meaning.kind not in ("", "coach screw") or meaning.point or meaning.family == "machine"
    if meaning.is_wood and (machine or meaning.head not in ("", *WOOD_HEADS)):
        says = f"A wood screw has a head that is {', '.join(WOOD_HEADS)}, and no point or thread of its own"
        odd = [
            token
            for token in words.of("head", "kind", "point")
            if token.value not in (*WOOD_HEADS, "coach screw")
        ]
        raise AskBack(
            says, [line for line in (_dropped(words, odd), _dropped(words, words.of("family"))) if line]
        )


def _dropped(words: Words, tokens: list[Token]) -> str:
    line = words.line
    for token in sorted(tokens, key=lambda each: -each.start):
        line = replaced(line, token.start, token.end, "screw" if token.slot == "family" else "")
    return line if tokens else ""
