"""`manage.py drawing`: a part drawn, as a file for CAD, the page, a spreadsheet or a router."""

from __future__ import annotations

from typing import Any

from django.core.management.base import CommandParser

from buildlog.builds.drawing_files import WRITERS, Wanted, component_in, projection_named, writer_for
from buildlog.builds.lookup import find_build
from buildlog.builds.router_form import OPTIONS, set_up_named
from buildlog.builds.sections_drawn import section_of_joint
from buildlog.plain_command import SentenceCommand, write_file
from calculators.planning.inspection import inspect_build
from calculators.planning.resolving import resolve_build
from calculators.quantities.errors import InputError


class Command(SentenceCommand):
    """Draws one component or one joint of a build."""

    help = (
        "Draw a component of a build as a file: FILE.dxf, true size for CAD, FILE.svg, the part drawing, "
        "FILE.csv, its hole table, or FILE.nc, drilling moves for a router (ISO 6983); "
        "or a joint cut through its axis as FILE.svg."
    )

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the build, the component and the file."""
        parser.add_argument("build", help="a build's number, or a build file")
        what = parser.add_mutually_exclusive_group(required=True)
        what.add_argument("--component", metavar="MARK", default="", help="the component's mark")
        what.add_argument(
            "--joint", metavar="MARK", default="", help="or a joint's mark: its section, .svg alone"
        )
        parser.add_argument(
            "--face", default="", help="one face alone, its datum at 0, 0: top, left and so on"
        )
        parser.add_argument(
            "--projection", default="", help="first or third angle (default: as the build says); .svg alone"
        )
        parser.add_argument(
            "--set", action="append", default=[], metavar="NAME=VALUE", dest="set_up",
            help=f"how a router is set up, for .nc: {', '.join(OPTIONS[1:])} (safe=20mm)",
        )  # fmt: skip
        parser.add_argument("--workshop", default="", help="whose build, where two workshops have the number")
        endings = ", ".join(f"FILE{ending}" for ending in WRITERS)
        parser.add_argument("-o", "--output", metavar="FILE", required=True, help=f"the file: {endings}")

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Draw, and say how large the file is."""
        if options["joint"]:
            return _section(options)
        writer = writer_for(options["output"])
        _refuse_idle(options)
        wanted = Wanted(
            options["component"],
            options["face"].lower(),
            projection_named(options["projection"].lower()),
            set_up_named(options["set_up"]),
        )
        worked = resolve_build(find_build(options["build"], options["workshop"]))
        component_in(worked, wanted.mark)
        data = writer.write(worked, wanted)
        write_file(options["output"], data)
        return f"{options['output']}: {len(data):,} bytes", 0


def _refuse_idle(options: dict[str, Any]) -> None:
    """InputError for an option that a file of this ending would take no notice of."""
    for name, option, ending in (("set_up", "--set", ".nc"), ("projection", "--projection", ".svg")):
        if options[name] and not options["output"].lower().endswith(ending):
            raise InputError.of(f"{option} goes with a file that ends in {ending}.", field=option)


def _section(options: dict[str, Any]) -> tuple[str, int]:
    """Draw a joint's section."""
    if not options["output"].lower().endswith(".svg"):
        says = "The section of a joint is drawn as SVG: name a file that ends in .svg."
        raise InputError.of(says, field="-o", choices=(".svg",))
    for name, option in (("face", "--face"), ("projection", "--projection"), ("set_up", "--set")):
        if options[name]:
            raise InputError.of(f"{option} goes with --component, not with --joint.", field=option)
    worked = inspect_build(find_build(options["build"], options["workshop"]))
    data = section_of_joint(worked, options["joint"]).encode()
    write_file(options["output"], data)
    return f"{options['output']}: {len(data):,} bytes", 0
