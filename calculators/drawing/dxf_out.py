"""The faces of a part as a DXF file, for CAD and for machines: true size, in millimetres, layer by layer.

One face alone lies at its datum (0, 0). Several lie side by side in the order given, 20 mm apart, their lower
edges on one line.
"""

from __future__ import annotations

import re
from collections.abc import Sequence
from io import StringIO
from typing import TYPE_CHECKING

from calculators.drawing.dxf_layers import (
    BORE,
    CENTRES,
    DATUM,
    NUMBERS,
    OUTLINE,
    TITLE,
    hole_layers,
    pocket_layer,
)
from calculators.drawing.face_shape import FaceShape, HoleShape
from calculators.geometry.outlines import Outline, bounds
from calculators.quantities.errors import InputError

if TYPE_CHECKING:
    from ezdxf.document import Drawing
    from ezdxf.layouts.layout import Modelspace

GAP_MM = 20.0
"""Between the faces of one file."""

_LETTER_MM, _NUMBER_MM, _ARM_MM = 3.0, 2.5, 10.0
_LETTER_WIDE = 0.9
"""How wide a letter is at most, of its height, in a plain font (judged)."""

_UNITS_MM, _METRIC = 4, 1
"""The format's codes for millimetres and for metric patterns (read in ezdxf 1.4.5, `ezdxf/units.py`)."""

_COLOURS = {OUTLINE: 7, BORE: 7, DATUM: 5, NUMBERS: 8, TITLE: 8, CENTRES: 8}
_HOLES, _SUNK, _POCKETS = 4, 30, 3
"""Colours by the format's index; red is kept for what is wrong, and nothing here is."""


def dxf_of(faces: Sequence[FaceShape]) -> bytes:
    """Write faces as a DXF file of the version R2010; equal faces give equal bytes.

    Args:
        faces: one face, or several of a part.

    Returns:
        The file. Holes are circles on layers that say what they are, and slots, pockets and outlines closed
        polylines with true arcs; numbers, titles, datum and hole centres have layers of their own.

    Raises:
        InputError: where there is no face.

    Source: this project; the format as ezdxf 1.4.5 writes it.

    Example:
        >>> from calculators.geometry.outlines import rectangle
        >>> dxf_of([FaceShape("P1", "Plate", "top", rectangle(0, 0, 90, 40), 6.0)]).split()[-1]
        b'EOF'
    """
    if not faces:
        raise InputError.of("There is no face to write: give the part its sizes first.", field="component")
    document = _document()
    space = document.modelspace()
    right, every = 0.0, []
    for index, face in enumerate(faces):
        box = bounds(face.outline)
        at = (0.0, 0.0) if len(faces) == 1 else (right - box[0], -box[1])
        words = _title(face)
        _draw(document, space, face, at, words)
        _write_title(space, words, (box[0] + at[0], box[1] + at[1]))
        widest = max(len(line) for line in words) * _LETTER_MM * _LETTER_WIDE
        right += max(box[2] - box[0], widest if index + 1 < len(faces) else 0.0) + GAP_MM
        every.append((box[0] + at[0], box[1] + at[1], box[2] + at[0], box[3] + at[1]))
    low = (min(one[0] for one in every), min(one[1] for one in every))
    high = (max(one[2] for one in every), max(one[3] for one in every))
    _show(document, low, high)
    return _bytes(document)


def _document() -> Drawing:
    from ezdxf._options import options  # all of it takes 0.3 s to load
    from ezdxf.filemanagement import new

    options.write_fixed_meta_data_for_testing = True  # no date of today, no chance numbers
    document = new("R2010", setup=False, units=_UNITS_MM)
    document.header["$MEASUREMENT"] = _METRIC
    return document


def _bytes(document: Drawing) -> bytes:
    # The library takes the classes that it states from a set, whose order is another in each process.
    document.classes.add_required_classes(document.dxfversion)
    document.classes.classes = dict(sorted(document.classes.classes.items()))
    stream = StringIO()
    document.write(stream)
    return stream.getvalue().encode(document.output_encoding, "dxfreplace")


def _show(document: Drawing, low: tuple[float, float], high: tuple[float, float]) -> None:
    """Open the drawing on all of it."""
    wide, tall = high[0] - low[0], high[1] - low[1]
    document.header["$EXTMIN"] = (low[0], low[1], 0.0)
    document.header["$EXTMAX"] = (high[0], high[1], 0.0)
    middle = (low[0] + wide / 2, low[1] + tall / 2)
    document.set_modelspace_vport(height=max(wide, tall) * 1.2, center=middle)


def _layer(document: Drawing, name: str) -> str:
    if name not in document.layers:
        colour = _POCKETS if name.startswith("POCKET") else _HOLES
        colour = _SUNK if name.startswith("COUNTER") else _COLOURS.get(name, colour)
        document.layers.add(name, color=colour)
    return name


def _draw(
    document: Drawing, space: Modelspace, face: FaceShape, at: tuple[float, float], words: list[str]
) -> None:
    _closed(document, space, OUTLINE, face.outline, at)
    if face.bore_mm > 0:
        space.add_circle(at, face.bore_mm / 2, dxfattribs={"layer": _layer(document, BORE)})
    for pocket in face.pockets:
        _closed(document, space, pocket_layer(pocket), pocket.outline, at)
    for hole in face.holes:
        _hole(document, space, hole, at)
    for end in ((_ARM_MM, 0.0), (0.0, _ARM_MM)):
        to = (at[0] + end[0], at[1] + end[1])
        space.add_line(at, to, dxfattribs={"layer": _layer(document, DATUM)})
    _layer(document, TITLE)


def _hole(document: Drawing, space: Modelspace, hole: HoleShape, at: tuple[float, float]) -> None:
    middle = (hole.u_mm + at[0], hole.v_mm + at[1])
    for place, (name, diameter) in enumerate(hole_layers(hole)):
        if place == 0 and len(hole.outline) > 2:
            _closed(document, space, name, hole.outline, at)
        else:
            space.add_circle(middle, diameter / 2, dxfattribs={"layer": _layer(document, name)})
    space.add_point(middle, dxfattribs={"layer": _layer(document, CENTRES)})
    beside = max(hole.outer_mm, hole.slot_length_mm) / 2 * 0.7072 + 0.5
    space.add_text(
        str(hole.number),
        height=_NUMBER_MM,
        dxfattribs={
            "layer": _layer(document, NUMBERS),
            "insert": (middle[0] + beside, middle[1] + beside),
        },
    )


def _closed(
    document: Drawing, space: Modelspace, name: str, outline: Outline, at: tuple[float, float]
) -> None:
    points = [(one.x + at[0], one.y + at[1], one.bulge) for one in outline]
    space.add_lwpolyline(points, format="xyb", close=True, dxfattribs={"layer": _layer(document, name)})


def _title(face: FaceShape) -> list[str]:
    """What is written under a face: the part, the face and how it is seen, the material, the revision."""
    seen = (
        "side laid flat: u along the axis, v the way round from the front towards the top"
        if face.is_wrapped
        else f"{face.face} face seen from outside: u to the right, v upward"
    )
    stuff = f"{face.material + ', ' if face.material else ''}{face.depth_mm:g} mm deep behind this face"
    revision = f"revision {face.revision}, " if face.revision else ""
    return [_plain(f"{face.mark} {face.name}"), seen, _plain(stuff), _plain(f"{revision}sizes in mm")]


def _plain(text: str) -> str:
    """Words without signs that the format takes for commands."""
    return re.sub(r"[\x00-\x1f\x7f^]", " ", text).replace("%%", "% %").strip()


def _write_title(space: Modelspace, words: list[str], corner: tuple[float, float]) -> None:
    for row, line in enumerate(words):
        below = corner[1] - _ARM_MM - (row + 1) * _LETTER_MM * 1.6
        space.add_text(line, height=_LETTER_MM, dxfattribs={"layer": TITLE, "insert": (corner[0], below)})
