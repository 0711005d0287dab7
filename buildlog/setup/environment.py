"""The front door: `.venv` with the locked packages, made where it is missing, and the start inside it.

`run.lock` holds what Oddleg needs to run; `development.lock` holds that and what its checks need. A stamp
inside `.venv` says which lock it was made from, so that a second start only compares two digests.
"""

from __future__ import annotations

import hashlib
import json
import os
import shutil
import subprocess
import sys
from pathlib import Path
from typing import Literal, NoReturn

from buildlog.setup import system

Purpose = Literal["run", "development"]

ROOT = Path(__file__).resolve().parents[2]
LOCKS = Path(__file__).resolve().parent
VENV = ROOT / ".venv"
STAMP = VENV / "oddleg-stamp.json"
PYTHON = VENV / ("Scripts/python.exe" if os.name == "nt" else "bin/python")


def prepare(purpose: Purpose) -> None:
    """See that the environment for `purpose` stands, and return inside it.

    Outside of `.venv` this starts the same command again inside it and does not return.
    """
    try:
        _complete(purpose)
    except OSError as problem:
        _stop(
            f"The folder {VENV} cannot be written ({problem.strerror}): copy the project to a folder of your"
            " own and give the command again there."
        )
    if Path(sys.prefix).resolve() != VENV.resolve():
        _start_again_inside()


def _complete(purpose: Purpose) -> None:
    stamp = _read_stamp()
    wanted = _digest(purpose)
    if not _is_installed(stamp, purpose):
        _install(purpose, wanted)
        stamp = _read_stamp()
    if stamp.get(f"system-{purpose}") != wanted:
        missing = system.install_missing(system.NEEDED[purpose])
        if missing:
            say(system.how_to_get(missing))
        else:
            _write_stamp({**stamp, f"system-{purpose}": wanted})


def say(sentence: str) -> None:
    """Tell the person at the terminal; standard output stays free for answers."""
    print(sentence, file=sys.stderr, flush=True)


def _digest(purpose: Purpose) -> str:
    return hashlib.sha256((LOCKS / f"{purpose}.lock").read_bytes()).hexdigest()


def _read_stamp() -> dict[str, str]:
    try:
        stamp = json.loads(STAMP.read_text(encoding="utf-8"))
    except (OSError, ValueError):
        return {}
    return stamp if isinstance(stamp, dict) and PYTHON.exists() else {}


def _write_stamp(stamp: dict[str, str]) -> None:
    STAMP.write_text(json.dumps(stamp, indent=1), encoding="utf-8")


def _is_installed(stamp: dict[str, str], purpose: Purpose) -> bool:
    # The development lock is a superset of the run lock, so an environment made from it serves both.
    if stamp.get("run") != _digest("run"):
        return False
    return purpose == "run" or stamp.get("development") == _digest("development")


def _install(purpose: Purpose, wanted: str) -> None:
    if not _is_sound():
        _make_venv()
    STAMP.unlink(missing_ok=True)
    lock = LOCKS / f"{purpose}.lock"
    count = sum("==" in line for line in lock.read_text(encoding="utf-8").splitlines())
    say(f"Installing {count} locked packages into .venv (once; about half a minute) ...")
    command = [str(PYTHON), "-m", "pip", "install", "--quiet", "--disable-pip-version-check", "--no-deps"]
    done = subprocess.run(
        [*command, "--require-hashes", "-r", str(lock)],
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    if done.returncode:
        said = done.stdout.splitlines() or ["pip gave no reason"]
        reason = next((line for line in reversed(said) if line.startswith("ERROR")), said[-1])
        _stop(
            f"The packages could not be installed ({reason}): see that this machine reaches its Python"
            " package index, then give the same command again."
        )
    stamp = {"run": _digest("run")}
    if purpose == "development":
        stamp["development"] = wanted
    _write_stamp(stamp)


def _is_sound() -> bool:
    return PYTHON.exists() and any(VENV.glob("[Ll]ib*/**/site-packages/pip/__init__.py"))


def _make_venv() -> None:
    if system.install_missing([system.VENV_MODULE]):
        _stop(f"{system.how_to_get([system.VENV_MODULE])} Then give the same command again.")
    say("Making the virtual environment .venv ...")
    shutil.rmtree(VENV, ignore_errors=True)
    done = subprocess.run(
        [sys.executable, "-m", "venv", str(VENV)], stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    if done.returncode:
        reason = (done.stdout.strip().splitlines() or ["no reason given"])[-1]
        _stop(f"The virtual environment .venv could not be made ({reason}): mend that, then try again.")


def _start_again_inside() -> NoReturn:
    command = [str(PYTHON), *sys.argv]
    if os.name == "nt":  # there, exec would return to the prompt while the command still runs
        sys.exit(subprocess.call(command))
    sys.stdout.flush()
    os.execv(str(PYTHON), command)


def _stop(sentence: str) -> NoReturn:
    say(sentence)
    sys.exit(1)
