"""The inputs by which calculators of beams, struts and shelves ask for a section and its material."""

from __future__ import annotations

from dataclasses import dataclass

from calculators.calculation import Given, Input, Step
from calculators.calculation.result import number_text
from calculators.mechanics.sections import Piece, Section, section_of
from calculators.mechanics.shapes import LARGEST_MM, SIZES, read_section, shape
from calculators.mechanics.stuff import Stuff, stuff_of
from calculators.quantities.errors import InputError
from calculators.quantities.marks import plain

PIECE_MEMBERS = (
    Input(
        name="shape", help="what it is", kind="choice", choices=("rectangle", "round"), default="rectangle"
    ),
    Input(
        name="width", help="its width, of a round the diameter", kind="length", unit="mm", above=0,
        maximum=LARGEST_MM,
    ),
    Input(
        name="height", help="its height, of a round left out", kind="length", unit="mm", above=0,
        maximum=LARGEST_MM, optional=True,
    ),
    Input(
        name="up", help="its middle over any level; without it, it stands on the piece before",
        kind="length", unit="mm", minimum=-LARGEST_MM, maximum=LARGEST_MM, optional=True,
    ),
    Input(
        name="across", help="its middle to the right of any upright line", kind="length", unit="mm",
        minimum=-LARGEST_MM, maximum=LARGEST_MM, default="0",
    ),
    Input(name="hole", help="whether it is a hole, taken away", kind="flag", default="no"),
)  # fmt: skip


def _size(name: str, says: str) -> Input:
    return Input(
        name=name, help=says, kind="length", unit="mm", above=0, maximum=LARGEST_MM, optional=True
    )  # fmt: skip


SECTION_INPUTS = (
    Input(
        name="section",
        help=(
            f"the shape, one of {', '.join(SIZES)}, with its sizes: width x depth (upright) x wall x flange, "
            "diameter x wall; or the shape alone and its sizes below"
        ),
        kind="text",
        optional=True,
        example="rectangle 20 x 35 mm",
    ),
    _size("width", "width of the section, or its diameter, where not written with the shape"),
    _size("depth", "depth of the section, upright"),
    _size("wall", "thickness of its wall, of an I or T of its web"),
    _size("flange", "thickness of the flanges of an I or T"),
    Input(
        name="pieces",
        help="a section put together of rectangles and rounds, instead of a shape",
        kind="rows",
        members=PIECE_MEMBERS,
        optional=True,
        example="rectangle, 60, 20; rectangle, 20, 40",
    ),
)
MATERIAL_INPUTS = (
    Input(
        name="material",
        help="what it is made of, as European oak or mild steel",
        kind="text",
        optional=True,
        example="European oak",
    ),
    Input(
        name="modulus",
        help="modulus of elasticity, instead of the table's",
        kind="quantity",
        unit="GPa",
        minimum=0.001,
        maximum=1500,
        optional=True,
    ),
    Input(
        name="strength",
        help="yield strength or modulus of rupture, instead of the table's",
        kind="quantity",
        unit="MPa",
        minimum=0.1,
        maximum=10000,
        optional=True,
    ),
)
TYPED_INPUTS = (
    Input(
        name="second_moment",
        help="second moment of area, where it is known and no section is given",
        kind="quantity",
        unit="mm4",
        minimum=1e-6,
        maximum=1e13,
        optional=True,
    ),
    Input(
        name="outermost",
        help="with a second moment of area: distance from the neutral axis to the outermost fibre",
        kind="length",
        unit="mm",
        above=0,
        maximum=LARGEST_MM,
        optional=True,
    ),
)


@dataclass(frozen=True, slots=True)
class Stiff:
    """A section as a beam needs it: the second moment, and what else is known of it."""

    name: str
    second_moment_mm4: float
    modulus_mm3: float | None
    area_mm2: float | None
    section: Section | None


def section_given(given: Given) -> Section | None:
    """The section that was given by its shape or by its pieces.

    Args:
        given: inputs with those of `SECTION_INPUTS`.

    Returns:
        The section, or None where neither was given.

    Raises:
        InputError: when it cannot be made, or both were given.

    Source: this project.
    """
    text, rows = given.text_or_none("section"), given.rows("pieces")
    sizes = {name: given.mm_or_none(name) for name in ("width", "depth", "wall", "flange")}
    if rows:
        if text is not None:
            says = "Give either a section or pieces of which it is put together, not both."
            raise InputError.of(says, field="pieces")
        return section_of(pieces_given(rows), f"{len(rows)} pieces")
    if text is None:
        if all(size is None for size in sizes.values()):
            return None
        text = "rectangle"
    name = next((each for each in SIZES if each.casefold() == plain(text[:40]).casefold().strip()), None)
    if name is None:
        return read_section(text)
    return shape(name, _sizes_given(name, sizes))


def _sizes_given(name: str, sizes: dict[str, float | None]) -> list[float]:
    found = []
    for word in SIZES[name]:
        size = sizes["width" if word == "diameter" else word]
        if size is None:
            if word == "flange":
                break
            says = (
                f"The section lacks its {word}; write {name} {' x '.join(SIZES[name])}, or give the {word}."
            )
            raise InputError.of(says, field="section" if word == "diameter" else word)
        found.append(size)
    return found


def pieces_given(rows: tuple[Given, ...]) -> tuple[Piece, ...]:
    """The pieces of a section from their rows.

    Args:
        rows: rows with the keys of `PIECE_MEMBERS`.

    Returns:
        The pieces; one whose level is left out stands on the piece before, the first on level 0.

    Raises:
        InputError: when a rectangle has no height.

    Source: this project.
    """
    pieces: list[Piece] = []
    top = 0.0
    for place, row in enumerate(rows):
        width = row.mm("width")
        round_one = row.text("shape") == "round"
        height = width if round_one else row.mm_or_none("height")
        if height is None:
            says = f"Pieces, row {place + 1}: a rectangle needs its height; write width and height."
            raise InputError.of(says, field=f"pieces[{place}].height")
        up = row.mm_or_none("up")
        up = top + height / 2 if up is None else up
        hole = row.flag("hole")
        pieces.append(Piece("round" if round_one else "rectangle", width, height, row.mm("across"), up, hole))
        top = top if hole else up + height / 2
    return tuple(pieces)


def stiff_given(given: Given) -> Stiff:
    """The section, or the second moment that was typed instead.

    Args:
        given: inputs with those of `SECTION_INPUTS` and `TYPED_INPUTS`.

    Returns:
        What the beam needs of it.

    Raises:
        InputError: when nothing, or both, were given.

    Source: this project.
    """
    section, typed = section_given(given), given.number_or_none("second_moment")
    if section is not None and typed is not None:
        raise InputError.of("Give either a section or a second moment, not both.", field="second_moment")
    if section is not None:
        return Stiff(section.name, section.second_moment_mm4, section.modulus_mm3, section.area_mm2, section)
    if typed is None:
        says = "Give a section, as rectangle 20 x 35 mm (width x depth), or the second moment of area."
        raise InputError.of(says, field="section")
    outermost = given.mm_or_none("outermost")
    return Stiff("as typed", typed, None if outermost is None else typed / outermost, None, None)


def stuff_given(given: Given) -> Stuff:
    """The material's figures, those that were given before the table's.

    Args:
        given: inputs with those of `MATERIAL_INPUTS`.

    Returns:
        The figures.

    Raises:
        InputError: when no modulus is given nor known.

    Source: this project.
    """
    return stuff_of(
        given.text_or_none("material"),
        given.number_or_none("modulus"),
        strength_mpa=given.number_or_none("strength"),
    )


def section_steps(section: Section) -> tuple[Step, ...]:
    """The working of a section: area, neutral axis, second moment, modulus.

    Args:
        section: the section.

    Returns:
        The steps.

    Source: this project.
    """
    formula, numbers = _second_moment_words(section)
    area = " + ".join(f"{'-' if each.hole else ''}{number_text(each.area_mm2)}" for each in section.pieces)
    area_formula, area = _area_words(section) or ("sum of the pieces", area.replace("+ -", "- "))
    outermost = max(section.top_mm, section.bottom_mm)
    second = number_text(section.second_moment_mm4)
    steps = [
        Step("A", area_formula, area, section.area_mm2, "mm2"),
        Step(
            "I", formula, numbers, section.second_moment_mm4, "mm4", "Machinery's Handbook, Moments of "
            "Inertia, from memory",
        ),
        Step("Z", "I / c", f"{second} / {number_text(outermost)}", section.modulus_mm3, "mm3"),
    ]  # fmt: skip
    if len(section.pieces) > 1:
        sums = " + ".join(
            f"{'-' if each.hole else ''}{number_text(each.area_mm2)} x {number_text(each.up_mm)}"
            + (f" x {number_text(each.ratio)}" if each.ratio != 1 else "")
            for each in section.pieces
        ).replace("+ -", "- ")
        total = number_text(sum(each.counts * each.area_mm2 for each in section.pieces))
        steps.insert(1, Step("y", "sum A_i y_i / A", f"({sums}) / {total}", section.centroid_up_mm, "mm"))
    return tuple(steps)


def _area_words(section: Section) -> tuple[str, str] | None:
    """The area of one plain piece, by its sizes; None where several are summed."""
    first = section.pieces[0]
    if len(section.pieces) > 1:
        return None
    b, h = number_text(first.width_mm), number_text(first.height_mm)
    return ("b h", f"{b} x {h}") if first.shape == "rectangle" else ("pi d^2 / 4", f"pi x {h}^2 / 4")


def _second_moment_words(section: Section) -> tuple[str, str]:
    first = section.pieces[0]
    b, h = number_text(first.width_mm), number_text(first.height_mm)
    if len(section.pieces) == 1 and first.ratio == 1:
        return (
            ("b h^3 / 12", f"{b} x {h}^3 / 12")
            if first.shape == "rectangle"
            else ("pi d^4 / 64", f"pi x {h}^4 / 64")
        )
    parts = [
        f"{'-' if each.hole else ''}({number_text(each.own_mm4[0])} + {number_text(each.area_mm2)} x "
        f"{number_text(round(abs(each.up_mm - section.centroid_up_mm), 9))}^2)"
        + (f" x {number_text(each.ratio)}" if each.ratio != 1 else "")
        for each in section.pieces
    ]
    return "sum (I_i + A_i (y_i - y)^2)", " + ".join(parts).replace("+ -", "- ")
