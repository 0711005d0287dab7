"""Rules for one part: its holes, countersinks and pockets against each other and against its faces."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
