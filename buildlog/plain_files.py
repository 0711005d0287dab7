"""What a command reads, and its faults as sentences; without Django, so that a command can be quick."""

from __future__ import annotations

import re
import sys

from calculators.quantities.errors import Fault, InputError
from calculators.quantities.marks import quoted


def sentence(fault: Fault) -> str:
    """A fault as one sentence on one line, led by the input that it concerns where it does not name it."""
    says = " ".join(fault.says.split())
    told = not fault.field or re.search(rf"(?<!\w){re.escape(fault.field)}(?!\w)", says)
    return says if told else f"{fault.field}: {says}"


def read_file(name: str, *, most_bytes: int, what: str) -> bytes:
    """Read a file whole, or standard input for `-`; raise InputError with a sentence where it cannot be.

    `what` says what the file should be ("a build file"), for the sentence.
    """
    shown = "standard input" if name == "-" else quoted(name)
    try:
        if name == "-":
            raw = sys.stdin.buffer.read(most_bytes + 1)
        else:
            with open(name, "rb") as stream:
                raw = stream.read(most_bytes + 1)
    except FileNotFoundError:
        raise InputError.of(f"There is no file {shown}; name {what}.") from None
    except IsADirectoryError:
        raise InputError.of(f"{shown} is a folder; name {what}.") from None
    except (OSError, ValueError) as fault:
        reason = getattr(fault, "strerror", None) or "its name is not one"
        raise InputError.of(f"The file {shown} cannot be read: {reason}; name {what}.") from None
    if len(raw) > most_bytes:
        raise InputError.of(f"{shown} is larger than {most_bytes} bytes; name {what}.")
    return raw
