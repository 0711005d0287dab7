"""The order of assembly: steps entered, changed, moved with the finding going, removed."""

from __future__ import annotations

from dataclasses import replace
from html import unescape

import pytest
from django.db import connection
from django.http import HttpResponse
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build, fingerprint, undo
from buildlog.builds.listing import ROWS
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import _PLAIN, _WORKED, plain_of, worked_of
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain
from calculators.planning.edits import find, finding_key
from calculators.planning.order import RULE

pytestmark = pytest.mark.database
ORDER = "/workshops/thornbank-workshop/builds/TW-31/order/"


def row() -> Build:
    return Build.rows.get(number="TW-31")


def step(number: int) -> plain.AssemblyStep:
    return find(plain_of(row()), "step", str(number))  # type: ignore[no-any-return]


def seen(number: int) -> str:
    return fingerprint("step", step(number))


def titles() -> list[str]:
    return [one.title for one in sorted(plain_of(row()).steps, key=lambda one: one.number)]


def text(answer: HttpResponse) -> str:
    return unescape(answer.content.decode())


def late() -> list[str]:
    return [finding.says for finding in worked_of(row()).findings if finding.rule == RULE]


@pytest.fixture
def too_late(demonstration: Person) -> str:
    """The stop screws F10 are fitted in step 8, though step 6 closes the bottom."""

    def edit(build: plain.Build) -> plain.Build:
        steps = {one.number: one for one in build.steps}
        steps[2] = replace(steps[2], fits=("P20", "P21"))
        steps[5] = replace(steps[5], closes=())
        steps[6] = replace(steps[6], closes=("F10",))
        steps[8] = replace(steps[8], fits=(*steps[8].fits, "F10"))
        return replace(build, steps=tuple(steps.values()))

    change_build(row(), demonstration, edit, "Stop screws late")
    return "F10 is fitted in step 8, but step 6 closes it."


def test_each_step_is_shown_with_what_it_fits_and_closes_and_its_caution(
    client: Client, demonstration: Person
) -> None:
    page = text(client.get(ORDER))
    for one in plain_of(row()).steps:
        assert f'id="step-{one.number}"' in page
    assert "Router: clamp the board and the fence" in page
    assert "11 steps" in page
    assert "F10</b> Stop posts" in page or ">F10</b>" in page


def test_journey_8_the_finding_stands_at_the_step_and_goes_when_it_is_moved(
    client: Client, demonstration: Person, too_late: str
) -> None:
    page = text(client.get(ORDER))
    assert "1 thing is fitted after what closes it" in page
    at_8 = page[page.index('id="step-8"') : page.index('id="step-9"')]
    assert too_late in at_8
    assert "Move step 8 before step 6" in at_8
    answer = client.post(f"{ORDER}8/move/", {"before": "6", "seen": seen(8)})
    assert (answer.status_code, answer["Location"]) == (302, f"{ORDER}?at=6#step-6")
    assert late() == []
    assert titles()[5] == "V-block, boom, wire, bob"
    page = text(client.get(answer["Location"].partition("#")[0]))
    assert "Step 8, V-block, boom, wire, bob, comes before Step 6, Battens" in page
    assert "1 mended" in page
    undo(row(), demonstration)
    assert late() == [too_late]


def test_one_action_of_the_finding_mends_the_order(
    client: Client, demonstration: Person, too_late: str
) -> None:
    finding = next(one for one in worked_of(row()).findings if one.rule == RULE)
    page = text(client.get(ORDER))
    assert f'name="key" value="{finding_key(finding)}"' in page
    answer = client.post(
        "/workshops/thornbank-workshop/builds/TW-31/mend/",
        {"key": finding_key(finding), "at": "0", "back": ORDER},
    )
    assert answer["Location"] == ORDER
    assert late() == []


def test_steps_are_entered_one_a_line_and_what_is_not_understood_stays(
    client: Client, demonstration: Person
) -> None:
    lines = "Level it on the bench: check it does not rock\nHang the sign: fits P99\n"
    answer = client.post(ORDER, {"lines": lines})
    page = text(answer)
    assert answer.status_code == 422
    assert titles()[-1] == "Level it on the bench"
    assert step(12).check == "it does not rock"
    assert 'value="Hang the sign: fits P99"' in page
    assert "P99" in page[page.index("was not understood") :]
    assert "Step 12 Level it on the bench added" in page
    answer = client.post(ORDER, {"lines": ["", "Hang the sign: fits P09"]}, follow=True)
    assert answer.redirect_chain == [(ORDER, 302)]
    assert "Step 13 Hang the sign added" in text(answer)
    assert 'data-saved="TW-31/order"' in text(answer)


def test_a_step_is_changed_by_its_line_or_by_its_fields(client: Client, demonstration: Person) -> None:
    page = text(client.get(f"{ORDER}6/"))
    assert "Step 6 on one line" in page
    answer = client.post(
        f"{ORDER}6/", {"line": "6 Battens on: closes F10; tools No. 2 driver", "seen": seen(6)}
    )
    assert answer["Location"] == f"{ORDER}?at=6#step-6"
    assert (step(6).title, step(6).closes, step(6).tools) == ("Battens on", ("F10",), ("No. 2 driver",))
    assert "F01" in step(6).fits
    sent = {
        "title": "Battens",
        "fits": "P02, F01; C23",
        "closes": "",
        "tools": "driver\nwax",
        "caution": "Sharp <edges>",
        "seen": seen(6),
    }
    assert client.post(f"{ORDER}6/", sent).status_code == 302
    now = step(6)
    assert (now.title, now.fits, now.closes, now.tools) == (
        "Battens",
        ("P02", "F01", "C23"),
        (),
        ("driver", "wax"),
    )
    assert "Sharp &lt;edges&gt;" in client.get(ORDER).content.decode()


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"line": "6 Battens: fits P999"}, "P999"),
        ({"line": ""}, "The line says nothing"),
        ({"line": "7 Battens"}, "There is a step 7 already"),
        ({"line": "x" * 70_000}, "characters"),
        ({"title": "", "fits": ""}, "This field is required."),
        ({"title": "Battens", "fits": "P02, ZZ9"}, "'ZZ9'"),
        ({"title": "Battens", "closes": "P02.77"}, "P02.77"),
        ({"title": "a\x00b"}, "Null characters are not allowed."),
        ({"title": "Battens", "note": "x" * 20_001}, "20000"),
        ({"title": "x" * 201}, "200"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_said_and_what_was_typed_stays(
    sent: dict[str, str], says: str, client: Client, demonstration: Person
) -> None:
    before = plain_of(row())
    answer = client.post(f"{ORDER}6/", {**sent, "seen": seen(6)})
    assert answer.status_code == 422
    assert says in text(answer)
    assert plain_of(row()) == before
    typed = sent.get("line") or sent.get("fits") or sent.get("closes")
    assert not typed or typed in text(answer)


def test_the_second_of_two_sees_both_versions(client: Client, demonstration: Person) -> None:
    rob, print_then = Person.objects.get(username="rob"), seen(6)

    def renamed(build: plain.Build) -> plain.Build:
        steps = tuple(replace(one, title="Rob's words") if one.number == 6 else one for one in build.steps)
        return replace(build, steps=steps)

    change_build(row(), rob, renamed, "Step 6")
    for sent in (
        {"title": "My words", "fits": "P02", "seen": print_then},
        {"line": "6 My words", "seen": print_then},
    ):
        answer = client.post(f"{ORDER}6/", sent)
        page = text(answer)
        assert answer.status_code == 422
        assert "Rob Teasdale" in page
        assert "Rob's words" in page
        assert 'value="My words"' in page
        assert step(6).title == "Rob's words"
    assert client.post(f"{ORDER}6/", {"conflict": "theirs", "seen": seen(6)}).status_code == 302
    assert step(6).title == "Rob's words"
    client.post(f"{ORDER}6/", {"conflict": "mine", "title": "My words", "fits": "P02", "seen": seen(6)})
    assert step(6).title == "My words"


def test_a_step_that_was_moved_by_another_is_not_moved_by_mistake(
    client: Client, demonstration: Person
) -> None:
    stale = seen(8)
    client.post(f"{ORDER}8/move/", {"before": "1", "seen": seen(8)})
    before = titles()
    page = text(client.post(f"{ORDER}8/move/", {"before": "1", "seen": stale}, follow=True))
    assert "Nothing was moved: step 8 was changed by Ines Hallam since you saw it." in page
    assert titles() == before


@pytest.mark.parametrize(
    ("number", "before", "place"),
    [(1, "3", 2), (11, "1", 1), (1, "", 11), (5, "4", 4), (5, "7", 6), (5, "5", 5)],
)  # fmt: skip
def test_a_step_goes_where_it_is_put(
    number: int, before: str, place: int, client: Client, demonstration: Person
) -> None:
    title = step(number).title
    client.post(f"{ORDER}{number}/move/", {"before": before, "seen": seen(number)})
    assert titles().index(title) == place - 1
    assert [one.number for one in plain_of(row()).steps] == list(range(1, 12))


def test_up_and_down_say_where_they_go_and_keep_the_focus(client: Client, demonstration: Person) -> None:
    page = text(client.get(ORDER))
    first = page[page.index('id="step-1"') : page.index('id="step-2"')]
    assert "Move step 1 up" not in first
    assert 'name="before" value="3"' in first
    last = page[page.index('id="step-11"') :]
    assert 'aria-label="Move step 11 down"' not in last
    answer = client.post(f"{ORDER}5/move/?way=down", {"before": "7", "seen": seen(5)})
    assert answer["Location"] == f"{ORDER}?at=6#down-6"
    assert 'id="down-6"' in text(client.get(ORDER))
    answer = client.post(f"{ORDER}2/move/?way=up", {"before": "1", "seen": seen(2)})
    assert answer["Location"] == f"{ORDER}?at=1#down-1"
    answer = client.post(f"{ORDER}10/move/?way=down", {"before": "", "seen": seen(10)})
    assert answer["Location"] == f"{ORDER}?at=11#up-11"


def test_a_step_is_removed_and_comes_back(client: Client, demonstration: Person) -> None:
    before = plain_of(row())
    answer = client.post(f"{ORDER}4/remove/", {"seen": seen(4)}, follow=True)
    assert "Step 4, Finish the base: 3 coats of shellac, 2 days, wax after 7, removed" in text(answer)
    assert len(titles()) == 10
    undo(row(), demonstration)
    assert plain_of(row()) == before


@pytest.mark.parametrize(
    ("address", "sent"),
    [
        ("99/move/", {"before": "1"}), ("8/move/", {"before": "99"}), ("8/move/", {"before": "x"}),
        ("8/move/", {"before": "9" * 5000}), ("8/move/", {"before": "-1"}), ("99/remove/", {}), ("99/", {"line": "x"}),
    ],
)  # fmt: skip
def test_nonsense_moves_nothing(
    address: str, sent: dict[str, str], client: Client, demonstration: Person
) -> None:
    before = plain_of(row())
    answer = client.post(f"{ORDER}{address}", sent, follow=True)
    assert answer.status_code == 200
    assert "strip error" in text(answer)
    assert plain_of(row()) == before


def test_addresses_that_are_none_are_not_found(client: Client, demonstration: Person) -> None:
    for address in ("99/", f"{'9' * 5000}/", "x/", "1/move/x/"):
        assert client.get(f"{ORDER}{address}").status_code == 404
    assert client.get(f"{ORDER}8/move/").status_code == 405


def test_viewers_read_and_strangers_do_not(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = text(client.get(ORDER))
    assert "New steps" not in page
    assert '<form class="move"' not in page
    for address in ("", "6/", "6/move/", "6/remove/"):
        assert client.post(ORDER + address, {"line": "x"}).status_code == 403
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(ORDER).status_code == 404
    assert client.post(f"{ORDER}6/move/").status_code == 404


def test_a_long_order_is_paged_and_asks_a_constant_number_of_times(
    client: Client, demonstration: Person
) -> None:
    here = Workshop.objects.get(slug="thornbank-workshop")
    part = plain.Component("P1", "Seat")

    def asked(count: int) -> int:
        steps = tuple(plain.AssemblyStep(i, f"Step number {i}", fits=("P1",)) for i in range(1, count + 1))
        begin_build(here, None, plain.Build(f"L{count}", "Long", components=(part,), steps=steps), "Begun")
        _PLAIN._things.clear()
        _WORKED._things.clear()
        with CaptureQueriesContext(connection) as queries:
            answer = client.get(f"/workshops/thornbank-workshop/builds/L{count}/order/")
        assert answer.status_code == 200
        assert answer.content.decode().count("<li id=") == min(count, ROWS)
        return len(queries)

    assert asked(3) == asked(250)
    long = "/workshops/thornbank-workshop/builds/L250/order/"
    assert 'id="step-200"' in text(client.get(f"{long}?at=200"))
    assert 'id="step-150"' in text(client.get(f"{long}150/"))
    assert text(client.get(f"{long}?find=number+77")).count("<li id=") == 2  # 77 and 177
    assert "No step has these words." in text(client.get(f"{long}?find=zzz"))


def test_every_change_of_the_order_is_one_in_the_log(client: Client, demonstration: Person) -> None:
    count = Change.objects.count()
    client.post(f"{ORDER}8/move/", {"before": "1", "seen": seen(8)})
    assert Change.objects.count() == count + 1
