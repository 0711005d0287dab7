"""`manage.py schema`: the JSON Schema of the build file, for people's editors and scripts."""

from __future__ import annotations

import json
from typing import Any

from django.core.management.base import CommandParser

from buildlog.plain_command import SentenceCommand, write_file
from calculators.planning.files import schema


class Command(SentenceCommand):
    """Prints the schema, or writes it to a file."""

    help = "Print the JSON Schema (2020-12) of the build file."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the file."""
        parser.add_argument("-o", "--output", metavar="FILE", help="write it to a file")

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Print it, or write it."""
        text = json.dumps(schema(), ensure_ascii=False, indent=2)
        if not options["output"]:
            return text, 0
        write_file(options["output"], f"{text}\n".encode())
        return "", 0
