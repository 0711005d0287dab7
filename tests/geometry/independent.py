"""A second way to say where parts lie and what is material, for checking the first.

Poses are solved from four points as 4 x 4 matrix equations (the first way composes directions); turning is
by complex numbers; material is asked point by point (the first way intersects lines with surfaces).
"""

from __future__ import annotations

import cmath
import math

CORNERS = {  # face: (0, 0), then a point one along u, then one along v; L, W, T stand for the sizes
    "top": ("00T", "10T", "01T"),
    "bottom": ("0W0", "1W0", "0w0"),
    "front": ("000", "100", "001"),
    "back": ("LW0", "lW0", "LW1"),
    "right": ("L00", "L10", "L01"),
    "left": ("0W0", "0w0", "0W1"),
}


def sizes(solid):
    if solid.shape == "block":
        return solid.length, solid.width, solid.thickness
    return solid.length, solid.diameter, solid.diameter


def digit(letter, axis, box):
    if letter in "01":
        return float(letter)
    return box[axis] - (1.0 if letter.islower() else 0.0)


def face_points(solid, face, angle=0.0):
    """(0, 0), one along u, one along v, in the part's frame."""
    box = sizes(solid)
    if face == "side":
        c = cmath.rect(solid.diameter / 2, math.radians(angle))
        outward = c / abs(c)
        v = outward * -1j  # u x v = outward, for u = X
        zero = (0.0, c.real, c.imag)
        return zero, (1.0, c.real, c.imag), (0.0, c.real + v.real, c.imag + v.imag)
    points = [tuple(digit(part[i], i, box) for i in range(3)) for part in CORNERS[face]]
    if solid.shape == "round":  # the box about the axis: Y and Z from -R to R, and (0, 0) over the axis
        r = solid.diameter / 2
        points = [(x, y - r, z - r) for x, y, z in points]
        if face in ("left", "right"):
            shift = (0.0, -points[0][1], -points[0][2])
        elif face in ("top", "bottom"):
            shift = (0.0, -points[0][1], 0.0)
        else:
            shift = (0.0, 0.0, -points[0][2])
        points = [tuple(a + b for a, b in zip(p, shift, strict=True)) for p in points]
    return tuple(points)


def minus(a, b):
    return tuple(x - y for x, y in zip(a, b, strict=True))


def cross(a, b):
    return (a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0])


def face_matrix(solid, face, angle=0.0):
    """4 x 4: from (u, v, outward) of a face to the part's frame."""
    zero, u_tip, v_tip = face_points(solid, face, angle)
    u, v = minus(u_tip, zero), minus(v_tip, zero)
    n = cross(u, v)
    return [[u[i], v[i], n[i], zero[i]] for i in range(3)] + [[0.0, 0.0, 0.0, 1.0]]


def multiply(a, b):
    return [[sum(a[i][k] * b[k][j] for k in range(4)) for j in range(4)] for i in range(4)]


def inverse(a):
    """By elimination, so that nothing is taken for granted about right angles."""
    rows = [list(row) + [1.0 if i == j else 0.0 for j in range(4)] for i, row in enumerate(a)]
    for i in range(4):
        best = max(range(i, 4), key=lambda k: abs(rows[k][i]))
        rows[i], rows[best] = rows[best], rows[i]
        pivot = rows[i][i]
        rows[i] = [x / pivot for x in rows[i]]
        for k in range(4):
            if k != i and rows[k][i]:
                f = rows[k][i]
                rows[k] = [x - f * y for x, y in zip(rows[k], rows[i], strict=True)]
    return [row[4:] for row in rows]


def apply(a, p):
    return tuple(sum(a[i][k] * (*p, 1.0)[k] for k in range(4)) for i in range(3))


def place(body, bodies):
    """4 x 4 of a copy, by recursion down what it lies on."""
    pose, solid = body.pose, body.solid
    identity = [[1.0 if i == j else 0.0 for j in range(4)] for i in range(4)]
    if pose.on:
        other = bodies[pose.on]
        surface = multiply(place(other, bodies), face_matrix(other.solid, pose.face, pose.angle))
    else:
        surface = identity
    own = face_matrix(solid, pose.own_face)
    # The corners of the own face in its own u, v, and the corner or middle to be put down.
    box = dict(zip("LWT", sizes(solid), strict=True))
    wide = {"left": "W", "right": "W"}.get(pose.own_face, "L")
    high = {"top": "W", "bottom": "W"}.get(pose.own_face, "T")
    low_u = -solid.diameter / 2 if solid.shape == "round" and pose.own_face in ("left", "right") else 0.0
    low_v = -solid.diameter / 2 if solid.shape == "round" else 0.0
    corners = [(low_u + i * box[wide], low_v + j * box[high]) for i in (0, 1) for j in (0, 1)]
    # Flat on the other face own u runs along u; own v then runs against v, or, on a mirrored face, with it.
    left_handed = determinant(surface) < 0
    side = 1.0 if left_handed else -1.0
    if pose.point == "corner":
        handle = min(corners, key=lambda c: (c[0], side * c[1]))
    else:
        handle = (low_u + box[wide] / 2, low_v + box[high] / 2)
    turn = cmath.exp(1j * math.radians(pose.turned) * (-1 if left_handed else 1))
    target = []
    for du, dv, dn in ((0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1)):
        flat = complex(du, side * dv) * turn
        target.append(apply(surface, (pose.u + flat.real, pose.v + flat.imag, -pose.let_in - dn)))
    source = [
        apply(own, (handle[0] + du, handle[1] + dv, dn))
        for du, dv, dn in ((0, 0, 0), (1, 0, 0), (0, 1, 0), (0, 0, 1))
    ]
    columns = lambda points: [[p[i] for p in points] for i in range(3)] + [[1.0] * 4]  # noqa: E731
    laid = multiply(columns(target), inverse(columns(source)))
    if pose.hand == "other":
        mirror = [list(row) for row in identity]
        mirror[1][1] = -1.0
        mirror[1][3] = solid.width if solid.shape == "block" else 0.0
        laid = multiply(laid, mirror)
    return laid


def determinant(a):
    return sum(
        a[0][i] * (a[1][(i + 1) % 3] * a[2][(i + 2) % 3] - a[1][(i + 2) % 3] * a[2][(i + 1) % 3])
        for i in range(3)
    )


def in_pocket(solid, pocket, own, faces):
    u, v, n = apply(faces, own)
    if pocket.depth is not None and -n >= pocket.depth:
        return False
    if pocket.diameter:
        return math.dist((u, v), (pocket.u, pocket.v)) < pocket.diameter / 2
    r = pocket.corner_radius
    near_u = sorted((pocket.u + r, u, pocket.u + pocket.length - r))[1]
    near_v = sorted((pocket.v + r, v, pocket.v + pocket.width - r))[1]
    if r:
        return math.dist((u, v), (near_u, near_v)) < r
    return pocket.u < u < pocket.u + pocket.length and pocket.v < v < pocket.v + pocket.width


def is_material(solid, own, pocket_faces):
    x, y, z = own
    if solid.shape == "block":
        if not (0 < x < solid.length and 0 < y < solid.width and 0 < z < solid.thickness):
            return False
    elif not (0 < x < solid.length and solid.bore / 2 <= abs(complex(y, z)) < solid.diameter / 2):
        return False
    return not any(in_pocket(solid, p, own, f) for p, f in zip(solid.pockets, pocket_faces, strict=True))


def pocket_faces(solid):
    return [inverse(face_matrix(solid, p.face, p.angle)) for p in solid.pockets]
