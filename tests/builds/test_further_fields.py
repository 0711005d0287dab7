"""The fields that few need: folds, motion, play; glue of steps; plating of joints; readings, hardware, printer."""

from __future__ import annotations

from dataclasses import replace
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from django.test import Client

from buildlog.builds.actions import begin_build, change_build, fingerprint
from buildlog.builds.component_form import ComponentForm
from buildlog.builds.header_forms import ContextForm
from buildlog.builds.joint_forms import JointForm
from buildlog.builds.models import Build
from buildlog.builds.queries import plain_of
from buildlog.builds.step_forms import StepForm
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain
from calculators.quantities import Length, read_length

pytestmark = [pytest.mark.database, pytest.mark.shows]
HERE = "/workshops/thornbank-workshop/builds/TW-43/"


def mm(text: str) -> Length:
    return read_length(text, unit="mm")


STAND = plain.Build(
    "TW-43",
    "Stand",
    components=(
        plain.Component("P1", "Bracket", material="brass", stock="sheet", size=plain.Size("block", mm("80"), mm("20"), mm("2"))),
        plain.Component("P2", "Arm", size=plain.Size("block", mm("90"), mm("9"), mm("9"))),
        plain.Component("P3", "Bob"),
    ),
    joints=(plain.Joint("F1", "Arm", "M3 x 8 csk brass", home="P1", stack=(plain.StackMember("P1"),)),),
    steps=(plain.AssemblyStep(1, "Glue up", fits=("P1",)),),
    stock=(plain.Stock("S1", "2 mm brass"),),
)  # fmt: skip


@pytest.fixture
def row(demonstration: Person) -> Build:
    return begin_build(Workshop.objects.get(slug="thornbank-workshop"), demonstration, STAND, "Begun")


def now() -> plain.Build:
    return plain_of(Build.rows.get(number="TW-43"))


def shown(form: Any) -> dict[str, Any]:
    sent = {name: form.fields[name].prepare_value(form[name].value()) for name in form.fields}
    return {name: value for name, value in sent.items() if value not in (None, "", False)}


def part(client: Client, mark: str, **sent: Any) -> Any:
    page = client.get(f"{HERE}parts/{mark}/")
    fields = shown(page.context["form"]) | {"seen": page.context["bare_seen"]} | sent
    return client.post(f"{HERE}parts/{mark}/", fields, follow=True)


def test_a_part_has_folds_motion_play_and_what_it_rests_on(client: Client, row: Build) -> None:
    part(
        client, "P1", bends="at 25 across, 90 deg, radius 2\r\nb9: at 55, annealed # gently", legs="24; 31.5; 24",
        evidence="measured", from_stock="S1 2 mm brass", made_to="A", end_float="0.5", end_shake="5 thou",
        motion_kind="turns", motion_axis="Z", motion_least="-5", motion_most="7,5", motion_x="10", motion_carries="P2 P3",
    )  # fmt: skip
    one = now().components[0]
    assert one.bends == (
        plain.Bend("b1", mm("25"), "across", Decimal(90), mm("2")),
        plain.Bend("b9", mm("55"), annealed=True, note="gently"),
    )
    assert one.legs == (mm("24"), mm("31.5"), mm("24"))
    assert (one.evidence, one.from_stock, one.made_to) == ("measured", "S1", "A")
    assert (one.end_float, one.end_shake) == (mm("0.5"), mm("5 thou"))
    assert one.motion == plain.Motion(
        "turns", "Z", Decimal(-5), Decimal("7.5"), mm("10"), carries=("P2", "P3")
    )
    again = ComponentForm(shown(ComponentForm(component=one, unit="mm")), component=one, unit="mm")
    assert again.is_valid(), again.errors
    assert again.read(one) == one
    page = client.get(f"{HERE}parts/P1/").content.decode()
    assert "<details open><summary>Folds" in page
    part(
        client,
        "P1",
        motion_kind="",
        motion_axis="",
        motion_least="",
        motion_most="",
        motion_x="",
        motion_carries="",
        bends="",
    )
    assert (now().components[0].motion, now().components[0].bends) == (None, ())


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"bends": "at 25\r\nsideways"}, "“sideways”: "),
        ({"bends": "at 99"}, "it must be more than 0 and less than the length, 80 mm"),
        ({"legs": "24; long"}, "cannot be read"),
        ({"from_stock": "S7"}, "There is no stock"),
        ({"motion_kind": "turns", "motion_most": "5"}, "Say about or along which of its own axes it moves."),
        ({"motion_kind": "slides", "motion_axis": "X"}, "Say how far it goes"),
        ({"motion_most": "5"}, "Say whether it turns or slides"),
        ({"motion_kind": "turns", "motion_axis": "X", "motion_most": "0"}, "moves nothing"),
        ({"motion_kind": "turns", "motion_axis": "X", "motion_most": "5", "motion_carries": "P9"}, "There is no component"),
        ({"motion_kind": "turns", "motion_axis": "X", "motion_most": "5", "motion_carries": "P1"}, "cannot carry itself"),
        ({"end_float": "1/0"}, "end_float"),
        ({"evidence": "hearsay"}, "evidence"),
    ],
)  # fmt: skip
def test_what_cannot_be_stays_with_its_sentence(
    client: Client, row: Build, sent: dict[str, str], says: str
) -> None:
    answer = part(client, "P1", **sent)
    assert answer.status_code == 422
    form = answer.context["form"]
    told = " ".join(str(one) for errors in form.errors.values() for one in errors)
    assert says in told or says in form.errors
    for name, value in sent.items():
        assert form[name].value() == value
    assert now() == STAND


def test_a_note_of_several_lines_stays_with_its_bend(
    demonstration: Person, row: Build, client: Client
) -> None:
    bend = plain.Bend("b1", mm("25"), note="one\ntwo")
    noted = replace(STAND.components[0], bends=(bend,))
    change_build(row, demonstration, lambda b: replace(b, components=(noted, *b.components[1:])), "A bend")
    part(client, "P1", bends="b1: at 26 across, 90 deg")
    assert now().components[0].bends == (replace(bend, at=mm("26")),)


def test_a_step_is_glued_and_cures(client: Client, row: Build) -> None:
    step = now().steps[0]
    sent = shown(StepForm(initial=StepForm.of(step))) | {"seen": fingerprint("step", step)}
    sent |= {
        "glued": "P1, P2",
        "open_minutes": "15",
        "rehearsed_minutes": "9,5 min",
        "cure_hours": "24",
        "done": "2025-06-06",
    }
    client.post(f"{HERE}order/1/", sent)
    assert now().steps[0] == replace(
        step, glued=("P1", "P2"), open_minutes=Decimal(15), rehearsed_minutes=Decimal("9.5"), cure_hours=Decimal(24),
        done=date(2025, 6, 6),
    )  # fmt: skip
    page = client.get(f"{HERE}order/").content.decode()
    assert "P1, P2; open for 15 min, rehearsed in 9.5; cures in 24 h" in page
    sent |= {"seen": fingerprint("step", now().steps[0]), "glued": "P9"}
    answer = client.post(f"{HERE}order/1/", sent)
    assert answer.status_code == 422
    assert "There is no component" in answer.content.decode()


def test_a_joint_is_plated_and_spotted(client: Client, row: Build) -> None:
    joint = now().joints[0]
    sent = shown(JointForm(initial=JointForm.of(joint), unit="mm")) | {"seen": fingerprint("joint", joint)}
    client.post(f"{HERE}joints/F1/change/", sent | {"coating": "0.008", "spotted": "on"})
    assert now().joints[0] == replace(joint, coating=mm("0.008"), spotted=True)


def test_the_readings_are_lists_that_keep_their_ids(client: Client, row: Build) -> None:
    def post(**sent: str) -> Any:
        seen = client.get(f"{HERE}about/").context["seen_readings"]
        return client.post(f"{HERE}about/", {"what": "readings", "seen_readings": seen, **sent}, follow=True)

    says = post(
        readings="P2 length 90.3 ± 0.8 front photograph\nP2 length 90 by caliper # the old one",
        moisture="2025-03-01 9.5 % P2\n2025-04-01 10 %",
    ).content.decode()
    assert "TW-43: 2 readings now and 2 moisture readings now" in says
    assert now().readings == (
        plain.Reading("r1", "P2 length", mm("90.3"), mm("0.8"), "front photograph", "photograph"),
        plain.Reading("r2", "P2 length", mm("90"), method="caliper", note="the old one"),
    )
    assert [(one.id, one.percent, one.parts) for one in now().moisture] == [
        ("m1", Decimal("9.5"), ("P2",)), ("m2", Decimal(10), ()),
    ]  # fmt: skip
    before = now()
    form = client.get(f"{HERE}about/").context["readings"]
    post(**form.initial)
    assert now() == before
    lines = form.initial["readings"].splitlines()
    post(readings=lines[1], moisture=form.initial["moisture"])
    assert [one.id for one in now().readings] == ["r2"]
    answer = post(readings="P2 bore\nP9 length 3\nP2 length 7", moisture="dry")
    assert answer.status_code == 422
    page = answer.content.decode()
    assert "gives no size" in page
    assert "gives no percentage" in page
    assert "P2 length 7" in page
    answer = post(readings="P9 length 3", moisture="")
    assert "there is no component or joint" in answer.content.decode()
    assert [one.id for one in now().readings] == ["r2"]


def test_somebody_elses_readings_are_not_overwritten(
    client: Client, row: Build, demonstration: Person
) -> None:
    seen = client.get(f"{HERE}about/").context["seen_readings"]
    theirs = plain.Reading("r1", "P2 length", mm("91"))
    change_build(row, Person.objects.get(username="rob"), lambda b: replace(b, readings=(theirs,)), "Rob's")
    sent = {"what": "readings", "readings": "P2 width 9", "moisture": "", "seen_readings": seen}
    answer = client.post(f"{HERE}about/", sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "Somebody changed the readings while you had them open" in page
    assert "P2 width 9" in page
    assert "r1: P2 length 91" in page
    assert now().readings == (theirs,)


def test_hardware_printer_and_place_are_what_the_check_depends_on(client: Client, row: Build) -> None:
    def post(**sent: str) -> Any:
        given = shown(ContextForm(initial=ContextForm.of(now().context)))
        seen = fingerprint("build", now())
        return client.post(f"{HERE}about/", {**given, "what": "context", "seen": seen, **sent}, follow=True)

    post(
        hardware="M5 x 20 csk steel: 12\n4 off M5 nut\n2 x M5 nut", printer_along_mm="100.1 mm", printer_across_mm="99,9",
        printer_on="2025-06-01", position_mm="0.2", place_moisture_percent="9 %",
    )  # fmt: skip
    context = now().context
    assert context.hardware == (("M5 x 20 csk steel", Decimal(12)), ("M5 nut", Decimal(6)))
    assert (context.printer_along_mm, context.printer_across_mm) == (Decimal("100.1"), Decimal("99.9"))
    assert (context.printer_on, context.position_mm) == (date(2025, 6, 1), Decimal("0.2"))
    assert context.place_moisture_percent == Decimal(9)
    answer = post(hardware="M5 x 20 csk steel\n3 off what is this")
    assert answer.status_code == 422
    assert "it does not say how many" in answer.content.decode()
    answer = post(position_mm="900")
    assert answer.status_code == 422
    assert now().context == context
