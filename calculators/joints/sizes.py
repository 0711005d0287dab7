"""The sizes of a joint's hardware, from tables or as measured; a look-up that fails becomes a `Missing`."""

from __future__ import annotations

from collections.abc import Callable
from functools import lru_cache
from typing import TypeVar

from calculators.hardware.fastener import Fastener, Insert, Nut, Washer
from calculators.hardware.heads import HeadSize, head_of
from calculators.hardware.inserts import InsertSize, insert_of
from calculators.hardware.nuts import NutSize, nut_of
from calculators.hardware.threads import Thread, find_thread
from calculators.hardware.washers import WasherSize, washer_of
from calculators.hardware.wood_screws import WoodScrew, wood_screw
from calculators.joints.model import JointInput, MeasuredHead
from calculators.joints.roles import COUNTERSUNK, is_headless, is_wood_screw, metal_of
from calculators.joints.worked import Missing, Screw
from calculators.materials import Material, find_material
from calculators.quantities.errors import InputError

Found = TypeVar("Found")


def look_up(what: str, call: Callable[[], Found]) -> Found | Missing:
    """Look something up, and keep the sentence where it is not there.

    Args:
        what: what is looked for, in words.
        call: the look-up.

    Returns:
        What was found, or what is missing and why.

    Source: this project.
    """
    try:
        return call()
    except InputError as error:
        return Missing(what, error.faults[0].says)


@lru_cache(maxsize=2048)
def thread_of(text: str) -> Thread | Missing:
    """The thread of a designation.

    Args:
        text: the designation.

    Returns:
        The thread, or what is missing.

    Source: the table that the thread names.
    """
    return look_up(f"the thread {text}" if text.strip() else "the thread", lambda: find_thread(text))


@lru_cache(maxsize=2048)
def material_of(text: str) -> Material | Missing:
    """The material of a name.

    Args:
        text: the material as written.

    Returns:
        The material, or what is missing.

    Source: the table of materials.
    """
    return look_up(f"the material {text}" if text.strip() else "the material", lambda: find_material(text))


@lru_cache(maxsize=2048)
def nut_size(nut: Nut) -> NutSize | Missing:
    """The size of a nut.

    Args:
        nut: the nut.

    Returns:
        Its size, or what is missing.

    Source: the standard that the size names.
    """
    return look_up("the nut's size", lambda: nut_of(nut.size, nut.form))


@lru_cache(maxsize=2048)
def washer_size(washer: Washer) -> WasherSize | Missing:
    """The size of a washer from the tables.

    Args:
        washer: the washer.

    Returns:
        Its size, or what is missing.

    Source: the standard that the size names.
    """
    return look_up("the washer's size", lambda: washer_of(washer.size, washer.form))


@lru_cache(maxsize=2048)
def insert_size(insert: Insert) -> InsertSize | Missing:
    """The size of an insert from the tables.

    Args:
        insert: the insert.

    Returns:
        Its size, or what is missing.

    Source: the table of inserts.
    """
    outside, body, length = (
        None if each is None else each.mm for each in (insert.outside, insert.body, insert.length)
    )
    return look_up(
        "the insert's size",
        lambda: insert_of(insert.size, outside_mm=outside, body_mm=body, length_mm=length),
    )


@lru_cache(maxsize=2048)
def _head(head: str, size: str, family: str, drive: str, series: str) -> HeadSize | Missing:
    wood = family == "wood"
    return look_up(
        "the head's size",
        lambda: head_of(head, size, family="wood" if wood else "machine", drive=drive, series=series),
    )


@lru_cache(maxsize=2048)
def _wood_screw(size: str, series: str, angle: float | None) -> WoodScrew | Missing:
    return look_up("the wood screw's size", lambda: wood_screw(size, series, head_angle_deg=angle))


def screw_of(joint: JointInput) -> tuple[Screw, tuple[Missing, ...]]:
    """The fastener's own sizes, measured ones before those of the tables.

    Args:
        joint: the joint.

    Returns:
        The sizes, and what could not be found of them.

    Raises:
        InputError: when the fastener's thread or number is not known: then nothing can be worked out.

    Source: the standards that the sizes name.
    """
    return _screw(joint.fastener, joint.wood_screw_head_angle_deg, joint.measured_head)


@lru_cache(maxsize=2048)
def _screw(
    fastener: Fastener, angle: float | None, measured: MeasuredHead
) -> tuple[Screw, tuple[Missing, ...]]:
    major, pitch, root, thread, wood = _shank(fastener, angle)
    headless = is_headless(fastener)
    head: HeadSize | Missing | None = None
    if not headless:
        head = _head_size(fastener, wood)
    missing = (head,) if isinstance(head, Missing) and not _enough(fastener, measured) else ()
    size = head if isinstance(head, HeadSize) else None
    countersunk = fastener.head in COUNTERSUNK
    flats = measured.across_flats_mm or (size.across_flats_mm if size else None)
    angle_deg = measured.angle_deg or (size.angle_deg if size else None)
    height = measured.height_mm or (size.height_mm if size else None)
    screw = Screw(
        major_mm=major,
        pitch_mm=pitch,
        root_mm=root,
        metal=metal_of(fastener.material, fastener.finish, fastener.grade),
        is_wood=is_wood_screw(fastener),
        countersunk=countersunk,
        headless=headless,
        thread=thread,
        wood=wood,
        head_diameter_mm=None if headless else measured.diameter_mm or (size.diameter_mm if size else None),
        head_height_mm=None if headless else height,
        head_angle_deg=angle_deg if countersunk else None,
        across_flats_mm=None if headless else flats,
        raised_mm=size.raised_mm if size and countersunk else 0.0,
        head_source=_head_source(measured, size),
    )
    return screw, missing


def _shank(
    fastener: Fastener, angle: float | None
) -> tuple[float, float | None, float | None, Thread | None, WoodScrew | None]:
    """Major diameter, pitch and root, and the record they are from."""
    if is_wood_screw(fastener):
        coach = _coach_shank(fastener)
        if coach is not None and fastener.kind == "coach screw":  # its lead hole goes by its shank
            return coach, None, None, None, None
        wood = _wood_screw(fastener.size, fastener.series, angle)
        if isinstance(wood, WoodScrew):
            return wood.shank_mm, wood.pitch_mm, wood.root_mm, None, wood
        if coach is None:
            raise InputError.of(wood.says, field="fastener")
        return coach, None, None, None, None
    thread = thread_of(fastener.size)
    if isinstance(thread, Missing):
        raise InputError.of(thread.says, field="fastener")
    return thread.major_mm, thread.pitch_mm, thread.core_diameter_mm, thread, None


def _coach_shank(fastener: Fastener) -> float | None:
    """The shank of a coach screw, which is named by a metric diameter or a fraction of an inch."""
    if fastener.kind != "coach screw" and fastener.head not in ("hex", "coach"):
        return None
    if isinstance(_head("hex", fastener.size, "wood", "", ""), Missing):
        return None
    text = fastener.size.strip().removeprefix("M").removesuffix("mm").strip()
    top, slash, bottom = text.partition("/")
    try:
        return float(top) / float(bottom) * 25.4 if slash else float(text)
    except ValueError:
        return None


def _head_size(fastener: Fastener, wood: WoodScrew | None) -> HeadSize | Missing:
    if fastener.kind == "coach screw" and not fastener.head:
        return _head("hex", fastener.size, fastener.family, fastener.drive, fastener.series)
    found = _head(fastener.head, fastener.size, fastener.family, fastener.drive, fastener.series)
    if isinstance(found, HeadSize) and wood is not None and fastener.head in COUNTERSUNK:
        return HeadSize(
            wood.head_diameter_mm, wood.head_height_mm, wood.head_angle_deg, None, None,
            wood.slot_width_mm, None, wood.head_basis, wood.head_kind, raised_mm=found.raised_mm,
        )  # fmt: skip
    return found


def _enough(fastener: Fastener, measured: MeasuredHead) -> bool:
    """Whether what was measured says all that the rules need of this head."""
    if fastener.head in COUNTERSUNK:
        return None not in (measured.diameter_mm, measured.angle_deg)
    return None not in (measured.diameter_mm, measured.height_mm)


def _head_source(measured: MeasuredHead, size: HeadSize | None) -> str:
    own = (measured.diameter_mm, measured.height_mm, measured.angle_deg, measured.across_flats_mm)
    parts = ["head as measured"] if any(value is not None for value in own) else []
    return "; ".join([*parts, *([size.source] if size else [])])
