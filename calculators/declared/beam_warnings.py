"""What a person should mind about a beam, with the number and the limit."""

from __future__ import annotations

from collections.abc import Iterator, Mapping
from math import ceil

from calculators.calculation.result import number_text
from calculators.declared.beam_reading import Asked
from calculators.mechanics.beams.line import Bent

_STEEP = 10.0
_SHEAR_SHARE = 0.05
_WEIGHT_SHARE = 0.1
_LEANS = 4.0
_REST = 1e-9
_NONE_MM = 1e-12


def beam_warnings(asked: Asked, beam: Bent, results: Mapping[str, object]) -> tuple[str, ...]:
    """Say what to mind.

    Args:
        asked: the beam as read.
        beam: how it bends.
        results: its results by name.

    Returns:
        Sentences.

    Source: common practice.
    """
    return (*_limits(asked, beam, results), *_shares(asked, beam, results), *_shape(asked, beam))


def _number(results: Mapping[str, object], name: str) -> float | None:
    value = results.get(name)
    return value if isinstance(value, float) else None


def _limits(asked: Asked, beam: Bent, results: Mapping[str, object]) -> Iterator[str]:
    lasting = abs(beam.deflection.value) * asked.creep
    over = f"span/{number_text(asked.limit_over)}"
    if lasting > asked.limit_mm:
        depth = _number(results, "depth_needed")
        remedy = f"; {number_text(ceil(depth * 10) / 10)} mm deep would do" if depth is not None else ""
        yield (
            f"It bends {number_text(lasting, 3)} mm in the long run, more than {over}, "
            f"{number_text(asked.limit_mm, 3)} mm{remedy}."
        )
    share = _number(results, "stress_share")
    if share is not None and share > 100:
        yield (
            f"The stress is {number_text(share, 3)} % of what is allowed ({asked.stuff.strength_name} over "
            f"{number_text(asked.factor)})."
        )
    if abs(beam.deflection.value) > asked.whole_mm / _STEEP:
        yield (
            "It bends more than a tenth of its length: the formulas, which are of small deflections, are "
            "wrong there."
        )
    if beam.deflection.value < 0:
        yield "The greatest deflection is upward."


def _shares(asked: Asked, beam: Bent, results: Mapping[str, object]) -> Iterator[str]:
    sheared, sag = _number(results, "shear_deflection"), abs(beam.deflection.value)
    if sag <= _NONE_MM:
        yield "The load stands over a support: the beam does not bend under it."
        return
    if sheared is not None and sheared > _SHEAR_SHARE * sag:
        table = asked.stuff.wood and asked.stuff.modulus_source != "as given"
        yield (
            f"It is stubby: shearing adds {number_text(sheared, 3)} mm, {_of_it(sheared / sag)}, to the "
            "deflection, which is of bending alone."
            + (" Of that a table's modulus of wood, from beams 14 times as long as deep, holds some." * table)
        )
    own = _number(results, "self_weight_deflection")
    if own is not None and not asked.weighed and own > _WEIGHT_SHARE * sag:
        yield (
            f"Its own weight adds {number_text(own, 3)} mm, {_of_it(own / sag)}; it is not in the deflection."
        )


def _of_it(share: float) -> str:
    """A share of the deflection in words."""
    return f"{number_text(100 * share, 2)} % of it" if share < 1 else "as much as it or more"


def _shape(asked: Asked, beam: Bent) -> Iterator[str]:
    greatest = max(abs(each.force_n) for each in beam.reactions)
    for each in beam.reactions:
        if each.force_n < -_REST * greatest and len(beam.reactions) > 1:
            yield (
                f"At {number_text(each.at_mm)} mm it pulls up with {number_text(-each.force_n, 3)} N: it "
                "must be held down there."
            )
    section = asked.stiff.section
    if section is None:
        return
    if section.depth_mm > _LEANS * section.width_mm:
        yield (
            f"It is {number_text(section.depth_mm / section.width_mm, 2)} times as deep as wide: without a "
            "hold on its upper edge it may lean over sideways before it breaks."
        )
    skew = abs(section.product_mm4) > 1e-6 * section.second_moment_mm4
    if skew or abs(section.left_mm - section.right_mm) > 1e-6 * section.width_mm:
        yield (
            "The section is not alike left and right: the load twists it or bends it sideways too, unless it "
            "is held upright."
        )
