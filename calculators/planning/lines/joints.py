"""A joint on one line: `No. 4 x 1/2 in csk brass: hinge into side, 6 off`, `M5 x 20 csk, plate, rail`."""

from __future__ import annotations

import re
from dataclasses import replace
from typing import Any

from calculators.hardware.fastener import Fastener
from calculators.planning.lines.checking import kept
from calculators.planning.lines.counts import check_count, one_count, take_count_behind
from calculators.planning.lines.faces import FACE_WORD, face_of
from calculators.planning.lines.joint_chain import (
    INTO,
    ITEM,
    THROUGH,
    WRITE,
    Member,
    Piece,
    count_before,
    fastener_line,
    is_hardware_words,
    items_of,
    looks_like_fastener,
    member_of,
    merged,
    pieces_of,
    set_brackets_aside,
)
from calculators.planning.lines.joint_details import take_details
from calculators.planning.lines.joint_words import take_joint_words
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import GAP, HAS_WORD, Line, refusal, tidied
from calculators.planning.lines.places import places_in, places_of
from calculators.planning.model import Build, Component, Joint, LayerHole, StackMember
from calculators.planning.tree import copy_name
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

MOST_COUNT = 1_000_000
_MARK = re.compile(r"^(?P<mark>[^\W\d_]{1,4}-?[0-9]{1,6}|[^\W_](?:[^\W_]|-){0,19}(?=:))(?P<stop> ?[:.,]| |$)")
_ON = re.compile(
    rf"(?:[,;:{GAP}] ?|(?<![^\W_]))(?:(?:placed |home )(?:on )?|on )(?:the )?(?:{FACE_WORD} of (?:the )?"
    rf"(?P<of>[^,;:(){GAP}]+?)|(?P<name>[^,;:(){GAP}]+?) (?:the )?{FACE_WORD.replace('face>', 'face2>')})"
    rf"(?: at (?P<places>[-+0-9].*))?(?= ?(?:[,;{GAP}]|$))",
    re.IGNORECASE,
)
_HOME = re.compile(rf"[,;{GAP}] ?home (?P<name>[^,;:(){GAP}]+)", re.IGNORECASE)
_OTHER_HOLD = re.compile(
    r"(?<![^\W_])(?:glued?|(?:panel|split|taper|veneer) pins?|pins?|nails?|nailed|brads?|dowels?|dowelled"
    r"|biscuits?|rivets?|riveted|staples?|solder(?:ed)?|weld(?:ed)?|mortise|tenon|dovetails?)(?![^\W_])",
    re.IGNORECASE,
)
_TITLE = re.compile(r"^(?P<title>[\U000f0000-\U000f0fff]) ?:? ?")


def read_joint_line(text: str, build: Build, now: Joint | None = None) -> Joint:
    """Read a joint, or the changes to one, from a line.

    The parts stand in the order of the stack, from the head side: `A into B`, `through A and B`, `A, B`. Each
    is said by its mark, its name or, where one part alone is of it, its material (`into brass`). A thickness
    behind a part's name is along the screw; where none is written, and the part lies nowhere yet, a block's
    own thickness is filled in, as it is gone through from face to face (`into the edge of side` takes its
    width and puts the screw in the middle of its thickness, `into the end of rail` its length). The last
    part takes the thread of a machine screw, the pilot of a wood screw or the insert; with a nut all are
    clear. The home is the first part. A count is kept only where there are no places.

    Args:
        text: the line.
        build: the build: its unit, its parts.
        now: the joint as it is, where the line changes it: what the line does not say stays.

    Returns:
        The joint.

    Raises:
        InputError: when the line cannot be read, with a sentence and what may be meant.

    Source: common practice; the forms are this project's.

    Example:
        >>> two = (Component("P01", "sides"), Component("P02", "hinges"))
        >>> box = Build("B1", "Box", components=two)
        >>> joint = read_joint_line("No. 4 x 1/2 in csk brass: hinge into side, 6 off", box)
        >>> joint.title, joint.fastener, joint.count, [member.part for member in joint.stack]
        ('Hinge to side', 'No. 4 x 1/2 csk brass', 6, ['P02', 'P01'])
    """
    return joint_from(text, Known(build), now)


def joint_from(text: str, known: Known, now: Joint | None = None) -> Joint:
    """Read a joint against what is known; as `read_joint_line`.

    Args:
        text: the line.
        known: what there is so far.
        now: the joint as it is, where it is changed.

    Returns:
        The joint.

    Raises:
        InputError: when it cannot be read.

    Source: this project.
    """
    line = Line(text)
    if not line.shown and line.note is None:
        raise refusal(f"The line says nothing; {WRITE}.")
    said: dict[str, Any] = {} if line.note is None else {"note": line.note}
    mark = _take_mark(line, known, now)
    quoted_title = line.take(_TITLE) if len(line.plain) > 1 or now is not None else None
    if quoted_title is not None:
        said["title"] = line.opened(quoted_title["title"])
        line.replace(0, 1, "")
    _keep_names_whole(line, known)
    set_brackets_aside(line)
    _take_home(line, known, said)
    count = take_count_behind(line)
    said.update(take_joint_words(line, known.unit))
    before, members, fastener, counted = _chain(line, known, now, said)
    count = one_count(count, counted)
    if before and "title" not in said:
        said["title"] = before
    if count is not None:
        said["count"] = check_count(count, MOST_COUNT)
    if now is None and not any(member.part for member in members):
        raise refusal(f"The line names no part that the screw goes through or into; {WRITE}.")
    if members:
        said["stack"] = _stack(members, fastener, known, now)
        if now is None and "title" not in said:
            said["title"] = _title([member for member in members if member.part])
        said.setdefault("home", said["stack"][0].part if now is None else now.home) if _first(
            said["stack"]
        ) else None
        if now is None and not said.get("home"):
            said["home"] = _first(said["stack"])
    return kept(_finished(mark, said, known, now), known.unit)


def _first(stack: tuple[StackMember, ...]) -> str:
    return next((member.part for member in stack if member.part), "")


def _take_mark(line: Line, known: Known, now: Joint | None) -> str:
    """Take a joint's mark from the beginning; a component's mark begins the chain, a thread the screw."""
    found = _MARK.match(line.plain)
    if found is None:
        return ""
    mark = line.shown[found.start("mark") : found.end("mark")]
    if now is not None and mark.casefold() == now.mark.casefold():
        line.replace(0, found.end(), "")
        return ""
    if known.by_mark(mark) is not None:
        return ""
    taken = known.joint_by_mark(mark)
    if taken is not None:
        if now is not None:
            raise refusal(
                f"The line begins with {mark}, but it is {now.mark} that is changed; leave the mark out.",
                now.mark,
            )
        free = known.marks.next("joint")
        raise refusal(
            f"The mark {mark} is that of {quoted(taken.title)} already; write another, such as {free}, or "
            f"none.",
            free,
        )
    letters = mark.rstrip("0123456789").rstrip("-").upper()
    if (
        now is not None
        or not letters
        or letters in ("M", "BA", "NO", "NR", "UNC", "UNF", "BSF", "BSW", "ME")
        or not mark[-1:].isdecimal()
    ):
        return ""
    if letters in ("P", "A", "G") and found["stop"].strip() not in (":", "."):
        raise known.unknown(mark)
    line.replace(0, found.end(), "")
    return mark


def _keep_names_whole(line: Line, known: Known) -> None:
    """Put every name that holds a comma or a small word aside, so that nothing parts it."""
    for name in known.awkward_names(line.plain):
        line.set_aside(re.compile(rf"(?<![^\W_]){re.escape(name)}(?![^\W_])", re.IGNORECASE))


def _take_home(line: Line, known: Known, said: dict[str, Any]) -> None:
    """Take `on P02 bottom at 20,30; 20,70`, or `home P02`, where a part of that name is there."""
    found = _ON.search(line.plain)
    if found is not None:
        which = "of" if found["of"] else "name"
        name = line.opened(line.shown[found.start(which) : found.end(which)])
        exact = known.exact(name)
        one = known.copy(name) or ((exact, None) if exact is not None else None)
        if one is not None:
            component, number = one
            said["home"] = _home_name(component, number, known)
            said["face"] = face_of(component, found["face"] or found["face2"])
            if found["places"]:
                places = Line(f"at {found['places']}")
                said["places"] = places_of(places_in(places, known.unit, said["face"]), known.unit)
            line.replace(found.start(), found.end(), GAP)
            return
    found = _HOME.search(line.plain)
    if found is not None:
        name = line.opened(line.shown[found.start("name") : found.end("name")].strip())
        component, number = known.copy(name) or (known.find(name), None)
        said["home"] = _home_name(component, number, known)
        line.replace(found.start(), found.end(), GAP)


def _home_name(component: Component, number: int | None, known: Known) -> str:
    if number is None:
        return component.mark
    total = known.total(component.mark)
    if number > total:
        raise refusal(f"There is no copy {number} of {component.mark}: it is there {total} times.")
    return copy_name(component.mark, number, total)


def _chain(
    line: Line, known: Known, now: Joint | None, said: dict[str, Any]
) -> tuple[str, list[Member], Fastener | None, int | None]:
    """Part what is left into a title, the fastener with its count, and the members of the stack."""
    head, tail = _at_colon(line, known)
    pieces_before, pieces = pieces_of(line, head), pieces_of(line, tail)
    every = [*pieces_before, *pieces]
    at = next((i for i, piece in enumerate(every) if looks_like_fastener(piece.text, known)), None)
    fastener: Fastener | None = None
    count = None
    if at is not None:
        count, text = count_before(line.opened(every[at].text))
        text, used = _whole_fastener(text, every, at, known)
        if every[at].details:
            raise refusal(
                f"{quoted(every[at].details[0])} in brackets stands behind the fastener, not behind a "
                f"part; {WRITE}."
            )
        try:
            said["fastener"], fastener = fastener_line(text, known.unit)
        except InputError:
            if _OTHER_HOLD.match(text):
                raise _no_fastener(line) from None
            parted = _parted(text, known)
            if parted is None:
                raise
            said["fastener"], fastener, name = parted
            named = Piece("", name)
            every.insert(at + 1, named)
            used = {i + 1 for i in used}
            (pieces_before if at < len(pieces_before) else pieces).append(named)
        every = [piece for i, piece in enumerate(every) if i != at and i not in used]
    elif now is None:
        raise _no_fastener(line)
    else:
        fastener = fastener_line(now.fastener, known.unit)[1]
    in_head = [
        piece for piece in every if piece in pieces_before and not any(piece is each for each in pieces)
    ]
    in_tail = [piece for piece in every if not any(piece is each for each in in_head)]
    head_has_screw = at is not None and at < len(pieces_before)
    if not head or head_has_screw:
        return "", _members([*in_head, *in_tail], known, line, fastener), fastener, count
    return (*_with_title(head, in_head, in_tail, known, line, fastener), fastener, count)


def _no_fastener(line: Line) -> InputError:
    """The sentence for a line without a fastener; what holds without a thread belongs in the order."""
    other = _OTHER_HOLD.search(line.plain)
    if other is None:
        return refusal(f"The line names no screw or bolt with its size; {WRITE}.")
    return refusal(
        f"{quoted(other[0])} is no screw or bolt, and only those are joints here; write it as a step of the "
        f"order, such as Glue the sides to the base. A joint is written as M5 x 20 csk: plate 2 into rail 18."
    )


def _parted(text: str, known: Known) -> tuple[str, Fastener, str] | None:
    """Part a fastener from the name of a part that stands behind it with nothing between (`.. csk hinge`)."""
    words = text.split(" ")
    refused: InputError | None = None
    for at in range(1, len(words)):
        name = " ".join(words[at:])
        if len(known.candidates(name)) != 1 and known.exact(name) is None:
            continue
        try:
            return (*fastener_line(" ".join(words[:at]), known.unit), name)
        except InputError as error:
            refused = refused or error
    if refused is not None:
        raise refused
    return None


def _at_colon(line: Line, known: Known) -> tuple[str, str]:
    """Part a line at its colon; the first piece is empty where there is none."""
    head, colon, tail = line.shown.partition(":")
    return (head, tail) if colon else ("", head)


def _whole_fastener(text: str, pieces: list[Piece], at: int, known: Known) -> tuple[str, set[int]]:
    """Add the words behind commas that are of the fastener too: `M5 x 20 csk, slotted, brass`."""
    used: set[int] = set()
    for i in range(at + 1, len(pieces)):
        piece = pieces[i]
        if (
            piece.word
            or piece.details
            or not is_hardware_words(piece.text)
            or known.exact(piece.text) is not None
        ):
            break
        text = f"{text} {piece.text}"
        used.add(i)
    return text, used


def _with_title(
    head: str, in_head: list[Piece], in_tail: list[Piece], known: Known, line: Line, fastener: Fastener | None
) -> tuple[str, list[Member]]:
    """What stands before the colon is the title, and names the parts too where what follows does not."""
    title = line.opened(tidied(head))
    title = title[:1].upper() + title[1:]
    parts_behind = [piece for piece in in_tail if not ITEM.search(piece.text)]
    if len(parts_behind) >= 2:
        return title, _members(in_tail, known, line, fastener)
    try:
        first = _members(in_head, known, line, fastener)
    except InputError:
        if not parts_behind:
            raise
        return title, _members(in_tail, known, line, fastener)
    if first and all(known.copy(line.opened(piece.text)) is not None for piece in in_head):
        title = ""  # marks alone are no title; it is made of the parts' names
    among = tuple(member.part for member in first if member.part is not None)
    behind = _members(in_tail, known, line, fastener, among)
    for member in behind:
        same = next(
            (
                each
                for each in first
                if member.part is not None and each.part is not None and each.part.mark == member.part.mark
            ),
            None,
        )
        if same is not None:
            first.remove(same)
            member.said = {**same.said, **member.said}
    return title, _in_order([*first, *behind])


def _members(
    pieces: list[Piece],
    known: Known,
    line: Line,
    fastener: Fastener | None,
    among: tuple[Component, ...] = (),
) -> list[Member]:
    """Read each piece as a part or an item; what is said of a part in a piece of its own goes to the part."""
    members: list[Member] = []
    unit = known.unit
    for piece in pieces:
        if ITEM.search(piece.text) and known.exact(piece.text) is None:
            members += items_of(replace(piece, text=line.opened(piece.text)), fastener, unit)
            continue
        previous = members[-1] if members and members[-1].part is not None else None
        if previous is not None and _is_detail(piece, known, line, previous):
            continue
        named = (*among, *(each.part for each in members if each.part is not None))
        members.append(member_of(piece, known, line, named))
    return _in_order(members)


def _is_detail(piece: Piece, known: Known, line: Line, previous: Member) -> bool:
    """Whether a piece says something of the part before it (`edge 6`, `close fit`)."""
    if piece.details or known.candidates(line.opened(piece.text)):
        return False
    said: dict[str, Any] = {}
    left = take_details(piece.text, known.unit, said)
    if said and not HAS_WORD.search(left):
        previous.said.update(said)
        return True
    return False


def _in_order(members: list[Member]) -> list[Member]:
    """Put washers behind all parts under the head where there is no nut, and before it where there is."""
    last = max((i for i, member in enumerate(members) if member.part is not None), default=-1)
    if last < 0:
        return members
    behind = members[last + 1 :]
    washers = [member for member in behind if "washer" in member.item]
    nuts = [member for member in behind if "nut" in member.item]
    others = [member for member in behind if member not in washers and member not in nuts]
    if nuts:
        return [*members[: last + 1], *others, *washers, *nuts]
    return [*washers, *members[: last + 1], *others]


def _stack(
    members: list[Member], fastener: Fastener | None, known: Known, now: Joint | None
) -> tuple[StackMember, ...]:
    """Say what each part takes, and how thick it is where that is known."""
    old = {member.part: member for member in now.stack if member.part} if now is not None else {}
    parts = [member for member in members if member.part is not None]
    has_nut = any(" nut" in f" {member.item}" for member in members)
    has_insert = any("insert" in member.item for member in members)
    for member in parts:
        assert member.part is not None
        before = old.get(member.part.mark)
        last = member is parts[-1]
        passed = (
            has_nut or not last or (member.word in THROUGH and len(parts) > 0 and member.word not in INTO)
        )
        if has_insert and last:
            takes = "insert"
        elif passed:
            takes = "clearance"
        else:
            takes = "pilot" if fastener is not None and fastener.family == "wood" else "thread"
        if before is not None:
            kept_fields = {
                name: getattr(before, name) for name in _KEPT if getattr(before, name) not in ("", None, ())
            }
            member.said = {**kept_fields, **member.said}
        member.said.setdefault("takes", takes)
        _fill_thickness(member, known)
    return tuple(merged(member) for member in members)


_KEPT = ("thickness", "fit", "thread", "thread_depth", "drilled_depth", "grain", "edge", "end", "holes")


def _fill_thickness(member: Member, known: Known) -> None:
    """Fill in how thick a block is along the screw while it lies nowhere; face on unless it is said."""
    part = member.part
    assert part is not None
    size = part.size
    name = {"edge": "width", "end": "length"}.get(member.way, "thickness")
    if member.way == "end":
        member.said.setdefault("grain", "end")
    if member.way == "edge" and size.thickness is not None:
        member.said.setdefault("edge", Length(size.thickness.ticks // 2))
    thickness = getattr(size, name) if size.shape == "block" else None
    if "thickness" not in member.said and thickness is not None and not part.poses:
        member.said["thickness"] = thickness


def _title(parts: list[Member]) -> str:
    first, last = parts[0].called, parts[-1].called
    title = f"{first} to {last}" if len(parts) > 1 else first
    return (title[:1].upper() + title[1:])[:200]


def _finished(mark: str, said: dict[str, Any], known: Known, now: Joint | None) -> Joint:
    bore = said.pop("counterbore", None)
    if bore is not None:
        stack = said.get("stack", now.stack if now is not None else ())
        said["stack"] = _counterbored(stack, *bore)
    sunk = said.pop("sunk", None)
    if sunk is not None:
        said["stack"] = _nut_sunk(said.get("stack", now.stack if now is not None else ()), *sunk)
    _settle_count(said, known, now)
    if now is None:
        return Joint(mark or known.marks.next("joint"), said.pop("title"), said.pop("fastener"), **said)
    if not said:
        raise refusal(f"The line changes nothing of {now.mark}; {WRITE}.")
    changed = replace(now, **said)
    if changed.home and changed.face:
        found = known.copy(changed.home)
        if found is not None and ("home" in said or "face" in said):
            face_of(found[0], changed.face)
    return changed


def _counterbored(
    stack: tuple[StackMember, ...], wide: Length | None, deep: Length
) -> tuple[StackMember, ...]:
    """Put the counterbore into the first part, where the head sits."""
    at = next((i for i, member in enumerate(stack) if member.part), None)
    if at is None:
        raise refusal("The counterbore is in no part; name the parts of the joint.")
    return _bored(stack, at, wide, deep)


def _nut_sunk(stack: tuple[StackMember, ...], wide: Length | None, deep: Length) -> tuple[StackMember, ...]:
    """Put a counterbore into the last part, behind which the nut is."""
    parts = [i for i, member in enumerate(stack) if member.part]
    if len(parts) < 2 or not any("nut" in member.item for member in stack[parts[-1] :]):
        raise refusal("A nut is sunk in the last of two parts or more; name the parts, then the nut.")
    return _bored(stack, parts[-1], wide, deep)


def _bored(
    stack: tuple[StackMember, ...], at: int, wide: Length | None, deep: Length
) -> tuple[StackMember, ...]:
    others = tuple(hole for hole in stack[at].holes if hole.counterbore_depth is None or hole.places)
    hole = LayerHole(counterbore_diameter=wide, counterbore_depth=deep, reason="as entered")
    return (*stack[:at], replace(stack[at], holes=(*others, hole)), *stack[at + 1 :])


def _settle_count(said: dict[str, Any], known: Known, now: Joint | None) -> None:
    """Keep a count with its reason where there are no places; with places it must be theirs."""
    if "count" not in said:
        return
    places = said.get("places", now.places if now is not None else ())
    if not places:
        said["count_reason"] = (
            now.count_reason if now is not None and now.count == said["count"] else "as entered"
        )
        said["count_reason"] = said["count_reason"] or "as entered"
        return
    home = said.get("home", now.home if now is not None else "")
    copies = known.total(home) if home in known.components else 1
    if said["count"] == len(places) * copies:
        del said["count"]
        return
    if now is not None and now.count == said["count"]:
        del said["count"]
        return
    raise refusal(
        f"The line says {said['count']} off, but there are {len(places)} places on {copies} "
        f"cop{'ies' if copies != 1 else 'y'} of the home; leave the count out."
    )
