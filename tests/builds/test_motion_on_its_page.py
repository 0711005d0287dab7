"""The page of a part that moves shows how it moves; that of one that does not shows nothing of it."""

from __future__ import annotations

import pytest
from django.test import Client

from buildlog.workshops.models import Person

pytestmark = [pytest.mark.database, pytest.mark.shows]

PARTS = "/workshops/thornbank-workshop/builds/TW-31/parts"


def test_the_boom_is_drawn_at_rest_and_at_both_ends(client: Client, demonstration: Person) -> None:
    page = client.get(f"{PARTS}/P16/").content.decode()
    assert (
        page.count("<title>P16: how it moves, to scale</title>") == 2
    )  # the broad drawing and the narrow one
    assert '<section id="motion"><h2>How it moves</h2>' in page
    assert "P16.1 turns from " in page or "P16 turns from " in page


def test_a_part_that_stands_still_has_no_such_drawing(client: Client, demonstration: Person) -> None:
    page = client.get(f"{PARTS}/P01/").content.decode()
    assert "how it moves" not in page
    assert 'id="motion"' not in page
