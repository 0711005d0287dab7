"""The inks of drawings hold their contrast on paper and screen, in colour and in the grey of a plain printer.

WCAG 2.2, 1.4.3 (lettering 4.5:1) and 1.4.11 (lines that matter 3:1), with its relative luminance (from
memory). Hatching says what a part is made of and is kept lighter than outlines; the words beside it say the
material too. It is held to 3:1 all the same, its opacity counted in, so that a grey print shows it.
"""

from __future__ import annotations

import re
from pathlib import Path

import pytest

from calculators.drawing.svg import INKS, LINES, PAPER, RED_WASH, STEEL

STYLES = Path(__file__).parents[2] / "buildlog" / "static"
GROUNDS = {"paper": PAPER, "white": "#ffffff", "steel": STEEL, "red wash": RED_WASH}
WIDTHS_MM = {"outline": 0.5, "edge": 0.35, "thin": 0.25, "hidden": 0.25, "centre": 0.25, "dimension": 0.25}
"""Thick 0.5 and thin 0.25 of ISO 128-2's line group 0.5 (from memory)."""


def rgb(colour):
    return tuple(int(colour[i : i + 2], 16) for i in (1, 3, 5))


def over(colour, ground, opacity):
    return tuple(opacity * a + (1 - opacity) * b for a, b in zip(colour, ground, strict=True))


def grey(colour):
    """What a printer without colour makes of it: the weights of ITU-R BT.601 (from memory)."""
    tone = sum(share * part for share, part in zip((0.299, 0.587, 0.114), colour, strict=True))
    return (tone, tone, tone)


def luminance(colour):
    parts = [c / 255 for c in colour]
    linear = [c / 12.92 if c <= 0.04045 else ((c + 0.055) / 1.055) ** 2.4 for c in parts]
    return 0.2126 * linear[0] + 0.7152 * linear[1] + 0.0722 * linear[2]


def contrast(one, other):
    high, low = sorted((luminance(one), luminance(other)), reverse=True)
    return (high + 0.05) / (low + 0.05)


def test_contrast_is_reckoned_as_the_guideline_does():
    """Black on white is 21:1; #767676 on white is the grey that just passes 4.5:1 (4.54)."""
    assert contrast(rgb("#000000"), rgb("#ffffff")) == pytest.approx(21)
    assert contrast(rgb("#767676"), rgb("#ffffff")) == pytest.approx(4.54, abs=0.005)


@pytest.mark.parametrize("ground", ["paper", "white"])
@pytest.mark.parametrize("ink", INKS)
def test_lettering_is_read_in_colour_and_in_grey(ink, ground):
    colour, under = rgb(INKS[ink]), rgb(GROUNDS[ground])
    assert contrast(colour, under) >= 4.5
    assert contrast(grey(colour), grey(under)) >= 4.5


@pytest.mark.parametrize("ground", GROUNDS)
@pytest.mark.parametrize("line", [line for line in LINES if line != "none"])
def test_lines_are_seen_in_colour_and_in_grey(line, ground):
    said = LINES[line]
    under = rgb(GROUNDS[ground])
    opacity = float((re.search(r'stroke-opacity="([\d.]+)"', said) or ["", "1"])[1])
    colour = over(rgb(re.search(r'stroke="(#[0-9a-f]{6})"', said)[1]), under, opacity)
    if line in {"hatch", "grain"} and ground in {"steel", "red wash"}:
        return  # only cut faces are hatched, and those are paper
    assert contrast(colour, under) >= 3
    assert contrast(grey(colour), grey(under)) >= 3


@pytest.mark.parametrize("line", LINES)
def test_no_line_is_thinner_than_a_printer_draws(line):
    if line == "none":
        assert "width" not in LINES[line]
        return
    width = float(re.search(r'stroke-width="([\d.]+)"', LINES[line])[1])
    assert width >= 0.18
    assert width == WIDTHS_MM.get(line, width)


def test_a_finding_is_told_from_the_outline_in_grey_by_its_width():
    """Red and ink are near one another in grey, so a finding's line is the widest of all, and it has words."""
    widths = {
        name: float((re.search(r'stroke-width="([\d.]+)"', said) or [0, 0])[1])
        for name, said in LINES.items()
    }
    assert widths["finding"] > max(width for name, width in widths.items() if name != "finding")


def test_drawings_keep_their_light_ground_in_the_dark():
    """On a dark page, and with forced colours, the ground of a drawing stays the paper that its inks need."""
    styles = (STYLES / "oddleg.css").read_text(encoding="utf-8")
    grounds = re.findall(r"\.drawing-ground \{([^}]*background: (#[0-9a-f]{6})[^}]*)\}", styles)
    assert len(grounds) >= 2
    for _, colour in grounds:
        assert contrast(rgb(colour), rgb(PAPER)) == pytest.approx(1, abs=0.02)
    dark = next(rules for rules, _ in grounds if "--ink" in rules)
    assert contrast(rgb(re.search(r"--ink: (#[0-9a-f]{6})", dark)[1]), rgb(PAPER)) >= 7
