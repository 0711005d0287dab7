"""Rules for panels of solid wood whose edges lie in the grooves of a frame."""

from __future__ import annotations

from collections import defaultdict
from collections.abc import Iterator
from dataclasses import dataclass

from calculators.geometry.vectors import Vector
from calculators.joints.limits import Limit
from calculators.joints.model import Spot
from calculators.planning.checks.housed import SQUARE, Housed, housed_pairs
from calculators.planning.checks.rule import BuildRule, Seen, build_rule, setting, unchecked
from calculators.planning.checks.shifting import millimetres
from calculators.planning.checks.site import PartSite, Site
from calculators.planning.movement import MOISTURE_CHANGE_PERCENT

SOURCE = (
    "USDA Wood Handbook, dimensional change coefficients (table 13-5 of FPL-GTR-190); the spare room: "
    "common practice"
)
SPARE = Limit("panel-spare", 1.0, "mm", "common practice", "room for a panel beyond what it moves")
ROOM = Limit("panel-room", 1.2, "1", "common practice", "room for a panel, of its movement and the spare")


@dataclass(frozen=True, slots=True)
class _Framed:
    """A panel with its two long edges in grooves: the room beyond each edge, and the grooves."""

    copy: str
    front_mm: float
    back_mm: float
    front: Housed
    back: Housed

    @property
    def room_mm(self) -> float:
        """The room across the grain in both grooves."""
        return self.front_mm + self.back_mm


@build_rule(
    "panel-in-frame",
    "wood",
    "A panel of solid wood has room in the grooves of its frame to swell across its grain.",
    SOURCE,
    SPARE,
    ROOM,
)
def _panel_in_frame(site: Site) -> Iterator[Seen]:
    """Hold the room beyond both edges of a panel against what it moves.

        movement = width x C x change of moisture content

    C is C_T for flat-sawn wood and where the cut is not stated, C_R for quarter-sawn. There should be 1 mm
    more than that: less is an error, less than 1.2 times the sum a warning.
    """
    swing = site.context.moisture_change_percent
    percent = MOISTURE_CHANGE_PERCENT if swing is None else float(swing)
    worst: dict[str, _Framed] = {}
    for one in _framed(site):
        mark = site.placed.mark_of[one.copy]
        if mark not in worst or (one.room_mm, one.copy) < (worst[mark].room_mm, worst[mark].copy):
            worst[mark] = one
    for mark, one in sorted(worst.items(), key=lambda item: item[0]):
        yield from _held_against(site, site.parts[mark], one, percent)


def _framed(site: Site) -> Iterator[_Framed]:
    edges: dict[str, dict[str, list[tuple[float, Housed]]]] = defaultdict(lambda: defaultdict(list))
    for one in housed_pairs(site):
        panel = one.part.site
        if panel.material is None or not panel.material.is_solid_wood:
            continue
        own: Vector = one.part.transform.own_direction(one.inward)
        if abs(own[1]) > SQUARE:
            edges[one.part.name]["back" if own[1] > 0.0 else "front"].append((one.depth - one.goes_in, one))
    for copy, sides in edges.items():
        if len(sides) == 2:
            (front, at_front), (back, at_back) = (min(sides[side], key=_room) for side in ("front", "back"))
            yield _Framed(copy, front, back, at_front, at_back)


def _room(each: tuple[float, Housed]) -> float:
    return each[0]


def _held_against(site: Site, panel: PartSite, one: _Framed, percent: float) -> Iterator[Seen]:
    wood, solid = panel.material, panel.solid
    assert wood is not None
    assert solid is not None
    quarter = panel.component.grain_cut == "quarter"
    coefficient = wood.movement_radial if quarter else wood.movement_tangential
    if coefficient is None:
        yield unchecked(
            f"How much {wood.name} moves across its grain is not known here, so whether {panel.mark} has "
            "room in its frame was not checked.",
            part=panel.mark,
        )
        return
    moves = solid.width * coefficient * percent
    needed = moves + site.limits["panel-spare"]
    wanted = needed * site.limits["panel-room"]
    if one.room_mm >= wanted - 1e-6:
        return
    error = one.room_mm < needed - 1e-6
    says = (
        f"{panel.mark} is {solid.width:.4g} mm wide across its grain and moves {moves:.2f} mm when its "
        f"moisture changes by {percent:g} points; the grooves of {one.front.holder.mark} and "
        f"{one.back.holder.mark} give it {one.room_mm:.2f} mm: "
    )
    says += (
        f"{needed:.2f} mm is the least, or it pushes its frame apart." if error
        else f"that is little more than the {needed:.2f} mm it needs."
    )  # fmt: skip
    more = wanted - one.room_mm
    deeper = [
        (groove.path + ".depth", millimetres(round(groove.depth + more / 2.0 + 0.005, 2)))
        for groove in {each.path: each for each in (one.front, one.back)}.values()
    ]
    mend = setting(f"Cut the grooves {more / 2.0:.2f} mm deeper.", *deeper)
    yield Seen(
        "error" if error else "warning", says, part=panel.mark, value=one.room_mm,
        limit=needed if error else wanted, unit="mm", mends=(mend,),
        at=f"components[{panel.mark}].size.width",
        spots=(
            Spot(panel.mark, "front", solid.length / 2.0, solid.thickness / 2.0),
            Spot(panel.mark, "back", solid.length / 2.0, solid.thickness / 2.0),
        ),
    )  # fmt: skip


RULES: tuple[BuildRule, ...] = (_panel_in_frame,)
