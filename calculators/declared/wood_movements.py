"""Wood movement: how far a board moves across its grain through the seasons, and the slot that lets it."""

from __future__ import annotations

from functools import partial

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.materials import Material, find_material, movement_coefficient
from calculators.materials.moisture import (
    FIBRE_SATURATION_PERCENT,
    HANDBOOK_RANGE_PERCENT,
    LEAST_C,
    MOST_C,
    equilibrium_moisture_percent,
    moved_mm,
)
from calculators.quantities.errors import InputError

_EMC = "USDA Wood Handbook, eq. 4-5 (Hailwood and Horrobin, Simpson's coefficients), from memory"
_MOVE = "USDA Wood Handbook, eq. 13-2 (from memory) with Table 13-5"
_IGNORED_MM = 100.0


def _movement(given: Given) -> Result:
    width, cut = given.mm("width"), given.text("cut")
    coefficient, coefficient_step, warnings = _coefficient(given, cut)
    working: list[Step] = [coefficient_step]
    first = _moisture_at(given, "from", working)
    second = _moisture_at(given, "to", working)
    change = moved_mm(width, coefficient, first, second)
    numbers = (
        f"{number_text(width)} mm x {number_text(coefficient)} x ({number_text(second, 4)} - "
        f"{number_text(first, 4)})"
    )
    working.append(Step("movement", "D C (M2 - M1)", numbers, change, "mm", _MOVE))
    results = named(movement=change, width_after=width + change, movement_coefficient=coefficient)
    fixed = given.mm_or_none("fixed_at")
    far = width / 2 if fixed is None else max(fixed, width - fixed)
    if fixed is not None and fixed > width:
        says = (
            f"The fixed_at of {number_text(fixed)} mm lies beyond the width of {number_text(width)} mm; "
            "write where it is held, from one edge."
        )
        raise InputError.of(says, field="fixed_at", value=fixed, limit=width, unit="mm")
    edge = abs(change) * far / width
    working.append(
        Step(
            "at the edge",
            "movement x (distance from where it is held) / width",
            f"{number_text(abs(change))} mm x {number_text(far)} mm / {number_text(width)} mm",
            edge,
            "mm",
        )
    )
    results |= named(edge_movement=edge)
    screw, hole = given.mm_or_none("screw"), given.mm_or_none("hole")
    if screw is not None:
        results |= _slot(screw, hole, edge, working, warnings)
    elif hole is not None:
        raise InputError.of("A hole needs its screw; write the screw's diameter too.", field="screw")
    if width < _IGNORED_MM:
        warnings.append("Below about 100 mm across the grain movement is usually let be (common practice).")
    low, high = HANDBOOK_RANGE_PERCENT
    if min(first, second) < low or max(first, second) > high:
        warnings.append(
            f"The coefficients hold from {low:g} to {high:g} % moisture; beyond that it is an estimate."
        )
    return Result(results, tuple(working), tuple(warnings))


def _slot(
    screw: float, hole: float | None, edge: float, working: list[Step], warnings: list[str]
) -> dict[str, Value]:
    """The slot that a screw needs at the far edge, and whether a hole that is there already will do."""
    bore = hole if hole is not None else screw
    if bore < screw:
        says = (
            f"The hole of {number_text(bore)} mm is smaller than the screw of {number_text(screw)} mm; "
            "write a hole that the screw passes."
        )
        raise InputError.of(says, field="hole", value=bore, limit=screw, unit="mm")
    slot = screw + 2 * edge
    working.append(
        Step(
            "slot",
            "screw + 2 x movement at the edge",
            f"{number_text(screw)} mm + 2 x {number_text(edge)} mm",
            slot,
            "mm",
            "common practice",
        )
    )
    free = (bore - screw) / 2
    if hole is not None and edge > free:
        warnings.append(
            f"The hole lets the screw move {number_text(free, 3)} mm and the wood moves "
            f"{number_text(edge, 3)} mm there: make it a slot {number_text(slot, 4)} mm long or longer."
        )
    return named(slot_length=slot)


def _coefficient(given: Given, cut: str) -> tuple[float, Step, list[str]]:
    typed, species = given.number_or_none("coefficient"), given.text_or_none("species")
    if typed is not None:
        return typed, Step("C", "as given", "", typed, "", ""), []
    if species is None:
        raise InputError.of("Write the species, or the coefficient of movement.", field="species")
    wood = find_material(species, field="species")
    value = wood.movement_tangential if cut == "flat" else wood.movement_radial
    if value is None:
        says = f"How {wood.name} moves is not known here; write its coefficient instead."
        raise InputError.of(says, field="species")
    face = "flat-sawn, tangential" if cut == "flat" else "quarter-sawn, radial"
    source = next((text for text in wood.sources if text.startswith("movement")), "")
    return value, Step("C", f"{wood.name}, {face}", "", value, "", source), _second_opinion(wood, cut, value)


def _second_opinion(wood: Material, cut: str, value: float) -> list[str]:
    """A warning where the coefficient and the one from total shrinkage differ by much."""
    shrinkage = wood.shrinkage_tangential_percent if cut == "flat" else wood.shrinkage_radial_percent
    if shrinkage is None:
        return []
    other = movement_coefficient(shrinkage)
    if abs(other - value) <= 0.1 * value:
        return []
    return [
        f"The handbook's shrinkage of {number_text(shrinkage)} % gives a coefficient of "
        f"{number_text(other, 3)}, its table of movement {number_text(value, 3)}."
    ]


def _moisture_at(given: Given, side: str, working: list[Step]) -> float:
    """The moisture at one end of the season: typed, or what the wood comes to in a room."""
    moisture, humidity = given.number_or_none(f"{side}_moisture"), given.number_or_none(f"{side}_humidity")
    if (moisture is None) == (humidity is None):
        both = "not both" if moisture is not None else "one of them is needed"
        says = f"Write {side}_moisture or {side}_humidity; {both}."
        raise InputError.of(says, field=f"{side}_moisture")
    symbol = "M1" if side == "from" else "M2"
    if moisture is not None:
        working.append(Step(symbol, "as given", "", moisture, "%"))
        return moisture
    celsius = given.number("temperature")
    assert humidity is not None
    found = equilibrium_moisture_percent(celsius, humidity)
    numbers = f"{number_text(celsius)} degC, {number_text(humidity)} %"
    working.append(Step(symbol, "equilibrium moisture", f"at {numbers}", found, "%", _EMC))
    return found


_moisture_input = partial(
    Input, kind="quantity", unit="%", minimum=0, maximum=FIBRE_SATURATION_PERCENT, optional=True
)
_humidity_input = partial(Input, kind="quantity", unit="%", minimum=0, maximum=99, optional=True)

WOOD_MOVEMENT = Calculator(
    name="wood-movement",
    summary="How far wood moves across its grain when its moisture changes, and the slot that a screw needs.",
    purpose="Material and cost",
    either=(("from_moisture", "from_humidity"), ("to_moisture", "to_humidity")),
    inputs=(
        Input(
            name="width",
            help="the width across the grain",
            kind="length",
            unit="mm",
            above=0,
            maximum=10_000,
            example="450 mm",
        ),
        Input(name="species", help="the wood", kind="text", optional=True, example="white oak"),
        Input(
            name="cut",
            help="how the board was sawn: flat moves most",
            kind="choice",
            choices=("flat", "quarter"),
            synonyms=(
                ("flat-sawn", "flat"),
                ("plain-sawn", "flat"),
                ("through-and-through", "flat"),
                ("quarter-sawn", "quarter"),
                ("quartersawn", "quarter"),
                ("tangential", "flat"),
                ("radial", "quarter"),
            ),
            default="flat",
        ),
        _moisture_input(name="from_moisture", help="moisture content when it is made", example="8 %"),
        _moisture_input(name="to_moisture", help="moisture content that it comes to", example="12 %"),
        _humidity_input(name="from_humidity", help="or the humidity of the room where it is made"),
        _humidity_input(name="to_humidity", help="or the humidity of the room where it comes to stand"),
        Input(
            name="temperature",
            help="temperature of those rooms",
            kind="quantity",
            unit="degC",
            default="20 degC",
            minimum=LEAST_C,
            maximum=MOST_C,
        ),
        Input(
            name="fixed_at",
            help="where it is held, from one edge; without it in the middle",
            kind="length",
            unit="mm",
            minimum=0,
            maximum=10_000,
            optional=True,
        ),
        Input(
            name="screw",
            help="diameter of a screw at the far edge",
            kind="length",
            unit="mm",
            above=0,
            maximum=50,
            optional=True,
            example="4.2 mm",
        ),
        Input(
            name="hole",
            help="the round hole that it passes now",
            kind="length",
            unit="mm",
            above=0,
            maximum=100,
            optional=True,
        ),
        Input(
            name="coefficient",
            help="the wood's movement for each percent of moisture, as a fraction, where you know your own",
            kind="number",
            above=0,
            maximum=0.02,
            optional=True,
        ),
    ),
    outputs=("movement", "width_after", "movement_coefficient", "edge_movement", "slot_length"),
    work=_movement,
    sources=(_MOVE, _EMC, "slot: screw and movement each way (common practice)"),
    example={
        "width": "450 mm",
        "species": "white oak",
        "from_moisture": "8 %",
        "to_moisture": "12 %",
        "screw": "4.2 mm",
    },
)
