"""Rules for fasteners in the build: patterns, coatings, systems, metals together, locks, grub screws."""

from __future__ import annotations

from calculators.planning.checks import hole_pattern, metals_together, pressed_and_locked, systems
from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = (
    *hole_pattern.RULES, *systems.RULES, *metals_together.RULES, *pressed_and_locked.RULES,
)  # fmt: skip
