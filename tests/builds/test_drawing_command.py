"""`manage.py drawing`, run as people run it, from a build file without a database."""

from __future__ import annotations

import io
from pathlib import Path
from typing import Any
from xml.etree import ElementTree

import pytest
from django.core.management import CommandError, call_command

from tests.builds.test_inspect_and_sheet_commands import run, stand

__all__ = ["stand"]


def test_a_face_is_written_as_dxf_with_its_holes(stand: Path, tmp_path: Path) -> None:
    import ezdxf

    done = run("drawing", stand.name, "--component", "P10", "-o", "p10.dxf", folder=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    data = (tmp_path / "p10.dxf").read_bytes()
    assert done.stdout.strip() == f"p10.dxf: {len(data):,} bytes"
    document: Any = ezdxf.read(io.StringIO(data.decode()))  # type: ignore[attr-defined]
    assert document.audit().errors == []
    assert "TAPPED_5~16_BSF_18_DEEP_DRILL_22_DEEP" in {one.dxf.name for one in document.layers}


def test_a_part_is_written_as_svg(stand: Path, tmp_path: Path) -> None:
    done = run(
        "drawing", stand.name, "--component", "P10", "--projection", "third", "-o", "p10.SVG", folder=tmp_path
    )
    assert (done.returncode, done.stderr) == (0, "")
    root = ElementTree.fromstring((tmp_path / "p10.SVG").read_text())
    assert root.tag == "{http://www.w3.org/2000/svg}svg"
    assert root.find("{http://www.w3.org/2000/svg}title") is not None


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (("--component", "P10", "-o", "p.pdf"), "Name a file that ends in .dxf, .svg"),
        (("--component", "P99", "-o", "p.dxf"), "There is no part 'P99'"),
        (("--component", "P10", "--face", "top", "-o", "p.dxf"), "P10 has no face 'top'; it has left, right, side."),
        (("--component", "P10", "--projection", "second", "-o", "p.svg"), "write first or third."),
        (("--component", "P10", "--projection", "third", "-o", "p.dxf"), "--projection goes with a file that ends in .svg."),
        (("--component", "P10", "--set", "safe=20", "-o", "p.svg"), "--set goes with a file that ends in .nc."),
        (("--component", "P10", "--set", "copy=P99", "-o", "p.nc"), "'P99' is no copy of P10; there is one of it."),
        (("--joint", "F01", "--set", "safe=20", "-o", "p.svg"), "--set goes with --component, not with --joint."),
    ],
)  # fmt: skip
def test_what_cannot_be_drawn_is_a_sentence_and_nothing_is_written(
    words: tuple[str, ...], says: str, stand: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.chdir(stand.parent)
    with pytest.raises(CommandError) as caught:
        call_command("drawing", stand.name, *words)
    assert caught.value.returncode == 2
    assert says in str(caught.value)
    assert list(stand.parent.iterdir()) == [stand]


def test_a_fault_is_told_without_a_traceback(stand: Path, tmp_path: Path) -> None:
    done = run("drawing", stand.name, "-o", "p.svg", folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert "--component" in done.stderr
    assert "Traceback" not in done.stderr
