"""`manage.py inspect` and `manage.py sheet`, run as people run them."""

from __future__ import annotations

import json
import subprocess
import sys
from dataclasses import replace
from datetime import date
from pathlib import Path

import pytest

from calculators.planning.checks.listing import every_rule
from calculators.planning.edits import accept, finding_key
from calculators.planning.files import write_build
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from tests.planning.test_resolving import batten_screws, build, pillar_screw

ROOT = Path(__file__).resolve().parents[2]


def run(*words: str, folder: Path) -> subprocess.CompletedProcess[str]:
    """Run in a folder of its own, with an address of a database that nobody could reach."""
    return subprocess.run(
        [sys.executable, str(ROOT / "manage.py"), *words], capture_output=True, text=True, cwd=folder, timeout=60,
        env={"PATH": "/usr/bin:/bin", "DATABASE_URL": "postgresql://nobody@127.0.0.1:9/none", "HOME": str(folder)},
        check=False,
    )  # fmt: skip


def _squared(one: Build) -> Build:
    """The build with the corners of its recesses squared, so that what lies in them goes in."""
    parts = (
        replace(part, pockets=tuple(replace(pocket, squared=True) for pocket in part.pockets))
        for part in one.components
    )
    return replace(one, components=tuple(parts))


@pytest.fixture
def stand(tmp_path: Path) -> Path:
    path = tmp_path / "stand.json"
    path.write_bytes(write_build(build(pillar_screw(), batten_screws())))
    return path


def test_findings_come_as_json_with_the_promised_names_and_status_1(stand: Path, tmp_path: Path) -> None:
    done = run("inspect", stand.name, "--json", "--as-of", "2025-06-06", folder=tmp_path)
    assert (done.returncode, done.stderr) == (1, "")
    answer = json.loads(done.stdout)
    assert answer["as_of"] == "2025-06-06"
    bottoms = next(each for each in answer["findings"] if each["rule"] == "screw-bottoms")
    assert {"rule", "severity", "where", "says", "value", "limit", "source"} <= set(bottoms)
    assert (bottoms["severity"], bottoms["where"]) == ("error", "F03 in P10")
    assert (round(bottoms["value"], 3), bottoms["limit"]) == (21.2, 18.0)  # 50.8 - 1.6 - 22 - 6
    assert bottoms["at"] == "joints[F03]"
    assert answer["counts"]["error"] == sum(each["severity"] == "error" for each in answer["findings"])


def test_status_0_without_errors_and_1_with_strict_for_warnings(tmp_path: Path) -> None:
    path = tmp_path / "sound.json"
    path.write_bytes(write_build(replace(build(), components=(), joints=())))
    assert run("inspect", path.name, "--strict", folder=tmp_path).returncode == 0
    lengthy = replace(pillar_screw(), fastener="5/16 BSF x 1 3/4 hex set screw steel")
    path.write_bytes(write_build(_squared(build(lengthy))))
    plain, strict = (run("inspect", path.name, *more, folder=tmp_path) for more in ((), ("--strict",)))
    assert "0 errors" in plain.stdout
    assert "warning" in plain.stdout
    assert (plain.returncode, strict.returncode) == (0, 1)


def test_text_says_where_and_what_would_mend_it(stand: Path, tmp_path: Path) -> None:
    done = run("inspect", stand.name, folder=tmp_path)
    lines = done.stdout.splitlines()
    at = lines.index(
        "error  F03 in P10, screw-bottoms: The screw bottoms before it clamps: 21.2 mm of screw for 18.0 mm of "
        "thread, 3.2 mm too long."
    )
    assert lines[at + 1] == "  mend: Use 5/16 BSF x 1 3/4 hex set screw steel."
    assert lines.index("To be mended before anything is cut") < at < lines.index("Rules")
    assert any(line.startswith("  screw-bottoms: ") for line in lines[lines.index("Rules") :])


def test_what_is_let_stand_is_told_apart_and_does_not_count(tmp_path: Path) -> None:
    """Its reason and name stand in the text and in the JSON; the error that it was no longer gives status 1."""
    path = tmp_path / "stand.json"
    path.write_bytes(write_build(build(pillar_screw())))
    worked = inspect_build(build(pillar_screw()))
    held = worked
    for finding in [one for one in worked.findings if one.severity == "error"]:
        after = accept(held, finding_key(finding), "measured: it fits", by="Ines", on=date(2025, 6, 6))
        held = inspect_build(after, held)
    path.write_bytes(write_build(held.build))
    done = run("inspect", path.name, folder=tmp_path)
    assert done.returncode == 0
    assert "let stand  F03 in P10, screw-bottoms: The screw bottoms" in done.stdout
    assert "  because: measured: it fits (Ines, 2025-06-06)" in done.stdout
    assert f"; {len(held.accepted)} let stand." in done.stdout
    answer = json.loads(run("inspect", path.name, "--json", folder=tmp_path).stdout)
    assert answer["counts"]["error"] == 0
    bottoms = next(each for each in answer["accepted"] if each["rule"] == "screw-bottoms")
    assert bottoms["accepted"] == {
        "id": "x1",
        "reason": "measured: it fits",
        "by": "Ines",
        "on": "2025-06-06",
    }


def test_a_sheet_is_written_without_a_database(stand: Path, tmp_path: Path) -> None:
    done = run("sheet", "drilling", stand.name, "--paper", "letter", "-o", "out.pdf", folder=tmp_path)
    assert (done.returncode, done.stderr) == (0, "")
    assert (tmp_path / "out.pdf").read_bytes().startswith(b"%PDF")
    assert [each.name for each in tmp_path.iterdir() if each.name.startswith(".")] == []


def test_the_rules_are_listed_with_their_limits_as_text_and_as_json(tmp_path: Path) -> None:
    text = run("inspect", "--rules", folder=tmp_path)
    assert (text.returncode, text.stderr) == (0, "")
    lines = text.stdout.splitlines()
    at = next(index for index, line in enumerate(lines) if line.startswith("edge-distance: "))
    assert (
        "  edge-distance 3 d: screw to the edge of the piece (EN 1995-1-1 table 8.2 (from memory))"
        in lines[at:]
    )
    listed = json.loads(run("inspect", "--rules", "--json", folder=tmp_path).stdout)["rules"]
    assert [one["rule"] for one in listed] == [rule.name for rule in every_rule()]
    rule = next(one for one in listed if one["rule"] == "edge-distance")
    assert {name: value for name, value in rule["limits"][1].items() if name in ("limit", "value")} == {
        "limit": "edge-distance",
        "value": 3.0,
    }


@pytest.mark.parametrize(
    ("words", "says"),
    [
        (["inspect", "TW-99"], "There is no build with the number 'TW-99' and no file of that name"),
        (["inspect", "nothing.json"], "There is no file 'nothing.json'; name a build file (JSON)."),
        (["inspect", "."], "is a folder"),
        (["inspect"], "The following arguments are required: build; manage.py inspect --help says what there is."),
        (["sheet", "cut", "stand.json"], "The following arguments are required: -o/--output"),
        (["inspect", "stand.json", "--loud"], "Unrecognized arguments: --loud"),
        (["inspect", "half.json"], "line 1"),
        (["inspect", "binary.json"], "UTF-8"),
        (["inspect", "stand.json", "--as-of", "yesterday"], "Write the day as year-month-day, such as 2025-06-30."),
        (["sheet", "poster", "stand.json", "-o", "x.pdf"], "the sheets are fasteners, drilling, cut, shopping, assembly"),
        (["sheet", "cut", "stand.json", "--paper", "a0", "-o", "x.pdf"], "the papers are a4 and letter"),
        (["sheet", "cut", "stand.json", "--component", "P99", "-o", "x.pdf"], "its components are P01"),
        (["sheet", "cut", "stand.json", "-o", "no/such/folder/x.pdf"], "cannot be written"),
        (["sheet", "cut", "stand.json", "-o", "."], "is a folder; name a file to write."),
        (["inspect", "a" * 300], "There is no build with the number 'aaaaaaaaaaaaaaaaaaaaaaaaaaaa...'"),
        (["inspect", "a" * 300 + ".json"], "cannot be read"),
        (["inspect", "TW\x1b[31m\u202e"], "There is no build with the number 'TW?[31m?'"),
        (["sheet", "cut", "stand.json", "-o", "a" * 300], "cannot be written"),
    ],
)  # fmt: skip
def test_nonsense_gets_a_sentence_and_status_2(
    words: list[str], says: str, stand: Path, tmp_path: Path
) -> None:
    (tmp_path / "half.json").write_bytes(stand.read_bytes().replace(b"\n", b" ")[:300])
    (tmp_path / "binary.json").write_bytes(bytes(range(128, 256)))
    done = run(*words, folder=tmp_path)
    assert (done.returncode, done.stdout) == (2, "")
    assert says in done.stderr
    assert "Traceback" not in done.stderr


def test_a_pipe_or_a_link_is_written_to_and_never_replaced(tmp_path: Path) -> None:
    (tmp_path / "real.json").write_text("old")
    (tmp_path / "link.json").symlink_to("real.json")
    assert run("schema", "-o", "link.json", folder=tmp_path).returncode == 0
    assert (tmp_path / "link.json").is_symlink()
    assert json.loads((tmp_path / "real.json").read_text())["title"] == "Oddleg build file"
    assert run("schema", "-o", "/dev/stdout", folder=tmp_path).stdout == (tmp_path / "real.json").read_text()
    assert Path("/dev/stdout").is_symlink()


def test_the_faults_of_a_file_name_their_places(tmp_path: Path) -> None:
    (tmp_path / "odd.json").write_text(
        '{"schema_version": 1, "number": "B1", "title": "Box", "components": [{"mark": "P1", "name": "Side",'
        ' "size": {"shape": "block", "length": "3/0"}}], "joints": [{"mark": "F1", "title": "x",'
        ' "fastener": "M5.7 x 20 pan"}]}'
    )
    done = run("inspect", "odd.json", folder=tmp_path)
    assert done.returncode == 2
    assert "components[0] (P1).size.length" in done.stderr
    assert "joints[0] (F1).fastener" in done.stderr


def test_the_build_is_the_same_from_the_command_and_in_code(stand: Path) -> None:
    from calculators.planning.files import read_build

    whole: Build = read_build(stand.read_bytes())
    assert whole == build(pillar_screw(), batten_screws())
