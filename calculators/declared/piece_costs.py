"""Piece cost: what a piece costs from its stock, its hours and what is added."""

from __future__ import annotations

from fractions import Fraction
from functools import partial

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.materials.costs import LARGEST, read_money, rounded_money
from calculators.quantities.errors import Fault, InputError

_SOLD_BY: dict[str, tuple[str, Fraction]] = {
    # How many mm, mm2, mm3 or g there are in what the price is for.
    "piece": ("", Fraction(1)),
    "metre": ("length", Fraction(1000)),
    "foot": ("length", Fraction(3048, 10)),
    "square metre": ("area", Fraction(10**6)),
    "square foot": ("area", Fraction(3048, 10) ** 2),
    "cubic metre": ("volume", Fraction(10**9)),
    "cubic foot": ("volume", Fraction(3048, 10) ** 3),
    "board foot": ("volume", 144 * Fraction(254, 10) ** 3),
    "kilogram": ("mass", Fraction(1000)),
    "pound": ("mass", Fraction(45359237, 100000)),
}
"""What stock is sold by: what is measured of it, and how much of that the price is for (NIST SP 811)."""

_SPELT = (
    *((name.replace(" ", "-"), name) for name in _SOLD_BY if " " in name),
    *(("kg", "kilogram"), ("lb", "pound"), ("m", "metre"), ("ft", "foot"), ("m2", "square metre")),
    *(("m3", "cubic metre"), ("bd-ft", "board foot"), ("each", "piece"), ("meter", "metre")),
)

_SIZES = {
    "": (),
    "length": ("length",),
    "area": ("length", "width"),
    "volume": ("length", "width", "thickness"),
}


def _cost(given: Given) -> Result:
    working: list[Step] = []
    total, lines = Fraction(0), []
    faults: list[Fault] = []
    for place, row in enumerate(given.rows("stock")):
        try:
            sum_, step = _line(row, place)
        except InputError as error:
            for fault in error.faults:
                says = f"Stock, row {place + 1}: {fault.says}"
                faults.append(Fault(says, f"stock[{place}].{fault.field}", fault.choices))
            continue
        working.append(step)
        total += sum_
        lines.append({"name": step.symbol, "cost": str(rounded_money(sum_))})
    if faults:
        raise InputError(*faults)
    added = Fraction(str(given.number("added")))
    material = total * (1 + added / 100)
    percent = f"1 + {number_text(given.number('added'))} %"
    working.append(
        Step("material", f"sum ({percent})", f"{_money(total)} x ({percent})", float(material), "")
    )
    hours = Fraction(str(given.number("hours")))
    rate = read_money(given.text("rate"), field="rate")
    work = hours * Fraction(rate)
    working.append(Step("work", "hours x rate", f"{number_text(float(hours))} h x {rate}", float(work), ""))
    for_unforeseen = (material + work) * Fraction(str(given.number("contingency"))) / 100
    whole = material + work + for_unforeseen
    if whole > LARGEST:
        says = "The sum is larger than anything that is worked with; check the prices."
        raise InputError.of(says, field="stock")
    working.append(Step("cost", "material + work + contingency", "", float(rounded_money(whole)), ""))
    pieces = given.integer("pieces")
    each = whole / pieces
    working.append(
        Step("each", "cost / pieces", f"{_money(whole)} / {pieces}", float(rounded_money(each)), "")
    )
    results = named(
        cost=Value(_money(whole)),
        cost_each=Value(_money(each)),
        cost_of_material=Value(_money(material)),
        cost_of_work=Value(_money(work)),
        cost_lines=Value(lines),
    )
    return Result(results, tuple(working))


def _money(amount: Fraction) -> str:
    return str(rounded_money(amount))


def _line(row: Given, place: int) -> tuple[Fraction, Step]:
    sold_by = row.text("sold_by")
    measured, unit = _SOLD_BY[sold_by]
    price = read_money(row.text("price"))
    count = row.integer("count")
    waste = 1 + Fraction(str(row.number("waste"))) / 100
    if measured == "mass":
        mass = row.number_or_none("mass")
        if mass is None:
            raise InputError.of(f"What is sold by the {sold_by} needs its mass; write it.", field="mass")
        amount, numbers = Fraction(str(mass)), f"{number_text(mass)} g"
    else:
        amount, words = Fraction(1), []
        for name in _SIZES[measured]:
            size = row.mm_or_none(name)
            if size is None:
                raise InputError.of(f"What is sold by the {sold_by} needs its {name}; write it.", field=name)
            amount *= Fraction(row.length(name).ticks, 10_000_000)
            words.append(f"{number_text(size)} mm")
        numbers = " x ".join(words) or "1"
    bought = count * amount * waste / unit
    cost = Fraction(price) * bought
    name = row.text_or_none("name") or f"stock {place + 1}"
    numbers = f"{count} x {numbers} x (1 + {number_text(row.number('waste'))} %) at {price} a {sold_by}"
    return cost, Step(name, "count x size x (1 + waste) x price", numbers, float(rounded_money(cost)), "")


_size = partial(Input, kind="length", unit="mm", above=0, maximum=50_000, optional=True)
_share = partial(Input, kind="quantity", unit="%", minimum=0, maximum=1000)

PIECE_COST = Calculator(
    name="piece-cost",
    summary="What a piece costs: stock by the metre, area, board foot or kilogram, hours, what is added.",
    purpose="Material and cost",
    inputs=(
        Input(
            name="stock",
            help="what it is made of, a row each",
            kind="rows",
            minimum=1,
            maximum=40,
            members=(
                Input(name="name", help="what it is", kind="text", optional=True),
                Input(name="count", help="how many", kind="integer", minimum=1, maximum=10_000, default="1"),
                Input(name="price", help="the price, a plain number such as 12.50", kind="text"),
                Input(
                    name="sold_by",
                    help="what the price is for",
                    kind="choice",
                    choices=tuple(_SOLD_BY),
                    synonyms=_SPELT,
                    default="piece",
                ),
                _size(name="length", help="length"),
                _size(name="width", help="width"),
                _size(name="thickness", help="thickness"),
                Input(
                    name="mass",
                    help="mass, of what is sold by mass",
                    kind="quantity",
                    unit="g",
                    above=0,
                    maximum=1e7,
                    optional=True,
                ),
                _share(name="waste", help="kerf, trim and waste", default="0 %"),
            ),
        ),
        _share(name="added", help="what is added to material", default="0 %"),
        Input(
            name="hours",
            help="hours of work",
            kind="quantity",
            unit="h",
            minimum=0,
            maximum=100_000,
            default="0 h",
        ),
        Input(name="rate", help="price of an hour, a plain number", kind="text", default="0"),
        _share(name="contingency", help="share of the whole for the unforeseen", default="0 %"),
        Input(
            name="pieces",
            help="how many pieces come of it",
            kind="integer",
            minimum=1,
            maximum=100_000,
            default="1",
        ),
    ),
    outputs=("cost", "cost_each", "cost_of_material", "cost_of_work", "cost_lines"),
    work=_cost,
    sources=(
        "units of trade: NIST SP 811 (from memory)",
        "sums exact, rounded to the hundredth, half to even",
    ),
    example={
        "stock": (
            "oak, 1, 4.20, board-foot, 2400 mm, 250 mm, 32 mm, waste=15 %\n"
            "brass rod, 1, 18.50, metre, 380 mm, waste=5 %"
        ),
        "hours": "6 h",
        "rate": "35.00",
        "contingency": "10 %",
    },
)
