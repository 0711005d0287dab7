"""Sentences of the check in the units that a person reads. The inch is 25.4 mm exactly (from memory)."""

from __future__ import annotations

import pytest
from django.test import Client

from buildlog.builds.templatetags import written
from buildlog.workshops.models import Person


@pytest.mark.parametrize(
    ("sentence", "in_inches"),
    [
        ("The point comes out of P01 by 3.2 mm.", "The point comes out of P01 by 0.126 in."),
        ("effective diameter 4.480 against 4.310 mm", "effective diameter 0.1764 against 0.1697 in"),
        ("41.9 to 46.4 mm long", "1.650 to 1.827 in long"),
        ("drill 2.5 mm, 30 mm deep", "drill 2.5 mm, 1.181 in deep"),
        ("Use M6 x 20 mm cut to 18 mm", "Use M6 x 20 mm cut to 18 mm"),
        ("7.4 N/mm² on 50 mm²", "7.4 N/mm² on 50 mm²"),
        ("<b>3 mm</b>", "&lt;b&gt;0.118 in&lt;/b&gt;"),
    ],
)
def test_a_sentence_is_told_in_inches_and_names_stay(
    sentence: str, in_inches: str, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(written, "shown_units", lambda: "in")
    assert str(written.told(sentence)) == in_inches


@pytest.mark.parametrize("units", ["mm", "both"])
def test_a_sentence_stays_in_millimetres_for_others(units: str, monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(written, "shown_units", lambda: units)
    assert str(written.told("3.2 mm too long")) == "3.2 mm too long"


@pytest.mark.database
def test_the_check_in_inches_has_no_finding_in_millimetres(client: Client, demonstration: Person) -> None:
    demonstration.units = "in"
    demonstration.save(update_fields=["units"])
    page = client.get("/workshops/thornbank-workshop/builds/TW-31/").content.decode()
    assert "0.835 in of screw for 0.709 in of thread" in page  # 21.2 mm and 18.0 mm
    assert "mm of screw" not in page
