"""Rules for parts let into pockets of others: corners, depth, room."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
