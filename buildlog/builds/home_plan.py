"""The face that a joint is placed on, drawn with its holes: to see its places, and to move them there."""

from __future__ import annotations

from typing import Any

from buildlog.builds.drawings import holes_of
from buildlog.builds.handles import handles_of, step_unit
from buildlog.builds.red_places import MOST_DRAWN, draw_red, lies_in, red_on
from calculators.planning.model import Joint
from calculators.planning.tree import split_copy
from calculators.planning.worked import WorkedBuild


def home_plan(worked: WorkedBuild, joint: Joint) -> dict[str, Any]:
    """What the partial `_home_plan.html` needs; `home` is None where there is no face to draw."""
    mark = split_copy(joint.home)[0]
    part = next((one for one in worked.build.components if one.mark == mark), None)
    if part is None or not joint.face:
        return {"home": None}
    holes = tuple(one for one in holes_of(worked, mark) if one.face == joint.face)
    if len(holes) > MOST_DRAWN:
        return {"home": None}
    red = red_on([one for one in worked.findings if lies_in(one, mark)], mark, joint.face)
    drawn = draw_red(part, joint.face, holes, red, handles_of(worked.build, mark, holes))
    return {"home": drawn, "step_unit": step_unit(worked.build)}
