"""`manage.py calc`: the calculators at the command line, as a worked example or as JSON."""

from __future__ import annotations

import json
import sys
from typing import Any

from django.core.management.base import CommandParser

from buildlog.plain_command import SentenceCommand, read_file
from calculators.calculation.answering import answer, as_json, as_text, help_text
from calculators.calculation.reading import read_json
from calculators.catalogue import all_calculators, find_calculator
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted

LARGEST_FILE = 5_000_000
"""No calculator's input fills more than this many bytes."""

_OPTIONS = "the options are --json, --input FILE and --help"


class Command(SentenceCommand):
    """List the calculators, say what one takes, or let it work."""

    help = "The calculators: a list of them, the help of one, or its answer."

    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        """Leave --help to the command, which explains the calculator that is named."""
        return super().create_parser(prog_name, subcommand, add_help=False, **kwargs)

    def add_arguments(self, parser: CommandParser) -> None:
        """The calculator, its inputs, and how to take and give them."""
        parser.add_argument("calculator", nargs="?", default="", help="the calculator's name")
        parser.add_argument("inputs", nargs="*", default=[], help="inputs as key=value")
        parser.add_argument("--json", action="store_true", help="print one JSON object")
        parser.add_argument(
            "--input", metavar="FILE", help="take the inputs from a JSON object (- for stdin)"
        )
        parser.add_argument(
            "-h", "--help", action="store_true", dest="explain", help="what a calculator takes"
        )

    def run_from_argv(self, argv: list[str]) -> None:
        """Run with the words in an order that the parser takes."""
        super().run_from_argv([*argv[:2], *_inputs_last(argv[2:])])

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Do what was asked."""
        return _respond(options), 0


def _respond(options: dict[str, Any]) -> str:
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
        return _dumped(as_json(calculator, given, result))
    return as_text(calculator, given, result)


def _dumped(thing: object) -> str:
    # Where the terminal or pipe is not in UTF-8, JSON's own escapes keep the object whole.
    plain = (sys.stdout.encoding or "").lower().replace("-", "") != "utf8"
    text = json.dumps(thing, ensure_ascii=plain, indent=1, allow_nan=False)
    # Half of a surrogate pair may stand in a text that was given; UTF-8 cannot hold it.
    return text.encode("utf-8", "replace").decode("utf-8")


def _explain_all(options: dict[str, Any]) -> str:
    every = all_calculators()
    if options["json"]:
        return _dumped([{"calculator": each.name, "summary": each.summary} for each in every])
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


def _inputs_last(words: list[str]) -> list[str]:
    """Put the words in an order that the parser takes: options first, then the calculator and its inputs.

    What looks like an option but is none is passed on behind `--`, so that it gets a sentence of ours.
    """
    taken: list[str] = []
    rest: list[str] = []
    queue = list(words)
    while queue:
        word = queue.pop(0)
        if word in ("--json", "-h", "--help") or word.startswith("--input="):
            taken.append(word)
        elif word == "--input":
            taken.append(f"--input={queue.pop(0) if queue else ''}")
        elif word.partition("=")[0] in ("--settings", "--pythonpath", "--verbosity") and "=" in word:
            taken.append(word)
        else:
            rest.append(word)
    return [*taken, "--", *rest]
