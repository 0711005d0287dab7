"""What a line says of a whole joint: how the head sits, from where it is reached, the torque, its lock."""

from __future__ import annotations

import re
from decimal import Decimal
from fractions import Fraction
from typing import Any

from calculators.planning.lines.line import GAP, Line, refusal
from calculators.planning.lines.measures import MEASURE, length_of
from calculators.planning.model import Unit
from calculators.quantities.length import Length
from calculators.quantities.numbers import decimal_text
from calculators.quantities.units import read_quantity

_E = r"(?![^\W_])"
_S = r"(?<![^\W_])"
_TEXT = rf"[^,;:(){GAP}]+"
_ASIDE = "[\U000f0000-\U000f0fff]"
_TORQUE = re.compile(
    rf"{_S}(?:torqued?|tighten(?:ed)?|done up)(?: up)?(?: to| at)? ?[:=]? ?(?P<a>[0-9][0-9.,/ ]*? ?"
    rf"(?:n[ .]?m|nm|n mm|lbf? ?(?:ft|in)|(?:ft|in) ?lbf?|kgf? ?cm){_E}|[0-9]+(?:\.[0-9]+)?{_E}(?! ?[a-z]))"
    rf"|(?:at |to )?{_S}(?P<b>[0-9]+(?:[.,][0-9]+)? ?(?:n[ .]?m|nm|(?:ft|in) lbf|lbf (?:ft|in))){_E}"
    rf"(?: torque)?",
    re.IGNORECASE,
)
_REACHED = re.compile(
    rf"{_S}(?:reached|driven|fitted|entered|put in|screwed) from (?P<a>{_ASIDE}|{_TEXT})|{_S}from (?P<b>"
    rf"(?:the )?(?:below|above|inside|outside|behind|underneath|under|either side|both sides|underside|top"
    rf"|bottom|front|back|left|right|end|face)(?: side| face| end)?){_E}",
    re.IGNORECASE,
)
_LOCK = re.compile(
    rf"{_S}lock(?:ed)? (?:with|by) (?P<a>{_ASIDE}|{_TEXT})|{_S}lock ?[:=] ?(?P<b>{_ASIDE}|{_TEXT})|{_S}"
    rf"(?P<c>(?:(?:low|medium|high)(?:[ -]strength)? )?(?:thread ?lock(?:er|ing)?|locker|locking fluid)){_E}",
    re.IGNORECASE,
)
_TOOL = re.compile(
    rf"{_S}(?:tool ?[:=]? ?|(?:driven |done up )?with (?:an? )?(?=[^,;]*(?:spanner|screwdriver|driver|key"
    rf"|wrench)))(?P<a>{_ASIDE}|{_TEXT})",
    re.IGNORECASE,
)
_SUPPLIER = re.compile(
    rf"{_S}(?:supplier|bought from|supplied by) ?[:=]? ?(?P<a>{_ASIDE}|{_TEXT})", re.IGNORECASE
)
_CBORE = re.compile(
    rf"{_S}(?:head )?(?:counterbored?|counter bored?|c['/ ]?bored?|sunk in a counterbore)(?: "
    rf"(?P<a>{MEASURE})(?: dia(?:meter)?)?(?: ?(?:x|,|by)? ?(?P<b>{MEASURE}))?(?: deep)?)?{_E}",
    re.IGNORECASE,
)
_SUNK = re.compile(
    rf"(?:(?<=nut )|(?<=nuts ))(?:sunk|let in|recessed)(?: (?P<a>{MEASURE})(?: dia(?:meter)?)?(?: ?(?:x|by) ?"
    rf"(?P<b>{MEASURE}))?(?: deep)?)?(?: (?:in|into|on) the far (?:face|side))?{_E}"
    rf"|{_S}far (?:face|side) counterbored (?P<c>{MEASURE})(?: dia(?:meter)?)?(?: ?(?:x|by) ?"
    rf"(?P<d>{MEASURE}))?(?: deep)?{_E}",
    re.IGNORECASE,
)
_STANDS = re.compile(
    rf"{_S}(?:stands?|standing|sticks?)(?: out| up| proud)?(?: by)? (?P<a>-?{MEASURE})(?: out| proud)?{_E}",
    re.IGNORECASE,
)
_HEAD = re.compile(
    rf"{_S}head (?:dia(?:meter)? )?(?P<a>{MEASURE})(?: dia(?:meter)?)?(?: ?x ?(?P<b>{MEASURE})"
    rf"(?: high)?)?{_E}|{_S}head (?:height|high) (?P<c>{MEASURE})|{_S}head (?P<d>{MEASURE}) high{_E}",
    re.IGNORECASE,
)
_ANGLE = re.compile(rf"{_S}head (?P<a>[0-9]{{1,3}}(?:\.[0-9]+)?) ?(?:°|deg(?:rees?)?){_E}", re.IGNORECASE)
_FIXED = re.compile(rf"{_S}(?:fixed|held tight) at(?: place)? (?P<a>[^\W_][^\s,;:()]*)", re.IGNORECASE)
_SEATS = (
    (re.compile(rf"{_S}(?:head )?(?:set )?flush(?: head| with the surface)?{_E}", re.IGNORECASE), "flush"),
    (re.compile(rf"{_S}(?:head )?(?:stands? )?proud{_E}", re.IGNORECASE), "proud"),
    (re.compile(rf"{_S}(?:head )?on the surface{_E}", re.IGNORECASE), "surface"),
)
_FLAGS = (
    (
        re.compile(
            rf"{_S}(?:steel(?: screws?| ones?)? first|a steel (?:one|screw) first){_E}", re.IGNORECASE
        ),
        "steel_first",
        True,
    ),
    (
        re.compile(rf"{_S}(?:outdoors|out of doors|in the damp|in the wet|wet){_E}", re.IGNORECASE),
        "wet",
        True,
    ),
    (
        re.compile(rf"{_S}(?:loaded sideways|side(?:ways)? load(?:ed)?|in shear){_E}", re.IGNORECASE),
        "loaded_sideways",
        True,
    ),
    (re.compile(rf"{_S}(?:does not clamp|not clamping|no clamping){_E}", re.IGNORECASE), "clamps", False),
    (re.compile(rf"{_S}clamps{_E}", re.IGNORECASE), "clamps", True),
)


def take_joint_words(line: Line, unit: Unit) -> dict[str, Any]:
    """Take what is said of the whole joint out of a line.

    Args:
        line: the line.
        unit: [mm or in] what a bare number means.

    Returns:
        The fields of a joint by name; a counterbore's diameter and depth under `counterbore`, that of a nut
        in the far side under `sunk`.

    Raises:
        InputError: when one cannot be read.

    Source: common practice.
    """
    said: dict[str, Any] = {}
    for pattern, name in (
        (_REACHED, "reached_from"),
        (_LOCK, "lock"),
        (_TOOL, "tool"),
        (_SUPPLIER, "supplier"),
    ):
        found = _taken(line, pattern)
        if found:
            said[name] = found
    torque = line.take(_TORQUE)
    if torque is not None:
        said["torque_nm"] = _torque(torque["a"] or torque["b"])
    sunk = line.take(_SUNK)
    if sunk is not None:
        said["sunk"] = _sunk(sunk, unit)
    bore = line.take(_CBORE)
    if bore is not None:
        said["seat"] = "counterbore"
        sizes = [length_of(text, unit) for text in (bore["a"], bore["b"]) if text]
        if sizes:
            said["counterbore"] = (sizes[0], sizes[1]) if len(sizes) == 2 else (None, sizes[0])
    _take_head(line, unit, said)
    stands = line.take(_STANDS)
    if stands is not None:
        said["stands"] = length_of(stands["a"], unit, signed=True)
    for pattern, seat in _SEATS:
        if line.take(pattern):
            if said.get("seat", seat) != seat:
                raise refusal(f"The head is said to be both {said['seat']} and {seat}; write one of them.")
            said["seat"] = seat
    for pattern, name, value in _FLAGS:
        if line.take(pattern):
            said[name] = value
    fixed = line.take(_FIXED)
    if fixed is not None:
        said["fixed_place"] = fixed["a"]
    return said


def _sunk(found: re.Match[str], unit: Unit) -> tuple[Length | None, Length]:
    """How wide and how deep a nut is sunk; without a width it follows from the nut."""
    sizes = [length_of(text, unit) for text in found.groups() if text]
    if not sizes:
        raise refusal("Say how deep the nut is sunk, such as M6 nut sunk 8 deep or M6 nut sunk 14 x 8.")
    return (sizes[0], sizes[1]) if len(sizes) == 2 else (None, sizes[0])


def _taken(line: Line, pattern: re.Pattern[str]) -> str:
    """Take a pattern, and give the words that it found as they were written."""
    found = pattern.search(line.plain)
    if found is None:
        return ""
    name = next(name for name, value in found.groupdict().items() if value is not None)
    text = line.opened(line.shown[found.start(name) : found.end(name)].strip())
    line.replace(found.start(), found.end(), GAP)
    return text.removeprefix("the ") if pattern is _REACHED else text


def _torque(text: str) -> Decimal:
    value = read_quantity(text.strip(), "N m", field="line", minimum=0, maximum=100_000)
    return Decimal(decimal_text(Fraction(str(value)), 6))


def _take_head(line: Line, unit: Unit, said: dict[str, Any]) -> None:
    angle = line.take(_ANGLE)
    if angle is not None:
        said["head_angle_deg"] = Decimal(angle["a"])
    head = line.take(_HEAD)
    if head is None:
        return
    if head["a"]:
        said["head_diameter"] = length_of(head["a"], unit)
    high = head["b"] or head["c"] or head["d"]
    if high:
        said["head_height"] = length_of(high, unit)
