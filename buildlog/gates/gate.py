"""Every gate, declared once: its name, what it sees to, and the command that it runs."""

from __future__ import annotations

import os
import subprocess
import sys
from dataclasses import dataclass, field
from pathlib import Path

from buildlog.setup.environment import ROOT

_PYTHON = (sys.executable, "-m")
_TWO = ("-n", "2", "--dist", "worksteal")
"""Two at a time; who is done first takes over from the other, so that the long ones do not end alone."""

_TESTING = {"DJANGO_SETTINGS_MODULE": "buildlog.settings.testing"}
_PRODUCTION = {
    "DJANGO_SETTINGS_MODULE": "buildlog.settings.production",
    "ODDLEG_SECRET_KEY": "only-to-see-that-production-settings-are-sound-0123456789-abcdefghijkl",
    "ODDLEG_HOSTS": "oddleg.example",
}


@dataclass(frozen=True)
class Gate:
    """One check. `is_shown` gates print as they run (the tests); the others only when they fail."""

    name: str
    says: str
    command: tuple[str, ...]
    environment: dict[str, str] = field(default_factory=dict)
    is_shown: bool = False


GATES = (
    Gate("ruff", "faults and style of the Python code", (*_PYTHON, "ruff", "check", ".")),
    Gate("format", "the code is laid out by ruff", (*_PYTHON, "ruff", "format", "--check", ".")),
    Gate("mypy", "types: strict in calculators/", (*_PYTHON, "mypy")),
    Gate("imports", "the import order", (str(Path(sys.executable).with_name("lint-imports")),)),
    Gate(
        "migrations",
        "every change of a model has its migration",
        (*_PYTHON, "django", "makemigrations", "--check", "--dry-run"),
        _TESTING,
    ),
    Gate(
        "deploy",
        "production settings are sound",
        (*_PYTHON, "django", "check", "--deploy", "--fail-level", "WARNING"),
        _PRODUCTION,
    ),
    Gate(
        "browser",
        "journeys in Chromium",
        (*_PYTHON, "pytest", "-q", *_TWO, "-m", "browser", "tests"),
        is_shown=True,
    ),
    Gate(
        "postgresql",
        "the database tests again, on PostgreSQL",
        (
            *_PYTHON,
            "pytest",
            "-q",
            *_TWO,
            "-m",
            "database and not browser and not shows",
            "--ignore=tests/bench",
            "tests",
        ),
        is_shown=True,
    ),
    Gate(
        "tests",
        "all other tests and the docstrings' examples",
        (*_PYTHON, "pytest", "-q", *_TWO, "-m", "not browser"),
        is_shown=True,
    ),
)


def run_gate(gate: Gate, root: Path = ROOT, extra: dict[str, str] | None = None) -> tuple[int, str]:
    """Run a gate's command in a tree of the project.

    Args:
        gate: the gate.
        root: the folder that holds `pyproject.toml`.
        extra: variables for the command, beside the gate's own.

    Returns:
        The exit status, and what was printed where the gate is not a shown one.
    """
    # A gate judges the project and not the shell that it was started from.
    kept = {
        name: value
        for name, value in os.environ.items()
        if name != "DATABASE_URL" and not name.startswith(("DJANGO_", "ODDLEG_"))
    }
    environment = {**kept, "HYPOTHESIS_PROFILE": "ci", **gate.environment, **(extra or {})}
    if gate.is_shown:
        return subprocess.run(gate.command, cwd=root, env=environment).returncode, ""
    done = subprocess.run(
        gate.command, cwd=root, env=environment, stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    return done.returncode, done.stdout
