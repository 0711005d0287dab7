"""The lengths in which screws are sold, and their threads."""

from __future__ import annotations

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.fastener import Fastener
from calculators.hardware.lengths import plain_shank_mm, stock_lengths, thread_length_mm
from calculators.quantities.errors import InputError


def written(fastener: Fastener) -> list[str]:
    return [length.written for length in stock_lengths(fastener)]


@pytest.mark.parametrize(
    ("fastener", "length"),
    [
        (Fastener("wood", "No. 8", head="csk", series="inch-us"), "1 3/4 in"),
        (Fastener("wood", "No. 6", head="csk", series="inch-us"), "7/8 in"),
        (Fastener("wood", "No. 12", head="round", series="inch-us"), "2 1/2 in"),
        (Fastener("machine", "5/16 BSF", head="hex", kind="set screw"), "1 3/4 in"),
        (Fastener("machine", "6 BA", head="none", kind="grub screw"), "3/16 in"),
        (Fastener("machine", "4 BA", head="csk"), "3/8 in"),
        (Fastener("machine", "M5", head="socket cap"), "40 mm"),
        (Fastener("machine", "M5", head="pan"), "12 mm"),
        (Fastener("machine", "1/4-28 UNF", head="hex"), "5/8 in"),
        (Fastener("wood", "8", head="hex", kind="coach screw"), "60 mm"),
        (Fastener("wood", "3/8", head="hex", kind="coach screw"), "2 in"),
    ],
)
def test_a_length_that_every_shop_has(fastener: Fastener, length: str) -> None:
    assert length in written(fastener)


def test_ranges_end_where_the_standard_ends() -> None:
    lengths = written(Fastener("machine", "M5", head="socket cap"))
    assert (lengths[0], lengths[-1]) == ("8 mm", "50 mm")
    lengths = written(Fastener("wood", "No. 4", head="csk", series="inch-us"))
    assert (lengths[0], lengths[-1]) == ("1/4 in", "1 1/2 in")


def test_inch_lengths_are_exact() -> None:
    lengths = stock_lengths(Fastener("wood", "No. 8", head="csk", series="inch-us"))
    found = next(length for length in lengths if length.written == "1 3/4 in")
    assert (found.ticks, found.unit) == (444_500_000, "in")


def test_lengths_rise_and_are_never_none_at_all() -> None:
    for size in ("M1.6", "M5", "M48", "0 BA", "16 BA", "1/4 BSW", "2 BSW", "10-32 UNF", "1-8 UNC"):
        for head, kind in (("csk", "screw"), ("hex", "bolt"), ("none", "grub screw"), ("", "stud")):
            lengths = stock_lengths(Fastener("machine", size, head=head, kind=kind))  # type: ignore[arg-type]
            ticks = [length.ticks for length in lengths]
            assert ticks, size
            assert ticks == sorted(set(ticks))


@pytest.mark.parametrize(
    ("fastener", "length", "thread"),
    [
        (Fastener("machine", "M8", head="hex", kind="bolt"), 60.0, 22.0),
        (Fastener("machine", "M20", head="hex", kind="bolt"), 150.0, 52.0),
        (Fastener("machine", "M20", head="hex", kind="bolt"), 240.0, 65.0),
        (Fastener("machine", "M8", head="hex", kind="set screw"), 60.0, 60.0),
        (Fastener("machine", "M5", head="socket cap"), 25.0, 25.0),
        (Fastener("machine", "M5", head="socket cap"), 40.0, 22.0),
        (Fastener("machine", "M5", head="csk"), 40.0, 40.0),
        (Fastener("machine", "M5", head="csk"), 50.0, 38.0),
        (Fastener("machine", "1/4 BSF", head="hex", kind="bolt"), 76.2, 19.05),
        (Fastener("machine", "1/4-28 UNF", head="hex"), 15.875, 15.875),
        (Fastener("machine", "4 BA", head="cheese"), 25.4, 25.4),
        (Fastener("machine", "M4", head="none", kind="grub screw"), 20.0, 20.0),
        (Fastener("wood", "No. 8", head="csk", series="inch-us"), 45.0, 30.0),
        (Fastener("wood", "8", head="hex", kind="coach screw"), 60.0, 36.0),
    ],
)
def test_thread_lengths(fastener: Fastener, length: float, thread: float) -> None:
    assert thread_length_mm(fastener, length) == pytest.approx(thread)
    assert plain_shank_mm(fastener, length) == pytest.approx(length - thread)


@pytest.mark.parametrize("length", [0.0, -1.0, 10_001.0, float("nan"), float("inf")])
def test_lengths_that_cannot_be(length: float) -> None:
    with pytest.raises(InputError, match="A screw's length lies above 0 and up to 10 000 mm"):
        thread_length_mm(Fastener("machine", "M5"), length)


def test_a_coach_screw_that_does_not_exist() -> None:
    with pytest.raises(InputError, match="There is no coach screw '9'; there are 4, 5, 6"):
        stock_lengths(Fastener("wood", "9", kind="coach screw"))


@given(
    st.sampled_from(["M3", "M12", "2 BA", "3/8 BSF", "1/4-20 UNC"]),
    st.sampled_from(["csk", "pan", "hex", "socket cap", "coach", "none"]),
    st.sampled_from(["screw", "bolt", "set screw", "grub screw", "stud"]),
    st.floats(0.1, 500),
)
def test_the_thread_never_passes_the_length(size: str, head: str, kind: str, length: float) -> None:
    thread = thread_length_mm(Fastener("machine", size, head=head, kind=kind), length)  # type: ignore[arg-type]
    assert 0 < thread <= length
