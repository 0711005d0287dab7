"""`manage.py export`: a build as a build file, or with its photographs as an archive."""

from __future__ import annotations

from pathlib import Path
from tempfile import TemporaryFile
from typing import Any

from django.core.management.base import CommandParser

from buildlog.builds.archive import write_archive
from buildlog.builds.keeping import write_zip
from buildlog.builds.lookup import find_build, find_row
from buildlog.plain_command import SentenceCommand, write_file
from calculators.planning.files import write_build
from calculators.quantities.errors import InputError


class Command(SentenceCommand):
    """Writes one build."""

    help = "Write a build as a build file (FILE.json), or with its photographs (FILE.zip)."

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the build and the file."""
        parser.add_argument("build", help="a build's number, or a build file")
        parser.add_argument("-o", "--output", metavar="FILE", required=True, help="FILE.json or FILE.zip")
        parser.add_argument("--workshop", default="", help="whose build, where two workshops have the number")

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Write it, and say what could not be."""
        name, output, workshop = options["build"], options["output"], options["workshop"]
        match Path(output).suffix.lower():
            case ".json":
                write_file(output, write_build(find_build(name, workshop)))
                return "", 0
            case ".zip":
                return _zip(name, output, workshop), 0
        raise InputError.of("Name a file that ends in .json or .zip.", field="-o")


def _zip(name: str, output: str, workshop: str) -> str:
    # As `find_build`: a file of that name comes first, and then there are no photographs to be had.
    row = None if Path(name).suffix else find_row(name, workshop)
    with TemporaryFile() as file:
        if row is not None:
            missing = write_zip(row, file)
        else:
            missing = write_archive(find_build(name, workshop), lambda _: None, file)
            file.seek(0)
        write_file(output, file)
    what = "photograph that is" if len(missing) == 1 else "photographs that are"
    return f"Without {len(missing)} {what} not to be had here." if missing else ""
