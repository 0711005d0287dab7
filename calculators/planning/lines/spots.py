"""Where: places on a face, one by one or in a row, a grid or on a circle; and the words for faces.

`20,30` is u and v; `20,30; 20,70` are two places; `row of 5 from 37,37 pitch 32 along u`; `2 x 3 grid from
20,20 pitch 40 x 25` (2 along u, 3 along v); `circle of 6 on 80 pcd at 60,60 first at 30 deg` (from +u towards
+v). On the side of a round the second number is the angle: `40, 90 deg`.
"""

from __future__ import annotations

import math
import re
from dataclasses import dataclass
from decimal import Decimal
from fractions import Fraction

from calculators.planning.lines.counts import NUMBERS, in_figures
from calculators.planning.lines.line import GAP, Line, refusal
from calculators.planning.lines.measures import COORDINATE, POINTED, length_of, measure_pattern
from calculators.planning.model import Unit
from calculators.quantities.length import Length
from calculators.quantities.marks import quoted

MOST_PLACES = 2_000
WRITE = (
    "write places as 20,30; 20,70, row of 3 from 20,30 pitch 40 along u, 2 x 3 grid from 20,20 pitch 40 x 25 "
    "or circle of 6 on 80 pcd at 60,60"
)

_SIGNED = COORDINATE
_COORDINATE = re.compile(_SIGNED, re.IGNORECASE)
_DEGREES = re.compile(
    r"^(?P<number>[-+]?[0-9]{1,3}(?:[.,][0-9]{1,6})?) ?(?:°|deg(?:rees?)?\.?)?$", re.IGNORECASE
)
COUNT = rf"(?:[0-9]{{1,6}}|{'|'.join(NUMBERS)})"
_ALONG = re.compile(
    r"(?:along|in|down|across) (?:the )?(?P<way>u|v|x|y|length|width|grain)(?: (?:direction|axis))?"
    r"(?![^\W_])|(?P<word>lengthways|lengthwise|widthways|crossways)",
    re.IGNORECASE,
)
_WAYS = {
    **dict.fromkeys(("u", "x", "length", "lengthways", "lengthwise", "grain"), "u"),
    **dict.fromkeys(("v", "y", "width", "widthways", "crossways"), "v"),
}
_MEASURE = measure_pattern(POINTED)
_PITCH = re.compile(
    rf"(?:(?:at )?(?:pitch|pitched|spacing|spaced|centres|centers|crs)(?: of| at)? ?[:=]? ?"
    rf"(?P<a>{_MEASURE})(?: ?(?:x|by) ?(?P<b>{_MEASURE}))?"
    rf"|(?:at )?(?P<a2>{_MEASURE})(?: ?(?:x|by) ?(?P<b2>{_MEASURE}))? ?(?:pitch|spacing|centres|centers"
    rf"|crs|apart|ctrs))(?![^\W_])",
    re.IGNORECASE,
)
_ROW = re.compile(
    rf"(?<![^\W_])(?:row of (?P<a>{COUNT})|(?:(?P<b>{COUNT}) )?(?:holes? )?in a (?:row|line))(?![^\W_])",
    re.IGNORECASE,
)
_GRID = re.compile(
    r"(?<![^\W_])(?:(?P<a>[0-9]{1,4}) ?(?:x|by) ?(?P<b>[0-9]{1,4}) grid|grid of (?P<c>[0-9]{1,4}) ?(?:x|by) ?"
    r"(?P<d>[0-9]{1,4})"
    rf"|(?:(?P<count>{COUNT}) )?(?:holes? )?in a (?:grid(?: of)? (?P<e>[0-9]{{1,4}}) ?(?:x|by) ?"
    rf"(?P<f>[0-9]{{1,4}})(?! ?(?:mm|pitch))|(?P<e2>[0-9]{{1,4}}) ?(?:x|by) ?(?P<f2>[0-9]{{1,4}}) grid|"
    rf"(?P<plain>grid)))(?![^\W_])",
    re.IGNORECASE,
)
_CIRCLE = re.compile(
    rf"(?<![^\W_])(?:circle of (?P<a>{COUNT})|(?P<b>{COUNT}) (?:holes? )?(?:equally spaced )?(?:in|on"
    rf"|round) a circle)(?![^\W_])",
    re.IGNORECASE,
)
_PCD = re.compile(
    rf"(?:on |at )?(?:an? )?(?:(?P<a>{_MEASURE})(?: dia(?:meter)?)? ?(?:p\.?c\.?d\.?|b\.?c\.?d?\.?"
    rf"|pitch circle(?: dia(?:meter)?)?|bolt circle|circle)"
    rf"|(?:p\.?c\.?d\.?|pitch circle(?: dia(?:meter)?)?|bolt circle|circle)(?: of| dia)? ?"
    rf"(?P<b>{_MEASURE}))(?![^\W_])",
    re.IGNORECASE,
)
_FIRST = re.compile(
    r"\(? ?(?:the )?first(?: one| hole)? (?:at|on) (?P<deg>[-+]?[0-9]{1,3}(?:[.,][0-9]{1,6})?) ?(?:°|deg"
    r"(?:rees?)?\.?)? ?\)?(?![^\W_])",
    re.IGNORECASE,
)
_POINT = re.compile(
    rf"(?:from|at|starting at|start(?:ing)?|centred (?:at|on)|centre(?: at)?) (?P<point>{_SIGNED} ?(?:,"
    rf"| ) ?{_SIGNED}(?: ?(?:°|deg\w*))?)"
    rf"(?: to (?P<end>{_SIGNED} ?(?:,| ) ?{_SIGNED}(?: ?(?:°|deg\w*))?))?",
    re.IGNORECASE,
)
_AT = re.compile(r"(?:^|(?<![^\W_]))(?:at|@) ?(?P<rest>[-+]?[0-9.¼½¾].*)$", re.IGNORECASE)
_LEFT = re.compile(rf"^[ ,.:;()\-{GAP}]*$")


@dataclass(frozen=True, slots=True)
class Spot:
    """A place on a face: u, and v or on a side the angle."""

    u: Length
    v: Length | None = None
    angle_deg: Decimal | None = None


@dataclass(frozen=True, slots=True)
class Grid:
    """A pattern that was found: how many each way, the pitches, or a circle; its first place or centre."""

    way: str
    count: int
    across: int = 1


def take_spots(line: Line, unit: Unit, face: str, count: int | None = None) -> tuple[Spot, ...]:
    """Take the places out of a line.

    Args:
        line: the line.
        unit: [mm or in] what a bare number means.
        face: the face; on `side` the second number is an angle.
        count: how many the line says elsewhere [1], or None.

    Returns:
        The places in their order; those of a pattern are worked out exactly to 1e-7 mm.

    Raises:
        InputError: when there are none, or they cannot be read.

    Source: this project; the circle is plane geometry.
    """
    row, grid = line.take(_ROW), line.take(_GRID)
    circle = line.take(_CIRCLE)
    pcd = line.take(_PCD)
    if sum(each is not None for each in (row, grid, circle or pcd)) > 1:
        raise refusal(f"The line says more than one pattern; {WRITE}.")
    if row is not None:
        said = row["a"] or row["b"]
        spots = _row(line, in_figures(said) if said else count, unit, face)
    elif grid is not None:
        spots = _grid(line, grid, count, unit, face)
    elif circle is not None or pcd is not None:
        number = in_figures(circle["a"] or circle["b"]) if circle is not None else count
        spots = _circle(line, number, pcd, unit, face)
    else:
        spots = _listed(line, unit, face)
    if count is not None and count != len(spots):
        raise refusal(f"The line says {count}, but gives {len(spots)} place{'s' if len(spots) != 1 else ''}.")
    return spots


def _listed(line: Line, unit: Unit, face: str) -> tuple[Spot, ...]:
    found = line.take(_AT)
    if found is None:
        raise refusal(f"The line does not say where; {WRITE}.")
    pieces = [piece.strip() for piece in re.split(r"[;\x1f]| and ", found["rest"]) if piece.strip(" ,.)")]
    spots: list[Spot] = []
    for index, piece in enumerate(pieces):
        spot = _leading_spot(piece, unit, face)
        if spot is None:
            if index == 0:
                raise refusal(f"{quoted(piece)} is no place: it needs u and v; {WRITE}.")
            line.plain, line.shown = (
                f"{text}{GAP}{'; '.join(pieces[index:])}" for text in (line.plain, line.shown)
            )
            break
        spots.append(spot[0])
        if spot[1]:
            line.plain, line.shown = (f"{text}{GAP}{spot[1]}" for text in (line.plain, line.shown))
    return check_places(spots)


def check_places(spots: list[Spot]) -> tuple[Spot, ...]:
    """Check how many places there are.

    Args:
        spots: the places.

    Returns:
        The same.

    Raises:
        InputError: when there are none, or too many.

    Source: this project.
    """
    if not 1 <= len(spots) <= MOST_PLACES:
        raise refusal(f"There may be 1 to {MOST_PLACES:,} places on a line, not {len(spots):,}.")
    return tuple(spots)


_PAIR = re.compile(
    rf"^(?P<pair>(?P<u>{_SIGNED}) ?(?:,| ) ?(?P<v>{_SIGNED})(?P<deg> ?(?:°|deg(?:rees?)?\b\.?))?"
    rf"(?P<deg2> ?,? ?(?P<angle>[-+]?[0-9]{{1,3}}(?:\.[0-9]{{1,6}})?) ?(?:°|deg(?:rees?)?\b\.?))?)"
    rf"(?P<rest>.*)$",
    re.IGNORECASE | re.DOTALL,
)
_DECIMAL_COMMAS = re.compile(
    r"^(?P<u>[-+]?[0-9]+(?:,[0-9]+)?)(?:, +| +)(?P<v>[-+]?[0-9]+(?:,[0-9]+)?)(?P<deg> ?(?:°|deg"
    r"(?:rees?)?\b\.?))?(?P<rest>(?: |$).*)$",
    re.IGNORECASE | re.DOTALL,
)


def _leading_spot(piece: str, unit: Unit, face: str) -> tuple[Spot, str] | None:
    """Read the place that a piece begins with; the rest comes back."""
    found = _DECIMAL_COMMAS.match(piece)
    if found is None or "," not in found["u"] or "," not in found["v"]:
        found = _PAIR.match(piece)
        if found is None:
            return None
        if re.match(r" ?,? ?[-+]?[0-9.]+ ?(?:$|[,;])", found["rest"]):
            raise refusal(
                f"{quoted(piece)} has more than two numbers; part one place from the next with a semicolon."
            )
    return _spot(found["u"], found["v"], found["deg"] is not None, unit, face), found["rest"].strip(" ,.)")


def _spot(u: str, v: str, degrees: bool, unit: Unit, face: str) -> Spot:
    along = length_of(u.replace(" ", "") if u[0] in "+-" else u, unit, signed=True)
    if face == "side":
        return Spot(along, angle_deg=read_degrees(v))
    if degrees:
        raise refusal(f"An angle goes with the side of a round; on the {face or 'face'} write u and v.")
    return Spot(along, length_of(v.replace(" ", "") if v[0] in "+-" else v, unit, signed=True))


def read_degrees(text: str) -> Decimal:
    """Read an angle in degrees.

    Args:
        text: the angle, with or without its unit.

    Returns:
        The angle [deg], -360 to 360.

    Raises:
        InputError: when it is none.

    Source: this project.

    Example:
        >>> read_degrees("22,5 deg")
        Decimal('22.5')
    """
    found = _DEGREES.match(text.strip())
    value = Decimal(found["number"].replace(",", ".")) if found is not None else None
    if value is None or abs(value) > 360:
        raise refusal(f"{quoted(text)} is no angle; write degrees from -360 to 360, such as 90 deg.")
    return value


def take_along(line: Line) -> str:
    """Take `along u` or `along the width` out of a line.

    Args:
        line: the line.

    Returns:
        `u`, `v`, or nothing where the line does not say.

    Source: this project.
    """
    found = line.take(_ALONG)
    return _WAYS[(found["way"] or found["word"]).lower()] if found is not None else ""


def _start(line: Line, unit: Unit, face: str) -> tuple[Spot, Spot | None]:
    found = line.take(_POINT)
    if found is None:
        raise refusal(f"The line does not say from where; {WRITE}.")
    first = _leading_spot(found["point"], unit, face)
    end = _leading_spot(found["end"], unit, face) if found["end"] else None
    if first is None:
        raise refusal(f"{quoted(found['point'])} is no place; {WRITE}.")
    return first[0], end[0] if end is not None else None


def _pitches(line: Line, unit: Unit) -> tuple[Length, Length | None] | None:
    found = line.take(_PITCH)
    if found is None:
        return None
    first = length_of(found["a"] or found["a2"], unit)
    second = found["b"] or found["b2"]
    return first, length_of(second, unit) if second else None


def _checked(count: int) -> int:
    if not 1 <= count <= MOST_PLACES:
        raise refusal(f"There may be 1 to {MOST_PLACES:,} places on a line, not {count:,}.")
    return count


def _row(line: Line, count: int | None, unit: Unit, face: str) -> tuple[Spot, ...]:
    if count is None:
        raise refusal("The row does not say how many; write it as row of 5 from 37,37 pitch 32 along u.")
    _checked(count)
    pitches = _pitches(line, unit)
    first, end = _start(line, unit, face)
    if pitches is None and end is None:
        raise refusal(f"The row does not say its pitch; {WRITE}.", "pitch 32")
    if end is not None:
        if pitches is not None:
            raise refusal("The row says both its pitch and its end; write one of them.")
        return _between(first, end, count)
    assert pitches is not None
    way = take_along(line)
    if not way and count > 1:
        raise refusal(
            "The row does not say which way it runs; write along u or along v.", "along u", "along v"
        )
    if way == "v" and face == "side":
        raise refusal("On the side of a round a row runs along u; list places around it with their angles.")
    return tuple(
        _moved(first, i * pitches[0].ticks * (way == "u"), i * pitches[0].ticks * (way == "v"))
        for i in range(count)
    )


def _between(first: Spot, end: Spot, count: int) -> tuple[Spot, ...]:
    if count < 2 or first.v is None or end.v is None:
        raise refusal("A row from one place to another has two places or more, on a flat face.")
    spots = []
    for i in range(count):
        part = Fraction(i, count - 1)
        du, dv = (round(part * (b.ticks - a.ticks)) for a, b in ((first.u, end.u), (first.v, end.v)))
        spots.append(_moved(first, du, dv))
    return (*spots[:-1], end)


def _moved(spot: Spot, du: int, dv: int) -> Spot:
    u = Length(spot.u.ticks + du) if du else spot.u
    v = Length(spot.v.ticks + dv) if spot.v is not None and dv else spot.v
    return Spot(u, v, spot.angle_deg)


def _grid(line: Line, found: re.Match[str], count: int | None, unit: Unit, face: str) -> tuple[Spot, ...]:
    along = found["a"] or found["c"] or found["e"] or found["e2"]
    across = found["b"] or found["d"] or found["f"] or found["f2"]
    said = in_figures(found["count"]) if found["count"] else count
    if along is None:
        side = math.isqrt(said) if said else 0
        if not said or side * side != said:
            raise refusal(
                "The grid does not say how many each way; write it as 2 x 3 grid from 20,20 pitch 40 x 25."
            )
        along = across = str(side)
    assert across is not None
    many_u, many_v = int(along), int(across)
    _checked(many_u * many_v)
    if said is not None and said != many_u * many_v:
        raise refusal(f"The line says {said}, but a grid of {many_u} x {many_v} has {many_u * many_v}.")
    pitches = _pitches(line, unit)
    if pitches is None:
        raise refusal("The grid does not say its pitch; write pitch 40 x 25, along u and along v.")
    if face == "side":
        raise refusal("There is no grid on the side of a round; list the places with their angles.")
    first, _ = _start(line, unit, face)
    pitch_u, pitch_v = pitches[0].ticks, (pitches[1] or pitches[0]).ticks
    return tuple(_moved(first, i * pitch_u, j * pitch_v) for j in range(many_v) for i in range(many_u))


def _circle(
    line: Line, count: int | None, pcd: re.Match[str] | None, unit: Unit, face: str
) -> tuple[Spot, ...]:
    if pcd is None:
        raise refusal("The circle does not say its diameter; write it as circle of 6 on 80 pcd at 60,60.")
    if count is None:
        raise refusal("The circle does not say how many; write it as circle of 6 on 80 pcd at 60,60.")
    if face == "side":
        raise refusal("There is no circle on the side of a round; list the places with their angles.")
    _checked(count)
    diameter = length_of(pcd["a"] or pcd["b"], unit)
    first = line.take(_FIRST)
    start = read_degrees(first["deg"]) if first is not None else Decimal(0)
    centre, _ = _start(line, unit, face)
    assert centre.v is not None
    spots = []
    for i in range(count):
        angle = math.radians(float(start) + 360.0 * i / count)
        du, dv = (round(diameter.ticks / 2 * way(angle)) for way in (math.cos, math.sin))
        spots.append(Spot(Length(centre.u.ticks + du), Length(centre.v.ticks + dv)))
    return tuple(spots)


def is_empty(text: str) -> bool:
    """Say whether nothing of a line is left but gaps and stops.

    Args:
        text: what is left.

    Returns:
        True when nothing is.

    Source: this project.

    Example:
        >>> is_empty(" ,; "), is_empty("deep")
        (True, False)
    """
    return _LEFT.match(text) is not None
