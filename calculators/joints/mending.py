"""Mends: writing the change that would make a finding go, and trying it on a joint."""

from __future__ import annotations

import re
from dataclasses import is_dataclass, replace
from functools import lru_cache
from typing import Any, cast

from calculators.hardware.designation import (
    read_fastener,
    read_insert,
    read_nut,
    read_washer,
    write_hardware,
)
from calculators.hardware.fastener import Fastener
from calculators.joints.layout import lay_out
from calculators.joints.lengths import stock_of, within
from calculators.joints.model import JointInput, MeasuredItem, Mend
from calculators.joints.worked import Missing, Worked
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

_PLACE = re.compile(r"([a-z_]+)(?:\[(\d+)\])?")
_READERS = {"fastener": read_fastener, "washer": read_washer, "nut": read_nut, "insert": read_insert}


def number(value: float) -> str:
    """A number as mends write it: plain decimals, at most three.

    Args:
        value: the number.

    Returns:
        Its writing.

    Source: this project.

    Example:
        >>> number(6.90), number(12.0)
        ('6.9', '12')
    """
    return f"{value:.3f}".rstrip("0").rstrip(".")


@lru_cache(maxsize=2048)
def written(fastener: Fastener) -> str:
    """A fastener in the trade's short form, or an empty text where that could not be read back.

    Args:
        fastener: the fastener.

    Returns:
        Its canonical designation.

    Source: this project.
    """
    try:
        text = write_hardware(fastener)
        read_fastener(text)
    except InputError:
        return ""
    return text


def fastener_mend(worked: Worked, says: str, **changes: Any) -> tuple[Mend, ...]:
    """A mend that changes the fastener, with the stock length nearest to its own that then fits.

    Args:
        worked: the joint.
        says: the sentence, in which `{}` stands for the new designation.
        changes: the fields of the fastener that change.

    Returns:
        One mend, or none where no length fits.

    Source: this project.
    """
    fastener = replace(worked.fastener, length=None, cut_to=None, **changes)
    try:
        fitted = lay_out(replace(worked.joint, fastener=fastener))
    except InputError:
        return ()
    return _mend_to(worked, _nearest_that_fits(fitted, worked.length_mm, 0.0), says)


def _mend_to(worked: Worked, better: Fastener | None, says: str) -> tuple[Mend, ...]:
    text = written(better) if better is not None else ""
    if not text or text == written(worked.fastener):
        return ()
    return (Mend(says.format(text), "fastener", text),)


def _nearest_that_fits(fitted: Worked, length_mm: float, least_mm: float) -> Fastener | None:
    """The fastener in the stock length that fits and is nearest to a length; else one cut to fit."""
    stock = stock_of(fitted.fastener)
    if fitted.needed is None or isinstance(stock, Missing):
        return None
    fitting = [each for each in within(stock, fitted.needed) if each.mm >= least_mm - 1e-6]
    if fitting:
        nearest = min(fitting, key=lambda each: (abs(each.mm - length_mm), each.mm))
        return replace(fitted.fastener, length=nearest, cut_to=None)
    return _cut_to(fitted)


def _cut_to(fitted: Worked) -> Fastener | None:
    """A longer stock length cut to what is needed; wood screws are not cut."""
    stock = stock_of(fitted.fastener)
    if fitted.screw.is_wood or fitted.needed is None or isinstance(stock, Missing):
        return None
    cut = _tidy_between(fitted.needed.least_mm, fitted.needed.most_mm)
    longer = [each for each in stock if each.mm > cut]
    if not longer or cut <= 0:
        return None
    length = Length(round(cut * 1e7), f"{number(cut)} mm", "mm")
    return replace(fitted.fastener, length=longer[0], cut_to=length)


def _tidy_between(least: float, most: float) -> float:
    """A round number of millimetres within a range."""
    middle = (least + most) / 2
    for step in (1.0, 0.5, 0.1):
        tidy = round(middle / step) * step
        if least <= tidy <= most:
            return round(tidy, 3)
    return round(middle, 3)


def length_mend(worked: Worked, least_mm: float = 0.0) -> tuple[Mend, ...]:
    """A mend that changes the fastener's length alone, to the nearest that fits.

    Where the thread itself is another than that of the hole, the screw with the hole's thread is offered, in
    a length that fits.

    Args:
        worked: the joint.
        least_mm: a length that it must reach besides [mm].

    Returns:
        One mend; none where no length would do.

    Source: this project.
    """
    male = worked.screw.thread
    threads = [bite.thread for bite in worked.bites if bite.kind != "wood"]
    others = {each.designation for each in threads if each is not None} if male is not None else set()
    if male is not None and others - {male.designation}:
        return fastener_mend(worked, "Use {}.", size=others.pop()) if len(others) == 1 else ()
    return _mend_to(worked, _nearest_that_fits(worked, worked.length_mm, least_mm), "Use {}.")


def apply_mend(joint: JointInput, mend: Mend) -> JointInput:
    """The joint with a mend carried out, to see whether it helps.

    Args:
        joint: the joint.
        mend: the mend; its field is a path in the joint, such as `stack[1].layer.hole.diameter_mm`.

    Returns:
        The changed joint; unchanged where the mend has no field.

    Raises:
        InputError: when the path leads nowhere or its value cannot be read.

    Source: this project.
    """
    if not mend.field:
        return joint
    steps = [_PLACE.fullmatch(step) for step in mend.field.split(".")]
    if any(step is None for step in steps):
        raise InputError.of(f"There is no place {mend.field!r} in a joint.", field=mend.field)
    path = [(step[1], int(step[2]) if step[2] else None) for step in steps if step is not None]
    return cast(JointInput, _changed(joint, path, mend))


def _changed(record: Any, path: list[tuple[str, int | None]], mend: Mend) -> Any:
    (name, place), rest = path[0], path[1:]
    held = getattr(record, name, None) if is_dataclass(record) else None
    if held is None and name == "measured":
        held = MeasuredItem()
    if place is not None:
        if not isinstance(held, tuple) or place >= len(held):
            raise InputError.of(f"There is no place {mend.field!r} in a joint.", field=mend.field)
        items = list(held)
        items[place] = _changed(items[place], rest, mend) if rest else mend.value
        return replace(record, **{name: tuple(items)})
    if rest:
        return replace(record, **{name: _changed(held, rest, mend)})
    if not is_dataclass(record) or not hasattr(record, name):
        raise InputError.of(f"There is no place {mend.field!r} in a joint.", field=mend.field)
    return replace(cast(Any, record), **{name: _value(name, mend)})


def _value(name: str, mend: Mend) -> Any:
    if name in _READERS:
        return _READERS[name](mend.value)
    if name.endswith(("_mm", "_deg", "_nm", "_percent")) or name == "nut_factor":
        try:
            return float(mend.value)
        except ValueError:
            raise InputError.of(f"{mend.value!r} is not a number.", field=mend.field) from None
    if name in ("steel_first", "wet", "clamps", "loaded_sideways", "pilot"):
        return mend.value == "true"
    return mend.value
