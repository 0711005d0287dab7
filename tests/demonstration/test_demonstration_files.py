"""The three demonstration builds as files: canonical bytes, complete lists, marks that hang together.

The builds are invented. What they should hold is set out here, not read from them.
"""

from __future__ import annotations

from decimal import Decimal
from pathlib import Path

import pytest

from calculators.planning.files import read_build, write_build
from calculators.planning.model import Build
from calculators.planning.tree import joint_count, total_quantity

FOLDER = Path(__file__).parents[2] / "buildlog" / "builds" / "demonstration"
NUMBERS = ("TW-31", "TW-32", "TW-33")


def build_of(number: str) -> Build:
    return read_build((FOLDER / f"{number}.json").read_bytes())


@pytest.fixture(params=NUMBERS)
def build(request: pytest.FixtureRequest) -> Build:
    return build_of(request.param)


def test_the_folder_holds_these_builds_and_no_others() -> None:
    assert sorted(path.name for path in FOLDER.glob("*.json")) == [f"{number}.json" for number in NUMBERS]


def test_the_file_is_what_would_be_written(build: Build) -> None:
    assert (FOLDER / f"{build.number}.json").read_bytes() == write_build(build)


def test_tw31_has_its_42_parts_and_the_groups_they_belong_to() -> None:
    build = build_of("TW-31")
    marks = [one.mark for one in build.components if one.mark.startswith("P")]
    assert marks == [f"P{number:02d}" for number in range(1, 43)]
    groups = [one for one in build.components if one.mark.startswith("G")]
    assert [one.mark for one in groups] == [f"G{number}" for number in range(1, 8)]
    assert all(one.size.shape == "" and one.quantity == 1 for one in groups)
    assert all(
        one.parent in {group.mark for group in groups} for one in build.components if one not in groups
    )


@pytest.mark.parametrize(
    ("mark", "quantity"),
    [("P02", 2), ("P03", 2), ("P06", 2), ("P09", 3), ("P15", 2), ("P20", 2), ("P25", 2), ("P27", 2), ("P28", 2),
     ("P35", 2), ("P37", 2), ("P38", 2), ("P42", 2), ("P01", 1), ("P40", 1), ("C23", 3)],
)  # fmt: skip
def test_tw31_counts_as_listed(mark: str, quantity: int) -> None:
    assert total_quantity(build_of("TW-31"))[mark] == quantity


@pytest.mark.parametrize(
    ("line", "count"),
    [("F01", 6), ("F02", 4), ("F03", 1), ("F05", 1), ("F06", 4), ("F07", 2), ("F08", 2), ("F09", 4), ("F10", 2),
     ("F11", 2), ("F12", 1), ("F13", 2), ("F15", 2), ("F16", 1), ("F17", 6), ("F18", 4), ("F20", 4), ("F21", 2),
     ("F22", 2), ("F23", 3), ("F24", 8), ("F25", 12)],
)  # fmt: skip
def test_tw31_fasteners_count_as_listed(line: str, count: int) -> None:
    """F24 goes from two homes (nut plates, strap) and F25 into two (cover, lid): each is two joints."""
    build = build_of("TW-31")
    totals = total_quantity(build)
    joints = [joint for joint in build.joints if joint.mark.rstrip("SL") == line]
    assert len(joints) == (2 if line in ("F24", "F25") else 1)
    assert sum(joint_count(joint, totals) for joint in joints) == count


def test_tw31_washers_and_inserts_are_members_of_stacks() -> None:
    """Lines F04, F14 and F19 of the schedule; the joint that holds each says so."""
    joints = {joint.mark: joint for joint in build_of("TW-31").joints}
    assert not {"F04", "F14", "F19"} & set(joints)
    for mark, line, words in (
        ("F03", "F04", "5/16 repair washer"),
        ("F13", "F14", "insert"),
        ("F18", "F19", "repair"),
    ):
        assert line in joints[mark].note
        assert any(words in member.item for member in joints[mark].stack)


@pytest.mark.parametrize(
    ("number", "marks"),
    [("TW-32", [f"A{i}" for i in range(1, 13)]), ("TW-33", [f"B{i}" for i in range(1, 11)])],
)
def test_the_smaller_builds_have_their_parts(number: str, marks: list[str]) -> None:
    assert [one.mark for one in build_of(number).components if one.mark[0] == marks[0][0]] == marks


def test_released_and_made_parts_carry_a_letter(build: Build) -> None:
    for one in build.components:
        if one.stock:
            assert one.revision == ("A" if one.state in ("released", "made", "fitted") else ""), one.mark
        if one.state in ("bought", "in hand"):
            assert one.stock == "bought" or one.reused, one.mark


def test_sizes_are_kept_as_the_trade_writes_them() -> None:
    parts = {one.mark: one for one in build_of("TW-31").components}
    pillar = parts["P10"].size
    assert pillar.diameter is not None
    assert pillar.length is not None
    assert (pillar.diameter.written, pillar.length.written) == ("3/4 in", "6 1/2 in")
    assert (pillar.diameter.exact_mm, pillar.length.exact_mm) == (Decimal("19.05"), Decimal("165.1"))
    plate = parts["P21"].size.thickness
    assert plate is not None
    assert (plate.written, plate.exact_mm) == ("16 SWG", Decimal("1.6256"))


def test_tw31_journal() -> None:
    build = build_of("TW-31")
    assert len(build.entries) == 15
    assert sum(entry.hours or 0 for entry in build.entries) == Decimal("81.5")
    assert [str(build.entries[0].date), str(build.entries[-1].date)] == ["2025-02-03", "2025-06-06"]
    whole = "\n".join(entry.text for entry in build.entries)
    for heading in (
        "Evidence register",
        "Bought against made",
        "Setting-up record",
        "Shopping list",
        "Quote",
    ):
        assert f"**{heading}" in whole


def test_tw31_steps_fit_every_part_and_joint() -> None:
    """Each part and each joint goes on in exactly one step; groups are no parts."""
    build = build_of("TW-31")
    assert [step.number for step in build.steps] == list(range(1, 12))
    fitted = [mark for step in build.steps for mark in step.fits]
    assert sorted(fitted) == sorted(
        {one.mark for one in build.components if not one.mark.startswith("G")}
        | {j.mark for j in build.joints}
    )


def test_the_posts_are_fitted_before_the_plate_closes_them_off() -> None:
    steps = build_of("TW-31").steps
    fits = next(step.number for step in steps if "F10" in step.fits)
    closes = next(step for step in steps if "F10" in step.closes)
    assert fits < closes.number
    assert "F09" in closes.fits


def test_the_psaltery_has_all_its_strings() -> None:
    """22 strings, six gauges, and a total that is the sum of the lines."""
    text = build_of("TW-33").entries[1].text
    rows = [
        line.strip("| ").split(" | ")
        for line in text.splitlines()
        if line.startswith("| ") and line[2].isdigit()
    ]
    assert [row[0] for row in rows] == [str(i) for i in range(1, 23)]
    assert {row[4] for row in rows} == {"0.25", "0.275", "0.3", "0.325", "0.35", "0.4"}
    total = sum(float(row[5]) for row in rows)
    assert f"All 22 together pull {total:.0f} N" in text


@pytest.mark.parametrize(
    ("string", "note", "hertz", "length", "wire", "tension"),
    [("1", "G3", 196.0, 560, 0.40, 47.5), ("5", "D4", 293.7, 416, 0.35, 45.1), ("8", "G4", 392.0, 333, 0.35, 51.6),
     ("13", "E5", 659.3, 230, 0.30, 51.0), ("18", "C6", 1046.5, 159, 0.275, 51.5), ("22", "G6", 1568.0, 118, 0.25, 52.8)],
)  # fmt: skip
def test_strings_whose_tension_was_set_out_beforehand(
    string: str, note: str, hertz: float, length: float, wire: float, tension: float
) -> None:
    """0.1 N: the frequencies were rounded before the tensions were worked out (string 8: 51.5 from 391.995 Hz)."""
    text = build_of("TW-33").entries[1].text
    row = next(
        line.strip("| ").split(" | ") for line in text.splitlines() if line.startswith(f"| {string} |")
    )
    assert (row[1], float(row[2]), float(row[3]), float(row[4])) == (note, hertz, length, wire)
    assert float(row[5]) == pytest.approx(tension, abs=0.11)
