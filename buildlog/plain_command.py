"""What the commands share: answers on stdout, a sentence for each fault on stderr, and never a traceback."""

from __future__ import annotations

import os
import shutil
import sys
from pathlib import Path
from typing import IO, Any, NoReturn

from django.core.management.base import BaseCommand, CommandError, CommandParser

from buildlog.plain_files import read_file, sentence
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

__all__ = ["SentenceCommand", "read_file", "sentence", "write_file"]


class SentenceCommand(BaseCommand):
    """A command that needs no database and answers bad input with sentences and exit status 2.

    A subclass has `respond(options)`, which returns the text for stdout (or nothing) and the exit status.
    """

    requires_system_checks = ()  # nothing that it does needs them

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Do what was asked."""
        raise NotImplementedError

    def create_parser(self, prog_name: str, subcommand: str, **kwargs: Any) -> CommandParser:
        """Let words that cannot be parsed be answered by a sentence, without a page of usage before it."""
        parser = super().create_parser(prog_name, subcommand, **kwargs)

        def refuse(message: str) -> NoReturn:
            if not getattr(self, "_called_from_command_line", False):
                raise CommandError(message, returncode=2)
            says = f"{message[:1].upper()}{message[1:]}; manage.py {subcommand} --help says what there is."
            self.stderr.write(says, self.style.ERROR)
            sys.exit(2)

        parser.error = refuse  # type: ignore[method-assign]
        return parser

    def run_from_argv(self, argv: list[str]) -> None:
        """Run as a person runs it."""
        for stream in (sys.stdout, sys.stderr):
            # A terminal that cannot show a sign gets its code, not a traceback.
            stream.reconfigure(errors="backslashreplace")  # type: ignore[union-attr]
        try:
            super().run_from_argv(argv)
            sys.stdout.flush()
        except BrokenPipeError:
            # The reader (such as `head`) has had enough; nothing more can be written to it.
            os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())

    def handle(self, *args: Any, **options: Any) -> None:
        """Do what was asked; every fault becomes a sentence."""
        try:
            text, status = self.respond(options)
        except InputError as error:
            raise CommandError("\n".join(map(sentence, error.faults)), returncode=2) from None
        if text:
            self.stdout.write(text)
        if status:
            sys.exit(status)

    def execute(self, *args: Any, **options: Any) -> str | None:
        """Write the sentences bare, without the word that Django puts before them."""
        try:
            return super().execute(*args, **options)
        except CommandError as error:
            if not getattr(self, "_called_from_command_line", False):
                raise
            self.stderr.write(str(error), self.style.ERROR)
            sys.exit(error.returncode)


def write_file(name: str, data: bytes | IO[bytes]) -> None:
    """Write a file whole beside its place and then move it there; InputError where it cannot be.

    `data` is all of it, or an open file that is copied from where it stands. A device, a pipe and what a
    link leads to are written to, never replaced.
    """
    target = Path(name)
    part = target.with_name(f".{target.name[:40]}.part") if target.name else target
    try:
        if target.is_dir():
            raise InputError.of(f"{quoted(name)} is a folder; name a file to write.", field="-o")
        if target.is_symlink() or (target.exists() and not target.is_file()):
            _write(target, data)
            return
        try:
            _write(part, data)
            part.replace(target)
        except OSError:
            part.unlink(missing_ok=True)
            raise
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "its name is not one"
        raise InputError.of(
            f"{quoted(name)} cannot be written: {reason}; name a file in a folder that exists.", field="-o"
        ) from None


def _write(path: Path, data: bytes | IO[bytes]) -> None:
    if isinstance(data, bytes):
        path.write_bytes(data)
        return
    with path.open("wb") as file:
        shutil.copyfileobj(data, file)
