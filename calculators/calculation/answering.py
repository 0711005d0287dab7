"""Running a calculator and writing its answer: as one JSON object, as a worked example, as help."""

from __future__ import annotations

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import replace

from calculators.calculation.declaration import Calculator, Input
from calculators.calculation.picture import Picture
from calculators.calculation.reading import read_input, read_inputs
from calculators.calculation.result import Plain, Result, Value, cleaned, spread_text
from calculators.calculation.rows import rows_in_words
from calculators.calculation.spreads import with_spreads
from calculators.calculation.strict_json import read_json
from calculators.quantities.nomenclature import result_name

_COLUMN = 40
"""The widest column of a table; longer cells stand on lines of their own or push their row."""


def answer(calculator: Calculator, given: Mapping[str, object]) -> Result:
    """Read the inputs and work out the result.

    Args:
        calculator: the calculator.
        given: the inputs by name, as people write them or as JSON values.

    Returns:
        The result; its sources are the calculator's own where the work names none.

    Raises:
        InputError: with a fault for each thing that is wrong with the inputs.

    Source: this project.
    """
    read = read_inputs(calculator, given)
    result = with_spreads(calculator, read, calculator.work(read))
    values = {name: replace(one, value=cleaned(one.value)) for name, one in result.results.items()}
    warnings = tuple(dict.fromkeys((*result.warnings, *calculator.cautions)))
    sources = tuple(dict.fromkeys(result.sources or calculator.sources))
    return Result(values, result.working, warnings, sources)


def as_json(calculator: Calculator, given: Mapping[str, object], result: Result) -> dict[str, object]:
    """The answer as one JSON object.

    Args:
        calculator: the calculator.
        given: the inputs as they were given.
        result: what it answered.

    Returns:
        `calculator`, `inputs`, `results` (each a value with its unit), `working`, `warnings`, `sources`.

    Source: this project.
    """
    return {
        "calculator": calculator.name,
        "inputs": {
            name: _echoed(calculator, name, value) for name, value in given.items() if value is not None
        },
        "results": {name: _with_unit(one) for name, one in result.results.items()},
        "working": [step.line for step in result.working],
        "warnings": list(result.warnings),
        "sources": list(result.sources),
    }


def _with_unit(one: Value) -> dict[str, Plain]:
    spread = {} if one.spread is None else {"spread": cleaned(one.spread)}
    return {"value": one.value, "unit": one.unit, **spread}


def pictures_of(calculator: Calculator, given: Mapping[str, object], result: Result) -> tuple[Picture, ...]:
    """Draw the pictures that go with a result.

    Args:
        calculator: the calculator.
        given: the inputs as they were given, which it could work with.
        result: what it answered.

    Returns:
        Its pictures; none where it draws none.

    Source: this project.
    """
    if calculator.draw is None:
        return ()
    return tuple(calculator.draw(read_inputs(calculator, given), result))


def _echoed(calculator: Calculator, name: str, value: object) -> object:
    """An input as it was given; JSON that came as a text is shown as the JSON that it holds."""
    each = calculator.input(name)
    if each.kind == "rows" and isinstance(value, str) and value.lstrip().startswith(("[", "{")):
        return read_json(value)
    return read_input(each, value) if each.kind == "json" and value != "" else value


def as_text(calculator: Calculator, given: Mapping[str, object], result: Result) -> str:
    """The answer as a worked example, as a handbook sets one out.

    Args:
        calculator: the calculator.
        given: the inputs as they were given.
        result: what it answered.

    Returns:
        Lines of text: given, results, working, warnings, sources.

    Source: this project.
    """
    used = [(each.label, _shown_input(calculator, each, given.get(each.name))) for each in calculator.inputs]
    values = [row for name, one in result.results.items() for row in _rows_of(name, one)]
    parts = [
        [f"{calculator.name}: {calculator.summary}"],
        ["Given", *_aligned(row for row in used if row[1])],
        ["Results", *_aligned(values)],
        ["Working", *(f"  {step.line}" for step in result.working)],
        ["Mind", *(f"  {says}" for says in result.warnings)],
        ["Sources", *(f"  {source}" for source in result.sources)],
    ]
    return "\n\n".join("\n".join(part) for part in parts if len(part) > 1 or part is parts[0])


def _shown_input(calculator: Calculator, each: Input, raw: object) -> str:
    if raw is None or raw == "":
        return f"{each.default} (unless told otherwise)" if each.default is not None else ""
    if each.kind == "rows" and not calculator.own_reader:
        return "; ".join(rows_in_words(each, raw))
    if isinstance(raw, Mapping | list):
        return "as given"
    if isinstance(raw, bool):
        return "yes" if raw else "no"
    bare = isinstance(raw, int | float) and each.unit not in ("", "1") and not calculator.own_reader
    return f"{raw} {each.unit}" if bare else str(raw)


def _rows_of(name: str, one: Value) -> Iterable[tuple[str, str, str]]:
    """The lines of one result: one for a plain value, one for each member of a list."""
    meaning = result_name(name)
    if isinstance(one.value, Sequence) and not isinstance(one.value, str) and not one.shown:
        lines = [_shown(item, one.unit) for item in one.value]
    else:
        lines = (one.shown or _shown(one.value, one.unit, one.spread)).splitlines()
    if len(lines) == 1 and len(lines[0]) <= _COLUMN:
        yield meaning.label, lines[0], meaning.description
        return
    yield meaning.label, "" if lines else "none", meaning.description
    for line in lines:
        yield "", line, ""


def _shown(value: Plain, unit: str, spread: float | None = None) -> str:
    if value is None:
        return "none"
    if isinstance(value, bool):
        return "yes" if value else "no"
    if isinstance(value, int | float):
        return f"{spread_text(value, spread)} {unit if unit != '1' else ''}".rstrip()
    if isinstance(value, str):
        return value
    if isinstance(value, Mapping):
        pairs = [
            (key.replace("_", " "), item) for key, item in value.items() if item not in (None, "", [], ())
        ]
        return "; ".join(f"{key} {_shown(item, '')}" for key, item in pairs)
    return ", ".join(_shown(item, unit) for item in value)


def _aligned(rows: Iterable[tuple[str, ...]]) -> list[str]:
    """Set rows in columns, two spaces apart; a cell too wide for its column pushes only its own row."""
    table = [tuple(cell for cell in row) for row in rows]
    if not table:
        return []
    wide = [max(min(len(row[place]), _COLUMN) for row in table) for place in range(len(table[0]))]
    lines = ("  ".join(cell.ljust(width) for cell, width in zip(row, wide, strict=True)) for row in table)
    return [f"  {line}".rstrip() for line in lines]


def help_text(calculator: Calculator) -> str:
    """What a calculator takes and gives: inputs with units and limits, results, an example.

    Args:
        calculator: the calculator.

    Returns:
        Lines of text.

    Source: this project.
    """
    outputs = [
        (name, "" if name in calculator.varying else result_name(name).unit, result_name(name).description)
        for name in calculator.outputs
    ]
    example = " ".join(f"{name}={_shell(value)}" for name, value in (calculator.example or {}).items())
    parts = [
        [f"{calculator.name}: {calculator.summary}"],
        ["Inputs", *_explained(calculator.inputs, "  ")],
        ["Results", *_aligned(outputs)],
        ["Example", f"  manage.py calc {calculator.name} {example}"] if example else [],
        ["Mind", *(f"  {says}" for says in calculator.cautions)] if calculator.cautions else [],
        ["Sources", *(f"  {source}" for source in calculator.sources)],
    ]
    return "\n\n".join("\n".join(part) for part in parts if part)


def _explained(inputs: Sequence[Input], indent: str) -> Iterable[str]:
    """Two lines for each input, and further in the same for the keys of its objects."""
    wide = max((len(each.name) for each in inputs), default=0)
    for each in inputs:
        yield f"{indent}{each.name.ljust(wide)}  {each.help}"
        yield f"{indent}{' ' * wide}  {_accepts(each)}"
        yield from _explained(each.members, f"{indent}    ")


def _accepts(each: Input) -> str:
    """What an input takes, on one line: kind, unit, limits, choices, default, example."""
    bare = f"; a bare number is in {each.unit}" if each.unit not in ("", "1") else ""
    kinds = {
        "integer": "whole number",
        "json": "JSON",
        "rows": "rows: a JSON list of objects, or a row a line or after a semicolon, values after commas",
        "flag": "yes or no",
        "choice": f"one of {', '.join(each.choices)}",
    }
    parts = [f"{kinds.get(each.kind, each.kind)}{bare}", each.limits]
    parts.append(f"default {each.default}" if each.default is not None else "")
    parts.append("may be left out" if each.optional and each.default is None else "")
    parts.append(f"written as {each.example}" if each.example else "")
    return "; ".join(part for part in parts if part)


def _shell(value: str) -> str:
    """A value as a shell takes it."""
    if not any(sign in value for sign in " \"'{}[]&|;<>*?$#()\\"):
        return value
    return "'" + value.replace("'", "'\\''") + "'"
