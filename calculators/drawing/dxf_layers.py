"""The layers of a drawing for CAD and CAM, named by what is on them, and read again from their names.

A name has only signs that every version of the format allows: letters, figures and . - + _ ~ $. A space of
a thread is written `_` and its stroke `~`; any other sign `$` with its number.
"""

from __future__ import annotations

import re
from dataclasses import dataclass
from typing import Literal

from calculators.drawing.face_shape import HoleShape, PocketShape

What = Literal["hole", "countersink", "counterbore", "pocket", "outline", "bore", "words"]

OUTLINE, BORE, DATUM, NUMBERS, TITLE, CENTRES = (
    "OUTLINE", "BORE_THROUGH", "DATUM", "NUMBERS", "TITLE", "HOLE_CENTRES",
)  # fmt: skip
WORDS = (DATUM, NUMBERS, TITLE, CENTRES)
"""Layers that say something about the part and cut nothing."""

LONGEST_COPIES = 120
"""Beyond this only the number of copies stands in a name [characters]."""

_KINDS = {
    "clearance": "CLEARANCE",
    "pilot": "PILOT",
    "tapping": "TAPPED",
    "plain": "PLAIN",
    "reamed": "REAMED",
    "insert": "INSERT",
    "slot": "SLOT",
    "spot": "SPOT",
}
_KIND_OF = {word: kind for kind, word in _KINDS.items()}
_NUMBER = r"[0-9]+(?:\.[0-9]+)?"
_DEPTH = rf"(?:THROUGH|(?P<depth>{_NUMBER})_DEEP)"
_HOLE = re.compile(rf"(?P<kind>CLEARANCE|PILOT|PLAIN|REAMED|SLOT|SPOT)(?P<slot>_SLOT)?_{_DEPTH}")
_THREADED = re.compile(
    rf"(?P<kind>TAPPED|INSERT)(?P<slot>_SLOT)?(?:_(?P<thread>[A-Za-z0-9.+~$_-]+?))??"
    rf"(?:(?:_(?P<full>{_NUMBER})_DEEP)?_DRILL)?_{_DEPTH}"
)
_COUNTERSINK = re.compile(rf"COUNTERSINK_(?P<angle>{_NUMBER})_D(?P<diameter>{_NUMBER})")
_COUNTERBORE = re.compile(rf"COUNTERBORE_D(?P<diameter>{_NUMBER})_(?P<depth>{_NUMBER})_DEEP")
_POCKET = re.compile(rf"POCKET_{_DEPTH}")
_BELOW = re.compile(rf"_FROM_(?P<below>{_NUMBER})_BELOW")
_ONLY = re.compile(r"_ONLY_IN_(?P<only>[A-Za-z0-9.+~$_-]+)$")
_OTHER_HAND = "_OTHER_HAND"
_ESCAPED = re.compile(r"\$([0-9A-Fa-f]{1,6})\.|_|~")


@dataclass(frozen=True, slots=True)
class LayerSays:
    """What the name of a layer says of the shapes on it [mm]; `depth_mm` None is right through."""

    what: What
    kind: str = ""
    is_slot: bool = False
    depth_mm: float | None = None
    thread: str = ""
    thread_depth_mm: float | None = None
    angle_deg: float = 90.0
    diameter_mm: float = 0.0
    below_mm: float = 0.0
    only: str = ""
    other_hand: bool = False

    @property
    def for_all(self) -> bool:
        """Whether every copy of the part has it."""
        return not self.only and not self.other_hand


def hole_layers(hole: HoleShape) -> list[tuple[str, float]]:
    """Give the layers of a hole: that of its drill first, then of its counterbore and its countersink.

    Args:
        hole: the hole.

    Returns:
        Each layer's name with the diameter [mm] of the circle on it.

    Source: this project.

    Example:
        >>> hole_layers(HoleShape(1, 0, 0, 4.5, "clearance", None, 8.4))
        [('CLEARANCE_THROUGH', 4.5), ('COUNTERSINK_90_D8.4', 8.4)]
    """
    more = _more(hole)
    found = [(f"{_drilled(hole)}{more}", hole.diameter_mm)]
    if hole.counterbore_diameter_mm > 0:
        wide, deep = _n(hole.counterbore_diameter_mm), _n(hole.counterbore_depth_mm)
        found.append((f"COUNTERBORE_D{wide}_{deep}_DEEP{more}", hole.counterbore_diameter_mm))
    if hole.countersink_diameter_mm > 0:
        wide, angle = _n(hole.countersink_diameter_mm), _n(hole.countersink_angle_deg)
        found.append((f"COUNTERSINK_{angle}_D{wide}{more}", hole.countersink_diameter_mm))
    return found


def _drilled(hole: HoleShape) -> str:
    slot = "_SLOT" if hole.slot_length_mm > hole.diameter_mm and hole.kind != "slot" else ""
    name = f"{_KINDS.get(hole.kind, 'PLAIN')}{slot}"
    depth = _deep(hole.depth_mm)
    if hole.kind not in ("tapping", "insert"):
        return f"{name}_{depth}"
    if hole.thread:
        name += f"_{escaped(hole.thread)}"
    if hole.thread_depth_mm is not None:
        return f"{name}_{_n(hole.thread_depth_mm)}_DEEP_DRILL_{depth}"
    return f"{name}_{depth}" if hole.through else f"{name}_DRILL_{depth}"


def _more(hole: HoleShape) -> str:
    """What a hole's layers say besides: where it begins, and which copies have it."""
    words = f"_FROM_{_n(hole.below_mm)}_BELOW" if hole.below_mm > 0 else ""
    if hole.mirrored:
        words += _OTHER_HAND
    if hole.copies:
        names = "_".join(escaped(name) for name in hole.copies)
        words += f"_ONLY_IN_{names if len(names) <= LONGEST_COPIES else f'{len(hole.copies)}_COPIES'}"
    return words


def pocket_layer(pocket: PocketShape) -> str:
    """Give the layer of a pocket.

    Args:
        pocket: the pocket.

    Returns:
        The layer's name, which says its depth [mm].

    Source: this project.

    Example:
        >>> pocket_layer(PocketShape("k1", 0, 0, 20, 10, depth_mm=6))
        'POCKET_6_DEEP'
    """
    return f"POCKET_{_deep(pocket.depth_mm)}"


def layer_says(name: str) -> LayerSays | None:
    """Read what a layer of this project says by its name.

    Args:
        name: a layer's name in any drawing.

    Returns:
        What it says; None for a name that this project does not write.

    Source: this project.

    Example:
        >>> layer_says("TAPPED_1~4-28_UNF_12_DEEP_DRILL_15_DEEP").thread
        '1/4-28 UNF'
        >>> layer_says("Layer 1") is None
        True
    """
    if name in WORDS:
        return LayerSays("words")
    if name in (OUTLINE, BORE):
        return LayerSays("outline" if name == OUTLINE else "bore")
    plain, only, other_hand, below = _without_more(name)
    if found := _COUNTERSINK.fullmatch(plain):
        angle, wide = float(found["angle"]), float(found["diameter"])
        return LayerSays("countersink", angle_deg=angle, diameter_mm=wide, only=only, other_hand=other_hand)
    if found := _COUNTERBORE.fullmatch(plain):
        deep, wide = float(found["depth"]), float(found["diameter"])
        return LayerSays("counterbore", depth_mm=deep, diameter_mm=wide, only=only, other_hand=other_hand)
    if found := _POCKET.fullmatch(plain):
        return LayerSays("pocket", depth_mm=_float(found["depth"]))
    found = _HOLE.fullmatch(plain) or _THREADED.fullmatch(plain)
    if not found:
        return None
    groups = found.groupdict()
    return LayerSays(
        "hole",
        _KIND_OF[found["kind"]],
        bool(found["slot"]) or found["kind"] == "SLOT",
        _float(found["depth"]),
        plainly(groups.get("thread") or ""),
        _float(groups.get("full")),
        below_mm=below,
        only=only,
        other_hand=other_hand,
    )


def _without_more(name: str) -> tuple[str, str, bool, float]:
    only, below = "", 0.0
    if found := _ONLY.search(name):
        only, name = found["only"], name[: found.start()]
    other_hand = name.endswith(_OTHER_HAND)
    name = name.removesuffix(_OTHER_HAND)
    if found := _BELOW.search(name):
        below, name = float(found["below"]), name[: found.start()] + name[found.end() :]
    return name, only, other_hand, below


def _float(text: str | None) -> float | None:
    return float(text) if text else None


def _n(value: float) -> str:
    """A size to the tick of 1e-7 mm in which lengths are kept, so that it is read again the same."""
    return f"{value:.7f}".rstrip("0").rstrip(".") or "0"


def _deep(depth_mm: float | None) -> str:
    return "THROUGH" if depth_mm is None else f"{_n(depth_mm)}_DEEP"


def escaped(text: str) -> str:
    """Write words with the signs that a layer's name may have.

    Args:
        text: words, such as a thread as the trade writes it.

    Returns:
        The words; `plainly` gives them back.

    Source: this project.

    Example:
        >>> escaped("1/4-28 UNF"), escaped("2 BA")
        ('1~4-28_UNF', '2_BA')
    """
    return "".join(_sign(sign) for sign in text)


def _sign(sign: str) -> str:
    if sign.isascii() and (sign.isalnum() or sign in ".+-"):
        return sign
    return {" ": "_", "/": "~"}.get(sign) or f"${ord(sign):X}."


def plainly(text: str) -> str:
    """Read words of a layer's name.

    Args:
        text: as `escaped` writes it.

    Returns:
        The words.

    Source: this project.

    Example:
        >>> plainly("1~4-28_UNF")
        '1/4-28 UNF'
    """

    def sign(found: re.Match[str]) -> str:
        if found[1] is None:
            return " " if found[0] == "_" else "/"
        code = int(found[1], 16)
        return chr(code) if 31 < code < 0x110000 and not 0xD800 <= code < 0xE000 else ""

    return _ESCAPED.sub(sign, text)
