"""Every gate bites: a small tree with one planted fault makes it fail, and without the fault it passes."""

from __future__ import annotations

import shutil
from pathlib import Path

import pytest

from buildlog.gates.gate import GATES, Gate, run_gate
from buildlog.gates.run import main
from buildlog.setup.environment import ROOT

KNOWN = {gate.name: gate for gate in GATES}
SOUND = '"""A sound module."""\n\n\ndef double(count: int) -> int:\n    """Twice as many."""\n    return 2 * count\n'


# A Django of the smallest kind, for the checks that load one.
SETTINGS = '"""Settings."""\n\nSECRET_KEY = "x" * 60\nUSE_TZ = True\n'
PACKAGES = (
    "calculators",
    "calculators/quantities",
    "calculators/hardware",
    "calculators/materials",
    "buildlog",
    "buildlog/settings",
    "buildlog/workshops",
)


@pytest.fixture
def tree(tmp_path: Path) -> Path:
    """A small tree with the project's own rules, and nothing wrong in it."""
    for name in ("pyproject.toml", "manage.py"):
        shutil.copy(ROOT / name, tmp_path / name)
    shutil.copytree(ROOT / "buildlog" / "setup", tmp_path / "buildlog" / "setup")
    shutil.copytree(ROOT / "buildlog" / "gates", tmp_path / "buildlog" / "gates")
    for package in PACKAGES:
        (tmp_path / package).mkdir(exist_ok=True)
        (tmp_path / package / "__init__.py").write_text('"""A package."""\n', encoding="utf-8")
    plant(tmp_path, "buildlog/settings/testing.py", SETTINGS)
    return tmp_path


@pytest.fixture
def whole_tree(tmp_path: Path) -> Path:
    """All that Django loads, for the gates that look at every app."""
    for name in ("buildlog", "calculators", "templates"):
        shutil.copytree(ROOT / name, tmp_path / name, ignore=shutil.ignore_patterns("__pycache__"))
    return tmp_path


def plant(tree: Path, path: str, text: str) -> None:
    """Write a file into the tree, or add to one."""
    with (tree / path).open("a", encoding="utf-8") as file:
        file.write(text)


def fails_with(gate: Gate, tree: Path, word: str) -> bool:
    """Tell whether the gate failed because of the planted fault and not by some accident."""
    status, said = run_gate(gate, tree)
    assert status != 0, said
    assert word in said, said
    return True


@pytest.mark.parametrize(
    ("text", "rule"),
    [
        ("import os\n", "unused-import"),
        ("import random\n\nx = random.random()\n", "banned-api"),
        (
            '"""M."""\n\n\ndef f(a: int) -> int:\n    """Twice.\n\n    Args:\n        a: one.\n        b: other.\n    """\n    return a\n',
            "docstring-extraneous-parameter",  # content of docstrings: does nothing unless preview is on
        ),
        (
            '"""M."""\n\n\ndef f(a: int) -> int:\n    """Twice.\n    Args:\n      a: one.\n    """\n    return a\n',
            "blank-line",
        ),
    ],
)
def test_ruff_bites(tree: Path, text: str, rule: str) -> None:
    plant(tree, "calculators/faulty.py", text)
    assert fails_with(KNOWN["ruff"], tree, rule)


def test_format_bites(tree: Path) -> None:
    plant(tree, "calculators/faulty.py", "x = [1,2]\n")
    assert fails_with(KNOWN["format"], tree, "faulty.py")


def test_ruff_and_format_pass_a_sound_module(tree: Path) -> None:
    plant(tree, "calculators/sound.py", SOUND)
    assert run_gate(KNOWN["ruff"], tree) == (0, "All checks passed!\n")
    assert run_gate(KNOWN["format"], tree)[0] == 0


def test_mypy_bites_and_is_strict_in_the_calculators(tree: Path) -> None:
    plant(tree, "calculators/sound.py", SOUND)
    plant(tree, "calculators/faulty.py", '"""M."""\n\n\ndef f(a):\n    """F."""\n    return a\n')
    status, said = run_gate(KNOWN["mypy"], tree)
    assert (status, "faulty.py:4: error: Function is missing a type annotation" in said) == (1, True), said
    assert "sound.py" not in said


@pytest.mark.parametrize(
    ("module", "line", "contract"),
    [
        ("calculators/hardware/faulty.py", "import django", "calculators imports no Django"),
        ("calculators/hardware/faulty.py", "import buildlog.workshops", "calculators imports no Django"),
        ("calculators/quantities/faulty.py", "import calculators.hardware", "the calculators' import order"),
        ("calculators/hardware/faulty.py", "import calculators.materials", "the calculators' import order"),
        (
            "buildlog/workshops/faulty.py",
            "import weasyprint",
            "only buildlog.sheets.printing imports WeasyPrint",
        ),
    ],
)
def test_imports_bite(tree: Path, module: str, line: str, contract: str) -> None:
    plant(tree, module, f"{line}\n")
    status, said = run_gate(KNOWN["imports"], tree)
    broken = [text for text in said.splitlines() if text.strip().endswith("BROKEN")]
    assert status != 0
    assert len(broken) == 1
    assert contract in broken[0]


def test_a_folder_that_has_no_place_in_the_import_order_is_told(tree: Path) -> None:
    (tree / "calculators" / "common").mkdir()
    plant(tree, "calculators/common/__init__.py", "")
    assert fails_with(KNOWN["imports"], tree, "common")


def test_imports_pass_a_sound_tree(tree: Path) -> None:
    plant(tree, "calculators/hardware/sound.py", "import calculators.quantities\n")
    status, said = run_gate(KNOWN["imports"], tree)
    assert status == 0, said


def test_migrations_bite(whole_tree: Path) -> None:
    status, said = run_gate(KNOWN["migrations"], whole_tree)
    assert status == 0, said
    plant(whole_tree, "buildlog/workshops/models.py", "\n\nclass Bench(models.Model):\n    pass\n")
    assert fails_with(KNOWN["migrations"], whole_tree, "Create model Bench")


def test_deploy_bites(whole_tree: Path) -> None:
    status, said = run_gate(KNOWN["deploy"], whole_tree)
    assert status == 0, said
    plant(whole_tree, "buildlog/settings/production.py", "SESSION_COOKIE_SECURE = False\n")
    assert fails_with(KNOWN["deploy"], whole_tree, "security.W012")


def test_the_tests_fail_on_a_warning_and_on_a_wrong_example(tree: Path) -> None:
    """The test gate's settings: warnings are errors, and the docstrings' examples run."""
    (tree / "tests").mkdir()
    plant(tree, "tests/test_it.py", "import warnings\n\n\ndef test_it():\n    warnings.warn('old')\n")
    plant(tree, "calculators/faulty.py", '"""M.\n\n>>> 1 + 1\n3\n"""\n')
    command = (*KNOWN["tests"].command, "-p", "no:cacheprovider", "-n", "0")
    status, said = run_gate(Gate("tests", "", command), tree)
    assert status == 1, said
    assert "UserWarning: old" in said
    assert "[doctest] calculators.faulty" in said
    assert "2 failed" in said


def test_an_unknown_gate_is_refused_with_the_list(capsys: pytest.CaptureFixture[str]) -> None:
    assert main(["rough"]) == 2
    told = capsys.readouterr()
    assert told.err == "\nThere is no gate named rough.\n"
    assert [line.split()[0] for line in told.out.splitlines() if line.startswith("  ")] == list(KNOWN)
