"""Lines of hardware as the trade writes them, each with what it means (common practice; read by hand)."""

from __future__ import annotations

from fractions import Fraction

import pytest

from calculators.hardware.designation import (
    read_fastener,
    read_hardware,
    read_insert,
    read_nut,
    read_washer,
    write_hardware,
)
from calculators.hardware.designation.sizes import size_of
from calculators.hardware.designation.words import DRIVES, FINISHES, GRADES, MATERIALS, POINTS
from calculators.hardware.fastener import Fastener, Hardware, Insert, Nut, Washer
from calculators.hardware.heads import head_of
from calculators.hardware.washers import washer_of
from calculators.quantities import InputError, Length, read_length


def mm(text: str, *, foreign: bool = False) -> Length:
    """A length of so many millimetres, bare unless it is foreign to the thread's system."""
    return Length(round(Fraction(text) * 10_000_000), f"{text} mm" if foreign else text, "mm")


def inch(text: str, *, foreign: bool = False) -> Length:
    """A length of so many inches, given as a mixed number."""
    value = sum((Fraction(part) for part in text.split()), Fraction(0))
    return Length(round(value * 254_000_000), f"{text} in" if foreign else text, "in")


def screw(
    size: str, length: Length | None = None, head: str = "", drive: str = "", **rest: object
) -> Fastener:
    return Fastener("machine", size, length, head, drive, **rest)  # type: ignore[arg-type]


def wood(
    size: str, length: Length | None = None, head: str = "", drive: str = "", **rest: object
) -> Fastener:
    return Fastener("wood", size, length, head, drive, **rest)  # type: ignore[arg-type]


def metric_wood(size: str, length: Length, head: str = "", drive: str = "", **rest: object) -> Fastener:
    return wood(size, length, head, drive, series="metric", **rest)


BRASS: dict[str, object] = {"material": "brass"}
STEEL: dict[str, object] = {"material": "steel"}

METRIC: list[tuple[str, Hardware]] = [
    ("M5 x 20 csk slotted brass", screw("M5", mm("20"), "csk", "slotted", **BRASS)),
    ("M5x20 csk", screw("M5", mm("20"), "csk")),
    ("M5X20CSK", screw("M5", mm("20"), "csk")),
    ("m5*20 CSK SLOTTED BRASS", screw("M5", mm("20"), "csk", "slotted", **BRASS)),
    ("M 5 x 20 csk", screw("M5", mm("20"), "csk")),
    ("M5 × 20 – csk – brass", screw("M5", mm("20"), "csk", **BRASS)),
    ("brass csk M5 x 20 slotted", screw("M5", mm("20"), "csk", "slotted", **BRASS)),
    ("M5 csk, 20mm long, brass", screw("M5", mm("20"), "csk", **BRASS)),
    ("M5 x 20 lg c/sk", screw("M5", mm("20"), "csk")),
    ("M5 x 12,5 pan", screw("M5", mm("12.5"), "pan")),
    ("M5 x 0.8 - 20 csk", screw("M5", mm("20"), "csk")),
    ("M6-20 hex bolt", screw("M6", mm("20"), "hex", kind="bolt")),
    ("M6 x 1 x 20 hex", screw("M6", mm("20"), "hex")),
    ("M6 x 0.75 x 20 socket cap", screw("M6 x 0.75", mm("20"), "socket cap", "hex socket")),
    ("M5x0.5 x 20", screw("M5 x 0.5", mm("20"))),
    ("M2.5 x 6 pan", screw("M2.5", mm("6"), "pan")),
    ("M5 x 3/8 pan", screw("M5", inch("3/8", foreign=True), "pan")),
    ('M5 x 3/8" pan', screw("M5", inch("3/8", foreign=True), "pan")),
    (
        "M5 x 40 socket cap steel zinc plated",
        screw("M5", mm("40"), "socket cap", "hex socket", **STEEL, finish="zinc plated"),
    ),
    ("M5 x 40 cap", screw("M5", mm("40"), "socket cap", "hex socket")),
    (
        "M5 x 40 cap head A4-80",
        screw("M5", mm("40"), "socket cap", "hex socket", material="stainless A4", grade="A4-80"),
    ),
    ("M5 x 40 hex socket cap", screw("M5", mm("40"), "socket cap", "hex socket")),
    (
        "M8 x 30 12.9 socket cap black",
        screw("M8", mm("30"), "socket cap", "hex socket", grade="12.9", finish="black"),
    ),
    ("M8 x 30 countersunk socket 10.9", screw("M8", mm("30"), "socket csk", "hex socket", grade="10.9")),
    ("M8 x 30 flat head socket", screw("M8", mm("30"), "socket csk", "hex socket")),
    ("M5 x 20 A2 button allen", screw("M5", mm("20"), "button", "hex socket", material="stainless A2")),
    ("M5 x 20 oval head phillips ss", screw("M5", mm("20"), "raised csk", "cross", material="stainless")),
    ("M5 x 20 torx pan", screw("M5", mm("20"), "pan", "hexalobular")),
    ("M5 x 20 pan T25", screw("M5", mm("20"), "pan", "hexalobular")),
    ("M5 x 20 machine screw pan", screw("M5", mm("20"), "pan")),
    ("M5 x 20 csk brass nickel plated", screw("M5", mm("20"), "csk", **BRASS, finish="nickel plated")),
    (
        "M8 x 30 hex bolt 8.8 zinc",
        screw("M8", mm("30"), "hex", kind="bolt", grade="8.8", finish="zinc plated"),
    ),
    (
        "M8 hex bolt x 30 8.8 bzp",
        screw("M8", mm("30"), "hex", kind="bolt", grade="8.8", finish="zinc plated"),
    ),
    (
        "M8 x 30 HT hex set screw bzp",
        screw("M8", mm("30"), "hex", kind="set screw", grade="high tensile", finish="zinc plated"),
    ),
    ("M6 x 20 hex setscrew", screw("M6", mm("20"), "hex", kind="set screw")),
    ("M6 x 20 cheese set screw", screw("M6", mm("20"), "cheese", kind="set screw")),
    ("M6 x 20 hexagon head fully threaded", screw("M6", mm("20"), "hex", kind="set screw")),
    ("8 x 40 hex bolt", screw("M8", mm("40"), "hex", kind="bolt")),
    ("M8 x 40 coach bolt", screw("M8", mm("40"), "coach", kind="bolt")),
    ("M8 x 40 cup square bolt galv", screw("M8", mm("40"), "coach", kind="bolt", finish="galvanised")),
    ("M5 x 12 thumb screw", screw("M5", mm("12"), "knurled", "hand")),
    ("M4 x 20 socket grub", screw("M4", mm("20"), "none", "hex socket", kind="grub screw")),
    ("M4 x 8 grub screw cup point", screw("M4", mm("8"), "none", kind="grub screw", point="cup")),
    ("M4 x 8 grub flat", screw("M4", mm("8"), "none", kind="grub screw", point="flat")),
    (
        "M4 x 8 socket set screw headless cone",
        screw("M4", mm("8"), "none", "hex socket", kind="grub screw", point="cone"),
    ),
    ("M5 x 16 dog point grub screw", screw("M5", mm("16"), "none", kind="grub screw", point="dog")),
    ("M6 stud x 60", screw("M6", mm("60"), "none", kind="stud")),
    ("M12 threaded rod x 1000", screw("M12", mm("1000"), "none", kind="stud")),
    ("M5 x 25 csk brass cut to 18", screw("M5", mm("25"), "csk", **BRASS, cut_to=mm("18"))),
    ("M5 csk", screw("M5", None, "csk")),
    ("M5 screw", screw("M5")),
]

INCH: list[tuple[str, Hardware]] = [
    ("5/16 BSF x 2 hex set screw", screw("5/16 BSF", inch("2"), "hex", kind="set screw")),
    ("hex set screw 5/16 BSF x 2", screw("5/16 BSF", inch("2"), "hex", kind="set screw")),
    ('5/16" x 2" BSF hex bolt', screw("5/16 BSF", inch("2"), "hex", kind="bolt")),
    ("5/16 x 2 hex set screw BSF", screw("5/16 BSF", inch("2"), "hex", kind="set screw")),
    ("2 5/16 BSF hex set screw", screw("5/16 BSF", inch("2"), "hex", kind="set screw")),
    ("BSF 5/16 x 2 hex", screw("5/16 BSF", inch("2"), "hex")),
    ("5/16 BSF knurled screw x 2", screw("5/16 BSF", inch("2"), "knurled", "hand")),
    ("5/16 BSF x 50 mm hex", screw("5/16 BSF", mm("50", foreign=True), "hex")),
    ("1/4 Whit x 1 1/2 round steel", screw("1/4 BSW", inch("1 1/2"), "round", **STEEL)),
    ("3/16 Whitworth x ½ csk brass", screw("3/16 BSW", inch("1/2"), "csk", **BRASS)),
    ('1/4" x 1" csk Whit.', screw("1/4 BSW", inch("1"), "csk")),
    ("1/8 BSW x 1/2 rd hd brass", screw("1/8 BSW", inch("1/2"), "round", **BRASS)),
    ("1/4 x 40 ME x 1/2 hex brass", screw("1/4 x 40 ME", inch("1/2"), "hex", **BRASS)),
    ("10-32 UNF x 3/8 pan", screw("10-32 UNF", inch("3/8"), "pan")),
    ("#10-32 x 3/8 pan", screw("10-32 UNF", inch("3/8"), "pan")),
    ("3/8 x 10-32 UNF pan", screw("10-32 UNF", inch("3/8"), "pan")),
    ("2-56 x 1/4 fillister", screw("2-56 UNC", inch("1/4"), "cheese")),
    ("6-32 x 1/2 flat head phillips zinc", screw("6-32 UNC", inch("1/2"), "csk", "cross", finish="zinc plated")),
    ("1/4-28 UNF x 5/8 hex", screw("1/4-28 UNF", inch("5/8"), "hex")),
    ('1/4" UNC x 1" hex bolt grade 5', screw("1/4-20 UNC", inch("1"), "hex", kind="bolt", grade="5")),
    ("UNC 1/4 x 1 hex bolt", screw("1/4-20 UNC", inch("1"), "hex", kind="bolt")),
    ("1/4-20 x 1 hex cap screw", screw("1/4-20 UNC", inch("1"), "hex", kind="bolt")),
    ("1/4 x 20 tpi x 1 hex", screw("1/4-20 UNC", inch("1"), "hex")),
    ("1/4 x 20 UNC x 1 hex", screw("1/4-20 UNC", inch("1"), "hex")),
    ("1/4-20 UNC x 1 carriage bolt", screw("1/4-20 UNC", inch("1"), "coach", kind="bolt")),
    ("1/4-20 x .75 button", screw("1/4-20 UNC", inch("3/4"), "button")),
    ("2 BA x 3/4 ch hd brass", screw("2 BA", inch("3/4"), "cheese", **BRASS)),
    ("2BA x 3/4 ch. hd. brass", screw("2 BA", inch("3/4"), "cheese", **BRASS)),
    ("3/4 x 2 BA cheese brass", screw("2 BA", inch("3/4"), "cheese", **BRASS)),
    ("BA 4 x 1/2 csk", screw("4 BA", inch("1/2"), "csk")),
    ("4BA x 1/4 grub slotted cone", screw("4 BA", inch("1/4"), "none", "slotted", kind="grub screw", point="cone")),
    ("brass 8BA x 3/16 grub", screw("8 BA", inch("3/16"), "none", kind="grub screw", **BRASS)),
    ('6BA × 3/16" slotted grub screw brass', screw("6 BA", inch("3/16"), "none", "slotted", kind="grub screw", **BRASS)),
    ("10BA x 1/8 cheese", screw("10 BA", inch("1/8"), "cheese")),
    ("2BA x 1 knurled thumb screw brass", screw("2 BA", inch("1"), "knurled", "hand", **BRASS)),
]  # fmt: skip

WOOD: list[tuple[str, Hardware]] = [
    ("No. 8 x 1 3/4 csk brass", wood("No. 8", inch("1 3/4"), "csk", **BRASS)),
    ("No 8 x 1¾ csk slotted brass", wood("No. 8", inch("1 3/4"), "csk", "slotted", **BRASS)),
    ("No.8 x 1¾\" csk. slotted, brass", wood("No. 8", inch("1 3/4"), "csk", "slotted", **BRASS)),
    ("#8 x 1-3/4 flat head brass", wood("No. 8", inch("1 3/4"), "csk", **BRASS)),
    ("№ 8 x 1 3/4 c/sk brass", wood("No. 8", inch("1 3/4"), "csk", **BRASS)),
    ("8 gauge x 1 1/2 csk brass", wood("No. 8", inch("1 1/2"), "csk", **BRASS)),
    ("8g x 1½ csk brass", wood("No. 8", inch("1 1/2"), "csk", **BRASS)),
    ("No 6 x 7/8 brass csk slotted", wood("No. 6", inch("7/8"), "csk", "slotted", **BRASS)),
    ("No 6 7/8 csk", wood("No. 6", inch("7/8"), "csk")),
    ("No. 4 x ½ inch countersunk brass", wood("No. 4", inch("1/2"), "csk", **BRASS)),
    ("No. 12 x 2 1/2 round steel", wood("No. 12", inch("2 1/2"), "round", **STEEL)),
    ("2 1/2 in No 12 rd hd steel wood screw", wood("No. 12", inch("2 1/2"), "round", **STEEL)),
    ("#6 x 3/4 round head brass wood screw", wood("No. 6", inch("3/4"), "round", **BRASS)),
    ("No. 8 x 1 1/2 raised csk brass", wood("No. 8", inch("1 1/2"), "raised csk", **BRASS)),
    ("No. 10 x 1 1/4 oval brass slotted", wood("No. 10", inch("1 1/4"), "raised csk", "slotted", **BRASS)),
    ("No. 10 x 1 woodscrew", wood("No. 10", inch("1"))),
    ("No. 14 x 3", wood("No. 14", inch("3"))),
    ("No. 8 x 40 mm csk", wood("No. 8", mm("40", foreign=True), "csk")),
    ("No. 8 x 1 csk black japanned", wood("No. 8", inch("1"), "csk", finish="black japanned")),
    ("No 8 British x 1 csk brass", wood("No. 8", inch("1"), "csk", series="inch-british", **BRASS)),
    ("1 1/2 x 8 csk brass wood screws", wood("No. 8", inch("1 1/2"), "csk", **BRASS)),
    ("8 x 1 1/2 csk wood screw", wood("No. 8", inch("1 1/2"), "csk")),
    ("5 x 50 csk pozi wood screw", metric_wood("5", mm("50"), "csk", "cross")),
    ("5.0 x 50 wood screw csk", metric_wood("5", mm("50"), "csk")),
    ("4.0 x 40 csk torx", metric_wood("4", mm("40"), "csk", "hexalobular")),
    ("3,5 x 30 csk cross recess zinc", metric_wood("3.5", mm("30"), "csk", "cross", finish="zinc plated")),
    ("coach screw 8 x 80", metric_wood("8", mm("80"), "hex", kind="coach screw")),
    ("M8 x 80 coach screw hex galvanised", metric_wood("8", mm("80"), "hex", kind="coach screw", finish="galvanised")),
    ("3/8 x 3 lag screw", wood("3/8", inch("3"), "hex", kind="coach screw")),
]  # fmt: skip

PARTS: list[tuple[str, Hardware]] = [
    ("M5 nut", Nut("M5")),
    ("nut M5", Nut("M5")),
    ("M5 full nut zinc", Nut("M5", finish="zinc plated")),
    ("hexagon nuts M5", Nut("M5")),
    ("5 mm nut", Nut("M5")),
    ("M6 half nut", Nut("M6", "half")),
    ("M6 hex half nut", Nut("M6", "half")),
    ("M5 jam nut", Nut("M5", "half")),
    ("M5 thin nut brass", Nut("M5", "half", "brass")),
    ("4BA half nut brass", Nut("4 BA", "half", "brass")),
    ("M10 x 1.25 nut", Nut("M10 x 1.25")),
    ("M6 wing nut", Nut("M6", "wing")),
    ("M5 acorn nut brass", Nut("M5", "dome", "brass")),
    ("M5 domed nut A2", Nut("M5", "dome", "stainless A2")),
    ("M5 cap nut", Nut("M5", "dome")),
    ("M5 square nut", Nut("M5", "square")),
    ("M5 nylon insert nut", Nut("M5", "stiff")),
    ("M5 self-locking nut", Nut("M5", "stiff")),
    ("M5 knurled nut brass", Nut("M5", "knurled", "brass")),
    ("1/4 BSF nut", Nut("1/4 BSF")),
    ("1/4-20 nut", Nut("1/4-20 UNC")),
    ("1/4 x 40 ME nut", Nut("1/4 x 40 ME")),
    ("1-8 UNC nut", Nut("1-8 UNC")),
    ("2-4.5 UNC nut", Nut("2-4.5 UNC")),
    ("M5 washer", Washer("M5")),
    ("M5 flat washer", Washer("M5")),
    ("M5 plain washers brass", Washer("M5", material="brass")),
    ("M5 small washer", Washer("M5", "small")),
    ("M5 repair washer 25 x 1.5", Washer("M5", "repair", mm("25"), mm("1.5"))),
    ("M5 penny washer 1.5 x 25", Washer("M5", "repair", mm("25"), mm("1.5"))),
    ("M6 fender washer A2", Washer("M6", "repair", material="stainless A2")),
    ("M5 washer 1.5 thick", Washer("M5", thickness=mm("1.5"))),
    ("M5 washer OD 12", Washer("M5", outside=mm("12"))),
    ("M5 washer 12 OD 1 thick", Washer("M5", outside=mm("12"), thickness=mm("1"))),
    ("5/16 x 1 1/4 OD repair washer", Washer("5/16", "repair", inch("1 1/4"))),
    ("1 1/4 in repair washer 5/16", Washer("5/16", "repair", inch("1 1/4"))),
    ("5/16 repair washer 1 1/4 x 1/16", Washer("5/16", "repair", inch("1 1/4"), inch("1/16"))),
    ("5/16 repair washer 1 1/4 x 1.6 mm", Washer("5/16", "repair", inch("1 1/4"), mm("1.6", foreign=True))),
    ("M5 split lock washer", Washer("M5", "spring")),
    ("M5 spring washer zp", Washer("M5", "spring", finish="zinc plated")),
    ("M4 crinkle washer", Washer("M4", "crinkle")),
    ("M5 star washer", Washer("M5", "toothed")),
    ("M5 shakeproof washer", Washer("M5", "toothed")),
    ("No. 8 cup washer brass", Washer("No. 8", "cup", material="brass")),
    ("No 8 screw cup washer brass", Washer("No. 8", "cup", material="brass")),
    ("2 BA washer", Washer("2 BA")),
    ("M4 insert OD 8 x 10 brass", Insert("M4", mm("10"), mm("8"), None, "brass")),
    ("M4 insert 8 x 10", Insert("M4", mm("10"), mm("8"))),
    ("M4 insert OD 8 body 6.5 x 10 brass", Insert("M4", mm("10"), mm("8"), mm("6.5"), "brass")),
    ("M4 threaded insert x 10", Insert("M4", mm("10"))),
    ("M4 wood insert", Insert("M4")),
    ("1/4-20 insert 5/8 long", Insert("1/4-20 UNC", inch("5/8"))),
]

ALL = METRIC + INCH + WOOD + PARTS


def test_the_table_is_as_long_as_it_is_said_to_be() -> None:
    assert len({line for line, _ in ALL}) == len(ALL) >= 120


@pytest.mark.parametrize(("line", "meant"), ALL, ids=[line for line, _ in ALL])
def test_a_line_means_what_the_trade_means(line: str, meant: Hardware) -> None:
    assert read_hardware(line) == meant


@pytest.mark.parametrize(("line", "meant"), ALL, ids=[line for line, _ in ALL])
def test_a_line_survives_capitals_and_being_written_and_read_again(line: str, meant: Hardware) -> None:
    assert read_hardware(line.upper()) == meant
    assert read_hardware(write_hardware(meant)) == meant


@pytest.mark.parametrize(("line", "meant"), ALL, ids=[line for line, _ in ALL])
def test_a_length_reads_back_by_itself(line: str, meant: Hardware) -> None:
    """The settled writing of a length is one that `read_length` gives the same length for."""
    lengths = [getattr(meant, name, None) for name in ("length", "cut_to", "outside", "thickness", "body")]
    for length in lengths:
        if length is not None:
            assert read_length(length.written, unit=length.unit) == length


CANONICAL = [
    ("M5 csk brass slotted x 20", "M5 x 20 csk slotted brass"),
    ("brass csk No 8 slotted 1 3/4", "No. 8 x 1 3/4 csk slotted brass"),
    ("zinc plated 8.8 hex bolt M8 x 30 steel", "M8 x 30 hex bolt steel 8.8 zinc plated"),
    ("5 x 50 csk pozi", "5 x 50 csk cross wood screw"),
    ("allen cup point grub M4x8", "M4 x 8 hex socket grub screw cup point"),
    ("M5 x 20 T25 pan", "M5 x 20 pan hexalobular"),
    ("M5 socket cap x 40 A2-70", "M5 x 40 socket cap stainless A2-70"),
    ("5/16 1 1/4 OD repair washer x 1/16", "5/16 repair washer OD 1 1/4 x 1/16"),
    ("M4 insert 8 OD 6.5 body 10 long", "M4 insert OD 8 body 6.5 x 10"),
    ("4 BA brass half nut", "4 BA half nut brass"),
    ("2 BA cheese x 20 mm", "2 BA x 20 mm cheese"),
    ("2 BA cheese x 0.32", "2 BA x 0.32 cheese"),
    ("M5 x 25 csk, cut to 18", "M5 x 25 csk cut to 18"),
]


@pytest.mark.parametrize(("line", "canonical"), CANONICAL)
def test_the_canonical_line(line: str, canonical: str) -> None:
    assert write_hardware(read_hardware(line)) == canonical


@pytest.mark.parametrize(
    ("slot", "value", "phrase"),
    [
        (slot, value, phrase)
        for slot, table in (
            ("material", MATERIALS),
            ("finish", FINISHES),
            ("grade", GRADES),
            ("point", POINTS),
        )
        for value, phrases in table.items()
        for phrase in phrases
    ],
)
def test_every_word_for_a_material_finish_grade_or_point(slot: str, value: str, phrase: str) -> None:
    assert getattr(read_hardware(f"M5 x 20 pan {phrase}"), slot) == value


@pytest.mark.parametrize(
    ("value", "phrase"), [(v, p) for v in ("slotted", "cross", "hexalobular", "square") for p in DRIVES[v]]
)
def test_every_word_for_a_drive(value: str, phrase: str) -> None:
    item = read_hardware(f"M5 x 20 pan {phrase}")
    assert isinstance(item, Fastener)
    assert (item.head, item.drive) == ("pan", value)


def test_no_brand_is_written() -> None:
    for brand in ("phillips", "pozidriv", "torx", "allen", "robertson"):
        assert brand not in write_hardware(read_hardware(f"M5 x 20 button {brand}"))
    assert write_hardware(read_hardware("M5 nyloc nut")) == "M5 stiff nut"


def test_the_unit_of_the_build_decides_a_bare_number_only() -> None:
    assert read_hardware("M5 x 20 csk", unit="in") == read_hardware("M5 x 20 csk", unit="mm")
    assert read_hardware("5/16 BSF x 2 hex", unit="mm") == read_hardware("5/16 BSF x 2 hex", unit="in")
    assert write_hardware(read_hardware("8 x 2 csk wood screw", unit="in")) == "No. 8 x 2 csk"
    assert write_hardware(read_hardware("8 x 20 csk wood screw", unit="mm")) == "8 x 20 csk wood screw"


def test_each_reader_insists_on_its_kind() -> None:
    assert read_fastener("M5 x 20 csk").size == "M5"
    assert read_nut("M5 nut").size == "M5"
    assert read_washer("M5 washer").size == "M5"
    assert read_insert("M4 insert").size == "M4"


@pytest.mark.parametrize(
    ("reader", "line", "says"),
    [
        (read_fastener, "M5 nut", "'M5 nut' is a nut, and a screw is wanted here"),
        (read_nut, "M5 x 20 csk", "'M5 x 20 csk' is a screw, and a nut is wanted here"),
        (read_washer, "M4 insert", "'M4 insert' is an insert, and a washer is wanted here"),
        (read_insert, "M4 washer", "'M4 washer' is a washer, and an insert is wanted here"),
    ],
)
def test_another_kind_is_refused_with_a_sentence(reader, line: str, says: str) -> None:  # type: ignore[no-untyped-def]
    with pytest.raises(InputError) as refused:
        reader(line, field="this")
    assert refused.value.faults[0].says.startswith(says)
    assert refused.value.faults[0].field == "this"


@pytest.mark.parametrize(
    "line", ["M5 repair washer", "5/16 repair washer", "1 in washer", "No. 8 cup washer", "2 BA washer"]
)
def test_the_size_of_a_washer_is_one_that_the_tables_know(line: str) -> None:
    washer = read_washer(line)
    assert washer_of(washer.size, washer.form).outside_mm > size_of(washer.size).diameter_mm


@pytest.mark.parametrize(
    ("line", "meant"), METRIC + INCH + WOOD, ids=[line for line, _ in METRIC + INCH + WOOD]
)
def test_a_head_that_is_stated_has_a_size_in_the_tables(line: str, meant: Fastener) -> None:
    if meant.head and meant.head != "knurled":  # made in the shop in most systems: it is measured
        found = head_of(meant.head, meant.size, family=meant.family, drive=meant.drive, series=meant.series)
        assert found.height_mm >= 0
