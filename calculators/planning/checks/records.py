"""Rules for records: sizes with their evidence, bought parts in hand, releases, the printer's check."""

from __future__ import annotations

from collections.abc import Iterator

from calculators.joints.limits import Limit
from calculators.joints.model import Mend
from calculators.planning.checks.readings import RULES as READING_RULES
from calculators.planning.checks.released import RULES as RELEASE_RULES
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import Site
from calculators.planning.checks.tools import is_to_make
from calculators.planning.model import Component, Context, Size
from calculators.planning.printers import readings_of
from calculators.planning.ties import mark_of_tie
from calculators.planning.tree import split_copy

_MANY = 8
"""So many guessed parts are told one by one; more of them in one finding."""

PRINTER_OFF = Limit(
    "printer-off", 0.3, "mm", CP, "how far the 100 mm check rule of a printed template may be off"
)
_STALE = Limit("printer-stale", 90.0, "days", CP, "a printer's check older than this is made again")


@build_rule(
    "guessed-size",
    "records",
    "A part's sizes rest on something before it is cut: a measurement, a drawing, a choice of one's own.",
    CP,
)
def _guessed_size(site: Site) -> Iterator[Seen]:
    """Parts whose sizes are a guess, or rest on nothing, and of which no reading was taken."""
    read = {mark_of_tie(one.of) for one in site.build.readings}
    guessed = [
        part.component
        for part in site.parts.values()
        if part.component.evidence in ("judged", "none") and _counts(part.component) and part.mark not in read
    ]
    if len(guessed) > _MANY:
        marks = ", ".join(one.mark for one in guessed[:_MANY])
        yield Seen(
            "warning",
            f"The sizes of {len(guessed)} parts are guessed or rest on nothing: {marks} and "
            f"{len(guessed) - _MANY} more. Measure them before they are cut, or say what they rest on.",
            value=float(len(guessed)), limit=0.0, unit="1", at=f"components[{guessed[0].mark}].evidence",
        )  # fmt: skip
        return
    for one in guessed:
        what = "are a guess" if one.evidence == "judged" else "rest on nothing that is written down"
        do = (
            "it is here, so measure it"
            if one.reused or one.state == "in hand"
            else "find what they rest on before it is bought"
            if one.stock == "bought"
            else "find what they rest on before it is cut"
        )
        yield Seen(
            "warning", f"The sizes of {one.mark} ({one.name}) {what}: {do}.", part=one.mark,
            at=f"components[{one.mark}].evidence",
        )  # fmt: skip


def _counts(one: Component) -> bool:
    """Whether it still matters what a part's sizes rest on: it has some, and is not made to them yet."""
    return one.size != Size() and (one.reused or one.state not in ("made", "fitted"))


@build_rule(
    "not-in-hand",
    "records",
    "While a thing is being made, what is bought for it is in hand, measured before others are cut to it.",
    CP,
)
def _not_in_hand(site: Site) -> Iterator[Seen]:
    """Bought parts that are not there yet; those that other parts are made to say so."""
    if site.build.state not in ("making", "setting up"):
        return
    waiting = [
        part
        for part in site.parts.values()
        if part.component.stock == "bought"
        and not part.component.reused
        and part.component.state in ("planned", "released", "bought")
    ]
    if not waiting:
        return
    hang = _made_to(site, {part.mark for part in waiting})
    for part in waiting:
        one = part.component
        where = "is on order and not in hand" if one.state == "bought" else "is not ordered yet"
        made = hang.get(one.mark, ())
        more = (
            f"; {_listed(made)} {'is' if len(made) == 1 else 'are'} made to it, so measure it before "
            f"{'that is' if len(made) == 1 else 'those are'} cut"
            if made
            else ""
        )
        at = f"components[{one.mark}].state"
        steps: tuple[Mend, ...] = (setting(f"{one.mark} has come: say that it is in hand.", (at, "in hand")),)
        yield Seen("warning", f"{one.mark} ({one.name}) {where}{more}.", part=one.mark, mends=steps, at=at)


def _listed(names: tuple[str, ...]) -> str:
    if len(names) > 5:
        return f"{', '.join(names[:4])} and {len(names) - 4} more"
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _made_to(site: Site, bought: set[str]) -> dict[str, tuple[str, ...]]:
    """The parts still to be made that lie on a bought part, or that it is let into."""
    found: dict[str, dict[str, None]] = {}
    for part in site.parts.values():
        for pose in part.component.poses:
            below = split_copy(pose.on)[0]
            if below in bought and is_to_make(part.component):
                found.setdefault(below, {})[part.mark] = None
            base = site.parts.get(below)
            if part.mark in bought and pose.let_in.ticks > 0 and base and is_to_make(base.component):
                found.setdefault(part.mark, {})[below] = None
    return {mark: tuple(names) for mark, names in found.items()}


@build_rule(
    "printer-checked",
    "records",
    "Before holes are marked out from a printed template, its 100 mm check rules are measured along and "
    "across the paper, on this printer, and are right within 0.3 mm.",
    CP,
    PRINTER_OFF,
    _STALE,
)
def _printer_checked(site: Site) -> Iterator[Seen]:
    """What the check rule measured, where a build being made has holes still to be marked out."""
    waiting = [part for part in site.parts.values() if part.holes and is_to_make(part.component)]
    if not waiting:
        return
    context = site.context
    along, across = context.printer_along_mm, context.printer_across_mm
    at_work = site.build.state in ("making", "setting up")
    if along is None and across is None and not at_work:
        return
    if at_work and (along is None or across is None):
        holes = sum(len(part.holes) for part in waiting)
        lacks = (
            "along and across" if along is None and across is None else "along" if along is None else "across"
        )
        yield unchecked(
            f"How true the printer is {lacks} the paper is not known, and {holes} "
            f"hole{'s' if holes > 1 else ''} in {len(waiting)} part{'s' if len(waiting) > 1 else ''} may be "
            "marked out from paper: print a template, measure its check rule and write it down first.",
            at="context.printer_along_mm" if along is None else "context.printer_across_mm",
        )
        if along is None and across is None:
            return
    who = f" of {context.printer}" if context.printer else ""
    for way, read, name in (("along", along, "printer_along_mm"), ("across", across, "printer_across_mm")):
        if read is None or abs(float(read) - 100.0) <= site.limits["printer-off"] + 1e-9:
            continue
        off = float(read) - 100.0
        says = (
            f"The check rule of 100 mm measures {float(read):g} {way} the paper{who}, {abs(off):.3g} mm too "
            f"{'long' if off > 0 else 'short'}: holes pricked through at 500 mm would be "
            f"{abs(off) * 5:.3g} mm off."
        )
        mend = Mend(_print_again(context))
        yield Seen(
            "error", says, place=way, value=float(read), limit=100.0, unit="mm", mends=(mend,),
            at=f"context.{name}",
        )  # fmt: skip
    if context.printer_on is not None and context.as_of is not None:
        days = (context.as_of - context.printer_on).days
        if days > site.limits["printer-stale"]:
            says = (
                f"The printer was last checked {days} days ago, on {context.printer_on.isoformat()}: print a "
                "check rule and measure it again."
            )
            yield Seen(
                "warning", says, place="day", value=float(days), limit=site.limits["printer-stale"],
                unit="days", at="context.printer_on",
            )  # fmt: skip


def _print_again(context: Context) -> str:
    """What to do about a print that is not true: corrected, where its readings can be corrected for."""
    if readings_of(context) is None:
        return "Print at 100 %, without fitting to the page, and measure the check rules again."
    return (
        "Print the template again at 100 %, corrected for these readings, and type in what its check rules "
        "measure then."
    )


RULES: tuple[BuildRule, ...] = (
    *READING_RULES,
    _guessed_size,
    _not_in_hand,
    *RELEASE_RULES,
    _printer_checked,
)
