"""The map of a template's pages: the part's outline with the pages over it, by name."""

from __future__ import annotations

from collections.abc import Callable

from calculators.drawing.svg import FONT, INK, SOFT, STEEL, Box, Point, escape, number
from calculators.drawing.template_strokes import stroke, text_at
from calculators.drawing.template_tiles import Tiling
from calculators.geometry.outlines import flat_points

_CROSS_MM = 1.6
"""Half of the length of a hole's cross."""


def template_map(tiling: Tiling, here: str, box: Box, letter_mm: float = 3.2, *, holes: bool = False) -> str:
    """Draw the map of a template's pages in a box: the outline, the pages by name, this one filled.

    Args:
        tiling: the face over pages.
        here: the name of the page that the map is on; '' for none.
        box: left, top, right, bottom [mm].
        letter_mm: [mm] the largest size of the names.
        holes: whether the middle of each hole has a small cross.

    Returns:
        SVG elements.

    Source: this project.
    """
    layout = tiling.layout
    boxes = [one.box for one in tiling.tiles]
    x0, y0 = min(one[0] for one in boxes), min(one[1] for one in boxes)
    x1, y1 = max(one[2] for one in boxes), max(one[3] for one in boxes)
    wide, high = (x1 - x0) * layout.x_stretch, (y1 - y0) * layout.y_stretch
    scale = min((box[2] - box[0]) / wide, (box[3] - box[1]) / high)
    sx, sy = scale * layout.x_stretch, scale * layout.y_stretch
    left = box[0] + ((box[2] - box[0]) - wide * scale) / 2

    def at(x: float, y: float) -> tuple[float, float]:
        return left + (x - x0) * sx, box[1] + (y1 - y) * sy

    body = []
    for one in tiling.tiles:
        (a, b), (c, d) = at(one.cell[0], one.cell[3]), at(one.cell[2], one.cell[1])
        fill = STEEL if one.name == here else "none"
        body.append(
            f'<rect class="map" x="{number(a)}" y="{number(b)}" width="{number(c - a)}" '
            f'height="{number(d - b)}" fill="{fill}" stroke="{SOFT}" stroke-width="0.2"/>'
        )
    points = [at(*point) for point in flat_points(tiling.view.outline, 0.3 / max(scale, 1e-3))]
    data = "M" + "L".join(f"{number(x)} {number(y)}" for x, y in points) + "Z"
    body.append(stroke(data, "map-outline", "edge"))
    if holes:
        body.append(_crosses(tiling, at))
    for one in tiling.tiles if len(tiling.tiles) > 1 else ():
        (a, b), (c, d) = at(one.cell[0], one.cell[3]), at(one.cell[2], one.cell[1])
        size = max(1.6, min(letter_mm, 0.45 * (c - a), 0.6 * (d - b)))
        middle = ((a + c) / 2, (b + d) / 2 + 0.35 * size)
        bold = one.name == here
        body.append(text_at(middle, one.name, size, name="map", anchor="middle", bold=bold, ink=INK))
    return "".join(body)


def _crosses(tiling: Tiling, at: Callable[[float, float], Point]) -> str:
    """A cross at the middle of each hole, so that a part and its hand are known again."""
    data = []
    for hole in tiling.view.holes:
        x, y = at(hole.u_mm, hole.v_mm)
        data.append(
            f"M{number(x - _CROSS_MM)} {number(y)}H{number(x + _CROSS_MM)}"
            f"M{number(x)} {number(y - _CROSS_MM)}V{number(y + _CROSS_MM)}"
        )
    return stroke("".join(data), "map-hole", "thin")


def map_picture(tiling: Tiling, width_mm: float = 120.0, tallest_mm: float = 80.0) -> str:
    """Draw the map of a template's pages as a picture by itself.

    Args:
        tiling: the face over pages.
        width_mm: [mm] how wide it is.
        tallest_mm: [mm] the most height.

    Returns:
        The SVG, with its title and description in words.

    Source: this project.
    """
    boxes = [one.box for one in tiling.tiles]
    wide = max(one[2] for one in boxes) - min(one[0] for one in boxes)
    high = max(one[3] for one in boxes) - min(one[1] for one in boxes)
    height = min(tallest_mm, max(20.0, width_mm * high / wide))
    names = ", ".join(one.name for one in tiling.tiles)
    count = len(tiling.tiles)
    way = "on their sides" if tiling.layout.landscape else "upright"
    holes = len(tiling.view.holes)
    says = f"{count} page{'s' if count > 1 else ''} {way}: {names}."
    if holes:
        says += f" {holes} hole{'s' if holes > 1 else ''} marked with a cross."
    size = f'width="{number(width_mm)}mm" height="{number(height)}mm"'
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="template-map" role="img" {size} '
        f'viewBox="-1 -1 {number(width_mm + 2)} {number(height + 2)}" font-family="{FONT}" fill="none">'
        f"<title>The pages of the template</title><desc>{escape(says)}</desc>"
        f"{template_map(tiling, '', (0.0, 0.0, width_mm, height), 5.5, holes=True)}</svg>"
    )
