"""A DXF file taken apart: its unit, its layers that are off, its blocks and its entities, within limits.

The format is pairs of lines, a number that says what the value behind it is. The reader keeps only what
shapes need, stops at the first limit that is passed, and never holds more than a fraction of the file.
"""

from __future__ import annotations

import re
from collections.abc import Iterator
from dataclasses import dataclass, field
from typing import BinaryIO

from calculators.quantities.errors import InputError

MOST_BYTES = 20 * 1024 * 1024
"""The longest file that is read [bytes]."""

MOST_ENTITIES = 50_000
MOST_VALUES = 600_000
MOST_PAIRS = 1_200_000
MOST_LAYERS = 200
MOST_BLOCKS = 5_000
_LONGEST_LINE = 4_096
_LONGEST_NAME = 255

_KEPT = frozenset((2, 8, 10, 11, 20, 21, 30, 31, *range(40, 46), 50, 51, 60, 66, 67, *range(70, 75),
                   210, 220, 230))  # fmt: skip
"""What shapes need: names, layer, places, sizes, angles, flags, counts and the direction of the plane."""

SHAPES = frozenset(
    (
        "LINE",
        "ARC",
        "CIRCLE",
        "LWPOLYLINE",
        "POLYLINE",
        "VERTEX",
        "ELLIPSE",
        "SPLINE",
        "POINT",
        "INSERT",
        "BLOCK",
    )
)
_FEW = 20
"""Of what is no shape only the first values are kept, for its layer and its place."""

_UNITS = {1: "in", 2: "ft", 4: "mm", 5: "cm", 6: "m"}
"""The codes of $INSUNITS (read in ezdxf 1.4.5, `ezdxf/units.py`); others are asked for."""

_SIGN = re.compile(r"\\U\+([0-9A-Fa-f]{4})")
Values = list[tuple[int, str]]


@dataclass(slots=True)
class RawEntity:
    """An entity as it stands in the file: its type, and the values that are of use."""

    kind: str
    values: Values = field(default_factory=list)

    def text(self, code: int) -> str:
        """The first value with a code; '' where there is none."""
        return next((value for each, value in self.values if each == code), "")


@dataclass(slots=True)
class RawBlock:
    """A block: what an INSERT puts in. Its own values have its name and base point."""

    values: RawEntity
    entities: list[RawEntity] = field(default_factory=list)


@dataclass(slots=True)
class RawDrawing:
    """A file taken apart."""

    unit: str = ""
    hidden: list[str] = field(default_factory=list)
    blocks: dict[str, RawBlock] = field(default_factory=dict)
    entities: list[RawEntity] = field(default_factory=list)


def taken_apart(file: BinaryIO) -> RawDrawing:
    """Take a DXF file apart.

    Args:
        file: the file, open at its beginning.

    Returns:
        What it holds of unit, layers, blocks and entities.

    Raises:
        InputError: where it is no DXF in text, is cut off, or is larger than what is read.

    Source: the format as general libraries state it: pairs of lines, sections HEADER, TABLES, BLOCKS,
        ENTITIES, EOF at the end (from memory).
    """
    reader = _Reader(file)
    raw = RawDrawing()
    for code, value in reader:
        if code == 0 and value == "EOF":
            return raw
        if code == 0 and value == "SECTION":
            _, name = next(reader, (2, ""))
            _section(name, reader, raw)
        elif code != 999:
            raise _no_drawing()
    raise _cut_off()


def _section(name: str, reader: _Reader, raw: RawDrawing) -> None:
    if name == "HEADER":
        _header(reader, raw)
    elif name == "TABLES":
        for one in _entities(reader):
            flags, colour = one.text(70), one.text(62)
            if one.kind == "LAYER" and (_whole(flags) & 1 or colour.startswith("-")):
                raw.hidden.append(name_of(one.text(2)))
            if len(raw.hidden) > MOST_ENTITIES:
                raise _too_many(f"{MOST_ENTITIES:,} layers")
    elif name == "BLOCKS":
        _blocks(reader, raw)
    elif name == "ENTITIES":
        raw.entities.extend(_entities(reader))
    else:
        for code, value in reader:
            if code == 0 and value == "ENDSEC":
                return


def _header(reader: _Reader, raw: RawDrawing) -> None:
    variable = ""
    for code, value in reader:
        if code == 0:  # nothing but the end of the section has this code here
            return
        if code == 9:
            variable = value
        elif variable == "$INSUNITS" and code == 70:
            raw.unit = _UNITS.get(_whole(value), "")


def _blocks(reader: _Reader, raw: RawDrawing) -> None:
    block: RawBlock | None = None
    for one in _entities(reader):
        if one.kind == "BLOCK":
            block = RawBlock(one)
            raw.blocks.setdefault(one.text(2).casefold(), block)
            if len(raw.blocks) > MOST_BLOCKS:
                raise _too_many(f"{MOST_BLOCKS:,} blocks")
        elif one.kind == "ENDBLK":
            block = None
        elif block is not None:
            block.entities.append(one)


def _entities(reader: _Reader) -> Iterator[RawEntity]:
    """The entities of a section, to its end."""
    one: RawEntity | None = None
    for code, value in reader:
        if code == 0:
            if one is not None:
                yield one
            if value == "ENDSEC":
                return
            if value == "EOF":
                raise _cut_off()
            reader.count_entity()
            one = RawEntity(value[:_LONGEST_NAME])
        elif one is not None and _is_kept(one, code):
            reader.count_value()
            one.values.append((code, value))


def _is_kept(one: RawEntity, code: int) -> bool:
    if one.kind == "LAYER":
        return code in (2, 62, 70)
    return code in _KEPT and (one.kind in SHAPES or len(one.values) < _FEW)


class _Reader:
    """The pairs of a file, one after another, counted."""

    def __init__(self, file: BinaryIO) -> None:
        self.file = file
        self.read = self.pairs = self.entities = self.values = 0

    def __iter__(self) -> _Reader:
        return self

    def __next__(self) -> tuple[int, str]:
        first, value = self.file.readline(_LONGEST_LINE), self.file.readline(_LONGEST_LINE)
        self.read += len(first) + len(value)
        self.pairs += 1
        if self.pairs == 1:
            _look_at_beginning(first, value)
        if not value:
            if not first.strip():
                raise StopIteration
            raise _cut_off()
        if len(value) >= _LONGEST_LINE or self.read > MOST_BYTES or self.pairs > MOST_PAIRS:
            raise self._too_long()
        try:
            code = int(first)
        except ValueError:
            raise _no_drawing() from None
        return code, _decoded(value.strip())

    def _too_long(self) -> InputError:
        """What is passed: the length of the file, the number of its pairs, or the length of a line."""
        if self.pairs > MOST_PAIRS:
            return _too_many(f"{MOST_PAIRS:,} values")
        if self.read > MOST_BYTES:
            says = (
                f"The file is longer than {MOST_BYTES // 1024**2} MB, the most that is read; keep in it "
                "only the outline and the holes of this part."
            )
        else:
            says = (
                f"A line of the file has more than {_LONGEST_LINE:,} signs, which no drawing of a part "
                "needs; save it again as DXF in text."
            )
        return InputError.of(says, field="file")

    def count_entity(self) -> None:
        self.entities += 1
        if self.entities > MOST_ENTITIES:
            raise _too_many(f"{MOST_ENTITIES:,} entities")

    def count_value(self) -> None:
        self.values += 1
        if self.values > MOST_VALUES:
            raise _too_many(f"{MOST_VALUES:,} values")


def _look_at_beginning(first: bytes, value: bytes) -> None:
    """Refuse what does not begin as text does in which the first number says that a section follows."""
    is_text = b"\x00" not in first + value and b"Binary DXF" not in first[:40]
    if not is_text or len(value) >= _LONGEST_LINE or (first + value and not value):
        raise _no_drawing()


def _decoded(value: bytes) -> str:
    try:
        return value.decode("utf-8")
    except UnicodeDecodeError:
        return value.decode("cp1252", "replace")


def _whole(text: str) -> int:
    """A small whole number; 0 for what is none."""
    return int(text) if re.fullmatch(r"-?[0-9]{1,6}", text) else 0


def name_of(text: str) -> str:
    r"""Give a name as people read it.

    Args:
        text: the name as it stands in the file.

    Returns:
        The name with its coded signs resolved and no control signs, at most 255 signs long.

    Source: the format's `\U+XXXX` (from memory).

    Example:
        >>> name_of("Ma\\U+00DFe")
        'Maße'
    """
    told = _SIGN.sub(lambda found: chr(int(found[1], 16)), text)
    return "".join(sign for sign in told if sign.isprintable())[:_LONGEST_NAME]


def _no_drawing() -> InputError:
    return InputError.of(
        "This is no DXF in text: save the drawing as DXF (text, not binary; any version), with the part in "
        "it and nothing else.",
        field="file",
    )


def _cut_off() -> InputError:
    return InputError.of(
        "The file is cut off: its end is missing. Nothing of it was taken; save it again.", field="file"
    )


def _too_many(what: str) -> InputError:
    return InputError.of(
        f"The drawing has more than {what}, the most that is read; keep in it only the outline and the holes "
        "of this part.",
        field="file",
    )
