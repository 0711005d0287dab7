"""Rules for the order of work: nothing buried, glue that stays open, finish that has cured."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
