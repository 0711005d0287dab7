"""Shelf sag: how far a shelf bends at once and after years, and what thickness would do."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass, replace
from math import ceil

from calculators.calculation import Calculator, Given, Result, Step, named
from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.declared.put_in import put_in
from calculators.declared.section_inputs import section_steps
from calculators.declared.shelf_inputs import SHELF_INPUTS
from calculators.drawing.beams import Sketch, beam_pictures
from calculators.mechanics.beams.cases import CASES, Laid, loads_of, supports_of
from calculators.mechanics.beams.line import Bent, Load, bend
from calculators.mechanics.sections import Section
from calculators.mechanics.shelves import contents_mass, shelf_section, thickness_needed
from calculators.mechanics.stuff import CREEP_WOOD, GRAVITY_M_S2, Stuff, stuff_of
from calculators.quantities.errors import InputError

_HALVINGS, _LONGEST_MM, _THINNEST_MM = 50, 1e6, 0.5
_SHEETS = ("MDF", "chipboard", "hardboard")


@dataclass(frozen=True, slots=True)
class Shelf:
    """A shelf as it was asked for; `per_length` where the load grows with the span."""

    span_mm: float
    width_mm: float
    thickness_mm: float
    strip: tuple[float, float, float] | None
    stuff: Stuff
    support: str
    place: str
    load_n: float
    load_words: tuple[str, str, str]
    per_length: bool
    weighed: bool
    creep: float
    limit_over: float

    def section(self, thickness_mm: float) -> Section:
        """Its section at a thickness of the board."""
        return shelf_section(self.width_mm, thickness_mm, *(self.strip or ()))

    def own_n(self, thickness_mm: float) -> float:
        """Its own weight, 0 where the density is not known."""
        area, density = self.section(thickness_mm).area_mm2, self.stuff.density_kg_m3
        return 0.0 if density is None else density * area * self.span_mm * 1e-9 * GRAVITY_M_S2

    def loads(self, thickness_mm: float) -> tuple[Load, ...]:
        """Its loads at a thickness."""
        laid = Laid(self.load_n, self.span_mm, self.span_mm / 2, 0.0, 1.0)
        own = Load(0.0, self.own_n(thickness_mm), self.span_mm)
        return (*loads_of(self.support, self.place, laid), *([own] if self.weighed and own.force_n else []))

    def sag_mm(self, thickness_mm: float) -> float:
        """Its sag at once: of the load and of its own weight, both greatest at the middle."""
        stiffness = self.stuff.modulus_mpa * self.section(thickness_mm).second_moment_mm4

        def of(load_n: float, place: str) -> float:
            laid = Laid(load_n, self.span_mm, self.span_mm / 2, 0.0, stiffness)
            return CASES[self.support, place].deflection(laid)

        own = of(self.own_n(thickness_mm), "spread") if self.weighed else 0.0
        return of(self.load_n, self.place) + own

    def of_span(self, span_mm: float) -> Shelf:
        """The same shelf with another span."""
        load = self.load_n * span_mm / self.span_mm if self.per_length else self.load_n
        return replace(self, span_mm=span_mm, load_n=load)

    def over_limit(self) -> float:
        """Its sag after years over the most that is allowed."""
        return self.sag_mm(self.thickness_mm) * self.creep * self.limit_over / self.span_mm

    def bent(self, thickness_mm: float) -> Bent:
        """How it bends at a thickness."""
        stiffness = self.stuff.modulus_mpa * self.section(thickness_mm).second_moment_mm4
        return bend(
            self.span_mm, supports_of(self.support, self.span_mm), self.loads(thickness_mm), stiffness
        )


def shelf_of(given: Given) -> Shelf:
    """Read the shelf that was asked for.

    Args:
        given: the inputs of the calculator.

    Returns:
        The shelf.

    Raises:
        InputError: when load or material is missing, or a strip lacks one of its sizes.

    Source: this project.
    """
    stuff = stuff_of(given.text_or_none("material"), given.number_or_none("modulus"))
    load, words, per_length = _load(given)
    weighed, creep = given.flag("with_self_weight"), given.number_or_none("creep")
    if weighed and stuff.density_kg_m3 is None:
        says = "The shelf's own weight needs a material whose density is known."
        raise InputError.of(says, field="with_self_weight")
    return Shelf(
        given.mm("span"), given.mm("width"), given.mm("thickness"), _strip(given, stuff), stuff,
        "fixed-ends" if given.text("ends") == "held" else "simply-supported",
        given.text("load_place"), load, words, per_length, weighed,
        (CREEP_WOOD if stuff.wood else 1.0) if creep is None else creep,
        given.number("limit"),
    )  # fmt: skip


def _strip(given: Given, stuff: Stuff) -> tuple[float, float, float] | None:
    depth, thick = given.mm_or_none("strip_depth"), given.mm_or_none("strip_thickness")
    if depth is None and thick is None:
        return None
    if depth is None or thick is None:
        field = "strip_depth" if depth is None else "strip_thickness"
        says = "A strip along the edge needs both its depth, top to bottom, and its thickness, front to back."
        raise InputError.of(says, field=field)
    material = given.text_or_none("strip_material")
    ratio = stuff_of(material, None).modulus_mpa / stuff.modulus_mpa if material else 1.0
    return depth, thick, ratio


def _load(given: Given) -> tuple[float, tuple[str, str, str], bool]:
    """The load [N], its formula, numbers and source, and whether it grows with the span."""
    names = ("contents", "mass_per_metre", "mass", "load")
    given_ones = [name for name in names if given.get(name) is not None]
    if len(given_ones) != 1:
        says = (
            "Give the load in one way: contents (books and the like), mass per metre, mass in all, or load."
        )
        raise InputError.of(says, field="contents" if not given_ones else given_ones[1])
    metres, g = given.mm("span") / 1000, number_text(GRAVITY_M_S2)
    if given_ones == ["load"]:
        return given.number("load"), ("as given", "", ""), False
    if given_ones == ["mass"]:
        mass = given.number("mass")
        return mass * GRAVITY_M_S2, ("mass x g", f"{number_text(mass)} kg x {g} m/s2", ""), False
    if given_ones == ["contents"]:
        each, source = contents_mass(given.text("contents"))
    else:
        each, source = given.number("mass_per_metre"), ""
    numbers = f"{number_text(each)} kg/m x {number_text(metres)} m x {g} m/s2"
    return each * metres * GRAVITY_M_S2, ("mass per metre x span x g", numbers, source), True


def _shelf_sag(given: Given) -> Result:
    shelf = shelf_of(given)
    section, beam = shelf.section(shelf.thickness_mm), shelf.bent(shelf.thickness_mm)
    sag = shelf.sag_mm(shelf.thickness_mm)
    limit = shelf.span_mm / shelf.limit_over
    alone = shelf.sag_mm(_THINNEST_MM) * shelf.creep <= limit
    needed = None if alone else thickness_needed(lambda t: shelf.sag_mm(t) * shelf.creep, limit)
    stress = abs(beam.moment.value) / section.modulus_mm3
    results = named(
        deflection=sag,
        deflection_long_term=sag * shelf.creep,
        deflection_limit=limit,
        **({} if needed is None else {"thickness_needed": needed}),
        span_allowed=_span_allowed(shelf),
        bending_stress=stress,
        total_load=shelf.load_n,
        self_weight=shelf.own_n(shelf.thickness_mm),
        second_moment=section.second_moment_mm4,
    )
    working = tuple(_working(shelf, section, limit, needed))
    warnings = tuple(_warnings(shelf, sag, limit, needed, stress))
    return Result(results, working, warnings, (f"{shelf.stuff.name}: {shelf.stuff.modulus_source}",))


def _span_allowed(shelf: Shelf) -> float:
    """The span at which the limit is just kept, by halving."""
    low, high = 0.0, shelf.span_mm
    while shelf.of_span(high).over_limit() < 1 and high < _LONGEST_MM:
        high *= 2
    for _ in range(_HALVINGS):
        middle = (low + high) / 2
        low, high = (middle, high) if shelf.of_span(middle).over_limit() < 1 else (low, middle)
    return high


def _working(shelf: Shelf, section: Section, limit: float, needed: float | None) -> Iterator[Step]:
    e, i = shelf.stuff.modulus_mpa, section.second_moment_mm4
    sag = shelf.sag_mm(shelf.thickness_mm)
    yield Step("W", *shelf.load_words[:2], shelf.load_n, "N", shelf.load_words[2])
    if shelf.weighed:
        own = shelf.own_n(shelf.thickness_mm)
        numbers = f"{number_text(shelf.stuff.density_kg_m3 or 0)} kg/m3 x {number_text(section.area_mm2)} mm2"
        numbers += f" x {number_text(shelf.span_mm)} mm x {number_text(GRAVITY_M_S2)} m/s2"
        yield Step("own weight", "density A L g", numbers, own, "N", "spread over the shelf")
    yield from section_steps(section)
    yield Step("E", shelf.stuff.name, f"{number_text(e / 1000)} GPa", e, "MPa", shelf.stuff.short_source)
    words = {
        ("simply-supported", "spread"): "5 W L^3 / (384 E I)",
        ("simply-supported", "centre"): "W L^3 / (48 E I)",
        ("fixed-ends", "spread"): "W L^3 / (384 E I)",
        ("fixed-ends", "centre"): "W L^3 / (192 E I)",
    }[shelf.support, shelf.place]
    values = {"L": shelf.span_mm, "E": e, "I": i}
    numbers = put_in(words, {"W": shelf.load_n, **values})
    if shelf.weighed:
        spread = "5 W L^3 / (384 E I)" if shelf.support == "simply-supported" else "W L^3 / (384 E I)"
        numbers += f" + {put_in(spread, {'W': shelf.own_n(shelf.thickness_mm), **values})}"
    more = " + that of its own weight" if shelf.weighed else ""
    yield Step("sag", words + more, numbers, sag, "mm", "beam tables, from memory")
    source = "Wood Handbook ch. 5, from memory: about doubled" if shelf.stuff.wood else "common practice"
    yield Step("after years", "creep x sag", f"{number_text(shelf.creep)} x {number_text(sag)} mm",
               sag * shelf.creep, "mm", source)  # fmt: skip
    yield Step("limit", "L / limit", f"{number_text(shelf.span_mm)} mm / {number_text(shelf.limit_over)}",
               limit, "mm", "common practice")  # fmt: skip
    if needed is not None:
        yield Step("thickness", "thinnest that keeps the limit after years", "halving of an interval", needed,
                   "mm")  # fmt: skip


def _warnings(shelf: Shelf, sag: float, limit: float, needed: float | None, stress: float) -> Iterator[str]:
    lasting = sag * shelf.creep
    if lasting > limit:
        remedy = (
            "make it thicker, shorter, or with a strip along its edge"
            if needed is None
            else f"make it {number_text(ceil(needed * 10) / 10)} mm thick, or shorter, or with a deeper strip"
        )
        yield (
            f"After years it sags {number_text(lasting, 3)} mm, more than "
            f"span/{number_text(shelf.limit_over)}, {number_text(limit, 3)} mm: {remedy}."
        )
    if shelf.strip is not None:
        yield from _of_strip(shelf, limit)
    strength = shelf.stuff.strength_mpa
    if strength is not None and stress > strength / shelf.stuff.factor:
        allowed = number_text(strength / shelf.stuff.factor, 3)
        yield (
            f"The stress of {number_text(stress, 3)} MPa is over {allowed} MPa, the "
            f"{shelf.stuff.strength_name} over {number_text(shelf.stuff.factor)}."
        )
    if any(shelf.stuff.name == name for name in _SHEETS) and shelf.creep <= CREEP_WOOD:
        yield f"{shelf.stuff.name} creeps more than solid wood: reckon with a creep of 3 (common practice)."
    if shelf.support == "fixed-ends":
        yield (
            "Held ends are as stiff as the sides that hold them: a housing glued in stiff sides, not pegs or "
            "battens."
        )
    if not shelf.weighed and shelf.own_n(shelf.thickness_mm) > 0.1 * shelf.load_n:
        own = shelf.own_n(shelf.thickness_mm)
        yield f"Its own weight of {number_text(own, 3)} N is not in the load; take it in with self weight."


def _of_strip(shelf: Shelf, limit: float) -> Iterator[str]:
    if shelf.sag_mm(_THINNEST_MM) * shelf.creep <= limit:
        yield ("The strip alone keeps the limit: the board only has to carry its load from back to front.")
    yield (
        "Board and strip are reckoned as one: a back edge that nothing holds sags more than the front. Carry "
        "it by a batten on the wall, or give it a strip too."
    )


SHELF_SAG = Calculator(
    name="shelf-sag",
    summary="How far a shelf sags at once and after years, and what thickness or span would do.",
    purpose="Strength and stiffness",
    inputs=SHELF_INPUTS,
    outputs=(
        "deflection",
        "deflection_long_term",
        "deflection_limit",
        "thickness_needed",
        "span_allowed",
        "bending_stress",
        "total_load",
        "self_weight",
        "second_moment",
    ),
    work=_shelf_sag,
    either=(("contents", "mass_per_metre", "mass", "load"), ("material", "modulus")),
    sources=(
        "beam tables: Machinery's Handbook (from memory)",
        "moduli of wood: USDA Wood Handbook, table 5-3; creep about doubles: ch. 5 (from memory)",
        "loads of shelves, limit of span/300: common practice",
    ),
    cautions=(
        "Guidance for workshop decisions: the fixings that hold a shelf fail before the board does. Nothing "
        "that people sit, stand or climb on.",
    ),
    draw=lambda given, result: _pictures(shelf_of(given)),
    example={
        "span": "800 mm",
        "width": "250 mm",
        "thickness": "18 mm",
        "material": "European oak",
        "contents": "books",
    },
)


def _pictures(shelf: Shelf) -> tuple[Picture, ...]:
    section = shelf.section(shelf.thickness_mm)
    supports = supports_of(shelf.support, shelf.span_mm)
    loads = shelf.loads(shelf.thickness_mm)
    sketch = Sketch(supports, loads, section, shelf.span_mm, shelf.stuff.wood)
    return beam_pictures(shelf.bent(shelf.thickness_mm), sketch)
