"""What each layer's hole is for, what hardware is made of, and how the head sits."""

from __future__ import annotations

import re
from functools import lru_cache

from calculators.hardware.fastener import Fastener
from calculators.joints.model import JointInput, Layer, Seat, Takes
from calculators.joints.worked import Metal

COUNTERSUNK = ("csk", "raised csk", "socket csk")
_TAKES_OF_KIND: dict[str, Takes] = {
    "clearance": "clearance",
    "slot": "clearance",
    "tapping": "thread",
    "pilot": "pilot",
    "insert": "insert",
    "plain": "plain",
    "reamed": "plain",
}
_COATED = re.compile(
    r"plated|galvani[sz]ed|galv|sherardi[sz]ed|zinc|nickel|chrom|cadmium|japanned|lacquered|bzp|tinned|coppered"
)


def takes_of_layers(joint: JointInput) -> tuple[Takes, ...]:
    """What each layer takes, in the order of the layers.

    What is stated wins, then what a hole's kind says. Else a wood screw's last layer takes the pilot; a
    machine screw's last layer takes the insert where there is one, is clear where a nut follows the last
    layer, and takes the thread where none does; a grub screw that runs in a thread further up stands
    against the last layer. All other layers are clear.

    Args:
        joint: the joint.

    Returns:
        One word for each layer.

    Source: common practice.
    """
    layers = [(place, item.layer) for place, item in enumerate(joint.stack) if item.layer is not None]
    if not layers:
        return ()
    last = layers[-1][0]
    nut_follows = any(item.nut is not None for item in joint.stack[last:])
    # a headed machine screw that runs in a thread further up passes clear through the last part
    held = any(_stated(layer) in ("thread", "insert", "pilot") for _, layer in layers)
    stud = is_headless(joint.fastener) and joint.fastener.kind == "stud"
    threaded_already = held and not is_wood_screw(joint.fastener) and not stud
    against: Takes = "plain" if is_headless(joint.fastener) else "clearance"
    inserted = _layer_of_insert(joint, [place for place, _ in layers])
    takes: list[Takes] = []
    for place, layer in layers:
        stated = _stated(layer)
        if stated:
            takes.append(stated)
        elif place == inserted:
            takes.append("insert")
        elif place != last or nut_follows or inserted is not None:
            takes.append("clearance")
        elif threaded_already:
            takes.append(against)
        else:
            takes.append("pilot" if is_wood_screw(joint.fastener) else "thread")
    return tuple(takes)


def _stated(layer: Layer) -> Takes:
    return layer.takes or _TAKES_OF_KIND.get(layer.hole.kind, "")


def _layer_of_insert(joint: JointInput, places: list[int]) -> int | None:
    """The layer that an insert goes into: the one after it in the stack, else the one before."""
    for place, item in enumerate(joint.stack):
        if item.insert is not None:
            after = [each for each in places if each > place]
            return after[0] if after else places[-1]
    return None


def is_wood_screw(fastener: Fastener) -> bool:
    """Whether the fastener cuts its own thread in wood (coach screws do too).

    Args:
        fastener: the fastener.

    Returns:
        True for a wood screw.

    Source: this project.
    """
    return fastener.family == "wood"


def is_headless(fastener: Fastener) -> bool:
    """Whether the fastener has no head.

    Args:
        fastener: the fastener.

    Returns:
        True for grub screws and studs.

    Source: this project.
    """
    return fastener.head == "none" or (not fastener.head and fastener.kind in ("grub screw", "stud"))


def seat_of(joint: JointInput) -> Seat | str:
    """How the head sits where it is not stated: countersunk heads flush, in a counterbore where one is given.

    Args:
        joint: the joint.

    Returns:
        The seat; empty for a screw without a head.

    Source: common practice.
    """
    if is_headless(joint.fastener):
        return ""
    if joint.seat:
        return joint.seat
    if joint.fastener.head in COUNTERSUNK:
        return "flush"
    first = next((item.layer for item in joint.stack if item.layer is not None), None)
    bored = first is not None and bool(first.hole.counterbore_depth_mm)
    return "counterbore" if bored else "surface"


@lru_cache(maxsize=512)
def metal_of(material: str, finish: str = "", grade: str = "") -> Metal:
    """What an item of hardware is made of, as far as the rules care.

    Args:
        material: the material as written.
        finish: the finish as written.
        grade: the grade as written; a property class such as 8.8 is of steel, A2-70 of stainless.

    Returns:
        The metal; empty where nothing is stated.

    Source: common practice.

    Example:
        >>> metal_of("steel"), metal_of("steel", "zinc plated"), metal_of("stainless A2"), metal_of("")
        ('steel', 'plated steel', 'stainless', '')
    """
    words = f"{material} {grade}".casefold()
    if "stainless" in words or re.search(r"\ba[1-5]\b", words):
        return "stainless"
    if "bronze" in words:
        return "bronze"
    if "brass" in material.casefold() and "plated" not in material.casefold():
        return "brass"
    coated = bool(_COATED.search(f"{finish} {material}".casefold()))
    if "steel" in words or re.search(r"\b(4\.[68]|5\.[68]|8\.8|9\.8|10\.9|12\.9)\b|tensile|\biron\b", words):
        return "plated steel" if coated else "steel"
    if not material.strip():
        return "plated steel" if coated else ""
    return "other"
