"""Hours, pictures and marks as they stand in an entry."""

from __future__ import annotations

from decimal import Decimal
from typing import Any

from django import template
from django.urls import reverse

from buildlog.journal.hours import hours_shown
from buildlog.pictures.queries import Size

register = template.Library()


@register.filter
def hours(value: Decimal | None) -> str:
    """Hours to the minute, or nothing."""
    return hours_shown(value) if value is not None else ""


@register.simple_tag(takes_context=True)
def picture_at(context: dict[str, Any], digest: str, size: Size) -> str:
    """The address of a picture of the workshop in hand."""
    return reverse("pictures:picture", args=(context["workshop"].slug, digest, size))


@register.simple_tag(takes_context=True)
def mark_at(context: dict[str, Any], mark: str) -> str:
    """Where a mark leads in the build in hand: to its joint, its calculation or its part."""
    build = context["build"]
    here = (context["workshop"].slug, build.number)
    if any(joint.mark == mark for joint in build.joints):
        return reverse("builds:joint", args=(*here, mark))
    if any(kept.mark == mark for kept in build.calculations):
        return reverse("calculations:calculation", args=(*here, mark))
    return reverse("builds:component", args=(*here, mark.partition(".")[0]))  # P02.1 is a copy of P02
