"""Where each copy of a part lies in the build, from poses that name what it lies on.

The copy's own face is laid against the other face: own outward normal against the other's outward normal,
own u along the other's u. Then it is turned about the point that was put at (u, v) and let in. A copy of
the other hand is mirrored first (Y to W - Y; of a round part Y to -Y) and then laid as if it were a part of
its own, so that it fills the same box as its fellow. What is laid on a mirrored copy, drilled in it or read
from it goes by the faces and u, v of the drawing, which the mirror carries along.
"""

from __future__ import annotations

from collections import Counter
from collections.abc import Iterable

from calculators.geometry.frames import FACES, FaceFrame, face_frame
from calculators.geometry.model import Body, Face, Pose, Solid
from calculators.geometry.solids import is_number, solid_faults
from calculators.geometry.vectors import (
    Matrix,
    Transform,
    Vector,
    along,
    cos_sin,
    cross,
    dot,
    scale,
    subtract,
)
from calculators.quantities.errors import Fault, InputError

GROUND = Transform()
_GROUND_FACE = FaceFrame(
    (0.0, 0.0, 0.0), (1.0, 0.0, 0.0), (0.0, 1.0, 0.0), (0.0, 0.0, -1.0), (0.0, 0.0), (0.0, 0.0)
)
_POSE_NUMBERS = ("u", "v", "angle", "turned", "let_in")


def placements(bodies: Iterable[Body]) -> dict[str, Transform]:
    """Work out where every copy lies in the build's frame, following what each lies on.

    Args:
        bodies: the copies, in any order; names are unique.

    Returns:
        For each name, in the order given, the transform from the drawn part's frame to the build's [mm].

    Raises:
        InputError: for a name used twice, a copy that lies on itself or in a ring, a name that is not in
            the build, and for sizes and poses that make no sense; one fault for each, naming the copies.

    Source: this project (plain rigid transforms).

    Example:
        >>> board = Body("P01", Solid("block", 640, 260, 28), Pose())
        >>> plate = Body("P11", Solid("block", 90, 90, 6), Pose(on="P01", u=515, v=85, let_in=6))
        >>> placements([plate, board])["P11"].point((0, 0, 0))
        (515.0, 85.0, 22.0)
    """
    listed = list(bodies)
    faults = _name_faults(listed)
    for body in listed:
        faults += solid_faults(body.solid, f"{body.name}.solid") + _pose_faults(body)
    by_name = {body.name: body for body in listed}
    if not faults:
        for body in listed:
            faults += _face_faults(body, by_name[body.pose.on].solid if body.pose.on else None)
    if faults:
        raise InputError(*faults)
    order, rings = _laying_order(by_name)
    if rings:
        raise InputError(*rings)
    placed: dict[str, Transform] = {}
    for name in order:
        body = by_name[name]
        on = by_name.get(body.pose.on)
        placed[name] = lay(body, on.solid if on else None, placed[on.name] if on else GROUND)
    return {body.name: placed[body.name] for body in listed}


def lay(body: Body, on: Solid | None, on_placed: Transform) -> Transform:
    """Lay one copy on a part that has its place already.

    Args:
        body: the copy.
        on: the part that it lies on; None is the ground.
        on_placed: where that part lies.

    Returns:
        The transform from the drawn part's frame to the build's [mm].

    Raises:
        InputError: when a face does not belong to its part.

    Source: this project (plain rigid transforms).
    """
    pose = body.pose
    other = face_frame(on, pose.face, pose.angle) if on else _GROUND_FACE
    own = face_frame(body.solid, pose.own_face)
    u_way, v_way = on_placed.direction(other.u_axis), on_placed.direction(other.v_axis)
    inward = on_placed.direction(other.inward)
    across = cross(inward, u_way)
    handle = _handle(own, pose, v_least=dot(across, v_way) > 0)
    c, s = cos_sin(pose.turned)
    # Anticlockwise from outside is from u towards outward x u, which is -across.
    own_u_to = along((0.0, 0.0, 0.0), (u_way, c), (across, -s))
    own_v_to = along((0.0, 0.0, 0.0), (across, c), (u_way, s))
    turned = _carry((own.u_axis, own.v_axis, scale(own.inward, -1.0)), (own_u_to, own_v_to, inward))
    target = on_placed.point(other.point(pose.u, pose.v, pose.let_in))
    rigid = Transform(turned, subtract(target, Transform(turned).direction(handle)))
    return rigid if pose.hand == "same" else _mirrored(rigid, body.solid)


def _handle(own: FaceFrame, pose: Pose, *, v_least: bool) -> Vector:
    """Return the own point that is put at (u, v): a corner or the middle of the own face."""
    if pose.point == "centre":
        return own.point(sum(own.u_range) / 2.0, sum(own.v_range) / 2.0)
    return own.point(own.u_range[0], own.v_range[0 if v_least else 1])


def _carry(from_axes: Matrix, to_axes: Matrix) -> Matrix:
    """Return the images of X, Y and Z under the turn that carries three axes into three others."""
    zero = (0.0, 0.0, 0.0)
    x, y, z = (
        along(zero, *((to, axis[i]) for axis, to in zip(from_axes, to_axes, strict=True))) for i in range(3)
    )
    return (x, y, z)


def _mirrored(rigid: Transform, solid: Solid) -> Transform:
    """Mirror the part in its own frame before it is laid."""
    x, y, z = rigid.columns
    width = solid.width if solid.shape == "block" else 0.0
    return Transform((x, scale(y, -1.0), z), along(rigid.shift, (y, width)))


def _name_faults(bodies: list[Body]) -> list[Fault]:
    counts = Counter(body.name for body in bodies)
    faults = [
        Fault(f"{name} is used for {count} copies; each copy needs a name of its own.", name)
        for name, count in counts.items()
        if count > 1
    ]
    every = tuple(sorted(counts))
    for body in bodies:
        on = body.pose.on
        if not body.name:
            faults.append(Fault("A copy has no name; give it one such as P02.1.", "name"))
        if on and on not in counts:
            faults.append(Fault(lies_on_nothing(body), f"{body.name}.on", every))
    return faults


def lies_on_nothing(body: Body) -> str:
    """Say that what a copy lies on has no place.

    Args:
        body: the copy.

    Returns:
        The sentence.

    Source: this project.
    """
    return (
        f"{body.name} lies on {body.pose.on}, which has no place in the build; name a copy that has, or none."
    )


def _face_faults(body: Body, on: Solid | None) -> list[Fault]:
    """Return a fault when what the copy lies on has no such face."""
    pose = body.pose
    faces: tuple[Face, ...] = ("top",)
    if on:
        faces = FACES if on.shape == "round" else FACES[:-1]
    if pose.face in faces:
        return []
    under = pose.on or "the ground"
    says = f"{body.name} lies on '{pose.face}' of {under}, which has {', '.join(faces)}."
    return [Fault(says, f"{body.name}.face", faces)]


def _pose_faults(body: Body) -> list[Fault]:
    pose, name = body.pose, body.name
    faults = [
        Fault(f"{name}: '{field}' must be a number of at most a million.", f"{name}.{field}")
        for field in _POSE_NUMBERS
        if not is_number(getattr(pose, field))
    ]
    if pose.point not in {"corner", "centre"}:
        faults.append(
            Fault(f"{name}: the point is 'corner' or 'centre', not '{pose.point}'.", f"{name}.point")
        )
    if pose.hand not in {"same", "other"}:
        faults.append(Fault(f"{name}: the hand is 'same' or 'other', not '{pose.hand}'.", f"{name}.hand"))
    if pose.own_face not in FACES or pose.own_face == "side":
        flats: tuple[Face, ...] = FACES[:-1]
        says = f"{name} is laid by a flat face ({', '.join(flats)}), not by '{pose.own_face}'."
        faults.append(Fault(says, f"{name}.own_face", flats))
    return faults


def _laying_order(by_name: dict[str, Body]) -> tuple[list[str], list[Fault]]:
    """Return the names so that each comes after what it lies on, and a fault for each ring."""
    order: list[str] = []
    done: set[str] = set()
    faults: list[Fault] = []
    for start in by_name:
        chain: dict[str, None] = {}  # it is looked up in at every step, and may be long
        name = start
        while name and name not in done and name not in chain:
            chain[name] = None
            name = by_name[name].pose.on
        if name in chain:
            ring = list(chain)[list(chain).index(name) :]
            says = f"{' lies on '.join([*ring, name])}: nothing in this ring touches the ground."
            faults.append(Fault(says, f"{name}.on"))
        done.update(chain)
        order += reversed(chain)
    return order, faults
