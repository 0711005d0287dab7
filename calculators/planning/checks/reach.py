"""Rules for tools: whether a driver or spanner gets to each head and nut."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
