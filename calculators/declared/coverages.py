"""Finish and glue: how much of it a surface takes, how many tins, how long one has."""

from __future__ import annotations

from functools import partial
from math import ceil

from calculators.calculation import Calculator, Given, Input, Result, Step, named
from calculators.calculation.result import number_text
from calculators.materials.coverage import finish_litres, glue_grams
from calculators.quantities.errors import InputError
from calculators.tables import Row, load

_MM2_PER_M2 = 1e6
_TIN_SOURCE = "spread: tins and workshop books (common practice); the tin in your hand stands above"
_REHEARSE = 1.25


def _finish(given: Given) -> Result:
    row = _row(given.text("finish"))
    area, working = _area(given)
    waste, coats, d = given.number("waste"), given.integer("coats"), number_text
    spread = given.number_or_none("spread") or row.number("spread")
    litres = finish_litres(area, coats, spread, waste)
    numbers = f"{d(area)} m2 x {coats} / {d(spread)} m2/l x (1 + {d(waste)} %)"
    formula = "area x coats / spread x (1 + waste)"
    working.append(Step("litres", formula, numbers, litres, "l", row.source.says))
    tin = given.number("tin")
    tins = ceil(round(litres / tin, 9))
    working.append(Step("tins", "litres / tin, upward", f"{d(litres)} l / {d(tin)} l", tins, ""))
    return Result(named(litres=litres, tins=tins, area=area), tuple(working))


def _glue(given: Given) -> Result:
    row = _row(given.text("glue"))
    area, working = _area(given)
    waste, faces, d = given.number("waste"), given.integer("faces"), number_text
    spread = given.number_or_none("spread") or row.number("spread")
    grams = glue_grams(area, faces, spread, waste)
    numbers = f"{d(area)} m2 x {faces} x {d(spread)} g/m2 x (1 + {d(waste)} %)"
    formula = "area x faces x spread x (1 + waste)"
    working.append(Step("glue", formula, numbers, grams, "g", row.source.says))
    minutes = given.number_or_none("open_time") or row.number("open_time")
    longest = minutes / _REHEARSE
    working.append(
        Step("rehearsal", "open time / 1.25", f"{d(minutes)} min / 1.25", longest, "min", "common practice")
    )
    warnings = [f"About {d(minutes)} minutes of open time at 20 degC, less when it is warm: rehearse it dry."]
    taken = given.number_or_none("rehearsal")
    if taken is not None and taken > longest:
        warnings.insert(
            0,
            f"The rehearsal took {d(taken)} minutes and {d(longest, 3)} are what this glue allows: glue up "
            "in stages, have help, or take a slower glue.",
        )
    results = named(glue=grams, rehearsal_longest=longest, area=area)
    return Result(results, tuple(working), tuple(warnings))


def _row(product: str) -> Row:
    row = load("coverages").find(product)
    assert row is not None
    return row


def _area(given: Given) -> tuple[float, list[Step]]:
    typed, rows = given.number_or_none("area"), given.rows("surfaces")
    if (typed is None) == (not rows):
        both = "not both" if rows else "one of them is needed"
        raise InputError.of(f"Write the area, or the surfaces a row each; {both}.", field="area")
    if typed is not None:
        return typed, [Step("area", "as given", "", typed, "m2")]
    steps = []
    for place, row in enumerate(rows):
        count, length, width = row.integer("count"), row.mm("length"), row.mm("width")
        name = row.text_or_none("name") or f"surface {place + 1}"
        numbers = f"{count} x {number_text(length)} x {number_text(width)} mm"
        size = count * length * width / _MM2_PER_M2
        steps.append(Step(name, "count x length x width", numbers, size, "m2"))
    area = sum(step.value for step in steps)
    return area, [*steps, Step("area", "sum of the surfaces", "", area, "m2")]


def _names(kind: str) -> tuple[str, ...]:
    return tuple(row["name"] for row in load("coverages").rows if row["kind"] == kind)


def _choice(name: str, words: str) -> Input:
    choices = _names(name)
    spelt = ((each.lower().replace(" ", "-"), each) for each in choices)
    return Input(
        name=name,
        help=words,
        kind="choice",
        choices=choices,
        synonyms=tuple((word, each) for word, each in spelt if word != each),
        default=choices[0],
    )


_size = partial(Input, kind="length", unit="mm", above=0, maximum=50_000)
_AREA = Input(
    name="area",
    help="the surface",
    kind="quantity",
    unit="m2",
    above=0,
    maximum=10_000,
    optional=True,
    example="2 m2",
)
_SURFACES = Input(
    name="surfaces",
    help="or the surfaces, a row each",
    kind="rows",
    maximum=40,
    optional=True,
    members=(
        Input(name="name", help="what it is", kind="text", optional=True),
        Input(name="count", help="how many", kind="integer", minimum=1, maximum=10_000, default="1"),
        _size(name="length", help="length"),
        _size(name="width", help="width"),
    ),
    example="top, 2, 1200 mm, 600 mm",
)
_WASTE = Input(
    name="waste",
    help="what stays in brush, rag and pot, or is squeezed out",
    kind="quantity",
    unit="%",
    default="10 %",
    minimum=0,
    maximum=300,
)

FINISH = Calculator(
    name="finish",
    summary="How much finish a surface takes, coat by coat, and how many tins.",
    purpose="Material and cost",
    either=(("area", "surfaces"),),
    inputs=(
        _choice("finish", "the finish"),
        _AREA,
        _SURFACES,
        Input(name="coats", help="how many coats", kind="integer", minimum=1, maximum=50, default="3"),
        Input(
            name="spread",
            help="how far a litre goes in one coat, from its tin",
            kind="quantity",
            unit="m2/l",
            above=0.01,
            maximum=1000,
            optional=True,
        ),
        _WASTE,
        Input(
            name="tin",
            help="the size of a tin",
            kind="quantity",
            unit="l",
            above=0.001,
            maximum=1000,
            default="0.5 l",
        ),
    ),
    outputs=("area", "litres", "tins"),
    work=_finish,
    sources=(_TIN_SOURCE,),
    cautions=(
        "Rags with drying oil burn by themselves: dry them flat outdoors, or keep them in water. Fresh air, "
        "gloves, no flame; keep to the maker's data sheet and local rules.",
    ),
    example={"finish": "oil", "surfaces": "top, 2, 1200 mm, 600 mm", "coats": "3", "tin": "0.5 l"},
)

GLUE = Calculator(
    name="glue",
    summary="How much glue a joint takes, and how long the glueing-up may last.",
    purpose="Material and cost",
    either=(("area", "surfaces"),),
    inputs=(
        _choice("glue", "the glue"),
        _AREA,
        _SURFACES,
        Input(
            name="faces", help="faces that it is spread on", kind="integer", minimum=1, maximum=2, default="1"
        ),
        Input(
            name="spread",
            help="glue on each face, from its maker",
            kind="quantity",
            unit="g/m2",
            above=0,
            maximum=10_000,
            optional=True,
        ),
        _WASTE,
        Input(
            name="open_time",
            help="open time, from its maker",
            kind="quantity",
            unit="min",
            above=0,
            maximum=10_000,
            optional=True,
        ),
        Input(
            name="rehearsal",
            help="how long the dry rehearsal took",
            kind="quantity",
            unit="min",
            above=0,
            maximum=10_000,
            optional=True,
            example="9 min",
        ),
    ),
    outputs=("area", "glue", "rehearsal_longest"),
    work=_glue,
    sources=(_TIN_SOURCE, "rehearsal no longer than open time / 1.25 (common practice)"),
    cautions=("Adhesives: gloves and fresh air; keep to the maker's data sheet and local rules.",),
    example={"glue": "PVA glue", "surfaces": "joint, 8, 120 mm, 12 mm", "faces": "2", "rehearsal": "9 min"},
)
