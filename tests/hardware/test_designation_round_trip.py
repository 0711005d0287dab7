"""Writing and reading are each other's inverse for everything that can be represented; nothing else escapes."""

from __future__ import annotations

import string
from dataclasses import replace
from fractions import Fraction
from typing import get_args

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from calculators.hardware.designation import canonical, read_hardware, write_hardware
from calculators.hardware.designation.screw_words import DRIVES_REFUSED, WOOD_HEADS
from calculators.hardware.designation.sizes import coach_screw_sizes, metric_wood_sizes, size_of
from calculators.hardware.designation.words import FINISHES, GRADES, MATERIALS, vocabulary
from calculators.hardware.fastener import (
    Drive,
    Fastener,
    Hardware,
    Head,
    Insert,
    Nut,
    NutForm,
    Point,
    Washer,
    WasherForm,
)
from calculators.hardware.threads import all_threads
from calculators.quantities import InputError, Length

THREADS = [thread.designation for thread in all_threads()]
NUMBERS = [f"No. {number}" for number in range(25)]
INCH_SIZES = ["1/8", "5/32", "3/16", "1/4", "5/16", "3/8", "1/2", "1 in", "1 1/4"]
materials = st.sampled_from(["", *MATERIALS])
finishes = st.sampled_from(["", *FINISHES])
PROPERTY_CLASSES = [
    "4.6",
    "4.8",
    "5.6",
    "5.8",
    "6.8",
    "8.8",
    "9.8",
    "10.9",
    "12.9",
    "14.9",
    "5",
    "8",
    "R",
    *GRADES,
]


def lengths(least: str = "0.1", most: int = 3000) -> st.SearchStrategy[Length]:
    """Lengths as they come: whole and decimal millimetres, inch fractions, decimal inches, worked out."""
    bound = (Fraction(least), Fraction(most))
    millimetres = st.decimals(min_value=least, max_value=most, places=2).map(
        lambda mm: Length(round(Fraction(mm) * 10_000_000), f"{mm} mm", "mm")
    )
    whole = st.integers(1, most).map(lambda mm: Length(mm * 10_000_000, str(mm), "mm"))
    fractions = st.integers(1, 128 * most * 10 // 254).map(
        lambda n: Length(n * 1_984_375, f"{Fraction(n, 128)} in", "in")
    )
    decimals = st.integers(10, most * 1000 * 10 // 254).map(
        lambda n: Length(n * 254_000, f"{n / 1000} in", "in")
    )
    worked_out = st.integers(round(bound[0] * 10_000_000), most * 10_000_000).map(Length)
    every = st.one_of(millimetres, whole, fractions, decimals, worked_out)
    return every.filter(lambda length: bound[0] <= Fraction(length.ticks, 10_000_000) <= bound[1])


@st.composite
def machine_screws(draw: st.DrawFn) -> Fastener:
    kind = draw(st.sampled_from(["screw", "set screw", "bolt", "grub screw", "stud"]))
    if kind in ("grub screw", "stud"):
        head: Head = "none"
    else:
        heads = [head for head in get_args(Head) if head != "none" and (head != "coach" or kind == "bolt")]
        head = draw(st.sampled_from([h for h in heads if h or kind != "set screw"]))
    drives = [drive for drive in get_args(Drive) if drive not in DRIVES_REFUSED.get(head, ())]
    if kind == "stud":
        drives = [""]
    if head in ("", "csk"):  # a hexagon socket says its head
        drives = [drive for drive in drives if drive != "hex socket"]
    drive: Drive = draw(st.sampled_from(drives))
    length, cut_to = draw(st.none() | lengths()), None
    if length is not None and length.ticks > 50_000_000:
        cut_to = draw(st.none() | lengths("0.1", 4))
    material, grade = draw(materials), draw(st.sampled_from(["", *PROPERTY_CLASSES, "A2-70", "A4-80"]))
    if grade[:1] == "A":
        material = f"stainless {grade[:2]}"
    return Fastener(
        "machine", draw(st.sampled_from(THREADS)), length, head, drive, kind, material, draw(finishes), grade,
        draw(st.sampled_from(get_args(Point))), "", cut_to,
    )  # fmt: skip


@st.composite
def wood_screws(draw: st.DrawFn) -> Fastener:
    kind = draw(st.sampled_from(["screw", "coach screw"]))
    sizes = [*NUMBERS, *metric_wood_sizes()] if kind == "screw" else coach_screw_sizes()
    size = draw(st.sampled_from(sizes))
    head = draw(st.sampled_from(["", *WOOD_HEADS] if kind == "screw" else ["", "hex"]))
    refused = DRIVES_REFUSED.get("hex" if kind == "coach screw" else head, ())
    drives = [d for d in get_args(Drive) if d not in refused]
    series = draw(st.sampled_from(["", "inch-us", "inch-british"])) if size.startswith("No.") else "metric"
    if "/" in size:
        series = ""
    return Fastener(
        "wood", size, draw(st.none() | lengths()), head, draw(st.sampled_from(drives)), kind, draw(materials),
        draw(finishes), "", "", series,
    )  # fmt: skip


nuts = st.builds(Nut, st.sampled_from(THREADS), st.sampled_from(get_args(NutForm)), materials, finishes)


@st.composite
def washers(draw: st.DrawFn) -> Washer:
    size = draw(st.sampled_from([*THREADS, *NUMBERS, *INCH_SIZES]))
    outside = draw(st.none() | lengths())
    if outside is not None and outside.mm <= size_of(size).diameter_mm:
        outside = None
    form: WasherForm = draw(st.sampled_from(get_args(WasherForm)))
    return Washer(size, form, outside, draw(st.none() | lengths("0.1", 20)), draw(materials), draw(finishes))


@st.composite
def inserts(draw: st.DrawFn) -> Insert:
    outside, body = draw(st.none() | lengths()), draw(st.none() | lengths())
    if outside is not None and body is not None and body.ticks > outside.ticks:
        outside, body = body, outside
    return Insert(draw(st.sampled_from(THREADS)), draw(st.none() | lengths()), outside, body, draw(materials))


hardware: st.SearchStrategy[Hardware] = st.one_of(machine_screws(), wood_screws(), nuts, washers(), inserts())


@settings(max_examples=600, deadline=None)
@given(hardware, st.sampled_from(["mm", "in"]))
def test_what_is_written_reads_back_as_the_same_thing(item: Hardware, unit: str) -> None:
    line = write_hardware(item)
    assert len(line) <= 200
    back = read_hardware(line, unit=unit)  # type: ignore[arg-type]
    assert back == canonical(item)
    assert write_hardware(back) == line


@settings(max_examples=200, deadline=None)
@given(hardware)
def test_the_canonical_form_changes_no_size(item: Hardware) -> None:
    """Only the writing of lengths, and what a head brings with it, is filled in; no length is rounded."""
    settled = canonical(item)
    for name in ("length", "cut_to", "outside", "thickness", "body"):
        before, after = getattr(item, name, None), getattr(settled, name, None)
        assert (before is None) == (after is None)
        if before is not None and after is not None:
            assert before.ticks == after.ticks
    assert canonical(settled) == settled


@pytest.mark.parametrize("thread", THREADS)
def test_every_thread_has_a_nut_and_a_screw_that_read_back(thread: str) -> None:
    for item in (Nut(thread, "half", "brass"), Fastener("machine", thread, None, "csk", "slotted")):
        assert read_hardware(write_hardware(item)) == item


@pytest.mark.parametrize("thread", THREADS)
def test_a_thread_reads_behind_a_length_in_its_own_unit(thread: str) -> None:
    """`20 mm M5 csk` and `1 1/2 in 1/4 BSF csk`: the size need not stand first."""
    length = "20 mm" if thread.startswith("M") else "1 1/2 in"
    assert read_hardware(f"{length} {thread} csk") == read_hardware(f"{thread} x {length} csk")


@settings(max_examples=200, deadline=None)
@given(machine_screws(), st.randoms(use_true_random=False))
def test_the_words_may_come_in_any_order(item: Fastener, chance: object) -> None:
    """The written size and length stand together; every other word may stand anywhere around them."""
    item = replace(item, cut_to=None, material="", finish="", grade="", point="")
    line = write_hardware(item)
    front = " ".join(
        part for part in (item.size, f"x {canonical(item).length.written}" if item.length else "") if part
    )  # type: ignore[union-attr]
    rest = line.removeprefix(front).strip()
    extra = [rest, "brass", "nickel plated"]
    chance.shuffle(extra)  # type: ignore[attr-defined]
    meant = replace(canonical(item), material="brass", finish="nickel plated")
    assert read_hardware(" ".join([front, *extra])) == meant


PIECES = [
    *vocabulary(), *THREADS[::7], "No. 8", "#10", "x", "x", "1 3/4", "20", "1/4", "5/16 BSF", "2 BA", "mm", "in", '"',
    "A2-70", "8.8", "grade", "-", ",", "½", "×", "/", ".", "0", "1,200", "tpi", "unf", "whit", "cut to", "OD",
]  # fmt: skip


@settings(max_examples=400, deadline=None)
@given(st.lists(st.sampled_from(PIECES), max_size=9).map(" ".join), st.sampled_from(["mm", "in"]))
def test_no_line_of_real_words_raises_anything_else(line: str, unit: str) -> None:
    _only_input_errors(line, unit)


@settings(max_examples=300, deadline=None)
@given(st.text(max_size=300))
def test_no_text_raises_anything_else(line: str) -> None:
    _only_input_errors(line, "mm")


@settings(max_examples=300, deadline=None)
@given(st.text(alphabet=string.digits + "mMxX#/-., \"'½٣NoBAUNFSW²×", max_size=40))
def test_no_figures_raise_anything_else(line: str) -> None:
    _only_input_errors(line, "in")


def test_a_very_long_text_is_refused_at_once() -> None:
    with pytest.raises(InputError):
        read_hardware("M5 x " * 1_000_000)


def _only_input_errors(line: str, unit: str) -> None:
    try:
        item = read_hardware(line, unit=unit)  # type: ignore[arg-type]
    except InputError as refused:
        for fault in refused.faults:
            assert fault.says.endswith(".")
            assert fault.field == "hardware"
            for choice in fault.choices:
                assert write_hardware(read_hardware(choice)) == choice
    else:
        assert read_hardware(write_hardware(item)) == item
