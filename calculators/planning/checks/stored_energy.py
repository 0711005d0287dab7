"""Whether a build that stores energy says how it is let down or made safe."""

from __future__ import annotations

import re
from collections.abc import Iterator

from calculators.joints.model import Mend
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.site import Site
from calculators.planning.model import AssemblyStep, Component

_CALCULATIONS = (
    "spring", "spring-choice", "spring-pair", "spring-rate-test", "string-tension", "string-frame",
)  # fmt: skip
_WIRE = re.compile(r"\b(music|piano|spring)[ -]wire\b", re.I)
_STRUNG = re.compile(r"\b(wire|wires|string|strings|suspension)\b", re.I)
_SPRING = re.compile(r"\bsprings?$", re.I)
_NAMED = re.compile(r"\b(springs?|strings?|wires?|tension|weights?|coils?|stored energy)\b", re.I)
_SAFE = re.compile(
    r"\b(let(ting)?\b[^.:;]{0,40}\b(down|off|go)|slack\w*|slacken\w*|unhook\w*|unload\w*|unwind\w*|release\w*"
    r"|relax\w*|relieve\w*|ease[ds]?|take\w*\b[^.:;]{0,30}\boff|support\w*|hold|held|captive|block(ed)?"
    r"|pin(ned)?|secure[ds]?|clamp(ed)?)\b",
    re.I,
)
_FEW = 3


def _stores(part: Component) -> bool:
    """Whether a part is a spring, or a string or tight wire of spring wire."""
    return bool(_SPRING.search(part.name.split(",")[0].strip())) or bool(
        _WIRE.search(part.material) and _STRUNG.search(part.name)
    )


@build_rule(
    "stored-energy",
    "mechanism",
    "Where springs or strings store energy, a step's caution says how it is let down or made safe.",
    CP,
)
def _stored_energy(site: Site) -> Iterator[Seen]:
    parts = [part for part in site.build.components if _stores(part)]
    kept = [one for one in site.build.calculations if one.calculator in _CALCULATIONS or (
        one.calculator == "pivot" and dict(one.inputs).get("springs", "").strip())]  # fmt: skip
    if not parts and not kept:
        return
    what = [f"{part.mark} {part.name}".strip() for part in parts]
    what += [f"{one.mark} {one.title}".strip() for one in kept]
    more = f" and {len(what) - _FEW} more" if len(what) > _FEW else ""
    told = f"{', '.join(what[:_FEW])}{more}"
    steps = site.build.steps
    if not steps:
        yield unchecked(
            f"This build stores energy ({told}), but no step is written: whether it is let down safely "
            "cannot be told.",
            part=parts[0].mark if parts else kept[0].mark,
            at="steps",
        )
        return
    named = [step for step in steps if _NAMED.search(step.caution)]
    if any(_SAFE.search(step.caution) for step in named):
        return
    step = named[0] if named else _fitting(steps, parts)
    if named:
        says = f"the caution of step {step.number} names it, but not how it is let down or made safe"
    else:
        says = "no step's caution names it, nor says how it is let down or made safe"
    mends = (_mend(step),) if _SAFE.search(_caution(step)) else ()
    yield Seen(
        "warning" if named else "error",
        f"This build stores energy ({told}): {says}. Write it where it is fitted, step {step.number}.",
        part=parts[0].mark if parts else kept[0].mark,
        place=f"step {step.number}", at=f"steps[{step.number}].caution", mends=mends,
    )  # fmt: skip


def _fitting(steps: tuple[AssemblyStep, ...], parts: list[Component]) -> AssemblyStep:
    """The step that fits the first of the parts; the last one where none does."""
    marks = {part.mark for part in parts}
    return next((step for step in steps if marks & set(step.fits)), steps[-1])


def _caution(step: AssemblyStep) -> str:
    first = f"{step.caution.rstrip()} " if step.caution.strip() else ""
    return (
        f"{first}Springs and strings store energy: wear eye protection, keep out of their line, and let the "
        "tension down before anything is taken apart."
    )


def _mend(step: AssemblyStep) -> Mend:
    return setting(
        f"Write in step {step.number} that the tension is let down first.",
        (f"steps[{step.number}].caution", _caution(step)),
    )


RULES: tuple[BuildRule, ...] = (_stored_energy,)
