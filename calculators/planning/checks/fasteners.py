"""Rules for joints among themselves and as bought: systems, coatings, positions, spacing."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
