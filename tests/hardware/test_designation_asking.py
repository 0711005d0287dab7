"""What is asked back, and what is refused: whole lines to choose from, and sentences."""

from __future__ import annotations

import pytest

from calculators.hardware.designation import read_hardware, write_hardware
from calculators.quantities import InputError
from calculators.quantities.errors import Fault


def fault_of(line: str, unit: str = "mm") -> Fault:
    with pytest.raises(InputError) as refused:
        read_hardware(line, unit=unit, field="line")  # type: ignore[arg-type]
    assert all(fault.field == "line" for fault in refused.value.faults)
    return refused.value.faults[0]


ASKED = [
    ("No. 10 x 1", ("No. 10 x 1 wood screw", "10-24 UNC x 1", "10-32 UNF x 1")),
    ("#10 x 1 pan", ("No. 10 x 1 pan wood screw", "10-24 UNC x 1 pan", "10-32 UNF x 1 pan")),
    ("#10 x 1 hex", ("10-24 UNC x 1 hex", "10-32 UNF x 1 hex")),
    ("No. 10 x 1 csk machine screw", ("10-24 UNC x 1 csk", "10-32 UNF x 1 csk")),
    ("No. 8", ("No. 8 wood screw", "8-32 UNC nut", "8-32 UNC washer", "8-32 UNC screw",
               "8-36 UNF nut", "8-36 UNF washer", "8-36 UNF screw")),
    ("1/4 x 1", ("1/4-20 UNC x 1", "1/4-28 UNF x 1", "1/4-32 UNEF x 1", "1/4 BSW x 1", "1/4 BSF x 1",
                 "1/4 x 40 ME x 1", "1/4 x 32 ME x 1", "1/4 x 26 BSB x 1", "1/4 x 1 coach screw",
                 "No. 1 x 1/4 wood screw")),
    ("5/16 nut", ("5/16-18 UNC nut", "5/16-24 UNF nut", "5/16-32 UNEF nut", "5/16 BSW nut", "5/16 BSF nut",
                  "5/16 x 40 ME nut", "5/16 x 32 ME nut", "5/16 x 26 BSB nut")),
    ("1/4-26 nut", ("1/4 BSF nut", "1/4 x 26 BSB nut")),
    ("1/4 ME nut", ("1/4 x 40 ME nut", "1/4 x 32 ME nut")),
    ("5 x 50", ("M5 x 50", "5 x 50 wood screw")),
    ("4 x 40 csk", ("M4 x 40 csk", "4 x 40 csk wood screw")),
    ("8 x 1 1/2 csk brass", ("No. 8 x 1 1/2 csk brass", "8-32 UNC x 1 1/2 csk brass",
                             "8-36 UNF x 1 1/2 csk brass", "8 BA x 1 1/2 csk brass")),
    ("1/4 x 1/2 UNF hex", ("1/4-28 UNF x 1/2 hex", "1/2-20 UNF x 1/4 hex")),
    ("1/2 x 1 BSF hex", ("1/2 BSF x 1 hex", "1 BSF x 1/2 hex")),
    ("M6 x 20 set screw", ("M6 x 20 grub screw", "M6 x 20 hex set screw")),
    ("M6 x 20 socket set screw", ("M6 x 20 hex socket grub screw", "M6 x 20 socket cap set screw")),
    ("M6 x 20 slotted set screw", ("M6 x 20 slotted grub screw", "M6 x 20 cheese slotted set screw")),
    ("M6 x 20 cup point set screw", ("M6 x 20 grub screw cup point", "M6 x 20 hex set screw cup point")),
    ("M5 x 20 socket", ("M5 x 20 socket cap", "M5 x 20 socket csk", "M5 x 20 button hex socket",
                        "M5 x 20 hex socket grub screw")),
    ("M5 x 20 dome head", ("M5 x 20 round", "M5 x 20 button")),
    ("coach 8 x 80", ("M8 x 80 coach bolt", "8 x 80 coach screw")),
    ("M5 lock nut", ("M5 half nut", "M5 stiff nut")),
    ("M5 lock washer", ("M5 spring washer", "M5 toothed washer")),
    ("M5", ("M5 nut", "M5 washer", "M5 screw")),
    ("M5 brass", ("M5 nut brass", "M5 washer brass", "M5 screw brass")),
    ("M6 half", ("M6 half nut",)),
    ("M5 wood screw x 50", ("5 x 50 wood screw",)),
    ("5/16 BSF x 50 hex", ("5/16 BSF x 50 mm hex", "5/16 BSF x 50 in hex")),
    ("No. 8 x 40 csk", ("No. 8 x 40 mm csk", "No. 8 x 40 in csk")),
    ("M6 x 2 hex", ("M6 x 2 mm hex", "M6 x 2 in hex")),
    ("5/16 washer 25 x 1.5", ("5/16 washer OD 25 mm x 1.5 mm",)),
    ("M5 x 1,200 mm stud", ("M5 x 1.2 mm stud", "M5 x 1200 stud")),
]  # fmt: skip


@pytest.mark.parametrize(("line", "choices"), ASKED, ids=[line for line, _ in ASKED])
def test_an_ambiguous_line_is_asked_back_with_whole_lines(line: str, choices: tuple[str, ...]) -> None:
    fault = fault_of(line)
    assert fault.choices == choices
    assert choices[0] in fault.says


NEARLY = [
    ("M5.7 x 20 csk", "The thread 'M5.7' is not known.", "M6 x 20 csk"),
    ("17 BA nut", "The thread '17 BA' is not known.", "16 BA nut"),
    ("1/4 BSP nut", "The thread '1/4 BSP' is not known.", "1/4 BSW nut"),
    ("No. 40 x 2 csk", "There is no No. 40; the largest is No. 24", "No. 24 x 2 csk"),
    ("#20 nut", "There is no machine thread No. 20; they run from No. 0 to No. 12", "12-24 UNC nut"),
    ("9 x 50 wood screw", "There is no wood screw of 9 mm", "8 x 50 wood screw"),
    ("9 x 80 coach screw", "There is no coach screw of 9 mm", "8 x 80 coach screw"),
    ("5.7 x 20 hex bolt", "There is no thread M5.7", "M6 x 20 hex bolt"),
    ("3/17 x 1 hex bolt", "There is no thread of 3/17 in", ""),
    ("M5 x 20 cusk brass", "'cusk' is not understood; the nearest words are csk", "M5 x 20 csk brass"),
    ("M5 x 20 slottd chese", "'slottd' is not understood; the nearest words are slotted", ""),
    ("M5 x 20 csk pan", "'csk' and 'pan' contradict each other", "M5 x 20 pan"),
    ("M5 x 20 pan cheese", "'pan' and 'cheese' contradict each other", "M5 x 20 cheese"),
    ("M5 x 20 csk slotted cross", "'slotted' and 'cross' contradict each other", "M5 x 20 csk cross"),
    ("M5 x 20 csk brass steel", "'brass' and 'steel' contradict each other", "M5 x 20 csk steel"),
    ("M5 x 20 pan 8.8 10.9", "'8.8' and '10.9' contradict each other", "M5 x 20 pan 10.9"),
    ("M5 x 20 socket cap slotted", "'socket cap' and 'slotted' contradict each other", "M5 x 20 socket cap"),
    ("M5 x 20 csk grub", "'grub' and 'csk' contradict each other", "M5 x 20 csk"),
    ("8 x 80 csk coach screw", "'coach screw' and 'csk' contradict each other", "8 x 80 coach screw"),
    ("M5 half wing nut", "'half' and 'wing' contradict each other", "M5 wing nut"),
    ("M5 x 20 bolt and nut", "'nut' and 'bolt' are different things", "M5 x 20 bolt"),
    (
        "No. 8 x 1 wood screw socket cap",
        "A wood screw has a head that is csk, raised csk, round, pan, hex",
        "No. 8 x 1 wood screw",
    ),
]


@pytest.mark.parametrize(("line", "says", "choice"), NEARLY, ids=[line for line, _, _ in NEARLY])
def test_what_is_nearly_right_gets_a_sentence_and_the_nearest(line: str, says: str, choice: str) -> None:
    fault = fault_of(line)
    assert fault.says.startswith(says)
    if choice:
        assert choice in fault.choices


REFUSED = [
    ("", "No hardware is given; write it as M5 x 20 csk slotted brass"),
    ("   ", "No hardware is given"),
    ("csk slotted brass", "The line names no size"),
    ("x", "The line names no size"),
    ("M5 x 20 flurb", "'flurb' is not understood; write it as M5 x 20 csk slotted brass"),
    ("M5 x 20 螺丝", "'螺丝' is not understood"),
    ("6 off M5 x 20 csk", "'off' cannot be used: how many is kept apart from what"),
    ("M8 x 30 square head bolt", "'square head' cannot be used: square heads are not kept here"),
    ("No 8 x 1 self-tapping", "'self tapping' cannot be used"),
    ("M6 x 20 fine", "'fine' cannot be used: a fine thread is named by its pitch"),
    ("M5 x 20 x 30", "'30' has no place here: a screw has one length"),
    ("M5 nut x 20", "'20' has no place here: a nut has a thread and a form, no length"),
    ("M5 washer 25 x 1.5 x 3", "'3' has no place here: a washer has one outside diameter"),
    ("M5 insert 8 x 10 x 12", "'12' has no place here: an insert has an outside diameter"),
    ("M5 x 20 csk OD 8", "'8 outside' has no place here"),
    ("M5 nut csk", "'csk' is said of screws, not of a nut"),
    ("M5 washer slotted", "'slotted' is said of screws, not of a washer"),
    ("M5 repair nut", "There is no repair nut; write it as full, half"),
    ("M5 wing washer", "There is no wing washer; write it as plain, small"),
    ("M8 nut class 10", "The grade 10 of a nut is not kept; leave it out"),
    ("M8 nut A2-70", "The grade A2-70 of a nut is not kept; write it as stainless A2"),
    ("M4 insert zinc plated", "The finish of an insert is not kept"),
    ("10-32 wood screw x 1", "10-32 UNF is a machine thread, which a wood screw does not have"),
    ("No. 12 x 2 lag screw", "A coach screw is named by its diameter, not by No. 12"),
    ("M5 M6 x 20", "'m5' and 'm6' are two sizes"),
    ("M5 x 20 csk brass British", "American and British are said of numbered wood screws only"),
    ("M5 x 25 csk cut to 30", "A screw is cut to less than its length; 30 is not less than 25"),
    ("M5 washer OD 4 mm", "An outside diameter of 4 mm is not more than the M5 that goes through it"),
    ("M4 insert OD 6 body 8 x 10", "The body of 8 is wider than the outside of 6"),
    ("M5 x 0 mm csk", "'0 mm' cannot be measured on hardware"),
    ("M5 x 99999 csk", "'99999' cannot be measured on hardware"),
    ("0 x 20 csk", "A size of nought does not exist"),
    ("1/0 x 1 csk", "The size '1/0' divides by nought"),
    ("M5 x 1/0 csk", "'1/0' divides by nought"),
]  # fmt: skip


@pytest.mark.parametrize(("line", "says"), REFUSED, ids=[line for line, _ in REFUSED])
def test_what_cannot_be_read_gets_a_sentence(line: str, says: str) -> None:
    assert fault_of(line).says.startswith(says)


@pytest.mark.parametrize("line", [line for line, *_ in (*ASKED, *NEARLY, *REFUSED)])
@pytest.mark.parametrize("unit", ["mm", "in"])
def test_every_choice_is_a_canonical_line_that_reads_back(line: str, unit: str) -> None:
    try:
        read_hardware(line, unit=unit)  # type: ignore[arg-type]
    except InputError as refused:
        for fault in refused.faults:
            for choice in fault.choices:
                for either in ("mm", "in"):
                    assert write_hardware(read_hardware(choice, unit=either)) == choice


@pytest.mark.parametrize("line", [line for line, *_ in (*ASKED, *NEARLY, *REFUSED)])
def test_every_refusal_is_a_whole_sentence(line: str) -> None:
    says = fault_of(line).says
    assert says[0].isupper() or not says[0].isalpha()
    assert says.endswith(".")


def test_several_words_that_are_not_understood_are_all_named() -> None:
    with pytest.raises(InputError) as refused:
        read_hardware("M5 x 20 flurb csk glorp")
    assert [fault.says.split(" ")[0] for fault in refused.value.faults] == ["'flurb'", "'glorp'"]


def test_a_line_is_bounded() -> None:
    fault = fault_of("M5 x 20 csk " + "brass " * 60)
    assert (fault.value, fault.limit) == (372.0, 200.0)
    assert fault.says.startswith("A line of hardware has at most 200 characters, not 372")


def test_what_is_not_text_is_refused() -> None:
    with pytest.raises(InputError, match="Hardware is read from text"):
        read_hardware(5)  # type: ignore[arg-type]
