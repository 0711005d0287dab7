"""The parts that come from the operating system: what is needed, whether it is there, how to get it."""

from __future__ import annotations

import ctypes
import importlib
import importlib.util
import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Sequence
from dataclasses import dataclass
from pathlib import Path


@dataclass(frozen=True)
class Need:
    """One thing from the operating system.

    `packages` are Debian's and Ubuntu's names, `elsewhere` says what to look for on other systems, and
    `without` what does not work as long as it is missing.
    """

    name: str
    packages: tuple[str, ...]
    elsewhere: str
    without: str
    is_there: Callable[[], bool]


def has_venv_module() -> bool:
    """Tell whether this Python can make virtual environments with pip in them."""
    importlib.invalidate_caches()
    return all(importlib.util.find_spec(name) is not None for name in ("venv", "ensurepip"))


def has_pango() -> bool:
    """Tell whether the libraries that set the printed sheets can be loaded."""
    return all(_loads(stem) for stem in ("pango-1.0", "pangoft2-1.0", "harfbuzz-subset"))


def has_chromium() -> bool:
    """Tell whether a Chromium for the browser tests is installed."""
    return chromium() is not None


def chromium() -> str | None:
    """Find the Chromium that the browser tests drive: its path, or None."""
    found = (shutil.which(name) for name in ("chromium", "chromium-browser", "google-chrome"))
    return next((path for path in found if path), None)


def has_poppler() -> bool:
    """Tell whether the tests can turn a printed sheet into a picture."""
    return shutil.which("pdftoppm") is not None


def has_postgresql() -> bool:
    """Tell whether the tests can start a PostgreSQL server of their own."""
    return postgresql_programs() is not None


def postgresql_programs() -> Path | None:
    """Find the folder of PostgreSQL's server programs (initdb, pg_ctl): the newest, or None."""
    on_path = shutil.which("initdb")
    if on_path:
        return Path(on_path).resolve().parent
    versions = sorted(
        Path("/usr/lib/postgresql").glob("*/bin/initdb"), key=lambda path: float(path.parts[-3])
    )
    return versions[-1].parent if versions else None


VENV_MODULE = Need(
    "Python's venv module with ensurepip",
    ("python3-venv",),
    "a Python with venv and ensurepip",
    "nothing runs",
    has_venv_module,
)
PANGO = Need(
    "Pango",
    ("libpango-1.0-0", "libpangoft2-1.0-0", "libharfbuzz-subset0"),
    "Pango 1.44 or newer with HarfBuzz (on macOS: brew install pango)",
    "sheets cannot be printed",
    has_pango,
)
CHROMIUM = Need("Chromium", ("chromium",), "Chromium", "the browser tests are skipped", has_chromium)
POPPLER = Need("poppler-utils", ("poppler-utils",), "Poppler", "tests that look at sheets fail", has_poppler)
POSTGRESQL = Need(
    "PostgreSQL", ("postgresql",), "PostgreSQL's server", "the PostgreSQL tests are skipped", has_postgresql
)

NEEDED: dict[str, list[Need]] = {"run": [PANGO], "development": [PANGO, CHROMIUM, POPPLER, POSTGRESQL]}


def install_missing(needs: Sequence[Need]) -> list[Need]:
    """Install what is missing where that can be done (Debian or Ubuntu, as root).

    Returns:
        What is missing still.
    """
    missing = [need for need in needs if not need.is_there()]
    if missing and _is_root() and shutil.which("apt-get"):
        for need in missing:
            print(f"Installing {' '.join(need.packages)} (Debian packages) ...", file=sys.stderr, flush=True)
            # The lists of a fresh machine are empty or old: only then are they fetched.
            if not _apt_get("install", *need.packages):
                _apt_get("update")
                _apt_get("install", *need.packages)
    return [need for need in missing if not need.is_there()]


def how_to_get(missing: Sequence[Need]) -> str:
    """Say in one message what is missing, what that means, and how to get it."""
    what = "; ".join(f"{need.name} ({need.without} without it)" for need in missing)
    if shutil.which("apt-get"):
        packages = " ".join(package for need in missing for package in need.packages)
        return f"Missing on this machine: {what}. To get it: sudo apt-get install {packages}."
    elsewhere = "; ".join(need.elsewhere for need in missing)
    return f"Missing on this machine: {what}. To get it, install: {elsewhere}."


def _is_root() -> bool:
    return hasattr(os, "geteuid") and os.geteuid() == 0


def _apt_get(action: str, *packages: str) -> bool:
    command = ["apt-get", action, "-qq", "-y", "--no-install-recommends", *packages]
    path = f"{os.environ.get('PATH', '')}:/usr/local/sbin:/usr/sbin:/sbin"  # some shells' path lacks these
    environment = {**os.environ, "DEBIAN_FRONTEND": "noninteractive", "PATH": path}
    done = subprocess.run(command, env=environment, stdin=subprocess.DEVNULL, capture_output=True)
    return done.returncode == 0


def _loads(stem: str) -> bool:
    names = [f"lib{stem}.so.0", f"lib{stem}.dylib", f"lib{stem}-0.dll", f"lib{stem}.0.dylib"]
    folders = ["", "/opt/homebrew/lib/", "/usr/local/lib/"]
    for name in (folder + name for folder in folders for name in names):
        try:
            ctypes.CDLL(name)
        except OSError:
            continue
        return True
    return False
