"""What a joint goes through: a line parted into its fastener, washers and nuts, and parts in their order."""

from __future__ import annotations

import re
from dataclasses import dataclass, field, replace
from typing import Any

from calculators.hardware.designation import read_hardware, write_hardware
from calculators.hardware.designation.words import vocabulary
from calculators.hardware.fastener import Fastener, Hardware
from calculators.planning.lines.counts import NUMBERS, in_figures
from calculators.planning.lines.joint_details import say_item_detail, take_details
from calculators.planning.lines.known import Known, stems
from calculators.planning.lines.line import GAP, HAS_WORD, Line, aside_in, refusal
from calculators.planning.lines.materials_said import is_material
from calculators.planning.lines.measures import MEASURE, length_of
from calculators.planning.model import Component, StackMember, Unit
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

WRITE = "write it as M5 x 20 csk: plate 2 into rail 18, or P07 to P01 with 12 No. 4 x 1/2 csk brass"
_SMALL = (
    r"(?:passing through|through and through|right through|through|thro'?|thru|down into|up into|into|onto"
    r"|on to|in to"
    r"|(?<!cut )(?<!down )(?<!threaded )(?<!shortened )to|in|on|under|beneath|with|w/|using|and|plus|for|from"
    r"|joining|holding|fixing|securing|by|&|\+)"
)
_BREAK = re.compile(
    rf"[;:{GAP}]|(?<=[^\W_]) -+ (?=[^\W\d_]|[\U000f0000-\U000f0fff])"
    rf"|,(?![0-9])|(?<![0-9]),|(?:^|(?<=[\s,;:{GAP}])){_SMALL}(?=\s|$)",
    re.IGNORECASE,
)
INTO = ("into", "in", "in to", "down into", "up into")
THROUGH = ("through", "thru", "thro", "thro'", "passing through", "right through", "through and through")
_NUMBER_BEFORE = re.compile(r"[0-9¼½¾⅓⅔⅛⅜⅝⅞] ?$")
_SIZE = (
    r"(?:(?:no|nr|number)\.? ?[0-9]|№ ?[0-9]|# ?[0-9]|m ?[0-9]+(?:\.[0-9]+)?(?![^\W_x])|[0-9]{1,2} ?ba"
    r"(?![^\W_])"
    r"|[0-9]+(?: [0-9]+)?(?:/[0-9]+)?(?: ?[- ] ?[0-9]{2,3})? ?(?:bsf|bsw|unc|unf|unef|whitworth|whit|bsc"
    r"|me)(?![^\W_])"
    r"|(?:[0-9]{1,2}|[0-9]+/[0-9]+)-[0-9]{2,3}(?![^\W_]))"
)
_SIZED = re.compile(rf"(?<![^\W_]){_SIZE}|(?<![^\W_])[0-9./¼½¾ ]+ ?x ?[0-9./¼½¾]", re.IGNORECASE)
_SCREW_WORD = re.compile(
    r"(?<![^\W_])(?:screws?|bolts?|studs?|studding|csk|countersunk|woodscrews?|setscrews?|grub|coach|rh"
    r"|pan head|cheese head)(?![^\W_])",
    re.IGNORECASE,
)
_COUNTED = re.compile(
    rf"^(?:(?P<count>[0-9]{{1,7}}|{'|'.join(NUMBERS)}) ?(?:x |off |× )? ?(?={_SIZE})|"
    rf"(?P<count2>[0-9]{{1,7}}) (?:x )?(?=[0-9]+(?:\.[0-9]+)? ?x ?[0-9]))",
    re.IGNORECASE,
)
_NOT_COUNTED = re.compile(
    r"^[0-9]{1,2} ?(?:ba|bsf|bsw|unc|unf)|^[0-9]+ [0-9]+/[0-9]+ ?(?:bsf|bsw|unc|unf|x)", re.IGNORECASE
)
ITEM = re.compile(
    r"(?<![^\W_])(?:washers?|nuts?|inserts?|locknuts?|wingnuts?|nylocs?|screw cups?)(?![^\W_])", re.IGNORECASE
)
_HOW_MANY = re.compile(
    r"^(?P<count>[1-9]|a|an|one|two|three|four|a pair of)(?: x)? (?![0-9./]+ ?(?:ba|bsf|bsw|un|x|mm)"
    r"(?![^\W_]))",
    re.IGNORECASE,
)
_TRAILING = re.compile(rf"^(?P<name>.*?)[ ,=]+(?P<thick>{MEASURE})(?: thick)?$", re.IGNORECASE)
_LEADING = re.compile(rf"^(?P<thick>{MEASURE}) (?:thick )?(?P<name>.+)$", re.IGNORECASE)
_EDGE_OF = re.compile(
    r"^(?:the )?(?P<where>edge|end)(?: grain)? of (?:the )?(?P<name>.+)$|^(?P<name2>.+?)(?:'s)? "
    r"(?P<where2>edge|end)(?: grain)?$",
    re.IGNORECASE,
)
_BRACKETS = re.compile(r"\([^()]*\)")


@dataclass(slots=True)
class Piece:
    """One piece of a chain: the small word before it, its text, what stood in brackets behind it."""

    word: str
    text: str
    details: list[str] = field(default_factory=list)


@dataclass(slots=True)
class Member:
    """A member of the stack as the line says it."""

    word: str
    part: Component | None = None
    item: str = ""
    said: dict[str, Any] = field(default_factory=dict)
    called: str = ""
    way: str = ""


def pieces_of(line: Line, text: str) -> list[Piece]:
    """Part a text at its commas and small words.

    Args:
        line: the line that it is of.
        text: a piece of its shown text.

    Returns:
        The pieces in their order.

    Source: this project.
    """
    pieces: list[Piece] = []
    word, start = "", 0
    for found in (*_BREAK.finditer(text), None):
        if found is not None and found[0].casefold() == "in" and _is_inch(text, found.start(), found.end()):
            continue
        piece = text[start : found.start() if found is not None else len(text)].strip(" .-")
        if HAS_WORD.search(piece) and not is_only_brackets(line, piece):
            pieces.append(_piece(line, word, piece))
            word = ""
        elif piece and pieces:
            pieces[-1].details += [line.as_written(sign)[1:-1] for sign in aside_in(piece)]
        if found is not None:
            sign = found[0].casefold()
            word = sign if sign not in (",", ";", ":", GAP) and "-" not in sign else ""
            start = found.end()
    return pieces


def _is_inch(text: str, start: int, end: int) -> bool:
    """Whether `in` is the unit of the number before it, not a small word."""
    if not _NUMBER_BEFORE.search(text[:start]):
        return False
    following = text[end:].lstrip()
    if not following or following[0] in ",;:()" or not following[0].isalpha():
        return True
    last = re.split(rf"[,;:{GAP}]", text[:start])[-1]
    metric = re.search(r"(?<![^\W_])m ?[0-9]", last, re.IGNORECASE) is not None
    first = re.split(r"[ ,;:]", following)[0]
    if metric:  # `M3 x 8 in brass` is asked back; `M6 x 1 in hex` is an inch
        return first.casefold() in vocabulary() and not is_material(first)
    return not is_material(first) or is_hardware_words(first)


def is_only_brackets(line: Line, piece: str) -> bool:
    """Say whether a piece is what stood in brackets and nothing else.

    Args:
        line: the line.
        piece: a piece of its text.

    Returns:
        True when it is.

    Source: this project.
    """
    signs = aside_in(piece)
    return len(signs) == len(piece.replace(" ", "")) and all(
        line.as_written(sign).startswith("(") for sign in signs
    )


def _piece(line: Line, word: str, text: str) -> Piece:
    details = []
    for sign in aside_in(text):
        inner = line.as_written(sign)
        if inner.startswith("("):
            details.append(inner[1:-1])
            text = text.replace(sign, " ")
    return Piece(word, " ".join(text.split()), details)


def looks_like_fastener(text: str, known: Known) -> bool:
    """Say whether a piece has the look of a screw or bolt.

    Args:
        text: the piece.
        known: what there is.

    Returns:
        True for a size of one, or a word that only they have, where no part of that name is known.

    Source: this project.
    """
    if ITEM.search(text) and not re.search(r"screws?(?! cup)|bolt|stud", text, re.IGNORECASE):
        return False
    if (
        known.by_mark(text.split(" ")[0]) is not None
        and known.exact(text.split(" ")[0]) is not None
        and " x" not in text
    ):
        return False
    return _SIZED.search(text) is not None or (
        _SCREW_WORD.search(text) is not None and known.exact(text) is None
    )


def count_before(text: str) -> tuple[int | None, str]:
    """Part the count from the fastener behind it.

    Args:
        text: a fastener, perhaps with its count before it.

    Returns:
        The count [1] or None, and the fastener.

    Source: common practice.

    Example:
        >>> count_before("12 No 4 x 1/2 csk"), count_before("2 BA x 3/4 cheese")
        ((12, 'No 4 x 1/2 csk'), (None, '2 BA x 3/4 cheese'))
    """
    found = None if _NOT_COUNTED.match(text) else _COUNTED.match(text)
    if found is None:
        return None, text
    return in_figures(found["count"] or found["count2"]), text[found.end() :].strip()


def is_hardware_words(text: str) -> bool:
    """Say whether a piece is words of a screw's head, drive, material or finish alone.

    Args:
        text: a piece.

    Returns:
        True when each word of it is.

    Source: this project.

    Example:
        >>> is_hardware_words("slotted brass"), is_hardware_words("plate")
        (True, False)
    """
    known = vocabulary()
    words = re.sub(r"[^a-z0-9 ]", " ", text.casefold()).split()
    slots = ("head", "drive", "kind", "point", "material", "finish", "grade", "series", "family")
    whole = known.get(" ".join(words), ("", ""))
    words = [word for word in words if word not in ("screw", "screws")]
    return bool(words) and (
        whole[0] in slots or all(known.get(word, ("", ""))[0] in (*slots, "noise") for word in words)
    )


def fastener_line(text: str, unit: Unit) -> tuple[str, Fastener]:
    """Bring a fastener to its canonical line.

    Args:
        text: the fastener as written.
        unit: [mm or in] the build's unit.

    Returns:
        The line, and the fastener.

    Raises:
        InputError: when it cannot be read or is no fastener, with whole lines as choices.

    Source: this project.
    """
    found = read_hardware(text, unit=unit, field="line")
    if not isinstance(found, Fastener):
        raise refusal(f"{quoted(text)} is no screw or bolt; {WRITE}.")
    return _canonical(found, text, unit), found


def _canonical(found: Hardware, text: str, unit: Unit) -> str:
    line = write_hardware(found)
    try:
        return line if read_hardware(line, unit=unit) == found else text
    except InputError:
        return text


def items_of(piece: Piece, fastener: Fastener | None, unit: Unit) -> list[Member]:
    """Read washers, nuts and inserts; one that names no size is of the fastener's.

    Args:
        piece: the piece.
        fastener: the joint's fastener.
        unit: [mm or in] the build's unit.

    Returns:
        The members; as many as the piece counts.

    Raises:
        InputError: when it cannot be read.

    Source: this project.
    """
    text, count = piece.text, 1
    found = _HOW_MANY.match(text)
    if found is not None:
        count = in_figures(found["count"])
        text = text[found.end() :]
    size = fastener.size if fastener is not None else ""
    text = re.sub(r"lock ?nut", "half nut", text, flags=re.IGNORECASE)
    text = re.sub(r"wingnut", "wing nut", text, flags=re.IGNORECASE)
    text = re.sub(r"^(?:an? )?nylocs?$", "nyloc nut", text, flags=re.IGNORECASE)
    text = re.sub(r"^screw cups?$", "cup washer", text, flags=re.IGNORECASE)
    sized = _SIZED.search(text) is not None and re.search(rf"(?<![^\W_]){_SIZE}", text, re.IGNORECASE)
    try:
        item = read_hardware(text if sized or not size else f"{size} {text}", unit=unit, field="line")
    except InputError:
        if sized or not size or not re.search(r"[0-9]", text):
            raise
        item = read_hardware(text, unit=unit, field="line")
    if isinstance(item, Fastener):
        raise refusal(f"{quoted(text)} is a second fastener; write one line for each.")
    said: dict[str, Any] = {}
    for detail in piece.details:
        say_item_detail(detail, unit, said)
    return [Member(piece.word, item=_canonical(item, text, unit), said=dict(said)) for _ in range(count)]


def member_of(piece: Piece, known: Known, line: Line, among: tuple[Component, ...] = ()) -> Member:
    """Find the part that a piece speaks of, with its thickness and what else is said of it.

    Args:
        piece: the piece.
        known: what there is.
        line: the line that it is of.
        among: parts that the line has named already; a material can mean one of them.

    Returns:
        The member.

    Raises:
        InputError: when there is no such part, or several.

    Source: this project.
    """
    if piece.text.isdecimal() and known.by_mark(piece.text) is None:
        says = (
            f"{quoted(piece.text)} stands alone; write {piece.text} off where it is how many, or a thickness "
            f"behind its part, as rail {piece.text}."
        )
        raise refusal(says, f"{piece.text} off")
    if looks_like_fastener(piece.text, known):
        raise refusal(f"{quoted(piece.text)} is a second fastener; write one line for each.")
    said: dict[str, Any] = {}
    for detail in piece.details:
        left = take_details(detail, known.unit, said)
        if HAS_WORD.search(left):
            bare = re.fullmatch(MEASURE, left, re.IGNORECASE)
            if bare is None:
                raise refusal(
                    f"{quoted(left)} is not understood of {quoted(piece.text)}; write such as (thread 18, "
                    f"drilled 22, edge 6)."
                )
            said["thickness"] = length_of(left, known.unit)
    text = line.opened(piece.text) if aside_in(piece.text) else piece.text
    found, name = _exactly(text, known, said)
    if found is None:
        rest = take_details(text, known.unit, said)
        found, name = _exactly(rest, known, said) if rest != text else (None, rest)
        text = rest
    way = ""
    edge = _EDGE_OF.match(text)
    if found is None and edge is not None:
        way = (edge["where"] or edge["where2"]).lower()
        text = edge["name"] or edge["name2"]
        found, name = _exactly(text, known, said)
    if found is None:
        found, name = _nearly(text, known, said, among)
    if known.copy(name) is not None:
        name = found.name
    return Member(piece.word, found, said=said, called=re.sub(r"^(?:the|an?|each) ", "", name), way=way)


def _exactly(text: str, known: Known, said: dict[str, Any]) -> tuple[Component | None, str]:
    """A mark or a name as it is written, alone or with a thickness beside it; and the name alone."""
    if not text:
        return None, text
    copy = known.copy(text)
    found = copy[0] if copy is not None else known.exact(text)
    if found is not None:
        return found, text
    for pattern in (_TRAILING, _LEADING):
        parted = pattern.match(text)
        if parted is None:
            continue
        name = parted["name"].strip()
        copy = known.copy(name)
        found = copy[0] if copy is not None else known.exact(name)
        if found is not None:
            said["thickness"] = length_of(parted["thick"], known.unit)
            return found, name
    return None, text


def _nearly(
    text: str, known: Known, said: dict[str, Any], among: tuple[Component, ...]
) -> tuple[Component, str]:
    """A name in part, or a material that one part alone is of."""
    name, thick = text, ""
    for pattern in (_TRAILING, _LEADING):
        parted = pattern.match(text)
        if parted is not None and not known.candidates(text):
            name, thick = parted["name"].strip(), parted["thick"]
            break
    candidates = known.candidates(name)
    if len(candidates) > 1:
        raise known.ambiguous(name, candidates)
    found = candidates[0] if candidates else _by_material(name, known, among)
    if thick:
        said["thickness"] = length_of(thick, known.unit)
    return found, name if candidates else found.name


def _by_material(name: str, known: Known, among: tuple[Component, ...]) -> Component:
    if not is_material(name):
        raise known.unknown(name)
    wanted = set(stems(name))
    named = [one for one in among if wanted <= set(stems(one.material))]
    every = named or known.of_material(name)
    if len(every) == 1:
        return every[0]
    if every:
        listed = ", ".join(known.shown(one.mark) for one in every[:5])
        raise refusal(
            f"{quoted(name)} is a material, and {listed} are of it; write which part is meant.",
            *(one.mark for one in every[:12]),
        )
    raise refusal(
        f"{quoted(name)} is a material, and no part here is of it; add the part first, or write its mark."
    )


def merged(member: Member) -> StackMember:
    """Make the member of a stack.

    Args:
        member: what the line says.

    Returns:
        The record.

    Source: this project.
    """
    if member.part is not None:
        return replace(StackMember(part=member.part.mark), **member.said)
    return replace(StackMember(item=member.item), **member.said)


def set_brackets_aside(line: Line) -> None:
    """Put what stands in round brackets aside, so that its commas part nothing.

    Args:
        line: the line.

    Source: this project.
    """
    line.set_aside(_BRACKETS)
