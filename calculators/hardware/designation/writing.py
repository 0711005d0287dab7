"""Writing hardware in the one canonical form, which reads back as the same thing."""

from __future__ import annotations

from dataclasses import replace
from functools import lru_cache

from calculators.hardware.designation.measures import Role, settled, unit_of_writing
from calculators.hardware.designation.sizes import size_of
from calculators.hardware.fastener import Fastener, Hardware, Insert, Nut, Washer
from calculators.quantities.length import Length


def canonical(item: Hardware) -> Hardware:
    """Give a piece of hardware the form in which the reader returns it.

    Lengths take their canonical writing, and what a head or kind brings with it is filled in: a socket head
    its hexagon socket, a knurled head the hand, a grub screw or stud no head, a coach screw its hexagon.

    Args:
        item: any hardware.

    Returns:
        The same hardware; what the reader returns comes back unchanged.

    Raises:
        InputError: when its size does not exist.

    Source: this project.
    """
    if isinstance(item, Nut):
        return replace(item, size=size_of(item.size).name)
    if isinstance(item, Washer):
        return replace(
            item,
            size=size_of(item.size).name,
            outside=_settled(item.outside, "outside", item.size),
            thickness=_settled(item.thickness, "thickness", item.size),
        )
    if isinstance(item, Insert):
        return replace(
            item,
            size=size_of(item.size).name,
            length=_settled(item.length, "length", item.size),
            outside=_settled(item.outside, "outside", item.size),
            body=_settled(item.body, "body", item.size),
        )
    head, drive = item.head, item.drive
    if item.kind in ("grub screw", "stud") and not head:
        head = "none"
    if item.kind == "coach screw" and not head:
        head = "hex"
    if head in ("socket cap", "socket csk") and not drive:
        drive = "hex socket"
    if head == "knurled" and not drive:
        drive = "hand"
    return replace(
        item,
        size=size_of(item.size).name,
        head=head,
        drive=drive,
        length=_settled(item.length, "length", item.size),
        cut_to=_settled(item.cut_to, "cut to", item.size),
    )


def _settled(length: Length | None, role: Role, size: str) -> Length | None:
    if length is None:
        return None
    found = size_of(size)
    return settled(length, unit_of_writing(length, found.unit), role, found)


@lru_cache(maxsize=8192)
def write_hardware(item: Hardware) -> str:
    """Write a piece of hardware in the one canonical form.

    Order: size x length, head, drive, kind, point, series, material, grade, finish, cut to. A length in
    the unit of its own system is bare (inches for inch threads, BA and wood screw numbers; millimetres
    for metric); otherwise its unit is written. Reading the writing gives `canonical(item)`.

    Args:
        item: a fastener, nut, washer or insert.

    Returns:
        The line.

    Raises:
        InputError: when its size does not exist.

    Source: canonical sizes as design decision of this project; order of words common practice.

    Example:
        >>> write_hardware(Nut("M6", "half", "brass"))
        'M6 half nut brass'
        >>> write_hardware(Fastener("machine", "M5", Length.of_mm(20), "csk", "slotted", material="brass"))
        'M5 x 20 csk slotted brass'
    """
    item = canonical(item)
    if isinstance(item, Nut):
        words = [
            item.size,
            "" if item.form == "full" else item.form,
            "nut",
            *_metal(item.material, item.finish),
        ]
    elif isinstance(item, Washer):
        form = "" if item.form == "plain" else item.form
        words = [item.size, form, "washer", *_washer_sizes(item), *_metal(item.material, item.finish)]
    elif isinstance(item, Insert):
        words = [
            item.size, "insert",
            f"OD {item.outside.written}" if item.outside else "",
            f"body {item.body.written}" if item.body else "",
            f"x {item.length.written}" if item.length else "",
            item.material,
        ]  # fmt: skip
    else:
        words = _fastener_words(item)
    return " ".join(word for word in words if word)


def _washer_sizes(washer: Washer) -> list[str]:
    outside = f"OD {washer.outside.written}" if washer.outside else ""
    if washer.thickness is None:
        return [outside]
    return [outside, f"x {washer.thickness.written}" if outside else f"{washer.thickness.written} thick"]


_SERIES = {"inch-us": "American", "inch-british": "British"}


def _fastener_words(screw: Fastener) -> list[str]:
    head = "" if screw.head == "none" or screw.kind == "coach screw" else screw.head
    implied = (screw.head in ("socket cap", "socket csk") and screw.drive == "hex socket") or (
        screw.head == "knurled" and screw.drive == "hand"
    )
    drive = "" if implied else screw.drive
    kind = "" if screw.kind == "screw" else screw.kind
    drive_words = "square drive" if drive == "square" else drive
    material, grade = screw.material, screw.grade
    if grade[:1] == "A" and material == f"stainless {grade[:2]}":
        material = "stainless"
    # '8 x 1 1/2 in' would be the number 8: a metric diameter beside inches carries its unit
    inches = any(length is not None and length.unit == "in" for length in (screw.length, screw.cut_to))
    size = f"{screw.size} mm" if inches and size_of(screw.size).is_metric_wood else screw.size
    return [
        size, f"x {screw.length.written}" if screw.length else "", head, drive_words,
        kind or _screw_word(screw), f"{screw.point} point" if screw.point else "",
        _SERIES.get(screw.series, ""), *_metal(f"{material} {_grade_words(grade)}".strip(), screw.finish),
        f"cut to {screw.cut_to.written}" if screw.cut_to else "",
    ]  # fmt: skip


def _metal(material: str, finish: str) -> tuple[str, str]:
    """Material and finish; a finish that is only 'plated' stands first, or brass would be brass plated."""
    return (finish, material) if finish == "plated" else (material, finish)


def _grade_words(grade: str) -> str:
    """Grades that are known by themselves stand bare; others (`5`, `R`) behind the word."""
    if not grade or "." in grade or (grade[:1] == "A" and "-" in grade) or " " in grade:
        return grade
    return f"grade {grade}"


def _screw_word(screw: Fastener) -> str:
    """The words 'wood screw' or 'screw' where nothing else would say so."""
    if screw.family == "wood":
        headed = screw.head in ("csk", "raised csk", "round") and screw.drive != "hex socket"
        return "" if screw.size.startswith("No.") and headed else "wood screw"
    if screw.head == "knurled" or not (screw.length or screw.head or screw.drive):
        return "screw"
    return ""
