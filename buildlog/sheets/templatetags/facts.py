"""How the values on a sheet stand on a page: in the units of the person who reads it."""

from __future__ import annotations

import re

from django import template
from django.utils.html import format_html
from django.utils.safestring import SafeString

from buildlog.builds.templatetags.written import fractions, inches, told
from buildlog.workshops.units import shown_units

register = template.Library()
_ONE_LENGTH = re.compile(r"(\d+(?:\.\d+)?) mm")


@register.filter
def fact(text: str) -> SafeString:
    """A value of a sheet: a single length with its inches, or in them; sentences as the check tells them."""
    alone = _ONE_LENGTH.fullmatch(text)
    if alone is None or shown_units() == "mm":
        return told(text)
    in_inches = inches(float(alone[1]))
    return in_inches if shown_units() == "in" else format_html("{} ({})", fractions(text), in_inches)
