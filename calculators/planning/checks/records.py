"""Rules for records: readings, guesses, what is not in hand, releases, the printer."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
