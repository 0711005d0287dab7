"""How lengths and numbers stand on a page: as written, true fractions, no more digits than they bear."""

from __future__ import annotations

import re
from functools import lru_cache
from typing import Literal

import nh3
from django import template
from django.utils.html import conditional_escape, format_html, linebreaks
from django.utils.safestring import SafeString, mark_safe
from markdown_it import MarkdownIt

from buildlog.workshops.units import shown_units
from calculators.quantities.display import fractional_inches, millimetres
from calculators.quantities.length import Length

register = template.Library()
LONGEST_MARKDOWN, DEEPEST_MARKDOWN = 20_000, 8
"""The longest text whose Markdown is set [characters], and how deep quotes and lists in it are nested."""
_FRACTION = re.compile(r"(?<![\w/.])(?:(\d+)[ -])?(\d{1,3}/\d{1,3})(?![\w/.])")


@register.filter
def fractions(text: object) -> SafeString:
    """Escape a text and set its fractions as fractions, the whole number beside them as it is."""

    def as_fraction(found: re.Match[str]) -> str:
        whole = f"{found[1]}\u00a0" if found[1] else ""
        return f'{whole}<span class="fraction">{found[2]}</span>'

    return mark_safe(
        _FRACTION.sub(
            as_fraction, conditional_escape(text if isinstance(text, (str, SafeString)) else str(text))
        )
    )


_NUMBER = r"\d+(?:\.\d+)?"
# A drill, a screw's length and what it is cut to are names of things, and stay as they are bought.
_SAID = re.compile(
    rf"(?<![\w./])(?<!drill )(?<!x )(?<!cut to )"
    rf"(?:(?P<first>{_NUMBER})(?P<between> (?:against|to|and|or|by) ))?(?P<last>{_NUMBER}) mm(?![\w²³/])"
)


@register.filter
def told(text: object) -> SafeString:
    """A sentence of the check, whose millimetres are thousandths of an inch for a person who reads inches."""
    sentence = str(text)
    return fractions(_SAID.sub(_told_in_inches, sentence) if shown_units() == "in" else sentence)


def _told_in_inches(found: re.Match[str]) -> str:
    numbers = [each for each in (found["first"], found["last"]) if each]
    places = 4 if any(len(each.partition(".")[2]) > 2 for each in numbers) else 3
    return f"{(found['between'] or '').join(f'{float(each) / 25.4:.{places}f}' for each in numbers)} in"


@register.filter
def mm(value: Length | float | Literal[""] | None) -> str:
    """Millimetres to a hundredth without noughts at the end, or nothing."""
    if value is None or value == "":
        return ""
    return millimetres(value if isinstance(value, Length) else Length.of_mm(value)).removesuffix(" mm")


@register.filter
def written(value: Length | None) -> SafeString:
    """A length as it was written, and in the person's units where that is not the same."""
    if value is None:
        return mark_safe("")
    if not value.written:
        return size(value)
    return _as_written(value, shown_units())


@lru_cache(maxsize=8192)
def _as_written(value: Length, units: str) -> SafeString:
    metric = _is_metric(value)
    others = [mm(value)] * (units != "in" and not metric) + [str(inches(value))] * (units != "mm" and metric)
    return _with_others(fractions(value.written.removesuffix(" mm")), others)


@register.filter
def written_mm(value: Length | None) -> SafeString:
    """A length as it was written, with its millimetres where it was not written in them: for paper."""
    if value is None:
        return mark_safe("")
    if not value.written:
        return fractions(mm(value))
    if _is_metric(value):
        return fractions(value.written.removesuffix(" mm"))
    return fractions(f"{value.written} ({mm(value)})")


def _is_metric(value: Length) -> bool:
    """Tell whether a length was written in millimetres, centimetres or metres."""
    bare = value.unit == "mm" and re.fullmatch(r"[\d.,]+", value.written)
    return bool(bare or re.search(r"[\d.]\s*[cm]?m\b", value.written))


@register.filter
def size(value: Length | float | Literal[""] | None) -> SafeString:
    """A length that was worked out, in the person's units: millimetres bare, inches with their sign."""
    if value is None or value == "":
        return mark_safe("")
    return _in_units(value, shown_units())


@lru_cache(maxsize=8192)
def _in_units(value: Length | float, units: str) -> SafeString:
    match units:
        case "mm":
            return fractions(mm(value))
        case "in":
            return inches(value)
    return _with_others(fractions(mm(value)), [str(inches(value))])


def _with_others(first: SafeString, others: list[str]) -> SafeString:
    """A length with what it is in other units beside it, softly."""
    if not others:
        return first
    return mark_safe(f'{first} <span class="other">{", ".join(others)}</span>')


@register.simple_tag
def unit_word() -> str:
    """The units of a column of lengths, for its heading."""
    return {"mm": "mm", "in": "in"}.get(shown_units(), "mm, in")


@register.filter
def inches(value: Length | float | Literal[""] | None) -> SafeString:
    """The nearest sixty-fourth of an inch; the millimetres beside it are the exact ones."""
    if value is None or value == "":
        return mark_safe("")
    length = value if isinstance(value, Length) else Length.of_mm(value)
    return fractions(fractional_inches(length, say_from_mm=1.0))


@lru_cache(maxsize=1)
def _markdown() -> MarkdownIt:
    return MarkdownIt("commonmark", {"html": False, "maxNesting": DEEPEST_MARKDOWN}).enable("table")


@register.filter
@lru_cache(maxsize=100)
def markdown(text: str) -> SafeString:
    """Render Markdown (tables too) and then take out all that a page must not hold.

    Its headings stand two levels lower, below the page's own (h1) and that of the entry (h2). A text that
    would take seconds to render, which somebody could write on purpose, stands as it was typed.
    """
    if len(text) > LONGEST_MARKDOWN:
        says = f"This text has {len(text):,} characters. It stands as it was typed: Markdown is set in texts"
        typed = mark_safe(linebreaks(text, autoescape=True))
        return format_html('<p class="soft">{} of up to {}.</p>{}', says, f"{LONGEST_MARKDOWN:,}", typed)
    parser = _markdown()
    tokens = parser.parse(text)
    for token in tokens:
        if token.type in ("heading_open", "heading_close"):
            token.tag = f"h{min(6, int(token.tag[1:]) + 2)}"
    return mark_safe(nh3.clean(parser.renderer.render(tokens, parser.options, {})))
