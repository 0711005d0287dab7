"""Rules for tools owned: a drill, tap and cutter for each hole."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
