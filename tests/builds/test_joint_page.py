"""The page of a joint: its drawing, its findings with their mends, and everything that is decided about it."""

from __future__ import annotations

import re
from dataclasses import replace

import pytest
from django.db import connection
from django.test import Client
from django.test.utils import CaptureQueriesContext

from buildlog.builds.actions import begin_build, change_build, fingerprint
from buildlog.builds.joint_edits import read_stack, write_stack
from buildlog.builds.lookup import demonstration_build, demonstration_numbers
from buildlog.builds.models import Build, Change
from buildlog.builds.queries import plain_of
from buildlog.workshops.models import Person
from calculators.planning import model as plain
from calculators.planning.edits import find, put
from calculators.quantities import Length
from calculators.quantities.errors import InputError
from tests.builds.sending import sent_of

pytestmark = [pytest.mark.database, pytest.mark.shows, pytest.mark.usefixtures("for_a_reason")]
BUILD = "/workshops/thornbank-workshop/builds/TW-31/"
JOINTS = f"{BUILD}joints/"


def row() -> Build:
    return Build.rows.get(number="TW-31")


def joint(mark: str = "F03") -> plain.Joint:
    found: plain.Joint = find(plain_of(row()), "joint", mark)
    return found


def test_drawing_findings_stack_and_places_stand_on_one_page(client: Client, demonstration: Person) -> None:
    page = client.get(f"{JOINTS}F03/").content.decode()
    assert page.count('class="section" role="img"') == 2  # the broad drawing and the narrow one
    assert "The screw bottoms before it clamps: 21.2 mm of screw for 18.0 mm of thread" in page
    assert 'Use 1\u00a0<span class="fraction">3/4</span> in</button>' in page
    assert 'value="5/16 BSF x 2 in hex set screw steel zinc plated"' in page
    assert "P01, P11, P10" in page  # the stack on one line
    assert page.count("placed here") == 1
    assert "6.9" in page
    assert "tapping for" in page


def test_one_finding_alone_is_shown_in_red(client: Client, demonstration: Person) -> None:
    page = client.get(f"{JOINTS}F20/?see=thread-match:F20:P40").content.decode()
    assert "Red is: M5 screw, but P40 is 10-32 UNF" in page
    drawing = page[page.index("<svg") : page.index("</svg>")]
    assert "bottoms" not in drawing
    assert client.get(f"{JOINTS}F20/?see=%00&from=-1").status_code == 200


def test_the_fastener_is_saved_and_the_page_says_what_it_did(client: Client, demonstration: Person) -> None:
    line = "5/16 BSF x 1 3/4 in hex set screw steel zinc plated"
    answer = client.post(
        f"{JOINTS}F03/", {"fastener": line, "seen": fingerprint("joint", joint())}, follow=True
    )
    page = answer.content.decode()
    assert answer.redirect_chain == [(f"{JOINTS}F03/", 302)]
    assert f"F03: the fastener is now {line}. This change: 1 mended, 0 new." in page
    assert 'data-saved="TW-31/joints/F03/fastener"' in page
    assert joint().fastener == line
    again = client.post(f"{JOINTS}F03/", {"fastener": line}, follow=True).content.decode()
    assert "Nothing was changed: it is so already." in again


@pytest.mark.parametrize(
    "line",
    ["", "5/0 BSF x 2", "M5 nut", "13/16 XYZ x 9", "\x00", "M5 x 20 " + "x" * 400, "مسمار", "<b>M5</b>"],
)
def test_a_fastener_that_does_not_exist_is_refused_beside_its_field(
    line: str, client: Client, demonstration: Person
) -> None:
    answer = client.post(f"{JOINTS}F03/", {"fastener": line})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert 'aria-invalid="true"' in page
    assert re.search(r'<p class="fault">[A-Z“\'"][^<]{10,}', page) or "fault" in page
    assert joint().fastener == "5/16 BSF x 2 in hex set screw steel zinc plated"
    assert Change.objects.exclude(says__startswith="Read from").count() == 0


def test_another_thread_brings_its_washers_and_nuts(client: Client, demonstration: Person) -> None:
    client.post(f"{JOINTS}F18/", {"fastener": "M6 x 40 socket cap steel zinc plated"})
    assert [member.item for member in joint("F18").stack if "nut" in member.item] == ["M6 nut"]


def test_the_stack_is_written_on_one_line_and_keeps_what_was_decided(
    client: Client, demonstration: Person
) -> None:
    before = joint("F18")
    line = "P38, P01, M5 repair washer 25 x 1.5 zinc plated, M5 nut"
    client.post(f"{JOINTS}F18/", {"stack": line, "seen": fingerprint("joint", before)})
    assert [member.part or member.item for member in joint("F18").stack] == line.split(", ")
    assert joint("F18").stack[0] == before.stack[0]
    answer = client.post(f"{JOINTS}F18/", {"stack": "P38, P99, M5 nut"})
    assert answer.status_code == 422
    assert 'value="P38, P99, M5 nut"' in answer.content.decode()
    assert "P99" in answer.content.decode().split('class="fault"')[1]


@pytest.mark.parametrize("number", demonstration_numbers())
def test_every_stack_is_read_back_from_its_line(number: str) -> None:
    build = demonstration_build(number)
    for one in build.joints:
        assert read_stack(write_stack(one.stack, build.unit), build, one) == one.stack, one.mark


def test_stacks_by_name_with_thicknesses() -> None:
    parts = (plain.Component("P1", "Plate"), plain.Component("P2", "Lid rail"))
    build = plain.Build("B1", "Box", components=parts)
    stack = read_stack("plate 2, lid rail 7/8 in; M5 nut", build, plain.Joint("F1", "", "M5 x 40 hex"))
    assert [(m.part, m.item, m.thickness.mm if m.thickness else None) for m in stack] == [
        ("P1", "", 2.0), ("P2", "", 22.225), ("", "M5 nut", None),
    ]  # fmt: skip
    with pytest.raises(InputError, match="There is no part called"):
        read_stack("M5 x 20 csk", build, plain.Joint("F1", "", ""))
    with pytest.raises(InputError, match="at most 50"):
        read_stack("P1," * 51, build, plain.Joint("F1", "", ""))


def test_everything_decided_is_changed_in_one_form(client: Client, demonstration: Person) -> None:
    address = f"{JOINTS}F03/change/"
    sent = sent_of(client.get(address).content.decode(), address)
    assert sent["title"] == "Pillar to base, from below"
    assert sent["clamps"] == "on"
    sent |= {
        "mark": "F30", "title": "Pillar", "seat": "surface", "head_diameter": "1/2 in", "head_height": "5,5",
        "head_angle_deg": "", "reached_from": "above", "tool": "13 mm spanner", "torque_nm": "7,5", "lock": "none",
        "steel_first": "on", "wet": "on", "loaded_sideways": "on", "stands": "-2", "count": "2",
        "count_reason": "one to spare", "supplier": "the shop", "note": "It's “so”:\n<b>two</b> lines", "fixed_place": "1",
    }  # fmt: skip
    answer = client.post(address, sent, follow=True)
    assert answer.redirect_chain == [(f"{JOINTS}F30/", 302)]
    one = joint("F30")
    assert (one.title, one.seat, one.lock, one.count, one.count_reason) == (
        "Pillar",
        "surface",
        "none",
        2,
        "one to spare",
    )
    assert one.head_diameter is not None
    assert one.head_diameter.written == "1/2 in"
    assert one.head_height is not None
    assert one.head_height.mm == 5.5
    assert str(one.torque_nm) == "7.5"
    assert one.stands is not None
    assert one.stands.mm == -2
    assert one.steel_first
    assert one.wet
    assert one.loaded_sideways
    assert one.clamps
    assert one.note.replace("\r\n", "\n") == "It's “so”:\n<b>two</b> lines"
    assert any("F30" in step.fits for step in plain_of(row()).steps)


NONSENSE = {
    "mark": ("", "F 03", "P01", "x" * 30), "title": ("x" * 201,), "fastener": ("", "1/0 BSF"),
    "seat": ("sideways",), "head_diameter": ("1/0", "-3", "wide"), "head_height": ("nan", "1e999"),
    "head_angle_deg": ("0", "200", "flat", "1/0"), "torque_nm": ("-1", "tight", "9" * 50), "stands": ("up",),
    "count": ("-1", "two", "1.5", "9" * 30), "fixed_place": ("x" * 41,), "note": ("x" * 20_001,),
}  # fmt: skip


@pytest.mark.parametrize(("name", "value"), [(name, value) for name in NONSENSE for value in NONSENSE[name]])
def test_nonsense_gets_a_sentence_beside_its_field_and_nothing_typed_is_lost(
    name: str, value: str, client: Client, demonstration: Person
) -> None:
    address = f"{JOINTS}F03/change/"
    sent = sent_of(client.get(address).content.decode(), address)
    sent |= {"lock": "typed & kept", name: value}
    answer = client.post(address, sent)
    page = answer.content.decode()
    assert answer.status_code == 422
    assert f'id="id_{name}_error"' in page or f'href="#id_{name}"' in page
    assert "typed &amp; kept" in page
    assert joint().lock == ""


def test_a_typed_count_wants_its_reason(client: Client, demonstration: Person) -> None:
    address = f"{JOINTS}F03/change/"
    sent = sent_of(client.get(address).content.decode(), address) | {"count": "3"}
    assert "Say why the count is not places times copies." in client.post(address, sent).content.decode()


def test_two_tabs_change_one_joint_and_the_second_sees_both(client: Client, demonstration: Person) -> None:
    address = f"{JOINTS}F03/change/"
    first = sent_of(client.get(address).content.decode(), address)
    second = dict(first)
    assert client.post(address, first | {"lock": "low-strength threadlocker"}).status_code == 302
    answer = client.post(address, second | {"lock": "split pin", "tool": "ring spanner"})
    page = answer.content.decode()
    assert answer.status_code == 422
    assert "F03 was changed by Ines Hallam while you had it open. Nothing of yours is saved yet." in page
    conflict = page[page.index('class="conflict"') :]
    assert "low-strength threadlocker" in conflict
    assert 'value="split pin"' in conflict
    assert 'aria-label="Your Lock"' in conflict
    assert joint().lock == "low-strength threadlocker"
    mine = sent_of(page, address) | {"conflict": "mine"}
    assert client.post(address, mine).status_code == 302
    assert (joint().lock, joint().tool) == ("split pin", "ring spanner")


def test_a_joint_that_somebody_removed_meanwhile(client: Client, demonstration: Person) -> None:
    client.post(f"{JOINTS}F03/remove/")
    for address in ("F03/", "F03/change/", "F03/places/", "F03/stack/0/", "F03/others/"):
        assert client.get(JOINTS + address).status_code == 404, address
    assert client.post(f"{JOINTS}F03/", {"fastener": "M5 x 20 csk"}).status_code == 404


def test_a_viewer_sees_the_joint_without_a_form(client: Client, demonstration: Person) -> None:
    client.force_login(Person.objects.get(username="visitor"))
    page = client.get(f"{JOINTS}F03/").content.decode()
    main = page[page.index("<main") : page.index("</main>")]
    assert "<form" not in main
    assert "Use <span" in main  # the mend is told, not offered
    for address in (
        "F03/",
        "F03/change/",
        "F03/places/",
        "F03/stack/0/",
        "F03/stack/",
        "F03/copy/",
        "F03/remove/",
    ):
        assert client.post(JOINTS + address, {}).status_code == 403, address
    assert client.put(f"{JOINTS}F03/").status_code == 403


def test_other_methods_and_strangers(client: Client, demonstration: Person) -> None:
    assert client.put(f"{JOINTS}F03/").status_code == 405
    assert client.get(f"{JOINTS}F03/copy/").status_code == 405
    client.force_login(Person.objects.create(username="stranger"))
    assert client.get(f"{JOINTS}F03/").status_code == 404


def test_a_joint_of_many_places_asks_the_database_no_more_often(
    client: Client, demonstration: Person
) -> None:
    def asked() -> int:
        client.get(f"{JOINTS}F02/")
        with CaptureQueriesContext(connection) as queries:
            assert client.get(f"{JOINTS}F02/").status_code == 200
        return len(queries)

    few = asked()
    many = tuple(
        plain.Place(str(n), Length(50_000_000 + n * 100_000), Length(90_000_000)) for n in range(300)
    )
    changed = replace(joint("F02"), places=many)
    change_build(row(), demonstration, lambda b: put(b, "joint", changed, key="F02"), "many places")
    assert asked() == few
    assert "more lines are on the" in client.get(f"{JOINTS}F02/").content.decode()


def test_a_joint_that_cannot_be_worked_out_yet_says_what_is_missing_and_can_be_finished(
    client: Client, demonstration: Person
) -> None:
    parts = (plain.Component("P1", "Plate"), plain.Component("P2", "Rail"))
    joints = (
        plain.Joint(
            "F1", "Plate to rail", "M5 x 20 csk", stack=tuple(plain.StackMember(m) for m in ("P1", "P2"))
        ),
    )
    build = plain.Build("B8", "Sketch", components=parts, joints=joints)
    begin_build(demonstration.workshops.get(), demonstration, build, "Begun")
    address = "/workshops/thornbank-workshop/builds/B8/joints/F1/"
    page = client.get(address).content.decode()
    assert "Unchecked" in page
    assert "There is no drawing while the joint cannot be worked out." in page
    assert f'href="{address}stack/1/"' in page
    assert client.get(f"{address}?try=M5 x 25 csk").status_code == 200
    client.post(address, {"stack": "P1 3, P2 12"})
    assert client.get(address).content.decode().count('class="section" role="img"') == 2


def test_places_that_go_through_different_parts_are_shown_a_few_at_a_time(
    client: Client, demonstration: Person
) -> None:
    """A strip on six blocks of different thickness: each place has a stack, and so a drawing, of its own."""

    def mm(value: float) -> Length:
        return Length(round(value * 10**7))

    def block(mark: str, length: float, thickness: float, pose: plain.Pose) -> plain.Component:
        size = plain.Size("block", mm(length), mm(40), mm(thickness))
        return plain.Component(mark, "Block", material="oak", size=size, poses=(pose,))

    on = [plain.Pose(on="P0", u=mm(100 * at), v=mm(0)) for at in range(6)]
    parts = [
        block("P0", 600, 6, plain.Pose()),
        *(block(f"P{at + 1}", 80, 30 + at, pose) for at, pose in enumerate(on)),
    ]
    places = tuple(plain.Place(str(at + 1), mm(100 * at + 40), mm(20)) for at in range(6))
    one = plain.Joint("F1", "Strip", "No. 8 x 1 csk steel", "P0", "bottom", places)
    build = plain.Build("B8", "Strip", components=tuple(parts), joints=(one,))
    begin_build(demonstration.workshops.get(), demonstration, build, "Begun")
    address = "/workshops/thornbank-workshop/builds/B8/joints/F1/"
    page = client.get(address).content.decode()
    assert page.count('class="section" role="img"') == 8
    assert "Places 1: 1 off" in page
    assert '<a href="?from=4">5 to 6</a>' in page
    page = client.get(f"{address}?from=4").content.decode()
    assert page.count('class="section" role="img"') == 4
    assert "Places 6: 1 off" in page
    assert 'href="' + address + 'stack/0/?part=P0"' in page  # no part is named yet: deciding names it
    stack = f"{address}stack/0/"
    sent = sent_of(client.get(f"{stack}?part=P0").content.decode(), stack) | {"fit": "free"}
    assert "go through different parts" in client.post(stack, sent).content.decode()
    for hostile in ("99", "-1", "x", "²", "9" * 50):
        assert (
            client.get(address, {"from": hostile}).content.decode().count('class="section" role="img"') == 8
        )
