"""How units and formulas stand on a page: mm² for mm2, a degree sign, a root, raised and lowered figures.

Commands, JSON and terminals keep the plain letters, which everybody can type.
"""

from __future__ import annotations

import re
from functools import lru_cache

from django import template
from django.utils.html import conditional_escape
from django.utils.safestring import SafeString, mark_safe

from buildlog.builds.templatetags.written import fractions

register = template.Library()

_RAISED = str.maketrans("0123456789-", "⁰¹²³⁴⁵⁶⁷⁸⁹⁻")
_GREEK = {
    "alpha": "α", "beta": "β", "lambda": "λ", "mu": "μ", "nu": "ν", "pi": "π", "rho": "ρ", "tau": "τ",
}  # fmt: skip
_NEAR = re.compile(r"\bnear (?:(?!\bnear ).){1,60}? in \([^()]{1,20}\)")
_INCH_THREAD = re.compile(r"(?<![\w/>-])(\d{1,2}-\d{1,3} [A-Z]{2,4})(?!\w)")
_UNIT_POWER = re.compile(
    r"(?<=[\s/(])(mm|cm|m|in|ft|s)([234])(?!\w|\.\d)|(?<=\d )(mm|cm|m|in|ft)([234])(?!\w|\.\d)"
)
_TIMES = re.compile(r"(?<=[\d)%°]) x (?=[\d(-])")
_TIMES_IN_WORDS = re.compile(r"(?<=[\w)%°]) x (?!(?:and|axis|for|in|is|of|or|to)\b)(?=[\d(√-]|[a-zπ]{2,})")
_GREEK_NAME = re.compile(rf"(?<![A-Za-z])({'|'.join(_GREEK)})(?![A-Za-z])")
_WHOLE_POWER = re.compile(r"\^(-?\d+)(?![\d.])")
_OTHER_POWER = re.compile(r"\^(\d*\.\d+|\w+|\([^()]*\))")
_LOWERED = re.compile(r"(?<![A-Za-z])([A-Za-zα-ω])_([A-Za-z0-9]+)")


@register.filter
def units(text: object) -> SafeString:
    """Escape a text with figures and set its fractions and its units as the trade writes them."""
    return _units(text if isinstance(text, SafeString) else str(text))


@lru_cache(maxsize=8192)
def _units(text: str) -> SafeString:
    found = _INCH_THREAD.sub(r'<span class="keep">\1</span>', fractions(text))
    found = _NEAR.sub(r'<span class="keep">\g<0></span>', found)
    return mark_safe(_signs(found))


@register.filter
def formula(text: object) -> SafeString:
    """Escape a line of working and set it as a handbook does: Greek letters, roots, powers, units."""
    return _formula(str(text))


@lru_cache(maxsize=8192)
def _formula(text: str) -> SafeString:
    found = _signs(str(conditional_escape(text)))
    found = _GREEK_NAME.sub(lambda each: _GREEK[each[1]], found)
    found = re.sub(r"(?<![A-Za-z])sqrt(?: (?=\d)|(?=\())", "√", found)
    found = _TIMES_IN_WORDS.sub(" × ", found)
    found = _WHOLE_POWER.sub(lambda each: each[1].translate(_RAISED), found)
    found = _OTHER_POWER.sub(lambda each: f"<sup>{each[1].strip('()')}</sup>", found)
    return mark_safe(_LOWERED.sub(r"\1<sub>\2</sub>", found))


def _signs(text: str) -> str:
    """Units and signs of a text that is escaped already."""
    text = _UNIT_POWER.sub(
        lambda each: f"{each[1] or each[3]}{(each[2] or each[4]).translate(_RAISED)}", text
    )
    text = re.sub(r"(?<=\d) deg(?![\w/])", "°", text)
    text = re.sub(r"(?<![A-Za-z])deg([CF])(?!\w)", r"°\1", text)
    text = re.sub(r"(?<=\d )um(?!\w)", "µm", text)
    text = re.sub(r"(?<=\d) 1/in(?!\w)", " per inch", text)
    return _TIMES.sub(" × ", text)
