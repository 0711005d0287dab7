"""How a section lies on its sheet: the columns, the scale, and the way from the joint to the paper."""

from __future__ import annotations

from collections.abc import Sequence
from dataclasses import dataclass, replace

from calculators.drawing.lettering import text_width
from calculators.drawing.scales import SCALES
from calculators.drawing.section_plan import Plan
from calculators.drawing.svg import Point


@dataclass(frozen=True, slots=True)
class Sheet:
    """The columns of a sheet [mm]: the drawing from `left` to `right`, dimensions and labels beside it.

    `chain` has the thicknesses, `facts` the other lengths that matter, `length` that of the screw.
    """

    width: float
    left: float
    right: float
    chain: float
    length: float
    labels: float
    tallest: float
    narrow: bool
    facts: float = 0.0

    def for_letters(self, letter_mm: float) -> Sheet:
        """Return a sheet whose columns hold lettering of this size [mm]: wider for more than 4 mm."""
        by = max(1.0, letter_mm / 4.0)
        return replace(
            self,
            width=by * self.width,
            left=by * self.left,
            right=by * self.right,
            chain=by * self.chain,
            length=by * self.length,
            labels=by * self.labels,
        )

    def for_words(self, chain: Sequence[str], facts: Sequence[str], letter_mm: float) -> Sheet:
        """Return a sheet whose columns on the left are as wide as the numbers that stand in them.

        The drawing gives way: its left side moves, and its scale with it.
        """
        wide = max((text_width(words, letter_mm) for words in chain), default=0.0)
        also = max((text_width(words, letter_mm) for words in facts), default=0.0)
        # From the paper's edge: the length with its words, then each column's words, line and clear space.
        at = 1.0 if self.narrow else 2.4 + letter_mm
        length = self.length if self.narrow else at
        if facts:
            at += also + LED + 1.4
        column = at
        at += wide + LED + 1.4 + (1.0 if facts else 0.0)
        left = max(at + 4.0, self.left)
        push = max(left - 4.0 - at, 0.0)
        return replace(
            self, left=left, chain=at + push, facts=column + push, length=length + push * (not self.narrow)
        )


LED = 3.8
"""Room for the short leader of a number that has to stand beside its place [mm]."""

WIDE = Sheet(172, 30, 104, 24, 11, 114, 112, narrow=False)
NARROW = Sheet(92, 18, 66, 14, 85, 74, 92, narrow=True)


@dataclass(frozen=True, slots=True)
class View:
    """The way from the joint's millimetres to the sheet's: x about `centre`, z down from `top` or up."""

    scale: float
    centre: float
    top: float
    bottom: float
    half_width: float
    near: float
    far: float
    head_up: bool

    def at(self, x: float, z: float) -> Point:
        """Return where a point of the joint lies on the sheet [mm]."""
        down = (z - self.near) if self.head_up else (self.far - z)
        return (self.centre + x * self.scale, self.top + down * self.scale)

    def ring(self, points: Sequence[Point]) -> list[Point]:
        """Return where a line of points of the joint lies on the sheet [mm]."""
        return [self.at(x, z) for x, z in points]


def view_of(plan: Plan, sheet: Sheet, *, head_up: bool) -> View:
    """Choose the scale, the largest at which the whole section fits, and the width of the parts.

    Args:
        plan: what is drawn.
        sheet: the sheet.
        head_up: whether the head is at the top.

    Returns:
        The view.

    Source: ISO 5455 (scales, from memory).
    """
    high = max(plan.far - plan.near, 1e-6)
    room = (sheet.right - sheet.left) / 2
    # The view on the head's end takes no more than two fifths of the room on top of the section's.
    end = 2 * plan.end.reach if plan.end else 0.0
    scale = next(
        (
            s
            for s in SCALES
            if high * s <= sheet.tallest
            and end * s <= 0.4 * sheet.tallest
            and plan.half_width * s <= room - 3
        ),
        SCALES[-1],
    )
    wide = min(room, max(plan.half_width * scale * 1.3 + 4, 0.55 * high * scale, 18.0))
    centre = (sheet.left + sheet.right) / 2
    return View(scale, centre, 0.0, high * scale, wide / scale, plan.near, plan.far, head_up)
