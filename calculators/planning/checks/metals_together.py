"""The rule for metals that waste away beside one another in the wet."""

from __future__ import annotations

import re
from collections.abc import Iterator
from functools import lru_cache

from calculators.joints.limits import Limit
from calculators.joints.model import Mend, StackItem
from calculators.joints.roles import metal_of
from calculators.planning.checks.rule import BuildRule, Seen, joint_rule
from calculators.planning.checks.site import JointSite, material_of
from calculators.planning.worked import WorkedJoint
from calculators.tables import load

_TINY = 1e-6
_SOURCE = "anodic index as handbooks print it (after MIL-STD-889, from memory); common practice"
_ZINC = re.compile(r"zinc|galv|bzp|sherardi", re.I)
_CALLED = {"cast iron": "steel"}
_DRY_PAIRS = frozenset({"brass", "bronze", "copper"})


@joint_rule(
    "dissimilar-metals",
    "joints",
    "Metals far apart in the galvanic series do not touch where it is wet: the baser one wastes away.",
    _SOURCE,
    Limit(
        "metals-apart-wet", 0.35, "V", _SOURCE, "metals that touch in the wet, apart in the galvanic series"
    ),
)
def _dissimilar_metals(site: JointSite) -> Iterator[Seen]:
    """Metals in contact in a joint; aluminium with brass or copper also where it is dry."""
    worst: dict[tuple[str, str], tuple[str, str]] = {}
    for group in site.groups:
        for (first, metal), (second, other) in _contacts(group):
            baser = _index(metal) > _index(other)
            pair, named = ((metal, other), (first, second)) if baser else ((other, metal), (second, first))
            worst.setdefault(pair, named)
    for (base, noble), (what, beside) in worst.items():
        apart = _index(base) - _index(noble)
        if site.joint.wet and apart > site.limits["metals-apart-wet"] + _TINY:
            says = (
                f"{what} ({base}) touches {beside} ({noble}) in the wet, {apart:.2f} V apart in the "
                f"galvanic series: the {base} wastes away."
            )
            mend = Mend("Keep them apart with a nylon washer and sleeve, or paint both; or use like metals.")
            yield Seen(
                "warning", says, site.mark, _mark(site, what, beside), f"{base} and {noble}", apart,
                site.limits["metals-apart-wet"], "V", (mend,), f"joints[{site.mark}].wet",
            )  # fmt: skip
        elif not site.joint.wet and base == "aluminium" and noble in _DRY_PAIRS:
            says = (
                f"{what} (aluminium) touches {beside} ({noble}): good in a dry room, not in a damp one, "
                "where the aluminium pits."
            )
            yield Seen("note", says, site.mark, _mark(site, what, beside), f"{base} and {noble}")


def _mark(site: JointSite, *names: str) -> str:
    return next((name for name in names if name in site.placed.components), "")


@lru_cache(maxsize=64)
def _index(metal: str) -> float:
    return load("galvanic_metals").row(metal).number("index")


def _contacts(group: WorkedJoint) -> Iterator[tuple[tuple[str, str], tuple[str, str]]]:
    """What touches what in a joint, each with its metal: neighbours in the stack, and the screw with all."""
    fastener = group.result.fastener
    screw = _hardware_metal(fastener.material, fastener.finish, fastener.grade)
    before: tuple[str, str] | None = None
    for item in group.inputs.stack:
        here = _member(item)
        if here is None or (item.layer is not None and item.layer.gap_mm > 0.05):
            before = here
            if here is None:
                continue
        elif before is not None and before[1] != here[1]:
            yield before, here
        before = here
        if screw and screw != here[1]:
            yield ("the screw", screw), here


def _member(item: StackItem) -> tuple[str, str] | None:
    """What a member of the stack is called and its metal; None where it is none that is known."""
    if item.layer is not None:
        material = material_of(item.layer.material)
        if material is None or not material.is_metal:
            return None
        return item.layer.part, _CALLED.get(material.kind, material.kind)
    for what, one in (("the washer", item.washer), ("the nut", item.nut)):
        if one is not None:
            metal = _hardware_metal(one.material, one.finish, "")
            return (what, metal) if metal else None
    if item.insert is not None:
        metal = _hardware_metal(item.insert.material, "", "")
        return ("the insert", metal) if metal else None
    return None


def _hardware_metal(material: str, finish: str, grade: str) -> str:
    """The metal on the outside of a piece of hardware; empty where it is not known."""
    metal = metal_of(material, finish, grade)
    if metal == "plated steel":
        return "zinc" if _ZINC.search(f"{finish} {material}") else ""
    if metal == "stainless":
        return "stainless steel"
    known = material_of(material) if metal == "other" else None
    if known is not None and known.is_metal:
        return _CALLED.get(known.kind, known.kind)
    return "" if metal == "other" else metal


RULES: tuple[BuildRule, ...] = (_dissimilar_metals,)
