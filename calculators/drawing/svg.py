"""SVG as text: numbers, escapes, and the line types of a technical drawing."""

from __future__ import annotations

import math
import re
from collections.abc import Iterable, Sequence

Point = tuple[float, float]
Box = tuple[float, float, float, float]
"""Left, top, right, bottom [mm on the sheet]."""

INK, SOFT, RULE, BLUE, RED, BRASS = "#15212b", "#4c5a64", "#9fb3bd", "#1f5673", "#b1271b", "#8a6914"
PAPER, STEEL, RED_WASH = "#f8faf7", "#dde5e8", "#efd3ce"
FONT = "Fira Sans, sans-serif"

LINES: dict[str, str] = {
    # Widths of ISO 128's line group 0.5: thick 0.5 mm, thin 0.25 mm; hatching is kept lighter still.
    "outline": f'stroke="{INK}" stroke-width="0.5" stroke-linejoin="round" stroke-linecap="round"',
    "edge": f'stroke="{INK}" stroke-width="0.35" stroke-linejoin="round"',
    "thin": f'stroke="{INK}" stroke-width="0.25" stroke-linecap="round"',
    "break": f'stroke="{INK}" stroke-width="0.25" stroke-linejoin="round"',
    "hidden": f'stroke="{INK}" stroke-width="0.25" stroke-dasharray="1.8 0.9"',
    "centre": f'stroke="{BLUE}" stroke-width="0.25" stroke-dasharray="7 1.2 0.8 1.2"',
    "fold": f'stroke="{INK}" stroke-width="0.25" stroke-dasharray="7 1 1 1 1 1"',
    "dimension": f'stroke="{BLUE}" stroke-width="0.25"',
    "leader": f'stroke="{SOFT}" stroke-width="0.2"',
    "hatch": f'stroke="{BRASS}" stroke-width="0.18" stroke-opacity="0.75"',
    "grain": f'stroke="{BRASS}" stroke-width="0.2" stroke-opacity="0.75"',
    "finding": f'stroke="{RED}" stroke-width="0.7" stroke-linecap="round"',
    "none": 'stroke="none"',
}
INKS = {"label": INK, "soft": SOFT, "dimension": BLUE, "finding": RED}


def number(value: float, places: int = 2) -> str:
    """Write a coordinate with few decimals.

    Args:
        value: any number.
        places: the most decimals.

    Returns:
        The shortest text, never `-0`.

    Source: this project.

    Example:
        >>> number(12.0), number(-0.001), number(3.14159)
        ('12', '0', '3.14')
    """
    if not math.isfinite(value):
        return "0"
    text = (f"{value:.2f}" if places == 2 else f"{value:.{places}f}").rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def escape(text: str) -> str:
    """Make text fit for XML, without control characters.

    Args:
        text: any text.

    Returns:
        The text with its signs escaped.

    Source: this project (XML 1.0, 2.2 and 2.4).

    Example:
        >>> escape('3/8" < 10 & up')
        '3/8&quot; &lt; 10 &amp; up'
    """
    clean = re.sub("[^\t\n\r\x20-\ud7ff\ue000-\ufffd\U00010000-\U0010ffff]", "", text)
    return clean.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;").replace('"', "&quot;")


def path_data(rings: Iterable[Sequence[Point]], *, closed: bool = True) -> str:
    """Write point rings as the `d` of a path.

    Args:
        rings: rings or lines of points [mm on the sheet].
        closed: whether each ends where it began.

    Returns:
        The path data.

    Source: this project.
    """
    end = "Z" if closed else ""
    return "".join(
        "M" + "L".join(f"{number(x)} {number(y)}" for x, y in ring) + end for ring in rings if len(ring) > 1
    )


def path(
    rings: Iterable[Sequence[Point]],
    line: str,
    *,
    fill: str = "none",
    closed: bool = True,
    opacity: float = 1.0,
) -> str:
    """Write a path of one line type.

    Args:
        rings: rings or lines of points [mm on the sheet]; what lies in two rings is a hole.
        line: a line type of `LINES`, which is also the class name.
        fill: the fill colour.
        closed: whether each ring is closed.
        opacity: of the fill, from 0 to 1.

    Returns:
        The element, or nothing where there is nothing to draw.

    Source: this project.
    """
    data = path_data(rings, closed=closed)
    if not data:
        return ""
    see_through = "" if opacity >= 1 else f' fill-opacity="{number(opacity)}"'
    return f'<path class="{line}" d="{data}" fill="{fill}"{see_through} fill-rule="evenodd" {LINES[line]}/>'


def lettering(
    x: float,
    y: float,
    text: str,
    size_mm: float,
    *,
    ink: str = "label",
    anchor: str = "start",
    turn: bool = False,
    halo: bool = False,
) -> str:
    """Write one line of lettering.

    Args:
        x: the anchor [mm on the sheet].
        y: the base line [mm on the sheet].
        text: the words.
        size_mm: the size of the type [mm].
        ink: one of `INKS`, which is also the class name.
        anchor: `start`, `middle` or `end`.
        turn: whether it is read from the right, as a dimension on an upright line.
        halo: whether the paper shows round the letters, where they cross a line.

    Returns:
        The element.

    Source: this project.
    """
    turned = f' transform="rotate(-90 {number(x)} {number(y)})"' if turn else ""
    weight = ' font-weight="500"' if ink == "finding" else ""
    clear = (
        f' stroke="{PAPER}" stroke-width="0.9" stroke-linejoin="round" paint-order="stroke"' if halo else ""
    )
    return (
        f'<text class="{ink}" x="{number(x)}" y="{number(y)}" font-size="{number(size_mm)}" '
        f'text-anchor="{anchor}" fill="{INKS[ink]}"{weight}{clear}{turned}>{escape(text)}</text>'
    )


def document(
    body: Iterable[str],
    width_mm: float,
    height_mm: float,
    *,
    title: str,
    description: str = "",
    kind: str = "picture",
) -> str:
    """Put the parts of a drawing together in one SVG with its title and its description in words.

    Args:
        body: the elements; empty ones are left out.
        width_mm: [mm] the sheet's width; the origin is its top left corner.
        height_mm: [mm] the sheet's height.
        title: what it is, in a few words.
        description: what is to be seen, in sentences, for who does not see it.
        kind: the class name.

    Returns:
        The SVG, at true size in millimetres.

    Source: this project (SVG 2; ARIA's graphics roles).
    """
    says = f"<desc>{escape(description)}</desc>\n" if description else ""
    return (
        f'<svg xmlns="http://www.w3.org/2000/svg" class="{kind}" role="img" width="{number(width_mm)}mm" '
        f'height="{number(height_mm)}mm" viewBox="0 0 {number(width_mm)} {number(height_mm)}" '
        f'font-family="{FONT}" fill="none">\n<title>{escape(title)}</title>\n{says}'
        + "\n".join(part for part in body if part)
        + "\n</svg>\n"
    )
