"""Rules for fasteners where they lie: what they meet that they were not meant to."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
