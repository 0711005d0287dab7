"""Rules for tools: drills, taps and cutters that the workshop owns, against those that the build needs.

What is told is told once a tool. Reamers, countersinks and counterbores are not looked at: the build has no
list of those that are owned.
"""

from __future__ import annotations

from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from typing import Literal

from calculators.hardware.drills import Drill, drill_set
from calculators.hardware.threads import find_thread
from calculators.joints.limits import Limit
from calculators.joints.model import Mend
from calculators.planning.checks.other_drills import Use, another_drill
from calculators.planning.checks.rule import CP, BuildRule, Seen, build_rule, unchecked
from calculators.planning.checks.site import PartSite, Site
from calculators.planning.model import Component
from calculators.planning.schedules.drilling import drilling_of_direct, drilling_of_layer
from calculators.planning.worked import WorkedHole
from calculators.quantities.errors import InputError
from calculators.quantities.reading import read_length

Kind = Literal["drill", "tap", "cutter"]
_FIELD: Mapping[Kind, str] = {"drill": "drills", "tap": "taps", "cutter": "cutters"}

_NEAR = Limit("drill-near", 0.05, "mm", CP, "a drill or cutter this near to a size does for it")
_BORED = Limit("drilled-most", 13.0, "mm", CP, "a wider hole is bored or sawn, not made with a twist drill")


@dataclass(frozen=True, slots=True)
class Need:
    """One use of a tool: its kind, what it is called, its size [mm] (a tap has none), where, for what."""

    kind: Kind
    name: str
    size_mm: float
    part: str
    joint: str = ""
    of: str = ""
    at: str = ""


@dataclass(slots=True)
class _Tool:
    """A tool that is needed, with all its uses."""

    kind: Kind
    name: str
    size_mm: float
    uses: list[Need] = field(default_factory=list)


@build_rule(
    "tools-owned",
    "material",
    "Every drill, tap and cutter that the parts still to be made need is owned.",
    CP,
    _NEAR,
    _BORED,
)
def _tools_owned(site: Site) -> Iterator[Seen]:
    """One finding for each tool that is not owned; one for each kind of which no list is there."""
    tools: dict[tuple[Kind, str], _Tool] = {}
    for part in site.parts.values():
        for need in needs_of(part):
            tools.setdefault((need.kind, need.name), _Tool(need.kind, need.name, need.size_mm)).uses.append(
                need
            )
    owned = _owned(site.context.drills, site.context.taps, site.context.cutters)
    near = site.limits["drill-near"]
    kinds: tuple[Kind, ...] = ("drill", "tap", "cutter")
    for kind in kinds:
        needed = [one for one in tools.values() if one.kind == kind]
        listed = getattr(site.context, _FIELD[kind])
        if needed and not listed:
            few = ", ".join(one.name for one in needed[:4])
            more = f" and {len(needed) - 4} more" if len(needed) > 4 else ""
            yield unchecked(
                f"No {_FIELD[kind]} are listed as owned, so it is not checked whether what this build needs "
                f"is there: {few}{more}.",
                at=f"context.{_FIELD[kind]}",
            )
            continue
        for one in needed:
            if not owned.has(one, near):
                yield _not_owned(site, one, owned, near)
    for kind, text in owned.unread:
        yield unchecked(
            f"“{text}” in the {_FIELD[kind]} owned does not read as {_MEANT[kind]}: it is left out.",
            at=f"context.{_FIELD[kind]}",
        )


_MEANT: Mapping[Kind, str] = {
    "drill": "a drill or a set of drills",
    "tap": "a thread",
    "cutter": "a cutter's diameter",
}


@dataclass(frozen=True, slots=True)
class Owned:
    """What is owned, read; and the lines that could not be."""

    drills: tuple[Drill, ...]
    taps: frozenset[str]
    cutters: tuple[float, ...]
    unread: tuple[tuple[Kind, str], ...]

    def has(self, tool: _Tool, near_mm: float) -> bool:
        """Whether a tool is owned, or one that does as well."""
        if tool.kind == "tap":
            return tool.name in self.taps
        if tool.kind == "cutter":
            return any(abs(one - tool.size_mm) <= near_mm + 1e-9 for one in self.cutters)
        return any(abs(one.diameter_mm - tool.size_mm) <= near_mm + 1e-9 for one in self.drills)


@lru_cache(maxsize=64)
def _owned(drills: tuple[str, ...], taps: tuple[str, ...], cutters: tuple[str, ...]) -> Owned:
    unread: list[tuple[Kind, str]] = []
    found: dict[str, Drill] = {}
    for text in drills:
        try:
            found.update((one.name, one) for one in drill_set(text))
        except InputError:
            unread.append(("drill", text))
    threads = set()
    for text in taps:
        try:
            threads.add(find_thread(text.strip()).designation)
        except InputError:
            unread.append(("tap", text))
    wide = []
    for text in cutters:
        size = cutter_mm(text)
        if size is None:
            unread.append(("cutter", text))
        else:
            wide.append(size)
    ordered = tuple(sorted(found.values(), key=lambda one: one.diameter_mm))
    return Owned(ordered, frozenset(threads), tuple(wide), tuple(unread))


def cutter_mm(text: str) -> float | None:
    """Read the diameter of a cutter from what a person calls it.

    Args:
        text: such as `1/2 in`, `6 mm`, `1/2 in straight cutter`.

    Returns:
        The diameter [mm]; None where no length stands at its beginning.

    Source: this project.

    Example:
        >>> cutter_mm("1/2 in straight"), cutter_mm("6"), cutter_mm("dovetail")
        (12.7, 6.0, None)
    """
    words = text.strip().replace("⌀", "").split()
    for count in range(min(len(words), 4), 0, -1):
        try:
            size = read_length(" ".join(words[:count])).mm
        except InputError:
            continue
        return size if size > 0 else None
    return None


def needs_of(part: PartSite) -> tuple[Need, ...]:
    """Tell which tools a part still needs: none where it is made, bought or re-used.

    Args:
        part: the part with its holes.

    Returns:
        A need for each hole and pocket that takes a tool of its own.

    Source: this project.
    """
    kept = part.kept.get("tools")
    if kept is None:
        kept = part.kept["tools"] = tuple(dict.fromkeys(_needs(part)))
    return tuple(kept)


def is_to_make(one: Component) -> bool:
    """Whether a part is still to be made here.

    Args:
        one: the part.

    Returns:
        False for what is made, fitted or in hand, and for what is bought or re-used.

    Source: this project.
    """
    return one.state in ("planned", "released") and one.stock != "bought" and not one.reused


def _needs(part: PartSite) -> Iterator[Need]:
    one = part.component
    if not is_to_make(one):
        return
    most = part.limits["drilled-most"]
    seen: set[tuple[int, str]] = set()
    for hole in part.holes:
        # The places of a joint have one and the same hole, and need the same tools.
        key = (id(hole.hole), hole.entry)
        if hole.hole is None or key not in seen:
            seen.add(key)
            yield from _for_hole(one, hole, most)
    for pocket in one.pockets:
        if pocket.cutter is not None and pocket.cutter.ticks > 0:
            name = pocket.cutter.written or f"{pocket.cutter.mm:g}"
            if not any(letter.isalpha() or letter in "\"'″" for letter in name):
                name = f"{name} {pocket.cutter.unit}"
            at = f"components[{one.mark}].pockets[{pocket.id}].cutter"
            yield Need("cutter", name, pocket.cutter.mm, one.mark, of=pocket.id, at=at)


def _for_hole(one: Component, hole: WorkedHole, most_mm: float) -> Iterator[Need]:
    if hole.hole is not None:
        drilling = drilling_of_layer(hole.hole, one, hole.entry)
        at, of = f"joints[{hole.joint}].stack[{one.mark}]", ""
    elif hole.direct is not None:
        drilling = drilling_of_direct(hole.direct, one)
        at, of = f"components[{one.mark}].holes[{hole.direct.id}]", hole.direct.id
    else:
        return
    size = drilling.diameter_mm
    if size is not None and 0 < size <= most_mm and drilling.kind != "reamed":
        name = drilling.drill or f"{size:.2f}".rstrip("0").rstrip(".") + " mm"
        yield Need("drill", name, size, one.mark, hole.joint, of, at)
    if drilling.kind == "tapping" and (thread := _thread(drilling.thread)):
        yield Need("tap", thread, 0.0, one.mark, hole.joint, of, at)


@lru_cache(maxsize=1024)
def _thread(written: str) -> str:
    """The thread in canonical writing; nothing where it is not known, which other rules tell."""
    try:
        return find_thread(written).designation if written else ""
    except InputError:
        return ""


def _not_owned(site: Site, tool: _Tool, owned: Owned, near_mm: float) -> Seen:
    parts = list(dict.fromkeys(use.part for use in tool.uses))
    joints = list(dict.fromkeys(use.joint for use in tool.uses if use.joint))
    where = f"{_listed(parts)}{f' (for {_listed(joints)})' if joints else ''}"
    what = {"drill": f"a drill {tool.name}", "tap": f"a tap {tool.name}", "cutter": f"a cutter {tool.name}"}
    says = f"{where} {'needs' if len(parts) == 1 else 'need'} {what[tool.kind]}, which is not owned"
    nearest = _nearest(tool, owned)
    says += f"; the nearest is {nearest[0]}." if nearest else "."
    others: tuple[Mend, ...] = ()
    if tool.kind == "drill":
        uses = [Use(use.part, use.joint, use.of) for use in tool.uses]
        others = another_drill(site, tool.name, tool.size_mm, uses, owned.drills)
    mends = (*others, Mend(f"Buy or borrow {what[tool.kind]}."))
    sized = tool.kind != "tap"
    only = tool.uses[0]
    return Seen(
        "warning",
        says,
        joint=joints[0] if len(joints) == 1 and len(parts) == 1 else "",
        part=parts[0] if len(parts) == 1 else "",
        place=f"{tool.kind} {tool.name}",
        value=tool.size_mm if sized else None,
        limit=nearest[1] if nearest else None,
        unit="mm" if sized else "",
        mends=mends,
        at=_at(site, only) if len(parts) == 1 and len(joints) <= 1 else f"context.{_FIELD[tool.kind]}",
    )


def _at(site: Site, need: Need) -> str:
    """The field of a need; the joint's whole stack where its layers were found along the axis, not named."""
    joint = site.joints.get(need.joint)
    if joint is None or any(member.part == need.part for member in joint.joint.stack):
        return need.at
    return f"joints[{need.joint}].stack"


def _listed(names: Iterable[str]) -> str:
    names = list(names)
    if len(names) > 5:
        return f"{', '.join(names[:4])} and {len(names) - 4} more"
    return " and ".join(filter(None, (", ".join(names[:-1]), names[-1])))


def _nearest(tool: _Tool, owned: Owned) -> tuple[str, float] | None:
    if tool.kind == "cutter" and owned.cutters:
        size = min(owned.cutters, key=lambda one: (abs(one - tool.size_mm), one))
        return f"{size:.4g} mm", size
    if tool.kind == "drill" and owned.drills:
        drill = min(owned.drills, key=lambda one: (abs(one.diameter_mm - tool.size_mm), one.diameter_mm))
        return drill.name, drill.diameter_mm
    return None


RULES: tuple[BuildRule, ...] = (_tools_owned,)
