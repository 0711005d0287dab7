"""Where a field of the build file is on the pages of its build: where a finding's `at` leads to."""

from __future__ import annotations

import re
from collections.abc import Sequence
from typing import Any
from urllib.parse import quote, urlencode

from buildlog.builds.component_form import KINDS, SIZES, ComponentForm
from buildlog.builds.header_forms import AboutForm, ContextForm
from buildlog.builds.joint_forms import HoleForm, JointForm, MemberForm
from buildlog.builds.step_forms import StepForm
from calculators.planning import model as plain

Steps = list[tuple[str, str | None]]

_STEP = re.compile(r"\.?([a-z_]+)(?:\[([^\]]*)\])?")
_KEYS = ("mark", "id", "number", "part", "copy")
_FEATURES = {"holes": "hole", "pockets": "pocket", "poses": "pose"}
_NAMES = {
    "holes": "hole", "pockets": "pocket", "poses": "copy", "places": "place", "steps": "step",
    "bends": "bend", "limits": "limit", "inputs": "input", "ties": "tie", "stock": "stock", "joints": "joint",
    "components": "part", "calculations": "calculation", "stack": "layer", "made_size": "as made",
    "rough": "cut out at", "rules_off": "rule", "readings": "reading", "releases": "release",
    "moisture": "moisture reading", "acceptances": "acceptance",
}  # fmt: skip
_PAGES = {
    "components": "parts/", "joints": "joints/", "steps": "order/", "calculations": "calculations/",
    "stock": "rack/", "readings": "about/#readings-readings", "moisture": "about/#readings-moisture",
    "releases": "parts/", "acceptances": "#accepted",
}  # fmt: skip
"""The pages of whole lists."""

_ON_TEMPLATES = {
    "printer": "printer", "printer_on": "along", "printer_along_mm": "along", "printer_across_mm": "across",
    "printer_along_drawn_mm": "along_drawn", "printer_across_drawn_mm": "across_drawn",
}  # fmt: skip
"""What is typed in on the page of a template."""

_SIZES = {field: before for before, field in KINDS.items()}


def field_at(build: plain.Build, path: str) -> str:
    """The address of a field within its build (`parts/P01/?hole=h1#hole-h1`); '' where no page has it.

    `path` is that of the build file: `components[P01].holes[h1].depth`, `joints[F01].places[2].u`.
    """
    steps: Steps = [(each[1], each[2]) for each in _STEP.finditer(path.strip())]
    if not steps:
        return ""
    (name, key), rest = steps[0], steps[1:]
    if name == "context":
        return _of_context(rest)
    if key is None:
        return f"about/#about-{name}" if name in AboutForm.base_fields else _PAGES.get(name, "")
    held = _held(getattr(build, name, ()), key)
    if held is None:
        return ""
    one, _ = held
    if name == "components":
        return f"parts/{_said(one.mark)}/" + _of_component(one, rest)
    if name == "joints":
        return f"joints/{_said(one.mark)}/" + _of_joint(one, rest)
    if name == "steps":
        field = rest[0][0] if rest and rest[0][0] in StepForm.base_fields else ""
        return f"order/{one.number}/#" + (f"id_{field}" if field else f"step-{one.number}")
    if name == "calculations":
        return f"calculations/{_said(one.mark)}/" + _of_calculation(one, rest)
    if name == "acceptances":
        return f"#accepted-{_said(one.id)}"
    return f"rack/#stock-{_said(one.mark)}" if name == "stock" else _PAGES.get(name, "")


def field_words(path: str) -> str:
    """A field in words: `hole h1, depth` for `components[P01].holes[h1].depth`.

    >>> field_words("joints[F01].places[2].u"), field_words("context.taps"), field_words("steps[8].fits")
    ('place 2, u', 'taps', 'step 8, fits')
    """
    steps: Steps = [(each[1], each[2]) for each in _STEP.finditer(path.strip())]
    if steps and steps[0][0] in ("components", "joints", "calculations", "context") and steps[1:]:
        steps = steps[1:]
    words = []
    for name, key in steps:
        if name in ("size", "stack") and key is None:
            continue
        bare = _NAMES.get(name, name.replace("_", " ").removesuffix(" mm").removesuffix(" deg"))
        words.append(f"{bare} {key}" if key else bare)
    return ", ".join(words)


def _of_context(rest: Steps) -> str:
    name, key = rest[0] if rest else ("", None)
    if name in ("limits", "rules_off"):
        kind = "limit" if name == "limits" else "rule"
        return f"rules/#{kind}-{_said(key)}" if key else "rules/"
    if name in _ON_TEMPLATES:
        return f"template/#id_{_ON_TEMPLATES[name]}"
    return f"about/#context-{name}" if name in ContextForm.base_fields else "about/"


def _of_component(one: plain.Component, rest: Steps) -> str:
    if not rest:
        return ""
    name, key = rest[0]
    if name in _FEATURES:
        kind = _FEATURES[name]
        held = _held(getattr(one, name), key) if key is not None else None
        if held is None:
            return f"#{kind}s"
        said = str(held[0].copy) if kind == "pose" else held[0].id
        return f"?{urlencode({kind: said})}#{kind}-{_said(said)}"
    if name in _SIZES and rest[1:] and rest[1][0] in SIZES:
        return f"#id_{_SIZES[name]}{rest[1][0]}"
    if name in _SIZES:
        return f"#id_{_SIZES[name]}length"
    if name == "motion":
        return f"#id_motion_{rest[1][0] if rest[1:] else 'kind'}"
    if name == "outline":
        return "#outline"
    known = name in ComponentForm.base_fields or name in ("corner_radius", "end_float", "end_shake")
    return f"#id_{name}" if known else "#fields"


def _of_joint(one: plain.Joint, rest: Steps) -> str:
    if not rest:
        return ""
    name, key = rest[0]
    if name == "fastener":
        return "#id_fastener"
    if name == "places":
        held = _held(one.places, key) if key is not None else None
        return "places/#id_places" if held is None else f"places/#place-{_said(held[0].id)}"
    if name in ("home", "face"):
        return f"places/#id_{name}"
    if name == "stack":
        held = _held(one.stack, key) if key is not None else None
        return "#stack" if held is None else f"stack/{held[1]}/" + _of_member(held[0], rest[1:])
    known = name in JointForm.base_fields or name in JointForm.lengths
    return f"change/#id_{name}" if known else "change/"


def _of_member(one: plain.StackMember, rest: Steps) -> str:
    if not rest:
        return ""
    name, key = rest[0]
    if name == "holes":
        held = _held(one.holes, key) if key is not None else None
        index = held[1] if held is not None else 0
        field = rest[1][0] if rest[1:] else ""
        known = field in HoleForm.base_fields or field in HoleForm.lengths
        return f"#id_hole-{index}-{field if known else 'places'}"
    known = name in MemberForm.base_fields or name in MemberForm.lengths
    return f"#id_{name}" if known else ""


def _of_calculation(one: plain.Calculation, rest: Steps) -> str:
    if not rest:
        return ""
    name, key = rest[0]
    if name == "inputs" and key:
        return f"change/#{_said(key)}"
    if name == "ties" and key:
        return f"change/#tie-{_said(key)}"
    return f"change/#id_kept-{name}" if name in ("title", "mark", "note") else "change/"


def _held(records: Sequence[Any], key: str) -> tuple[Any, int] | None:
    """The record with a key and where it stands; by its number where none has the key."""
    for index, one in enumerate(records):
        if key and any(str(getattr(one, name, "")) == key for name in _KEYS):
            return one, index
    at = int(key) if key.isascii() and key.isdigit() and len(key) < 7 else -1
    return (records[at], at) if 0 <= at < len(records) else None


def _said(text: object) -> str:
    return quote(str(text), safe="")
