"""Reading the values of a JSON object: strict about keys, with every fault kept at its place."""

from __future__ import annotations

import re
from collections.abc import Callable, Mapping
from difflib import get_close_matches
from math import isfinite
from typing import TypeVar, cast

from calculators.quantities.errors import Fault, InputError
from calculators.quantities.reading import LengthUnit, read_length

Read = TypeVar("Read")

_TORQUE = re.compile(
    r"\s*([-+]?\d*[.,]?\d+)\s*(n[ .·]?m|lbf[ .]?in|lbf[ .]?ft)?\s*", re.IGNORECASE | re.ASCII
)
_NM_PER = {"nm": 1.0, "lbfin": 0.1129848290276167, "lbfft": 1.3558179483314004}
_PLAIN_NUMBER = re.compile(r"\s*([-+]?\d*[.,]?\d+)\s*(deg|degrees|°|%|percent)?\s*", re.IGNORECASE | re.ASCII)


class ObjectReader:
    """Reads the values of one object, and keeps the faults instead of stopping at the first."""

    def __init__(
        self, data: object, path: str, keys: tuple[str, ...], faults: list[Fault], unit: str
    ) -> None:
        self.path, self.faults, self.unit = path, faults, unit
        self.data: Mapping[str, object] = {}
        if not isinstance(data, Mapping):
            what = path or "A joint"
            self.fault("", f"{what} must be an object with keys such as {', '.join(keys[:4])}.", keys)
            return
        self.data = data
        for key in data:
            if key not in keys:
                self._unknown(str(key), keys)

    def _unknown(self, key: str, keys: tuple[str, ...]) -> None:
        near = tuple(get_close_matches(key, keys, n=3, cutoff=0.5))
        hint = f"did you mean {' or '.join(near)}?" if near else f"the keys here are {', '.join(keys)}."
        where = f" in {self.path}" if self.path else ""
        self.fault(key[:40], f"{key[:40]!r} is not a key{where}; {hint}", near)

    def place(self, key: str) -> str:
        """The path of a key in the file."""
        return f"{self.path}.{key}".strip(".")

    def fault(self, key: str, says: str, choices: tuple[str, ...] = ()) -> None:
        """Note a fault."""
        self.faults.append(Fault(says, self.place(key), choices))

    def attempt(self, key: str, call: Callable[[str], Read]) -> Read | None:
        """Read with a function that takes the field's name; None and a fault where it cannot be read."""
        try:
            return call(self.place(key))
        except InputError as error:
            self.faults.extend(
                Fault(f.says, f.field or self.place(key), f.choices, f.value, f.limit, f.unit)
                for f in error.faults
            )
            return None

    def text(self, key: str, default: str = "") -> str:
        """A text."""
        value = self.data.get(key, default)
        if value is None:
            return default
        if not isinstance(value, str):
            self.fault(key, f"{self.place(key)} must be text, not {shown(value)}.")
            return default
        return value.strip()

    def choice(self, key: str, choices: tuple[str, ...], default: str = "") -> str:
        """One of a few words."""
        value = self.text(key, default)
        if value not in choices:
            known = tuple(choice for choice in choices if choice)
            self.fault(key, f"{self.place(key)} is {value[:40]!r}; it must be {' or '.join(known)}.", known)
            return default
        return value

    def flag(self, key: str, default: bool) -> bool:
        """A true or false."""
        value = self.data.get(key, default)
        if not isinstance(value, bool):
            self.fault(key, f"{self.place(key)} must be true or false, not {shown(value)}.")
            return default
        return value

    def length(self, key: str, *, signed: bool = False) -> float | None:
        """A length in millimetres, from a number in the joint's unit or as people write it."""
        value = self.data.get(key)
        if value is None:
            return None
        if isinstance(value, int | float) and not isinstance(value, bool) and isfinite(value):
            value = _plain(value)
        if not isinstance(value, str):
            self.fault(
                key, f"{self.place(key)} must be a length such as 22 or '1 1/4 in', not {shown(value)}."
            )
            return None
        text, least = value, -1e6 if signed else None
        unit = cast(LengthUnit, self.unit)
        found = self.attempt(key, lambda field: read_length(text, unit=unit, field=field, minimum_mm=least))
        return None if found is None else found.mm

    def number(self, key: str) -> float | None:
        """A plain number, with or without the sign of degrees or per cent."""
        return self._number(key, _PLAIN_NUMBER, lambda value, _: value, "a number")

    def torque(self, key: str) -> float | None:
        """A torque in newton metres."""
        says = "a torque such as 6, '6 N m' or '50 lbf in'"
        return self._number(key, _TORQUE, lambda value, unit: value * _NM_PER[unit or "nm"], says)

    def _number(
        self, key: str, pattern: re.Pattern[str], value_of: Callable[[float, str], float], what: str
    ) -> float | None:
        value = self.data.get(key)
        if value is None:
            return None
        if isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < 1e12:
            return float(value)
        found = pattern.fullmatch(value) if isinstance(value, str) and len(value) < 40 else None
        if found is None:
            self.fault(key, f"{self.place(key)} must be {what}, not {shown(value)}.")
            return None
        unit = re.sub(r"[ .·]", "", found[2] or "").lower()
        return value_of(float(found[1].replace(",", ".")), unit)

    def listed(self, key: str) -> list[object]:
        """A list; one thing alone is a list of one."""
        value = self.data.get(key)
        if value is None:
            return []
        return list(value) if isinstance(value, list | tuple) else [value]


def _plain(value: float) -> str:
    text = f"{value:.7f}"
    return text.rstrip("0").rstrip(".")


def shown(value: object) -> str:
    """A value as a fault shows it, cut short.

    Args:
        value: any value.

    Returns:
        Its writing.

    Source: this project.
    """
    return repr(value)[:40]
