"""An assembly of bodies from the front, to scale, with the point where it balances."""

from __future__ import annotations

from collections.abc import Callable, Sequence

from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.drawing.scales import SCALES, scale_name
from calculators.drawing.svg import BRASS, INK, PAPER, STEEL, Box, Point, document, lettering, number, path
from calculators.mechanics.masses import Body

_BROAD, _NARROW = 170.0, 90.0
_TALLEST = 90.0
_MARGIN = 12.0


def balance_picture(
    bodies: Sequence[Body], names: Sequence[str], centre: tuple[float, float, float], pivot_x: float
) -> Picture:
    """Draw the bodies in x and y, to scale, with their centre of mass and the pivot.

    Args:
        bodies: the bodies.
        names: the name of each.
        centre: their centre of mass [mm].
        pivot_x: where the axis that it is turned about passes [mm].

    Returns:
        The picture, for a broad and for a narrow page.

    Source: this project; the sign of the centre of mass is that of drawing practice.
    """
    at = " and ".join(f"{axis} {number_text(value, 4)}" for axis, value in zip("xy", centre, strict=False))
    says = (
        f"The bodies seen along z, x to the right and y up: {', '.join(names)}. "
        f"They balance at {at} mm; the pivot is at x {number_text(pivot_x, 4)} mm."
    )
    broad, narrow = (_drawn(bodies, names, centre, pivot_x, width, says) for width in (_BROAD, _NARROW))
    return Picture("Where it balances", broad, narrow, f"It balances at {at} mm.")


def _drawn(
    bodies: Sequence[Body],
    names: Sequence[str],
    centre: tuple[float, float, float],
    pivot_x: float,
    width: float,
    says: str,
) -> str:
    boxes = [_box(body) for body in bodies]
    left, right = (
        min([b[0] for b in boxes] + [pivot_x, centre[0]]),
        max([b[2] for b in boxes] + [pivot_x, centre[0]]),
    )
    low, high = min([b[1] for b in boxes] + [0.0, centre[1]]), max([b[3] for b in boxes] + [0.0, centre[1]])
    letter = 3.4 if width > 100 else 3.7
    room = width - 2 * _MARGIN
    fits = (s for s in SCALES if (right - left) * s <= room and (high - low) * s <= _TALLEST)
    scale = next(fits, SCALES[-1])
    offset = (width - (right - left) * scale) / 2
    tall = max(high - low, 1e-9) * scale

    def spot(x: float, y: float) -> Point:
        return offset + (x - left) * scale, 3 * letter + (high - y) * scale

    body = [_body(box, spot, hole=each.sign < 0) for box, each in zip(boxes, bodies, strict=True)]
    x, y = spot(centre[0], centre[1])
    body.append(_centre(x, y))
    body.append(lettering(x, y - 3.6, "balances here", letter, anchor="middle", halo=True))
    foot = spot(pivot_x, min(0.0, low))
    base = spot(pivot_x, 0.0)
    body.append(
        path(
            [[base, (base[0] - 2.6, base[1] + 5), (base[0] + 2.6, base[1] + 5)]],
            "outline",
            fill=BRASS,
            opacity=0.35,
        )
    )
    base_line = max(tall + 3 * letter, foot[1], base[1] + 5) + 1.3 * letter
    body.append(lettering(base[0], base_line, "pivot", letter, anchor="middle", ink="soft", halo=True))
    for row, name in enumerate(names[:12]):
        side = "cut away" if bodies[row].sign < 0 else f"{number_text(bodies[row].mass_kg * 1000, 4)} g"
        words = f"{name}: {side}"
        body.append(lettering(3, base_line + (row + 1.4) * 1.25 * letter, words, letter, ink="label"))
    bottom = base_line + (min(len(names), 12) + 2.4) * 1.25 * letter
    body.append(lettering(3, bottom - 0.6 * letter, f"Scale {scale_name(scale)}", letter, ink="soft"))
    return document(body, width, bottom + 1, title="Where it balances", description=says, kind="balance")


def _box(body: Body) -> Box:
    wide, deep = body.size_mm[0] / 2, body.size_mm[1] / 2
    if body.shape == "ball":
        wide = deep = body.diameter_mm / 2
    x, y, _ = body.at_mm
    return x - wide, y - deep, x + wide, y + deep


def _body(box: Box, spot: Callable[[float, float], Point], *, hole: bool) -> str:
    corners = [spot(box[0], box[1]), spot(box[2], box[1]), spot(box[2], box[3]), spot(box[0], box[3])]
    return path([corners], "hidden" if hole else "edge", fill="none" if hole else STEEL)


def _centre(x: float, y: float) -> str:
    """The sign of a centre of mass: a circle with two opposite quarters filled."""
    r = 2.2
    quarters = "".join(
        f"M{number(x)} {number(y)}L{number(x + side * r)} {number(y)}"
        f"A{r} {r} 0 0 0 {number(x)} {number(y - side * r)}Z"
        for side in (1, -1)
    )
    circle = f'<circle cx="{number(x)}" cy="{number(y)}" r="{r}" fill="{PAPER}"'
    return f'{circle} stroke="{INK}" stroke-width="0.3"/><path d="{quarters}" fill="{INK}"/>'
