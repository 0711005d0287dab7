"""Rules for material: stock that is long, wide and thick enough, measured, and enough of it."""

from __future__ import annotations

from calculators.planning.checks import hardware_in_hand, sheets, stock_fit, stock_total
from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = (
    *stock_fit.RULES,
    *stock_total.RULES,
    *sheets.RULES,
    *hardware_in_hand.RULES,
)
