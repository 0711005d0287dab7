"""What a person asked of the beam calculator, in the terms of its formulas."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.calculation import Given
from calculators.calculation.result import number_text
from calculators.declared.section_inputs import Stiff, stiff_given, stuff_given
from calculators.drawing.beams import Sketch
from calculators.mechanics.beams.cases import Laid, check_on_beam, loads_of, supports_of
from calculators.mechanics.beams.line import Load, Support, bend
from calculators.mechanics.sections import shear_factor
from calculators.mechanics.stuff import CREEP_WOOD, Stuff, weight_n
from calculators.quantities.errors import InputError


@dataclass(frozen=True, slots=True)
class Asked:
    """A beam as it was asked for: how it is held, loaded, made, and what it may do."""

    support: str
    kind: str
    laid: Laid
    supports: tuple[Support, ...]
    loads: tuple[Load, ...]
    stiff: Stiff
    stuff: Stuff
    factor: float
    limit_over: float
    creep: float
    weighed: bool

    @property
    def span_mm(self) -> float:
        """The distance between supports, of a cantilever its length."""
        return self.laid.span

    @property
    def whole_mm(self) -> float:
        """The beam's whole length."""
        return self.laid.span + self.laid.overhang

    @property
    def limit_mm(self) -> float:
        """How far it may bend in the long run."""
        return self.laid.span / self.limit_over

    @property
    def weight_n(self) -> float | None:
        """The beam's own weight, where its section and density are known."""
        area = self.stiff.area_mm2
        return None if area is None else weight_n(self.stuff, area, self.whole_mm)

    @property
    def own_load(self) -> tuple[Load, ...]:
        """Its own weight as a load."""
        weight = self.weight_n
        return () if weight is None else (Load(0.0, weight, self.whole_mm),)

    @property
    def all_loads(self) -> tuple[Load, ...]:
        """The loads, with its own weight where that was asked for."""
        return (*self.loads, *(self.own_load if self.weighed else ()))

    @property
    def weight_sag_mm(self) -> float | None:
        """How far it bends under its own weight alone."""
        if not self.own_load:
            return None
        stiffness = self.stuff.modulus_mpa * self.stiff.second_moment_mm4
        bent = bend(self.whole_mm, self.supports, self.own_load, stiffness, samples=2)
        return abs(bent.deflection.value)

    @property
    def shear_stiffness_n(self) -> float | None:
        """Modulus of rigidity times area over the shear factor, where the section is known."""
        section = self.stiff.section
        return None if section is None else self.stuff.rigidity_mpa * section.area_mm2 / shear_factor(section)

    @property
    def allowed_mpa(self) -> float | None:
        """The stress allowed, where a strength is known."""
        return None if self.stuff.strength_mpa is None else self.stuff.strength_mpa / self.factor

    @property
    def allowed_words(self) -> str:
        """The formula of the stress allowed."""
        return f"{self.stuff.strength_name} / factor"

    @property
    def allowed_numbers(self) -> str:
        """The same with its numbers."""
        return f"{number_text(self.stuff.strength_mpa or 0.0)} MPa / {number_text(self.factor)}"

    @property
    def allowed_source(self) -> str:
        """Where the factor is from."""
        return "factor: common practice" if self.stuff.wood else "factor: AISC 360, from memory"

    @property
    def creep_source(self) -> str:
        """Where the creep is from."""
        return "Wood Handbook ch. 5, from memory: about doubled" if self.stuff.wood else "common practice"

    @property
    def sketch(self) -> Sketch:
        """What its picture needs."""
        return Sketch(self.supports, self.all_loads, self.stiff.section, self.span_mm, self.stuff.wood)


def asked_of(given: Given) -> Asked:
    """Read what was asked.

    Args:
        given: the inputs of the beam calculator.

    Returns:
        The beam.

    Raises:
        InputError: when a load, place, section or material is missing or makes no beam.

    Source: this project.
    """
    support, kind = given.text("support"), _kind(given)
    stiff, stuff = stiff_given(given), stuff_given(given)
    span = given.mm("span")
    laid = Laid(
        _load(given, kind),
        span,
        _place(given, kind, span),
        _overhang(given, support),
        stuff.modulus_mpa * stiff.second_moment_mm4,
    )
    loads = _several(given, laid) if kind == "several" else loads_of(support, kind, laid)
    weighed = given.flag("with_self_weight")
    if weighed and (stuff.density_kg_m3 is None or stiff.area_mm2 is None):
        says = "The beam's own weight needs a section and a material whose density is known."
        raise InputError.of(says, field="with_self_weight")
    creep = given.number_or_none("creep")
    factor = given.number_or_none("factor")
    return Asked(
        support, kind, laid, supports_of(support, span), loads, stiff, stuff,
        stuff.factor if factor is None else factor,
        given.number("limit"),
        (CREEP_WOOD if stuff.wood else 1.0) if creep is None else creep,
        weighed,
    )  # fmt: skip


def _kind(given: Given) -> str:
    kind = given.text_or_none("load_kind")
    if given.rows("loads"):
        if kind not in (None, "several") or given.number_or_none("load") is not None:
            says = "Give either one load or several loads in rows, not both."
            raise InputError.of(says, field="loads")
        return "several"
    if kind is not None:
        return kind
    if given.number_or_none("load") is None and given.number_or_none("moment") is not None:
        return "moment"
    if given.mm_or_none("at") is not None:
        return "at"
    return "end" if given.text("support") == "cantilever" else "centre"


def _load(given: Given, kind: str) -> float:
    if kind == "several":
        if not given.rows("loads"):
            says = "Several loads are given in rows: loads, a row each with load and place."
            raise InputError.of(says, field="loads")
        return 0.0
    load, moment = given.number_or_none("load"), given.number_or_none("moment")
    if kind == "moment":
        if moment is None or load is not None:
            says = "With load kind moment give the moment, as 5 N m, and no load."
            raise InputError.of(says, field="moment")
        return moment * 1000
    if moment is not None:
        raise InputError.of("A moment is given with load kind moment, or in loads.", field="moment")
    if load is None:
        raise InputError.of("The load is missing; give it, as 100 N, or several loads in rows.", field="load")
    return load


def _place(given: Given, kind: str, span: float) -> float:
    at = given.mm_or_none("at")
    if kind in ("at", "two"):
        if at is None:
            what = "the load" if kind == "at" else "each load, from its end"
            raise InputError.of(f"The place of {what} is missing; give at.", field="at")
        return at
    if kind == "moment":
        return span if at is None and given.text("support") == "cantilever" else at or 0.0
    if at is not None:
        says = f"A load of kind {kind} takes no place; leave at out, or take load kind at."
        raise InputError.of(says, field="at")
    return span / 2


def _overhang(given: Given, support: str) -> float:
    overhang = given.mm_or_none("overhang")
    if support == "overhanging":
        if overhang is None:
            raise InputError.of("An overhanging beam needs the length of its overhang.", field="overhang")
        return overhang
    if overhang is not None:
        says = f"A {support} beam has no overhang; take support overhanging, or leave it out."
        raise InputError.of(says, field="overhang")
    return 0.0


def _several(given: Given, laid: Laid) -> tuple[Load, ...]:
    whole = laid.span + laid.overhang
    loads = []
    for place, row in enumerate(given.rows("loads")):
        at, to = row.mm("at"), row.mm_or_none("to")
        check_on_beam(at, whole, f"loads[{place}].at")
        if to is not None:
            check_on_beam(to, whole, f"loads[{place}].to")
            if to <= at:
                says = f"A load spread from {at:g} mm ends beyond that; it is said to end at {to:g} mm."
                raise InputError.of(says, field=f"loads[{place}].to")
        loads.append(Load(at, row.number("load"), to, row.number("moment") * 1000))
    if not any(load.force_n or load.moment_n_mm for load in loads):
        raise InputError.of("All of the loads are nought; give one that is not.", field="loads")
    return tuple(loads)
