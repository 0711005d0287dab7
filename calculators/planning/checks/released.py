"""Rules for releases: parts made before a change, and released parts that have changed since."""

from __future__ import annotations

from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = ()
