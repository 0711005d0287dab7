"""The search over words, calculators and tables, and the words' own page."""

from __future__ import annotations

import re
from html import unescape

import pytest
from django.test import Client
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from calculators.calculation.answering import answer
from calculators.quantities.errors import InputError
from calculators.reference import all_words, find, words_for
from calculators.tables import load

pytestmark = pytest.mark.database

# Common practice: the two words for one thing on either side.
PAIRS = """
rebate = rabbet; housing = dado; halving = half-lap; cramp = clamp; G-cramp = C-clamp; sash cramp = bar clamp
vice = vise; surface planer = jointer; thicknesser = planer; spindle moulder = shaper; pillar drill = drill press
guide bush = template guide; PAR = S4S; waney edge = live edge; lipping = edge banding; shake = check
methylated spirit = denatured alcohol; white spirit = mineral spirits; paraffin = kerosene; wire wool = steel wool
glasspaper = sandpaper; animal glue = hide glue; tapping drill = tap drill; clearance drill = body drill
plug tap = bottoming tap; second tap = plug tap; die nut = rethreading die; tap wrench = tap handle
countersunk head = flat head; raised countersunk head = oval head; cheese head = fillister head
mushroom head = truss head; grub screw = set screw; coach bolt = carriage bolt; coach screw = lag screw
screw cup = finishing washer; half nut = jam nut; dome nut = acorn nut; stiff nut = prevailing torque nut
penny washer = fender washer; spring washer = split lock washer; crinkle washer = wave washer
shakeproof washer = toothed lock washer; studding = threaded rod; split pin = cotter pin; circlip = snap ring
bush = bushing; spanner = wrench; hexagon key = hex key; scribing block = surface gauge; dot punch = prick punch
slip gauges = gage blocks; PCD = bolt circle; silver steel = drill rod; gauge plate = flat ground stock
bright mild steel = cold-rolled steel; nip up = snug; carcase = carcass; engineer's square = machinist's square
"""
BOTH = [tuple(word.strip() for word in pair.split("=")) for pair in re.split(r"[;\n]", PAIRS) if pair.strip()]


def page_of(client: Client, question: str) -> str:
    response = client.get("/bench/find/", {"q": question})
    assert response.status_code == 200
    return response.content.decode()


def tables_of(question: str) -> dict[str, list[str]]:
    return {each.table.name: [row.name for row in each.rows] for each in find(question).tables}


def test_there_are_pairs_enough() -> None:
    assert len(BOTH) >= 50


@pytest.mark.parametrize(("british", "american"), BOTH)
def test_either_word_finds_the_same_thing(british: str, american: str, client: Client) -> None:
    entry = next(each for each in all_words() if british in each.british and american in each.american)
    for asked in (british, american, british.upper(), american.lower()):
        assert entry in words_for(asked)
        page = page_of(client, asked)
        for word in (*entry.british, *entry.american):
            assert unescape(page).count(word) >= 1


@pytest.mark.parametrize(
    "asked", ["jam nuts", "Jam Nut", "wrenches", "wrench", "bushes", "wood screws", "brass jam nuts M5"]
)
def test_plurals_capitals_and_words_beside_them_are_understood(asked: str) -> None:
    assert words_for(asked)


@pytest.mark.parametrize(
    ("word", "things"),
    [
        (
            "plug tap",
            {"middle tap, with a lead of a few threads", "last tap, which cuts to the bottom of a hole"},
        ),
        ("set screw", {"screw without a head", "hexagon-headed screw with thread up to the head"}),
        ("planer", {"machine that flattens a face", "machine that makes the thickness even"}),
    ],
)
def test_a_word_that_means_two_things_finds_both_and_the_trap_is_marked(
    word: str, things: set[str], client: Client
) -> None:
    found = words_for(word)
    assert {each.meaning for each in found} == things
    assert all(each.trap for each in found)
    page = page_of(client, word)
    assert all(unescape(page).count(each.trap) for each in found)
    assert "<b>Trap:</b>" in page


def test_the_words_find_the_rows_of_the_thing() -> None:
    # ISO 4035 is the thin nut, ISO 4026 the socket set screw with a flat point, ISO 7093-1 the large washer.
    jam = tables_of("jam nut M5")
    assert jam == tables_of("half nut M5") == {"nuts": ["ISO 4035, M5"]}
    assert all(name.startswith("ISO 4026") for name in tables_of("grub screw")["stock_lengths"])
    assert "ISO 7093-1, M6" in tables_of("fender washer M6")["washers"]
    assert tables_of("penny washer M6") == tables_of("fender washer M6")


def test_names_find_their_rows_and_the_calculators_that_take_them(client: Client) -> None:
    assert tables_of("#7 drill")["drills"] == ["#7"]
    assert tables_of("M5")["threads"][0] == "M5"
    assert "5/16 BSF" in tables_of("5/16 BSF")["threads"]
    taken = {each.calculator.name: dict(each.inputs) for each in find("#7 drill").answers}
    assert taken["drill"] == {"name": "#7 drill"}
    assert {each.calculator.name for each in find("M5").answers} >= {"thread", "tapping-drill"}
    page = page_of(client, "1/4 UNC")
    links = [unescape(each) for each in re.findall(r'href="(/bench/[a-z-]+/\?[^"]*)"', page)]
    assert (
        "/bench/thread/?designation=1/4%20UNC" in links or "/bench/thread/?designation=1%2F4%20UNC" in links
    )
    for link in links:
        assert client.get(link).status_code == 200


@pytest.mark.parametrize(
    ("asked", "mm"), [("4.7", 4.7), ("3/16", 4.7625), ("1 1/4 in", 31.75), ("20 SWG", 0.9144)]
)
def test_a_number_finds_the_nearest_entries(asked: str, mm: float) -> None:
    near = {each.kind: each.sizes for each in find(asked).near}
    for sizes in near.values():
        for size in sizes:
            assert size.size_mm - mm == pytest.approx(size.error_mm, abs=1e-6)
    # By hand: no row of the drill table lies nearer than those that are shown.
    shown = min(abs(size.error_mm) for size in near["drills"])
    table = load("drills")
    assert shown <= min(abs(row.number("diameter") * 25.4 - mm) for row in table.rows) + 1e-9


def test_3_16_finds_the_drill_of_that_size_and_the_metric_ones_beside_it(client: Client) -> None:
    drills = [size.name for size in find("3/16").near[0].sizes]
    assert drills == ["4.7 mm", "3/16 in", "4.8 mm"]  # ISO 235 goes by tenths here (from memory)
    assert "4.7625 mm" in page_of(client, "3/16")


def test_nothing_is_said_in_a_sentence_and_an_empty_question_finds_nothing(client: Client) -> None:
    assert "Nothing was found." in page_of(client, "qqqq")
    assert "Nothing was found." not in page_of(client, "")
    assert find("  ").nothing


def test_finding_asks_the_database_nothing(client: Client, django_assert_num_queries) -> None:
    for question in ("", "M5", "jam nut", "4.7"):
        with django_assert_num_queries(0):
            page_of(client, question)


def test_the_words_page_lists_every_entry_and_its_source(client: Client, django_assert_num_queries) -> None:
    with django_assert_num_queries(0):
        response = client.get("/bench/words/")
    page = unescape(response.content.decode())
    assert page.count("<tr data-row>") == len(all_words())
    assert page.count("<b>Trap:</b>") == sum(bool(each.trap) for each in all_words()) >= 8
    assert "(common practice)" in page
    narrowed = client.get("/bench/words/", {"q": "bottoming"}).content.decode()
    assert narrowed.count("<tr data-row>") == 2


def test_every_standard_that_a_word_names_is_in_a_table() -> None:
    cells = {cell for each in ("heads", "nuts", "washers", "stock_lengths", "wood_screws")
             for row in load(each).rows for cell in row.cells.values()}  # fmt: skip
    assert [name for each in all_words() for name in each.standards if name not in cells] == []


@settings(max_examples=200, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture])
@given(
    question=st.one_of(
        st.text(max_size=200), st.text("0123456789/.,-+ #MNUBSFACmin'\"½()[]*?\\", max_size=20)
    )
)
def test_no_question_whatever_is_a_failure(question: str, client: Client) -> None:
    for page in ("find", "words"):
        response = client.get(f"/bench/{page}/", {"q": question, "x": question})
        assert response.status_code == 200
    for each in find(question).answers:
        if each.inputs:
            try:
                answer(each.calculator, dict(each.inputs))
            except InputError as error:
                pytest.fail(f"{each.calculator.name} was offered but refuses {each.inputs}: {error}")


@pytest.mark.parametrize(("question", "thread"), [("2ba", "2 BA"), ("1/4 whit", "1/4 BSW"), ("m6", "M6")])
def test_a_thread_is_found_however_it_is_written(question: str, thread: str) -> None:
    tables = {each.table.name: each.rows for each in find(question).tables}
    assert tables["threads"][0].name == thread
    assert all(thread in row.name for row in tables["tapping"])


@pytest.mark.parametrize(
    ("asked", "first"),
    [
        ("what screw is this?", "identify-thread"),
        ("how much does a shelf bend", "shelf-sag"),
        ("how strong is a screw", "wood-screw-strength"),
        ("allen screw", "grub-screw-hold"),
        ("dado", "rebate"),
        ("lumber", "timber"),
    ],
)
def test_a_question_in_plain_words_finds_its_calculator(asked: str, first: str) -> None:
    found = find(asked).answers
    assert found[0].calculator.name == first
    assert "bush-fit" not in [each.calculator.name for each in found]
