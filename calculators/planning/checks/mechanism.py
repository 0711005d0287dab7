"""Rules for mechanisms: springs, pivots, shafts, beams and strings of kept calculations."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
