"""`manage.py demo`: the demonstration workshop at a printed address, on this machine alone."""

from __future__ import annotations

import socket
from collections.abc import Sequence
from threading import Thread
from time import sleep
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError, CommandParser, OutputWrapper
from django.db import OperationalError

from buildlog.builds.demonstrating import make_demonstration

HOST = "127.0.0.1"
PORTS = range(8000, 8050)


class Command(BaseCommand):
    """Prepares the demonstration and serves it until Ctrl-C."""

    help = "Set up the demonstration workshop and serve it at a printed address (this machine alone)."
    requires_system_checks = ()

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the port."""
        parser.add_argument(
            "--port", type=int, help=f"the port (default: the first free one from {PORTS[0]})"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        """Migrate, make the demonstration, serve."""
        if not settings.DEMO:
            raise CommandError(
                "The demonstration signs people in without a password, so it does not run with production"
                " settings: unset DJANGO_SETTINGS_MODULE."
            )
        port = free_port([options["port"]] if options["port"] is not None else PORTS)
        try:
            settings.DATA.mkdir(parents=True, exist_ok=True)
            call_command("migrate", verbosity=0, interactive=False)
        except (OSError, OperationalError) as problem:
            raise CommandError(
                f"The database cannot be opened ({problem}): set ODDLEG_DATA to a folder that can be written,"
                " or mend DATABASE_URL if it is set."
            ) from None
        person = make_demonstration()
        welcome = f"Oddleg is at http://{HOST}:{port}/  (you are {person.name}; Ctrl-C stops it)"
        Thread(target=say_when_answering, args=(port, welcome, self.stdout), daemon=True).start()
        serve(port)
        self.stdout.write("Stopped.")


def free_port(wanted: Sequence[int]) -> int:
    """Find the first free port of those wanted."""
    for port in wanted:
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((HOST, port))
            except (OSError, OverflowError):  # taken, not ours to take, or no port at all
                continue
            return port
    ports = f"Port {wanted[0]} is" if len(wanted) == 1 else f"The ports {wanted[0]} to {wanted[-1]} are"
    raise CommandError(f"{ports} not free: name another with --port, from 1024 to 65535.")


def say_when_answering(port: int, welcome: str, out: OutputWrapper) -> None:
    """Print the address once it answers: printed earlier, a quick hand would find nothing there."""
    for _ in range(600):
        try:
            socket.create_connection((HOST, port), timeout=1).close()
        except OSError:
            sleep(0.05)
            continue
        out.write(welcome)
        out.flush()
        return


def serve(port: int) -> None:
    """Serve on loopback until Ctrl-C. The same server and application as in production."""
    from granian import Granian
    from granian.constants import Interfaces
    from granian.log import LogLevels

    Granian(
        "buildlog.wsgi:application",
        address=HOST,
        port=port,
        interface=Interfaces.WSGI,
        blocking_threads=4,
        log_level=LogLevels.warning,
    ).serve()
