"""The sizes of a build that an input of a kept calculation can be tied to, as people write them."""

from __future__ import annotations

import re
from collections.abc import Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass, replace
from typing import Literal, cast

from calculators.planning.model import Component, Hole, Pocket
from calculators.planning.worked import WorkedJoint
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted
from calculators.quantities.reading import read_length

PART_SIZES = ("length", "width", "thickness", "diameter", "bore", "corner radius")
HOLE_SIZES = (
    "diameter",
    "depth",
    "thread depth",
    "countersink diameter",
    "counterbore diameter",
    "counterbore depth",
    "slot length",
)
POCKET_SIZES = ("length", "width", "depth", "corner radius")
JOINT_SIZES = ("stack thickness", "fastener length", "engagement", "penetration")

Feature = Literal["", "hole", "pocket"]
_OF_FEATURE: dict[str, tuple[str, ...]] = {"": PART_SIZES, "hole": HOLE_SIZES, "pocket": POCKET_SIZES}
_PARTED = re.compile(r"[\s.]+")
PATH = re.compile(r"([^\[\].]{1,100})(?:\[([0-9]{1,3})\]\.([^\[\].]{1,100}))?")
"""How an input is named that is tied: `wire`, or for a member of one of its rows `springs[0].x`."""

TAKE = "calculation"
"""The field of the mend that takes the build's sizes of today for what was last looked at."""

_WRITTEN_AS = "write it as P03 thickness, P03 hole h1 depth, P03 pocket k1 width or F03 engagement"


@dataclass(frozen=True, slots=True)
class Tie:
    """A size of the build: of the part or joint with this mark, or of one of the part's holes or pockets."""

    mark: str
    size: str
    feature: Feature = ""
    id: str = ""

    @property
    def written(self) -> str:
        """The tie as it is written: `P03 thickness`."""
        return " ".join(word for word in (self.mark, self.feature, self.id, self.size) if word)


def read_tie(text: str, field: str = "") -> Tie:
    """Read which size of a build is meant; whether the build has it is not asked here.

    Args:
        text: the words: a mark, for a hole or pocket its kind and id, and the size, with spaces or dots.
        field: the place that a fault names.

    Returns:
        The tie.

    Raises:
        InputError: when it does not read as one.

    Source: this project.

    Example:
        >>> read_tie("P03.thickness").written, read_tie("P03 hole h1 Depth").written
        ('P03 thickness', 'P03 hole h1 depth')
    """
    words = [word for word in _PARTED.split(text[:120].strip()) if word]
    if len(words) > 3 and words[1].lower() in ("hole", "pocket"):
        feature = cast(Feature, words[1].lower())
        size = _size_word(words[3:])
        if size in _OF_FEATURE[feature]:
            return Tie(words[0], size, feature, words[2])
        says = f"A {feature} has no size called {quoted(size)}; it has {', '.join(_OF_FEATURE[feature])}."
        raise InputError.of(says, field=field, choices=_OF_FEATURE[feature])
    if len(words) > 1 and (size := _size_word(words[1:])) in (*PART_SIZES, *JOINT_SIZES):
        return Tie(words[0], size)
    raise InputError.of(f"{quoted(text)} does not read as a size of the build; {_WRITTEN_AS}.", field=field)


def _size_word(words: Sequence[str]) -> str:
    return " ".join(words).lower().replace("_", " ")


def renamed(text: str, old: str, new: str) -> str:
    """Carry a mark that has changed into a tie.

    Args:
        text: the tie as it is written.
        old: the mark before.
        new: the mark from now on.

    Returns:
        The tie with the new mark; one of another mark as it was.

    Source: this project.

    Example:
        >>> renamed("P03 thickness", "P03", "P30"), renamed("P03 thickness", "P0", "P9")
        ('P30 thickness', 'P03 thickness')
    """
    try:
        tie = read_tie(text)
    except InputError:
        return text
    if tie.mark != old:
        return text
    # As it was written, where the mark stands as it is: a rename carried back is then no change.
    return new + text[len(old) :] if text.startswith(old) else replace(tie, mark=new).written


def mark_of_tie(text: str) -> str:
    """Give the mark that a tie names.

    Args:
        text: the tie as it is written.

    Returns:
        The mark; nothing where it does not read as a tie.

    Source: this project.

    Example:
        >>> mark_of_tie("P03 hole h1 depth")
        'P03'
    """
    try:
        return read_tie(text).mark
    except InputError:
        return ""


def part_sizes(part: Component) -> Iterator[tuple[str, Length]]:
    """List the sizes of a part that can be tied to: as made where it was made, of its holes and pockets too.

    Args:
        part: the part.

    Yields:
        Each size as a tie is written, with its length.

    Source: this project.

    Example:
        >>> from calculators.planning.model import Size
        >>> lid = Component("P1", "Lid", size=Size("block", Length.of_mm(100), thickness=Length.of_mm(6)))
        >>> [(name, length.mm) for name, length in part_sizes(lid)]
        [('P1 length', 100.0), ('P1 thickness', 6.0)]
    """
    ties: list[Tie] = [Tie(part.mark, size) for size in PART_SIZES]
    ties += [Tie(part.mark, size, "hole", one.id) for one in part.holes for size in HOLE_SIZES]
    ties += [Tie(part.mark, size, "pocket", one.id) for one in part.pockets for size in POCKET_SIZES]
    for tie in ties:
        length = part_size(part, tie)
        if length is not None:
            yield tie.written, length


def part_size(part: Component, tie: Tie) -> Length | None:
    """Look a size of a part up: the size as made where there is one, else as planned.

    Args:
        part: the part.
        tie: which of its sizes.

    Returns:
        The length; None where the part has none such, or not yet.

    Source: this project.
    """
    name = tie.size.replace(" ", "_")
    if tie.feature:
        features: Iterable[Hole | Pocket] = part.holes if tie.feature == "hole" else part.pockets
        found = next((one for one in features if one.id == tie.id), None)
        return cast("Length | None", getattr(found, name, None))
    if tie.size == "corner radius":
        return part.corner_radius
    made = getattr(part.made_size, name, None) if part.made_size is not None else None
    return cast("Length | None", made if made is not None else getattr(part.size, name, None))


def joint_sizes(groups: Sequence[WorkedJoint]) -> dict[str, Length]:
    """Give the sizes of a joint that can be tied to, where all of its places agree.

    Args:
        groups: the joint worked out, by its places.

    Returns:
        The size of each name: the layers' thickness together, the length of the fastener, its engagement in
        a thread or penetration in wood.

    Source: this project.
    """
    found = [_group_sizes(one) for one in groups]
    if not found:
        return {}
    return {
        name: Length.of_mm(value)
        for name, value in found[0].items()
        if all(name in other and abs(other[name] - value) < 1e-6 for other in found)
    }


def _group_sizes(one: WorkedJoint) -> dict[str, float]:
    layers = {index for index, item in enumerate(one.inputs.stack) if item.layer is not None}
    thick = sum(each.leave_mm - each.enter_mm for each in one.result.extents if each.item in layers)
    length = one.result.fastener.cut_to or one.result.fastener.length
    sizes = {
        "stack thickness": thick or None,
        "fastener length": length.mm if length is not None else None,
        "engagement": one.result.engagement_mm,
        "penetration": one.result.penetration_mm,
    }
    return {name: round(value, 7) for name, value in sizes.items() if value is not None and value > 0}


def size_now(
    text: str, parts: Mapping[str, Component], joints: Mapping[str, Sequence[WorkedJoint]]
) -> Length | None:
    """Look up what a tie comes to in the build as it is.

    Args:
        text: the tie as it is written.
        parts: the components by mark.
        joints: the joints worked out, by mark.

    Returns:
        The length; None where the build has no such size (any more).

    Source: this project.
    """
    try:
        tie = read_tie(text)
    except InputError:
        return None
    if tie.mark in parts:
        return part_size(parts[tie.mark], tie)
    return joint_sizes(joints.get(tie.mark, ())).get(tie.size)


def size_text(length: Length) -> str:
    """Write a size of the build so that any calculator reads it, whatever it takes a bare number for.

    Args:
        length: the size.

    Returns:
        The size as it was written with its unit, or its millimetres.

    Source: this project.

    Example:
        >>> size_text(Length(317500000, "1 1/4", "in")), size_text(Length(60000000, "6", "mm"))
        ('1 1/4 in', '6 mm')
    """
    text = length.written
    if text and not any(sign.isalpha() or sign in "\"'″′" for sign in text):
        text = f"{text} {length.unit}"
    try:
        if text and read_length(text).ticks == length.ticks:
            return text
    except InputError:
        pass
    return f"{length.exact_mm:f} mm"
