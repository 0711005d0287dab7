"""One drawing for every fastener family in the tables: each is drawn, read back and held against its table.

The tables' values are read from their files here, without the code that draws; each file names the standard
and how the values were obtained. Sizes are read back within 0.02 mm, or within what two decimals on the
sheet can carry at a scale of 1:2 and smaller.
"""

from __future__ import annotations

import math

import pytest

from calculators.drawing.section import joint_section
from calculators.hardware.fastener import Fastener, Insert, Nut, Washer
from calculators.joints.model import HoleOverride, JointInput, Layer, StackItem
from calculators.joints.work import work_joint
from calculators.quantities.reading import read_length
from tests.drawing.section_reading import Drawing, overprinted, rows_of

COS30 = math.cos(math.radians(30))
UNC = {"1": 64, "2": 56, "3": 48, "4": 40, "5": 40, "6": 32, "8": 32, "10": 24, "12": 24}
"""Threads to the inch of the numbered coarse threads (ASME B1.1, from memory)."""


def thread(size, standard):
    """A thread whose hardware a table lists under a nominal size."""
    if size.startswith("M") or size.endswith("BA"):
        return size
    if standard.startswith("BS"):
        return f"{size} BSW"
    number = size.removeprefix("No. ")
    if number == size:
        return "1-8 UNC" if size == "1" else f"{size} UNC"
    return "0-80 UNF" if number == "0" else f"{number}-{UNC[number]} UNC"


def major(size):
    """The nominal diameter [mm]: of numbered sizes 0.060 in and 0.013 in for each number (ASME B1.1)."""
    if size.startswith("M"):
        return float(size[1:])
    if size.startswith("No."):
        return (0.060 + 0.013 * int(size[4:])) * 25.4
    if size.endswith("BA"):
        pitch = round(0.9 ** int(size.split()[0]), 2)  # BS 93 (from memory): 6 p to the power of 1.2
        return round(6.0 * pitch**1.2, 1)
    top, _, bottom = size.partition("/")
    return float(top) / float(bottom or 1) * 25.4


def layer(part, material, thick, **more):
    return StackItem(layer=Layer(part, material, thick, **more))


def drawn(fastener, *stack, **more):
    result = work_joint(JointInput("F1", fastener, stack, **more))
    return result, Drawing(joint_section(result))


def screw(size, long, head, drive="", kind="screw", **more):
    return Fastener("machine", size, read_length(f"{long:.3f} mm"), head, drive, kind, "steel", **more)


HEADS = {
    "ISO 2009": ("csk", "slotted", "screw"),
    "DIN 963": ("csk", "slotted", "screw"),
    "ISO 2010": ("raised csk", "slotted", "screw"),
    "ISO 10642": ("socket csk", "hex socket", "screw"),
    "ISO 1207": ("cheese", "slotted", "screw"),
    "ISO 1580": ("pan", "slotted", "screw"),
    "ISO 7045": ("pan", "cross", "screw"),
    "ISO 4762": ("socket cap", "hex socket", "screw"),
    "ISO 7380-1": ("button", "hex socket", "screw"),
    "ISO 4017": ("hex", "", "set screw"),
    "DIN 603": ("coach", "", "bolt"),
    "DIN 464": ("knurled", "hand", "screw"),
    "ASME B18.6.3 Table 1A": ("csk", "slotted", "screw"),
    "ASME B18.6.3 Table 9A": ("pan", "slotted", "screw"),
    "ASME B18.6.3 Table 9B": ("pan", "cross", "screw"),
    "ASME B18.6.3 Table 10A": ("cheese", "slotted", "screw"),
    "ASME B18.6.3 round": ("round", "slotted", "screw"),
    "ASME B18.6.3 hexagon": ("hex", "", "screw"),
    "ASME B18.3 Table 1A": ("socket cap", "hex socket", "screw"),
    "ASME B18.3 Table 2": ("socket csk", "hex socket", "screw"),
    "ASME B18.3 button": ("button", "hex socket", "screw"),
    "ASME B18.2.1 Table 6": ("hex", "", "set screw"),
    "ASME B18.5": ("coach", "", "bolt"),
    "BS 1083": ("hex", "", "set screw"),
    "BS 57": ("hex", "", "set screw"),
}
NO_THREAD = {"M52", "M56", "M60", "M64"}
"""Heads, nuts and washers are listed up to here; the table of threads ends at M48, so none can be asked for."""


def listed(table):
    return [row for row in rows_of(table) if row["size"] not in NO_THREAD]


def lost_to_slot(head, diameter, high, slot):
    """How much lower a dome is where a slot is cut across its crown: geometry of a circle's segment."""
    if head not in {"round", "raised csk"}:
        return 0.0
    radius = (diameter**2 / 4 + high**2) / (2 * high)
    return radius - math.sqrt(radius**2 - slot**2 / 4)


LISTED_HEADS = listed("heads")


def test_every_standard_of_heads_in_the_table_is_drawn_here():
    assert {row["standard"] for row in LISTED_HEADS} == set(HEADS)


@pytest.mark.parametrize("row", LISTED_HEADS, ids=lambda row: f"{row['standard']} {row['size']}")
def test_each_head_is_drawn_in_the_sizes_of_its_table(row):
    head, drive, kind = HEADS[row["standard"]]
    d = major(row["size"])
    fastener = screw(thread(row["size"], row["standard"]), 5 * d, head, drive, kind)
    _, drawing = drawn(fastener, layer("A", "steel", 2.5 * d), layer("B", "steel", 6 * d))
    figure = drawing.steel[-1]
    wide, high = drawing.size(figure)
    corners = float(row["across_flats"]) / COS30 if row["across_flats"] else 0.0
    diameter = float(row["diameter"]) if row["diameter"] and not corners else corners
    assert wide == pytest.approx(diameter, abs=drawing.close)
    slot = float(row["slot_width"] or 0) or 0.12 * diameter
    if "csk" in head:
        # From the rim to the shank; the table's height counts to the sharp edge that the head has not.
        cone = (diameter - d) / 2 / math.tan(math.radians(float(row["angle"]) / 2))
        raised = float(row["raise"] or 0)
        lost = lost_to_slot(head, diameter, raised, slot) if raised else 0.0
        assert high == pytest.approx(cone + raised - lost, abs=drawing.close)
    elif (head, drive) == ("pan", "slotted"):
        # The slot takes the flat crown away, which the recessed pan heads of this table show whole.
        assert 0.97 * float(row["height"]) - drawing.close <= high <= float(row["height"]) + drawing.close
    else:
        listed_high = float(row["height"])
        lost = lost_to_slot(head, diameter, listed_high, slot) if drive == "slotted" else 0.0
        assert high == pytest.approx(listed_high - lost, abs=drawing.close)
    shank = drawing.size(drawing.steel[0])[0]
    assert shank == pytest.approx(d, abs=drawing.close)
    circles, rings = drawing.end_rings()
    if row["slot_width"]:
        edges = [abs(x - drawing.axis) / drawing.scale for x, _ in drawing.rings(figure)[0]]
        assert 2 * min(edges) == pytest.approx(float(row["slot_width"]), abs=2 * drawing.close)
        slot = min(drawing.size(ring)[0] for ring in rings)
        assert slot == pytest.approx(float(row["slot_width"]), abs=drawing.close)
    if row["socket"]:
        # Across its flats the hexagon stands upright in the view from the end.
        socket = min(drawing.size(ring)[1] for ring in rings)
        assert socket == pytest.approx(float(row["socket"]), abs=drawing.close)
    if corners:
        hexagon = max(rings, key=drawing.size)
        assert drawing.size(hexagon)[1] == pytest.approx(float(row["across_flats"]), abs=drawing.close)
    else:
        radius = max(float(circle.get("r")) for circle in circles) / drawing.scale
        assert 2 * radius == pytest.approx(diameter, abs=drawing.close)


NUTS = {
    "ISO 4032": "full",
    "ISO 4035": "half",
    "DIN 1587": "dome",
    "DIN 557": "square",
    "DIN 562": "square",
    "DIN 315": "wing",
    "DIN 985": "stiff",
    "DIN 466": "knurled",
    "ASME B18.2.2 full": "full",
    "ASME B18.2.2 jam": "half",
    "ASME B18.2.2 square": "square",
    "BS 1083 ordinary": "full",
    "BS 1083 lock": "half",
    "BS 57 ordinary": "full",
    "BS 57 lock": "half",
}
LISTED_NUTS = listed("nuts")
THICK_SQUARE = {row["size"] for row in LISTED_NUTS if row["standard"] == "DIN 557"}


def test_every_standard_of_nuts_in_the_table_is_drawn_here():
    assert {row["standard"] for row in LISTED_NUTS} == set(NUTS)


@pytest.mark.parametrize(
    "row",
    # A square nut is the thick one of DIN 557 where there is one.
    [row for row in LISTED_NUTS if not (row["standard"] == "DIN 562" and row["size"] in THICK_SQUARE)],
    ids=lambda row: f"{row['standard']} {row['size']}",
)
def test_each_nut_is_drawn_in_the_sizes_of_its_table(row):
    form, d = NUTS[row["standard"]], major(row["size"])
    size = thread(row["size"], row["standard"])
    stack = (layer("A", "steel", d), layer("B", "steel", 1.5 * d), StackItem(nut=Nut(size, form)))
    _, drawing = drawn(screw(size, 4 * d, "hex", "", "set screw"), *stack)
    wide, high = drawing.size(drawing.steel[1])
    flats = float(row["across_flats"] or 0)
    listed = flats if form == "square" else flats / COS30
    assert wide == pytest.approx(float(row["outside"] or 0) or listed, abs=drawing.close)
    if form != "wing":
        assert high == pytest.approx(float(row["height"]), abs=drawing.close)
        return
    # A wing nut's listed height is that of its boss, whose sides are drawn as lines; the wings rise above it.
    boss = drawing.paths("outline", "none")
    heights = [drawing.size(path)[1] for path in boss if len(drawing.rings(path)) == 2]
    assert any(abs(each - float(row["height"])) < drawing.close for each in heights)
    assert high > float(row["height"])


WASHERS = {
    "ISO 7089": "plain",
    "ISO 7092": "small",
    "ISO 7093-1": "repair",
    "DIN 127 B": "spring",
    "DIN 137 A": "crinkle",
    "DIN 6797 A": "toothed",
    "ASME B18.21.1 Table 12 (regular)": "plain",
    "ASME B18.21.1 Table 12 (narrow)": "small",
    "ASME B18.21.1 Table 12 (wide)": "repair",
    "ASME B18.21.1 split lock": "spring",
}
LISTED_WASHERS = [row for row in listed("washers") if row["standard"] != "ISO 7094"]
"""ISO 7094 is listed for who looks a size up; no washer that a joint can name is of it."""


def test_every_standard_of_washers_that_a_joint_can_name_is_drawn_here():
    assert {row["standard"] for row in LISTED_WASHERS} == set(WASHERS)


@pytest.mark.parametrize("row", LISTED_WASHERS, ids=lambda row: f"{row['standard']} {row['size']}")
def test_each_washer_is_drawn_in_the_sizes_of_its_table(row):
    d, size = major(row["size"]), thread(row["size"], row["standard"])
    stack = (
        StackItem(washer=Washer(size, WASHERS[row["standard"]])),
        layer("A", "steel", d),
        layer("B", "steel", 3 * d),
    )
    _, drawing = drawn(screw(size, 3 * d, "cheese", "slotted"), *stack)
    wide, high = drawing.size(drawing.steel[1])
    assert wide == pytest.approx(float(row["outside"]), abs=drawing.close)
    assert high == pytest.approx(float(row["thickness"]), abs=drawing.close)


WOOD = {
    "ASME B18.6.1": ("csk", "inch-us", "screw"),
    "DIN 97": ("csk", "metric", "screw"),
    "DIN 7996": ("round", "metric", "screw"),
    "DIN 571": ("hex", "", "coach screw"),
    "ASME B18.2.1 lag screw": ("hex", "", "coach screw"),
}
LISTED_WOOD = rows_of("wood_screws")


def test_every_standard_of_wood_screws_in_the_table_is_drawn_here():
    assert {row["standard"] for row in LISTED_WOOD} == set(WOOD)


@pytest.mark.parametrize("row", LISTED_WOOD, ids=lambda row: f"{row['standard']} {row['size']}")
def test_each_wood_screw_is_drawn_in_the_sizes_of_its_table(row):
    head, series, kind = WOOD[row["standard"]]
    size = row["size"]
    d = major(size) if "/" in size or "No." in size else float(size)
    long = read_length(f"{8 * d:.3f} mm")
    drive = "" if head == "hex" else "slotted"
    fastener = Fastener("wood", size, long, head, drive, kind, "steel", series=series)
    _, drawing = drawn(fastener, layer("A", "oak", 2.5 * d), layer("B", "oak", 8 * d))
    wide, high = drawing.size(drawing.steel[-1])
    flats = float(row["across_flats"] or 0)
    assert wide == pytest.approx(flats / COS30 or float(row["head_diameter"]), abs=drawing.close)
    if head != "csk":
        lost = lost_to_slot(head, wide, float(row["head_height"]), 0.12 * wide) if drive else 0.0
        assert high == pytest.approx(float(row["head_height"]) - lost, abs=drawing.close)
    # ASME B18.6.1: a numbered shank is 0.060 in and 0.013 in for each number thick (as numbered threads).
    assert drawing.size(drawing.steel[0])[0] == pytest.approx(d, abs=drawing.close)
    if row["slot_width"]:
        _, rings = drawing.end_rings()
        slot = min(drawing.size(ring)[0] for ring in rings)
        assert slot == pytest.approx(float(row["slot_width"]), abs=drawing.close)


@pytest.mark.parametrize("row", rows_of("inserts"), ids=lambda row: row["size"])
def test_each_insert_is_drawn_in_the_sizes_of_its_table(row):
    d, long = major(row["size"]), float(row["length"])
    stack = (
        layer("A", "brass", d),
        StackItem(insert=Insert(row["size"])),
        layer("B", "oak", long + 12, takes="insert"),
    )
    _, drawing = drawn(screw(row["size"], d + 0.8 * long, "socket cap", "hex socket"), *stack)
    walls = [
        drawing.size(path)
        for path in drawing.paths("outline", "#f8faf7")
        if len(drawing.rings(path)[0]) == 4 and drawing.size(path)[1] > drawing.size(path)[0]
    ]
    thick = (float(row["outside"]) - d) / 2
    close = drawing.close
    assert sum(abs(w - thick) < close and abs(h - long) < close for w, h in walls) == 2


@pytest.mark.parametrize(
    ("size", "long", "threaded"),
    # ISO 4014, length of thread b = 2 d + 6 up to 125 mm (from memory).
    [("M6", 60, 18), ("M8", 80, 22), ("M10", 100, 26), ("M12", 120, 30)],
)
def test_the_thread_of_a_bolt_begins_where_its_standard_says(size, long, threaded):
    d = float(size[1:])
    stack = (layer("A", "steel", long - 2.2 * d), StackItem(nut=Nut(size)))
    _, drawing = drawn(screw(size, long, "hex", "", "bolt"), *stack)
    ring = drawing.rings(drawing.steel[0])[0]
    tip = max(y for _, y in ring)
    level = [
        line[0][1]
        for path in drawing.paths("outline", "none")
        for line in drawing.rings(path)
        if len(line) == 2
        and line[0][1] == line[1][1]
        and abs(abs(line[1][0] - line[0][0]) / drawing.scale - d) < 0.02
    ]
    assert any(abs((tip - y) / drawing.scale - threaded) < drawing.close for y in level)


def test_a_set_screw_is_threaded_to_its_head_and_shows_no_plain_shank():
    stack = (layer("A", "steel", 30), StackItem(nut=Nut("M8")))
    result, drawing = drawn(screw("M8", 45, "hex", "", "set screw"), *stack)
    roots = [line for path in drawing.paths("thin") for line in drawing.rings(path) if len(line) == 2]
    longest = max(abs(a[1] - b[1]) for a, b in roots) / drawing.scale
    assert longest > 40
    assert result.plain_shank_mm < 4


POINTS = {"cup": None, "cone": None, "flat": None, "dog": None}


def test_the_points_of_grub_screws_are_told_apart():
    """Cone: 90 degrees to nought; dog: a pin of 0.7 d; cup: a hollow; flat: across the root.

    Forms of ISO 4026 to 4029, simplified (from memory).
    """
    ends = {}
    for point in POINTS:
        fastener = screw("M6", 16, "none", "hex socket", "grub screw", point=point)
        _, drawing = drawn(fastener, layer("A", "steel", 20, takes="thread"))
        ring = drawing.rings(drawing.steel[0])[0]
        tip = max(y for _, y in ring)
        half = [((x - drawing.axis) / drawing.scale, (tip - y) / drawing.scale) for x, y in ring]
        ends[point] = [(round(x, 1), round(up, 1)) for x, up in half if up < 4 and x > -0.01]
    assert len({str(end) for end in ends.values()}) == 4
    assert (0.0, 0.0) in ends["cone"]
    assert (3.0, 3.0) in ends["cone"]
    assert (2.1, 0.0) in ends["dog"]
    assert any(x == 0 and up > 0.3 for x, up in ends["cup"])
    assert (0.0, 0.0) not in ends["flat"]


FORMS = [
    ("csk", "slotted", "screw", ""),
    ("csk", "cross", "screw", ""),
    ("raised csk", "hexalobular", "screw", ""),
    ("pan", "slotted", "screw", ""),
    ("pan", "square", "screw", ""),
    ("cheese", "slotted", "screw", ""),
    ("round", "slotted", "screw", ""),
    ("socket cap", "hex socket", "screw", ""),
    ("socket csk", "hex socket", "screw", ""),
    ("button", "hexalobular", "screw", ""),
    ("hex", "", "set screw", ""),
    ("hex", "", "bolt", ""),
    ("coach", "", "bolt", ""),
    ("knurled", "hand", "screw", ""),
    ("none", "slotted", "grub screw", "cup"),
    ("none", "hex socket", "grub screw", "cone"),
    ("none", "hexalobular", "grub screw", "dog"),
    ("none", "", "stud", ""),
]
MACHINE_STACKS = {
    "tapped": (layer("A", "brass", 5), layer("B", "steel", 60, thread_depth_mm=14, drilled_depth_mm=18)),
    "nut": (
        StackItem(washer=Washer("M6", "repair")),
        layer("A", "oak", 12, edge_mm=9),
        layer("B", "birch plywood", 9),
        StackItem(washer=Washer("M6", "spring")),
        StackItem(nut=Nut("M6", "wing")),
    ),
    "two nuts": (
        layer("A", "acrylic", 3),
        layer("B", "aluminium", 2),
        StackItem(washer=Washer("M6")),
        StackItem(nut=Nut("M6", "half")),
        StackItem(nut=Nut("M6")),
    ),
    "insert": (
        layer("A", "brass", 8),
        StackItem(insert=Insert("M6")),
        layer("B", "oak", 40, takes="insert", edge_mm=15),
    ),
    "sunk": (
        layer("A", "oak", 20, hole=HoleOverride(counterbore_diameter_mm=14, counterbore_depth_mm=7)),
        layer("B", "cast iron", 200),
    ),
    "thin": (*tuple(layer(f"P{n}", "steel", 0.8) for n in range(7)), StackItem(nut=Nut("M6"))),
}
WOOD_FORMS = [
    ("csk", "slotted"),
    ("raised csk", "cross"),
    ("round", "slotted"),
    ("csk", "square"),
    ("csk", "hexalobular"),
]


def _joints():
    for head, drive, kind, point in FORMS:
        for name, stack in MACHINE_STACKS.items():
            fastener = screw("M6", 30, head, drive, kind, point=point)
            yield f"{head} {drive} {kind} {name}", fastener, stack
    for head, drive in WOOD_FORMS:
        for thick in ((9, 30), (22, 200), (3, 4)):
            stack = tuple(layer(p, "oak", t, edge_mm=10) for p, t in zip("AB", thick, strict=True))
            fastener = Fastener("wood", "No. 8", read_length("38 mm"), head, drive, "screw", "brass")
            yield f"wood {head} {drive} {thick}", fastener, stack
    stack = (StackItem(washer=Washer("M8")), layer("A", "oak", 30), layer("B", "oak", 50, grain="end"))
    yield "coach screw", Fastener("wood", "8", read_length("70 mm"), "hex", "", "coach screw", "steel"), stack


EVERY_JOINT = {name: (fastener, stack) for name, fastener, stack in _joints()}


@pytest.mark.parametrize("name", EVERY_JOINT)
def test_no_words_lie_over_others_or_over_an_upright_dimension(name):
    fastener, stack = EVERY_JOINT[name]
    result = work_joint(JointInput("F1", fastener, stack))
    for narrow in (False, True):
        drawing = Drawing(joint_section(result, narrow=narrow, head_up=not narrow))
        boxes = drawing.boxes()
        assert overprinted(boxes) == []
        upright = [
            line
            for path in drawing.paths("dimension")
            for line in drawing.rings(path)
            if len(line) == 2 and line[0][0] == line[1][0]
        ]
        for (x, from_y), (_, to_y) in upright:
            low, high = sorted((from_y, to_y))
            for words, (left, top, right, bottom) in boxes:
                assert not (left < x < right and top < high and low < bottom), (words, x)
        left, top, width, height = map(float, drawing.root.get("viewBox").split())
        for words, box in boxes:
            assert box[0] >= left - 0.01, words
            assert box[1] >= top - 0.01, words
            assert box[2] <= left + width + 0.01, words
            assert box[3] <= top + height + 0.01, words


def test_each_head_and_drive_looks_different():
    """The outlines of the heads, and the recesses as seen from the end, are each of their own form."""
    heads, ends = {}, {}
    for head, drive, kind, point in FORMS:
        if kind in {"grub screw", "stud"}:
            continue
        _, drawing = drawn(screw("M6", 30, head, drive, kind, point=point), *MACHINE_STACKS["tapped"])
        heads.setdefault(head, drawing.steel[-1].get("d"))
        _, rings = drawing.end_rings()
        if drive not in {"", "hand"}:
            small = min(rings, key=lambda ring: drawing.size(ring)[0] * drawing.size(ring)[1])
            ends.setdefault(drive, len(drawing.rings(small)[0]))
    assert len(set(heads.values())) == len(heads) == 11
    # Corners of the recess: slot and square 4 (the slot reaches across the head), cross 12, hexagon 6.
    assert ends == {"slotted": 4, "cross": 12, "hexalobular": 48, "square": 4, "hex socket": 6}


@pytest.mark.parametrize(
    ("fastener", "stack", "told"),
    [
        # 38 long, flush, through 22: 16 in the second; 30 less 16 is 14 behind. The head of a No. 8 is wide
        # 8.43 (ASME B18.6.1, table) and its cone left under it is told with the plate.
        (
            Fastener(
                "wood", "No. 8", read_length("38 mm"), "csk", "slotted", "screw", "brass", series="inch-us"
            ),
            (layer("A", "oak", 22), layer("B", "oak", 30)),
            ["penetration 16", "left behind the point 14"],
        ),
        # 30 long less 5 through: 25, of which the blind thread takes 14.
        (
            screw("M6", 18, "cheese", "slotted"),
            MACHINE_STACKS["tapped"],
            ["engagement 13"],
        ),
        # 40 less 10, 15 and the nut's 5.2 (ISO 4032): 9.8 stands out.
        (
            screw("M6", 40, "hex", "", "set screw"),
            (layer("A", "steel", 10), layer("B", "steel", 15), StackItem(nut=Nut("M6"))),
            ["protrusion 9.8"],
        ),
        # A head 11.3 wide in a hole of 6.6 (ISO 2009, ISO 273): the cone is (11.3 - 6.6) / 2 = 2.35 deep.
        (
            screw("M6", 20, "csk", "slotted"),
            (layer("A", "brass", 4), layer("B", "steel", 40)),
            ["left under the cone 1.65", "engagement 16"],
        ),
    ],
    ids=["wood", "tapped", "nut", "countersunk"],
)
def test_the_lengths_that_matter_are_dimensioned_and_said(fastener, stack, told):
    _, drawing = drawn(fastener, *stack)
    words = [text.replace("\u00a0", " ") for _, text in drawing.words()]
    numbers = [text for kind, text in drawing.words() if kind == "dimension"]
    for each in told:
        assert any(each in text for text in words), each
        assert each.rsplit(" ", 1)[1] in numbers
        assert each in drawing.root[1].text.replace("\u00a0", " ")
