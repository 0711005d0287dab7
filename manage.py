#!/usr/bin/env python3
"""Oddleg's one command: `python3 manage.py demo` runs it, `python3 manage.py check-all` tests it."""

import os
import sys


def main() -> int:
    """Set up what is missing, then hand over to the gates or to Django."""
    if sys.version_info < (3, 11):  # noqa: UP036  (an older Python gets a sentence, not a traceback)
        print(f"Oddleg needs Python 3.11 or newer; this is {sys.version.split()[0]}.", file=sys.stderr)
        return 1
    from buildlog.setup import prepare

    command = sys.argv[1] if len(sys.argv) > 1 else ""
    prepare("development" if command == "check-all" else "run")
    if command == "check-all":
        from buildlog.gates.run import main as check_all

        return check_all(sys.argv[2:])
    if command == "calc":
        from buildlog.bench.terminal import run_quickly

        status = run_quickly(sys.argv[2:])
        if status is not None:
            return status
    os.environ.setdefault("DJANGO_SETTINGS_MODULE", "buildlog.settings.demonstration")
    from django.core.management import execute_from_command_line

    from buildlog.setup.memory import collect_seldom

    collect_seldom()
    execute_from_command_line(sys.argv)
    return 0


if __name__ == "__main__":
    sys.exit(main())
