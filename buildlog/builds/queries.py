"""The builds that can be shown: those of the demonstration workshop, and any build file by its name."""

from __future__ import annotations

import os.path
from functools import lru_cache
from pathlib import Path

from buildlog.plain_command import read_file
from calculators.planning.files import read_build
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

DEMONSTRATION = Path(__file__).parent / "demonstration"

LARGEST_FILE = 64 * 1024 * 1024
"""The largest build file that is read [bytes]."""


def demonstration_numbers() -> tuple[str, ...]:
    """The numbers of the demonstration's builds, in order."""
    return tuple(sorted(path.stem for path in DEMONSTRATION.glob("*.json")))


@lru_cache(maxsize=16)
def worked_demonstration(number: str) -> WorkedBuild | None:
    """One build of the demonstration worked out, or None. The files are part of the program: read once."""
    if number not in demonstration_numbers():
        return None
    return inspect_build(read_build((DEMONSTRATION / f"{number}.json").read_bytes()))


def find_build(name: str) -> Build:
    """Find a build by the name of its file, or a build of the demonstration by its number.

    Raises InputError where neither is to be had or the file cannot be read.
    """
    there = os.path.exists(name)  # unlike Path.exists, False for a name that no file can have
    if name in demonstration_numbers() and not there:
        return read_build((DEMONSTRATION / f"{name}.json").read_bytes())
    if not Path(name).suffix and not there:
        numbers = demonstration_numbers()
        raise InputError.of(
            f"There is no build with the number {quoted(name)} and no file of that name; the builds here are "
            f"{', '.join(numbers) or 'none'}.",
            choices=numbers,
        )
    return read_build(read_file(name, most_bytes=LARGEST_FILE, what="a build file (JSON)"))
