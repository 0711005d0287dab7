"""What the check says of the kept calculations of a build."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.calculation.result import Result, Value, number_text, spread_text
from calculators.joints.model import Finding, Mend, Severity
from calculators.planning.calculations import (
    MOST_WORKED,
    HeldLimit,
    WorkedCalculation,
    number_of,
)
from calculators.planning.model import Build
from calculators.planning.tied_inputs import TiedInput
from calculators.planning.ties import TAKE
from calculators.quantities.nomenclature import NOMENCLATURE

LOOK, BEYOND, NOT_WORKED = "calculation-to-look-at", "calculation-beyond-limit", "calculation-not-worked"
_SOURCE = "this build: a calculation that is kept with it"
_FEW = 4


def calculation_findings(build: Build, worked: tuple[WorkedCalculation, ...]) -> Iterator[Finding]:
    """Check the kept calculations of a build.

    Args:
        build: the build.
        worked: its calculations worked.

    Yields:
        A finding for each limit that is passed, each calculation that hangs on a size that has changed, and
        each that cannot be worked or held against its limits.

    Source: this project; a limit is the person's own.
    """
    for one in worked:
        if one.changed:
            yield _to_look_at(one)
        if one.now is None:
            yield _not_worked(one)
        for held in one.limits:
            found = _limit(one, held)
            if found is not None:
                yield found
    for kept in build.calculations[len(worked) :]:
        says = (
            f"{kept.mark} {kept.title}: the build has more kept calculations than the {MOST_WORKED} that are "
            "worked, so it was not."
        )
        yield Finding(NOT_WORKED, "unchecked", says, _SOURCE, part=kept.mark)


def _at(one: WorkedCalculation, field: str = "") -> str:
    """The path of a kept calculation, or of a field of it, in the build file."""
    return f"calculations[{one.calculation.mark}]{field}"


def _named(one: WorkedCalculation) -> str:
    return f"{one.calculation.mark} {one.calculation.title}".strip()


def _to_look_at(one: WorkedCalculation) -> Finding:
    changed = one.changed
    told = "; ".join(_change(each) for each in changed[:_FEW])
    more = f" (and {len(changed) - _FEW} more)" if len(changed) > _FEW else ""
    only = changed[0] if len(changed) == 1 else None
    return Finding(
        LOOK,
        "warning",
        f"{_named(one)}: {told}{more}. {_results(one)}Look at it again.",
        _SOURCE,
        part=one.calculation.mark,
        value=round(only.now_mm, 4) if only is not None and only.now_mm is not None else None,
        unit="mm" if only is not None and only.now_mm is not None else "",
        mends=(Mend(_take(changed), TAKE, one.calculation.mark),),
        at=_at(one, f".inputs[{changed[0].input}]" if changed else ""),
    )


def _change(tied: TiedInput) -> str:
    if not tied.now:
        return f"{tied.tie} is not given any more; it was {tied.then or 'left out'} ({_words(tied.input)})"
    return f"{tied.tie} was {tied.then or 'left out'} and is {tied.now} ({_words(tied.input)})"


def _words(path: str) -> str:
    return path.replace("_", " ")


def _take(changed: tuple[TiedInput, ...]) -> str:
    new = [f"{_words(each.input)} {each.now}" for each in changed if each.now]
    gone = [f"{_words(each.input)} stays {each.then}, tied to nothing" for each in changed if not each.now]
    said = ", ".join((*new[:_FEW], *gone[:_FEW]))
    which = "the new sizes" if len(new) > 1 else "the new size"
    return f"Looked at: take {which}: {said}." if new else f"Looked at: {said}."


def _results(one: WorkedCalculation) -> str:
    """What the results were and are, the first few that differ and all that have a limit."""
    if one.then is None or one.now is None:
        return ""
    limited = {held.limit.result for held in one.limits}
    told = [
        f"{_label(name)} was {was} and is {now}"
        for name, was, now in result_changes(one.then, one.now, limited)
    ]
    if not told:
        return "Its results do not change. "
    return f"Its {'; '.join(told)}. "


def result_changes(
    then: Result, now: Result, first: set[str], most: int = _FEW
) -> list[tuple[str, str, str]]:
    """Tell which numbers of a result differ.

    Args:
        then: the result as it was.
        now: the result as it is.
        first: names of those that are told before the others.
        most: [1] how many are told at most, besides those.

    Returns:
        Name, what it was and what it is, each with its unit.

    Source: this project.

    Example:
        >>> then, now = (Result({"mass": Value(each, "kg")}) for each in (2.0, 2.5))
        >>> result_changes(then, now, set())
        [('mass', '2 kg', '2.5 kg')]
    """
    found: list[tuple[str, str, str]] = []
    for name in sorted(now.results, key=lambda each: each not in first):
        was, value = then.results.get(name), now.results[name]
        if was is None or number_of(value) is None:
            continue
        before, after = number_words(was), number_words(value)
        if before != after and (name in first or len(found) < most):
            found.append((name, before, after))
    return found


def number_words(one: Value) -> str:
    """Write the number of a result with its unit, to four figures.

    Args:
        one: the result.

    Returns:
        The text; `nothing` where it is no number.

    Source: this project.

    Example:
        >>> number_words(Value(649.4813, "MPa")), number_words(Value(None))
        ('649.5 MPa', 'nothing')
    """
    value = number_of(one)
    if value is None:
        return "nothing"
    text = spread_text(value, one.spread) if one.spread else number_text(value, 4)
    return f"{text} {'' if one.unit == '1' else one.unit}".rstrip()


def _label(name: str) -> str:
    meaning = NOMENCLATURE.get(name)
    return meaning.label if meaning is not None else _words(name)


def _not_worked(one: WorkedCalculation) -> Finding:
    says = " ".join(dict.fromkeys(fault.says for fault in one.faults[:_FEW]))
    when = " with the sizes of today" if one.changed and one.then is not None else ""
    return Finding(
        NOT_WORKED,
        "unchecked",
        f"{_named(one)} cannot be worked{when}: {says}",
        _SOURCE,
        part=one.calculation.mark,
        at=_at(one),
    )


def _limit(one: WorkedCalculation, held: HeldLimit) -> Finding | None:
    mark, name = one.calculation.mark, held.limit.result
    place = _words(name)
    if held.says:
        return Finding(
            NOT_WORKED,
            "unchecked",
            f"{_named(one)}: {held.says}",
            _SOURCE,
            part=mark,
            place=place,
            at=_at(one, ".limits"),
        )
    if (held.held and not held.may_pass) or held.value is None or held.bound is None:
        return None
    unit = "" if held.unit == "1" else f" {held.unit}"
    side = "above" if held.limit.bound == "at most" else "below"
    bound = f"{number_text(held.bound, 6)}{unit}"
    value = f"{spread_text(held.value, held.spread, 4)}{unit}"
    severity: Severity = "error"
    if held.held:
        severity = "warning"
        says = f"{_label(name)} is {value}, which with its spread may lie {side} the limit of {bound}."
    else:
        apart = f"{number_text(abs(held.value - held.bound), 3)}{unit}"
        says = f"{_label(name)} is {value}, {side} the limit of {bound} by {apart}."
    rules = one.now.sources[:3] if one.now is not None else ()
    source = f"{one.calculation.calculator}: {'; '.join(rules)}"
    return Finding(
        BEYOND,
        severity,
        f"{_named(one)}: {says}",
        f"limit set in this build ({held.limit.bound} {held.limit.value}); {source}",
        part=mark,
        place=place,
        value=float(f"{held.value:.10g}"),
        limit=float(f"{held.bound:.10g}"),
        unit=held.unit,
        at=_at(one, ".limits"),
    )
