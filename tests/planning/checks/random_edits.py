"""Random changes of a build such as people make, each leaving it a build that could be read from a file."""

from __future__ import annotations

import random
from collections.abc import Callable
from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

from calculators.planning import model
from calculators.planning.edits import finding_key, mend, remove, rename_mark
from calculators.planning.edits.accepting import accept
from calculators.planning.files import read_build, write_build
from calculators.planning.model import Build, Component, Joint
from calculators.planning.worked import WorkedBuild
from calculators.quantities.errors import InputError
from calculators.quantities.length import Length

Dice = random.Random
MATERIALS = ("white oak", "beech", "brass", "mild steel", "birch plywood", "no such stuff", "")
FASTENERS = (
    "M5 x 20 csk slotted brass", "M6 x 30 hex set screw steel", "No. 8 x 1 1/2 csk slotted brass wood screw",
    "2 BA x 3/4 cheese brass", "1/4 BSF x 1 in hex set screw steel", "M6 hex set screw steel",
)  # fmt: skip
STEPS_MM = (-20.0, -3.0, -0.5, 0.1, 1.0, 5.0, 30.0)
FACES = ("top", "bottom", "front", "back", "left", "right")


def shifted(length: Length, dice: Dice) -> Length:
    return Length.of_mm(round(length.mm + dice.choice(STEPS_MM), 3))


def part_changed(build: Build, dice: Dice, change: Callable[[Component], Component]) -> Build:
    if not build.components:
        return build
    number = dice.randrange(len(build.components))
    parts = list(build.components)
    parts[number] = change(parts[number])
    return replace(build, components=tuple(parts))


def joint_changed(build: Build, dice: Dice, change: Callable[[Joint], Joint]) -> Build:
    if not build.joints:
        return build
    number = dice.randrange(len(build.joints))
    joints = list(build.joints)
    joints[number] = change(joints[number])
    return replace(build, joints=tuple(joints))


def one_of(records: tuple[Any, ...], dice: Dice, change: Callable[[Any], Any]) -> tuple[Any, ...]:
    """A record changed, or taken away where the change gives None."""
    if not records:
        return records
    number = dice.randrange(len(records))
    new = change(records[number])
    return (*records[:number], *([] if new is None else [new]), *records[number + 1 :])


def move_part(build: Build, dice: Dice) -> Build:
    def moved(pose: model.Pose) -> model.Pose:
        name = dice.choice(("u", "v", "let_in"))
        return replace(pose, **{name: shifted(getattr(pose, name), dice)})

    return part_changed(build, dice, lambda one: replace(one, poses=one_of(one.poses, dice, moved)))


def turn_part(build: Build, dice: Dice) -> Build:
    return part_changed(
        build,
        dice,
        lambda one: replace(
            one,
            poses=one_of(
                one.poses, dice, lambda pose: replace(pose, turned_deg=Decimal(dice.choice((0, 90, 12))))
            ),
        ),
    )


def lift_part(build: Build, dice: Dice) -> Build:
    return part_changed(build, dice, lambda one: replace(one, poses=one.poses[1:]))


def lay_part(build: Build, dice: Dice) -> Build:
    under = dice.choice(build.components).mark if build.components else ""
    pose = model.Pose(on=under, u=Length.of_mm(dice.randrange(60)))
    return part_changed(
        build,
        dice,
        lambda one: replace(one, poses=(pose,)) if one.quantity == 1 and one.size.shape == "block" else one,
    )


def resize_part(build: Build, dice: Dice) -> Build:
    def resized(one: Component) -> Component:
        name = dice.choice(("length", "width", "thickness", "diameter"))
        held = getattr(one.size, name)
        if held is None:
            return one
        new = Length.of_mm(max(0.5, round(held.mm + dice.choice(STEPS_MM), 3)))
        return replace(one, size=replace(one.size, **{name: new}))

    return part_changed(build, dice, resized)


def describe_part(build: Build, dice: Dice) -> Build:
    fields: dict[str, tuple[Any, ...]] = {
        "material": MATERIALS, "grain_cut": ("", "flat", "quarter"), "state": ("planned", "released", "made", "fitted"),
        "name": ("Board", "Bar"), "note": ("", "from the old door"), "evidence": ("", "measured", "judged", "none"),
        "stock": ("", "board", "sheet", "bought"), "reused": (True, False), "made_to": ("", "A"), "revision": ("", "A", "B"),
        "quantity": (1, 2, 3), "end_float": (None, Length.of_mm(1)), "end_shake": (None, Length.of_mm("0.2")),
        "made_size": (None, model.Size("", Length.of_mm(77))), "corner_radius": (None, Length.of_mm(3)),
    }  # fmt: skip
    name = dice.choice(sorted(fields))
    return part_changed(build, dice, lambda one: replace(one, **{name: dice.choice(fields[name])}))


def drill_part(build: Build, dice: Dice) -> Build:
    def drilled(one: Component) -> Component:
        if one.holes and dice.random() < 0.6:
            moved = lambda hole: replace(hole, u=shifted(hole.u, dice)) if dice.random() < 0.7 else None  # noqa: E731
            return replace(one, holes=one_of(one.holes, dice, moved))
        if one.size.shape != "block":
            return one
        names = {each.id for each in one.holes}
        name = next(f"x{i}" for i in range(10_000) if f"x{i}" not in names)
        at = (Length.of_mm(dice.randrange(60)), Length.of_mm(dice.randrange(30)))
        depth = dice.choice((None, Length.of_mm(8)))
        hole = model.Hole(name, dice.choice(FACES), *at, diameter=Length.of_mm(5), depth=depth)
        return replace(one, holes=(*one.holes, hole))

    return part_changed(build, dice, drilled)


def pocket_part(build: Build, dice: Dice) -> Build:
    def pocketed(one: Component) -> Component:
        if one.pockets and dice.random() < 0.6:
            moved = lambda cut: replace(cut, u=shifted(cut.u, dice)) if dice.random() < 0.7 else None  # noqa: E731
            return replace(one, pockets=one_of(one.pockets, dice, moved))
        if one.size.shape != "block":
            return one
        names = {each.id for each in one.pockets}
        name = next(f"y{i}" for i in range(10_000) if f"y{i}" not in names)
        numbers = (Length.of_mm(dice.choice((5, 12, 40))) for _ in range(4))
        cut = model.Pocket(name, dice.choice(FACES), *numbers, depth=Length.of_mm(dice.choice((3, 9))))
        return replace(one, pockets=(*one.pockets, cut))

    return part_changed(build, dice, pocketed)


def set_moving(build: Build, dice: Dice) -> Build:
    motion = model.Motion(dice.choice(("turns", "slides")), dice.choice(("X", "Z")), Decimal(-6), Decimal(6))
    return part_changed(build, dice, lambda one: replace(one, motion=None if one.motion else motion))


def change_joint(build: Build, dice: Dice) -> Build:
    fields: dict[str, tuple[Any, ...]] = {
        "fastener": FASTENERS, "seat": ("", "surface", "flush", "proud"), "torque_nm": (None, Decimal("0.5"), Decimal("0.50"), Decimal(9)),
        "lock": ("", "low-strength threadlocker"), "clamps": (True, False), "wet": (True, False), "title": ("Joint", "Other"),
        "loaded_sideways": (True, False), "steel_first": (True, False), "spotted": (True, False), "tool": ("", "screwdriver"),
        "coating": (None, Length.of_mm("0.01")), "count": (None,), "note": ("", "by hand"),
    }  # fmt: skip
    name = dice.choice(sorted(fields))
    return joint_changed(build, dice, lambda one: replace(one, **{name: dice.choice(fields[name])}))


def move_place(build: Build, dice: Dice) -> Build:
    def moved(place: model.Place) -> model.Place:
        return replace(place, u=shifted(place.u, dice))

    return joint_changed(build, dice, lambda one: replace(one, places=one_of(one.places, dice, moved)))


def change_stack(build: Build, dice: Dice) -> Build:
    def changed(member: model.StackMember) -> model.StackMember | None:
        if dice.random() < 0.3:
            return None
        hole = model.LayerHole(diameter=Length.of_mm(dice.choice((3, 5, 7))))
        return replace(member, holes=() if member.holes else (hole,)) if member.part else member

    return joint_changed(build, dice, lambda one: replace(one, stack=one_of(one.stack, dice, changed)))


def copy_joint(build: Build, dice: Dice) -> Build:
    if not build.joints:
        return build
    marks = {one.mark for one in (*build.joints, *build.components, *build.calculations, *build.stock)}
    mark = next(f"X{i}" for i in range(10_000) if f"X{i}" not in marks)
    new = replace(dice.choice(build.joints), mark=mark)
    return replace(build, joints=(*build.joints, new))


def another_order(build: Build, dice: Dice) -> Build:
    name = dice.choice(("joints", "components", "steps"))
    records = list(getattr(build, name))
    dice.shuffle(records)
    return replace(build, **{name: tuple(records)})


def take_away(build: Build, dice: Dice) -> Build:
    marks = [("joint", one.mark) for one in build.joints] + [
        ("component", one.mark) for one in build.components
    ]
    return remove(build, *dice.choice(marks)) if marks else build


def rename(build: Build, dice: Dice) -> Build:
    marks = [one.mark for one in (*build.joints, *build.components)]
    if not marks:
        return build
    mark = dice.choice(marks)
    return rename_mark(build, mark, f"{mark}z")


def change_context(build: Build, dice: Dice) -> Build:
    fields: dict[str, tuple[Any, ...]] = {
        "drills": ((), ("1.0-13.0 by 0.5",)), "taps": ((), ("M5",)), "cutters": ((), ("6 mm",)),
        "limits": ((), (("edge-distance", Decimal(9)),), (("behind-point", Decimal(12)),)),
        "rules_off": ((), (("lock", "by hand"),)), "moisture_change_percent": (None, Decimal(9)), "place_moisture_percent": (None, Decimal(6)),
        "position_mm": (None, Decimal("0.3")), "as_of": (None, date(2025, 6, 6), date(2026, 6, 6)), "printer_along_mm": (None, Decimal(99)),
        "hardware": ((), (("M5 x 20 csk slotted brass", Decimal(1)),)), "tapping_percent": (None, Decimal(60)),
    }  # fmt: skip
    name = dice.choice(sorted(fields))
    return replace(build, context=replace(build.context, **{name: dice.choice(fields[name])}))


def change_steps(build: Build, dice: Dice) -> Build:
    marks = [one.mark for one in (*build.joints, *build.components)]

    def changed(step: model.AssemblyStep) -> model.AssemblyStep | None:
        some = tuple(dice.sample(marks, min(2, len(marks))))
        new: dict[str, tuple[Any, ...]] = {
            "fits": (some, step.fits[1:]), "closes": (some, ()), "open_minutes": (None, Decimal(3)), "caution": ("", "It springs."),
            "cure_hours": (None, Decimal(24)), "done": (None, date(2025, 6, 1)),
        }  # fmt: skip
        name = dice.choice(sorted(new))
        return replace(step, **{name: dice.choice(new[name])}) if dice.random() < 0.8 else None

    return replace(build, steps=one_of(build.steps, dice, changed))


def change_records(build: Build, dice: Dice) -> Build:
    name = dice.choice(("stock", "readings", "moisture", "releases", "calculations", "acceptances"))
    if name == "stock" and build.stock and dice.random() < 0.6:
        thinner = lambda one: replace(one, thickness=Length.of_mm(4), measured=not one.measured)  # noqa: E731
        return replace(build, stock=one_of(build.stock, dice, thinner))
    return replace(build, **{name: one_of(getattr(build, name), dice, lambda _one: None)})


def change_unit(build: Build, dice: Dice) -> Build:
    return replace(
        build, unit="in" if build.unit == "mm" else "mm", state=dice.choice(("planning", "making"))
    )


def nothing(build: Build, _dice: Dice) -> Build:
    """The same build written and read again: equal, and another object throughout."""
    return read_build(write_build(build))


EDITS = (
    move_part, move_part, turn_part, lift_part, lay_part, resize_part, resize_part, describe_part, describe_part, drill_part,
    drill_part, pocket_part, set_moving, change_joint, change_joint, move_place, move_place, change_stack, copy_joint,
    another_order, take_away, rename, change_context, change_steps, change_records, change_unit, nothing,
)  # fmt: skip


def mended(worked: WorkedBuild, dice: Dice) -> Build:
    """A mend that a finding offers, carried out; one for hands is refused."""
    offered = [(one, i) for one in worked.findings for i in range(len(one.mends))]
    if not offered:
        return worked.build
    finding, index = dice.choice(offered)
    return mend(worked, finding_key(finding), index)


def let_stand(worked: WorkedBuild, dice: Dice) -> Build:
    """A finding accepted."""
    if not worked.findings:
        return worked.build
    return accept(
        worked, finding_key(dice.choice(worked.findings)), "it may", by="R. T.", on=date(2025, 6, 6)
    )


def edited(worked: WorkedBuild, dice: Dice) -> Build:
    """The build after a random change; as it was where the change would give no build."""
    build = worked.build
    try:
        chance = dice.random()
        new = mended(worked, dice) if chance < 0.06 else let_stand(worked, dice) if chance < 0.12 else None
        new = dice.choice(EDITS)(build, dice) if new is None else new
        read_build(write_build(new))
    except InputError:
        return build
    return new
