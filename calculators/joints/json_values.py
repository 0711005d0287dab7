"""Reading the values of a JSON object: strict about keys, with every fault kept at its place."""

from __future__ import annotations

from collections.abc import Callable, Mapping, Sequence
from dataclasses import replace
from difflib import get_close_matches
from typing import TypeVar, cast

from calculators.calculation import Input
from calculators.calculation.reading import LONGEST_TEXT, read_input
from calculators.quantities.errors import Fault, InputError
from calculators.quantities.length import Length
from calculators.quantities.reading import LengthUnit, read_length

Read = TypeVar("Read")

MOST_LISTED = 20
"""No list of a joint holds more things than this."""


class ObjectReader:
    """Reads the values of one object as they are declared, and keeps the faults instead of stopping."""

    def __init__(
        self, data: object, path: str, inputs: Sequence[Input], faults: list[Fault], unit: LengthUnit
    ) -> None:
        self.path, self.faults, self.unit = path, faults, unit
        self.inputs = {each.name: each for each in inputs}
        self.data: Mapping[str, object] = {}
        keys = tuple(self.inputs)
        if not isinstance(data, Mapping):
            what = path or "A joint"
            self.fault("", f"{what} must be an object with keys such as {', '.join(keys[:4])}.", keys)
            return
        self.data = data
        for key in data:
            if key not in self.inputs:
                self._unknown(str(key), keys)

    def _unknown(self, key: str, keys: tuple[str, ...]) -> None:
        near = tuple(get_close_matches(key[:40], keys, n=3, cutoff=0.5))
        hint = f"did you mean {' or '.join(near)}" if near else f"the keys here are {', '.join(keys)}"
        where = f" in {self.path}" if self.path else ""
        self.fault(key[:40], f"{key[:40]!r} is not a key{where}; {hint}.", near)

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
            self.faults.extend(replace(fault, field=fault.field or self.place(key)) for fault in error.faults)
            return None

    def text(self, key: str) -> str:
        """A text; empty where there is none."""
        value = self.data.get(key)
        if value is None:
            return self.inputs[key].default or ""
        if not isinstance(value, str):
            self.fault(key, f"{self.place(key)} must be text, not {shown(value)}.")
            return ""
        if len(value) > LONGEST_TEXT:
            self.fault(key, f"{self.place(key)} is longer than the {LONGEST_TEXT} characters that are read.")
            return ""
        return value.strip()

    def choice(self, key: str) -> str:
        """One of a few words; empty where there is none and none is usual."""
        each, value = self.inputs[key], self.text(key)
        if value and value not in each.choices:
            says = f"{self.place(key)} is {value[:40]!r}; it must be {' or '.join(each.choices)}."
            self.fault(key, says, each.choices)
            value = ""
        return value or each.default or ""

    def flag(self, key: str) -> bool:
        """A true or false."""
        value, usual = self.data.get(key), self.inputs[key].default == "yes"
        if value is None:
            return usual
        if not isinstance(value, bool):
            self.fault(key, f"{self.place(key)} must be true or false, not {shown(value)}.")
            return usual
        return value

    def length(self, key: str) -> float | None:
        """A length in millimetres, from a number in the joint's unit or as people write it."""
        value, each = self.data.get(key), self.inputs[key]
        if value is None:
            return None
        if isinstance(value, int | float) and not isinstance(value, bool) and abs(value) < 1e12:
            value = f"{value:.7f}".rstrip("0").rstrip(".")
        if not isinstance(value, str):
            says = f"{self.place(key)} must be a length such as 22 or '1 1/4 in', not {shown(value)}."
            self.fault(key, says)
            return None
        text, least, most = value, each.minimum, each.maximum

        def read(field: str) -> Length:
            return read_length(text, unit=self.unit, field=field, minimum_mm=least, maximum_mm=most)

        found = self.attempt(key, read)
        if found is not None and each.above is not None and found.mm <= each.above:
            self.fault(key, f"{self.place(key)} must be over {each.above:g} {each.unit}.")
            return None
        return None if found is None else found.mm

    def number(self, key: str) -> float | None:
        """A number or quantity in its declared unit, from a number or as people write it."""
        each, value = self.inputs[key], self.data.get(key)
        value = each.default if value is None else value
        if value is None:
            return None
        found = self.attempt(key, lambda field: read_input(replace(each, name=field), value))
        return cast(float | None, found)

    def listed(self, key: str) -> list[object]:
        """A list; one thing alone is a list of one."""
        value = self.data.get(key)
        if value is None:
            return []
        if not isinstance(value, list | tuple):
            return [value]
        if len(value) > MOST_LISTED:
            self.fault(key, f"{self.place(key)} lists {len(value)} things; at most {MOST_LISTED} are read.")
        return list(value[:MOST_LISTED])


def shown(value: object) -> str:
    """A value as a fault shows it, cut short.

    Args:
        value: any value.

    Returns:
        Its writing.

    Source: this project.
    """
    return repr(value)[:40]
