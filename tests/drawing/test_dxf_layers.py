"""Names of layers: only signs that the format allows, and read again as what they say."""

from __future__ import annotations

import random
import re

import pytest

from calculators.drawing.dxf_layers import escaped, hole_layers, layer_says, plainly, pocket_layer
from calculators.drawing.face_shape import HoleShape, PocketShape
from calculators.hardware.thread_names import find_thread
from calculators.hardware.thread_sizes import all_threads
from tests.drawing.random_faces import random_hole

FORBIDDEN = set('<>/\\":;?*|=`,')
"""Signs that no layer's name may have (read in ezdxf 1.4.5, `ezdxf/lldxf/const.py`; the stroke and the comma besides)."""


@pytest.mark.parametrize(
    ("hole", "names"),
    [
        (HoleShape(1, 0, 0, 4.5, "clearance"), ["CLEARANCE_THROUGH"]),
        (HoleShape(1, 0, 0, 3.2, "pilot", 25.0), ["PILOT_25_DEEP"]),
        (HoleShape(1, 0, 0, 4.2, "tapping", 16.0, thread="M5", thread_depth_mm=12.0), ["TAPPED_M5_12_DEEP_DRILL_16_DEEP"]),
        (HoleShape(1, 0, 0, 4.2, "tapping", thread="M5"), ["TAPPED_M5_THROUGH"]),
        (HoleShape(1, 0, 0, 4.2, "tapping", 16.0, thread="M5"), ["TAPPED_M5_DRILL_16_DEEP"]),
        (HoleShape(1, 0, 0, 5.5, "tapping", thread="1/4-28 UNF"), ["TAPPED_1~4-28_UNF_THROUGH"]),
        (HoleShape(1, 0, 0, 4.5, "clearance", None, 8.4), ["CLEARANCE_THROUGH", "COUNTERSINK_90_D8.4"]),
        (HoleShape(1, 0, 0, 4.5, "plain", None, counterbore_diameter_mm=10, counterbore_depth_mm=3), ["PLAIN_THROUGH", "COUNTERBORE_D10_3_DEEP"]),
        (HoleShape(1, 0, 0, 5.0, "slot", 4.0, slot_length_mm=12, slot_along="u"), ["SLOT_4_DEEP"]),
        (HoleShape(1, 0, 0, 5.0, "clearance", None, slot_length_mm=12, slot_along="u"), ["CLEARANCE_SLOT_THROUGH"]),
        (HoleShape(1, 0, 0, 5.0, "reamed", 8.0, below_mm=6.25), ["REAMED_8_DEEP_FROM_6.25_BELOW"]),
        (HoleShape(1, 0, 0, 5.0, "plain", mirrored=True), ["PLAIN_THROUGH_OTHER_HAND"]),
        (HoleShape(1, 0, 0, 5.0, "plain", copies=("P02.1", "P02.3")), ["PLAIN_THROUGH_ONLY_IN_P02.1_P02.3"]),
    ],
)  # fmt: skip
def test_a_layer_says_what_its_holes_are(hole: HoleShape, names: list[str]) -> None:
    assert [name for name, _ in hole_layers(hole)] == names


def test_pockets_say_their_depth() -> None:
    assert pocket_layer(PocketShape("k1", 0, 0, 5, 5, 0, 6.35)) == "POCKET_6.35_DEEP"
    assert pocket_layer(PocketShape("k1", 0, 0, 5, 5)) == "POCKET_THROUGH"


@pytest.mark.parametrize("depth", [None, 7.1234567])
@pytest.mark.parametrize("full", [None, 5.5])
def test_every_thread_of_the_tables_is_read_again_from_its_layer(
    depth: float | None, full: float | None
) -> None:
    for thread in all_threads():
        hole = HoleShape(
            1,
            0,
            0,
            3.0,
            "tapping",
            depth,
            thread=find_thread(thread.designation).designation,
            thread_depth_mm=full,
        )
        (name, _), *_ = hole_layers(hole)
        assert not FORBIDDEN & set(name)
        says = layer_says(name)
        assert says is not None, name
        assert (says.kind, says.thread, says.depth_mm, says.thread_depth_mm) == (
            "tapping", hole.thread, depth, full,
        ), name  # fmt: skip


def test_names_of_random_holes_are_legal_and_read_again() -> None:
    chance = random.Random(6)
    for number in range(2_000):
        hole = random_hole(chance, number, 0.0, 0.0)
        names = [name for name, _ in hole_layers(hole)]
        assert all(re.fullmatch(r"[A-Za-z0-9.+~$_-]{1,255}", name) for name in names)
        first, *others = map(layer_says, names)
        assert first is not None
        assert first.what == "hole"
        assert (first.kind, first.depth_mm, first.thread) == (hole.kind, hole.depth_mm, hole.thread)
        for says in others:
            assert says is not None
            if says.what == "countersink":
                assert (says.angle_deg, says.diameter_mm) == (
                    hole.countersink_angle_deg,
                    hole.countersink_diameter_mm,
                )
            else:
                assert (says.what, says.diameter_mm, says.depth_mm) == (
                    "counterbore", hole.counterbore_diameter_mm, hole.counterbore_depth_mm,
                )  # fmt: skip


@pytest.mark.parametrize("name", ["0", "Edge", "HOLES", "POCKET", "TAPPED_", "COUNTERSINK_90", "outline", ""])
def test_names_of_others_say_nothing(name: str) -> None:
    assert layer_says(name) is None


@pytest.mark.parametrize("text", ['3/8" x 16 <b>', "_~$", "M5;x=1", "Größe ½", "a$41.b"])
def test_any_words_can_be_written_into_a_name_and_read_again(text: str) -> None:
    assert plainly(escaped(text)) == text
    assert not FORBIDDEN & set(escaped(text))


def test_many_copies_are_counted_in_the_name() -> None:
    copies = tuple(f"P02.{at}" for at in range(1, 60))
    ((name, _),) = hole_layers(HoleShape(1, 0, 0, 5.0, "plain", copies=copies))
    assert name == "PLAIN_THROUGH_ONLY_IN_59_COPIES"
    says = layer_says(name)
    assert says is not None
    assert not says.for_all
