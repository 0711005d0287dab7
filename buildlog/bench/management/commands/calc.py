"""`manage.py calc`: the calculators at the command line, as a worked example or as JSON."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser

from buildlog.bench.terminal import respond
from buildlog.plain_command import SentenceCommand


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
        return respond(options), 0


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
