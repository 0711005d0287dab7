"""Reading threads as people write them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from calculators.hardware.threads import all_threads, find_thread
from calculators.quantities.errors import InputError

WRITTEN = {
    "M5": "M5", "m5": "M5", "M5x0.8": "M5", "M 5 × 0,8": "M5", "M5 x 0.8 mm": "M5", "5 mm": "M5",
    "M6x1.0": "M6", "M6 fine": "M6 x 0.75", "M8 coarse": "M8", "m6*0.75": "M6 x 0.75", "M6-6g": "M6",
    "M6 x 0.75 - 6H": "M6 x 0.75", "metric 6": "M6", "M5.5": "M5.5 x 0.5", "M1.4": "M1.4",
    "1/4 UNF": "1/4-28 UNF", "1/4-28": "1/4-28 UNF", "UNF 1/4": "1/4-28 UNF", "28 x 1/4": "1/4-28 UNF",
    "¼-20 UNC": "1/4-20 UNC", "1/4-20": "1/4-20 UNC", "0.25-20": "1/4-20 UNC", '1/4" UNC': "1/4-20 UNC",
    "1/4–28 UNF–2A": "1/4-28 UNF", "1/4-28 UNF-2B": "1/4-28 UNF", "UNC1/4": "1/4-20 UNC",
    "10-32": "10-32 UNF", "#10-32": "10-32 UNF", "No. 10-32": "10-32 UNF", "no10 x 32": "10-32 UNF",
    "10 UNF": "10-32 UNF", ".190-32": "10-32 UNF", "4-40": "4-40 UNC", "UNC #4": "4-40 UNC",
    "0-80": "0-80 UNF", "1-8": "1-8 UNC", "#1-64": "1-64 UNC", "1 1/4-7": "1 1/4-7 UNC",
    "1-1/4-7 UNC": "1 1/4-7 UNC", "1¼ BSF": "1 1/4 BSF", "2BA": "2 BA", "BA 2": "2 BA", "2 b.a.": "2 BA",
    "No. 2 BA": "2 BA", "0BA": "0 BA", "3/16 bsf": "3/16 BSF", "B.S.F. 5/16": "5/16 BSF",
    "5/16BSF 22tpi": "5/16 BSF", "1/4 Whit": "1/4 BSW", "1/4 whitworth": "1/4 BSW", "W 1/4": "1/4 BSW",
    'W1/4"': "1/4 BSW", "1/4 in BSW": "1/4 BSW", "1/4 x 40": "1/4 x 40 ME", "1/4x32 me": "1/4 x 32 ME",
    "40 tpi 1/4 ME": "1/4 x 40 ME", "1/4 brass": "1/4 x 26 BSB", "5/16 x 24": "5/16-24 UNF",
}  # fmt: skip


@pytest.mark.parametrize(("text", "designation"), WRITTEN.items())
def test_as_people_write_it(text, designation):
    assert find_thread(text).designation == designation


@pytest.mark.parametrize(
    ("text", "choices"),
    [
        ("1/4 ME", ("1/4 x 40 ME", "1/4 x 32 ME")),
        ("1/4 x 20", ("1/4-20 UNC", "1/4 BSW")),
        ("1/4 x 26", ("1/4 BSF", "1/4 x 26 BSB")),
        ("1 UNC", ("1-64 UNC", "1-8 UNC")),
        ("8", ("8-32 UNC", "8-36 UNF", "8 BA")),
        ("M25", ("M25 x 1", "M25 x 1.5", "M25 x 2")),
        ("10 UN", ("10-24 UNC", "10-32 UNF")),
    ],
)
def test_several_threads_are_asked_back(text, choices):
    with pytest.raises(InputError) as caught:
        find_thread(text, field="fastener.thread")
    (fault,) = caught.value.faults
    assert fault.choices == choices
    assert fault.field == "fastener.thread"
    assert (
        fault.says == f"The thread {text!r} can be {', '.join(choices[:-1])} or {choices[-1]}. Write which."
    )


def test_bare_quarter_inch_asks_for_the_system():
    with pytest.raises(InputError) as caught:
        find_thread("1/4")
    assert caught.value.faults[0].choices == (
        "1/4-20 UNC", "1/4-28 UNF", "1/4-32 UNEF", "1/4 BSW", "1/4 BSF", "1/4 x 40 ME", "1/4 x 32 ME",
        "1/4 x 26 BSB",
    )  # fmt: skip


@pytest.mark.parametrize(
    ("text", "first"),
    [
        ("M5x0.9", "M5"),
        ("M49", "M48"),
        ("17 BA", "16 BA"),
        ("1/4-27 UNF", "1/4-28 UNF"),
        ("21/64 BSF", "5/16 BSF"),
    ],
)
def test_unknown_threads_name_the_nearest(text, first):
    with pytest.raises(InputError) as caught:
        find_thread(text)
    (fault,) = caught.value.faults
    assert fault.choices[0] == first
    assert fault.says.startswith(f"The thread {text!r} is not known. The nearest are {first}, ")
    assert "Write a thread as M5, M6 x 0.75, 1/4-28 UNF" in fault.says


@pytest.mark.parametrize("text", ["", "   ", "\n"])
def test_nothing_written(text):
    with pytest.raises(InputError, match=r"^No thread is given\. Write a thread as M5"):
        find_thread(text)


def test_too_much_written():
    with pytest.raises(InputError, match="at most 60 characters"):
        find_thread("M5 " * 40)


@pytest.mark.parametrize(
    "text", ["banana", "1/0", "1/4/0", "M", "x", "-", "#", "tpi", "0", "M0", "1/4 UNF BSF", "²"]
)
def test_nonsense_is_refused_in_a_sentence(text):
    with pytest.raises(InputError):
        find_thread(text)


@given(st.sampled_from(all_threads()), st.booleans(), st.booleans(), st.sampled_from(["x", "×", "*", "X"]))
def test_canonical_names_survive_case_spaces_and_signs(thread, lower, tight, times):
    text = thread.designation.replace("x", times)
    text = text.lower() if lower else text
    # Spaces inside a mixed number (1 1/4) carry meaning; those beside letters do not.
    text = text.replace(f" {times}", times).replace(f"{times} ", times) if tight else text
    assert find_thread(text) == thread


@given(st.text(max_size=70) | st.text(alphabet="0123456789/#-x. MUNCFBASW\"'¼½,", max_size=20))
def test_no_text_raises_anything_but_an_input_error(text):
    try:
        answer = find_thread(text).designation
    except InputError as error:
        answer = error.faults[0].says
    assert answer.endswith(".") or answer in {thread.designation for thread in all_threads()}
