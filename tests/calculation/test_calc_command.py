"""`manage.py calc` as a person runs it: what comes out where, and with which exit status."""

import json
import os
import subprocess
import sys
from pathlib import Path

import pytest

ROOT = Path(__file__).resolve().parents[2]


def calc(*words: str | bytes, stdin: bytes = b"", encoding: str = "utf-8") -> tuple[int, str, str]:
    done = subprocess.run(
        [sys.executable, str(ROOT / "manage.py"), "calc", *words],
        input=stdin,
        capture_output=True,
        cwd=ROOT,
        timeout=60,
        env={**os.environ, "PYTHONIOENCODING": encoding},
    )
    return done.returncode, done.stdout.decode(), done.stderr.decode()


def test_without_a_name_it_lists_the_calculators_a_line_each():
    status, out, err = calc()
    assert (status, err) == (0, "")
    lines = out.splitlines()
    assert lines[0].split()[0] == "convert"
    assert all(line.endswith(".") for line in lines)


def test_the_help_of_one():
    status, out, err = calc("countersink", "--help")
    assert (status, err) == (0, "")
    assert "  angle          the included angle of the head\n" in out
    assert "quantity; a bare number is in deg; 30 to 150 deg; default 90\n" in out


def test_a_worked_example():
    status, out, err = calc("countersink", "head_diameter=8.96", "hole=4")
    assert (status, err) == (0, "")
    assert "  depth     2.48 mm" in out
    assert "(8.96 - 4) / (2 tan(90/2)) + 0 = 2.48 mm" in out


def test_json_has_the_promised_shape():
    status, out, err = calc("thread", "designation=M5", "--json")
    assert (status, err) == (0, "")
    answer = json.loads(out)
    assert list(answer) == ["calculator", "inputs", "results", "working", "warnings", "sources"]
    assert answer["inputs"] == {"designation": "M5"}
    assert answer["results"]["pitch"] == {"value": 0.8, "unit": "mm"}


def test_inputs_from_a_file_and_from_standard_input(tmp_path):
    file = tmp_path / "inputs.json"
    file.write_text('{"length": 5.1, "kind": "drill"}', encoding="utf-8")
    from_file = calc("nearest", "--json", "--input", str(file))
    from_stdin = calc("nearest", "--input=-", "--json", stdin=file.read_bytes())
    assert from_file == from_stdin
    assert json.loads(from_file[1])["results"]["nearest"]["value"]["name"] == "5.1 mm"


@pytest.mark.parametrize(
    ("words", "stdin", "sentences"),
    [
        (["cuntersink"], b"", ["There is no calculator 'cuntersink'; did you mean countersink."]),
        (
            ["countersink", "angle=x", "hole=-1", "depht=3"],
            b"",
            [
                "There is no input 'depht'; the inputs are head_diameter, angle, hole, below, thickness.",
                "The input head_diameter is missing: the head's diameter, written as 8.96 mm.",
                "'x' is not an angle; write a number with one of deg, rad, arcmin, turn.",
                "hole: '-1' is too little; write more than 0 mm.",
            ],
        ),
        (
            ["drill", "name=F", "name=F", "word"],
            b"",
            [
                "The input 'name' is given twice; write it once.",
                "'word' is not an input; write it as key=value.",
            ],
        ),
        (["--jsn"], b"", ["There is no option '--jsn'; the options are --json, --input FILE and --help."]),
        (["drill", "-x"], b"", ["There is no option '-x'; the options are --json, --input FILE and --help."]),
        (["drill", "--input"], b"", ["The option --input names no file; name one, or - for stdin."]),
        (
            ["drill", "--input", "/"],
            b"",
            ["'/' is a folder; name a file with a JSON object, or - for stdin."],
        ),
        (
            ["drill", "--input", "/no/such"],
            b"",
            ["There is no file '/no/such'; name a file with a JSON object, or - for stdin."],
        ),
        (
            ["drill", "--input", "-"],
            b"\xff\xfe\x00",
            ["standard input is not text in UTF-8; write a JSON object."],
        ),
        (
            ["drill", "--input", "-"],
            b"{",
            [
                "standard input is not a JSON object: line 1, column 2: "
                "expecting property name enclosed in double quotes."
            ],
        ),
        (
            ["drill", "--input", "-"],
            b"[1]",
            ['standard input does not hold a JSON object; write one such as {"length": "1 1/4 in"}.'],
        ),
        (
            ["drill", "--input", "-"],
            b'{"name": 1, "name": 2}',
            ["standard input is not a JSON object: the name 'name' is given twice."],
        ),
        (
            ["nearest", "--input", "-"],
            b'{"length": Infinity}',
            ["standard input is not a JSON object: Infinity is not a number; write a finite one."],
        ),
        (
            ["nearest", "--input", "-"],
            b'{"length": 1' + b"0" * 5000 + b"}",
            ["standard input is not a JSON object: it holds a number too long to read."],
        ),
        (
            ["nearest", "--input", "-"],
            b" " * 5_000_001,
            ["standard input is larger than 5000000 bytes; name a file with a JSON object, or - for stdin."],
        ),
    ],
    ids=lambda value: " ".join(value)[:30] if isinstance(value, list) else "",
)
def test_bad_input_is_status_2_nothing_on_stdout_and_a_sentence_for_each_fault(words, stdin, sentences):
    status, out, err = calc(*words, stdin=stdin)
    assert (status, out) == (2, "")
    told = [line.partition(": ")[2] if line.startswith("angle: ") else line for line in err.splitlines()]
    assert told == sentences


def test_bytes_that_are_no_text_get_a_sentence_too():
    status, out, err = calc("drill", b"name=\xff\xfe")
    assert (status, out) == (2, "")
    assert err.startswith("name: The drill ")
    assert "Traceback" not in err


def test_json_stays_json_where_the_pipe_is_not_in_utf_8():
    status, out, err = calc("convert", "value=5 µm", "to=in", "--json", encoding="ascii")
    assert (status, err) == (0, "")
    assert json.loads(out)["inputs"]["value"] == "5 µm"


def test_the_inputs_of_an_answer_can_be_given_back():
    words = [
        "joint",
        "fastener=No. 8 csk brass",
        'layers=[{"thickness": "22 mm"}, {"thickness": 28}]',
        "--json",
    ]
    _, first, _ = calc(*words)
    _, again, _ = calc(
        "joint", "--json", "--input", "-", stdin=json.dumps(json.loads(first)["inputs"]).encode()
    )
    assert json.loads(again) == json.loads(first)
