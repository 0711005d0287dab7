"""Rules for what gives and what may snap: beams, shelves and frames that bend, strings near breaking."""

from __future__ import annotations

import math
from collections.abc import Iterator

from calculators.calculation.result import number_text
from calculators.joints.limits import Limit
from calculators.joints.model import Mend
from calculators.planning.checks.kept_results import Kept, kept_results
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting
from calculators.planning.checks.site import Site

_WOOD = "USDA Wood Handbook ch. 5, creep about doubles (from memory); span/300: common practice"

_BENT = (
    ("beam", "deflection_long_term", "deflection_limit", ("deflection", "deflection_long_term"), "depth"),
    ("shelf-sag", "deflection_long_term", "deflection_limit", ("deflection", "deflection_long_term"),
     "thickness"),
    ("string-frame", "bow_long_term", "bow_limit", ("bow", "bow_long_term"), "depth"),
)  # fmt: skip
"""Calculator, what it bends in the end, its limit there, results that a person may limit, what helps."""

_CALCULATORS_SPAN = 300.0
"""The share of the span that the calculators hold a bend against where they are told none."""


def _n(value: float) -> str:
    return number_text(value, 3)


@build_rule(
    "sag",
    "mechanism",
    "A shelf, beam or frame bends in the long run by no more than its span over 300.",
    _WOOD,
    Limit("sag-span", 300.0, "1", CP, "a long-term bend is at most the span over this"),
    Limit("sag-span-most", 150.0, "1", CP, "a long-term bend is at the very most the span over this"),
)
def _sag(site: Site) -> Iterator[Seen]:
    for calculator, bend, limit, own, helps in _BENT:
        for kept in kept_results(site, calculator):
            value, at_limit = kept.number(bend), kept.number(limit)
            if value is None or not at_limit or at_limit <= 0.0 or kept.limited(*own):
                continue
            # The calculator's own limit is a share of the span (or overhang) that it bends over.
            span = at_limit * (kept.given("limit", "1") or _CALCULATORS_SPAN)
            share = kept.given("limit", "1") or site.limits["sag-span"]
            most = min(share, site.limits["sag-span-most"])
            yield from _sagging(kept, value, span, share, most, helps)


def _sagging(kept: Kept, bend: float, span: float, share: float, most: float, helps: str) -> Iterator[Seen]:
    if bend <= span / share * (1.0 + 1e-9):
        return
    over = bend > span / most * (1.0 + 1e-9)
    allowed = span / (most if over else share)
    says = (
        f"{kept.named}: it bends {_n(bend)} mm in the long run, over {_n(allowed)} mm (span/"
        f"{_n(most if over else share)}){': it is seen, and doors and drawers bind' if over else ''}."
    )
    needed = kept.number(f"{helps}_needed")
    if needed:
        says += f" A {helps} of {_n(needed)} mm would do."
    else:
        says += " Make it deeper or its span shorter."
    yield Seen(
        "error" if over else "warning", says, part=kept.mark, place="in the long run", value=bend,
        limit=allowed, unit="mm", at=kept.at(helps), mends=_thicker(kept, helps, needed),
    )  # fmt: skip


def _thicker(kept: Kept, field: str, needed: float | None) -> tuple[Mend, ...]:
    """Set the calculation's own size to what is needed, rounded up to whole millimetres."""
    if not needed or field not in kept.inputs or kept.tied(field):
        return ()
    written = f"{math.ceil(needed - 1e-6):g} mm"
    return (setting(f"Make its {field} {written}.", (f"calculations[{kept.mark}].inputs[{field}]", written)),)


@build_rule(
    "wire-stress",
    "mechanism",
    "A string or wire at its pitch bears at most 70 % of its tensile strength.",
    CP,
    Limit("wire-stress-usual", 70.0, "%", CP, "stress of a string or wire, of its tensile strength"),
    Limit("wire-stress-most", 80.0, "%", CP, "stress of a string or wire at the very most"),
)
def _wire_stress(site: Site) -> Iterator[Seen]:
    own_results = ("breaking_share", "stress", "tension", "total_tension", "frequency", "highest_frequency")
    for kept in kept_results(site, "string-tension"):
        share = kept.number("breaking_share")
        if share is None or kept.limited(*own_results):
            continue
        usual = kept.given("stress_limit", "%") or site.limits["wire-stress-usual"]
        most = max(usual, site.limits["wire-stress-most"])
        if share <= usual + 1e-9:
            continue
        over = share > most + 1e-9
        limit = most if over else usual
        says = (
            f"{kept.named}: the string bears {_n(share)} % of its tensile strength, the limit is "
            f"{_n(limit)} %: {'it breaks while it is tuned' if over else 'it may break when it is tuned'}."
        )
        longest = kept.number("longest_string")
        says += " Tune it lower or make it shorter"
        says += f": {_n(longest)} mm at most at this pitch." if longest else "."
        yield Seen(
            "error" if over else "warning", says, part=kept.mark, place="breaking share", value=share,
            limit=limit, unit="%", at=kept.at("length"), mends=_shorter(kept, longest, usual),
        )  # fmt: skip


def _shorter(kept: Kept, longest: float | None, usual: float) -> tuple[Mend, ...]:
    """Shorten the string to what its pitch allows; a string whose tension is given has no such length."""
    at_pitch = "note" in kept.inputs or "frequency" in kept.inputs
    if not longest or not at_pitch or "tension" in kept.inputs or kept.tied("length"):
        return ()
    told = kept.given("stress_limit", "%") or 70.0  # what the calculator takes the longest string for
    length = longest * math.sqrt(usual / told)
    written = f"{math.floor(length):g} mm"
    return (
        setting(f"A sounding length of {written}.", (f"calculations[{kept.mark}].inputs[length]", written)),
    )


RULES: tuple[BuildRule, ...] = (_sag, _wire_stress)
