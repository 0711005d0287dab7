"""Rules for parts and fasteners where they lie: what meets what in space."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
