"""Letting a finding stand: with a reason, for the numbers of the day, given again, taken back."""

from __future__ import annotations

from dataclasses import replace
from datetime import date

import pytest

from calculators.planning.edits import accept, finding_key, renew, withdraw
from calculators.planning.edits.accepting import LONGEST_REASON
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Build
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from tests.planning.test_resolving import build, pillar_screw

KEY = "screw-bottoms:F03:P10"
DAY = date(2025, 6, 6)


def worked() -> WorkedBuild:
    return inspect_build(build(pillar_screw()))


def keys(one: WorkedBuild) -> set[str]:
    return {finding_key(finding) for finding in one.findings}


def longer(one: Build) -> Build:
    """The screw a quarter of an inch longer: 9.55 mm too long in place of 3.2."""
    joints = tuple(
        replace(each, fastener=each.fastener.replace("x 2 hex", "x 2 1/4 hex")) for each in one.joints
    )
    return replace(one, joints=joints)


def test_an_accepted_finding_stands_apart_with_its_reason_name_and_day() -> None:
    before = worked()
    after = inspect_build(accept(before, KEY, "  the hole was drilled deeper ", by="Ines", on=DAY))
    assert KEY in keys(before)
    assert keys(after) == keys(before) - {KEY}
    ((finding, given),) = after.accepted
    assert finding_key(finding) == KEY
    assert (given.id, given.reason, given.by, given.on) == ("x1", "the hole was drilled deeper", "Ines", DAY)
    assert given.says == finding.says


def test_it_lapses_with_the_numbers_and_can_be_given_again() -> None:
    accepted = accept(worked(), KEY, "the hole was drilled deeper", by="Ines", on=DAY)
    changed = inspect_build(longer(accepted))
    assert KEY in keys(changed)
    assert changed.accepted == ()
    (lapsed,) = [one for one in changed.findings if one.rule == "acceptance-lapsed"]
    assert lapsed.at == "acceptances[x1]"
    again = inspect_build(renew(changed, "x1", by="Tom", on=date(2025, 7, 1)))
    assert KEY not in keys(again)
    assert not any(one.rule == "acceptance-lapsed" for one in again.findings)
    ((_, given),) = again.accepted
    assert (given.id, given.reason, given.by) == ("x1", "the hole was drilled deeper", "Tom")


def test_accepting_anew_replaces_what_has_lapsed() -> None:
    changed = inspect_build(longer(accept(worked(), KEY, "first", by="Ines", on=DAY)))
    after = accept(changed, KEY, "second", by="Ines", on=DAY)
    assert [one.reason for one in after.acceptances] == ["second"]


def test_withdrawing_puts_the_finding_back() -> None:
    before = worked()
    after = inspect_build(withdraw(accept(before, KEY, "it fits"), "x1"))
    assert after.findings == before.findings
    assert after.build == before.build


@pytest.mark.parametrize(
    ("key", "reason", "says"),
    [
        (KEY, "", "Say why it may stand, in a few words: the next who reads this will want to know."),
        (KEY, " \n ", "Say why it may stand, in a few words: the next who reads this will want to know."),
        (KEY, "x" * 2_001, "A reason has at most 2,000 characters; this has 2,001."),
        ("lock:F99", "it fits", "The check finds nothing called 'lock:F99' now; it may be mended already."),
    ],
)
def test_what_cannot_be_let_stand_gets_a_sentence(key: str, reason: str, says: str) -> None:
    with pytest.raises(InputError) as error:
        accept(worked(), key, reason)
    assert error.value.faults[0].says == says
    assert LONGEST_REASON == 2_000


def test_what_the_check_says_of_itself_is_not_let_stand() -> None:
    changed = inspect_build(longer(accept(worked(), KEY, "first")))
    (lapsed,) = [one for one in changed.findings if one.rule == "acceptance-lapsed"]
    with pytest.raises(InputError, match="about the check itself"):
        accept(changed, finding_key(lapsed), "never mind")


def test_an_acceptance_that_is_not_there_cannot_be_given_again_or_withdrawn() -> None:
    with pytest.raises(InputError, match="Nothing called 'x7' is let stand"):
        withdraw(worked().build, "x7")
    with pytest.raises(InputError, match="Nothing called 'x7' is let stand"):
        renew(worked(), "x7")


def test_nothing_is_given_again_where_nothing_is_found() -> None:
    accepted = accept(worked(), KEY, "first")
    mended = replace(
        accepted,
        joints=tuple(
            replace(one, fastener=one.fastener.replace("x 2 hex", "x 1 3/4 hex")) for one in accepted.joints
        ),
    )
    with pytest.raises(InputError, match="finds nothing there now"):
        renew(inspect_build(mended), "x1")
