"""A hole that follows from a joint, moved in its own part: the place on the home that leads there, on every face.

The way back is held against the way forth: the build is worked out with the new place, and the hole must lie where
it was asked for. The parts lie square, turned, mirrored, and at an angle to one another.
"""

from __future__ import annotations

import math
import random
from dataclasses import replace
from decimal import Decimal

import pytest

from calculators.planning import model as plain
from calculators.planning.edits.hole_moves import (
    Follower,
    Spot,
    add_place,
    hole_of,
    move_hole,
    move_place,
    on_home,
    read_spot,
)
from calculators.planning.lines import add_lines
from calculators.planning.resolving import resolve_build
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

FACES = ("top", "bottom", "front", "back", "left", "right")


def block(face: str, pose: plain.Pose) -> plain.Build:
    """A strap of 120 x 120 x 10, home by its top, on a block of 200 x 160 x 120 that lies on its `face`."""
    build = add_lines(
        "part", "block 200 x 160 x 120 beech\nstrap 120 x 120 x 10 steel", plain.Build("B", "B")
    ).build
    block, strap = build.components
    laid = replace(block, poses=(plain.Pose(),))
    on_it = replace(pose, on="P01", face=face)  # type: ignore[arg-type]
    build = replace(build, components=(laid, replace(strap, poses=(on_it,))))
    return add_lines("joint", "M6 x 60 hex: strap, block, placed on strap top at 40,50; 80,70", build).build


def holes(build: plain.Build, part: str = "P01") -> dict[str, tuple[str, float, float]]:
    return {
        one.place: (one.face, one.u_mm or 0.0, one.v_mm or 0.0)
        for one in resolve_build(build).holes
        if one.part == part
    }


def mm(value: float) -> Length:
    return Length.of_mm(value)


@pytest.mark.parametrize("face", FACES)
@pytest.mark.parametrize("turned", ["0", "90", "37.5"])
@pytest.mark.parametrize("hand", ["same", "other"])
def test_a_hole_lies_where_it_was_asked_for_on_every_face(face: str, turned: str, hand: str) -> None:
    pose = plain.Pose(u=mm(60), v=mm(60), turned_deg=Decimal(turned), point="centre", hand=hand)  # type: ignore[arg-type]
    build = block(face, pose)
    had = holes(build)
    assert had["1"][0] == face
    chance = random.Random(f"{face} {turned} {hand}")
    for place in ("1", "2"):
        now = holes(build)[place]
        to = (round(now[1] + chance.uniform(-9, 9), 1), round(now[2] + chance.uniform(-9, 9), 1))
        asked = read_spot(str(to[0]), str(to[1]), face, "mm")
        found = on_home(build, Follower("F01", place, "P01", face, now[1], now[2]), asked)
        build = move_place(build, "F01", place, found)
        assert holes(build)[place][1:] == pytest.approx(to, abs=3e-4)
    other = {"1": "2"}
    assert set(holes(build)) == {"1", *other.values()}


@pytest.mark.parametrize("own_face", FACES)
def test_a_far_side_that_is_seen_mirrored_is_moved_as_it_is_seen(own_face: str) -> None:
    """The nut's side of the last part: the hole is moved where the axis comes out by that face."""
    build = add_lines(
        "part", "rail 300 x 60 x 60 maple\nside 200 x 200 x 200 beech", plain.Build("B", "B")
    ).build
    rail, side = build.components
    pose = plain.Pose(on="P01", face="back", u=mm(50), v=mm(-60), own_face=own_face)  # type: ignore[arg-type]
    build = replace(build, components=(replace(rail, poses=(plain.Pose(),)), replace(side, poses=(pose,))))
    build = add_lines(
        "joint", "M6 x 280 hex: rail, side, M6 nut, placed on rail front at 150,30", build
    ).build
    (face, u, v) = holes(build, "P02")["1"]
    assert face == own_face
    found = on_home(
        build, Follower("F01", "1", "P02", face, u, v), read_spot(f"{u + 10:.3f}", f"{v - 4:.3f}", face, "mm")
    )
    after = holes(move_place(build, "F01", "1", found), "P02")["1"]
    assert after[0] == face
    assert after[1:] == pytest.approx((u + 10, v - 4))


def test_a_face_that_the_axis_does_not_meet_squarely_is_followed_along_the_axis() -> None:
    """Two blocks on a base, the farther one turned by 15 degrees: the axis meets its front askew."""
    parts = "base 400 x 400 x 20 beech\nnear 100 x 40 x 60 beech\nfar 200 x 60 x 60 beech"
    build = add_lines("part", parts, plain.Build("B", "B")).build
    base, near, far = build.components
    laid = replace(base, poses=(plain.Pose(),))
    near = replace(near, poses=(plain.Pose(on="P01", face="top", u=mm(100), v=mm(50)),))
    turned = plain.Pose(on="P01", face="top", u=mm(150), v=mm(170), turned_deg=Decimal(15), point="centre")
    build = replace(build, components=(laid, near, replace(far, poses=(turned,))))
    build = add_lines("joint", "M6 x 180 hex: near, far, placed on near front at 40,20", build).build
    (face, u, v) = holes(build, "P03")["1"]
    assert face == "front"
    found = on_home(
        build, Follower("F01", "1", "P03", face, u, v), read_spot(f"{u + 10:.4f}", f"{v + 3:.4f}", face, "mm")
    )
    # 10 mm along the turned front is 10 cos 15 degrees across the axis.
    assert (found.u.mm, found.v and found.v.mm) == pytest.approx(
        (40 + 10 * math.cos(math.radians(15)), 23), abs=2e-4
    )
    after = holes(move_place(build, "F01", "1", found), "P03")["1"]
    assert after[1:] == pytest.approx((u + 10, v + 3), abs=5e-4)


def test_inches_are_kept_where_the_place_is_sixty_fourths() -> None:
    pose = plain.Pose(u=mm(25.4), v=mm(12.7))
    build = block("top", pose)
    (_, u, v) = holes(build)["1"]
    asked = read_spot("3 1/8 in", "2 33/64 in", "top", "mm")
    found = on_home(build, Follower("F01", "1", "P01", "top", u, v), asked)
    assert (found.u.written, found.v and found.v.written) == ("2 1/8 in", "2 1/64 in")


def test_a_hole_that_is_no_longer_there_leads_to_the_joint() -> None:
    build = block("top", plain.Pose())
    with pytest.raises(InputError) as caught:
        on_home(build, Follower("F01", "1", "P01", "top", 1.0, 1.0), read_spot("5", "5", "top", "mm"))
    assert str(caught.value) == (
        "The hole is no longer where it was seen, or its part has no pose; it follows from F01 on P02: move it there."
    )


def test_a_hole_on_a_side_leads_to_the_joint() -> None:
    build = block("top", plain.Pose())
    asked = Spot(mm(5), None, Decimal(90))
    with pytest.raises(
        InputError, match="On a side a hole is not moved like this; it follows from F01 on P02"
    ):
        on_home(build, Follower("F01", "1", "P01", "side", 1.0, 1.0), asked)


def test_one_hole_is_moved_and_the_others_stay() -> None:
    build = add_lines("part", "rail 300 x 60 x 60 maple\nrod 200 x 20 dia steel", plain.Build("B", "B")).build
    build = add_lines("hole", "top: dia 5 at 20,30; 40,30", build, part="P01").build
    build = add_lines("hole", "side: dia 5 at 20, 90 deg", build, part="P02").build
    build = move_hole(build, "P01", "h2", read_spot("45.5", "31", "top", "mm"))
    assert [(one.id, one.u.mm, one.v and one.v.mm) for one in build.components[0].holes] == [
        ("h1", 20, 30), ("h2", 45.5, 31),
    ]  # fmt: skip
    build = move_hole(build, "P02", "h1", read_spot("25", "-22.5°", "side", "mm"))
    moved = hole_of(build, "P02", "h1")
    assert moved is not None
    assert (moved.u.mm, moved.v, moved.angle_deg) == (25, None, Decimal("337.5"))
    with pytest.raises(InputError) as caught:
        move_hole(build, "P01", "h9", read_spot("1", "1", "top", "mm"))
    assert str(caught.value) == "P01 has no hole h9 any more; nothing was moved."


def test_a_place_that_is_added_has_the_next_free_id() -> None:
    build = add_place(block("top", plain.Pose()), "F01", read_spot("60", "60", "top", "mm"))
    assert [one.id for one in build.joints[0].places] == ["1", "2", "3"]


def test_a_joint_on_no_face_has_no_place_added() -> None:
    build = block("top", plain.Pose())
    bare = replace(build, joints=(replace(build.joints[0], home="", face="", places=()),))
    with pytest.raises(InputError) as caught:
        add_place(bare, "F01", read_spot("60", "60", "top", "mm"))
    assert str(caught.value) == "F01 is on no face of a part yet; say first where it is, by its places."


@pytest.mark.parametrize(
    ("u", "v", "face", "field", "says"),
    [
        ("", "1", "top", "u", ""),
        ("1", "2/0", "top", "v", ""),
        ("1", "half", "side", "v", "On a side the second number is an angle, such as 90 or 22.5 deg."),
    ],
)
def test_what_cannot_be_read_names_its_field(u: str, v: str, face: str, field: str, says: str) -> None:
    with pytest.raises(InputError) as caught:
        read_spot(u, v, face, "mm")
    assert {fault.field for fault in caught.value.faults} == {field}
    assert says in str(caught.value)
