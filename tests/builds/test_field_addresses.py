"""Each field of the build file has a place on a page, to which a finding's `at` leads: with that very id."""

from __future__ import annotations

import re
from functools import lru_cache
from urllib.parse import unquote

import pytest
from django.test import Client

from buildlog.builds.field_at import field_at, field_words
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of, worked_of
from buildlog.workshops.models import Person
from calculators.planning.buildfile.declaration import (
    COMPONENT_RECORD,
    CONTEXT_RECORD,
    HOLE_RECORD,
    JOINT_RECORD,
    LAYER_HOLE_RECORD,
    PLACE_RECORD,
    POCKET_RECORD,
    POSE_RECORD,
    SIZE_RECORD,
    STACK_RECORD,
    STEP_RECORD,
)

pytestmark = [pytest.mark.database, pytest.mark.shows]
BUILD = "/workshops/thornbank-workshop/builds/TW-31/"

PATHS = (
    *(f"components[P12].{name}" for name in COMPONENT_RECORD.declared),
    *(f"components[P12].{kind}.{name}" for kind in ("size", "made_size", "rough") for name in SIZE_RECORD.declared),
    *(f"components[P12].holes[W].{name}" for name in HOLE_RECORD.declared),
    *(f"components[P01].pockets[R].{name}" for name in POCKET_RECORD.declared),
    *(f"components[P37].poses[2].{name}" for name in POSE_RECORD.declared),
    *(f"joints[F01].{name}" for name in JOINT_RECORD.declared),
    *(f"joints[F01].places[2].{name}" for name in PLACE_RECORD.declared),
    *(f"joints[F03].stack[P10].{name}" for name in STACK_RECORD.declared),
    *(f"joints[F03].stack[0].holes[0].{name}" for name in LAYER_HOLE_RECORD.declared),
    *(f"steps[8].{name}" for name in STEP_RECORD.declared),
    *(f"context.{name}" for name in CONTEXT_RECORD.declared),
    "context.limits[edge-distance]", "context.rules_off[screw-bottoms]",
    "calculations[K01].title", "calculations[K01].note", "calculations[K01].limits[0].value",
    "number", "title", "due", "readings", "moisture", "stock", "steps",
)  # fmt: skip


@lru_cache(maxsize=200)
def _ids(client: Client, page: str) -> frozenset[str]:
    answer = client.get(page)
    assert answer.status_code == 200, page
    return frozenset(re.findall(r'\bid="([^"]*)"', answer.content.decode()))


def test_every_field_leads_to_a_place_that_is_there(client: Client, demonstration: Person) -> None:
    build = plain_of(Build.rows.get(number="TW-31"))
    lost = []
    for path in PATHS:
        address = field_at(build, path)
        page, _, fragment = f"{BUILD}{address}".partition("#")
        assert page, path
        if fragment and unquote(fragment) not in _ids(client, page):
            lost.append((path, address))
        elif not fragment:
            _ids(client, page)
    assert lost == []


@pytest.mark.parametrize(
    ("path", "address"),
    [
        ("components[P12].holes[W].diameter", "parts/P12/?hole=W#hole-W"),
        ("components[P37].size.bore", "parts/P37/#id_bore"),
        ("components[P37].made_size.bore", "parts/P37/#id_made_bore"),
        ("components[P37].poses[2].let_in", "parts/P37/?pose=2#pose-2"),
        ("joints[F01].places[2].u", "joints/F01/places/#place-2"),
        ("joints[F03].torque_nm", "joints/F03/change/#id_torque_nm"),
        ("joints[F03].fastener", "joints/F03/#id_fastener"),
        ("steps[8].fits", "order/8/#id_fits"),
        ("context.taps", "about/#context-taps"),
        ("context.limits[edge-distance]", "rules/#limit-edge-distance"),
        ("context.rules_off", "rules/"),
        ("title", "about/#about-title"),
        ("calculations[K01].title", "calculations/K01/change/#id_kept-title"),
        ("steps", "order/"),
        ("acceptances", "#accepted"),
    ],
)
def test_the_address_is_that_of_the_very_field(
    path: str, address: str, client: Client, demonstration: Person
) -> None:
    assert field_at(plain_of(Build.rows.get(number="TW-31")), path) == address


@pytest.mark.parametrize(
    "path",
    ["", "nonsense", "components[P99].name", "joints[]", "steps[-1].fits", "[[[", "x" * 5_000,
     "components[²].name", "joints[99999999999].title", "\x00"],
)  # fmt: skip
def test_a_path_that_leads_nowhere_has_no_address(path: str, client: Client, demonstration: Person) -> None:
    assert field_at(plain_of(Build.rows.get(number="TW-31")), path) == ""
    field_words(path)


def test_the_findings_of_the_demonstration_lead_to_places_that_are_there(
    client: Client, demonstration: Person
) -> None:
    worked = worked_of(Build.rows.get(number="TW-31"))
    found = [one for one in worked.findings if one.at]
    assert len(found) > 5
    for one in found:
        address = field_at(worked.build, one.at)
        assert address, one
        page, _, fragment = f"{BUILD}{address}".partition("#")
        if fragment:
            assert unquote(fragment) in _ids(client, page), (one.rule, one.at, address)


def test_a_mark_with_odd_signs_stays_in_its_address(client: Client, demonstration: Person) -> None:
    from dataclasses import replace

    build = plain_of(Build.rows.get(number="TW-31"))
    odd = replace(build, components=(replace(build.components[0], mark="P 1#é?"),))
    assert field_at(odd, "components[P 1#é?].name") == "parts/P%201%23%C3%A9%3F/#id_name"
