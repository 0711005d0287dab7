"""Putting the pieces of a line together: which number is the length, which the outside diameter."""

from __future__ import annotations

from typing import cast

from calculators.hardware.designation.asking import AskBack, replaced
from calculators.hardware.designation.meaning import Meaning
from calculators.hardware.designation.measures import Role, is_doubtful, read_measure, written_unit
from calculators.hardware.designation.sizes import Size, size_of
from calculators.hardware.designation.tokens import Token
from calculators.hardware.fastener import (
    Drive,
    Fastener,
    Hardware,
    Head,
    Insert,
    Kind,
    Nut,
    NutForm,
    Point,
    Series,
    Washer,
    WasherForm,
)
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

Measures = dict[Role, Length]


def build(
    line: str, tokens: list[Token], meaning: Meaning, size: str, named_by: Token, field: str
) -> Hardware:
    """Make the hardware of a line whose words and size are settled.

    Args:
        line: the plain line.
        tokens: its pieces.
        meaning: what its words say.
        size: its canonical size.
        named_by: the piece that names the size, which is no length.
        field: the name of the input.

    Returns:
        The hardware.

    Raises:
        InputError: when a number has no place in it, or the numbers contradict each other.
        AskBack: when a number could be of either unit.

    Source: this project.
    """
    found = size_of(size)
    numbers = [token for token in tokens if token.kind == "number" and token is not named_by]
    placed = _placed(numbers, meaning, found, field)
    _ask_unit(line, placed, found)
    measures: Measures = {role: _measure(line, token, role, found, field) for role, token in placed.items()}
    if meaning.item == "nut":
        return Nut(size, cast(NutForm, meaning.form), meaning.material, meaning.finish)
    if meaning.item == "washer":
        return _washer(size, measures, meaning, found, field)
    if meaning.item == "insert":
        return _insert(size, measures, meaning, field)
    return _fastener(size, measures, meaning, field)


def _measure(line: str, token: Token, role: Role, size: Size, field: str) -> Length:
    """Read one number; where it could be two (`1,200`), ask with whole lines."""
    try:
        return read_measure(token.text, token.unit, role, size, field)
    except InputError as error:
        fault = error.faults[0]
        if not fault.choices:
            raise
        lines = [replaced(line, token.start, token.end, choice) for choice in fault.choices]
        raise AskBack(fault.says.split(";")[0].rstrip("."), lines) from None


_ROLES: dict[str, tuple[Role, ...]] = {
    "nut": (),
    "washer": ("outside", "thickness"),
    "insert": ("outside", "body", "length"),
    "screw": ("length", "cut to"),
}
_TAKES = {
    "nut": "a nut has a thread and a form, no length",
    "washer": "a washer has one outside diameter and one thickness, as M5 washer 25 x 1.5",
    "insert": "an insert has an outside diameter, a body and a length, as M4 insert OD 8 body 6.5 x 10",
    "screw": "a screw has one length, and one 'cut to', as M5 x 20 cut to 18",
}


def _placed(numbers: list[Token], meaning: Meaning, size: Size, field: str) -> dict[Role, Token]:
    """Give each number its role: first those that say theirs, then the others in the trade's order."""
    item = meaning.item or "screw"
    roles = _ROLES[item]
    placed: dict[Role, Token] = {}
    for token in numbers:
        role = next((role for role in roles if role == token.label), None)
        if token.label and (role is None or role in placed):
            raise _no_place(token, item, field)
        if role:
            placed[role] = token
    free = [token for token in numbers if not token.label]
    if item == "washer":
        wanted = _washer_roles(free, placed, size)
    elif item == "insert":
        open_roles: tuple[Role, ...] = ("length",) if len(free) == 1 else ("outside", "length")
        wanted = [role for role in open_roles if role not in placed]
    else:
        wanted = [role for role in roles if role != "cut to" and role not in placed]
    for token, role in zip(free, wanted, strict=False):
        placed[role] = token
    if len(free) > len(wanted):
        raise _no_place(free[len(wanted)], item, field)
    return placed


def _no_place(token: Token, item: str, field: str) -> InputError:
    shown = f"{token.text} {token.unit} {token.label}".strip()
    says = f"{quoted(' '.join(shown.split()))} has no place here: {_TAKES[item]}."
    return InputError.of(says, field=field)


def _washer_roles(free: list[Token], placed: dict[Role, Token], size: Size) -> list[Role]:
    """Say what a washer's numbers are: the outside is wider than the hole, the thickness is less."""
    if len(free) == 2 and not placed:
        first, second = (_rough_mm(token, size) for token in free)
        return ["outside", "thickness"] if first >= second else ["thickness", "outside"]
    if len(free) == 1 and not placed:
        return ["outside" if _rough_mm(free[0], size) > size.diameter_mm else "thickness"]
    return [role for role in _ROLES["washer"] if role not in placed]


def _rough_mm(token: Token, size: Size) -> float:
    unit = written_unit(token.text, token.unit, size.unit)
    return read_measure(token.text, token.unit or unit, "outside", size, "hardware").mm


def _ask_unit(line: str, placed: dict[Role, Token], size: Size) -> None:
    """Ask in which unit the bare numbers are, where one of them is absurd in the system's own."""
    bare = [(role, token) for role, token in placed.items() if not token.unit and "/" not in token.text]
    doubted = [
        token for role, token in bare if is_doubtful(token.text.replace(",", "."), size.unit, role, size)
    ]
    if not doubted:
        return
    # a washer or insert that wide exists in neither shop; a screw that long could be a rod
    other = "mm" if size.unit == "in" else "in"
    screw = all(role in ("length", "cut to") for role in placed)
    lines = []
    for unit in ("mm", "in") if screw else (other,):
        again = line
        for _, token in sorted(bare, key=lambda pair: -pair[1].start):
            again = f"{again[: token.end]} {unit} {again[token.end :]}"
        lines.append(" ".join(again.split()))
    raise AskBack(f"{quoted(doubted[0].text)} does not say whether it is millimetres or inches", lines)


def _washer(size: str, measures: Measures, meaning: Meaning, found: Size, field: str) -> Washer:
    outside, thickness = measures.get("outside"), measures.get("thickness")
    if outside is not None and outside.mm <= found.diameter_mm:
        says = f"An outside diameter of {outside.written} is not more than the {size} that goes through it."
        raise InputError.of(says, field=field, value=outside.mm, limit=found.diameter_mm, unit="mm")
    form = cast(WasherForm, meaning.form)
    return Washer(size, form, outside, thickness, meaning.material, meaning.finish)


def _insert(size: str, measures: Measures, meaning: Meaning, field: str) -> Insert:
    if meaning.finish:
        says = f"The finish of an insert is not kept; leave out {quoted(meaning.finish)}."
        raise InputError.of(says, field=field)
    outside, body = measures.get("outside"), measures.get("body")
    if outside is not None and body is not None and body.mm > outside.mm:
        says = f"The body of {body.written} is wider than the outside of {outside.written}."
        raise InputError.of(says, field=field, value=body.mm, limit=outside.mm, unit="mm")
    return Insert(size, measures.get("length"), outside, body, meaning.material)


def _fastener(size: str, measures: Measures, meaning: Meaning, field: str) -> Fastener:
    length, cut_to = measures.get("length"), measures.get("cut to")
    if length is not None and cut_to is not None and cut_to.ticks >= length.ticks:
        says = f"A screw is cut to less than its length; {cut_to.written} is not less than {length.written}."
        raise InputError.of(says, field=field, value=cut_to.mm, limit=length.mm, unit="mm")
    metric_wood = size_of(size).is_metric_wood
    wood = meaning.is_wood or size.startswith("No. ") or metric_wood
    series = meaning.series
    if series and not size.startswith("No. "):
        says = "American and British are said of numbered wood screws only; leave the word out."
        raise InputError.of(says, field=field)
    if metric_wood:
        series = "metric"
    return Fastener(
        "wood" if wood else "machine",
        size,
        length,
        cast(Head, meaning.head),
        cast(Drive, meaning.drive),
        cast(Kind, meaning.kind or "screw"),
        meaning.material,
        meaning.finish,
        meaning.grade,
        cast(Point, meaning.point),
        cast(Series, series),
        cut_to,
    )
