"""Side K, the kept calculations: kept from the bench or in the build, old beside new, changed, taken out."""

from __future__ import annotations

from dataclasses import replace
from html import unescape
from urllib.parse import urlencode

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import change_build, fingerprint
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of, worked_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.quantities import read_length
from tests.calculations.sending import sent_of

pytestmark = [pytest.mark.database, pytest.mark.usefixtures("for_a_reason")]
BUILD = "/workshops/thornbank-workshop/builds/TW-31/"
KEPT = f"{BUILD}calculations/"
NEW = f"{BUILD}new-calculation/wood-movement/"


@pytest.fixture
def demonstration(demonstration: Person) -> Person:
    """The demonstration's person, with a build that keeps no calculation yet."""
    change_build(row(), None, lambda build: replace(build, calculations=()), "The calculations were put away")
    return demonstration


def row() -> Build:
    return Build.rows.get(number="TW-31")


def kept(mark: str = "K01") -> plain.Calculation:
    found: plain.Calculation = find(plain_of(row()), "calculation", mark)
    return found


def page_of(client: Client, address: str, status: int = 200) -> str:
    answer = client.get(address)
    assert answer.status_code == status, answer.content.decode()[:3000]
    return unescape(answer.content.decode())


def one(**more: object) -> plain.Calculation:
    """The movement of the base board, tied to its width of 260 mm."""
    inputs = (
        ("width", "260 mm"),
        ("species", "white oak"),
        ("cut", "flat"),
        ("from_moisture", "8 %"),
        ("to_moisture", "12 %"),
    )
    made = plain.Calculation(
        "K01", "Base across the grain", "wood-movement", inputs, (("width", "P01 width"),)
    )
    return replace(made, **more)  # type: ignore[arg-type]


LIMIT = plain.ResultLimit("movement", "at most", "4 mm")


def keep(person: Person, calculation: plain.Calculation | None = None) -> None:
    change_build(row(), person, lambda build: put(build, "calculation", calculation or one()), "K01 kept")


def widen(person: Person, text: str) -> None:
    """Give the base board another width."""

    def edit(build: plain.Build) -> plain.Build:
        base = find(build, "component", "P01")
        return put(
            build, "component", replace(base, size=replace(base.size, width=read_length(text))), key="P01"
        )

    change_build(row(), person, edit, f"P01: width {text}")


def test_a_worked_calculator_is_kept_in_a_build_from_the_bench(client: Client, demonstration: Person) -> None:
    given = {"width": "260 mm", "species": "white oak", "from_moisture": "8 %", "to_moisture": "12 %"}
    page = page_of(client, f"/bench/wood-movement/?{urlencode(given)}")
    keep_at = page[page.index("/bench/wood-movement/keep/") :].split('"')[0]
    assert page.count("Keep in a build") == 1
    page = page_of(client, keep_at)
    assert [number for number in ("TW-31", "TW-32", "TW-33") if number in page] == ["TW-31", "TW-32", "TW-33"]
    form_at = page[page.index(NEW) :].split('"')[0]
    page = page_of(client, form_at)
    sent = sent_of(page, NEW)
    assert sent["width"] == "260 mm"
    assert 'value="P01 width"' in page
    answer = client.post(NEW, sent | {"kept-title": "Base", "tie-width": "P01.width"}, follow=True)
    assert answer.redirect_chain == [(f"{KEPT}K01/", 302)]
    page = unescape(answer.content.decode())
    assert "K01 Base is kept." in page
    assert kept().ties == (("width", "P01 width"),)
    assert dict(kept().inputs)["width"] == "260" or dict(kept().inputs)["width"] == "260 mm"
    assert "Working" in page


def test_nobody_who_is_not_signed_in_is_offered_to_keep(
    client: Client, demonstration: Person, settings
) -> None:  # type: ignore[no-untyped-def]
    settings.DEMO = False
    page = page_of(client, "/bench/nearest/?length=5")
    assert "Keep in a build" not in page
    answer = client.get("/bench/nearest/keep/?length=5")
    assert (answer.status_code, answer["Location"][:9]) == (302, "/sign-in/")


def test_only_builds_that_one_may_change_are_offered(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = page_of(client, "/bench/nearest/keep/?length=5")
    assert "There is no build that you may change." in page
    client.force_login(Person.objects.get(username="rob"))
    assert page_of(client, "/bench/nearest/keep/?length=5").count("<tr data-row>") == 3
    assert page_of(client, "/bench/nearest/keep/?length=5&find-build=TW-32").count("<tr data-row>") == 1
    assert "No build that you may change" in page_of(client, "/bench/nearest/keep/?find-build=%00x<b>")
    assert client.get("/bench/no-such/keep/").status_code == 404


def test_a_calculation_is_begun_in_the_build_from_the_list_of_calculators(
    client: Client, demonstration: Person
) -> None:
    page = page_of(client, f"{BUILD}new-calculation/")
    assert NEW in page
    page = page_of(client, NEW)
    sent = sent_of(page, NEW) | {"species": "white oak", "from_moisture": "8 %", "to_moisture": "12 %"}
    sent |= {
        "tie-width": "P01 width",
        "limit-0-result": "movement",
        "limit-0-bound": "at most",
        "limit-0-value": "4 mm",
    }
    answer = client.post(NEW, sent)
    assert (answer.status_code, answer["Location"]) == (302, f"{KEPT}K01/")
    assert kept().limits == (LIMIT,)
    assert dict(kept().inputs)["width"] == "260 mm"  # what it is tied to fills it in
    page = page_of(client, KEPT)
    # 260 x 0.00365 x 4 = 3.796 mm: USDA Wood Handbook, white oak, tangential.
    assert "movement 3.796 mm" in page
    assert "at most 4 mm: kept" in page
    assert "nothing amiss" in page


def test_a_size_that_changes_shows_old_and_new_and_one_action_takes_the_new(
    client: Client, demonstration: Person
) -> None:
    keep(demonstration, one(limits=(LIMIT,)))
    widen(demonstration, "300 mm")
    page = page_of(client, f"{KEPT}K01/")
    old_and_new = page[page.index('id="look"') : page.index("</section>", page.index('id="look"'))]
    # 260 x 0.00365 x 4 = 3.796; 300 x 0.00365 x 4 = 4.38.
    for text in ("P01 width", "260 mm", "300 mm", "3.796 mm", "4.38 mm"):
        assert text in old_and_new, text
    assert "above the limit of 4 mm by 0.38 mm" in page
    assert "Looked at: take the new size: width 300 mm" in page
    check = page_of(client, BUILD)
    assert f"{KEPT}K01/" in check
    assert "calculation-to-look-at" in check
    sent = {"key": "calculation-to-look-at::K01", "at": "0", "back": f"{KEPT}K01/"}
    answer = client.post(f"{BUILD}mend/", sent, follow=True)
    assert answer.redirect_chain == [(f"{KEPT}K01/", 302)]
    assert dict(kept().inputs)["width"] == "300 mm"
    page = unescape(answer.content.decode())
    assert 'id="look"' not in page
    assert "above the limit of 4 mm by 0.38 mm" in page
    client.post(f"{BUILD}undo/")
    assert dict(kept().inputs)["width"] == "260 mm"


def test_the_page_of_a_part_lists_the_calculations_that_hang_on_it(
    client: Client, demonstration: Person
) -> None:
    keep(demonstration)
    page = page_of(client, f"{BUILD}parts/P01/")
    section = page[page.index("Calculations that hang on it") :]
    assert f"{KEPT}K01/" in section
    assert "Calculations that hang on it" not in page_of(client, f"{BUILD}parts/P02/")
    page = page_of(client, f"{BUILD}parts/P01/remove/")
    assert "K01 Base across the grain is no longer tied to it: width keeps the size that it has." in page
    client.post(f"{BUILD}parts/P01/remove/")
    assert kept().ties == ()
    assert dict(kept().inputs)["width"] == "260 mm"


@pytest.mark.parametrize(
    ("changed", "says"),
    [
        ({"kept-title": ""}, "This field is required."),
        ({"width": "wide"}, "It is tied to P01 width, which is 260 mm; write that, or untie it."),
        ({"width": "wide", "tie-width": ""}, "'wide'"),
        ({"width": "", "tie-width": ""}, "The input width is missing"),
        ({"width": "250 mm", "tie-width": "P01 width"}, "It is tied to P01 width, which is 260 mm; write that, or untie it."),
        ({"tie-width": "P99 width"}, "There is no size P99 width in this build"),
        ({"tie-width": "P01 thickness of it"}, "does not read as a size of the build"),
        ({"tie-width": "P01 bore"}, "There is no size P01 bore in this build"),
        ({"limit-0-value": ""}, "Write the value with its unit, or choose no limit."),
        ({"limit-0-value": "3 N"}, "The limit of its movement cannot be read."),
        ({"limit-0-result": "slot_length"}, "It gives no slot length"),
        ({"kept-mark": "F03"}, "The mark 'F03' is used already by a joint"),
        ({"kept-mark": "a b"}, "is not a mark"),
        ({"width": "1" * 21_000}, "longer than the 20000 characters"),
    ],
)  # fmt: skip
def test_what_cannot_be_is_refused_beside_its_field_and_nothing_is_lost(
    changed: dict[str, str], says: str, client: Client, demonstration: Person
) -> None:
    keep(demonstration, one(limits=(LIMIT,)))
    before = plain_of(row())
    address = f"{KEPT}K01/change/"
    sent = sent_of(page_of(client, address), address) | {"species": "red oak"}
    answer = client.post(address, sent | changed)
    assert answer.status_code == 422
    page = unescape(answer.content.decode())
    assert says in page
    assert 'value="red oak"' in page
    assert all(text in page for text in changed.values())
    assert plain_of(row()) == before


def test_a_calculation_is_changed_and_the_log_says_what(client: Client, demonstration: Person) -> None:
    keep(demonstration)
    address = f"{KEPT}K01/change/"
    sent = sent_of(page_of(client, address), address)
    answer = client.post(
        address,
        sent
        | {
            "kept-mark": "K09",
            "kept-title": "Base",
            "tie-width": "",
            "width": "10 in",
            "kept-note": "one\r\ntwo\n",
        },
    )
    assert answer["Location"] == f"{KEPT}K09/"
    assert kept("K09") == one(
        mark="K09", title="Base", note="one\ntwo", ties=(),
        inputs=(("width", "10 in"), *one().inputs[1:], ("temperature", "20 degC")),
    )  # fmt: skip
    change = Change.objects.first()
    assert change is not None
    assert change.says.startswith("K09 is the new mark of K01: title Base, ")
    history = page_of(client, f"{BUILD}history/?find=K09")
    assert "inputs[width]" in history


def test_the_size_of_a_tie_is_not_taken_by_saving_something_else(
    client: Client, demonstration: Person
) -> None:
    keep(demonstration)
    widen(demonstration, "300 mm")
    address = f"{KEPT}K01/change/"
    sent = sent_of(page_of(client, address), address)
    client.post(address, sent | {"kept-note": "Still to be looked at."})
    assert dict(kept().inputs)["width"] == "260 mm"
    assert [each.rule for each in worked_of(row()).findings if each.part == "K01"] == [
        "calculation-to-look-at"
    ]
    sent = sent_of(page_of(client, address), address)
    client.post(address, sent | {"width": ""})  # emptied, it takes what it is tied to
    assert dict(kept().inputs)["width"] == "300 mm"


def test_two_who_change_one_calculation_see_both_versions(client: Client, demonstration: Person) -> None:
    keep(demonstration, one(limits=(LIMIT,)))
    address = f"{KEPT}K01/change/"
    sent = sent_of(page_of(client, address), address)
    rob = Person.objects.get(username="rob")
    change_build(
        row(), rob,
        lambda build: put(build, "calculation", replace(kept(), note="Rob's", ties=(), limits=()), key="K01"), "changed",
    )  # fmt: skip
    answer = client.post(address, sent | {"species": "red oak"})
    assert answer.status_code == 422
    page = unescape(answer.content.decode())
    assert "Rob Teasdale" in page
    for text in ("Rob's", "red oak", "P01 width", "movement at most 4 mm"):
        assert text in page, text
    assert kept().note == "Rob's"
    mine = sent_of(page, address)
    answer = client.post(address, mine | {"conflict": "mine"})
    assert answer.status_code == 302, answer.content.decode()
    assert (dict(kept().inputs)["species"], kept().ties, kept().limits) == (
        "red oak",
        (("width", "P01 width"),),
        (LIMIT,),
    )
    answer = client.post(address, sent | {"conflict": "theirs"}, follow=True)
    assert "What the others saved stands" in answer.content.decode()


def test_one_that_was_taken_out_meanwhile_is_said_to_be_gone(client: Client, demonstration: Person) -> None:
    keep(demonstration)
    printed = fingerprint("calculation", kept())
    client.post(f"{KEPT}K01/remove/", {"seen": printed})
    assert plain_of(row()).calculations == ()
    assert client.get(f"{KEPT}K01/").status_code == 404
    assert client.post(f"{KEPT}K01/change/", {}).status_code == 404
    client.post(f"{BUILD}undo/")
    assert kept() == one()
    answer = client.post(f"{KEPT}K01/remove/", {"seen": "another"}, follow=True)
    assert "Nothing was changed." in answer.content.decode()
    assert kept() == one()


def test_a_calculation_is_copied_under_the_next_free_mark(client: Client, demonstration: Person) -> None:
    keep(demonstration)
    answer = client.post(f"{KEPT}K01/copy/")
    assert answer["Location"] == f"{KEPT}K02/"
    assert kept("K02") == one(mark="K02")


def test_rows_are_kept_as_people_write_them_and_their_lengths_can_be_tied(
    client: Client, demonstration: Person
) -> None:
    address = f"{BUILD}new-calculation/mass-and-balance/"
    page = page_of(
        client,
        f"{address}?{urlencode({'bodies': 'boom, round, brass, length=100 mm, diameter=6 mm, x=50 mm'})}",
    )
    assert 'name="tie-bodies.0.length"' in page
    sent = sent_of(page, address)
    names = {name for name in sent if name.startswith("bodies.")}
    assert "bodies.0.length" in names
    more = client.post(address, sent | {"one-more": "bodies"})
    assert more.status_code == 200
    assert 'name="tie-bodies.1.length"' in more.content.decode()
    answer = client.post(
        address, sent | {"tie-bodies.0.length": "P16 length", "tie-bodies.0.diameter": "P16 diameter"}
    )
    assert answer.status_code == 302, unescape(answer.content.decode())
    assert dict(kept().ties) == {"bodies[0].length": "P16 length", "bodies[0].diameter": "P16 diameter"}
    text = dict(kept().inputs)["bodies"]
    assert "length=380 mm" in text
    assert "diameter=6.00 mm" in text
    page = page_of(client, f"{KEPT}K01/change/")
    again = sent_of(page, f"{KEPT}K01/change/")
    assert again["tie-bodies.0.length"] == "P16 length"
    before = kept()
    client.post(f"{KEPT}K01/change/", again)
    assert kept() == before


def test_a_row_that_is_left_empty_is_left_out_and_ties_keep_to_their_rows(
    client: Client, demonstration: Person
) -> None:
    address = f"{BUILD}new-calculation/mass-and-balance/"
    sent = {
        "kept-title": "Boom", "limit-TOTAL_FORMS": "0", "limit-INITIAL_FORMS": "0",
        "bodies.0.name": "", "bodies.1.name": "boom", "bodies.1.shape": "round", "bodies.1.material": "brass",
        "bodies.1.diameter": "6 mm", "tie-bodies.1.length": "P16 length",
    }  # fmt: skip
    answer = client.post(address, sent)
    assert answer.status_code == 302, unescape(answer.content.decode())
    assert kept().ties == (("bodies[0].length", "P16 length"),)


def test_a_calculator_that_is_not_known_is_shown_as_it_is_kept(client: Client, demonstration: Person) -> None:
    keep(demonstration, plain.Calculation("K01", "Later", "of-a-later-version", (("a", "1 mm"),)))
    page = page_of(client, f"{KEPT}K01/")
    assert "There is no calculator 'of-a-later-version'" in page
    assert "1 mm" in page
    assert client.get(f"{KEPT}K01/change/").status_code == 302
    assert "not worked" in page_of(client, KEPT)


def test_a_viewer_reads_and_changes_nothing(client: Client, demonstration: Person) -> None:
    keep(demonstration)
    client.force_login(Person.objects.get(username="visitor"))
    for address in (KEPT, f"{KEPT}K01/", f"{KEPT}K01/change/", NEW):
        page = page_of(client, address)
        for button in (
            "New calculation</a>",
            "Change it",
            "Remove it",
            "Save K01",
            "Keep it</button>",
            "Copy it",
        ):
            assert button not in page, (address, button)
    for address in (f"{KEPT}K01/change/", f"{KEPT}K01/remove/", f"{KEPT}K01/copy/", NEW):
        assert client.post(address, {}).status_code == 403
    assert kept() == one()
    client.force_login(Person.objects.create(username="stranger"))
    for address in (KEPT, f"{KEPT}K01/", NEW, f"{BUILD}new-calculation/"):
        assert client.get(address).status_code == 404


def test_more_calculations_ask_the_database_no_more_often(client: Client, demonstration: Person) -> None:
    def asked(address: str) -> int:
        client.get(address)
        with CaptureQueriesContext(connection) as queries:
            assert client.get(address).status_code == 200
        return len(queries)

    keep(demonstration)
    few = [asked(address) for address in (KEPT, f"{KEPT}K01/", f"{BUILD}parts/P01/")]
    for number in range(2, 12):
        keep(demonstration, one(mark=f"K{number:02d}"))
    assert [asked(address) for address in (KEPT, f"{KEPT}K01/", f"{BUILD}parts/P01/")] == few


def test_calculations_are_found_and_ordered(client: Client, demonstration: Person) -> None:
    keep(demonstration)
    keep(demonstration, one(mark="K02", title="Another", limits=(replace(LIMIT, value="1 mm"),)))
    page = page_of(client, f"{KEPT}?find=another")
    assert page.count("data-row") == 1
    page = page_of(client, f"{KEPT}?sort=worst")
    assert page.index('id="K02"') < page.index('id="K01"')
    assert "at most 1 mm: not kept" in page
    assert "No calculation has these words." in page_of(client, f"{KEPT}?find=<script>")


def test_an_entry_of_the_journal_speaks_of_a_calculation_and_leads_to_it(
    client: Client, demonstration: Person
) -> None:
    keep(demonstration)
    sent = {"date": "2025-06-01", "text": "Looked again.", "marks": "k01, P01"}
    client.post(f"{BUILD}journal/", sent)
    page = page_of(client, f"{BUILD}journal/")
    assert f'href="{KEPT}K01/">K01</a>' in page
    client.post(f"{KEPT}K01/remove/")
    assert "K01" not in str(plain_of(row()).entries[-1].marks)
