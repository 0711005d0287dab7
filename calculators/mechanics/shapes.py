"""The usual shapes of section and how people write them: `rectangle 20 x 35 mm`, `tube 25 x 2`."""

from __future__ import annotations

import re
from collections.abc import Sequence
from difflib import get_close_matches

from calculators.mechanics.sections import Piece, Section, section_of
from calculators.quantities.errors import InputError
from calculators.quantities.marks import plain, quoted
from calculators.quantities.reading import read_length

LARGEST_MM = 10_000.0

SIZES: dict[str, tuple[str, ...]] = {
    "rectangle": ("width", "depth"),
    "square": ("width",),
    "round": ("diameter",),
    "tube": ("diameter", "wall"),
    "square tube": ("width", "wall"),
    "rectangular tube": ("width", "depth", "wall"),
    "channel": ("width", "depth", "wall"),
    "angle": ("width", "depth", "wall"),
    "T": ("width", "depth", "wall", "flange"),
    "I": ("width", "depth", "wall", "flange"),
}
"""Each shape with its sizes in the order in which they are written; a flange left out is as the wall."""

_WORDS = {
    **{name.casefold(): name for name in SIZES},
    **dict.fromkeys(("flat", "board", "plank", "batten", "rectangular", "bar", "strip"), "rectangle"),
    **dict.fromkeys(("round bar", "rod", "dowel", "circle", "wire"), "round"),
    **dict.fromkeys(("round tube", "pipe"), "tube"),
    **dict.fromkeys(("box", "rectangle tube", "hollow rectangle"), "rectangular tube"),
    **dict.fromkeys(("l", "angle iron"), "angle"),
    **dict.fromkeys(("u", "c"), "channel"),
    **dict.fromkeys(("tee", "t section"), "T"),
    **dict.fromkeys(("i beam", "h", "joist"), "I"),
    "square bar": "square",
}
_TIMES = re.compile(r"\s*(?:[x×*]|\bby\b)\s*")


def read_section(text: str, *, field: str = "section") -> Section:
    """Read a section as a person writes it: the shape, then its sizes.

    The sizes are width x depth x wall x flange, or diameter x wall; two sizes alone are a rectangle. A unit
    at the end is that of all sizes. A channel has its back upright, an angle one leg upright, a T its flange
    on top.

    Args:
        text: the writing.
        field: the name of the input, for the error.

    Returns:
        The section.

    Raises:
        InputError: when it cannot be read, a size is missing or not over 0 to 10,000 mm, or a wall leaves
            no hollow.

    Source: this project.

    Example:
        >>> read_section("rectangle 20 x 35 mm").area_mm2, round(read_section("tube 25 x 2").area_mm2, 2)
        (700.0, 144.51)
    """
    written = " ".join(plain(text[:120]).split())
    word, sizes = _parted(written)
    name = _WORDS.get(word.casefold().rstrip(":,").replace("-", " "))
    parts = [part for part in _TIMES.split(sizes) if part]
    if not word and len(parts) == 2:
        name = "rectangle"
    if name is None:
        near = get_close_matches(word.casefold(), _WORDS, n=3, cutoff=0.6)
        hint = f"did you mean {' or '.join(dict.fromkeys(_WORDS[each] for each in near))}; " if near else ""
        says = f"{quoted(text)} is not a section; {hint}write one of {', '.join(SIZES)} with its sizes."
        raise InputError.of(says, field=field, choices=tuple(SIZES))
    return shape(name, _read_sizes(parts, text, name, field), field=field)


def _parted(written: str) -> tuple[str, str]:
    found = re.search(r"[\d.]", written)
    return (written[: found.start()].strip(), written[found.start() :]) if found else (written, "")


def _read_sizes(parts: Sequence[str], text: str, name: str, field: str) -> list[float]:
    wanted = SIZES[name]
    least = len(wanted) - (1 if "flange" in wanted else 0)
    if not least <= len(parts) <= len(wanted):
        says = f"{quoted(text)} has {len(parts)} sizes; a {name} is written {_form(name)}."
        raise InputError.of(says, field=field)
    unit = re.search(r"[a-z\"']+\.?$", parts[-1], re.IGNORECASE)
    tail = f" {unit[0]}" if unit else ""
    sizes = []
    for part in parts:
        whole = part if re.search(r"[a-z\"']", part, re.IGNORECASE) else part + tail
        sizes.append(read_length(whole, field=field, minimum_mm=0, maximum_mm=LARGEST_MM).mm)
    return sizes


def _form(name: str) -> str:
    return f"{name} {' x '.join(SIZES[name])}"


def shape(name: str, sizes_mm: Sequence[float], *, field: str = "section") -> Section:
    """One of the usual shapes with its sizes.

    Args:
        name: a shape of `SIZES`.
        sizes_mm: its sizes in that order [mm], each above 0 to 10,000; a flange may be left out.
        field: the name of the input, for the error.

    Returns:
        The section.

    Raises:
        InputError: when a size is 0 or less, or a wall leaves no hollow or no web.

    Source: this project.

    Example:
        >>> shape("channel", [20, 40, 3]).area_mm2
        222.0
    """
    for word, size in zip(SIZES[name], sizes_mm, strict=False):
        if not 0 < size <= LARGEST_MM:
            says = f"The {word} of the {name} is {size:g} mm; it may be over 0 to {LARGEST_MM:,.0f} mm."
            raise InputError.of(says, field=field, value=size, limit=0.0, unit="mm")
    sizes = dict(zip(SIZES[name], sizes_mm, strict=False))
    _check_walls(name, sizes, field)
    written = f"{name} {' x '.join(f'{size:g}' for size in sizes_mm)} mm"
    return section_of(_pieces(name, sizes), written, field=field)


def _check_walls(name: str, sizes: dict[str, float], field: str) -> None:
    wall = sizes.get("wall")
    if wall is None:
        return
    hollow = name in ("tube", "square tube", "rectangular tube")
    flange = sizes.get("flange", wall)
    narrow = min(sizes[word] for word in ("diameter", "width", "depth") if word in sizes)
    limits = {
        "tube": [("wall", wall, sizes.get("diameter", 0) / 2)],
        "channel": [("wall", wall, min(sizes.get("width", 0), sizes.get("depth", 0) / 2))],
        "angle": [("wall", wall, narrow)],
        "T": [("wall", wall, sizes.get("width", 0)), ("flange", flange, sizes.get("depth", 0))],
        "I": [("wall", wall, sizes.get("width", 0)), ("flange", flange, sizes.get("depth", 0) / 2)],
    }.get(name, [("wall", wall, narrow / 2)])
    for word, value, limit in limits:
        if value >= limit:
            why = "a hollow is left" if hollow else "the shape is left"
            says = f"The {word} of the {name} is {value:g} mm; it must be under {limit:g} mm, so that {why}."
            raise InputError.of(says, field=field, value=value, limit=limit, unit="mm")


def _pieces(name: str, sizes: dict[str, float]) -> list[Piece]:
    """The pieces, the lowest fibre at level 0."""
    wall = sizes.get("wall", 0.0)
    if name in ("round", "tube"):
        d = sizes["diameter"]
        pieces = [Piece("round", d, d, 0, d / 2)]
        inner = d - 2 * wall
        return pieces if name == "round" else [*pieces, Piece("round", inner, inner, 0, d / 2, hole=True)]
    b = sizes["width"]
    h = sizes.get("depth", b)
    t, f = wall, sizes.get("flange", wall)
    if name in ("rectangle", "square"):
        return [Piece("rectangle", b, h, 0, h / 2)]
    if name in ("square tube", "rectangular tube"):
        hollow = Piece("rectangle", b - 2 * t, h - 2 * t, 0, h / 2, hole=True)
        return [Piece("rectangle", b, h, 0, h / 2), hollow]
    if name == "T":
        return [Piece("rectangle", b, f, 0, h - f / 2), Piece("rectangle", t, h - f, 0, (h - f) / 2)]
    if name == "I":
        flanges = [Piece("rectangle", b, f, 0, f / 2), Piece("rectangle", b, f, 0, h - f / 2)]
        return [*flanges, Piece("rectangle", t, h - 2 * f, 0, h / 2)]
    upright = Piece("rectangle", t, h, t / 2, h / 2)
    legs = [Piece("rectangle", b - t, t, t + (b - t) / 2, t / 2)]
    if name == "channel":
        legs.append(Piece("rectangle", b - t, t, t + (b - t) / 2, h - t / 2))
    return [upright, *legs]
