"""Moisture: what wood comes to in a room, which room gives a moisture, and a sample's weighing."""

from __future__ import annotations

from functools import partial

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.materials.moisture import (
    LEAST_C,
    MOST_C,
    equilibrium_moisture_percent,
    humidity_percent_for,
    weighed_moisture_percent,
)
from calculators.quantities.errors import Fault, InputError

_BOOK = "USDA Wood Handbook, eq. 4-5 (Hailwood and Horrobin, Simpson's coefficients), from memory"
_ROOMS = "centrally heated rooms: 8 to 12 % in Britain, 6 to 8 % in dry interiors (common practice)"


def _moisture(given: Given) -> Result:
    celsius = given.number("temperature")
    humidity, wanted = given.number_or_none("humidity"), given.number_or_none("moisture")
    wet, dry = given.number_or_none("wet_mass"), given.number_or_none("oven_dry_mass")
    if (wet is None) != (dry is None):
        field = "oven_dry_mass" if dry is None else "wet_mass"
        raise InputError.of("Weighing needs both wet_mass and oven_dry_mass; write both.", field=field)
    if humidity is None and wanted is None and wet is None:
        raise InputError(
            Fault("Write one of humidity, moisture, or wet_mass with oven_dry_mass.", "humidity")
        )
    if humidity is not None and wanted is not None:
        raise InputError.of(
            "Write humidity or moisture, not both; the other is worked out.", field="moisture"
        )
    results: dict[str, Value] = {}
    working: list[Step] = []
    warnings: list[str] = []
    comes_to = wanted
    if wet is not None and dry is not None:
        if wet < dry:
            says = (
                f"The wet_mass of {number_text(wet)} g is less than the oven_dry_mass of "
                f"{number_text(dry)} g; write the mass before drying first."
            )
            raise InputError.of(says, field="wet_mass", value=wet, limit=dry, unit="g")
        holds = weighed_moisture_percent(wet, dry)
        numbers = f"({number_text(wet)} g - {number_text(dry)} g) / {number_text(dry)} g x 100"
        working.append(
            Step(
                "M now",
                "(wet - dry) / dry x 100",
                numbers,
                holds,
                "%",
                "USDA Wood Handbook ch. 4, from memory",
            )
        )
        results |= named(moisture_weighed=holds)
    if humidity is not None:
        comes_to = equilibrium_moisture_percent(celsius, humidity)
        working += _equilibrium_steps(celsius, humidity, comes_to)
        results |= named(moisture_content=comes_to, humidity=humidity)
        if humidity > 85:
            warnings.append("Above 85 % humidity the formula and the wood itself are less sure.")
    elif wanted is not None:
        found = humidity_percent_for(celsius, wanted)
        if found is None:
            most = equilibrium_moisture_percent(celsius, 99)
            says = f"A moisture of {number_text(wanted)} % is not reached in air; write at most {most:.1f} %."
            raise InputError.of(says, field="moisture", value=wanted, limit=most, unit="%")
        working += _equilibrium_steps(celsius, found, wanted)
        results |= named(moisture_content=wanted, humidity=found)
    if wet is not None and dry is not None and comes_to is not None:
        change = comes_to - weighed_moisture_percent(wet, dry)
        results |= named(moisture_change=change)
        working.append(Step("change", "M in that room - M now", "", change, "%"))
    return Result(results, tuple(working), tuple(warnings))


def _equilibrium_steps(celsius: float, humidity: float, moisture: float) -> list[Step]:
    t, h = celsius, humidity / 100
    w = 349 + 1.29 * t + 0.0135 * t**2
    k = 0.805 + 0.000736 * t - 0.00000273 * t**2
    k1 = 6.27 - 0.00938 * t - 0.000303 * t**2
    k2 = 1.91 + 0.0407 * t - 0.000293 * t**2
    d, shown = number_text, number_text(t) if t >= 0 else f"({number_text(t)})"
    formula = "1800/W (K h/(1 - K h) + (K1 K h + 2 K1 K2 K^2 h^2)/(1 + K1 K h + K1 K2 K^2 h^2))"
    kh, b, c = d(k * h), d(k1 * k * h), d(k1 * k2 * (k * h) ** 2)
    numbers = f"1800/{d(w)} x ({kh}/(1 - {kh}) + ({b} + 2 x {c})/(1 + {b} + {c}))"
    return [
        Step(
            "W",
            "349 + 1.29 t + 0.0135 t^2",
            f"349 + 1.29 x {shown} + 0.0135 x {shown}^2",
            w,
            "",
            f"t = {number_text(t)} degC",
        ),
        Step(
            "K",
            "0.805 + 0.000736 t - 0.00000273 t^2",
            f"0.805 + 0.000736 x {shown} - 0.00000273 x {shown}^2",
            k,
            "",
        ),
        Step(
            "K1",
            "6.27 - 0.00938 t - 0.000303 t^2",
            f"6.27 - 0.00938 x {shown} - 0.000303 x {shown}^2",
            k1,
            "",
        ),
        Step(
            "K2", "1.91 + 0.0407 t - 0.000293 t^2", f"1.91 + 0.0407 x {shown} - 0.000293 x {shown}^2", k2, ""
        ),
        Step("M", formula, numbers, moisture, "%", f"h = {number_text(h, 4)}; {_BOOK}"),
    ]


_mass = partial(Input, kind="quantity", unit="g", above=0, maximum=1e6, optional=True)

MOISTURE = Calculator(
    name="moisture",
    summary="The moisture content that wood comes to in a room, or the humidity that keeps it where it is.",
    purpose="Material and cost",
    inputs=(
        Input(
            name="temperature",
            help="the air's temperature",
            kind="quantity",
            unit="degC",
            default="20 degC",
            minimum=LEAST_C,
            maximum=MOST_C,
        ),
        Input(
            name="humidity",
            help="the air's relative humidity; or write moisture instead",
            kind="quantity",
            unit="%",
            minimum=0,
            maximum=99,
            optional=True,
            example="55 %",
        ),
        Input(
            name="moisture",
            help="the moisture content to be kept; the humidity for it is worked out",
            kind="quantity",
            unit="%",
            above=0,
            maximum=30,
            optional=True,
            example="9 %",
        ),
        _mass(name="wet_mass", help="mass of a sample as it is"),
        _mass(name="oven_dry_mass", help="its mass after the oven (103 degC until it loses no more)"),
    ),
    outputs=("moisture_content", "humidity", "moisture_weighed", "moisture_change"),
    work=_moisture,
    sources=(_BOOK, _ROOMS),
    example={"temperature": "20 degC", "humidity": "55 %", "wet_mass": "112 g", "oven_dry_mass": "100 g"},
)
