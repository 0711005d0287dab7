"""Writing, changing and deleting entries, with their photographs."""

from __future__ import annotations

import re
from collections.abc import Callable
from datetime import date
from decimal import Decimal
from typing import Any

import pytest
from django.core.files.uploadedfile import SimpleUploadedFile
from django.http import HttpResponse
from django.test import Client

from buildlog.builds.actions import undo
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import _PLAIN, plain_of
from buildlog.journal import photographs as photographs_of_forms
from buildlog.pictures.actions import keep_picture
from buildlog.pictures.models import Picture
from buildlog.pictures.reading import read_picture
from buildlog.workshops.models import Person, Workshop
from calculators.planning import model as plain

pytestmark = pytest.mark.database

HERE = "/workshops/shed/builds/B1/journal/"
Photograph = Callable[..., SimpleUploadedFile]


def fresh(row: Build) -> plain.Build:
    """The build as the database has it, nothing remembered."""
    _PLAIN._things.clear()
    return plain_of(Build.rows.get(pk=row.pk))


def entry_in(row: Build, key: str) -> plain.Entry:
    return next(entry for entry in fresh(row).entries if entry.id == key)


def shown_form(html: str) -> dict[str, Any]:
    """What the form of the page would send as it is, photographs and all."""
    form = html[html.index('id="entry-journal"') :]
    form = form[: form.index("</form>")]
    found: dict[str, Any] = {}
    for tag in re.findall(r"<input [^>]*>", form):
        said = dict(re.findall(r'([\w-]+)="([^"]*)"', tag))
        if said["type"] == "file" or (said["type"] == "checkbox" and " checked" not in tag):
            continue
        found.setdefault(said["name"], []).append(unescaped(said.get("value", "")))
    for name, text in re.findall(r'<textarea name="([\w-]+)"[^>]*>\n?(.*?)</textarea>', form, re.DOTALL):
        found[name] = [unescaped(text).lstrip("\r\n")]
    return found


def unescaped(text: str) -> str:
    from html import unescape

    return unescape(text)


def write(client: Client, *, address: str = HERE, **sent: Any) -> HttpResponse:
    return client.post(address, {"date": "2026-02-01", **sent})


def faults(answer: HttpResponse) -> list[str]:
    assert answer.status_code == 422
    return [unescaped(each) for each in re.findall(r'<p class="fault">([^<]*)</p>', answer.content.decode())][
        1:
    ]


def test_an_entry_is_written_with_all_its_fields(as_maker: Client, row: Build, maker: Person) -> None:
    answer = write(
        as_maker, text="# Legs\r\n\r\nSawed  four. \r\n", hours="1 h 30", decision="Oak", next_time="Glue\r\nthem", marks="p11, F03; P12.2",
    )  # fmt: skip
    assert (answer.status_code, answer["Location"]) == (302, HERE)
    entry = fresh(row).entries[-1]
    assert entry == plain.Entry(
        entry.id,
        date(2026, 2, 1),
        "# Legs\n\nSawed  four.",
        Decimal("1.5"),
        ("P11", "F03", "P12.2"),
        "Oak",
        "Glue\nthem",
    )
    assert re.fullmatch(r"[0-9a-hj-km-np-tv-z]{12}", entry.id)
    change = Change.objects.order_by("-id")[0]
    assert (change.person, change.says) == (maker, "Wrote the entry of 2026-02-01")
    html = as_maker.get(HERE).content.decode()
    assert 'data-saved="shed/B1/journal"' in html
    assert 'data-draft="shed/B1/journal"' in html


def test_ids_of_entries_sort_by_their_time(
    as_maker: Client, row: Build, monkeypatch: pytest.MonkeyPatch
) -> None:
    for second in (1_700_000_000, 1_700_000_001, 1_900_000_000):
        monkeypatch.setattr("buildlog.builds.ids.time.time", lambda now=second: now)
        write(as_maker, text=str(second))
    written = [entry.id for entry in fresh(row).entries[-3:]]
    assert written == sorted(written)


def test_the_date_of_the_form_is_today_where_the_workshop_is(
    as_maker: Client, row: Build, maker: Person, monkeypatch: pytest.MonkeyPatch
) -> None:
    from dataclasses import replace
    from datetime import UTC, datetime

    from buildlog.builds.actions import change_build

    late = datetime(2026, 3, 1, 22, 30, tzinfo=UTC)
    monkeypatch.setattr("django.utils.timezone.now", lambda: late)
    for zone, day in (
        ("Europe/London", "2026-03-01"),
        ("Asia/Tokyo", "2026-03-02"),
        ("Pacific/Honolulu", "2026-03-01"),
    ):
        change_build(
            row, maker, lambda b, zone=zone: replace(b, context=replace(b.context, zone=zone)), "Moved"
        )
        assert shown_form(as_maker.get(HERE).content.decode())["date"] == [day]


@pytest.mark.parametrize(
    ("sent", "says"),
    [
        ({"text": "x", "date": ""}, "Write the day that this entry is for."),
        ({"text": "x", "date": "yesterday"}, "Write the day as year-month-day, such as 2025-06-30."),
        ({"text": "x", "date": "2026-02-30"}, "Write the day as year-month-day, such as 2025-06-30."),
        ({"text": "x", "hours": "a while"}, "'a while' cannot be read as hours; write 1.5, 1:30, 1 h 30 or 90 min."),
        ({"text": "x", "hours": "-2"}, "'-2' is not between 0 and 10,000 hours."),
        ({"text": "x", "marks": "P13"}, "The build has no 'P13'; did you mean P12, P11 or P01?"),
        ({"text": "x", "marks": "P11 Q7777"}, "The build has no 'Q7777'; write marks of parts, joints and calculations that are in it, such as P11, F03."),
        ({"text": "x" * 200_001}, "This text has 200001 characters; it may have 200,000."),
        ({"text": "x", "decision": "y" * 20_001}, "This text has 20001 characters; it may have 20,000."),
        ({"text": "x", "next_time": "y" * 20_001}, "This text has 20001 characters; it may have 20,000."),
        ({"text": ""}, "Write something, or choose a photograph."),
        ({"text": " \r\n "}, "Write something, or choose a photograph."),
        ({"text": "a\0b"}, "Null characters are not allowed."),
        ({"text": "a\x07b"}, "'a?b' has a character that no text can hold; take it out."),
        ({"text": "x", "held": "." + "0" * 64}, photographs_of_forms.GONE),
        ({"text": "x", "held": "e1'; DROP"}, photographs_of_forms.GONE),
        ({"text": "x", "held": "a\0.b\0"}, photographs_of_forms.GONE),
    ],
)  # fmt: skip
def test_each_bad_field_gets_a_sentence_and_nothing_typed_is_lost(
    as_maker: Client, row: Build, sent: dict[str, str], says: str
) -> None:
    before = fresh(row)
    answer = write(as_maker, **sent)
    assert says in faults(answer)
    form = shown_form(answer.content.decode())
    for name, value in sent.items():
        if name not in ("held", "text") or (
            name == "text" and value.strip() and "\0" not in value and "\x07" not in value
        ):
            assert form[name] == [value], name
    assert fresh(row) == before


def test_marks_of_copies_that_are_not_there_are_refused(as_maker: Client, row: Build) -> None:
    says = faults(write(as_maker, text="x", marks="P12.7"))
    assert any("P12.7" in each for each in says)
    assert len(fresh(row).entries) == 3


def test_a_note_of_5000_words_in_any_script_is_kept_as_it_was_typed(as_maker: Client, row: Build) -> None:
    words = "\n".join(f"- line {n}: 3/8\" oak & 'ash', بلوط <b>ب</b> 🔩 ½" for n in range(900))
    assert len(words.split()) > 5000
    assert write(as_maker, text=words, decision='قررنا "البلوط"').status_code == 302
    entry = fresh(row).entries[-1]
    assert (entry.text, entry.decision) == (words, 'قررنا "البلوط"')
    form = shown_form(as_maker.get(f"{HERE}entries/{entry.id}/").content.decode())
    assert form["text"] == [words]


def test_the_longest_text_is_kept(as_maker: Client, row: Build) -> None:
    assert write(as_maker, text="ب" * 200_000).status_code == 302
    assert len(fresh(row).entries[-1].text) == 200_000


def test_a_form_that_is_sent_twice_writes_one_entry(as_maker: Client, row: Build) -> None:
    form = shown_form(as_maker.get(HERE).content.decode()) | {"text": "Planed."}
    for _ in range(2):
        assert as_maker.post(HERE, form)["Location"] == HERE
    assert [entry.text for entry in fresh(row).entries].count("Planed.") == 1
    again = as_maker.post(HERE, form | {"text": "Planed and scraped."})
    assert again.status_code == 422
    assert "Maker changed this entry while you had it open." in again.content.decode()


# ---- photographs


def test_several_photographs_come_at_once(as_maker: Client, row: Build, photograph: Photograph) -> None:
    sent = [photograph(shade, f"IMG_{shade}.JPG") for shade in (10, 90, 170)]
    assert write(as_maker, text="", photographs=sent).status_code == 302
    entry = fresh(row).entries[-1]
    assert [(p.width, p.height, p.caption) for p in entry.photographs] == [(600, 300, "")] * 3
    assert {p.digest for p in entry.photographs} == set(Picture.objects.values_list("digest", flat=True))
    assert len({p.id for p in entry.photographs}) == 3


def test_the_same_photograph_twice_is_one(as_maker: Client, row: Build, photograph: Photograph) -> None:
    write(as_maker, photographs=[photograph(), photograph(90, "copy.jpg")])
    assert len(fresh(row).entries[-1].photographs) == 1


def test_a_bad_photograph_among_many_is_named_and_the_good_ones_are_kept(
    as_maker: Client, row: Build, photograph: Photograph
) -> None:
    bad = SimpleUploadedFile("../\u202enotes.jpg", b"%PDF-1.7")
    cut = SimpleUploadedFile("cut.jpg", photograph().read()[:-200])
    sent = [
        photograph(10),
        bad,
        *(photograph(shade) for shade in range(20, 200, 20)),
        cut,
        SimpleUploadedFile("none.png", b""),
    ]
    answer = write(as_maker, text="Kept?", photographs=sent)
    said = faults(answer)
    assert "'notes.jpg' is a PDF, not a photograph; JPEG, PNG, WebP, HEIC and GIF can be kept." in said
    assert "The picture 'cut.jpg' is cut off or damaged; send it again from where it was taken." in said
    assert "The file 'none.png' is empty; send the photograph again." in said
    form = shown_form(answer.content.decode())
    assert (len(form["held"]), form["text"]) == (10, ["Kept?"])
    first = form["held"][0].removeprefix(".")
    form[f"caption-{first}"] = ["The seat"]
    form["leave-out"] = [form["held"][1].removeprefix(".")]
    assert as_maker.post(HERE, form | {"photographs": [photograph(250)]}).status_code == 302
    entry = fresh(row).entries[-1]
    assert entry.text == "Kept?"
    assert len(entry.photographs) == 10
    assert (entry.photographs[0].digest, entry.photographs[0].caption) == (first, "The seat")
    assert form["leave-out"][0] not in {p.digest for p in entry.photographs}


def test_good_photographs_are_held_when_a_field_is_bad(
    as_maker: Client, row: Build, photograph: Photograph
) -> None:
    answer = write(as_maker, text="x", hours="ages", photographs=[photograph()])
    form = shown_form(answer.content.decode())
    assert len(form["held"]) == 1
    assert "-small.jpg" in answer.content.decode()
    assert as_maker.post(HERE, form | {"hours": "2"}).status_code == 302
    assert len(fresh(row).entries[-1].photographs) == 1


def test_a_picture_of_another_workshop_cannot_be_held(
    as_maker: Client, row: Build, stranger: Person, photograph: Photograph
) -> None:
    elsewhere = Workshop.objects.get(slug="elsewhere")
    theirs = keep_picture(elsewhere, read_picture(photograph().read(), "x"))
    answer = write(as_maker, text="x", held=f".{theirs.digest}")
    assert photographs_of_forms.GONE in faults(answer)
    assert theirs.digest not in answer.content.decode()


def test_a_caption_too_long_is_refused_beside_the_photographs(
    as_maker: Client, row: Build, photograph: Photograph
) -> None:
    form = shown_form(write(as_maker, hours="?", photographs=[photograph()]).content.decode())
    digest = form["held"][0].removeprefix(".")
    answer = as_maker.post(HERE, form | {"hours": "1", f"caption-{digest}": "c" * 201})
    assert "This text has 201 characters; it may have 200." in faults(answer)
    assert shown_form(answer.content.decode())[f"caption-{digest}"] == ["c" * 201]


def test_more_photographs_than_an_entry_holds_are_refused_in_a_sentence(
    as_maker: Client, row: Build, photograph: Photograph, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(photographs_of_forms, "MOST_PHOTOGRAPHS", 2)
    answer = write(as_maker, photographs=[photograph(shade) for shade in (1, 50, 100, 150)])
    assert "An entry can have 2 photographs; put the others in another entry." in faults(answer)
    assert len(shown_form(answer.content.decode())["held"]) == 2


# ---- changing


def edit_form(client: Client, key: str) -> dict[str, Any]:
    return shown_form(client.get(f"{HERE}entries/{key}/").content.decode())


def test_an_entry_is_changed_where_it_stands_and_undone(as_maker: Client, row: Build, maker: Person) -> None:
    before = fresh(row)
    form = edit_form(as_maker, "e1")
    assert (form["hours"], form["marks"], form["text"]) == (["2.5"], ["P11"], ["Sawed the legs."])
    sent = form | {"text": "Sawed five.", "hours": "", "marks": "", "date": "2026-01-06"}
    answer = as_maker.post(f"{HERE}entries/e1/", sent)
    assert answer["Location"] == f"{HERE}entries/e1/"
    assert fresh(row).entries[0] == plain.Entry("e1", date(2026, 1, 6), "Sawed five.")
    assert Change.objects.order_by("-id")[0].says == "Changed the entry of 2026-01-06"
    assert 'data-saved="shed/B1/journal/e1"' in as_maker.get(answer["Location"]).content.decode()
    undo(row, maker)
    assert fresh(row) == before


def test_a_form_sent_as_it_was_changes_nothing(as_maker: Client, row: Build) -> None:
    for key in ("e1", "e2", "e3"):
        assert as_maker.post(f"{HERE}entries/{key}/", edit_form(as_maker, key)).status_code == 302
    assert Change.objects.count() == 1
    assert "Nothing was changed: it is so already." in as_maker.get(HERE).content.decode()


def test_each_bad_field_of_a_change_is_refused_too(as_maker: Client, row: Build) -> None:
    before = fresh(row)
    form = edit_form(as_maker, "e1")
    answer = as_maker.post(f"{HERE}entries/e1/", form | {"hours": "long", "text": "kept"})
    assert "'long' cannot be read as hours; write 1.5, 1:30, 1 h 30 or 90 min." in faults(answer)
    assert shown_form(answer.content.decode())["text"] == ["kept"]
    assert shown_form(answer.content.decode())["seen"] == form["seen"]
    assert fresh(row) == before


def test_captions_change_and_photographs_are_added_and_left_out(
    as_maker: Client, row: Build, photograph: Photograph
) -> None:
    write(as_maker, text="x", photographs=[photograph(10), photograph(90)])
    entry = fresh(row).entries[-1]
    one, two = entry.photographs
    form = edit_form(as_maker, entry.id)
    assert form["held"] == [f"{one.id}.{one.digest}", f"{two.id}.{two.digest}"]
    sent = form | {f"caption-{two.id}": "  Two  ", "leave-out": one.id, "photographs": [photograph(200)]}
    assert as_maker.post(f"{HERE}entries/{entry.id}/", sent).status_code == 302
    kept, new = entry_in(row, entry.id).photographs
    assert kept == plain.Photograph(two.id, two.digest, 600, 300, "Two")
    assert new.id not in (one.id, two.id)
    assert Picture.objects.count() == 3  # the picture stays for undoing


def test_a_photograph_that_was_not_brought_along_stays_in_its_entry(
    as_maker: Client, row: Build, maker: Person
) -> None:
    from buildlog.builds.actions import change_build
    from calculators.planning.edits import put

    lost = plain.Photograph("f1", "0" * 64, 640, 480, "lost")
    entry = plain.Entry("e9", date(2026, 1, 1), "x", photographs=(lost,))
    change_build(row, maker, lambda b: put(b, "entry", entry), "Added")
    assert as_maker.post(f"{HERE}entries/e9/", edit_form(as_maker, "e9") | {"text": "y"}).status_code == 302
    assert entry_in(row, "e9").photographs == (lost,)


# ---- two people


def test_when_two_change_one_entry_the_second_sees_both(
    client: Client, row: Build, owner: Person, maker: Person
) -> None:
    client.force_login(maker)
    mine = edit_form(client, "e1") | {"text": "Mine", "hours": "3"}
    client.force_login(owner)
    client.post(f"{HERE}entries/e1/", edit_form(client, "e1") | {"text": "Theirs"})
    client.force_login(maker)
    answer = client.post(f"{HERE}entries/e1/", mine)
    assert answer.status_code == 422
    html = answer.content.decode()
    assert "Owner changed this entry while you had it open." in html
    assert "Theirs" in html
    assert 'aria-label="Your What was done"' in html
    assert entry_in(row, "e1").text == "Theirs"
    seen = re.search(r'name="seen" value="(\w+)"', html)
    assert seen
    assert seen[1] != mine["seen"][0]
    sent = mine | {"seen": seen[1], "conflict": "mine"}
    assert client.post(f"{HERE}entries/e1/", sent).status_code == 302
    assert (entry_in(row, "e1").text, entry_in(row, "e1").hours) == ("Mine", Decimal(3))


def test_theirs_can_be_kept(client: Client, row: Build, owner: Person, maker: Person) -> None:
    client.force_login(maker)
    answer = client.post(f"{HERE}entries/e1/", {"conflict": "theirs", "text": "Mine", "date": "2026-01-01"})
    assert answer["Location"] == f"{HERE}entries/e1/"
    assert 'data-saved="shed/B1/journal/e1"' in client.get(answer["Location"]).content.decode()
    assert entry_in(row, "e1").text == "Sawed the legs."


def test_what_was_typed_survives_that_somebody_deleted_the_entry(
    client: Client, row: Build, owner: Person, maker: Person, photograph: Photograph
) -> None:
    client.force_login(maker)
    mine = edit_form(client, "e1") | {"text": "Mine", "photographs": [photograph()]}
    client.force_login(owner)
    client.post(f"{HERE}entries/e1/delete/", {"seen": edit_form(client, "e1")["seen"][0]})
    client.force_login(maker)
    answer = client.post(f"{HERE}entries/e1/", mine)
    html = answer.content.decode()
    assert answer.status_code == 422
    assert "Owner deleted this entry." in html
    held = re.search(r'name="held" value="([^"]+)"', html)
    assert held
    sent = {name: value for name, value in mine.items() if name != "photographs"}
    assert (
        client.post(
            f"{HERE}entries/e1/", sent | {"seen": "", "conflict": "mine", "held": held[1]}
        ).status_code
        == 302
    )
    assert (entry_in(row, "e1").text, len(entry_in(row, "e1").photographs)) == ("Mine", 1)


# ---- deleting


def test_an_entry_is_deleted_and_undoing_brings_it_back(as_maker: Client, row: Build, maker: Person) -> None:
    before = fresh(row)
    seen = edit_form(as_maker, "e2")["seen"][0]
    answer = as_maker.post(f"{HERE}entries/e2/delete/", {"seen": seen})
    assert answer["Location"] == HERE
    assert [entry.id for entry in fresh(row).entries] == ["e1", "e3"]
    assert "Deleted the entry of 2026-01-09." in as_maker.get(HERE).content.decode()
    undo(row, maker)
    assert fresh(row) == before


def test_an_entry_that_somebody_changed_since_is_not_deleted(
    as_maker: Client, row: Build, owner: Person
) -> None:
    seen = edit_form(as_maker, "e2")["seen"][0]
    as_maker.post(f"{HERE}entries/e2/", edit_form(as_maker, "e2") | {"text": "More"})
    for old in (seen, "", "nonsense"):
        answer = as_maker.post(f"{HERE}entries/e2/delete/", {"seen": old})
        assert answer["Location"] == f"{HERE}entries/e2/"
        assert "Nothing was deleted." in as_maker.get(answer["Location"]).content.decode()
    assert entry_in(row, "e2").text == "More"


# ---- who may


@pytest.mark.parametrize("address", [HERE, f"{HERE}entries/e1/", f"{HERE}entries/e1/delete/"])
def test_only_owners_and_makers_write(
    address: str,
    client: Client,
    row: Build,
    owner: Person,
    viewer: Person,
    stranger: Person,
    photograph: Photograph,
) -> None:
    before = fresh(row)
    sent = {"text": "x", "date": "2026-01-01", "photographs": [photograph()]}
    assert client.post(address, sent)["Location"].startswith("/sign-in/")
    client.force_login(viewer)
    assert client.post(address, sent | {"photographs": [photograph()]}).status_code == 403
    client.force_login(stranger)
    assert client.post(address, sent | {"photographs": [photograph()]}).status_code == 404
    assert fresh(row) == before
    assert not Picture.objects.exists()
    client.force_login(owner)
    seen = edit_form(client, "e1")["seen"][0]
    assert (
        client.post(
            address, {"text": "By the owner", "date": "2026-01-01", "seen": seen if "e1" in address else ""}
        ).status_code
        == 302
    )
    assert fresh(row) != before
