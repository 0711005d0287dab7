"""Every rule is listed once, with its limits; all 66 things of the trade have a rule or a reason."""

from __future__ import annotations

import pytest

from calculators.joints.limits import LIMITS as JOINT_LIMITS
from calculators.joints.rules import RULES as JOINT_RULES
from calculators.planning.checks import RULES
from calculators.planning.checks.limits import LIMITS
from calculators.planning.checks.listing import LIMITS_OF, OUTSIDE, RuleInfo, every_rule
from calculators.planning.checks.rule import SUBJECTS
from calculators.planning.checks.trade_list import TRADE_LIST, Looked
from calculators.planning.inspection import inspect_build
from tests.demonstration.test_demonstration_files import NUMBERS, build_of
from tests.planning.checks.test_planted import NAMES, findings

LISTED = {rule.name: rule for rule in every_rule()}


def test_each_rule_is_listed_once() -> None:
    names = [rule.name for rule in every_rule()]
    assert len(names) == len(set(names))
    assert set(names) == {
        *(rule.name for rule in JOINT_RULES),
        *(rule.name for rule in RULES),
        *(rule.name for rule in OUTSIDE),
    }


@pytest.mark.parametrize("rule", every_rule(), ids=lambda rule: rule.name)
def test_what_is_said_of_a_rule(rule: RuleInfo) -> None:
    assert rule.subject in SUBJECTS
    assert rule.says[0].isupper()
    assert rule.says.endswith(".")
    assert len(rule.source) > 5
    assert len(rule.limits) == len({limit.name for limit in rule.limits})


def test_every_limit_that_can_be_set_belongs_to_a_rule() -> None:
    taken = {limit.name for rule in every_rule() for limit in rule.limits}
    assert taken == {limit.name for limit in LIMITS}


def test_the_limits_of_joints_are_those_of_rules_of_joints() -> None:
    assert LIMITS_OF.keys() <= {rule.name for rule in JOINT_RULES}
    named = [name for names in LIMITS_OF.values() for name in names]
    assert sorted(named) == sorted(limit.name for limit in JOINT_LIMITS)


@pytest.mark.parametrize("rule", JOINT_RULES, ids=lambda rule: rule.name)
def test_a_rule_of_joints_reads_no_limit_of_another(rule: object) -> None:
    """The limits that stand in a rule's own function are among those that are listed for it."""
    known = {limit.name for limit in JOINT_LIMITS}
    code = rule.look.__code__  # type: ignore[attr-defined]
    stated = {each for each in code.co_consts if isinstance(each, str) and each in known and each != "thin"}
    assert stated <= set(LIMITS_OF.get(rule.name, ())) | {rule.name}  # type: ignore[attr-defined]


def test_every_finding_is_of_a_listed_rule() -> None:
    found = {one.rule for number in NUMBERS for one in inspect_build(build_of(number)).findings}
    found |= {one.rule for name in NAMES for kind in ("build", "mended") for one in findings(name, kind)}
    assert found <= LISTED.keys()


def test_all_sixty_six_are_there() -> None:
    assert [one.number for one in TRADE_LIST] == list(range(1, 67))


@pytest.mark.parametrize("one", TRADE_LIST, ids=lambda one: str(one.number))
def test_each_has_rules_that_exist_or_the_reason_why_not(one: Looked) -> None:
    assert set(one.rules) <= LISTED.keys()
    assert bool(one.rules) != bool(one.why_none)
    assert not any(LISTED[name].waits_for for name in one.rules)
    assert len(one.says) > 10


def test_only_one_needs_no_rule() -> None:
    assert [one.number for one in TRADE_LIST if not one.rules] == [50]
