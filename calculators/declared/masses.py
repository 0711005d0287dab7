"""Mass and balance: what an assembly weighs, where it balances, and how it resists being turned."""

from __future__ import annotations

from functools import partial
from typing import cast

from calculators.calculation import Calculator, Given, Input, Picture, Result, Step, named
from calculators.calculation.result import number_text
from calculators.drawing.balance import balance_picture
from calculators.materials import find_material
from calculators.mechanics.masses import (
    STANDARD_GRAVITY,
    Axis,
    Body,
    Shape,
    centre_of_mass_mm,
    inertia_kg_mm2,
    total_mass_kg,
)
from calculators.quantities.errors import Fault, InputError

_NEEDS = {
    "block": ("length", "width", "thickness"),
    "round": ("length", "diameter"),
    "tube": ("length", "diameter", "bore"),
    "ball": ("diameter",),
}


def _balance(given: Given) -> Result:
    rows = given.rows("bodies")
    bodies = _bodies(given)
    mass, centre = total_mass_kg(bodies), centre_of_mass_mm(bodies)
    if centre is None or mass <= 0:
        says = f"The bodies together have a mass of {number_text(mass)} kg; what is taken away must be less."
        raise InputError.of(says, field="bodies", value=mass, limit=0.0, unit="kg")
    if max(map(abs, centre)) > 1e6:
        raise InputError.of(
            "What is taken away leaves next to nothing, so no balance can be told; check the bodies.",
            field="bodies",
        )
    working = [
        Step(
            row.text_or_none("name") or f"body {place + 1}",
            "volume x density x count",
            f"{number_text(body.volume_mm3)} mm3 x {number_text(body.density_kg_m3)} kg/m3 x {body.count}",
            body.mass_kg,
            "kg",
        )
        for place, (row, body) in enumerate(zip(rows, bodies, strict=True))
    ]
    working.append(Step("mass", "sum of m", "", mass, "kg"))
    for place, name in enumerate("xyz"):
        sums = sum(body.mass_kg * body.at_mm[place] for body in bodies)
        numbers = f"{number_text(sums)} kg mm / {number_text(mass)} kg"
        working.append(Step(name, f"sum(m {name}) / sum(m)", numbers, centre[place], "mm", "definition"))
    axis = cast(Axis, given.text("axis"))
    about = tuple(given.mm(f"pivot_{name}") for name in "xyz")
    inertia = inertia_kg_mm2(bodies, axis, cast(tuple[float, float, float], about))
    own = inertia_kg_mm2(bodies, axis, centre)
    working.append(
        Step(
            f"J about {axis}",
            "sum(J0 + m r^2)",
            "through the pivot",
            inertia,
            "kg mm2",
            "parallel-axis theorem",
        )
    )
    moment = mass * STANDARD_GRAVITY * (centre[0] - about[0]) / 1000
    numbers = (
        f"{number_text(mass)} kg x 9.80665 m/s2 x ({number_text(centre[0])} - {number_text(about[0])}) mm"
    )
    working.append(Step("moment", "m g (x - pivot x)", numbers, moment, "N m"))
    results = named(
        mass=mass,
        centre_x=centre[0],
        centre_y=centre[1],
        centre_z=centre[2],
        inertia=inertia,
        inertia_own=own,
        moment_at_pivot=moment,
    )
    return Result(results, tuple(working))


def _bodies(given: Given) -> list[Body]:
    faults: list[Fault] = []
    found = []
    for place, row in enumerate(given.rows("bodies")):
        try:
            found.append(_body(row, given))
        except InputError as error:
            for fault in error.faults:
                says = f"Bodies, row {place + 1}: {fault.says}"
                faults.append(
                    Fault(says, f"bodies[{place}].{fault.field}", fault.choices, fault.value, fault.limit)
                )
    if faults:
        raise InputError(*faults)
    return found


def _body(row: Given, given: Given) -> Body:
    shape = cast(Shape, row.text("shape"))
    missing = [name for name in _NEEDS[shape] if row.mm_or_none(name) is None]
    if missing:
        needs = ", ".join(_NEEDS[shape])
        raise InputError.of(f"A {shape} needs {needs}; write its {missing[0]}.", field=missing[0])
    length, width, thickness = (row.mm_or_none(name) or 0.0 for name in ("length", "width", "thickness"))
    diameter, bore = row.mm_or_none("diameter") or 0.0, row.mm_or_none("bore") or 0.0
    if shape in ("round", "tube") and bore >= diameter:
        says = (
            f"The bore of {number_text(bore)} mm is not smaller than the diameter of "
            f"{number_text(diameter)} mm; write a smaller bore."
        )
        raise InputError.of(says, field="bore", value=bore, limit=diameter, unit="mm")
    axis = cast(Axis, row.text("axis"))
    size = (length, width, thickness)
    if shape != "block":
        size = cast(tuple[float, float, float], tuple(length if name == axis else diameter for name in "xyz"))
    at = cast(tuple[float, float, float], tuple(row.mm(name) for name in "xyz"))
    sign = -1 if row.flag("taken_away") else 1
    bore = 0.0 if shape == "ball" else bore
    return Body(shape, size, at, _density(row, given), axis, diameter, bore, sign, row.integer("count"))


def _density(row: Given, given: Given) -> float:
    typed = row.number_or_none("density")
    if typed is not None:
        return typed
    name = row.text_or_none("material") or given.text_or_none("material")
    if name is None:
        raise InputError.of("Write its material or its density.", field="material")
    material = find_material(name, field="material")
    if material.density_kg_m3 is None:
        raise InputError.of(
            f"How heavy {material.name} is, is not known here; write its density.", field="material"
        )
    return material.density_kg_m3


def _draw(given: Given, result: Result) -> tuple[Picture, ...]:
    centre = centre_of_mass_mm(_bodies(given))
    assert centre is not None
    names = [
        row.text_or_none("name") or f"body {place + 1}" for place, row in enumerate(given.rows("bodies"))
    ]
    return (balance_picture(_bodies(given), names, centre, given.mm("pivot_x")),)


_size = partial(Input, kind="length", unit="mm", above=0, maximum=10_000, optional=True)
_place = partial(Input, kind="length", unit="mm", minimum=-10_000, maximum=10_000, default="0 mm")

MASS_AND_BALANCE = Calculator(
    name="mass-and-balance",
    summary="What an assembly of blocks, rounds and tubes weighs, where it balances, how it resists turning.",
    purpose="Material and cost",
    inputs=(
        Input(
            name="bodies",
            help="the bodies, each with the place of its own middle",
            kind="rows",
            minimum=1,
            maximum=40,
            members=(
                Input(name="name", help="what it is", kind="text", optional=True),
                Input(name="shape", help="its shape", kind="choice", choices=tuple(_NEEDS), default="block"),
                Input(name="material", help="its material", kind="text", optional=True),
                _size(name="length", help="along x (of a block), or along its axis"),
                _size(name="width", help="of a block, along y"),
                _size(name="thickness", help="of a block, along z"),
                _size(name="diameter", help="of a round, tube or ball"),
                _size(name="bore", help="of a tube"),
                Input(
                    name="axis",
                    help="the direction that a round or tube lies in",
                    kind="choice",
                    choices=("x", "y", "z"),
                    default="x",
                ),
                _place(name="x", help="place of its middle"),
                _place(name="y", help="place of its middle"),
                _place(name="z", help="place of its middle"),
                Input(
                    name="count",
                    help="how many in that place",
                    kind="integer",
                    minimum=1,
                    maximum=1000,
                    default="1",
                ),
                Input(
                    name="density",
                    help="its density, where no material is named",
                    kind="quantity",
                    unit="kg/m3",
                    above=0,
                    maximum=25_000,
                    optional=True,
                ),
                Input(name="taken_away", help="whether it is a hole", kind="flag", default="no"),
            ),
        ),
        Input(
            name="material",
            help="the material of bodies that name none",
            kind="text",
            optional=True,
            example="brass",
        ),
        Input(
            name="axis",
            help="the axis that it is turned about",
            kind="choice",
            choices=("x", "y", "z"),
            default="z",
        ),
        _place(name="pivot_x", help="where that axis passes; the moment is about it too"),
        _place(name="pivot_y", help="where that axis passes"),
        _place(name="pivot_z", help="where that axis passes"),
    ),
    outputs=(
        "mass",
        "centre_x",
        "centre_y",
        "centre_z",
        "inertia",
        "inertia_own",
        "moment_at_pivot",
    ),
    work=_balance,
    draw=_draw,
    sources=("definitions of mechanics; parallel-axis theorem; densities by material as its table has them",),
    cautions=("Lifting: this is a figure for the workshop; slings and lifting gear follow local rules.",),
    example={
        "bodies": (
            "boom, round, brass, length=380 mm, diameter=6 mm, x=190 mm\n"
            "weight, round, brass, length=20 mm, diameter=25 mm, x=-40 mm"
        ),
        "pivot_x": "0 mm",
    },
)
