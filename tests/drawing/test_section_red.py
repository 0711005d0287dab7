"""A finding reddens the place in the section that its rule speaks of: read back and held against arithmetic."""

from __future__ import annotations

import pytest

from calculators.drawing.section import joint_section
from calculators.drawing.section_places import PLACES
from calculators.drawing.section_plan import section_plan
from calculators.drawing.section_red import red_of
from calculators.hardware.fastener import Fastener, Insert, Nut, Washer
from calculators.joints.model import Finding, HoleOverride, JointInput, Layer, StackItem
from calculators.joints.rules import RULES
from calculators.joints.work import work_joint
from calculators.quantities.reading import read_length
from tests.drawing.section_reading import WASH, Drawing


def layer(part, material, thick, **more):
    return StackItem(layer=Layer(part, material, thick, **more))


def screw(size, long, head, drive="", kind="screw"):
    return Fastener("machine", size, read_length(f"{long} mm"), head, drive, kind, "steel")


def wood(long):
    return Fastener("wood", "No. 8", read_length(f"{long} mm"), "csk", "slotted", "screw", "brass")


NUT = StackItem(nut=Nut("M6"))


def reddened(rule, fastener, *stack, **more):
    """The washes (left, near, right, far) and the red lines, from the axis and the first surface [mm]."""
    result = work_joint(JointInput("F1", fastener, stack, **more))
    found = [each for each in result.findings if each.rule == rule]
    assert found, [each.rule for each in result.findings]
    drawing = Drawing(joint_section(result, findings=[_as_warning(each) for each in found]))
    first = drawing.rings(drawing.paths("none", "#f8faf7")[0])[0]
    surface, axis, scale = min(y for _, y in first), drawing.axis, drawing.scale

    def real(ring):
        return [((x - axis) / scale, (y - surface) / scale) for x, y in ring]

    washes = []
    for element in drawing.paths(fill=WASH):
        points = [point for ring in drawing.rings(element) for point in real(ring)]
        xs, zs = zip(*points, strict=True)
        washes.append((min(xs), min(zs), max(xs), max(zs)))
    lines = [real(ring) for element in drawing.paths("finding") for ring in drawing.rings(element)]
    return washes, lines


def _as_warning(finding):
    """A note is not marked; its place is looked at all the same."""
    return Finding(finding.rule, "warning", finding.says, finding.source, finding.joint, finding.part)


def same(got, wanted):
    return all(abs(a - b) < 0.03 for a, b in zip(got, wanted, strict=True))


WASHED = {
    # 14 and 35 are 49; the screw is 50.8 long and as wide as a No. 8, 0.164 in.
    "wood-behind-point": (
        wood(50.8),
        (layer("A", "oak", 14), layer("B", "oak", 35)),
        (-2.083, 49, 2.083, 50.8),
    ),
    # 7 of 25 in the second.
    "penetration": (wood(25), (layer("A", "oak", 18), layer("B", "oak", 30)), (-2.083, 18, 2.083, 25)),
    # 10 and 15 and the nut's 5.2 (ISO 4032) are 30.2.
    "threads-past-nut": (
        screw("M6", 40, "hex", "", "set screw"),
        (layer("A", "steel", 10), layer("B", "steel", 15), NUT),
        (-3, 30.2, 3, 40),
    ),
    # Head 9.3, hole 5.5 (ISO 2009, ISO 273): a cone of 1.9, of 2.2.
    "countersink-depth": (
        screw("M5", 20, "csk", "slotted"),
        (layer("A", "brass", 2.2), layer("B", "steel", 40)),
        (2.75, 1.9, 4.65, 2.2),
    ),
    # 4 of 12 in the second.
    "engagement": (
        screw("M6", 12, "pan", "cross"),
        (layer("A", "brass", 8), layer("B", "brass", 40)),
        (-3, 8, 3, 12),
    ),
    # A bolt of 60 has 18 of thread (ISO 4014, b = 2 d + 6, from memory): plain to 42, the nut begins at 20.
    "plain-shank": (
        screw("M6", 60, "hex", "", "bolt"),
        (layer("A", "steel", 20), NUT),
        (-3, 20, 3, 42),
    ),
    # A drill of 5 with a point of 118 degrees ends 1.5 below its shoulder: 5 + 18 + 1.5 of 5 + 20.
    "blind-hole-breaks-out": (
        screw("M6", 18, "pan", "cross"),
        (layer("A", "brass", 5), layer("B", "brass", 20, thread_depth_mm=15, drilled_depth_mm=18)),
        (-2.5, 24.5, 2.5, 25),
    ),
    # The thread of 14 ends at 5 + 14; the screw at 20.
    "screw-bottoms": (
        screw("M6", 20, "pan", "cross"),
        (layer("A", "brass", 5), layer("B", "brass", 40, thread_depth_mm=14, drilled_depth_mm=18)),
        (-3, 19, 3, 20),
    ),
}


@pytest.mark.parametrize("rule", WASHED)
def test_the_stretch_that_a_rule_speaks_of_is_washed_red(rule):
    fastener, stack, wanted = WASHED[rule]
    washes, _ = reddened(rule, fastener, *stack)
    assert any(same(wash, wanted) for wash in washes), washes


def test_what_lies_between_a_screw_and_the_edge_is_washed_to_the_edge():
    """The edge is 5 from the axis; the pilot is the hole that the result gives."""
    stack = (layer("A", "oak", 14), layer("B", "oak", 30, edge_mm=5))
    result = work_joint(JointInput("F1", wood(35), stack))
    washes, _ = reddened("edge-distance", wood(35), *stack)
    assert any(same(wash, (result.holes[1].diameter_mm / 2, 14, 5, 44)) for wash in washes), washes


LINED = {
    # The hole of 8 for an M6, right through 10.
    "clearance-hole": (
        screw("M6", 40, "hex", "", "set screw"),
        (layer("A", "steel", 10, hole=HoleOverride(diameter_mm=8.0)), layer("B", "steel", 15), NUT),
        [(4, 0), (4, 10)],
    ),
    # A counterbore of 10.2 for a head of 10 (ISO 4762): its wall, and its floor to the hole of 6.6.
    "counterbore": (
        screw("M6", 30, "socket cap", "hex socket"),
        (
            layer("A", "steel", 12, hole=HoleOverride(counterbore_diameter_mm=10.2, counterbore_depth_mm=6)),
            layer("B", "steel", 40),
        ),
        [(5.1, 0), (5.1, 6)],
    ),
    # 82 degrees in place of 90: the cone from 9.3 to 5.5 is 1.9 / tan 41 = 2.186 deep.
    "countersink-angle": (
        screw("M5", 20, "csk", "slotted"),
        (layer("A", "brass", 6, hole=HoleOverride(countersink_angle_deg=82)), layer("B", "steel", 40)),
        [(4.65, 0), (2.75, 2.186)],
    ),
    # 7 clamped in metal: the sides of the screw from the head to the thread.
    "lock": (
        screw("M6", 20, "pan", "cross"),
        (layer("A", "brass", 7), layer("B", "brass", 40)),
        [(3, 0), (3, 7)],
    ),
    # Brass into oak: the sides of the screw in the second part, from 14 to where it ends.
    "soft-screw-in-hardwood": (
        wood(35),
        (layer("A", "oak", 14), layer("B", "oak", 30)),
        [(2.083, 14), (2.083, 35)],
    ),
}


@pytest.mark.parametrize("rule", LINED)
def test_the_wall_that_a_rule_speaks_of_is_drawn_in_red(rule):
    fastener, stack, wanted = LINED[rule]
    _, lines = reddened(rule, fastener, *stack)
    ends = [point for line in lines for point in line]
    assert all(any(same(point, end) for end in ends) for point in wanted), lines


def test_the_face_that_bears_too_hard_on_wood_is_drawn_in_red():
    """A nut of 10 across flats is 11.55 over its corners; it bears behind 30 of pine with 8 N m."""
    stack = (layer("A", "steel", 10), layer("B", "Scots pine", 20), NUT)
    _, lines = reddened("washer-pressure", screw("M6", 50, "hex", "", "set screw"), *stack, torque_nm=8.0)
    assert any(same((*line[0], *line[-1]), (-5.774, 30, 5.774, 30)) for line in lines), lines


def test_nuts_in_the_wrong_order_are_outlined_in_red():
    """The full nut of 5.2 at 25, the half one of 3.2 on it (ISO 4032, ISO 4035)."""
    stack = (layer("A", "steel", 10), layer("B", "steel", 15), NUT, StackItem(nut=Nut("M6", "half")))
    _, lines = reddened("thin-nut-order", screw("M6", 40, "hex", "", "set screw"), *stack)
    rings = [line for line in lines if len(line) > 4]
    spans = sorted((round(min(z for _, z in ring), 1), round(max(z for _, z in ring), 1)) for ring in rings)
    assert spans == [(25, 30.2), (30.2, 33.4)]


def test_every_rule_of_a_joint_has_its_place():
    """Only what the tables do not know has none: it is never an error or a warning, and nothing is drawn."""
    assert {rule.name for rule in RULES} - set(PLACES) == {"known-data"}


EVERYTHING = JointInput(
    "F1",
    Fastener("machine", "M6", read_length("60 mm"), "csk", "slotted", "screw", "steel"),
    (
        layer("A", "oak", 8, edge_mm=6),
        StackItem(washer=Washer("M6")),
        layer("B", "brass", 6, takes="thread"),
        StackItem(insert=Insert("M6")),
        layer("C", "oak", 30, takes="insert", edge_mm=9),
        StackItem(nut=Nut("M6")),
    ),
)


@pytest.mark.parametrize("rule", sorted(PLACES))
def test_every_place_lies_within_the_drawing_and_is_something(rule):
    result = work_joint(EVERYTHING)
    plan = section_plan(result)
    for part in ("", "A", "B", "C"):
        red = red_of(plan, Finding(rule, "error", "Says.", "source", "F1", part))
        assert red.washes or red.lines
        for left, near, right, far in red.washes:
            assert left < right
            assert near < far
        points = [point for line in red.lines for point in line]
        points += [point for left, near, right, far in red.washes for point in ((left, near), (right, far))]
        assert all(plan.near - 0.01 <= z <= plan.far + 0.01 for _, z in points)


def test_places_of_different_rules_are_different():
    """Of the rules that speak of one part, the places fall apart into many, not into one bar for all."""
    plan = section_plan(work_joint(EVERYTHING))
    places = {red_of(plan, Finding(rule, "error", "Says.", "source", "F1", "")) for rule in PLACES}
    assert len(places) >= 15


def test_a_finding_of_an_unknown_rule_reddens_its_part_or_the_head():
    plan = section_plan(work_joint(EVERYTHING))
    part = red_of(plan, Finding("of-no-rule", "error", "Says.", "source", "F1", "B"))
    assert part.lines == (plan.layers[1].profile,)
    head = red_of(plan, Finding("of-no-rule", "error", "Says.", "source", "F1", ""))
    assert head.lines[0][:-1] == plan.head.outline
