"""Lengths as people write them: what is read, what is asked back, what is refused and with which words."""

from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.reading import WRITE, read_length, write_length


def mm(text: str, **limits) -> Decimal:
    return read_length(text, **limits).exact_mm


@pytest.mark.parametrize(
    ("text", "millimetres"),
    [
        ("31.75", "31.75"),
        ("31,75 mm", "31.75"),
        ("0.8 mm", "0.8"),
        (".8", "0.8"),
        (",8", "0.8"),
        ("5.", "5"),
        ("+5", "5"),
        ("1 1/4 in", "31.75"),
        ('1-1/4"', "31.75"),
        ("1¼ in", "31.75"),
        ("1-¼ in", "31.75"),
        ("1\u00a0¼\u2009in.", "31.75"),
        ("1 1⁄4″", "31.75"),
        ("¹⁄₂ inch", "12.7"),
        ('3/8"', "9.525"),
        ("3/8”", "9.525"),
        ("3/8''", "9.525"),
        ("1/128 in", "0.1984375"),
        ("5/4 in", "31.75"),
        ("2 inches", "50.8"),
        ("10 thou", "0.254"),
        ("5' 3\"", "1600.2"),
        ("5′ 3″", "1600.2"),
        ("5'-3\"", "1600.2"),
        ("5'3 1/2\"", "1612.9"),
        ("5 ft 3 1/2 in", "1612.9"),
        ("5 ft 3", "1600.2"),
        ("0' 0\"", "0"),
        ("5'", "1524"),
        ("2 yd", "1828.8"),
        ("2.4 m", "2400"),
        ("20 cm", "200"),
        ("50 µm", "0.05"),
        ("50 μm", "0.05"),
        ("250 microns", "0.25"),
        ("12 MM", "12"),
        ("0,125", "0.125"),
        ("1234,567", "1234.567"),
        ("1,20", "1.2"),
        ("1.200", "1.2"),
        ("1,200.5", "1200.5"),
        ("1.200,5", "1200.5"),
        ("20 SWG", "0.9144"),
        ("20swg", "0.9144"),
        ("No. 16 S.W.G.", "1.6256"),
        ("SWG 16", "1.6256"),
        ("16 gauge BWG", "1.651"),
        ("0000 AWG", "11.684"),
        ("4/0 B & S", "11.684"),
        ("No 36 Brown and Sharpe", "0.127"),
    ],
)
def test_a_length_is_read_exactly(text, millimetres):
    assert mm(text) == Decimal(millimetres)


def test_a_bare_number_takes_the_unit_and_remembers_it():
    inches = read_length("1 1/4", unit="in")
    assert (inches.ticks, inches.written, inches.unit) == (317_500_000, "1 1/4", "in")
    assert read_length("1 1/4").ticks == 12_500_000


def test_what_was_written_is_kept_with_its_spaces_tidied():
    assert read_length("  1\u00a0 ¼   in ").written == "1 ¼ in"


@pytest.mark.parametrize(
    ("text", "choices"),
    [
        ("1,200", ("1.200 mm", "1200 mm")),
        ("1,200 in", ("1.200 in", "1200 in")),
        ("12 500", ("12500 mm",)),
        ("10 mil", ("10 thou", "10 mm")),
        ("16 gauge", ("16 SWG", "16 B&S", "16 BWG", "16 MSG")),
        ("16g", ("16 SWG", "16 B&S", "16 BWG", "16 MSG")),
        ("No 16", ("16 SWG", "16 B&S", "16 BWG", "16 MSG")),
        ("gauge 2/0", ("2/0 SWG", "2/0 B&S", "2/0 BWG")),
    ],
)
def test_what_could_mean_two_things_is_asked_back_with_choices_that_can_be_read(text, choices):
    with pytest.raises(InputError) as caught:
        read_length(text, field="thickness")
    (fault,) = caught.value.faults
    assert fault.choices == choices
    assert fault.field == "thickness"
    assert all(choice in fault.says for choice in choices)
    assert all(read_length(choice).ticks > 0 for choice in choices)


@pytest.mark.parametrize(
    ("text", "says"),
    [
        ("", f"A length is missing; {WRITE}."),
        ("   ", f"A length is missing; {WRITE}."),
        ("abc", f"'abc' cannot be read as a length; {WRITE}."),
        ("1/0", f"'1/0' divides by nought; {WRITE}."),
        ("nan", f"'nan' is not a number; {WRITE}."),
        ("-inf", f"'-inf' is not a number; {WRITE}."),
        ("0x1F", f"'0x1F' is not a number; {WRITE}."),
        ("1e3", f"'1e3' has an exponent, which lengths are not written with; {WRITE}."),
        ("3 furlongs", f"'3 furlongs' has a unit that lengths are not measured in, 'furlongs'; {WRITE}."),
        ("1 5/4", f"'1 5/4' has a whole number before a fraction that is not less than one; {WRITE}."),
        ("5' 14\"", f"'5' 14\"' has 12 inches or more after the feet; {WRITE}."),
        ("5 mm long", f"'5 mm long' cannot be read as a length; {WRITE}."),
        ("٣ mm", f"'٣ mm' has signs that a length does not have; {WRITE}."),
        ("-3", "'-3' is negative, and this length may not be; write 0 mm or more."),
        ("99 SWG", "There is no number '99' in the SWG gauge; it runs from 7/0 to 50."),
        ("1000001 mm", "'1000001 mm' is above the most allowed here; write a length of at most 1000000 mm."),
    ],
)
def test_a_refusal_says_what_is_wrong_and_what_can_be_written(text, says):
    with pytest.raises(InputError) as caught:
        read_length(text)
    assert str(caught.value) == says


def test_the_limits_carry_their_numbers():
    with pytest.raises(InputError) as caught:
        read_length("1/2 in", field="stock", minimum_mm=13, maximum_mm=20)
    (fault,) = caught.value.faults
    assert (fault.field, fault.value, fault.limit, fault.unit) == ("stock", 12.7, 13.0, "mm")
    assert fault.says == "'1/2 in' is below the least allowed here; write a length of at least 13 mm."
    assert mm("20", minimum_mm=13, maximum_mm=20) == 20


def test_a_coordinate_may_be_negative_where_the_least_allows_it():
    assert mm("−1 1/4 in", minimum_mm=-100) == Decimal("-31.75")
    assert mm("- 5' 3\"", minimum_mm=-5000) == Decimal("-1600.2")


def check_sentences(error: InputError) -> None:
    assert all(fault.says.endswith(".") and "\n" not in fault.says for fault in error.faults)


@given(st.text(max_size=200), st.sampled_from(["mm", "in"]))
@example("9" * 64, "mm")
@example("1/" + "9" * 60, "in")
@example("\ud800", "mm")
@example("''", "mm")
@example("-", "mm")
def test_no_text_raises_anything_but_a_sentence(text, unit):
    try:
        length = read_length(text, unit=unit)
    except InputError as error:
        check_sentences(error)
    else:
        assert 0 <= length.mm <= 1e6


PIECES = [
    "1",
    "12",
    "1/2",
    "3/0",
    " ",
    "-",
    "'",
    '"',
    ".",
    ",",
    "in",
    "ft",
    "mm",
    "No",
    "SWG",
    "&",
    "B&S",
    "ga",
    "¼",
    "e5",
]


@given(st.lists(st.sampled_from(PIECES), max_size=9).map("".join))
def test_no_mixture_of_the_right_pieces_raises_anything_but_a_sentence(text):
    try:
        length = read_length(text)
    except InputError as error:
        check_sentences(error)
    else:
        assert read_length(write_length(length, "in"), unit="in").ticks == length.ticks
        assert read_length(write_length(length, "mm")).ticks == length.ticks


@given(st.integers(-(10**13), 10**13), st.sampled_from(["mm", "in"]), st.sampled_from(["mm", "in"]))
def test_a_worked_out_length_reads_back_to_the_tick(ticks, unit, read_in):
    text = write_length(Length(ticks), unit)
    assert read_length(text, unit=read_in, minimum_mm=-1e6).ticks == ticks


@given(st.integers(0, 1000), st.integers(0, 127), st.sampled_from([2, 4, 8, 16, 32, 64, 128]))
def test_the_same_length_in_its_different_writings(whole, part, denominator):
    part %= denominator
    value = whole + Fraction(part, denominator)
    expected = value * 254 * 10**6
    writings = [f"{whole} {part}/{denominator} in", f'{whole}-{part}/{denominator}"', f"{float(value)} in"]
    if value < 12:
        writings.append(f"0' {whole} {part}/{denominator}\"")
    assert {read_length(text).ticks for text in writings} == {expected}
    assert read_length(f"{whole} {part}/{denominator}", unit="in").ticks == expected


def test_one_and_a_quarter_in_inches_is_31_75_mm():
    assert read_length("1 1/4", unit="in").ticks == read_length("31.75 mm").ticks


@pytest.mark.parametrize(
    ("length", "unit", "text"),
    [
        (Length(444_500_000), "in", "1 3/4 in"),
        (Length(444_500_000), "mm", "44.45 mm"),
        (Length(127), "in", "0.0000005 in"),
        (Length(1), "in", "0.0000001 mm"),
        (Length(0), "in", "0 in"),
        (Length(-95_250_000), "in", "-3/8 in"),
        (Length(95_250_000, "3/8", "in"), "mm", "3/8 in"),
        (Length(95_250_000, "3/8", "in"), "in", "3/8"),
        (Length(9_144_000, "20 SWG", "in"), "mm", "20 SWG"),
    ],
)
def test_canonical_writing(length, unit, text):
    assert write_length(length, unit) == text
