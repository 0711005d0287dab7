"""The sheet `moves`, which goes to the machine with the drilling moves: caution, set-up, tools, holes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildlog.builds.drawing_files import faces_of
from buildlog.builds.drawings import holes_of, plan_of
from buildlog.builds.router_form import OPTIONS as ROUTER_OPTIONS
from buildlog.builds.router_form import set_up_asked
from calculators.drawing.drilling_moves import drilling_moves
from calculators.drawing.iso_code import CAUTIONS
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

OPTIONS = ROUTER_OPTIONS


def moves_content(worked: WorkedBuild, component: str, asked: Mapping[str, str]) -> dict[str, Any]:
    """What stands on the sheet. Raises InputError without a component, and for what cannot be drilled."""
    if not component:
        raise InputError.of("Say of which part the drilling moves are: --component MARK.", field="component")
    face = asked.get("face", "")
    shapes = [one for one in faces_of(worked, component, face) if face or not one.is_wrapped]
    if not shapes:
        raise InputError.of(f"{component} has holes on its side alone, which does not lie flat on a router.")
    shape, moves = shapes[0], drilling_moves(shapes[0], set_up_asked(asked, worked.build.unit))
    part = next(one for one in worked.build.components if one.mark == component)
    holes = tuple(one for one in holes_of(worked, component) if one.face == shape.face)
    return {
        "part": part,
        "shape": shape,
        "moves": moves,
        "holes": holes,
        "plan": plan_of(part, shape.face, holes),
        "cautions": CAUTIONS,
    }
