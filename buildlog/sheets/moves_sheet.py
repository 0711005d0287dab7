"""The sheet `moves`, which goes to the machine with the drilling moves: caution, set-up, tools, holes."""

from __future__ import annotations

from collections.abc import Mapping
from typing import Any

from buildlog.builds.drawing_files import flat_face, set_up_for
from buildlog.builds.drawings import holes_of, plan_of
from buildlog.builds.router_form import OPTIONS as ROUTER_OPTIONS
from buildlog.builds.router_form import set_up_asked
from calculators.drawing.drilling_moves import SetUp, drilling_moves
from calculators.drawing.iso_code import CAUTIONS
from calculators.planning.schedules.cutting import parts_to_cut
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError

OPTIONS = ROUTER_OPTIONS


def moves_content(worked: WorkedBuild, component: str, asked: Mapping[str, str]) -> dict[str, Any]:
    """What stands on the sheet: one face of a part, or of every part that is made and has holes there.

    Raises InputError for a face or a set-up that there is not, and for what cannot be drilled.
    """
    set_up, face = set_up_asked(asked, worked.build.unit), asked.get("face", "")
    if component:
        set_up = set_up_for(worked, component, asked)
        return {"faces": [_face(worked, component, face, set_up)], "cautions": CAUTIONS, "set_up": set_up}
    faces, left_out = [], []
    for part in parts_to_cut(worked.build):
        if not any(hole.part == part.mark for hole in worked.holes):
            continue
        try:
            faces.append(_face(worked, part.mark, face, set_up_for(worked, part.mark, asked)))
        except InputError as error:
            left_out.append(str(error))
    return {"faces": faces, "left_out": left_out, "cautions": CAUTIONS, "set_up": set_up}


def _face(worked: WorkedBuild, mark: str, face: str, set_up: SetUp) -> dict[str, Any]:
    shape = flat_face(worked, mark, face)
    part = next(one for one in worked.build.components if one.mark == mark)
    holes = tuple(one for one in holes_of(worked, mark) if one.face == shape.face)
    return {
        "part": part,
        "shape": shape,
        "moves": drilling_moves(shape, set_up),
        "holes": holes,
        "plan": plan_of(part, shape.face, holes),
    }
