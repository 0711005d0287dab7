"""Limits of rules set for a build or a workshop, and rules that are switched off there."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.planning.checks.limits import limits_of
from calculators.planning.edits import limit_named, reset_limit, set_limit, switch_off, switch_on
from calculators.planning.inspection import inspect_build
from calculators.planning.model import Context
from calculators.quantities.errors import InputError
from tests.planning.test_resolving import build, pillar_screw


@pytest.mark.parametrize(
    ("text", "value"),
    [("4", "4"), ("2,5 d", "2.5"), (" 3.25 ", "3.25"), ("1.5", "1.5"), ("2.00", "2")],
)
def test_a_limit_is_set_as_people_write_it_and_holds(text: str, value: str) -> None:
    context = set_limit(Context(), "edge-distance", text)
    assert context.limits == (("edge-distance", Decimal(value)),)
    assert limits_of(context)["edge-distance"] == float(value)


def test_the_rules_own_value_and_a_reset_leave_nothing_behind() -> None:
    context = set_limit(Context(), "edge-distance", "4")
    assert set_limit(context, "edge-distance", "3").limits == ()  # 3 d is the rule's own
    assert reset_limit(context, "edge-distance") == Context()
    assert reset_limit(Context(limits=(("no-such", Decimal(1)),)), "no-such") == Context()


@pytest.mark.parametrize(
    ("name", "text", "says"),
    [
        ("edge-distance", "wide", "'wide' is not a number; write one in d, such as 3."),
        ("edge-distance", "", "Nothing is written; write a number in d, such as 3."),
        ("edge-distance", "nan", "'nan' is not a number; write one in d, such as 3."),
        ("edge-distance", "1e999", "edge-distance is 3 d by the rule; write a number from 0 to 300, not '1e999'."),
        ("edge-distance", "-1", "edge-distance is 3 d by the rule; write a number from 0 to 300, not '-1'."),
        ("edge-distance", "301", "edge-distance is 3 d by the rule; write a number from 0 to 300, not '301'."),
        ("countersink-angle", "181", "countersink-angle is 5 deg by the rule; write a number from 0 to 180, not '181'."),
        (
            "edge-distance-least",
            "5",
            "edge-distance-least would be 5 and edge-distance 3: the first is at most the second. Change the "
            "other one first.",
        ),
        (
            "thread-percent-most",
            "40",
            "thread-percent-least would be 45 and thread-percent-most 40: the first is at most the second. "
            "Change the other one first.",
        ),
        (
            "edge-distanse",
            "3",
            "No rule has a limit called 'edge-distanse'; did you mean edge-distance or end-distance or "
            "edge-distance-least?",
        ),
        ("qqqqqq", "3", "No rule has a limit called 'qqqqqq'; the rules' page lists them all."),
    ],
)  # fmt: skip
def test_what_a_limit_cannot_be_gets_a_sentence(name: str, text: str, says: str) -> None:
    with pytest.raises(InputError) as error:
        set_limit(Context(), name, text)
    assert error.value.faults[0].says == says


def test_every_limit_takes_its_own_value() -> None:
    from calculators.planning.checks.limits import LIMITS

    for limit in LIMITS:
        assert limit_named(limit.name) is limit
        assert set_limit(Context(), limit.name, f"{limit.value!r}").limits == (), limit.name


def test_a_rule_that_is_switched_off_is_told_with_its_reason_and_comes_back() -> None:
    one = build(pillar_screw())
    off = replace(one, context=switch_off(one.context, "screw-bottoms", " bored by hand "))
    rules = {finding.rule for finding in inspect_build(off).findings}
    assert "screw-bottoms" not in rules
    (told,) = [finding for finding in inspect_build(off).findings if finding.rule == "rule-switched-off"]
    assert told.says == "The rule screw-bottoms is switched off in this build: bored by hand."
    on = replace(off, context=switch_on(off.context, "screw-bottoms"))
    assert inspect_build(on).findings == inspect_build(one).findings


@pytest.mark.parametrize(
    ("reason", "says"),
    [
        ("", "Say why this rule is not applied: the check repeats it."),
        ("\n", "Say why this rule is not applied: the check repeats it."),
        ("x" * 2_001, "A reason has at most 2,000 characters; this has 2,001."),
    ],
)
def test_a_rule_is_not_switched_off_without_a_reason(reason: str, says: str) -> None:
    with pytest.raises(InputError) as error:
        switch_off(Context(), "lock", reason)
    assert error.value.faults[0].says == says
