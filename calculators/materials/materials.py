"""Finding a material by the words that people use for it."""

from __future__ import annotations

import re
from difflib import get_close_matches
from functools import cache, lru_cache

from calculators.materials.metals import all_others
from calculators.materials.model import Material
from calculators.materials.woods import all_woods
from calculators.quantities.errors import InputError

# Words that say how a material comes or is worked, not what it is.
_QUALIFIER_WORDS = (
    "sawn flat quarter quartersawn flatsawn rift edge glued jointed staves stave piece pieces grain along "
    "across selected select prime best clean clear kiln air dried dry seasoned planed par rough sawing "
    "hardened tempered annealed soft half hard bright black drawn ground turned rolled cold hot folded sheet "
    "plate bar rod round square hex hexagon tube strip block board plank boards wire swg bs gauge thick thin "
    "arrissed polished finished plated lacquered blued anodised anodized painted oiled waxed varnished re "
    "used reused reclaimed recycled old new scrap offcut solid machined spring section angle channel length "
    "stock wood timber lumber metal mm in inch inches hrc cut faced laminated core grade quality and with to "
    "the of a on for already tapped threaded drilled bored wall by from thickness nominal measured"
)
_QUALIFIERS = frozenset(_QUALIFIER_WORDS.split())
_PLATING = re.compile(
    r"\b(?:zinc|nickel|chrome|chromium|tin|brass|silver|gold|copper|cadmium|electro)[ -]plated\b"
    r"|\b(?:galvanised|galvanized|brassed|nickelled)\b"
)


def _words(text: str) -> tuple[str, ...]:
    return tuple(re.findall(r"[^\W_]+(?:[./][^\W_]+)*", text.casefold()))


@cache
def _register() -> tuple[tuple[frozenset[str], Material], ...]:
    """Each name that a material goes by, as its set of words."""
    return tuple(
        (frozenset(_words(name)), material)
        for material in (*all_woods(), *all_others())
        for name in (material.name, *material.also)
    )


@cache
def material_names() -> tuple[str, ...]:
    """The canonical names of all materials that are known.

    Returns:
        The names, woods first.

    Source: this project.

    Example:
        >>> "European oak" in material_names()
        True
    """
    return tuple(material.name for material in (*all_woods(), *all_others()))


def find_material(text: str, *, field: str = "material") -> Material:
    """Find a material by what people call it, in any case and order, British or American.

    Words that say how it comes (`flat-sawn`, `sheet`, `16 SWG`, `zinc plated`) are passed over. An
    unqualified `oak`, `ash` or `beech` is the European one, `maple` hard maple, `walnut` black walnut,
    `spruce` Sitka spruce, `steel` mild steel.

    Args:
        text: what was written.
        field: the name of the input, for the error.

    Returns:
        The material.

    Raises:
        InputError: when nothing of that name is known, or the words fit two materials; the sentence gives
            the nearest names.

    Source: this project.

    Example:
        >>> find_material("Oak, European").name, find_material("CW614N brass").name
        ('European oak', 'brass CW614N')
    """
    return _find(" ".join(str(text).split()), field)


@lru_cache(maxsize=1024)  # a build names the same material for many parts
def _find(written: str, field: str) -> Material:
    words = frozenset(_words(_PLATING.sub(" ", written.casefold())))
    if not words:
        raise InputError.of(
            "No material is given; write one such as European oak, brass or mild steel.", field=field
        )
    fitting = [(name, material) for name, material in _register() if name and name <= words]
    longest = max((len(name) for name, _ in fitting), default=0)
    best = {material.name: material for name, material in fitting if len(name) == longest}
    if len(best) > 1:
        names = tuple(best)
        raise InputError.of(
            f"{written!r} could be {' or '.join(names)}; write one of them.", field=field, choices=names
        )
    left = words - frozenset().union(*(name for name, material in fitting if material.name in best))
    strange = sorted(word for word in left - _QUALIFIERS if not any(sign.isdigit() for sign in word))
    if not best or strange:
        raise _unknown(written, field)
    return next(iter(best.values()))


def _unknown(written: str, field: str) -> InputError:
    known = {name.casefold(): material.name for name, material in _spellings()}
    close = get_close_matches(written.casefold(), known, n=5, cutoff=0.5)
    words = set(_words(written))
    sharing = [material.name for name, material in _register() if name & words]
    nearest = tuple(dict.fromkeys([known[name] for name in close] + sharing))[:5]
    hint = f"nearest are {', '.join(nearest)}" if nearest else "write one such as European oak or mild steel"
    return InputError.of(
        f"{written!r} is not a material that is known here; {hint}.", field=field, choices=nearest
    )


@cache
def _spellings() -> tuple[tuple[str, Material], ...]:
    return tuple(
        (name, material)
        for material in (*all_woods(), *all_others())
        for name in (material.name, *material.also)
    )
