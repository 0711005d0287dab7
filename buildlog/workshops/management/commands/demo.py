"""`manage.py demo`: the demonstration workshop at a printed address, on this machine alone."""

from __future__ import annotations

import socket
from threading import Thread
from time import sleep
from typing import Any

from django.conf import settings
from django.core.management import call_command
from django.core.management.base import BaseCommand, CommandError, CommandParser, OutputWrapper

from buildlog.workshops.demonstration import make_demonstration

HOST = "127.0.0.1"
FIRST_PORT = 8000
PORTS_TRIED = 50


class Command(BaseCommand):
    """Prepares the demonstration and serves it until Ctrl-C."""

    help = "Set up the demonstration workshop and serve it at a printed address (this machine alone)."
    requires_system_checks = ()

    def add_arguments(self, parser: CommandParser) -> None:
        """Take the port."""
        parser.add_argument(
            "--port", type=int, help=f"the port (default: the first free one from {FIRST_PORT})"
        )

    def handle(self, *args: Any, **options: Any) -> None:
        """Migrate, make the demonstration, serve."""
        if not settings.DEMO:
            raise CommandError(
                "The demonstration signs people in without a password, so it does not run with production"
                " settings: unset DJANGO_SETTINGS_MODULE."
            )
        port = options["port"] or free_port()
        settings.DATA.mkdir(parents=True, exist_ok=True)
        call_command("migrate", verbosity=0, interactive=False)
        person = make_demonstration()
        welcome = f"Oddleg is at http://{HOST}:{port}/  (you are {person.name}; Ctrl-C stops it)"
        Thread(target=say_when_answering, args=(port, welcome, self.stdout), daemon=True).start()
        serve(port)
        self.stdout.write("Stopped.")


def free_port() -> int:
    """Find the first free port near 8000."""
    for port in range(FIRST_PORT, FIRST_PORT + PORTS_TRIED):
        with socket.socket() as probe:
            probe.setsockopt(socket.SOL_SOCKET, socket.SO_REUSEADDR, 1)
            try:
                probe.bind((HOST, port))
            except OSError:
                continue
            return port
    raise CommandError(
        f"No port from {FIRST_PORT} to {FIRST_PORT + PORTS_TRIED - 1} is free: name one with --port."
    )


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
