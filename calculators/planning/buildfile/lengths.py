"""The kind of a length in a build file: as written beside exact millimetres, or millimetres alone."""

from __future__ import annotations

import re
from fractions import Fraction
from typing import Any

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.kinds import Kind, Schema, check_repeating, kind_of_json, near_names
from calculators.planning.buildfile.parsing import NumberText
from calculators.planning.model import Unit
from calculators.quantities.length import TICKS_PER_MM, Length
from calculators.quantities.marks import quoted
from calculators.quantities.numbers import decimal_text

_MM = re.compile(r"-?[0-9]{1,7}(\.[0-9]{1,7})?")
_LENGTH_NAMES = ("written", "mm", "unit")


class LengthKind(Kind):
    """A length: as written beside its exact millimetres, or worked out and so in millimetres alone.

    Written as {"written": "1 3/4 in", "mm": "44.45"} or {"mm": "6"}; a plain text, or a bare number in
    the build's unit, is read as written.
    """

    def __init__(self, least_mm: int, most_mm: int, *, above: bool = False) -> None:
        self.least_mm, self.most_mm, self.above = least_mm, most_mm, above

    def read(self, raw: Any, at: str, collector: Collector) -> Length:
        """Read a length in any of its forms."""
        if isinstance(raw, str):
            found = collector.length(str(raw), collector.unit, at)
        elif isinstance(raw, dict):
            found = self._read_object(raw, at, collector)
        else:
            says = (
                'Here stands a length such as "1 3/4 in", 44.45 or {"written": "1 3/4 in", "mm": "44.45"}, '
                f"not {kind_of_json(raw)}."
            )
            collector.fault(at, says)
            return Length(0)
        return self._within(found, at, collector) if found is not None else Length(0)

    def _read_object(self, raw: dict[str, Any], at: str, collector: Collector) -> Length | None:
        check_repeating(raw, at, collector)
        for name in raw:
            if name not in _LENGTH_NAMES:
                says = f"A length has no {quoted(name)}; it has written, mm and unit."
                collector.fault(at, says, near_names(name, _LENGTH_NAMES) or _LENGTH_NAMES)
                return None
        unit = raw.get("unit")
        if unit not in (None, "mm", "in") or isinstance(unit, NumberText):
            collector.fault(
                f"{at}.unit", f'Here stands "mm" or "in", not {kind_of_json(unit)}.', ("mm", "in")
            )
            return None
        ticks = self._read_mm(raw["mm"], f"{at}.mm", collector) if "mm" in raw else None
        if "mm" in raw and ticks is None:
            return None
        if "written" not in raw:
            if ticks is None:
                collector.fault(at, 'A length needs "written", "mm" or both.')
                return None
            return Length(ticks, "", unit or "mm")
        return self._read_written(raw["written"], ticks, unit or collector.unit, f"{at}.written", collector)

    def _read_mm(self, raw: Any, at: str, collector: Collector) -> int | None:
        if isinstance(raw, str) and _MM.fullmatch(raw):
            whole, _, places = raw.lstrip("-").partition(".")
            ticks = int(whole + places.ljust(7, "0"))
            return -ticks if raw[0] == "-" else ticks
        says = (
            f'Here stand exact millimetres such as "44.45", with at most 7 places, not {kind_of_json(raw)}.'
        )
        collector.fault(at, says)
        return None

    def _read_written(
        self, raw: Any, ticks: int | None, unit: Unit, at: str, collector: Collector
    ) -> Length | None:
        if not isinstance(raw, str) or isinstance(raw, NumberText):
            says = f'Here stands a length as it was written, such as "1 3/4 in", not {kind_of_json(raw)}.'
            collector.fault(at, says)
            return None
        found = collector.length(raw, unit, at)
        if found is not None and ticks is not None and ticks != found.ticks:
            says = (
                f"{quoted(raw)} is {found.exact_mm} mm, but beside it stands "
                f"{Length(ticks).exact_mm} mm; write the one that is meant."
            )
            choices = (raw[:64], f"{Length(ticks).exact_mm} mm")
            collector.fault(at, says, choices, value=ticks / TICKS_PER_MM, limit=found.mm, unit="mm")
            return None
        return found

    def _within(self, found: Length, at: str, collector: Collector) -> Length:
        least, most = self.least_mm * TICKS_PER_MM, self.most_mm * TICKS_PER_MM
        if least <= found.ticks <= most and not (self.above and found.ticks == least):
            return found
        low = "more than" if self.above else "at least"
        shown = quoted(found.written) if found.written else f"{found.exact_mm} mm"
        says = (
            f"{shown} is out of reason here; write {low} {self.least_mm} mm and at most {self.most_mm:,} mm."
        )
        limit = self.most_mm if found.ticks > most else self.least_mm
        collector.fault(at, says, value=found.mm, limit=float(limit), unit="mm")
        return found

    def write(self, value: Any, unit: Unit) -> Schema:
        """Write what was written, then exact millimetres, then the unit where it differs."""
        mm = decimal_text(Fraction(value.ticks, TICKS_PER_MM), 7)
        if not value.written:
            return {"mm": mm} if value.unit == "mm" else {"mm": mm, "unit": value.unit}
        shown = {"written": value.written, "mm": mm}
        return shown if value.unit == unit else {**shown, "unit": value.unit}

    def schema(self) -> Schema:
        """A reference to the one definition of lengths."""
        return {"$ref": "#/$defs/length"}


LENGTH_SCHEMA: Schema = {
    "description": (
        "A length: as a person wrote it beside its exact millimetres, or worked out and so in millimetres "
        "alone. A plain text or a bare number is read as written, a bare number in the build's unit."
    ),
    "examples": [{"written": "1 3/4 in", "mm": "44.45"}, {"mm": "6"}, "1 3/4 in", 44.45],
    "anyOf": [
        {
            "type": "object",
            "properties": {
                "written": {"type": "string", "maxLength": 64, "description": "The text as it was written."},
                "mm": {
                    "description": "Exact millimetres, to at most 7 places.",
                    "anyOf": [{"type": "string", "pattern": f"^{_MM.pattern}$"}, {"type": "number"}],
                },
                "unit": {
                    "enum": ["mm", "in"],
                    "description": "What a bare number meant, where that is not the build's unit.",
                },
            },
            "anyOf": [{"required": ["written"]}, {"required": ["mm"]}],
            "additionalProperties": False,
        },
        {"type": "string", "maxLength": 64},
        {"type": "number"},
    ],
}
