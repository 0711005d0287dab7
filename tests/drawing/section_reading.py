"""Reads a joint's section back from its SVG: outlines, circles, scale and the boxes of its lettering."""

from __future__ import annotations

import csv
import re
import xml.etree.ElementTree as ElementTree
from pathlib import Path

from calculators.drawing.lettering import text_width

SVG = "{http://www.w3.org/2000/svg}"
STEEL, PAPER, WASH = "#dde5e8", "#f8faf7", "#efd3ce"
DATA = Path(__file__).parents[2] / "calculators" / "tables" / "data"


def rows_of(table):
    """The rows of a table as it stands in its file, read without the code that the drawing uses."""
    lines = (DATA / f"{table}.csv").read_text(encoding="utf-8").splitlines()
    return list(csv.DictReader(line for line in lines if not line.startswith("#")))


class Drawing:
    """A section as it is drawn, in the joint's own millimetres where it says so."""

    def __init__(self, svg):
        self.root = ElementTree.fromstring(svg)
        words = next(e.text for e in self.root.iter(f"{SVG}text") if e.text.startswith("Scale"))
        big, small = re.match(r"Scale (\d+):(\d+)", words).groups()
        self.scale = int(big) / int(small)
        # Coordinates are written to 0.01 mm on the sheet: half of that at each end of a length.
        self.close = max(0.02, 0.011 / self.scale)

    def paths(self, line=None, fill=None):
        return [
            e
            for e in self.root.iter(f"{SVG}path")
            if (line is None or e.get("class") == line) and (fill is None or e.get("fill") == fill)
        ]

    def rings(self, element):
        """The lines of a path, each a list of points on the sheet."""
        return [
            [tuple(map(float, pair.split())) for pair in ring.rstrip("Z").split("L")]
            for ring in element.get("d").split("M")
            if ring
        ]

    def size(self, element):
        """Width and height in the joint's millimetres."""
        points = [point for ring in self.rings(element) for point in ring]
        xs, ys = zip(*points, strict=True)
        return (max(xs) - min(xs)) / self.scale, (max(ys) - min(ys)) / self.scale

    @property
    def steel(self):
        """The shank, the hardware from the head on, and last the head, if there is one."""
        return self.paths("outline", STEEL)

    @property
    def axis(self):
        ring = self.rings(self.steel[0])[0]
        return (min(x for x, _ in ring) + max(x for x, _ in ring)) / 2

    def end_rings(self):
        """The recess and the hexagon as seen from the head's end, in the joint's millimetres."""
        circles = [e for e in self.root.iter(f"{SVG}circle") if e.get("class") == "outline"]
        return circles, [e for e in self.paths("outline", PAPER) if len(self.rings(e)[0]) > 3]

    def words(self):
        return [(e.get("class"), e.text) for e in self.root.iter(f"{SVG}text")]

    def boxes(self):
        """The box of each line of lettering on the sheet."""
        boxes = []
        for element in self.root.iter(f"{SVG}text"):
            size, x, y = (float(element.get(name)) for name in ("font-size", "x", "y"))
            # The estimate is on the wide side; the sans that is shipped is about a tenth narrower.
            wide = 0.9 * text_width(element.text, size)
            start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[element.get("text-anchor")]
            box = (x + start, y - 0.72 * size, x + start + wide, y + 0.2 * size)
            if element.get("transform"):
                box = (x - 0.72 * size, y - wide / 2, x + 0.2 * size, y + wide / 2)
            boxes.append((element.text, box))
        return boxes


def overprinted(boxes):
    """Each pair of words whose boxes overlap."""
    return [
        (first, second)
        for index, (first, a) in enumerate(boxes)
        for second, b in boxes[index + 1 :]
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]
