"""The front door: standard library alone, quick when all is in place, plain when it is not."""

from __future__ import annotations

import ast
import json
import re
import subprocess
import sys
from pathlib import Path

import pytest

from buildlog.setup import environment, system

HERE = environment.LOCKS


@pytest.mark.parametrize("path", [*sorted(HERE.glob("*.py")), environment.ROOT / "buildlog" / "__init__.py"])
def test_it_imports_nothing_but_the_standard_library(path: Path) -> None:
    imported = set()
    for node in ast.walk(ast.parse(path.read_text(encoding="utf-8"))):
        if isinstance(node, ast.Import):
            imported |= {name.name for name in node.names}
        elif isinstance(node, ast.ImportFrom):
            imported.add(node.module or "")
    foreign = {
        name
        for name in imported
        if name.partition(".")[0] not in sys.stdlib_module_names and not name.startswith("buildlog.setup")
    }
    assert foreign == set()


@pytest.mark.parametrize("purpose", ["run", "development"])
def test_the_locks_pin_and_hash_everything_and_name_no_host(purpose: str) -> None:
    text = (HERE / f"{purpose}.lock").read_text(encoding="utf-8")
    assert "://" not in text
    assert "--index" not in text
    entries = re.split(r"\n(?=[a-z])", text.strip())
    assert len(entries) > 30
    unsafe = [
        entry
        for entry in entries
        if not re.match(r"[\w.-]+==\S+.*(\n    --hash=sha256:[0-9a-f]{64}.*)+$", entry)
    ]
    assert unsafe == []


def test_the_development_lock_holds_the_run_lock() -> None:
    """So that an environment made for the checks runs Oddleg too."""
    run, development = (
        set(
            re.findall(
                r"^([\w.-]+==[^\s;]+)", (HERE / f"{name}.lock").read_text(encoding="utf-8"), re.MULTILINE
            )
        )
        for name in ("run", "development")
    )
    assert run <= development


@pytest.fixture
def empty(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Path:
    """A project folder with small locks and no environment yet."""
    for purpose in ("run", "development"):
        (tmp_path / f"{purpose}.lock").write_text(f"{purpose}==1 \\\n", encoding="utf-8")
    venv = tmp_path / ".venv"
    monkeypatch.setattr(environment, "LOCKS", tmp_path)
    monkeypatch.setattr(environment, "VENV", venv)
    monkeypatch.setattr(environment, "STAMP", venv / "stamp.json")
    monkeypatch.setattr(environment, "PYTHON", venv / "bin" / "python")
    monkeypatch.setattr(sys, "prefix", str(venv))
    monkeypatch.setattr(system, "install_missing", lambda needs: [])
    return tmp_path


@pytest.fixture
def commands(empty: Path, monkeypatch: pytest.MonkeyPatch) -> list[list[str]]:
    """The commands that set-up gave, none of which is carried out but for the folder that venv makes."""
    given: list[list[str]] = []

    def run(command: list[str], **_: object) -> subprocess.CompletedProcess[str]:
        given.append(command)
        if "venv" in command:
            for name in ("bin/python", "lib/python3/site-packages/pip/__init__.py"):
                path = empty / ".venv" / name
                path.parent.mkdir(parents=True)
                path.touch()
        return subprocess.CompletedProcess(command, 0, "", "")

    monkeypatch.setattr(environment.subprocess, "run", run)
    return given


def test_a_first_start_makes_the_environment_and_a_second_gives_no_command(commands: list[list[str]]) -> None:
    environment.prepare("run")
    assert [command[1:3] for command in commands] == [["-m", "venv"], ["-m", "pip"]]
    assert "--require-hashes" in commands[1]
    commands.clear()
    environment.prepare("run")
    assert commands == []


def test_the_checks_add_to_the_environment_and_a_changed_lock_is_installed_again(
    empty: Path, commands: list[list[str]]
) -> None:
    environment.prepare("run")
    commands.clear()
    environment.prepare("development")
    assert [Path(command[-1]).name for command in commands] == ["development.lock"]
    commands.clear()
    environment.prepare("run")
    assert commands == []
    (empty / "run.lock").write_text("run==2 \\\n", encoding="utf-8")
    environment.prepare("run")
    assert [Path(command[-1]).name for command in commands] == ["run.lock"]


def test_an_unreadable_stamp_counts_as_none(empty: Path, commands: list[list[str]]) -> None:
    environment.prepare("run")
    (empty / ".venv" / "stamp.json").write_text("{", encoding="utf-8")
    commands.clear()
    environment.prepare("run")
    assert [command[1:3] for command in commands] == [["-m", "pip"]]
    assert json.loads((empty / ".venv" / "stamp.json").read_text(encoding="utf-8")).keys() == {
        "run",
        "system-run",
    }


def test_packages_that_cannot_be_had_stop_it_with_one_sentence(
    empty: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    said = "Looking\nERROR: No matching distribution found for run==1\n"
    monkeypatch.setattr(environment, "_is_sound", lambda: True)
    monkeypatch.setattr(
        environment.subprocess, "run", lambda command, **_: subprocess.CompletedProcess(command, 1, said, "")
    )
    (empty / ".venv").mkdir()
    with pytest.raises(SystemExit) as stop:
        environment.prepare("run")
    assert stop.value.code == 1
    assert capsys.readouterr().err.splitlines()[-1] == (
        "The packages could not be installed (ERROR: No matching distribution found for run==1): see that this"
        " machine reaches its Python package index, then give the same command again."
    )


def test_what_is_missing_is_told_in_one_message(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(system.shutil, "which", lambda name: None)
    assert system.how_to_get([system.PANGO, system.CHROMIUM]) == (
        "Missing on this machine: Pango (sheets cannot be printed without it); Chromium (the browser tests are"
        " skipped without it). To get it, install: Pango 1.44 or newer with HarfBuzz (on macOS: brew install"
        " pango); Chromium."
    )
    monkeypatch.setattr(system.shutil, "which", lambda name: "/usr/bin/apt-get")
    assert system.how_to_get([system.VENV_MODULE]) == (
        "Missing on this machine: Python's venv module with ensurepip (nothing runs without it)."
        " To get it: sudo apt-get install python3-venv."
    )


def test_only_root_on_debian_installs_anything(monkeypatch: pytest.MonkeyPatch) -> None:
    missing = system.Need("a thing", ("a-thing",), "a thing", "it is dark", lambda: False)
    asked: list[tuple[str, ...]] = []
    monkeypatch.setattr(system, "_apt_get", lambda *words: asked.append(words) or False)
    monkeypatch.setattr(system.shutil, "which", lambda name: "/usr/bin/apt-get")
    monkeypatch.setattr(system, "_is_root", lambda: False)
    assert system.install_missing([missing]) == [missing]
    assert asked == []
    monkeypatch.setattr(system, "_is_root", lambda: True)
    assert system.install_missing([missing]) == [missing]
    assert asked == [("install", "a-thing"), ("update",), ("install", "a-thing")]


def test_a_folder_that_cannot_be_written_stops_it_with_one_sentence(
    empty: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    def refuse(*_: object) -> None:
        raise PermissionError(13, "Permission denied")

    monkeypatch.setattr(environment, "_install", refuse)
    with pytest.raises(SystemExit):
        environment.prepare("run")
    assert capsys.readouterr().err == (
        f"The folder {empty / '.venv'} cannot be written (Permission denied): copy the project to a folder of your"
        " own and give the command again there.\n"
    )
