"""Whatever is typed: a sentence or a record that a build file can hold, and nothing else."""

from __future__ import annotations

import time
from typing import get_args

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.planning import read_build, write_build
from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.consistency import check_build
from calculators.planning.lines import (
    Kind,
    add_lines,
    read_hole_line,
    read_joint_line,
    read_part_line,
    read_place_lines,
    read_pocket_line,
    read_pose_line,
    read_step_line,
)
from calculators.planning.model import Build
from calculators.quantities import InputError
from tests.planning.lines.cast_of_lines import BOX, INCHES

READERS = {
    "part": lambda text, build: read_part_line(text, build),
    "part changed": lambda text, build: read_part_line(text, build, build.components[1]),
    "joint": lambda text, build: read_joint_line(text, build),
    "joint changed": lambda text, build: read_joint_line(text, build, BOX.joints[0]),
    "hole": lambda text, build: read_hole_line(text, build, build.components[1].mark),
    "hole in a round": lambda text, build: read_hole_line(text, BOX, "P10"),
    "pocket": lambda text, build: read_pocket_line(text, build, build.components[1].mark),
    "pose": lambda text, build: read_pose_line(text, build),
    "step": lambda text, build: read_step_line(text, build),
    "places": lambda text, build: read_place_lines(text, build, build.components[1].mark, "top"),
    "places on a side": lambda text, build: read_place_lines(text, BOX, "P10", "side"),
}

WORDS = [
    "4",
    "12",
    "300",
    "x",
    "×",
    "by",
    "120",
    "1/2",
    "1",
    "1/4",
    "3/4",
    "½",
    "0",
    "-3",
    "1/0",
    "10e400",
    ",",
    ";",
    ":",
    "(",
    ")",
    "#",
    "“",
    "”",
    '"',
    "'",
    "oak",
    "brass",
    "ply",
    "steel",
    "silver",
    "sides",
    "P01",
    "P02.1",
    "P99",
    "G1",
    "F01",
    "F03",
    "hinge",
    "hinges",
    "lid",
    "rail,",
    "long",
    "catch",
    "plate",
    "pillar",
    "No.",
    "4",
    "No",
    "#8",
    "M5",
    "M5x20",
    "2",
    "BA",
    "5/16",
    "BSF",
    "1/4-20",
    "csk",
    "slotted",
    "screw",
    "bolt",
    "washer",
    "nut",
    "nuts",
    "insert",
    "OD",
    "8",
    "into",
    "through",
    "to",
    "in",
    "on",
    "under",
    "with",
    "and",
    "at",
    "from",
    "row",
    "of",
    "grid",
    "circle",
    "pcd",
    "pitch",
    "along",
    "u",
    "v",
    "deep",
    "dia",
    "bore",
    "wall",
    "SWG",
    "16",
    "gauge",
    "mm",
    "in",
    "inch",
    "ft",
    "cm",
    "thread",
    "tapped",
    "drilled",
    "clearance",
    "pilot",
    "edge",
    "end",
    "off",
    "qty",
    "x4",
    "bought",
    "in",
    "hand",
    "turned",
    "let",
    "in",
    "6",
    "own",
    "face",
    "top",
    "bottom",
    "side",
    "left",
    "other",
    "hand",
    "centre",
    "ground",
    "recess",
    "rebate",
    "slot",
    "corner",
    "radius",
    "cutter",
    "squared",
    "fits",
    "closes",
    "tools",
    "caution",
    "check",
    "note",
    "step",
    "torque",
    "6",
    "N",
    "m",
    "flush",
    "proud",
    "counterbored",
    "reached",
    "from",
    "below",
    "locked",
    "steel",
    "first",
    "20,30",
    "20;30",
    "37,37",
    "90",
    "deg",
    "45°",
    "rev",
    "B",
    "quarter-sawn",
    "re-used",
    "part",
    "of",
    "group",
    "home",
]
pieces = st.sampled_from(WORDS) | st.text(max_size=4) | st.integers(-10, 10**6).map(str)
texts = (
    st.lists(pieces, max_size=14).map(" ".join)
    | st.lists(pieces, max_size=10).map("".join)
    | st.text(max_size=60)
)
KNOWN_LINES = [
    "4 sides 300 x 120 x 12 oak",
    "pillar 3/4 dia x 6 1/2 brass turned",
    "G5 Base (sub-assembly)",
    "F03 5/16 BSF x 2 hex set screw, repair washer, P01 22, P11 6, into P10 (thread 18, drilled 22)",
    "catch to lid: M3 x 8 csk into brass",
    "M6 x 50 hex bolt through rail and side, washer, nut",
    "row of 5, dia 5, from 37,37 pitch 32 along u, 12 deep",
    "6 x 5.5 on 80 pcd at 60,60 (first at 0 deg)",
    "M4 tapped 10 deep at 20,30",
    "recess 90 x 90 x 6 deep at 515, 85, corner radius 3",
    "rebate 8 x 4 along front edge",
    "P11 on P01.2 top at 515, 85, turned 0, let in 6",
    "5 Pillar to flange: fits P10, F01; closes P11; tools 13 mm spanner; caution mind; check square",
]


@st.composite
def mutated(draw: st.DrawFn) -> str:
    """A good line with a few pieces cut out, doubled, replaced or put in."""
    text = draw(st.sampled_from(KNOWN_LINES))
    for _ in range(draw(st.integers(1, 4))):
        at, to = sorted((draw(st.integers(0, len(text))), draw(st.integers(0, len(text)))))
        text = (
            text[:at]
            + draw(pieces | st.just("") | st.just(text[at:to] * 2))
            + text[to if draw(st.booleans()) else at :]
        )
    return text


def refused(reader: str, text: str, build: Build) -> list[str]:
    """Read a line; the sentences with which it is refused, or none."""
    try:
        READERS[reader](text, build)
    except InputError as error:
        return [fault.says for fault in error.faults]
    return []


@settings(max_examples=3_000, deadline=None, suppress_health_check=list(HealthCheck))
@given(texts | mutated(), st.sampled_from(sorted(READERS)), st.sampled_from([BOX, INCHES]))
def test_any_text_is_read_or_refused_with_a_sentence(text: str, reader: str, build: Build) -> None:
    said = refused(reader, text, build)
    assert all(says.strip().endswith((".", "?")) and "\n" not in says for says in said)


@settings(max_examples=400, deadline=None, suppress_health_check=list(HealthCheck))
@given(
    st.lists(texts | mutated() | st.sampled_from(KNOWN_LINES), max_size=6),
    st.sampled_from(get_args(Kind)),
    st.sampled_from([BOX, INCHES]),
)
def test_the_build_stays_sound_and_is_kept_byte_for_byte(lines: list[str], kind: Kind, build: Build) -> None:
    read = add_lines(kind, "\n".join(lines), build, part=build.components[1].mark)
    collector = Collector(build.unit)
    check_build(read.build, collector)
    assert collector.faults == []
    data = write_build(read.build)
    again = read_build(data)
    assert again == read.build
    assert write_build(again) == data


HOSTILE = [
    "x" * 500_000,
    "9" * 70_000,
    "1/" * 20_000,
    " x ".join(["10"] * 300),
    "“" * 900,
    "(" * 900,
    "“a” " * 600,
    "(a) " * 600,
    "\x00\x07\x1b[31m",
    "\ud800",
    "\ufffe lid",
    "\U000f0000 lid 3 x 4 x 5",
    "lid\nbase",
    "lid\r\nbase",
    "1" + "0" * 400 + " sides",
    "side " + "1" + "0" * 400 + " x 2 x 3",
    "side 10^400 x 2 x 3",
    "side 1/0 x 2 x 3 oak",
    "side 1e400 x 2 x 3",
    "side nan x inf x 0x10",
    "side ٣٠٠ x ١٢٠ x ١٢",
    "side -300 x 120 x 12",
    "🪵🔩 300 x 120 x 12 oak",
    "جانب 300 x 120 x 12 oak",
    "‮edis 300 x 120 x 12",
    "O'Brien's \"best\" lid 300 x 120 x 12 oak",
    "<script>alert(1)</script> 300 x 120 x 12",
    "'; DROP TABLE components; --",
    "{{ 7*7 }} {% include %}",
    "%s%n%x ${jndi:x}",
    "=1+1 300 x 20 x 3",
    "and and and and into into into to to to through",
    "into",
    ",,,,;;;;::::",
    "at at at at 1,1 at 2,2",
    "row of row of 5 from from",
    "No. No. No. No. x x x x",
    "M5 M5 M5 M5 M5",
    "fits fits; closes; tools; check; caution",
    "5 5 5 5 5 5",
    "on on on on the the top of of P01",
    "thread thread 5 5 drilled drilled",
    "row of 999999 dia 1 from 0,0 pitch 1 along u",
    "999 x 999 grid of 1 from 0,0 pitch 1",
    "circle of 0 on 80 pcd at 1,1",
    "5 at " + "; ".join(["1,1"] * 3_000),
    "a" * 990 + " 300 x 120 x 12",
    " " * 60_000,
    "" * 3,
    "#",
    "# only a note",
    "; only a note",
    "-", ".", "x", "1", "''", '""', "“”", "()", "\t\t\u2028\u2029",
]  # fmt: skip


@pytest.mark.parametrize("reader", sorted(READERS))
def test_hostile_texts_are_read_or_refused_at_once(reader: str) -> None:
    for text in HOSTILE:
        began = time.monotonic()
        assert all(refused(reader, text, BOX))
        assert time.monotonic() - began < 2.0, text[:40]


@pytest.mark.parametrize("kind", get_args(Kind))
def test_hostile_texts_are_added_or_come_back(kind: Kind) -> None:
    for text in HOSTILE:
        read = add_lines(kind, text, BOX, part="P01")
        assert read_build(write_build(read.build)) == read.build
        assert all(one.says for one in read.unread)
