"""The calculators' docstrings say what their signatures say; and the reader of docstrings does bite."""

from __future__ import annotations

from pathlib import Path

import pytest

from buildlog.gates.docstrings import faults_in, faults_in_file
from buildlog.setup.environment import ROOT

GOOD = '''"""A module."""


def pull(load_n: float, *, count: int = 1, **more: object) -> float:
    """The load shared out.

    Args:
        load_n: the load [N], above 0,
            on the whole.
        count (int): how many share it, 1 or more.
        **more: not used.

    Returns:
        The load on each [N].

    Raises:
        InputError: never.

    Source: this project.

    Example:
        >>> 1 + 1
        2
    """
    return load_n / count


class Box:
    """A box."""

    @property
    def size(self) -> int:
        """Its size."""
        return 1

    def __len__(self) -> int:
        return 1
'''


def test_every_docstring_of_the_calculators_is_in_order() -> None:
    assert faults_in(ROOT / "calculators") == []


def _says(tmp_path: Path, text: str) -> list[str]:
    path = tmp_path / "sample.py"
    path.write_text(text, encoding="utf-8")
    return [fault.partition(" ")[2] for fault in faults_in_file(path)]


def test_a_good_module_has_no_fault(tmp_path: Path) -> None:
    assert _says(tmp_path, GOOD) == []


@pytest.mark.parametrize(
    ("good", "bad", "says"),
    [
        ('"""A module."""', "", "the module has no docstring"),
        ("load_n: the load [N]", "load_n: the load", "pull: 'load_n' is described without its [unit]"),
        ("count: int = 1", "number: int = 1", "pull: 'number' is not described in 'Args:'"),
        (
            "        **more: not used.\n",
            "        **more: not used.\n        size: the size.\n",
            "pull: 'Args:' describes 'size', which is not a parameter",
        ),
        ("Returns:\n", "Gives:\n", "pull: gives a result, but its docstring has no 'Returns:'"),
        ("    Returns:\n        The load on each [N].\n", "    Returns:\n", None),
        (
            "    Source: this project.\n",
            "    Source:\n",
            "pull: has no 'Source:' (a standard, 'common practice', 'from memory' or 'this project.')",
        ),
        ('    """A box."""\n', "", "Box: has no docstring"),
        ('        """Its size."""\n', "", "Box.size: has no docstring"),
    ],
)
def test_one_fault_is_told(tmp_path: Path, good: str, bad: str, says: str | None) -> None:
    assert GOOD.count(good) == 1
    expected = says or "pull: gives a result, but its docstring has no 'Returns:'"
    assert expected in _says(tmp_path, GOOD.replace(good, bad))


def test_a_public_function_without_any_docstring_is_told(tmp_path: Path) -> None:
    assert _says(tmp_path, '"""M."""\ndef f() -> None: ...\ndef _g() -> None: ...\n') == [
        "f: has no docstring"
    ]
