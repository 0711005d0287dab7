"""Reading a stack's drawing back: where its members, numbers and running dimensions stand on the sheet."""

from __future__ import annotations

import random
import re
import xml.etree.ElementTree as ElementTree
from dataclasses import dataclass

from calculators.drawing.lettering import text_width
from calculators.hardware.designation import read_fastener, read_nut, read_washer
from calculators.joints import JointInput, JointResult, Layer, StackItem, work_joint
from calculators.joints.model import HoleOverride

SVG = "{http://www.w3.org/2000/svg}"
Box = tuple[float, float, float, float]


@dataclass(frozen=True)
class Read:
    """What was read: the scale, each member's kind and its ends on the sheet, running lengths and their places."""

    root: ElementTree.Element
    scale: float
    members: list[tuple[str, float, float]]
    running: list[tuple[str, float]]
    origin: float | None


def points_of(path: str) -> list[tuple[float, float]]:
    numbers = [float(each) for each in re.findall(r"-?\d+(?:\.\d+)?", path)]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def straight(element: ElementTree.Element) -> list[tuple[float, float]]:
    """The points of the outlines, edges and fills of a member; waves and arrows are relative and left out."""
    found = []
    for path in element.iter(f"{SVG}path"):
        if path.get("class") in ("outline", "edge", "none", "thin", "hidden"):
            found += points_of(path.get("d", ""))
    return found


def read(svg: str) -> Read:
    root = ElementTree.fromstring(svg)
    words = " ".join(text.text or "" for text in root.iter(f"{SVG}text"))
    drawn, true = re.search(r"Scale (\d+):(\d+)", words).groups()  # type: ignore[union-attr]
    members = []
    for group in root.iter(f"{SVG}g"):
        kinds = (group.get("class") or "").split()
        if kinds[:1] == ["member"]:
            xs = [x for x, _ in straight(group)]
            members.append((kinds[1], min(xs), max(xs)))
    running = []
    for group in root.iter(f"{SVG}g"):
        if group.get("class") == "running":
            text, line = group.find(f"{SVG}text"), group.find(f"{SVG}path")
            assert text is not None
            assert line is not None
            running.append((text.text or "", points_of(line.get("d", ""))[0][0]))
    origin = next(
        (float(c.get("cx", "")) for c in root.iter(f"{SVG}circle") if c.get("class") == "origin"), None
    )
    return Read(root, int(drawn) / int(true), members, running, origin)


def label_boxes(root: ElementTree.Element) -> list[tuple[str, Box]]:
    """The boxes of all lettering, and of the rings round numbers in place of the numbers in them."""
    found: list[tuple[str, Box]] = []
    rings = [each for each in root.iter(f"{SVG}circle") if "balloon" in (each.get("class") or "")]
    middles = set()
    for ring in rings:
        x, y, r = (float(ring.get(name, "")) for name in ("cx", "cy", "r"))
        middles.add(round(x, 2))
        found.append(("ring", (x - r, y - r, x + r, y + r)))
    top = max((box[3] for _, box in found), default=0.0)
    for text in root.iter(f"{SVG}text"):
        x, y, size = (float(text.get(name, "")) for name in ("x", "y", "font-size"))
        words = text.text or ""
        if round(x, 2) in middles and y < top:
            continue  # the number in a ring
        wide = text_width(words, size)
        if text.get("transform"):
            # turned to be read from the right; its end is at the anchor, so that it runs down from there
            found.append((words, (x - 0.75 * size, y, x + 0.1 * size, y + wide)))
        else:
            left = x - {"start": 0.0, "middle": wide / 2, "end": wide}[text.get("text-anchor", "start")]
            found.append((words, (left, y - 0.75 * size, left + wide, y + 0.22 * size)))
    return found


def meet(a: Box, b: Box) -> bool:
    return a[0] < b[2] - 0.01 and b[0] < a[2] - 0.01 and a[1] < b[3] - 0.01 and b[1] < a[3] - 0.01


def drawn_box(root: ElementTree.Element) -> Box:
    """The box about all members."""
    points = [point for group in root.iter(f"{SVG}g") if (group.get("class") or "").startswith("member")
              for point in straight(group)]  # fmt: skip
    return (
        min(x for x, _ in points),
        min(y for _, y in points),
        max(x for x, _ in points),
        max(y for _, y in points),
    )


_MATERIALS = ("oak", "brass", "mild steel", "birch plywood", "acrylic", "aluminium", "")
_WASHERS = ("washer", "repair washer", "spring washer", "crinkle washer")


def random_stack(seed: int) -> JointResult:
    """A screw through up to a dozen washers and parts, with a nut or two, a thread at the end, or neither."""
    chance = random.Random(seed)
    size = chance.choice(("M3", "M4", "M5", "M6", "M8", "M10"))
    members: list[StackItem] = []
    for number in range(chance.randint(1, 12)):
        if chance.random() < 0.45:
            members.append(StackItem(washer=read_washer(f"{size} {chance.choice(_WASHERS)}")))
        else:
            thick = round(chance.choice((0.3, 1.2, 3.0, 8.0, 22.0, 60.0)) * chance.uniform(0.7, 1.3), 2)
            hole = (
                HoleOverride(counterbore_diameter_mm=22, counterbore_depth_mm=0.2)
                if chance.random() < 0.1
                else HoleOverride()
            )
            gap = round(chance.uniform(0, 4), 1) if chance.random() < 0.1 else 0.0
            members.append(
                StackItem(
                    layer=Layer(f"P{number:02d}", chance.choice(_MATERIALS), thick, hole=hole, gap_mm=gap)
                )
            )
    if not any(each.layer for each in members):
        members.append(StackItem(layer=Layer("P99", "brass", 12.0)))
    for _ in range(chance.randint(0, 2)):
        members.append(
            StackItem(nut=read_nut(f"{size} {chance.choice(('nut', 'half nut', 'dome nut', 'wing nut'))}"))
        )
    head = chance.choice(
        ("hex set screw", "socket cap", "csk", "pan", "hex bolt", "cheese", "stud", "knurled")
    )
    if head == "csk" and members[0].layer is None:
        head = "pan"
    length = chance.choice(("", " x 16", " x 30", " x 80"))
    stands = round(chance.uniform(-6, 30), 1) if head == "stud" or chance.random() < 0.1 else None
    return work_joint(
        JointInput(f"F{seed:02d}", read_fastener(f"{size}{length} {head}"), tuple(members), clamps=chance.random() < 0.8,
                   stands_mm=stands)
    )  # fmt: skip
