"""Every limit of every rule by its name, and what holds in a build."""

from __future__ import annotations

from collections.abc import Mapping
from functools import lru_cache
from types import MappingProxyType

from calculators.joints.limits import LIMITS as JOINT_LIMITS
from calculators.joints.limits import Limit
from calculators.planning.checks.rules import RULES
from calculators.planning.model import Context

LIMITS: tuple[Limit, ...] = (*JOINT_LIMITS, *(limit for rule in RULES for limit in rule.limits))
"""Each with its default value, unit and source; a workshop or a build may set others."""


def limits_of(context: Context) -> Mapping[str, float]:
    """Give the limits that hold in a build; names that no rule has are passed over.

    Args:
        context: the build's context.

    Returns:
        Every limit's value by name, in the units of `LIMITS`.

    Source: this project.

    Example:
        >>> limits_of(Context())["edge-distance"]
        3.0
    """
    return _limits(context.limits)


@lru_cache(maxsize=64)
def _limits(replaced: tuple[tuple[str, object], ...]) -> Mapping[str, float]:
    values = {limit.name: limit.value for limit in LIMITS}
    values.update({name: float(str(value)) for name, value in replaced if name in values})
    return MappingProxyType(values)
