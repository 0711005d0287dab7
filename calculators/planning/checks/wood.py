"""Rules for wood: grain, glue across it, moisture, shafts that span it."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
