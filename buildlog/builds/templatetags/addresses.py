"""Addresses within the build in hand."""

from __future__ import annotations

from typing import Any

from django import template
from django.urls import reverse

register = template.Library()


@register.simple_tag(takes_context=True)
def at(context: dict[str, Any], name: str, *args: object) -> str:
    """The address with this name in the build that the page is of: `{% at 'builds:joint' joint.mark %}`."""
    return reverse(name, args=(context["workshop"].slug, context["build"].number, *args))
