"""Near threads: which pairs a build brings to one bench, and that findings and schedule name the same."""

from __future__ import annotations

from calculators.joints.model import Layer
from calculators.planning.inspection import inspect_build
from calculators.planning.near_threads import near_threads
from calculators.planning.schedules import fastener_schedule
from tests.demonstration.test_demonstration_files import build_of
from tests.planning.worked_by_hand import worked_joint


def test_nuts_inserts_and_tapped_parts_bring_their_threads_too() -> None:
    """M5 x 0.8 (5.00 mm) and 10-32 (4.826 mm, 0.794 mm pitch) are near: the trade's best known mix-up."""
    tapped = Layer("P40", "steel", 8.0, takes="thread", thread="10-32 UNF")
    for other in (
        worked_joint("F02", "M8 x 30 hex steel", 1, items=("10-32 UNF nut",)),
        worked_joint("F02", "M8 x 30 hex steel", 1, items=("10-32 UNF insert",)),
        worked_joint("F02", "M8 x 30 hex steel", 1, layers=(tapped,)),
        worked_joint("F02", "10-32 UNF x 1/2 pan steel", 1),
    ):
        (pair,) = near_threads([worked_joint("F01", "M5 x 12 pan steel", 4), other])
        assert (pair.first.designation, pair.second.designation) == ("M5", "10-32 UNF")
        assert (pair.first_joints, pair.second_joints) == (("F01",), ("F02",))


def test_threads_that_differ_are_no_pair() -> None:
    joints = [worked_joint("F01", "M5 x 12 pan steel", 4), worked_joint("F02", "M6 x 12 pan steel", 4)]
    assert near_threads([*joints, worked_joint("F03", "No. 8 x 1 1/4 csk brass", 2)]) == ()


def test_the_findings_and_the_fastener_schedule_name_the_same_pairs() -> None:
    worked = inspect_build(build_of("TW-31"))
    found = {finding.part for finding in worked.findings if finding.rule == "near-match-threads"}
    listed = {f"{pair.first} and {pair.second}" for pair in fastener_schedule(worked.build, worked).near}
    assert found == listed == {"2 BA and 10-32 UNF", "2 BA and M5", "M5 and 10-32 UNF"}
