"""Entry as the trade writes it: a part, joint, hole, pocket, pose, step or piece of stock on one line.

May import: everything below planning in calculators, the model and the build file's declaration and checks.
Offers: `add_lines` for several lines at once, a reader and a writer for each kind of line, the places of a
joint, and the next free mark. All readers raise only `InputError`.
"""

from calculators.planning.lines.adding import add_lines
from calculators.planning.lines.bends import read_bend_line, write_bend_line
from calculators.planning.lines.holes import read_hole_line
from calculators.planning.lines.joints import read_joint_line
from calculators.planning.lines.marks import next_mark
from calculators.planning.lines.model import Kind, LinesRead, Unread
from calculators.planning.lines.offering import offered_lines
from calculators.planning.lines.outlines import read_outline_line, write_outline_line
from calculators.planning.lines.parts import read_part_line
from calculators.planning.lines.places import read_place_lines, write_places
from calculators.planning.lines.pockets import read_pocket_line
from calculators.planning.lines.poses import read_pose_line
from calculators.planning.lines.readings import (
    read_moisture_line,
    read_reading_line,
    write_moisture_line,
    write_reading_line,
)
from calculators.planning.lines.steps import read_step_line
from calculators.planning.lines.stock import read_stock_line
from calculators.planning.lines.writing import (
    write_hole_line,
    write_pocket_line,
    write_pose_line,
    write_step_line,
)
from calculators.planning.lines.writing_joints import write_joint_line
from calculators.planning.lines.writing_parts import write_part_line

__all__ = [
    "Kind",
    "LinesRead",
    "Unread",
    "add_lines",
    "next_mark",
    "offered_lines",
    "read_bend_line",
    "read_hole_line",
    "read_joint_line",
    "read_moisture_line",
    "read_outline_line",
    "read_part_line",
    "read_place_lines",
    "read_pocket_line",
    "read_pose_line",
    "read_reading_line",
    "read_step_line",
    "read_stock_line",
    "write_bend_line",
    "write_hole_line",
    "write_joint_line",
    "write_moisture_line",
    "write_outline_line",
    "write_part_line",
    "write_places",
    "write_pocket_line",
    "write_pose_line",
    "write_reading_line",
    "write_step_line",
]
