"""One decision about a rule as a form sends it: a limit set or reset, a rule switched off or on."""

from __future__ import annotations

from collections.abc import Callable, Mapping

from buildlog.builds.rule_rows import rule_named, rule_names
from calculators.planning.edits import limit_named, reset_limit, set_limit, switch_off, switch_on
from calculators.planning.model import Context
from calculators.quantities.errors import InputError

Decide = Callable[[Context], Context]


def decided(sent: Mapping[str, str], context: Context) -> tuple[Decide, str]:
    """The change of the context that was sent, and its sentence. Raises InputError where it cannot be."""
    do, name = sent.get("do", ""), sent.get("name", "")[:200]
    if do == "set":
        limit = limit_named(name)
        text = sent.get("value", "")[:100]
        after = set_limit(context, name, text)
        value = dict(after.limits).get(name)
        now = f"{value:f}" if value is not None else f"{limit.value:g}, the rule's own"
        unit = "" if limit.unit == "1" or value is None else f" {limit.unit}"
        return lambda held: set_limit(held, name, text), f"Limit {name} is now {now}{unit}"
    if do == "reset":
        return lambda held: reset_limit(held, name), f"Limit {name} is the rule's own again"
    if do == "off":
        if name not in rule_names():
            raise InputError.of(f"There is no rule called “{name[:80]}”.")
        if not rule_named(name).can_be_off:
            raise InputError.of(f"{name} tells of the check itself; it is not switched off.")
        reason = sent.get("reason", "").replace("\r\n", "\n")
        switch_off(context, name, reason)
        says = f"Rule {name} is switched off: {' '.join(reason.split())[:160]}"
        return lambda held: switch_off(held, name, reason), says
    if do == "on":
        return lambda held: switch_on(held, name), f"Rule {name} is applied again"
    raise InputError.of("A limit is set or reset, a rule is switched off or on: press one of the buttons.")
