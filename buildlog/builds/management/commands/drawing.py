"""`manage.py drawing`: a part drawn, as a file for CAD (.dxf) or for the page and the printer (.svg)."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser

from buildlog.builds.drawing_files import WRITERS, Wanted, component_in, projection_named, writer_for
from buildlog.builds.lookup import find_build
from buildlog.plain_command import SentenceCommand, write_file
from calculators.planning.resolving import resolve_build


class Command(SentenceCommand):
    """Draws one component of a build."""

    help = (
        "Draw a component of a build as a file: FILE.dxf, true size for CAD, or FILE.svg, the part drawing."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the build, the component and the file."""
        parser.add_argument("build", help="a build's number, or a build file")
        parser.add_argument("--component", metavar="MARK", required=True, help="the component's mark")
        parser.add_argument(
            "--face", default="", help="one face alone, its datum at 0, 0: top, left and so on"
        )
        parser.add_argument(
            "--projection", default="", help="first or third angle (default: as the build says); .svg alone"
        )
        parser.add_argument("--workshop", default="", help="whose build, where two workshops have the number")
        endings = ", ".join(f"FILE{ending}" for ending in WRITERS)
        parser.add_argument("-o", "--output", metavar="FILE", required=True, help=f"the file: {endings}")

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Draw, and say how large the file is."""
        writer = writer_for(options["output"])
        wanted = Wanted(
            options["component"], options["face"].lower(), projection_named(options["projection"].lower())
        )
        worked = resolve_build(find_build(options["build"], options["workshop"]))
        component_in(worked, wanted.mark)
        data = writer.write(worked, wanted)
        write_file(options["output"], data)
        return f"{options['output']}: {len(data):,} bytes", 0
