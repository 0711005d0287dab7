"""Kinds that hold others: a record of named fields, a list, a table of names; and their declaration."""

from __future__ import annotations

from collections.abc import Iterable
from dataclasses import MISSING, Field, dataclass, fields
from typing import Any

from calculators.planning.buildfile.collecting import Collector
from calculators.planning.buildfile.kinds import (
    Kind,
    Schema,
    Text,
    check_repeating,
    is_mark,
    kind_of_json,
    near_names,
)
from calculators.planning.buildfile.parsing import NumberText
from calculators.planning.model import Unit
from calculators.quantities.marks import quoted


@dataclass(frozen=True, slots=True)
class Declared:
    """One field of a record: its kind, what it is, an example of its JSON."""

    kind: Kind
    says: str
    example: Any = None


_NONE = object()


class Record(Kind):
    """An object whose names are the fields of a dataclass, in its order; defaults are left out.

    `always` names fields that are written even at their default.
    """

    def __init__(self, make: type, says: str, /, always: tuple[str, ...] = (), **declared: Declared) -> None:
        found: dict[str, Field[Any]] = {one.name: one for one in fields(make)}
        if list(found) != list(declared):
            raise TypeError(f"{make.__name__} declares {list(declared)}, but has {list(found)}")
        self.make, self.says, self.declared, self.always = make, says, declared, frozenset(always)
        self.names = tuple(declared)
        self.defaults = {name: _default(one) for name, one in found.items()}
        self.required = tuple(name for name, default in self.defaults.items() if default is _NONE)

    def read(self, raw: Any, at: str, collector: Collector, extra: tuple[str, ...] = ()) -> Any:
        """Read an object; `extra` names what else may stand in it and was read elsewhere."""
        if not isinstance(raw, dict):
            collector.fault(at, f"Here stands an object of {', '.join(self.names)}, not {kind_of_json(raw)}.")
            raw = {}
        else:
            self._check_names(raw, at, collector, extra)
        prefix = f"{at}." if at else ""
        values = {}
        for name, one in self.declared.items():
            if name in raw:
                values[name] = one.kind.read(raw[name], prefix + name, collector)
        return self._made(values)

    def _made(self, values: dict[str, Any]) -> Any:
        """Make the record, with something harmless where a required value is missing (a fault is noted)."""
        for name in self.required:
            if name not in values:
                values[name] = self.declared[name].kind.read(_EMPTY, "", Collector())
        return self.make(**values)

    def _check_names(
        self, raw: dict[str, Any], at: str, collector: Collector, extra: tuple[str, ...]
    ) -> None:
        check_repeating(raw, at, collector)
        for name in self.required:
            if name not in raw:
                collector.fault(
                    at, f"There is no {quoted(name)} here, which must be given: {self.declared[name].says}."
                )
        if raw.keys() <= self.declared.keys():
            return
        for name in raw:
            if name not in self.declared and name not in extra:
                if collector.full:
                    collector.fault(at, "")
                    continue
                near = near_names(name, self.names)
                meant = (
                    f"did you mean {' or '.join(near)}?" if near else f"there are {', '.join(self.names)}."
                )
                collector.fault(at, f"Nothing here is called {quoted(name)}; {meant}", near or self.names)

    def write(self, value: Any, unit: Unit) -> Schema:
        """Write the fields that say something, in their order."""
        shown: Schema = {}
        for name, one in self.declared.items():
            found = getattr(value, name)
            if found != self.defaults[name] or name in self.always:
                shown[name] = one.kind.write(found, unit)
        return shown

    def schema(self) -> Schema:
        """A reference to this record's definition."""
        return {"$ref": f"#/$defs/{self.name}"}

    @property
    def name(self) -> str:
        """The name of its definition."""
        return self.make.__name__[0].lower() + self.make.__name__[1:]

    def definition(self) -> Schema:
        """The whole definition: every field with what it is, its default and an example."""
        return {
            "description": self.says,
            "type": "object",
            "properties": {name: self._property(name, one) for name, one in self.declared.items()},
            "required": list(self.required),
            "additionalProperties": False,
        }

    def _property(self, name: str, one: Declared) -> Schema:
        found = {"description": one.says[0].upper() + one.says[1:] + ".", **one.kind.schema()}
        default = self.defaults[name]
        if default is not _NONE and default is not None and not isinstance(one.kind, Record):
            found["default"] = one.kind.write(default, "mm")
        if one.example is not None:
            found["examples"] = [one.example]
        return found

    def inner(self) -> Iterable[Record]:
        """This record and all that it holds, at any depth, each once."""
        seen: dict[str, Record] = {}
        waiting = [self]
        while waiting:
            record = waiting.pop()
            if record.name not in seen:
                seen[record.name] = record
                held = (
                    one.kind.kind if isinstance(one.kind, Many) else one.kind
                    for one in record.declared.values()
                )
                waiting.extend(kind for kind in held if isinstance(kind, Record))
        return seen.values()


_EMPTY = NumberText("")


def _default(one: Field[Any]) -> Any:
    if one.default is not MISSING:
        return one.default
    return _NONE if one.default_factory is MISSING else one.default_factory()


class Many(Kind):
    """A list of one kind, of bounded length; a record's mark or id is shown beside its place."""

    def __init__(self, kind: Kind, most: int) -> None:
        self.kind, self.most = kind, most
        self.label = next((name for name in ("mark", "id") if name in getattr(kind, "names", ())), "")

    def read(self, raw: Any, at: str, collector: Collector) -> tuple[Any, ...]:
        """Read a list."""
        if not isinstance(raw, list):
            collector.fault(at, f"Here stands a list in square brackets, not {kind_of_json(raw)}.")
            return ()
        if len(raw) > self.most:
            says = f"This list has {len(raw):,} entries; it may have {self.most:,}."
            collector.fault(at, says, value=float(len(raw)), limit=float(self.most))
            return ()
        return tuple([self.kind.read(one, self._place(at, i, one), collector) for i, one in enumerate(raw)])

    def _place(self, at: str, index: int, raw: Any) -> str:
        if self.label and isinstance(raw, dict):
            mark = raw.get(self.label)
            if isinstance(mark, str) and is_mark(mark, 40):
                return f"{at}[{index}] ({mark})"
        return f"{at}[{index}]"

    def write(self, value: Any, unit: Unit) -> list[Any]:
        """Write a list."""
        return [self.kind.write(one, unit) for one in value]

    def schema(self) -> Schema:
        """An array."""
        return {"type": "array", "items": self.kind.schema(), "maxItems": self.most}


class Table(Kind):
    """Names with a value each, a JSON object; kept as pairs in the order written."""

    def __init__(self, kind: Kind, most: int) -> None:
        self.kind, self.most, self.names = kind, most, Text(100, least=1)

    def read(self, raw: Any, at: str, collector: Collector) -> tuple[tuple[str, Any], ...]:
        """Read an object of names."""
        if not isinstance(raw, dict):
            collector.fault(at, f"Here stands an object of names with a value each, not {kind_of_json(raw)}.")
            return ()
        check_repeating(raw, at, collector)
        if len(raw) > self.most:
            says = f"This object has {len(raw):,} names; it may have {self.most:,}."
            collector.fault(at, says, value=float(len(raw)), limit=float(self.most))
            return ()
        pairs = []
        for i, (name, value) in enumerate(raw.items()):
            place = f"{at}[{quoted(name)}]" if name.isprintable() else f"{at}[{i}]"
            pairs.append((self.names.read(name, place, collector), self.kind.read(value, place, collector)))
        return tuple(pairs)

    def write(self, value: Any, unit: Unit) -> Schema:
        """Write an object."""
        return {name: self.kind.write(one, unit) for name, one in value}

    def schema(self) -> Schema:
        """An object of any names."""
        names = {"minLength": 1, "maxLength": 100}
        return {
            "type": "object",
            "propertyNames": names,
            "additionalProperties": self.kind.schema(),
            "maxProperties": self.most,
        }
