"""A piece of stock on one line: `2 sheets 18 mm birch ply 2440 x 1220`, `brass bar 20 dia x 330`.

How many, sizes, a material and a form in any order; `measured` says that the sizes are the piece's own, a
note stands behind `#` or `;`. It is called by what is left, with its nominal thickness: `18 mm birch ply`.
"""

from __future__ import annotations

import re
from typing import Any

from calculators.planning.lines.checking import kept
from calculators.planning.lines.counts import check_count, one_count, take_count_before, take_count_behind
from calculators.planning.lines.known import Known
from calculators.planning.lines.line import GAP, HAS_WORD, Line, refusal, tidied
from calculators.planning.lines.materials_said import materials_in
from calculators.planning.lines.measures import MEASURE, Measure, chain_lengths, plain_mm
from calculators.planning.lines.part_sizes import take_size
from calculators.planning.model import Build, Size, Stock, StockForm
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

WRITE = "write it as 2 sheets 18 mm birch ply 2440 x 1220, or brass bar 20 dia x 330"
MOST_COUNT = 1_000_000

_MARK = re.compile(r"^(?P<mark>S-?[0-9]{1,6}|[^\W_](?:[^\W_]|-){0,19}(?=:))(?P<stop> ?[:.,]| |$)")
_FORM = re.compile(
    r"(?<![^\W_])(?P<word>boards?|planks?|sheets?|bars?|rods?|tubes?|tubing|lengths?(?= of )|pieces?(?= of )"
    r"|offcuts?)(?: of)?(?![^\W_])",
    re.IGNORECASE,
)
_FORMS: dict[str, StockForm] = {
    "board": "board", "plank": "board", "sheet": "sheet", "bar": "bar", "rod": "bar", "tube": "tube",
    "tubing": "tube",
}  # fmt: skip
_MEASURED = re.compile(r"(?<![^\W_])(?:as )?measured(?: as)?(?![^\W_])", re.IGNORECASE)
_LONE = re.compile(rf"(?<![\w./-])(?P<text>{MEASURE})(?: ?(?:thick|thk))?(?![\w/])", re.IGNORECASE)
_NEGATIVE = re.compile(r"(?<!\S)[-−][0-9.]")
_TIMES = re.compile(r"(?<!\S)x(?!\S)", re.IGNORECASE)
_SECTION = re.compile(r"(?<![^\W_])(?:angles?|channels?|box|section|tees?)(?![^\W_])", re.IGNORECASE)
_SHORT_MM, _NARROW_MM = 20.0, 10.0
"""No sheet or board is so short, and none by the metre so narrow (common practice)."""

_ROUND = re.compile(r"(?<![^\W_])(?:rods?|dowels?|wires?|round)(?![^\W_])", re.IGNORECASE)


def read_stock_line(text: str, build: Build) -> Stock:
    """Read a piece of stock, or several like pieces, from a line.

    Args:
        text: the line.
        build: the build it is for: its unit, its marks.

    Returns:
        The stock.

    Raises:
        InputError: when the line cannot be read, with a sentence.

    Source: common practice; the forms are this project's.

    Example:
        >>> ply = read_stock_line("2 sheets 18 mm birch ply 2440 x 1220", Build("B1", "Box"))
        >>> ply.mark, ply.called, ply.count, ply.form, ply.thickness.mm, ply.length.mm
        ('S1', '18 mm birch ply', 2, 'sheet', 18.0, 2440.0)
    """
    return stock_from(text, Known(build))


def stock_from(text: str, known: Known) -> Stock:
    """Read a piece of stock against what is known; as `read_stock_line`.

    Args:
        text: the line.
        known: what there is so far.

    Returns:
        The stock.

    Raises:
        InputError: when it cannot be read.

    Source: this project.
    """
    line = Line(text, semicolon_note=True)
    if not line.shown:
        raise refusal(f"The line says nothing; {WRITE}.")
    said: dict[str, Any] = {"note": line.note or ""}
    mark = _take_mark(line, known)
    count = one_count(take_count_before(line), take_count_behind(line))
    if count is not None:
        said["count"] = check_count(count, MOST_COUNT)
    said["measured"] = line.take(_MEASURED) is not None
    before = line.plain
    size = take_size(line, known.unit) or _lone_size(line, known)
    called_first = _nominal(before, size)
    form = _take_form(line, said)
    material = _material(line, said)
    if size is not None and size.shape == "round" and said.get("form") not in ("bar", "tube"):
        said["form"] = "bar"
    name = line.opened(tidied(line.shown))
    _ask_sizes(text, before, tidied(line.plain), size, str(said.get("form", "")))
    if not HAS_WORD.search(name):
        name = ""
    if not (name or material) and size is None:
        raise refusal(f"{quoted(text)} does not say what the stock is; {WRITE}.")
    if not (name or material or form):
        raise refusal(f"{quoted(text)} gives sizes but no material; {WRITE}.")
    called = " ".join(word for word in (called_first, name or material, form) if word).strip()
    said |= _sizes(size)
    if size is not None and size.bore is not None:
        bore = size.bore
        called = f"{called}, bore {_written(bore) if bore.written else f'{plain_mm(bore)} mm'}"
    mark = mark or known.marks.next("stock")
    return kept(Stock(mark, called[:200], **said), known.unit)


def _ask_sizes(text: str, plain: str, name: str, size: Size | None, form: str) -> None:
    """Ask where sizes are left in the name, are less than nothing, or are those of no board or sheet."""
    shown = quoted(text)
    if _NEGATIVE.search(plain):
        raise refusal(f"{shown} has a size below nothing; {WRITE}.")
    if size is None or size.shape == "round":
        return
    if _TIMES.search(name):
        raise refusal(f"{shown} has a size that cannot be read; {WRITE}.")
    loose = _LONE.findall(name)
    if (size.thickness is None and len(loose) > 1) or (size.thickness and loose and _SECTION.search(name)):
        says = f"{shown} gives sizes apart from one another; {WRITE}; of an angle or a tube put the section"
        raise refusal(f"{says} in quotes, with “long” behind the length.")
    length, width = size.length, size.width
    if form not in ("board", "sheet") or length is None or width is None or not _is_bare(width):
        return
    if length.mm < _SHORT_MM or (width.mm < _NARROW_MM and not _is_bare(length) and form == "board"):
        feet = "8 ft x 4 ft" if form == "sheet" else "2 in x 4 in x 8 ft"
        raise refusal(
            f"{shown} would be {plain_mm(width)} mm wide. A bare number is mm in this build: write feet or "
            f"inches with their unit, such as {feet}, or mm as in 8 mm x 4 mm x 2 mm."
        )


def _is_bare(length: Length) -> bool:
    return length.unit == "mm" and not any(sign.isalpha() or sign in "\"'″′/" for sign in length.written)


def _take_mark(line: Line, known: Known) -> str:
    found = _MARK.match(line.plain)
    if found is None:
        return ""
    mark = found["mark"]
    if mark in known.marks.taken:
        free = known.marks.next("stock")
        raise refusal(
            f"The mark {quoted(mark)} is used already; write another, such as {free}, or none.", free
        )
    line.replace(0, found.end(), "")
    return mark


def _lone_size(line: Line, known: Known) -> Size | None:
    """One size alone: the thickness of a sheet or board, the diameter of a rod or bar."""
    every = list(_LONE.finditer(line.plain))
    if len(every) != 1:
        if len(every) > 1:
            says = f"{quoted(line.as_written(line.shown))} gives sizes apart from one another; {WRITE}."
            raise refusal(says)
        return None
    found = every[0]
    length = chain_lengths([Measure.of(found["text"])], known.unit)[0]
    is_round = _ROUND.search(line.plain) is not None
    form = _FORM.search(line.plain)
    word = re.sub("s$", "", form["word"].casefold()) if form is not None else ""
    is_flat = _FORMS.get(word) in ("sheet", "board") or any(
        one.material.is_wood for one in materials_in(line.plain)
    )
    if not is_round and not is_flat:
        return None  # what a single size of anything else is, is not known: it stays in the name
    line.replace(found.start(), found.end(), GAP)
    return Size("round", diameter=length) if is_round else Size("block", thickness=length)


def _nominal(text: str, size: Size | None) -> str:
    """The thickness or diameter by which stock is called, where it stood apart from the other sizes."""
    length = (size.thickness or size.diameter) if size is not None else None
    if size is None or length is None or not length.written:
        return ""
    if not re.search(rf"(?<!x )(?<!x){re.escape(length.written)}(?! ?x)(?! ?by )", text, re.IGNORECASE):
        return ""
    dia = " dia" if size.shape == "round" else ""
    return f"{_written(length)}{dia}"


def _written(length: Length) -> str:
    bare = not any(sign.isalpha() or sign in "\"'″′" for sign in length.written)
    return f"{length.written} {length.unit}" if bare else length.written


def _take_form(line: Line, said: dict[str, Any]) -> str:
    """Take the form out of the line, and give the word where it belongs to what the stock is called."""
    found = _FORM.search(line.plain)
    word = re.sub("s$", "", found["word"].casefold()) if found is not None else ""
    form = _FORMS.get(word, "")
    if found is not None:
        line.replace(found.start(), found.end(), GAP)
    if form:
        said["form"] = form
    return "" if form == "sheet" or word in ("length", "piece") else word


def _material(line: Line, said: dict[str, Any]) -> str:
    every = list(materials_in(line.plain))
    if not every:
        return ""
    last = every[-1]
    said["material"] = line.shown[last.start : last.end]
    if "form" not in said and last.material.is_wood:
        said["form"] = "board" if last.material.is_solid_wood else "sheet"
    return str(said["material"])


def _sizes(size: Size | None) -> dict[str, Length | None]:
    if size is None:
        return {}
    names = ("length", "diameter") if size.shape == "round" else ("length", "width", "thickness")
    return {name: getattr(size, name) for name in names}
