"""What a build or a workshop decides about the rules of the check: their limits, and which do not apply."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal, InvalidOperation
from difflib import get_close_matches

from calculators.joints.limits import Limit
from calculators.planning.checks.limits import LIMITS
from calculators.planning.model import Context
from calculators.quantities.errors import InputError
from calculators.quantities.marks import quoted

LONGEST_REASON = 2_000
_FAR = 100
"""A limit of its own is at most this many times the rule's."""

_BY_NAME: dict[str, Limit] = {limit.name: limit for limit in LIMITS}
_PAIRS = (("-least", ""), ("", "-most"), ("-least", "-most"), ("-low", "-high"))


def limit_named(name: str) -> Limit:
    """Find a limit of a rule by its name.

    Args:
        name: its name, in plain words joined by hyphens.

    Returns:
        The limit.

    Raises:
        InputError: when no rule has such a limit; it names the nearest.

    Source: this project.

    Example:
        >>> limit_named("edge-distance").unit
        'd'
    """
    found = _BY_NAME.get(name)
    if found is None:
        near = get_close_matches(name.strip().lower().replace(" ", "-")[:120], _BY_NAME, n=3, cutoff=0.5)
        meant = f"did you mean {' or '.join(near)}?" if near else "the rules' page lists them all."
        raise InputError.of(f"No rule has a limit called {quoted(name)}; {meant}", field="limit")
    return found


def set_limit(context: Context, name: str, text: str) -> Context:
    """Set a limit of a rule.

    Args:
        context: what the check depends on.
        name: the limit's name.
        text: the value as people write it, in the limit's own unit.

    Returns:
        The context with the value; with the rule's own value the limit is the rule's again.

    Raises:
        InputError: when there is no such limit, or the value is not one that it can have.

    Source: this project.

    Example:
        >>> set_limit(Context(), "edge-distance", "4").limits
        (('edge-distance', Decimal('4')),)
    """
    limit = limit_named(name)
    value = _read(limit, text)
    _check_pairs(context, limit, value)
    others = tuple(one for one in context.limits if one[0] != name)
    if float(value) == limit.value:
        return replace(context, limits=others)
    return replace(context, limits=(*others, (name, value)))


def reset_limit(context: Context, name: str) -> Context:
    """Give a limit its rule's own value again; also one whose name no rule has is left out.

    Args:
        context: what the check depends on.
        name: the limit's name.

    Returns:
        The context without a value for it.

    Source: this project.
    """
    return replace(context, limits=tuple(one for one in context.limits if one[0] != name))


def switch_off(context: Context, rule: str, reason: str) -> Context:
    """Leave a rule unapplied; the check then says so, and why.

    Args:
        context: what the check depends on.
        rule: the rule's name.
        reason: why it is not applied.

    Returns:
        The context with the rule switched off.

    Raises:
        InputError: without a reason, or with one that is too long.

    Source: this project.

    Example:
        >>> switch_off(Context(), "lock", "all is glued").rules_off
        (('lock', 'all is glued'),)
    """
    reason = reason.strip()
    if not reason:
        raise InputError.of("Say why this rule is not applied: the check repeats it.", field="reason")
    if len(reason) > LONGEST_REASON:
        raise InputError.of(
            f"A reason has at most {LONGEST_REASON:,} characters; this has {len(reason):,}.", field="reason"
        )
    others = tuple(one for one in context.rules_off if one[0] != rule)
    return replace(context, rules_off=(*others, (rule, reason)))


def switch_on(context: Context, rule: str) -> Context:
    """Apply a rule again.

    Args:
        context: what the check depends on.
        rule: the rule's name.

    Returns:
        The context with the rule applied.

    Source: this project.
    """
    return replace(context, rules_off=tuple(one for one in context.rules_off if one[0] != rule))


def _read(limit: Limit, text: str) -> Decimal:
    bare = text.strip().removesuffix(limit.unit).strip().removesuffix("%").strip().replace(",", ".")
    try:
        value = Decimal(bare)
    except InvalidOperation:
        value = Decimal("NaN")
    if not value.is_finite():
        unit = f" in {limit.unit}" if limit.unit not in ("", "1") else ""
        says = (
            f"{quoted(text)} is not a number; write one"
            if text.strip()
            else "Nothing is written; write a number"
        )
        raise InputError.of(f"{says}{unit}, such as {limit.value:g}.", field="value")
    most = max(limit.value * _FAR, 1.0) if limit.unit != "deg" else 180.0
    if not 0 <= value <= most:
        raise InputError.of(
            f"{limit.name} is {limit.value:g} {limit.unit} by the rule; write a number from 0 to {most:g}, "
            f"not {quoted(text)}.",
            field="value",
        )
    digits = f"{round(value, 12):f}"
    return Decimal(digits.rstrip("0").rstrip(".") if "." in digits else digits)


def _check_pairs(context: Context, limit: Limit, value: Decimal) -> None:
    """Refuse a least value above the one that it belongs to, and so on."""
    held = {name: float(one.value) for name, one in _BY_NAME.items()} | {
        name: float(one) for name, one in context.limits if name in _BY_NAME
    }
    held[limit.name] = float(value)
    for low_end, high_end in _PAIRS:
        for low in (name for name in _BY_NAME if name.endswith(low_end)):
            stem = low.removesuffix(low_end) if low_end else low
            high = f"{stem}{high_end}"
            if limit.name not in (low, high) or high not in _BY_NAME or high == low:
                continue
            if _BY_NAME[low].value <= _BY_NAME[high].value and held[low] > held[high]:
                raise InputError.of(
                    f"{low} would be {held[low]:g} and {high} {held[high]:g}: the first is at most the "
                    "second. Change the other one first.",
                    field="value",
                )
