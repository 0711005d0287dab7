"""String frame: the bow that strings pull a frame into, and the sag of a board under down-bearing."""

from __future__ import annotations

from collections.abc import Iterator
from dataclasses import dataclass
from math import ceil

from calculators.calculation import Calculator, Given, Result, Step, named
from calculators.calculation.picture import Picture
from calculators.calculation.result import number_text
from calculators.declared.section_inputs import (
    section_given,
    section_steps,
    stuff_given,
)
from calculators.declared.string_frame_inputs import FRAME_INPUTS
from calculators.drawing.beams import Sketch, beam_pictures
from calculators.mechanics.beams.line import Load, Support, bend
from calculators.mechanics.frames import bow_of, down_force
from calculators.mechanics.sections import Section
from calculators.mechanics.struts import euler_load
from calculators.mechanics.stuff import CREEP_WOOD, Stuff, stuff_of
from calculators.quantities.errors import InputError

_NEAR_BUCKLING = 0.1


@dataclass(frozen=True, slots=True)
class Frame:
    """A frame as it was asked for: `rails` of the section side by side share the pull."""

    length_mm: float
    offset_mm: float
    rails: int
    section: Section
    stuff: Stuff
    pulls: tuple[tuple[int, float], ...]
    creep: float
    limit_over: float

    @property
    def total_n(self) -> float:
        """The pull of all strings."""
        return sum(count * tension for count, tension in self.pulls)

    @property
    def stiffness_n_mm2(self) -> float:
        """Modulus times the second moment of all rails."""
        return self.stuff.modulus_mpa * self.rails * self.section.second_moment_mm4

    @property
    def moment_n_mm(self) -> float:
        """The moment of the pull about the neutral axis."""
        return self.total_n * self.offset_mm

    @property
    def bow_mm(self) -> float:
        """The bow at once."""
        return bow_of(self.moment_n_mm, self.length_mm, self.stiffness_n_mm2)

    @property
    def limit_mm(self) -> float:
        """The most that it may bow in the long run."""
        return self.length_mm / self.limit_over


@dataclass(frozen=True, slots=True)
class Board:
    """The board that the strings press on."""

    span_mm: float
    width_mm: float
    thickness_mm: float
    stuff: Stuff
    angle_deg: float

    @property
    def second_moment_mm4(self) -> float:
        """Its second moment."""
        return self.width_mm * self.thickness_mm**3 / 12


def frame_of(given: Given) -> Frame:
    """Read the frame that was asked for.

    Args:
        given: the inputs of the calculator.

    Returns:
        The frame.

    Raises:
        InputError: when section or material is missing, or the strings do not pull.

    Source: this project.
    """
    section, stuff = section_given(given), stuff_given(given)
    if section is None:
        says = "Give the section of a rail, as rectangle 20 x 35 mm: its depth is that across the bow."
        raise InputError.of(says, field="section")
    pulls = tuple((row.integer("count"), row.number("tension")) for row in given.rows("strings"))
    creep = given.number_or_none("creep")
    return Frame(
        given.mm("length"), given.mm("offset"), given.integer("rails"), section, stuff, pulls,
        (CREEP_WOOD if stuff.wood else 1.0) if creep is None else creep,
        given.number("limit"),
    )  # fmt: skip


def _board(given: Given, frame: Frame) -> Board | None:
    names = ("board_span", "board_width", "board_thickness")
    sizes = [given.mm_or_none(name) for name in names]
    angle = given.number_or_none("down_angle")
    if angle is None and all(size is None for size in sizes):
        return None
    for name, value in zip((*names, "down_angle"), (*sizes, angle), strict=True):
        if value is None:
            says = f"For the board give all of {', '.join((*names, 'down_angle'))}; {name} is missing."
            raise InputError.of(says.replace("_", " "), field=name)
    span, width, thickness = (size for size in sizes if size is not None)
    material = given.text_or_none("board_material")
    assert angle is not None
    return Board(span, width, thickness, stuff_of(material, None) if material else frame.stuff, angle)


def _string_frame(given: Given) -> Result:
    frame = frame_of(given)
    board = _board(given, frame)
    lasting = frame.bow_mm * frame.creep
    area = frame.rails * frame.section.area_mm2
    modulus = frame.rails * frame.section.modulus_mm3
    stress = frame.total_n / area + frame.moment_n_mm / modulus
    results = {
        "total_tension": frame.total_n,
        "bending_moment": frame.moment_n_mm / 1000,
        "bow": frame.bow_mm,
        "bow_long_term": lasting,
        "bow_limit": frame.limit_mm,
        "offset_balanced": frame.offset_mm * frame.limit_mm / lasting,
        "fibre_stress": stress,
    }
    steps = list(_frame_steps(frame, stress, area, modulus))
    warnings = list(_frame_warnings(frame, lasting, stress))
    if board is not None:
        added, more = _board_results(frame, board)
        results |= added
        steps += more
        warnings += _board_warnings(frame, board, added)
    sources = (f"{frame.stuff.name}: {frame.stuff.modulus_source}",)
    return Result(named(**results), tuple(steps), tuple(warnings), sources)


def _frame_steps(frame: Frame, stress: float, area: float, modulus: float) -> Iterator[Step]:
    total, moment = number_text(frame.total_n), number_text(frame.moment_n_mm)
    numbers = " + ".join(f"{count} x {number_text(tension)} N" for count, tension in frame.pulls)
    yield Step("T", "sum of count x tension", numbers, frame.total_n, "N")
    yield from section_steps(frame.section)
    e = frame.stuff.modulus_mpa
    yield Step("E", frame.stuff.name, f"{number_text(e / 1000)} GPa", e, "MPa", frame.stuff.short_source)
    offset = number_text(frame.offset_mm)
    yield Step("M", "T e", f"{total} N x {offset} mm", frame.moment_n_mm / 1000, "N m")
    second = f"{frame.rails} x {number_text(frame.section.second_moment_mm4)} mm4"
    numbers = f"{moment} N mm x ({number_text(frame.length_mm)} mm)^2 / (8 x {number_text(e)} MPa x {second})"
    yield Step("bow", "M L^2 / (8 E I)", numbers, frame.bow_mm, "mm", "beam tables, from memory")
    source = "Wood Handbook ch. 5, from memory: about doubled" if frame.stuff.wood else "common practice"
    yield Step("after years", "creep x bow", f"{number_text(frame.creep)} x {number_text(frame.bow_mm)} mm",
               frame.bow_mm * frame.creep, "mm", source)  # fmt: skip
    numbers = f"{number_text(frame.length_mm)} mm / {number_text(frame.limit_over)}"
    yield Step("limit", "L / limit", numbers, frame.limit_mm, "mm", "common practice")
    numbers = f"{total} / {number_text(area)} + {moment} / {number_text(modulus)}"
    yield Step("stress", "T / A + M / Z", numbers, stress, "MPa")


def _board_results(frame: Frame, board: Board) -> tuple[dict[str, float], list[Step]]:
    force = down_force(frame.total_n, board.angle_deg)
    e, i = board.stuff.modulus_mpa, board.second_moment_mm4
    sag = force * board.span_mm**3 / (48 * e * i)
    creep = CREEP_WOOD if board.stuff.wood else 1.0
    limit = board.span_mm / frame.limit_over
    thickness = board.thickness_mm * float((sag * creep / limit) ** (1 / 3))
    t = number_text(board.thickness_mm)
    steps = [
        Step("F", "2 T sin(angle / 2)", f"2 x {number_text(frame.total_n)} N x sin({board.angle_deg:g} deg / "
             "2)", force, "N"),
        Step("I of the board", "b t^3 / 12", f"{number_text(board.width_mm)} x {t}^3 / 12", i, "mm4"),
        Step("sag", "F L^3 / (48 E I)", f"{number_text(force)} N x ({number_text(board.span_mm)} mm)^3 / (48 "
             f"x {number_text(e)} MPa x {number_text(i)} mm4)", sag, "mm", "beam tables, from memory"),
        Step("sag after years", "creep x sag", f"{number_text(creep)} x {number_text(sag)} mm", creep * sag,
             "mm"),
        Step("thickness", "t (sag after years / limit)^(1/3)", f"{t} mm x ({number_text(creep * sag)} / "
             f"{number_text(limit)})^(1/3)", thickness, "mm"),
    ]  # fmt: skip
    found = {
        "down_force": force,
        "board_sag": sag,
        "board_sag_long_term": creep * sag,
        "board_thickness_needed": thickness,
    }
    return found, steps


def _frame_warnings(frame: Frame, lasting: float, stress: float) -> Iterator[str]:
    if lasting > frame.limit_mm:
        yield (
            f"After years it bows {number_text(lasting, 3)} mm, more than length/"
            f"{number_text(frame.limit_over)}, {number_text(frame.limit_mm, 3)} mm: deepen the rails, or "
            "bring the strings nearer to the neutral axis."
        )
    buckling = euler_load(frame.stuff.modulus_mpa, frame.stiffness_n_mm2 / frame.stuff.modulus_mpa,
                          frame.length_mm)  # fmt: skip
    share = frame.total_n / buckling
    if share >= 1:
        yield f"The pull is over the {number_text(buckling, 3)} N at which the frame buckles: it folds."
    elif share > _NEAR_BUCKLING:
        yield (
            f"The pull is {number_text(100 * share, 2)} % of the {number_text(buckling, 3)} N at which the "
            f"frame buckles: the bow grows to about {number_text(frame.bow_mm / (1 - share), 3)} mm at once."
        )
    strength = frame.stuff.strength_mpa
    if strength is not None and stress > strength / frame.stuff.factor:
        allowed = number_text(strength / frame.stuff.factor, 3)
        yield (
            f"The stress of {number_text(stress, 3)} MPa is over {allowed} MPa, the "
            f"{frame.stuff.strength_name} over {number_text(frame.stuff.factor)}."
        )


def _board_warnings(frame: Frame, board: Board, found: dict[str, float]) -> Iterator[str]:
    limit = board.span_mm / frame.limit_over
    if found["board_sag_long_term"] > limit:
        thick = number_text(ceil(found["board_thickness_needed"] * 10) / 10)
        yield (
            f"After years the board sags {number_text(found['board_sag_long_term'], 3)} mm, more than "
            f"{number_text(limit, 3)} mm: make it {thick} mm thick, "
            "brace it, or lessen the angle of the strings."
        )
    yield (
        "The board is reckoned as a strip resting on its two edges, pressed at its middle; bars under it and "
        "glued edges make it stiffer."
    )


def _pictures(given: Given) -> tuple[Picture, ...]:
    frame = frame_of(given)
    supports = (Support(0.0), Support(frame.length_mm))
    # Strings above the axis lift the ends' edges together: the frame hollows, as under equal end moments.
    loads = (
        Load(0.0, moment_n_mm=frame.moment_n_mm),
        Load(frame.length_mm, moment_n_mm=-frame.moment_n_mm),
    )
    bent = bend(frame.length_mm, supports, loads, frame.stiffness_n_mm2)
    return beam_pictures(bent, Sketch(supports, loads, frame.section, frame.length_mm, frame.stuff.wood))


STRING_FRAME = Calculator(
    name="string-frame",
    summary="The bow that strings pull a frame into, at once and after years, and the sag of its board.",
    purpose="Springs, pivots and strings",
    inputs=FRAME_INPUTS,
    outputs=(
        "total_tension",
        "bending_moment",
        "bow",
        "bow_long_term",
        "bow_limit",
        "offset_balanced",
        "fibre_stress",
        "down_force",
        "board_sag",
        "board_sag_long_term",
        "board_thickness_needed",
    ),
    work=_string_frame,
    either=(("section", "pieces"), ("material", "modulus")),
    sources=(
        "bow under equal end moments: beam tables (from memory)",
        "moduli of wood: USDA Wood Handbook, table 5-3; creep about doubles: ch. 5 (from memory)",
        "limit of length/300: common practice",
    ),
    cautions=(
        "Strings under tension store energy: wear eye protection, bring all of them up by turns, and let "
        "them all down before the frame is opened or mended.",
    ),
    draw=lambda given, result: _pictures(given),
    example={
        "strings": "12, 50 N; 10, 55 N",
        "length": "600 mm",
        "offset": "23.5 mm",
        "rails": "2",
        "section": "rectangle 20 x 35 mm",
        "material": "European oak",
        "down_angle": "8 deg",
        "board_span": "250 mm",
        "board_width": "120 mm",
        "board_thickness": "6 mm",
        "board_material": "Sitka spruce",
    },
)
