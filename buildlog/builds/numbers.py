"""The number that a new build is offered."""

from __future__ import annotations

import re

from buildlog.builds.models import Build
from buildlog.workshops.models import Workshop


def next_number(workshop: Workshop) -> str:
    """A number that no build of the workshop has, after the manner of those that it has."""
    taken = list(Build.rows.of(workshop).order_by("pk").values_list("number", flat=True))
    return number_after(taken, workshop.name)


def number_after(taken: list[str], name: str) -> str:
    """The number that follows those that are taken; the first has the initials of the workshop.

    >>> number_after(["TW-31", "TW-33", "B1"], "Thornbank Workshop")
    'TW-34'
    >>> number_after([], "Thornbank Workshop")
    'TW-01'
    """
    counted: dict[str, list[str]] = {}
    for number in taken:
        found = re.fullmatch(r"(.*?)([0-9]{1,12})", number)
        if found:
            counted.setdefault(found[1], []).append(found[2])
    if counted:
        before, figures = max(counted.items(), key=lambda item: len(item[1]))
    else:
        initials = "".join(word[0] for word in name.split() if word[0].isalnum())[:3].upper()
        before, figures = f"{initials or 'B'}-", ["00"]
    last = max(figures, key=int)
    number = f"{before}{int(last) + 1:0{len(last)}d}"
    while number in taken or len(number) > 40:
        number = f"B-{len(taken) + 1}" if len(number) > 40 else f"{number}-2"
    return number
