"""Timber: how much wood to buy for a list of pieces, and what it weighs."""

from __future__ import annotations

from functools import partial

from calculators.calculation import Calculator, Given, Input, Result, Step, Value, named
from calculators.calculation.result import number_text
from calculators.materials import find_material
from calculators.materials.moisture import density_kg_m3
from calculators.materials.volumes import BOARD_FOOT_M3, Piece, quarters, sawn
from calculators.quantities.errors import InputError


def _timber(given: Given) -> Result:
    planing, trim, waste = given.mm("planing"), given.mm("trim"), given.number("waste")
    rows = given.rows("pieces")
    finished = [_piece(row) for row in rows]
    rough = [sawn(piece, planing, trim) for piece in finished]
    net, cut = sum(one.volume_m3 for one in finished), sum(one.volume_m3 for one in rough)
    volume = cut * (1 + waste / 100)
    working = [*_sizes(rough, rows)]
    working.append(Step("sawn", "sum of count x length x width x thickness", "", cut, "m3"))
    working.append(
        Step(
            "volume",
            "sawn (1 + waste)",
            f"{number_text(cut)} m3 x (1 + {number_text(waste)} %)",
            volume,
            "m3",
        )
    )
    feet = volume / BOARD_FOOT_M3
    working.append(
        Step("board feet", "volume / 144 in3", f"{number_text(volume)} m3 / 0.00235974 m3", feet, "board ft")
    )
    order = [_line(row, piece, place) for place, (row, piece) in enumerate(zip(rows, rough, strict=True))]
    results = named(volume=volume, board_feet=feet, finished_volume=net, to_order=Value(order, "mm"))
    mass, finished_mass, steps, sources = _masses(given, rows, finished, rough)
    if mass is not None and finished_mass is not None:
        results |= named(mass=mass * (1 + waste / 100), finished_mass=finished_mass)
        working += steps
    sources = ("board foot of 144 cubic inches (by definition)", "allowances: common practice", *sources)
    return Result(results, tuple(working), (), sources)


def _piece(row: Given) -> Piece:
    return Piece(row.integer("count"), row.mm("length"), row.mm("width"), row.mm("thickness"))


def _sizes(rough: list[Piece], rows: tuple[Given, ...]) -> list[Step]:
    return [
        Step(
            row.text_or_none("name") or f"piece {place + 1}",
            "count x length x width x thickness",
            f"{piece.count} x {number_text(piece.length_mm)} x {number_text(piece.width_mm)} x "
            f"{number_text(piece.thickness_mm)} mm",
            piece.volume_m3,
            "m3",
        )
        for place, (piece, row) in enumerate(zip(rough, rows, strict=True))
    ]


def _line(row: Given, piece: Piece, place: int) -> dict[str, str | int | float]:
    n = quarters(piece.thickness_mm)
    return {
        "name": row.text_or_none("name") or f"piece {place + 1}",
        "count": piece.count,
        "length": piece.length_mm,
        "width": piece.width_mm,
        "thickness": piece.thickness_mm,
        "in_quarters": f"{n}/4",
    }


def _masses(
    given: Given, rows: tuple[Given, ...], finished: list[Piece], rough: list[Piece]
) -> tuple[float | None, float | None, list[Step], tuple[str, ...]]:
    """The mass of what is bought, before waste, and of the finished pieces, where every species is known."""
    moisture = given.number("moisture")
    steps: list[Step] = []
    sources: list[str] = []
    total = net = 0.0
    for row, done, sawn_piece in zip(rows, finished, rough, strict=True):
        species = row.text_or_none("species") or given.text_or_none("species")
        if species is None:
            return None, None, [], ()
        wood = find_material(species, field="species")
        if wood.specific_gravity is not None:
            density = density_kg_m3(wood.specific_gravity, moisture)
            formula = "1000 G (1 + M), G brought to that moisture"
            numbers = f"G12 = {number_text(wood.specific_gravity)}, M = {number_text(moisture)} %"
        elif wood.density_kg_m3 is not None:
            density, formula, numbers = wood.density_kg_m3, "as its table has it", ""
        else:
            raise InputError.of(
                f"How heavy {wood.name} is, is not known here; name a species.", field="species"
            )
        symbol = f"density of {wood.name}"
        if symbol not in [step.symbol for step in steps]:
            steps.append(
                Step(symbol, formula, numbers, density, "kg/m3", "USDA Wood Handbook ch. 4, from memory")
            )
            sources += [text for text in wood.sources if text.startswith(("figures", "strength"))]
        total += sawn_piece.volume_m3 * density
        net += done.volume_m3 * density
    return total, net, steps, tuple(dict.fromkeys(sources))


_size = partial(Input, kind="length", unit="mm", above=0, maximum=20_000)

TIMBER = Calculator(
    name="timber",
    summary="How much wood to buy for a list of pieces: volume, board feet, sawn sizes, mass.",
    purpose="Material and cost",
    inputs=(
        Input(
            name="pieces",
            help="the finished pieces",
            kind="rows",
            minimum=1,
            maximum=60,
            members=(
                Input(name="name", help="what it is", kind="text", optional=True),
                Input(name="count", help="how many", kind="integer", minimum=1, maximum=10_000, default="1"),
                _size(name="length", help="length along the grain"),
                _size(name="width", help="width across the grain"),
                _size(name="thickness", help="thickness"),
                Input(
                    name="species", help="its wood, where it is not that of all", kind="text", optional=True
                ),
            ),
            example="side, 4, 800 mm, 100 mm, 27 mm",
        ),
        Input(name="species", help="the wood", kind="text", optional=True, example="white oak"),
        Input(
            name="planing",
            help="what planing takes off each face; 2.5 mm is usual for sawn boards",
            kind="length",
            unit="mm",
            default="0 mm",
            minimum=0,
            maximum=50,
        ),
        Input(
            name="trim",
            help="what is cut off each length altogether; 12 mm is usual",
            kind="length",
            unit="mm",
            default="0 mm",
            minimum=0,
            maximum=1000,
        ),
        Input(
            name="waste",
            help=(
                "share to buy over: square-edged hardwood 15 to 20 %, waney 60 to 100, softwood 5 to 10, "
                "sheet 10 to 20 (common practice)"
            ),
            kind="quantity",
            unit="%",
            default="0 %",
            minimum=0,
            maximum=300,
        ),
        Input(
            name="moisture",
            help="moisture content for the mass",
            kind="quantity",
            unit="%",
            default="12 %",
            minimum=0,
            maximum=150,
        ),
    ),
    outputs=("volume", "board_feet", "mass", "finished_volume", "finished_mass", "to_order"),
    work=_timber,
    sources=("board foot of 144 cubic inches (by definition)", "allowances: common practice"),
    example={
        "pieces": "board, 1, 2400 mm, 250 mm, 32 mm\nrail, 2, 600 mm, 60 mm, 27 mm",
        "species": "white oak",
        "planing": "2.5 mm",
        "trim": "12 mm",
        "waste": "15 %",
    },
)
