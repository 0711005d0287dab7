"""Rules for material: stock that is long, wide and thick enough, measured, and enough of it."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
