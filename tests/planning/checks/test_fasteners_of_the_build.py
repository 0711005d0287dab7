"""Rules for fasteners: patterns, coatings, mixed systems, metals together, grub screws, pivots, inserts, pulls."""

from __future__ import annotations

from dataclasses import replace
from decimal import Decimal
from typing import Any

import pytest

from calculators.joints.model import Finding
from calculators.planning.edits import finding_key, mend
from calculators.planning.inspection import inspect_build
from calculators.planning.model import (
    AssemblyStep,
    Build,
    Component,
    Context,
    Hole,
    Joint,
    LayerHole,
    Motion,
    Place,
    Pocket,
    StackMember,
)
from tests.planning.checks.small_builds import GROUND, block, build, found, joint, mm, pose, turned

FOUR = [(15.0, 15.0), (85.0, 15.0), (15.0, 45.0), (85.0, 45.0)]


def left_after_mend(rule: str, whole: Build, index: int = 0) -> list[Finding]:
    """What is left of a rule after the first finding's mend is carried out, which makes no new error."""
    worked = inspect_build(whole)
    one = next(each for each in worked.findings if each.rule == rule)
    after = inspect_build(mend(worked, finding_key(one), index))
    errors = {(each.rule, each.where) for each in worked.findings if each.severity == "error"}
    assert {(each.rule, each.where) for each in after.findings if each.severity == "error"} <= errors
    return [each for each in after.findings if each.rule == rule]


def cover(
    fastener: str = "M6 x 16 hex set screw steel", *more_stack: Any, position: str | None = "0.1", **more: Any
) -> Build:
    """A cover of 6 mm on a bed of 12, both of steel; 6.6 is the medium hole of M6 (ISO 273)."""
    lower = more.pop("lower", "mild steel")
    bed = block("P01", 120, 80, 12, *GROUND, material=lower, grain_cut="flat")
    over = block("P02", 100, 60, 6, pose("P01", 10, 10), material="mild steel")
    stack = more.pop("stack", ("P02", "P01"))
    fixing = joint(
        "F01", fastener, "P02", "top", more.pop("places", FOUR), *stack, *more_stack, lock="glue", **more
    )
    context = Context(position_mm=None if position is None else Decimal(position))
    return build(bed, over, fixing, context=context)


def of(rule: str, whole: Build) -> list[Finding]:
    return [one for one in inspect_build(whole).findings if one.rule == rule]


NUT = ("M6 x 30 hex set screw steel", "M6 nut")


@pytest.mark.parametrize(
    ("position", "nut", "severity"),
    [
        ("0.105", False, None),  # 0.21 of (6.6 - 6) / 2 = 0.3: 70 %
        ("0.106", False, "warning"),
        ("0.15", False, "warning"),
        ("0.151", False, "error"),
        ("0.21", True, None),  # 0.42 of 6.6 - 6 = 0.6
        ("0.211", True, "warning"),
        ("0.3", True, "warning"),
        ("0.301", True, "error"),
    ],
)
def test_a_pattern_goes_together(position: str, *, nut: bool, severity: str | None) -> None:
    """Fixed: both errors within (H - F)/2; floating: within H - F (ASME Y14.5, from memory)."""
    whole = cover(*(NUT if nut else ()), position=position)
    assert [(one.severity, one.part) for one in of("hole-pattern", whole)] == (
        [(severity, "P02")] if severity else []
    )


@pytest.mark.parametrize(
    "more",
    [
        {"spotted": True},
        {"places": FOUR[:1]},
        {"fastener": "No. 8 x 1 in round slotted brass", "lower": "beech"},
    ],
)
def test_spotted_holes_single_holes_and_pilots_in_wood_need_no_pattern(more: dict[str, Any]) -> None:
    assert of("hole-pattern", cover(position="5", **more)) == []


def test_a_pattern_is_mended_by_spotting_or_by_freer_holes() -> None:
    whole = cover(position="0.16")  # 0.32; free holes of 7 give 0.5, and 70 % of it is 0.35
    (one,) = of("hole-pattern", whole)
    assert [each.says for each in one.mends] == [
        "Spot the holes through from the first part.",
        "Drill the clearance holes 7 mm, the free fit.",
    ]
    assert left_after_mend("hole-pattern", whole, 0) == []
    assert left_after_mend("hole-pattern", whole, 1) == []
    (worse,) = of("hole-pattern", cover(position="0.2"))  # 0.4 is over 0.35
    assert len(worse.mends) == 1


def test_where_no_error_is_given_all_patterns_are_told_once() -> None:
    assert [(one.severity, one.says, one.at) for one in of("hole-pattern", cover(position=None))] == [
        (
            "unchecked",
            "How far off a hole may lie in each part is not given, so whether the patterns of F01 go together is not "
            "looked at.",
            "context.position_mm",
        )
    ]


@pytest.mark.parametrize(
    ("fastener", "coating", "over"),
    [
        (
            "M6 x 16 hex set screw steel",
            0.0065,
            False,
        ),  # 4 x 6.5 = 26, the 6g allowance at a pitch of 1 (ISO 965-1)
        ("M6 x 16 hex set screw steel", 0.0066, True),
        ("M6 x 16 hex set screw steel", 0.0, False),
        ("0 BA x 5/8 in hex steel", 0.005, False),  # 2 t / sin 23.75 = 4.966 t: 24.8 of 25 (BS 93)
        ("0 BA x 5/8 in hex steel", 0.0051, True),
    ],
)
def test_a_coating_fits_the_allowance_of_its_thread(fastener: str, coating: float, *, over: bool) -> None:
    seen = of("coated-thread", cover(fastener, coating=mm(coating)))
    assert [one.severity for one in seen] == (["error"] if over else [])
    if over:
        assert left_after_mend("coated-thread", cover(fastener, coating=mm(coating))) == []


def test_an_inch_thread_goes_by_its_own_allowance() -> None:
    """1/4-20 UNC 2A: 0.0011 in allowance = 27.9 um (ASME B1.1, from memory); 4 x 7.1 = 28.4."""
    assert of("coated-thread", cover("1/4 UNC x 5/8 in hex steel", coating=mm(0.0068))) == []
    assert len(of("coated-thread", cover("1/4 UNC x 5/8 in hex steel", coating=mm(0.0074)))) == 1


@pytest.mark.parametrize(
    ("finish", "nut", "seen"),
    [
        ("hot-dip galvanised", "M6 nut", True),
        ("galvanised", "M6 nut zinc plated", True),
        ("galvanised", "M6 nut galvanised", False),
        ("zinc plated", "M6 nut", False),
    ],
)
def test_a_galvanised_screw_wants_an_oversize_nut(finish: str, nut: str, *, seen: bool) -> None:
    whole = cover(f"M6 x 30 hex set screw steel {finish}", nut)
    assert [one.severity for one in of("coated-thread", whole)] == (["warning"] if seen else [])
    noted = replace(whole, joints=tuple(replace(one, note="Nuts tapped oversize.") for one in whole.joints))
    assert of("coated-thread", noted) == []


@pytest.mark.parametrize(
    ("fastener", "washer", "says"),
    [
        (
            "1/4 UNC x 3/4 in hex steel",
            "M6 washer",
            "its play is 0.05 mm: it may be meant for another joint.",
        ),
        ("M6 x 18 hex set screw steel", "1/4 washer", ""),
        ("2 BA x 5/8 in hex steel", "M5 washer", "its play is 0.60 mm: it may be meant for another joint."),
        ("1/4 UNC x 3/4 in hex steel", "M5 washer", "its hole is 1.05 mm too small"),
        ("M6 x 18 hex set screw steel", "M6 washer", None),
        ("1/4 BSF x 3/4 in hex steel", "1/4 washer", None),
    ],
)
def test_a_washer_of_another_system_is_noted(fastener: str, washer: str, says: str | None) -> None:
    """ISO 7089 holes: M5 5.3, M6 6.4; 1/4 in is 6.35, 2 BA 4.7."""
    seen = of("mixed-systems", cover(fastener, stack=(washer, "P02", "P01")))
    assert len(seen) == (says is not None)
    if says:
        assert says in seen[0].says
        assert seen[0].severity == ("warning" if "too small" in says else "note")


@pytest.mark.parametrize(
    ("tool", "seen"),
    [
        ("10 mm spanner, 7/16 in AF spanner", True),
        ("spanner 10 mm, BA spanner", True),
        ("10 mm spanner, 5 mm hex key", False),
        ("hex key, 8 mm spanner", False),
        ("screwdriver, BA spanner", False),
        ("drill 1/4 in, 10 mm spanner", False),
        ("", False),
    ],
)
def test_tools_of_two_systems_at_one_joint_are_noted(tool: str, *, seen: bool) -> None:
    assert [one.severity for one in of("mixed-systems", cover(tool=tool))] == (["note"] if seen else [])


@pytest.mark.parametrize(
    ("lower", "fastener", "wet", "severity", "apart"),
    [
        ("aluminium", "M6 x 16 pan stainless A2", True, "warning", 0.40),  # 0.90 - 0.50
        ("aluminium", "M6 x 16 pan stainless A2", False, None, None),
        ("aluminium", "M6 x 16 pan brass", True, "warning", 0.50),  # 0.90 - 0.40
        ("aluminium", "M6 x 16 pan brass", False, "note", None),
        ("aluminium", "M6 x 16 pan steel zinc plated", True, None, None),  # 1.25 - 0.90 = 0.35
        ("aluminium", "M6 x 16 pan steel", True, None, None),  # 0.05
        ("copper", "M6 x 16 pan steel zinc plated", True, "warning", 0.90),
        ("stainless steel", "M6 x 16 pan steel", True, None, None),  # 0.35
        ("brass", "M6 x 16 pan stainless A2", True, None, None),  # 0.10
        ("brass", "M6 x 16 pan", True, None, None),  # of what the screw is made is not said
    ],
)
def test_metals_far_apart_do_not_touch_in_the_wet(
    lower: str, fastener: str, severity: str | None, apart: float | None, *, wet: bool
) -> None:
    """Volts by the anodic index that handbooks print (from memory); 0.35 apart is the most in the wet."""
    whole = cover(fastener, lower=lower, wet=wet)
    same = replace(whole, components=tuple(replace(one, material=lower) for one in whole.components))
    seen = of("dissimilar-metals", same)
    assert [one.severity for one in seen] == ([severity] if severity else [])
    if severity:
        assert seen[0].value == (None if apart is None else pytest.approx(apart))


def test_plates_that_touch_are_looked_at_besides_the_screw() -> None:
    whole = cover("M6 x 16 pan stainless A2", lower="aluminium", wet=True)  # a cover of steel on aluminium
    assert [(one.place, one.part) for one in of("dissimilar-metals", whole)] == [
        ("aluminium and stainless steel", "P01")
    ]


def collar(
    fastener: str = "M4 x 6 grub cup", *, note: str = "", shaft: float = 8.0, **more: Any
) -> tuple[Component, Component, Joint]:
    """A collar of 20 on a shaft of 8: the wall is 6 mm."""
    rod = turned("P01", 120, shaft, *GROUND, material="silver steel", note=note, **more)
    lies = pose("P01", face="left", own_face="right", let_in=52, point="centre")
    ring = turned("P02", 12, 20, lies, bore=8)
    fixing = Joint("F01", "Collar", fastener, "P02", "side", (Place("1", mm(6), angle_deg=Decimal(90)),),
                   (StackMember(part="P02", takes="thread"),), clamps=False)  # fmt: skip
    return rod, ring, fixing


@pytest.mark.parametrize(
    ("fastener", "shaft", "severity", "value"),
    [
        ("M4 x 6 grub cup", 8.0, None, None),
        ("M4 x 5 grub cup", 8.0, "error", 1.0),
        ("M4 x 6 grub cup", 7.9, None, None),  # 0.05 short
        ("M4 x 6 grub cup", 7.8, "error", 0.1),
        ("M4 x 8 grub cup", 8.0, None, None),
    ],
)
def test_a_grub_screw_reaches_its_shaft(
    fastener: str, shaft: float, severity: str | None, value: float | None
) -> None:
    seen = found("grub-screw", *collar(fastener, shaft=shaft, note="Flat filed."))
    assert [(one.severity, one.part) for one in seen] == ([(severity, "P01")] if severity else [])
    if severity:
        assert seen[0].value == pytest.approx(value)
        assert seen[0].at == "joints[F01].fastener"


def test_a_grub_screw_bears_on_a_flat_a_dimple_or_a_pad() -> None:
    (one,) = found("grub-screw", *collar())
    assert (one.severity, one.part) == ("warning", "P01")
    assert left_after_mend("grub-screw", build(*collar())) == []
    # The collar's angle of 90 degrees is the shaft's 270, its bottom: the screw stands at X 46 there.
    flat = Pocket("f", "bottom", mm(36), mm(-4), mm(20), mm(8), mm(0.5))
    assert [each.severity for each in found("grub-screw", *collar(pockets=(flat,)))] == [
        "error"
    ]  # 0.5 short of it
    assert found("grub-screw", *collar("M4 x 8 grub cup", pockets=(flat,))) == []
    elsewhere = replace(flat, face="top")
    assert [each.severity for each in found("grub-screw", *collar(pockets=(elsewhere,)))] == ["warning"]
    dimple = Hole("d", "side", mm(46), angle_deg=Decimal(270), diameter=mm(3), depth=mm(1))
    assert found("grub-screw", *collar(holes=(dimple,))) == []
    beside = replace(dimple, angle_deg=Decimal(200))
    assert [each.severity for each in found("grub-screw", *collar(holes=(beside,)))] == ["warning"]
    for words in ("brass pad under it", "Spotted into the shaft"):
        rod, ring, fixing = collar()
        assert found("grub-screw", rod, ring, replace(fixing, note=words)) == []


def test_a_shaft_that_the_stack_names_needs_no_pose() -> None:
    rod, ring, fixing = collar("M4 x 5 grub cup")
    stack = (
        StackMember(part="P02", thickness=mm(6), takes="thread"),
        StackMember(part="P01", thickness=mm(8), takes="plain"),
    )
    bare = (replace(rod, poses=()), replace(ring, poses=()), replace(fixing, stack=stack))
    (one,) = found("grub-screw", *bare)
    assert (one.severity, one.part, one.value) == ("error", "P01", pytest.approx(1.0))


def test_a_grub_screw_of_an_unknown_shaft_is_let_be() -> None:
    _, ring, fixing = collar("M4 x 5 grub cup")
    alone = replace(ring, poses=GROUND)
    assert found("grub-screw", alone, fixing) == []


def lever(**more: Any) -> tuple[Component, Component, Joint]:
    """A lever that turns about the screw at X 25, Y 30 of the plate."""
    motion = more.pop("motion", Motion("turns", "Z", Decimal(-20), Decimal(20), x=mm(15), y=mm(8)))
    plate = block("P01", 100, 60, 12, *GROUND, material="mild steel")
    arm = block("P02", 80, 16, 6, pose("P01", 10, 22), material="mild steel", motion=motion)
    stack = more.pop("stack", ("P02", "P01"))
    fixing = joint("F01", more.pop("fastener", "M6 x 18 hex set screw steel"), "P02", "top", [(15, 8)], *stack,
                   clamps=False, **more)  # fmt: skip
    return plate, arm, fixing


def test_a_pivot_screw_is_locked() -> None:
    (one,) = found("lock-at-pivot", *lever())
    assert (one.severity, one.part, one.at) == ("error", "P02", "joints[F01].lock")
    assert one.says == (
        "P02 turns about the screw of F01, and nothing locks it: each swing unscrews it a little."
    )
    assert left_after_mend("lock-at-pivot", build(*lever())) == []


@pytest.mark.parametrize(
    "more",
    [
        {"lock": "threadlocker"},
        {"stack": ("P02", "P01", "M6 stiff nut"), "fastener": "M6 x 30 hex set screw steel"},
        {"motion": None},
        {"motion": Motion("slides", "X", Decimal(0), Decimal(20))},
        {"motion": Motion("turns", "Z", Decimal(0), Decimal(20), x=mm(60), y=mm(8))},  # it turns elsewhere
        {"motion": Motion("turns", "X", Decimal(0), Decimal(20), x=mm(15), y=mm(8))},  # about another axis
    ],
)
def test_what_is_locked_or_turns_about_something_else_is_let_be(more: dict[str, Any]) -> None:
    assert found("lock-at-pivot", *lever(**more)) == []


def test_parts_that_turn_together_do_not_unscrew_each_other() -> None:
    plate, arm, fixing = lever()
    motion = arm.motion
    assert motion is not None
    both = replace(arm, motion=replace(motion, carries=("P01",)))
    assert found("lock-at-pivot", plate, both, fixing) == []


def inserted(note: str = "", wood: str = "hard maple", step: str | None = "Insert and plate") -> Build:
    leg = block("P01", 200, 60, 40, *GROUND, material=wood)
    plate = block("P02", 40, 40, 5, pose("P01", 80, 10), material="brass")
    takes = StackMember(part="P01", takes="insert", holes=(LayerHole(diameter=mm(8.4)),))
    fixing = joint("F01", "M6 x 16 pan brass", "P02", "top", [(20, 20)], "P02",
                   "M6 insert OD 10 body 8 x 12 brass", takes, note=note)  # fmt: skip
    whole = build(leg, plate, fixing)
    return whole if step is None else replace(whole, steps=(AssemblyStep(2, step, fits=("F01",)),))


@pytest.mark.parametrize(
    ("note", "wood", "step", "seen"),
    [
        ("", "hard maple", "Insert and plate", True),
        ("", "hard maple", None, True),
        ("Wax it.", "hard maple", None, False),
        ("", "hard maple", "Inserts, waxed", False),
        ("", "Sitka spruce", "Insert and plate", False),
    ],
)
def test_an_insert_goes_into_hardwood_waxed(note: str, wood: str, step: str | None, *, seen: bool) -> None:
    whole = inserted(note, wood, step)
    assert [(one.severity, one.part) for one in of("insert-wax", whole)] == (
        [("note", "P01")] if seen else []
    )
    if seen:
        assert left_after_mend("insert-wax", whole) == []


@pytest.mark.parametrize(
    ("face", "seen", "pulled"), [("right", True, True), ("right", False, False), ("front", False, True)]
)
def test_nothing_that_pulls_hangs_on_end_grain(face: Any, *, seen: bool, pulled: bool) -> None:
    post = block("P01", 200, 60, 60, *GROUND, material="beech")
    hook = block("P02", 40, 40, 4, pose("P01", 10, 10, face=face), material="brass")
    fixing = joint("F01", "No. 8 x 1 1/4 in round slotted brass", "P02", "top", [(20, 20)], "P02", "P01",
                   pulled=pulled)  # fmt: skip
    assert [(one.severity, one.part) for one in found("end-grain-pull", post, hook, fixing)] == (
        [("error", "P01")] if seen else []
    )
