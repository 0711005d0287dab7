"""A PostgreSQL server of the tests' own: in a temporary folder, reached by a socket there, then removed."""

from __future__ import annotations

import os
import shutil
import subprocess
import sys
import tempfile
from collections.abc import Iterator
from contextlib import contextmanager
from pathlib import Path

from buildlog.setup.system import postgresql_programs

USER = "postgres"


class CannotStart(Exception):
    """No server could be started; the text says why."""


@contextmanager
def temporary_server() -> Iterator[str]:
    """Run a server for as long as the context lasts.

    Yields:
        Its DATABASE_URL.

    Raises:
        CannotStart: when there are no programs to start, or they fail.
    """
    programs = postgresql_programs()
    if programs is None:
        raise CannotStart("PostgreSQL's server programs are not installed")
    folder = Path(tempfile.mkdtemp(prefix="oddleg-postgresql-"))
    data = folder / "data"
    try:
        if _is_root():  # PostgreSQL refuses to run as root
            _give_to_postgres(folder)
        locale = "C.UTF-8" if sys.platform == "linux" else "en_US.UTF-8"
        making = ["--username=postgres", "--auth=trust", "--encoding=UTF8", f"--locale={locale}", "--no-sync"]
        _check([str(programs / "initdb"), "-D", str(data), *making], folder)
        # Nothing here has to outlive a power cut, so nothing is forced to the disk (-F).
        options = f"-F -c listen_addresses='' -k {folder}"
        pg_ctl = [str(programs / "pg_ctl"), "-D", str(data), "-w"]
        _check([*pg_ctl, "-l", str(folder / "log"), "-o", options, "start"], folder)
        try:
            yield f"postgresql://postgres@/postgres?host={folder}"
        finally:
            _check([*pg_ctl, "-m", "immediate", "stop"], folder)
    finally:
        shutil.rmtree(folder, ignore_errors=True)


def _is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0


def _give_to_postgres(folder: Path) -> None:
    try:
        shutil.chown(folder, USER)
    except (LookupError, OSError) as problem:
        raise CannotStart(f"root cannot hand a folder to the user {USER} ({problem})") from None


def _check(command: list[str], folder: Path) -> None:
    user = USER if _is_root() else None
    # Into a file, since the server that pg_ctl leaves running would hold a pipe open.
    with (folder / "said").open("w+", encoding="utf-8") as said:
        try:
            done = subprocess.run(
                command, cwd=folder, stdin=subprocess.DEVNULL, stdout=said, stderr=said, user=user
            )
        except OSError as problem:
            raise CannotStart(str(problem)) from None
        said.seek(0)
        lines = said.read().strip().splitlines()
    if done.returncode:
        raise CannotStart(lines[-1] if lines else f"{command[-1]} failed")
