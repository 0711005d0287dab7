"""Every rule of the whole build, in the order in which they are applied and listed."""

from calculators.planning.checks import (
    fasteners,
    housing,
    in_one_part,
    in_space,
    material,
    mechanism,
    metal,
    moving,
    order,
    quantities,
    reach,
    records,
    tools,
    wood,
)
from calculators.planning.checks.rule import BuildRule

RULES: tuple[BuildRule, ...] = (
    *in_one_part.RULES,
    *in_space.RULES,
    *housing.RULES,
    *reach.RULES,
    *moving.RULES,
    *fasteners.RULES,
    *wood.RULES,
    *metal.RULES,
    *mechanism.RULES,
    *material.RULES,
    *tools.RULES,
    *quantities.RULES,
    *order.RULES,
    *records.RULES,
)
