"""Lines that are refused or asked back, each with its sentence and what may be meant."""

from __future__ import annotations

import pytest

from calculators.planning.lines import (
    read_hole_line,
    read_joint_line,
    read_part_line,
    read_place_lines,
    read_pocket_line,
    read_pose_line,
    read_step_line,
)
from calculators.quantities import InputError
from tests.planning.lines.cast_of_lines import BOX, INCHES

PART = "write it as 4 sides 300 x 120 x 12 oak, or P12 Lid, oak, 300 x 120 x 12, 1 off."
JOINT = "write it as M5 x 20 csk: plate 2 into rail 18, or P07 to P01 with 12 No. 4 x 1/2 csk brass."
HOLE = (
    "write it as 5.5 at 20,30, M4 tapped 10 deep at 20,30, or row of 5, dia 5, from 37,37 pitch 32 along u."
)
PLACES = "write places as 20,30; 20,70, row of 3 from 20,30 pitch 40 along u, 2 x 3 grid from 20,20 pitch 40 x 25 or circle of 6 on 80 pcd at 60,60."
POCKET = "write it as recess 90 x 90 x 6 deep at 515,85, corner radius 3, or rebate 8 x 4 along front edge."
POSE = "write it as P11 on P01 top at 515, 85, turned 0, let in 6, or P01 on the ground."
STEP = (
    "write it as 5 Pillar to flange: fits P10, F03; closes F10; tools 13 mm spanner; caution ...; check ...."
)

READERS = {
    "part": lambda text: read_part_line(text, BOX),
    "inches": lambda text: read_part_line(text, INCHES),
    "lid": lambda text: read_part_line(text, BOX, BOX.components[3]),
    "joint": lambda text: read_joint_line(text, BOX),
    "F01": lambda text: read_joint_line(text, BOX, BOX.joints[0]),
    "hole": lambda text: read_hole_line(text, BOX, "P01"),
    "round": lambda text: read_hole_line(text, BOX, "P10"),
    "pocket": lambda text: read_pocket_line(text, BOX, "P01"),
    "pose": lambda text: read_pose_line(text, BOX),
    "step": lambda text: read_step_line(text, BOX),
    "places": lambda text: read_place_lines(text, BOX, "P01", "top"),
}

# reader, line, the sentence, what may be meant
REFUSED: list[tuple[str, str, str, tuple[str, ...]]] = [
    ('part', '', 'The line says nothing; ' + PART, ()),
    ('part', '300 x 120 x 12 x 6 oak', "'300 x 120 x 12 x 6' makes four sizes: a block has three (length x width x thickness), a round a diameter and a length.", ()),
    ('part', '0 sides 3 x 4 x 5', "'0' is no count here; write 1 to 100,000.", ()),
    ('part', '4 sides 300 x 120 x 12 oak, 2 off', 'The line says 4 and 2 off; write one count.', ()),
    ('part', 'P01 another side', "The mark P01 is that of 'sides' already; write another, such as P12, or none.", ('P12',)),
    ('part', 'F01 odd', 'The mark F01 is that of a joint already; write another, such as P12, or none.', ('P12',)),
    ('part', 'stay, part of G9', "There is no part called 'G9' here; add the part first, or write its mark.", ()),
    ('part', 'stay in G9', "There is no part called 'G9' here; add the part first, or write its mark.", ()),
    ('part', 'stay, part of the moon', "There is no part called 'moon' here; add the part first, or write its mark.", ()),
    ('part', 'lid 1,200 x 300 x 12 oak', "'1,200' has a comma that could be a decimal comma or part thousands; write 1.200 mm or 1200 mm.", ('1.200 mm', '1200 mm')),
    ('part', 'side 1/2 x 300 x 120', "'1/2 x 300 x 120' has a fraction, which is inches, beside a bare number, which is mm in this build; write 1/2 in x 300 in x 120 in or 1/2 in x 300 mm x 120 mm.", ('1/2 in x 300 in x 120 in', '1/2 in x 300 mm x 120 mm')),
    ('part', 'side 1/0 x 300 x 120 mm', '\'1/0\' divides by nought; write it as 31.75, 31.75 mm, 1 1/4 in, 3/8", 5\' 3", 10 thou or 20 SWG.', ()),
    ('part', 'tray 40 x 20 x 6 in oak', "'40 x 20 x 6 in European oak' could be inches, or a part in European oak; write 40 mm x 20 mm x 6 mm or 40 in x 20 in x 6 in.", ('40 mm x 20 mm x 6 mm', '40 in x 20 in x 6 in')),
    ('part', 'tray 300 x 120 x 1/2 in', "It is not clear whether '300 x 120 x 1/2 in' is in inches throughout; write 300 in x 120 in x 1/2 in or 300 mm x 120 mm x 1/2 in.", ('300 in x 120 in x 1/2 in', '300 mm x 120 mm x 1/2 in')),
    ('part', 'tube 20 x 16 x 300 brass', "The tube's sizes do not say which is its diameter; write 20 dia bore 16 x 300, or of a square tube its sizes as long, wide and thick.", ('20 dia bore 16 x 300',)),
    ('part', 'tube 20 x 300 brass', "The tube's sizes do not say which is its diameter; write 20 dia x 300, or of a square tube its sizes as long, wide and thick.", ('20 dia x 300',)),
    ('part', 'bush 20 dia x 30 bore x 10 brass', 'The bore of 30 is not less than the diameter of 20.', ()),
    ('part', 'rod 6 dia x 430 x 20', 'A round has a diameter and a length, and 20 is left over; write it as 20 dia bore 16 x 300.', ()),
    ('part', 'pin 6 dia x 3 wide x 20', 'A round has a diameter, a bore and a length, and no width; the line gives 3.', ()),
    ('part', 'tube 20 dia wall 12 x 300', 'A wall of 12 leaves no bore in 20.', ()),
    ('part', 'plate 90 x 60 x 16 gauge brass', "'16 gauge' does not say which gauge; write one of 16 SWG (1.626 mm), 16 B&S (1.291 mm), 16 BWG (1.651 mm), 16 MSG (1.519 mm).", ('16 SWG', '16 B&S', '16 BWG', '16 MSG')),
    ('part', 'lid oak, quarter-sawn, flat-sawn', 'The line says quarter-sawn and flat-sawn; write one of them.', ('quarter-sawn', 'flat-sawn')),
    ('part', 'lid, made, planned', 'The line says both made and planned; write one of them.', ()),
    ('part', 'lid 0 x 120 x 12 oak', "Size, length: '0' is out of reason here; write more than 0 mm and at most 100,000 mm.", ()),
    ('part', 'lid 200000 x 120 x 12 oak', "Size, length: '200000' is out of reason here; write more than 0 mm and at most 100,000 mm.", ()),
    ('part', 'lid 20 long, 30 long', 'The line gives two sizes as the length, 20 and 30.', ()),
    ('part', '4 off', 'The part has no name; ' + PART, ()),
    ('part', '200000 pegs', "'200000' is no count here; write 1 to 100,000.", ()),
    ('inches', 'tray 40 x 20 x 6 mm ply', "It is not clear whether '40 x 20 x 6 mm' is in millimetres throughout; write 40 mm x 20 mm x 6 mm or 40 in x 20 in x 6 mm.", ('40 mm x 20 mm x 6 mm', '40 in x 20 in x 6 mm')),
    ('lid', 'P01 cover', 'The line begins with P01, but it is P03 that is changed; leave the mark out.', ('P03',)),
    ('lid', '', 'The line says nothing; ' + PART, ()),
    ('joint', '', 'The line says nothing; ' + JOINT, ()),
    ('joint', 'M5 x 20 csk', 'The line names no part that the screw goes through or into; ' + JOINT, ()),
    ('joint', 'plate to rail', 'The line names no screw or bolt with its size; ' + JOINT, ()),
    ('joint', 'M5 x 20 csk: plate to foo', "There is no part called 'foo' here; add the part first, or write its mark.", ()),
    ('joint', 'M5 x 20 csk: palte to rail', "There is no part called 'palte' here; add the part first, or write its mark. Did you mean P06 plate?", ('P06',)),
    ('joint', 'M5 x 20 csk into brass', "'brass' is a material, and P04 hinges, P05 catch are of it; write which part is meant.", ('P04', 'P05')),
    ('joint', 'M5 x 20 csk into oak 12', "'oak' is a material, and P01 sides, P03 lid, P08 Lid rail, long are of it; write which part is meant.", ('P01', 'P03', 'P08')),
    ('joint', 'M5 x 20 csk through plate into walnut', "'walnut' is a material, and no part here is of it; add the part first, or write its mark.", ()),
    ('joint', 'F01 M5 x 20 csk: plate into rail', "The mark F01 is that of 'Old' already; write another, such as F02, or none.", ('F02',)),
    ('joint', 'M99 x 20 csk: plate into rail', "The thread 'M99' is not known. The nearest are M48, M48 x 1.5, M48 x 2 and M48 x 3; write M48 x 20 mm csk, M48 x 20 in csk, M48 x 1.5 x 20 mm csk, M48 x 1.5 x 20 in csk or one of 4 more.", ('M48 x 20 mm csk', 'M48 x 20 in csk', 'M48 x 1.5 x 20 mm csk', 'M48 x 1.5 x 20 in csk', 'M48 x 2 x 20 mm csk', 'M48 x 2 x 20 in csk', 'M48 x 3 x 20 mm csk', 'M48 x 3 x 20 in csk')),
    ('joint', '1/4 x 1 hex bolt: plate to rail', '1/4 in can be of several threads; write 1/4-20 UNC x 1 hex bolt, 1/4-28 UNF x 1 hex bolt, 1/4-32 UNEF x 1 hex bolt, 1/4 BSW x 1 hex bolt or one of 4 more.', ('1/4-20 UNC x 1 hex bolt', '1/4-28 UNF x 1 hex bolt', '1/4-32 UNEF x 1 hex bolt', '1/4 BSW x 1 hex bolt', '1/4 BSF x 1 hex bolt', '1/4 x 40 ME x 1 hex bolt', '1/4 x 32 ME x 1 hex bolt', '1/4 x 26 BSB x 1 hex bolt')),
    ('joint', 'No. 10 x 1: plate to rail', 'No. 10 can be a wood screw or a machine screw; write No. 10 x 1 wood screw, 10-24 UNC x 1 or 10-32 UNF x 1.', ('No. 10 x 1 wood screw', '10-24 UNC x 1', '10-32 UNF x 1')),
    ('joint', 'M5 x 20 cskk: plate into rail', "'cskk' is not understood; the nearest words are csk; write M5 x 20 csk.", ('M5 x 20 csk',)),
    ('joint', 'M5 x 20 csk: plate into rail, flush, proud', 'The head is said to be both flush and proud; write one of them.', ()),
    ('joint', 'M5 x 20 csk: plate into rail (wobbly)', "'wobbly' is not understood of 'rail'; write such as (thread 18, drilled 22, edge 6).", ()),
    ('joint', 'M5 x 20 csk: plate into rail, 3 off, on P06 top at 20,30; 20,70', 'The line says 3 off, but there are 2 places on 1 copy of the home; leave the count out.', ()),
    ('joint', 'M5 x 20 csk: plate into rail, on P10 top', 'P10 is a round and has no top; it has left, right, side.', ('left', 'right', 'side')),
    ('joint', 'M5 x 20 csk: P99 into rail', "There is no part called 'P99' here; add the part first, or write its mark. Did you mean P09 Drum bracket?", ('P09',)),
    ('joint', 'P99 to rail: M5 x 20 csk', "There is no part called 'P99' here; add the part first, or write its mark. Did you mean P09 Drum bracket?", ('P09',)),
    ('joint', 'M5 x 20 csk, M6 x 20 csk: plate into rail', "'M6 x 20 csk' is a second fastener; write one line for each.", ()),
    ('joint', '0 off M5 x 20 csk: plate into rail', "'0' is no count here; write 1 to 1,000,000.", ()),
    ('F01', 'F02: M5 x 20 csk', "There is no part called 'F02' here; add the part first, or write its mark. Did you mean P02 base?", ('P02',)),
    ('F01', '0 off', "'0' is no count here; write 1 to 1,000,000.", ()),
    ('hole', '', 'The line says nothing; ' + HOLE, ()),
    ('hole', '5.5', 'The line does not say where; ' + PLACES, ()),
    ('hole', 'at 20,30', 'The hole has no diameter; ' + HOLE, ()),
    ('hole', '5.5 at 20', "'20' is no place: it needs u and v; " + PLACES, ()),
    ('hole', '5 at 20,30,40', "'20,30,40' has more than two numbers; part one place from the next with a semicolon.", ()),
    ('hole', '5 at 1/0, 20', '\'1/0\' divides by nought; write it as 31.75, 31.75 mm, 1 1/4 in, 3/8", 5\' 3", 10 thou or 20 SWG.', ()),
    ('hole', 'row of 3 dia 5 from 10,10 pitch 32', 'The row does not say which way it runs; write along u or along v.', ('along u', 'along v')),
    ('hole', 'row of 3 dia 5 from 10,10 along u', 'The row does not say its pitch; ' + PLACES, ('pitch 32',)),
    ('hole', 'row of 3 dia 5 pitch 32 along u', 'The line does not say from where; ' + PLACES, ()),
    ('hole', '5 of 6 dia in a grid from 10,10 pitch 5', 'The grid does not say how many each way; write it as 2 x 3 grid from 20,20 pitch 40 x 25.', ()),
    ('hole', '2 x 3 grid of 5 from 1,1', 'The grid does not say its pitch; write pitch 40 x 25, along u and along v.', ()),
    ('hole', 'circle of 6 dia 5 at 60,60', 'The circle does not say its diameter; write it as circle of 6 on 80 pcd at 60,60.', ()),
    ('hole', '3 x 5 at 1,2; 3,4', 'The line says 3, but gives 2 places.', ()),
    ('hole', 'slot 5 x 9 at 1,2', 'The slot does not say which way it runs; write along u or along v.', ('along u', 'along v')),
    ('hole', '5 csk 4 at 20,30', 'The countersink of 4 is not wider than the hole of 5.', ()),
    ('hole', '5 at 20,30, 10 deep, through', 'The hole is both through and 10 deep; write one of them.', ()),
    ('hole', 'M4 tapped 10 deep, drilled 8 at 20,30', 'The thread of 10 is deeper than the hole of 8.', ()),
    ('hole', 'M99 tapped at 20,30', "The thread 'M99' is not known. The nearest are M48, M48 x 1.5, M48 x 2 and M48 x 3. Write a thread as M5, M6 x 0.75, 1/4-28 UNF, 10-32, 5/16 BSF, 1/4 BSW, 2 BA or 1/4 x 40 ME.", ('M48', 'M48 x 1.5', 'M48 x 2', 'M48 x 3')),
    ('hole', '5 at 20,30 wobbly', "'wobbly' is not understood in a line of holes; " + HOLE, ()),
    ('hole', 'side: 5 at 20,30', 'P01 is a block and has no side; it has top, bottom, front, back, left, right.', ('top', 'bottom', 'front', 'back', 'left', 'right')),
    ('hole', '5 at 20, 30 deg', 'An angle goes with the side of a round; on the top write u and v.', ()),
    ('hole', 'row of 3000 dia 5 from 0,0 pitch 1 along u', 'There may be 1 to 2,000 places on a line, not 3,000.', ()),
    ('round', '5 at 3,4', 'P10 is a round: say on the side, in the left end or in the right end.', ('left', 'right', 'side')),
    ('round', '5 on the side at 40, 900 deg', "'900' is no angle; write degrees from -360 to 360, such as 90 deg.", ()),
    ('round', 'top: 5 at 3,4', 'P10 is a round and has no top; it has left, right, side.', ('left', 'right', 'side')),
    ('pocket', 'groove 6 x 5', 'The line does not say where; ' + PLACES, ()),
    ('pocket', 'recess at 5,5', 'The pocket has no sizes; ' + POCKET, ()),
    ('pocket', 'recess 90 x 90 x 6 x 7 at 1,2', 'There are four sizes: a pocket has a length, a width and a depth.', ()),
    ('pocket', 'recess 90 x 90 x 6 at 1,2; 3,4', 'A pocket has one place; write one line for each.', ()),
    ('pocket', 'rebate 8 x 4 along top edge', 'The face top has no top edge; its edges are left, right, front, back.', ('left', 'right', 'front', 'back')),
    ('pocket', 'rebate 8 x 4 x 2 along front edge', 'A rebate along an edge has a width and a depth; write it as rebate 8 x 4 along front edge.', ()),
    ('pocket', 'rebate 200 x 4 along front edge', 'A rebate of 200 is as wide as the face, which is 120 mm there.', ()),
    ('pocket', 'recess 90 x 90 x 6 deep through at 1,2', 'The pocket says a depth and through; write one of them.', ()),
    ('pose', 'P11', 'The line does not say what lies on what; ' + POSE, ()),
    ('pose', 'P99 on P01', "There is no part called 'P99' here; add the part first, or write its mark. Did you mean P09 Drum bracket?", ('P09',)),
    ('pose', 'P11 on P10 at 4,5', 'P10 is a round: say on the side, in the left end or in the right end.', ('left', 'right', 'side')),
    ('pose', 'P11 on P11', 'P11 would lie on itself: what it lies on leads back to it.', ()),
    ('pose', 'P04.3 on P03', 'There is no copy 3 of P04: it is there 2 times.', ()),
    ('pose', 'P11 on P01.9', 'There is no copy 9 of P01: it is there 4 times.', ()),
    ('pose', 'P11 on P03 at 5,6 sideways', "'sideways' is not understood; " + POSE, ()),
    ('pose', 'P11 on P03 at 5', "'5' is no place: it needs u and v; " + PLACES, ()),
    ('pose', 'P11 on P03 left at 5,6, let in 2, stood off 3', 'The line says both let in and stood off; write one of them.', ()),
    ('pose', 'P11 on P03 at 1,2; 3,4', 'A copy lies in one place; write one line for each.', ()),
    ('step', '4 Glue again', "There is a step 4 already, 'Glue up'; write another number, such as 5, or none.", ('5',)),
    ('step', 'fits P99', "There is no part or joint called 'P99' here; add the part or joint first, or write its mark. Did you mean P09 Drum bracket?", ('P09',)),
    ('step', 'Glue; blah', "'blah' is not understood in a step; " + STEP, ()),
    ('step', 'Glue: fits', "'fits' says fits, but not what; " + STEP, ()),
    ('step', 'Glue: closes hinge and moon', "There is no part or joint called 'moon' here; add the part or joint first, or write its mark.", ()),
    ('step', '2000000 late', "A step's number is at most 1,000,000, not 2,000,000.", ()),
    ('places', '', 'No place is given; ' + PLACES, ()),
    ('places', '20', "'20' is no place: it needs u and v; " + PLACES, ()),
    ('places', '20,30; forty', "'forty' is not understood; " + PLACES, ()),
    ('places', '5 at 20,30', 'The line says 5, but gives 1 place.', ()),
    ('places', '3 in a grid from 1,1 pitch 4', 'The grid does not say how many each way; write it as 2 x 3 grid from 20,20 pitch 40 x 25.', ()),
]  # fmt: skip


@pytest.mark.parametrize(
    ("reader", "line", "says", "choices"), REFUSED, ids=[f"{row[0]}: {row[1]}" for row in REFUSED]
)
def test_a_line_is_refused_with_its_sentence(
    reader: str, line: str, says: str, choices: tuple[str, ...]
) -> None:
    with pytest.raises(InputError) as caught:
        READERS[reader](line)
    assert str(caught.value) == says
    assert tuple(choice for fault in caught.value.faults for choice in fault.choices) == choices
