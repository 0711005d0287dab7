"""What a line says of one member of a joint's stack: thread, drilled, edge, fit, grain; an item's sizes."""

from __future__ import annotations

import re
from typing import Any

from calculators.hardware.threads import find_thread
from calculators.planning.lines.line import refusal, tidied
from calculators.planning.lines.measures import MEASURE, length_of
from calculators.planning.model import Unit
from calculators.quantities.marks import quoted

_MEASURED = re.compile(
    rf"^(?:measured )?(?:(?P<thick>{MEASURE})(?: thick)?|(?:od|outside(?: dia(?:meter)?)?) ?"
    rf"(?P<outside>{MEASURE})|(?P<outside2>{MEASURE}) (?:od|outside)|body ?(?P<body>{MEASURE}))$",
    re.IGNORECASE,
)


def say_item_detail(text: str, unit: Unit, said: dict[str, Any]) -> None:
    """Read what was measured of a washer, nut or insert.

    Args:
        text: what stands in brackets.
        unit: [mm or in] what a bare number means.
        said: where it is put.

    Raises:
        InputError: when it cannot be read.

    Source: this project.
    """
    for clause in re.split(r" ?[,;] ?(?![0-9])| and ", text):
        found = _MEASURED.match(clause.strip())
        if found is None:
            raise refusal(
                f"{quoted(clause)} is not understood; of an item write 1.2 thick, outside 10 or body 6.5."
            )
        for name in ("thick", "outside", "outside2", "body"):
            if found[name]:
                key = {"thick": "thickness", "outside2": "outside"}.get(name, name)
                said[key] = length_of(found[name], unit)


_DETAILS: tuple[tuple[re.Pattern[str], str], ...] = tuple(
    (re.compile(rf"(?<![^\W_])(?:{pattern})(?![^\W_])", re.IGNORECASE), name)
    for pattern, name in (
        (rf"(?:full )?thread(?:ed)?(?: depth)?(?: to)? (?P<a>{MEASURE})(?: deep)?|(?P<b>{MEASURE}) "
         rf"(?:of )?(?:full )?thread|tapped (?P<c>{MEASURE}) deep", "thread_depth"),
        (rf"(?:drilled|drill|hole)(?: to)? (?P<a>{MEASURE})(?: deep)?|(?:pilot|clearance|clear) "
         rf"(?P<b>{MEASURE}) deep", "drilled_depth"),
        (rf"tapped (?P<a>[^,;]+?)(?: (?P<b>{MEASURE}) deep)?(?= ?(?:[,;]|$))", "thread"),
        (rf"edge (?:distance )?(?P<a>{MEASURE})|(?P<b>{MEASURE}) from (?:the |its )?(?:edge|face)", "edge"),
        (rf"end (?:distance )?(?P<a>{MEASURE})|(?P<b>{MEASURE}) from (?:the |its )?end", "end"),
        (rf"(?P<a>{MEASURE}) thick|thick(?:ness)? (?P<b>{MEASURE})", "thickness"),
        (r"(?P<a>close|medium|free)(?: fit)?(?: clearance)?", "fit"),
        (r"(?:in(?:to)? )?(?P<a>side|end)[ -]grain", "grain"),
        (r"clearance(?: hole)?"
         r"|clear(?: hole)?", "clearance"), (r"pilot(?: hole)?", "pilot"), (r"plain(?: hole)?", "plain"),
        (r"(?:with )?insert", "insert"), (r"threaded|tapped|thread", "takes thread"),
    )
)  # fmt: skip


def take_details(text: str, unit: Unit, said: dict[str, Any]) -> str:
    """Take what is said of one part of a joint out of a piece: thread, drilled, edge, fit, grain.

    Args:
        text: the piece.
        unit: [mm or in] what a bare number means.
        said: where it is put.

    Returns:
        What is left of the piece.

    Raises:
        InputError: when one cannot be read.

    Source: common practice.
    """
    for pattern, name in _DETAILS:
        found = pattern.search(text)
        if found is None:
            continue
        value = next((each for each in found.groupdict().values() if each), "")
        if name in ("clearance", "pilot", "plain", "insert", "takes thread"):
            said.setdefault("takes", name.removeprefix("takes "))
        elif name == "thread":
            said["takes"], said["thread"] = "thread", find_thread(value, field="line").designation
            if found["b"]:
                said["thread_depth"] = length_of(found["b"], unit)
        elif name in ("fit", "grain"):
            said[name] = value.lower()
        else:
            said[name] = length_of(value, unit)
            if name == "thread_depth":
                said["takes"] = "thread"
        text = f"{text[: found.start()]} {text[found.end() :]}"
    return tidied(text)
