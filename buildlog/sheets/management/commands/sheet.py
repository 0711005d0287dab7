"""`manage.py sheet`: paper for the bench as PDF, from a build or a build file."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser

from buildlog.builds.lookup import find_build
from buildlog.plain_command import SentenceCommand, write_file
from calculators.planning.inspection import inspect_build


class Command(SentenceCommand):
    """Prints one sheet of a build as PDF."""

    help = "Print a sheet of a build as PDF: fasteners, drilling, cut, shopping, assembly or check."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the sheet, the build, the paper and the file."""
        parser.add_argument("kind", help="fasteners, drilling, cut, shopping, assembly or check")
        parser.add_argument("build", help="a build's number, or a build file")
        parser.add_argument("--component", metavar="MARK", default="", help="of this component alone")
        parser.add_argument("--paper", default="a4", help="a4 (the default) or letter")
        parser.add_argument("--workshop", default="", help="whose build, where two workshops have the number")
        parser.add_argument("-o", "--output", metavar="FILE.pdf", required=True, help="the file to write")

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Print, and say how large the file is."""
        from buildlog.sheets.making import make_sheet  # WeasyPrint takes half a second to load

        worked = inspect_build(find_build(options["build"], options["workshop"]))
        pdf = make_sheet(
            options["kind"], worked, paper=options["paper"].lower(), component=options["component"]
        )
        write_file(options["output"], pdf)
        return f"{options['output']}: {len(pdf):,} bytes", 0
