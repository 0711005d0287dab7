"""Rules for metal parts: holes to edges and bends, folds, flat lengths."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
