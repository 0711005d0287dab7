"""Joint sections read back from their SVG: true sizes, clear lettering, and no joint that cannot be drawn."""

from __future__ import annotations

import math
import re
import xml.etree.ElementTree as ElementTree
from dataclasses import replace
from functools import lru_cache

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.drawing.lettering import text_width
from calculators.drawing.section import joint_section
from calculators.hardware.designation import read_fastener, read_insert, read_nut, read_washer
from calculators.joints.model import (
    Extent,
    Finding,
    HoleOverride,
    JointInput,
    JointResult,
    Layer,
    StackItem,
)
from calculators.joints.work import work_joint
from calculators.quantities.errors import InputError

SVG = "{http://www.w3.org/2000/svg}"


def part(mark, material, thickness, **more):
    return StackItem(layer=Layer(mark, material, thickness, **more))


def washer(line):
    return StackItem(washer=read_washer(line))


def nut(line):
    return StackItem(nut=read_nut(line))


def joint(mark, line, *stack, **more):
    return JointInput(mark, read_fastener(line), stack, **more)


JOINTS = {
    each.mark: each
    for each in (
        joint(
            "pillar",
            "5/16 BSF x 2 hex set screw steel",
            washer("5/16 repair washer"),
            part("P01", "oak", 22),
            part("P11", "brass", 6),
            part("P10", "brass", 165, thread_depth_mm=18, drilled_depth_mm=22),
        ),
        joint(
            "batten",
            "No. 8 x 1 3/4 csk slotted brass",
            part("P02", "oak", 22),
            part("P01", "oak", 28, edge_mm=12),
        ),
        joint(
            "bracket",
            "M5 x 40 socket cap steel",
            part("P38", "brass", 3),
            part("P01", "oak", 28),
            washer("M5 repair washer"),
            washer("M5 washer"),
            nut("M5 nut"),
        ),
        joint(
            "anchor",
            "M4 x 20 grub hex socket",
            part("P28", "brass", 12, takes="thread"),
            StackItem(insert=read_insert("M4 insert")),
            part("P01", "oak", 28, takes="insert"),
            stands_mm=-2,
        ),
        joint("tiny", "8 BA x 1/2 cheese slotted brass", part("A1", "oak", 5), part("A2", "oak", 55)),
        joint("thin", "M3 x 6 button steel", part("E1", "aluminium", 0.4), part("E2", "aluminium", 600)),
        joint(
            "coach",
            "M10 x 120 coach bolt steel",
            part("B1", "oak", 45),
            part("B2", "oak", 45, grain="end"),
            washer("M10 washer"),
            nut("M10 nut"),
        ),
        joint(
            "cup",
            "No. 8 x 1 raised csk slotted brass",
            washer("No. 8 cup washer"),
            part("D1", "acrylic", 6),
            part("D2", "oak", 22),
        ),
        joint(
            "slot",
            "M6 x 40 pan steel",
            part("P19", "brass", 6, hole=HoleOverride(kind="slot", diameter_mm=6.6, slot_length_mm=16)),
            part("P2", "birch plywood", 22),
            washer("M6 spring washer"),
            nut("M6 dome nut"),
        ),
        joint(
            "sunk",
            "M6 x 30 socket cap steel",
            part("G1", "steel", 12, hole=HoleOverride(counterbore_diameter_mm=11, counterbore_depth_mm=6.5)),
            part("G2", "cast iron", 40),
        ),
        joint("thumb", "2 BA x 1 knurled brass", part("P22", "brass", 22), clamps=False, stands_mm=3),
        joint("cone", "M5 x 10 grub cone point slotted", part("H1", "brass", 14)),
        joint(
            "lag",
            "M8 x 80 coach screw steel",
            washer("M8 washer"),
            part("C1", "oak", 32),
            part("C2", "oak", 60),
        ),
        joint(
            "wing",
            "M6 x 40 hex bolt steel",
            part("W1", "glass", 12),
            part("W2", "oak", 12),
            nut("M6 wing nut"),
        ),
    )
}
VARIANTS = [
    {"narrow": narrow, "head_up": head_up, "letter_mm": letter}
    for narrow in (False, True)
    for head_up in (True, False)
    for letter in (3.0, 4.0, 5.5)
]


@lru_cache
def result_of(mark):
    return work_joint(JOINTS[mark])


def drawing_of(result, **options):
    return ElementTree.fromstring(joint_section(result, **options))


def points_of(element):
    """All corners of a path written with M, L and Z."""
    numbers = [float(n) for n in re.findall(r"-?\d+\.?\d*", element.get("d"))]
    return list(zip(numbers[::2], numbers[1::2], strict=True))


def extent_of(element):
    xs, ys = zip(*points_of(element), strict=True)
    return min(xs), min(ys), max(xs), max(ys)


def size_of(element):
    left, top, right, bottom = extent_of(element)
    return right - left, bottom - top


def figures(root):
    """The closed outlines in view: filled with steel."""
    return [e for e in root.iter(f"{SVG}path") if e.get("fill") == "#dde5e8"]


def has_size(elements, scale, width, high):
    """Whether one of the outlines is so wide and so high in the joint's millimetres."""
    sizes = [size_of(e) for e in elements]
    return any(abs(w / scale - width) < 0.03 and abs(h / scale - high) < 0.03 for w, h in sizes)


def scale_of(root):
    words = next(e.text for e in root.iter(f"{SVG}text") if e.text.startswith("Scale"))
    big, small = re.match(r"Scale (\d+):(\d+)", words).groups()
    return int(big) / int(small)


def boxes_of(root):
    boxes = []
    for element in root.iter(f"{SVG}text"):
        size, x, y = (float(element.get(name)) for name in ("font-size", "x", "y"))
        # The estimate is on the wide side; the sans that is shipped is about a tenth narrower.
        wide = 0.9 * text_width(element.text, size)
        start = {"start": 0.0, "middle": -wide / 2, "end": -wide}[element.get("text-anchor")]
        box = (x + start, y - 0.72 * size, x + start + wide, y + 0.2 * size)
        if element.get("transform"):
            box = (x - 0.72 * size, y - wide / 2, x + 0.2 * size, y + wide / 2)
        boxes.append((element.text, box))
    return boxes


def overlapping(boxes):
    return [
        (first, second)
        for index, (first, a) in enumerate(boxes)
        for second, b in boxes[index + 1 :]
        if a[0] < b[2] and b[0] < a[2] and a[1] < b[3] and b[1] < a[3]
    ]


def check_sheet(svg):
    root = ElementTree.fromstring(svg)
    left, top, width, height = (float(n) for n in root.get("viewBox").split())
    assert root.get("width") == f"{root.get('viewBox').split()[2]}mm"
    assert root.get("height") == f"{root.get('viewBox').split()[3]}mm"
    boxes = boxes_of(root)
    assert overlapping(boxes) == []
    for text, box in boxes:
        assert box[0] >= left - 0.01, text
        assert box[1] >= top - 0.01, text
        assert box[2] <= left + width + 0.01, text
        assert box[3] <= top + height + 0.01, text
    for element in root.iter(f"{SVG}path"):
        if element.get("class") != "grain" and "arrow" not in element.get("class"):
            box = extent_of(element)
            assert box[0] >= left - 0.01
            assert box[2] <= left + width + 0.01
            assert box[1] >= top - 0.01
            assert box[3] <= top + height + 0.01
    return root


@pytest.mark.parametrize("mark", JOINTS)
@pytest.mark.parametrize("options", VARIANTS)
def test_lettering_keeps_clear_and_everything_lies_on_the_sheet(mark, options):
    check_sheet(joint_section(result_of(mark), **options))


@pytest.mark.parametrize("mark", JOINTS)
def test_no_style_no_script_no_names_and_words_for_who_cannot_see(mark):
    svg = joint_section(result_of(mark))
    assert not re.search(r"style|<script|\bid=|href|url\(", svg)
    root = ElementTree.fromstring(svg)
    assert root.get("role") == "img"
    assert [child.tag for child in root[:2]] == [f"{SVG}title", f"{SVG}desc"]
    assert root[0].text.startswith(f"{mark}: section through the axis of ")
    for item in JOINTS[mark].stack:
        if item.layer:
            assert f"{item.layer.part}, {item.layer.material}" in root[1].text


@pytest.mark.parametrize("mark", JOINTS)
def test_equal_joints_give_equal_text_with_few_decimals(mark):
    first, second = joint_section(result_of(mark)), joint_section(work_joint(JOINTS[mark]))
    assert first == second
    assert not re.search(r'[dxyr12]="[^"]*\.\d{3}', first)


@pytest.mark.parametrize("mark", JOINTS)
@pytest.mark.parametrize("narrow", [False, True])
def test_the_screw_is_drawn_in_true_proportion(mark, narrow):
    """Shank width and length, measured on the sheet, over the scale, are those of the joint."""
    result = result_of(mark)
    root = drawing_of(result, narrow=narrow)
    scale = scale_of(root)
    shank = figures(root)[0]
    width = size_of(shank)[0]
    assert width / scale == pytest.approx(result.major_mm, abs=0.03 / scale + 0.001)
    tip = max(y for _, y in points_of(shank))
    length = (result.fastener.cut_to or result.fastener.length).mm
    # The dimension line of the length is the longest upright line that ends level with the tip.
    lines = [points_of(e) for e in root.iter(f"{SVG}path") if e.get("class") == "dimension"]
    upright = [
        p for p in lines if len(p) == 2 and p[0][0] == p[1][0] and abs(max(p[0][1], p[1][1]) - tip) < 0.02
    ]
    assert max(abs(a[1] - b[1]) for a, b in upright) / scale == pytest.approx(
        length, abs=0.03 / scale + 0.001
    )


def test_head_washer_and_nut_are_drawn_in_their_listed_sizes():
    """M5: socket head 8.5 x 5 (ISO 4762), nut 8 across flats and 4.7 high (ISO 4032), washer 15 x 1 (ISO 7093-1).

    Read in open CAD part tables of these standards, not in the standards themselves.
    """
    root = drawing_of(result_of("bracket"))
    scale = scale_of(root)
    assert has_size(figures(root), scale, 8.5, 5.0)
    assert has_size(figures(root), scale, 8 / math.cos(math.radians(30)), 4.7)
    assert has_size(figures(root), scale, 15.0, 1.0)


def test_a_washer_as_wide_as_it_is_written():
    stack = (washer("5/16 repair washer OD 1 1/4 x 1.6 mm"), part("P01", "oak", 22), part("P10", "brass", 18))
    root = drawing_of(work_joint(joint("F04", "5/16 BSF x 1 1/2 hex steel", *stack)))
    assert has_size(figures(root), scale_of(root), 31.75, 1.6)


def test_holes_are_cut_in_their_true_width_and_depth():
    """The pillar's blind hole: 22 deep and its cone, as wide as the tapping drill; base and plate through."""
    result = result_of("pillar")
    root = drawing_of(result)
    scale = scale_of(root)
    edges = [e for e in root.iter(f"{SVG}path") if e.get("fill") == "none" and "Z" in e.get("d")]
    base, plate, pillar = result.holes
    assert has_size(edges, scale, base.diameter_mm, 22.0)
    assert has_size(edges, scale, plate.diameter_mm, 6.0)
    assert has_size(edges, scale, pillar.diameter_mm, 22 + pillar.point_mm)


def test_a_slot_is_cut_in_its_length():
    root = drawing_of(result_of("slot"))
    edges = [e for e in root.iter(f"{SVG}path") if e.get("fill") == "none" and "Z" in e.get("d")]
    assert has_size(edges, scale_of(root), 16.0, 6.0)


def test_a_countersunk_head_lies_flush_and_in_its_cone():
    result = result_of("batten")
    root = drawing_of(result)
    scale = scale_of(root)
    left, top, right, _ = extent_of(figures(root)[1])
    assert (right - left) / scale == pytest.approx(result.head_diameter_mm, abs=0.02)
    surface = min(y for e in root.iter(f"{SVG}path") if e.get("class") == "none" for _, y in points_of(e))
    assert top == pytest.approx(surface, abs=0.02)


def test_the_near_edge_of_a_part_is_drawn_where_it_is():
    root = drawing_of(result_of("batten"))
    scale = scale_of(root)
    centre = sum(extent_of(figures(root)[0])[::2]) / 2
    far_sides = [
        extent_of(e)[2]
        for e in root.iter(f"{SVG}path")
        if e.get("class") == "none" and e.get("fill") == "#f8faf7"
    ]
    assert (far_sides[1] - centre) / scale == pytest.approx(12, abs=0.02)
    assert (far_sides[0] - centre) / scale > 13


def test_each_thickness_is_in_the_chain_in_order():
    root = drawing_of(result_of("bracket"))
    numbers = [
        (float(e.get("x")), float(e.get("y")), e.text)
        for e in root.iter(f"{SVG}text")
        if e.get("class") == "dimension" and not e.get("transform")
    ]
    # The chain stands nearest to the drawing; a number that is led from its place stands 2.2 farther out.
    column = max(x for x, _, _ in numbers)
    chain = sorted((y, text) for x, y, text in numbers if column - x < 2.3)
    assert [text for _, text in chain] == ["3", "28", "1", "1", "4.7"]


def test_head_down_turns_the_drawing_over():
    up, down = drawing_of(result_of("bracket")), drawing_of(result_of("bracket"), head_up=False)
    for one, other in zip(figures(up), figures(down), strict=True):
        assert size_of(one) == pytest.approx(size_of(other), abs=0.02)
    tops = [extent_of(e)[1] for e in figures(up)]
    bottoms = [extent_of(e)[3] for e in figures(down)]
    assert min(tops) == tops[-1]
    assert max(bottoms) == bottoms[-1]


def test_findings_are_red_in_words_and_at_their_place():
    """The pillar's screw is 3.2 too long (50.8 - 1.6 - 22 - 6 - 18): that stretch is washed red."""
    result = result_of("pillar")
    root = drawing_of(result)
    scale = scale_of(root)
    red = [e.text for e in root.iter(f"{SVG}text") if e.get("class") == "finding"]
    assert red[0].startswith(("error: ", "warning: "))
    assert any("bottoms" in text for text in red)
    wash = [e for e in root.iter(f"{SVG}path") if e.get("fill") == "#efd3ce"]
    bottoms = next(f for f in result.findings if f.rule == "screw-bottoms")
    assert [round(size_of(e)[1] / scale, 1) for e in wash] == [round(bottoms.value - bottoms.limit, 1)]
    for finding in result.findings:
        if finding.severity in ("error", "warning"):
            assert finding.says in root[1].text


def test_without_findings_nothing_is_red():
    svg = joint_section(result_of("pillar"), findings=())
    assert "#b1271b" not in svg
    assert "#efd3ce" not in svg


def test_notes_and_what_was_not_checked_stay_out_of_the_drawing():
    told = (
        Finding("a", "note", "Only a note.", "s", part="P01"),
        Finding("b", "unchecked", "Not known.", "s"),
    )
    assert "#b1271b" not in joint_section(result_of("pillar"), findings=told)


def test_a_finding_that_names_no_part_stands_with_the_screw():
    told = (Finding("a", "error", "Wrong screw: take another.", "s"),)
    root = drawing_of(result_of("pillar"), findings=told)
    lines = [(e.text, e.get("class")) for e in root.iter(f"{SVG}text")]
    place = lines.index(("error: Wrong screw", "finding"))
    assert [lines[place - 2][0], lines[place - 1]] == ["5/16 BSF x 2 hex set screw", ("steel", "label")]


def test_signs_that_xml_knows_are_escaped():
    odd = joint("F<1>", "M5 x 20 pan steel", part('P&1"', "brass <x>", 5), part("P2", "brass", 12))
    root = drawing_of(work_joint(odd), names={'P&1"': "a <b> & c\x00\x1b"})
    assert root[0].text.startswith("F<1>: ")
    assert any("a <b> & c" in (e.text or "") for e in root.iter(f"{SVG}text"))


def test_names_and_units_are_the_callers():
    root = drawing_of(result_of("pillar"), names={"P10": "pillar"}, write=lambda mm: f"{mm / 25.4:.2f}")
    texts = [e.text for e in root.iter(f"{SVG}text")]
    assert "P10 pillar, brass" in texts
    assert "2.00" in texts
    assert not any("mm" in text for text in texts)
    assert "Scale 1:1, sizes in mm, parts broken off" in joint_section(result_of("pillar"))


def test_a_result_that_says_little_is_drawn_all_the_same():
    """No head size, no extents, no holes, no length: proportions stand in, and nothing fails."""
    bare = JointInput(
        "F9", replace(read_fastener("M6 pan steel"), length=None), (part("A", "", 10), part("B", "?", 20))
    )
    result = JointResult(bare, bare.fastener, 6.0, None, None, None, None, 0.0, (), 22.0, 0.0, None, (), ())
    root = check_sheet(joint_section(result))
    assert size_of(figures(root)[0])[1] / scale_of(root) == pytest.approx(22, abs=0.02)


@pytest.mark.parametrize("tip", [-5.0, 0.0, 0.001, 5000.0])
def test_absurd_lengths_are_drawn(tip):
    result = replace(result_of("batten"), tip_mm=tip, extents=(Extent(0, 0, 22), Extent(1, 22, 50)))
    check_sheet(joint_section(result))


FASTENERS = st.sampled_from(
    [
        "8 BA x 1/4 csk slotted brass",
        "2 BA x 3/4 cheese slotted brass",
        "M3 x 6 socket csk steel",
        "M6 x 100 hex bolt steel",
        "M12 x 30 hex set screw steel",
        "1/4-28 UNF x 5/8 hex steel",
        "10-32 UNF x 1/4 grub hex socket cup point",
        "M8 x 60 stud steel",
        "M5 x 16 button steel",
        "M8 x 70 coach bolt steel",
        "No. 4 x 5/8 csk slotted brass",
        "No. 12 x 3 round cross steel",
        "No. 8 x 1 1/4 raised csk slotted brass",
        "M10 x 120 coach screw steel",
        "M4 x 12 knurled brass",
        "M6 pan steel",
    ]
)
MATERIALS = st.sampled_from(
    ["oak", "Sitka spruce", "birch plywood", "brass", "mild steel", "acrylic", "glass", "", "unobtainium"]
)
SIZES = st.floats(0.1, 400)
MAYBE = st.none() | st.floats(0.2, 60)
LAYERS = st.builds(
    Layer,
    st.sampled_from(["P01", "P02", "", "P with a very long mark that must be broken somewhere"]),
    MATERIALS,
    SIZES,
    takes=st.sampled_from(["", "", "clearance", "thread", "pilot", "insert", "plain"]),
    thread_depth_mm=MAYBE,
    drilled_depth_mm=MAYBE,
    grain=st.sampled_from(["", "side", "end"]),
    hole=st.builds(
        HoleOverride,
        diameter_mm=MAYBE,
        depth_mm=MAYBE,
        slot_length_mm=MAYBE,
        countersink_diameter_mm=MAYBE,
        counterbore_diameter_mm=MAYBE,
        counterbore_depth_mm=MAYBE,
        pilot=st.booleans(),
    ),
    edge_mm=MAYBE,
    gap_mm=st.sampled_from([0.0, 0.0, 1.5]),
)
ITEMS = st.sampled_from(
    [
        washer("M5 washer"),
        washer("M8 spring washer"),
        nut("M6 nut"),
        nut("M5 wing nut"),
        StackItem(insert=read_insert("M4 insert")),
    ]
)


@settings(
    deadline=None, max_examples=120, suppress_health_check=[HealthCheck.filter_too_much, HealthCheck.too_slow]
)
@given(
    FASTENERS,
    st.lists(st.builds(lambda layer: StackItem(layer=layer), LAYERS) | ITEMS, min_size=1, max_size=6),
    st.none() | st.floats(-30, 30),
    st.booleans(),
    st.booleans(),
)
def test_no_joint_that_can_be_worked_cannot_be_drawn(line, stack, stands, narrow, head_up):
    try:
        result = work_joint(JointInput("F1", read_fastener(line), tuple(stack), stands_mm=stands))
    except InputError:
        return
    check_sheet(joint_section(result, narrow=narrow, head_up=head_up))
