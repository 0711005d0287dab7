"""No value of one kind passes for another, and every limit is told with the input that it binds."""

from __future__ import annotations

import re
from collections.abc import Iterator

import pytest

from buildlog.plain_files import sentence
from calculators.calculation import Calculator, Input
from calculators.calculation.reading import read_input, read_inputs
from calculators.catalogue import all_calculators
from calculators.quantities.errors import InputError
from calculators.quantities.units import named_unit, units_of
from tests.calculation.plausible import MEASURED, number_text

EVERY = {each.name: each for each in all_calculators()}
OWN_READERS = {"joint"}
"""What reads its inputs itself has tests of its own."""


def measured_inputs(calculator: Calculator) -> Iterator[tuple[str, Input]]:
    """Every input that is measured, the members of rows among them, with its place."""
    for each in calculator.inputs:
        if each.kind in (*MEASURED, "integer"):
            yield each.name, each
        if each.kind == "rows":
            yield from (
                (f"{each.name}[0].{member.name}", member)
                for member in each.members
                if member.kind in (*MEASURED, "integer")
            )


def kind_of(each: Input) -> str:
    return named_unit("mm" if each.kind == "length" else each.unit or "1").measures


def unit_of(each: Input) -> str:
    return "mm" if each.kind == "length" else each.unit or "1"


CHECKED = [each for each in EVERY.values() if each.name not in OWN_READERS and any(measured_inputs(each))]


@pytest.mark.parametrize("calculator", CHECKED, ids=lambda each: each.name)
def test_a_value_of_another_kind_is_refused(calculator: Calculator) -> None:
    measured = list(measured_inputs(calculator))
    for path, each in measured:
        others = {unit_of(other): other for _, other in measured if kind_of(other) != kind_of(each)}
        # Beside the kinds of its own neighbours, a few that are easily mixed up.
        for unit in {*others, "mm", "N", "kg", "deg", "MPa", "N m"}:
            if unit == "1" or named_unit(unit).measures == kind_of(each):
                continue
            # A spread may be so many percent of anything.
            spreads = () if unit == "%" else (f"5 ± 0.1 {unit}",)
            for text in (f"5 {unit}", f"0.5{unit}", *spreads):
                refused_in_row(calculator, path, each, text)
                with pytest.raises(InputError) as caught:
                    read_input(each, text.replace(" ± 0.1", ""))
                assert all(fault.says.endswith(".") for fault in caught.value.faults)


def refused_in_row(calculator: Calculator, path: str, each: Input, text: str) -> None:
    """The whole reading refuses it too, at its own place."""
    name, bracket, _ = path.partition("[")
    given: dict[str, object] = {
        name: [{each.name: text}] * max(1, int(calculator.input(name).minimum or 0)) if bracket else text
    }
    with pytest.raises(InputError) as caught:
        read_inputs(calculator, given)
    assert path in {fault.field for fault in caught.value.faults}, (path, text)


def just_beyond(each: Input) -> Iterator[tuple[float, float]]:
    """Values just beyond the limits, each with its limit."""
    if each.above is not None:
        yield each.above, each.above
    elif each.minimum is not None:
        yield (
            each.minimum - (1 if each.kind == "integer" else max(abs(each.minimum) * 0.01, 0.01)),
            each.minimum,
        )
    if each.maximum is not None:
        yield each.maximum + (1 if each.kind == "integer" else abs(each.maximum) * 0.01 + 0.01), each.maximum


@pytest.mark.parametrize("calculator", CHECKED, ids=lambda each: each.name)
def test_every_refusal_names_its_input_and_the_limit(calculator: Calculator) -> None:
    for path, each in measured_inputs(calculator):
        for value, limit in just_beyond(each):
            with pytest.raises(InputError) as caught:
                read_input(each, number_text(value))
            (fault,) = caught.value.faults
            assert fault.field == each.name, path
            assert re.search(rf"\b{each.name}\b", sentence(fault)), path
            numbers = {float(word) for word in re.findall(r"-?\d+(?:\.\d+)?(?:e[+-]?\d+)?", fault.says)}
            assert any(abs(number - limit) <= 1e-6 * max(1.0, abs(limit)) for number in numbers), (
                path,
                fault.says,
            )
            assert fault.limit == limit or abs((fault.limit or 0.0) - limit) <= 1e-9 * abs(limit), (
                path,
                fault,
            )


@pytest.mark.parametrize("calculator", CHECKED, ids=lambda each: each.name)
def test_on_the_limit_is_within_and_a_limit_is_finite(calculator: Calculator) -> None:
    for path, each in measured_inputs(calculator):
        for limit in (each.minimum if each.above is None else None, each.maximum):
            if limit is not None:
                assert read_input(each, number_text(limit)) is not None, path
        assert each.kind == "integer" or each.maximum is not None, f"{path} has no greatest value"


def test_every_kind_that_is_declared_has_units_to_be_written_in() -> None:
    for calculator in CHECKED:
        for path, each in measured_inputs(calculator):
            assert unit_of(each) in units_of(kind_of(each)), path
