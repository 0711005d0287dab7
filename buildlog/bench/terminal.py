"""`manage.py calc` without Django: what is asked and answered, and the quick way from one to the other."""

from __future__ import annotations

import json
import os
import sys
from typing import Any

from buildlog.plain_files import read_file, sentence
from calculators.calculation.answering import answer, as_json, as_text, help_text
from calculators.calculation.strict_json import read_json
from calculators.catalogue import all_calculators, find_calculator
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

LARGEST_FILE = 5_000_000
"""No calculator's input fills more than this many bytes."""

_OPTIONS = "the options are --json, --input FILE and --help"


def run_quickly(words: list[str]) -> int | None:
    """Answer at once, without what pages and databases need.

    Returns the exit status, or None for words that are Django's own (or no words of this command), which
    the command itself looks at.
    """
    options = _plainly_asked(words)
    if options is None:
        return None
    for stream in (sys.stdout, sys.stderr):
        # A terminal that cannot show a sign gets its code, not a traceback.
        stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]
    try:
        sys.stdout.write(f"{respond(options)}\n")
        sys.stdout.flush()
    except InputError as error:
        sys.stderr.write("\n".join(map(sentence, error.faults)) + "\n")
        return 2
    except BrokenPipeError:
        # The reader (such as `head`) has had enough; nothing more can be written to it.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
    return 0


def _plainly_asked(words: list[str]) -> dict[str, Any] | None:
    options: dict[str, Any] = {"calculator": "", "inputs": [], "json": False, "explain": False, "input": None}
    queue = list(words)
    while queue:
        word = queue.pop(0)
        if word == "--json":
            options["json"] = True
        elif word in ("-h", "--help"):
            options["explain"] = True
        elif word.startswith("--input="):
            options["input"] = word.removeprefix("--input=")
        elif word == "--input":
            options["input"] = queue.pop(0) if queue else ""
        elif word.startswith("-"):
            return None
        elif not options["calculator"]:
            options["calculator"] = word
        else:
            options["inputs"].append(word)
    return options


def respond(options: dict[str, Any]) -> str:
    """Do what was asked; InputError where it cannot be done."""
    name, unknown = options["calculator"], [word for word in options["inputs"] if word.startswith("-")]
    if name.startswith("-"):
        unknown = [name, *unknown]
    if unknown:
        raise InputError(*(Fault(f"There is no option {quoted(word)}; {_OPTIONS}.") for word in unknown))
    if not name:
        return _explain_all(options)
    calculator = find_calculator(name)
    if options["explain"]:
        return help_text(calculator)
    given = _collect(options["input"], options["inputs"])
    result = answer(calculator, given)
    if options["json"]:
        return dumped(as_json(calculator, given, result))
    return as_text(calculator, given, result)


def dumped(thing: object) -> str:
    """Write JSON as the command prints it."""
    # Where the terminal or pipe is not in UTF-8, JSON's own escapes keep the object whole.
    plain = (sys.stdout.encoding or "").lower().replace("-", "") != "utf8"
    text = json.dumps(thing, ensure_ascii=plain, indent=1, allow_nan=False)
    # Half of a surrogate pair may stand in a text that was given; UTF-8 cannot hold it.
    return text.encode("utf-8", "replace").decode("utf-8")


def _explain_all(options: dict[str, Any]) -> str:
    every = all_calculators()
    if options["json"]:
        return dumped([{"calculator": each.name, "summary": each.summary} for each in every])
    wide = max(len(each.name) for each in every)
    lines = [f"{each.name.ljust(wide)}  {each.summary}" for each in every]
    if options["explain"]:
        lines += [
            "",
            "manage.py calc                    lists the calculators",
            "manage.py calc NAME --help        says what one takes and gives",
            "manage.py calc NAME key=value ... works, as a worked example",
            "  --json        prints one JSON object",
            "  --input FILE  takes the inputs from a JSON object in FILE (- for stdin)",
        ]
    return "\n".join(lines)


def _collect(file: str | None, words: list[str]) -> dict[str, object]:
    """The inputs from the file and from the line; a word that gives none, or one again, is a fault."""
    faults: list[Fault] = []
    given: dict[str, object] = {}
    if file is not None:
        try:
            given |= _read_file(file)
        except InputError as error:
            faults += error.faults
    for word in words:
        name, equals, value = word.partition("=")
        if not equals or not name:
            faults.append(Fault(f"{quoted(word)} is not an input; write it as key=value."))
        elif name in given:
            faults.append(Fault(f"The input {quoted(name)} is given twice; write it once."))
        else:
            given[name] = value
    if faults:
        raise InputError(*faults)
    return given


def _read_file(file: str) -> dict[str, object]:
    shown = "standard input" if file == "-" else quoted(file)
    if not file:
        raise InputError.of("The option --input names no file; name one, or - for stdin.")
    raw = read_file(file, most_bytes=LARGEST_FILE, what="a file with a JSON object, or - for stdin")
    try:
        found = read_json(raw.decode("utf-8-sig"))
    except UnicodeDecodeError:
        raise InputError.of(f"{shown} is not text in UTF-8; write a JSON object.") from None
    except InputError as error:
        raise InputError.of(f"{shown} is not a JSON object: {error.faults[0].says}") from None
    if not isinstance(found, dict):
        raise InputError.of(
            f'{shown} does not hold a JSON object; write one such as {{"length": "1 1/4 in"}}.'
        )
    return found
