"""`manage.py sheet`: paper for the bench as PDF, from a build or a build file."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser

from buildlog.builds.lookup import find_build, find_row, is_file
from buildlog.builds.queries import plain_of
from buildlog.builds.router_form import set_up_named
from buildlog.plain_command import SentenceCommand, write_file
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build

SHEETS = "fasteners, drilling, cut, shopping, assembly, check, part, sections, moves or template"


class Command(SentenceCommand):
    """Prints one sheet of a build as PDF; of a build in the database it is recorded."""

    help = f"Print a sheet of a build as PDF: {SHEETS}."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the sheet, the build, the paper and the file."""
        parser.add_argument("kind", help=SHEETS)
        parser.add_argument("build", help="a build's number, or a build file")
        parser.add_argument("--component", metavar="MARK", default="", help="of this component alone")
        parser.add_argument("--paper", default="a4", help="a4 (the default) or letter")
        parser.add_argument("--face", default="", help="of a template: this face; else every one with holes")
        parser.add_argument("--mirror", action="store_true", help="of a template: turned about")
        parser.add_argument("--printer", metavar="NAME", default="", help="of a template: corrected for it")
        parser.add_argument(
            "--set", action="append", default=[], metavar="NAME=VALUE", dest="set_up",
            help="of drilling moves: how the router is set up, as for manage.py drawing",
        )  # fmt: skip
        parser.add_argument("--workshop", default="", help="whose build, where two workshops have the number")
        parser.add_argument("-o", "--output", metavar="FILE.pdf", required=True, help="the file to write")

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Print, and say how large the file is."""
        from buildlog.sheets.making import KINDS, make_sheet  # WeasyPrint takes half a second to load
        from buildlog.sheets.recording import last_change_of, record_printed
        from buildlog.sheets.stamping import address_of_paper

        row = None if is_file(options["build"]) else find_row(options["build"], options["workshop"])
        last_change = last_change_of(row) if row else 0
        worked = inspect_build(plain_of(row) if row else find_build(options["build"], options["workshop"]))
        chosen: dict[str, str] = {"face": options["face"], "mirror": "1" if options["mirror"] else ""}
        chosen |= set_up_named(options["set_up"])
        if options["printer"]:
            chosen |= _drawn_for(options["printer"], worked.build, options)
        pdf = make_sheet(
            options["kind"],
            worked,
            paper=options["paper"].lower(),
            component=options["component"],
            options=chosen,
            address=address_of_paper() if row else "",
        )
        write_file(options["output"], pdf)
        if row:
            record_printed(
                row, None, worked, options["kind"], KINDS[options["kind"]].title,
                paper=options["paper"].lower(), component=options["component"],
                options={name: said for name, said in chosen.items() if said}, last_change=last_change,
            )  # fmt: skip
        return f"{options['output']}: {len(pdf):,} bytes", 0


def _drawn_for(printer: str, build: Build, options: dict[str, Any]) -> dict[str, str]:
    """What is asked of a template for a printer, of which the workshop may know more than the build does."""
    from buildlog.sheets.printers import printer_named, rules_drawn

    row = find_row(options["build"], options["workshop"])
    return rules_drawn(printer_named(printer, row.workshop if row else None, build))
