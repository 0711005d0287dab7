"""DXF files that are made to do harm, or were harmed themselves: each a sentence or a line, and soon."""

from __future__ import annotations

import io
from collections.abc import Iterator

import pytest

from calculators.drawing.dxf_in import read_dxf
from calculators.drawing.dxf_out import dxf_of
from calculators.drawing.dxf_tags import MOST_BYTES
from calculators.drawing.flat_drawing import FlatDrawing
from calculators.quantities.errors import InputError
from tests.benchmarks.yardstick import yardsticks
from tests.drawing.random_faces import random_face

NO_DRAWING = (
    "This is no DXF in text: save the drawing as DXF (text, not binary; any version), with the part in it and "
    "nothing else."
)
CUT_OFF = "The file is cut off: its end is missing. Nothing of it was taken; save it again."


def tags(*pairs: tuple[int, object]) -> str:
    return "".join(f"{code}\n{value}\n" for code, value in pairs)


def file_of(entities: str, blocks: str = "") -> bytes:
    """A file with these entities and blocks."""
    held = f"{tags((0, 'SECTION'), (2, 'BLOCKS'))}{blocks}{tags((0, 'ENDSEC'))}" if blocks else ""
    text = f"{held}{tags((0, 'SECTION'), (2, 'ENTITIES'))}{entities}{tags((0, 'ENDSEC'), (0, 'EOF'))}"
    return text.encode()


def circle(x: object, y: object = 0, r: object = 1) -> str:
    return tags((0, "CIRCLE"), (8, "0"), (10, x), (20, y), (40, r))


def read(data: bytes) -> FlatDrawing:
    return read_dxf(io.BytesIO(data))


@pytest.mark.parametrize(
    "data",
    [
        b"", b"\n", b"%PDF-1.7\n...", b"PK\x03\x04" + bytes(400), bytes(10_000), b"\xff\xd8\xff\xe0" * 500,
        b"A file of one line, without an end" * 10_000, b"0\nCIRCLE\n0\nEOF\n", b"{\"a\": 1}\n{}\n", b"<svg/>\n<a/>\n",
        b"Some Binary DXF\r\n\x1a\x00" + bytes(200), b"0\n" * 3,
    ],
)  # fmt: skip
def test_what_is_no_drawing_is_refused(data: bytes) -> None:
    with pytest.raises(InputError) as caught:
        read(data)
    assert str(caught.value) in (NO_DRAWING, CUT_OFF)


def test_a_file_cut_off_anywhere_is_refused() -> None:
    whole = dxf_of([random_face(4)])
    for share in range(1, 40):
        with pytest.raises(InputError) as caught:
            read(whole[: len(whole) * share // 40])
        assert str(caught.value) in (CUT_OFF, NO_DRAWING)


@pytest.mark.parametrize(
    "number", ["nan", "inf", "-inf", "1e308", "1e999", "", "ten", "1,5", "0x10", "9" * 900]
)
def test_a_number_that_is_none_leaves_its_shape_out(number: str) -> None:
    for data in (circle(number), circle(1, number), circle(1, 1, number)):
        found = read(file_of(data + circle(5)))
        assert len(found.circles) == 1
        (left,) = found.left
        assert left.why in ("has a number that is none", "reaches farther than any part")


@pytest.mark.parametrize("radius", ["0", "-3", "1e-300"])
def test_a_circle_without_a_radius_is_left_out(radius: str) -> None:
    (left,) = read(file_of(circle(1, 1, radius))).left
    assert left.why == "has no radius"


def test_blocks_that_hold_themselves_come_to_an_end() -> None:
    def block(name: str, inside: str) -> str:
        insert = tags((0, "INSERT"), (8, "0"), (2, inside), (10, 1), (20, 1))
        return tags((0, "BLOCK"), (2, name), (10, 0), (20, 0)) + circle(0) + insert + tags((0, "ENDBLK"))

    blocks = block("a", "b") + block("b", "A")
    found = read(file_of(tags((0, "INSERT"), (8, "0"), (2, "a"), (10, 0), (20, 0)), blocks))
    assert len(found.circles) == 2
    assert [one.why for one in found.left] == ["puts in a block that holds itself"]


def test_blocks_in_blocks_that_would_be_thousands_of_millions_are_refused() -> None:
    def block(at: int) -> str:
        inserts = tags((0, "INSERT"), (8, "0"), (2, f"b{at + 1}"), (10, 1), (20, 1)) * 10
        return tags((0, "BLOCK"), (2, f"b{at}"), (10, 0), (20, 0)) + inserts + tags((0, "ENDBLK"))

    blocks = "".join(map(block, range(10))) + tags((0, "BLOCK"), (2, "b10")) + circle(0) + tags((0, "ENDBLK"))
    with pytest.raises(InputError) as caught:
        read(file_of(tags((0, "INSERT"), (8, "0"), (2, "b0"), (10, 0), (20, 0)), blocks))
    assert str(caught.value) == (
        "The drawing has more than 20,000 shapes, with those of its blocks, the most that is read; keep in it only "
        "the outline and the holes of this part."
    )


def test_an_empty_block_in_endless_rows_is_refused() -> None:
    blocks = tags((0, "BLOCK"), (2, "a"), (0, "ENDBLK"))
    insert = tags((0, "INSERT"), (2, "a"), (10, 0), (20, 0), (70, 999_999), (71, 999_999))
    with pytest.raises(InputError, match="more than 20,000 shapes"):
        read(file_of(insert, blocks))


def test_scales_upon_scales_reach_no_farther_than_a_part() -> None:
    def block(at: int) -> str:
        insert = tags((0, "INSERT"), (2, f"b{at + 1}"), (10, 1), (20, 1), (41, 9e7), (42, 9e7))
        return tags((0, "BLOCK"), (2, f"b{at}"), (10, 0), (20, 0)) + insert + tags((0, "ENDBLK"))

    blocks = "".join(map(block, range(9))) + tags((0, "BLOCK"), (2, "b9")) + circle(0) + tags((0, "ENDBLK"))
    found = read(file_of(tags((0, "INSERT"), (2, "b0"), (10, 0), (20, 0)), blocks))
    assert found.circles == ()
    assert [one.why for one in found.left] == ["reaches farther than any part"]


@pytest.mark.parametrize(
    ("values", "why"),
    [
        (((71, 3), (40, 0), (40, 1), (10, 0), (20, 0), (10, 1), (20, 1)), "too few for its degree"),
        (((71, 1), (40, 0), (40, 1), (10, 0), (20, 0), (10, 1), (20, 1)), "knots do not fit"),
        (((71, 1), (40, 3), (40, 2), (40, 1), (40, 0), (10, 0), (20, 0), (10, 1), (20, 1)), "knots do not fit"),
        (((71, 1), (40, 0), (40, 0), (40, 0), (40, 0), (10, 0), (20, 0), (10, 1), (20, 1)), "without length"),
        (((71, 1), (40, 0), (40, 0), (40, 1), (40, 1), (41, 0), (41, 1), (10, 0), (20, 0), (10, 1), (20, 1)), "weights do not fit"),
        (((71, 99), (10, 0), (20, 0)), "too few for its degree"),
    ],
)  # fmt: skip
def test_a_spline_that_cannot_be_followed_is_left_out(
    values: tuple[tuple[int, object], ...], why: str
) -> None:
    (left,) = read(file_of(tags((0, "SPLINE"), (8, "0"), *values))).left
    assert why in left.why


def test_a_wild_spline_is_left_out_before_it_is_endless() -> None:
    points = [pair for at in range(200) for pair in ((10, (-1) ** at * 9e7), (20, at * 4e5))]
    knots = [(40, at) for at in range(204)]
    (left,) = read(file_of(tags((0, "SPLINE"), (71, 3), *knots, *points))).left
    assert left.why == "is too large to be laid out in lines within 0.01 mm"


class Endless(io.RawIOBase):
    """A file of 50 MB that is made while it is read."""

    def __init__(self, head: bytes, body: bytes, size: int) -> None:
        self.left, self.head, self.body = size, head, body

    def readable(self) -> bool:
        return True

    def readinto(self, buffer: bytearray) -> int:  # type: ignore[override]
        data, self.head = (self.head, b"") if self.head else (self.body, b"")
        count = min(len(data), len(buffer), self.left)
        self.left -= count
        buffer[:count] = data[:count]
        return count


MOST_YARDSTICKS = 80
"""A yardstick is about 50 ms of the processor; a million pairs take about 20."""

HEAD = tags((0, "SECTION"), (2, "ENTITIES")).encode()


def bodies() -> Iterator[tuple[str, bytes, bytes]]:
    yield "circles", HEAD, circle(5).encode() * 200
    yield (
        "one polyline",
        HEAD + tags((0, "LWPOLYLINE"), (8, "0")).encode(),
        tags((10, 1.5), (20, 2)).encode() * 500,
    )
    yield "remarks", b"", tags((999, "nothing")).encode() * 500
    yield "another section", tags((0, "SECTION"), (2, "OBJECTS")).encode(), tags((330, "1F")).encode() * 500
    yield "one line", HEAD + b"1\n", b"x" * 8_000
    yield "short lines", HEAD + tags((0, "TEXT")).encode(), b"1\n\n" * 2_000


@pytest.mark.parametrize(("head", "body"), [pytest.param(h, b, id=name) for name, h, b in bodies()])
def test_a_file_of_fifty_megabytes_is_refused_within_twenty(head: bytes, body: bytes) -> None:
    file = Endless(head, body, 50 * 1024 * 1024)
    said: list[str] = []

    def refused() -> None:
        with pytest.raises(InputError) as caught:
            read_dxf(io.BufferedReader(file, 8_000))
        said.append(str(caught.value))

    assert yardsticks(refused) < MOST_YARDSTICKS
    assert said[0].startswith(("The drawing has more than", "The file is longer than 20 MB", "A line of the"))
    assert 50 * 1024 * 1024 - file.left <= MOST_BYTES + 10_000


def test_as_many_shapes_as_are_read_take_little_time() -> None:
    data = file_of("".join(circle(at, at) for at in range(19_000)))
    assert yardsticks(lambda: read(data)) < MOST_YARDSTICKS
