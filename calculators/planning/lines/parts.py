"""A part on one line as a parts list has it: `4 sides 300 x 120 x 12 oak`, `P12 Lid, oak, 300 x 120 x 12`.

In any order: a mark, how many, a name, sizes, a material, what it is cut from, `in G2` for the sub-assembly
it belongs to, `bought`, `in hand`, `re-used`, `quarter-sawn`, `rev B`, an outline, a note behind `#` or `;`.
What is left over is its name. A board is taken for a block of solid wood and a sheet for one of ply and the
like, where the line does not say.
"""

from __future__ import annotations

import re
from dataclasses import replace
from itertools import islice
from typing import Any

from calculators.materials.model import Material
from calculators.planning.lines.checking import kept
from calculators.planning.lines.counts import (
    check_count,
    one_count,
    take_count_alone,
    take_count_before,
    take_count_behind,
)
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import GAP, HAS_WORD, Line, refusal, tidied
from calculators.planning.lines.materials_said import is_material, materials_in, nearly_material
from calculators.planning.lines.outlines import semicolons_as_to, take_outline
from calculators.planning.lines.part_sizes import take_corner_radius, take_size
from calculators.planning.model import Build, Component, Size, StockForm, Unit
from calculators.planning.outlining import component_faults, sized_by
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

WRITE = "write it as 4 sides 300 x 120 x 12 oak, or P12 Lid, oak, 300 x 120 x 12, 1 off"
MOST_QUANTITY = 100_000

_MARK = re.compile(r"^(?P<mark>[^\W\d_]{1,4}-?[0-9]{1,6}|[^\W_](?:[^\W_]|-){0,19}(?=:))(?P<stop> ?[:.,]| |$)")
_GROUP_FIRST = re.compile(r"^(?:group|sub-? ?assembly|assembly)(?: ?:)? (?=\S)", re.IGNORECASE)
_GROUP = re.compile(
    rf"\((?:sub-? ?assembly|group|assembly)\)|[,{GAP}] ?(?:sub-? ?assembly|group)(?= ?(?:[,{GAP}]|$))",
    re.IGNORECASE,
)
_IN = re.compile(
    r"(?<![^\W_])(?P<word>part of|belongs to|belonging to|in|of|under|inside|within) (?:the )?", re.IGNORECASE
)
_MADE_IN = re.compile(
    r"(?<![0-9./,])(?P<chain>[0-9]+(?:\.[0-9]+)?(?: ?x ?[0-9]+(?:\.[0-9]+)?)+) in ", re.IGNORECASE
)
_MOST_INCHES = 100
_MOST_SMALL_WORDS = 50
"""Behind so many of `in` and `of` a parent is looked for; each looks through all the build's names."""
_TOP = re.compile(r"(?<![^\W_])(?:in no group|in nothing|at the top level)(?![^\W_])", re.IGNORECASE)
_LIKE_A_MARK = re.compile(r"[A-Z]{1,3}-?[0-9]{1,5}(?![^\W])")
_REVISION = re.compile(
    r"(?<![^\W_])[Rr][Ee][Vv](?:ision|\.)? ?(?P<revision>[A-Z]{1,2}|[0-9]{1,3}|[\U000f0000-\U000f0fff])"
    r"(?![^\W_])"
)
_QUARTER = re.compile(
    r"(?<![^\W_/])(?:quarter|1/4|¼)[ -]?(?:sawn|sawed|cut)(?![^\W_])|(?<![^\W_])on the quarter(?![^\W_])",
    re.IGNORECASE,
)
_FLAT = re.compile(
    r"(?<![^\W_])(?:(?:flat|plain|slash)[ -]?(?:sawn|sawed|cut)|through[ -]and[ -]through)(?![^\W_])",
    re.IGNORECASE,
)
_REUSED = re.compile(r"(?<![^\W_])re-?used?(?![^\W_])|(?<![^\W_])used again(?![^\W_])", re.IGNORECASE)
_STATED = re.compile(
    r"(?<![^\W_])(?P<what>material|stock) ?[:=]? ?(?P<said>[\U000f0000-\U000f0fff]|[^\W_]+)", re.IGNORECASE
)
_NO_STOCK = re.compile(r"(?<![^\W_])stock not stated(?![^\W_])", re.IGNORECASE)
_NAMED = re.compile(r"(?<![^\W_])(?:name|called) ?[:=]? ?(?P<name>[\U000f0000-\U000f0fff])", re.IGNORECASE)
_CLAUSE = re.compile(rf"[,;{GAP}]")
_STATES: dict[str, tuple[str, str]] = {
    **{word: (word, "") for word in ("planned", "released", "made", "fitted")},
    **dict.fromkeys(("bought", "bought in", "bought-in", "buy", "to buy", "to be bought"), ("", "bought")),
    **dict.fromkeys(("on order", "ordered"), ("bought", "bought")),
    **dict.fromkeys(("in hand", "in stock", "have"), ("in hand", "")),
    "done": ("made", ""),
    "state bought": ("bought", ""),
}
_STOCK = {"board": "board", "boards": "board", "sheet": "sheet", "bar": "bar", "rod": "bar", "tube": "tube",
          "tubing": "tube", "turned": "turned"}  # fmt: skip
_STATE_AT_END = re.compile(
    r"(?: |^)(?P<word>" + "|".join(sorted(map(re.escape, _STATES), key=len, reverse=True)) + r")$",
    re.IGNORECASE,
)


def read_part_line(text: str, build: Build, now: Component | None = None) -> Component:
    """Read a part, or the changes to one, from a line.

    `bought` says that it is bought, `on order` and `in hand` how far that is. `in G2`, `part of G2` and
    `under G2` name the sub-assembly; `group Base` and `G1 Base (sub-assembly)` make one. A line of two sizes
    leaves the thickness open; a size that stands alone without saying what it is (`38 mm brass butts`) stays
    in the name.

    Args:
        text: the line.
        build: the build it is of: its unit, its marks.
        now: the part as it is, where the line changes it: what the line does not say stays.

    Returns:
        The part.

    Raises:
        InputError: when the line cannot be read, with a sentence and what may be meant.

    Source: common practice; the forms are this project's.

    Example:
        >>> side = read_part_line("4 sides 300 x 120 x 12 oak", Build("B1", "Box"))
        >>> side.mark, side.name, side.quantity, side.size.thickness.mm, side.material
        ('P01', 'sides', 4, 12.0, 'oak')
    """
    return part_from(text, Known(build), now)


def part_from(text: str, known: Known, now: Component | None = None) -> Component:
    """Read a part against what is known; as `read_part_line`.

    Args:
        text: the line.
        known: what there is so far.
        now: the part as it is, where it is changed.

    Returns:
        The part.

    Raises:
        InputError: when it cannot be read.

    Source: this project.
    """
    line = Line(semicolons_as_to(text), semicolon_note=True)
    if not line.shown and line.note is None:
        raise refusal(f"The line says nothing; {WRITE}.")
    said: dict[str, Any] = {} if line.note is None else {"note": line.note}
    outline = take_outline(line, known.unit)
    if outline is not None:
        said["outline"] = outline
    is_group = line.take(_GROUP_FIRST) is not None
    line.replace(0, len(line.plain) - len(line.plain.lstrip(f" {GAP}")), "")
    mark = _take_mark(line, known, now)
    is_group = line.take(_GROUP) is not None or is_group
    count = None if is_group and now is None and not line.plain else take_count_before(line)
    _take_words(line, known, now, said)
    count = one_count(one_count(count, take_count_behind(line)), take_count_alone(line))
    if count is not None:
        said["quantity"] = check_count(count, MOST_QUANTITY)
    radius = take_corner_radius(line, known.unit)
    if radius is not None:
        said["corner_radius"] = radius
    _part_made_in(line, known.unit)
    size = take_size(line, known.unit)
    if size is not None:
        said["size"] = size
    material = _take_material(line, said, new=now is None)
    if now is None and material is None and "material" not in said:
        _ask_misspelt(line)
    name = _take_name(line, said)
    if name:
        said["name"] = name
    made = _new(mark, is_group, material, said, known) if now is None else _changed(now, said)
    return kept(_fitted(made) if outline else made, known.unit)


def _fitted(one: Component) -> Component:
    """Give a part the sizes of its outline where it has none, and refuse an outline that does not fit it."""
    one = replace(one, size=sized_by(one.outline, one.size))
    faults = component_faults(one)
    if faults:
        raise refusal(" ".join(fault.says for fault in faults))
    return one


def _part_made_in(line: Line, unit: Unit) -> None:
    """Part `300 x 120 x 12 in oak` into sizes and material, or ask where it could be inches."""
    for found in _MADE_IN.finditer(line.plain):
        first = next(materials_in(line.plain[found.end() :]), None)
        if first is None or first.start:
            continue
        if (
            unit == "mm"
            and max(float(number) for number in re.findall(r"[0-9.]+", found["chain"])) <= _MOST_INCHES
        ):
            sizes = re.split(r" ?x ?", found["chain"], flags=re.IGNORECASE)
            choices = [" x ".join(f"{size} {each}" for size in sizes) for each in ("mm", "in")]
            says = (
                f"{quoted(found[0].strip() + ' ' + first.material.name)} could be inches, or a part in "
                f"{first.material.name}; write {choices[0]} or {choices[1]}."
            )
            raise refusal(says, *choices)
        line.replace(found.end("chain"), found.end(), GAP)
        return


def _take_mark(line: Line, known: Known, now: Component | None) -> str:
    """Take the mark that a line begins with; codes of materials and threads are no marks."""
    found = _MARK.match(line.plain)
    if found is None:
        return ""
    mark = line.shown[found.start("mark") : found.end("mark")]
    if now is not None:
        same = mark.casefold() == now.mark.casefold()
        if not same and known.by_mark(mark) is not None:
            raise refusal(
                f"The line begins with {mark}, but it is {now.mark} that is changed; leave the mark out.",
                now.mark,
            )
        if same:
            line.replace(0, found.end(), "")
        return ""
    if known.by_mark(mark) is not None or known.joint_by_mark(mark) is not None:
        taken = known.by_mark(mark)
        by = f"{quoted(taken.name)}" if taken is not None else "a joint"
        free = known.marks.next("part")
        raise refusal(
            f"The mark {mark} is that of {by} already; write another, such as {free}, or none.", free
        )
    letters = mark.rstrip("0123456789").rstrip("-")
    told = found["stop"].strip() in (":", ".")
    if not told and (letters.upper() in ("M", "BA", "NO", "EN", "CZ", "CW", "HE", "PB", "R") or not letters):
        return ""
    if not told and is_material(mark) and (len(letters) > 1 or len(mark) > 2):
        return ""
    line.replace(0, found.end(), "")
    return mark


def _take_words(line: Line, known: Known, now: Component | None, said: dict[str, Any]) -> None:
    """Take the words that say one thing by themselves."""
    if line.take(_QUARTER):
        said["grain_cut"] = "quarter"
    if line.take(_FLAT):
        if "grain_cut" in said:
            raise refusal(
                "The line says quarter-sawn and flat-sawn; write one of them.", "quarter-sawn", "flat-sawn"
            )
        said["grain_cut"] = "flat"
    if line.take(_REUSED):
        said["reused"] = True
    found = line.take(_REVISION)
    if found is not None:
        said["revision"] = line.opened(found["revision"])
    if line.take(_NO_STOCK):
        said["stock"] = ""
    while (found := _STATED.search(line.plain)) is not None:
        what = found["what"].lower()
        word = line.opened(line.shown[found.start("said") : found.end("said")])
        if what == "stock" and word.lower() not in (*_STOCK, "bought"):
            break
        said[what] = word if what == "material" else _STOCK.get(word.lower(), "bought")
        line.replace(found.start(), found.end(), GAP)
    found = line.take(_NAMED)
    if found is not None:
        said["name"] = line.opened(found["name"])
    if line.take(_TOP):
        said["parent"] = ""
    _take_parent(line, known, now, said)


def _take_parent(line: Line, known: Known, now: Component | None, said: dict[str, Any]) -> None:
    """Take `in G2`, `part of Base`; a small word before anything else stays in the name."""
    for found in islice(_IN.finditer(line.plain), _MOST_SMALL_WORDS):
        rest = line.shown[found.end() :]
        parent, length = _named_at(rest, known)
        if parent is None:
            stated = found["word"].lower() not in ("in", "of", "under", "inside", "within")
            like = _LIKE_A_MARK.match(rest)
            if stated or (
                like and found["word"].lower() != "of" and not is_material(like[0]) and like[0][0] != "M"
            ):
                raise known.unknown(like[0] if like else tidied(re.split(_CLAUSE, rest)[0]))
            continue
        if now is not None and _within(parent, now.mark, known):
            raise refusal(f"{now.mark} cannot be inside {parent}: that is inside {now.mark} itself.")
        said["parent"] = parent
        line.replace(found.start(), found.end() + length, GAP)
        return


def _named_at(rest: str, known: Known) -> tuple[str | None, int]:
    """The component that a piece begins with: any by its mark, a sub-assembly by its name too."""
    word = re.match(r"[^\s,;:()\x1f]+", rest)
    found = known.by_mark(word[0]) if word else None
    if word and found is not None:
        return found.mark, word.end()
    folded = rest.casefold()
    for one in known.components.values():
        named = bool(one.name) and folded.startswith(one.name.casefold())
        if named and not one.material and one.size == Size():
            end = len(one.name)
            if not rest[end : end + 1].isalnum():
                return one.mark, end
    return None, 0


def _within(mark: str, inside: str, known: Known) -> bool:
    seen: set[str] = set()
    while mark and mark not in seen:
        if mark == inside:
            return True
        seen.add(mark)
        mark = known.components[mark].parent if mark in known.components else ""
    return False


def _ask_misspelt(line: Line) -> None:
    """Ask where a word is nearly the name of a material and the line names none."""
    for found in re.finditer(r"[^\W\d_]{5,}", line.plain):
        near = nearly_material(found[0])
        if near:
            says = (
                f"{quoted(found[0])} is no material here. Did you mean {near}? "
                "Where it is part of the name, put the name in quotes."
            )
            raise refusal(says, near)


def _take_material(line: Line, said: dict[str, Any], *, new: bool) -> Material | None:
    """Take the last material that the line names, and what it is cut from beside it."""
    if "material" in said:
        found = list(materials_in(said["material"]))
        whole = len(found) == 1 and (found[0].start, found[0].end) == (0, len(said["material"]))
        return found[0].material if whole else None
    every = list(materials_in(line.plain))
    if not every:
        return None
    last = every[-1]
    start, end = _without_stock(line, last.start, last.end, said)
    said["material"] = line.shown[start:end]
    rest = line.plain[: last.start] + line.plain[last.end :]
    if new and not HAS_WORD.search(rest) and "name" not in said:
        return last.material  # nothing else is left to be the name
    start, end = last.start, last.end
    before = re.search(r"(?P<word>[^\W_]+) $", line.plain[:start])
    behind = re.match(r" (?P<word>[^\W_]+)", line.plain[end:])
    for near in (behind, before):
        word = near["word"].lower() if near else ""
        if word not in _STOCK or "stock" in said:
            continue
        wider = (start - len(word) - 1, end) if near is before else (start, end + len(word) + 1)
        left = line.plain[: wider[0]] + line.plain[wider[1] :]
        if "name" in said or HAS_WORD.search(left):
            said["stock"] = _STOCK[word]
            start, end = wider
    line.replace(max(0, start), end, GAP)
    return last.material


def _without_stock(line: Line, start: int, end: int, said: dict[str, Any]) -> tuple[int, int]:
    """Leave `sheet` off `brass sheet` where the rest is a material too."""
    words = line.plain[start:end].split(" ")
    if len(words) < 2 or "stock" in said:
        return start, end
    first, last = words[0].lower(), words[-1].lower()
    if last in _STOCK and is_material(" ".join(words[:-1])):
        said["stock"] = _STOCK[last]
        return start, end - len(last) - 1
    if first in _STOCK and is_material(" ".join(words[1:])):
        said["stock"] = _STOCK[first]
        return start + len(first) + 1, end
    return start, end


def _take_name(line: Line, said: dict[str, Any]) -> str:
    """What is left is the name, but for the clauses that are a state or a form of stock."""
    clauses = [clause.strip() for clause in re.split(r"([,;\x1f])", line.shown)]
    left: list[str] = []
    for clause in clauses:
        folded = " ".join(clause.casefold().split())
        while (found := _STATE_AT_END.search(folded)) is not None and not folded.endswith(
            "of " + found["word"]
        ):
            _say_state(found["word"], said)
            clause = clause[: max(0, len(clause) - len(found["word"]))].rstrip(" ,")
            folded = " ".join(clause.casefold().split())
        if folded in _STOCK and "stock" not in said and any(map(HAS_WORD.search, left)):
            said["stock"] = _STOCK[folded]
            continue
        left.append(clause)
    name = re.sub(
        r"(?:^| )(?:made )?(?:of|from|in|x|by)(?= *(?:[,;\x1f]|$))", " ", " ".join(left), flags=re.IGNORECASE
    )
    name = line.opened(tidied(re.sub(r"\(\s*\)", " ", name)))
    if "stock" not in said and name.casefold() in ("tube", "tubing", "rod", "bar", "board", "sheet"):
        said["stock"] = _STOCK[name.casefold()]
    return name


def _say_state(word: str, said: dict[str, Any]) -> None:
    state, stock = _STATES[word]
    if stock and said.get("stock", stock) == stock:
        said["stock"] = stock
    if state and state != said.get("state", state):
        raise refusal(f"The line says both {said['state']} and {state}; write one of them.")
    if state:
        said["state"] = state


def _new(
    mark: str, is_group: bool, material: Material | None, said: dict[str, Any], known: Known
) -> Component:
    name = said.pop("name", "") or said.get("material", "")
    if not name:
        raise refusal(f"The part has no name; {WRITE}.")
    if "stock" not in said and material is not None and said.get("size", Size()).shape == "block":
        stock: StockForm | None = None
        if said["size"].thickness is not None:
            stock = "board" if material.is_solid_wood else "sheet" if material.is_wood else None
        if stock:
            said["stock"] = stock
    if not mark:
        mark = known.marks.next("group" if is_group else "part")
    return Component(mark, name, **said)


def _changed(now: Component, said: dict[str, Any]) -> Component:
    """Lay what the line says over the part; a length of the same size keeps its writing."""
    if not said:
        raise refusal(f"The line changes nothing of {now.mark}; {WRITE}.")
    if "size" in said:
        said["size"] = _laid_over(now.size, said["size"])
    if "corner_radius" in said:
        said["corner_radius"] = _same(now.corner_radius, said["corner_radius"])
    return replace(now, **said)


def _laid_over(old: Size, new: Size) -> Size:
    names = ("length", "width", "thickness", "diameter", "bore")
    if old.shape not in ("", new.shape):
        old = Size()
    sizes = {name: _same(getattr(old, name), getattr(new, name)) or getattr(old, name) for name in names}
    return Size(new.shape, **sizes)


def _same(old: Length | None, new: Length | None) -> Length | None:
    return old if old is not None and new is not None and old.ticks == new.ticks else new
