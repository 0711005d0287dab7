"""`manage.py set-up-code`: the code that the first owner of a new installation types."""

from __future__ import annotations

from typing import Any

from buildlog.plain_command import SentenceCommand
from buildlog.workshops.actions import set_up_code


class Command(SentenceCommand):
    """Prints the code."""

    help = "Print the code that the first owner of a new installation types at /first-owner/."

    def respond(self, options: dict[str, Any]) -> tuple[str, int]:
        """Answer with the code, which follows from ODDLEG_SECRET_KEY."""
        return set_up_code(), 0
